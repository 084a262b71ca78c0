"""Pressure of hot smoke on doors, air that holds smoke back, the speed of smoke under a roof, leaks."""

from __future__ import annotations

from collections.abc import Sequence

GRAVITY = 9.80665
AIR_CONSTANT = 287.05  # J/(kg K), dry air
HEAT_CAPACITY = 1005.0  # J/(kg K), dry air


def pressure_stack(height: float, colder: float, warmer: float, pressure: float = 101325.0,
                   *, coefficient: float = 0.034163) -> float:  # fmt: skip
    """Give the pressure difference that a warm column of air makes.

    dp = 0.034163 P z (1/T_o - 1/T_i)

    Parameters
    ----------
    height : float [m]
        Height z above the level of no difference.
    colder : float [K]
        Temperature T_o outside the column.
    warmer : float [K]
        Temperature T_i in it.
    pressure : float [Pa]
        Air pressure P.
    coefficient : float [K/m]
        g over the gas constant of air.
    Returns
    -------
    float [Pa]
        Pressure difference; negative where the column is the colder one.
    Validity: still air, one temperature on each side.
    Source: sfpe_handbook_5, eq. 50.1 and 50.2 (read second-hand).

    >>> round(pressure_stack(30.0, 255.15, 294.15), 1)
    54.0
    """
    return coefficient * pressure * height * (1 / colder - 1 / warmer)


def door_force(closer: float, width: float, height: float, difference: float, knob: float = 0.076) -> float:
    """Give the force at the knob that opens a door against a pressure difference.

    F = F_c + W A dp/(2 (W - d))

    Parameters
    ----------
    closer : float [N]
        Force F_c to overcome the closer and friction.
    width : float [m]
        Width W of the door.
    height : float [m]
        Height of the door.
    difference : float [Pa]
        Pressure difference dp.
    knob : float [m]
        Distance d of the knob from the edge.
    Returns
    -------
    float [N]
        Force.
    Validity: hinged door, even pressure. Ice on the frame and a settled frame are not in it.
    Source: sfpe_handbook_5, eq. 50.14 (read second-hand).

    >>> round(door_force(40.0, 0.9144, 2.1336, 87.2, 0.0762), 1)
    132.8
    """
    return closer + width * (width * height) * difference / (2 * (width - knob))


def critical_velocity_thomas(
    rate: float, width: float, density: float, temperature: float,
    *, factor: float = 1.0, gravity: float = GRAVITY, heat_capacity: float = HEAT_CAPACITY,
) -> float:  # fmt: skip
    """Give the air speed in a passage that just holds smoke back.

    v = K (g Q/(w rho c_p T))^(1/3)

    Parameters
    ----------
    rate : float [W]
        Heat release rate into the passage Q.
    width : float [m]
        Width of the passage.
    density : float [kg/m3]
        Density of the air upstream.
    temperature : float [K]
        Temperature T of the smoke.
    factor : float [1]
        Factor K, about 1.
    gravity : float [m/s2]
        Gravity.
    heat_capacity : float [J/(kg K)]
        Heat capacity of the smoke.
    Returns
    -------
    float [m/s]
        Air speed.
    Validity: level passage of even section; more is needed downhill.
    Source: cibse_guide_e, eq. 10.12 (read second-hand).

    >>> round(critical_velocity_thomas(1000e3, 2.5, 1.2, 773.0, gravity=9.8, heat_capacity=1000.0), 4)
    1.6167
    """
    return float(factor * (gravity * rate / (width * density * heat_capacity * temperature)) ** (1 / 3))


def front_speed(convective: float, width: float, pressure: float, *, factor: float = 1.0) -> float:
    """Give the speed at which smoke runs along under the roof of a passage.

    u = K (g R Q_c/(w c_p P))^(1/3)

    Parameters
    ----------
    convective : float [W]
        Convective heat that goes this way Q_c.
    width : float [m]
        Width w of the passage.
    pressure : float [Pa]
        Air pressure P.
    factor : float [1]
        Factor K, about 1.
    Returns
    -------
    float [m/s]
        Speed.
    Validity: still air, level passage; no heat is lost to the snow, so the front comes too early, not too late.
    The law of the air speed that just holds smoke back, read the other way round, with rho T = P/R.
    Source: cibse_guide_e, eq. 10.12 (read second-hand); own_rule, taken as the speed in still air.

    >>> round(front_speed(700e3, 6.2, 101325.0), 2)
    1.46
    """
    return float(factor * (GRAVITY * AIR_CONSTANT * convective / (width * HEAT_CAPACITY * pressure)) ** (1 / 3))


def expansion_flow(convective: float, pressure: float) -> float:
    """Give the volume that heating adds to the air each second.

    e = R Q_c/(c_p P)

    Parameters
    ----------
    convective : float [W]
        Convective heat Q_c.
    pressure : float [Pa]
        Air pressure P.
    Returns
    -------
    float [m3/s]
        Volume flow.
    Validity: no heat lost to the walls, so an upper bound; ideal gas at steady pressure.
    Source: statics, ideal gas.

    >>> round(expansion_flow(1e6, 101325.0), 2)
    2.82
    """
    return AIR_CONSTANT * convective / (HEAT_CAPACITY * pressure)


def leakage_in_series(areas: Sequence[float]) -> float:
    """Give the leakage area that stands for several one behind the other.

    A = (sum 1/A_i^2)^(-1/2)

    Parameters
    ----------
    areas : Sequence[float] [m2]
        Leakage areas.
    Returns
    -------
    float [m2]
        Leakage area of them all.
    Validity: one flow through all of them.
    Source: sfpe_handbook_5, chapter 50 (read second-hand).

    >>> round(leakage_in_series([0.02, 0.02]), 5)
    0.01414
    """
    if min(areas) <= 0:
        return 0.0
    return float(sum(1 / area**2 for area in areas) ** -0.5)
