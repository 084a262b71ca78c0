"""Compactive viscosity as a curve against density, and what warmth does to it."""

from __future__ import annotations

from math import exp

import numpy as np

from firnstead.snow._arrays import Array
from firnstead.snow.viscosity import viscosity_crocus, viscosity_sorge

GAS_CONSTANT = 8.314462618  # J/mol/K
ICE = 917.0  # kg/m3


def curve_sorge(
    depth: Array, density: Array, overburden: Array, accumulation: float, window: float = 2.5, top: float = 2.5
) -> tuple[Array, Array]:
    """Give the viscosity against density that a site's own profile shows.

    eta = sigma rho^2/(A d rho/dz), the slope taken over 2 w; at equal density the lower value

    Parameters
    ----------
    depth : array [m]
        Depths, evenly spaced from the surface down.
    density : array [kg/m3]
        Density.
    overburden : array [Pa]
        Weight of the snow above.
    accumulation : float [kg/m2/s]
        Accumulation A.
    window : float [m]
        Half the length w over which the slope is taken.
    top : float [m]
        Depth above which storms and traffic spoil a profile.
    Returns
    -------
    tuple of two arrays [kg/m3 and Pa s]
        Rising densities and the viscosity at the site's temperature, never falling with density.
    Validity: steady climate; stresses like those of the site's own burial. Below the window's reach it ends.
    Source: bader_1954, Sorge's law (read second-hand); own_rule for the window.

    >>> z = np.linspace(0.0, 40.0, 401)
    >>> rho = 917 - 567 * np.exp(-z / 25)
    >>> sigma = 9.81 * (917 * z - 567 * 25 * (1 - np.exp(-z / 25)))
    >>> curve = curve_sorge(z, rho, sigma, 400 / 31557600)
    >>> f"{viscosity_at(rho[50], curve):.2e}"
    '1.72e+13'
    """
    inside = (depth >= max(top, window)) & (depth <= depth[-1] - window)
    z = depth[inside]
    slope = (np.interp(z + window, depth, density) - np.interp(z - window, depth, density)) / (2 * window)
    eta = viscosity_sorge(density[inside], np.maximum(slope, 1e-3), overburden[inside], accumulation)
    rising = np.maximum.accumulate(density[inside])
    lower = np.minimum.accumulate(eta[::-1])[::-1]
    keep = np.concatenate(([True], np.diff(rising) > 1e-9))
    return rising[keep], lower[keep]


def viscosity_at(density: float, curve: tuple[Array, Array], growth: float = 0.023) -> float:
    """Give the viscosity of snow of a density from a curve.

    ln eta is a straight line between points; lighter than the curve: eta_1 exp(b (rho - rho_1)); denser: the last

    Parameters
    ----------
    density : float [kg/m3]
        Density rho.
    curve : tuple of two arrays [kg/m3 and Pa s]
        Densities and viscosities.
    growth : float [m3/kg]
        Growth b of ln eta with density below the curve.
    Returns
    -------
    float [Pa s]
        Viscosity.
    Validity: as the curve; beyond its ends the values are on the side of more settling.
    Source: own_rule; vionnet_2012 for the growth (read second-hand).

    >>> f"{viscosity_at(450.0, (np.array([400.0, 500.0]), np.array([1e13, 1e14]))):.2e}"
    '3.16e+13'
    """
    densities, viscosities = curve
    if density < densities[0]:
        return float(viscosities[0] * exp(growth * (density - densities[0])))
    return float(np.exp(np.interp(density, densities, np.log(viscosities))))


def curve_crocus(temperature: float, low: float = 250.0, high: float = 850.0) -> tuple[Array, Array]:
    """Give the second law as a curve of the same form.

    eta = f eta0 (rho/c) exp[a (273.15 - T) + b rho]

    Parameters
    ----------
    temperature : float [K]
        Temperature of the site.
    low : float [kg/m3]
        First density.
    high : float [kg/m3]
        Last density.
    Returns
    -------
    tuple of two arrays [kg/m3 and Pa s]
        Densities and viscosities.
    Validity: a law for seasonal snow, taken here far beyond it as the other end of a band.
    Source: vionnet_2012, compaction (read second-hand).

    >>> f"{viscosity_at(450.0, curve_crocus(248.15)):.2e}"
    '2.09e+13'
    """
    densities = np.arange(low, high + 1.0, 2.0)
    return densities, viscosity_crocus(densities, np.full_like(densities, temperature))


def warmth_arrhenius(temperature: float, reference: float, energy: float, gas_constant: float = GAS_CONSTANT) -> float:
    """Give how much faster snow settles at a temperature than at the site's.

    f = exp[(Q/R)(1/T_0 - 1/T)]

    Parameters
    ----------
    temperature : float [K]
        Temperature T.
    reference : float [K]
        Temperature T_0 of the site, to which the viscosity belongs.
    energy : float [J/mol]
        Activation energy Q.
    gas_constant : float [J/mol/K]
        Gas constant R.
    Returns
    -------
    float [1]
        Factor on the rate.
    Validity: dry snow well below melting; Q is known between 42 and 67 kJ/mol only.
    Source: textbook_unchecked, Arrhenius with 42 to 67 kJ/mol (from memory, unchecked).

    >>> round(warmth_arrhenius(258.15, 248.15, 60e3), 2)
    3.08
    """
    return exp(energy / gas_constant * (1 / reference - 1 / temperature))


def warmth_crocus(temperature: float, reference: float, factor: float = 0.1) -> float:
    """Give how much faster snow settles at a temperature by the second law.

    f = exp[a (T - T_0)]

    Parameters
    ----------
    temperature : float [K]
        Temperature T.
    reference : float [K]
        Temperature T_0 of the site.
    factor : float [1/K]
        Growth a with warmth.
    Returns
    -------
    float [1]
        Factor on the rate.
    Validity: dry snow.
    Source: vionnet_2012, compaction (read second-hand).

    >>> round(warmth_crocus(258.15, 248.15), 3)
    2.718
    """
    return exp(factor * (temperature - reference))
