"""The shoulder under the feet of an arch: bearing near an edge, outward thrust, the ledge over an undercut."""

from __future__ import annotations

from math import atan, pi
from typing import NamedTuple

FAR_FROM_EDGE = (
    1.57  # setback over width from which the edge no longer matters: (5.14 - 2)/2, the wedge reaching level ground
)


class Ledge(NamedTuple):
    """Stress at the upright plane through one step of an undercut."""

    position: float
    thickness: float
    tension: float
    shear: float


def bearing_level(cohesion: float) -> float:
    """Give the ultimate bearing pressure of a strip on level snow far from any edge.

    q_u = (2 + pi) c

    Parameters
    ----------
    cohesion : float [Pa]
        Cohesion c, half the unconfined compressive strength.
    Returns
    -------
    float [Pa]
        Ultimate pressure.
    Validity: purely cohesive, short-term; says nothing about settlement by creep, which usually governs.
    Source: textbook_unchecked, Prandtl (from memory, unchecked).

    >>> round(bearing_level(1.0), 2)
    5.14
    """
    return (2 + pi) * cohesion


def bearing_slope(cohesion: float, slope: float) -> float:
    """Give the ultimate bearing pressure of a strip at the crest of a slope.

    q_u = (2 + pi - 2 beta) c; vertical face: 2 c; not below 0

    Parameters
    ----------
    cohesion : float [Pa]
        Cohesion c.
    slope : float [rad]
        Slope beta of the face, above pi/2 where it leans over the cut.
    Returns
    -------
    float [Pa]
        Ultimate pressure.
    Validity: purely cohesive; beyond the upright face our own extension, close to the wedge for small leans.
    Source: textbook_unchecked, slope term (from memory, unchecked); own_rule beyond the upright face.

    >>> round(bearing_slope(1.0, pi / 2), 6)
    2.0
    """
    return max(0.0, (2 + pi - 2 * slope) * cohesion)


def bearing_setback_wedge(cohesion: float, width: float, setback: float) -> float:
    """Give the upper bound of the bearing pressure of a strip set back from an upright face.

    q_u <= min[2 c (1 + b/B), (2 + pi) c]

    Parameters
    ----------
    cohesion : float [Pa]
        Cohesion c.
    width : float [m]
        Width B of the strip.
    setback : float [m]
        Distance b from the face to the strip.
    Returns
    -------
    float [Pa]
        Pressure at which a wedge slides out on a plane of 45 degrees through the strip's heel, at most.
    Validity: an upper bound, exact at b = 0; do not design on it between 0 and 1.57 B.
    Source: statics, wedge derived here (computed).

    >>> bearing_setback_wedge(1.0, 0.6, 0.3)
    3.0
    """
    return min(2 * cohesion * (1 + setback / width), bearing_level(cohesion))


def bearing_edge(cohesion: float, width: float, setback: float, lean: float = 0.0) -> float:
    """Give the safe bearing pressure of a strip near the edge of a cut.

    b >= 1.57 B: (2 + pi) c; 0 <= b < 1.57 B: 2 c; b < 0 (over an undercut): 2 c (1 - psi), not below 0

    Parameters
    ----------
    cohesion : float [Pa]
        Cohesion c.
    width : float [m]
        Width B of the strip.
    setback : float [m]
        Distance b from the plane of the widest part of the cut to the strip; negative over an undercut.
    lean : float [rad]
        Lean psi of the face over the cut, seen from the strip's near side.
    Returns
    -------
    float [Pa]
        Ultimate pressure, safe bound.
    Validity: short-term strength; creep settlement is not in it.
    Source: textbook_unchecked, Prandtl and slope term (from memory, unchecked); own_rule for setback and lean.

    >>> bearing_edge(100.0, 0.6, 0.3), round(bearing_edge(100.0, 0.6, -0.4, 0.1), 1)
    (200.0, 180.0)
    """
    if setback >= FAR_FROM_EDGE * width:
        return bearing_level(cohesion)
    return 2 * cohesion * max(0.0, 1 - (lean if setback < 0 else 0.0))


def effective_setback(setback: float, undercut: float) -> float:
    """Give the setback counted from the widest part of the cut.

    b_eff = b - u

    Parameters
    ----------
    setback : float [m]
        Distance b from the edge of the cut to the plank.
    undercut : float [m]
        How far the wall at the floor stands back behind the edge, u.
    Returns
    -------
    float [m]
        Effective setback; negative where the plank stands over the undercut.
    Validity: any.
    Source: own_rule.

    >>> round(effective_setback(0.15, 0.8), 2)
    -0.65
    """
    return setback - undercut


def undercut_steps(undercut: float, start: float, height: float, passes: int) -> tuple[tuple[float, float], ...]:
    """Give the steps of an undercut seen from the shoulder: how far in, and how much snow is above.

    s_i = u i/n; t_i = t_0 + h (i - 1)/n, i = 1..n

    Parameters
    ----------
    undercut : float [m]
        Undercut u on each side.
    start : float [m]
        Height t_0 of the upright wall between shoulder and undercut.
    height : float [m]
        Height h over which the cut widens.
    passes : int [1]
        Passes n in that height; fewer passes are the worse case.
    Returns
    -------
    tuple of pairs [m]
        Distance of each step from the edge, and thickness of snow above it; none without an undercut.
    Validity: equal passes, each set the same distance under the one above.
    Source: statics, geometry.

    >>> undercut_steps(0.8, 1.0, 4.0, 2)
    ((0.4, 1.0), (0.8, 3.0))
    """
    if undercut <= 0:
        return ()
    return tuple((undercut * i / passes, start + height * (i - 1) / passes) for i in range(1, passes + 1))


