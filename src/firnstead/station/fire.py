"""Fire: what may burn, doors and borders, detectors, extinguishers, water, and the limits the engineer chose."""

from __future__ import annotations

from typing import Literal

from firnstead.station.fields import (
    Area,
    Energy,
    Extinction,
    FlowRate,
    Force,
    HeatOfCombustion,
    Length,
    Mass,
    Part,
    Pieces,
    Power,
    Radiation,
    Share,
    Stress,
    Temperature,
    Time,
    Volume,
    say,
)

Growth = Literal["slow", "medium", "fast", "ultrafast"]
Hazard = Literal["light", "ordinary", "extra"]


class FireScenario(Part):
    """One fire to reckon with; it takes the place of the one that would be set there by use."""

    building: str | None = say("Building it starts in", default=None)
    place: str | None = say("Place it starts in, where it is not in a building", default=None)
    at: Length | None = say("Distance along the place's axis; left out: the middle", low=0, high=2000, default=None)
    growth: Growth | None = say("How fast it grows; left out: by the use of the building or place", default=None)
    heat_release: Power | None = say(
        "Most heat that it gives off; left out: by floor and by the air through its opening", above=0, high=5e8,
        default=None,
    )  # fmt: skip
    short_of_air: bool = say("Where `heat_release` is given: whether it is the air that holds it there", default=True)
    fuel: Energy | None = say("What there is to burn; left out: by use and floor", above=0, high=1e13, default=None)


class FireDoor(Part):
    """A door that keeps smoke back, with the wall that holds it."""

    place: str = say("Place that it closes against its passage, or in which it stands across the axis")
    at: Length | None = say(
        "Distance along the axis; left out: it closes the place against its passage", low=0, high=2000, default=None
    )
    width: Length = say("Clear width", low=0.5, high=8)
    height: Length = say("Clear height", low=1.2, high=8)
    leakage: Area = say("Area of all gaps of door and wall when it is shut, as measured or by its maker", low=0, high=2)
    open: bool = say("Whether it stands open (no closer, or held open without release)", default=False)
    closer: Force = say(
        "Force at the knob that overcomes closer, latch and friction", low=0, high=300, default=40.0, mark="own_rule"
    )
    mass: Mass = say("Mass with frame", low=0, high=5000, default=80.0, mark="own_rule")
    part: str | None = say("Part that it is on the packing list", default=None)


class Detector(Part):
    """A fire detector."""

    place: str = say("Place or building it hangs in")
    at: Length | None = say("Distance along the place's axis; left out in a building", low=0, high=2000, default=None)
    kind: Literal["smoke", "aspirating smoke", "heat", "linear heat", "carbon monoxide"] = say("Kind")
    coldest: Temperature | None = say("Coldest air it works in (maker's figure)", low=193.15, high=293.15, default=None)
    visibility: Length = say(
        "Smoke at which a smoke detector sounds, as visibility", low=1, high=500, default=20.0, mark="own_rule"
    )
    temperature: Temperature = say(
        "Air temperature at which a heat detector sounds", low=263.15, high=400, default=303.15, mark="own_rule"
    )
    co: Share = say("Share of carbon monoxide at which it sounds", low=5e-6, high=1e-3, default=35e-6, mark="own_rule")
    delay: Time = say("Time from then until the alarm sounds", low=0, high=600, default=30.0, mark="own_rule")
    mass: Mass = say("Mass", low=0, high=100, default=1.0, mark="own_rule")
    part: str | None = say("Part that it is on the packing list", default=None)


class AlarmPoint(Part):
    """A button that raises the alarm."""

    place: str = say("Place or building it hangs in")
    at: Length | None = say("Distance along the place's axis; left out in a building", low=0, high=2000, default=None)
    mass: Mass = say("Mass", low=0, high=100, default=0.5, mark="own_rule")
    part: str | None = say("Part that it is on the packing list", default=None)


class Extinguisher(Part):
    """A hand or wheeled extinguisher."""

    place: str = say("Place or building it hangs in")
    at: Length | None = say("Distance along the place's axis; left out in a building", low=0, high=2000, default=None)
    kind: Literal["dry chemical", "carbon dioxide", "water", "foam", "water mist", "clean agent"] = say("Agent")
    rating_a: int = say("Rating for solids (the number before A)", low=0, high=80, default=0)
    rating_b: int = say("Rating for liquids (the number before B)", low=0, high=640, default=0)
    coldest: Temperature | None = say(
        "Coldest air it works in (maker's figure); left out: what is known of the agent", low=193.15, high=293.15,
        default=None,
    )  # fmt: skip
    heated: bool = say("Whether it hangs in a heated cabinet or building", default=False)
    mass: Mass = say("Mass, filled", low=0.5, high=500, default=15.0, mark="own_rule")
    part: str | None = say("Part that it is on the packing list", default=None)


class FireTank(Part):
    """A tank of water that is kept for fire alone."""

    place: str = say("Place or building it stands in")
    volume: Volume = say("Water kept in it for fire", above=0, high=5000)
    temperature: Temperature | None = say("Lowest temperature of its water", low=253.15, high=330, default=None)
    alarmed: bool = say("Whether level and temperature sound an alarm where somebody always is", default=False)


