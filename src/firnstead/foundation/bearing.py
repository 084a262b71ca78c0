"""Short-term bearing of a footing: near a drop, and through a pad into the natural snow below it.

Short-term strength with a factor says nothing about settling, which governs almost always.
"""

from __future__ import annotations

from math import pi, sqrt

FAR = pi / 2  # distance over width from which a drop no longer matters: the wedge reaches level ground


def bearing_level(cohesion: float) -> float:
    """Give the ultimate bearing pressure of a footing on level snow.

    q_u = (2 + pi) c

    Parameters
    ----------
    cohesion : float [Pa]
        Cohesion c, half the unconfined compressive strength.
    Returns
    -------
    float [Pa]
        Ultimate pressure.
    Validity: purely cohesive strip; a short footing bears somewhat more, which is left out.
    Source: textbook_unchecked, Prandtl (from memory, unchecked).

    >>> round(bearing_level(1.0), 2)
    5.14
    """
    return (2 + pi) * cohesion


def bearing_wedge(cohesion: float, width: float, distance: float) -> float:
    """Give the upper bound of the bearing pressure beside an upright drop.

    q_u <= min[2 c (1 + b/B), (2 + pi) c]

    Parameters
    ----------
    cohesion : float [Pa]
        Cohesion c.
    width : float [m]
        Width B of the footing.
    distance : float [m]
        Distance b from the drop to the footing.
    Returns
    -------
    float [Pa]
        Pressure at which a wedge slides out on a plane of 45 degrees through the footing's far side, at most.
    Validity: an upper bound, exact at b = 0; do not design on it between 0 and 1.57 B.
    Source: statics, wedge derived here (computed).

    >>> bearing_wedge(1.0, 0.6, 0.3)
    3.0
    """
    return min(2 * cohesion * (1 + distance / width), bearing_level(cohesion))


def bearing_beside_drop(cohesion: float, width: float, distance: float | None) -> float:
    """Give the safe ultimate bearing pressure with or without a drop beside the footing.

    no drop, or b >= 1.57 B: (2 + pi) c; nearer: 2 c

    Parameters
    ----------
    cohesion : float [Pa]
        Cohesion c.
    width : float [m]
        Larger side B of the footing.
    distance : float or None [m]
        Distance b to the drop; none where there is no drop.
    Returns
    -------
    float [Pa]
        Ultimate pressure, safe bound.
    Validity: upright drop, purely cohesive, short-term. A trench's wall beside the footing is no drop.
    Source: textbook_unchecked, Prandtl and slope term (from memory, unchecked); own_rule for distances between.

    >>> bearing_beside_drop(100.0, 0.6, 0.3)
    200.0
    """
    if distance is None or distance >= FAR * width:
        return bearing_level(cohesion)
    return 2 * cohesion


def pressure_below_pad(load: float, width: float, length: float, thickness: float) -> float:
    """Give the pressure that reaches the natural snow through a pad.

    q_n = P/((B + t)(L + t))

    Parameters
    ----------
    load : float [N]
        Load P of the footing.
    width : float [m]
        Width B of the footing.
    length : float [m]
        Length L of the footing.
    thickness : float [m]
        Thickness t of the pad.
    Returns
    -------
    float [Pa]
        Pressure, spread two to one.
    Validity: the pad reaches half its thickness beyond the footing on every side.
    Source: textbook_unchecked, spread of two to one (from memory, unchecked).

    >>> pressure_below_pad(6000.0, 0.5, 0.5, 0.5)
    6000.0
    """
    return load / ((width + thickness) * (length + thickness))


def pad_needed(load: float, width: float, length: float, allowable: float) -> float:
    """Give the thickness of pad at which the pressure on the natural snow comes down to what it may take.

    (B + t)(L + t) = P/q_a; t = sqrt((B - L)^2/4 + P/q_a) - (B + L)/2, at least 0

    Parameters
    ----------
    load : float [N]
        Load P of the footing.
    width : float [m]
        Width B of the footing.
    length : float [m]
        Length L of the footing.
    allowable : float [Pa]
        Pressure q_a that the natural snow may take.
    Returns
    -------
    float [m]
        Least thickness.
    Validity: spread of two to one, each footing by itself.
    Source: statics.

    >>> round(pad_needed(6000.0, 0.5, 0.5, 6000.0), 6)
    0.5
    """
    return max(0.0, sqrt((width - length) ** 2 / 4 + load / allowable) - (width + length) / 2)
