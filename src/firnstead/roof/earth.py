"""Load that reaches a buried conduit when the fill beside it settles differently (Marston-Spangler).

For snow these are bounds only: arching relaxes by creep, so relief is never counted on.
"""

from __future__ import annotations

from math import exp

from firnstead.roof.tables import rows

DEEPEST = 100.0  # widths above the crown within which the plane of equal settlement is looked for


def load_coefficient_ditch(depth_ratio: float, friction: float) -> float:
    """Give the load coefficient of a conduit in a ditch.

    C_d = (1 - exp(-2 K mu H/B_d))/(2 K mu); W = C_d w B_d^2

    Parameters
    ----------
    depth_ratio : float [1]
        Cover over width of the ditch H/B_d.
    friction : float [1]
        Product K mu of lateral pressure ratio and friction.
    Returns
    -------
    float [1]
        Load coefficient C_d.
    Validity: loose fill that settles in a stiff ditch; an optimistic bound for snow, never a permanent relief.
    Source: moser_buried_pipe, ch. 2 (figure read, formula from memory, unchecked).

    >>> round(load_coefficient_ditch(2.0, 0.165), 3)
    1.464
    """
    return (1 - exp(-2 * friction * depth_ratio)) / (2 * friction)


def load_coefficient_complete(depth_ratio: float, friction: float, projecting: bool = True) -> float:
    """Give the load coefficient of a wide embankment when shear reaches its surface.

    C_c = (exp(s 2 K mu H/B_c) - 1)/(s 2 K mu), s = +1 projecting, -1 ditch; W_c = C_c w B_c^2

    Parameters
    ----------
    depth_ratio : float [1]
        Cover over width of the conduit H/B_c.
    friction : float [1]
        Product K mu.
    projecting : bool [text]
        The fill beside settles more than the crown (else less).
    Returns
    -------
    float [1]
        Load coefficient C_c.
    Validity: cover no deeper than the plane of equal settlement.
    Source: moser_buried_pipe, Eq 2.6 (read).

    >>> round(load_coefficient_complete(1.0, 0.19), 3)
    1.217
    """
    rate = 2 * friction * (1 if projecting else -1)
    return (exp(rate * depth_ratio) - 1) / rate


def equal_settlement_ratio(depth_ratio: float, friction: float, settlement: float) -> float | None:
    """Find the plane of equal settlement above the crown.

    [1/(2 K mu) + s (b - h) + x/3] (e^(k h) - 1)/k + s h^2/2 + (x/3)(b - h) e^(k h) - h/(2 K mu) - s b h - x b = 0,
    k = 2 K mu s, h = H_e/B_c, b = H/B_c, x = abs(r_sd p), s its sign; by halving

    Parameters
    ----------
    depth_ratio : float [1]
        Cover over width of the conduit H/B_c.
    friction : float [1]
        Product K mu.
    settlement : float [1]
        Settlement ratio times projection ratio r_sd p; positive: the side fill settles more than the crown.
    Returns
    -------
    float or None [1]
        H_e/B_c; None where the plane would lie above the surface.
    Validity: r_sd p not 0.
    Source: moser_buried_pipe, ch. 2 (equation from memory, unchecked; it reproduces Table 2.2 within 1.8 %).

    >>> round(equal_settlement_ratio(5.0, 0.19, 0.5), 3)
    1.163
    """
    s, x, b = (1.0 if settlement > 0 else -1.0), abs(settlement), depth_ratio
    k = 2 * friction * s

    def residual(h: float) -> float:
        grown = exp(k * h)
        return (
            (1 / (2 * friction) + s * (b - h) + x / 3) * (grown - 1) / k
            + s * h**2 / 2 + x / 3 * (b - h) * grown - h / (2 * friction) - s * b * h - x * b
        )  # fmt: skip

    low, high = 0.0, min(depth_ratio, DEEPEST)
    if residual(low) * residual(high) > 0:
        return None
    rising = residual(high) > 0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if (residual(middle) > 0) == rising else (middle, high)
    return (low + high) / 2


def load_coefficient_incomplete(depth_ratio: float, friction: float, settlement: float) -> float:
    """Give the load coefficient of a wide embankment with a plane of equal settlement.

    C_c = (exp(k H_e/B_c) - 1)/k + (H/B_c - H_e/B_c) exp(k H_e/B_c), k = 2 K mu s

    Parameters
    ----------
    depth_ratio : float [1]
        Cover over width of the conduit H/B_c.
    friction : float [1]
        Product K mu.
    settlement : float [1]
        r_sd p; positive: projecting (load above the prism), negative: ditch (below), 0: prism.
    Returns
    -------
    float [1]
        Load coefficient C_c; over H/B_c it is the arching factor.
    Validity: soil; for snow a bound only. Falls back to the complete case where the plane lies above the surface.
    Source: moser_buried_pipe, Eq 2.7 (read).

    >>> round(load_coefficient_incomplete(5.0, 0.19, 0.5), 2)
    7.43
    """
    if settlement == 0:
        return depth_ratio
    plane = equal_settlement_ratio(depth_ratio, friction, settlement)
    if plane is None:
        return load_coefficient_complete(depth_ratio, friction, settlement > 0)
    rate = 2 * friction * (1 if settlement > 0 else -1)
    return (exp(rate * plane) - 1) / rate + (depth_ratio - plane) * exp(rate * plane)


def load_coefficient_fit(depth_ratio: float, settlement: float) -> float:
    """Give the load coefficient from the published straight lines.

    C_c = slope H/B_c + constant, one line for each r_sd p

    Parameters
    ----------
    depth_ratio : float [1]
        Cover over width of the conduit H/B_c.
    settlement : float [1]
        r_sd p, one of the values of the table.
    Returns
    -------
    float [1]
        Load coefficient C_c.
    Validity: cover above the plane of equal settlement; StopIteration for a value that has no line.
    Source: moser_buried_pipe, Table 2.2 (read).

    >>> round(load_coefficient_fit(5.0, 0.5), 2)
    7.43
    """
    row = next(row for row in rows("marston_fits") if float(row["settlement"]) == settlement)
    return float(row["slope"]) * depth_ratio + float(row["constant"])


def pressure_trapdoor_terzaghi(
    unit_weight: float, half_width: float, cohesion: float, lateral: float, depth: float, surcharge: float = 0.0
) -> float:
    """Give the vertical pressure on a strip that yields under a depth of fill.

    sigma_v = ((gamma B - c)/m)(1 - exp(-m z/B)) + q exp(-m z/B), m = K tan(phi)

    Parameters
    ----------
    unit_weight : float [N/m3]
        Weight gamma of the fill per volume.
    half_width : float [m]
        HALF the width of the strip B.
    cohesion : float [Pa]
        Cohesion c.
    lateral : float [1]
        K tan(phi).
    depth : float [m]
        Depth z of fill.
    surcharge : float [Pa]
        Pressure q on the surface.
    Returns
    -------
    float [Pa]
        Vertical pressure on the strip.
    Validity: short term only; in snow the relief creeps away. Not used for any verdict.
    Source: textbook_unchecked, Terzaghi's trapdoor (from memory, unchecked).

    >>> round(pressure_trapdoor_terzaghi(4900.0, 3.0, 0.0, 0.3, 2.0), 0)
    8882.0
    """
    fade = exp(-lateral * depth / half_width)
    return (unit_weight * half_width - cohesion) / lateral * (1 - fade) + surcharge * fade
