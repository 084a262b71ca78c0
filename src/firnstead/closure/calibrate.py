"""The site's k: the steady column with this law is fitted to the site's own density profile, never to closure.

In a steady climate (Sorge) the column obeys sigma^(n+1) = (n+1) A_c g integral of d rho/(rho C_n(rho)). Because all
exponents agree at the reference stress, C_n = C_3 s^(3-n). Each exponent gets its own k from the same profile.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from firnstead.snow._arrays import Array
from firnstead.snow.confined import confined_fluidity_arrizabalaga
from firnstead.snow.rate_factor import rate_factor_paterson_budd

STIFFEST, SOFTEST = 5.0, 2e4


def steady_depths(
    densities: Array, k: float, temperature: float, accumulation: float, *, exponent: float = 3.0,
    reference_stress: float = 30e3, ice_density: float = 910.0, gravity: float = 9.82,
    rate_factor: Callable[[float], float] = rate_factor_paterson_budd,
) -> Array:  # fmt: skip
    """Give the depths at which the steady column reaches rising densities, the first of them at the surface.

    sigma^(n+1) = (n+1) A_c g integral of d rho/(rho C_n), z = integral of d sigma/(rho g)

    Parameters
    ----------
    densities : array [kg/m3]
        Densities, rising; close together, for they are the steps of the quadrature.
    k : float [1]
        Softness of the site.
    temperature : float [K]
        Mean temperature.
    accumulation : float [kg/m2/s]
        Accumulation.
    exponent : float [1]
        Exponent n.
    reference_stress : float [Pa]
        Stress at which all exponents agree.
    ice_density : float [kg/m3]
        Density of ice.
    gravity : float [m/s2]
        Acceleration of gravity.
    rate_factor : function [Pa^-3 s^-1]
        Rate factor of temperature; a k belongs to one of them.
    Returns
    -------
    array [m]
        Depths.
    Validity: uniform temperature, dry snow; 830 kg/m3 comes out 9 to 21 % too deep once 550 is fitted.
    Source: arrizabalaga_2025, law of the authors' code in bader_1954, steady column (computed).

    >>> round(float(steady_depths(np.linspace(340, 550, 2001), 700.0, 248.15, 360 / 31557600)[-1]), 2)
    12.03
    """
    middle, power = (densities[:-1] + densities[1:]) / 2.0, exponent + 1.0
    cubic = confined_fluidity_arrizabalaga(middle / ice_density, k, rate_factor(temperature))
    fluidity = cubic * reference_stress ** (3.0 - exponent)
    growth = np.cumsum(power * accumulation * gravity / (middle * fluidity) * np.diff(densities))
    stress = np.concatenate(([0.0], growth ** (1.0 / power)))
    return np.concatenate(([0.0], np.cumsum(np.diff(stress) / (middle * gravity))))


def softness_from_depth(
    depth: float, density: float, surface_density: float, temperature: float, accumulation: float, *,
    exponent: float = 3.0, reference_stress: float = 30e3, ice_density: float = 910.0, gravity: float = 9.82,
    rate_factor: Callable[[float], float] = rate_factor_paterson_budd,
) -> float:  # fmt: skip
    """Give the k with which the steady column reaches a density at its measured depth.

    z(rho; k) = z measured, solved for ln k

    Parameters
    ----------
    depth : float [m]
        Measured depth of that density.
    density : float [kg/m3]
        The density, usually 550.
    surface_density : float [kg/m3]
        Density at depth zero.
    temperature : float [K]
        Mean temperature.
    accumulation : float [kg/m2/s]
        Accumulation.
    exponent : float [1]
        Exponent n.
    reference_stress : float [Pa]
        Stress at which all exponents agree.
    ice_density : float [kg/m3]
        Density of ice.
    gravity : float [m/s2]
        Acceleration of gravity.
    rate_factor : function [Pa^-3 s^-1]
        Rate factor of temperature; a k belongs to one of them.
    Returns
    -------
    float [1]
        k; not a number where none from 5 to 20,000 fits.
    Validity: the site itself; never carried to another site, exponent or rate factor.
    Source: arrizabalaga_2025, law of the authors' code in bader_1954, steady column (computed).

    >>> round(softness_from_depth(12.03, 550.0, 340.0, 248.15, 360 / 31557600), -1)
    700.0
    """
    from scipy.optimize import brentq

    steps = np.linspace(surface_density, density, 1001)

    def beyond(logarithm: float) -> float:
        depths = steady_depths(
            steps, math.exp(logarithm), temperature, accumulation, exponent=exponent, rate_factor=rate_factor,
            reference_stress=reference_stress, ice_density=ice_density, gravity=gravity)  # fmt: skip
        return float(depths[-1]) - depth

    low, high = math.log(STIFFEST), math.log(SOFTEST)
    if beyond(low) < 0.0 or beyond(high) > 0.0:
        return math.nan
    return math.exp(float(brentq(beyond, low, high, xtol=1e-9)))


def softness_from_profile(
    depths: Array, densities: Array, surface_density: float, temperature: float, accumulation: float, *,
    exponent: float = 3.0, reference_stress: float = 30e3, ice_density: float = 910.0, gravity: float = 9.82,
    rate_factor: Callable[[float], float] = rate_factor_paterson_budd, skip: float = 2.5,
) -> tuple[float, float]:  # fmt: skip
    """Give the k of the least squared misfit to a measured profile, and the misfit.

    least sum of (rho(z_i; k) - rho_i)^2, z_i below `skip`

    Parameters
    ----------
    depths : array [m]
        Depths of the measurements.
    densities : array [kg/m3]
        Densities there.
    surface_density : float [kg/m3]
        Density at depth zero.
    temperature : float [K]
        Mean temperature.
    accumulation : float [kg/m2/s]
        Accumulation.
    exponent : float [1]
        Exponent n.
    reference_stress : float [Pa]
        Stress at which all exponents agree.
    ice_density : float [kg/m3]
        Density of ice.
    gravity : float [m/s2]
        Acceleration of gravity.
    rate_factor : function [Pa^-3 s^-1]
        Rate factor of temperature; a k belongs to one of them.
    skip : float [m]
        Top that is left out: storms, crusts and machine traffic.
    Returns
    -------
    tuple of float [1, kg/m3]
        k, and the root of the mean squared misfit.
    Validity: as softness_from_depth; at least one measurement below `skip`.
    Source: arrizabalaga_2025, law and top left out as in the authors' code (read).

    >>> z, rho = np.array([5.0, 9.0, 12.0]), np.array([439.4, 513.3, 549.7])
    >>> round(softness_from_profile(z, rho, 340.0, 248.15, 360 / 31557600)[0], -2)
    700.0
    """
    from scipy.optimize import minimize_scalar

    kept = depths > skip
    steps = np.linspace(surface_density, min(0.97 * ice_density, float(densities.max()) + 150.0), 1501)

    def misfit(logarithm: float) -> float:
        column = steady_depths(
            steps, math.exp(logarithm), temperature, accumulation, exponent=exponent, rate_factor=rate_factor,
            reference_stress=reference_stress, ice_density=ice_density, gravity=gravity)  # fmt: skip
        return float(np.mean((np.interp(depths[kept], column, steps) - densities[kept]) ** 2))

    found = minimize_scalar(misfit, bounds=(math.log(STIFFEST), math.log(SOFTEST)), method="bounded")
    return math.exp(float(found.x)), math.sqrt(float(found.fun))
