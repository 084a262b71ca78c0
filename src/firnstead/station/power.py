"""Electric power in the station file: boards, cables, feeders, generator sets, loads, fuel, power for construction."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from firnstead.core.units import YEAR
from firnstead.station.fields import (
    ApparentPower,
    Area,
    Current,
    Density,
    EnergyPerVolume,
    FlowRate,
    HoursPerDay,
    Length,
    LineResistance,
    Mass,
    Part,
    Power,
    Quantity,
    Share,
    Stress,
    Temperature,
    Time,
    Voltage,
    Volume,
    say,
)

Part01 = Annotated[float, Quantity("1"), Field(ge=0, le=1)]
Day = Annotated[tuple[Part01, ...], Field(min_length=24, max_length=24)]
Year = Annotated[tuple[Part01, ...], Field(min_length=12, max_length=12)]
LineMass = Annotated[float, Quantity("kg/m")]
Size = tuple[Length, Length, Length]
Engine = Literal["not charged", "charged", "charged and cooled"]
OUTSIDE = "outside"  # written where something stands in no place of the station, but on the snow
_ENGINE = "How the engine gets its air: not charged, charged by a turbine, charged and the charge air cooled"


class Board(Part):
    """A switchboard or distribution board."""

    where: str = say("Place or building in which it stands")
    at: Length | None = say(
        "Distance along the place's axis from its start; left out: the start, or the middle of the building",
        low=0, high=2000, default=None,
    )  # fmt: skip
    diversity: Share = say(
        "Sum of the greatest demands of its own loads over their greatest demand together", low=1, high=5, default=1.0
    )
    mass: Mass = say("Mass with everything in it", low=0, high=20000)
    size: Size = say("Length, width and height, packed")
    part: str | None = say("Part of the packing list that it is; left out: listed as worked out", default=None)


class Cable(Part):
    """A kind of feeder cable; give `section` or `awg`."""

    metal: Literal["copper", "aluminium"] = say("Metal of the conductors")
    section: Area | None = say("Nominal section of one conductor", above=0, high=2e-3, default=None)
    awg: str | None = say("American size instead: 4/0, or 250 and above in thousand circular mils", default=None)
    kind: Literal[2, 5] = say("Class of the conductor: 2 stranded, 5 flexible", default=2)
    reactance: LineResistance = say(
        "Reactance of one conductor at the station's frequency", low=0, high=1e-3, default=8e-5,
        mark="iec_60364_5_52"
    )  # fmt: skip
    ampacity: Current | None = say(
        "Current that the maker allows as it is laid; left out: not checked", above=0, high=5000, default=None
    )
    mass: LineMass = say("Mass per length", above=0, high=100)
    drum_length: Length = say("Length on one drum", above=1, high=5000)
    drum_mass: Mass = say("Mass of the empty drum", low=0, high=5000, default=0.0)
    drum_volume: Volume = say("Space that one drum takes", above=0, high=50)


class Transformer(Part):
    """One of two transformers alike, at either end of a feeder of another voltage."""

    rating: ApparentPower = say("Rating", above=0, high=1e7)
    resistance: Share = say("Resistance as a share of the rating's impedance", low=0, high=0.1)
    reactance: Share = say("Reactance as a share of the rating's impedance", low=0, high=0.2)
    mass: Mass = say("Mass of one", above=0, high=50000)
    volume: Volume = say("Packed volume of one", above=0, high=100)


class Feeder(Part):
    """A cable from one board to another."""

    start: str = say("Board that it comes from")
    end: str = say("Board that it goes to")
    cable: str = say("Kind of cable")
    parallel: int = say("Cables side by side", low=1, high=12, default=1)
    phases: Literal[1, 3] = say("Phases", default=3)
    length: Length | None = say(
        "Length one way; left out: along the passages between the two boards, and slack", above=0, high=10000,
        default=None,
    )  # fmt: skip
    slack: Share = say(
        "Length added to the way for rises, bends and the moving of snow", low=0, high=1, default=0.1, mark="own_rule"
    )
    voltage: Voltage | None = say(
        "Voltage from line to line where transformers stand at both ends; left out: the station's", above=0,
        high=40000, default=None,
    )  # fmt: skip
    transformer: Transformer | None = say("Transformer at either end", default=None)
    normally_open: bool = say("Whether it stands switched off and takes over when another part is lost", default=False)


class FuelPoint(Part):
    """One line of a maker's fuel table."""

    load: Share = say("Load as a share of rated power", above=0, high=1.2)
    flow: FlowRate = say("Fuel burnt by one set", above=0, high=1e-3)


