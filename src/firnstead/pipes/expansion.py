"""Length that a pipe gains or loses with temperature, and the leg of a bend that takes it."""

from __future__ import annotations

import math


def length_change(length: float, expansion: float, difference: float) -> float:
    """Give the change of length of a straight pipe.

    d = a L dT

    Parameters
    ----------
    length : float [m]
        Length between anchors.
    expansion : float [1/K]
        Coefficient of expansion.
    difference : float [K]
        Difference of temperature.
    Returns
    -------
    float [m]
        Change of length.
    Validity: free to move.
    Source: textbook_unchecked, thermal expansion.

    >>> round(length_change(40.0, 12e-6, 60.0), 4)
    0.0288
    """
    return expansion * length * difference


def loop_leg(change: float, diameter: float, modulus: float, stress: float) -> float:
    """Give the length of the leg that takes a change of length by bending.

    l = (3 E D d/s)^0.5

    Parameters
    ----------
    change : float [m]
        Change of length d that one leg takes.
    diameter : float [m]
        Outer diameter of the pipe.
    modulus : float [Pa]
        Modulus of elasticity.
    stress : float [Pa]
        Bending stress allowed.
    Returns
    -------
    float [m]
        Length of the leg.
    Validity: leg guided at both ends, thin pipe; bends count as stiff (safe).
    Source: statics, guided cantilever.

    >>> round(loop_leg(0.0288, 0.0603, 205e9, 120e6), 2)
    2.98
    """
    return math.sqrt(3 * modulus * diameter * change / stress)
