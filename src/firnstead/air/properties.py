"""Air at the station: density, pressure against height, oxygen."""

from __future__ import annotations

from firnstead.core.units import G0

GAS_CONSTANT = 8.314462618  # J/(mol K), exact
AIR_GAS_CONSTANT = 287.05  # J/(kg K), dry air
AIR_MOLAR_MASS = GAS_CONSTANT / AIR_GAS_CONSTANT  # kg/mol, so that both constants say the same
SEA_LEVEL = 101325.0  # Pa, standard atmosphere


def air_density(pressure: float, temperature: float, *, gas_constant: float = AIR_GAS_CONSTANT) -> float:
    """Give the density of dry air.

    rho = p/(R T)

    Parameters
    ----------
    pressure : float [Pa]
        Air pressure p at the station.
    temperature : float [K]
        Air temperature T.
    gas_constant : float [J/(kg K)]
        Gas constant R of dry air.
    Returns
    -------
    float [kg/m3]
        Density.
    Validity: dry air; moisture of cold air changes it by less than half a percent.
    Source: textbook_unchecked, ideal gas.

    >>> round(air_density(70000.0, 248.15), 3)
    0.983
    """
    return pressure / (gas_constant * temperature)


def pressure_standard(height: float, *, sea_level: float = SEA_LEVEL) -> float:
    """Give the air pressure of the standard atmosphere at a height above the sea.

    p = p0 (1 - 2.25577e-5 h)^5.25588

    Parameters
    ----------
    height : float [m]
        Height h above the sea.
    sea_level : float [Pa]
        Pressure p0 at sea level.
    Returns
    -------
    float [Pa]
        Pressure.
    Validity: 0 to 11 km of the standard atmosphere; the cold air column over an ice sheet is shorter, so the real
        pressure is lower than this: measure it.
    Source: standard_atmosphere (from memory, unchecked).

    >>> round(pressure_standard(2700.0))
    72825
    """
    return float(sea_level * (1 - 2.25577e-5 * height) ** 5.25588)


def altitude_of_pressure(pressure: float, *, sea_level: float = SEA_LEVEL) -> float:
    """Give the height in the standard atmosphere that has this air pressure.

    h = (1 - (p/p0)^(1/5.25588))/2.25577e-5

    Parameters
    ----------
    pressure : float [Pa]
        Air pressure p at the station.
    sea_level : float [Pa]
        Pressure p0 at sea level.
    Returns
    -------
    float [m]
        Pressure altitude.
    Validity: below 11 km; on an ice sheet it lies several hundred metres above the height over the sea.
    Source: standard_atmosphere (from memory, unchecked; reproduces logged pairs).

    >>> round(altitude_of_pressure(68600.0))
    3171
    """
    return float((1.0 - (pressure / sea_level) ** (1.0 / 5.25588)) / 2.25577e-5)


def oxygen_pressure(pressure: float, *, share: float = 0.2095) -> float:
    """Give the partial pressure of oxygen in dry fresh air.

    pO2 = 0.2095 p

    Parameters
    ----------
    pressure : float [Pa]
        Air pressure p at the station.
    share : float [1]
        Share of oxygen in fresh air.
    Returns
    -------
    float [Pa]
        Partial pressure of oxygen.
    Validity: dry fresh air.
    Source: textbook_unchecked.

    >>> round(oxygen_pressure(70000.0))
    14665
    """
    return share * pressure


def oxygen_share_felt(pressure: float, *, share: float = 0.2095, sea_level: float = SEA_LEVEL) -> float:
    """Give the share of oxygen at sea level that has the same partial pressure as fresh air at the station.

    s = 0.2095 p/p0

    Parameters
    ----------
    pressure : float [Pa]
        Air pressure p at the station.
    share : float [1]
        Share of oxygen in fresh air.
    sea_level : float [Pa]
        Pressure p0 at sea level.
    Returns
    -------
    float [1]
        Share at sea level.
    Validity: dry fresh air; says nothing of how well a person is used to the altitude.
    Source: textbook_unchecked.

    >>> round(oxygen_share_felt(pressure_standard(3000.0)), 4)
    0.145
    """
    return share * pressure / sea_level


def moles_of_flow(flow: float, pressure: float, temperature: float) -> float:
    """Give the amount of gas in a volume flow.

    n = V p/(R T)

    Parameters
    ----------
    flow : float [m3/s]
        Volume flow V.
    pressure : float [Pa]
        Pressure p at which it is stated.
    temperature : float [K]
        Temperature T at which it is stated.
    Returns
    -------
    float [mol/s]
        Amount of gas.
    Validity: ideal gas.
    Source: textbook_unchecked, ideal gas.

    >>> round(moles_of_flow(0.31e-3 / 60, 101325.0, 293.15) * 1e4, 3)
    2.148
    """
    return flow * pressure / (GAS_CONSTANT * temperature)


def head_of_air(height: float, density: float, *, gravity: float = G0) -> float:
    """Give the pressure that a column of air puts on its foot.

    p = rho g h

    Parameters
    ----------
    height : float [m]
        Height h of the column.
    density : float [kg/m3]
        Density rho of the air in it.
    gravity : float [m/s2]
        Acceleration g of gravity.
    Returns
    -------
    float [Pa]
        Pressure.
    Validity: short columns, in which the density does not change.
    Source: statics.

    >>> round(head_of_air(10.0, 1.2), 2)
    117.68
    """
    return density * gravity * height
