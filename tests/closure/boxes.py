"""Meshes of simple bodies and their supports, for the tests of the closure."""

from __future__ import annotations

import numpy as np

from firnstead.closure.assemble import Assembly, Freedoms, Topology
from firnstead.closure.law import CreepLaw
from firnstead.closure.march import Case
from firnstead.closure.mesh import HalfMesh, HalfSection, Integers
from firnstead.core.units import YEAR
from firnstead.snow._arrays import Array


def grid(x: Array, y: Array) -> tuple[Array, Integers]:
    """Points and triangles of a tensor grid, y rising."""
    nx, ny = len(x), len(y)
    points = np.column_stack((np.tile(x, ny), np.repeat(y, nx)))
    corner = (np.arange(nx - 1)[None, :] + nx * np.arange(ny - 1)[:, None]).ravel()
    lower = np.column_stack((corner, corner + 1, corner + nx + 1))
    upper = np.column_stack((corner, corner + nx + 1, corner + nx))
    return points, np.concatenate((lower, upper)).astype(np.int64)


def body(points: Array, triangles: Integers, fixed: Array, given: Array | None = None, order: int = 2) -> Assembly:
    """Assembly with the components of `fixed` (nodes, 2) given; zero where nothing is said."""
    topology = Topology(triangles, len(points))
    flat = fixed.ravel()
    unknown = np.where(flat, -1, np.cumsum(~flat) - 1).astype(np.int64)
    values = np.zeros(flat.size) if given is None else given.ravel()
    return Assembly(topology, Freedoms(unknown, values), order=order)


def row_of_edges(points: Array, triangles: Integers, axis: int, at: float) -> Integers:
    """Edges that lie on a straight line x = at (axis 0) or y = at (axis 1)."""
    edges = Topology(triangles, len(points)).edges
    return edges[np.all(np.abs(points[edges, axis] - at) < 1e-9, axis=1)]


def column_mesh(width: float, height: float, cells: int) -> HalfMesh:
    """A column without a void, as a mesh that can be marched."""
    points, triangles = grid(np.linspace(0.0, width, 3), np.linspace(-height, 0.0, cells + 1))
    none = np.empty((0, 2), dtype=np.int64)
    rows = {"axis": (0, 0.0), "far": (0, width), "bottom": (1, -height), "top": (1, 0.0)}
    edges = {name: row_of_edges(points, triangles, *where) for name, where in rows.items()}
    return HalfMesh(points, triangles, edges | {"wall": none, "floor": none, "roof": none})


def trench(size: float = 0.5, **changes: object) -> Case:
    """A covered undercut trench in snow of k = 569 at -24.6 degC, with growing cover and warmer air."""
    section = HalfSection(
        ((1.8, 2.0), (2.6, 8.0)), side=25.0, depth=30.0, seat=0.5, lines=(3.0,), size=size, growth=1.35)  # fmt: skip

    def density(x: Array, depth: Array) -> Array:
        return np.where((depth < 2.0) & (x < 3.0), 550.0, 917.0 - 537.0 * np.exp(-1.9 * depth / 70.0))

    whole = {
        "section": section, "law": CreepLaw(569.0), "density": density, "temperature": lambda depth: 0 * depth + 248.55,
        "surcharge": lambda time: 3430.0 * time / YEAR, "air": lambda time: 253.15,
    } | changes  # fmt: skip
    return Case(**whole)  # type: ignore[arg-type]
