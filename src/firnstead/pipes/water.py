"""Properties of water and steam by small published correlations, compared with a property library in the tests."""

from __future__ import annotations

_ZERO = 273.15


def density_water_kell(temperature: float) -> float:
    """Give the density of liquid water at atmospheric pressure.

    rho = (999.83952 + 16.945176 t - 7.9870401e-3 t^2 - 46.170461e-6 t^3 + 105.56302e-9 t^4 - 280.54253e-12 t^5)
    /(1 + 16.87985e-3 t), t in degC

    Parameters
    ----------
    temperature : float [K]
        Temperature.
    Returns
    -------
    float [kg/m3]
        Density.
    Validity: 273 to 373 K, 1 atm.
    Source: kell_1975, density (from memory, reproduced by computation).

    >>> round(density_water_kell(277.13), 3)
    999.972
    """
    t = temperature - _ZERO
    top = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - 280.54253e-12 * t)))
    )
    return top / (1 + 16.879850e-3 * t)


def heat_capacity_water(temperature: float) -> float:
    """Give the heat capacity of liquid water.

    c = 4217.9 - 283.4 y + 699.9 y^2 - 698.0 y^3 + 280.1 y^4, y = (T - 273.15)/100

    Parameters
    ----------
    temperature : float [K]
        Temperature.
    Returns
    -------
    float [J/kg/K]
        Heat capacity.
    Validity: 273 to 373 K; fitted to the standard formulation within 0.04 %.
    Source: iapws_95, fitted (computed).

    >>> round(heat_capacity_water(278.15), 1)
    4205.4
    """
    y = (temperature - _ZERO) / 100
    return 4217.926 + y * (-283.386 + y * (699.863 + y * (-697.966 + 280.141 * y)))


def conductivity_water(temperature: float) -> float:
    """Give the thermal conductivity of liquid water.

    k = 1.6630 y^-1.15 - 1.7781 y^-3.4 + 1.1567 y^-6 - 0.432115 y^-7.6, y = T/300

    Parameters
    ----------
    temperature : float [K]
        Temperature.
    Returns
    -------
    float [W/m/K]
        Conductivity.
    Validity: 273 to 383 K, 0.1 MPa.
    Source: iapws_liquid_2011, conductivity (from memory, reproduced by computation).

    >>> round(conductivity_water(273.15), 4)
    0.5556
    """
    y = temperature / 300
    k: float = 1.6630 * y**-1.15 - 1.7781 * y**-3.4 + 1.1567 * y**-6.0 - 0.432115 * y**-7.6
    return k


def viscosity_water(temperature: float) -> float:
    """Give the dynamic viscosity of liquid water.

    mu = 1e-6 (280.68 y^-1.9 + 511.45 y^-7.7 + 61.131 y^-19.6 + 0.45903 y^-40), y = T/300

    Parameters
    ----------
    temperature : float [K]
        Temperature.
    Returns
    -------
    float [Pa s]
        Viscosity.
    Validity: 253 to 383 K, 0.1 MPa.
    Source: iapws_liquid_2011, viscosity (from memory, reproduced by computation).

    >>> round(viscosity_water(273.15) * 1e3, 3)
    1.792
    """
    y = temperature / 300
    mu: float = 1e-6 * (280.68 * y**-1.9 + 511.45 * y**-7.7 + 61.131 * y**-19.6 + 0.45903 * y**-40.0)
    return mu


def latent_heat_steam(temperature: float) -> float:
    """Give the heat that saturated steam gives off when it condenses.

    L = 2505075 - 252684 y + 22994 y^2 - 18974 y^3, y = (T - 273.15)/100

    Parameters
    ----------
    temperature : float [K]
        Saturation temperature.
    Returns
    -------
    float [J/kg]
        Heat of condensation.
    Validity: 323 to 473 K; fitted to the standard formulation within 0.01 %.
    Source: iapws_95, fitted (computed).

    >>> round(latent_heat_steam(373.15) / 1e3)
    2256
    """
    y = (temperature - _ZERO) / 100
    return 2505075.0 + y * (-252684.0 + y * (22993.6 - 18973.6 * y))
