"""Properties of water and ice that the well needs. Temperatures of water are given as kelvin above melting."""

from __future__ import annotations

import math

MELTING = 273.15  # [K]
LATENT = 333.43e3  # J/kg at 0 degC: IAPWS-95 water less IAPWS-06 ice (computed)
WATER_HEAT = 4200.0  # J/kg/K: mean of liquid water from 0 to 50 degC within 0.5 % (computed, IAPWS-95)
WATER_DENSITY = 1000.0  # [kg/m3]
ICE_DENSITY = 917.0  # [kg/m3]
DENSEST = 3.98  # K above melting at which water is densest (computed, from the density below)


def water_density_kell(warmth: float) -> float:
    """Give the density of liquid water at one atmosphere.

    rho = (999.83952 + 16.945176 t - 7.9870401e-3 t^2 - 46.170461e-6 t^3 + 105.56302e-9 t^4 - 280.54253e-12 t^5)
    /(1 + 16.87985e-3 t)

    Parameters
    ----------
    warmth : float [K]
        Temperature above melting.
    Returns
    -------
    float [kg/m3]
        Density.
    Validity: air-free water, 0 to 100 K above melting; within 0.005 kg/m3 of IAPWS-95 up to 60 K.
    Source: kell_1975, density (from memory, reproduced by computation).

    >>> round(water_density_kell(3.98), 3), round(water_density_kell(8.13) - water_density_kell(0.0), 3)
    (999.972, 0.001)
    """
    t = warmth
    above = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))
    )
    return above / (1.0 + 16.87985e-3 * t)


def water_conductivity(warmth: float) -> float:
    """Give the thermal conductivity of liquid water.

    k = 0.55676 + 2.2882e-3 t - 1.2154e-5 t^2

    Parameters
    ----------
    warmth : float [K]
        Temperature above melting.
    Returns
    -------
    float [W/m/K]
        Conductivity.
    Validity: 0 to 60 K above melting, within 0.2 %.
    Source: iapws_95, fitted to the library values (computed).

    >>> round(water_conductivity(0.0), 3)
    0.557
    """
    return 0.55676 + warmth * (2.2882e-3 - 1.2154e-5 * warmth)


def water_viscosity(warmth: float) -> float:
    """Give the dynamic viscosity of liquid water.

    mu = exp(-6.327379 - 3.376288e-2 t + 2.66594e-4 t^2 - 1.295566e-6 t^3)

    Parameters
    ----------
    warmth : float [K]
        Temperature above melting.
    Returns
    -------
    float [Pa s]
        Viscosity.
    Validity: 0 to 60 K above melting, within 0.3 %.
    Source: iapws_95, fitted to the library values (computed).

    >>> round(water_viscosity(0.0) * 1e3, 3)
    1.787
    """
    return math.exp(-6.327379 + warmth * (-3.376288e-2 + warmth * (2.66594e-4 - 1.295566e-6 * warmth)))


def sensible_heat_ice(temperature: float, *, constant: float = 152.5, slope: float = 7.122) -> float:
    """Give the heat that warms ice to the melting point.

    s = 152.5 (T_m - T) + 3.561 (T_m^2 - T^2)

    Parameters
    ----------
    temperature : float [K]
        Temperature of the ice.
    constant : float [J/kg/K]
        Constant of the heat capacity.
    slope : float [J/kg/K2]
        Growth of the heat capacity with temperature.
    Returns
    -------
    float [J/kg]
        Sensible heat; negative above melting.
    Validity: ice down to about -80 degC; within 0.4 % of IAPWS-06.
    Source: cuffey_paterson_2010, eq. 9.1, integrated (read second-hand).

    >>> round(sensible_heat_ice(222.15))
    97729
    """
    return constant * (MELTING - temperature) + slope / 2 * (MELTING**2 - temperature**2)


def conduction_integral_ice(cold: float, warm: float, *, factor: float = 9.828, decay: float = 0.0057) -> float:
    """Give the integral of the conductivity of ice between two temperatures.

    K = (9.828/0.0057) (exp(-0.0057 T_1) - exp(-0.0057 T_2))

    Parameters
    ----------
    cold : float [K]
        Lower temperature T_1.
    warm : float [K]
        Upper temperature T_2.
    factor : float [W/m/K]
        Factor of the conductivity.
    decay : float [1/K]
        Fall of the conductivity with temperature.
    Returns
    -------
    float [W/m]
        Integral K: mean conductivity times the difference of temperature.
    Validity: solid ice; firn conducts less, so the loss is not understated.
    Source: yen_1981, via cuffey_paterson_2010 eq. 9.2, integrated (read second-hand).

    >>> round(conduction_integral_ice(193.15, 273.15), 2)
    209.97
    """
    return factor / decay * (math.exp(-decay * cold) - math.exp(-decay * warm))
