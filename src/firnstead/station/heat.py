"""Heat: envelopes of buildings, what warms and cools the air of places, heaters."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from firnstead.station.fields import (
    Area,
    Conductivity,
    Density,
    EnergyPerVolume,
    FlowRate,
    HeatTransmission,
    Length,
    Part,
    Power,
    Rate,
    Share,
    Temperature,
    say,
)


class HeatLayer(Part):
    """One layer of a wall, roof or floor."""

    what: str = say("What it is")
    thickness: Length = say("Thickness", above=0, high=1)
    conductivity: Conductivity = say("Conductivity, as the maker declares it for the cold", low=0.005, high=400)
    density: Density | None = say("Density, to weigh what is put on at the site", low=5, high=9000, default=None)
    on_site: bool = say("Put on at the site and not among the kit's parts: it becomes a work item", default=False)


class Panel(Part):
    """The walls, the roof or the floor of a building: layers, or the transmittance that the maker states."""

    layers: tuple[HeatLayer, ...] = say("Layers from inside out", default=())
    u: HeatTransmission | None = say(
        "Transmittance with bridges and surface films; left out: reckoned from the layers", low=0.02, high=10,
        default=None
    )  # fmt: skip


class Gap(Part):
    """The air between a building's floor and the snow."""

    kind: Literal["closed", "trench air", "outside air", "well air"] = say(
        "closed all round, or swept by air of the trench, of the surface or of an air well"
    )
    height: Length | None = say("Height; left out: the kit's footing height", above=0, high=3, default=None)
    flow: FlowRate = say("Air that sweeps it, per building", low=0, high=50, default=0.0)
    supply_temperature: Temperature | None = say(
        "Temperature of well air", low=193.15, high=273.15, default=None
    )  # fmt: skip
    fan_power: Power = say("Electric power of its fan", low=0, high=50e3, default=0.0)
    part: str | None = say("Part that is its fan with duct; left out: not on the packing list", default=None)


class Envelope(Part):
    """How a kit holds its warmth."""

    walls: Panel = say("Walls")
    roof: Panel = say("Roof")
    floor: Panel = say("Floor; a stated transmittance is that of the solid floor with its inner film alone")
    opening_area: Area = say("Doors and windows together", low=0, high=200, default=0.0)
    opening_u: HeatTransmission = say("Their transmittance", low=0.2, high=10, default=2.0, mark="own_rule")
    air_change: Rate | None = say(
        "Air that leaks in and out, in volumes of the building; left out: from the cracks", low=0, high=20 / 3600,
        default=None
    )  # fmt: skip
    leak_area: Area | None = say(
        "Area of all cracks, half of them low and half high; left out: from the air change", low=0, high=2,
        default=None
    )  # fmt: skip
    gap: Gap = say("The air below the floor")


class Room(Part):
    """How a building is kept."""

    temperature: Temperature | None = say("Temperature; left out: not heated", low=253.15, high=313.15, default=None)
    humidity: Share = say("Relative humidity", low=0.05, high=0.95, default=0.35, mark="tm_5_852_9")
    ventilation: FlowRate = say("Fresh air", low=0, high=50, default=0.0)
    ventilation_from: Literal["trench", "outside"] = say("Where the fresh air is taken", default="trench")
    recovery: Share = say("Share of its heat that an exchanger gives back", low=0, high=0.95, default=0.0)
    fan_power: Power = say("Electric power of its fans", low=0, high=50e3, default=0.0)
    people: float | None = Field(
        default=None, ge=0, le=500, description="People in it on average over the day; left out: those who sleep there "
        "times the share of the day that they spend there"
    )  # fmt: skip
    lamps: Power = say("Lamps, mean over the day", low=0, high=1e6, default=0.0)
    equipment: Power = say("Other things that give off heat, mean over the day", low=0, high=1e7, default=0.0)


class Vent(Part):
    """A duct from the surface into a place: open only while the surface is colder than the trench."""

    kind: Literal["gravity", "fan"] = say("driven by its own draught, or by a fan")
    count: int = say("How many alike", low=1, high=50, default=1)
    area: Area = say("Clear area of one; of gravity vents half serve as inlet, half as outlet", low=0, high=10,
                     default=0.0)  # fmt: skip
    height: Length | None = say("From inlet to outlet; left out: from floor to surface", above=0, high=40, default=None)
    flow: FlowRate = say("Flow of one fan", low=0, high=50, default=0.0)
    fan_power: Power = say("Electric power of one fan", low=0, high=50e3, default=0.0)
    part: str | None = say("Part that it is; left out: not on the packing list", default=None)


