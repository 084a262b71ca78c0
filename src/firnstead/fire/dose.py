"""What smoke does to people: carbon monoxide, carbon dioxide, want of oxygen, heat.

All of it was found at sea level. No dose law was ever tried on people at height.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from firnstead.fire._arrays import Array, Floats

# breathing rate [L/min] and share of blood CO [%] at which people fall: purser_fed
EFFORT: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"rest": (8.5, 40.0), "light": (25.0, 30.0), "heavy": (50.0, 20.0)})  # fmt: skip


def cohb_stewart(share: Floats, time: float, breathing: float, *, factor: float = 3.317e-5,
                 exponent: float = 1.036) -> Array:  # fmt: skip
    """Give the carbon monoxide taken up by the blood, as percent of its haemoglobin.

    COHb = 3.317e-5 x^1.036 V t (ppm, L/min, min)

    Parameters
    ----------
    share : Floats [1]
        Share of carbon monoxide in the air.
    time : float [s]
        Time t.
    breathing : float [m3/s]
        Air breathed V.
    factor : float [1]
        Factor.
    exponent : float [1]
        Exponent.
    Returns
    -------
    Array [1]
        Percent of the haemoglobin.
    Validity: steady share, short exposures far from the end value; nothing is given off again; sea level.
    Source: purser_fed, Stewart's law (read second-hand).

    >>> round(float(cohb_stewart(1000e-6, 1692.0, 25e-3 / 60)), 1)
    30.0
    """
    ppm = np.asarray(share) * 1e6
    found: Array = factor * ppm**exponent * (breathing * 60e3) * (time / 60)
    return found


def dose_rate_co_purser(share: Floats, effort: str = "light") -> Array:
    """Give how fast the dose of carbon monoxide grows; at 1 half of all people fall.

    dF/dt = 3.317e-5 x^1.036 V/D (ppm, L/min, percent, per min)

    Parameters
    ----------
    share : Floats [1]
        Share of carbon monoxide in the air.
    effort : str [text]
        "rest", "light" or "heavy" work.
    Returns
    -------
    Array [1/s]
        Growth of the dose.
    Validity: as cohb_stewart.
    Source: purser_fed, dose of carbon monoxide (read second-hand).

    >>> round(float(1 / dose_rate_co_purser(1000e-6)) / 60, 1)
    28.2
    """
    breathing, limit = EFFORT[effort]
    return cohb_stewart(share, 1.0, breathing / 60e3) / limit


def dose_rate_co_iso(share: Floats, *, dose: float = 35000.0) -> Array:
    """Give how fast the dose of carbon monoxide grows by the plain product law.

    dF/dt = x/35000 (ppm, per min)

    Parameters
    ----------
    share : Floats [1]
        Share of carbon monoxide in the air.
    dose : float [ppm min]
        Dose at which half of all people fall.
    Returns
    -------
    Array [1/s]
        Growth of the dose.
    Validity: light work, sea level.
    Source: iso_13571, dose of carbon monoxide (read second-hand).

    >>> round(float(1 / dose_rate_co_iso(1000e-6)) / 60, 1)
    35.0
    """
    return np.asarray(share * 1e6 / dose / 60)


def uptake_factor_purser(share: Floats) -> Array:
    """Give how much more is breathed because of carbon dioxide.

    v = exp(0.1903 x + 2.0004)/7.1 (percent)

    Parameters
    ----------
    share : Floats [1]
        Share of carbon dioxide in the air.
    Returns
    -------
    Array [1]
        Factor, at least 1.
    Validity: to about 6 percent.
    Source: purser_fed, uptake (read second-hand).

    >>> round(float(uptake_factor_purser(0.05)), 2)
    2.7
    """
    return np.maximum(1.0, np.exp(0.1903 * np.asarray(share) * 100 + 2.0004) / 7.1)


def uptake_factor_iso(share: Floats) -> Array:
    """Give how much more is breathed because of carbon dioxide, the other law.

    v = exp(x/5) above 2 percent

    Parameters
    ----------
    share : Floats [1]
        Share of carbon dioxide in the air.
    Returns
    -------
    Array [1]
        Factor.
    Validity: above 2 percent; 1 below.
    Source: iso_13571, uptake (from memory, unchecked).

    >>> round(float(uptake_factor_iso(0.05)), 2)
    2.72
    """
    return np.where(np.asarray(share) > 0.02, np.exp(np.asarray(share) * 100 / 5), 1.0)


def dose_rate_oxygen(percent: Floats) -> Array:
    """Give how fast the dose of want of oxygen grows.

    dF/dt = 1/exp(8.13 - 0.54 (20.9 - O2)) (percent, per min)

    Parameters
    ----------
    percent : Floats [1]
        Oxygen as percent, by pressure that of air at sea level.
    Returns
    -------
    Array [1/s]
        Growth of the dose.
    Validity: sea level; people at height are used to less.
    Source: purser_fed, want of oxygen (read second-hand).

    >>> round(float(1 / dose_rate_oxygen(10.9)) / 60, 1)
    15.3
    """
    return np.asarray(np.exp(-(8.13 - 0.54 * (20.9 - np.asarray(percent)))) / 60)


def dose_rate_carbon_dioxide(share: Floats) -> Array:
    """Give how fast the dose of carbon dioxide itself grows.

    dF/dt = 1/exp(6.1623 - 0.5189 x) (percent, per min)

    Parameters
    ----------
    share : Floats [1]
        Share of carbon dioxide in the air.
    Returns
    -------
    Array [1/s]
        Growth of the dose.
    Validity: not added to that of carbon monoxide; the greater counts.
    Source: purser_fed, carbon dioxide (read second-hand).

    >>> round(float(1 / dose_rate_carbon_dioxide(0.06)) / 60, 1)
    21.1
    """
    return np.asarray(np.exp(-(6.1623 - 0.5189 * np.asarray(share) * 100)) / 60)


def dose_rate_heat(temperature: Floats) -> Array:
    """Give how fast the dose of hot air grows.

    dF/dt = 1/exp(5.1849 - 0.0273 T) (degrees Celsius, per min)

    Parameters
    ----------
    temperature : Floats [K]
        Air temperature.
    Returns
    -------
    Array [1/s]
        Growth of the dose.
    Validity: dry air above about 60 degrees Celsius; 0 below 37, which is no threat.
    Source: purser_fed, hot air (read second-hand).

    >>> round(float(1 / dose_rate_heat(373.15)) / 60, 1)
    11.6
    """
    celsius = np.asarray(temperature) - 273.15
    return np.where(celsius > 37, np.exp(-(5.1849 - 0.0273 * celsius)) / 60, 0.0)


def time_in_radiation(radiation: float, *, factor: float = 1.33, exponent: float = 1.35) -> float:
    """Give the time to pain on bare skin in radiation.

    t = 1.33 q^-1.35 (kW/m2, min)

    Parameters
    ----------
    radiation : float [W/m2]
        Radiation q.
    factor : float [min]
        Factor.
    exponent : float [1]
        Exponent.
    Returns
    -------
    float [s]
        Time.
    Validity: above 2.5 kW/m2; bare skin.
    Source: cibse_guide_e, eq. 10.4 (read second-hand).

    >>> round(time_in_radiation(10e3), 2)
    3.56
    """
    return float(factor * (radiation / 1e3) ** -exponent) * 60


def cohb_rate_cfk(
    blood: float, share: float, pressure: float = 101325.0, *, produced: float = 0.007, volume: float = 5500.0,
    affinity: float = 218.0, diffusion: float = 30.0, ventilation: float = 6000.0, oxygen: float = 100.0,
    capacity: float = 0.20,
) -> float:  # fmt: skip
    """Give how fast carbon monoxide builds up in the blood, Coburn, Forster and Kane.

    dC/dt = V_co/V_b + (P_co - C P_o2/(O M))/(V_b B), B = 1/D_L + (P_B - 47)/V_A, O = 0.20 - C (mL, min, mmHg)

    Parameters
    ----------
    blood : float [1]
        Carbon monoxide in the blood as a share of its haemoglobin.
    share : float [1]
        Share of carbon monoxide in the air.
    pressure : float [Pa]
        Air pressure.
    produced : float [mL/min]
        Carbon monoxide that the body makes.
    volume : float [mL]
        Blood volume.
    affinity : float [1]
        Haldane's constant M.
    diffusion : float [mL/min/mmHg]
        Diffusion D_L of the lung.
    ventilation : float [mL/min]
        Ventilation V_A of the lung.
    oxygen : float [mmHg]
        Pressure of oxygen in the capillaries.
    capacity : float [mL/mL]
        Most gas that the blood binds.
    Returns
    -------
    float [1/s]
        Growth of the share.
    Validity: a person at rest, non-linear form; the pressure of oxygen must be lowered at height.
    Source: coburn_forster_kane, as re-typed (from memory, unchecked).

    >>> round(cohb_rate_cfk(0.01, 100e-6) * 3600 * 100, 2)
    2.43
    """
    mmhg = pressure / 133.322
    bound = blood * capacity
    resistance = 1 / diffusion + (mmhg - 47) / ventilation
    inhaled = share * (mmhg - 47)
    back = bound * oxygen / (max(1e-9, capacity - bound) * affinity)
    return (produced / volume + (inhaled - back) / (volume * resistance)) / capacity / 60
