"""Mesh of the snow round a section: rays from inside the cut out to the surface, the side and the ground below.

Half a section is meshed, x from the axis outwards, z from the snow surface down. Points lie close to the cut, where the
heat changes fast, and far apart towards the edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from firnstead.snow._arrays import Array

Integers = NDArray[np.int64]
Outline = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class CutOutline:
    """Half of the void and of the snow that is looked at; lengths in m.

    `points` run from the crown (0, z) round the wall to the middle of the floor (0, z), half-width and depth; seen from
    half-way between crown and floor each must lie further round than the one before. `patch` is the half-width of the
    floor that a building covers, 0 for none; `side` reaches half-way to the next equal trench, or far away.
    """

    points: Outline
    patch: float = 0.0
    side: float = 25.0
    below: float = 25.0
    size: float = 0.4
    layers: int = 16
    first: float = 0.0075


@dataclass(frozen=True, eq=False)
class GroundMesh:
    """Points [m], triangles, and the points of each piece of the boundary whose temperature is given."""

    points: Array
    triangles: Integers
    wall: Integers
    patch: Integers
    top: Integers
    wall_length: float
    """Length of the wall, roof and free floor in the half-section [m]."""
    axis: Integers
    """Points below the middle of the floor, from the floor down."""


def mesh_round(cut: CutOutline) -> GroundMesh:
    """Mesh half a section.

    points on rays from half-way between crown and floor, from the outline out to the rectangle, growing apart outwards

    Parameters
    ----------
    cut : CutOutline [m]
        The void and the snow that is looked at.
    Returns
    -------
    GroundMesh [m]
        Points, triangles and the pieces of the boundary.
    Validity: outlines of which every point is seen from half-way between crown and floor.
    Source: own_rule.

    >>> mesh = mesh_round(CutOutline(((0.0, 1.0), (2.0, 1.0), (2.0, 5.0), (0.0, 5.0)), patch=1.2, layers=4))
    >>> len(mesh.triangles), round(mesh.wall_length, 6)
    (160, 6.8)
    """
    inner = _inner(cut)
    middle = np.array([0.0, (cut.points[0][1] + cut.points[-1][1]) / 2])
    outer = _outer(inner, middle, cut.side, cut.points[-1][1] + cut.below)
    rays, count = len(inner), cut.layers + 1
    share = _graded(cut.layers, cut.first)
    points = (inner[:, None, :] + share[None, :, None] * (outer - inner)[:, None, :]).reshape(-1, 2)
    ray = np.arange(rays) * count
    i, j = (grid.ravel() for grid in np.meshgrid(np.arange(rays - 1), np.arange(cut.layers), indexing="ij"))
    a, b, c, d = i * count + j, i * count + j + 1, (i + 1) * count + j, (i + 1) * count + j + 1
    triangles = np.concatenate((np.stack((a, b, d), 1), np.stack((a, d, c), 1)))
    floor = cut.points[-1][1]
    covered = (np.abs(inner[:, 1] - floor) < 1e-9) & (inner[:, 0] <= cut.patch + 1e-9)
    covered &= cut.patch > 0.0
    length = float(np.hypot(*np.diff(inner, axis=0).T).sum()) - cut.patch
    return GroundMesh(
        points=points, triangles=triangles, wall=ray[~covered], patch=ray[covered],
        top=ray[outer[:, 1] < 1e-9] + cut.layers, wall_length=length, axis=ray[-1] + np.arange(count))  # fmt: skip


def _inner(cut: CutOutline) -> Array:
    """The outline in short pieces, with a point where the building's edge stands on the floor."""
    corners = list(cut.points)
    (x, z), floor = corners[-2], corners[-1][1]
    if 0.0 < cut.patch < x and abs(z - floor) < 1e-9:
        corners.insert(-1, (cut.patch, floor))
    found: list[tuple[float, float]] = [corners[0]]
    for (x1, z1), (x2, z2) in pairwise(corners):
        pieces = max(1, math.ceil(math.hypot(x2 - x1, z2 - z1) / cut.size - 1e-9))
        found += [(x1 + (x2 - x1) * n / pieces, z1 + (z2 - z1) * n / pieces) for n in range(1, pieces + 1)]
    return np.array(found)


def _outer(inner: Array, middle: Array, side: float, bottom: float) -> Array:
    """Where the ray through each inner point meets the rectangle; the nearest ray is led into each corner."""
    direction = inner - middle
    with np.errstate(divide="ignore", invalid="ignore"):
        reach = np.minimum(
            np.where(direction[:, 0] > 1e-12, side / direction[:, 0], np.inf),
            np.where(direction[:, 1] < 0, -middle[1] / direction[:, 1], (bottom - middle[1]) / direction[:, 1]),
        )
    reach = np.where(np.isfinite(reach), reach, side / np.maximum(direction[:, 0], 1e-12))
    outer: Array = middle + np.abs(reach)[:, None] * direction
    outer = np.clip(outer, [0.0, 0.0], [side, bottom])
    outer[[0, -1], 0] = 0.0
    for corner in ((side, 0.0), (side, bottom)):
        near = int(np.argmin(np.hypot(*(outer[1:-1] - corner).T))) + 1
        outer[near] = corner
    return outer


def _graded(layers: int, first: float) -> Array:
    """Shares of a ray from 0 to 1, the first piece `first`, each next one larger by the same factor."""
    low, high = 1.0 + 1e-9, 4.0
    for _ in range(80):
        growth = (low + high) / 2
        if (growth - 1) / (growth**layers - 1) > first:
            low = growth
        else:
            high = growth
    steps = growth ** np.arange(layers)
    return np.concatenate(([0.0], np.cumsum(steps) / steps.sum()))
