"""Water: who uses how much, the melt well, tanks, and where the sewage goes."""

from __future__ import annotations

from datetime import date
from typing import Literal

from firnstead.core.units import GALLON, YEAR
from firnstead.station.fields import (
    Angle,
    Conductivity,
    Density,
    EnergyPerVolume,
    FlowRate,
    Length,
    Part,
    Pieces,
    Power,
    Share,
    Speed,
    Temperature,
    Time,
    Volume,
    say,
)

DAY = 86400.0


class WaterUse(Part):
    """One use of water."""

    per_head: FlowRate = say("For one person", low=0, high=2.0 / DAY, default=0.0)
    steady: FlowRate = say("Whatever the number of people", low=0, high=200.0 / DAY, default=0.0)


class Spot(Part):
    """Where a shaft goes down: a hand-cut niche meant for it, or a point of the grid clear of every cut."""

    niche: str | None = say("Name of the niche that it stands in", default=None)
    at: tuple[Length, Length] | None = say("East and north in the grid; left out: in the niche", default=None)


class WellHeat(Part):
    """A source of heat for the pool."""

    kind: Literal["waste", "boiler", "electric"] = say(
        "waste: from the generators; boiler: burns fuel; electric: heater on the station's current"
    )
    power: Power = say("Most useful heat that it gives to the pool's loop", above=0, high=5e6)
    efficiency: Share = say(
        "Share of the fuel's heat that is useful (boiler)", above=0, high=1, default=0.8, mark="own_rule"
    )
    part: str | None = say("Part that it is; left out: not on the packing list", default=None)


class WellPump(Part):
    """The pump that hangs in the pool."""

    flow: FlowRate = say("Flow at the greatest lift", above=0, high=0.1)
    lift: Length = say("Greatest height that it lifts", above=0, high=400)
    efficiency: Share = say("Efficiency of pump and motor together", above=0.02, high=0.9, default=0.35,
                            mark="own_rule")  # fmt: skip
    friction: Share = say("Loss of height in the hose, as a share of the lift", low=0, high=1, default=0.1,
                          mark="own_rule")  # fmt: skip
    width: Length = say("Clear width of shaft that pump and hoses need", above=0, high=2)
    submergence: Length = say("Depth below the water level at which it hangs", low=0.3, high=20, default=3.0,
                              mark="own_rule")  # fmt: skip
    least_depth: Length = say("Depth of water without which it draws air", low=0.2, high=10, default=1.0,
                              mark="own_rule")  # fmt: skip
    lowered_every: Time = say("Time between two lowerings of the pump after the level", above=0, high=YEAR,
                              default=30 * DAY, mark="own_rule")  # fmt: skip
    part: str | None = say("Part that it is; left out: not on the packing list", default=None)
    spares: Pieces = say("Spare pumps at the station", default=0)


class WellHose(Part):
    """Hose and cable from the pump to the top of the shaft."""

    length: Length = say("Length on the reel", above=0, high=500)
    bore: Length = say("Bore", above=0.005, high=0.3)
    insulation: Length = say("Thickness of wall and insulation", low=0, high=0.2, default=0.0)
    conductivity: Conductivity = say("Conductivity of wall and insulation", above=0.005, high=1, default=0.04,
                                     mark="own_rule")  # fmt: skip
    drains: bool = say("The hose empties into the pool when the pump stops", default=False)
    part: str | None = say("Part that is one length of it; left out: not on the packing list", default=None)
    part_length: Length = say("Length of one such part", above=0, high=500, default=50.0)


class Steam(Part):
    """The plant that melts the shaft."""

    power: Power = say("Heat in its steam or hot water", above=0, high=5e6)
    useful: Share = say("Share of it that melts the shaft", above=0, high=1, default=0.6, mark="own_rule")
    efficiency: Share = say("Share of the fuel's heat that gets into the steam", above=0, high=1, default=0.8,
                            mark="own_rule")  # fmt: skip
    head: Length = say("Width of the melting head", above=0, high=2)
    people: int = say("People who run it on a shift", low=1, high=20, default=2)
    part: str | None = say("Part that it is; left out: not on the packing list", default=None)


