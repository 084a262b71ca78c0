"""Outlines that several drawings share: arch lines, the milled snow over them, areas cut from one another."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from firnstead.drawings.figure import Arc, Point, Polygon, rectangle

Rings = tuple[tuple[Point, ...], tuple[tuple[Point, ...], ...]]
"""Outer ring and holes of an area."""


@dataclass(frozen=True)
class ArchShape:
    """A circular arch: span between the feet, rise, level of the feet (surface 0, up positive) [m]."""

    span: float
    rise: float
    seat: float
    steel: bool = True
    """False for a roof of formed snow."""

    @property
    def crown(self) -> float:
        """Level of the crown [m]."""
        return self.seat + self.rise

    def arc(self) -> Arc:
        """The arch line.

        >>> arc = ArchShape(8.0, 2.0, 0.0).arc()
        >>> arc.radius, arc.centre
        (5.0, (0.0, -3.0))
        """
        radius = (self.span**2 / 4 + self.rise**2) / (2 * self.rise)
        centre = (0.0, self.crown - radius)
        end = math.degrees(math.atan2(self.seat - centre[1], self.span / 2))
        return Arc(centre, radius, end, 180.0 - end, "arch")

    def inside(self, down_to: float) -> tuple[Point, ...]:
        """The space under the arch, down to a level."""
        half = self.span / 2
        return (*self.arc().points(), (-half, down_to), (half, down_to))


@dataclass(frozen=True)
class CoverShape:
    """Milled snow over a roof: thickness at the crown; where given, height of its top above the feet at the sides."""

    crown: float
    haunch: float | None = None
    repose: float = 40.0
    """Slope of its sides [degrees]."""

    def top(self, arch: ArchShape) -> float:
        """Highest level of the cover [m]."""
        return arch.crown + self.crown

    def top_line(self, arch: ArchShape) -> tuple[Point, ...]:
        """The top from left to right, its sides falling at the slope of repose to the snow surface."""
        half, high = arch.span / 2, self.top(arch)
        side = high if self.haunch is None else arch.seat + self.haunch
        if high - side > 1e-6:
            bow = ArchShape(arch.span, high - side, side).arc().points()[::-1]
        else:
            bow = ((-half, side), (half, side))
        run = max(side, 0.0) / math.tan(math.radians(self.repose))
        return ((-half - run, min(side, 0.0)), *bow, (half + run, min(side, 0.0))) if side > 0 else bow


def cover_area(arch: ArchShape, cover: CoverShape, bench_half: float, bench: float) -> list[Rings]:
    """The milled snow: below its top line, outside the arch, and in the ground only between the walls of the bench."""
    from shapely import Polygon as Area

    line = cover.top_line(arch)
    wide, level = max(line[-1][0], bench_half), min(line[0][1], 0.0)
    heap = Area([*line, (line[-1][0], bench), (line[0][0], bench)])
    heap = heap.union(Area(rectangle(-bench_half, bench, bench_half, level)))
    above = Area(rectangle(-wide, 0.0, wide, cover.top(arch) + 1.0))
    room = above.union(Area(rectangle(-bench_half, bench, bench_half, 0.0)))
    return rings(heap.intersection(room).difference(Area(arch.inside(bench - 1.0))))


def ground_area(left: float, right: float, low: float, *cut: tuple[Point, ...]) -> list[Rings]:
    """The snow between two sides and a lower level, with the cuts taken out."""
    from shapely import Polygon as Area

    area = Area(rectangle(left, low, right, 0.0))
    for outline in cut:
        area = area.difference(Area(outline).buffer(0))
    return rings(area)


def rings(area: Any) -> list[Rings]:
    """Outer ring and holes of each part of an area."""
    return [
        (tuple(p.exterior.coords)[:-1], tuple(tuple(i.coords)[:-1] for i in p.interiors))
        for p in getattr(area, "geoms", [area])
        if p.geom_type == "Polygon" and not p.is_empty
    ]


def filled(areas: list[Rings], layer: str, pattern: Any, weight: float = 0.0) -> list[Polygon]:
    """Polygons of areas."""
    return [Polygon(outer, layer, weight, pattern, holes) for outer, holes in areas]


def half_width(outline: tuple[Point, ...], level: float) -> float:
    """Half of the width of a symmetric outline at a level.

    >>> half_width(((-2.0, 0.0), (-3.0, -4.0), (3.0, -4.0), (2.0, 0.0)), -2.0)
    2.5
    """
    found = [0.0]
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if min(y0, y1) - 1e-9 <= level <= max(y0, y1) + 1e-9:
            if abs(y1 - y0) < 1e-12:
                found += [x0, x1]
            else:
                found.append(x0 + (x1 - x0) * (level - y0) / (y1 - y0))
    return max(found)
