"""Plan geometry of places: axes, footprints, how a trench meets its passage. East and north in metres."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firnstead.station.build import Section
from firnstead.station.model import Station
from firnstead.station.places import Place, Trench

Point = tuple[float, float]


@dataclass(frozen=True)
class Axis:
    """A straight axis: start, unit direction, length [m]."""

    start: Point
    direction: Point
    length: float

    @property
    def end(self) -> Point:
        """The far end."""
        return self.at(self.length)

    @property
    def bearing(self) -> float:
        """Direction clockwise from grid north [deg]."""
        return math.degrees(math.atan2(self.direction[0], self.direction[1])) % 360

    def at(self, distance: float, left: float = 0.0) -> Point:
        """The point `distance` along the axis and `left` of it."""
        (x, y), (dx, dy) = self.start, self.direction
        return (x + dx * distance - dy * left, y + dy * distance + dx * left)


@dataclass(frozen=True)
class Junction:
    """How a trench meets its passage.

    `gap`: snow left between the passage wall and the trench's start [m] (0 where they overlap);
    `overlap`: length of the trench's axis that lies inside the passage [m].
    """

    gap: float
    overlap: float


def axis(place: Place) -> Axis:
    """The axis of a place from its start and its end, or its bearing and length."""
    x, y = place.start
    if place.end is not None:
        dx, dy = place.end[0] - x, place.end[1] - y
        length = math.hypot(dx, dy)
        return Axis(place.start, (dx / length, dy / length) if length else (0.0, 1.0), length)
    angle = math.radians(place.bearing or 0.0)
    return Axis(place.start, (math.sin(angle), math.cos(angle)), place.length or 0.0)


def widest(section: Section) -> float:
    """Greatest width of a section at any depth [m]."""
    return max(section.top_width + 2 * section.bench_width, section.floor_width)


def footprint(place: Place, section: Section) -> tuple[Point, Point, Point, Point]:
    """Corners of the ground that the cut takes at its widest, in order round it."""
    return rectangle(axis(place), 0.0, axis(place).length, widest(section) / 2)


def rectangle(line: Axis, near: float, far: float, half: float, left: float = 0.0) -> tuple[Point, Point, Point, Point]:
    """Corners of a rectangle along an axis, from `near` to `far`, `half` to each side of a line `left` of it."""
    return (
        line.at(near, left + half),
        line.at(far, left + half),
        line.at(far, left - half),
        line.at(near, left - half),
    )


def shared_depth(a: tuple[Point, ...], b: tuple[Point, ...]) -> float:
    """How deep two rectangles lie in one another [m]: 0 or less when they are apart (separating axes)."""
    depth = math.inf
    for corners in (a, b):
        for (x1, y1), (x2, y2) in ((corners[0], corners[1]), (corners[1], corners[2])):
            length = math.hypot(x2 - x1, y2 - y1)
            if length == 0:
                return -math.inf
            nx, ny = (y1 - y2) / length, (x2 - x1) / length
            pa = [nx * x + ny * y for x, y in a]
            pb = [nx * x + ny * y for x, y in b]
            depth = min(depth, min(max(pa), max(pb)) - max(min(pa), min(pb)))
    return depth


def junction(station: Station, trench: Trench) -> Junction | None:
    """How a trench's start meets the passage it opens into; None if its axis does not lead to one."""
    if trench.opens_into is None:
        return None
    passage = station.passages[trench.opens_into]
    along, line = axis(passage), axis(trench)
    half = widest(station.sections[passage.section]) / 2
    (px, py), (ux, uy) = along.start, along.direction
    (x, y), (dx, dy) = line.start, line.direction
    # the trench's start and direction, seen along the passage (s) and across it (c)
    s, c = (x - px) * ux + (y - py) * uy, -(x - px) * uy + (y - py) * ux
    ds, dc = dx * ux + dy * uy, -dx * uy + dy * ux
    if abs(dc) < 0.05:  # nearly parallel: it cannot open into the passage's side
        return None
    exit_at = (math.copysign(half, dc) - c) / dc  # distance along the trench at which it leaves the passage's wall
    if not -1e-9 <= s + ds * exit_at <= along.length + 1e-9:
        return None
    return Junction(gap=max(0.0, -exit_at), overlap=min(max(0.0, exit_at), line.length))


def cut_length(station: Station, name: str) -> float:
    """Length of a place that is really cut for it [m]: what lies inside its passage, or inside a passage that stands
    before it in the file, is that passage's."""
    place = station.places[name]
    line = axis(place)
    if isinstance(place, Trench):
        met = junction(station, place)
        return line.length - met.overlap if met is not None else line.length
    inside = 0.0
    for other, passage in station.passages.items():
        if other == name:
            break
        inside += length_inside(line, axis(passage), widest(station.sections[passage.section]) / 2)
    return max(0.0, line.length - inside)


def length_inside(line: Axis, other: Axis, half: float) -> float:
    """Length of an axis that lies within `half` of another axis, between that one's ends [m]."""
    (ox, oy), (ux, uy) = other.start, other.direction
    (x, y), (dx, dy) = line.start, line.direction
    low, high = 0.0, line.length
    for at, step, least, most in (
        ((x - ox) * ux + (y - oy) * uy, dx * ux + dy * uy, 0.0, other.length),
        (-(x - ox) * uy + (y - oy) * ux, -dx * uy + dy * ux, -half, half),
    ):
        if abs(step) < 1e-12:
            if not least <= at <= most:
                return 0.0
            continue
        ends = sorted(((least - at) / step, (most - at) / step))
        low, high = max(low, ends[0]), min(high, ends[1])
    return max(0.0, high - low)


def link_length(station: Station, trench: Trench) -> float:
    """Length of the hand-cut way between a trench and its passage [m]; 0 where they touch."""
    met = junction(station, trench)
    return met.gap if met is not None else 0.0
