"""Results of the heat study: months of the station and of each place and building."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity

Row = tuple[float, ...]
"""Twelve monthly values, January first."""


@dataclass(frozen=True)
class PlaceHeat:
    """The air of one place."""

    limit: float = quantity("K", "warmest air allowed")
    warmest: float = quantity("K", "warmest monthly air in the design life, worst of all scenarios")
    scenario: str = quantity("text", "the scenario that gives it")
    months_above: tuple[str, ...] = quantity("text", "months that pass the limit in the warmest year of that scenario")
    vents_shut: tuple[str, ...] = quantity("text", "months in which the surface is warmer than the trench")
    air: Row = quantity("K", "air by month in the warmest year of the life, as expected")
    air_high: Row = quantity("K", "highest air of each month over life and scenarios")
    air_low: Row = quantity("K", "lowest air of each month over life and scenarios")
    air_years: Row = quantity("K", "yearly mean air through the life, as expected")
    wall_years: Row = quantity("K", "yearly mean of the snow wall through the life, as expected")
    balance: dict[str, Row] = quantity("W", "heat into the air by month in the warmest year, by where it comes from")
    well_share: Row = quantity("1", "share of the time that its air wells run in the warmest year")


@dataclass(frozen=True)
class BuildingHeat:
    """One heated building."""

    place: str = quantity("text", "place that it stands in")
    temperature: float = quantity("K", "temperature of its rooms")
    transmittance: float = quantity("W/m2/K", "loss per area of walls, roof and floor, infiltration counted")
    losses: dict[str, float] = quantity("W", "mean heat lost in the first year, by way")
    gains: float = quantity("W", "people, lamps and things, mean")
    demand: Row = quantity("W", "heat demand by month in the first year, as expected")
    surplus: Row = quantity("W", "heat that must be let out into the trench, first year")
    peak: float = quantity("W", "greatest monthly demand in the design life, worst of all scenarios")
    leak: Row = quantity("m3/s", "air that leaks through it, first year")
    gap: Row = quantity("K", "air below the floor by month in its warmest year, as expected")
    snow_floor_years: Row = quantity("K", "warmest snow right under it in each year, as expected")
    snow_below_years: tuple[Row, ...] = quantity("K", "yearly mean of the snow 1, 2 and 5 m under it, as expected")
    snow_floor: float = quantity("K", "warmest snow right under it in the life, worst of all scenarios")
    floor_surface: float = quantity("K", "coldest monthly temperature of the floor's upper surface")
    dew_point: float = quantity("K", "temperature below which it sweats")
    frost: Row = quantity("kg", "water that its air leaves as frost in the trench, first year")


@dataclass(frozen=True)
class Remedy:
    """A change that alone would bring a place to its limit."""

    place: str = quantity("text", "the place")
    change: str = quantity("text", "what is changed")
    amount: float = quantity("1", "by how much, in the unit of the change")
    unit: str = quantity("text", "unit of the amount")


@dataclass(frozen=True)
class HeatMonths:
    """What pipes, water and power need of the heat."""

    air: dict[str, Row] = quantity("K", "air of each place by month in the warmest year of the life, as expected")
    electric: dict[str, Row] = quantity("W", "electricity of fans and heaters by month, by name")
    fuel: Row = quantity("kg", "fuel burnt for heating by month, first year")
    waste_used: Row = quantity("W", "waste heat taken by month, first year")


@dataclass(frozen=True)
class HeatYear:
    """Heat of the whole station."""

    scenarios: tuple[str, ...] = quantity("text", "the ways in which the doubt about the snow is reckoned")
    surface: Row = quantity("K", "surface by month")
    air: dict[str, Row] = quantity("K", "air of each place by month in the warmest year of the life, as expected")
    air_high: dict[str, Row] = quantity("K", "highest air of each month over life and scenarios, by place")
    air_low: dict[str, Row] = quantity("K", "lowest air of each month over life and scenarios, by place")
    air_years: dict[str, Row] = quantity("K", "yearly mean air of each place through the life, as expected")
    demand: dict[str, Row] = quantity("W", "heat demand of each building by month, first year, as expected")
    electric: dict[str, Row] = quantity("W", "electricity of fans and heaters by month, by name")
    fuel: Row = quantity("kg", "fuel burnt for heating by month, first year")
    waste_used: Row = quantity("W", "waste heat taken by month, first year")
    short: dict[str, Row] = quantity("W", "demand that no heater meets, by building; only where there is any")
    flows: dict[str, Row] = quantity("W", "energy of the whole station by month, first year, as expected, by way")
    residual: float = quantity("1", "share of its yearly heat by which the station's balance is out")
    places: dict[str, PlaceHeat] = quantity("text", "by place")
    buildings: dict[str, BuildingHeat] = quantity("text", "by building; only heated ones whose kit has an envelope")
    remedies: tuple[Remedy, ...] = quantity("text", "what would bring a place to its limit, where it passes it")
