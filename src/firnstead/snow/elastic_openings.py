"""Stress round a circular opening (Kirsch) and the closing of a hole in ice (Nye)."""

from __future__ import annotations

from typing import NamedTuple


class ClosureRate(NamedTuple):
    """Share of the radius lost per second [1/s], and what stands outside the law's validity (empty inside it)."""

    value: float
    note: str


def lateral_pressure_ratio_confined(poisson_ratio: float) -> float:
    """Give the ratio of lateral to vertical stress in an elastic layer that cannot spread.

    K = nu/(1 - nu)

    Parameters
    ----------
    poisson_ratio : float [1]
        Poisson's ratio.
    Returns
    -------
    float [1]
        Lateral pressure ratio.
    Validity: elastic, level ground.
    Source: textbook_unchecked, confined elastic layer.

    >>> round(lateral_pressure_ratio_confined(0.25), 4)
    0.3333
    """
    return poisson_ratio / (1.0 - poisson_ratio)


def hoop_stress_crown_kirsch(pressure: float, lateral_ratio: float) -> float:
    """Give the hoop stress at crown and floor of a circular opening; negative is tension.

    sigma = p (3 K - 1)

    Parameters
    ----------
    pressure : float [Pa]
        Vertical pressure far away.
    lateral_ratio : float [1]
        Lateral pressure ratio K; below 1/3 the crown is in tension.
    Returns
    -------
    float [Pa]
        Hoop stress, compression positive.
    Validity: elastic, circular, deep against its radius.
    Source: kirsch_1898, hoop stress (from memory, unchecked).

    >>> round(hoop_stress_crown_kirsch(10e3, 0.2))
    -4000
    """
    return pressure * (3.0 * lateral_ratio - 1.0)


def hoop_stress_springline_kirsch(pressure: float, lateral_ratio: float) -> float:
    """Give the hoop stress at half height of a circular opening.

    sigma = p (3 - K)

    Parameters
    ----------
    pressure : float [Pa]
        Vertical pressure far away.
    lateral_ratio : float [1]
        Lateral pressure ratio K.
    Returns
    -------
    float [Pa]
        Hoop stress, compression positive.
    Validity: elastic, circular, deep against its radius.
    Source: kirsch_1898, hoop stress (from memory, unchecked).

    >>> round(hoop_stress_springline_kirsch(10e3, 0.2))
    28000
    """
    return pressure * (3.0 - lateral_ratio)


def closure_rate_nye(
    pressure: float, rate_factor: float, density: float, *, exponent: float = 3.0, ice_from: float = 830.0
) -> ClosureRate:
    """Give the share of its radius that a round hole in ice loses per time; NOT for firn.

    -(1/r) dr/dt = A (p/n)^n

    Parameters
    ----------
    pressure : float [Pa]
        Pressure far away less the pressure in the hole.
    rate_factor : float [Pa^-n s^-1]
        Glen's A.
    density : float [kg/m3]
        Density round the hole: decides whether the law holds.
    exponent : float [1]
        Exponent n.
    ice_from : float [kg/m3]
        Density from which the material counts as ice.
    Returns
    -------
    ClosureRate [1/s]
        Rate and note.
    Validity: ice alone. In firn at trench depth it is too small by orders of magnitude and would hide the danger.
    Source: nye_1953, cylindrical hole (from memory, unchecked).

    >>> round(closure_rate_nye(0.9e6, 6.67e-26, 917.0).value * 31557600, 3)
    0.057
    """
    note = ""
    if density < ice_from:
        note = "this law is for ice; in firn the real closing is faster by orders of magnitude: do not use this number"
    return ClosureRate(rate_factor * (pressure / exponent) ** exponent, note)
