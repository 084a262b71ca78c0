"""How high and how far a miller throws, and when snow must be thrown twice."""

from __future__ import annotations

from math import ceil, sqrt

from firnstead.core.units import FT, G0

WIDE_CUT = 36 * FT  # "some 40 ft" in the trade; a tenth less here (common practice, no source)
EDGE_CLEARANCE = 0.5  # clear height of the throw over the edge of the cut [m] (own rule)


def available_lift(distance: float, cast_height: float, cast_distance: float) -> float:
    """Give the height to which a miller throws at a distance.

    y = H (1 - (x/R)^2)

    Parameters
    ----------
    distance : float [m]
        Level distance from the miller.
    cast_height : float [m]
        Greatest height of the throw.
    cast_distance : float [m]
        Greatest distance on level snow.
    Returns
    -------
    float [m]
        Height above the floor on which the miller stands, not below 0.
    Validity: for R = 2H exactly the envelope of throws of one speed without drag; for other H and R a curve through
    both stated points (own rule).
    Source: statics, envelope of throws; own_rule between the stated points.

    >>> available_lift(9.0, 9.0, 18.0)
    6.75
    """
    return max(0.0, cast_height * (1.0 - (distance / cast_distance) ** 2))


def reach_at_lift(lift: float, cast_height: float, cast_distance: float) -> float:
    """Give the distance to which a miller throws at a height.

    x = R sqrt(1 - y/H)

    Parameters
    ----------
    lift : float [m]
        Height above the floor on which the miller stands.
    cast_height : float [m]
        Greatest height of the throw.
    cast_distance : float [m]
        Greatest distance on level snow.
    Returns
    -------
    float [m]
        Level distance; 0 where the height is out of reach, R for snow thrown downhill.
    Validity: as available_lift.
    Source: statics, envelope of throws; own_rule between the stated points.

    >>> reach_at_lift(6.75, 9.0, 18.0), reach_at_lift(10.0, 9.0, 18.0)
    (9.0, 0.0)
    """
    return cast_distance * sqrt(min(1.0, max(0.0, 1.0 - lift / cast_height)))


def throw_speed(lift: float, distance: float, gravity: float = G0) -> float:
    """Give the least speed at which snow must leave the chute to come down at a height and distance.

    v = sqrt(g (y + sqrt(x^2 + y^2)))

    Parameters
    ----------
    lift : float [m]
        Height over the chute.
    distance : float [m]
        Level distance.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [m/s]
        Speed.
    Validity: no air drag: real millers need more, and wind against the throw more still.
    Source: statics.

    >>> round(throw_speed(0.0, 25.0), 1), round(throw_speed(9.0, 0.0), 1)
    (15.7, 13.3)
    """
    return sqrt(gravity * (lift + sqrt(distance**2 + lift**2)))


def throws_needed(lift: float, lift_at_bank: float, cast_height: float) -> int:
    """Count the throws that bring snow from the floor of a pass on to the bank.

    n = 1 + (lift - lift_at_bank)/H, rounded up: every miller below the last one lifts by H

    Parameters
    ----------
    lift : float [m]
        Height of the landing over the floor of the pass.
    lift_at_bank : float [m]
        Height to which the last miller throws at the bank's distance.
    cast_height : float [m]
        Greatest height of the throw.
    Returns
    -------
    int [1]
        Throws, at least 1.
    Validity: the lower miller throws to the floor on which the upper one stands.
    Source: statics.

    >>> throws_needed(6.0, 7.0, 9.0), throws_needed(8.0, 7.0, 9.0)
    (1, 2)
    """
    return 1 + max(0, ceil((lift - lift_at_bank) / cast_height - 1e-9))


def landing_lift(depth: float, bank_height: float, clearance: float = EDGE_CLEARANCE) -> float:
    """Give the height to which snow must be thrown from the floor of a pass.

    y = d + max(h/3, clearance): on the mean height of the bank, and clear over the edge

    Parameters
    ----------
    depth : float [m]
        Depth of the pass's floor below the surface.
    bank_height : float [m]
        Height of the bank.
    clearance : float [m]
        Clear height over the edge of the cut (own rule).
    Returns
    -------
    float [m]
        Height over the miller's floor.
    Validity: a triangular bank that is shaped as it grows; its centre of mass lies at a third of its height.
    Source: statics; own_rule for the clearance.

    >>> landing_lift(6.0, 3.6)
    7.2
    """
    return depth + max(bank_height / 3.0, clearance)


def machines_at_once(width: float, wide_cut: float = WIDE_CUT) -> int:
    """Count the millers that the trade puts on a cut of this width at once.

    3 on the widest cuts (two in the cut, one on a relief cut at the surface), else 1

    Parameters
    ----------
    width : float [m]
        Greatest width of the cut below the bench.
    wide_cut : float [m]
        Width from which a cut counts as one of the widest (some 40 ft).
    Returns
    -------
    int [1]
        Millers.
    Validity: an order of magnitude, not a limit.
    Source: common_practice (no source).

    >>> machines_at_once(12.2), machines_at_once(6.0)
    (3, 1)
    """
    return 3 if width >= wide_cut else 1
