"""Air and gases: density, share by volume, pressure from height."""

from __future__ import annotations

from firnstead.fire._arrays import Floats

AIR_CONSTANT = 287.05  # J/(kg K), dry air
GAS_CONSTANT = 8.314  # J/(mol K)
MOLAR_CO = 0.02801  # kg/mol
MOLAR_CO2 = 0.04401  # kg/mol
OXYGEN_SHARE = 0.2095  # of dry air, by volume


def air_density(pressure: float, temperature: float) -> float:
    """Give the density of dry air.

    rho = P/(R T)

    Parameters
    ----------
    pressure : float [Pa]
        Air pressure P.
    temperature : float [K]
        Temperature T.
    Returns
    -------
    float [kg/m3]
        Density.
    Validity: ideal gas.
    Source: textbook_unchecked, ideal gas (from memory, unchecked).

    >>> round(air_density(101325.0, 293.15), 3)
    1.204
    """
    return pressure / (AIR_CONSTANT * temperature)


def volume_share(concentration: Floats, molar_mass: float, pressure: float, temperature: Floats) -> Floats:
    """Give the share by volume of a gas from its mass in each cubic metre.

    x = c R T/(M P)

    Parameters
    ----------
    concentration : Floats [kg/m3]
        Mass of the gas in each cubic metre of air.
    molar_mass : float [kg/mol]
        Molar mass M.
    pressure : float [Pa]
        Air pressure P.
    temperature : Floats [K]
        Temperature T of the air.
    Returns
    -------
    Floats [1]
        Share; times 1e6 it is ppm.
    Validity: ideal gas.
    Source: textbook_unchecked, ideal gas (from memory, unchecked).

    >>> round(volume_share(1.165e-3, 0.02801, 101325.0, 293.15) * 1e6)
    1000
    """
    return concentration * GAS_CONSTANT * temperature / (molar_mass * pressure)


def pressure_standard_atmosphere(elevation: float) -> float:
    """Give the air pressure of the standard atmosphere.

    P = 101325 (1 - 2.25577e-5 h)^5.25588

    Parameters
    ----------
    elevation : float [m]
        Height h above the sea.
    Returns
    -------
    float [Pa]
        Pressure.
    Validity: below 11 km; on an ice sheet the true pressure is lower than this by that of several hundred metres.
    Source: standard_atmosphere, closed form (from memory, unchecked).

    >>> round(pressure_standard_atmosphere(2700.0))
    72825
    """
    return float(101325.0 * (1 - 2.25577e-5 * elevation) ** 5.25588)


def oxygen_equivalent(share: Floats, pressure: float) -> Floats:
    """Give the oxygen as percent of air at sea level that has the same pressure of oxygen.

    O_2 = 100 x P/101325

    Parameters
    ----------
    share : Floats [1]
        Share x of oxygen by volume.
    pressure : float [Pa]
        Air pressure P.
    Returns
    -------
    Floats [1]
        Percent.
    Validity: people who are not used to the height; the dose laws were never tried at height.
    Source: own_rule, oxygen by its pressure.

    >>> round(oxygen_equivalent(0.2095, 70121.0), 1)
    14.5
    """
    return 100 * share * pressure / 101325.0
