"""Closed forms for parabolic and half-circle arches: hand checks of the circular segment in `thrust`."""

from __future__ import annotations

from math import pi, sin
from typing import NamedTuple


class FixedArch(NamedTuple):
    """Forces of an arch without hinges: vertical and horizontal reaction, moments at the feet and the crown."""

    vertical: float
    horizontal: float
    moment_left: float
    moment_right: float
    moment_crown: float


def thrust_parabola_uniform(load: float, span: float, rise: float) -> float:
    """Give the horizontal thrust of a two-hinged parabola under a load over the whole span.

    H = w L^2/(8 f); no bending anywhere

    Parameters
    ----------
    load : float [Pa]
        Load w per plan area.
    span : float [m]
        Span L.
    rise : float [m]
        Rise f.
    Returns
    -------
    float [N/m]
        Horizontal thrust per metre of trench.
    Validity: any distribution of stiffness; rib shortening left out.
    Source: two_hinged_arch_notes (read).

    >>> thrust_parabola_uniform(8000.0, 6.0, 1.5)
    24000.0
    """
    return load * span**2 / (8 * rise)


def thrust_parabola_partial(load: float, span: float, rise: float, length: float) -> float:
    """Give the horizontal thrust of a two-hinged parabola loaded over a length from one foot.

    H = w a^2 (5 L^3 - 5 L a^2 + 2 a^3)/(16 f L^3)

    Parameters
    ----------
    load : float [Pa]
        Load w per plan area on the loaded length.
    span : float [m]
        Span L.
    rise : float [m]
        Rise f.
    length : float [m]
        Loaded length a, measured along the span from one foot.
    Returns
    -------
    float [N/m]
        Horizontal thrust per metre of trench.
    Validity: two-hinged parabola with I = I_0 sec(phi); rib shortening left out.
    Source: statics, integral of the influence line (the printed form of two_hinged_arch_notes is misprinted).

    >>> thrust_parabola_partial(8000.0, 6.0, 1.5, 3.0)
    12000.0
    """
    a = length
    return load * a**2 * (5 * span**3 - 5 * span * a**2 + 2 * a**3) / (16 * rise * span**3)


def moment_parabola_half(load: float, span: float) -> float:
    """Give the bending moment at the loaded quarter point of a two-hinged parabola with one half loaded.

    M = w L^2/64; the other quarter point has the same moment with the opposite sign

    Parameters
    ----------
    load : float [Pa]
        Load w per plan area on the loaded half.
    span : float [m]
        Span L.
    Returns
    -------
    float [N m/m]
        Bending moment per metre of trench.
    Validity: two-hinged parabola; rib shortening left out.
    Source: statics, computed.

    >>> moment_parabola_half(8000.0, 6.0)
    4500.0
    """
    return load * span**2 / 64


def thrust_parabola_point(force: float, span: float, rise: float, share: float) -> float:
    """Give the horizontal thrust of a two-hinged parabola under one load.

    H = (5/8)(P L/f) k (1 - 2 k^2 + k^3)

    Parameters
    ----------
    force : float [N/m]
        Load P per metre of trench.
    span : float [m]
        Span L.
    rise : float [m]
        Rise f.
    share : float [1]
        Place k of the load as a share of the span.
    Returns
    -------
    float [N/m]
        Horizontal thrust per metre of trench.
    Validity: two-hinged parabola with I = I_0 sec(phi).
    Source: two_hinged_arch_notes, crown value 25 P L/(128 f) (read); other places computed.

    >>> thrust_parabola_point(1.0, 1.0, 1.0, 0.5)
    0.1953125
    """
    return 0.625 * force * span / rise * share * (1 - 2 * share**2 + share**3)


