"""Density against depth from climate (Herron & Langway 1980) and the first-guess exponential of Schytt."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firnstead.core.units import YEAR
from firnstead.snow._arrays import FloatOrArray, below, clip, exp, log

CRITICAL = 550.0  # density at which Herron & Langway's stage 1 ends [kg/m3]
WATER = 1000.0  # density of water, for metres of water equivalent [kg/m3]
JOHNSEN = (0.85, 1.15)  # shares of k0 and k1 for central Greenland, johnsen_2000 (read second-hand)


def rate_constants_herron_langway(
    temperature: float, *, factor_1: float = 11.0, energy_1: float = 10160.0, factor_2: float = 575.0,
    energy_2: float = 21400.0, stage_1_share: float = 1.0, stage_2_share: float = 1.0, gas_constant: float = 8.314,
) -> tuple[float, float]:  # fmt: skip
    """Give the densification constants of both stages.

    k0 = s1 11 exp(-10160/(R T)), k1 = s2 575 exp(-21400/(R T))

    Parameters
    ----------
    temperature : float [K]
        Mean annual temperature of the snow.
    factor_1 : float [1/m]
        Factor of stage 1, per metre of water.
    energy_1 : float [J/mol]
        Activation energy of stage 1.
    factor_2 : float [m^-0.5 yr^-0.5]
        Factor of stage 2.
    energy_2 : float [J/mol]
        Activation energy of stage 2.
    stage_1_share : float [1]
        Correction of k0 (0.85 in Johnsen et al. 2000 for central Greenland).
    stage_2_share : float [1]
        Correction of k1 (1.15 in Johnsen et al. 2000 for central Greenland).
    gas_constant : float [J/mol/K]
        Gas constant, as rounded by the authors.
    Returns
    -------
    tuple of float [1/m, m^-0.5 yr^-0.5]
        k0 and k1.
    Validity: dry snow; usually stated for -57 to -15 degC and 0.02 to 0.5 m of water a year (from memory, unchecked).
    Source: herron_langway_1980, constants (read second-hand); johnsen_2000, corrections (read second-hand).

    >>> [round(k, 5) for k in rate_constants_herron_langway(248.55)]
    [0.08056, 0.01829]
    """
    k0 = stage_1_share * factor_1 * math.exp(-energy_1 / (gas_constant * temperature))
    k1 = stage_2_share * factor_2 * math.exp(-energy_2 / (gas_constant * temperature))
    return k0, k1


def depth_of_550_herron_langway(
    temperature: float, surface_density: float, *, ice_density: float = 917.0, stage_1_share: float = 1.0,
    gas_constant: float = 8.314,
) -> float:  # fmt: skip
    """Give the depth at which stage 1 ends; it does not depend on accumulation.

    z55 = [L(550) - L(rho0)]/(rho_i k0), L(r) = ln[r/(rho_i - r)], rho_i in Mg/m3

    Parameters
    ----------
    temperature : float [K]
        Mean annual temperature of the snow.
    surface_density : float [kg/m3]
        Density at depth zero; at or above 550 the depth is zero.
    ice_density : float [kg/m3]
        Density of ice.
    stage_1_share : float [1]
        Correction of k0.
    gas_constant : float [J/mol/K]
        Gas constant.
    Returns
    -------
    float [m]
        Depth of 550 kg/m3.
    Validity: dry snow; against six Greenland cores (-32 to -21 degC) it is 3 to 20 % too shallow, and 10 kg/m3 more at
        the surface make it about 5 % shallower.
    Source: herron_langway_1980, closed form (read second-hand).

    >>> round(depth_of_550_herron_langway(228.65, 340.0, ice_density=920.0, gas_constant=8.314478), 4)
    19.2538
    """
    k0, _ = rate_constants_herron_langway(temperature, stage_1_share=stage_1_share, gas_constant=gas_constant)
    start = min(surface_density, CRITICAL)
    return (_log_ratio(CRITICAL, ice_density) - _log_ratio(start, ice_density)) / (ice_density / WATER * k0)


def depth_of_density_herron_langway(
    density: float, temperature: float, accumulation: float, surface_density: float, *, ice_density: float = 917.0,
    stage_1_share: float = 1.0, stage_2_share: float = 1.0, gas_constant: float = 8.314,
) -> float:  # fmt: skip
    """Give the depth at which a density is reached.

    z = [L(rho) - L(rho0)]/(rho_i k0) below 550, then z = z55 + [L(rho) - L(550)] sqrt(A)/(rho_i k1)

    Parameters
    ----------
    density : float [kg/m3]
        Wanted density; at or below the surface density the depth is zero.
    temperature : float [K]
        Mean annual temperature of the snow.
    accumulation : float [kg/m2/s]
        Accumulation.
    surface_density : float [kg/m3]
        Density at depth zero.
    ice_density : float [kg/m3]
        Density of ice.
    stage_1_share : float [1]
        Correction of k0.
    stage_2_share : float [1]
        Correction of k1.
    gas_constant : float [J/mol/K]
        Gas constant.
    Returns
    -------
    float [m]
        Depth.
    Validity: as rate_constants_herron_langway; densities up to about 800 kg/m3.
    Source: herron_langway_1980, closed form (read second-hand).

    >>> round(depth_of_density_herron_langway(830.0, 248.55, 350.0 / 31557600, 362.0), 1)
    76.6
    """
    if density <= surface_density:
        return 0.0
    stages = _stages(
        temperature, accumulation, surface_density, ice_density, stage_1_share, stage_2_share, gas_constant
    )
    wanted = _log_ratio(density, ice_density)
    in_stage_1 = max(min(wanted, stages.critical) - stages.start, 0.0)
    return in_stage_1 / stages.rate_1 + max(wanted - stages.critical, 0.0) / stages.rate_2


def density_herron_langway(
    depth: FloatOrArray, temperature: float, accumulation: float, surface_density: float, *, ice_density: float = 917.0,
    stage_1_share: float = 1.0, stage_2_share: float = 1.0, gas_constant: float = 8.314,
) -> FloatOrArray:  # fmt: skip
    """Give the density at a depth.

    rho = rho_i Z/(1 + Z); Z = exp[rho_i k0 z + L(rho0)] above z55, exp[rho_i k1 (z - z55)/sqrt(A) + L(550)] below

    Parameters
    ----------
    depth : float or array [m]
        Depth below the surface.
    temperature : float [K]
        Mean annual temperature of the snow.
    accumulation : float [kg/m2/s]
        Accumulation.
    surface_density : float [kg/m3]
        Density at depth zero; from 550 on the law begins in stage 2.
    ice_density : float [kg/m3]
        Density of ice.
    stage_1_share : float [1]
        Correction of k0.
    stage_2_share : float [1]
        Correction of k1.
    gas_constant : float [J/mol/K]
        Gas constant.
    Returns
    -------
    float or array [kg/m3]
        Density.
    Validity: as rate_constants_herron_langway; densities up to about 800 kg/m3.
    Source: herron_langway_1980, closed form (read second-hand).

    >>> round(density_herron_langway(10.0, 228.65, 70.0 / 31557600, 340.0, ice_density=920.0), 1)
    448.3
    """
    stages = _stages(
        temperature, accumulation, surface_density, ice_density, stage_1_share, stage_2_share, gas_constant
    )
    return ice_density / (1.0 + exp(-stages.exponent(depth)))


def mass_above_herron_langway(
    depth: FloatOrArray, temperature: float, accumulation: float, surface_density: float, *, ice_density: float = 917.0,
    stage_1_share: float = 1.0, stage_2_share: float = 1.0, gas_constant: float = 8.314,
) -> FloatOrArray:  # fmt: skip
    """Give the mass of snow above a depth, exactly (the integral of the density).

    M = (rho_w/k0) ln[(rho_i - rho0)/(rho_i - rho)] to 550, then + (rho_w sqrt(A)/k1) ln[(rho_i - 550)/(rho_i - rho)]

    Parameters
    ----------
    depth : float or array [m]
        Depth below the surface.
    temperature : float [K]
        Mean annual temperature of the snow.
    accumulation : float [kg/m2/s]
        Accumulation.
    surface_density : float [kg/m3]
        Density at depth zero.
    ice_density : float [kg/m3]
        Density of ice.
    stage_1_share : float [1]
        Correction of k0.
    stage_2_share : float [1]
        Correction of k1.
    gas_constant : float [J/mol/K]
        Gas constant.
    Returns
    -------
    float or array [kg/m2]
        Mass above the depth; divided by 1000 the depth in metres of water.
    Validity: as density_herron_langway.
    Source: herron_langway_1980, age relation times accumulation (read second-hand).

    >>> round(mass_above_herron_langway(10.0, 228.65, 70.0 / 31557600, 340.0, ice_density=920.0), 0)
    3935.0
    """
    stages = _stages(
        temperature, accumulation, surface_density, ice_density, stage_1_share, stage_2_share, gas_constant
    )
    exponent = stages.exponent(depth)
    in_stage_1 = clip(exponent, stages.start, stages.critical)
    in_stage_2 = clip(exponent, stages.critical, math.inf)
    return ice_density * (
        (_soft(in_stage_1) - _soft(stages.start)) / stages.rate_1
        + (_soft(in_stage_2) - _soft(stages.critical)) / stages.rate_2
    )


def age_herron_langway(
    depth: FloatOrArray, temperature: float, accumulation: float, surface_density: float, *, ice_density: float = 917.0,
    stage_1_share: float = 1.0, stage_2_share: float = 1.0, gas_constant: float = 8.314,
) -> FloatOrArray:  # fmt: skip
    """Give the age of the snow at a depth.

    t = M(z)/A

    Parameters
    ----------
    depth : float or array [m]
        Depth below the surface.
    temperature : float [K]
        Mean annual temperature of the snow.
    accumulation : float [kg/m2/s]
        Accumulation.
    surface_density : float [kg/m3]
        Density at depth zero.
    ice_density : float [kg/m3]
        Density of ice.
    stage_1_share : float [1]
        Correction of k0.
    stage_2_share : float [1]
        Correction of k1.
    gas_constant : float [J/mol/K]
        Gas constant.
    Returns
    -------
    float or array [s]
        Age.
    Validity: as density_herron_langway; steady climate.
    Source: herron_langway_1980, age relation (read second-hand).

    >>> round(age_herron_langway(11.26, 248.55, 350.0 / 31557600, 362.0) / 31557600, 1)
    14.7
    """
    mass = mass_above_herron_langway(
        depth, temperature, accumulation, surface_density, ice_density=ice_density, stage_1_share=stage_1_share,
        stage_2_share=stage_2_share, gas_constant=gas_constant)  # fmt: skip
    return mass / accumulation


def mean_density_herron_langway(
    top: float, bottom: float, temperature: float, accumulation: float, surface_density: float, *,
    ice_density: float = 917.0, stage_1_share: float = 1.0, stage_2_share: float = 1.0, gas_constant: float = 8.314,
) -> float:  # fmt: skip
    """Give the mean density between two depths, from the mass between them.

    rho = [M(z_2) - M(z_1)]/(z_2 - z_1)

    Parameters
    ----------
    top : float [m]
        Upper depth.
    bottom : float [m]
        Lower depth.
    temperature : float [K]
        Mean annual temperature of the snow.
    accumulation : float [kg/m2/s]
        Accumulation.
    surface_density : float [kg/m3]
        Density at depth zero.
    ice_density : float [kg/m3]
        Density of ice.
    stage_1_share : float [1]
        Correction of k0.
    stage_2_share : float [1]
        Correction of k1.
    gas_constant : float [J/mol/K]
        Gas constant.
    Returns
    -------
    float [kg/m3]
        Mean density.
    Validity: as density_herron_langway.
    Source: herron_langway_1980, age relation times accumulation (read second-hand).

    >>> round(mean_density_herron_langway(8.0, 10.0, 248.55, 350.0 / 31557600, 362.0))
    513
    """
    above, below_both = (
        mass_above_herron_langway(
            z, temperature, accumulation, surface_density, ice_density=ice_density, stage_1_share=stage_1_share,
            stage_2_share=stage_2_share, gas_constant=gas_constant)
        for z in (top, bottom)
    )  # fmt: skip
    return (below_both - above) / (bottom - top)


def density_schytt(
    depth: FloatOrArray, surface_density: float, transition_depth: float, *, ice_density: float = 917.0,
    factor: float = 1.9,
) -> FloatOrArray:  # fmt: skip
    """Give a first guess of the density at a depth; it has no physics in it.

    rho = rho_i - (rho_i - rho_s) exp(-1.9 z/z_t)

    Parameters
    ----------
    depth : float or array [m]
        Depth below the surface.
    surface_density : float [kg/m3]
        Density at depth zero.
    transition_depth : float [m]
        Depth at which firn turns into ice.
    ice_density : float [kg/m3]
        Density of ice.
    factor : float [1]
        Factor in the exponent.
    Returns
    -------
    float or array [kg/m3]
        Density.
    Validity: rough; only where nothing else is known.
    Source: schytt_1958, exponential (read second-hand).

    >>> round(density_schytt(10.0, 350.0, 68.0), 1)
    488.2
    """
    return ice_density - (ice_density - surface_density) * exp(-factor / transition_depth * depth)


@dataclass(frozen=True)
class _Stages:
    """L(rho) = ln[rho/(rho_i - rho)] grows in a straight line with depth in each stage."""

    start: float
    critical: float
    border: float
    rate_1: float
    rate_2: float

    def exponent(self, depth: FloatOrArray) -> FloatOrArray:
        in_stage_1 = self.start + self.rate_1 * depth
        return below(depth, self.border, in_stage_1, self.critical + self.rate_2 * (depth - self.border))


def _stages(
    temperature: float, accumulation: float, surface_density: float, ice_density: float, stage_1_share: float,
    stage_2_share: float, gas_constant: float,
) -> _Stages:  # fmt: skip
    k0, k1 = rate_constants_herron_langway(
        temperature, stage_1_share=stage_1_share, stage_2_share=stage_2_share, gas_constant=gas_constant)  # fmt: skip
    start = _log_ratio(surface_density, ice_density)
    critical = max(_log_ratio(CRITICAL, ice_density), start)
    rate_1 = ice_density / WATER * k0
    rate_2 = ice_density / WATER * k1 / math.sqrt(accumulation * YEAR / WATER)
    return _Stages(start, critical, (critical - start) / rate_1, rate_1, rate_2)


def _log_ratio(density: float, ice_density: float) -> float:
    return math.log(density / (ice_density - density))


def _soft(x: FloatOrArray) -> FloatOrArray:
    """ln[(rho_i - 0)/(rho_i - rho)] written in L(rho), so that it stays exact where rho nears rho_i."""
    return x + log(1.0 + exp(-x))
