"""The greatest flow through a small network, and the least time in which a crowd can clear a set of exits."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Sequence
from math import floor, inf, isfinite


def greatest_flow(nodes: int, arcs: Iterable[tuple[int, int, int]], source: int, sink: int) -> int:
    """Whole persons that pass from source to sink through arcs (from, to, capacity), shortest paths first."""
    to: list[int] = []
    room: list[int] = []
    out: list[list[int]] = [[] for _ in range(nodes)]
    for a, b, capacity in arcs:
        out[a].append(len(to))
        out[b].append(len(to) + 1)
        to += [b, a]
        room += [capacity, 0]
    total = 0
    while True:
        came = [-1] * nodes
        came[source] = -2
        queue = deque([source])
        while queue and came[sink] == -1:
            node = queue.popleft()
            for arc in out[node]:
                if room[arc] > 0 and came[to[arc]] == -1:
                    came[to[arc]] = arc
                    queue.append(to[arc])
        if came[sink] == -1:
            return total
        path = []
        node = sink
        while node != source:
            path.append(came[node])
            node = to[came[node] ^ 1]
        pushed = min(room[arc] for arc in path)
        for arc in path:
            room[arc] -= pushed
            room[arc ^ 1] += pushed
        total += pushed


def least_clearing_time(people: Sequence[int], walks: Sequence[Sequence[float]], rates: Sequence[float]) -> float:
    """Least time in which groups can be out, however they are shared among the exits.

    By a time T an exit passes no more than 1 + rate (T - shortest walk to it), and only groups that reach it by then.
    Halved until it is known to a second; infinite where somebody has no exit, or none whose rate is known.
    """
    total = sum(people)
    if total == 0:
        return 0.0
    known = [j for j, rate in enumerate(rates) if rate == rate and rate > 0]
    nearest = {j: min((row[j] for row in walks), default=inf) for j in known}

    def out_by(time: float) -> bool:
        n, m = len(people), len(known)
        arcs = [(0, 1 + i, count) for i, count in enumerate(people)]
        for c, j in enumerate(known):
            if time >= nearest[j]:
                arcs.append((1 + n + c, 1 + n + m, 1 + floor(rates[j] * (time - nearest[j]) + 1e-9)))
            arcs += [(1 + i, 1 + n + c, people[i]) for i in range(n) if walks[i][j] <= time]
        return greatest_flow(n + m + 2, arcs, 0, 1 + n + m) == total

    low, high = 0.0, max((min((row[j] for j in known), default=inf) for row in walks), default=inf)
    if not isfinite(high):
        return inf
    while not out_by(high):
        low, high = high, 2 * high + 60.0
    while high - low > 1.0:
        middle = (low + high) / 2
        low, high = (low, middle) if out_by(middle) else (middle, high)
    return high
