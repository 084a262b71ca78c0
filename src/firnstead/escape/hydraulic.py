"""The hydraulic model of crowds: speed and flow from density, queues at what is narrowest."""

from __future__ import annotations

from math import inf, sqrt, tan

from firnstead.core.errors import FirnsteadError

A = 0.266  # m2/person, coefficient a of the model
K_LEVEL = 1.40  # m/s, k of corridors, aisles, ramps and doorways
FREE_DENSITY = 0.54  # persons/m2; below it people walk as at it
JAM_DENSITY = 3.8  # persons/m2; above it nobody moves
BOUNDARY = {"passage": 0.20, "trench": 0.20, "ramp": 0.20, "link": 0.20, "door": 0.15}  # m on each side
STAIR_PACE = 51.8 / 60.0  # m/s


def speed_hydraulic(density: float, k: float = K_LEVEL, *, a: float = A) -> float:
    """Give the walking speed in a crowd.

    S = k - a k D; at a density below 0.54 as at 0.54; nothing at 3.8 and above

    Parameters
    ----------
    density : float [1/m2]
        Persons per area D.
    k : float [m/s]
        Constant of the kind of way.
    a : float [m2]
        Coefficient of the model.
    Returns
    -------
    float [m/s]
        Speed S.
    Validity: persons dressed for indoors who can walk; 0 to 3.8 persons/m2.
    Source: sfpe_handbook_59, eq. 59.5 (read second-hand).

    >>> round(speed_hydraulic(0.0), 2), speed_hydraulic(4.0)
    (1.2, 0.0)
    """
    if density >= JAM_DENSITY:
        return 0.0
    return max(0.0, k * (1.0 - a * max(density, FREE_DENSITY)))


def specific_flow_hydraulic(density: float, k: float = K_LEVEL, *, a: float = A) -> float:
    """Give the persons that pass per time and metre of effective width.

    F_s = (1 - a D) k D

    Parameters
    ----------
    density : float [1/m2]
        Persons per area D.
    k : float [m/s]
        Constant of the kind of way.
    a : float [m2]
        Coefficient of the model.
    Returns
    -------
    float [1/(m s)]
        Specific flow.
    Validity: 0.54 to 3.8 persons/m2.
    Source: sfpe_handbook_59, eq. 59.8 (read second-hand).

    >>> round(specific_flow_hydraulic(0.5, 1.4), 4)
    0.6069
    """
    return (1.0 - a * density) * k * density


def specific_flow_most(k: float = K_LEVEL, *, a: float = A) -> float:
    """Give the greatest specific flow of a kind of way.

    F_sm = k/(4 a), at D = 1/(2 a)

    Parameters
    ----------
    k : float [m/s]
        Constant of the kind of way.
    a : float [m2]
        Coefficient of the model.
    Returns
    -------
    float [1/(m s)]
        Greatest specific flow.
    Validity: as the speed.
    Source: sfpe_handbook_59, Table 59.5 follows from it (from memory, reproduced by computation).

    >>> round(specific_flow_most(1.40), 2)
    1.32
    """
    return k / (4.0 * a)


def density_free(flow: float, k: float = K_LEVEL, *, a: float = A) -> float:
    """Give the density that carries a specific flow without a jam: the lower root.

    D = (1 - sqrt(1 - 4 a F_s/k))/(2 a)

    Parameters
    ----------
    flow : float [1/(m s)]
        Specific flow F_s; more than the greatest is taken as the greatest.
    k : float [m/s]
        Constant of the kind of way.
    a : float [m2]
        Coefficient of the model.
    Returns
    -------
    float [1/m2]
        Density.
    Validity: 0 to the greatest flow; the upper root is a jam and is not given.
    Source: sfpe_handbook_59, quadratic of eqs 59.5 and 59.8 (read second-hand).

    >>> round(density_free(0.6069, 1.4), 4)
    0.5
    """
    return (1.0 - sqrt(max(0.0, 1.0 - 4.0 * a * flow / k))) / (2.0 * a)


def constant_of_slope(slope: float, *, level: float = K_LEVEL, pace: float = STAIR_PACE) -> float:
    """Give k of a sloping way: the level constant, or that of a stair of the same pitch where it is lower.

    k = min(1.40, 0.863 sqrt(tread/riser))

    Parameters
    ----------
    slope : float [rad]
        Slope, up or down.
    level : float [m/s]
        Constant of a level way.
    pace : float [m/s]
        Constant of stairs (51.8 m/min).
    Returns
    -------
    float [m/s]
        Constant k.
    Validity: stairs of 1.4 to 2 treads to a riser; ramps as such stairs is our own rule, on the safe side.
    Source: sfpe_handbook_67, constants (read second-hand).

    >>> round(constant_of_slope(0.0), 2), round(constant_of_slope(0.5667), 3)
    (1.4, 1.082)
    """
    rise = abs(tan(slope))
    return level if rise < 1e-9 else min(level, pace / sqrt(rise))


def effective_width(width: float, boundary: float) -> float:
    """Give the width that people use.

    W_e = W - 2 b

    Parameters
    ----------
    width : float [m]
        Clear width W.
    boundary : float [m]
        Layer b that is left free on each side.
    Returns
    -------
    float [m]
        Effective width, at least 0.
    Validity: layers of 0.15 m at doors and 0.20 m at walls.
    Source: sfpe_handbook_59, Table 59.1 (from memory, unchecked).

    >>> round(effective_width(0.9, 0.15), 2)
    0.6
    """
    return max(0.0, width - 2.0 * boundary)


def passing_time(people: float, flow: float) -> float:
    """Give the time in which all pass a point.

    t_p = P/F_c

    Parameters
    ----------
    people : float [1]
        Persons P.
    flow : float [1/s]
        Calculated flow F_c.
    Returns
    -------
    float [s]
        Time; infinite where nobody can pass.
    Validity: a steady queue.
    Source: sfpe_handbook_59, eq. 59.13 (read second-hand); imo_msc_circ_1238, Appendix 1 (read).

    >>> round(passing_time(165, 1.82), 1)
    90.7
    """
    if people <= 0:
        return 0.0
    return people / flow if flow > 0 else inf


def specific_flow_after(flow: float, width: float, flow_2: float, width_2: float, width_out: float) -> float:
    """Give the specific flow behind a point where one or two ways lead into one.

    F_out = (F_1 W_1 + F_2 W_2)/W_out

    Parameters
    ----------
    flow : float [1/(m s)]
        Specific flow of the first way.
    width : float [m]
        Its effective width.
    flow_2 : float [1/(m s)]
        Specific flow of the second way; 0 where there is none.
    width_2 : float [m]
        Its effective width.
    width_out : float [m]
        Effective width behind the point.
    Returns
    -------
    float [1/(m s)]
        Specific flow; where it is above the greatest of the way behind, a queue grows.
    Validity: steady flow; nobody waits before the point.
    Source: sfpe_handbook_59, eqs 59.14 to 59.16 (read second-hand).

    >>> round(specific_flow_after(1.316, 0.6, 0.0, 0.0, 0.8), 3)
    0.987
    """
    if width_out <= 0:
        raise FirnsteadError("the way behind the point has no effective width")
    return (flow * width + flow_2 * width_2) / width_out
