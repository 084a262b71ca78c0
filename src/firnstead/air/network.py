"""Air through rooms that are joined by openings and fans: pressures and flows in which no air is lost.

Every branch passes more the more pressure lies on it, so the balance is the bottom of a convex bowl: Newton's method
with a step that never overshoots the bottom along its direction finds it from anywhere.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firnstead.air.fans import FanCurve

Array = NDArray[np.float64]
Indices = NDArray[np.intp]
Rest = tuple[Array, Array, Array]  # left over by room, flows, pressures on branches
OUTSIDE = -1  # the room number of the outside
SMOOTH = 1e-3  # Pa: below it the flow through an opening goes straight with pressure (own rule)
TIGHT = 1e-9  # kg/s/Pa: keeps rooms without any opening solvable (own rule)


@dataclass(frozen=True, eq=False)
class Openings:
    """Openings from room a to room b (-1: outside); their flow is counted positive from a to b."""

    a: Indices
    b: Indices
    area: Array
    """Discharge coefficient times free area [m2]."""
    drive: Array
    """Pressure from a to b beside that of the rooms: draught and wind [Pa]."""
    density_a: Array
    density_b: Array
    """Density of the air that flows when it comes from a, from b [kg/m3]."""


@dataclass(frozen=True, eq=False)
class AirFlow:
    """Pressures of rooms [Pa], flows [kg/s] of openings and fans, a to b; what the worst room has left over [kg/s]."""

    pressure: Array
    openings: Array
    fans: Array
    left_over: float
    steps: int


def opening_flows(pressure: Array, area: Array, density_a: Array, density_b: Array, *, smooth: float = SMOOTH) -> Array:
    """Give the mass flow through openings at pressure differences of either sign.

    m = A sqrt(2 rho) dp/(dp^2 + s^2)^(1/4)

    Parameters
    ----------
    pressure : array [Pa]
        Pressure difference dp from a to b.
    area : array [m2]
        Discharge coefficient times free area A.
    density_a : array [kg/m3]
        Density rho of the air that comes from a.
    density_b : array [kg/m3]
        Density rho of the air that comes from b.
    smooth : float [Pa]
        Pressure s below which the flow goes straight with it.
    Returns
    -------
    array [kg/s]
        Mass flow from a to b.
    Validity: turbulent openings; the smoothing changes the flow by less than 1 % above five times s.
    Source: textbook_unchecked, orifice; own_rule for the smoothing.

    >>> two = np.array([0.1, 0.1])
    >>> opening_flows(np.array([10.0, -10.0]), 0.6 * two, 10 * two, 10 * two).round(3).tolist()
    [0.268, -0.268]
    """
    density = np.where(pressure >= 0, density_a, density_b)
    flow: Array = area * np.sqrt(2 * density) * pressure * (pressure**2 + smooth**2) ** -0.25
    return flow


def opening_slopes(
    pressure: Array, area: Array, density_a: Array, density_b: Array, *, smooth: float = SMOOTH
) -> Array:
    """Give how fast the mass flow through openings grows with pressure.

    dm/dp = A sqrt(2 rho) (dp^2/2 + s^2)/(dp^2 + s^2)^(5/4)

    Parameters
    ----------
    pressure : array [Pa]
        Pressure difference dp from a to b.
    area : array [m2]
        Discharge coefficient times free area A.
    density_a : array [kg/m3]
        Density rho of the air that comes from a.
    density_b : array [kg/m3]
        Density rho of the air that comes from b.
    smooth : float [Pa]
        Pressure s below which the flow goes straight with it.
    Returns
    -------
    array [kg/(s Pa)]
        Slope.
    Validity: as opening_flows.
    Source: statics, derivative of opening_flows.

    >>> one = np.array([1.0])
    >>> opening_slopes(10 * one, 0.06 * one, one, one).round(5).tolist()
    [0.01342]
    """
    density = np.where(pressure >= 0, density_a, density_b)
    slope: Array = area * np.sqrt(2 * density) * (pressure**2 / 2 + smooth**2) * (pressure**2 + smooth**2) ** -1.25
    return slope


def solve_network(
    rooms: int, openings: Openings, fans: tuple[FanCurve, ...] = (), drawn: Array | None = None,
    start: Array | None = None, *, tolerance: float = 1e-9, most_steps: int = 200,
) -> AirFlow:  # fmt: skip
    """Give the pressures at which every room gives off as much air as it takes in.

    sum of flows out of each room + drawn = 0, by Newton's method on the sparse network

    Parameters
    ----------
    rooms : int [1]
        Number of rooms; the outside stands at no pressure.
    openings : Openings [text]
        Openings between rooms and to the outside.
    fans : tuple of FanCurve [text]
        Fans with their curves.
    drawn : array or None [kg/s]
        Air that engines take out of each room.
    start : array or None [Pa]
        Pressures to start from, such as those of the month before.
    tolerance : float [kg/s]
        Air that may be left over in a room for each kg/s that moves in the whole network.
    most_steps : int [1]
        Steps after which it gives up.
    Returns
    -------
    AirFlow [text]
        Pressures, flows and what is left over.
    Validity: steady; air of a constant density in each room; one-way flow in every opening.
    Source: textbook_unchecked, nodal balance of a network; compared with an independent solver in the tests.

    >>> one, zero = np.array([1.0]), np.array([0])
    >>> hole = Openings(zero, np.array([-1]), 0.06 * one, 10 * one, one, one)
    >>> round(float(solve_network(1, hole).pressure[0]), 6)
    -10.0
    """
    from scipy.sparse import csr_matrix, identity
    from scipy.sparse.linalg import splu

    a = np.concatenate([openings.a, np.array([f.a for f in fans], dtype=np.intp)])
    b = np.concatenate([openings.b, np.array([f.b for f in fans], dtype=np.intp)])
    count, branch = len(openings.a), np.arange(len(a))
    ends = np.concatenate([a, b])
    sign = np.concatenate([np.ones(len(a)), -np.ones(len(a))])
    inside = ends >= 0
    incidence = csr_matrix(
        (sign[inside], (np.concatenate([branch, branch])[inside], ends[inside])), shape=(len(a), rooms)
    )
    gather = incidence.T.tocsr()
    drive = np.concatenate([openings.drive, np.array([f.drive for f in fans])])
    taken = np.zeros(rooms) if drawn is None else drawn
    small = identity(rooms, format="csr") * TIGHT

    def flows(p: Array) -> tuple[Array, Array]:
        dp = incidence @ p + drive
        first = opening_flows(dp[:count], openings.area, openings.density_a, openings.density_b)
        return np.concatenate([first, [f.flow(x) for f, x in zip(fans, dp[count:], strict=True)]]), dp

    def rest(p: Array) -> Rest:
        m, dp = flows(p)
        return gather @ m + taken + TIGHT * p, m, dp

    p = np.zeros(rooms) if start is None else start.copy()
    left, m, dp = rest(p)
    steps = 0
    while np.abs(left).max(initial=0.0) > tolerance * max(1.0, float(np.abs(m).max(initial=0.0))):
        if steps == most_steps:
            break
        slopes = np.concatenate([
            opening_slopes(dp[:count], openings.area, openings.density_a, openings.density_b),
            [f.slope(x) for f, x in zip(fans, dp[count:], strict=True)],
        ])  # fmt: skip
        matrix = (gather @ incidence.multiply(slopes[:, None]) + small).tocsc()
        way = -splu(matrix).solve(left)
        p, (left, m, dp) = _along(p, way, left, rest)
        steps += 1
    return AirFlow(p, m[:count], m[count:], float(np.abs(left).max(initial=0.0)), steps)


def _along(p: Array, way: Array, left: Array, rest: Callable[[Array], Rest]) -> tuple[Array, Rest]:
    """Go along a direction until its slope is nearly level: no further than the bottom of the bowl."""
    first = float(left @ way)
    low, high, t = 0.0, np.inf, 1.0
    found = rest(p + way)
    for _ in range(40):
        slope = float(found[0] @ way)
        if abs(slope) <= 0.9 * abs(first):
            break
        if slope > 0:
            high = t
        else:
            low = t
        t = (low + high) / 2 if np.isfinite(high) else 2 * t
        found = rest(p + t * way)
    return p + t * way, found


def fresh_reach(rooms: int, a: Indices, b: Indices, flow: Array, *, least: float = 1e-5) -> NDArray[np.bool_]:
    """Tell which rooms outside air reaches, directly or through other rooms.

    followed along every flow above `least`

    Parameters
    ----------
    rooms : int [1]
        Number of rooms.
    a : array [1]
        Room at one end of each branch, -1 for the outside.
    b : array [1]
        Room at the other end.
    flow : array [kg/s]
        Mass flow from a to b.
    least : float [kg/s]
        What counts as a flow.
    Returns
    -------
    array [1]
        True for the rooms that it reaches.
    Validity: steady flow.
    Source: statics.

    >>> fresh_reach(3, np.array([-1, 0]), np.array([0, 1]), np.array([0.1, 0.1])).tolist()
    [True, True, False]
    """
    moving = np.abs(flow) > least
    source, target = np.where(flow > 0, a, b)[moving], np.where(flow > 0, b, a)[moving]
    reached = np.zeros(rooms + 1, dtype=bool)
    reached[OUTSIDE] = True
    while True:
        new = reached.copy()
        new[target[reached[source]]] = True
        new[OUTSIDE] = True
        if (new == reached).all():
            return reached[:rooms]
        reached = new
