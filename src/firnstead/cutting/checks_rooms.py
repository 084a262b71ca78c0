"""Whether the buildings of a place fit into its cut and under its roof."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from firnstead.core.results import Check, Step, check
from firnstead.cutting.asking import Place
from firnstead.cutting.passes import narrowest_between
from firnstead.cutting.section import CutSection


@dataclass(frozen=True)
class Kit:
    """The outside of a building as it stands in the cut [m]."""

    name: str
    width: float
    height: float
    footing: float
    clearance: float


@dataclass(frozen=True)
class InnerLine:
    """The inner line of the roof: span, rise, depth of its feet below the surface [m]; a circle or a parabola."""

    span: float
    rise: float
    feet: float
    parabola: bool = False


def arch_height_at(span: float, rise: float, distance: float) -> float:
    """Give the height of a circular arch over its feet at a distance from its axis.

    R = (L^2/4 + f^2)/(2 f); y = sqrt(R^2 - x^2) - (R - f)

    Parameters
    ----------
    span : float [m]
        Span between the feet.
    rise : float [m]
        Rise of the crown over the feet.
    distance : float [m]
        Distance from the axis.
    Returns
    -------
    float [m]
        Height; 0 beyond the feet.
    Validity: rise above 0 and at most span/2.
    Source: statics.

    >>> arch_height_at(8.0, 4.0, 0.0), arch_height_at(8.0, 2.0, 4.0)
    (4.0, 0.0)
    """
    if distance >= span / 2:
        return 0.0
    radius = (span**2 / 4 + rise**2) / (2 * rise)
    return sqrt(radius**2 - distance**2) - (radius - rise)


def parabola_height_at(span: float, rise: float, distance: float) -> float:
    """Give the height of a parabolic roof over its feet at a distance from its axis.

    y = f (1 - (2 x/L)^2)

    Parameters
    ----------
    span : float [m]
        Span between the feet.
    rise : float [m]
        Rise of the crown over the feet.
    distance : float [m]
        Distance from the axis.
    Returns
    -------
    float [m]
        Height; 0 beyond the feet.
    Validity: any rise.
    Source: statics.

    >>> parabola_height_at(8.0, 2.0, 0.0), parabola_height_at(8.0, 2.0, 2.0)
    (2.0, 1.5)
    """
    return max(0.0, rise * (1.0 - (2.0 * distance / span) ** 2))


def building_width(place: Place, section: CutSection, kit: Kit, feet: float) -> Check:
    """Clear width between the walls over the height of the building, up to the feet of the roof."""
    floor = section.passes[-1].bottom
    top = max(feet, floor - kit.footing - kit.height)
    clear, wanted = 2 * narrowest_between(section.passes, top, floor), kit.width + 2 * kit.clearance
    steps = (
        Step(
            "z",
            "max(a, d - e - h)",
            (("a", feet, "m"), ("d", floor, "m"), ("e", kit.footing, "m"), ("h", kit.height, "m")),
            top,
            "m",
            "statics",
            "depth of the eaves, at most up to the feet of the roof a: floor d, footing e, building h",
        ),
        Step(
            "w",
            "",
            (("z", top, "m"), ("d", floor, "m")),
            clear,
            "m",
            "statics",
            "narrowest width that the passes leave between these depths",
        ),
        Step(
            "l",
            "b + 2 c",
            (("b", kit.width, "m"), ("c", kit.clearance, "m")),
            wanted,
            "m",
            "statics",
            "width of the building and the clearance wanted on both sides",
        ),
    )
    return check(
        subject=f"{place.subject}, {kit.name}",
        place=place.name,
        key="cutting.building_width",
        discipline="cutting",
        question="Width between the walls round the building",
        demand=clear,
        limit=wanted,
        unit="m",
        at_least=True,
        ratio=_share(wanted, clear),
        working=steps,
        note="as cut; walls close in over the years",
    )


def headroom(place: Place, section: CutSection, kit: Kit, line: InnerLine) -> Check:
    """Height from the floor to the roof over the edges of the building."""
    floor = section.passes[-1].bottom
    over, bow = _over_edge(line, kit.width / 2)
    clear, wanted = floor - line.feet + over, kit.footing + kit.height + kit.clearance
    steps = (
        *bow,
        Step(
            "c",
            "d - a + y",
            (("d", floor, "m"), ("a", line.feet, "m"), ("y", over, "m")),
            clear,
            "m",
            "statics",
            "from the floor d up to the roof; a depth of its feet, planks not counted",
        ),
        Step(
            "l",
            "e + h + k",
            (("e", kit.footing, "m"), ("h", kit.height, "m"), ("k", kit.clearance, "m")),
            wanted,
            "m",
            "statics",
            "footing, building and the clearance wanted",
        ),
    )
    return check(
        subject=f"{place.subject}, {kit.name}",
        place=place.name,
        key="cutting.headroom",
        discipline="cutting",
        question="Height under the roof over the building's edges",
        demand=clear,
        limit=wanted,
        unit="m",
        at_least=True,
        ratio=_share(wanted, clear),
        working=steps,
        note="as built, building taken as flat-roofed; roofs sag and floors heave over the years",
    )


def _over_edge(line: InnerLine, x: float) -> tuple[float, tuple[Step, ...]]:
    """Height of the roof over its feet above the edge of the building at x, and the steps that lead to it."""
    text = "height of the roof over its feet, above the edge of the building"
    span, rise = ("L", line.span, "m"), ("f", line.rise, "m")
    if x >= line.span / 2:
        wide = "the building is wider than the roof"
        return 0.0, (Step("y", "", (("x", x, "m"), span), 0.0, "m", "statics", wide),)
    if line.parabola:
        over = parabola_height_at(line.span, line.rise, x)
        return over, (Step("y", "f (1 - (2 x/L)^2)", (rise, ("x", x, "m"), span), over, "m", "statics", text),)
    over, radius = arch_height_at(line.span, line.rise, x), (line.span**2 / 4 + line.rise**2) / (2 * line.rise)
    given = (("R", radius, "m"), ("x", x, "m"), rise)
    return over, (
        Step("R", "(L^2/4 + f^2)/(2 f)", (span, rise), radius, "m", "statics", "radius of the roof's inner line"),
        Step("y", "sqrt(R^2 - x^2) - R + f", given, over, "m", "statics", text),
    )


def _share(wanted: float, clear: float) -> float:
    """Share used, rounded so that a fit to the last millimetre is not lost in the last digit of a sum."""
    return round(wanted / clear, 9) if clear > 0 else float("inf")
