"""A line that flows: temperature along it, least flow, friction."""

from __future__ import annotations

import math
from collections.abc import Sequence


def temperature_along(start: float, air: float, length: float, flow: float, heat_capacity: float, resistance: float,
                      heating: float = 0.0) -> float:  # fmt: skip
    """Give the temperature of the carrier after a length of pipe.

    T = T_e + (T_0 - T_e) exp(-x/(m c R)), T_e = T_a + q R

    Parameters
    ----------
    start : float [K]
        Temperature at the beginning.
    air : float [K]
        Temperature of the air.
    length : float [m]
        Length x.
    flow : float [kg/s]
        Flow m.
    heat_capacity : float [J/kg/K]
        Heat capacity of the carrier.
    resistance : float [m K/W]
        Resistance of one metre.
    heating : float [W/m]
        Heat q put into the line (tracing, friction).
    Returns
    -------
    float [K]
        Temperature; that of the standing line where nothing flows.
    Validity: steady, no heat along the pipe; no freezing.
    Source: textbook_unchecked, heat balance of a flowing line.

    >>> round(temperature_along(278.15, 222.15, 300.0, 0.5, 4200.0, 6.0115) - 273.15, 3)
    3.685
    """
    end = air + heating * resistance
    if flow <= 0:
        return end
    return end + (start - end) * math.exp(-length / (flow * heat_capacity * resistance))


def distance_to_temperature(
    start: float, wanted: float, air: float, flow: float, heat_capacity: float, resistance: float
) -> float:
    """Give the distance after which the carrier has cooled to a temperature.

    x = m c R ln((T_0 - T_a)/(T - T_a))

    Parameters
    ----------
    start : float [K]
        Temperature at the beginning.
    wanted : float [K]
        Temperature to find.
    air : float [K]
        Temperature of the air.
    flow : float [kg/s]
        Flow.
    heat_capacity : float [J/kg/K]
        Heat capacity of the carrier.
    resistance : float [m K/W]
        Resistance of one metre.
    Returns
    -------
    float [m]
        Distance; infinite where it never cools so far, 0 where it begins below.
    Validity: as temperature_along.
    Source: textbook_unchecked, heat balance of a flowing line.

    >>> round(distance_to_temperature(278.15, 276.835, 222.15, 0.5, 4200.0, 6.0115))
    300
    """
    if start <= wanted:
        return 0.0
    if air >= wanted:
        return math.inf
    return flow * heat_capacity * resistance * math.log((start - air) / (wanted - air))


def least_flow(start: float, end: float, air: float, length: float, heat_capacity: float, resistance: float) -> float:
    """Give the flow at which the far end of a line in one air stays at a temperature.

    m = x/(c R ln((T_0 - T_a)/(T_e - T_a)))

    Parameters
    ----------
    start : float [K]
        Temperature at the beginning.
    end : float [K]
        Temperature wanted at the far end.
    air : float [K]
        Temperature of the air.
    length : float [m]
        Length.
    heat_capacity : float [J/kg/K]
        Heat capacity of the carrier.
    resistance : float [m K/W]
        Resistance of one metre.
    Returns
    -------
    float [kg/s]
        Flow; 0 where the air is warm enough, infinite where the beginning is too cold.
    Validity: steady; one air along the whole line.
    Source: textbook_unchecked, heat balance of a flowing line.

    >>> round(least_flow(278.15, 274.15, 222.15, 300.0, 4200.0, 6.0115), 4)
    0.1603
    """
    if air >= end:
        return 0.0
    if start <= end:
        return math.inf
    return length / (heat_capacity * resistance * math.log((start - air) / (end - air)))


def least_flow_legs(
    start: float, end: float, legs: Sequence[tuple[float, float, float]], heat_capacity: float
) -> float:
    """Give the flow at which the far end of a line through several airs stays at a temperature.

    the flow m at which T after all legs = T_e, each leg by temperature_along

    Parameters
    ----------
    start : float [K]
        Temperature at the beginning.
    end : float [K]
        Temperature wanted at the far end.
    legs : Sequence [m, K, m K/W]
        Length, air and resistance of each leg, in order.
    heat_capacity : float [J/kg/K]
        Heat capacity of the carrier.
    Returns
    -------
    float [kg/s]
        Flow, found by halving; 0 where every air is warm enough, infinite where the beginning is too cold.
    Validity: as temperature_along. Airs warmer than the wanted temperature count as just that warm.
    Source: textbook_unchecked, heat balance of a flowing line.

    >>> round(least_flow_legs(278.15, 274.15, [(100.0, 222.15, 6.0115), (200.0, 222.15, 6.0115)], 4200.0), 4)
    0.1603
    """
    cold = [(length, min(air, end), resistance) for length, air, resistance in legs if length > 0]
    if all(air >= end for _, air, _ in cold):
        return 0.0
    if start <= end:
        return math.inf

    def far_end(flow: float) -> float:
        at = start
        for length, air, resistance in cold:
            at = temperature_along(at, air, length, flow, heat_capacity, resistance)
        return at

    low, high = 0.0, 1.0
    while far_end(high) < end:
        low, high = high, 2 * high
        if high > 1e9:
            return math.inf
    for _ in range(200):
        middle = (low + high) / 2
        if far_end(middle) < end:
            low = middle
        else:
            high = middle
        if high - low <= 1e-13 * high:
            break
    return high


def reynolds(flow: float, bore: float, viscosity: float) -> float:
    """Give the Reynolds number of a full pipe.

    Re = 4 m/(pi D mu)

    Parameters
    ----------
    flow : float [kg/s]
        Flow.
    bore : float [m]
        Bore.
    viscosity : float [Pa s]
        Viscosity.
    Returns
    -------
    float [1]
        Reynolds number.
    Validity: full bore.
    Source: textbook_unchecked, definition.

    >>> round(reynolds(0.5, 0.0525, 1.5e-3))
    8084
    """
    return 4 * flow / (math.pi * bore * viscosity)


def friction_factor(number: float, roughness: float) -> float:
    """Give the friction factor of a pipe, the larger of the laminar and the turbulent one.

    f = max(64/Re, (1.8 log10(6.9/Re + (e/3.7)^1.11))^-2), the second above Re 2300

    Parameters
    ----------
    number : float [1]
        Reynolds number.
    roughness : float [1]
        Roughness over bore e.
    Returns
    -------
    float [1]
        Friction factor (Darcy).
    Validity: any flow; within about 2 % of the implicit formula when turbulent.
    Source: haaland_1983, explicit friction factor (from memory, reproduced by computation).

    >>> round(friction_factor(1e5, 1e-3), 4)
    0.022
    """
    laminar = 64 / number
    if number <= 2300:
        return laminar
    return max(laminar, (1.8 * math.log10(6.9 / number + (roughness / 3.7) ** 1.11)) ** -2)


def friction_gradient(flow: float, bore: float, density: float, factor: float) -> float:
    """Give the loss of pressure along a pipe.

    g = f rho v^2/(2 D), v = 4 m/(pi D^2 rho)

    Parameters
    ----------
    flow : float [kg/s]
        Flow.
    bore : float [m]
        Bore.
    density : float [kg/m3]
        Density.
    factor : float [1]
        Friction factor.
    Returns
    -------
    float [Pa/m]
        Loss per metre.
    Validity: full bore, straight pipe.
    Source: textbook_unchecked, Darcy and Weisbach.

    >>> round(friction_gradient(0.5, 0.0525, 1000.0, 0.033), 2)
    16.77
    """
    speed = 4 * flow / (math.pi * bore**2 * density)
    return factor * density * speed**2 / (2 * bore)
