"""The fewest spots that serve every row: set cover with rows that hold only if a certain spot is taken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, inf

import numpy as np


@dataclass(frozen=True)
class Row:
    """At least one spot of `mask` (bit by spot) must be taken; if `given` is a spot, only when that one is taken."""

    mask: int
    given: int = -1


@dataclass(frozen=True)
class Cover:
    """Spots taken, proven lower bound on their number, whether it is proven that fewer do not do."""

    chosen: tuple[int, ...]
    bound: float
    proven: bool
    missed: tuple[int, ...] = ()
    """Rows that are not served, where that was allowed."""

    @property
    def count(self) -> int:
        """Number of spots taken."""
        return len(self.chosen)

    @property
    def gap(self) -> float:
        """How far the number may be above the least, as a share."""
        return 0.0 if self.proven or not self.chosen else max(0.0, self.count - ceil(self.bound - 1e-6)) / self.count


def fewest_cover(rows: Sequence[Sequence[int]], count: int, limit: float = 60.0) -> Cover:
    """Give the fewest of `count` spots so that every row holds at least one of them.

    min sum x_j, sum over the row of x_j >= 1, x_j 0 or 1

    Parameters
    ----------
    rows : Sequence [1]
        For every row the numbers of the spots that serve it.
    count : int [1]
        Number of spots.
    limit : float [s]
        Time for the solver.
    Returns
    -------
    Cover [1]
        Spots, bound and whether they are proven the fewest.
    Validity: small covers; with much symmetry the fewest may be found and not proven: the bound says so.
    Source: toregas_1971, location set covering (from memory, unchecked).

    >>> fewest_cover([[0, 1], [1, 2], [2, 3]], 4).count
    2
    """
    return Solver(count, [Row(sum(1 << j for j in set(row))) for row in rows]).fewest(limit)


class Solver:
    """One cover; rows that others imply are dropped."""

    def __init__(self, count: int, rows: Sequence[Row], cost: Sequence[float] | None = None) -> None:
        self.count = count
        self.cost = np.ones(count) if cost is None else np.asarray(cost, dtype=float)
        self.hopeless = tuple(dict.fromkeys(row for row in rows if not row.mask and row.given < 0))
        self.rows = _minimal([row for row in rows if row.mask or row.given >= 0])

    def fewest(self, limit: float) -> Cover:
        """The fewest spots; rows that no spot serves are left out (see `hopeless`)."""
        if not any(row.given < 0 for row in self.rows):
            return Cover((), 0.0, True)
        return self._solve(self.rows, self.cost, limit)

    def at_most(self, number: int, limit: float) -> Cover:
        """With no more than so many spots, those that leave the fewest rows unserved."""
        return self._solve(self.rows, self.cost, limit, number)

    def _solve(self, rows: list[Row], cost: np.ndarray, limit: float, number: int | None = None) -> Cover:
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import coo_matrix

        n, m, slack = self.count, len(rows), number is not None
        entries: list[tuple[int, int, float]] = []
        for r, row in enumerate(rows):
            for j in _bits(row.mask):
                entries.append((r, j, 1.0))
            if row.given >= 0:
                entries.append((r, row.given, -1.0))
            if slack:
                entries.append((r, n + r, 1.0))
        at, to, value = zip(*entries, strict=True)
        total = n + (m if slack else 0)
        least = np.array([0.0 if row.given >= 0 else 1.0 for row in rows])
        constraints = [LinearConstraint(coo_matrix((value, (at, to)), shape=(m, total)).tocsc(), least, np.inf)]
        objective = cost if not slack else np.concatenate([1e-6 * cost, np.ones(m)])
        if slack:
            constraints.append(LinearConstraint(np.concatenate([np.ones(n), np.zeros(m)])[None, :], -np.inf, number))
        whole = np.concatenate([np.ones(n), np.zeros(total - n)])
        found = milp(objective, constraints=constraints, integrality=whole, bounds=Bounds(0.0, 1.0),
                     options={"time_limit": limit, "mip_rel_gap": 0.0})  # fmt: skip
        bound = -inf if found.mip_dual_bound is None else float(found.mip_dual_bound)
        if found.x is None:
            return Cover((), bound, False)
        chosen = tuple(int(j) for j in np.flatnonzero(found.x[:n] > 0.5))
        missed = tuple(r for r in range(m) if slack and found.x[n + r] > 0.5)
        return Cover(chosen, bound, bool(found.status == 0), missed)


def _bits(mask: int) -> list[int]:
    found = []
    while mask:
        low = mask & -mask
        found.append(low.bit_length() - 1)
        mask ^= low
    return found


def _minimal(rows: Sequence[Row]) -> list[Row]:
    """Rows that no other row implies: a row is implied by one with fewer spots that holds always or as often."""
    kept: list[Row] = []
    by_given: dict[int, list[int]] = {}
    for row in sorted(set(rows), key=lambda r: (r.given >= 0, r.mask.bit_count(), r.mask, r.given)):
        groups = (by_given.get(-1, []), by_given.get(row.given, []) if row.given >= 0 else [])
        if row.given >= 0 and row.mask >> row.given & 1:
            continue  # the spot serves the row itself
        if not any(small & ~row.mask == 0 for group in groups for small in group):
            kept.append(row)
            by_given.setdefault(row.given, []).append(row.mask)
    return kept
