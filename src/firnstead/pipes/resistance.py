"""Resistance between the carrier and the air, per metre of pipe: wall, insulation, film; and the heat that follows."""

from __future__ import annotations

import math

STEFAN_BOLTZMANN = 5.670374e-8  # [W/m2/K4]


def resistance_layer(inner: float, outer: float, conductivity: float) -> float:
    """Give the resistance of a layer round a pipe.

    R = ln(D_o/D_i)/(2 pi k)

    Parameters
    ----------
    inner : float [m]
        Inner diameter.
    outer : float [m]
        Outer diameter.
    conductivity : float [W/m/K]
        Conductivity.
    Returns
    -------
    float [m K/W]
        Resistance of one metre.
    Validity: heat flows outwards only; dry, closed joints.
    Source: textbook_unchecked, hollow cylinder; iso_12241, the same form (read second-hand).

    >>> round(resistance_layer(0.0603, 0.1603, 0.027), 4)
    5.7633
    """
    return math.log(outer / inner) / (2 * math.pi * conductivity)


def resistance_film(diameter: float, coefficient: float) -> float:
    """Give the resistance between a surface and the air.

    R = 1/(pi D h)

    Parameters
    ----------
    diameter : float [m]
        Outer diameter.
    coefficient : float [W/m2/K]
        Film coefficient, radiation and convection together.
    Returns
    -------
    float [m K/W]
        Resistance of one metre.
    Validity: the whole surface sees the same air.
    Source: textbook_unchecked, film.

    >>> round(resistance_film(0.1603, 8.0), 4)
    0.2482
    """
    return 1 / (math.pi * diameter * coefficient)


def film_radiation(emissivity: float, surface: float, air: float) -> float:
    """Give the film coefficient of radiation.

    h_r = epsilon sigma (T_s^2 + T_a^2)(T_s + T_a)

    Parameters
    ----------
    emissivity : float [1]
        Emissivity of the surface.
    surface : float [K]
        Temperature of the surface.
    air : float [K]
        Temperature of the air and of the walls round it.
    Returns
    -------
    float [W/m2/K]
        Coefficient.
    Validity: walls much larger than the pipe, as cold as the air.
    Source: iso_12241, radiation (read second-hand).

    >>> round(film_radiation(1.0, 253.15, 253.15), 2)
    3.68
    """
    return emissivity * STEFAN_BOLTZMANN * (surface * surface + air * air) * (surface + air)


def film_still_air_iso_12241(diameter: float, difference: float, *, vertical: bool = False) -> float:
    """Give the film coefficient of free convection, the larger of the standard's two branches.

    lying: h = max(1.25 (dT/D)^0.25, 1.21 dT^(1/3)); standing: h = max(1.32 (dT/D)^0.25, 1.74 dT^(1/3))

    Parameters
    ----------
    diameter : float [m]
        Outer diameter (height of the surface where it stands).
    difference : float [K]
        Surface less air.
    vertical : bool [text]
        Whether the pipe stands.
    Returns
    -------
    float [W/m2/K]
        Coefficient.
    Validity: still air at sea level; thinner air takes less heat, so this is on the safe side for losses. The standard
        changes branch at D^3 dT = 10 with a jump; the larger of the two has none and never gives less than it there.
    Source: iso_12241, free convection (read second-hand; the turbulent lying branch from memory, unchecked).

    >>> round(film_still_air_iso_12241(0.16, 5.0), 2)
    2.96
    """
    d = max(difference, 1e-9)
    if vertical:
        return float(max(1.32 * (d / diameter) ** 0.25, 1.74 * d ** (1 / 3)))
    return float(max(1.25 * (d / diameter) ** 0.25, 1.21 * d ** (1 / 3)))


