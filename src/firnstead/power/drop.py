"""Currents and voltage drop by hand: one feeder, one load."""

from __future__ import annotations

from math import sqrt

PHASES = {1: 2.0, 3: sqrt(3.0)}  # factor from one conductor's drop to the voltage that counts
REACTANCE = 8e-5  # ohm/m, iec_60364_5_52, Annex G


def line_current(power: float, voltage: float, power_factor: float, phases: int = 3) -> float:
    """Give the current that a load draws from each line.

    I = P/(sqrt(3) V cos phi) with three phases, P sqrt(3)/(V cos phi) between one line and neutral

    Parameters
    ----------
    power : float [W]
        Power P.
    voltage : float [V]
        Voltage V from line to line.
    power_factor : float [1]
        cos phi.
    phases : int [1]
        3 or 1.
    Returns
    -------
    float [A]
        Current.
    Validity: lines evenly loaded.
    Source: textbook_unchecked.

    >>> round(line_current(100e3, 400.0, 0.8), 1)
    180.4
    """
    return power / ((sqrt(3.0) if phases == 3 else 1 / sqrt(3.0)) * voltage * power_factor)


def voltage_drop(
    current: float, length: float, resistance: float, power_factor: float, reactance: float = REACTANCE,
    phases: int = 3,
) -> float:  # fmt: skip
    """Give the voltage drop along one feeder: line to line with three phases, line to neutral with one.

    u = b L (R cos phi + X sin phi) I; b = sqrt(3) with three phases, 2 with one

    Parameters
    ----------
    current : float [A]
        Current I.
    length : float [m]
        Length L one way.
    resistance : float [ohm/m]
        Resistance R of one conductor as warm as it runs.
    power_factor : float [1]
        cos phi, at the voltage of the far end.
    reactance : float [ohm/m]
        Reactance X of one conductor.
    phases : int [1]
        3 or 1.
    Returns
    -------
    float [V]
        Drop.
    Validity: small drops; the exact sum of phasors differs in the second order.
    Source: iec_60364_5_52, Annex G (formula from memory, unchecked).

    >>> round(voltage_drop(100.0, 50.0, 0.0225e-6 / 35e-6, 0.8), 2)
    4.87
    """
    sine = sqrt(max(0.0, 1.0 - power_factor**2))
    return PHASES[phases] * length * (resistance * power_factor + reactance * sine) * current


def motor_start_current(power: float, voltage: float, power_factor: float, efficiency: float, times: float) -> float:
    """Give the current that a motor draws while it starts on the line.

    I_s = k P/(sqrt(3) V cos phi eta)

    Parameters
    ----------
    power : float [W]
        Rated power P at the shaft.
    voltage : float [V]
        Voltage V from line to line.
    power_factor : float [1]
        cos phi at full load.
    efficiency : float [1]
        Efficiency eta at full load.
    times : float [1]
        Starting current as a multiple k of the full-load current.
    Returns
    -------
    float [A]
        Starting current.
    Validity: three-phase motors started on the line.
    Source: textbook_unchecked.

    >>> round(motor_start_current(15e3, 400.0, 0.86, 0.9, 6.0))
    168
    """
    return times * power / (sqrt(3.0) * voltage * power_factor * efficiency)
