"""Routes along the axes of places: the way from point to point, its length, bends and levels."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from firnstead.station import geometry
from firnstead.station.geometry import Axis, Point
from firnstead.station.model import Station
from firnstead.station.places import Place, Trench


class OnRoute(Protocol):
    """A point of a route: a place, how far along its axis, how high above its floor."""

    @property
    def place(self) -> str:
        """Name of the place."""

    @property
    def at(self) -> float | None:
        """Distance along the axis [m]."""

    @property
    def height(self) -> float | None:
        """Height above the floor [m]."""


@dataclass(frozen=True)
class Stretch:
    """A straight piece of a route in one place; `upper` and `lower` are the levels of its ends, None if not told."""

    place: str
    length: float
    direction: Point
    upper: float | None
    lower: float | None


@dataclass(frozen=True)
class _Node:
    place: str  # of the stretch that leads to it
    point: Point
    level: float | None


def floor_level(station: Station, place: Place) -> float:
    """Level of a place's floor; the snow surface is 0."""
    return -station.sections[place.section].depth if place.floor_level is None else place.floor_level


def stretches(station: Station, route: Sequence[OnRoute]) -> tuple[Stretch, ...] | str:
    """The straight pieces of a route in order, or why it cannot be followed."""
    places = station.places
    if len(route) < 2 or route[0].at is None or route[-1].at is None:
        return "the route needs at least two points, and `at` for its first and its last"
    axes = {p.place: geometry.axis(places[p.place]) for p in route}
    nodes = [_node(station, route[0], axes)]
    for a, b in zip(route, route[1:], strict=False):
        if a.place != b.place:
            met = meeting(station, a.place, b.place)
            if met is None:
                return f"{a.place!r} does not meet {b.place!r}"
            at_a, at_b = met
            trench = b.place if isinstance(places[b.place], Trench) else a.place
            nodes += [_Node(a.place, axes[a.place].at(at_a), None), _Node(trench, axes[b.place].at(at_b), None)]
        if b.at is not None:
            nodes.append(_node(station, b, axes))
    return _joined(_levelled(nodes))


def meeting(station: Station, a: str, b: str) -> tuple[float, float] | None:
    """Where two places meet: distance along the axis of each, none if they do not."""
    one, other = station.places[a], station.places[b]
    line, along = geometry.axis(one), geometry.axis(other)
    if isinstance(one, Trench) and isinstance(other, Trench):
        return None
    for trench, passage in ((one, b), (other, a)):
        if isinstance(trench, Trench) and (trench.opens_into != passage or geometry.junction(station, trench) is None):
            return None
    reach = (_half(station, one) + _half(station, other) + 1.0) if not isinstance(one, Trench) else math.inf
    reach = math.inf if isinstance(other, Trench) else reach
    (x, y), (dx, dy), (ox, oy), (ux, uy) = line.start, line.direction, along.start, along.direction
    cross = dx * uy - dy * ux
    if abs(cross) < 0.05:  # in line with one another: they meet if their ends do
        pairs = [(s, t) for s in (0.0, line.length) for t in (0.0, along.length)]
        gap, best = min((math.dist(line.at(s), along.at(t)), (s, t)) for s, t in pairs)
        return best if gap <= reach else None
    s = ((ox - x) * uy - (oy - y) * ux) / cross
    t = ((ox - x) * dy - (oy - y) * dx) / cross
    near_s, near_t = min(max(s, 0.0), line.length), min(max(t, 0.0), along.length)
    if abs(s - near_s) > reach or abs(t - near_t) > reach:
        return None
    return near_s, near_t


def straights(pieces: Sequence[Stretch]) -> tuple[float, ...]:
    """Lengths between bends [m]."""
    found: list[tuple[Point, float]] = []
    for piece in pieces:
        if found and _same(found[-1][0], piece.direction):
            found[-1] = (piece.direction, found[-1][1] + piece.length)
        else:
            found.append((piece.direction, piece.length))
    return tuple(length for _, length in found)


def _half(station: Station, place: Place) -> float:
    return geometry.widest(station.sections[place.section]) / 2


def _same(a: Point, b: Point) -> bool:
    return a[0] * b[0] + a[1] * b[1] > 0.99


def _node(station: Station, point: OnRoute, axes: dict[str, Axis]) -> _Node:
    level = None if point.height is None else floor_level(station, station.places[point.place]) + point.height
    return _Node(point.place, axes[point.place].at(point.at or 0.0), level)


def _levelled(nodes: list[_Node]) -> list[_Node]:
    """Put the levels between two known ones on a straight line."""
    along = [0.0]
    for a, b in zip(nodes, nodes[1:], strict=False):
        along.append(along[-1] + math.dist(a.point, b.point))
    known = [i for i, node in enumerate(nodes) if node.level is not None]
    found = list(nodes)
    for i, k in zip(known, known[1:], strict=False):
        low, high, run = nodes[i].level or 0.0, nodes[k].level or 0.0, along[k] - along[i]
        for j in range(i + 1, k):
            share = (along[j] - along[i]) / run if run > 0 else 0.0
            found[j] = replace(nodes[j], level=low + (high - low) * share)
    return found


def _joined(nodes: list[_Node]) -> tuple[Stretch, ...]:
    made: list[Stretch] = []
    for a, b in zip(nodes, nodes[1:], strict=False):
        flat = math.dist(a.point, b.point)
        rise = (b.level - a.level) if a.level is not None and b.level is not None else 0.0
        length = math.hypot(flat, rise)
        if length < 1e-9:
            continue
        direction = ((b.point[0] - a.point[0]) / flat, (b.point[1] - a.point[1]) / flat) if flat > 1e-9 else (0.0, 0.0)
        made.append(Stretch(b.place, length, direction, a.level, b.level))
    return tuple(made)
