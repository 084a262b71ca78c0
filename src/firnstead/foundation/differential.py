"""Footings that settle unevenly: from loads, the snow's own spread, one warm side; time until relevelling."""

from __future__ import annotations

from math import inf


def difference_rate(rate: float, other: float, spread: float) -> float:
    """Give how fast two neighbouring footings part in level.

    d' = abs(s'_1 - s'_2) + a max(s'_1, s'_2)

    Parameters
    ----------
    rate : float [m/s]
        Rate of the one.
    other : float [m/s]
        Rate of the other.
    spread : float [1]
        Difference a that load and snow alone make, as a share of the greater rate.
    Returns
    -------
    float [m/s]
        Rate of the difference.
    Validity: settling does not slow down with the years.
    Source: statics; own_rule for the spread.

    >>> difference_rate(3e-10, 2e-10, 0.25)
    1.75e-10
    """
    return abs(rate - other) + spread * max(rate, other)


def distortion_rate(difference: float, distance: float) -> float:
    """Give the growth of angular distortion between two footings.

    beta' = d'/s

    Parameters
    ----------
    difference : float [m/s]
        Rate of the difference d' in level.
    distance : float [m]
        Distance s between their middles.
    Returns
    -------
    float [1/s]
        Growth of the slope.
    Validity: small slopes.
    Source: statics.

    >>> distortion_rate(3e-10, 1.5)
    2e-10
    """
    return difference / distance


def warm_side_rate(rate: float, factor: float, spread: float) -> float:
    """Give how fast the outer rows of the two long sides part in level.

    d' = s' (f - 1) + a s' f

    Parameters
    ----------
    rate : float [m/s]
        Rate s' of the outer row on the cold side.
    factor : float [1]
        How much faster the warm side settles, f, at least 1.
    spread : float [1]
        Difference a that the snow alone makes from side to side.
    Returns
    -------
    float [m/s]
        Rate of the difference.
    Validity: warmth through the whole depth that settles.
    Source: statics; own_rule for the spread.

    >>> round(warm_side_rate(1e-10, 1.5, 0.1) * 1e10, 3)
    0.65
    """
    return rate * (factor - 1) + spread * rate * factor


def time_to_limit(limit: float, used: float, rate: float) -> float:
    """Give the time until a slope reaches its limit.

    t = (b - u)/beta'

    Parameters
    ----------
    limit : float [1]
        Slope b allowed.
    used : float [1]
        Slope u left at handing over.
    rate : float [1/s]
        Growth of the slope.
    Returns
    -------
    float [s]
        Time; infinite where nothing grows.
    Validity: settling straight in time: it is not self-limiting over years (crrel_98_3, read).
    Source: statics.

    >>> round(time_to_limit(1 / 300, 0.0, 1e-11))
    333333333
    """
    return inf if rate <= 0 else max(0.0, limit - used) / rate