def film_wind_iso_12241(diameter: float, speed: float) -> float:
    """Give the film coefficient of a pipe in moving air, the larger of the standard's two branches.

    h = max(0.0081/D + 3.14 (v/D)^0.5, 8.9 v^0.9/D^0.1)

    Parameters
    ----------
    diameter : float [m]
        Outer diameter.
    speed : float [m/s]
        Speed of the air.
    Returns
    -------
    float [W/m2/K]
        Coefficient.
    Validity: air across the pipe, sea level. The standard changes branch at v D = 0.00855 m2/s, where the first gives
        2.44 times the second; the larger has no jump and is on the safe side for losses.
    Source: iso_12241, outside (read second-hand).

    >>> round(film_wind_iso_12241(0.16, 1.0), 2)
    10.69
    """
    return float(max(8.1e-3 / diameter + 3.14 * math.sqrt(speed / diameter), 8.9 * speed**0.9 / diameter**0.1))


def surface_temperature(
    inside: float, air: float, below: float, diameter: float, emissivity: float, speed: float = 0.0, *,
    vertical: bool = False,
) -> float:  # fmt: skip
    """Give the temperature of the surface at which what comes through goes on to the air.

    (T_w - T_s)/R = pi D (h_r + h_c)(T_s - T_a)

    Parameters
    ----------
    inside : float [K]
        Temperature of the carrier.
    air : float [K]
        Temperature of the air.
    below : float [m K/W]
        Resistance of wall and insulation.
    diameter : float [m]
        Outer diameter.
    emissivity : float [1]
        Emissivity of the surface.
    speed : float [m/s]
        Speed of the air; 0: still.
    vertical : bool [text]
        Whether the pipe stands.
    Returns
    -------
    float [K]
        Temperature of the surface.
    Validity: steady.
    Source: iso_12241, films (read second-hand); solved by false position.

    >>> round(surface_temperature(278.15, 222.15, 5.7727, 0.1603, 0.9), 2)
    225.75
    """
    span = inside - air
    if below <= 0 or span == 0:
        return inside
    warmer = abs(span)
    forced = film_wind_iso_12241(diameter, speed) if speed > 0 else 0.0
    around = math.pi * diameter

    def excess(share: float) -> float:
        """Heat that leaves less heat that comes, where the surface is this share of the way from the air."""
        free = film_still_air_iso_12241(diameter, share * warmer, vertical=vertical)
        film = film_radiation(emissivity, air + share * span, air) + max(free, forced)
        return around * film * share - (1 - share) / below

    low, high, at_low, at_high = 0.0, 1.0, excess(0.0), excess(1.0)
    side = 0
    for _ in range(100):
        share = (low * at_high - high * at_low) / (at_high - at_low)
        found = excess(share)
        if abs(found) < 1e-13 / below or high - low < 1e-15:
            break
        if found > 0:
            high, at_high = share, found
            at_low = at_low / 2 if side == 1 else at_low
            side = 1
        else:
            low, at_low = share, found
            at_high = at_high / 2 if side == -1 else at_high
            side = -1
    return air + share * span


def loss(inside: float, air: float, resistance: float) -> float:
    """Give the heat that one metre of pipe loses.

    q = (T_w - T_a)/R

    Parameters
    ----------
    inside : float [K]
        Temperature of the carrier.
    air : float [K]
        Temperature of the air.
    resistance : float [m K/W]
        Resistance from the carrier to the air.
    Returns
    -------
    float [W/m]
        Heat lost.
    Validity: steady; the film inside the pipe is left out, which is on the safe side.
    Source: textbook_unchecked, series of resistances.

    >>> round(loss(278.15, 222.15, 6.0115), 3)
    9.315
    """
    return (inside - air) / resistance


