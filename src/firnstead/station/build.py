"""Sections, roofs and the things that stand in them: the types that places refer to by name."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from firnstead.core.units import YEAR
from firnstead.station.fields import (
    Density,
    Length,
    Mass,
    Part,
    Pieces,
    Share,
    Stress,
    Temperature,
    TemperatureDifference,
    Time,
    say,
)


class Section(Part):
    """The cross-section of a cut, symmetric about its axis."""

    kind: Literal["straight", "undercut"] = say("straight walls, or wider at the floor than at the top (undercut)")
    top_width: Length = say("Clear width between the walls below the bench", low=0.5, high=20)
    floor_width: Length = say("Width at the floor", low=0.5, high=20)
    depth: Length = say("Depth of the floor below the snow surface", low=0.5, high=20)
    bench_width: Length = say("Width of the bench under the planks, on each side", low=0, high=3)
    bench_depth: Length = say("Depth of the bench below the snow surface", low=0, high=5)
    undercut_from: Length | None = say(
        "Depth below the surface at which the widening starts", low=0, high=20, default=None
    )

    @property
    def undercut(self) -> float:
        """How far the wall at the floor stands back behind the wall at the top, each side [m]."""
        return (self.floor_width - self.top_width) / 2


class Plank(Part):
    """The timber under an arch's feet."""

    width: Length = say("Width across the trench's edge", low=0.1, high=2)
    thickness: Length = say("Thickness", low=0.02, high=0.3)
    length: Length = say("Length along the trench", low=0.5, high=8)
    setback: Length = say("Distance from the edge of the cut to the plank's near side", low=0, high=2)
    keeper: Length | None = say(
        "Height of the board on edge or steel angle that bears on the snow behind the plank and takes the outward "
        "thrust; left out: the plank's own edge",
        low=0,
        high=1,
        default=None,
    )
    density: Density = say("Density of the timber", low=300, high=1000, default=550.0, mark="textbook_unchecked")
    bending_strength: Stress = say(
        "Allowable bending stress of the timber (900 psi: Douglas fir-larch No. 2)",
        low=1e6,
        high=5e7,
        default=6.2e6,
        mark="nds_supplement",
    )
    shear_strength: Stress = say(
        "Allowable shear stress of the timber (180 psi)", low=1e5, high=1e7, default=1.24e6, mark="nds_supplement"
    )


class ArchRoof(Part):
    """Corrugated steel arch covered with milled snow."""

    kind: Literal["arch"] = "arch"
    profile: Literal["1.5x0.25", "2.67x0.5", "3x1", "5x1", "6x2"] = say("Corrugation, pitch by depth in inches")
    gauge: Literal[18, 16, 14, 12, 10, 8, 7, 5, 3, 1] = say("Gauge of the sheet")
    span: Length = say("Span between the feet of the arch", low=0.5, high=20)
    rise: Length = say("Rise from the feet to the crown", low=0.1, high=10)
    cover: Length = say("Thickness of milled snow over the crown as placed", low=0, high=6)
    haunch_cover: Length | None = say(
        "Height of the cover's top above the feet at the sides; left out: levelled to the crown's cover",
        low=0,
        high=12,
        default=None,
    )
    yield_strength: Stress = say(
        "Yield strength of the steel (33 ksi)", low=1e8, high=1e9, default=2.2753e8, mark="aashto_lrfd_12"
    )
    joint: Literal["bolted", "lapped"] = say("How sheets are joined along the trench and round the arch")
    sheet_length: Length = say("Length of one sheet round the arch", low=0.5, high=12)
    sheet_width: Length = say("Length that one sheet covers along the trench, laps taken off", low=0.2, high=3)
    lap: Length = say("Overlap of neighbouring sheets", low=0, high=1, default=0.1, mark="own_rule")
    fasteners: int = say("Bolts or fasteners per sheet", low=0, high=200)
    one_side_share: Share = say(
        "Share of the half span that may be covered before the other side is (1: a whole half)",
        low=0.1,
        high=1,
        default=1.0,
    )
    one_side_cover: Length | None = say(
        "Thickness that one side may lead the other by while covering; left out: the whole cover",
        low=0,
        high=6,
        default=None,
    )
    plank: Plank = say("Timber under the feet")


class FormedRoof(Part):
    """A roof of milled snow over a removable form; no steel stays in it."""

    kind: Literal["formed"] = "formed"
    span: Length = say("Clear span", low=0.5, high=8)
    rise: Length = say("Rise of the inner line", low=0.1, high=6)
    cover: Length = say("Thickness at the crown as placed", low=0.2, high=6)
    form_length: Length = say("Length of form on hand", above=0, high=100)


Roof = Annotated[ArchRoof | FormedRoof, Field(discriminator="kind")]


class CatalogPart(Part):
    """A thing that is shipped: one piece."""

    what: str = say("What it is")
    mass: Mass = say("Mass of one piece, packed", above=0, high=200000)
    size: tuple[Length, Length, Length] = say("Length, width and height of one piece, packed")
    hazardous: bool = say("Travels apart (fuel, gas, acid)", default=False)
    spare: Share = say("Spares carried, as a share of what is needed", low=0, high=1, default=0.0)

    @property
    def volume(self) -> float:
        """Packed volume of one piece [m3]."""
        return self.size[0] * self.size[1] * self.size[2]


