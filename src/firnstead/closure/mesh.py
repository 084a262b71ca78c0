"""Block-structured mesh of half a section, symmetric about x = 0.

y points up and is 0 at the top of the meshed snow. Rows of the grid lie at depths; its lines follow the walls, so a
leaning or stepped wall bends the lines beside it. Cells inside the void are left out and each other cell is halved.
A far boundary at half the distance to an equal neighbour is the plane of symmetry of the pillar between both.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from firnstead.snow._arrays import Array

Integers = NDArray[np.int64]
Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class HalfSection:
    """What is meshed: the void, the extent of the snow and the size of elements; lengths in m.

    `outline` runs from the top of the void to its floor as (half-width, depth); two points at one depth make a step.
    A void from depth 0 is open to the sky. `seat` is the width beside the top of the void on which a roof stands.
    `lines` and `levels` are half-widths and depths at which the snow changes (edge and floor of the backfill).
    """

    outline: Points
    side: float = 25.0
    depth: float = 30.0
    seat: float = 0.0
    lines: tuple[float, ...] = ()
    levels: tuple[float, ...] = ()
    size: float = 0.4
    growth: float = 1.3


@dataclass(frozen=True, eq=False)
class HalfMesh:
    """Points [m], triangles, and the edges (pairs of points) of each named piece of the boundary.

    Pieces: axis, far, bottom, top, wall, floor, roof, and `seat`: the edges on which a roof stands.
    """

    points: Array
    triangles: Integers
    edges: dict[str, Integers]


def outline_of_steps(steps: Sequence[tuple[float, float, float]]) -> Points:
    """Give the outline of a wall cut in passes as one line through the middle of the steps.

    half-width at the border of two passes = mean of both

    Parameters
    ----------
    steps : sequence of (half-width, upper depth, lower depth) [m]
        The passes from the top down.
    Returns
    -------
    tuple of (float, float) [m]
        Half-width and depth.
    Validity: steps small against the half-width; the area changes by half of the first and of the last step alone.
    Source: own_rule.

    >>> outline_of_steps([(1.5, 0.0, 1.0), (1.7, 1.0, 2.0), (1.9, 2.0, 3.0)])
    ((1.5, 0.0), (1.6, 1.0), (1.8, 2.0), (1.9, 3.0))
    """
    inner = [((a[0] + b[0]) / 2, a[2]) for a, b in pairwise(steps)]
    return ((steps[0][0], steps[0][1]), *((round(w, 12), d) for w, d in inner), (steps[-1][0], steps[-1][2]))


def quality(points: Array, triangles: Integers) -> Array:
    """Give the shape of each triangle: 1 equilateral, 0 flat, negative turned over.

    q = 4 sqrt(3) area/(sum of squared sides)

    Parameters
    ----------
    points : array [m]
        Points, one row each.
    triangles : array [1]
        Three points of each triangle, anticlockwise.
    Returns
    -------
    array [1]
        Quality.
    Validity: any triangle with sides.
    Source: statics.

    >>> round(float(quality(np.array([[0, 0], [1, 0], [0, 1.0]]), np.array([[0, 1, 2]]))[0]), 3)
    0.866
    """
    corner = points[triangles]
    sides = corner - np.roll(corner, 1, axis=1)
    value: Array = 4.0 * np.sqrt(3.0) * areas(points, triangles) / np.einsum("eij,eij->e", sides, sides)
    return value


def areas(points: Array, triangles: Integers) -> Array:
    """Give the area of each triangle, positive anticlockwise.

    A = [(x1 - x0)(y2 - y0) - (x2 - x0)(y1 - y0)]/2

    Parameters
    ----------
    points : array [m]
        Points, one row each.
    triangles : array [1]
        Three points of each triangle.
    Returns
    -------
    array [m2]
        Areas.
    Validity: any.
    Source: statics.

    >>> float(areas(np.array([[0, 0], [1, 0], [0, 1.0]]), np.array([[0, 1, 2]]))[0])
    0.5
    """
    one, two = points[triangles[:, 1]] - points[triangles[:, 0]], points[triangles[:, 2]] - points[triangles[:, 0]]
    value: Array = 0.5 * (one[:, 0] * two[:, 1] - two[:, 0] * one[:, 1])
    return value


def half_mesh(section: HalfSection) -> HalfMesh:
    """Mesh half a section.

    size beside the void as stated, growing outwards by a constant ratio

    Parameters
    ----------
    section : HalfSection [m]
        Void, extent and sizes.
    Returns
    -------
    HalfMesh [m]
        The mesh.
    Validity: outline going down, walls that do not cross; widths of steps not far below `size`.
    Source: own_rule.

    >>> half_mesh(HalfSection(((1.5, 0.0), (1.5, 4.0)), side=10.0, depth=10.0)).points.shape[1]
    2
    """
    rows = _rows(section)
    chains = _chains(section.outline)
    x_lines, active = _lines(section, rows, chains)
    x, first_solid = _columns(section, rows, x_lines, active)
    count_rows, count_columns = x.shape
    number = np.arange(x.size).reshape(x.shape)
    solid = np.arange(count_columns - 1)[None, :] >= first_solid[:, None]
    i, j = np.nonzero(solid)
    a, b, c, d = number[i, j], number[i, j + 1], number[i + 1, j + 1], number[i + 1, j]  # clockwise from upper left
    even = ((i + j) % 2 == 0)[:, None]
    first = np.where(even, np.column_stack((a, d, c)), np.column_stack((a, d, b)))
    second = np.where(even, np.column_stack((a, c, b)), np.column_stack((d, c, b)))
    triangles = np.concatenate((first, second))
    used, triangles = np.unique(triangles, return_inverse=True)
    triangles = triangles.reshape(-1, 3).astype(np.int64)
    points = np.column_stack((x.ravel(), np.repeat(-rows, count_columns)))[used]
    row, column = np.divmod(used, count_columns)
    top, floor = _row_of(rows, section.outline[0][1]), _row_of(rows, section.outline[-1][1])
    edges = _pieces(triangles, row, column, (top, floor, count_rows - 1, count_columns - 1))
    if section.seat > 0.0:
        edges["seat"] = _along_row(triangles, points, row == top, section.outline[0][0], section.seat)
    return HalfMesh(points, triangles, edges)


def boundary_edges(triangles: Integers) -> Integers:
    """Give the edges that belong to one triangle only.

    edges counted once

    Parameters
    ----------
    triangles : array [1]
        Three points of each triangle.
    Returns
    -------
    array [1]
        Pairs of points, the lower number first.
    Validity: any triangulation.
    Source: statics.

    >>> len(boundary_edges(np.array([[0, 1, 2], [1, 3, 2]])))
    4
    """
    pairs, counts = np.unique(_all_edges(triangles), axis=0, return_counts=True)
    return np.asarray(pairs[counts == 1], dtype=np.int64)


def _all_edges(triangles: Integers) -> Integers:
    return np.sort(triangles[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)


def _row_of(rows: Array, depth: float) -> int:
    return int(np.argmin(np.abs(rows - depth)))


def _graded(start: float, end: float, size: float, growth: float) -> Array:
    """Lengths along an interval, `size` at its start and growing."""
    length, sizes = end - start, [size]
    while sum(sizes) < length:
        sizes.append(min(sizes[-1] * growth, 5.0 * max(size, 0.6)))
    return start + np.cumsum([0.0, *sizes]) * (length / sum(sizes))


def _rows(section: HalfSection) -> Array:
    floor = section.outline[-1][1]
    fixed = sorted({0.0, *(d for _, d in section.outline), *(d for d in section.levels if d < floor)})
    rows = [0.0]
    for upper, lower in pairwise(fixed):
        if lower - upper > 1e-9:
            rows += list(np.linspace(upper, lower, max(1, round((lower - upper) / section.size)) + 1)[1:])
    return np.array(rows + list(_graded(floor, section.depth, section.size, section.growth)[1:]))


def _chains(outline: Points) -> list[Array]:
    """The stretches of wall between steps: (half-width, depth) each."""
    chains: list[list[tuple[float, float]]] = [[outline[0]]]
    for before, point in pairwise(outline):
        if point[1] - before[1] > 1e-9:
            chains[-1].append(point)
        else:
            chains.append([point])
    return [np.array(chain) for chain in chains if len(chain) > 1]


def _lines(section: HalfSection, rows: Array, chains: list[Array]) -> tuple[Array, Integers]:
    """x of every wall line and material line in every row, and which line is the wall in each row interval."""
    order = [0]
    for k in range(1, len(chains)):
        before, x = order.index(k - 1), chains[k][0, 0]
        outward = x > chains[k - 1][-1, 0]
        at = before + 1 if outward else before
        while outward and at < len(order) and chains[order[at]][-1, 0] < x:
            at += 1
        while not outward and at > 0 and chains[order[at - 1]][-1, 0] > x:
            at -= 1
        order.insert(at, k)
    own = [np.interp(rows, chains[k][:, 1], chains[k][:, 0]) for k in order]
    spans = [(chains[k][0, 1], chains[k][-1, 1]) for k in order]
    seat = (section.outline[0][0] + section.seat,) if section.seat > 0.0 else ()
    widest = max(w for w, _ in section.outline)
    for x in sorted({*section.lines, *seat}):
        at = sum(1 for line in own if line[0] < x)
        own.insert(at, np.full(rows.size, x))
        spans.insert(at, (np.inf, -np.inf))
    lines, gap = np.array(own).T, 0.8 * section.size
    active = np.full(rows.size - 1, -1, dtype=np.int64)
    fixed = np.array([[a - 1e-9 <= z <= b + 1e-9 for a, b in spans] for z in rows])
    for r in range(rows.size):
        anchors = np.flatnonzero(fixed[r])
        for at in range(lines.shape[1]):  # keep every line off the wall it would cross
            left, right = anchors[anchors < at], anchors[anchors > at]
            if not fixed[r, at] and left.size:
                lines[r, at] = max(lines[r, at], lines[r, at - 1] + gap)
            if not fixed[r, at] and right.size:
                lines[r, at] = min(lines[r, at], lines[r, right[0]] - gap * (right[0] - at))
        if r + 1 < rows.size:
            middle = (rows[r] + rows[r + 1]) / 2
            inside = [at for at, (a, b) in enumerate(spans) if a < middle < b]
            active[r] = inside[0] if inside else -1
    below = rows > section.outline[-1][1] + 1e-9
    lines[below] = lines[_row_of(rows, section.outline[-1][1])]
    above = rows < section.outline[0][1] - 1e-9
    lines[above] = lines[_row_of(rows, section.outline[0][1])]
    if widest + 2.0 * section.size > section.side:
        raise ValueError("the far boundary cuts the void")
    return lines, active


def _columns(section: HalfSection, rows: Array, lines: Array, active: Integers) -> tuple[Array, Integers]:
    """x of every grid point, and the first column of cells that is snow in every row interval."""
    blocks, starts = [np.zeros((rows.size, 1))], []
    left = np.zeros(rows.size)
    for at in range(lines.shape[1]):
        right = lines[:, at]
        cells = max(1, round(float(np.median(right - left)) / section.size))
        blocks.append(left[:, None] + (right - left)[:, None] * np.arange(1, cells + 1) / cells)
        starts.append(sum(block.shape[1] for block in blocks) - 1)
        left = right
    share = _graded(0.0, section.side - float(np.mean(left)), section.size, section.growth)
    blocks.append(left[:, None] + (section.side - left)[:, None] * share[1:] / share[-1])
    first = np.array([starts[at] if at >= 0 else 0 for at in active], dtype=np.int64)
    return np.hstack(blocks), first


def _pieces(
    triangles: Integers, row: Integers, column: Integers, ends: tuple[int, int, int, int]
) -> dict[str, Integers]:
    top, floor, last_row, last_column = ends
    edges = boundary_edges(triangles)
    level = row[edges[:, 0]] == row[edges[:, 1]]
    upright = column[edges[:, 0]] == column[edges[:, 1]]
    tests = {
        "axis": upright & (column[edges[:, 0]] == 0),
        "far": upright & (column[edges[:, 0]] == last_column),
        "bottom": level & (row[edges[:, 0]] == last_row),
        "top": level & (row[edges[:, 0]] == 0),
        "floor": level & (row[edges[:, 0]] == floor),
        "roof": level & (row[edges[:, 0]] == top) & (top > 0),
    }
    known = np.any(list(tests.values()), axis=0)
    return {name: edges[test] for name, test in tests.items()} | {"wall": edges[~known]}


def _along_row(triangles: Integers, points: Array, in_row: NDArray[np.bool_], start: float, width: float) -> Integers:
    pairs = np.unique(_all_edges(triangles), axis=0)
    x = points[pairs, 0]
    middle = x.mean(axis=1)  # on a coarse mesh the line at the end of the seat may have given way to the wall
    inside = (x.min(axis=1) > start - 1e-6) & ((middle < start + width) | (x.min(axis=1) < start + 1e-6))
    return np.asarray(pairs[in_row[pairs].all(axis=1) & inside], dtype=np.int64)
