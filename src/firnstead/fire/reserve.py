"""Water kept for fire, and what works in the cold."""

from __future__ import annotations


def fire_reserve(flow: float, duration: float) -> float:
    """Give the water that one fire takes.

    V = q t

    Parameters
    ----------
    flow : float [m3/s]
        Flow q.
    duration : float [s]
        Duration t.
    Returns
    -------
    float [m3]
        Volume.
    Validity: one fire at a time; for fire only, on top of what the station uses.
    Source: ufc_3_600_01, water storage (read).

    >>> round(fire_reserve(500 * 3.785411784e-3 / 60, 7200.0))
    227
    """
    return flow * duration


def refill_time(volume: float, flow: float) -> float:
    """Give the time to fill the reserve again.

    t = V/q

    Parameters
    ----------
    volume : float [m3]
        Volume V.
    flow : float [m3/s]
        Water that can be made q.
    Returns
    -------
    float [s]
        Time; infinite without water.
    Validity: steady output.
    Source: ufc_3_600_01, refilling (read).

    >>> refill_time(36.0, 0.001) / 3600
    10.0
    """
    return volume / flow if flow > 0 else float("inf")


def water_duration(volume: float, flow: float) -> float:
    """Give how long a reserve lasts.

    t = V/q

    Parameters
    ----------
    volume : float [m3]
        Volume V.
    flow : float [m3/s]
        Flow q.
    Returns
    -------
    float [s]
        Time.
    Validity: the whole reserve reaches the nozzle.
    Source: statics.

    >>> water_duration(20.0, 0.01)
    2000.0
    """
    return volume / flow if flow > 0 else float("inf")
