"""Short-term strength of snow against density. Strength is a band, never one number.

One measured site spreads 34 times between its weakest and strongest sample (ueda_1981); formulas describe fast tests
on well-bonded snow. Freshly milled snow has no cohesion at all: see hardening.py. Long loads make snow creep, so a
short-term strength divided by a factor says nothing about settling.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from firnstead.snow._arrays import FloatOrArray


class StrengthBand(NamedTuple):
    """Weakest, middle and strongest value that the sources allow [Pa]; checks of safety use the weakest."""

    low: float
    middle: float
    high: float


def compressive_strength_mellor(
    density: FloatOrArray, *, scale: float = 5000e3, exponent: float = 2.5, ice_density: float = 917.0
) -> FloatOrArray:
    """Give the unconfined compressive strength of well-bonded snow under fast loading.

    sigma_c = C (rho/917)^n

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    scale : float [Pa]
        C; the compilation spreads from 3000 to 10000 kPa.
    exponent : float [1]
        n; the compilation spreads from 2 to 3.
    ice_density : float [kg/m3]
        Density of ice.
    Returns
    -------
    float or array [Pa]
        Compressive strength.
    Validity: well-bonded snow and firn, fast tests, dry; never at age zero.
    Source: mellor_1975, power law (read second-hand).

    >>> round(compressive_strength_mellor(550.0) / 1e3)
    1393
    """
    value: FloatOrArray = scale * (density / ice_density) ** exponent
    return value


def compressive_strength_band(
    density: float, *, density_low: float | None = None, density_high: float | None = None, scale_low: float = 3000e3,
    scale_middle: float = 5000e3, scale_high: float = 10000e3, exponent_low: float = 3.0, exponent_middle: float = 2.5,
    exponent_high: float = 2.0,
) -> StrengthBand:  # fmt: skip
    """Give the band of the unconfined compressive strength.

    low = 3000 kPa (rho/917)^3, middle = 5000 kPa (rho/917)^2.5, high = 10000 kPa (rho/917)^2

    Parameters
    ----------
    density : float [kg/m3]
        Density.
    density_low : float or None [kg/m3]
        Low end of the density, if it has a band of its own.
    density_high : float or None [kg/m3]
        High end of the density.
    scale_low : float [Pa]
        C of the low end.
    scale_middle : float [Pa]
        C of the middle.
    scale_high : float [Pa]
        C of the high end.
    exponent_low : float [1]
        n of the low end.
    exponent_middle : float [1]
        n of the middle.
    exponent_high : float [1]
        n of the high end.
    Returns
    -------
    StrengthBand [Pa]
        Low, middle and high strength.
    Validity: as compressive_strength_mellor; one measured site reaches from 0.21 to 7.3 MPa.
    Source: mellor_1975, range of the compilation (read second-hand).

    >>> round(compressive_strength_band(550.0).low / 1e3), round(compressive_strength_band(550.0).high / 1e3)
    (647, 3597)
    """
    low = density if density_low is None else density_low
    high = density if density_high is None else density_high
    return StrengthBand(
        low=compressive_strength_mellor(low, scale=scale_low, exponent=exponent_low),
        middle=compressive_strength_mellor(density, scale=scale_middle, exponent=exponent_middle),
        high=compressive_strength_mellor(high, scale=scale_high, exponent=exponent_high),
    )


def tensile_strength_sigrist(
    density: FloatOrArray, *, scale: float = 240e3, exponent: float = 2.44, ice_density: float = 917.0
) -> FloatOrArray:
    """Give the tensile strength of snow.

    sigma_t = 240 kPa (rho/917)^2.44

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    scale : float [Pa]
        Strength at the density of ice.
    exponent : float [1]
        Exponent.
    ice_density : float [kg/m3]
        Density of ice.
    Returns
    -------
    float or array [Pa]
        Tensile strength.
    Validity: seasonal snow, fast tests.
    Source: sigrist_2006, tensile strength (read second-hand).

    >>> round(tensile_strength_sigrist(400.0))
    31700
    """
    value: FloatOrArray = scale * (density / ice_density) ** exponent
    return value


def tensile_strength_jamieson(
    density: FloatOrArray, *, scale: float = 79.7e3, exponent: float = 2.39, ice_density: float = 917.0
) -> FloatOrArray:
    """Give the tensile strength of snow by another author; for faceted grains 58.3 kPa and 2.65.

    sigma_t = 79.7 kPa (rho/917)^2.39

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    scale : float [Pa]
        Strength at the density of ice (58.3 kPa for faceted grains).
    exponent : float [1]
        Exponent (2.65 for faceted grains).
    ice_density : float [kg/m3]
        Density of ice.
    Returns
    -------
    float or array [Pa]
        Tensile strength.
    Validity: seasonal snow of low density; a lower bound for polar firn.
    Source: jamieson_johnston_1990, tensile strength (from memory, unchecked).

    >>> round(tensile_strength_jamieson(400.0))
    10973
    """
    value: FloatOrArray = scale * (density / ice_density) ** exponent
    return value


def tensile_strength_band(density: float, *, density_low: float | None = None) -> StrengthBand:
    """Give the band of the tensile strength.

    low = faceted, middle = rounded (Jamieson & Johnston), high = Sigrist

    Parameters
    ----------
    density : float [kg/m3]
        Density.
    density_low : float or None [kg/m3]
        Low end of the density, if it has a band of its own.
    Returns
    -------
    StrengthBand [Pa]
        Low, middle and high strength.
    Validity: seasonal snow; its low end is a lower bound for polar firn. Thin ledges and snow bridges fail in tension.
    Source: jamieson_johnston_1990, low and middle (from memory, unchecked); sigrist_2006, high (read second-hand).

    >>> round(tensile_strength_band(400.0).low)
    6469
    """
    low = density if density_low is None else density_low
    return StrengthBand(
        low=tensile_strength_jamieson(low, scale=58.3e3, exponent=2.65),
        middle=tensile_strength_jamieson(density),
        high=tensile_strength_sigrist(density),
    )


def shear_strength_jamieson(
    density: FloatOrArray, *, scale: float = 14.5e3, exponent: float = 1.73, ice_density: float = 917.0
) -> FloatOrArray:
    """Give the shear strength of snow layers without facets.

    tau = 14.5 kPa (rho/917)^1.73

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    scale : float [Pa]
        Strength at the density of ice.
    exponent : float [1]
        Exponent.
    ice_density : float [kg/m3]
        Density of ice.
    Returns
    -------
    float or array [Pa]
        Shear strength.
    Validity: weak layers of seasonal snow; a lower bound for polar firn.
    Source: jamieson_johnston_2001, shear strength (from memory, unchecked).

    >>> round(shear_strength_jamieson(400.0))
    3452
    """
    value: FloatOrArray = scale * (density / ice_density) ** exponent
    return value


def strength_age_factor_hobbs(age: float, reference_age: float, *, exponent: float = 0.4) -> float:
    """Give how the strength of a compact of ice grains grows with age.

    f = (t/t_1)^(2/5)

    Parameters
    ----------
    age : float [s]
        Age since the grains were put together.
    reference_age : float [s]
        Age of comparison.
    exponent : float [1]
        Exponent; 0.18 was found for the penetration resistance of snow.
    Returns
    -------
    float [1]
        Strength over strength at the reference age.
    Validity: before the envelope of well-bonded snow is reached; same temperature and density.
    Source: hobbs_1965, growth with time, as quoted in radke_hobbs_1967 (read second-hand).

    >>> round(strength_age_factor_hobbs(32.0, 1.0), 6)
    4.0
    """
    factor: float = (age / reference_age) ** exponent
    return factor


def arrhenius_factor(
    temperature: float, reference_temperature: float, activation_energy: float, *, gas_constant: float = 8.314
) -> float:
    """Give how a value that follows an Arrhenius law differs at another temperature.

    f = exp[-(Q/R)(1/T - 1/T_1)]

    Parameters
    ----------
    temperature : float [K]
        Temperature.
    reference_temperature : float [K]
        Temperature of the measurement.
    activation_energy : float [J/mol]
        Q; positive where warmth helps (hardening), negative where cold helps. No published value was found.
    gas_constant : float [J/mol/K]
        Gas constant.
    Returns
    -------
    float [1]
        Value over value at the reference temperature.
    Validity: near the temperatures at which Q was fitted.
    Source: textbook_unchecked, Arrhenius law.

    >>> round(arrhenius_factor(253.15, 263.15, 60e3), 3)
    0.338
    """
    return math.exp(-activation_energy / gas_constant * (1.0 / temperature - 1.0 / reference_temperature))
