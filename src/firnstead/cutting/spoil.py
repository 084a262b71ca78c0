"""The bank of thrown snow: its size, how far it must stay off the edge, whether it fits beside the cut."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, sqrt, tan

from firnstead.core.units import G0
from firnstead.cutting.casting import landing_lift, reach_at_lift

LEAST_SET_BACK = 2.0  # room to lay planks and to walk between bench and bank [m] (own rule)


@dataclass(frozen=True)
class Bank:
    """A bank of thrown snow on each side that is used."""

    sides: int
    area: float
    height: float
    base: float
    set_back: float
    distance: float
    room_needed: float
    room: float


def bank_height(area: float, repose: float) -> float:
    """Give the height of a triangular bank.

    h = sqrt(A tan(phi))

    Parameters
    ----------
    area : float [m2]
        Cross-section of the bank.
    repose : float [deg]
        Slope at which thrown snow comes to rest.
    Returns
    -------
    float [m]
        Height of the crest.
    Validity: level ground, both slopes at the angle of repose.
    Source: statics.

    >>> round(bank_height(16.0, 45.0), 3)
    4.0
    """
    return sqrt(area * tan(radians(repose)))


def bank_base(area: float, repose: float) -> float:
    """Give the width at the foot of a triangular bank.

    b = 2 sqrt(A/tan(phi))

    Parameters
    ----------
    area : float [m2]
        Cross-section of the bank.
    repose : float [deg]
        Slope at which thrown snow comes to rest.
    Returns
    -------
    float [m]
        Width on the ground.
    Validity: level ground, both slopes at the angle of repose.
    Source: statics.

    >>> round(bank_base(16.0, 45.0), 3)
    8.0
    """
    return 2.0 * sqrt(area / tan(radians(repose)))


def bank_pressure(height: float, density: float, gravity: float = G0) -> float:
    """Give the pressure under the crest of a bank.

    q = rho g h

    Parameters
    ----------
    height : float [m]
        Height of the bank.
    density : float [kg/m3]
        Density of the thrown snow.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [Pa]
        Greatest pressure on the ground.
    Validity: the mean over the base is half of it.
    Source: statics.

    >>> round(bank_pressure(4.0, 420.0))
    16475
    """
    return height * density * gravity


def set_back_wanted(depth: float, factor: float = 1.0) -> float:
    """Give the set-back at which the bank no longer loads the wall.

    s = factor d: a plane at 45 degrees through the toe of the wall comes up at d

    Parameters
    ----------
    depth : float [m]
        Depth of the cut.
    factor : float [1]
        Set-back as a share of the depth.
    Returns
    -------
    float [m]
        Distance from the edge of the cut to the foot of the bank.
    Validity: cohesive snow (phi = 0); nearer banks load the wall with their whole pressure (own rule).
    Source: own_rule; plant kept back by the cut depth after a wall failure at 4.5 m depth (field diary, read).

    >>> set_back_wanted(6.0)
    6.0
    """
    return factor * depth


def place_bank(
    area: float, repose: float, depth: float, edge: float, rooms: tuple[float, float], cast_height: float,
    cast_distance: float, far_run: float, least_set_back: float = LEAST_SET_BACK, easy_share: float = 0.85,
) -> Bank:  # fmt: skip
    """Place the bank beside the cut: half on each side, or as much as fits on the narrow side and the rest opposite.

    A_big = A - min(A/2, ((room_small - s_least)/2)^2 tan(phi)); s = min(d, room - b, x - edge - b/2), at least s_least;
    x how far the miller throws from the cut's floor at the height of the bank, easily if there is a choice (from a
    floor higher by H where it takes a second one)

    Parameters
    ----------
    area : float [m2]
        Cross-section of all the snow thrown from the cut.
    repose : float [deg]
        Slope at which thrown snow comes to rest.
    depth : float [m]
        Depth of the cut.
    edge : float [m]
        Distance from the axis to the outer edge of the bench.
    rooms : tuple of float [m]
        Free ground from that edge, left and right, what must stay clear of a neighbour taken off.
    cast_height : float [m]
        Greatest height of the throw.
    cast_distance : float [m]
        Greatest distance of the throw on level snow.
    far_run : float [m]
        Distance from the axis to the run farthest from the bigger bank.
    least_set_back : float [m]
        Least distance from the edge of the bench to the foot of the bank (own rule).
    easy_share : float [1]
        Share of the greatest height of a throw that is planned with where there is a choice (own rule).
    Returns
    -------
    Bank [text]
        Sides used; of the bigger bank: area, height, base, set-back, distance of the throw, room needed and room there.
    Validity: triangular banks; where they do not fit the least set-back stands and the room needed is greater than
    the room. The miller is taken to stand on the axis, with uneven banks as far
    behind it as the bigger share of the snow comes from, at most on the run farthest from the bigger bank.
    Source: statics; own_rule for the least set-back and the easy share.

    >>> b = place_bank(31.4, 40.0, 6.0, 3.1, (40.0, 40.0), 9.0, 25.0, 0.9)
    >>> b.sides, round(b.height, 2), round(b.base, 2), round(b.set_back, 2), round(b.distance, 2)
    (2, 3.63, 8.65, 2.0, 9.43)
    """

    narrow, wide = sorted(rooms)
    beside = min(area / 2, (max(0.0, narrow - least_set_back) / 2) ** 2 * tan(radians(repose)))
    base, height = bank_base(area - beside, repose), bank_height(area - beside, repose)
    even = beside >= area / 2
    room = narrow if even else wide
    start = far_run * (1.0 - 2.0 * beside / area) if area > 0 else 0.0
    lift = landing_lift(depth, height)
    nearest = start + edge + least_set_back + base / 2
    thrown = max(nearest, reach_at_lift(lift / easy_share, cast_height, cast_distance))
    if reach_at_lift(lift, cast_height, cast_distance) < nearest:
        thrown = reach_at_lift(lift / easy_share - cast_height, cast_height, cast_distance)
    middle = thrown - start - edge - base / 2
    set_back = max(least_set_back, min(set_back_wanted(depth), room - base, middle))
    return Bank(2 if beside > 0 else 1, area - beside, height, base, set_back, start + edge + set_back + base / 2,
                least_set_back + base, room)  # fmt: skip
