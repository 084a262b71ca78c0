"""The cells and openings of a station for the smoke, from the ways people walk and the sections of the places."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass

import numpy as np

from firnstead.fire._arrays import Array, Flags
from firnstead.fire.network import Network
from firnstead.station import Station
from firnstead.station.fire import Fire, FireDoor
from firnstead.station.places import Place
from firnstead.station.ways import Node, Way, Ways, walking_network

INDOORS = 293.15  # K in buildings (own rule)


@dataclass(frozen=True, eq=False)
class Model:
    """The network with what the study must know of it: place, air temperature and kind of each cell, doors.

    `tall` is the height of each opening, `lines` the cells of each walking line; `cell_of` gives the cell of a walking
    node (outside: none); `door_of` the opening of each fire door;
    `building_ways` the openings that are the doors of each building.
    """

    network: Network
    ways: Ways
    place: tuple[str, ...]
    kind: tuple[str, ...]
    at: tuple[float, ...]
    ambient: Array
    tall: Array
    lines: Mapping[str, tuple[int, ...]]
    cell_of: Mapping[str, int]
    door_of: Mapping[str, int]
    building_ways: Mapping[str, tuple[int, ...]]

    def cells_in(self, place: str) -> Flags:
        """The cells of a place, buildings and its mouth on the passage's side left out."""
        rooms, names = self.building_ways, self.network.names
        return np.array([p == place and names[i] not in rooms and self.at[i] >= 0 for i, p in enumerate(self.place)])

    def here(self, place: str) -> Flags:
        """The cells of a place and of its buildings."""
        return np.array([p == place for p in self.place])

    def nearest(self, place: str, at: float) -> int:
        """The cell on a place's walking line nearest to a distance along its axis."""
        return min(self.lines[place], key=lambda i: abs(self.at[i] - at))

    def spot(self, name: str, at: float | None) -> int:
        """The cell of a building, or the one nearest to a distance along a place."""
        return self.cell_of[name] if name in self.building_ways else self.nearest(name, at or 0.0)


def network_key(station: Station, fire: Fire) -> Hashable:
    """Everything the network depends on, by value."""
    kits = tuple((n, k.length, k.width, k.height, k.doors, k.door_width) for n, k in station.kits.items())
    groups = ("passages", "trenches", "sections", "roofs", "buildings", "end_walls", "portals", "hatches", "niches")
    escape = station.escape
    return (
        *(tuple(getattr(station, group).items()) for group in groups), kits,
        tuple(fire.doors.items()), tuple(fire.detectors.items()), tuple(fire.extinguishers.items()),
        tuple(fire.alarm_points.items()), tuple(fire.stores.items()), tuple(fire.scenarios.items()),
        fire.building_leakage, () if escape is None else tuple(escape.refuges))  # fmt: skip


def marks(station: Station, fire: Fire) -> dict[str, tuple[float, ...]]:
    """Points that the walking network must have: where things hang, doors stand and fires start."""
    found: dict[str, set[float]] = {}
    for group in (fire.detectors, fire.alarm_points, fire.extinguishers, fire.stores, fire.scenarios):
        for item in group.values():
            if item.place is not None and item.at is not None and item.place in station.places:
                found.setdefault(item.place, set()).add(float(item.at))
    return {place: tuple(sorted(at)) for place, at in found.items()}


