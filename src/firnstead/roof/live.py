"""Machines and people on a cover: how a load spreads through it."""

from __future__ import annotations

from math import atan2, pi, sqrt

from firnstead.core.units import FT
from firnstead.roof.tables import rows

MINIMUM_COVER = 0.3  # m, aashto_lrfd_12 (12 in)


def stress_boussinesq(force: float, depth: float, radius: float) -> float:
    """Give the vertical stress below a point load on a half space.

    sigma_z = 3 P/(2 pi z^2) [1 + (r/z)^2]^(-5/2)

    Parameters
    ----------
    force : float [N]
        Load P.
    depth : float [m]
        Depth z.
    radius : float [m]
        Horizontal distance r from the load.
    Returns
    -------
    float [Pa]
        Vertical stress.
    Validity: elastic half space, away from the load's own footprint; an opening below is not seen.
    Source: textbook_unchecked, Boussinesq (from memory, unchecked).

    >>> round(stress_boussinesq(1000.0, 1.0, 0.0), 1)
    477.5
    """
    return float(3 * force / (2 * pi * depth**2) * (1 + (radius / depth) ** 2) ** -2.5)


def influence_corner(m: float, n: float) -> float:
    """Give the share of a rectangle's pressure that arrives below its corner.

    I = (1/(4 pi)) {[2 m n sqrt(V)/(V + m^2 n^2)] (V + 1)/V + atan2(2 m n sqrt(V), V - m^2 n^2)}, V = m^2 + n^2 + 1

    Parameters
    ----------
    m : float [1]
        One side over the depth.
    n : float [1]
        The other side over the depth.
    Returns
    -------
    float [1]
        Stress at the depth below the corner over the pressure.
    Validity: elastic half space.
    Source: textbook_unchecked, Fadum / Newmark; reproduces moser_buried_pipe, Table 2.6.

    >>> round(influence_corner(1.0, 1.0), 4)
    0.1752
    """
    v, product = m**2 + n**2 + 1, m**2 * n**2
    root = 2 * m * n * sqrt(v)
    return (root / (v + product) * (v + 1) / v + atan2(root, v - product)) / (4 * pi)


def load_coefficient_patch(half_width: float, half_length: float) -> float:
    """Give the share of a patch's pressure that arrives below its middle.

    C_s = 4 I(D/(2 H), M/(2 H))

    Parameters
    ----------
    half_width : float [1]
        Half the width over the depth, D/(2 H).
    half_length : float [1]
        Half the length over the depth, M/(2 H).
    Returns
    -------
    float [1]
        Load coefficient C_s.
    Validity: elastic half space.
    Source: moser_buried_pipe, p. 35 and Table 2.6 (read).

    >>> round(load_coefficient_patch(0.5, 0.5), 3)
    0.336
    """
    return 4 * influence_corner(half_width, half_length)


def pressure_spread(force: float, width: float, length: float, depth: float, spread: float = 1.0) -> float:
    """Give the even pressure of a patch load at a depth.

    p = P/((a + k z)(b + k z)), k = 1: two down to one out on each side

    Parameters
    ----------
    force : float [N]
        Load P.
    width : float [m]
        Width a of the patch.
    length : float [m]
        Length b of the patch.
    depth : float [m]
        Depth z.
    spread : float [1]
        Growth k of each side with depth (1.15 in selected granular fill, 1.0 otherwise).
    Returns
    -------
    float [Pa]
        Pressure at the depth, even over the spread area.
    Validity: one patch; overlapping ones are merged first. In snow k = 1.0 and only once it has hardened.
    Source: aashto_lrfd, 3.6.1.2.6 (read second-hand); k = 1.0 for snow is an own_rule.

    >>> round(pressure_spread(70000.0, 0.5, 1.0, 1.0), 0)
    23333.0
    """
    return force / ((width + spread * depth) * (length + spread * depth))


