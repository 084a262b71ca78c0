"""Draught: what drives air through shafts, vents and doors, and how much passes."""

from __future__ import annotations

from math import copysign, sqrt

from firnstead.core.units import G0


def draught_pressure(
    pressure: float, height: float, outside: float, inside: float, *, factor: float = 0.034163
) -> float:
    """Give the pressure that a column of inside air of other temperature than outside makes at its foot.

    dp = 0.034163 p H (1/To - 1/Ti)

    Parameters
    ----------
    pressure : float [Pa]
        Air pressure p at the station.
    height : float [m]
        Height H of the column.
    outside : float [K]
        Temperature To of the air outside.
    inside : float [K]
        Temperature Ti of the air inside the shaft.
    factor : float [K/m]
        Gravity over the gas constant of air.
    Returns
    -------
    float [Pa]
        Draught; above 0 air rises out, below 0 outside air sinks in.
    Validity: still air outside, the shaft filled with inside air; at sea level p 0.034163 is the printed 3460.
    Source: sfpe_handbook_5, eqs 50.1, 50.2 (read second-hand).

    >>> round(draught_pressure(66000.0, 15.0, 268.15, 248.15), 1)
    -10.2
    """
    return factor * pressure * height * (1 / outside - 1 / inside)


def chimney_draught(
    height: float, outside: float, flue: float, air_per_fuel: float, pressure: float = 101325.0,
    *, factor: float = 353.0, sea_level: float = 101325.0,
) -> float:  # fmt: skip
    """Give the draught of a flue of burnt gas as a column of water.

    hw = 353 (p/p0) H (1/To - (m + 1)/(m Tg)), in mm of water

    Parameters
    ----------
    height : float [m]
        Height H of the flue.
    outside : float [K]
        Temperature To of the air outside.
    flue : float [K]
        Mean temperature Tg of the gas in the flue.
    air_per_fuel : float [1]
        Mass m of air burnt with a unit mass of fuel.
    pressure : float [Pa]
        Air pressure p at the station.
    factor : float [mm K/m]
        Pressure over gas constant of air at sea level.
    sea_level : float [Pa]
        Pressure p0 that the factor was printed for.
    Returns
    -------
    float [m]
        Draught as height of water.
    Validity: no loss by friction; the printed factor holds at sea level and is scaled by the pressure here.
    Source: singh_thermodynamics, ch. 11 (read second-hand).

    >>> round(1000 * chimney_draught(60.0, 290.0, 573.0, 19.0), 2)
    34.13
    """
    return factor * 1e-3 * pressure / sea_level * height * (1 / outside - (air_per_fuel + 1) / (air_per_fuel * flue))


def wind_pressure(speed: float, density: float, coefficient: float) -> float:
    """Give the pressure of the wind on an opening.

    p = Cw rho u^2/2

    Parameters
    ----------
    speed : float [m/s]
        Wind speed u at the opening.
    density : float [kg/m3]
        Density rho of the outside air.
    coefficient : float [1]
        Pressure coefficient Cw of the opening; below 0 for suction.
    Returns
    -------
    float [Pa]
        Pressure.
    Validity: the coefficient belongs to the shape of the opening; none was found for a shaft in a snow surface.
    Source: sfpe_handbook_5 (read second-hand).

    >>> round(wind_pressure(20.0, 1.0, 0.5), 1)
    100.0
    """
    return coefficient * density * speed * abs(speed) / 2


def opening_flow(area: float, pressure: float, density: float, *, coefficient: float = 0.6) -> float:
    """Give the mass of air that a pressure difference drives through an opening.

    m = Cd A sqrt(2 rho dp)

    Parameters
    ----------
    area : float [m2]
        Free area A.
    pressure : float [Pa]
        Pressure difference dp; its sign is the direction of the flow.
    density : float [kg/m3]
        Density rho of the air that flows.
    coefficient : float [1]
        Discharge coefficient Cd.
    Returns
    -------
    float [kg/s]
        Mass flow.
    Validity: sharp-edged openings, turbulent; cracks pass less at small pressures.
    Source: textbook_unchecked; sfpe_handbook_5, eqs 50.1, 50.2 (read second-hand) for the pressure.

    >>> round(opening_flow(0.1, 10.0, 1.0), 3)
    0.268
    """
    return copysign(coefficient * area * sqrt(2 * density * abs(pressure)), pressure)


