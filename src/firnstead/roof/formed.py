"""Arches of snow without steel."""

from __future__ import annotations

from math import cos, cosh, hypot, log, pi

from firnstead.core.units import G0


def crown_thrust(load: float, span: float, rise: float) -> float:
    """Give the crown thrust of a snow arch under an even load per plan length.

    H = w L^2/(8 f)

    Parameters
    ----------
    load : float [Pa]
        Whole load w per plan area, own weight included.
    span : float [m]
        Clear span L.
    rise : float [m]
        Rise f of the line of thrust.
    Returns
    -------
    float [N/m]
        Horizontal thrust per metre of trench.
    Validity: line of thrust near a parabola in the middle of the arch; even load.
    Source: statics.

    >>> crown_thrust(8000.0, 2.4, 0.8)
    7200.0
    """
    return load * span**2 / (8 * rise)


def crown_stress(load: float, span: float, rise: float, thickness: float) -> float:
    """Give the mean compression at the crown of a snow arch.

    sigma = w L^2/(8 f t)

    Parameters
    ----------
    load : float [Pa]
        Whole load w per plan area, own weight included.
    span : float [m]
        Clear span L.
    rise : float [m]
        Rise f of the line of thrust.
    thickness : float [m]
        Thickness t that carries.
    Returns
    -------
    float [Pa]
        Mean stress at the crown; an eccentric line of thrust gives more at the edge.
    Validity: as `crown_thrust`.
    Source: statics.

    >>> crown_stress(8000.0, 2.4, 0.8, 0.6)
    12000.0
    """
    return crown_thrust(load, span, rise) / thickness


def foot_stress(load: float, span: float, rise: float, thickness: float) -> float:
    """Give the mean compression at the feet of a snow arch.

    sigma = hypot(w L^2/(8 f), w L/2)/t

    Parameters
    ----------
    load : float [Pa]
        Whole load w per plan area, own weight included.
    span : float [m]
        Clear span L.
    rise : float [m]
        Rise f of the line of thrust.
    thickness : float [m]
        Thickness t that carries, square to the thrust.
    Returns
    -------
    float [Pa]
        Mean stress at the feet.
    Validity: as `crown_thrust`.
    Source: statics.

    >>> round(foot_stress(8000.0, 2.4, 0.8, 0.6), 0)
    20000.0
    """
    return hypot(crown_thrust(load, span, rise), load * span / 2) / thickness


def span_limit(strength: float, density: float, gravity: float = G0) -> float:
    """Give the widest span that an arch of constant stress can reach under its own weight.

    L = pi sigma/(rho g)

    Parameters
    ----------
    strength : float [Pa]
        Stress sigma that may act, factor of safety taken off.
    density : float [kg/m3]
        Density of the arch.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [m]
        Limit of the span, at infinite rise.
    Validity: own weight alone, no cover on top, short-term strength; creep is not in it.
    Source: statics; jarvenpaa_2024 names the same line (abstract read).

    >>> round(span_limit(50000.0, 550.0), 1)
    29.1
    """
    return pi * strength / (density * gravity)


def constant_stress_drop(position: float, strength: float, density: float, gravity: float = G0) -> float:
    """Give how far an arch of constant stress has fallen below its crown.

    y = -(sigma/(rho g)) ln cos(rho g x/sigma)

    Parameters
    ----------
    position : float [m]
        Horizontal distance x from the crown.
    strength : float [Pa]
        Constant stress sigma.
    density : float [kg/m3]
        Density of the arch.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [m]
        Fall below the crown.
    Validity: inside half the span limit; own weight alone.
    Source: statics; jarvenpaa_2024 names the log-cosine form (abstract read).

    >>> round(constant_stress_drop(3.0, 50000.0, 550.0), 3)
    0.494
    """
    scale = strength / (density * gravity)
    return -scale * log(cos(position / scale))


def catenary_parameter(span: float, rise: float) -> float:
    """Find the parameter of the catenary through both feet and the crown.

    a (cosh(L/(2 a)) - 1) = f; by halving

    Parameters
    ----------
    span : float [m]
        Span L.
    rise : float [m]
        Rise f.
    Returns
    -------
    float [m]
        Parameter a, the radius at the crown.
    Validity: rise from a thousandth of the span to about five times the span.
    Source: statics.

    >>> round(catenary_parameter(2.4, 0.8), 3)
    1.011
    """

    def rise_of(a: float) -> float:
        return a * (cosh(span / (2 * a)) - 1)

    low, high = span / 30, 200 * span
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if rise_of(middle) > rise else (low, middle)
    return (low + high) / 2


def crown_stress_catenary(parameter: float, density: float, gravity: float = G0) -> float:
    """Give the crown stress of an arch of even thickness that follows a catenary.

    sigma = rho g a

    Parameters
    ----------
    parameter : float [m]
        Parameter a of the catenary.
    density : float [kg/m3]
        Density of the arch.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [Pa]
        Stress at the crown, whatever the thickness.
    Validity: own weight alone.
    Source: statics.

    >>> round(crown_stress_catenary(1.0, 500.0), 0)
    4903.0
    """
    return density * gravity * parameter
