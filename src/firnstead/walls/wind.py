"""Wind pressure on a standing wall at the height of the station."""

from __future__ import annotations

from math import exp, log

from firnstead.core.units import G0

AIR_GAS_CONSTANT = 287.05  # J/kg/K, dry air
SEA_LEVEL_PRESSURE = 101325.0  # Pa, standard atmosphere


def air_pressure_standard(
    elevation: float, sea_level_pressure: float = SEA_LEVEL_PRESSURE, sea_level_temperature: float = 288.15,
    lapse: float = 0.0065,
) -> float:  # fmt: skip
    """Give the air pressure at a height in the standard atmosphere.

    p = p_0 (1 - L z/T_0)^(g/(R L))

    Parameters
    ----------
    elevation : float [m]
        Height above sea level.
    sea_level_pressure : float [Pa]
        Pressure at sea level.
    sea_level_temperature : float [K]
        Temperature at sea level.
    lapse : float [K/m]
        Fall of temperature with height.
    Returns
    -------
    float [Pa]
        Air pressure.
    Validity: below 11 km. A cold air column is denser, so the true pressure on an ice sheet is lower: safe side here.
    Source: standard_atmosphere (from memory, unchecked).

    >>> round(air_pressure_standard(2000.0) / 100, 1)
    795.0
    """
    return sea_level_pressure * exp(
        G0 / (AIR_GAS_CONSTANT * lapse) * log(1.0 - lapse * elevation / sea_level_temperature)
    )


def air_density(pressure: float, temperature: float, gas_constant: float = AIR_GAS_CONSTANT) -> float:
    """Give the density of dry air.

    rho = p/(R T)

    Parameters
    ----------
    pressure : float [Pa]
        Air pressure.
    temperature : float [K]
        Air temperature.
    gas_constant : float [J/kg/K]
        Gas constant of dry air.
    Returns
    -------
    float [kg/m3]
        Density of the air.
    Validity: dry air; blowing snow adds a few per cent in a storm.
    Source: textbook_unchecked, ideal gas (from memory, unchecked).

    >>> round(air_density(79495.0, 249.15), 3)
    1.112
    """
    return pressure / (gas_constant * temperature)


def wind_pressure(density: float, speed: float, coefficient: float) -> float:
    """Give the net wind pressure on a wall.

    p = c rho v^2/2

    Parameters
    ----------
    density : float [kg/m3]
        Density of the air.
    speed : float [m/s]
        Wind speed that acts on the wall, gusts included.
    coefficient : float [1]
        Net pressure coefficient, windward and lee side together.
    Returns
    -------
    float [Pa]
        Pressure over the whole face.
    Validity: steady wind on a wall that stands in the open; inside a cut it is less.
    Source: textbook_unchecked, dynamic pressure (from memory, unchecked).

    >>> round(wind_pressure(1.1, 25.0, 1.3), 1)
    446.9
    """
    return 0.5 * coefficient * density * speed**2