class FireWater(Part):
    """Water for fire fighting."""

    flow: FlowRate = say("Flow asked for", above=0, high=1)
    duration: Time = say("How long it must last", above=0, high=86400)
    tanks: dict[str, FireTank] = say("Tanks by name", default={})
    refill: FlowRate | None = say("Water that can be made to fill them again", low=0, high=1, default=None)
    pump: str | None = say("Place or building of the fire pump", default=None)
    supply: str | None = say("Place or building that its power comes from", default=None)


class FireStore(Part):
    """A store that may burn."""

    place: str = say("Place it lies in")
    at: Length = say("Distance along the axis to its middle", low=0, high=2000)
    what: str = say("What lies there")
    combustible: bool = say("Whether it, or what it is packed in, can burn", default=True)


class FireService(Part):
    """A pipe, cable or line that other places live on."""

    what: str = say("What it is")
    places: tuple[str, ...] = say("Places it passes, from its source to its end")
    spare: bool = say("Whether a second one runs by another way", default=False)


class FireLimits(Part):
    """What people can bear. Which limits apply is the responsible engineer's choice."""

    visibility: Length = say(
        "Least distance that people must see", low=1, high=100, default=10.0, mark="textbook_unchecked"
    )
    temperature: Temperature = say(
        "Hottest air that they may breathe", low=303.15, high=400, default=333.15, mark="textbook_unchecked"
    )
    dose: Share = say(
        "Dose of poisonous gas (1: half of all people fall; 0.3: about one in nine)", low=0.01, high=1, default=0.3,
        mark="purser_fed",
    )  # fmt: skip
    head: Length = say("Height of people's heads", low=0.5, high=2.2, default=1.8, mark="own_rule")
    effort: Literal["rest", "light", "heavy"] = say("How hard they breathe", default="light")
    radiation: Radiation = say(
        "Radiation at which a neighbour takes fire", low=1000, high=50000, default=12600.0, mark="br_187"
    )
    door_force: Force = say("Most force that opens a door", low=20, high=500, default=133.0, mark="nfpa_101_2021")
    alarm_walk: Length = say("Farthest walk to an alarm point", low=5, high=200, default=60.96, mark="nfpa_72")


class FireSmoke(Part):
    """What smoke is made of: mass for each mass of fuel burnt."""

    soot: Share = say("Soot while there is enough air", low=0.001, high=0.5, default=0.07, mark="cvm2_yields")
    soot_short: Share = say("Soot when short of air", low=0.001, high=0.5, default=0.14, mark="cvm2_yields")
    co: Share = say("Carbon monoxide while there is enough air", low=0.001, high=0.6, default=0.04, mark="cvm2_yields")
    co_short: Share = say("Carbon monoxide when short of air", low=0.001, high=0.6, default=0.40, mark="cvm2_yields")
    co2: Share = say("Carbon dioxide", low=0.1, high=3.6, default=1.5, mark="cvm2_yields")
    heat_of_combustion: HeatOfCombustion = say(
        "Heat of each mass of fuel", low=5e6, high=5e7, default=20e6, mark="cvm2_yields"
    )
    convective: Share = say("Share of the heat that goes into the smoke", low=0.3, high=1, default=0.7, mark="nfpa_92")
    radiated: Share = say("Share of the heat that is radiated", low=0, high=0.7, default=0.35, mark="cvm2_yields")
    extinction: Extinction = say(
        "Specific extinction of smoke", low=3000, high=15000, default=8700.0, mark="mulholland_croarkin_2000"
    )
    sight_factor: Share = say(
        "3 for what is lit from outside, 8 for lit signs", low=2, high=10, default=3.0, mark="nureg_1805"
    )


class Fire(Part):
    """Fire in the station."""

    station_pressure: Stress | None = say(
        "Air pressure measured at the station; left out: the standard atmosphere", low=30000, high=110000, default=None
    )
    duration: Time = say("How long each fire is followed", low=120, high=14400, default=1800.0, mark="own_rule")
    every_place: bool = say("Whether a fire is set in every place too, by the use of what stands in it", default=True)
    scenarios: dict[str, FireScenario] = say("Fires to reckon with, by name", default={})
    building_leakage: Area = say(
        "Gaps of a building whose doors are shut", low=0, high=2, default=0.01,
        mark="own_rule",
    )  # fmt: skip
    closers: bool = say(
        "Whether the doors of buildings shut by themselves, tried in the cold; else the burning one stands open",
        default=False,
    )
    hazards: dict[str, Hazard] = say(
        "Hazard class of places for the choice of extinguishers, where not by use", default={}
    )
    doors: dict[str, FireDoor] = say("Doors that keep smoke back, by name", default={})
    detectors: dict[str, Detector] = say("Detectors by name", default={})
    alarm_points: dict[str, AlarmPoint] = say("Alarm points by name", default={})
    extinguishers: dict[str, Extinguisher] = say("Extinguishers by name", default={})
    water: FireWater | None = say("Water for fire fighting", default=None)
    stores: dict[str, FireStore] = say("Stores that lie in places, by name", default={})
    services: dict[str, FireService] = say("Pipes, cables and lines, by name", default={})
    spare_beds: dict[str, Pieces] = say("Beds kept free for people who lose theirs, by building", default={})
    survival: tuple[str, ...] = say(
        "Places and buildings with clothing, shelter, food and a radio for everybody", default=()
    )
    separation: Length | None = say(
        "Least thickness of snow between two places that the engineer asks for; no published one was found", above=0,
        high=200, default=None,
    )  # fmt: skip
    limits: FireLimits = say("Limits", default=FireLimits())
    smoke: FireSmoke = say("Smoke", default=FireSmoke())
