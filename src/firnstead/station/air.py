"""Air: fans, vents, doors, engines and vehicles, alarms, and the limits that the responsible engineer chose."""

from __future__ import annotations

from typing import Literal

from firnstead.station.fields import (
    Area,
    Density,
    FlowRate,
    Length,
    Mass,
    MassFlow,
    Part,
    Pieces,
    Power,
    Share,
    Speed,
    Stress,
    Temperature,
    TemperatureDifference,
    Time,
    say,
)

OUTSIDE = "outside"
Gas = Literal["co2", "co", "no2", "oxygen"]


class Duct(Part):
    """A duct with what it weighs."""

    length: Length = say("Length along its middle", low=0.1, high=500)
    diameter: Length = say("Inner diameter, or four times the area over the outline", low=0.05, high=4)
    friction: Share = say("Friction factor (Darcy)", low=0.005, high=0.2, default=0.02, mark="textbook_unchecked")
    losses: Share = say(
        "Sum of single losses: inlet, bends, grille, outlet", low=0, high=50, default=2.5, mark="own_rule"
    )
    mass_per_metre: Mass = say("Mass of one metre", low=0, high=500, default=0.0)


class AirFan(Part):
    """A fan that moves air from one room to another, or from or to the outside."""

    draws_from: str = say("Place or building it draws from, or `outside`")
    blows_into: str = say("Place or building it blows into, or `outside`")
    at: Length | None = say(
        "Distance along the place's axis at which its duct ends in the place; left out: the middle",
        low=0,
        high=2000,
        default=None,
    )
    flow: FlowRate | None = say("Air it moves at `pressure`", above=0, high=200, default=None)
    pressure: Stress | None = say("Pressure it makes at `flow`", above=0, high=20000, default=None)
    curve: tuple[tuple[FlowRate, Stress], ...] = say(
        "Its curve as (flow, pressure), pressure falling; left out: a parabola through flow and pressure that reaches "
        "4/3 of the pressure with the outlet shut",
        default=(),
    )
    stated_at: Density = say(
        "Density of the air that its curve is stated for; pressure falls with the density",
        low=0.3,
        high=2,
        default=1.2,
        mark="textbook_unchecked",
    )
    duct: Duct | None = say("Its duct; left out: no resistance but the fan's own", default=None)
    damper: bool = say("Whether a damper shuts it when it stands", default=True)
    reversible: bool = say("Whether it can be made to blow the other way, from outside", default=False)
    opening_height: Length = say(
        "Height of its opening outside above the snow", low=0, high=30, default=2.0, mark="own_rule"
    )
    opening_at: tuple[Length, Length] | None = say(
        "Where its opening outside is: east, north in the station's own grid; left out: above its end inside",
        default=None,
    )
    wind_coefficient: Share = say("Pressure coefficient of its opening outside in wind", low=-2, high=1, default=0.0)
    mass: Mass = say("Mass of the fan with motor and damper", low=0, high=5000, default=0.0)


class Vent(Part):
    """A shaft through the roof without a fan."""

    place: str = say("Place that it opens into")
    at: Length = say("Distance along the place's axis", low=0, high=2000)
    area: Area = say("Free area", above=0, high=50)
    top: Length = say("Height of its top above the snow", low=0, high=30)
    coefficient: Share = say(
        "Discharge coefficient of the shaft", low=0.05, high=1, default=0.6, mark="textbook_unchecked"
    )
    duty: Literal["out", "in", "either"] = say(
        "Which way air must go through it at all seasons; either: as it comes", default="either"
    )
    shut_when_warmer: bool = say(
        "Whether a damper shuts it while the air at the surface is warmer than the place's", default=False
    )
    wind_coefficient: Share = say("Pressure coefficient of its top in wind", low=-2, high=1, default=0.0)
    mass: Mass = say("Mass of the shaft with damper", low=0, high=5000, default=0.0)


