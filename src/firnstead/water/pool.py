"""The pool of a melt well through the months: mass, warmth and level as differential equations, with their ends.

Mass, energy and room are kept exactly: what melts off the wall opens room of the ice's volume, the water takes its own
volume, and the level is where the water stands in that room. Heat is counted from water at 0 degC.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from firnstead.core.units import YEAR
from firnstead.water.case import MONTH, PoolCase, start_mass
from firnstead.water.march import Event, Rates, march
from firnstead.water.properties import (
    ICE_DENSITY,
    LATENT,
    MELTING,
    WATER_DENSITY,
    WATER_HEAT,
)
from firnstead.water.shape import radius_of_volume, zone_reached
from firnstead.water.wall import film_free, melt_rate

FLOORS = (1.0, 1e5)  # absolute tolerance of mass [kg] and heat [J]
ENDS = ("the pool froze over", "the pool never grew", "the pump stands above the water",
        "the level is as deep as the pump lifts", "the hose is too short",
        "the roof of the pool is as wide as allowed")  # fmt: skip
LEAST_DENSITY_SHARE = 0.063  # of the greatest difference: film at 8 K no less than 0.4 of that at 4 K (own rule)
AFTER_CHANGE = 0.2 * 86400.0  # s of the first step to try when draw or heat change
HOTTEST = 95.0  # K above melting
SMALLEST = 0.3  # of the first water: less is as good as frozen


@dataclass(frozen=True)
class State:
    """The pool at a moment, with sums since its start."""

    time: float
    mass: float
    heat: float
    level: float
    melted: float
    heat_in: float
    into_ice: float
    into_air: float
    drawn_heat: float
    drawn: float

    @property
    def warmth(self) -> float:
        """Temperature above melting [K]."""
        return self.heat / (self.mass * WATER_HEAT)


class Flows(NamedTuple):
    """What flows at a moment: W, and kg/s."""

    radius: float
    power: float
    melt: float
    into_ice: float
    into_air: float
    standing_loss: float
    """Loss to ice and air of a pool of this size whose wall stands still [W]."""


@dataclass(frozen=True)
class History:
    """The pool at its start and at the end of each month, and what ended it (empty: the time was over)."""

    states: tuple[State, ...]
    end: str
    steps: int


def flows(
    case: PoolCase, time: float, mass: float, heat: float, draw: float, limit: float, power: float | None = None
) -> Flows:
    """Give what flows into and out of the pool at a moment.

    wall: h t = m L + q(m); roof: U (T_w - T_i); heat put in: draw (L + s + c t) + standing loss + (L + s)(M_t - M)/tau

    Parameters
    ----------
    case : PoolCase [PoolCase]
        The well.
    time : float [s]
        Age of the pool.
    mass : float [kg]
        Water in the pool.
    heat : float [J]
        Heat of the water above 0 degC.
    draw : float [kg/s]
        Water drawn.
    limit : float [W]
        Most heat that can be put in.
    power : float [W]
        Heat put in; left out: what the target asks for.
    Returns
    -------
    Flows [Flows]
        Flows.
    Validity: a pool that is stirred enough to have one temperature; see wall and shape for the parts.
    Source: lunardini_rand_1995, disturbed zone (read second-hand); own_rule, control and roof.

    >>> from firnstead.water.case import example_case
    >>> case = example_case()
    >>> now = flows(case, 1e7, 1e6, 1e10, 0.05, 1e5)
    >>> round(now.radius, 2), round(now.standing_loss / 1e3, 1)
    (7.82, 10.0)
    """
    mass = max(mass, 1.0)
    warmth = heat / (mass * WATER_HEAT)
    radius = radius_of_volume(mass / WATER_DENSITY, case.shape)
    wall_share, core_share = case.factors
    wall, core = wall_share * radius * radius, core_share * radius
    density = case.density(case.start_depth)
    integral, sensible = case.integral, case.sensible
    zone = zone_reached(time, core, integral / (density * sensible), largest=case.zone)
    flux = 0.0
    if warmth > 0.0:
        film_at = min(warmth, HOTTEST)  # a trial step may shoot beyond what water can be
        flux = warmth * film_free(film_at, constant=case.film_constant, least_share=LEAST_DENSITY_SHARE)
    melt = melt_rate(flux, integral, core, sensible, zone)
    cold, reach = MELTING - case.ice_temperature, 1.0 - 1.0 / zone
    roof = 1.0 / (1.0 / case.top_film + radius * reach * cold / integral)
    into_air = roof * (warmth + cold) * math.pi * radius * radius
    standing = integral * wall / (core * reach) + into_air  # flux_into_ice(0, ...) times the wall
    if power is None:
        water = LATENT + sensible
        power = draw * (water + WATER_HEAT * warmth) + standing + water * (case.target - mass) / case.settle
    carried = case.circulation * WATER_HEAT * (case.supply - warmth)
    power = max(0.0, min(power, limit, carried))
    return Flows(radius, power, melt * wall, (flux - LATENT * melt) * wall, into_air, standing)


def rates_of(case: PoolCase, draw: float, limit: float, power: float | None = None) -> Rates:
    """Give the right-hand side of the pool's equations for steady draw and limit of heat.

    dM/dt = m A - w; dE/dt = P - w c t - h t A - roof; dz/dt = (m A/rho_f - (dM/dt)/rho_w)/(pi R^2)

    Parameters
    ----------
    case : PoolCase [PoolCase]
        The well.
    draw : float [kg/s]
        Water drawn.
    limit : float [W]
        Most heat that can be put in.
    power : float [W]
        Heat put in; left out: what the target asks for.
    Returns
    -------
    callable [kg/s, W, m/s and sums]
        f(t, y) with y = mass, heat, level, then the sums melted, heat in, into ice, into air, heat drawn.
    Validity: as flows; the pool starts below the firn that lets water through, so nothing leaks.
    Source: statics, balance of mass, heat and room.

    >>> from firnstead.water.case import example_case
    >>> rates = rates_of(example_case(), 0.0, 0.0)
    >>> rates(1e7, [1e6, 0.0, 60.0, 0, 0, 0, 0, 0])[0] < 0.0
    True
    """

    def rates(time: float, y: Sequence[float]) -> list[float]:
        mass, heat, level = y[0], y[1], y[2]
        now = flows(case, time, mass, heat, draw, limit, power)
        growth = now.melt - draw
        drawn = draw * heat / max(mass, 1.0)
        density = ICE_DENSITY if now.melt < 0.0 else case.density(level + 0.5 * case.shape * now.radius)
        sink = (now.melt / density - growth / WATER_DENSITY) / (math.pi * now.radius * now.radius)
        change = now.power - drawn - now.melt * LATENT - now.into_ice - now.into_air
        return [growth, change, sink, now.melt, now.power, now.into_ice, now.into_air, drawn]

    return rates


def pool_through_the_years(case: PoolCase, *, tolerance: float = 1e-6) -> History:
    """March the pool from its start until it ends or the time is over.

    see rates_of; draw and limit of heat are steady within a month

    Parameters
    ----------
    case : PoolCase [PoolCase]
        The well.
    tolerance : float [1]
        Relative tolerance of a step.
    Returns
    -------
    History [History]
        State at the start and at the end of every month, and why it ended.
    Validity: as rates_of.
    Source: statics, balance of mass, heat and room.

    >>> from firnstead.water.case import example_case
    >>> history = pool_through_the_years(example_case())
    >>> len(history.states), history.end, round(history.states[-1].mass / 1e6, 1)
    (61, '', 0.9)
    """
    mass = start_mass(case)
    y: tuple[float, ...] = (mass, mass * WATER_HEAT * case.start_warmth, case.start_depth, 0.0, 0.0, 0.0, 0.0, 0.0)
    time = start = 86400.0  # the shaft was warm for about a day when the pool starts (own rule)
    states, drawn, step, steps = [_state(0.0, y, 0.0)], 0.0, 600.0, 0
    events, forced = _events(case), (-1.0, -1.0)
    for k in range(case.months):
        month = (case.first_month + k) % 12
        draw = case.draw[month] if k >= case.lead else 0.0
        if (draw, case.heat_limit[month]) != forced:
            step = min(step, AFTER_CHANGE)
        forced = (draw, case.heat_limit[month])
        rates = rates_of(case, *forced)
        done = march(rates, time, y, start + (k + 1) * MONTH,
                     tolerance=tolerance, floors=FLOORS, step=step, events=events, drifts=_drifts(case, time, y[0]),
                     third=_third(rates, time, y))  # fmt: skip
        drawn += draw * (done.time - time)
        y, time, step, steps = done.state, done.time, done.step, steps + done.steps
        states.append(_state(time - start, y, drawn))
        if done.event is not None:
            return History(tuple(states), ENDS[done.event], steps)
    return History(tuple(states), "", steps)


def hours_until_cold(case: PoolCase, state: State, *, most: float = YEAR) -> State:
    """March a pool without heat and draw until all of it is at 0 degC.

    see rates_of with P = 0 and w = 0

    Parameters
    ----------
    case : PoolCase [PoolCase]
        The well.
    state : State [State]
        The pool when the power fails.
    most : float [s]
        Longest time looked at.
    Returns
    -------
    State [State]
        The pool at that moment; its time and sums are counted from the failure.
    Validity: a pool stirred to the end: an upper bound, since below 4 K the coldest water lies on top and freezes.
    Source: statics, balance of mass and heat.

    >>> from firnstead.water.case import example_case
    >>> case = example_case()
    >>> end = hours_until_cold(case, pool_through_the_years(case).states[-1])
    >>> 24 < end.time / 3600 < 400
    True
    """
    age = state.time + 86400.0
    y = (state.mass, state.heat, state.level, 0.0, 0.0, 0.0, 0.0, 0.0)
    done = march(rates_of(case, 0.0, 0.0, 0.0), age, y, age + most, tolerance=1e-6, floors=FLOORS, step=600.0,
                 events=_events(case)[:2])  # fmt: skip
    return _state(done.time - age, done.state, 0.0)


def _drifts(case: PoolCase, time: float, mass: float) -> bool:
    """Whether the disturbed ice still grows with time: not when it is at its largest, with room to spare."""
    core = 1.3 * case.factors[1] * radius_of_volume(mass / WATER_DENSITY, case.shape)
    diffusivity = case.integral / (case.density(case.start_depth) * case.sensible)
    return zone_reached(time, core, diffusivity, largest=case.zone) < case.zone


def _third(rates: Rates, time: float, y: Sequence[float]) -> float:
    """How the fall of the level changes with the level: firn grows denser with depth."""
    return rates(time, [*y[:2], y[2] + 1.0, *y[3:]])[2] - rates(time, y)[2]


def _state(time: float, y: Sequence[float], drawn: float) -> State:
    mass, heat, level, melted, heat_in, into_ice, into_air, drawn_heat = y
    return State(time, mass, heat, level, melted, heat_in, into_ice, into_air, drawn_heat, drawn)


def _events(case: PoolCase) -> tuple[Event, ...]:
    def radius(y: Sequence[float]) -> float:
        return radius_of_volume(max(y[0], 1e-3) / WATER_DENSITY, case.shape)

    return (
        lambda t, y: -y[1],
        lambda t, y: SMALLEST * start_mass(case) - y[0],
        lambda t, y: case.least_depth - case.shape * radius(y),
        lambda t, y: y[2] - case.level_limit,
        lambda t, y: y[2] - case.hose_limit,
        lambda t, y: 2.0 * radius(y) - case.span_limit,
    )
