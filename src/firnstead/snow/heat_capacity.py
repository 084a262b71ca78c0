"""Heat capacity of ice, and the diffusivity that follows from it."""

from __future__ import annotations

from firnstead.snow._arrays import FloatOrArray


def heat_capacity_ice(temperature: FloatOrArray, *, constant: float = 146.3, slope: float = 7.253) -> FloatOrArray:
    """Give the heat capacity of ice and, per mass, of dry snow.

    c = 146.3 + 7.253 T

    Parameters
    ----------
    temperature : float or array [K]
        Temperature.
    constant : float [J/kg/K]
        Constant.
    slope : float [J/kg/K2]
        Growth with temperature.
    Returns
    -------
    float or array [J/kg/K]
        Heat capacity.
    Validity: ice below melting; the air in snow is neglected.
    Source: arrizabalaga_2025, heat capacity in the authors' code (read).

    >>> round(heat_capacity_ice(248.15), 1)
    1946.1
    """
    return constant + slope * temperature


def heat_capacity_ice_cuffey_paterson(
    temperature: FloatOrArray, *, constant: float = 152.5, slope: float = 7.122
) -> FloatOrArray:
    """Give the heat capacity of ice by another author.

    c = 152.5 + 7.122 T

    Parameters
    ----------
    temperature : float or array [K]
        Temperature.
    constant : float [J/kg/K]
        Constant.
    slope : float [J/kg/K2]
        Growth with temperature.
    Returns
    -------
    float or array [J/kg/K]
        Heat capacity.
    Validity: ice below melting.
    Source: cuffey_paterson_2010, heat capacity (from memory, unchecked).

    >>> round(heat_capacity_ice_cuffey_paterson(248.15), 1)
    1919.8
    """
    return constant + slope * temperature


def diffusivity(conductivity: FloatOrArray, density: FloatOrArray, heat_capacity: FloatOrArray) -> FloatOrArray:
    """Give the thermal diffusivity.

    kappa = k/(rho c)

    Parameters
    ----------
    conductivity : float or array [W/m/K]
        Conductivity.
    density : float or array [kg/m3]
        Density.
    heat_capacity : float or array [J/kg/K]
        Heat capacity.
    Returns
    -------
    float or array [m2/s]
        Diffusivity.
    Validity: dry snow.
    Source: textbook_unchecked, definition.

    >>> round(diffusivity(1.0699, 651.0, 1820.0) * 31557600, 2)
    28.5
    """
    return conductivity / (density * heat_capacity)
