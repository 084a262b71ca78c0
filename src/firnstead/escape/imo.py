"""The simplified method of the maritime circulars: clear widths, tabulated flows and speeds, one correction factor."""

from __future__ import annotations

DENSITIES = (0.0, 0.5, 1.9, 3.2, 3.5)  # persons/m2
FLOWS = (0.0, 0.65, 1.3, 0.65, 0.32)  # persons/(m s)
SPEEDS = (1.2, 1.2, 0.67, 0.20, 0.10)  # m/s
MOST = {"level": 1.3, "down": 1.1, "up": 0.88}  # persons/(m s)
AFTER = {
    "level": ((0.0, 0.65, 1.3), (1.2, 1.2, 0.67)),
    "down": ((0.0, 0.54, 1.1), (1.0, 1.0, 0.55)),
    "up": ((0.0, 0.43, 0.88), (0.8, 0.8, 0.44)),
}
STEEP = 5.0  # deg: a steeper way counts as a stair (own rule)


def _between(x: float, xs: tuple[float, ...], ys: tuple[float, ...]) -> float:
    """Straight lines through a short table, level beyond its ends; for one number this is quicker than an array."""
    if x <= xs[0]:
        return ys[0]
    for a, b, low, high in zip(xs, xs[1:], ys, ys[1:], strict=False):
        if x <= b:
            return low + (high - low) * (x - a) / (b - a)
    return ys[-1]


def specific_flow_imo(density: float) -> float:
    """Give the specific flow with which people start in a corridor.

    straight lines through the table D 0, 0.5, 1.9, 3.2, 3.5: F_s 0, 0.65, 1.3, 0.65, 0.32

    Parameters
    ----------
    density : float [1/m2]
        Persons per area D.
    Returns
    -------
    float [1/(m s)]
        Persons per time and metre of clear width.
    Validity: from 0; above 3.5 persons/m2 as at 3.5.
    Source: imo_msc_circ_1238, Appendix 1, Table 1.1 (read).

    >>> round(specific_flow_imo(1.2), 3)
    0.975
    """
    return _between(density, DENSITIES, FLOWS)


def speed_imo(density: float) -> float:
    """Give the speed with which people start in a corridor.

    straight lines through the table D 0, 0.5, 1.9, 3.2, 3.5: S 1.2, 1.2, 0.67, 0.20, 0.10

    Parameters
    ----------
    density : float [1/m2]
        Persons per area D.
    Returns
    -------
    float [m/s]
        Speed.
    Validity: from 0; above 3.5 persons/m2 as at 3.5.
    Source: imo_msc_circ_1238, Appendix 1, Table 1.1 (read).

    >>> speed_imo(0.2), speed_imo(1.9)
    (1.2, 0.67)
    """
    return _between(density, DENSITIES, SPEEDS)


def specific_flow_most_imo(kind: str) -> float:
    """Give the greatest specific flow of a kind of way.

    corridors and doors 1.3, stairs down 1.1, stairs up 0.88

    Parameters
    ----------
    kind : str [text]
        One of level, down, up.
    Returns
    -------
    float [1/(m s)]
        Persons per time and metre of clear width.
    Validity: stairs and corridors of ships.
    Source: imo_msc_circ_1238, Appendix 1, Table 1.2 (read).

    >>> specific_flow_most_imo("up")
    0.88
    """
    return MOST[kind]


def speed_after_imo(flow: float, kind: str) -> float:
    """Give the speed behind a point where the specific flow changed.

    straight lines: level 0 to 0.65: 1.2, at 1.3: 0.67; stairs down 0 to 0.54: 1.0, at 1.1: 0.55;
    stairs up 0 to 0.43: 0.8, at 0.88: 0.44

    Parameters
    ----------
    flow : float [1/(m s)]
        Specific flow in the way; more than the greatest is taken as the greatest.
    kind : str [text]
        One of level, down, up.
    Returns
    -------
    float [m/s]
        Speed.
    Validity: stairs and corridors of ships; the speeds at capacity of stairs down and corridors are in the worked
    example, the rest of the table is from memory.
    Source: imo_msc_circ_1238, Appendix 1, Table 1.3 (from memory, unchecked).

    >>> round(speed_after_imo(1.3, "level"), 2), round(speed_after_imo(2.0, "down"), 2)
    (0.67, 0.55)
    """
    flows, speeds = AFTER[kind]
    return _between(flow, flows, speeds)


def kind_of_slope(slope: float, *, steep: float = STEEP) -> str:
    """Give the row of the tables that a sloping way falls under.

    up or down where steeper than 5 deg, else level

    Parameters
    ----------
    slope : float [deg]
        Slope in the direction of walking, up positive.
    steep : float [deg]
        Slope from which a ramp counts as a stair.
    Returns
    -------
    str [text]
        One of level, down, up.
    Validity: the tables have no ramps; taking them as stairs is slower.
    Source: own_rule.

    >>> kind_of_slope(8.0), kind_of_slope(-2.0)
    ('up', 'level')
    """
    return "up" if slope >= steep else "down" if slope <= -steep else "level"


def travel_time_imo(ideal: float, *, correction: float = 2.0, counterflow: float = 0.3) -> float:
    """Give the travel time from the ideal one.

    T = (2.0 + 0.3) t_I

    Parameters
    ----------
    ideal : float [s]
        Walking time along the route plus the longest time at one point of it, t_I.
    correction : float [1]
        Correction factor.
    counterflow : float [1]
        Allowance for people who go the other way.
    Returns
    -------
    float [s]
        Travel time T.
    Validity: the simplified method.
    Source: imo_msc_circ_1238, Appendix 1 (read).

    >>> round(travel_time_imo(100.0), 1)
    230.0
    """
    return (correction + counterflow) * ideal


def time_needed(reaction: float, travel: float, margin: float = 1.25) -> float:
    """Give the time to set against the time available.

    t_n = 1.25 (A + T)

    Parameters
    ----------
    reaction : float [s]
        Time until people walk, A.
    travel : float [s]
        Time until the last of them is out, T.
    margin : float [1]
        Factor for what the model leaves out.
    Returns
    -------
    float [s]
        Time needed.
    Validity: the factor is that of the simplified method; the file may set another.
    Source: imo_msc_circ_1533, performance standard (read).

    >>> time_needed(300.0, 500.0)
    1000.0
    """
    return margin * (reaction + travel)