class GeneratorSet(Part):
    """Generator sets of one kind, in one place."""

    count: int = say("How many", low=1, high=20)
    where: str = say("Place or building in which they stand, or `outside`")
    board: str = say("Board that they feed")
    duty: Literal["main", "standby"] = say(
        "main sets run by turns, in the order of the file; standby sets only when others are lost", default="main"
    )
    rated: Power = say("Electric power of one at reference conditions, prime rating", above=0, high=5e6)
    engine: Engine = say(_ENGINE)
    site_factor: Share | None = say(
        "Share of rated power that the maker allows at the station's pressure and inlet temperature; left out: the "
        "least that a published rule leaves",
        above=0, high=1, default=None,
    )  # fmt: skip
    lowest: Share = say(
        "Least load in running, as a share of rated power; below it soot and unburnt fuel collect", low=0, high=0.8,
        default=0.3, mark="textbook_unchecked",
    )  # fmt: skip
    highest: Share = say(
        "Load up to which a set is planned to run, as a share of its power at the station", low=0.3, high=1,
        default=0.8, mark="textbook_unchecked",
    )  # fmt: skip
    fuel: tuple[FuelPoint, ...] = say("The maker's fuel table, two lines or more", min_length=2, max_length=20)
    jacket_heat: Share = say(
        "Heat taken from the jacket per electric power", low=0, high=2, default=0.85, mark="chevak_1991"
    )
    exhaust_heat: Share = say("Heat taken from the exhaust per electric power; 0: no exchanger", low=0, high=2,
                              default=0.0)  # fmt: skip
    radiated: Share = say("Heat that set and alternator give off where they stand, as a share of the fuel's heat",
                          low=0, high=0.5)  # fmt: skip
    radiator: Literal["outside", "in place"] = say("Where jacket heat goes that nobody uses")
    start_time: Time | None = say("Time from the order to start until it takes load", above=0, high=86400, default=None)
    starting_power: ApparentPower | None = say(
        "Greatest starting power of a motor that the maker allows one set", above=0, high=1e8, default=None
    )
    mass: Mass = say("Mass of one", above=0, high=200000)
    size: Size = say("Length, width and height of one, packed")
    part: str | None = say("Part of the packing list that it is; left out: listed as worked out", default=None)


class Motor(Part):
    """The largest motor of a load that is started on the line."""

    power: Power = say("Rated power at the shaft", above=0, high=1e6)
    power_factor: Share = say("Power factor at full load", above=0.1, high=1, default=0.85, mark="textbook_unchecked")
    efficiency: Share = say("Efficiency at full load", above=0.1, high=1, default=0.88, mark="textbook_unchecked")
    starting_current: Share = say("Starting current as a multiple of the full-load current", low=1, high=12)
    starting_power_factor: Share = say(
        "Power factor while it starts", above=0.05, high=1, default=0.35, mark="installation_guide"
    )


class Load(Part):
    """A load or a group of loads alike."""

    board: str = say("Board that feeds it")
    where: str | None = say("Place or building in which it is, or `outside`; left out: the board's", default=None)
    power: Power = say("What is connected, all of the group together", low=0, high=5e6)
    demand_factor: Share = say("Greatest demand as a share of what is connected", low=0, high=1)
    power_factor: Share = say("Power factor", above=0.1, high=1, default=0.9, mark="own_rule")
    day: str | None = say("Pattern of its day; left out: the same at every hour", default=None)
    year: str | None = say("Pattern of its year; left out: the same in every month", default=None)
    essential: bool = say("Whether people or the station are in danger without it", default=False)
    shed: int | None = say(
        "Order in which it is switched off when power is short, 1 first; left out: with the first", low=1, high=99,
        default=None,
    )  # fmt: skip
    motor: Motor | None = say("Its largest motor that starts on the line", default=None)


class OtherLoad(Part):
    """Where a load hangs that another study works out: tracing, fans, pumps, electric heat."""

    board: str = say("Board that feeds it")
    power_factor: Share = say("Power factor", above=0.1, high=1, default=0.95, mark="own_rule")
    essential: bool = say("Whether people or the station are in danger without it", default=True)
    shed: int | None = say("Order in which it is switched off, if it is not essential", low=1, high=99, default=None)


class StatedSource(Part):
    """A source of heat and power whose output is stated; its own design lies outside this tool."""

    where: str = say("Place or building in which it stands, or `outside`")
    board: str = say("Board that it feeds")
    electric: Power = say("Electric power that it is stated to give", low=0, high=1e8)
    heat: Power = say("Heat that it is stated to give for use", low=0, high=1e9, default=0.0)
    heat_to_place: Power = say("Heat that it gives off where it stands", low=0, high=1e8, default=0.0)
    year: str | None = say("Pattern of its year; left out: the same in every month", default=None)
    firm: bool = say("Whether it counts when a set has failed", default=False)


class Tank(Part):
    """Fuel tanks alike."""

    count: int = say("How many", low=1, high=200, default=1)
    where: str | None = say("Place or building in which it stands; left out: outside", default=None)
    volume: Volume = say("Volume of one", above=0, high=10000)
    usable: Share = say("Share that can be drawn", low=0.1, high=1, default=0.95, mark="own_rule")
    mass: Mass = say("Mass of one, empty", low=0, high=200000)
    size: Size = say("Length, width and height of one, packed")


