"""What the plan of the ways out and the muster plans are drawn from; east and north in metres."""

from __future__ import annotations

from dataclasses import dataclass, field

from firnstead.drawings.figure import Point
from firnstead.drawings.plan_input import PlanInput


@dataclass(frozen=True)
class ExitMark:
    """The upper end of a hatch or portal on the plan."""

    name: str
    at: Point
    hatch: bool


@dataclass(frozen=True)
class Walk:
    """A way out as it is walked, and how long it is; `ladder` [m] is 0 where it ends in a ramp."""

    exit: str
    line: tuple[Point, ...]
    length: float
    ladder: float = 0.0


@dataclass(frozen=True)
class TwoWays:
    """Somebody's two ways out."""

    who: str
    first: Walk
    second: Walk | None = None


@dataclass(frozen=True)
class FarSpot:
    """The farthest spot of a place: its walk with nothing blocked, and the longest walk with one spot blocked."""

    place: str
    at: Point
    walk: float
    blocked: float
    """Infinite where somebody in the place is cut off."""


@dataclass(frozen=True)
class DeadEnd:
    """The end of a stretch that leads nowhere, and how long it is."""

    at: Point
    length: float


@dataclass(frozen=True)
class EscapePlanInput:
    """All that the plan of the ways out shows."""

    ground: PlanInput
    exits: tuple[ExitMark, ...] = ()
    worst: tuple[TwoWays, ...] = ()
    far: tuple[FarSpot, ...] = ()
    dead_ends: tuple[DeadEnd, ...] = ()
    refuges: tuple[str, ...] = ()
    extinguishers: tuple[Point, ...] = ()
    alarm_points: tuple[Point, ...] = ()


@dataclass(frozen=True)
class MusterInput:
    """One page for one building."""

    building: str
    place: str
    station: str
    file_version: str
    dated: str
    ground: PlanInput
    here: Point
    outline: tuple[Point, ...]
    first: Walk | None
    second: Walk | None
    shared: float = 0.0
    """Length of the second way that lies on the first [m]."""
    refuge: str = ""
    refuge_length: float | None = None
    people: tuple[tuple[str, int], ...] = field(default_factory=tuple)
    """People in it by hour."""
    note: str = ""
    units: str = "metric"
