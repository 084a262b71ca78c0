"""Results of the fire study."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity
from firnstead.fire._arrays import Array


@dataclass(frozen=True)
class FireCase:
    """One fire: what burns, how it grows, what it reaches."""

    name: str = quantity("text", "name of the fire")
    place: str = quantity("text", "place that it burns in")
    start: str = quantity("text", "spot that it starts at")
    building: str = quantity("text", "building that it starts in; empty: in the place itself")
    use: str = quantity("text", "use by which growth, fuel and yields were chosen")
    growth: str = quantity("text", "growth class")
    cap: float = quantity("W", "most heat that it gives off")
    cap_by: str = quantity("text", "what caps it: fuel, air or the file")
    fuel: float = quantity("J", "energy in the fuel")
    time_of_cap: float = quantity("s", "time at which the cap is reached")
    burnout: float = quantity("s", "time at which the fuel is used up")
    plume_flow: float = quantity("kg/s", "smoke that its plume carries past head height at the cap, in the open")
    flame_height: float = quantity("m", "height of its flames at the cap, in the open")
    flashover: float = quantity("W", "heat at which its room flashes over, by its openings alone")
    front_speed: float = quantity("m/s", "speed of the smoke's front in its place at the cap")
    released: float = quantity("J", "energy released in the time followed")
    lost: float = quantity("1", "share of the smoke that the reckoning lost or made; must be next to nothing")
    detected: float = quantity("s", "time at which the first detector that works there sounds; infinite: none does")
    detector: str = quantity("text", "that detector")
    place_time: float = quantity("s", "time at which the first limit is reached in its own place")
    passage_time: float = quantity("s", "time at which the first limit is reached in any passage")
    place_limits: dict[str, float] = quantity("s", "time of each limit in its own place: visibility, temperature, dose")
    passage_limits: dict[str, float] = quantity("s", "time of each limit in any passage")
    available: dict[str, float] = quantity("s", "time at which the first limit is reached, by spot; infinite: not")


@dataclass(frozen=True)
class SmokeCurve:
    """What one fire does at one spot, for plots."""

    fire: str = quantity("text", "name of the fire")
    spot: str = quantity("text", "spot")
    times: tuple[float, ...] = quantity("s", "times")
    visibility: tuple[float, ...] = quantity("m", "visibility, at most 100 m")
    temperature: tuple[float, ...] = quantity("K", "air temperature, no heat lost to the snow")
    co: tuple[float, ...] = quantity("1", "share of carbon monoxide")
    dose: tuple[float, ...] = quantity("1", "dose of one who stays from the start")


@dataclass(frozen=True)
class WayOut:
    """One fire and one way out."""

    origin: str = quantity("text", "where the way starts")
    way: str = quantity("text", "name of the way")
    fire: str = quantity("text", "name of the fire")
    margin: float = quantity("s", "least time between passing a spot and the first limit there; below 0: too late")
    worst: str = quantity("text", "spot where that is")
    passed: float = quantity("s", "time of passing it")
    available: float = quantity("s", "time of the first limit there; infinite: not in the time followed")
    dose: float = quantity("1", "dose at the end of the way")
    cohb: float = quantity("1", "carbon monoxide in the blood at the end, percent of the haemoglobin")
    hottest: float = quantity("K", "hottest air on the way")
    visibility: float = quantity("m", "least visibility on the way; infinite: no smoke")


@dataclass(frozen=True)
class PlaceLoss:
    """What is lost if one place burns out with all that is in its compartment."""

    place: str = quantity("text", "place")
    compartment: int = quantity("1", "number of the compartment: places that no shut door parts have the same one")
    with_it: tuple[str, ...] = quantity("text", "other places of the same compartment")
    buildings: tuple[str, ...] = quantity("text", "buildings in the place")
    sleepers: int = quantity("1", "people who sleep in the place")
    sleepers_with_it: int = quantity("1", "people who sleep in the compartment")
    stores: tuple[str, ...] = quantity("text", "stores in the place")
    services: tuple[str, ...] = quantity("text", "services that pass through it and have no second way")
    survival: bool = quantity("1", "whether the survival store is in the compartment")


@dataclass(frozen=True)
class PlaceCover:
    """Extinguishers and alarm points of one place."""

    place: str = quantity("text", "place")
    hazard: str = quantity("text", "hazard class")
    floor: float = quantity("m2", "floor")
    walk_a: float = quantity("m", "farthest walk to an extinguisher for solids that works there; infinite: none")
    walk_b: float = quantity("m", "farthest walk to an extinguisher for liquids that works there; infinite: none")
    served: float = quantity("m2", "floor that the extinguishers for solids in the place may serve")
    walk_alarm: float = quantity("m", "farthest walk to an alarm point; infinite: none")
    detectors: int = quantity("1", "detectors in it")


@dataclass(frozen=True)
class Spot:
    """One spot of the network, for drawings."""

    name: str = quantity("text", "name")
    place: str = quantity("text", "place")
    x: float = quantity("m", "east")
    y: float = quantity("m", "north")
    first: float = quantity("s", "earliest time of the first limit over all fires; infinite: none")
    fire: str = quantity("text", "that fire")


@dataclass(frozen=True)
class FireResult:
    """Fire in the whole station."""

    pressure: float = quantity("Pa", "air pressure reckoned with")
    duration: float = quantity("s", "how long each fire was followed")
    cases: dict[str, FireCase] = quantity("text", "fires by name")
    spots: tuple[Spot, ...] = quantity("text", "spots of the network with their worst fire")
    curves: tuple[SmokeCurve, ...] = quantity("text", "curves for plots: in the fire's place and in the passage")
    ways_out: tuple[WayOut, ...] = quantity("text", "every fire against every way out that was given")
    losses: dict[str, PlaceLoss] = quantity("text", "by place")
    cover: dict[str, PlaceCover] = quantity("text", "extinguishers and alarm points, by place")
    water: float = quantity("m3", "water kept for fire")
    water_needed: float = quantity("m3", "water that one fire takes; 0 where nothing is asked for")

    def by_fire(self) -> dict[str, dict[str, float]]:
        """Time of the first limit at each spot, by fire [s], the burning room's own spot left out.

        Who is in the burning room sees the fire and leaves at once: the times of alarm and reaction are not his
        (own rule).
        """
        return {
            name: {spot: time for spot, time in case.available.items() if spot != case.building}
            for name, case in self.cases.items()
        }


def available_times_at(result: FireResult, spot: str) -> dict[str, float]:
    """Time of the first limit at one spot, by fire [s]."""
    return {name: case.available[spot] for name, case in result.cases.items() if spot in case.available}


def rows_of(values: Array) -> tuple[float, ...]:
    """An array as a tuple of floats."""
    return tuple(float(v) for v in values)
