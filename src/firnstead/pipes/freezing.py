"""A ladder of times for a line that stands still: to 0 degC, to blockage, to solid ice. Kept apart on purpose.

Only the first may be counted on. Water may stay liquid some degrees below 0 degC and then block the bore at once with a
few per cent of ice, so nothing beyond the first rung is ever credited.
"""

from __future__ import annotations

import math

LATENT = 333.43e3  # J/kg at 0 degC, computed from the standard formulations of water and ice


def heat_content(bore: float, density: float, heat_capacity: float, fill: float = 1.0, wall: float = 0.0) -> float:
    """Give the heat that one metre of line gives off for each kelvin.

    C = f rho c pi D^2/4 + C_w

    Parameters
    ----------
    bore : float [m]
        Bore.
    density : float [kg/m3]
        Density of the carrier.
    heat_capacity : float [J/kg/K]
        Heat capacity of the carrier.
    fill : float [1]
        Share of the bore that is filled.
    wall : float [J/m/K]
        Heat content of the pipe wall; left out it is on the safe side.
    Returns
    -------
    float [J/m/K]
        Heat content.
    Validity: one temperature over the bore.
    Source: statics, heat balance.

    >>> round(heat_content(0.0525, 1000.0, 4200.0))
    9092
    """
    return fill * density * heat_capacity * math.pi * bore**2 / 4 + wall


def time_to_temperature(start: float, end: float, air: float, content: float, resistance: float) -> float:
    """Give the time in which a line that stands still cools to a temperature.

    t = C R ln((T_i - T_a)/(T_f - T_a))

    Parameters
    ----------
    start : float [K]
        Temperature when it stops.
    end : float [K]
        Temperature to reach.
    air : float [K]
        Temperature of the air.
    content : float [J/m/K]
        Heat content of one metre.
    resistance : float [m K/W]
        Resistance of one metre.
    Returns
    -------
    float [s]
        Time; infinite where the air is not colder than the end, 0 where it is there already.
    Validity: no ice yet; resistance that does not change while cooling (its value at the start is the least: safe).
    Source: ashrae_pipe_2009, ch. 23, bore as diameter (read second-hand).

    >>> round(time_to_temperature(278.15, 273.15, 222.15, 9092.0, 6.0115) / 3600, 2)
    1.42
    """
    if start <= end:
        return 0.0
    if air >= end:
        return math.inf
    return content * resistance * math.log((start - air) / (end - air))


def time_to_freeze_ashrae(
    start: float, end: float, air: float, bore: float, inner: float, outer: float, conductivity: float,
    *, volume_capacity: float = 4.2e6,
) -> float:  # fmt: skip
    """Give the time in which still water in an insulated pipe cools to a temperature, insulation alone counted.

    t = rho c pi (D_1/2)^2 R ln((T_i - T_a)/(T_f - T_a)), R = ln(D_3/D_2)/(2 pi k)

    Parameters
    ----------
    start : float [K]
        Temperature when it stops.
    end : float [K]
        Temperature to reach.
    air : float [K]
        Temperature of the air.
    bore : float [m]
        Inner diameter of the pipe D_1.
    inner : float [m]
        Inner diameter of the insulation D_2.
    outer : float [m]
        Outer diameter of the insulation D_3.
    conductivity : float [W/m/K]
        Conductivity of the insulation.
    volume_capacity : float [J/m3/K]
        Density times heat capacity of water.
    Returns
    -------
    float [s]
        Time.
    Validity: wall, films and the heat of freezing are left out. The study counts the films too; this is the form that
        its published value belongs to.
    Source: ashrae_pipe_2009, ch. 23 (read second-hand).

    >>> round(time_to_freeze_ashrae(278.71, 273.15, 245.37, 0.0525, 0.0603, 0.1413, 0.0433) / 3600, 2)
    1.44
    """
    content = volume_capacity * math.pi * bore**2 / 4
    resistance = math.log(outer / inner) / (2 * math.pi * conductivity)
    return time_to_temperature(start, end, air, content, resistance)


