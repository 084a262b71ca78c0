"""Demand by month, pumping, tanks and water for fire."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firnstead.core.units import G0
from firnstead.water.properties import WATER_DENSITY


def draw_by_month(people: Sequence[float], per_head: float, steady: float, losses: float) -> tuple[float, ...]:
    """Give the water that the well must give in each month.

    w_i = rho (n_i q + q_0)(1 + l)

    Parameters
    ----------
    people : sequence of float [1]
        People in each month, January first.
    per_head : float [m3/s]
        Water for one person.
    steady : float [m3/s]
        Water that does not depend on the number of people.
    losses : float [1]
        Leaks, flushing and spills as a share.
    Returns
    -------
    tuple [kg/s]
        Draw of each month.
    Validity: monthly means.
    Source: statics, sum of uses.

    >>> round(draw_by_month([45.0], 1e-4 / 86.4, 0.0, 0.0)[0] * 86400)
    4500
    """
    return tuple(WATER_DENSITY * (n * per_head + steady) * (1.0 + losses) for n in people)


def pump_power(flow: float, lift: float, efficiency: float, friction: float) -> float:
    """Give the electric power that lifts a flow of water.

    P = w g H (1 + f)/eta

    Parameters
    ----------
    flow : float [kg/s]
        Mass flow.
    lift : float [m]
        Height H.
    efficiency : float [1]
        Efficiency of pump and motor together.
    friction : float [1]
        Loss of height in the hose as a share of the lift.
    Returns
    -------
    float [W]
        Electric power.
    Validity: steady pumping.
    Source: statics, lifting work.

    >>> round(pump_power(0.1, 100.0, 0.4, 0.1))
    270
    """
    return flow * G0 * max(lift, 0.0) * (1.0 + friction) / efficiency


def fire_volume(flow: float, duration: float) -> float:
    """Give the water kept for one fire and for nothing else.

    V = q t

    Parameters
    ----------
    flow : float [m3/s]
        Flow of the hoses.
    duration : float [s]
        How long.
    Returns
    -------
    float [m3]
        Volume.
    Validity: one fire at a time; domestic water comes on top.
    Source: ufc_3_600_01, water storage (read).

    >>> round(fire_volume(500 * 3.785412e-3 / 60, 7200.0))
    227
    """
    return flow * duration


def refill_time(volume: float, flow: float, draw: float) -> float:
    """Give the time to fill tanks again.

    t = V/(q - q_d)

    Parameters
    ----------
    volume : float [m3]
        Volume to fill.
    flow : float [m3/s]
        Flow of the well's pump.
    draw : float [m3/s]
        Water used meanwhile.
    Returns
    -------
    float [s]
        Time; without end where the pump gives no more than is used.
    Validity: the pool holds enough.
    Source: statics.

    >>> refill_time(20.0, 3.0, 1.0)
    10.0
    """
    return volume / (flow - draw) if flow > draw else math.inf