def face_lean(setback: float, steps: tuple[tuple[float, float], ...]) -> float:
    """Give how far an undercut face leans over the cut, seen from the near side of the plank.

    psi = atan(max over the steps of (s - b)/t), not below 0

    Parameters
    ----------
    setback : float [m]
        Distance b from the edge of the cut to the plank.
    steps : tuple of pairs [m]
        Steps as from `undercut_steps`.
    Returns
    -------
    float [rad]
        Lean psi.
    Validity: a ledge of no thickness gives a right angle.
    Source: statics, geometry.

    >>> round(face_lean(0.2, ((0.4, 1.0), (0.8, 3.0))), 3)
    0.197
    """
    if not steps:
        return 0.0
    steepest = max((s - setback) / t if t > 0 else (float("inf") if s > setback else 0.0) for s, t in steps)
    return atan(max(0.0, steepest))


def eccentric_pressure(reaction: float, width: float, eccentricity: float) -> float:
    """Give the greatest pressure under a plank whose load is not in its middle.

    e <= B/6: (V/B)(1 + 6 e/B); else 2 V/(3 (B/2 - e)); infinite from e = B/2

    Parameters
    ----------
    reaction : float [N/m]
        Reaction V per metre of trench.
    width : float [m]
        Width B of the plank.
    eccentricity : float [m]
        Distance e of the reaction from the middle.
    Returns
    -------
    float [Pa]
        Greatest pressure.
    Validity: stiff plank, no tension under it.
    Source: statics.

    >>> eccentric_pressure(20000.0, 0.5, 0.05)
    64000.0
    """
    e = abs(eccentricity)
    if e <= width / 6:
        return reaction / width * (1 + 6 * e / width)
    return 2 * reaction / (3 * (width / 2 - e)) if e < width / 2 else float("inf")


def thrust_resistance(reaction: float, friction: float, factor: float, keeper: float, bearing: float) -> float:
    """Give the outward thrust that a seat resists.

    R = mu V/F + t_k q_k

    Parameters
    ----------
    reaction : float [N/m]
        Reaction V per metre of trench.
    friction : float [1]
        Friction mu of the plank on snow.
    factor : float [1]
        Factor of safety F against sliding.
    keeper : float [m]
        Height t_k of the keeper or plank edge that bears on the snow behind it.
    bearing : float [Pa]
        Pressure q_k that this snow may take, factor of safety taken off.
    Returns
    -------
    float [N/m]
        Outward thrust per metre of trench; thrust acts away from the trench.
    Validity: keeper let into the snow or wedged tight against it along its whole length.
    Source: statics; own_rule for adding friction and bearing.

    >>> thrust_resistance(24000.0, 0.3, 1.5, 0.1, 100000.0)
    14800.0
    """
    return friction * reaction / factor + keeper * bearing


def ledge_bending(
    position: float, thickness: float, unit_weight: float, setback: float, width: float, reaction: float,
    thrust: float = 0.0, surcharge: float = 0.0, surcharge_from: float = 0.0,
) -> Ledge:  # fmt: skip
    """Give tension and shear in the shoulder over an undercut, at one upright plane.

    sigma = 6 M/t^2 - 4 H_s/t, not below 0; tau = (V_s + g_s + P_s)/t;
    M = gamma t s^2/2 + V_s (s - b - w/2) + p (s - x_p)^2/2; w = part of the plank in front of the plane,
    V_s = V w/B and H_s = H w/B what it carries, g_s = gamma t s, P_s = p (s - x_p)

    Parameters
    ----------
    position : float [m]
        Distance s of the plane from the edge of the cut.
    thickness : float [m]
        Thickness t of snow at the plane.
    unit_weight : float [N/m3]
        Weight gamma of the snow per volume.
    setback : float [m]
        Distance b from the edge to the plank.
    width : float [m]
        Width B of the plank.
    reaction : float [N/m]
        Reaction V of the arch per metre of trench.
    thrust : float [N/m]
        Outward thrust H that certainly acts on the plank: it presses the ledge back against the wall.
    surcharge : float [Pa]
        Pressure p of the cover on the shoulder.
    surcharge_from : float [m]
        Distance x_p from the edge at which the surcharge starts.
    Returns
    -------
    Ledge [Pa]
        Tension at the top and mean shear at the plane.
    Validity: simple beam, which is rough where the ledge is thicker than long; no crack from above.
    Source: statics, 3 gamma b^2/t for a bare square ledge.

    >>> round(ledge_bending(0.6, 0.5, 4410.0, 0.0, 0.6, 0.0).tension)
    9526
    """
    if thickness <= 0:
        return Ledge(position, thickness, float("inf"), float("inf"))
    s, t = position, thickness
    part = min(max(s - setback, 0.0), width)
    carried, pressed = reaction * part / width, thrust * part / width
    covered = max(0.0, s - surcharge_from)
    moment = unit_weight * t * s**2 / 2 + carried * (s - setback - part / 2) + surcharge * covered**2 / 2
    tension = max(0.0, 6 * moment / t**2 - 4 * pressed / t)
    return Ledge(s, t, tension, (unit_weight * t * s + carried + surcharge * covered) / t)