class AirDoor(Part):
    """What a portal, a hatch, a doorway or the way from a trench to its passage lets through."""

    leakage: Area = say("Area of the gaps when it is shut", low=0, high=5)
    open: bool = say("Whether it stands open", default=False)
    wind_coefficient: Share = say("Pressure coefficient in wind, where it leads outside", low=-2, high=1, default=0.0)


class BuildingAir(Part):
    """Ventilation that every building of one kit has of its own."""

    supply: FlowRate = say("Air that its fans bring in and take out again", low=0, high=50)
    draws_from: Literal["place", "outside"] = say("Where that air comes from and goes to", default="place")
    leakage: Area = say("Area of the gaps of the building to its place", low=0, high=5, default=0.01, mark="own_rule")
    air_share: Share = say(
        "Share of the building's outer volume that is air", low=0.1, high=1, default=0.8, mark="own_rule"
    )
    temperature: Temperature = say("Air temperature inside", low=203.15, high=313.15, default=293.15, mark="own_rule")
    mass: Mass = say("Mass of fans, grilles and ducts of one building", low=0, high=5000, default=0.0)


class AirEngine(Part):
    """An engine that runs in a place or building."""

    where: str = say("Place or building it stands in")
    power: Power = say("Shaft power of all that run at the same time", above=0, high=2e7)
    heat: Power = say("Heat that they and their gear give off to the room (maker's figure)", low=0, high=1e7)
    warmer: TemperatureDifference = say("How much warmer the room may be than the air that comes in", low=1, high=60)
    own_intake: bool = say("Whether combustion air comes through a duct of its own from outside", default=False)
    air_per_power: Share = say(
        "Combustion air as cubic metres at sea level for each kWh at the shaft; maker's figure",
        low=2,
        high=30,
        default=8.887,
        mark="kates_diesel",
    )
    exhaust: str | None = say("Name of its exhaust", default=None)
    co: MassFlow | None = say(
        "Carbon monoxide in its exhaust at that power (maker's figure)", low=0, high=1, default=None
    )
    no2: MassFlow | None = say("Nitrogen dioxide in its exhaust (maker's figure)", low=0, high=1, default=None)
    leak: Share = say(
        "Share of the exhaust that escapes into the room through joints and doors",
        low=0,
        high=1,
        default=0.01,
        mark="own_rule",
    )


class Opening(Part):
    """A mouth of a pipe or shaft in the open."""

    position: tuple[Length, Length] = say("Where it is: east, north in the station's own grid")
    height: Length = say("Height above the snow", low=0, high=50)


class Vehicle(Part):
    """A vehicle that runs in a place."""

    place: str = say("Place it runs in")
    power: Power = say("Shaft power while it runs", above=0, high=2e6)
    co: MassFlow | None = say("Carbon monoxide it gives off (maker's figure)", low=0, high=1, default=None)
    no2: MassFlow | None = say("Nitrogen dioxide it gives off (maker's figure)", low=0, high=1, default=None)
    runs: Time = say("How long it runs each time", above=0, high=43200)
    every: Time = say("Time from one start to the next", above=0, high=7 * 86400.0)


class Alarm(Part):
    """A detector."""

    where: str = say("Place or building it hangs in")
    gas: Gas = say("Gas it watches")
    set_point: Share = say("Share of the gas at which it sounds, in ppm or %", low=0, high=1)
    action: Literal["investigate", "leave"] = say("What people do when it sounds")
    coldest: Temperature | None = say("Coldest air it works in (maker's figure)", low=193.15, high=293.15, default=None)
    mass: Mass = say("Mass of the detector", low=0, high=50, default=1.0, mark="own_rule")


class GasLimit(Part):
    """A limit chosen by the responsible engineer."""

    gas: Gas = say("Gas")
    value: Share = say("Share of the gas, in ppm or %: at most, for oxygen at least", low=0, high=1)
    over: Time = say("Time over which the mean is taken; 0 s: never to be passed", low=0, high=86400 * 7)
    source: str = say("Code or authority")
    edition: str = say("Its edition or year")


