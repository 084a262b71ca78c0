"""Speed of the power study, as ratios measured side by side in one run: python benchmarks/power.py

The feeder sweep of the full example (every board, the 288 hours of a year) against an independent compiled power-flow
library that is given the same net and hours as one batch, and against a general solver of the power balance, which is
timed on hours spread over the year and counted up. The whole study is set against its own sweep, which is the least
that it could cost.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
from power_grid_model import ComponentType, LoadGenType, PowerGridModel, initialize_array
from scipy.optimize import root

from firnstead.core.memo import Memo
from firnstead.power import study
from firnstead.power.numbers import numbers_of
from firnstead.power.study_case import case_of
from firnstead.power.sweep import sweep
from firnstead.station import read_station

FULL = Path(__file__).resolve().parent.parent / "examples" / "stations" / "full"
GOAL = 0.3  # s, the whole study of the full station


def timed(work: Callable[[], Any], times: int = 7) -> float:
    """Median time of a piece of work [s]."""
    work()
    found = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return statistics.median(found)


def library(parents: tuple[int, ...], z: Any, power: Any, voltage: float) -> Callable[[], Any]:
    """The same net and hours for the compiled library."""
    count = len(parents)
    node = initialize_array("input", "node", count)
    node["id"], node["u_rated"] = np.arange(count), voltage
    line = initialize_array("input", "line", count - 1)
    line["id"], line["from_node"] = np.arange(count, 2 * count - 1), parents[1:]
    line["to_node"], line["from_status"], line["to_status"] = np.arange(1, count), 1, 1
    line["r1"], line["x1"], line["c1"], line["tan1"], line["i_n"] = z[1:].real, z[1:].imag, 0.0, 0.0, 1e3
    source = initialize_array("input", "source", 1)
    source["id"], source["node"], source["status"], source["u_ref"], source["sk"] = 3 * count, 0, 1, 1.0, 1e20
    load = initialize_array("input", "sym_load", count)
    load["id"], load["node"], load["status"] = np.arange(4 * count, 5 * count), np.arange(count), 1
    load["type"] = LoadGenType.const_power
    load["p_specified"], load["q_specified"] = power[:, 0].real, power[:, 0].imag
    model = PowerGridModel({ComponentType.node: node, ComponentType.line: line, ComponentType.source: source,
                            ComponentType.sym_load: load})  # fmt: skip
    batch = initialize_array("update", "sym_load", (power.shape[1], count))
    batch["id"] = load["id"]
    batch["p_specified"], batch["q_specified"] = power.T.real, power.T.imag
    return lambda: model.calculate_power_flow(
        update_data={ComponentType.sym_load: batch}, error_tolerance=1e-12, threading=-1
    )


def general(parents: tuple[int, ...], z: Any, power: Any, voltage: float) -> Callable[[], Any]:
    """The balance at every board of one hour for a general solver."""
    count = len(parents)

    def balance(x: Any) -> Any:
        v = np.concatenate(([voltage], x[: count - 1] + 1j * x[count - 1 :]))
        flow = np.zeros(count, dtype=complex)
        flow[1:] = (v[list(parents[1:])] - v[1:]) / z[1:]
        rest = flow - np.conj(power / v)
        for board in range(count - 1, 0, -1):
            rest[parents[board]] -= flow[board]
        return np.concatenate((rest[1:].real, rest[1:].imag))

    first = np.concatenate((np.full(count - 1, voltage), np.zeros(count - 1)))
    return lambda: root(balance, first, tol=1e-10)


def main() -> None:
    """Measure and print."""
    station = read_station(FULL).station
    assert station.power is not None
    numbers = numbers_of(case_of(station, station.power, None, None))
    net = numbers.normal
    z = np.array([0 if f is None else f.impedance for f in net.fed_by], dtype=complex)
    power = np.zeros((len(net.boards), 288), dtype=complex)
    for load, row in zip(numbers.case.loads, numbers.demand, strict=True):
        power[net.boards.index(load.board)] += row * (1 + 1j * np.sqrt(1 / load.power_factor**2 - 1))
    voltage = numbers.case.voltage
    ours = timed(lambda: sweep(net.parents, z, power, voltage))
    theirs = library(net.parents, z, power, voltage)
    compiled = timed(theirs)
    apart = np.max(np.abs(np.abs(net.flow.voltage.T) - theirs()[ComponentType.node]["u"])) / voltage
    hours = range(0, 288, 36)
    plain = 288 * statistics.median([timed(general(net.parents, z, power[:, h], voltage), 3) for h in hours])
    whole = timed(lambda: study(station))
    memo = Memo()
    again = timed(lambda: study(station, memo))
    print(f"feeder sweep, {len(net.boards)} boards, 288 hours: {ours * 1e3:.2f} ms, {net.flow.rounds} rounds")
    print(f"  compiled library, one batch: {compiled * 1e3:.2f} ms, ours/theirs {ours / compiled:.2f}; "
          f"voltages apart by {apart:.1e}")  # fmt: skip
    print(f"  general solver: {plain * 1e3:.0f} ms, ours/theirs {ours / plain:.4f}")
    print(f"whole study: {whole * 1e3:.1f} ms (goal {GOAL * 1e3:.0f} ms), {whole / ours:.1f} times its sweep")
    print(f"asked again with a memo: {again * 1e3:.1f} ms, {again / whole:.2f} of it")


if __name__ == "__main__":
    main()
