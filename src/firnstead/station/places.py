"""Places: passages, trenches and what closes, opens and fills them."""

from __future__ import annotations

from typing import Literal

from firnstead.station.build import EndWallOpening
from firnstead.station.fields import Angle, Length, Part, Share, Temperature, say


class Link(Part):
    """The hand-cut way through the snow that is left between a trench and the passage it opens into."""

    width: Length = say("Clear width", low=0.5, high=6)
    height: Length = say("Clear height", low=0.5, high=6)


class Place(Part):
    """A cut with an axis: start, and either an end or a bearing and a length."""

    start: tuple[Length, Length] = say("Start of the axis: east, north in the station's own grid")
    end: tuple[Length, Length] | None = say("End of the axis", default=None)
    bearing: Angle | None = say("Direction of the axis, clockwise from grid north", low=0, high=360, default=None)
    length: Length | None = say("Length of the axis", above=0, high=2000, default=None)
    floor_level: Length | None = say(
        "Level of the floor; the snow surface is 0. Left out: minus the section's depth", low=-30, high=0, default=None
    )
    section: str = say("Name of its section")
    roof: str = say("Name of its roof")
    use: str = say("What it is for", default="")
    air: Temperature = say(
        "Air temperature to expect in it when occupied, warmest month",
        low=203.15,
        high=273.15,
        default=244.26,
        mark="common_practice",
    )
    clear_width: Length | None = say(
        "Width that must stay clear to walk and haul, on the axis; left out: only buildings must",
        low=0.5,
        high=20,
        default=None,
    )
    clear_height: Length | None = say("Height that must stay clear with it", low=0.5, high=15, default=None)
    vehicle_over: str | None = say("Machine that is allowed to cross above it; left out: none is", default=None)
    drift_factor: Share | None = say(
        "Growth of its cover as a multiple of accumulation, if not the design's", low=0.5, high=5, default=None
    )


class Passage(Place):
    """A main passage that trenches open into."""


class Trench(Place):
    """A trench, which usually opens into a passage."""

    opens_into: str | None = say("Name of the passage; left out: it stands alone", default=None)
    link: Link | None = say("Hand-cut way to the passage where snow is left between them", default=None)


class EndWall(Part):
    """A wall of snow blocks that closes one end of a place."""

    place: str = say("Name of the place")
    at: Literal["start", "end"] = say("Which end of its axis")
    layers: int = say("Blocks one behind the other", low=1, high=6)
    door: EndWallOpening | None = say("Doorway in it", default=None)


class Portal(Part):
    """A way in from the surface: portal at the end of a place and a ramp up to the snow."""

    place: str = say("Name of the place")
    at: Literal["start", "end"] = say("Which end of its axis")
    width: Length = say("Clear width", low=0.6, high=10)
    height: Length = say("Clear height", low=0.6, high=8)
    slope: Angle = say("Slope of the ramp", above=0, high=45)
    vehicle: str | None = say("Machine that must get through; left out: people only", default=None)


class Hatch(Part):
    """An escape hatch through the roof."""

    place: str = say("Name of the place")
    at: Length = say("Distance along the axis from its start", low=0, high=2000)
    kind: str = say("Name of the kind of hatch")


class Building(Part):
    """A building in a place."""

    place: str = say("Name of the place")
    at: Length = say("Distance along the axis from its start to the building's near end", low=0, high=2000)
    kit: str = say("Name of the kit")
    people: int = say("People who sleep in it", low=0, high=200, default=0)
    use: str = say("What it is for", default="")


class Niche(Part):
    """A hand-cut room or recess beside a place."""

    place: str = say("Name of the place")
    at: Length = say("Distance along the axis from its start to the niche's middle", low=0, high=2000)
    side: Literal["left", "right"] = say("Side, looking along the axis")
    width: Length = say("Width along the place's axis", low=0.3, high=10)
    depth: Length = say("How far it goes into the wall", low=0.3, high=20)
    height: Length = say("Height", low=0.3, high=5)
    use: str = say("What it is for", default="")
