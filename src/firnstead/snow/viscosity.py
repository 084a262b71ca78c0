"""Compaction of a steady column (Sorge), and compactive viscosity: vertical strain rate = stress/viscosity."""

from __future__ import annotations

from firnstead.core.units import G0
from firnstead.snow._arrays import FloatOrArray, exp


def viscosity_crocus(
    density: FloatOrArray, temperature: FloatOrArray, *, reference: float = 7.62237e6, density_scale: float = 250.0,
    temperature_factor: float = 0.1, density_factor: float = 0.023, water_factor: float = 1.0,
    grain_factor: float = 4.0,
) -> FloatOrArray:  # fmt: skip
    """Give the compactive viscosity as in the Crocus snow scheme.

    eta = f1 f2 eta0 (rho/c) exp[0.1 (273.15 - T) + 0.023 rho]

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    temperature : float or array [K]
        Temperature.
    reference : float [Pa s]
        eta0.
    density_scale : float [kg/m3]
        c (358 in van Kampenhout 2017).
    temperature_factor : float [1/K]
        Growth with cold.
    density_factor : float [m3/kg]
        Growth with density.
    water_factor : float [1]
        f1; 1 for dry snow.
    grain_factor : float [1]
        f2; 4 without angular grains.
    Returns
    -------
    float or array [Pa s]
        Viscosity.
    Validity: dry snow of low density under small load; firn under 10 to 60 kPa creeps faster than linearly.
    Source: vionnet_2012, compaction (read second-hand).

    >>> f"{viscosity_crocus(400.0, 248.15):.2e}"
    '5.88e+12'
    """
    growth = exp(temperature_factor * (273.15 - temperature) + density_factor * density)
    return water_factor * grain_factor * reference / density_scale * density * growth


def viscosity_yamazaki(
    density: FloatOrArray, temperature: FloatOrArray, *, reference: float = 6.9e5, density_factor: float = 2.1e-2,
    temperature_factor: float = 0.0958, gravity: float = G0,
) -> FloatOrArray:  # fmt: skip
    """Give the compactive viscosity by another author; DOUBTFUL: public code prints a tenth of the density factor.

    eta = 6.9e5 g exp(K rho - 0.0958 T_C), K = 2.1e-2 m3/kg (printed elsewhere as 2.1e-3)

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    temperature : float or array [K]
        Temperature.
    reference : float [kg s/m2]
        Factor.
    density_factor : float [m3/kg]
        K.
    temperature_factor : float [1/K]
        Growth with cold.
    gravity : float [m/s2]
        Acceleration of gravity, from kg s/m2 to Pa s.
    Returns
    -------
    float or array [Pa s]
        Viscosity.
    Validity: not to be used for a verdict until the publication has been read.
    Source: yamazaki_1993, viscosity (from memory, unchecked).

    >>> f"{viscosity_yamazaki(400.0, 248.15):.2e}"
    '3.30e+11'
    """
    return reference * gravity * exp(density_factor * density - temperature_factor * (temperature - 273.15))


def compaction_rate_sorge(density: FloatOrArray, density_gradient: FloatOrArray, accumulation: float) -> FloatOrArray:
    """Give the vertical strain rate of a layer when the depth-density curve stays fixed in time.

    e_zz = -(A/rho^2) d rho/dz

    Parameters
    ----------
    density : float or array [kg/m3]
        Density of the layer.
    density_gradient : float or array [kg/m4]
        Growth of density with depth.
    accumulation : float [kg/m2/s]
        Accumulation.
    Returns
    -------
    float or array [1/s]
        Strain rate, negative: the layer thins.
    Validity: steady climate, dry snow.
    Source: bader_1954, Sorge's law (read second-hand).

    >>> round(compaction_rate_sorge(450.0, 17.0, 350.0 / 31557600) * 31557600, 4)
    -0.0294
    """
    return -accumulation * density_gradient / (density * density)


def viscosity_sorge(
    density: FloatOrArray, density_gradient: FloatOrArray, overburden: FloatOrArray, accumulation: float
) -> FloatOrArray:
    """Give the compactive viscosity that a site's own steady profile shows.

    eta = sigma rho^2/(A d rho/dz)

    Parameters
    ----------
    density : float or array [kg/m3]
        Density at a depth.
    density_gradient : float or array [kg/m4]
        Growth of density with depth there.
    overburden : float or array [Pa]
        Vertical stress there.
    accumulation : float [kg/m2/s]
        Accumulation.
    Returns
    -------
    float or array [Pa s]
        Viscosity.
    Validity: steady climate; at the site's own load history only.
    Source: bader_1954, Sorge's law (read second-hand).

    >>> f"{viscosity_sorge(445.0, 16.8, 20700.0, 350.0 / 31557600):.1e}"
    '2.2e+13'
    """
    return overburden * density * density / (accumulation * density_gradient)
