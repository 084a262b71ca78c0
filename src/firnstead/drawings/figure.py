"""The one description of a drawing: frozen shapes in world metres that every back end understands.

Places are in metres (plan: x east, y north; section: x across, y up). Sizes that belong to the paper
(text height, offset of a dimension, size of a symbol) are in millimetres on paper, so that a drawing
reads the same at every scale.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Point = tuple[float, float]
Pattern = Literal["none", "snow", "dots", "tone", "hatch", "cross", "solid"]
LineKind = Literal["solid", "dashed"]
Anchor = Literal["left", "middle", "right"]
Level = Literal["base", "middle", "top"]

FINE, MEDIUM, STRONG, HEAVY = 0.18, 0.35, 0.5, 0.7
"""The four line weights [mm]."""
WEIGHTS = (FINE, MEDIUM, STRONG, HEAVY)


@dataclass(frozen=True)
class Polyline:
    """An open line through points."""

    points: tuple[Point, ...]
    layer: str
    weight: float = MEDIUM
    line: LineKind = "solid"


@dataclass(frozen=True)
class Polygon:
    """A closed outline, with holes and a pattern inside; weight 0 draws no outline."""

    points: tuple[Point, ...]
    layer: str
    weight: float = MEDIUM
    pattern: Pattern = "none"
    holes: tuple[tuple[Point, ...], ...] = ()
    line: LineKind = "solid"


@dataclass(frozen=True)
class Circle:
    """A circle; the radius is in metres."""

    centre: Point
    radius: float
    layer: str
    weight: float = MEDIUM


@dataclass(frozen=True)
class Arc:
    """A circular arc, counter-clockwise from `start` to `end` degrees measured from the x axis."""

    centre: Point
    radius: float
    start: float
    end: float
    layer: str
    weight: float = MEDIUM

    def points(self, steps: int = 48) -> tuple[Point, ...]:
        """The arc as a line of many points."""
        sweep = (self.end - self.start) % 360.0 or 360.0
        angles = [math.radians(self.start + sweep * i / steps) for i in range(steps + 1)]
        return tuple((self.centre[0] + self.radius * math.cos(a), self.centre[1] + self.radius * math.sin(a))
                     for a in angles)  # fmt: skip


@dataclass(frozen=True)
class Text:
    """Words; `height` is the height of a capital [mm], `shift` moves them on paper [mm], `rotation` in degrees."""

    words: str
    at: Point
    height: float = 2.5
    anchor: Anchor = "left"
    level: Level = "base"
    rotation: float = 0.0
    shift: Point = (0.0, 0.0)
    layer: str = "text"
    mono: bool = False
    bold: bool = False


@dataclass(frozen=True)
class Label:
    """Words with several possible places, best first: the first that touches no line is taken."""

    choices: tuple[Text, ...]


@dataclass(frozen=True)
class Dimension:
    """A length with end ticks: `offset` [mm] to the left of start → end; `axis` measures along x or y only."""

    start: Point
    end: Point
    offset: float
    words: str
    axis: Literal["along", "x", "y"] = "along"
    upright: bool = False
    """Words level beside the line (for upright dimensions), not along it."""
    short: Literal["start", "end"] = "end"
    """Beyond which end an upright dimension's words stand where they are higher than it is long."""
    clear_of: Point | None = None
    """The offset is counted from here if this point lies further out than both ends."""
    layer: str = "dimensions"

    def direction(self) -> Point:
        """Unit vector along which the length is measured."""
        dx, dy = self.end[0] - self.start[0], self.end[1] - self.start[1]
        if self.axis == "x":
            return (math.copysign(1.0, dx), 0.0)
        if self.axis == "y":
            return (0.0, math.copysign(1.0, dy))
        length = math.hypot(dx, dy) or 1.0
        return (dx / length, dy / length)

    def value(self) -> float:
        """The measured length [m]."""
        ux, uy = self.direction()
        return (self.end[0] - self.start[0]) * ux + (self.end[1] - self.start[1]) * uy


@dataclass(frozen=True)
class Leader:
    """A thin line from words (at `tip` + `shift` mm on paper) to the thing they speak of."""

    words: str
    tip: Point
    shift: Point
    height: float = 2.5
    layer: str = "text"


@dataclass(frozen=True)
class Symbol:
    """North arrow, storm wind or sun; `bearing` [degrees clockwise from up] is where it points (wind: blows from)."""

    kind: Literal["north", "storm wind", "sun"]
    at: Point
    bearing: float
    words: str
    size: float = 10.0
    layer: str = "symbols"


@dataclass(frozen=True)
class ScaleBar:
    """A bar in `parts` equal parts, alternately black, that shows `metres` and is `size` mm long on paper."""

    at: Point
    metres: float
    size: float
    parts: int
    words: str
    layer: str = "frame"


Basic = Polyline | Polygon | Circle | Arc | Text
Composite = Dimension | Leader | Symbol | ScaleBar
Fixed = Basic | Composite
"""All that has its place; a label is still looking for one."""
Item = Fixed | Label


@dataclass(frozen=True)
class LegendEntry:
    """One line of the legend: a pattern or a line, and what it means."""

    words: str
    pattern: Pattern = "none"
    weight: float = MEDIUM
    line: LineKind = "solid"
    swatch: Literal["area", "line", "circle"] = "area"


@dataclass(frozen=True)
class Figure:
    """A drawing before it is set on paper; `reading` says in one sentence what it shows."""

    title: str
    reading: str
    items: tuple[Item, ...]
    legend: tuple[LegendEntry, ...] = ()
    symbols: tuple[Symbol, ...] = ()
    notes: tuple[str, ...] = ()


def rectangle(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, ...]:
    """The four corners of an upright rectangle."""
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def printable(words: str) -> str:
    """Words on one line without characters that no drawing file can hold."""
    kept = "".join(c if c.isprintable() else " " for c in words)
    return " ".join(kept.split())


def length_words(metres: float, units: str = "metric") -> str:
    """A length as the drawings write it.

    >>> length_words(5.1816), length_words(5.1816, "us")
    ('5.18 m', '17.00 ft')
    """
    return f"{metres / 0.3048:.2f} ft" if units == "us" else f"{metres:.2f} m"


def extent(points: Iterable[Point]) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y; a unit square where there are no points."""
    found = list(points)
    if not found:
        return (0.0, 0.0, 1.0, 1.0)
    xs, ys = [p[0] for p in found], [p[1] for p in found]
    return (min(xs), min(ys), max(xs), max(ys))
