"""Thermal conductivity of snow and firn by several authors.

Calonne et al. 2019 is the default choice; Sturm is for seasonal snow and about 35 % low for polar firn.
"""

from __future__ import annotations

from firnstead.snow._arrays import FloatOrArray, exp


def conductivity_ice_yen(temperature: FloatOrArray) -> FloatOrArray:
    """Give the thermal conductivity of ice.

    k_i = 9.828 exp(-0.0057 T)

    Parameters
    ----------
    temperature : float or array [K]
        Temperature.
    Returns
    -------
    float or array [W/m/K]
        Conductivity of ice.
    Validity: pure ice, 195 to 273 K.
    Source: yen_1981, ice (read second-hand).

    >>> round(conductivity_ice_yen(248.15), 3)
    2.389
    """
    return 9.828 * exp(-0.0057 * temperature)


def conductivity_calonne_2011(density: FloatOrArray) -> FloatOrArray:
    """Give the conductivity of snow.

    k = 0.024 - 1.23e-4 rho + 2.5e-6 rho^2

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    Returns
    -------
    float or array [W/m/K]
        Conductivity.
    Validity: 100 to 550 kg/m3, about -2 degC.
    Source: calonne_2011, regression (read second-hand).

    >>> round(conductivity_calonne_2011(400.0), 3)
    0.375
    """
    return 0.024 - 1.23e-4 * density + 2.5e-6 * density * density


def conductivity_calonne_2019(
    density: FloatOrArray, temperature: FloatOrArray, *, ice_density: float = 917.0, air: float = 0.024,
    air_reference: float = 0.024, ice_reference: float = 2.107,
) -> FloatOrArray:  # fmt: skip
    """Give the conductivity of snow, firn and porous ice; the default choice.

    k = (1 - th) k_i k_a/(2.107 0.024) k_snow + th k_i/2.107 k_firn; th = 1/(1 + exp(-0.04 (rho - 450)));
    k_firn = 2.107 + 0.003618 (rho - rho_i); k_snow as Calonne 2011; k_i as Yen

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    temperature : float or array [K]
        Temperature.
    ice_density : float [kg/m3]
        Density of ice.
    air : float [W/m/K]
        Conductivity of air at the temperature.
    air_reference : float [W/m/K]
        Conductivity of air at the authors' reference temperature.
    ice_reference : float [W/m/K]
        Conductivity of ice at the authors' reference temperature.
    Returns
    -------
    float or array [W/m/K]
        Conductivity.
    Validity: 0 to 917 kg/m3; other laws differ from it by a third at the same density.
    Source: calonne_2019, eq. 5 (read second-hand).

    >>> round(conductivity_calonne_2019(500.0, 248.15), 3)
    0.677
    """
    share = 1.0 / (1.0 + exp(-0.04 * (density - 450.0)))
    ice = conductivity_ice_yen(temperature) / ice_reference
    firn = ice_reference + 0.003618 * (density - ice_density)
    return (1.0 - share) * ice * (air / air_reference) * conductivity_calonne_2011(density) + share * ice * firn


def conductivity_yen_power(density: FloatOrArray, *, factor: float = 2.22362, exponent: float = 1.885) -> FloatOrArray:
    """Give the conductivity of snow as a power of its density.

    k = 2.22362 r^1.885, r in Mg/m3

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    factor : float [W/m/K]
        Conductivity at 1000 kg/m3.
    exponent : float [1]
        Exponent.
    Returns
    -------
    float or array [W/m/K]
        Conductivity.
    Validity: seasonal snow to ice.
    Source: yen_1981, eq. 34 (read second-hand).

    >>> round(conductivity_yen_power(500.0), 3)
    0.602
    """
    value: FloatOrArray = factor * (density / 1000.0) ** exponent
    return value


def conductivity_yen_temperature(density: FloatOrArray, temperature: FloatOrArray) -> FloatOrArray:
    """Give the conductivity of snow from density and temperature.

    k = 0.0688 exp(0.0088 T_C + 4.6682 r), r in Mg/m3, T_C in degC

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    temperature : float or array [K]
        Temperature.
    Returns
    -------
    float or array [W/m/K]
        Conductivity.
    Validity: snow; spread not stated.
    Source: yen_1981, eq. 35 (read second-hand).

    >>> round(conductivity_yen_temperature(400.0, 263.15), 3)
    0.408
    """
    return 0.0688 * exp(0.0088 * (temperature - 273.15) + 4.6682e-3 * density)


