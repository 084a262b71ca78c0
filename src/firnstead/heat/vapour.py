"""Water in the air: where it settles as dew or frost."""

from __future__ import annotations

import math

VAPOUR_CONSTANT = 461.5  # J/kg/K, water vapour (from memory, unchecked)


def vapour_pressure(temperature: float, *, a: float = 17.62, b: float = 243.12) -> float:
    """Give the vapour pressure at saturation over water.

    p = 611.2 exp(a t/(b + t)), t in degC

    Parameters
    ----------
    temperature : float [K]
        Temperature.
    a : float [1]
        Coefficient; over ice 22.46.
    b : float [degC]
        Coefficient; over ice 272.62.
    Returns
    -------
    float [Pa]
        Saturation pressure.
    Validity: -45 to 60 degC over water, -65 to 0 degC over ice; within half a per cent (compared in the tests).
    Source: textbook_unchecked, Magnus formula.

    >>> round(vapour_pressure(293.15))
    2333
    """
    celsius = temperature - 273.15
    return 611.2 * math.exp(a * celsius / (b + celsius))


def vapour_pressure_ice(temperature: float) -> float:
    """Give the vapour pressure at saturation over ice.

    p = 611.2 exp(22.46 t/(272.62 + t)), t in degC

    Parameters
    ----------
    temperature : float [K]
        Temperature, not above 273.15.
    Returns
    -------
    float [Pa]
        Saturation pressure.
    Validity: -65 to 0 degC.
    Source: textbook_unchecked, Magnus formula over ice.

    >>> round(vapour_pressure_ice(253.15), 1)
    103.3
    """
    return vapour_pressure(temperature, a=22.46, b=272.62)


def dew_point(temperature: float, humidity: float, *, a: float = 17.62, b: float = 243.12) -> float:
    """Give the temperature at which a surface in the room begins to sweat.

    t_d = b g/(a - g), g = ln(phi) + a t/(b + t), t in degC

    Parameters
    ----------
    temperature : float [K]
        Temperature of the room.
    humidity : float [1]
        Relative humidity.
    a : float [1]
        Coefficient.
    b : float [degC]
        Coefficient.
    Returns
    -------
    float [K]
        Dew point.
    Validity: humidity above 0; dew point above 0 degC is over water, as here.
    Source: textbook_unchecked, Magnus formula turned round.

    >>> round(dew_point(294.26, 0.7), 2)
    288.57
    """
    celsius = temperature - 273.15
    g = math.log(humidity) + a * celsius / (b + celsius)
    return 273.15 + b * g / (a - g)


def vapour_density(pressure: float, temperature: float) -> float:
    """Give the mass of water vapour in the air.

    rho_v = p_v/(461.5 T)

    Parameters
    ----------
    pressure : float [Pa]
        Vapour pressure.
    temperature : float [K]
        Temperature.
    Returns
    -------
    float [kg/m3]
        Vapour in a volume of air.
    Validity: ideal gas.
    Source: textbook_unchecked, ideal gas.

    >>> round(vapour_density(1166.0, 293.15), 5)
    0.00862
    """
    return pressure / (VAPOUR_CONSTANT * temperature)


def frost_rate(flow: float, inside: float, humidity: float, trench: float) -> float:
    """Give the water that leaves a room with its air and settles as frost in the trench.

    m = V (phi p_s(T_i)/(R_v T_i) - p_ice(T_a)/(R_v T_i)), never negative

    Parameters
    ----------
    flow : float [m3/s]
        Room air that leaves.
    inside : float [K]
        Temperature of the room.
    humidity : float [1]
        Relative humidity of the room.
    trench : float [K]
        Temperature of the trench, which holds its air at saturation over ice.
    Returns
    -------
    float [kg/s]
        Frost.
    Validity: all vapour above saturation settles in the trench; trench below 0 degC.
    Source: textbook_unchecked, mass balance.

    >>> round(frost_rate(0.02, 293.15, 0.35, 255.15) * 86400, 1)
    8.8
    """
    room = vapour_density(humidity * vapour_pressure(inside), inside)
    return flow * max(0.0, room - vapour_density(vapour_pressure_ice(min(trench, 273.15)), inside))
