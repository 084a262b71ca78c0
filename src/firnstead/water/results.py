"""Results of the water study."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity

Row = tuple[float, ...]


@dataclass(frozen=True)
class PoolMonth:
    """The pool at the end of one month, and what flowed in that month."""

    month: str = quantity("text", "month and year")
    age: float = quantity("s", "time since the pool's start")
    mass: float = quantity("kg", "water in the pool")
    temperature: float = quantity("K", "temperature of the water")
    diameter: float = quantity("m", "diameter of the water surface")
    water_depth: float = quantity("m", "depth of the water")
    level: float = quantity("m", "depth of the water level below the snow surface of the first day")
    lift: float = quantity("m", "height to which the pump lifts")
    draw: float = quantity("kg/s", "water drawn, mean of the month")
    melted: float = quantity("kg", "ice melted in the month")
    power: float = quantity("W", "heat put in, mean of the month")
    lost_to_ice: float = quantity("W", "heat that goes into ice that is not melted, mean of the month")
    lost_to_air: float = quantity("W", "heat lost from the water surface, mean of the month")
    waste: float = quantity("W", "of the heat put in, what may come from the generators")
    boiler: float = quantity("W", "of the heat put in, what boilers give")
    electric_heat: float = quantity("W", "of the heat put in, what electric heaters give")
    fuel: float = quantity("kg", "fuel burnt in boilers in the month")
    pumping: float = quantity("W", "electricity of pump and circulation, mean of the month")


@dataclass(frozen=True)
class BulbYear:
    """The sewage in the ice at the end of one year."""

    year: int = quantity("1", "years since the start")
    sewage: float = quantity("kg", "sewage let in so far")
    melted: float = quantity("kg", "ice melted by it so far")
    liquid: float = quantity("kg", "what is liquid still")
    radius: float = quantity("m", "radius of the bulb, nothing frozen again taken off")
    overflow: float = quantity("kg", "what found no room in the cavity and soaks into firn")
    reach: float = quantity("m", "farthest that sewage may have come, in plan")


@dataclass(frozen=True)
class Shaft:
    """A shaft in plan; well and sump are kept apart in name, drawing and key."""

    name: str = quantity("text", "what it is: well, next well or sump")
    label: str = quantity("text", "what its sign says")
    place: str = quantity("text", "place beside which it goes down; empty on the open snow")
    east: float = quantity("m", "east in the station's grid")
    north: float = quantity("m", "north in the station's grid")
    diameter: float = quantity("m", "diameter of the shaft")
    head: float = quantity("m", "depth of its head below the snow surface")
    foot: float = quantity("m", "depth of its foot below the snow surface")
    reach: float = quantity("m", "radius of the ground it disturbs or fouls by the end")


@dataclass(frozen=True)
class PowerCut:
    """What happens when heat and power stop at the worst moment of a year of use."""

    month: str = quantity("text", "month and year at whose end it happens")
    temperature: float = quantity("K", "temperature of the pool then")
    flux: float = quantity("W/m2", "heat from the water surface to the roof")
    first_ice: float = quantity("s", "time to the first ice, still water")
    ice_allowed: float = quantity("s", "time to the ice that pump and hoses can be freed from")
    all_cold: float = quantity("s", "time until the whole pool is at 0 degC, were it stirred")
    ice_at_repair: float = quantity("m", "ice on the pool when heat comes back after the longest repair")
    heat_lost: float = quantity("J", "heat lost by then")
    restart: float = quantity("s", "time to make good that loss with the heat that is left over")


@dataclass(frozen=True)
class WellResult:
    """The melt well through the years."""

    months: tuple[PoolMonth, ...] = quantity("text", "month by month from the pool's start")
    sealing_density: float = quantity("kg/m3", "density at which this firn seals itself")
    sealing_depth: float = quantity("m", "depth of that density")
    sealing_depth_safe: float = quantity("m", "the same with the spread of density profiles on the safe side")
    shaft_heat: float = quantity("J", "heat that melts the shaft")
    shaft_time: float = quantity("s", "time of steaming")
    shaft_fuel: float = quantity("kg", "fuel burnt for the shaft")
    hold_power: float = quantity("W", "heat that holds the pool without draw")
    least_heat: float = quantity("J/kg", "least heat for a kilogram of water")
    heat_per_mass: float = quantity("J/kg", "heat put in per kilogram melted, over the well's life")
    mass_error: float = quantity("1", "what the balance of mass misses, as a share of what was melted")
    heat_error: float = quantity("1", "what the balance of heat misses, as a share of what was put in")
    end: str = quantity("text", "what ends the well; empty where it outlasts the years looked at")
    end_age: float = quantity("s", "age at its end, or the years looked at")
    end_month: str = quantity("text", "month of its end")
    end_age_low: float = quantity("s", "age at its end with the pool half again flatter or steeper, the sooner")
    end_age_high: float = quantity("s", "the same, the later")
    next_start: str = quantity("text", "month by which the next well must be started; empty where none is needed")
    next_start_age: float | None = quantity("s", "age of this well then; none where no other is needed")
    widest: float = quantity("m", "greatest diameter of the pool")
    disturbed: float = quantity("m", "radius of the ice that the pool disturbs")
    alarm_temperature: float = quantity("K", "alarm when the water coming back is colder than this")
    cut: PowerCut | None = quantity("text", "power cut at the worst moment; none where no water was drawn yet")
    hose_time: float | None = quantity("s", "time until standing water in the hose is at 0 degC; none where it drains")
    shaft_freeze_time: float = quantity("s", "time in which water standing in the shaft freezes to the head's width")
    shaft_too_narrow: float | None = quantity("s", "age at which the shaft is too narrow; none where not known")
    steps: int = quantity("1", "steps of the march")


@dataclass(frozen=True)
class WaterYear:
    """Water of the whole station. Rows are twelve months, January first, in the year that takes most heat."""

    people: Row = quantity("1", "people by month")
    draw: Row = quantity("kg/s", "water drawn by month")
    by_use: dict[str, Row] = quantity("kg/s", "water by use and month, losses not counted")
    yearly: float = quantity("kg", "water in a year")
    electric: dict[str, Row] = quantity("W", "electricity by name and month")
    heat: Row = quantity("W", "heat put into the pool by month")
    waste_used: Row = quantity("W", "of it from the generators")
    fuel: Row = quantity("kg", "fuel burnt in boilers by month")
    year_of_rows: str = quantity("text", "first month of the year whose rows these are")
    well: WellResult | None = quantity("text", "the melt well; none without a water part")
    bulbs: tuple[BulbYear, ...] = quantity("text", "sewage in the ice, year by year")
    shafts: tuple[Shaft, ...] = quantity("text", "wells and sump in plan")
    domestic: float = quantity("m3", "water in tanks for use")
    fire: float = quantity("m3", "water in tanks for fire")
    notes: tuple[str, ...] = quantity("text", "what the reader must know about these numbers")
