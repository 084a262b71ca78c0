"""Electric heat tracing: watts a metre, cable, circuits."""

from __future__ import annotations

import math


def tracing_needed(loss: float, safety: float, contact: float) -> float:
    """Give the output that tracing must have.

    q_t = q S C

    Parameters
    ----------
    loss : float [W/m]
        Heat that one metre loses at the temperature to be held, in the coldest air.
    safety : float [1]
        Safety factor S on the loss.
    contact : float [1]
        Factor C for poor contact: 1.5 for a round cable that is only strapped on, 1 for a flat or cemented one.
    Returns
    -------
    float [W/m]
        Output needed.
    Validity: steady; losses of fittings and supports are added to the loss.
    Source: tm_5_852_5, p. 12-4 for C (read); iec_60079_30 for S of 1.1 to 1.25 (from memory, unchecked).

    >>> tracing_needed(10.0, 1.25, 1.5)
    18.75
    """
    return loss * safety * contact


def cable_length(length: float, fittings: float, allowance: float = 0.05) -> float:
    """Give the length of one run of cable along a line.

    l = (L + L_f)(1 + a)

    Parameters
    ----------
    length : float [m]
        Length of the line.
    fittings : float [m]
        Extra cable wound on fittings, as length of pipe.
    allowance : float [1]
        Allowance a for ends and slack.
    Returns
    -------
    float [m]
        Cable.
    Validity: one straight cable; wound cables need more.
    Source: own_rule for the allowance.

    >>> cable_length(100.0, 10.0)
    115.5
    """
    return (length + fittings) * (1 + allowance)


def circuits_needed(cable: float, greatest: float) -> int:
    """Give the number of circuits of a cable.

    n = l/l_max, rounded up

    Parameters
    ----------
    cable : float [m]
        Length of cable.
    greatest : float [m]
        Greatest length of one circuit at the start-up temperature and breaker in use.
    Returns
    -------
    int [1]
        Circuits.
    Validity: the maker's greatest length at the coldest start-up.
    Source: statics.

    >>> circuits_needed(231.0, 100.0), circuits_needed(200.0, 100.0), circuits_needed(0.0, 100.0)
    (3, 2, 0)
    """
    return math.ceil(cable / greatest - 1e-9)


def circuit_current(output: float, cable: float, circuits: int, voltage: float) -> float:
    """Give the current of one circuit when warm.

    I = q l/(n U)

    Parameters
    ----------
    output : float [W/m]
        Output of the cable.
    cable : float [m]
        Length of cable.
    circuits : int [1]
        Circuits it is cut into.
    voltage : float [V]
        Voltage.
    Returns
    -------
    float [A]
        Current.
    Validity: warm; a self-regulating cable takes several times this in the first minutes.
    Source: textbook_unchecked, power over voltage.

    >>> round(circuit_current(20.0, 231.0, 3, 230.0), 2)
    6.7
    """
    return output * cable / (circuits * voltage)
