"""Results of the air study."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity

MONTHS = 12
Row = tuple[float, ...]


@dataclass(frozen=True)
class RoomAir:
    """The air of a building, or of a place outside its buildings, in its worst month."""

    place: str = quantity("text", "place it is in")
    volume: float = quantity("m3", "air in it")
    people: int = quantity("1", "most people in it at any hour")
    hour: str = quantity("text", "the hour that makes most carbon dioxide")
    fresh: float = quantity("m3/s", "air that comes in, least of the year")
    fresh_equivalent: float = quantity("m3/s", "outdoor air that would hold the same carbon dioxide")
    co2: Row = quantity("1", "share of carbon dioxide in the long run at that hour, by month")
    co: Row = quantity("1", "share of carbon monoxide in the long run from engines, by month")


@dataclass(frozen=True)
class LimitReached:
    """How long after the ventilation stops a limit is reached in a closed room."""

    room: str = quantity("text", "building or place")
    people: int = quantity("1", "people in it")
    limit: str = quantity("text", "name of the limit")
    gas: str = quantity("text", "gas")
    value: float = quantity("1", "share that is the limit")
    time: float = quantity("s", "time from the stop, doors shut")
    time_open: float = quantity("s", "the same with the doors of all rooms to its place open")


@dataclass(frozen=True)
class FanYear:
    """What a fan does in the year."""

    draws_from: str = quantity("text", "where it draws from")
    blows_into: str = quantity("text", "where it blows to")
    flow: Row = quantity("m3/s", "air that it moves, by month")
    wanted: float | None = quantity("m3/s", "air that the file wants from it")
    against: Row = quantity("Pa", "draught that helps it (above 0) or works against it, by month")


@dataclass(frozen=True)
class VentYear:
    """What a vent does in the year."""

    place: str = quantity("text", "place it opens into")
    flow: Row = quantity("m3/s", "air that goes out through it, by month; below 0 air comes in")
    draught: Row = quantity("Pa", "draught of its column of air by temperature alone, by month")
    shut: tuple[bool, ...] = quantity("1", "whether its damper shuts it, by month")


@dataclass(frozen=True)
class EngineAir:
    """Air for an engine."""

    where: str = quantity("text", "place or building it stands in")
    combustion: float = quantity("kg/s", "air it burns")
    cooling: float = quantity("kg/s", "air that carries its heat away")
    coming_in: float = quantity("kg/s", "air that comes into the room, least of the year")


@dataclass(frozen=True)
class VehicleAir:
    """Carbon monoxide of vehicles in a place."""

    place: str = quantity("text", "place it runs in")
    peak: float = quantity("1", "highest share of carbon monoxide in the place")
    mean: float = quantity("1", "highest mean of eight hours")
    cohb: float = quantity("1", "share of the blood's haemoglobin taken after eight hours at that mean, at rest")
    time_to_harm: float = quantity("s", "time at that peak until 30 % is taken, at light work")
    curve: Row = quantity("1", "share of carbon monoxide by time, in the foulest stretch of the place")
    step: float = quantity("s", "time between two values of the curve")


@dataclass(frozen=True)
class ExhaustPair:
    """An exhaust and an intake."""

    exhaust: str = quantity("text", "name of the exhaust")
    intake: str = quantity("text", "name of the intake")
    distance: float = quantity("m", "level distance between them")
    higher: float = quantity("m", "how much higher the exhaust ends")
    off_wind: float = quantity("deg", "angle between the storm wind's way and the way from exhaust to intake")


@dataclass(frozen=True)
class ChosenLimit:
    """A limit in use."""

    gas: str = quantity("text", "gas")
    value: float = quantity("1", "share: at most, for oxygen at least")
    over: float = quantity("s", "time of the mean; 0: never to be passed")
    source: str = quantity("text", "where it is from, with edition")
    key: str = quantity("text", "key of the publication")


@dataclass(frozen=True)
class AirResult:
    """The air of the whole station."""

    pressure: float = quantity("Pa", "air pressure that was reckoned with")
    measured: bool = quantity("1", "whether it was measured")
    altitude: float = quantity("m", "height in the standard atmosphere with that pressure")
    oxygen: float = quantity("Pa", "partial pressure of oxygen")
    oxygen_felt: float = quantity("1", "share of oxygen at sea level with the same pressure")
    surface: Row = quantity("K", "air temperature at the surface, by month")
    density: Row = quantity("kg/m3", "density of the outside air, by month")
    rooms: dict[str, RoomAir] = quantity("text", "buildings and places with people, by name")
    fans: dict[str, FanYear] = quantity("text", "by name")
    vents: dict[str, VentYear] = quantity("text", "by name")
    engines: dict[str, EngineAir] = quantity("text", "by name")
    vehicles: dict[str, VehicleAir] = quantity("text", "by name")
    stopped: tuple[LimitReached, ...] = quantity("text", "hours to each limit after the ventilation stops")
    exhausts: tuple[ExhaustPair, ...] = quantity("text", "exhausts and their nearest intakes")
    limits: dict[str, ChosenLimit] = quantity("text", "limits in use, by name")
    through: dict[str, Row] = quantity("m3/s", "air that comes into each place from outside it, by month")
    left_over: float = quantity("kg/s", "air that the solution of the network leaves over in its worst room")


@dataclass(frozen=True)
class NoAir:
    """The station file says nothing about air."""

    reason: str = quantity("text", "what is missing")