def area_in_series(first: float, second: float) -> float:
    """Give the one opening that passes as much as two behind one another.

    A = (1/A1^2 + 1/A2^2)^(-1/2)

    Parameters
    ----------
    first : float [m2]
        Area A1.
    second : float [m2]
        Area A2.
    Returns
    -------
    float [m2]
        Area of the one opening.
    Validity: both with the same coefficient, air of one density.
    Source: sfpe_handbook_5 (read second-hand).

    >>> round(area_in_series(0.3, 0.4), 3)
    0.24
    """
    return float((first**-2 + second**-2) ** -0.5)


def duct_coefficient(length: float, diameter: float, friction: float, losses: float) -> float:
    """Give the discharge coefficient of a duct or passage from its friction and its single losses.

    Cd = 1/sqrt(f L/D + K)

    Parameters
    ----------
    length : float [m]
        Length L.
    diameter : float [m]
        Diameter D, or four times the area over the outline.
    friction : float [1]
        Friction factor f (Darcy).
    losses : float [1]
        Sum K of the single losses: inlet, bends, outlet.
    Returns
    -------
    float [1]
        Coefficient for the free area.
    Validity: turbulent flow; something must resist.
    Source: textbook_unchecked, Darcy and Weisbach.

    >>> round(duct_coefficient(20.0, 0.5, 0.02, 1.5), 3)
    0.659
    """
    return 1 / sqrt(friction * length / diameter + losses)


def neutral_level(lower: float, upper: float, rise: float, density_outside: float, density_inside: float) -> float:
    """Give the height above the lower of two openings at which inside and outside press alike.

    h = H/(1 + (A1/A2)^2 rho_2/rho_1), rho_1 and rho_2 the densities that flow through the lower and the upper one

    Parameters
    ----------
    lower : float [m2]
        Area A1 of the lower opening.
    upper : float [m2]
        Area A2 of the upper opening.
    rise : float [m]
        Height H between them.
    density_outside : float [kg/m3]
        Density of the outside air.
    density_inside : float [kg/m3]
        Density of the inside air.
    Returns
    -------
    float [m]
        Height of the level.
    Validity: one room, two openings with the same coefficient, no wind, no fan.
    Source: statics, mass balance of the two openings.

    >>> round(neutral_level(0.2, 0.2, 10.0, 1.2, 1.2), 2)
    5.0
    """
    inward, outward = density_outside, density_inside
    if density_outside < density_inside:  # inside air sinks out below, outside air comes in above
        inward, outward = outward, inward
    # inward rho through the lower opening: A1^2 rho_1 h = A2^2 rho_2 (H - h)
    return rise / (1 + (lower / upper) ** 2 * inward / outward)


def shaft_flow(
    lower: float, upper: float, rise: float, pressure: float, outside: float, inside: float,
    *, coefficient: float = 0.6, gravity: float = G0, gas_constant: float = 287.05,
) -> float:  # fmt: skip
    """Give the mass of air that goes through a room with two openings at different heights by draught alone.

    m = Cd A1 sqrt(2 rho_1 abs(rho_o - rho_i) g h), h the neutral level above the lower opening

    Parameters
    ----------
    lower : float [m2]
        Area of the lower opening.
    upper : float [m2]
        Area of the upper opening.
    rise : float [m]
        Height between them.
    pressure : float [Pa]
        Air pressure at the station.
    outside : float [K]
        Temperature of the air outside.
    inside : float [K]
        Temperature of the air inside.
    coefficient : float [1]
        Discharge coefficient of both openings.
    gravity : float [m/s2]
        Acceleration g of gravity.
    gas_constant : float [J/(kg K)]
        Gas constant of air.
    Returns
    -------
    float [kg/s]
        Mass flow; above 0 out of the upper opening, below 0 into it.
    Validity: one room, two openings, no wind, no fan.
    Source: statics, mass balance of the two openings.

    >>> round(shaft_flow(0.2, 0.2, 10.0, 70000.0, 233.15, 253.15), 3)
    0.342
    """
    rho_o, rho_i = pressure / (gas_constant * outside), pressure / (gas_constant * inside)
    h = neutral_level(lower, upper, rise, rho_o, rho_i)
    flowing = rho_o if rho_o >= rho_i else rho_i
    drive = 2 * flowing * abs(rho_o - rho_i) * gravity * h
    return copysign(coefficient * lower * sqrt(drive), rho_o - rho_i)
