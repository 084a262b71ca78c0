"""What the plan is drawn from: places as strips, outlines, hatches and ramps; east and north in metres."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firnstead.core.results import Verdict
from firnstead.drawings.figure import Point


@dataclass(frozen=True)
class Strip:
    """A passage or trench seen from above: axis from `start` to `end`, `width` at its widest [m]."""

    name: str
    start: Point
    end: Point
    width: float
    passage: bool = False
    verdict: Verdict | None = None
    """Worst verdict of the place; None draws it plain."""

    def at(self, along: float, left: float = 0.0) -> Point:
        """The point `along` the axis and `left` of it [m]."""
        (x, y), length = self.start, self.length or 1.0
        dx, dy = (self.end[0] - x) / length, (self.end[1] - y) / length
        return (x + dx * along - dy * left, y + dy * along + dx * left)

    @property
    def length(self) -> float:
        """Length of the axis [m]."""
        return math.dist(self.start, self.end)

    def near(self, point: Point, reach: float) -> bool:
        """Does the point lie in the strip or within `reach` of it?"""
        x, y = point[0] - self.start[0], point[1] - self.start[1]
        length = self.length or 1.0
        ux, uy = (self.end[0] - self.start[0]) / length, (self.end[1] - self.start[1]) / length
        along, across = x * ux + y * uy, abs(y * ux - x * uy)
        return -reach <= along <= self.length + reach and across <= self.width / 2 + reach

    def outline(self) -> tuple[Point, ...]:
        """The four corners."""
        half = self.width / 2
        return (self.at(0, half), self.at(self.length, half), self.at(self.length, -half), self.at(0, -half))


@dataclass(frozen=True)
class Outline:
    """Something with corners: a building, a link, a niche or a ramp."""

    name: str
    corners: tuple[Point, ...]


@dataclass(frozen=True)
class HatchMark:
    """An escape hatch."""

    name: str
    at: Point
    diameter: float = 0.9


@dataclass(frozen=True)
class Ramp:
    """A way in: from the foot at the portal up to the surface."""

    name: str
    foot: Point
    top: Point
    width: float


@dataclass(frozen=True)
class PlanInput:
    """All that the plan shows."""

    station: str
    strips: tuple[Strip, ...] = ()
    buildings: tuple[Outline, ...] = ()
    links: tuple[Outline, ...] = ()
    niches: tuple[Outline, ...] = ()
    hatches: tuple[HatchMark, ...] = ()
    ramps: tuple[Ramp, ...] = ()
    storm_wind_from: float | None = None
    """Degrees clockwise from grid north."""
    units: str = "metric"
