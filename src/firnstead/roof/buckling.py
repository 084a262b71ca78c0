"""Load at which an arch buckles in its own plane when nothing holds its sides."""

from __future__ import annotations

from math import cos, pi, sin

from firnstead.roof.arch import segment_arc_length, segment_half_angle, segment_radius
from firnstead.roof.tables import rows


def critical_pressure_two_hinged(stiffness: float, radius: float, half_angle: float) -> float:
    """Give the even normal pressure at which a two-hinged circular arch buckles sideways.

    q_cr = (E I/R^3)(pi^2/alpha^2 - 1)

    Parameters
    ----------
    stiffness : float [N m2/m]
        Bending stiffness E I of the sheet per metre of trench.
    radius : float [m]
        Radius R.
    half_angle : float [rad]
        Half the central angle alpha.
    Returns
    -------
    float [Pa]
        Critical pressure.
    Validity: elastic; pressure stays normal to the arch; perfect shape; no support from the sides.
    Source: timoshenko_gere_1961, ch. 7 (from memory, unchecked; computed within 0.2 %).

    >>> round(critical_pressure_two_hinged(1.0, 1.0, pi / 2), 6)
    3.0
    """
    return stiffness / radius**3 * ((pi / half_angle) ** 2 - 1)


def critical_pressure_hingeless(stiffness: float, radius: float, half_angle: float) -> float:
    """Give the even normal pressure at which a circular arch with fixed feet buckles sideways.

    q_cr = (E I/R^3)(k^2 - 1), k tan(alpha) cot(k alpha) = 1, lowest antisymmetric root

    Parameters
    ----------
    stiffness : float [N m2/m]
        Bending stiffness E I of the sheet per metre of trench.
    radius : float [m]
        Radius R.
    half_angle : float [rad]
        Half the central angle alpha, at most pi/2.
    Returns
    -------
    float [Pa]
        Critical pressure.
    Validity: feet held against turning, which a channel on a plank on snow does not do: for comparison only.
    Source: timoshenko_gere_1961, ch. 7 (from memory, unchecked; computed within 0.5 %).

    >>> round(critical_pressure_hingeless(1.0, 1.0, pi / 6), 1)
    73.3
    """

    def residual(x: float) -> float:  # x = k alpha, multiplied out so that the half circle is no exception
        return sin(x) * cos(half_angle) - x / half_angle * sin(half_angle) * cos(x)

    low, high = pi, 1.5 * pi
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if residual(middle) > 0 else (low, middle)
    return stiffness / radius**3 * ((high / half_angle) ** 2 - 1)


def parabola_factor(rise: float, hinged: bool = True) -> float:
    """Give the buckling factor of a parabolic arch under an even load per plan length.

    gamma of q_cr = gamma E I/l^3, the lower of the two published columns, straight lines between

    Parameters
    ----------
    rise : float [1]
        Rise over span f/l.
    hinged : bool [text]
        Two hinges at the feet (else feet held against turning).
    Returns
    -------
    float [1]
        Factor gamma.
    Validity: f/l from 0.1 to 1.0; outside, the nearest end of the table is not safe and ValueError is raised.
    Source: timoshenko_gere_1961, ch. 7 (from memory, unchecked) and computed; the lower of the two.

    >>> parabola_factor(0.2), parabola_factor(0.5)
    (45.4, 38.2)
    """
    kind = "two_hinged" if hinged else "hingeless"
    return min(_between("buckling_parabola", f"{kind}_{column}", rise) for column in ("tg", "computed"))


def segment_factor(rise: float, hinged: bool = True) -> float:
    """Give the buckling factor of a circular segment under an even load per plan length.

    gamma of q_cr = gamma E I/l^3, computed column, straight lines between

    Parameters
    ----------
    rise : float [1]
        Rise over span f/l.
    hinged : bool [text]
        Two hinges at the feet (else feet held against turning).
    Returns
    -------
    float [1]
        Factor gamma.
    Validity: f/l from 0.1 to 0.5 (ValueError outside); above 0.3 an upper estimate, the arch bends before it buckles.
    Source: statics, frame eigenvalue (computed).

    >>> segment_factor(0.3)
    47.7
    """
    return _between("buckling_segment", "two_hinged" if hinged else "hingeless", rise)


