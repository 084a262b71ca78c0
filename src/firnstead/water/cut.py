"""When the heat or the power stops: ice on the pool, water in the hose, and the way back."""

from __future__ import annotations

import math

from firnstead.water.properties import ICE_DENSITY, LATENT, WATER_DENSITY, WATER_HEAT

STILL_CONDUCTIVITY = 0.556  # W/m/K: water at 0 degC (computed, IAPWS-95)


def time_to_first_ice(warmth: float, flux: float, *, conductivity: float = STILL_CONDUCTIVITY) -> float:
    """Give the time until the surface of a still pool is at 0 degC.

    t = (pi/4) k rho c (T/q)^2

    Parameters
    ----------
    warmth : float [K]
        Temperature of the pool above melting.
    flux : float [W/m2]
        Heat flux from the surface to the roof.
    conductivity : float [W/m/K]
        Conductivity of the water.
    Returns
    -------
    float [s]
        Time.
    Validity: pool below 4 K and without stirring: the coldest water lies on top, so the depths do not help.
    Source: carslaw_jaeger, steady flux from a half space (from memory, unchecked).

    >>> round(time_to_first_ice(1.0, 20.0) / 3600, 2)
    1.27
    """
    if flux <= 0.0:
        return math.inf
    return math.pi / 4.0 * conductivity * WATER_DENSITY * WATER_HEAT * (max(warmth, 0.0) / flux) ** 2


def time_to_ice(thickness: float, flux: float) -> float:
    """Give the time in which ice of a thickness grows on a pool.

    t = rho_i L x/q

    Parameters
    ----------
    thickness : float [m]
        Thickness of the ice.
    flux : float [W/m2]
        Heat flux from the surface to the roof.
    Returns
    -------
    float [s]
        Time.
    Validity: thin ice, no heat from the water below counted.
    Source: statics, latent heat.

    >>> round(time_to_ice(0.01, 20.0) / 3600, 1)
    42.5
    """
    return ICE_DENSITY * LATENT * thickness / flux if flux > 0.0 else math.inf


def time_to_freezing_hose(
    bore: float, insulation: float, conductivity: float, warmth: float, air: float, *, film: float = 8.0
) -> float:
    """Give the time until standing water in a hose is at 0 degC.

    t = rho c (pi d^2/4) R' ln((t_w - t_a)/(0 - t_a)), R' = ln(D/d)/(2 pi k) + 1/(pi D h)

    Parameters
    ----------
    bore : float [m]
        Bore d.
    insulation : float [m]
        Thickness of hose wall and insulation, (D - d)/2.
    conductivity : float [W/m/K]
        Conductivity of wall and insulation k.
    warmth : float [K]
        Temperature of the water above melting.
    air : float [K]
        Temperature of the air in the shaft below melting, as a positive number.
    film : float [W/m2/K]
        Film in still air h.
    Returns
    -------
    float [s]
        Time.
    Validity: to 0 degC only; what follows is reserve.
    Source: textbook_unchecked, cooling of a stagnant line.

    >>> round(time_to_freezing_hose(0.05, 0.02, 0.04, 3.0, 28.0) / 3600, 2)
    0.65
    """
    outer = bore + 2.0 * insulation
    resistance = math.log(outer / bore) / (2.0 * math.pi * conductivity) if insulation > 0.0 else 0.0
    resistance += 1.0 / (math.pi * outer * film)
    if air <= 0.0:
        return math.inf
    return WATER_DENSITY * WATER_HEAT * math.pi * bore**2 / 4.0 * resistance * math.log((max(warmth, 0.0) + air) / air)