def resistance_side_by_side(resistance: float, conductance: float, length: float = 1.0) -> float:
    """Give the resistance of a length of pipe with a bridge beside it (a hanger, a bare spindle), per metre.

    R_b = 1/(1/R + C/l)

    Parameters
    ----------
    resistance : float [m K/W]
        Resistance of one metre without the bridge.
    conductance : float [W/K]
        Conductance of the bridge.
    length : float [m]
        Length over which the bridge is shared.
    Returns
    -------
    float [m K/W]
        Resistance of one metre with it.
    Validity: the pipe is as warm at the bridge as beside it.
    Source: textbook_unchecked, resistances side by side.

    >>> round(resistance_side_by_side(6.0, 0.1), 3)
    3.75
    """
    return 1 / (1 / resistance + conductance / length)


def critical_radius(conductivity: float, coefficient: float) -> float:
    """Give the radius below which more insulation lets more heat out.

    r_c = k/h

    Parameters
    ----------
    conductivity : float [W/m/K]
        Conductivity of the insulation.
    coefficient : float [W/m2/K]
        Film coefficient.
    Returns
    -------
    float [m]
        Critical radius.
    Validity: film coefficient that does not change with the radius.
    Source: textbook_unchecked, critical radius.

    >>> round(critical_radius(0.035, 5.0), 4)
    0.007
    """
    return conductivity / coefficient


def resistance_shape_pipe(diameter: float, depth: float, conductivity: float) -> float:
    """Give the resistance of the ground round a pipe, from its surface to the ground's surface.

    R = arccosh(2 z/D)/(2 pi k)

    Parameters
    ----------
    diameter : float [m]
        Outer diameter.
    depth : float [m]
        Depth z of the axis.
    conductivity : float [W/m/K]
        Conductivity of the ground.
    Returns
    -------
    float [m K/W]
        Resistance of one metre.
    Validity: 2 z > D; one conductivity; surface of one temperature; steady, which takes years.
    Source: incropera_4, shape factor (read second-hand).

    >>> round(resistance_shape_pipe(0.7, 1.5, 0.52), 4)
    0.6533
    """
    return math.acosh(2 * depth / diameter) / (2 * math.pi * conductivity)


def loss_insulation(inner: float, outer: float, conductivity: float, difference: float) -> float:
    """Give the heat that one metre of insulation lets through, as tables for choosing insulation give it.

    q = 2 pi k dT/ln(D_o/D_i)

    Parameters
    ----------
    inner : float [m]
        Inner diameter.
    outer : float [m]
        Outer diameter.
    conductivity : float [W/m/K]
        Conductivity.
    difference : float [K]
        Difference of temperature over it.
    Returns
    -------
    float [W/m]
        Heat lost.
    Validity: no film outside; conductivity that does not change with temperature.
    Source: piping_handbook, table 5.3 (read); the law: textbook_unchecked, hollow cylinder.

    >>> round(loss_insulation(0.060325, 0.085725, 0.0360570, 27.7778), 2)
    17.91
    """
    return difference / resistance_layer(inner, outer, conductivity)


def loss_buried_pipe(
    inside: float, surface: float, inner: float, outer: float, insulation: float, depth: float, ground: float
) -> float:
    """Give the heat that one metre of an insulated pipe in the ground loses.

    q = (T_w - T_s)/(R_i + R_g), R_i as resistance_layer, R_g as resistance_shape_pipe

    Parameters
    ----------
    inside : float [K]
        Temperature of the carrier.
    surface : float [K]
        Temperature of the ground's surface.
    inner : float [m]
        Inner diameter of the insulation.
    outer : float [m]
        Outer diameter of the insulation.
    insulation : float [W/m/K]
        Conductivity of the insulation.
    depth : float [m]
        Depth of the axis.
    ground : float [W/m/K]
        Conductivity of the ground.
    Returns
    -------
    float [W/m]
        Heat lost.
    Validity: as resistance_shape_pipe.
    Source: incropera_4, pipe in soil (read second-hand).

    >>> round(loss_buried_pipe(393.15, 273.15, 0.5, 0.7, 0.069, 1.5, 0.52), 2)
    83.95
    """
    return (inside - surface) / (
        resistance_layer(inner, outer, insulation) + resistance_shape_pipe(outer, depth, ground)
    )
