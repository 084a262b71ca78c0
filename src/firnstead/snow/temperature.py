"""Temperature of undisturbed snow: the yearly wave that dies out with depth."""

from __future__ import annotations

import math

import numpy as np

from firnstead.core.units import YEAR
from firnstead.snow._arrays import Array, FloatOrArray, clip, exp

MELTING = 273.15  # [K]


def penetration_depth(diffusivity: FloatOrArray, *, period: float = YEAR) -> FloatOrArray:
    """Give the depth over which the yearly swing falls to 1/e.

    d = sqrt(2 kappa/w), w = 2 pi/P

    Parameters
    ----------
    diffusivity : float or array [m2/s]
        Thermal diffusivity of the snow.
    period : float [s]
        Period of the wave.
    Returns
    -------
    float or array [m]
        Penetration depth.
    Validity: dry snow, conduction alone (no wind pumping, no melt water).
    Source: textbook_unchecked, harmonic heating of a half space.

    >>> round(penetration_depth(5.5e-7), 2)
    2.35
    """
    root: FloatOrArray = (diffusivity * period / math.pi) ** 0.5
    return root


def temperature_annual_wave(
    depth: FloatOrArray, time: float, mean_temperature: float, swing: float, penetration: float, *,
    period: float = YEAR,
) -> FloatOrArray:  # fmt: skip
    """Give the snow temperature at a depth and time of year.

    T = T_m + S exp(-z/d) cos(2 pi t/P - z/d)

    Parameters
    ----------
    depth : float or array [m]
        Depth below the surface.
    time : float [s]
        Time since the surface was warmest.
    mean_temperature : float [K]
        Mean annual temperature.
    swing : float [K]
        Half of the yearly range at the surface.
    penetration : float [m]
        Penetration depth.
    period : float [s]
        Period of the wave.
    Returns
    -------
    float or array [K]
        Temperature.
    Validity: uniform diffusivity, dry snow, no melt; may pass the melting point if the swing is too large.
    Source: textbook_unchecked, harmonic heating of a half space.

    >>> round(temperature_annual_wave(10.0, 0.0, 248.15, 20.0, 2.4), 2)
    247.99
    """
    decay = exp(-depth / penetration)
    if isinstance(depth, np.ndarray):
        return mean_temperature + swing * decay * np.cos(2 * math.pi * time / period - depth / penetration)
    return mean_temperature + swing * decay * math.cos(2 * math.pi * time / period - depth / penetration)


def swing_share(depth: Array, penetration: Array) -> Array:
    """Give the share of the surface swing that is left at each depth where the penetration depth changes with depth.

    f = exp(-integral of dz/d)

    Parameters
    ----------
    depth : array [m]
        Depths, from the surface down.
    penetration : array [m]
        Penetration depth that belongs to the snow at each of these depths.
    Returns
    -------
    array [1]
        Share of the surface swing.
    Validity: exact where the diffusivity is uniform; where density grows with depth it leaves up to 0.5 K too much
        swing of 20 K, which is on the safe side.
    Source: own_rule, local decay summed over depth; compared with a numerical solution in the tests.

    >>> swing_share(np.array([0.0, 2.0, 4.0]), np.array([2.0, 2.0, 2.0])).round(4).tolist()
    [1.0, 0.3679, 0.1353]
    """
    steps = np.diff(depth) * (1 / penetration[:-1] + 1 / penetration[1:]) / 2
    return np.exp(-np.concatenate(([0.0], np.cumsum(steps))))


def coldest_temperature(mean_temperature: float, swing: float, share: FloatOrArray) -> FloatOrArray:
    """Give the lowest temperature of the year.

    T = T_m - S f

    Parameters
    ----------
    mean_temperature : float [K]
        Mean annual temperature.
    swing : float [K]
        Half of the yearly range at the surface.
    share : float or array [1]
        Share of the surface swing that is left at the depth.
    Returns
    -------
    float or array [K]
        Coldest temperature.
    Validity: as temperature_annual_wave; single cold spells are not in it.
    Source: textbook_unchecked, envelope of the harmonic wave.

    >>> coldest_temperature(248.15, 20.0, 0.5)
    238.15
    """
    return mean_temperature - swing * share


def warmest_temperature(mean_temperature: float, swing: float, share: FloatOrArray) -> FloatOrArray:
    """Give the highest temperature of the year, never above melting.

    T = min(T_m + S f, 273.15)

    Parameters
    ----------
    mean_temperature : float [K]
        Mean annual temperature.
    swing : float [K]
        Half of the yearly range at the surface.
    share : float or array [1]
        Share of the surface swing that is left at the depth.
    Returns
    -------
    float or array [K]
        Warmest temperature.
    Validity: as temperature_annual_wave; where melting is reached, wet snow is weaker than any law here says.
    Source: textbook_unchecked, envelope of the harmonic wave.

    >>> warmest_temperature(248.15, 30.0, 1.0)
    273.15
    """
    return clip(mean_temperature + swing * share, 0.0, MELTING)
