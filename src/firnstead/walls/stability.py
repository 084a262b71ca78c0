"""A snow-block wall standing free: no bond counted, and after bonding."""

from __future__ import annotations

from math import sqrt

from firnstead.core.units import G0


def thickness_no_tension(pressure: float, height: float, density: float, gravity: float = G0) -> float:
    """Give the thickness at which no joint of a free wall opens.

    t = sqrt(3 p h/(rho g))

    Parameters
    ----------
    pressure : float [Pa]
        Wind pressure over the whole face.
    height : float [m]
        Height of the wall.
    density : float [kg/m3]
        Density of the wall.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [m]
        Least thickness.
    Validity: straight wall, vertical faces, nothing holds its top or sides, no bond.
    Source: statics, resultant at the edge of the middle third.

    >>> round(thickness_no_tension(500.0, 4.0, 450.0), 2)
    1.17
    """
    return sqrt(3.0 * pressure * height / (density * gravity))


def thickness_overturning(pressure: float, height: float, density: float, factor: float, gravity: float = G0) -> float:
    """Give the thickness at which a free wall has a factor against being blown over.

    t = sqrt(F p h/(rho g))

    Parameters
    ----------
    pressure : float [Pa]
        Wind pressure over the whole face.
    height : float [m]
        Height of the wall.
    density : float [kg/m3]
        Density of the wall.
    factor : float [1]
        Factor of safety against overturning about the lee edge.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [m]
        Least thickness.
    Validity: straight wall, vertical faces, nothing holds its top or sides, no bond.
    Source: statics, moments about the lee edge.

    >>> round(thickness_overturning(500.0, 4.0, 450.0, 1.5), 2)
    0.82
    """
    return sqrt(factor * pressure * height / (density * gravity))


def overturning_moment(pressure: float, height: float) -> float:
    """Give the moment of the wind about the foot of the wall, per metre of wall.

    M = p h^2/2

    Parameters
    ----------
    pressure : float [Pa]
        Wind pressure over the whole face.
    height : float [m]
        Height of the wall.
    Returns
    -------
    float [N m/m]
        Moment about the base.
    Validity: the pressure is the same over the height.
    Source: statics.

    >>> overturning_moment(500.0, 4.0)
    4000.0
    """
    return pressure * height**2 / 2.0


def wall_weight(density: float, thickness: float, height: float, gravity: float = G0) -> float:
    """Give the weight of a wall per metre of length.

    W = rho g t h

    Parameters
    ----------
    density : float [kg/m3]
        Density of the wall.
    thickness : float [m]
        Thickness of the wall.
    height : float [m]
        Height of the wall.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [N/m]
        Weight.
    Validity: solid wall; weakening by openings is not counted.
    Source: statics.

    >>> round(wall_weight(450.0, 1.0, 4.0))
    17652
    """
    return density * gravity * thickness * height


def overturning_factor(weight: float, thickness: float, moment: float) -> float:
    """Give the factor of safety against overturning.

    F = (W t/2)/M

    Parameters
    ----------
    weight : float [N/m]
        Weight of the wall.
    thickness : float [m]
        Thickness of the wall.
    moment : float [N m/m]
        Moment of the wind about the base.
    Returns
    -------
    float [1]
        Factor; infinite without wind.
    Validity: rotation about the lee edge, no crushing there, no bond.
    Source: statics, moments about the lee edge.

    >>> round(overturning_factor(17652.0, 1.0, 4000.0), 2)
    2.21
    """
    return float("inf") if moment <= 0 else weight * thickness / 2.0 / moment


def sliding_factor(friction: float, weight: float, pressure: float, height: float) -> float:
    """Give the factor of safety against sliding on the base or on any joint.

    F = mu W/(p h)

    Parameters
    ----------
    friction : float [1]
        Friction coefficient of snow on snow.
    weight : float [N/m]
        Weight of the wall.
    pressure : float [Pa]
        Wind pressure over the whole face.
    height : float [m]
        Height of the wall.
    Returns
    -------
    float [1]
        Factor; infinite without wind.
    Validity: no bond; every joint has the same factor as weight and wind both grow with the height above it.
    Source: statics.

    >>> round(sliding_factor(0.3, 17652.0, 500.0, 4.0), 2)
    2.65
    """
    return float("inf") if pressure <= 0 else friction * weight / (pressure * height)


def base_stress(weight: float, thickness: float, moment: float) -> float:
    """Give the greatest pressure under the wall when nothing holds in tension.

    e = M/W; s = (W/t)(1 + 6 e/t) for e <= t/6, else s = 2 W/(3 (t/2 - e))

    Parameters
    ----------
    weight : float [N/m]
        Weight of the wall.
    thickness : float [m]
        Thickness of the wall.
    moment : float [N m/m]
        Moment about the base.
    Returns
    -------
    float [Pa]
        Greatest edge pressure; infinite where the resultant leaves the base.
    Validity: straight-line pressure on a stiff base, no bond.
    Source: statics.

    >>> round(base_stress(17652.0, 1.0, 0.0)), round(base_stress(17652.0, 1.0, 4000.0))
    (17652, 43044)
    """
    eccentricity = moment / weight
    if eccentricity >= thickness / 2.0:
        return float("inf")
    if eccentricity <= thickness / 6.0:
        return weight / thickness * (1.0 + 6.0 * eccentricity / thickness)
    return 2.0 * weight / (3.0 * (thickness / 2.0 - eccentricity))


def base_tension_bonded(weight: float, thickness: float, moment: float) -> float:
    """Give the tension at the windward foot of a bonded wall.

    s = 6 M/t^2 - W/t, not below 0

    Parameters
    ----------
    weight : float [N/m]
        Weight of the wall.
    thickness : float [m]
        Thickness of the wall.
    moment : float [N m/m]
        Moment about the base.
    Returns
    -------
    float [Pa]
        Tension; 0 where the whole joint is pressed.
    Validity: the joints are bonded over their whole area, elastic.
    Source: statics.

    >>> round(base_tension_bonded(17652.0, 1.0, 4000.0))
    6348
    """
    return max(0.0, 6.0 * moment / thickness**2 - weight / thickness)
