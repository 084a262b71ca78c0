"""From the station file to rooms, openings and fans."""

from __future__ import annotations

from math import acos, ceil, inf, pi, sin

from firnstead.air.case import OUTSIDE, AirCase, Blower, Exchange, Hole, Room
from firnstead.air.draught import duct_coefficient
from firnstead.air.fans import curve_from_duty
from firnstead.air.needs import combustion_air
from firnstead.station import Station
from firnstead.station.air import Air, AirFan, BuildingAir
from firnstead.station.geometry import axis
from firnstead.station.places import Place
from firnstead.station.ways import Way, Ways, floor_depth, walking_network

CELL = 10.0  # m, longest stretch of a place that counts as one room (own rule)
DOORWAY = 0.6  # discharge coefficient of doors, links and gaps (from memory, unchecked)
LEAST_AIR = 0.1  # share of a stretch that is air however full of buildings it is (own rule)
NO_VENTILATION = BuildingAir.model_validate({"supply": "0 m3/s"})
ROOMS_APART = ("building", "niche", "refuge", "portal", "outside")  # nodes that are no part of the walking line


def air_case(station: Station, air: Air, pressure: float) -> AirCase:
    """Rooms, openings, fans and engines of a station."""
    made = _Making(station, air)
    for name in station.places:
        made.stretches(name)
    made.joints(walking_network(station))
    made.buildings()
    made.to_outside()
    made.fans()
    drawn: dict[int, float] = {}
    for engine in air.engines.values():
        if not engine.own_intake:
            room = made.room_at(engine.where, None)
            burnt = combustion_air(engine.power, per_power=engine.air_per_power / 3.6e6)
            drawn[room] = drawn.get(room, 0.0) + burnt
    return AirCase(tuple(made.rooms), tuple(made.holes), tuple(made.blowers), tuple(made.exchanges),
                   tuple(sorted(drawn.items())), pressure, air.wind_speed or 0.0)  # fmt: skip


def free_area(station: Station, place: Place) -> float:
    """Clear cross-section of a place from the floor to the crown [m2]."""
    s, roof = station.sections[place.section], station.roofs[place.roof]
    start = s.bench_depth if s.undercut_from is None else max(s.undercut_from, s.bench_depth)
    below = (start - s.bench_depth) * s.top_width + (s.depth - start) * (s.top_width + s.floor_width) / 2
    return below + _segment(roof.span, roof.rise)


def clear_height(station: Station, place: Place) -> float:
    """Height from the floor to the crown [m]."""
    s = station.sections[place.section]
    return s.depth - s.bench_depth + station.roofs[place.roof].rise


def _segment(span: float, rise: float) -> float:
    """Area between a circular arch and its chord [m2]."""
    radius = (span**2 / 4 + rise**2) / (2 * rise)
    half = acos(max(-1.0, min(1.0, (radius - rise) / radius)))
    return radius**2 * (half - sin(2 * half) / 2)


