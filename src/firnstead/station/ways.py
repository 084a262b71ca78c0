"""The ways people walk: points, doors, ladders and ramps of a station as one network, from its geometry alone.

The walking line follows each axis; where buildings stand it runs in the aisle beside them. Lengths are metres along
that line, widths are clear widths, slopes are degrees up from the way's first node to its second.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from firnstead.station.geometry import axis, junction, widest
from firnstead.station.model import Station
from firnstead.station.places import Building, Passage, Place, Trench

SPACING = 10.0  # m between points of an axis, at most
COLLAR = 0.5  # m that a hatch's lid stands above the snow (own rule)
TOUCH = 0.05  # m; less than this apart is the same point
LEAST_SLOPE = 0.1  # deg; a flatter ramp is taken as this steep


@dataclass(frozen=True)
class Node:
    """A spot people can be at. `place` is the place's name in the file, `at` the distance along its axis [m]; x east,
    y north, z up from the snow surface [m].

    Kinds: "point" (on a walking line), "junction" (where another place opens), "building" (its inside), "niche",
    "refuge" (a building or niche that the file names as one), "hatch" (foot of the ladder), "portal" (in its opening),
    "outside" (on the snow, one for every exit).
    """

    name: str
    place: str
    kind: str
    x: float
    y: float
    z: float
    at: float = 0.0


@dataclass(frozen=True)
class Way:
    """A stretch between two nodes. Kinds: "passage", "trench", "link", "door", "ladder", "ramp"."""

    a: int
    b: int
    length: float
    width: float
    height: float
    slope: float
    kind: str
    place: str


@dataclass(frozen=True)
class Ways:
    """The whole network. By name of the file: `exits` gives the outside node of every hatch and portal, `inside` the
    node of every hatch, portal, niche and building itself, `doors` the point of the walking line that each of them is
    reached from (a building may have two)."""

    nodes: tuple[Node, ...]
    ways: tuple[Way, ...]
    exits: Mapping[str, int]
    inside: Mapping[str, int]
    doors: Mapping[str, tuple[int, ...]]

    def index(self, name: str) -> int:
        """The number of a node."""
        return next(i for i, node in enumerate(self.nodes) if node.name == name)


def walking_network(
    station: Station,
    *,
    spacing: float = SPACING,
    age: float = 0.0,
    extra: Mapping[str, tuple[float, ...]] | None = None,
) -> Ways:
    """Build the network. `age` [s] after handing over lifts the snow surface, so ladders and ramps grow; `extra` are
    more points along the axes, by place."""
    made = _Making(station, age)
    for name in station.places:
        made.walking_line(name, spacing, (extra or {}).get(name, ()))
    for name, trench in station.trenches.items():
        made.mouth(name, trench)
    passages = list(station.passages)
    for i, a in enumerate(passages):
        for b in passages[i + 1 :]:
            made.crossing(a, b)
    made.portals()
    made.hatches()
    made.niches()
    made.buildings()
    return Ways(tuple(made.nodes), tuple(made.ways), made.exits, made.inside, made.doors)


def climb(station: Station, place: Place, age: float = 0.0) -> float:
    """Height of a hatch's ladder from the floor to the lid above the cover, which grows with `age` [m]."""
    section, roof = station.sections[place.section], station.roofs[place.roof]
    cover = max(0.0, roof.rise + roof.cover - section.bench_depth)
    return floor_depth(station, place) + cover + rise(station, place, age) + COLLAR


def rise(station: Station, place: Place, age: float) -> float:
    """How far the snow surface over a place has risen after `age` [m]; settling is not taken off."""
    factor = station.design.drift_factor if place.drift_factor is None else place.drift_factor
    return factor * station.site.accumulation_mass / station.snow.surface_density * age


def floor_depth(station: Station, place: Place) -> float:
    """Depth of the floor below the snow surface [m]."""
    return station.sections[place.section].depth if place.floor_level is None else -place.floor_level


def aisle(station: Station, building: Building) -> float:
    """Clear width beside a building, on one side [m]; 0 where it fills the floor."""
    floor = station.sections[station.places[building.place].section].floor_width
    return max(0.0, (floor - station.kits[building.kit].width) / 2)


def _first(place: Passage | Trench, station: Station) -> float:
    """Distance along the axis at which a place's own walking line starts [m]."""
    met = junction(station, place) if isinstance(place, Trench) else None
    return met.overlap if met is not None else 0.0


