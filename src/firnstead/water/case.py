"""What the pool of a melt well depends on."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from firnstead.core.units import YEAR
from firnstead.water.properties import MELTING, WATER_DENSITY, conduction_integral_ice, sensible_heat_ice
from firnstead.water.shape import conduction_factor, wall_factor

MONTH = YEAR / 12.0
Row = tuple[float, ...]


@dataclass(frozen=True)
class PoolCase:
    """Everything that the pool depends on; SI. Rows are twelve months, January first."""

    ice_temperature: float
    densities: Row
    """Density of the firn at every metre of depth, from the surface."""
    shape: float
    """Depth of the pool over the radius of its surface."""
    film_constant: float
    zone: float
    top_film: float
    """Film between water and the roof of the pool, radiation counted [W/m2/K]."""
    start_depth: float
    start_radius: float
    start_warmth: float
    target: float
    """Mass of water to hold [kg]."""
    settle: float
    """Time in which a difference from the target is made good [s]."""
    draw: Row
    heat_limit: Row
    circulation: float
    supply: float
    """Temperature of the water going down, above melting [K]."""
    first_month: int
    lead: int
    """Months of heating before water is drawn."""
    months: int
    least_depth: float
    """Depth of water that the pump needs [m]."""
    level_limit: float
    hose_limit: float
    span_limit: float

    @cached_property
    def sensible(self) -> float:
        """Heat that warms the ice to melting [J/kg]."""
        return sensible_heat_ice(self.ice_temperature)

    @cached_property
    def integral(self) -> float:
        """Conductivity of the ice integrated up to melting [W/m]."""
        return conduction_integral_ice(self.ice_temperature, MELTING)

    @cached_property
    def factors(self) -> tuple[float, float]:
        """Wall over radius squared; wall over shape factor and radius."""
        wall = wall_factor(self.shape)
        return wall, wall / conduction_factor(self.shape)

    def density(self, depth: float) -> float:
        """Density of the firn at a depth [kg/m3]."""
        last = len(self.densities) - 1
        at = min(max(depth, 0.0), last - 1e-9)
        i = int(at)
        return self.densities[i] + (at - i) * (self.densities[i + 1] - self.densities[i])


def start_mass(case: PoolCase) -> float:
    """Give the water in the foot of the shaft with which the pool starts.

    M = rho (2/3) pi n r^3

    Parameters
    ----------
    case : PoolCase [PoolCase]
        The well.
    Returns
    -------
    float [kg]
        Mass.
    Validity: half a spheroid as wide as the shaft.
    Source: statics, geometry.

    >>> round(start_mass(example_case()))
    312
    """
    return WATER_DENSITY * 2.0 / 3.0 * math.pi * case.shape * case.start_radius**3


def example_case() -> PoolCase:
    """Give a well of plain numbers, for examples and tests.

    none

    Returns
    -------
    PoolCase [PoolCase]
        A well in ice of -28 degC with 5 m3 a day, five years.
    Validity: an example.
    Source: own_rule.

    >>> example_case().months
    60
    """
    return PoolCase(
        ice_temperature=245.15, densities=tuple(min(917.0, 400.0 + 7.0 * z) for z in range(200)), shape=1.0,
        film_constant=0.10, zone=4.5, top_film=5.0, start_depth=60.0, start_radius=0.53, start_warmth=1.0,
        target=0.9e6, settle=60 * 86400.0, draw=(5000.0 / 86400.0,) * 12, heat_limit=(60e3,) * 12, circulation=1.0,
        supply=40.0, first_month=5, lead=12, months=60, least_depth=1.0, level_limit=150.0, hose_limit=170.0,
        span_limit=60.0)  # fmt: skip
