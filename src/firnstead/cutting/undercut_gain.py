"""What an undercut saves and costs against a straight cut with the same floor."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2


@dataclass(frozen=True)
class Gain:
    """Undercut against straight, the same floor; positive differences are savings of the undercut."""

    span_straight: float
    span_undercut: float
    sheet_straight: float
    sheet_undercut: float
    steel_saved: float | None
    volume_saved: float
    passes_more: int
    hours_saved: float


def arc_length(span: float, rise: float) -> float:
    """Give the length round a circular arch.

    R = (span^2/4 + rise^2)/(2 rise); s = 4 R atan(2 rise/span)

    Parameters
    ----------
    span : float [m]
        Span between the feet.
    rise : float [m]
        Rise of the crown over the feet.
    Returns
    -------
    float [m]
        Length of the arc.
    Validity: rise above 0 and at most span/2.
    Source: statics.

    >>> round(arc_length(2.0, 1.0), 5)
    3.14159
    """
    alpha = 2.0 * atan2(2.0 * rise, span)
    radius = (span**2 / 4.0 + rise**2) / (2.0 * rise)
    return 2.0 * radius * alpha


def straight_span(span: float, top_width: float, floor_width: float) -> float:
    """Give the span of an arch with the same seats over a straight cut as wide as the floor.

    span_straight = span + floor_width - top_width

    Parameters
    ----------
    span : float [m]
        Span over the undercut.
    top_width : float [m]
        Top width of the undercut.
    floor_width : float [m]
        Width at the floor.
    Returns
    -------
    float [m]
        Span over the straight cut.
    Validity: planks as far from the edge as before.
    Source: statics.

    >>> round(straight_span(4.9, 4.4, 6.0), 6)
    6.5
    """
    return span + floor_width - top_width


def sheet_per_metre(span: float, rise_share: float) -> float:
    """Give the sheet of an arch per metre of cut, laps not counted.

    a = arc_length(span, rise_share span)

    Parameters
    ----------
    span : float [m]
        Span between the feet.
    rise_share : float [1]
        Rise as a share of the span.
    Returns
    -------
    float [m2/m]
        Area of sheet on the line of the arch.
    Validity: as arc_length.
    Source: statics.

    >>> round(sheet_per_metre(6.0, 0.5), 4)
    9.4248
    """
    return arc_length(span, rise_share * span)


def undercut_gain(
    *, span: float, rise: float, top_width: float, floor_width: float, area_undercut: float, area_straight: float,
    passes_undercut: int, passes_straight: int, hours_undercut: float, hours_straight: float,
    sheet_mass: float | None,
) -> Gain:  # fmt: skip
    """Set an undercut and a straight cut with the same floor side by side, per metre of cut.

    steel saved = (sheet_straight - sheet_undercut) sheet_mass; the rest are differences

    Parameters
    ----------
    span : float [m]
        Span of the arch over the undercut.
    rise : float [m]
        Its rise; the wider arch gets the same rise-to-span.
    top_width : float [m]
        Top width of the undercut.
    floor_width : float [m]
        Width at the floor of both.
    area_undercut : float [m2]
        Section cut with the undercut.
    area_straight : float [m2]
        Section cut straight.
    passes_undercut : int [1]
        Passes with the undercut.
    passes_straight : int [1]
        Passes straight.
    hours_undercut : float [h/m]
        Machine hours with the undercut.
    hours_straight : float [h/m]
        Machine hours straight.
    sheet_mass : float [kg/m2]
        Mass of the sheet per area on the line of the arch; None where it is not known.
    Returns
    -------
    Gain [text]
        Both spans and sheets, steel, snow and hours saved, passes more.
    Validity: the same sheet for both arches; the wider arch may need a thicker one, so the saving is a lower bound.
    Source: statics.

    >>> g = undercut_gain(span=4.9, rise=1.35, top_width=4.4, floor_width=6.0, area_undercut=31.0, area_straight=37.0,
    ...     passes_undercut=7, passes_straight=7, hours_undercut=0.1, hours_straight=0.12, sheet_mass=26.0)
    >>> round(g.span_straight, 2), round(g.steel_saved, 1)
    (6.5, 49.6)
    """
    wide = straight_span(span, top_width, floor_width)
    sheet_wide, sheet = sheet_per_metre(wide, rise / span), sheet_per_metre(span, rise / span)
    steel = None if sheet_mass is None else (sheet_wide - sheet) * sheet_mass
    return Gain(wide, span, sheet_wide, sheet, steel, area_straight - area_undercut, passes_undercut - passes_straight,
                hours_straight - hours_undercut)  # fmt: skip
