"""Velocities of a creeping mesh: the minimum of a convex energy.

The factorised tangent of an earlier moment is the first metric of a limited-memory quasi-Newton search with line
search on the energy. It is made anew (a Newton step) only when the search contracts slowly, so that a time step costs
about one sparse factorisation or less.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from firnstead.closure.assemble import Assembly, Tables
from firnstead.closure.law import Points
from firnstead.snow._arrays import Array


@dataclass
class Effort:
    """What a series of solves has cost."""

    solves: int = 0
    factorisations: int = 0
    evaluations: int = 0


@dataclass
class Solver:
    """Solves for velocities; keeps the factorised tangent from one solve to the next."""

    assembly: Assembly
    slow: float = 0.3
    patience: int = 4
    most: int = 60
    effort: Effort = field(default_factory=Effort)
    _factor: Any = None

    def solve(self, tables: Tables, law: Points, forces: Array, start: Array | None, tolerance: float = 1e-4) -> Array:
        """Velocities of all components under forces of all components; the last step is below `tolerance`."""
        freedoms = self.assembly.freedoms
        load = freedoms.gather(forces)
        self.effort.solves += 1
        if start is None:
            self._factor = None
            reduced = self._first_guess(tables, law, load)
        else:
            reduced = freedoms.gather(start) / freedoms.sharing
        value, residual, fresh = self._at(tables, law, load, reduced, self._factor is None)
        pairs: list[tuple[Array, Array, float]] = []
        sizes: list[float] = []
        for _ in range(self.most):
            step = -self._metric(residual, pairs)
            size = float(np.max(np.abs(step))) / max(float(np.max(np.abs(reduced + step))), 1e-300)
            if size <= tolerance:
                return freedoms.spread(reduced + step)
            sizes.append(size)
            if not fresh and len(pairs) >= self.patience and size > self.slow * sizes[-1 - self.patience]:
                value, residual, fresh = self._at(tables, law, load, reduced, True)
                pairs, sizes = [], []
                continue
            moved, value, after = self._line_search(tables, law, load, reduced, value, residual, step)
            change, slope = moved - reduced, after - residual
            curvature = float(change @ slope)
            if curvature > 0.0:
                pairs.append((change, slope, 1.0 / curvature))
            reduced, residual, fresh = moved, after, False
        raise ArithmeticError("the creep velocities did not settle")

    def _at(self, tables: Tables, law: Points, load: Array, reduced: Array, anew: bool) -> tuple[float, Array, bool]:
        velocity = self.assembly.freedoms.spread(reduced)
        self.effort.evaluations += 1
        if anew:
            energy, inner, matrix = self.assembly.tangent(tables, law, velocity)
            self._factor = None  # its memory is taken over by the new one
            self._factor = factorised(matrix)
            self.effort.factorisations += 1
        else:
            energy, inner = self.assembly.energy(tables, law, velocity)
        return energy - float(load @ reduced), inner - load, anew

    def _metric(self, residual: Array, pairs: list[tuple[Array, Array, float]]) -> Array:
        """Two-loop recursion of the quasi-Newton update about the kept factor."""
        vector: Array = residual.copy()
        shares: list[float] = []
        for change, slope, inverse in reversed(pairs):
            share = inverse * float(change @ vector)
            shares.append(share)
            vector -= share * slope
        vector = self._factor.solve(vector)
        for (change, slope, inverse), share in zip(pairs, reversed(shares), strict=True):
            vector += (share - inverse * float(slope @ vector)) * change
        return vector

    def _line_search(
        self, tables: Tables, law: Points, load: Array, reduced: Array, value: float, residual: Array, step: Array
    ) -> tuple[Array, float, Array]:
        slope, length = float(residual @ step), 1.0
        for _ in range(30):
            moved = reduced + length * step
            after, new_residual, _ = self._at(tables, law, load, moved, False)
            along = float(new_residual @ step)
            flat = abs(along) <= 0.5 * abs(slope) and after <= value + 1e-9 * abs(value)  # as low as rounding shows
            if flat or after <= value + 1e-4 * length * slope:
                return moved, after, new_residual
            length *= max(0.2, min(0.6, slope / (slope - along))) if along > slope else 0.5
        raise ArithmeticError("no step lowers the energy")

    def _first_guess(self, tables: Tables, law: Points, load: Array) -> Array:
        """Linear creep as stiff as snow at a hundredth of strain a year is."""
        freedoms = self.assembly.freedoms
        rate = 0.01 / 3.15576e7
        level = law.constant * (law.shear * rate**2) ** ((1.0 - law.exponent) / (2.0 * law.exponent))
        linear = Points(law.shear, law.bulk, level, 1.0, law.at_rest)
        start = freedoms.spread(np.zeros(freedoms.count))
        _, inner, matrix = self.assembly.tangent(tables, linear, start)
        self.effort.factorisations += 1
        found: Array = factorised(matrix).solve(load - inner)
        return found


def factorised(matrix: object) -> Any:
    """Give the sparse factors of a symmetric positive matrix.

    L U with the ordering of A + A^T and no pivoting off the diagonal

    Parameters
    ----------
    matrix : sparse matrix [text]
        The matrix, by columns.
    Returns
    -------
    factor [text]
        Has `solve`.
    Validity: symmetric positive definite.
    Source: textbook_unchecked.

    >>> from scipy.sparse import csc_matrix
    >>> factorised(csc_matrix([[4.0, 0.0], [0.0, 2.0]])).solve(np.array([4.0, 4.0])).tolist()
    [1.0, 2.0]
    """
    from scipy.sparse.linalg import splu

    return splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
