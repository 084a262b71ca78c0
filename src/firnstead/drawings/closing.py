"""Cross-section of a place through the years: the outline of its void as cut and as it closes."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.drawings.figure import (
    FINE,
    HEAVY,
    MEDIUM,
    STRONG,
    Figure,
    Item,
    Label,
    LegendEntry,
    LineKind,
    Point,
    Polygon,
    Polyline,
    Text,
    extent,
    length_words,
    rectangle,
)

PENS: tuple[tuple[float, LineKind], ...] = (
    (STRONG, "solid"), (FINE, "solid"), (FINE, "dashed"), (MEDIUM, "dashed"), (HEAVY, "solid"))  # fmt: skip
NOTE = "Levels from the snow surface of the year of the cut. As expected, untrimmed; band: see the calculation file."
REACH = 1.6  # m of snow drawn round the cut


@dataclass(frozen=True)
class ClosingInput:
    """All that the drawing shows; x across from the axis, z up from the snow surface [m]."""

    place: str
    outlines: tuple[tuple[float, tuple[Point, ...]], ...]
    """Years since the cut and half the outline, from the floor on the axis round to the top."""
    clear: tuple[float, float] | None = None
    """Half-width and height above the first floor of what must stay clear, its clearance counted."""
    kept: str = ""
    units: str = "metric"


def closing(given: ClosingInput) -> Figure:
    """The outlines one over the other, each with its year, and what must stay clear."""
    rings = [(year, _whole(half)) for year, half in given.outlines]
    left, low, right, high = extent(point for _, ring in rings for point in ring)
    items: list[Item] = []
    if given.clear is not None:
        half, top = given.clear
        floor = given.outlines[0][1][0][1]
        items.append(Polygon(rectangle(-half, floor, half, floor + top), "clear", FINE, "tone"))
    for index, (year, ring) in enumerate(rings):
        weight, line = PENS[index % len(PENS)]
        items.append(Polyline((*ring, ring[0]), "outline", weight, line))
        top = given.outlines[index][1][-1][1]
        items.append(Text(_words(year), (0.0, top), 2.2, "left", "base", shift=(2.0, 0.6), mono=True))
    wide = max(right, -left) + REACH
    items.append(Polyline(((-wide, 0.0), (-max(right, -left) - 0.4, 0.0)), "snow", MEDIUM))
    items.append(Polyline(((max(right, -left) + 0.4, 0.0), (wide, 0.0)), "snow", MEDIUM))
    items += _axis(low, high)
    return Figure(f"Closing of {given.place}", _reading(given), tuple(items), _legend(given), notes=(NOTE,))


def _whole(half: tuple[Point, ...]) -> tuple[Point, ...]:
    """Both halves as one ring."""
    other = [(-x, z) for x, z in reversed(half) if x > 1e-9]
    return (*half, *other)


def _axis(low: float, high: float) -> list[Item]:
    return [
        Polyline(((0.0, low - 0.5), (0.0, high + 0.5)), "axis", FINE, "dashed"),
        Label((Text("axis", (0.0, low - 0.5), 2.2, "left", "top", shift=(1.0, 0.0)),)),
    ]


def _legend(given: ClosingInput) -> tuple[LegendEntry, ...]:
    entries = []
    for index, (year, _) in enumerate(given.outlines):
        weight, line = PENS[index % len(PENS)]
        entries.append(LegendEntry(_words(year), "none", weight, line, swatch="line"))
    if given.clear is not None:
        entries.append(LegendEntry(f"must stay clear: {given.kept}", "tone", FINE))
    return tuple(entries)


def _reading(given: ClosingInput) -> str:
    (_, first), (year, last) = given.outlines[0], given.outlines[-1]
    if year == 0:
        return "The outline as cut; it closes within the first year."
    start, end = (length_words(_waist(line), given.units) for line in (first, last))
    return f"Narrowest width {start} as cut and {end} after {year:g} years if nothing is trimmed."


def _words(year: float) -> str:
    return "as cut" if year == 0 else f"year {year:g}"


def _waist(half: tuple[Point, ...]) -> float:
    """Narrowest width between the lower and the upper fifth of the height: the corners close and do not count."""
    low, high = half[0][1], half[-1][1]
    wall = [(x, z) for x, z in half if x > 0.2]
    points = [(x, z) for x, z in wall if low + 0.2 * (high - low) <= z <= low + 0.8 * (high - low)]
    return 2.0 * min((x for x, _ in points or wall), default=0.0)