def model_of(station: Station, fire: Fire) -> Model:
    """Build cells and openings."""
    ways = walking_network(station, extra=marks(station, fire))
    inside = [i for i, node in enumerate(ways.nodes) if node.kind != "outside"]
    number = {node: cell for cell, node in enumerate(inside)}
    kept = [way for way in ways.ways if way.a in number and way.b in number]
    nodes = [ways.nodes[i] for i in inside]
    beside = _beside(station)
    shapes = [_shape(station, ways, way, beside) for way in kept]
    area = np.array([shape[0] for shape in shapes])
    height = np.array([shape[1] for shape in shapes])
    length = np.array([way.length for way in kept])
    held = np.array([shape[2] for shape in shapes])
    a, b = (np.array([number[end] for end in ends]) for ends in zip(*((w.a, w.b) for w in kept), strict=True))
    count = len(inside)
    volume, tall = np.zeros(count), np.zeros(count)
    least = np.full(count, np.inf)
    for end in (a, b):
        np.add.at(volume, end, held / 2)
        np.add.at(tall, end, held / 2 * height)
        np.minimum.at(least, end, height)
    cell_height = np.where(volume > 0, tall / np.maximum(volume, 1e-12), least)
    building_ways: dict[str, list[int]] = {}
    for i, node in enumerate(nodes):
        if node.name in station.buildings:
            kit = station.kits[station.buildings[node.name].kit]
            volume[i], cell_height[i] = kit.length * kit.width * kit.height, kit.height
            building_ways[node.name] = [e for e, way in enumerate(kept) if number[way.a] == i or number[way.b] == i]
    opening, leak, tall_of = area.copy(), area.copy(), height.copy()
    for ways_of in building_ways.values():
        leak[ways_of] = fire.building_leakage
    door_of: dict[str, int] = {}
    for name, door in fire.doors.items():
        which = _way_of(station, ways, kept, door)
        if which is None:
            continue
        door_of[name] = which
        opening[which] = min(opening[which], door.width * door.height)
        tall_of[which] = min(tall_of[which], door.height)
        leak[which] = opening[which] if door.open else min(door.leakage, opening[which])
    outlets = tuple(i for i, node in enumerate(nodes) if node.kind == "portal") or tuple(
        i for i, node in enumerate(nodes) if node.kind == "hatch")  # fmt: skip
    network = Network(
        tuple(node.name for node in nodes), volume, cell_height, a, b, length,
        area / height, opening, leak, outlets)  # fmt: skip
    ambient = np.array([INDOORS if n.name in station.buildings else station.places[n.place].air for n in nodes])
    lines: dict[str, tuple[int, ...]] = {}
    for i, node in enumerate(nodes):
        if node.kind in ("point", "junction"):
            lines[node.place] = (*lines.get(node.place, ()), i)
    return Model(
        network, ways, tuple(n.place for n in nodes), tuple(n.kind for n in nodes), tuple(n.at for n in nodes), ambient,
        tall_of, lines,
        {n.name: i for i, n in enumerate(nodes)}, door_of, {n: tuple(w) for n, w in building_ways.items()})  # fmt: skip


def air_section(station: Station, place: Place) -> float:
    """Area of a place's section from floor to crown, from its seat up as a parabola [m2]."""
    section, roof = station.sections[place.section], station.roofs[place.roof]
    below = section.depth - section.bench_depth
    if section.kind == "undercut" and section.undercut_from is not None:
        upright = max(0.0, section.undercut_from - section.bench_depth)
        sloping = below - upright
        cut = section.top_width * upright + (section.top_width + section.floor_width) / 2 * sloping
    else:
        cut = section.top_width * below
    return cut + 2 / 3 * roof.span * roof.rise


def _beside(station: Station) -> dict[str, list[tuple[float, float, float]]]:
    """Stretches of places that buildings take up: from, to, area of their section [m2]."""
    found: dict[str, list[tuple[float, float, float]]] = {}
    for building in station.buildings.values():
        kit = station.kits[building.kit]
        found.setdefault(building.place, []).append((building.at, building.at + kit.length, kit.width * kit.height))
    return found


def _shape(
    station: Station, ways: Ways, way: Way, beside: Mapping[str, list[tuple[float, float, float]]]
) -> tuple[float, float, float]:
    """Area of the air that a way passes [m2], its height [m], the air it holds [m3]."""
    a, b = ways.nodes[way.a], ways.nodes[way.b]
    if way.kind in ("trench", "passage") and a.place == b.place:
        area = air_section(station, station.places[a.place])
        middle = (a.at + b.at) / 2
        taken = next((s for near, far, s in beside.get(a.place, ()) if near < middle < far), 0.0)
        area = max(area - taken, area / 10)
        return area, way.height, area * abs(b.at - a.at)
    area = way.width * way.height
    if a.name in station.buildings or b.name in station.buildings or way.kind in ("trench", "passage"):
        return area, way.height, 0.0  # a doorway, or a step across a passage whose air is counted already
    return area, way.height, area * way.length


def _way_of(station: Station, ways: Ways, kept: list[Way], door: FireDoor) -> int | None:
    """The way that a fire door stands in."""

    def nodes(way: Way) -> tuple[Node, Node]:
        return ways.nodes[way.a], ways.nodes[way.b]

    if door.at is not None:
        on = [i for i, w in enumerate(kept) if w.kind in ("trench", "passage")
              and all(n.place == door.place and n.kind in ("point", "junction") for n in nodes(w))]  # fmt: skip
        fits = [i for i in on if min(n.at for n in nodes(kept[i])) - 1e-9 <= door.at
                <= max(n.at for n in nodes(kept[i])) + 1e-9]  # fmt: skip
        return next(iter(fits), None)
    links = [i for i, w in enumerate(kept) if w.kind == "link" and all(n.kind == "point" and n.place == door.place
                                                                        for n in nodes(w))]  # fmt: skip
    mouths = [i for i, w in enumerate(kept) if door.place in {n.place for n in nodes(w)}
              and len({n.place for n in nodes(w)}) == 2]  # fmt: skip
    return next(iter((*links, *mouths)), None)
