"""Six-node triangles with straight sides: tables of a mesh, energy, residual and tangent in one batched pass each.

The shape functions and quadrature points of the reference triangle come from scikit-fem. The pattern of the matrix is
found once for a topology; an assembly is then one batched product and one bincount.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property, lru_cache

import numpy as np

from firnstead.closure.law import Points
from firnstead.closure.mesh import Integers, areas
from firnstead.snow._arrays import Array


@lru_cache(maxsize=4)
def reference(order: int) -> tuple[Array, Array, Array, Array]:
    """Give quadrature points, weights, and shape functions with their slopes on the reference triangle.

    six quadratic shape functions: corners, then middles of the sides 01, 12, 20

    Parameters
    ----------
    order : int [1]
        Degree of the polynomials that are integrated exactly.
    Returns
    -------
    tuple of array [1, 1, 1, 1]
        Points (2, Q), weights (Q) of sum one, values (Q, 6) and slopes (Q, 6, 2).
    Validity: triangles with straight sides.
    Source: textbook_unchecked.

    >>> [part.shape for part in reference(2)]
    [(2, 3), (3,), (3, 6), (3, 6, 2)]
    """
    from skfem import ElementTriP2
    from skfem.quadrature import get_quadrature
    from skfem.refdom import RefTri

    points, weights = get_quadrature(RefTri, order)
    table = [ElementTriP2().lbasis(points, i) for i in range(6)]
    values = np.array([value for value, _ in table]).T
    slopes = np.array([slope for _, slope in table]).transpose(2, 0, 1)
    return points, 2.0 * weights, np.ascontiguousarray(values), np.ascontiguousarray(slopes)


@dataclass(frozen=True, eq=False)
class Topology:
    """Triangles with their six nodes: first the points of the mesh, then the middles of `edges`."""

    triangles: Integers
    points: int
    edges: Integers = field(init=False)
    nodes: Integers = field(init=False)

    def __post_init__(self) -> None:
        pairs = np.sort(self.triangles[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
        edges, inverse = np.unique(pairs, axis=0, return_inverse=True)
        object.__setattr__(self, "edges", edges)
        middles = self.points + inverse.reshape(-1, 3)
        object.__setattr__(self, "nodes", np.hstack((self.triangles, middles)).astype(np.int64))

    @property
    def count(self) -> int:
        """Number of nodes."""
        return self.points + len(self.edges)

    @cached_property
    def components(self) -> Integers:
        """The twelve velocity components of each triangle."""
        return np.stack((2 * self.nodes, 2 * self.nodes + 1), axis=2).reshape(len(self.nodes), 12)

    @cached_property
    def pattern(self) -> tuple[Integers, Integers, Integers]:
        """Row and column of every entry of the matrix of all components, and where each product of a triangle goes."""
        size, parts = np.int64(2 * self.count), self.components
        keys = parts[:, None, :] * size + parts[:, :, None]
        kept, slots = np.unique(keys, return_inverse=True)
        return kept % size, kept // size, slots.ravel().astype(np.int64)

    def places(self, points: Array) -> Array:
        """Positions of all nodes."""
        return np.vstack((points, (points[self.edges[:, 0]] + points[self.edges[:, 1]]) / 2))

    def on(self, pieces: Integers) -> Integers:
        """Nodes on edges given as pairs of points: both ends and the middles."""
        size = np.int64(self.points)
        keys = self.edges[:, 0] * size + self.edges[:, 1]
        middles = np.searchsorted(keys, pieces[:, 0] * size + pieces[:, 1])
        return np.unique(np.concatenate((pieces.ravel(), self.points + middles)))

    def middles(self, pieces: Integers) -> Integers:
        """The middle node of each edge given as a pair of points."""
        size = np.int64(self.points)
        found = np.searchsorted(self.edges[:, 0] * size + self.edges[:, 1], pieces[:, 0] * size + pieces[:, 1])
        return np.asarray(self.points + found, dtype=np.int64)


@dataclass(frozen=True, eq=False)
class Tables:
    """What a mesh at one moment gives to the assembly: strain operator (E, 3Q, 12), weights (E, Q), area (E)."""

    strain: Array
    weights: Array
    area: Array


@dataclass(frozen=True, eq=False)
class Freedoms:
    """Which unknown each component of each node follows: `unknown` (2 N), -1 where the velocity is given.

    Several components may follow one unknown: that is how a stiff roof ties its nodes together.
    """

    unknown: Integers
    given: Array

    @property
    def count(self) -> int:
        """Number of unknowns."""
        return int(self.unknown.max()) + 1

    @cached_property
    def sharing(self) -> Array:
        """How many components follow each unknown."""
        return self.gather(np.ones(self.unknown.size))

    def spread(self, reduced: Array) -> Array:
        """Velocities of all components."""
        return np.where(self.unknown >= 0, reduced[np.maximum(self.unknown, 0)], self.given)

    def gather(self, forces: Array) -> Array:
        """Sum forces of all components into the unknowns."""
        free = self.unknown >= 0
        return _sums(self.unknown[free], forces[free], self.count)


class Assembly:
    """Energy, residual and tangent for one topology and one set of freedoms."""

    def __init__(self, topology: Topology, freedoms: Freedoms, *, order: int = 2) -> None:
        self.topology, self.freedoms, self.order = topology, freedoms, order
        self._components = topology.components
        rows, columns, slots = topology.pattern
        size = np.int64(freedoms.count)
        row, column = freedoms.unknown[rows], freedoms.unknown[columns]
        free = np.flatnonzero((row >= 0) & (column >= 0))
        keys = column[free] * size + row[free]
        rank = np.argsort(keys, kind="stable")  # nearly sorted already, which this kind makes use of
        first = np.append(True, np.diff(keys[rank]) > 0)
        inside = keys[rank][first]
        self._stored, self._bins = inside.size, inside.size + 1
        places: Integers = np.full(rows.size, inside.size, dtype=np.int64)
        places[free[rank]] = np.cumsum(first) - 1
        self._slots = places[slots]
        self._indices = (inside % size).astype(np.int32)
        self._starts = np.searchsorted(inside // size, np.arange(size + 1)).astype(np.int32)

    def tables(self, points: Array) -> Tables:
        """Strain operator and weights of the mesh with these points."""
        _, weights, _, slopes = reference(self.order)
        triangles = self.topology.triangles
        one, two = points[triangles[:, 1]] - points[triangles[:, 0]], points[triangles[:, 2]] - points[triangles[:, 0]]
        area = areas(points, triangles)
        inverse = np.array([[two[:, 1], -two[:, 0]], [-one[:, 1], one[:, 0]]]).transpose(2, 0, 1)
        inverse /= (2.0 * area)[:, None, None]
        gradient = (slopes.reshape(-1, 2) @ inverse).reshape(len(triangles), -1, 6, 2)
        strain = np.zeros((len(triangles), gradient.shape[1], 3, 12))
        strain[:, :, 0, 0::2] = gradient[..., 0]
        strain[:, :, 1, 1::2] = gradient[..., 1]
        strain[:, :, 2, 0::2] = gradient[..., 1]
        strain[:, :, 2, 1::2] = gradient[..., 0]
        return Tables(strain.reshape(len(triangles), -1, 12), area[:, None] * weights[None, :], area)

    def strain(self, tables: Tables, velocity: Array) -> Array:
        """Strain rates (E, Q, 3) of velocities of all components."""
        local = velocity[self._components][:, :, None]
        return (tables.strain @ local).reshape(len(local), -1, 3)

    def energy(self, tables: Tables, law: Points, velocity: Array) -> tuple[float, Array]:
        """Energy, and the inner forces gathered on the unknowns."""
        density, stress = law.energy(self.strain(tables, velocity))
        return float(np.sum(tables.weights * density)), self._inner(tables, stress)

    def tangent(self, tables: Tables, law: Points, velocity: Array) -> tuple[float, Array, object]:
        """Energy, inner forces and tangent matrix (CSC)."""
        from scipy.sparse import csc_matrix

        density, stress, matrix = law.tangent(self.strain(tables, velocity))
        elements, points = tables.weights.shape
        matrix *= tables.weights[..., None, None]
        weighted = (matrix @ tables.strain.reshape(elements, points, 3, 12)).reshape(elements, 3 * points, 12)
        local = tables.strain.transpose(0, 2, 1) @ weighted
        data = _sums(self._slots, local.ravel(), self._bins)[: self._stored]
        size = self.freedoms.count
        sparse = csc_matrix((data, self._indices, self._starts), shape=(size, size))
        sparse.has_sorted_indices = True
        return float(np.sum(tables.weights * density)), self._inner(tables, stress), sparse

    def loads(self, tables: Tables, body: Array) -> Array:
        """Forces on all components from a body force (E, Q, 2) per volume."""
        _, _, values, _ = reference(self.order)
        local = np.einsum("eq,eqc,qi->eic", tables.weights, body, values).reshape(-1)
        return _sums(self._components.ravel(), local, 2 * self.topology.count)

    def pressure(self, points: Array, edges: Integers, traction: Callable[[Array], Array]) -> Array:
        """Forces on all components from a traction (x, y -> two components), by Simpson's rule on straight edges."""
        forces = np.zeros(2 * self.topology.count)
        length = np.linalg.norm(points[edges[:, 1]] - points[edges[:, 0]], axis=1)
        nodes = (edges[:, 0], self.topology.middles(edges), edges[:, 1])
        places = self.topology.places(points)
        for node, share in zip(nodes, (1.0 / 6.0, 4.0 / 6.0, 1.0 / 6.0), strict=True):
            force = traction(places[node]) * (share * length)[:, None]
            np.add.at(forces, 2 * node, force[:, 0])
            np.add.at(forces, 2 * node + 1, force[:, 1])
        return forces

    def _inner(self, tables: Tables, stress: Array) -> Array:
        elements = len(stress)
        weighted = (stress * tables.weights[..., None]).reshape(elements, 1, -1)
        local = (weighted @ tables.strain).ravel()
        return self.freedoms.gather(_sums(self._components.ravel(), local, 2 * self.topology.count))


def _sums(slots: Integers, values: Array, count: int) -> Array:
    return np.asarray(np.bincount(slots, weights=values, minlength=count), dtype=np.float64)
