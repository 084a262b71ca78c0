"""Creep of a column that cannot spread sideways: closed forms, and the steady profile from which k is calibrated."""

from __future__ import annotations

import math

import numpy as np

from firnstead.core.units import G0
from firnstead.snow._arrays import FloatOrArray
from firnstead.snow.creep import coefficients_arrizabalaga, coefficients_gagliardini_meyssonnier


def confined_fluidity_gagliardini_meyssonnier(
    relative_density: FloatOrArray, fluidity: float, *, exponent: float = 3.0
) -> FloatOrArray:
    """Give C of e_zz = C |sigma|^(n-1) sigma where no sideways strain is possible.

    C = B (4/(3a) + 1/b)^(-(n+1)/2)

    Parameters
    ----------
    relative_density : float or array [1]
        Density over density of ice.
    fluidity : float [Pa^-n s^-1]
        B = 2A.
    exponent : float [1]
        Exponent n.
    Returns
    -------
    float or array [Pa^-n s^-1]
        C.
    Validity: as coefficients_gagliardini_meyssonnier.
    Source: porous_solver_document, eqs 18-21 (read).

    >>> round(-confined_fluidity_gagliardini_meyssonnier(0.5, 20.0) * 0.01**3, 4)
    -0.0991
    """
    a, b = coefficients_gagliardini_meyssonnier(relative_density)
    value: FloatOrArray = fluidity * (4.0 / 3.0 / a + 1.0 / b) ** (-(exponent + 1.0) / 2.0)
    return value


def confined_fluidity_arrizabalaga(
    relative_density: FloatOrArray, k: float, rate_factor: float, *, exponent: float = 3.0
) -> FloatOrArray:
    """Give C of e_zz = C |sigma|^(n-1) sigma where no sideways strain is possible, from the site number k.

    C = A 2^(-(n-1)/2) [2/(3a) + 3/(2b)]^(-(n+1)/2)

    Parameters
    ----------
    relative_density : float or array [1]
        Density over density of ice.
    k : float [1]
        Softness of the site.
    rate_factor : float [Pa^-n s^-1]
        Glen's A, of the author with whom k was calibrated.
    exponent : float [1]
        Exponent n.
    Returns
    -------
    float or array [Pa^-n s^-1]
        C.
    Validity: as coefficients_arrizabalaga.
    Source: arrizabalaga_2025, law of the authors' code, confined (computed).

    >>> round(confined_fluidity_arrizabalaga(0.5, 1000.0, 1.0), 1)
    2308.3
    """
    a, b = coefficients_arrizabalaga(relative_density, k)
    power = -(exponent + 1.0) / 2.0
    value: FloatOrArray = rate_factor * 2.0 ** (-(exponent - 1.0) / 2.0) * (2.0 / 3.0 / a + 1.5 / b) ** power
    return value


def strain_rate_confined(stress: float, confined_fluidity: float, *, exponent: float = 3.0) -> float:
    """Give the vertical strain rate under a vertical stress where no sideways strain is possible.

    e_zz = C |sigma|^(n-1) sigma

    Parameters
    ----------
    stress : float [Pa]
        Vertical stress, compression negative.
    confined_fluidity : float [Pa^-n s^-1]
        C.
    exponent : float [1]
        Exponent n.
    Returns
    -------
    float [1/s]
        Strain rate.
    Validity: as C. Stress of 10 to 60 kPa lies between linear and cubic creep: n = 3 overstates the effect of load.
    Source: porous_solver_document, eqs 18-21 (read).

    >>> strain_rate_confined(-2.0, 0.5)
    -4.0
    """
    rate: float = confined_fluidity * abs(stress) ** (exponent - 1.0) * stress
    return rate


def surface_velocity_confined(
    height: float, density: float, confined_fluidity: float, *, gravity: float = G0, exponent: float = 3.0
) -> float:
    """Give the vertical velocity of the top of a uniform column under its own weight.

    v = -C (rho g)^n h^(n+1)/(n+1)

    Parameters
    ----------
    height : float [m]
        Height of the column above a firm floor.
    density : float [kg/m3]
        Density.
    confined_fluidity : float [Pa^-n s^-1]
        C.
    gravity : float [m/s2]
        Acceleration of gravity.
    exponent : float [1]
        Exponent n.
    Returns
    -------
    float [m/s]
        Velocity, negative: down.
    Validity: uniform density and temperature; at this moment only, the column stiffens as it settles.
    Source: porous_solver_document, eqs 22-25 (read).

    >>> surface_velocity_confined(2.0, 1.0, 3.0, gravity=1.0)
    -12.0
    """
    power = exponent + 1.0
    velocity: float = -confined_fluidity * (density * gravity) ** exponent * height**power / power
    return velocity


