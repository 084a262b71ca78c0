"""Speed of the main job, as ratios measured side by side in one run: python benchmarks/main_job.py"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from firnstead.core.memo import Memo
from firnstead.pipeline import assess
from firnstead.reports.report import write_report
from firnstead.station import StationFile, read_station

FULL = Path(__file__).resolve().parent.parent / "examples" / "stations" / "full"
BARE = "import numpy, scipy.optimize, scipy.sparse.linalg"


def seconds(work: Callable[[], object]) -> float:
    """Wall time of one call."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def process(*words: str) -> None:
    """Run a fresh interpreter."""
    subprocess.run([sys.executable, *words], stdout=subprocess.DEVNULL, check=True)


def cold_check(rounds: int = 7) -> None:
    """`firnstead check` of the full station against a bare interpreter with numpy and scipy, taken in turns."""
    bare, ours = [], []
    for _ in range(rounds):
        bare.append(seconds(lambda: process("-c", BARE)))
        ours.append(seconds(lambda: process("-m", "firnstead", "check", str(FULL))))
    b, o = statistics.median(bare), statistics.median(ours)
    print(f"check, cold process: {o:.2f} s against {b:.2f} s bare: ratio {o / b:.2f} (goal 3)")


def changed(file: StationFile, step: int) -> StationFile:
    """The station with one trench made a little longer."""
    trench = file.station.trenches["North 2"]
    longer = trench.model_copy(update={"length": 30.0 + 0.01 * step})
    trenches = {**file.station.trenches, "North 2": longer}
    return StationFile(file.path, file.text, file.station.model_copy(update={"trenches": trenches}), f"{step:064d}")


def warm_edit(rounds: int = 15) -> None:
    """Assessment after an edit of one trench in a warm process against a whole assessment, taken in turns."""
    file, memo = read_station(FULL), Memo()
    assess(file, memo)
    whole, edit = [], []
    for step in range(rounds):
        whole.append(seconds(lambda: assess(file, Memo())))
        edit.append(seconds(lambda step=step: assess(changed(file, step), memo)))  # type: ignore[misc]
    w, e = statistics.median(whole), statistics.median(edit)
    print(
        f"one trench changed: {1000 * e:.0f} ms against {1000 * w:.0f} ms whole: ratio {e / w:.2f} (goals 50 ms, 0.1)"
    )


def report() -> None:
    """Everything that `firnstead report` writes, against the assessment it is made from."""
    file = read_station(FULL)
    a = seconds(lambda: assess(file))
    made = assess(file)
    with tempfile.TemporaryDirectory() as folder:
        r = seconds(lambda: write_report(made, Path(folder) / "out"))
    print(f"report of the full station: {r:.1f} s, {r / a:.0f} times its assessment (goal under 20 s)")


if __name__ == "__main__":
    cold_check()
    warm_edit()
    report()