def conductivity_sturm_quadratic(density: FloatOrArray) -> FloatOrArray:
    """Give the conductivity of seasonal snow.

    k = 0.138 - 1.01 r + 3.233 r^2, r in Mg/m3

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    Returns
    -------
    float or array [W/m/K]
        Conductivity.
    Validity: 156 to 600 kg/m3, seasonal snow; about 35 % low for polar firn.
    Source: sturm_1997, quadratic (read second-hand).

    >>> round(conductivity_sturm_quadratic(500.0), 3)
    0.441
    """
    r = density / 1000.0
    return 0.138 - 1.01 * r + 3.233 * r * r


def conductivity_sturm_logarithmic(density: FloatOrArray) -> FloatOrArray:
    """Give the conductivity of seasonal snow, logarithmic form.

    k = 10^(2.650 r - 1.652), r in Mg/m3

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    Returns
    -------
    float or array [W/m/K]
        Conductivity.
    Validity: up to 600 kg/m3, seasonal snow.
    Source: sturm_1997, logarithmic form (from memory, unchecked).

    >>> round(conductivity_sturm_logarithmic(400.0), 3)
    0.256
    """
    value: FloatOrArray = 10.0 ** (2.650e-3 * density - 1.652)
    return value


def conductivity_anderson(density: FloatOrArray) -> FloatOrArray:
    """Give the conductivity of snow.

    k = 0.021 + 2.5 r^2, r in Mg/m3

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    Returns
    -------
    float or array [W/m/K]
        Conductivity.
    Validity: snow covers; range not stated in what was read.
    Source: anderson_1976, conductivity (read second-hand).

    >>> round(conductivity_anderson(400.0), 3)
    0.421
    """
    return 0.021 + 2.5e-6 * density * density


def conductivity_van_dusen(density: FloatOrArray) -> FloatOrArray:
    """Give a lower bound of the conductivity of snow.

    k = 0.021 + 4.2e-4 rho + 2.2e-9 rho^3

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    Returns
    -------
    float or array [W/m/K]
        Conductivity.
    Validity: lower bound of measurements.
    Source: van_dusen_1929, conductivity (read second-hand).

    >>> round(conductivity_van_dusen(400.0), 3)
    0.33
    """
    return 0.021 + 4.2e-4 * density + 2.2e-9 * density * density * density


def conductivity_schwerdtfeger(
    density: FloatOrArray, temperature: FloatOrArray, *, ice_density: float = 917.0
) -> FloatOrArray:
    """Give an upper bound of the conductivity of snow.

    k = 2 k_i rho/(3 rho_i - rho)

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    temperature : float or array [K]
        Temperature, for the conductivity of ice.
    ice_density : float [kg/m3]
        Density of ice.
    Returns
    -------
    float or array [W/m/K]
        Conductivity.
    Validity: upper bound (air bubbles in ice).
    Source: schwerdtfeger_1963, conductivity (read second-hand).

    >>> round(conductivity_schwerdtfeger(400.0, 248.15), 3)
    0.813
    """
    return 2.0 * conductivity_ice_yen(temperature) * density / (3.0 * ice_density - density)


def conductivity_oster_albert(density: FloatOrArray) -> FloatOrArray:
    """Give the measured conductivity of polar firn from its density.

    k = 0.144 exp(0.00308 rho)

    Parameters
    ----------
    density : float or array [kg/m3]
        Density.
    Returns
    -------
    float or array [W/m/K]
        Conductivity.
    Validity: polar firn from 4 to 48 m depth at one very cold site; single samples scatter.
    Source: oster_albert_2022, fit to density (abstract read).

    >>> round(conductivity_oster_albert(500.0), 3)
    0.672
    """
    return 0.144 * exp(0.00308 * density)


def conductivity_oster_albert_depth(depth: FloatOrArray) -> FloatOrArray:
    """Give the measured conductivity of polar firn from its depth.

    k = 0.536 exp(0.0144 z)

    Parameters
    ----------
    depth : float or array [m]
        Depth below the surface.
    Returns
    -------
    float or array [W/m/K]
        Conductivity.
    Validity: 4 to 48 m depth at one very cold site; not to be carried to another density profile.
    Source: oster_albert_2022, fit to depth (abstract read).

    >>> round(conductivity_oster_albert_depth(48.0), 4)
    1.0699
    """
    return 0.536 * exp(0.0144 * depth)