def effective_length_factor(rise: float, kind: str = "two_hinged") -> float:
    """Give the effective length factor of an arch.

    table look-up by f/l; above 0.4 the last row is kept

    Parameters
    ----------
    rise : float [1]
        Rise over span f/l.
    kind : str [text]
        ``two_hinged``, ``hingeless`` or ``three_hinged``.
    Returns
    -------
    float [1]
        Factor k on half the arc length.
    Validity: f/l from 0.1 to 0.4; up to 0.5 by our own extension.
    Source: aashto_lrfd, 4.5.3.2.2c (from memory, reproduced by computation).

    >>> effective_length_factor(0.25)
    1.1
    """
    table = rows("effective_length")
    fitting = [row for row in table if rise <= float(row["rise_to_span_up_to"])]
    return float((fitting or table[-1:])[0][kind])


def critical_thrust_effective_length(stiffness: float, half_arc: float, factor: float) -> float:
    """Give the thrust at the quarter point at which an arch buckles, as a strut of effective length.

    N_cr = pi^2 E I/(k L_s)^2

    Parameters
    ----------
    stiffness : float [N m2/m]
        Bending stiffness E I of the sheet per metre of trench.
    half_arc : float [m]
        Half the length of the arch L_s.
    factor : float [1]
        Effective length factor k.
    Returns
    -------
    float [N/m]
        Critical thrust at the quarter point.
    Validity: as the factor.
    Source: aashto_lrfd, 4.5.3.2.2c (from memory, reproduced by computation).

    >>> round(critical_thrust_effective_length(198000.0, 3.4777, 1.1) / 1e3, 1)
    133.5
    """
    return pi**2 * stiffness / (factor * half_arc) ** 2


def critical_loads_segment(stiffness: float, span: float, rise: float, thrust_quarter: float) -> dict[str, float]:
    """Give the load per plan area at which a two-hinged circular arch buckles, by each law.

    pressure: (E I/R^3)(pi^2/alpha^2 - 1); parabola, segment: gamma E I/l^3; strut: N_cr/(n_q l)

    Parameters
    ----------
    stiffness : float [N m2/m]
        Bending stiffness E I of the sheet per metre of trench.
    span : float [m]
        Span l.
    rise : float [m]
        Rise f.
    thrust_quarter : float [1]
        Thrust n_q at the quarter point under an even load 1 on span 1.
    Returns
    -------
    dict of str to float [Pa]
        Critical load by law; the lowest is the one to use.
    Validity: f/l from 0.1 to 0.5; elastic; an arch of lapped or loosely bolted sheets is weaker.
    Source: timoshenko_gere_1961, aashto_lrfd as in the single laws (from memory, reproduced by computation); own_rule
        to use the lowest.

    >>> loads = critical_loads_segment(198000.0, 6.0, 1.5, 0.6)
    >>> round(min(loads.values()) / 1e3, 1)
    37.1
    """
    ratio = rise / span
    strut = critical_thrust_effective_length(
        stiffness, segment_arc_length(span, rise) / 2, effective_length_factor(ratio))  # fmt: skip
    return {
        "pressure": critical_pressure_two_hinged(
            stiffness, segment_radius(span, rise), segment_half_angle(span, rise)),
        "parabola": parabola_factor(ratio) * stiffness / span**3,
        "segment": segment_factor(ratio) * stiffness / span**3,
        "strut": strut / (thrust_quarter * span),
    }  # fmt: skip


def _between(table: str, column: str, rise: float) -> float:
    points = [(float(row["rise_to_span"]), float(row[column])) for row in rows(table)]
    for (x1, y1), (x2, y2) in zip(points[:-1], points[1:], strict=True):
        if x1 <= rise <= x2:
            return y1 + (y2 - y1) * (rise - x1) / (x2 - x1)
    raise ValueError(f"rise over span {rise:.3g} is outside the table ({points[0][0]:g} to {points[-1][0]:g})")
