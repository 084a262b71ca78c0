"""How people get out: limits, hours with the people in them, ladders as measured, refuges, room for hatches."""

from __future__ import annotations

from typing import Literal

from firnstead.station.fields import Length, Part, Pieces, Share, Speed, Time, say

Preset = Literal[
    "IBC 2021 A, unsprinklered",
    "IBC 2021 B, unsprinklered",
    "IBC 2021 B, sprinklered",
    "IBC 2021 F-1, unsprinklered",
    "IBC 2021 F-1, sprinklered",
    "IBC 2021 R-2, unsprinklered",
    "IBC 2021 R-2, sprinklered",
    "IBC 2021 S-1, unsprinklered",
    "IBC 2021 S-1, sprinklered",
    "IBC 2021 U, unsprinklered",
    "NFPA 101 2021 business, unsprinklered",
    "NFPA 101 2021 dormitory, unsprinklered",
    "NFPA 101 2021 industrial general, unsprinklered",
    "NFPA 101 2021 storage ordinary hazard, unsprinklered",
    "30 CFR 57.11050 and 57.11052",
]


class EscapeScenario(Part):
    """One hour of the station's life: who is where, and what slows them."""

    hour: str = say("When this is, in words")
    asleep: bool = say("Whether people sleep (sets the time to react where none is given)", default=False)
    people: dict[str, Pieces] = say(
        "People by name of building, niche or place; left out: everybody in the building in which they sleep",
        default={},
    )
    reaction: Time | None = say(
        "From the start of the fire until people walk (alarm, dressing). Left out: 10 min asleep, 5 min awake",
        low=0,
        high=7200,
        default=None,
    )
    speed_factor: Share = say(
        "Walking speed in darkness or smoke as a share of the speed in light and clear air; your own source",
        low=0.05,
        high=1,
        default=1.0,
    )
    injured: dict[str, Pieces] = say("People who must be carried, by name of building, niche or place", default={})


class Ladder(Part):
    """What a trial with your own people, clothed for outdoors, gave for one kind of hatch."""

    interval: Time = say("Time between one person and the next coming out of it, measured", low=1, high=600)
    climb_speed: Speed = say("Height that one person climbs in a time, measured", low=0.01, high=1.5)
    carried: Time | None = say(
        "Time to bring one carried person up through it, measured; left out: nobody is carried through it",
        low=10,
        high=7200,
        default=None,
    )
    measured: str = say("When and how it was measured")


class Refuge(Part):
    """A building or niche in which people can wait: tight against smoke, with its own air."""

    people: int = say("People it holds", low=1, high=500)
    duration: Time = say("How long its air, warmth and food last", above=0, high=40 * 86400.0)


class Above(Part):
    """Something on the snow that a hatch must keep clear of: a mast, a tank, a track for machines."""

    centre: tuple[Length, Length] = say("Its middle: east, north in the station's own grid")
    radius: Length = say("Radius around it that no hatch may come up in", low=0, high=500)


class Siting(Part):
    """Where hatches may stand when Firnstead looks for the fewest that satisfy every case."""

    spacing: Length = say(
        "Distance between spots that are tried along an axis", low=0.5, high=20, default=4.0, mark="own_rule"
    )
    from_buildings: Length = say(
        "Clear distance from the shaft's edge to a building's roof", low=0, high=10, default=0.3, mark="own_rule"
    )
    from_fuel: Length = say("Least distance from fuel", low=0, high=200, default=15.0, mark="own_rule")
    from_portals: Length = say(
        "Least distance from a portal: what shuts one must not shut the other",
        low=0,
        high=200,
        default=15.0,
        mark="own_rule",
    )
    from_ends: Length = say(
        "Least distance from the end of an axis, where the walls stand", low=0, high=20, default=1.5, mark="own_rule"
    )
    drift_length: Length = say(
        "Length of the drift in the lee of a portal's ramp, in which no hatch may come up",
        low=0,
        high=500,
        default=30.0,
        mark="own_rule",
    )
    apart: Length = say(
        "Distance below which two ways out count as one", low=0, high=200, default=10.0, mark="own_rule"
    )


class Escape(Part):
    """Escape from the station. Which preset applies is the responsible engineer's choice."""

    preset: Preset = say("Set of limits, with its edition; chosen by the responsible engineer")
    travel: Length | None = say("Farthest walk to an exit, if not the preset's", above=0, high=1000, default=None)
    blocked_travel: Length | None = say(
        "Farthest walk to an exit while any one spot is blocked; left out: the limit of the open case",
        above=0,
        high=2000,
        default=None,
    )
    common_path: Length | None = say(
        "Longest walk before two separate ways are open, if not the preset's", low=0, high=500, default=None
    )
    dead_end: Length | None = say("Longest dead end, if not the preset's", low=0, high=500, default=None)
    separation: Share | None = say(
        "Least distance between two ways out of a place as a share of its diagonal, if not the preset's",
        low=0,
        high=1,
        default=None,
    )
    surface_time: Time | None = say(
        "Longest time in which two ways must bring everybody to the snow, if not the preset's",
        above=0,
        high=86400,
        default=None,
    )
    refuge_time: Time | None = say(
        "Longest time to a refuge for those who have no second way, if not the preset's",
        above=0,
        high=86400,
        default=None,
    )
    margin: Share = say(
        "Factor on the time needed, for what the models leave out",
        low=1,
        high=5,
        default=1.25,
        mark="imo_msc_circ_1533",
    )
    least_width: Length = say(
        "Narrowest way that counts as one; hatches apart", low=0.3, high=2, default=0.6, mark="own_rule"
    )
    walking_speed: Speed | None = say(
        "Walking speed of people dressed for outdoors, level floor, room around them; left out: each model's own",
        low=0.1,
        high=2,
        default=None,
    )
    carrying_speed: Speed = say(
        "Walking speed of bearers with a stretcher", low=0.05, high=1.5, default=0.4, mark="own_rule"
    )
    scenarios: dict[str, EscapeScenario] = say("Hours to look at, by name")
    ladders: dict[str, Ladder] = say("Trials on ladders and hatches, by kind of hatch", default={})
    refuges: dict[str, Refuge] = say("Refuges, by name of their building or niche", default={})
    fuel: tuple[str, ...] = say("Places, buildings and niches that hold fuel", default=())
    above: dict[str, Above] = say("What stands on the snow above the station, by name", default={})
    siting: Siting = say("Where new hatches may stand", default=Siting())
