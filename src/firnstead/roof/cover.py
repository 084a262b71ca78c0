"""Weight of the snow on a roof: as placed, and growing with the years."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from firnstead.core.units import G0

Real = float | NDArray[np.float64]


def cover_mass(placed: float, accumulation: float, drift_factor: float, time: Real) -> Real:
    """Give the mass on a roof after a time.

    M = M_0 + c_d a t; mass does not fall when the cover settles

    Parameters
    ----------
    placed : float [kg/m2]
        Mass M_0 as placed, per plan area.
    accumulation : float [kg/m2/s]
        Accumulation a of the site.
    drift_factor : float [1]
        Growth c_d over the station as a multiple of the site's.
    time : float or array [s]
        Time t since placing.
    Returns
    -------
    float or array [kg/m2]
        Mass per plan area.
    Validity: steady climate; nobody clears the snow away.
    Source: statics, balance of mass; c_d = 2 over a trench study's mound: arrizabalaga_2025 (read in its code).

    >>> cover_mass(450.0, 350.0, 1.0, 10.0)
    3950.0
    """
    return placed + drift_factor * accumulation * time


def cover_pressure(mass: Real, arching_factor: float, gravity: float = G0) -> Real:
    """Give the pressure of a cover on the arch per plan area.

    q = C_v g M

    Parameters
    ----------
    mass : float or array [kg/m2]
        Mass of snow per plan area M.
    arching_factor : float [1]
        Share C_v of the weight that reaches the arch, at least 1 for a lasting load.
    gravity : float [m/s2]
        Acceleration of gravity g.
    Returns
    -------
    float or array [Pa]
        Pressure per plan area.
    Validity: C_v below 1 is refused (ValueError): relief by arching creeps away.
    Source: statics; C_v 1.3 as bound is an own_rule, no measured value for an arch under snow was found.

    >>> round(cover_pressure(450.0, 1.3), 0)
    5737.0
    """
    if arching_factor < 1:
        raise ValueError("an arching factor below 1 is no lasting relief")
    return arching_factor * gravity * mass


def growth_rate_pressure(accumulation: float, drift_factor: float, arching_factor: float, gravity: float = G0) -> float:
    """Give how fast the pressure on an arch grows.

    dq/dt = C_v g c_d a

    Parameters
    ----------
    accumulation : float [kg/m2/s]
        Accumulation a of the site.
    drift_factor : float [1]
        Growth c_d over the station as a multiple of the site's.
    arching_factor : float [1]
        Share C_v of the weight that reaches the arch.
    gravity : float [m/s2]
        Acceleration of gravity g.
    Returns
    -------
    float [Pa/s]
        Growth of pressure.
    Validity: as `cover_mass` and `cover_pressure`.
    Source: statics.

    >>> round(growth_rate_pressure(350.0, 1.0, 1.0), 0)
    3432.0
    """
    return arching_factor * gravity * drift_factor * accumulation


def haunch_thickness(rise: float, cover: float, side_top: float | None) -> float:
    """Give how much thicker the cover is at the feet than at the crown.

    h_s - h_c; h_s = f + h_c where the cover is levelled to the crown's cover

    Parameters
    ----------
    rise : float [m]
        Rise f of the arch.
    cover : float [m]
        Thickness h_c over the crown.
    side_top : float or None [m]
        Height h_s of the cover's top above the feet at the sides; None: levelled.
    Returns
    -------
    float [m]
        Additional thickness at the feet; between, it falls off with the height of the arch.
    Validity: negative where the cover is thinner at the sides.
    Source: statics, geometry; own_rule for the shape between crown and feet.

    >>> haunch_thickness(1.5, 0.6, None), haunch_thickness(1.5, 0.6, 0.6)
    (1.5, 0.0)
    """
    return rise if side_top is None else side_top - cover


def first_exceedance(time: NDArray[np.float64], ratio: NDArray[np.float64]) -> float:
    """Find when a rising ratio first passes 1.

    straight line between the steps; infinite where it never does

    Parameters
    ----------
    time : array [s]
        Steps of time, rising.
    ratio : array [1]
        Demand over limit at each step.
    Returns
    -------
    float [s]
        Time at which the ratio first passes 1; 0 where it is above 1 at the first step.
    Validity: steps fine enough for straight lines between them.
    Source: statics, interpolation.

    >>> first_exceedance(np.array([0.0, 1.0, 2.0]), np.array([0.5, 0.9, 1.3]))
    1.25
    """
    above = np.flatnonzero(~(ratio <= 1.0))
    if above.size == 0:
        return float("inf")
    i = int(above[0])
    if i == 0 or not np.isfinite(ratio[i]):
        return float(time[max(i - 1, 0)])
    share = (1.0 - ratio[i - 1]) / (ratio[i] - ratio[i - 1])
    return float(time[i - 1] + share * (time[i] - time[i - 1]))