def depth_of_density_steady_arrizabalaga(
    density: float, rate_factor: float, accumulation: float, surface_density: float, k: float, *,
    ice_density: float = 910.0, gravity: float = 9.82, steps: int = 2000,
) -> float:  # fmt: skip
    """Give the depth at which a column in steady climate reaches a density, by quadrature (n = 3).

    sigma^4 = 4 A_c g integral of d rho/(rho C(rho)), z = integral of d sigma/(rho g)

    Parameters
    ----------
    density : float [kg/m3]
        Wanted density.
    rate_factor : float [Pa^-3 s^-1]
        Glen's A at the column's temperature.
    accumulation : float [kg/m2/s]
        Accumulation.
    surface_density : float [kg/m3]
        Density at depth zero.
    k : float [1]
        Softness of the site.
    ice_density : float [kg/m3]
        Density of ice.
    gravity : float [m/s2]
        Acceleration of gravity.
    steps : int [1]
        Steps of the quadrature.
    Returns
    -------
    float [m]
        Depth.
    Validity: uniform temperature, dry snow; 830 kg/m3 comes out 9 to 21 % too deep once 550 is fitted.
    Source: arrizabalaga_2025, law of the authors' code in bader_1954, steady column (computed).

    >>> round(depth_of_density_steady_arrizabalaga(550.0, 9.3e-26, 360.0 / 31557600, 340.0, 700.0), 1)
    12.0
    """
    edges = np.linspace(surface_density, density, steps + 1)
    middle = (edges[:-1] + edges[1:]) / 2
    fluidity = confined_fluidity_arrizabalaga(middle / ice_density, k, rate_factor)
    growth = np.cumsum(4.0 * accumulation * gravity / (middle * fluidity)) * (edges[1] - edges[0])
    stress = np.concatenate(([0.0], growth**0.25))
    return float(np.sum(np.diff(stress) / (middle * gravity)))


def softness_of_site_arrizabalaga(
    depth: float, density: float, rate_factor: float, accumulation: float, surface_density: float, *,
    ice_density: float = 910.0, gravity: float = 9.82, softest: float = 1e4, stiffest: float = 10.0,
) -> float:  # fmt: skip
    """Give the site number k for which the steady column reaches a density at the measured depth.

    z(rho; k) = z measured, by halving of ln k

    Parameters
    ----------
    depth : float [m]
        Measured depth.
    density : float [kg/m3]
        Density measured there, usually 550.
    rate_factor : float [Pa^-3 s^-1]
        Glen's A at the column's temperature.
    accumulation : float [kg/m2/s]
        Accumulation.
    surface_density : float [kg/m3]
        Density at depth zero.
    ice_density : float [kg/m3]
        Density of ice.
    gravity : float [m/s2]
        Acceleration of gravity.
    softest : float [1]
        Largest k looked for.
    stiffest : float [1]
        Smallest k looked for.
    Returns
    -------
    float [1]
        k; not a number where none between the limits fits.
    Validity: the site itself and the same law for A only; never carried to another site.
    Source: arrizabalaga_2025, law of the authors' code in bader_1954, steady column (computed).

    >>> round(softness_of_site_arrizabalaga(12.05, 550.0, 9.3e-26, 360.0 / 31557600, 340.0), -1)
    700.0
    """

    def reached(k: float) -> float:
        return depth_of_density_steady_arrizabalaga(
            density, rate_factor, accumulation, surface_density, k, ice_density=ice_density, gravity=gravity,
            steps=500)  # fmt: skip

    if not reached(softest) <= depth <= reached(stiffest):
        return math.nan
    low, high = math.log(stiffest), math.log(softest)
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (middle, high) if reached(math.exp(middle)) > depth else (low, middle)
    return math.exp((low + high) / 2)
