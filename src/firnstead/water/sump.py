"""Sewage let into the ice: the bulb it melts, the room it needs, how far it spreads in firn that lets it through."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from firnstead.water.case import MONTH
from firnstead.water.energy import soaked_mass
from firnstead.water.march import Rates, march
from firnstead.water.properties import (
    LATENT,
    MELTING,
    WATER_DENSITY,
    WATER_HEAT,
    conduction_integral_ice,
    sensible_heat_ice,
)
from firnstead.water.shape import radius_of_volume
from firnstead.water.wall import melt_rate


@dataclass(frozen=True)
class SumpCase:
    """Everything that the bulb depends on; SI. `flow` is twelve months, January first."""

    ice_temperature: float
    density: float
    """Density of the firn round the bulb."""
    cavity: float
    """Room that is open at the start [m3]."""
    warmth: float
    """Temperature of the sewage at the outfall, above melting [K]."""
    flow: tuple[float, ...]
    first_month: int
    months: int
    sheet_density: float
    """Density of the firn that overflowing sewage soaks into."""
    sheet_thickness: float
    zone: float = 4.5


@dataclass(frozen=True)
class Bulb:
    """The bulb at a moment, with sums since its start."""

    time: float
    sewage: float
    melted: float
    liquid: float
    heat_in: float
    into_ice: float
    radius: float
    """Half a sphere of all that was let in and melted, nothing frozen again taken off [m]."""
    overflow: float
    """What finds no room in the cavity [kg]."""
    reach: float
    """Farthest that sewage may have come, in plan [m]."""


def spread_radius(overflow: float, uptake: float, thickness: float) -> float:
    """Give how far water spreads as a sheet in firn.

    r = sqrt(m/(pi w h))

    Parameters
    ----------
    overflow : float [kg]
        Water that spreads.
    uptake : float [kg/m3]
        Water that a cubic metre of firn freezes.
    thickness : float [m]
        Thickness of the sheet.
    Returns
    -------
    float [m]
        Radius.
    Validity: a round sheet; layers in the firn lead water farther on one side.
    Source: own_rule, mass balance.

    >>> round(spread_radius(25e6, 120.0, 5.0))
    115
    """
    return math.sqrt(max(overflow, 0.0) / (math.pi * uptake * thickness)) if overflow > 0.0 else 0.0


def bulb_through_the_years(case: SumpCase) -> tuple[Bulb, ...]:
    """March the bulb month by month.

    dB/dt = w + max(m, 0); m from the heat w c t at the wall as in wall.melt_rate; what freezes stays counted in B

    Parameters
    ----------
    case : SumpCase [SumpCase]
        The sump.
    Returns
    -------
    tuple [Bulb]
        The bulb at its start and at the end of every month.
    Validity: half a sphere at 0 degC in steady ice of 4.5 radii; sewage is never taken as clean again.
    Source: lunardini_rand_1995, disturbed zone (read second-hand); own_rule, what counts as fouled.

    >>> case = SumpCase(245.15, 800.0, 0.0, 20.0, (0.1,) * 12, 0, 24, 700.0, 5.0)
    >>> last = bulb_through_the_years(case)[-1]
    >>> round(last.sewage / 1e3), 0.0 < last.melted / last.sewage < 0.22
    (6312, True)
    """
    sensible, integral = sensible_heat_ice(case.ice_temperature), conduction_integral_ice(case.ice_temperature, MELTING)
    uptake = soaked_mass(case.sheet_density, case.ice_temperature, case.warmth)

    def rates_for(flow: float) -> Rates:
        brought = flow * WATER_HEAT * case.warmth

        def rates(_: float, y: Sequence[float]) -> list[float]:
            radius = radius_of_volume(max(y[0], 1.0) / WATER_DENSITY, 1.0)
            wall = 2.0 * math.pi * radius**2
            change = wall * melt_rate(brought / wall, integral, radius, sensible, case.zone)
            if change < 0.0:  # only what is liquid can freeze
                change *= max(y[1], 0.0) / (max(y[1], 0.0) + 1000.0)
            return [flow + max(change, 0.0), flow + change, flow, max(change, 0.0), brought, brought - LATENT * change]

        return rates

    y: tuple[float, ...] = (0.0,) * 6
    time, step = 0.0, 3600.0
    bulbs = [_bulb(case, time, y, uptake)]
    for k in range(case.months):
        flow = case.flow[(case.first_month + k) % 12]
        done = march(rates_for(flow), time, y, (k + 1) * MONTH, tolerance=1e-6, floors=(1.0, 1.0),
                     step=step, drifts=False)  # fmt: skip
        time, y, step = done.time, done.state, done.step
        bulbs.append(_bulb(case, time, y, uptake))
    return tuple(bulbs)


def _bulb(case: SumpCase, time: float, y: Sequence[float], uptake: float) -> Bulb:
    fouled, liquid, sewage, melted, heat_in, into_ice = y
    radius = radius_of_volume(max(fouled, 0.0) / WATER_DENSITY, 1.0)
    room = case.cavity + melted / case.density
    overflow = max(0.0, fouled - WATER_DENSITY * room)
    sheet = spread_radius(overflow, uptake, case.sheet_thickness)
    own = radius_of_volume(case.cavity, 1.0)
    return Bulb(time, sewage, melted, liquid, heat_in, into_ice, radius, overflow, max(radius, sheet, own))
