"""What escape depends on, in numbers: the network, its exits, who is where, the limits."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import hypot

from firnstead.escape._graph import Forest, Graph
from firnstead.escape.presets import Limits

NEAR = 6.0  # m; who stands this near a blocked spot is at it, where no limit of dead ends says otherwise (own rule)


@dataclass(frozen=True)
class Spot:
    """A node of the network; x, y, z in m, `at` along its place's axis."""

    name: str
    place: str
    kind: str
    x: float
    y: float
    z: float
    at: float


@dataclass(frozen=True)
class Stretch:
    """A way between two nodes: length, clear width [m], slope from a to b [deg]."""

    a: int
    b: int
    length: float
    width: float
    slope: float
    kind: str
    place: str


@dataclass(frozen=True)
class Climb:
    """A trial on one kind of hatch: seconds between persons, speed of climb [m/s], seconds for a carried person."""

    interval: float
    speed: float
    carried: float | None
    measured: str


@dataclass(frozen=True)
class Exit:
    """A way out: its outside node, the node in its opening, the point of the walking line it is reached from."""

    name: str
    kind: str
    outside: int
    base: int
    foot: int
    climb: Climb | None


@dataclass(frozen=True)
class Hour:
    """A scenario: people and those who must be carried, by node; time to react, share of the walking speed."""

    name: str
    words: str
    reaction: float
    reaction_source: str
    factor: float
    people: tuple[tuple[int, int], ...]
    injured: tuple[tuple[int, int], ...]

    @property
    def total(self) -> int:
        """Everybody, those carried included."""
        return sum(count for _, count in (*self.people, *self.injured))


@dataclass(frozen=True)
class Room:
    """A building or niche: its node, the points it is reached from, whether the file says where its doors are."""

    node: int
    feet: tuple[int, ...]
    told: bool


@dataclass(frozen=True)
class Case:
    """Everything that the answers depend on."""

    spots: tuple[Spot, ...]
    stretches: tuple[Stretch, ...]
    exits: tuple[Exit, ...]
    rooms: tuple[Room, ...]
    hours: tuple[Hour, ...]
    refuges: tuple[tuple[int, int, float], ...]
    limits: Limits
    blocked_travel: float | None
    margin: float
    least_width: float
    walking_speed: float | None
    carrying_speed: float
    apart: float
    places: tuple[tuple[str, float, float], ...]
    """Name, length and width of every place."""

    @cached_property
    def graph(self) -> Graph:
        """All ways that are wide enough. A walk ends in the portal: the ramp lies under the sky and has no length here
        (its time is counted); a ladder counts."""
        narrow = frozenset(i for i, s in enumerate(self.stretches) if s.kind != "ladder" and s.width < self.least_width)
        ways = ((s.a, s.b, 0.0 if s.kind == "ramp" else s.length) for s in self.stretches)
        return Graph.of(len(self.spots), ways, narrow)

    @cached_property
    def open(self) -> Forest:
        """Shortest ways with nothing blocked."""
        return self.graph.forest([e.outside for e in self.exits])

    @cached_property
    def exit_of(self) -> dict[int, Exit]:
        """Exits by outside node."""
        return {e.outside: e for e in self.exits}

    @property
    def near(self) -> float:
        """Who stands this near a blocked spot is taken to be at it [m]."""
        return NEAR if self.limits.dead_end is None else self.limits.dead_end

    def apart_straight(self, a: int, b: int) -> float:
        """Straight distance between two nodes on the plan [m]."""
        p, q = self.spots[a], self.spots[b]
        return hypot(p.x - q.x, p.y - q.y)

    def stands(self, node: int) -> bool:
        """Whether people can be here and must have a way out: rooms and points of the walking lines."""
        return self.spots[node].kind not in ("outside", "hatch", "portal")
