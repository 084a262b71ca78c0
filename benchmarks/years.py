"""The years of the full example station, cold and warm, as ratios in one run: python benchmarks/years.py

Cold: every distinct section marched (all doubts, both roofs, all changes). Warm: the same station with the years kept,
in the same process and in a new one; the new one beside an interpreter that only imports numpy and scipy.sparse.
"""

from __future__ import annotations

import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from firnstead.pipeline import assess
from firnstead.pipeline.kept import FOLDER, beside
from firnstead.pipeline.years import work_out_years
from firnstead.station import read_station

FULL = Path(__file__).resolve().parent.parent / "examples" / "stations" / "full"


def seconds(*words: str) -> float:
    """Shortest of three runs of a command."""
    spent = []
    for _ in range(3):
        start = time.perf_counter()
        subprocess.run([sys.executable, *words], check=False, capture_output=True)
        spent.append(time.perf_counter() - start)
    return min(spent)


def main() -> None:
    """Print the times and their ratios."""
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(shutil.copytree(FULL, Path(scratch) / "full", ignore=shutil.ignore_patterns(FOLDER)))
        file = read_station(folder)
        start = time.perf_counter()
        done = work_out_years(file, beside(folder))
        cold = time.perf_counter() - start
        start = time.perf_counter()
        assess(file, kept=beside(folder))
        warm = time.perf_counter() - start
        whole = seconds("-m", "firnstead", "check", str(folder))
        bare = seconds("-c", "import numpy, scipy.sparse")
    print(f"{len(file.station.places)} places, {done.sections} distinct sections, {done.marched} marches")
    print(f"cold {cold:.0f} s (goal 180), {cold / done.marched:.2f} s a march")
    print(f"warm, same process: whole assessment {warm:.2f} s (goal 1): 1/{cold / warm:.0f} of cold")
    print(f"warm, new process: check {whole:.2f} s against a bare interpreter {bare:.2f} s: ratio {whole / bare:.1f}")
    print(f"peak memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 2**20:.2f} GiB (goal 1.5)")


if __name__ == "__main__":
    main()
