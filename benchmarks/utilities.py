"""Heat, pipes, water and power of the full example station as one balance: python benchmarks/utilities.py

Cold and with one building changed, as a ratio in one run. How each discipline compares with a general solver is in
benchmarks/{pipes,well,power}.py and tests/verification/test_heat_*.py.
"""

from __future__ import annotations

import time
from pathlib import Path

from firnstead import snow
from firnstead.core.memo import Memo
from firnstead.pipeline.utilities import utilities
from firnstead.station import read_station

FULL = Path(__file__).resolve().parent.parent / "examples" / "stations" / "full"


def main() -> None:
    """Print the times and their ratio."""
    station = read_station(FULL).station
    found = snow.study(station).result
    utilities(station, found, Memo())  # imports are paid once
    cold, edit = [], []
    for people in (4, 3, 2):
        memo = Memo()
        start = time.perf_counter()
        made = utilities(station, found, memo)
        cold.append(time.perf_counter() - start)
        hut = station.buildings["Hut 1"].model_copy(update={"people": people})
        changed = station.model_copy(update={"buildings": {**station.buildings, "Hut 1": hut}})
        start = time.perf_counter()
        utilities(changed, found, memo)
        edit.append(time.perf_counter() - start)
    print(f"{made.rounds} rounds, last moved {made.moved_air:.4f} K and {100 * made.moved_power:.3f} % of the load")
    print(f"coupled year, cold: {min(cold):.2f} s (goal 5)")
    print(f"one building changed: {1e3 * min(edit):.0f} ms (goal 300): {min(edit) / min(cold):.2f} of cold")


if __name__ == "__main__":
    main()
