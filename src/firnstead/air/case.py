"""The rooms of a station and what joins them, in numbers: the same case has the same flows."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

OUTSIDE = -1


@dataclass(frozen=True)
class Room:
    """A stretch of a place, or a building."""

    name: str
    place: str
    """Place whose temperature it has."""
    building: str
    """Name of the building; empty for a stretch of a place."""
    volume: float
    """Air in it [m3]."""
    floor: float
    """Level of its floor above the snow surface [m]."""
    temperature: float | None
    """Its own temperature [K]; none: that of its place."""


@dataclass(frozen=True)
class Hole:
    """An opening: rooms a and b, discharge coefficient times area [m2], its level [m], what it is called."""

    name: str
    kind: str
    a: int
    b: int
    area: float
    level: float
    wind: float = 0.0
    shut_when_warmer: bool = False


@dataclass(frozen=True)
class Blower:
    """A fan: rooms, curve, its duct's coefficient times area [m2], level of its end in the open or in room b [m]."""

    name: str
    a: int
    b: int
    curve: tuple[tuple[float, float], ...]
    stated_at: float
    duct: float
    level: float
    wind: float
    damper: bool


@dataclass(frozen=True)
class Exchange:
    """A balanced ventilation of a building: as much air in as out [m3/s]."""

    room: int
    other: int
    flow: float


@dataclass(frozen=True)
class AirCase:
    """Everything that the flows of a station depend on beside temperatures."""

    rooms: tuple[Room, ...]
    holes: tuple[Hole, ...]
    blowers: tuple[Blower, ...]
    exchanges: tuple[Exchange, ...]
    drawn: tuple[tuple[int, float], ...]
    """Air that engines burn, by room [kg/s]."""
    pressure: float
    wind_speed: float

    def of(self, name: str) -> tuple[int, ...]:
        """Rooms of a building, or of a place outside its buildings."""
        return self._buildings.get(name) or self._places[name]

    @cached_property
    def _buildings(self) -> dict[str, tuple[int, ...]]:
        return {room.building: (i,) for i, room in enumerate(self.rooms) if room.building}

    @cached_property
    def _places(self) -> dict[str, tuple[int, ...]]:
        found: dict[str, list[int]] = {}
        for i, room in enumerate(self.rooms):
            if not room.building:
                found.setdefault(room.place, []).append(i)
        return {name: tuple(rooms) for name, rooms in found.items()}
