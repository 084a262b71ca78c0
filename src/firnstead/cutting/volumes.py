"""Snow in place, thrown and loose: volumes by density, mass kept; lengths of cuts that meet."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, sin


@dataclass(frozen=True)
class SnowBalance:
    """Where the mass of a cut goes [kg]: placed as cover, left in the bank, blown away."""

    cut: float
    cover: float
    bank: float
    lost: float


def mass_of(volume: float, density: float) -> float:
    """Give the mass of a volume of snow.

    m = V rho

    Parameters
    ----------
    volume : float [m3]
        Volume.
    density : float [kg/m3]
        Density.
    Returns
    -------
    float [kg]
        Mass.
    Validity: any density.
    Source: statics.

    >>> mass_of(100.0, 450.0)
    45000.0
    """
    return volume * density


def volume_at(mass: float, density: float) -> float:
    """Give the volume that a mass of snow takes at another density.

    V = m/rho

    Parameters
    ----------
    mass : float [kg]
        Mass.
    density : float [kg/m3]
        Density as thrown or placed.
    Returns
    -------
    float [m3]
        Volume.
    Validity: density above 0.
    Source: statics.

    >>> volume_at(45000.0, 500.0)
    90.0
    """
    return mass / density


def swell_factor(density_in_place: float, density_loose: float) -> float:
    """Give how many times larger snow lies once it is thrown.

    s = rho_in_place/rho_loose

    Parameters
    ----------
    density_in_place : float [kg/m3]
        Mean density of the snow that is cut.
    density_loose : float [kg/m3]
        Density as it lies in the bank.
    Returns
    -------
    float [1]
        Below 1 where milled snow lies denser than it stood.
    Validity: no snow lost to the wind.
    Source: statics.

    >>> swell_factor(450.0, 500.0)
    0.9
    """
    return density_in_place / density_loose


def snow_balance(cut: float, cover_wanted: float, lost_share: float = 0.0) -> SnowBalance:
    """Share the mass of a cut between cover, bank and wind.

    cut = cover + bank + lost; lost = lost_share cut; cover = min(cover_wanted, cut - lost)

    Parameters
    ----------
    cut : float [kg]
        Mass cut.
    cover_wanted : float [kg]
        Mass wanted for the cover.
    lost_share : float [1]
        Share of the thrown snow that the wind carries away.
    Returns
    -------
    SnowBalance [text]
        The three masses and their sum.
    Validity: 0 <= lost_share <= 1.
    Source: statics.

    >>> snow_balance(100.0, 30.0, 0.1)
    SnowBalance(cut=100.0, cover=30.0, bank=60.0, lost=10.0)
    """
    lost = lost_share * cut
    cover = min(cover_wanted, cut - lost)
    return SnowBalance(cut, cover, cut - lost - cover, lost)


def length_beyond_wall(cut_length: float, widest_half: float, half_here: float, sine: float) -> float:
    """Give the length of a trench's pass from the wall of the passage that it opens into, at the pass's depth.

    L = cut_length + (widest_half - half_here)/sine

    Parameters
    ----------
    cut_length : float [m]
        Length of the trench beyond the passage's widest line.
    widest_half : float [m]
        Half of the passage's greatest width at any depth.
    half_here : float [m]
        Half of the passage's width at the depth of the pass.
    sine : float [1]
        Sine of the angle between the two axes.
    Returns
    -------
    float [m]
        Length that the trench's pass really cuts.
    Validity: the axes are not nearly parallel; snow inside the passage is the passage's and is not counted again.
    Source: statics.

    >>> length_beyond_wall(40.0, 4.0, 3.0, 1.0)
    41.0
    """
    return cut_length + (widest_half - half_here) / sine


def circular_segment_area(span: float, rise: float) -> float:
    """Give the area between a circular arch and the line through its feet.

    R = (span^2/4 + rise^2)/(2 rise), alpha = 2 atan(2 rise/span); A = R^2 (alpha - sin(alpha) cos(alpha))

    Parameters
    ----------
    span : float [m]
        Span between the feet.
    rise : float [m]
        Rise of the crown over the feet.
    Returns
    -------
    float [m2]
        Area of the segment.
    Validity: rise above 0, at most span/2 for an arch that does not bulge over its feet.
    Source: statics.

    >>> round(circular_segment_area(6.0, 3.0), 4), round(circular_segment_area(6.0, 1.5), 4)
    (14.1372, 6.2901)
    """
    radius = (span**2 / 4 + rise**2) / (2 * rise)
    alpha = 2 * atan2(2 * rise, span)
    return radius**2 * (alpha - sin(alpha) * cos(alpha))


def parabola_segment_area(span: float, rise: float) -> float:
    """Give the area between a parabola and the line through its feet.

    A = 2 span rise/3

    Parameters
    ----------
    span : float [m]
        Span between the feet.
    rise : float [m]
        Rise of the crown over the feet.
    Returns
    -------
    float [m2]
        Area of the segment.
    Validity: any rise.
    Source: statics.

    >>> round(parabola_segment_area(6.0, 1.5), 6)
    6.0
    """
    return 2.0 * span * rise / 3.0


def cover_area(
    width: float, span: float, rise: float, crown_cover: float, side_height: float, under_arch: float
) -> float:
    """Give the cross-section of snow that covers a roof as placed.

    A = span (c + (s - c)(1 - under_arch/(span rise))) + (width - span) s: the thickness goes from c over the crown to s
    over the feet with the fall of the arch, and stays s out to the sides

    Parameters
    ----------
    width : float [m]
        Width of the cover between the outer edges of the benches.
    span : float [m]
        Span between the feet.
    rise : float [m]
        Rise of the crown over the feet.
    crown_cover : float [m]
        Thickness c over the crown.
    side_height : float [m]
        Height s of the cover's top over the feet at the sides; rise + crown_cover for a level top.
    under_arch : float [m2]
        Area between the roof's inner line and the line through its feet.
    Returns
    -------
    float [m2]
        Cross-section of snow placed.
    Validity: width at least the span; exact for a level top, between level and even thickness the shape is an own rule.
    Source: statics; own_rule for the shape of a top that is not level.

    >>> round(cover_area(7.6, 6.0, 1.5, 1.0, 2.5, circular_segment_area(6.0, 1.5)), 3)
    12.71
    """
    fall = 1.0 - under_arch / (span * rise)
    return span * (crown_cover + (side_height - crown_cover) * fall) + (width - span) * side_height
