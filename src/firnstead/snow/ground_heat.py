"""Conduction through the snow round a section, linear in time: factor once, step many fields together.

Linear triangles with lumped capacity. The rule is the two-stage, L-stable, second-order one with gamma = 1 - 1/sqrt(2).
The heat that enters through each piece of the boundary is the one that the scheme really moves: what comes in is what
is stored, to rounding. Conductivity and capacity are those at the site's mean temperature.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from firnstead.snow._arrays import Array
from firnstead.snow.ground_mesh import GroundMesh, Integers

GAMMA = 1.0 - 1.0 / math.sqrt(2.0)


def triangle_areas(points: Array, triangles: Integers) -> Array:
    """Give the area of each triangle.

    A = |(b - a) x (c - a)|/2

    Parameters
    ----------
    points : array [m]
        Points.
    triangles : array [1]
        Three points of each triangle.
    Returns
    -------
    array [m2]
        Areas.
    Validity: any triangle.
    Source: statics.

    >>> triangle_areas(np.array([[0, 0], [1, 0], [0, 1.0]]), np.array([[0, 1, 2]])).tolist()
    [0.5]
    """
    a, b, c = (points[triangles[:, i]] for i in range(3))
    u, v = b - a, c - a
    area: Array = np.abs(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) / 2.0
    return area


def conduction_matrix(points: Array, triangles: Integers, conductivity: Array) -> Any:
    """Give the sparse conduction matrix of a mesh.

    K_ij = sum over triangles of k area grad(l_i) grad(l_j)

    Parameters
    ----------
    points : array [m]
        Points.
    triangles : array [1]
        Three points of each triangle.
    conductivity : array [W/m/K]
        Conductivity of each triangle.
    Returns
    -------
    sparse matrix [W/m/K]
        Heat out of each point per metre of trench and degree.
    Validity: triangles with area.
    Source: textbook_unchecked, linear finite elements.

    >>> p, t = np.array([[0, 0], [1, 0], [0, 1.0]]), np.array([[0, 1, 2]])
    >>> conduction_matrix(p, t, np.ones(1)).toarray()[0].tolist()
    [1.0, -0.5, -0.5]
    """
    from scipy.sparse import csr_matrix

    corner = points[triangles]
    opposite = np.roll(corner, 1, axis=1) - np.roll(corner, -1, axis=1)
    local = np.einsum("eic,ejc->eij", opposite, opposite)
    local *= (conductivity / (4.0 * triangle_areas(points, triangles)))[:, None, None]
    rows, columns = np.repeat(triangles, 3, axis=1).ravel(), np.tile(triangles, (1, 3)).ravel()
    return csr_matrix((local.ravel(), (rows, columns)), shape=(len(points), len(points)))


@dataclass(eq=False)
class Ground:
    """Half a section of snow with its matrices; boundary temperatures are given per piece: wall, patch, top."""

    mesh: GroundMesh
    conductivity: Array
    capacity: Array
    _factors: dict[float, Any] = field(default_factory=dict)

    def __post_init__(self) -> None:
        points, triangles = self.mesh.points, self.mesh.triangles
        share = triangle_areas(points, triangles) * self.capacity / 3.0
        self.mass = np.bincount(triangles.ravel(), weights=np.repeat(share, 3), minlength=len(points))
        self.matrix = conduction_matrix(points, triangles, self.conductivity)
        self.pieces = (self.mesh.wall, self.mesh.patch, self.mesh.top)
        self.held = np.concatenate(self.pieces)
        self.free = np.setdiff1d(np.arange(len(points)), self.held)
        self._inner = self.matrix[self.free][:, self.free].tocsc()
        self._inward = self.matrix[self.free][:, self.held].tocsr()
        self._outward = self.matrix[self.held].tocsr()
        self._piece_of = np.repeat(np.arange(3), [len(piece) for piece in self.pieces])

    def spread(self, boundary: Array) -> Array:
        """Temperatures of the held points from those of the three pieces (rows) in each column."""
        values: Array = boundary[self._piece_of]
        return values

    def step(self, temperature: Array, boundary: Array, duration: float) -> tuple[Array, Array]:
        """Hold the pieces at `boundary` (3, n) for a time; gives the field and the heat in through each piece [J/m].

        A jump of the boundary at the start of the step warms the points on it at once; that heat is counted too.
        """
        held, mass = self.spread(boundary), self.mass[self.free][:, None]
        jump = self.mass[self.held][:, None] * (held - temperature[self.held])
        factor, inflow = self._factor(duration), self._inward @ held

        def rate(inner: Array) -> Array:
            found: Array = -(self._inner @ inner) - inflow
            return found

        first = factor.solve(mass * temperature[self.free] - GAMMA * duration * inflow)
        last = factor.solve(
            mass * temperature[self.free] + (1.0 - GAMMA) * duration * rate(first) - GAMMA * duration * inflow
        )
        heat = jump
        after = np.empty_like(temperature)
        after[self.held] = held
        for inner, weight in ((first, 1.0 - GAMMA), (last, GAMMA)):
            after[self.free] = inner
            heat = heat + weight * duration * (self._outward @ after)
        sums = np.zeros((3, temperature.shape[1]))
        np.add.at(sums, self._piece_of, heat)
        return after, sums

    def stored(self, temperature: Array) -> Array:
        """Heat in the snow above zero [J/m] of each column."""
        heat: Array = self.mass @ temperature
        return heat

    def _factor(self, duration: float) -> Any:
        if duration not in self._factors:
            from scipy.sparse import diags
            from scipy.sparse.linalg import splu

            matrix = diags(self.mass[self.free]) + GAMMA * duration * self._inner
            self._factors[duration] = splu(matrix.tocsc(), permc_spec="MMD_AT_PLUS_A", options={"SymmetricMode": True})
        return self._factors[duration]
