"""What happens at the wall of the pool: heat from the water, ice melted, heat that goes into the ice."""

from __future__ import annotations

import math

from firnstead.water.properties import (
    DENSEST,
    LATENT,
    WATER_DENSITY,
    WATER_HEAT,
    water_conductivity,
    water_density_kell,
    water_viscosity,
)

_SURFACE = water_density_kell(0.0)
_GREATEST = water_density_kell(DENSEST) - _SURFACE
GRAVITY = 9.81


def film_free(warmth: float, *, constant: float = 0.10, least_share: float = 0.0) -> float:
    """Give the film coefficient between pool and ice by free convection.

    h = C k (g d_rho/(rho nu a))^(1/3) with d_rho = |rho(t) - rho(0)| and k, nu, a at t/2

    Parameters
    ----------
    warmth : float [K]
        Temperature of the pool above melting.
    constant : float [1]
        Constant C of Nu = C Ra^(1/3).
    least_share : float [1]
        Least difference of density as a share of the greatest one below 4 K; near 8 K the difference vanishes.
    Returns
    -------
    float [W/m2/K]
        Film coefficient.
    Validity: turbulent free convection, pool without stirring; 0 to 60 K; C between 0.08 and 0.15, to be calibrated.
    Source: hoffman_2020, Ra^(1/3) at the pool surface (read second-hand); C from memory, unchecked.

    >>> round(film_free(1.0)), round(film_free(4.0)), round(film_free(10.0))
    (76, 101, 107)
    """
    middle = 0.5 * warmth
    difference = water_density_kell(warmth) - _SURFACE
    if least_share > 0.0:
        difference = math.sqrt(difference * difference + (least_share * _GREATEST) ** 2)
    k = water_conductivity(middle)
    group = GRAVITY * abs(difference) * WATER_DENSITY * WATER_HEAT / (water_viscosity(middle) * k)
    return constant * k * float(group ** (1.0 / 3.0))


def film_forced(speed: float, *, constant: float = 1.1e-3) -> float:
    """Give the film coefficient between flowing water and ice.

    h = C_h rho c U

    Parameters
    ----------
    speed : float [m/s]
        Speed of the water along the ice.
    constant : float [1]
        Coefficient of the flume.
    Returns
    -------
    float [W/m2/K]
        Film coefficient.
    Validity: 0.024 to 0.110 m/s.
    Source: flume_2016, abstract (read).

    >>> round(film_forced(0.05))
    231
    """
    return constant * WATER_DENSITY * WATER_HEAT * speed


def flux_into_ice(melt: float, integral: float, radius: float, sensible: float, zone: float) -> float:
    """Give the heat that goes into the ice at a wall which melts back.

    q = (K/R) P/(1 - exp(-P (1 - 1/z))), P = m s R/K: m s for a fast wall, K/(R (1 - 1/z)) for one that stands

    Parameters
    ----------
    melt : float [kg/m2/s]
        Ice melted per area and time; taken as 0 where the wall freezes.
    integral : float [W/m]
        Conductivity of the ice integrated up to melting, K.
    radius : float [m]
        Radius for conduction R: wall over shape factor.
    sensible : float [J/kg]
        Heat that warms the ice to melting, s.
    zone : float [1]
        Disturbed zone over radius, z.
    Returns
    -------
    float [W/m2]
        Heat flux; sensible heat and conduction are counted once.
    Validity: steady in a frame that moves with the wall of a sphere.
    Source: statics, exact solution of conduction ahead of a moving sphere.

    >>> round(flux_into_ice(0.0, 60.0, 5.0, 6e4, 4.5), 2), round(flux_into_ice(1e-2, 60.0, 5.0, 6e4, 4.5), 1)
    (15.43, 600.0)
    """
    number, reach = max(melt, 0.0) * sensible * radius / integral, 1.0 - 1.0 / zone
    return integral / radius * _carried(number, reach)


def melt_rate(
    flux: float, integral: float, radius: float, sensible: float, zone: float, *, latent: float = LATENT
) -> float:
    """Give the ice that a heat flux from the water melts, what goes into the ice taken off.

    flux = m L + q(m); where the flux is less than the loss of a standing wall, m = (flux - q(0))/L freezes

    Parameters
    ----------
    flux : float [W/m2]
        Heat from the water.
    integral : float [W/m]
        Conductivity of the ice integrated up to melting, K.
    radius : float [m]
        Radius for conduction R.
    sensible : float [J/kg]
        Heat that warms the ice to melting, s.
    zone : float [1]
        Disturbed zone over radius, z.
    latent : float [J/kg]
        Latent heat L.
    Returns
    -------
    float [kg/m2/s]
        Ice melted; negative where water freezes on.
    Validity: as flux_into_ice.
    Source: statics, heat balance of the wall.

    >>> m = melt_rate(1000.0, 60.0, 5.0, 6e4, 4.5)
    >>> round(m * 333.43e3 + flux_into_ice(m, 60.0, 5.0, 6e4, 4.5), 9)
    1000.0
    """
    scale, reach = integral / radius, 1.0 - 1.0 / zone
    wanted, ratio = flux / scale, latent / sensible
    standing = 1.0 / reach
    if wanted <= standing:
        return (flux - scale * standing) / latent
    number = (wanted - standing) / (ratio + 0.5)  # at or right of the root: the slope lies between ratio + 1/2 and + 1
    for _ in range(8):
        power = math.exp(-reach * number)
        below = 1.0 - power
        if below < 1e-9:
            break
        carried = number / below
        slope = ratio + (1.0 - carried * reach * power) / below
        step = (number * ratio + carried - wanted) / slope
        number -= step
        if abs(step) < 1e-13 * (number + 1e-6):
            break
    return number * scale / sensible


def _carried(number: float, reach: float) -> float:
    """P/(1 - exp(-P r)), with its limit 1/r."""
    product = number * reach
    if product < 1e-6:
        return (1.0 + product / 2) / reach
    return number / -math.expm1(-product)