class _Making:
    """The case while it is being built."""

    def __init__(self, station: Station, air: Air) -> None:
        self.station, self.air = station, air
        self.rooms: list[Room] = []
        self.holes: list[Hole] = []
        self.blowers: list[Blower] = []
        self.exchanges: list[Exchange] = []
        self.edges: dict[str, list[float]] = {}
        self.first: dict[str, int] = {}
        self.inside: dict[str, int] = {}

    def cell(self, place: str, at: float) -> int:
        """The room of a place at a distance along its axis."""
        edges = self.edges[place]
        count = len(edges) - 1
        return self.first[place] + min(max(sum(at >= e for e in edges[1:-1]), 0), count - 1)

    def room_at(self, name: str, at: float | None) -> int:
        """The room of a name: outside, a building, a niche's place, or a place at a distance (else its middle)."""
        if name == OUTSIDE_NAME:
            return OUTSIDE
        if name in self.inside:
            return self.inside[name]
        if name in self.station.niches:
            return self.cell(self.station.niches[name].place, self.station.niches[name].at)
        length = axis(self.station.places[name]).length
        return self.cell(name, length / 2 if at is None else at)

    def stretches(self, name: str) -> None:
        """Rooms along a place and the openings between them."""
        station, place = self.station, self.station.places[name]
        length, area, floor = axis(place).length, free_area(station, place), -floor_depth(station, place)
        count = max(1, ceil(length / CELL - 1e-9))
        edges = [length * i / count for i in range(count + 1)]
        self.edges[name], self.first[name] = edges, len(self.rooms)
        full = [0.0] * count
        for building in station.buildings.values():
            kit = station.kits[building.kit]
            if building.place == name:
                for i in range(count):
                    inside = min(edges[i + 1], building.at + kit.length) - max(edges[i], building.at)
                    full[i] += max(0.0, inside) * kit.width * kit.height
        step, height = length / count, clear_height(station, place)
        for i in range(count):
            gross = area * step
            self.rooms.append(Room(f"{name} {edges[i]:.0f} to {edges[i + 1]:.0f} m", name, "",
                                   max(gross - full[i], LEAST_AIR * gross), floor, None))  # fmt: skip
        wet = 2 * (height + area / height)
        coefficient = duct_coefficient(step, 4 * area / wet, self.air.friction, 0.0)
        for i in range(count - 1):
            k = self.first[name] + i
            self.holes.append(Hole(f"along {name}", "along", k, k + 1, coefficient * area, floor + height / 2))
        gaps = self.air.leakage.get(name, 0.0)
        if gaps:
            level = -station.sections[place.section].bench_depth
            self.holes += [Hole(f"gaps of {name}", "gaps", self.first[name] + i, OUTSIDE, DOORWAY * gaps / count, level)
                           for i in range(count)]  # fmt: skip

    def joints(self, ways: Ways) -> None:
        """Openings between places, as narrow as the narrowest stretch of the way from one to the other."""
        nodes = ways.nodes
        areas: dict[tuple[str, str], float] = {}
        spots: dict[tuple[str, str], tuple[int, int]] = {}
        inner: dict[str, float] = {}
        for way in ways.ways:
            a, b = nodes[way.a], nodes[way.b]
            if a.kind in ROOMS_APART or b.kind in ROOMS_APART:
                continue
            if a.place == b.place:
                if way.kind in ("link", "door"):
                    inner[a.place] = min(inner.get(a.place, inf), _area(way))
                continue
            key = (a.place, b.place)
            areas[key] = areas.get(key, 0.0) + _area(way)
            spots[key] = (self.cell(a.place, a.at), self.cell(b.place, b.at))
        for key, area in areas.items():
            trench = next((n for n in key if n in self.station.trenches), None)
            if trench is not None:
                area = min(area, inner.get(trench, inf))
            door = self.air.doors.get(trench) if trench is not None else None
            if door is not None and not door.open:
                area = door.leakage
            if area > 0:
                i, j = spots[key]
                level = max(self.rooms[i].floor, self.rooms[j].floor) + 1.0
                self.holes.append(Hole(f"{key[0]} to {key[1]}", "joint", i, j, DOORWAY * area, level))

    def buildings(self) -> None:
        """Buildings as rooms, with their gaps and their own ventilation."""
        station = self.station
        for name, building in station.buildings.items():
            kit, own = station.kits[building.kit], self.air.kits.get(building.kit, NO_VENTILATION)
            place = station.places[building.place]
            floor = -floor_depth(station, place) + kit.footing_height
            cell = self.cell(building.place, building.at + kit.length / 2)
            here = self.inside[name] = len(self.rooms)
            self.rooms.append(Room(name, building.place, name, own.air_share * kit.length * kit.width * kit.height,
                                   floor, own.temperature))  # fmt: skip
            if own.leakage > 0:
                self.holes.append(
                    Hole(f"gaps of {name}", "building", cell, here, DOORWAY * own.leakage, floor + kit.height / 2)
                )
            if own.supply > 0:
                self.exchanges.append(Exchange(here, cell if own.draws_from == "place" else OUTSIDE, own.supply))

    def to_outside(self) -> None:
        """Vents, portals and hatches."""
        station = self.station
        for name, vent in self.air.vents.items():
            self.holes.append(Hole(name, "vent", self.cell(vent.place, vent.at), OUTSIDE, vent.coefficient * vent.area,
                                   vent.top, vent.wind_coefficient, vent.shut_when_warmer))  # fmt: skip
        for name, door in self.air.doors.items():
            if name in station.portals:
                portal = station.portals[name]
                place = station.places[portal.place]
                cell = self.cell(portal.place, axis(place).length if portal.at == "end" else 0.0)
                area, level = portal.width * portal.height, -floor_depth(station, place) + portal.height / 2
            elif name in station.hatches:
                hatch = station.hatches[name]
                cell = self.cell(hatch.place, hatch.at)
                area, level = pi / 4 * station.hatchways[hatch.kind].diameter ** 2, 0.0
            else:
                continue
            area = area if door.open else door.leakage
            if area > 0:
                self.holes.append(Hole(name, "door", cell, OUTSIDE, DOORWAY * area, level, wind=door.wind_coefficient))

    def fans(self) -> None:
        """Fans with their ducts."""
        for name, fan in self.air.fans.items():
            a, b = self.room_at(fan.draws_from, fan.at), self.room_at(fan.blows_into, fan.at)
            level = fan.opening_height if b == OUTSIDE else self.rooms[b].floor
            self.blowers.append(Blower(name, a, b, fan_curve(fan), fan.stated_at, _duct(fan), level,
                                       fan.wind_coefficient, fan.damper))  # fmt: skip


OUTSIDE_NAME = "outside"


def fan_curve(fan: AirFan) -> tuple[tuple[float, float], ...]:
    """The curve of a fan; from its one point where the file gives no more."""
    if fan.curve:
        return fan.curve
    return curve_from_duty(fan.flow or 0.0, fan.pressure or 0.0)


def _duct(fan: AirFan) -> float:
    if fan.duct is None:
        return inf
    d = fan.duct
    return duct_coefficient(d.length, d.diameter, d.friction, d.losses) * pi / 4 * d.diameter**2


def _area(way: Way) -> float:
    return way.width * way.height
