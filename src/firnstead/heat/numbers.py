"""From the march to rows of months and years, demand, heaters, electricity and the balance of the whole station."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from firnstead.core.units import YEAR
from firnstead.heat.airflow import AIR_HEAT, air_density
from firnstead.heat.case import Snowfield, StationCase
from firnstead.heat.energy import fuel_mass, share_out
from firnstead.heat.march import March, march
from firnstead.heat.results import Row
from firnstead.heat.vapour import frost_rate
from firnstead.snow._arrays import Array
from firnstead.snow.year import MONTH


@dataclass(frozen=True)
class HeaterCase:
    """A heater in numbers; `serves` numbers the buildings of the case."""

    name: str
    kind: str
    serves: tuple[int, ...]
    output: float
    efficiency: float


@dataclass(frozen=True, eq=False)
class Numbers:
    """A station's march and what follows from it."""

    case: StationCase
    snowfield: Snowfield
    march: March
    heaters: tuple[HeaterCase, ...]
    given: Array
    """Heat of each heater to each building by month, January first [W]."""
    short: Array
    """Demand that is not met: building, month [W]."""
    output: Array
    """Greatest output: heater, month [W]."""
    demand: Array
    """Demand of each building, first year, January first [W]."""
    residual: float
    order: NDArray[np.int64] = field(repr=False)
    """The months of the march's year in calendar order."""

    @property
    def first(self) -> int:
        """Number of the first month of use, January 0."""
        return self.case.climate.first_month

    @property
    def years(self) -> int:
        """Whole years of the march."""
        return self.case.climate.months // 12

    def row(self, values: Array, year: int = 0) -> Row:
        """Twelve months of a year of use, January first."""
        return plain(values[12 * year : 12 * year + 12][self.order])

    def extreme(self, values: Array, high: bool) -> Row:
        """The highest or lowest value of each calendar month over scenarios (rows) and years."""
        kept = values[:, : 12 * self.years].reshape(len(values), self.years, 12)
        found = kept.max(axis=(0, 1)) if high else kept.min(axis=(0, 1))
        return plain(found[self.order])

    def yearly(self, values: Array) -> Row:
        """The mean of each year of use."""
        return plain(values[: 12 * self.years].reshape(self.years, 12).mean(axis=1))

    def warmest_year(self, values: Array) -> int:
        """The year of use with the highest mean."""
        return int(np.argmax(values[: 12 * self.years].reshape(self.years, 12).mean(axis=1)))

    def month(self, n: int) -> int:
        """Calendar number of a month of the march."""
        return (n + self.first) % 12


def plain(values: Array) -> Row:
    """Numbers as a row."""
    return tuple(float(v) for v in values)


def numbers_of(case: StationCase, snowfield: Snowfield, heaters: tuple[HeaterCase, ...], waste: Row | None) -> Numbers:
    """March the station and serve its demand."""
    made = march(case, snowfield)
    order = (np.arange(12) - case.climate.first_month) % 12
    demand = made.demand[0, :, :12][:, order]
    free = np.zeros(12) if waste is None else np.asarray(waste, dtype=float)
    output = np.array([np.full(12, h.output) for h in heaters]).reshape(len(heaters), 12)
    serves = np.array([[float(i in h.serves) for i in range(len(case.buildings))] for h in heaters])
    given = np.zeros((len(heaters), *demand.shape))
    left = demand
    for i, heater in enumerate(heaters):  # waste heat is one store that all exchangers draw from
        if heater.kind == "waste heat":
            output[i] = np.minimum(output[i], free)
        given[i] = share_out(left, serves[i : i + 1], output[i : i + 1])[0]
        left = left - given[i]
        if heater.kind == "waste heat":
            free = free - given[i].sum(axis=0)
    return Numbers(case, snowfield, made, heaters, given, left, output, demand, _residual(case, made), order)


def fuel_by_month(n: Numbers, fuel_heat: float, fuel_density: float) -> Row:
    """Fuel burnt in each month of the first year [kg]."""
    heat = sum((n.given[i].sum(axis=0) / h.efficiency for i, h in enumerate(n.heaters) if h.kind == "fuel"),
               start=np.zeros(12))  # fmt: skip
    return tuple(fuel_mass(float(q) * MONTH, 1.0, fuel_heat, fuel_density) for q in heat)


def electric_by_month(n: Numbers) -> dict[str, Row]:
    """Electricity of fans in their busiest year and of heaters in the first [W]."""
    found: dict[str, Row] = {}
    for b in n.case.buildings:
        if b.fan_power + b.gap.fan_power > 0:
            found[f"{b.name} fans"] = (b.fan_power + b.gap.fan_power,) * 12
    vent = well = 0
    for p in n.case.places:
        total = np.zeros((len(n.snowfield.scenarios), n.case.climate.months))
        for v in p.vents:
            total += n.march.vent_share[:, vent] * v.fan_power * v.count
            vent += 1
        for w in p.wells:
            total += n.march.well_share[:, well] * w.fan_power * w.count
            well += 1
        if any(v.fan_power > 0 for v in p.vents) or p.wells:
            found[f"{p.name} vents and air wells"] = n.extreme(total[:1], high=True)
    for i, heater in enumerate(n.heaters):
        if heater.kind == "electric":
            found[heater.name] = plain(n.given[i].sum(axis=0) / heater.efficiency)
    return found


def frost_by_month(n: Numbers, i: int) -> Row:
    """Frost that a building's air leaves in the trench in each month of the first year [kg]."""
    b = n.case.buildings[i]
    fresh = 0.0 if b.from_outside else b.ventilation
    air, leak = n.row(n.march.air[0, b.place]), n.row(n.march.leak[0, i])
    return tuple(
        frost_rate(v + fresh, b.temperature, b.humidity, t) * YEAR / 12 for v, t in zip(leak, air, strict=True)
    )


def flows_of(n: Numbers) -> dict[str, Row]:
    """Energy of the whole station in the first year, as expected [W]; what comes in is positive."""
    return {name: n.row(values[0]) for name, values in station_flows(n.case, n.march).items()}


def station_flows(case: StationCase, m: March) -> dict[str, Array]:
    """Energy by way: scenario, month [W]. Heating and gains come in, all the others go out."""
    own = sum(b.gains for b in case.buildings)
    well_gap = np.array([[b.gap.temperature] for b in case.buildings]).reshape(-1, 1)
    sweep = np.array([[b.gap.flow if b.gap.supply == "well" else 0.0] for b in case.buildings]).reshape(-1, 1)
    here = m.air[:, [b.place for b in case.buildings]]
    rho_c = float(air_density(case.climate.pressure, case.climate.mean)) * AIR_HEAT
    return {
        "heating": m.demand.sum(axis=1),
        "people, lamps and things": own + 0.0 * m.air[:, 0] + m.terms["gains"].sum(axis=1),
        "snow": -m.snow_heat.sum(axis=1),
        "vents": m.terms["vents"].sum(axis=1),
        "air wells": m.terms["wells"].sum(axis=1) - (sweep * rho_c * (here - well_gap)).sum(axis=1),
        "portals and hatches": m.terms["outside"].sum(axis=1),
        "fresh air": -m.outside_loss.sum(axis=1),
        "gaps to the outside": -m.gap_outside.sum(axis=1),
    }  # fmt: skip


def _residual(case: StationCase, m: March) -> float:
    """What the station's energy is out by over any year, as a share of the heat that moves in it."""
    flows = station_flows(case, m)
    total = np.abs(sum(flows.values()))
    moved = sum(np.abs(each) for each in flows.values())
    return float(total.sum() / max(float(np.sum(moved)), 1e-300))
