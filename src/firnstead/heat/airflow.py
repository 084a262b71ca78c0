"""Air that carries heat: density, stack pressure, cracks and vents, doorways, ducts under floors."""

from __future__ import annotations

import math

from firnstead.core.units import G0
from firnstead.snow._arrays import Array, FloatOrArray

AIR_HEAT = 1005.0  # J/kg/K, dry air (from memory, unchecked)
GAS_CONSTANT = 287.05  # J/kg/K, dry air (from memory, unchecked)
STACK = 0.0342  # K/m, gravity over the gas constant (from memory, unchecked)
OPENING = 0.6  # discharge coefficient of a sharp opening (from memory, unchecked)


def air_pressure(elevation: float, *, sea_level: float = 101325.0) -> float:
    """Give the air pressure at a height above the sea.

    p = p_0 (1 - 2.25577e-5 z)^5.25588

    Parameters
    ----------
    elevation : float [m]
        Height above the sea.
    sea_level : float [Pa]
        Pressure at the sea.
    Returns
    -------
    float [Pa]
        Pressure.
    Validity: standard atmosphere below 11 km; weather and the cold over an ice sheet change it by a few per cent.
    Source: textbook_unchecked, standard atmosphere.

    >>> round(air_pressure(3000.0))
    70109
    """
    return float(sea_level * (1.0 - 2.25577e-5 * elevation) ** 5.25588)


def air_density(pressure: float, temperature: FloatOrArray) -> FloatOrArray:
    """Give the density of dry air.

    rho = p/(287.05 T)

    Parameters
    ----------
    pressure : float [Pa]
        Pressure.
    temperature : float or array [K]
        Temperature.
    Returns
    -------
    float or array [kg/m3]
        Density.
    Validity: ideal gas; moisture neglected.
    Source: textbook_unchecked, ideal gas.

    >>> round(air_density(70000.0, 255.15), 3)
    0.956
    """
    found: FloatOrArray = pressure / (GAS_CONSTANT * temperature)
    return found


def stack_pressure(pressure: float, height: float, outside: FloatOrArray, inside: FloatOrArray) -> FloatOrArray:
    """Give the pressure that a column of warm air makes against cold air outside.

    dp = 0.0342 p h (1/T_o - 1/T_i)

    Parameters
    ----------
    pressure : float [Pa]
        Air pressure.
    height : float [m]
        Height between the lower and the upper opening.
    outside : float or array [K]
        Temperature of the colder air.
    inside : float or array [K]
        Temperature of the warmer air.
    Returns
    -------
    float or array [Pa]
        Pressure; negative where the inside is the colder.
    Validity: still air, no wind at the openings.
    Source: ashrae_fundamentals, stack pressure (from memory, unchecked).

    >>> round(stack_pressure(101325.0, 5.0, 255.15, 293.15), 1)
    8.8
    """
    difference: FloatOrArray = STACK * pressure * height * (1.0 / outside - 1.0 / inside)
    return difference


def stack_flow(
    area: FloatOrArray, height: FloatOrArray, pressure: float, outside: FloatOrArray, inside: FloatOrArray, *,
    discharge: float = OPENING,
) -> FloatOrArray:  # fmt: skip
    """Give the flow that the stack drives through openings of which half the area lies low and half high.

    V = C_d A/2 sqrt(dp/rho): each half takes half of the pressure, which leaves 2 (dp/2)/rho under the root

    Parameters
    ----------
    area : float or array [m2]
        Area of all openings together.
    height : float or array [m]
        Height between the low and the high ones.
    pressure : float [Pa]
        Air pressure.
    outside : float or array [K]
        Temperature of the colder air.
    inside : float or array [K]
        Temperature of the warmer air.
    discharge : float [1]
        Discharge coefficient.
    Returns
    -------
    float or array [m3/s]
        Flow of outside air; 0 where the inside is not the warmer.
    Validity: sharp openings, still air; the density of the outside air for both halves.
    Source: ashrae_fundamentals, both laws together (from memory, unchecked).

    >>> round(stack_flow(0.02, 5.0, 101325.0, 255.15, 293.15), 4)
    0.0151
    """
    drop = STACK * pressure * height * (1.0 / outside - 1.0 / inside)  # as stack_pressure
    upward = (inside > outside) * abs(drop)
    flow: FloatOrArray = discharge * area / 2.0 * (upward * GAS_CONSTANT * outside / pressure) ** 0.5
    return flow


