"""Seats that come in with the creeping shoulders: what they do to the shape and the stress of an arch."""

from __future__ import annotations

import math


def spread_flexibility(radius: float, half_angle: float) -> float:
    """Give the integral of squared height along a circular arch: what stands against a movement of its feet.

    S = integral of y^2 ds = R^3 (a - 3/2 sin(2a) + 2 a cos(a)^2)

    Parameters
    ----------
    radius : float [m]
        Radius.
    half_angle : float [rad]
        Half the central angle.
    Returns
    -------
    float [m3]
        Integral over the whole arch.
    Validity: circular arch of constant section; bending alone.
    Source: statics.

    >>> round(spread_flexibility(1.0, math.pi / 2), 6)
    1.570796
    """
    a = half_angle
    return radius**3 * (a - 1.5 * math.sin(2.0 * a) + 2.0 * a * math.cos(a) ** 2)


def thrust_from_closing(stiffness: float, integral: float, closing: float) -> float:
    """Give the horizontal thrust that bends a two-hinged arch whose feet have come nearer to each other.

    H = E I d / S

    Parameters
    ----------
    stiffness : float [N m2/m]
        Bending stiffness of the sheet per length of trench.
    integral : float [m3]
        S of spread_flexibility.
    closing : float [m]
        How much nearer the feet are, both sides together.
    Returns
    -------
    float [N/m]
        Thrust beside that of the loads.
    Validity: elastic; small against the span; seats that do not slide.
    Source: statics.

    >>> round(thrust_from_closing(6.6e5, 42.0, 0.2), 1)
    3142.9
    """
    return stiffness * closing / integral


def rise_after_closing(arc: float, span: float) -> float:
    """Give the rise of a circular arch of known length whose span has shrunk.

    arc = 2 R a, span = 2 R sin a, rise = R (1 - cos a)

    Parameters
    ----------
    arc : float [m]
        Length round the arch.
    span : float [m]
        Span now.
    Returns
    -------
    float [m]
        Rise now; not a number where the feet have met or stand farther apart than the arch is long.
    Validity: the arch stays circular.
    Source: statics.

    >>> round(rise_after_closing(math.pi, 2.0), 6), round(rise_after_closing(math.pi, 1.8), 4)
    (1.0, 1.0504)
    """
    if not 0.05 * arc < span < arc:
        return math.nan
    low, high = 1e-6, math.pi  # sin(a)/a falls from 1 to 0
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if math.sin(middle) / middle > span / arc else (low, middle)
    return arc / (2.0 * low) * (1.0 - math.cos(low))
