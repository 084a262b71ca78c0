"""From a plan to the well through the years: months, ends, power cut, the year whose rows are handed on."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

from firnstead.core.memo import Memo
from firnstead.core.units import G0
from firnstead.water.case import MONTH, PoolCase
from firnstead.water.cut import time_to_first_ice, time_to_freezing_hose, time_to_ice
from firnstead.water.energy import fuel_mass, least_heat, self_sealing_density
from firnstead.water.plan import Plan
from firnstead.water.pool import (
    ENDS,
    Flows,
    History,
    State,
    flows,
    hours_until_cold,
    pool_through_the_years,
)
from firnstead.water.properties import ICE_DENSITY, LATENT, MELTING, WATER_DENSITY, WATER_HEAT
from firnstead.water.results import PoolMonth, PowerCut, WellResult
from firnstead.water.shaft import shaft_heat, time_to_freeze_shaft, time_until_narrow
from firnstead.water.shape import radius_of_volume
from firnstead.water.supply import pump_power

NAMES = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
         "December")  # fmt: skip
SHAPE_BAND = 1.5  # the pool half again flatter or steeper (own rule)
FAILURES = ENDS[:3]
CLOSED = "the shaft is too narrow for pump and hoses"
ALARM_SHARE = 0.5  # of the least warmth above melting to expect in use (own rule)
Row = tuple[float, ...]


@dataclass(frozen=True)
class Well:
    """The marched well and what is read from it."""

    plan: Plan
    history: History
    low: float
    high: float
    """Ages at the end with another shape of the pool [s]."""

    @cached_property
    def narrow(self) -> float | None:
        """Age at which the shaft is too narrow [s]; none where its closing is not known."""
        p = self.plan
        return None if p.closing is None else time_until_narrow(p.shaft_diameter, p.pump_width, p.closing)

    @cached_property
    def horizon(self) -> float:
        """The years looked at [s]."""
        return self.plan.pool.months * MONTH

    @cached_property
    def end(self) -> tuple[float, str]:
        """Age at the well's end and what ends it; the horizon and nothing where it outlasts it."""
        return ended(self.history, self.narrow)

    @cached_property
    def states(self) -> tuple[State, ...]:
        """States up to the end."""
        return tuple(s for s in self.history.states if s.time <= self.end[0] + 1.0)

    @cached_property
    def service(self) -> tuple[State, ...]:
        """States of the months with draw."""
        return self.states[self.plan.pool.lead + 1 :]

    def month(self, k: int) -> int:
        """Number of the calendar month of the k-th month, January being 0."""
        return (self.plan.pool.first_month + k) % 12

    def name(self, k: int) -> str:
        """Month and year of the k-th month."""
        year, month = self.plan.start
        return f"{NAMES[self.month(k)]} {year + (month - 1 + k) // 12}"

    def at_age(self, age: float) -> str:
        """Month and year of an age."""
        return self.name(int(max(0.0, age) / MONTH + 1e-9))

    def draw(self, k: int) -> float:
        """Draw in the k-th month [kg/s]."""
        return self.plan.pool.draw[self.month(k)] if k >= self.plan.pool.lead else 0.0

    def flows(self, i: int) -> Flows:
        """Flows at the state of number i."""
        state, k = self.history.states[i], max(0, i - 1)
        limit = self.plan.pool.heat_limit[self.month(k)]
        return flows(self.plan.pool, state.time + 86400.0, state.mass, state.heat, self.draw(k), limit)

    @cached_property
    def months(self) -> tuple[PoolMonth, ...]:
        """Month by month."""
        return tuple(self._month(i) for i in range(1, len(self.states)))

    def _month(self, i: int) -> PoolMonth:
        p, k = self.plan, i - 1
        before, now = self.states[k], self.states[i]
        time = now.time - before.time

        def mean(field: str) -> float:
            return float((getattr(now, field) - getattr(before, field)) / time)

        radius = radius_of_volume(now.mass / WATER_DENSITY, p.pool.shape)
        power, draw, lift = mean("heat_in"), mean("drawn"), now.level + p.delivery
        waste, boiler, electric, fuel = self.split(power, self.month(k), time)
        pumping = pump_power(draw, lift, p.pump_efficiency, p.friction)
        pumping += p.pool.circulation * G0 * p.circulation_head / p.pump_efficiency
        return PoolMonth(
            month=self.name(k), age=now.time, mass=now.mass, temperature=MELTING + now.warmth, diameter=2 * radius,
            water_depth=p.pool.shape * radius, level=now.level, lift=lift, draw=draw, melted=now.melted - before.melted,
            power=power, lost_to_ice=mean("into_ice") - p.pool.sensible * mean("melted"), lost_to_air=mean("into_air"),
            waste=waste, boiler=boiler, electric_heat=electric, fuel=fuel, pumping=pumping)  # fmt: skip

    def split(self, power: float, month: int, time: float) -> tuple[float, float, float, float]:
        """Heat from waste, boilers and heaters [W], and the fuel burnt [kg], in the order of the sources."""
        given = {"waste": 0.0, "boiler": 0.0, "electric": 0.0}
        fuel, left = 0.0, power
        for source in self.plan.sources:
            part = min(left, source.power[month])
            given[source.kind] += part
            left -= part
            if source.kind == "boiler":
                fuel += fuel_mass(part * time, source.efficiency, self.plan.fuel_heat)
        return given["waste"], given["boiler"], given["electric"], fuel

    @cached_property
    def rows(self) -> tuple[PoolMonth, ...]:
        """The twelve months, in order, that take most heat while water is drawn; fewer where there are no more."""
        lead = self.plan.pool.lead
        used = self.months[lead:] or self.months
        years = [used[i : i + 12] for i in range(0, max(1, len(used) - 11), 12)]
        return max(years, key=lambda year: sum(m.power for m in year))

    def row(self, field: str) -> Row:
        """A field of those months by calendar month; months that are not there take the mean of the others."""
        values = {NAMES.index(m.month.split()[0]): float(getattr(m, field)) for m in self.rows}
        middle = sum(values.values()) / len(values) if values else 0.0
        return tuple(values.get(i, middle) for i in range(12))

    @cached_property
    def widest(self) -> float:
        """Greatest radius of the pool [m]."""
        return max(radius_of_volume(s.mass / WATER_DENSITY, self.plan.pool.shape) for s in self.states)

    @cached_property
    def need(self) -> tuple[float, int, float, float]:
        """Worst month of use: heat needed [W], calendar month, standing loss [W], warmth [K]."""
        pool = self.plan.pool
        states = self.service or self.states[-1:]
        warmth = max(s.warmth for s in states)
        mass = max(pool.target, max(s.mass for s in states))
        loss = flows(pool, (pool.lead + 1) * MONTH, mass, mass * WATER_HEAT * warmth, 0.0, 0.0).standing_loss
        water = LATENT + pool.sensible + WATER_HEAT * warmth
        month = max(range(12), key=lambda m: (pool.draw[m] * water + loss) / max(pool.heat_limit[m], 1e-9))
        return pool.draw[month] * water + loss, month, loss, warmth

    @cached_property
    def fastest_fall(self) -> float:
        """Fastest fall of the level while water is drawn, monthly mean [m/s]."""
        states = self.states[self.plan.pool.lead :]
        return max(
            ((b.level - a.level) / (b.time - a.time) for a, b in zip(states, states[1:], strict=False)), default=0.0
        )

    @cached_property
    def cut(self) -> PowerCut | None:
        """The power cut at the worst month's end."""
        p = self.plan
        worst: tuple[float, int, float, float] | None = None
        for i in range(p.pool.lead + 1, len(self.states)):
            radius, flow = radius_of_volume(self.states[i].mass / WATER_DENSITY, p.pool.shape), self.flows(i)
            flux = flow.into_air / (math.pi * radius**2)
            first = time_to_first_ice(self.states[i].warmth, flux)
            time = first + time_to_ice(p.ice_allowed, flux)
            if worst is None or time < worst[0]:
                worst = (time, i, flux, first)
        if worst is None:
            return None
        time, i, flux, first = worst
        state = self.states[i]
        now = self.flows(i)
        spare = p.pool.heat_limit[self.month(i - 1)] - self.need[0]
        lost = now.standing_loss * p.heat_repair
        return PowerCut(
            month=self.name(i - 1), temperature=MELTING + state.warmth, flux=flux, first_ice=first, ice_allowed=time,
            all_cold=hours_until_cold(p.pool, state).time,
            ice_at_repair=max(0.0, p.heat_repair - first) * flux / (ICE_DENSITY * LATENT), heat_lost=lost,
            restart=lost / spare if spare > 0.0 else math.inf)  # fmt: skip

    @cached_property
    def result(self) -> WellResult:
        """All of it."""
        p, (age, why) = self.plan, self.end
        last, first = self.states[-1], self.states[0]
        melted, heat_in = max(abs(last.melted), first.mass), max(last.heat_in, 1.0)
        start = self.next_start
        coldest = min((s.warmth for s in self.service), default=last.warmth)
        heat = shaft_heat(p.shaft_mass, p.shaft_diameter, p.pool.ice_temperature)
        return WellResult(
            months=self.months, sealing_density=self_sealing_density(p.pool.ice_temperature),
            sealing_depth=p.sealing_depth, sealing_depth_safe=p.sealing_depth * (1 + p.sealing_spread), shaft_heat=heat,
            shaft_time=self.melting_time,
            shaft_fuel=fuel_mass(heat / p.steam_useful, p.steam_efficiency, p.fuel_heat), hold_power=self.need[2],
            least_heat=least_heat(p.pool.ice_temperature), heat_per_mass=heat_in / melted,
            mass_error=abs(last.mass - first.mass - last.melted + last.drawn) / melted,
            heat_error=abs(last.heat - first.heat - last.heat_in + LATENT * last.melted + last.into_ice + last.into_air
                           + last.drawn_heat) / heat_in,
            end=why, end_age=age, end_month=self.at_age(age), end_age_low=min(age, self.low, self.high),
            end_age_high=max(age, self.low, self.high), next_start="" if start is None else self.at_age(start),
            next_start_age=start, widest=2 * self.widest, disturbed=p.pool.zone * self.widest,
            alarm_temperature=MELTING + ALARM_SHARE * coldest, cut=self.cut, hose_time=self.hose_time,
            shaft_freeze_time=self.shaft_freeze_time, shaft_too_narrow=self.narrow,
            steps=self.history.steps)  # fmt: skip

    @cached_property
    def melting_time(self) -> float:
        """Time of steaming [s]."""
        p = self.plan
        heat = shaft_heat(p.shaft_mass, p.shaft_diameter, p.pool.ice_temperature)
        return heat / (p.steam_power * p.steam_useful)

    @cached_property
    def next_start(self) -> float | None:
        """Age of this well when the next must be started [s]; none where it outlasts the years looked at."""
        return self.end[0] - self.plan.lead - self.melting_time if self.end[1] else None

    @cached_property
    def hose_time(self) -> float | None:
        """Time until standing water in the hose is at 0 degC [s]; none where the hose drains."""
        p = self.plan
        if p.hose_drains:
            return None
        warmth = min((s.warmth for s in self.service), default=self.states[-1].warmth)
        return time_to_freezing_hose(p.hose_bore, p.hose_insulation, p.hose_conductivity, warmth,
                                     MELTING - p.pool.ice_temperature)  # fmt: skip

    @cached_property
    def shaft_freeze_time(self) -> float:
        """Time in which water standing in the shaft freezes to the width of the melting head [s]."""
        p = self.plan
        return time_to_freeze_shaft(p.shaft_diameter, p.melting_head, p.pool.integral,
                                    p.pool.density(p.pool.start_depth), p.pool.ice_temperature)  # fmt: skip


def ended(history: History, narrow: float | None) -> tuple[float, str]:
    """Age at the end and what ended it, the narrowing of the shaft counted."""
    last = history.states[-1].time
    return (narrow, CLOSED) if narrow is not None and narrow < last else (last, history.end)


def well_of(plan: Plan, memo: Memo) -> Well:
    """March the well, and once each with a flatter and a steeper pool for the band."""

    def through(pool: PoolCase, tolerance: float = 1e-6) -> History:
        return memo.get(("water.pool", pool, tolerance), lambda: pool_through_the_years(pool, tolerance=tolerance))

    history = through(plan.pool)
    narrow = None if plan.closing is None else time_until_narrow(plan.shaft_diameter, plan.pump_width, plan.closing)
    ages = [
        ended(through(replace(plan.pool, shape=plan.pool.shape * factor), 1e-4), narrow)[0]
        for factor in (1.0 / SHAPE_BAND, SHAPE_BAND)
    ]
    return Well(plan, history, ages[0], ages[1])