def doorway_exchange(
    width: FloatOrArray, height: FloatOrArray, difference: FloatOrArray, temperature: float, *,
    discharge: float = OPENING, least: float = 0.1,
) -> FloatOrArray:  # fmt: skip
    """Give the air that an open doorway lets through each way between two rooms of different warmth.

    V = C_d/3 w h^1.5 sqrt(g D/T); D = sqrt(dT^2 + d^2), d for the draught of people who walk through

    Parameters
    ----------
    width : float or array [m]
        Clear width.
    height : float or array [m]
        Clear height.
    difference : float or array [K]
        Difference of the air temperatures.
    temperature : float [K]
        Mean temperature.
    discharge : float [1]
        Discharge coefficient.
    least : float [K]
        Difference that stands for the draught of traffic (own rule).
    Returns
    -------
    float or array [m3/s]
        Flow one way; the same comes back.
    Validity: still air on both sides, one opening; no fan and no wind through the place.
    Source: textbook_unchecked, exchange through a doorway by gravity.

    >>> round(doorway_exchange(2.4, 2.4, 5.0, 253.0), 3)
    0.786
    """
    drive = (difference**2 + least**2) ** 0.5
    flow: FloatOrArray = discharge / 3.0 * width * height**1.5 * (G0 * drive / temperature) ** 0.5
    return flow


def flow_for_heat(heat: float, rise: float, *, heat_capacity: float = AIR_HEAT) -> float:
    """Give the mass of air that carries a heat off.

    m = Q/(c_p dT)

    Parameters
    ----------
    heat : float [W]
        Heat to carry off.
    rise : float [K]
        How much the air may warm.
    heat_capacity : float [J/kg/K]
        Heat capacity of air.
    Returns
    -------
    float [kg/s]
        Mass flow.
    Validity: rise above 0.
    Source: textbook_unchecked, energy balance.

    >>> round(flow_for_heat(16036.0, 10.0), 3)
    1.596
    """
    return heat / (heat_capacity * rise)


def duct_speed(
    flux: float, length: float, width: float, duct_area: float, density: float, rise: float, *,
    heat_capacity: float = AIR_HEAT,
) -> float:  # fmt: skip
    """Give the air speed in the duct of a ducted foundation that carries off what comes through floor and pad.

    v = phi l m/(A_d rho c_p T_R)

    Parameters
    ----------
    flux : float [W/m2]
        Heat from the floor and from the pad together.
    length : float [m]
        Length of the duct.
    width : float [m]
        Distance between ducts.
    duct_area : float [m2]
        Clear area of one duct.
    density : float [kg/m3]
        Density of the air.
    rise : float [K]
        How much the air may warm along the duct.
    heat_capacity : float [J/kg/K]
        Heat capacity of air.
    Returns
    -------
    float [m/s]
        Speed.
    Validity: steady, no storage in the pad.
    Source: tm_5_852_4, p. 4-43 (read).

    >>> round(duct_speed(13.565, 67.056, 0.8108, 0.14679, 1.3295, 6.6667), 2)
    0.56
    """
    return flux * length * width / (duct_area * density * heat_capacity * rise)


def warmed_snow_radius(heat: float, rise: float, density: float, heat_capacity: float) -> float:
    """Give the radius of the half-ball of snow that takes up the heat of warm air drawn through it.

    (2/3) pi r^3 rho c dT = Q

    Parameters
    ----------
    heat : float [J]
        Heat left in the snow over a warm season.
    rise : float [K]
        How much that snow warms.
    density : float [kg/m3]
        Density of the snow.
    heat_capacity : float [J/kg/K]
        Heat capacity of the snow.
    Returns
    -------
    float [m]
        Radius.
    Validity: order of size; the warm front is not sharp, and conduction spreads it further.
    Source: own_rule, heat balance of a half-ball about the mouth of the well.

    >>> round(warmed_snow_radius(5.0e9, 8.0, 420.0, 1950.0), 1)
    7.1
    """
    return float((heat / (2.0 / 3.0 * math.pi * density * heat_capacity * rise)) ** (1.0 / 3.0)) if rise > 0 else 0.0


def share_running(temperature: Array, set_point: Array, *, band: float = 1.0) -> Array:
    """Give the share of the time that a vent is open or a fan runs under its thermostat.

    s = (T - T_set)/band, between 0 and 1

    Parameters
    ----------
    temperature : array [K]
        Air temperature.
    set_point : array [K]
        Below it the vent is shut.
    band : float [K]
        Rise from shut to always open.
    Returns
    -------
    array [1]
        Share of the time.
    Validity: monthly means.
    Source: own_rule.

    >>> import numpy as np
    >>> share_running(np.array([252.0, 252.25, 255.0]), np.full(3, 252.0)).tolist()
    [0.0, 0.25, 1.0]
    """
    import numpy as np

    share: Array = np.clip((temperature - set_point) / band, 0.0, 1.0)
    return share
