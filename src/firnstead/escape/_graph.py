"""Shortest ways to the exits of a network, and what changes when spots are blocked.

A forest of shortest ways is grown once from all exits. Blocking a spot changes only what hangs behind it: that part is
cut off and grown again from the edge of what is still sound, so a blocking costs as much as the part that it touches.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from math import inf

Edge = tuple[int, float, int]  # neighbour, length, number of the way


@dataclass(frozen=True, eq=False)
class Graph:
    """A network: for every node its neighbours with length and number of the way."""

    edges: tuple[tuple[Edge, ...], ...]

    @classmethod
    def of(cls, nodes: int, ways: Iterable[tuple[int, int, float]], skip: frozenset[int] = frozenset()) -> Graph:
        """Build it from (a, b, length) rows; rows whose number is in `skip` are left out."""
        edges: list[list[Edge]] = [[] for _ in range(nodes)]
        for number, (a, b, length) in enumerate(ways):
            if number not in skip:
                edges[a].append((b, length, number))
                edges[b].append((a, length, number))
        return cls(tuple(tuple(row) for row in edges))

    def forest(self, exits: Sequence[int], removed: frozenset[int] = frozenset()) -> Forest:
        """Shortest ways from every node to the nearest exit."""
        n = len(self.edges)
        found = Forest(self, [inf] * n, [-1] * n, [-1] * n, [[] for _ in range(n)], removed)
        found.grow([(0.0, e, -1, -1) for e in exits if e not in removed])
        return found

    def within(self, start: int, reach: float, removed: frozenset[int] = frozenset()) -> dict[int, float]:
        """Distances from a node to all nodes within `reach`."""
        done: dict[int, float] = {}
        queue = [(0.0, start)]
        while queue:
            d, node = heappop(queue)
            if node in done or node in removed:
                continue
            done[node] = d
            for other, length, _ in self.edges[node]:
                if other not in done and d + length <= reach:
                    heappush(queue, (d + length, other))
        return done

    def two_ways(self, exits: Sequence[int]) -> set[int]:
        """Nodes from which two separate ways lead to two exits: those that share a block with a sink beyond all exits.

        Blocks (parts that no single node cuts) are found by one walk through the network from that sink.
        """
        n = len(self.edges)
        sink = n
        near: list[list[int]] = [[other for other, _, _ in row] for row in self.edges]
        near.append(list(exits))
        for e in exits:
            near[e].append(sink)
        order, low = [-1] * (n + 1), [0] * (n + 1)
        clock, found = 1, set[int]()
        order[sink] = low[sink] = 0
        path: list[tuple[int, int, int]] = [(sink, -1, 0)]
        seen: list[int] = [sink]
        while path:
            node, parent, i = path.pop()
            if i < len(near[node]):
                path.append((node, parent, i + 1))
                other = near[node][i]
                if order[other] < 0:
                    order[other] = low[other] = clock
                    clock += 1
                    path.append((other, node, 0))
                    seen.append(other)
                elif other != parent:
                    low[node] = min(low[node], order[other])
                continue
            if parent < 0:
                break
            low[parent] = min(low[parent], low[node])
            if low[node] >= order[parent]:  # everything seen since `node` is one block with `parent`
                block = []
                while True:
                    block.append(seen.pop())
                    if block[-1] == node:
                        break
                if parent == sink and len(block) > 1:
                    found.update(block)
        return found


@dataclass(eq=False)
class Forest:
    """Shortest ways: distance to the exit, next node and way toward it, and what hangs behind each node."""

    graph: Graph
    distance: list[float]
    next: list[int]
    way: list[int]
    behind: list[list[int]]
    removed: frozenset[int]

    def grow(self, queue: list[tuple[float, int, int, int]]) -> None:
        """Grow from rows of (distance, node, next node, way); nodes that have a distance already are left alone."""
        distance, edges, removed = self.distance, self.graph.edges, self.removed
        queue = sorted(queue)
        while queue:
            d, node, after, way = heappop(queue)
            if distance[node] < inf:
                continue
            distance[node], self.next[node], self.way[node] = d, after, way
            if after >= 0:
                self.behind[after].append(node)
            for other, length, number in edges[node]:
                if distance[other] == inf and other not in removed:
                    heappush(queue, (d + length, other, node, number))

    def copy(self) -> Forest:
        """One that can be changed."""
        return Forest(
            self.graph, self.distance[:], self.next[:], self.way[:], [b[:] for b in self.behind], self.removed
        )

    def hanging(self, nodes: Iterable[int]) -> list[int]:
        """The nodes given and everything behind them."""
        found = list(dict.fromkeys(nodes))
        known = set(found)
        for node in found:
            for child in self.behind[node]:
                if child not in known:
                    known.add(child)
                    found.append(child)
        return found

    def changes(self, removed: frozenset[int]) -> dict[int, tuple[float, int, int]]:
        """New (distance, next, way) of every node that loses its way when more nodes are taken out; those included."""
        gone = self.removed | removed
        loose = set(self.hanging(removed))
        found: dict[int, tuple[float, int, int]] = dict.fromkeys(loose, (inf, -1, -1))
        distance, edges = self.distance, self.graph.edges
        queue: list[tuple[float, int, int, int]] = []
        for node in loose:
            if node in gone:
                continue
            for other, length, number in edges[node]:
                if other not in loose and other not in gone and distance[other] < inf:
                    queue.append((distance[other] + length, node, other, number))
        queue.sort()
        while queue:
            d, node, after, way = heappop(queue)
            if found[node][0] < inf:
                continue
            found[node] = (d, after, way)
            for other, length, number in edges[node]:
                if other in loose and other not in gone and found[other][0] == inf:
                    heappush(queue, (d + length, other, node, number))
        return found

    def without(self, removed: frozenset[int]) -> Forest:
        """The forest with more nodes taken out."""
        new = self.copy()
        changed = self.changes(removed)
        new.removed = self.removed | removed
        for node in changed:
            if self.next[node] >= 0:
                new.behind[self.next[node]].remove(node)
        for node, (d, after, way) in changed.items():
            new.distance[node], new.next[node], new.way[node] = d, after, way
            if after >= 0:
                new.behind[after].append(node)
        return new

    def route(self, node: int) -> list[int]:
        """Nodes from here to the exit; empty where there is no way."""
        if self.distance[node] == inf:
            return []
        found = [node]
        while self.next[found[-1]] >= 0:
            found.append(self.next[found[-1]])
        return found

    def end(self, node: int) -> int:
        """The exit that a node's way leads to; -1 where there is no way."""
        if self.distance[node] == inf:
            return -1
        while self.next[node] >= 0:
            node = self.next[node]
        return node