class Fuel(Part):
    """The station's fuel."""

    density: Density = say("Density", low=700, high=1000, default=850.0, mark="own_rule")
    heating_value: EnergyPerVolume = say(
        "Heating value by volume (126,000 Btu/gal)", low=2e10, high=5e10, default=3.512e10, mark="chevak_1991"
    )
    resupply_interval: Time = say("Longest time between two resupplies", low=86400, high=3 * YEAR)
    resupply_month: int | None = say(
        "Month in which fuel arrives, 1 to 12; left out: the worst month is taken", low=1, high=12, default=None
    )
    reserve: Share = say("Reserve beyond the interval, as a share of it", low=0, high=2, default=0.25, mark="own_rule")
    tanks: dict[str, Tank] = say("Tanks by name", default={})
    container: str | None = say("Part of the packing list in which fuel is shipped; left out: in bulk", default=None)
    container_volume: Volume = say("What one container holds", above=0, high=100, default=0.2)


class ConstructionLoad(Part):
    """A load while the station is built."""

    power: Power = say("What is connected", low=0, high=5e6)
    demand_factor: Share = say("Greatest demand as a share of it", low=0, high=1)


class Construction(Part):
    """Power for building, before the station has its own."""

    count: int = say("Sets", low=1, high=20)
    rated: Power = say("Electric power of one at reference conditions", above=0, high=2e6)
    engine: Engine = say(_ENGINE)
    site_factor: Share | None = say("Share of rated power that the maker allows at the station", above=0, high=1,
                                    default=None)  # fmt: skip
    fuel: tuple[FuelPoint, ...] = say("The maker's fuel table, two lines or more", min_length=2, max_length=20)
    hours_per_day: HoursPerDay = say("Hours a day in which power is needed", above=0, high=24)
    mean_share: Share = say("Mean load as a share of the greatest demand", above=0, high=1)
    loads: dict[str, ConstructionLoad] = say("Loads by name")
    mass: Mass = say("Mass of one set", above=0, high=50000)
    size: Size = say("Length, width and height of one, packed")
    part: str | None = say("Part of the packing list that a set is; left out: listed as worked out", default=None)


class PowerPlan(Part):
    """Electric power of the station."""

    voltage: Voltage = say("Voltage from line to line", above=20, high=1000)
    pressure: Stress | None = say(
        "Measured air pressure at the station, its lowest; left out: the standard atmosphere at the site's height",
        low=40e3, high=110e3, default=None,
    )  # fmt: skip
    inlet_temperature: Temperature = say("Warmest air at the inlets of engines and radiators", low=223.15, high=328.15)
    diversity: Share = say(
        "Sum of the boards' greatest demands over their greatest demand together, beyond what the patterns say",
        low=1, high=3, default=1.0,
    )  # fmt: skip
    growth: Share = say("Growth allowed for in the power of the sets", low=0, high=1, default=0.1, mark="ufc_3_520_01")
    running_at_least: int = say("Sets kept running while there is load", low=1, high=10, default=1)
    longest_gap: Time | None = say(
        "Longest time that essential loads can stand without power (batteries); left out: none is stated", low=0,
        high=7 * 86400, default=None,
    )  # fmt: skip
    drop_limit: Share = say(
        "Greatest voltage drop from the sets to a board, as a share", above=0, high=0.2, default=0.06,
        mark="iec_60364_5_52",
    )  # fmt: skip
    start_drop_limit: Share | None = say(
        "Greatest voltage drop in the feeders while a motor starts, as a share; left out: not checked", above=0,
        high=0.5, default=None,
    )  # fmt: skip
    conductor_temperature: Temperature = say(
        "Temperature of a loaded conductor, for voltage drop", low=253.15, high=363.15, default=343.15, mark="own_rule"
    )
    days: dict[str, Day] = say("Patterns of a day: 24 shares of the greatest demand, from midnight on", default={})
    years: dict[str, Year] = say("Patterns of a year: 12 shares, January first", default={})
    boards: dict[str, Board] = say("Boards by name")
    cables: dict[str, Cable] = say("Kinds of cable by name", default={})
    feeders: dict[str, Feeder] = say("Feeders by name", default={})
    sets: dict[str, GeneratorSet] = say("Generator sets by name, in the order in which they are started", default={})
    stated_sources: dict[str, StatedSource] = say("Other sources of heat and power, with stated output", default={})
    loads: dict[str, Load] = say("Loads by name")
    other_loads: dict[str, OtherLoad] = say(
        "Loads that other parts of the file give rise to, by the name they have there; one that is not named here "
        "hangs on the first board with sets and counts as essential",
        default={},
    )
    fuel: Fuel = say("Fuel")
    construction: Construction | None = say("Power for building; left out: not checked", default=None)
