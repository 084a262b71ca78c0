"""Doorways in snow walls: the beam over them, the gap round them, the snow against them."""

from __future__ import annotations

from math import sqrt

from firnstead.core.units import G0


def lintel_moment(load: float, span: float) -> float:
    """Give the bending moment in a beam over a doorway.

    M = w L^2/8

    Parameters
    ----------
    load : float [N/m]
        Weight of the wall above the doorway, per metre of its width.
    span : float [m]
        Clear width of the doorway.
    Returns
    -------
    float [N m]
        Moment at midspan.
    Validity: simply supported, even load; the wall's own arching over the doorway is not counted.
    Source: statics.

    >>> lintel_moment(4000.0, 1.0)
    500.0
    """
    return load * span**2 / 8.0


def bending_stress(moment: float, width: float, depth: float) -> float:
    """Give the bending stress in a rectangular beam.

    s = 6 M/(b d^2)

    Parameters
    ----------
    moment : float [N m]
        Bending moment.
    width : float [m]
        Width of the beam, through the wall.
    depth : float [m]
        Depth of the beam.
    Returns
    -------
    float [Pa]
        Stress at the outer fibre.
    Validity: elastic, solid rectangle.
    Source: statics.

    >>> round(bending_stress(500.0, 0.6, 0.05))
    2000000
    """
    return 6.0 * moment / (width * depth**2)


def snow_force_on_door(
    density: float, depth: float, width: float, coefficient: float = 1.0, gravity: float = G0
) -> float:
    """Give the force of drift snow heaped against a door.

    F = K rho g d^2 b/2

    Parameters
    ----------
    density : float [kg/m3]
        Density of the drift.
    depth : float [m]
        Depth of the snow against the door.
    width : float [m]
        Width of the door.
    coefficient : float [1]
        Share of the vertical stress that presses sideways; 1 as for a liquid, as no value is published.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [N]
        Force on the leaf.
    Validity: fresh drift without bond; old drift holds the door fast and must be dug away.
    Source: own_rule, pressure of a liquid of the snow's density as an upper bound.

    >>> round(snow_force_on_door(400.0, 1.0, 0.9))
    1765
    """
    return coefficient * density * gravity * depth**2 * width / 2.0


def drift_depth_to_push(
    push: float, density: float, width: float, coefficient: float = 1.0, gravity: float = G0
) -> float:
    """Give the depth of drift against an outward door that a push at its edge still moves.

    d = sqrt(4 P/(K rho g b))

    Parameters
    ----------
    push : float [N]
        Push of a person at the edge away from the hinge.
    density : float [kg/m3]
        Density of the drift.
    width : float [m]
        Width of the door.
    coefficient : float [1]
        Share of the vertical stress that presses sideways; 1 as for a liquid, as no value is published.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [m]
        Depth of drift.
    Validity: the force acts at half the door's width; moving the snow aside takes more than its standing pressure.
    Source: own_rule, moments about the hinge with the pressure of a liquid.

    >>> round(drift_depth_to_push(300.0, 400.0, 0.9), 2)
    0.58
    """
    return sqrt(4.0 * push / (coefficient * density * gravity * width))


def movement(rate: float, time: float) -> float:
    """Give how far a wall moves in a time.

    m = v t

    Parameters
    ----------
    rate : float [m/s]
        Movement of one wall.
    time : float [s]
        Time until the gap is cut again.
    Returns
    -------
    float [m]
        Movement.
    Validity: steady rate; closing speeds up where the snow warms.
    Source: statics.

    >>> round(movement(0.1 / 31557600, 31557600), 6)
    0.1
    """
    return rate * time


def lid_depth_to_lift(push: float, density: float, area: float, lid_mass: float, gravity: float = G0) -> float:
    """Give the depth of snow on a hinged lid that a push at its edge still lifts.

    d = (2 P/g - m)/(rho A)

    Parameters
    ----------
    push : float [N]
        Push of a person at the edge away from the hinge.
    density : float [kg/m3]
        Density of the snow on the lid.
    area : float [m2]
        Area of the lid.
    lid_mass : float [kg]
        Mass of the lid.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [m]
        Depth of snow, 0 where the lid alone is too heavy.
    Validity: loose snow, no frozen rim; weight at half the lid's width.
    Source: own_rule, moments about the hinge.

    >>> round(lid_depth_to_lift(400.0, 350.0, 0.636, 10.0), 2)
    0.32
    """
    return max(0.0, (2.0 * push / gravity - lid_mass) / (density * area))