def pressure_wheels_aashto(force: float, depth: float, gauge: float, factor: float = 1.75) -> float:
    """Give the even pressure of two wheels of an axle at a depth, each spread over a square.

    p = P/(1.75 H)^2; where the squares meet: p = 2 P/[(g + 1.75 H) 1.75 H]

    Parameters
    ----------
    force : float [N]
        Load P of one wheel.
    depth : float [m]
        Cover H.
    gauge : float [m]
        Distance g of the wheels.
    factor : float [1]
        Side of the square over the cover.
    Returns
    -------
    float [Pa]
        Pressure at the depth.
    Validity: soil cover of 0.6 m or more.
    Source: textbook_unchecked, AASHTO standard specifications (from memory, unchecked).

    >>> round(pressure_wheels_aashto(71171.5, 0.9144, 1.8288) / 47.880, 0)
    581.0
    """
    side = factor * depth
    return force / side**2 if side < gauge else 2 * force / ((gauge + side) * side)


def impact_lrfd(depth: float, at_surface: float = 0.33, fade: float = 0.41) -> float:
    """Give the growth of a vehicle's load by its movement.

    1 + 0.33 (1 - 0.41 D_E), D_E in m, not below 1

    Parameters
    ----------
    depth : float [m]
        Cover D_E.
    at_surface : float [1]
        Allowance without cover.
    fade : float [1/m]
        Fading with cover (4.1e-4 per mm).
    Returns
    -------
    float [1]
        Factor on the load.
    Validity: road vehicles; kept for tracked machines, on the safe side.
    Source: aashto_lrfd, 3.6.2.2 (read second-hand).

    >>> round(impact_lrfd(1.0), 3)
    1.195
    """
    return 1 + at_surface * max(0.0, 1 - fade * depth)


def impact_highway(depth: float) -> float:
    """Give the impact factor of highway traffic.

    table look-up: 1.50 to 1 ft of cover, 1.35 to 2 ft, 1.15 to 3 ft, 1.00 deeper

    Parameters
    ----------
    depth : float [m]
        Cover.
    Returns
    -------
    float [1]
        Impact factor F'.
    Validity: highway traffic.
    Source: moser_buried_pipe, Table 2.5 (read).

    >>> impact_highway(0.5)
    1.35
    """
    for row in rows("impact"):
        if depth <= float(row["cover_up_to"]) * FT:
            return float(row["factor"])
    return 1.0


def minimum_cover(span: float, share: float = 0.125, least: float = MINIMUM_COVER) -> float:
    """Give the least cover under a vehicle.

    h = max(S/8, 0.3 m)

    Parameters
    ----------
    span : float [m]
        Span S of the arch.
    share : float [1]
        Share of the span.
    least : float [m]
        Least cover whatever the span (12 in).
    Returns
    -------
    float [m]
        Least cover.
    Validity: compacted soil; under snow only after it has hardened, and a lower bound there.
    Source: aashto_lrfd_12, Table 12.6.6.3-1 (read second-hand).

    >>> minimum_cover(6.0), minimum_cover(2.0)
    (0.75, 0.3)
    """
    return max(share * span, least)


def machine_pressure(
    weight: float, track_width: float, track_length: float, outer_width: float, depth: float, spread: float = 1.0
) -> tuple[float, float, float]:
    """Give the pressure of a two-tracked machine at a depth, tracks merged where their spreads meet.

    apart: p = (W/2)/((a + k z)(b + k z)); merged: p = W/((w + k z)(b + k z))

    Parameters
    ----------
    weight : float [N]
        Weight W of the machine, impact included.
    track_width : float [m]
        Width a of one track.
    track_length : float [m]
        Length b of a track on the snow.
    outer_width : float [m]
        Width w over both tracks.
    depth : float [m]
        Depth z.
    spread : float [1]
        Growth k of each side with depth.
    Returns
    -------
    tuple of float [Pa, m, m]
        Pressure, and width and length of the loaded area at that depth.
    Validity: load even over both tracks; the heavier of the two patterns is given.
    Source: aashto_lrfd, 3.6.1.2.6 (read second-hand); merging of tracks is an own_rule.

    >>> machine_pressure(100000.0, 0.6, 2.4, 2.4, 0.6)[1:]
    (1.2, 3.0)
    """
    length = track_length + spread * depth
    width = track_width + spread * depth
    apart = weight / 2 / (width * length)
    if width <= outer_width - track_width:  # from middle to middle of the tracks
        return apart, width, length
    width = outer_width + spread * depth
    return weight / (width * length), width, length
