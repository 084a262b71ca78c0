"""How long the way is between two points of the station along its passages and trenches, place by place."""

from __future__ import annotations

import math
from heapq import heappop, heappush

from firnstead.station import geometry
from firnstead.station.model import Station
from firnstead.station.routes import meeting

Spot = tuple[str, float]  # place, distance along its axis
Leg = tuple[str, float]  # place, length in it [m]
Joints = dict[str, list[tuple[float, Spot, float]]]


def spot_of(station: Station, where: str, at: float | None) -> Spot:
    """The place and the distance along its axis of something in a place or a building."""
    if where in station.buildings:
        building = station.buildings[where]
        return building.place, building.at + station.kits[building.kit].length / 2
    return where, at or 0.0


def joints(station: Station) -> Joints:
    """By place: where it meets another (distance along its axis), that spot, and the way between the two axes [m]."""
    found: Joints = {}
    names = list(station.passages)
    pairs = [(name, trench.opens_into) for name, trench in station.trenches.items() if trench.opens_into is not None]
    pairs += [(a, b) for i, a in enumerate(names) for b in names[i + 1 :]]
    for a, b in pairs:
        met = meeting(station, a, b)
        if met is not None:
            one, other = (geometry.axis(station.places[name]).at(at) for name, at in zip((a, b), met, strict=True))
            between = math.dist(one, other)
            found.setdefault(a, []).append((met[0], (b, met[1]), between))
            found.setdefault(b, []).append((met[1], (a, met[0]), between))
    return found


def way(met: Joints, start: Spot, end: Spot) -> tuple[Leg, ...] | None:
    """The shortest way between two spots along axes, as lengths in each place; None where nothing leads there."""
    queue: list[tuple[float, Spot, tuple[Leg, ...]]] = [(0.0, start, ())]
    seen: set[Spot] = set()
    while queue:
        done, here, legs = heappop(queue)
        if here == end:
            return legs
        if here in seen:
            continue
        seen.add(here)
        place, at = here
        if place == end[0]:
            step = abs(end[1] - at)
            heappush(queue, (done + step, end, _grown(legs, place, step)))
        for own, other, extra in met.get(place, ()):
            if other[0] != end[0] and len(met[other[0]]) < 2:
                continue  # a dead end
            step = abs(own - at) + extra
            heappush(queue, (done + step, other, _grown(legs, place, step)))
    return None


def _grown(legs: tuple[Leg, ...], place: str, length: float) -> tuple[Leg, ...]:
    if legs and legs[-1][0] == place:
        return (*legs[:-1], (place, legs[-1][1] + length))
    return (*legs, (place, length))