def thrust_semicircle_uniform(load: float, radius: float) -> float:
    """Give the horizontal thrust of a two-hinged half circle under a load over the whole plan.

    H = 4 w R/(3 pi)

    Parameters
    ----------
    load : float [Pa]
        Load w per plan area.
    radius : float [m]
        Radius R.
    Returns
    -------
    float [N/m]
        Horizontal thrust per metre of trench.
    Validity: constant stiffness, rib shortening left out.
    Source: two_hinged_semicircle_notes (read); computed, identical.

    >>> round(thrust_semicircle_uniform(1.0, 1.0), 6)
    0.424413
    """
    return 4 * load * radius / (3 * pi)


def thrust_semicircle_point(force: float, angle: float) -> float:
    """Give the horizontal thrust of a two-hinged half circle under one load.

    H = (P/pi) sin(theta)^2

    Parameters
    ----------
    force : float [N/m]
        Load P per metre of trench.
    angle : float [rad]
        Place theta of the load, measured from the line of the feet.
    Returns
    -------
    float [N/m]
        Horizontal thrust per metre of trench.
    Validity: constant stiffness, rib shortening left out.
    Source: two_hinged_semicircle_notes (read); computed, identical.

    >>> round(thrust_semicircle_point(1.0, 0.8726646), 6)
    0.186792
    """
    return force / pi * sin(angle) ** 2


def hingeless_parabola_half(load: float, span: float, rise: float) -> FixedArch:
    """Give the forces of a parabola without hinges with its left half loaded.

    R_A = 13 q l/32; H = q l^2/(16 f); M_A = -q l^2/64; M_B = +q l^2/64; M_C = 0

    Parameters
    ----------
    load : float [Pa]
        Load q per plan area on the left half.
    span : float [m]
        Span l.
    rise : float [m]
        Rise f.
    Returns
    -------
    FixedArch [SI]
        Reaction of the left foot, thrust, moments at the left foot, the right foot and the crown.
    Validity: fixed feet, I = I_0 sec(phi); a foot on snow is not fixed.
    Source: karnovsky_lebed, Table A.19 (read; signs lost in the scan, recovered by computation).

    >>> hingeless_parabola_half(32.0, 1.0, 1.0).vertical
    13.0
    """
    unit = load * span**2
    return FixedArch(13 * load * span / 32, unit / (16 * rise), -unit / 64, unit / 64, 0.0)


def hingeless_parabola_point(force: float, span: float, rise: float, share: float) -> FixedArch:
    """Give the forces of a parabola without hinges under one load.

    R_A = P (1 - u)^2 (1 + 2 u); H = (15/4)(P l/f) u^2 (1 - u)^2; M_A = -P l u (1 - u)^2 (2 - 5 u)/2;
    M_B = P l u^2 (1 - u)(3 - 5 u)/2; M_C = P l u/2 - H f + (M_A + M_B)/2

    Parameters
    ----------
    force : float [N/m]
        Load P per metre of trench.
    span : float [m]
        Span l.
    rise : float [m]
        Rise f.
    share : float [1]
        Place u of the load as a share of the span from the left foot, at most 1/2.
    Returns
    -------
    FixedArch [SI]
        Reaction of the left foot, thrust, moments at the left foot, the right foot and the crown.
    Validity: fixed feet, I = I_0 sec(phi); a foot on snow is not fixed.
    Source: karnovsky_lebed, Table A.19 (read; signs lost in the scan, recovered by computation).

    >>> hingeless_parabola_point(64.0, 1.0, 1.0, 0.5)[1:]
    (15.0, 2.0, 2.0, 3.0)
    """
    u, unit = share, force * span
    thrust = 3.75 * unit / rise * u**2 * (1 - u) ** 2
    left = -unit * u * (1 - u) ** 2 * (2 - 5 * u) / 2
    right = unit * u**2 * (1 - u) * (3 - 5 * u) / 2
    crown = unit * u / 2 - thrust * rise + (left + right) / 2
    return FixedArch(force * (1 - u) ** 2 * (1 + 2 * u), thrust, left, right, crown)
