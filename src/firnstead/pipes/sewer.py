"""Gravity lines: fall along the floor, and what the floor's rising leaves of it."""

from __future__ import annotations

import math


def fall(upper: float, lower: float, length: float) -> float:
    """Give the fall of a stretch of line.

    i = (z_1 - z_2)/L

    Parameters
    ----------
    upper : float [m]
        Level at its beginning.
    lower : float [m]
        Level at its end.
    length : float [m]
        Length.
    Returns
    -------
    float [1]
        Fall; negative: it runs uphill.
    Validity: straight stretch.
    Source: statics, geometry.

    >>> round(fall(-5.0, -5.6, 30.0), 6)
    0.02
    """
    return (upper - lower) / length


def fall_after_heave(present: float, length: float, heave_upper: float, heave_lower: float, time: float) -> float:
    """Give the fall that is left when the floors have risen.

    i' = i + (h_1 - h_2) t/L

    Parameters
    ----------
    present : float [1]
        Fall as laid.
    length : float [m]
        Length of the stretch.
    heave_upper : float [m/s]
        Rise of the floor at the beginning h_1.
    heave_lower : float [m/s]
        Rise of the floor at the end h_2.
    time : float [s]
        Time.
    Returns
    -------
    float [1]
        Fall left.
    Validity: supports follow the floor; steady rise.
    Source: statics, geometry.

    >>> round(fall_after_heave(0.02, 30.0, 0.01, 0.03, 10.0), 4)
    0.0133
    """
    return present + (heave_upper - heave_lower) * time / length


def heave_margin(present: float, wanted: float, length: float) -> float:
    """Give how much more the lower end's floor may rise than the upper end's before the fall is too small.

    h = (i - i_w) L

    Parameters
    ----------
    present : float [1]
        Fall as laid.
    wanted : float [1]
        Least fall.
    length : float [m]
        Length of the stretch.
    Returns
    -------
    float [m]
        Difference of rise.
    Validity: supports follow the floor.
    Source: statics, geometry.

    >>> round(heave_margin(0.02, 0.01, 30.0), 3)
    0.3
    """
    return (present - wanted) * length


def wetted_share(flow: float, bore: float, slope: float, *, manning: float = 0.013) -> float:
    """Give the share of a gravity pipe's capacity that a flow takes.

    s = Q/Q_f, Q_f = (pi D^2/4)(D/4)^(2/3) i^0.5/n

    Parameters
    ----------
    flow : float [m3/s]
        Peak flow.
    bore : float [m]
        Bore.
    slope : float [1]
        Fall.
    manning : float [s/m^(1/3)]
        Manning's n.
    Returns
    -------
    float [1]
        Share of the flow of a full pipe; above 1 it backs up.
    Validity: steady, uniform flow.
    Source: textbook_unchecked, Manning's formula.

    >>> round(wetted_share(0.002, 0.1, 0.01), 3)
    0.387
    """
    if slope <= 0:
        return math.inf
    full: float = math.pi * bore**2 / 4 * (bore / 4) ** (2 / 3) * math.sqrt(slope) / manning
    return flow / full
