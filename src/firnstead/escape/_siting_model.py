"""The rows of hatch siting: for every blocked spot and everybody not at it, the hatches that still serve them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from firnstead.escape._case import Case
from firnstead.escape.cover import Row

Array = np.ndarray
REACH = 1e6  # m: no limit
TOUCH = 1e-6  # m: two lengths nearer than this are the same


@dataclass(frozen=True)
class Candidate:
    """A spot where a hatch may stand: node of the walking line, place, distance along it, climb."""

    node: int
    place: str
    at: float
    x: float
    y: float
    climb: float
    present: str
    """Name of the hatch that stands there already; empty: none."""


@dataclass(frozen=True)
class Need:
    """Whom a row is about, and what is blocked; empty: nothing."""

    who: str
    place: str
    blocked: str


class Model:
    """All rows of one station without its hatches; portals are there and count."""

    def __init__(
        self, case: Case, candidates: tuple[Candidate, ...], open_limit: float | None, blocked_limit: float | None
    ) -> None:
        self.case, self.candidates = case, candidates
        self.open_limit = REACH if open_limit is None else open_limit
        self.blocked_limit = REACH if blocked_limit is None else blocked_limit
        self.rows: list[Row] = []
        self.needs: dict[Row, Need] = {}

    @cached_property
    def _matrix(self) -> Any:
        from scipy.sparse import csr_matrix

        n = len(self.case.spots)
        # a length of 0 would be no way at all; of two ways between the same nodes the shorter counts
        rows = [(i, j, max(d, 1e-9)) for i, row in enumerate(self.case.graph.edges) for j, d, _ in row]
        a, b, length = zip(*rows, strict=True)
        order = np.lexsort((length, b, a))
        pairs = np.array([a, b]).T[order]
        first = np.ones(len(order), bool)
        first[1:] = (pairs[1:] != pairs[:-1]).any(axis=1)
        return csr_matrix((np.array(length)[order][first], (pairs[first, 0], pairs[first, 1])), shape=(n, n))

    def build(self, progress: Callable[[str, float], None] | None) -> list[Row]:
        """All rows: open, every spot blocked, every hatch that is taken blocked together with those near it."""
        from scipy.sparse.csgraph import dijkstra

        case = self.case
        self._exits = [e.outside for e in case.exits]
        self._feet = [e.foot for e in case.exits]
        self._spots = np.array([c.node for c in self.candidates], dtype=int)
        self._climbs = np.array([c.climb for c in self.candidates])
        self._all = dijkstra(self._matrix, directed=False)
        stands = [i for i in range(len(case.spots)) if case.stands(i)]
        self._note("", self._ends(self._all[stands]) <= self.open_limit, stands, -1)
        points = [i for i, s in enumerate(case.spots) if s.kind in ("point", "junction")]
        at = {c.node: j for j, c in enumerate(self.candidates)}
        for k, v in enumerate(points):
            self._block(v, at.get(v, -1))
            if progress is not None and k % 50 == 0:
                progress("cases", k / len(points))
        return self.rows

    def _ends(self, distance: Array) -> Array:
        """From rows of distances to all nodes: to the top of every candidate, then to every present exit."""
        return np.hstack([distance[:, self._spots] + self._climbs, distance[:, self._exits]])

    def _block(self, v: int, candidate: int) -> None:
        case, reach = self.case, self.blocked_limit
        away = self._all[v]
        who = [i for i in range(len(case.spots)) if case.stands(i) and i != v and away[i] <= reach
               and not (away[i] <= case.near and case.spots[i].kind in ("point", "junction", "niche"))]  # fmt: skip
        if not who:
            return
        distance = self._without(v, who)
        serves = self._ends(distance) <= reach
        n = len(self.candidates)
        serves[:, [j for j in range(n) if self._spots[j] == v]] = False
        lost = [n + k for k, foot in enumerate(self._feet) if foot == v]
        near_exit = away < case.apart
        if lost:  # a portal's foot: everything that counts as one with it is lost
            serves[:, lost] = False
            serves[:, :n] &= ~near_exit[self._spots]
        self._note(case.spots[v].name, serves, who, -1)
        if candidate >= 0 and not lost:
            served = serves.copy()
            served[:, :n] &= ~near_exit[self._spots]
            served[:, [n + k for k, foot in enumerate(self._feet) if near_exit[foot]]] = False
            self._note(case.spots[v].name, served, who, candidate)

    def _without(self, v: int, who: list[int]) -> Array:
        """Distances with a node taken out: only where it lay on a shortest way are they worked out anew."""
        from scipy.sparse.csgraph import connected_components, dijkstra

        away = self._all[v]
        distance: Array = self._all[who].copy()
        through = np.abs(away[who][:, None] + away[None, :] - distance) <= TOUCH
        through &= np.isfinite(distance)
        keep = np.ones(len(self.case.spots), bool)
        keep[v] = False
        cut = self._matrix.copy()
        cut.data[cut.indptr[v] : cut.indptr[v + 1]] = np.inf
        cut.data[cut.indices == v] = np.inf
        _, part = connected_components(self._matrix[keep][:, keep], directed=False)
        parts = np.full(len(self.case.spots), -1)
        parts[keep] = part
        apart = parts[who][:, None] != parts[None, :]
        anew = np.flatnonzero((through & ~apart).any(axis=1))
        distance[apart] = np.inf
        if anew.size:
            distance[anew] = dijkstra(cut, directed=False, indices=np.array(who)[anew], limit=self.blocked_limit)
        return distance

    def _note(self, blocked: str, serves: Array, who: list[int], given: int) -> None:
        n = len(self.candidates)
        open_rows = np.flatnonzero(~serves[:, n:].any(axis=1))
        packed = np.packbits(serves[open_rows, :n], axis=1, bitorder="little")
        for r, bits in zip(open_rows, packed, strict=True):
            row = Row(int.from_bytes(bits.tobytes(), "little"), given)
            if row not in self.needs:
                spot = self.case.spots[who[r]]
                self.needs[row] = Need(spot.name, spot.place, blocked)
                self.rows.append(row)
