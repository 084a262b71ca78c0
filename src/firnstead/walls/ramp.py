"""Ramps from the snow surface down to a portal."""

from __future__ import annotations

from math import radians, tan


def grade(slope: float) -> float:
    """Give the grade of a slope.

    s = tan(slope)

    Parameters
    ----------
    slope : float [deg]
        Angle of the slope.
    Returns
    -------
    float [1]
        Rise over run.
    Validity: below 90 degrees.
    Source: statics, geometry.

    >>> round(grade(10.0), 4)
    0.1763
    """
    return tan(radians(slope))


def ramp_length(depth: float, grade: float) -> float:
    """Give the length of a ramp on plan.

    l = d/s

    Parameters
    ----------
    depth : float [m]
        Depth of the portal's floor below the snow surface.
    grade : float [1]
        Grade of the ramp.
    Returns
    -------
    float [m]
        Length on plan.
    Validity: level snow surface, one slope, no landing.
    Source: statics, geometry.

    >>> ramp_length(5.0, 0.2)
    25.0
    """
    return depth / grade


def ramp_volume(width: float, depth: float, length: float) -> float:
    """Give the snow cut for a ramp with vertical sides.

    V = w d l/2

    Parameters
    ----------
    width : float [m]
        Width of the ramp.
    depth : float [m]
        Depth of the portal's floor below the snow surface.
    length : float [m]
        Length on plan.
    Returns
    -------
    float [m3]
        Snow in place.
    Validity: wedge with vertical sides and a level surface.
    Source: statics, geometry.

    >>> ramp_volume(4.0, 5.0, 25.0)
    250.0
    """
    return width * depth * length / 2.0


def headroom_at_foot(height: float, wheelbase: float, grade: float, margin: float) -> float:
    """Give the headroom that a vehicle needs where the ramp meets the level floor.

    H = h + b s/4 + margin

    Parameters
    ----------
    height : float [m]
        Height of the vehicle.
    wheelbase : float [m]
        Length on the snow, first to last contact.
    grade : float [1]
        Grade of the ramp.
    margin : float [m]
        Clear space wanted above it.
    Returns
    -------
    float [m]
        Headroom.
    Validity: small slopes; a stiff vehicle bridges the kink, its middle is lifted by a quarter of b s.
    Source: statics, geometry of a chord over a kink.

    >>> round(headroom_at_foot(3.0, 4.0, 0.2, 0.3), 2)
    3.5
    """
    return height + wheelbase * grade / 4.0 + margin


def width_for_vehicle(width: float, margin: float) -> float:
    """Give the clear width that a vehicle needs.

    w = b + 2 margin

    Parameters
    ----------
    width : float [m]
        Width of the vehicle.
    margin : float [m]
        Clear space wanted on each side.
    Returns
    -------
    float [m]
        Clear width.
    Validity: straight way in.
    Source: statics, geometry.

    >>> round(width_for_vehicle(2.6, 0.3), 2)
    3.2
    """
    return width + 2.0 * margin
