"""Where shafts go down, and how far they are from cuts, seen in plan."""

from __future__ import annotations

import math

from firnstead.station import geometry
from firnstead.station.geometry import Point
from firnstead.station.model import Station
from firnstead.station.water import Spot


def spot_point(station: Station, spot: Spot) -> Point | None:
    """East and north of a shaft; none where its niche is not known."""
    if spot.at is not None:
        return spot.at
    niche = station.niches.get(spot.niche or "")
    if niche is None or niche.place not in station.places:
        return None
    place = station.places[niche.place]
    out = station.sections[place.section].floor_width / 2 + niche.depth / 2
    return geometry.axis(place).at(niche.at, out if niche.side == "left" else -out)


def spot_place(station: Station, spot: Spot) -> str:
    """The place beside which a shaft goes down; empty on the open snow."""
    niche = station.niches.get(spot.niche or "")
    return niche.place if niche is not None else ""


def head_depth(station: Station, spot: Spot) -> float:
    """Depth of the shaft's head below the snow surface [m]: the floor of its niche, or 0."""
    name = spot_place(station, spot)
    return floor_depth(station, name) if name in station.places else 0.0


def floor_depth(station: Station, name: str) -> float:
    """Depth of a place's floor below the snow surface [m]."""
    place = station.places[name]
    return station.sections[place.section].depth if place.floor_level is None else -place.floor_level


def distance_to_cut(station: Station, name: str, point: Point) -> float:
    """Distance from a point to the ground that a place takes [m]; 0 inside it."""
    place = station.places[name]
    line = geometry.axis(place)
    half = geometry.widest(station.sections[place.section]) / 2
    (x, y), (dx, dy) = line.start, line.direction
    along = (point[0] - x) * dx + (point[1] - y) * dy
    across = abs(-(point[0] - x) * dy + (point[1] - y) * dx)
    return math.hypot(max(0.0, -along, along - line.length), max(0.0, across - half))