def time_to_freeze_share(
    share: float, freezing: float, air: float, volume_latent: float, bore: float, resistance: float,
    ice_conductivity: float,
) -> float:  # fmt: skip
    """Give the time in which a ring of ice takes a share of the bore, counted from the freezing point.

    t = (rho L A/(T_f - T_a)) (f R + (f + (1 - f) ln(1 - f))/(4 pi k_i))

    Parameters
    ----------
    share : float [1]
        Share f of the water that is frozen; 1: solid.
    freezing : float [K]
        Freezing point.
    air : float [K]
        Temperature of the air.
    volume_latent : float [J/m3]
        Heat of freezing per volume.
    bore : float [m]
        Bore.
    resistance : float [m K/W]
        Resistance from the bore's wall to the air.
    ice_conductivity : float [W/m/K]
        Conductivity of ice.
    Returns
    -------
    float [s]
        Time; infinite where the air is not below freezing.
    Validity: ice grows as a ring and its own cooling is left out (true times are some per cent longer); dendritic ice
        may block the bore long before. A hidden reserve, not to be counted on.
    Source: statics, quasi-steady ring of ice (computed); Plank's cylinder for f = 1 and a bare bore.

    >>> round(time_to_freeze_share(1.0, 273.15, 222.15, 333.43e6, 0.0525, 6.0115, 2.2) / 3600, 1)
    23.8
    """
    if air >= freezing:
        return math.inf
    area = math.pi * bore**2 / 4
    rest = (1 - share) * math.log(1 - share) if share < 1 else 0.0
    return volume_latent * area / (freezing - air) * (
        share * resistance + (share + rest) / (4 * math.pi * ice_conductivity)
    )  # fmt: skip


def freezing_time_plank(
    volume_latent: float, freezing: float, air: float, coefficient: float, conductivity: float, size: float,
    *, shape_film: float = 0.25, shape_body: float = 0.0625,
) -> float:  # fmt: skip
    """Give the time in which a body with its surface in the cold freezes through.

    t = (dH/(T_f - T_a)) (P D/h + R D^2/k)

    Parameters
    ----------
    volume_latent : float [J/m3]
        Heat of freezing per volume.
    freezing : float [K]
        Freezing point.
    air : float [K]
        Temperature of the air.
    coefficient : float [W/m2/K]
        Film coefficient.
    conductivity : float [W/m/K]
        Conductivity of what has frozen.
    size : float [m]
        Diameter or thickness.
    shape_film : float [1]
        P of the shape; 1/4 for a cylinder.
    shape_body : float [1]
        R of the shape; 1/16 for a cylinder.
    Returns
    -------
    float [s]
        Time.
    Validity: at its freezing point to begin with; on the short side (by 0.65 of the Stefan number).
    Source: ashrae_refrigeration, cooling and freezing times, example 3 (read second-hand).

    >>> round(freezing_time_plank(210e6, 271.45, 243.15, 40.0, 1.66, 0.04, shape_film=0.468, shape_body=0.248), 1)
    5246.6
    """
    return volume_latent / (freezing - air) * (shape_film * size / coefficient + shape_body * size**2 / conductivity)


def dead_leg_limit(main: float, end: float, air: float, resistance: float, axial: float) -> float:
    """Give the length of a still branch whose closed end its warm main keeps at a temperature.

    l = arccosh((T_m - T_a)/(T_f - T_a)) (R K)^0.5

    Parameters
    ----------
    main : float [K]
        Temperature of the main.
    end : float [K]
        Temperature that its closed end may have.
    air : float [K]
        Temperature of the air.
    resistance : float [m K/W]
        Resistance of one metre of the branch.
    axial : float [W m/K]
        Conductivity times area along the branch, water and wall.
    Returns
    -------
    float [m]
        Greatest length; infinite where the air is warm enough.
    Validity: steady; water in the branch does not turn over (where it does, the branch is warmer: safe).
    Source: textbook_unchecked, fin with a closed end.

    >>> round(dead_leg_limit(283.15, 274.15, 243.15, 5.0, 0.05), 3)
    0.372
    """
    if air >= end:
        return math.inf
    if main <= end:
        return 0.0
    return math.acosh((main - air) / (end - air)) * math.sqrt(resistance * axial)