class AirWell(Part):
    """Cold air drawn by a fan through the snow into a cased hole."""

    count: int = say("How many alike", low=1, high=50, default=1)
    flow: FlowRate = say("Flow of one", above=0, high=20)
    supply_temperature: Temperature = say("Temperature of its air at the end of the warm season, as tested",
                                          low=193.15, high=273.15)  # fmt: skip
    casing: Length = say("Length of the casing", low=0.5, high=60)
    spacing: Length | None = say("Distance to the next air well", low=0, high=500, default=None)
    fan_power: Power = say("Electric power of one fan; it warms the air", low=0, high=50e3)
    part: str | None = say("Part that it is; left out: not on the packing list", default=None)


class TrenchAir(Part):
    """What warms and cools the air of a place, apart from its buildings, pipes and engines."""

    lamps: Power = say("Lamps, mean over the day", low=0, high=1e6, default=0.0)
    equipment: Power = say("Other things that give off heat, mean over the day", low=0, high=1e7, default=0.0)
    people: float = Field(default=0.0, ge=0, le=500, description="People in the place itself, mean over the day")
    door: Literal["open", "closed"] = say("The way between the place and its passage", default="closed")
    door_leak: FlowRate = say(
        "Air that passes a closed door each way, people walking through counted", low=0, high=5, default=0.05,
        mark="own_rule"
    )  # fmt: skip
    outside_leak: FlowRate = say("Surface air that comes in through portals and hatches, mean over the day", low=0,
                                 high=20, default=0.0)  # fmt: skip
    vents: tuple[Vent, ...] = say("Ducts to the surface", default=())
    wells: tuple[AirWell, ...] = say("Air wells", default=())
    limit: Temperature | None = say("Warmest air allowed; left out: the station's", low=203.15, high=273.15,
                                    default=None)  # fmt: skip


class Heater(Part):
    """A source of heat with a stated output."""

    kind: Literal["waste heat", "electric", "fuel"] = say("Where its heat comes from")
    serves: tuple[str, ...] = say("Buildings; left out: all of them", default=())
    count: int = say("How many alike", low=1, high=200, default=1)
    output: Power = say("Heat that one gives", above=0, high=1e8)
    efficiency: Share = say("Heat given for the energy put in", above=0, high=1, default=1.0)
    part: str | None = say("Part that it is; left out: not on the packing list", default=None)


class Heat(Part):
    """Heat of the whole station."""

    limit: Temperature = say("Warmest air allowed in a trench", low=203.15, high=273.15, default=255.15,
                             mark="hoffman_1970")  # fmt: skip
    floor_limit: Temperature = say(
        "Warmest snow allowed under a building", low=203.15, high=273.15, default=263.15, mark="own_rule"
    )
    cool_to: Temperature | None = say(
        "Vents shut and air wells stop below this trench air; left out: 2 K below the limit", low=193.15, high=273.15,
        default=None
    )  # fmt: skip
    envelopes: dict[str, Envelope] = say("By kit")
    room: Room = say("How every building is kept that is not named in rooms")
    rooms: dict[str, Room] = say("By building", default={})
    place: TrenchAir = say("Every place that is not named in places", default=TrenchAir())
    places: dict[str, TrenchAir] = say("By place", default={})
    heaters: dict[str, Heater] = say("In the order in which they are used", default={})
    conductivity_band: Share = say(
        "Doubt about the conductivity of the snow, either way", low=0, high=0.6, default=0.30, mark="own_rule"
    )
    person_heat: Power = say("Heat of one person", low=50, high=300, default=100.0, mark="textbook_unchecked")
    presence: Share = say("Share of the day that people spend where they sleep", low=0, high=1, default=0.5,
                          mark="own_rule")  # fmt: skip
    fuel_heat: EnergyPerVolume = say("Heat of the fuel", low=2e10, high=4.5e10, default=3.512e10,
                                     mark="chevak_1991")  # fmt: skip
    fuel_density: Density = say("Density of the fuel", low=700, high=1000, default=820.0, mark="textbook_unchecked")