class Well(Spot):
    """The melt well."""

    first_steam: date | None = say("Day of the first steam; left out: start of the season", default=None)
    lead: Time = say("Time of heating before water is drawn", low=0, high=3 * YEAR, default=YEAR,
                     mark="well_field_accounts")  # fmt: skip
    shaft_diameter: Length = say("Diameter of the shaft", low=0.3, high=3, default=1.0668, mark="common_practice")
    start_depth: Length = say("Depth of the pool's first level below the snow surface", low=5, high=190)
    shaft_closing: Speed | None = say("Narrowing of the shaft in a year, measured; left out: not checked",
                                      low=0, high=2 / YEAR, default=None)  # fmt: skip
    steam: Steam = say("The plant that melts the shaft")
    heat: dict[str, WellHeat] = say("Sources of heat by name", min_length=1)
    heat_limit: Power = say("Most heat that the exchanger puts into the pool", above=0, high=5e6)
    supply_temperature: Temperature = say("Water going down", low=275.15, high=368.15)
    circulation: FlowRate = say("Water going round between pool and exchanger", above=0, high=0.1)
    circulation_head: Length = say("Height that the round needs", low=0, high=400, default=20.0, mark="own_rule")
    pool: Volume = say("Water to hold in the pool", above=1, high=20000)
    shape: Share = say("Depth of the pool over the radius of its surface; sound it and put it right",
                       low=0.2, high=6, default=1.0, mark="own_rule")  # fmt: skip
    film_constant: Share = say("Constant C of the heat transfer to the ice, Nu = C Ra^(1/3)", low=0.05, high=0.3,
                               default=0.10, mark="hoffman_2020")  # fmt: skip
    zone: Share = say("Radius of the ice that the pool disturbs, over its own", low=2, high=20, default=4.5,
                      mark="lunardini_rand_1995")  # fmt: skip
    pump: WellPump = say("The pump")
    hose: WellHose = say("Hose and cable")
    delivery: Length = say("Level to which water is lifted; the snow surface is 0", low=-30, high=10, default=0.0)
    roof_span: Length | None = say("Widest roof of snow and ice allowed over the pool; left out: not checked",
                                   above=0, high=100, default=None)  # fmt: skip
    ice_allowed: Length = say("Ice on the pool that pump and hoses can be freed from", low=0.001, high=0.3,
                              default=0.01, mark="own_rule")  # fmt: skip
    pump_repair: Time = say("Longest time to mend or change the pump", above=0, high=60 * DAY)
    heat_repair: Time = say("Longest time without heat or power", above=0, high=60 * DAY)


class Tank(Part):
    """A tank of water."""

    place: str = say("Name of its place")
    volume: Volume = say("Water it holds", above=0, high=2000)
    use: Literal["domestic", "fire"] = say("What the water is for, and for nothing else")
    temperature: Temperature = say("Coldest water in it", low=273.15, high=368.15, default=283.15)
    part: str | None = say("Part that it is; left out: not on the packing list", default=None)


class Sump(Spot):
    """Where the sewage goes: a shaft of its own into the ice."""

    shaft_diameter: Length = say("Diameter of the shaft", low=0.1, high=3, default=0.4)
    depth: Length = say("Depth of the outfall below the snow surface", low=3, high=200)
    cavity: Volume = say("Room open at the outfall (a worn-out well); 0: a bored hole", low=0, high=20000, default=0.0)
    temperature: Temperature = say("Sewage at the outfall", low=273.15, high=363.15)
    share: Share = say("Share of the water drawn that goes there", low=0, high=1.5, default=1.0, mark="own_rule")
    sheet_thickness: Length = say("Thickness of the sheet in which overflow spreads in firn", low=0.2, high=50,
                                  default=5.0, mark="own_rule")  # fmt: skip
    clearance: Length = say("Snow wanted between sewage and any floor or fuel", low=1, high=200, default=10.0,
                            mark="own_rule")  # fmt: skip
    hose_part: str | None = say("Part that is one length of the outfall pipe; left out: not on the list", default=None)
    hose_length: Length = say("Length of one such part", above=0, high=500, default=3.0)


class Water(Part):
    """The water of the station."""

    people: tuple[float, ...] = say("People in each month, January first: twelve numbers", min_length=12, max_length=12)
    uses: dict[str, WaterUse] = say("Uses of water by name", min_length=1)
    losses: Share = say("Leaks, flushing and spills as a share", low=0, high=1, default=0.1, mark="own_rule")
    emergency_per_head: FlowRate = say("For one person while the well is out of order", low=0, high=2.0 / DAY,
                                       default=4 * GALLON / DAY, mark="ufc_3_340_08")  # fmt: skip
    well: Well = say("The melt well")
    next_wells: tuple[Spot, ...] = say("Where later wells are to stand, one after the other", default=())
    tanks: dict[str, Tank] = say("Tanks by name", default={})
    fire_flow: FlowRate | None = say("Flow for one fire; left out: not checked", above=0, high=0.5, default=None)
    fire_duration: Time = say("How long it must last", above=0, high=DAY, default=7200.0, mark="tm_5_813_7")
    sump: Sump | None = say("Where the sewage goes; left out: not checked", default=None)
    ice_flow: Angle | None = say("Direction towards which ice and meltwater move, clockwise from grid north",
                                 low=0, high=360, default=None)  # fmt: skip
    fuel_places: tuple[str, ...] = say("Places in which fuel is kept", default=())
    fuel_heat: EnergyPerVolume = say("Heat of the fuel", low=1e10, high=5e10, default=35.12e9, mark="chevak_1991")
    fuel_density: Density = say("Density of the fuel", low=600, high=1000, default=820.0, mark="textbook_unchecked")
