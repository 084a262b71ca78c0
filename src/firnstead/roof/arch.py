"""Shape of an arch: circular segment and parabola."""

from __future__ import annotations

from math import asinh, atan2, sqrt


def segment_radius(span: float, rise: float) -> float:
    """Give the radius of a circular segment.

    R = (L^2/4 + f^2)/(2 f)

    Parameters
    ----------
    span : float [m]
        Span L between the feet.
    rise : float [m]
        Rise f from the feet to the crown.
    Returns
    -------
    float [m]
        Radius of the arch.
    Validity: any rise above 0; above half the span the segment is more than a half circle.
    Source: statics, geometry.

    >>> segment_radius(6.0, 1.5)
    3.75
    """
    return (span**2 / 4 + rise**2) / (2 * rise)


def segment_half_angle(span: float, rise: float) -> float:
    """Give half the angle that a circular segment spans, seen from its centre.

    alpha = asin(L/(2 R)) up to the half circle; in one form: alpha = 2 atan(2 f/L)

    Parameters
    ----------
    span : float [m]
        Span L between the feet.
    rise : float [m]
        Rise f from the feet to the crown.
    Returns
    -------
    float [rad]
        Half the central angle, which is also the slope of the arch at its feet.
    Validity: any rise above 0.
    Source: statics, geometry.

    >>> round(segment_half_angle(6.0, 1.5), 4)
    0.9273
    """
    return 2 * atan2(2 * rise, span)


def segment_arc_length(span: float, rise: float) -> float:
    """Give the length of a circular segment from foot to foot.

    s = 2 alpha R

    Parameters
    ----------
    span : float [m]
        Span between the feet.
    rise : float [m]
        Rise from the feet to the crown.
    Returns
    -------
    float [m]
        Length along the arch.
    Validity: any rise above 0.
    Source: statics, geometry.

    >>> round(segment_arc_length(6.0, 1.5), 3)
    6.955
    """
    return 2 * segment_half_angle(span, rise) * segment_radius(span, rise)


def segment_height(span: float, rise: float, position: float) -> float:
    """Give the height of a circular segment above its feet at a place along the span.

    y = sqrt(R^2 - (x - L/2)^2) - (R - f)

    Parameters
    ----------
    span : float [m]
        Span L between the feet.
    rise : float [m]
        Rise f from the feet to the crown.
    position : float [m]
        Distance x from the left foot, measured along the span.
    Returns
    -------
    float [m]
        Height above the feet.
    Validity: rise up to half the span; 0 <= x <= L.
    Source: statics, geometry.

    >>> segment_height(6.0, 1.5, 3.0)
    1.5
    """
    radius = segment_radius(span, rise)
    return sqrt(radius**2 - (position - span / 2) ** 2) - (radius - rise)


def parabola_height(span: float, rise: float, position: float) -> float:
    """Give the height of a parabolic arch above its feet at a place along the span.

    y = 4 f x (L - x)/L^2

    Parameters
    ----------
    span : float [m]
        Span L between the feet.
    rise : float [m]
        Rise f from the feet to the crown.
    position : float [m]
        Distance x from the left foot, measured along the span.
    Returns
    -------
    float [m]
        Height above the feet.
    Validity: 0 <= x <= L.
    Source: statics, geometry.

    >>> parabola_height(6.0, 1.5, 1.5)
    1.125
    """
    return 4 * rise * position * (span - position) / span**2


def parabola_arc_length(span: float, rise: float) -> float:
    """Give the length of a parabolic arch from foot to foot.

    s = (L/2) [sqrt(1 + k^2) + asinh(k)/k], k = 4 f/L

    Parameters
    ----------
    span : float [m]
        Span L between the feet.
    rise : float [m]
        Rise f from the feet to the crown.
    Returns
    -------
    float [m]
        Length along the arch.
    Validity: any rise above 0.
    Source: statics, integral of the slope.

    >>> round(parabola_arc_length(6.0, 1.5), 3)
    6.887
    """
    slope = 4 * rise / span
    return span / 2 * (sqrt(1 + slope**2) + asinh(slope) / slope)