class Air(Part):
    """Air in the station. Which limits apply is the responsible engineer's choice."""

    station_pressure: Stress | None = say(
        "Lowest air pressure measured at the station; left out: the standard atmosphere, which is too high on an ice "
        "sheet",
        low=30000,
        high=110000,
        default=None,
    )
    repair_time: Time = say(
        "Time until the ventilation runs again, or every sleeper is out, after it stops", above=0, high=30 * 86400.0
    )
    leave_time: Time = say(
        "Time in which people who are awake notice that the ventilation has stopped, and leave", above=0, high=86400,
        default=1800.0, mark="own_rule"
    )  # fmt: skip
    rates: str = say("Where the outdoor air rates come from, with edition; chosen by the responsible engineer")
    air_per_person: FlowRate = say("Outdoor air for each person", above=0, high=0.1)
    air_per_area: Speed = say("Outdoor air for each square metre of a building's floor", low=0, high=0.05)
    effectiveness: Share = say(
        "Share of it that reaches the people (0.8: warm air from the ceiling, taken out high)",
        low=0.3,
        high=1.2,
        default=0.8,
        mark="ashrae_62_1",
    )
    co2_per_person: FlowRate = say(
        "Carbon dioxide of one person at light work, as volume at sea level and 20 degC",
        above=0,
        high=2e-4,
        default=0.31e-3 / 60,
        mark="ashrae_62_appendix",
    )
    effort_night: Share = say(
        "That of a sleeping person, as a share of it", low=0.3, high=2, default=1.0, mark="own_rule"
    )
    effort_day: Share = say("That of a person at work, as a share of it", low=0.5, high=8, default=1.5, mark="own_rule")
    outdoor_co2: Share = say(
        "Share of carbon dioxide in outdoor air", low=0, high=0.01, default=420e-6, mark="textbook_unchecked"
    )
    day: dict[str, Pieces] = say(
        "People by name of place or building at the busiest hour; left out: the hours of the escape part", default={}
    )
    mixing: Share = say(
        "How much fouler a pocket under an undercut or in a dead end may be than the mean of its air (1: well mixed)",
        low=1,
        high=10,
        default=3.0,
        mark="abulencia_theodore",
    )
    friction: Share = say(
        "Friction factor (Darcy) of passages and trenches", low=0.005, high=1, default=0.05, mark="own_rule"
    )
    wind_speed: Speed | None = say(
        "Wind speed at the openings to reckon with; left out: still air", low=0, high=80, default=None
    )
    exhaust_distance: Length | None = say(
        "Least distance from an exhaust to an intake that the engineer asks for; no published one was found",
        low=0,
        high=500,
        default=None,
    )
    fans: dict[str, AirFan] = say("Fans by name", default={})
    vents: dict[str, Vent] = say("Vents by name", default={})
    doors: dict[str, AirDoor] = say(
        "Doors by name of their portal, hatch, end wall, or of the trench that they close against its passage; what is "
        "not named: ways to the outside tight, ways inside open",
        default={},
    )
    leakage: dict[str, Area] = say(
        "Gaps of a place to the outside (seats of arches, joints of walls), by place", default={}
    )
    kits: dict[str, BuildingAir] = say("Own ventilation of buildings, by kit", default={})
    engines: dict[str, AirEngine] = say("Engines by name", default={})
    exhausts: dict[str, Opening] = say("Exhausts by name", default={})
    intakes: dict[str, Opening] = say("Intakes and air wells beside those of the fans, by name", default={})
    vehicles: dict[str, Vehicle] = say("Vehicles by name", default={})
    alarms: dict[str, Alarm] = say("Detectors by name", default={})
    limits: dict[str, GasLimit] = say(
        "Limits by name; left out: the limits of the published list are shown, for the engineer to choose", default={}
    )
