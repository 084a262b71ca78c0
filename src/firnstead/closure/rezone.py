"""Give a distorted mesh its shape back: inner points moved, fields carried over, mass kept exactly.

The points on the boundary stay with the snow. Inner points go where the triangles are least distorted against their
first shape, by a measure that is infinite for a flat triangle, so that nothing folds. Density is carried by the mass
that each moved edge sweeps from the triangle it enters, so that what one triangle loses its neighbour gains; the field
in a triangle is a plane, held between the values round it. Large moves are made in several small ones.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from firnstead.closure.assemble import Topology, reference
from firnstead.closure.mesh import Integers, areas, boundary_edges
from firnstead.snow._arrays import Array


@dataclass(frozen=True, eq=False)
class Fields:
    """What is carried from mesh to mesh: mass at quadrature points (E, Q) [kg/m], values at points and at nodes."""

    mass: Array
    at_points: Array
    at_nodes: Array


class Rezoner:
    """Rezones meshes of one topology that started as `points`; `fixed` are inner points that stay with the snow."""

    def __init__(self, topology: Topology, points: Array, fixed: Integers, *, order: int = 2) -> None:
        self._topology, self._order = topology, order
        triangles = topology.triangles
        held = np.union1d(np.unique(boundary_edges(triangles)), fixed)
        self._free = np.setdiff1d(np.arange(len(points)), held)
        self._first = np.linalg.inv(_jacobian(points, triangles))
        self._sides = _sides(triangles)

    def target(self, points: Array, *, most: int = 150) -> Array:
        """Points of the least distortion against the first mesh, from points that are already free of folds."""
        from scipy.optimize import minimize

        folded = 4.0 * self._distortion(points)[0]  # finite, so that the line search comes back by a fair share

        def distortion(inner: Array) -> tuple[float, Array]:
            new = points.copy()
            new[self._free] = inner.reshape(-1, 2)
            value, slope = self._distortion(new)
            return min(value, folded), slope[self._free].ravel()

        found = minimize(distortion, points[self._free].ravel(), jac=True, method="L-BFGS-B", options={"maxiter": most})
        new = points.copy()
        new[self._free] = found.x.reshape(-1, 2)
        return new

    def _distortion(self, points: Array) -> tuple[float, Array]:
        """Sum over triangles of |T|^2/(2 det T), T from its first shape to this one: a wall against folding."""
        triangles = self._topology.triangles
        t = _jacobian(points, triangles) @ self._first
        det = t[:, 0, 0] * t[:, 1, 1] - t[:, 0, 1] * t[:, 1, 0]
        slope = np.zeros_like(points)
        if np.min(det) <= 0.0:
            return np.inf, slope
        value = np.einsum("eij,eij->e", t, t) / (2.0 * det)
        cofactor = np.stack((t[:, 1, 1], -t[:, 1, 0], -t[:, 0, 1], t[:, 0, 0]), axis=1).reshape(-1, 2, 2)
        by_shape = (t - value[:, None, None] * cofactor) / det[:, None, None]
        by_sides = by_shape @ self._first.transpose(0, 2, 1)
        corners = np.concatenate((-by_sides.sum(axis=2, keepdims=True), by_sides), axis=2).transpose(0, 2, 1)
        for component in (0, 1):
            slope[:, component] = np.bincount(
                triangles.ravel(), weights=corners[..., component].ravel(), minlength=len(points))  # fmt: skip
        return float(value.sum()), slope

    def carry(self, points: Array, new: Array, fields: Fields) -> Fields:
        """Fields on the moved mesh; the sum of the mass is kept to rounding."""
        triangles = self._topology.triangles
        corner = points[triangles]
        longest = np.max(np.linalg.norm(corner - np.roll(corner, 1, axis=1), axis=2), axis=1)
        room = np.full(len(points), np.inf)
        np.minimum.at(room, triangles.ravel(), np.repeat(2.0 * areas(points, triangles) / longest, 3))
        parts = max(1, int(np.ceil(np.max(np.linalg.norm(new - points, axis=1) / (0.25 * room)))))
        before = points
        for part in range(1, parts + 1):
            after = points + (new - points) * (part / parts)
            mass = self._swept(before, after, fields.mass)
            fields = self._interpolated(before, after, fields, mass)
            before = after
        return fields

    def _swept(self, points: Array, new: Array, mass: Array) -> Array:
        triangles = self._topology.triangles
        local, weights, _, _ = reference(self._order)
        area = areas(points, triangles)
        density = mass / (area[:, None] * weights)
        least, most = _bounds(triangles, density, len(points))
        places = _at(points, triangles, local)
        plane = np.linalg.pinv(np.column_stack((np.ones(local.shape[1]), local.T))) @ density[:, :, None]
        slope = np.linalg.solve(_jacobian(points, triangles).transpose(0, 2, 1), plane[:, 1:])[..., 0]
        centre = points[triangles].mean(axis=1)
        mean = mass.sum(axis=1) / area
        gain = np.zeros(len(triangles))
        a, b, left, right = self._sides
        for first, second, third in ((points[a], points[b], new[b]), (points[a], new[b], new[a])):
            one, two = second - first, third - first
            swept = -0.5 * (one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0])  # positive: the left triangle grows
            donor = np.where(swept > 0.0, right, left)
            middle = (first + second + third) / 3.0
            value = mean[donor] + np.einsum("ij,ij->i", slope[donor], middle - centre[donor])
            flow = swept * np.clip(value, least[donor], most[donor])
            gain += np.bincount(left, weights=flow, minlength=len(gain))
            gain -= np.bincount(right, weights=flow, minlength=len(gain))
        new_area = areas(new, triangles)
        new_mean = (mass.sum(axis=1) + gain) / new_area
        places = _at(new, triangles, local)
        rise = np.einsum("eqi,ei->eq", places - new[triangles].mean(axis=1)[:, None, :], slope)
        room = np.where(rise > 0.0, most[:, None] - new_mean[:, None], new_mean[:, None] - least[:, None])
        share = np.clip(np.min(np.maximum(room, 0.0) / np.maximum(np.abs(rise), 1e-12), axis=1), 0.0, 1.0)
        kept: Array = (new_mean[:, None] + share[:, None] * rise) * new_area[:, None] * weights
        return kept

    def _interpolated(self, points: Array, new: Array, fields: Fields, mass: Array) -> Fields:
        topology = self._topology
        nodes, places = topology.nodes, topology.places(new)
        offset = places[nodes] - points[topology.triangles[:, 0]][:, None, :]
        share = np.linalg.solve(_jacobian(points, topology.triangles), offset.transpose(0, 2, 1)).transpose(0, 2, 1)
        inside = np.minimum(share.min(axis=2), 1.0 - share.sum(axis=2)).ravel()
        order = np.lexsort((inside, nodes.ravel()))
        last = order[np.append(np.diff(nodes.ravel()[order]) > 0, True)]  # the triangle that holds each node best
        element, local = last // 6, share.reshape(-1, 2)[last]
        corners = np.column_stack((1.0 - local.sum(axis=1), local))
        linear = corners[: topology.points]
        held = np.einsum("ij,ij...->i...", linear, fields.at_points[topology.triangles[element[: topology.points]]])
        l0, l1, l2 = corners.T
        middle = (4 * l0 * l1, 4 * l1 * l2, 4 * l2 * l0)
        shape = np.column_stack((l0 * (2 * l0 - 1), l1 * (2 * l1 - 1), l2 * (2 * l2 - 1), *middle))
        return Fields(mass, held, np.einsum("ij,ij...->i...", shape, fields.at_nodes[nodes[element]]))


def _jacobian(points: Array, triangles: Integers) -> Array:
    """Columns are the two sides that leave the first corner."""
    corner = points[triangles]
    return np.stack((corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0]), axis=2)


def _at(points: Array, triangles: Integers, local: Array) -> Array:
    """Positions (E, Q, 2) of reference points in every triangle."""
    inner = np.column_stack((1.0 - local.sum(axis=0), local[0], local[1]))
    places: Array = np.einsum("qi,eic->eqc", inner, points[triangles])
    return places


def _sides(triangles: Integers) -> tuple[Integers, Integers, Integers, Integers]:
    """Inner edges: both ends, the triangle in which they run anticlockwise, and the one across."""
    start, end = triangles.ravel(), np.roll(triangles, -1, axis=1).ravel()
    element = np.repeat(np.arange(len(triangles)), 3)
    size = np.int64(triangles.max() + 1)
    key, back = start * size + end, end * size + start
    order = np.argsort(key)
    found = np.minimum(np.searchsorted(key[order], back), key.size - 1)
    pair = order[found]
    one = (key[pair] == back) & (start < end)
    return start[one], end[one], element[one], element[pair][one]


def _bounds(triangles: Integers, density: Array, count: int) -> tuple[Array, Array]:
    """Smallest and largest density among each triangle and those that touch it."""
    least, most = np.full(count, np.inf), np.full(count, -np.inf)
    np.minimum.at(least, triangles.ravel(), np.repeat(density.min(axis=1), 3))
    np.maximum.at(most, triangles.ravel(), np.repeat(density.max(axis=1), 3))
    return least[triangles].min(axis=1), most[triangles].max(axis=1)