class Footings(Part):
    """What a building stands on: rows of footings along it, each on a jack, on the snow floor or on compacted pads."""

    rows: int = say("Rows of footings along the building, the two outer ones under its long walls", low=2, high=20)
    per_row: int = say("Footings in each row, the outer ones under the end walls", low=2, high=60)
    width: Length = say("Width of one footing across the building", low=0.1, high=4)
    length: Length = say("Length of one footing along the building", low=0.1, high=12)
    live_load: Stress = say("People, furniture, plant and stores on the floor, per area", low=0, high=50000)
    sustained_share: Share = say(
        "Share of the live load that stays there and counts for settling", low=0, high=1, default=0.5, mark="own_rule"
    )
    edge_share: Share | None = say(
        "Share of the whole load on the two outer rows together, where there are more; left out: by floor area",
        low=0.05,
        high=0.95,
        default=None,
    )
    eccentricity: Length = say(
        "How far a post may stand off the middle of its footing", low=0, high=1, default=0.02, mark="own_rule"
    )
    drop_distance: Length | None = say(
        "Distance from the nearest footing to a pit, sump or drain cut into the floor; left out: there is none",
        low=0,
        high=20,
        default=None,
    )
    pad_thickness: Length = say(
        "Thickness of compacted processed snow under the footings; 0: natural snow", low=0, high=3, default=0.0
    )
    pad_density: Density | None = say(
        "Density of the compacted pad; left out: that of milled snow as placed", low=400, high=700, default=None
    )
    pad_age: Time = say(
        "Age of the pad when it is first loaded", low=0, high=YEAR, default=14 * 86400.0, mark="own_rule"
    )
    floor_temperature: Temperature | None = say(
        "Temperature of the snow under the building in the long run, taken no colder than the site's mean; left out: "
        "the air to expect in its place",
        low=193.15,
        high=273.15,
        default=None,
    )
    warm_depth: Length = say(
        "Depth below the floor to which the snow takes that temperature", low=0, high=30, default=5.0, mark="own_rule"
    )
    warm_side: TemperatureDifference = say(
        "How much warmer the snow is under one long side than under the other (pipes, drains, a warm wall)",
        low=0,
        high=30,
        default=0.0,
    )
    load_spread: Share = say(
        "Difference of load between neighbouring footings of a row, as a share",
        low=0,
        high=1,
        default=0.1,
        mark="own_rule",
    )
    snow_spread: Share = say(
        "Difference of settling between neighbouring footings from the snow alone, as a share",
        low=0,
        high=1,
        default=0.15,
        mark="own_rule",
    )
    settlement_limit: Length = say(
        "Settling over the design life that doors, pipes and steps can follow", above=0, high=5, default=0.5,
        mark="own_rule"
    )  # fmt: skip
    relevel_limit: Share = say(
        "Angular distortion at which the building is relevelled (1/300 is 0.00333)",
        low=0.0002,
        high=0.05,
        default=1 / 300,
        mark="own_rule",
    )
    relevel_interval: Time = say(
        "Time wanted between two relevellings", low=0.05 * YEAR, high=50 * YEAR, default=YEAR, mark="own_rule"
    )
    jack_stroke: Length = say("Stroke of a jack", low=0.005, high=1)
    jack_part: str | None = say("Part that is the jack; left out: jacks are not counted", default=None)
    shim_thickness: Length = say("Thickness of one shim", low=0.001, high=0.1, default=0.01, mark="own_rule")
    shim_limit: Length = say(
        "Greatest height of a pack of shims that is safe against tipping", low=0.01, high=1, default=0.15,
        mark="own_rule"
    )  # fmt: skip
    shim_part: str | None = say("Part that is the shim; left out: shims are not put on the packing list", default=None)


class Kit(Part):
    """A building or piece of plant that is shipped in parts and put up on the spot."""

    what: str = say("What it is")
    length: Length = say("Outer length when put up", above=0, high=60)
    width: Length = say("Outer width", above=0, high=15)
    height: Length = say("Outer height without the footings", above=0, high=12)
    footing_height: Length = say("Height of the floor beams and jacks above the snow floor", low=0, high=2)
    clearance: Length = say("Clear space wanted between the building and the snow or the roof", low=0, high=3)
    parts: dict[str, Pieces] = say("Part and number of pieces")
    crew_hours: Share = say("Person-hours to put it up, every part tried together once before", above=0, high=5000)
    doors: Literal["near", "far", "both"] | None = say(
        "End walls that have a door: near, toward the start of its place's axis; far; or both. "
        "Left out: one near door is taken",
        default=None,
    )
    door_width: Length = say("Clear width of each door", low=0.4, high=4, default=0.8, mark="own_rule")
    footings: Footings | None = say(
        "Its footings; left out: pressure, settling and relevelling are not checked", default=None
    )


class EndWallOpening(Part):
    """A doorway in a wall of snow blocks."""

    width: Length = say("Clear width", low=0.4, high=8)
    height: Length = say("Clear height", low=0.5, high=8)
    opens: Literal["inward", "outward", "none"] = say("Which way the leaf opens; none: no leaf")
    slip_gap: Length = say("Gap left round the frame for the closing snow", low=0, high=1)


class Hatchway(Part):
    """A kind of escape hatch."""

    what: str = say("What it is")
    diameter: Length = say("Clear width or diameter of the shaft", low=0.3, high=3)
    extension: Length = say("Length of one extension ring or sleeve", low=0.2, high=5)
    slip_gap: Length = say("Gap left round the sleeve", low=0, high=1)
    parts: dict[str, Pieces] = say("Part and number of pieces for one hatch of standard height")
    extension_part: str = say("Part that lengthens the shaft by one extension")