@dataclass
class _Making:
    """The network while it is being built."""

    station: Station
    age: float
    nodes: list[Node] = field(default_factory=list)
    ways: list[Way] = field(default_factory=list)
    lines: dict[str, list[int]] = field(default_factory=dict)
    exits: dict[str, int] = field(default_factory=dict)
    inside: dict[str, int] = field(default_factory=dict)
    doors: dict[str, tuple[int, ...]] = field(default_factory=dict)
    names: set[str] = field(default_factory=set)

    def node(self, name: str, place: str, kind: str, at: float, left: float = 0.0, up: float = 0.0) -> int:
        """Add a node beside an axis."""
        base, count = name, 1
        while name in self.names:  # the file may use one name for two things
            name, count = f"{base} ({kind}{f' {count}' if count > 1 else ''})", count + 1
        self.names.add(name)
        spot = self.station.places[place]
        x, y = axis(spot).at(at, left)
        self.nodes.append(Node(name, place, kind, x, y, up - floor_depth(self.station, spot), at))
        return len(self.nodes) - 1

    def way(self, a: int, b: int, width: float, height: float, kind: str, length: float | None = None) -> None:
        """Join two nodes; the length is the straight one unless given."""
        p, q = self.nodes[a], self.nodes[b]
        run, up = math.hypot(q.x - p.x, q.y - p.y), q.z - p.z
        length = math.hypot(run, up) if length is None else length
        self.ways.append(Way(a, b, length, width, height, math.degrees(math.atan2(up, run)), kind, p.place))

    def height(self, name: str) -> float:
        """Clear height from the floor to the crown."""
        place = self.station.places[name]
        section, roof = self.station.sections[place.section], self.station.roofs[place.roof]
        return floor_depth(self.station, place) - section.bench_depth + roof.rise

    def kind(self, name: str) -> str:
        """What ways along a place are called."""
        return "passage" if name in self.station.passages else "trench"

    def beside(self, name: str) -> list[tuple[float, float, float]]:
        """Stretches of a place where buildings stand: from, to, width of the aisle."""
        kits = self.station.kits
        return [(b.at, b.at + kits[b.kit].length, aisle(self.station, b))
                for b in self.station.buildings.values() if b.place == name]  # fmt: skip

    def walking_line(self, name: str, spacing: float, extra: tuple[float, ...]) -> None:
        """Points along a place: ends, doors, hatches, niches, mouths, and between them at most `spacing` apart."""
        station, place = self.station, self.station.places[name]
        near, far = _first(place, station), axis(place).length
        stretches = self.beside(name)
        floor = station.sections[place.section].floor_width
        marks = [*extra, *(at for a, b, _ in stretches for at in (a, b))]
        marks += [
            item.at for group in (station.hatches, station.niches) for item in group.values() if item.place == name
        ]
        if name in station.passages:
            marks += [at for trench in station.trenches.values() if trench.opens_into == name
                      for at in [self.meets(trench)] if at is not None]  # fmt: skip
            marks += [at for other in station.passages if other != name
                      for at in [self.crosses(name, other)] if at is not None]  # fmt: skip
        first, last = (min(a for a, _, _ in stretches), max(b for _, b, _ in stretches)) if stretches else (0.0, -1.0)
        wide = min((a for _, _, a in stretches), default=0.0)
        before = None
        for at in _filled([near, *(m for m in marks if near < m < far), far], spacing):
            left = (floor - wide) / 2 if first - TOUCH <= at <= last + TOUCH else 0.0
            here = self.node(f"{name} at {at:.1f} m", name, "point", at, left)
            if before is not None:
                middle = (self.nodes[before].at + at) / 2
                width = min((w for a, b, w in stretches if a < middle < b), default=floor)
                self.way(before, here, width, self.height(name), self.kind(name))
            self.lines.setdefault(name, []).append(here)
            before = here

    def nearest(self, name: str, at: float) -> int:
        """The point of a place's walking line nearest to a distance along its axis."""
        return min(self.lines[name], key=lambda i: abs(self.nodes[i].at - at))

    def meets(self, trench: Trench) -> float | None:
        """Distance along its passage at which a trench opens into it."""
        if trench.opens_into is None or junction(self.station, trench) is None:
            return None
        line, along = axis(trench), axis(self.station.passages[trench.opens_into])
        found = _meeting(along.start, along.direction, line.start, line.direction)
        return None if found is None else min(max(found[0], 0.0), along.length)

    def crosses(self, name: str, other: str) -> float | None:
        """Distance along a passage at which it meets another one; None where they do not touch."""
        a, b = (axis(self.station.passages[n]) for n in (name, other))
        half_a, half_b = (widest(self.station.sections[self.station.passages[n].section]) / 2 for n in (name, other))
        found = _meeting(a.start, a.direction, b.start, b.direction)
        if found is not None:
            t, u = found
            sine = abs(a.direction[0] * b.direction[1] - a.direction[1] * b.direction[0])
            reach_a, reach_b = half_b / sine + TOUCH, half_a / sine + TOUCH
            if -reach_a <= t <= a.length + reach_a and -reach_b <= u <= b.length + reach_b:
                return min(max(t, 0.0), a.length)
            return None
        for x, y in (b.start, b.end):  # end to end or side by side
            rx, ry = x - a.start[0], y - a.start[1]
            t, off = rx * a.direction[0] + ry * a.direction[1], ry * a.direction[0] - rx * a.direction[1]
            if -TOUCH <= t <= a.length + TOUCH and abs(off) <= half_a + half_b + TOUCH:
                return min(max(t, 0.0), a.length)
        return None

    def mark_junction(self, i: int) -> int:
        """Call a point a junction."""
        n = self.nodes[i]
        self.nodes[i] = Node(n.name, n.place, "junction", n.x, n.y, n.z, n.at)
        return i

    def mouth(self, name: str, trench: Trench) -> None:
        """Join a trench to its passage: across the passage, through the hand-cut link, through a wall's doorway."""
        at, met = self.meets(trench), junction(self.station, trench)
        if at is None or met is None or trench.opens_into is None:
            return
        doorway = self.doorway(name, "start")
        if doorway is None:
            return
        passage, start = trench.opens_into, self.lines[name][0]
        hub = self.mark_junction(self.nearest(passage, at))
        floor = self.station.sections[trench.section].floor_width
        # the step between the two floors lies in the link: its mouth is level with the passage
        step = floor_depth(self.station, trench) - floor_depth(self.station, self.station.passages[passage])
        apart = met.gap > TOUCH
        wall = self.node(f"{name} mouth", name, "point", met.overlap - met.gap, up=step) if apart else start
        if wall == start:
            open_way = doorway == (math.inf, math.inf)
            width, height = (floor, self.height(passage)) if open_way else doorway
            self.way(hub, wall, width, height, "passage" if open_way else "door")
        else:
            self.way(hub, wall, self.link(trench)[0], self.height(passage), "passage")
        if wall != start:
            width, height = self.link(trench)
            inner = start
            if doorway != (math.inf, math.inf):
                inner = self.node(f"{name} door", name, "point", 0.0)
                self.way(inner, start, doorway[0], doorway[1], "door")
            self.way(wall, inner, width, height, "link")

    def link(self, trench: Trench) -> tuple[float, float]:
        """Clear width and height of the hand-cut way; nothing where the file gives none."""
        return (trench.link.width, trench.link.height) if trench.link is not None else (0.0, 0.0)

    def doorway(self, name: str, end: str) -> tuple[float, float] | None:
        """Clear opening at an end of a place: unlimited without a wall, None with a wall that has no doorway."""
        for wall in self.station.end_walls.values():
            if wall.place == name and wall.at == end:
                return None if wall.door is None else (wall.door.width, wall.door.height)
        return (math.inf, math.inf)

    def crossing(self, a: str, b: str) -> None:
        """Join two passages that meet."""
        ta, tb = self.crosses(a, b), self.crosses(b, a)
        if ta is None or tb is None:
            return
        width, height = math.inf, math.inf
        for name, t in ((a, ta), (b, tb)):
            place = self.station.places[name]
            width = min(width, self.station.sections[place.section].floor_width)
            end = "start" if t < TOUCH else "end" if t > axis(place).length - TOUCH else ""
            opening = self.doorway(name, end) if end else (math.inf, math.inf)
            if opening is None:
                return
            width, height = min(width, opening[0]), min(height, opening[1], self.height(name))
        hubs = [self.mark_junction(self.nearest(name, t)) for name, t in ((a, ta), (b, tb))]
        self.way(hubs[0], hubs[1], width, height, "passage")

    def portals(self) -> None:
        """Portals with their ramps up to the snow."""
        for name, portal in self.station.portals.items():
            place = self.station.places[portal.place]
            at = axis(place).length if portal.at == "end" else _first(place, self.station)
            foot = self.nearest(portal.place, at)
            door = self.node(name, portal.place, "portal", at)
            self.way(foot, door, portal.width, portal.height, "door")
            up = floor_depth(self.station, place) + rise(self.station, place, self.age)
            run = up / math.tan(math.radians(max(portal.slope, LEAST_SLOPE)))
            top = self.node(
                f"outside {name}", portal.place, "outside", at + (run if portal.at == "end" else -run), up=up
            )
            self.way(door, top, portal.width, portal.height, "ramp")
            self.exits[name], self.inside[name], self.doors[name] = top, door, (foot,)

    def hatches(self) -> None:
        """Hatches with their ladders."""
        for name, hatch in self.station.hatches.items():
            place = self.station.places[hatch.place]
            foot = self.nearest(hatch.place, hatch.at)
            base = self.node(name, hatch.place, "hatch", hatch.at)
            width = self.station.hatchways[hatch.kind].diameter
            floor = self.station.sections[place.section].floor_width
            self.way(foot, base, floor, self.height(hatch.place), self.kind(hatch.place))
            up = climb(self.station, place, self.age)
            top = self.node(f"outside {name}", hatch.place, "outside", hatch.at, up=up)
            self.way(base, top, width, width, "ladder")
            self.exits[name], self.inside[name], self.doors[name] = top, base, (foot,)

    def niches(self) -> None:
        """Hand-cut rooms beside the ways."""
        for name, niche in self.station.niches.items():
            floor = self.station.sections[self.station.places[niche.place].section].floor_width
            left = (floor + niche.depth) / 2 * (1 if niche.side == "left" else -1)
            foot = self.nearest(niche.place, niche.at)
            room = self.node(name, niche.place, self.refuge(name, "niche"), niche.at, left)
            self.way(foot, room, niche.width, niche.height, "link")
            self.inside[name], self.doors[name] = room, (foot,)

    def buildings(self) -> None:
        """Buildings, each reached through its doors: the way inside is from the corner furthest from that door."""
        for name, building in self.station.buildings.items():
            kit = self.station.kits[building.kit]
            middle = building.at + kit.length / 2
            room = self.node(name, building.place, self.refuge(name, "building"), middle)
            feet = []
            for which, at in (("near", building.at), ("far", building.at + kit.length)):
                if (kit.doors or "near") in (which, "both"):
                    foot = self.nearest(building.place, at)
                    left = (self.station.sections[self.station.places[building.place].section].floor_width
                            - min((w for _, _, w in self.beside(building.place)), default=0.0)) / 2  # fmt: skip
                    self.way(room, foot, kit.door_width, DOOR_HEIGHT, "door", kit.length + kit.width / 2 + left)
                    feet.append(foot)
            self.inside[name], self.doors[name] = room, tuple(feet)

    def refuge(self, name: str, kind: str) -> str:
        """The kind of a room: refuge if the file's escape part names it as one."""
        part = self.station.escape
        return "refuge" if part is not None and name in part.refuges else kind


DOOR_HEIGHT = 2.0  # m of a building's doors (own rule)


def _meeting(
    p: tuple[float, float], d: tuple[float, float], q: tuple[float, float], e: tuple[float, float]
) -> tuple[float, float] | None:
    """Distances along two lines at which they cross; None where they are nearly parallel."""
    cross = d[0] * e[1] - d[1] * e[0]
    if abs(cross) < 0.05:
        return None
    rx, ry = q[0] - p[0], q[1] - p[1]
    return (rx * e[1] - ry * e[0]) / cross, (rx * d[1] - ry * d[0]) / cross


def _filled(marks: list[float], spacing: float) -> list[float]:
    """Marks in order, those that fall together taken once, with points between them at most `spacing` apart."""
    found: list[float] = []
    for at in sorted(marks):
        if not found or at - found[-1] > TOUCH:
            found.append(at)
    filled = found[:1]
    for a, b in zip(found, found[1:], strict=False):
        parts = max(1, math.ceil((b - a) / spacing - 1e-9))
        filled += [a + (b - a) * i / parts for i in range(1, parts + 1)]
    return filled
