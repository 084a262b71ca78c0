"""Speed of escape, as ratios measured side by side in one run: python benchmarks/escape.py

The peer works every blocking out from scratch with a general graph library: the spot is taken out of a copy of the
network and the distances to the nearest exit are found anew. Both give the same distances, which is looked at first.
"""

from __future__ import annotations

import math
import statistics
import time
from collections.abc import Callable
from pathlib import Path

import networkx as nx

from firnstead.escape import siting, study
from firnstead.escape._blocking import Blocker
from firnstead.escape._case import Case
from firnstead.escape.study_case import case_of
from firnstead.station import read_station

FULL = Path(__file__).resolve().parent.parent / "examples" / "stations" / "full"


def seconds(work: Callable[[], object]) -> float:
    """Wall time of one call."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def network(case: Case) -> nx.Graph:
    """The walking network for the library."""
    g = nx.Graph()
    for i, row in enumerate(case.graph.edges):
        g.add_weighted_edges_from((i, j, length) for j, length, _ in row)
    return g


def from_scratch(case: Case, g: nx.Graph) -> list[dict[int, float]]:
    """Distances to the nearest exit with every spot blocked in turn, each found anew."""
    outside = {e.outside for e in case.exits}
    found = []
    for block in Blocker(case).blocks:
        left = g.copy()
        left.remove_nodes_from(block.removed)
        found.append(nx.multi_source_dijkstra_path_length(left, outside, weight="weight"))
    return found


def agree(case: Case, theirs: list[dict[int, float]]) -> bool:
    """Whether both give the same distances everywhere."""
    for block, row in zip(Blocker(case).blocks, theirs, strict=True):
        ours = case.open.without(block.removed).distance
        if not all(math.isclose(ours[i], row.get(i, math.inf)) for i in range(len(ours)) if i not in block.removed):
            return False
    return True


def main(rounds: int = 7) -> None:
    """Print every ratio."""
    station = read_station(FULL).station
    part = station.escape
    assert part is not None
    case = case_of(station, part)
    g = network(case)
    assert agree(case, from_scratch(case, g))
    ours, theirs = [], []
    for _ in range(rounds):  # in turns, medians of both: other work on the machine slows both
        ours.append(seconds(lambda: Blocker(case_of(station, part)).single()))
        theirs.append(seconds(lambda: from_scratch(case, g)))
    a, b = statistics.median(ours), statistics.median(theirs)
    count = len(Blocker(case).blocks)
    print(f"{count} single blockings of {len(case.spots)} nodes: {1e3 * a:.1f} ms (network and all), from scratch "
          f"{1e3 * b:.0f} ms: {b / a:.0f} times faster (goal 10; under 1 s)")  # fmt: skip
    pairs = statistics.median(seconds(lambda: Blocker(case).pairs()) for _ in range(3))
    print(f"{count * (count - 1) // 2} pairs: {pairs:.2f} s (goal under 20 s)")
    whole = statistics.median(seconds(lambda: study(station)) for _ in range(rounds))
    print(f"whole study, times by both models with every spot blocked: {1e3 * whole:.0f} ms")
    close = part.model_copy(update={"siting": part.siting.model_copy(update={"spacing": 1.45})})
    start = time.perf_counter()
    found = siting(station.model_copy(update={"escape": close}))
    print(f"siting among {found.candidates} spots: {found.count} hatches, no fewer than {found.bound} possible, proven "
          f"{found.proven}: {time.perf_counter() - start:.0f} s (goal under 60 s for 500)")  # fmt: skip


if __name__ == "__main__":
    main()
