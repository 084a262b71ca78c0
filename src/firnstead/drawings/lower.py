"""Composite shapes (dimensions, leaders, symbols, scale bars) turned into plain lines and words at a scale."""

from __future__ import annotations

import math
from collections.abc import Iterable

from firnstead.drawings.figure import (
    FINE,
    MEDIUM,
    Arc,
    Basic,
    Circle,
    Dimension,
    Fixed,
    Leader,
    Point,
    Polygon,
    Polyline,
    ScaleBar,
    Symbol,
    Text,
    extent,
    rectangle,
)  # fmt: skip
from firnstead.drawings.textsize import text_width

TICK = 1.2  # half length of a dimension tick [mm]
GAP = 0.8  # between a measured point and its extension line [mm]
LIFT = 1.4  # between a line and the words above it [mm]
BEYOND = 1.5  # how far extension lines run past the dimension line [mm]


def lower(items: Iterable[Fixed], mm_per_m: float) -> list[Basic]:
    """Plain shapes of the items at a scale, in drawing order."""
    return [shape for item in items for shape in plain(item, mm_per_m)]


def plain(item: Fixed, mm_per_m: float) -> list[Basic]:
    """Plain shapes of one item."""
    if isinstance(item, Dimension):
        return dimension(item, mm_per_m)
    if isinstance(item, Leader):
        return leader(item, mm_per_m)
    if isinstance(item, Symbol):
        return symbol(item, mm_per_m)
    if isinstance(item, ScaleBar):
        return scale_bar(item, mm_per_m)
    return [item]


def bounds(shapes: Iterable[Basic], mm_per_m: float) -> tuple[float, float, float, float]:
    """What plain shapes cover on paper [mm], words included: left, low, right, top."""
    points: list[Point] = []
    for shape in shapes:
        if isinstance(shape, Text):
            points += text_corners(shape, mm_per_m)
            continue
        if isinstance(shape, Circle):
            (x, y), r = shape.centre, shape.radius
            found = rectangle(x - r, y - r, x + r, y + r)
        else:
            found = shape.points() if isinstance(shape, Arc) else shape.points
        points += [(x * mm_per_m, y * mm_per_m) for x, y in found]
    return extent(points)


def text_corners(text: Text, mm_per_m: float, margin: float = 0.0) -> tuple[Point, Point, Point, Point]:
    """Corners of the words on paper [mm], counter-clockwise from the lower left."""
    wide = text_width(text.words, text.height, text.mono, text.bold)
    left = {"left": 0.0, "middle": -wide / 2, "right": -wide}[text.anchor]
    low = {"base": 0.0, "middle": -text.height / 2, "top": -text.height}[text.level]
    x, y = text.at[0] * mm_per_m + text.shift[0], text.at[1] * mm_per_m + text.shift[1]
    c, s = math.cos(math.radians(text.rotation)), math.sin(math.radians(text.rotation))
    x0, x1, y0, y1 = left - margin, left + wide + margin, low - margin - 0.25 * text.height, low + text.height + margin
    a, b, d, e = ((x + u * c - v * s, y + u * s + v * c) for u, v in ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
    return a, b, d, e


def dimension(item: Dimension, k: float) -> list[Basic]:
    """Extension lines, dimension line, oblique ticks and the words above (or beside) the line."""
    (start, end), layer = dimension_line(item, k), item.layer
    ux, uy = item.direction()
    nx, ny = -uy, ux
    side = math.copysign(1.0, item.offset)
    shapes: list[Basic] = []
    for measured, line_end in ((item.start, start), (item.end, end)):
        reach = (line_end[0] - measured[0]) * nx * side + (line_end[1] - measured[1]) * ny * side
        if reach * k > GAP + BEYOND:
            near = (measured[0] + nx * side * GAP / k, measured[1] + ny * side * GAP / k)
            far = (line_end[0] + nx * side * BEYOND / k, line_end[1] + ny * side * BEYOND / k)
            shapes.append(Polyline((near, far), layer, FINE))
        tick = ((ux + nx) * TICK / math.sqrt(2) / k, (uy + ny) * TICK / math.sqrt(2) / k)
        ends = ((line_end[0] - tick[0], line_end[1] - tick[1]), (line_end[0] + tick[0], line_end[1] + tick[1]))
        shapes.append(Polyline(ends, layer, MEDIUM))
    words, reach_out = _dimension_words(item, start, end, k)
    line_to = (end[0] + ux * reach_out / k, end[1] + uy * reach_out / k)
    return [*shapes, Polyline((start, line_to), layer, FINE), words]


def dimension_line(item: Dimension, k: float) -> tuple[Point, Point]:
    """Ends of the dimension line: both points moved out to `offset` beyond the outermost of them."""
    ux, uy = item.direction()
    nx, ny = -uy, ux
    across = [p[0] * nx + p[1] * ny for p in (item.start, item.end, item.clear_of or item.start)]
    level = (max(across) if item.offset >= 0 else min(across)) + item.offset / k
    along = [p[0] * ux + p[1] * uy for p in (item.start, item.end)]
    start, end = ((a * ux + level * nx, a * uy + level * ny) for a in along)
    return start, end


def _dimension_words(item: Dimension, start: Point, end: Point, k: float) -> tuple[Text, float]:
    """The words, and how far [mm] the line must run on to carry them when they do not fit between the ticks."""
    height, (ux, uy) = 2.5, item.direction()
    wide = text_width(item.words, height, mono=True)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    if item.upright:
        right, at, beyond = -uy * item.offset > 0, middle, 0.0
        if item.value() * k < height + 1.5:
            at, beyond = (start, -uy) if item.short == "start" else (end, uy)
        text = Text(item.words, at, height, "left" if right else "right", "middle", mono=True, layer=item.layer,
                    shift=(1.6 if right else -1.6, beyond * height * 0.7))  # fmt: skip
        return text, 0.0
    angle = readable(math.degrees(math.atan2(uy, ux)))
    up = (-math.sin(math.radians(angle)), math.cos(math.radians(angle)))
    lift = (up[0] * LIFT, up[1] * LIFT)
    if item.value() * k >= wide + 2.0:
        return Text(item.words, middle, height, "middle", "base", angle, lift, item.layer, mono=True), 0.0
    flipped = abs(angle - math.degrees(math.atan2(uy, ux))) > 1.0
    shift = (ux * 2.2 + lift[0], uy * 2.2 + lift[1])
    return (Text(item.words, end, height, "right" if flipped else "left", "base", angle, shift, item.layer, mono=True),
            wide + 3.0)  # fmt: skip


def readable(angle: float) -> float:
    """Turn an angle by 180 degrees where words would stand on their head.

    >>> readable(180.0), readable(-90.0), readable(45.0)
    (0.0, 90.0, 45.0)
    """
    angle = (angle + 180.0) % 360.0 - 180.0
    if angle > 90.0 + 1e-6:
        return angle - 180.0
    return angle + 180.0 if angle <= -90.0 + 1e-6 else angle


def leader(item: Leader, k: float) -> list[Basic]:
    """A dot at the tip, a thin line, and the words at its other end."""
    (x, y), (dx, dy) = item.tip, item.shift
    right = dx >= 0
    foot = (x + dx / k, y + dy / k)
    text = Text(item.words, foot, item.height, "left" if right else "right", "middle",
                shift=(1.0 if right else -1.0, 0.0), layer=item.layer)  # fmt: skip
    return [Polyline((item.tip, foot), item.layer, FINE), dot(item.tip, 0.5 / k, item.layer), text]


def dot(at: Point, radius: float, layer: str) -> Polygon:
    """A small filled dot."""
    return Polygon(Arc(at, radius, 0.0, 360.0, layer).points(16)[:-1], layer, 0.0, "solid")


def symbol(item: Symbol, k: float) -> list[Basic]:
    """An arrow of `size` mm: to the north, out of the wind, or to the sun."""
    turn = math.radians(item.bearing + (180.0 if item.kind == "storm wind" else 0.0))

    def at(right: float, ahead: float) -> Point:
        """A place [mm] in the symbol's own frame, as metres."""
        x, y = right * math.cos(turn) + ahead * math.sin(turn), -right * math.sin(turn) + ahead * math.cos(turn)
        return (item.at[0] + x / k, item.at[1] + y / k)

    half, layer = item.size / 2, item.layer
    shapes: list[Basic] = [Polyline((at(0, -half), at(0, half)), layer, MEDIUM)]
    if item.kind == "north":
        shapes.append(Polygon((at(0, half), at(1.5, half - 4), at(-1.5, half - 4)), layer, FINE, "solid"))
    else:
        shapes.append(Polyline((at(1.5, half - 2.5), at(0, half), at(-1.5, half - 2.5)), layer, MEDIUM))
    if item.kind == "storm wind":
        shapes += [Polyline((at(0, y), at(2.5, y - 1.5)), layer, MEDIUM) for y in (-half, -half + 1.5, -half + 3.0)]
    if item.kind == "sun":
        shapes.append(Circle(at(0, -half + 1.5), 1.5 / k, layer, MEDIUM))
    below = Text(item.words, item.at, 2.5, "middle", "top", shift=(0.0, -half - 1.5), layer=layer)
    return [*shapes, below]


def scale_bar(item: ScaleBar, k: float) -> list[Basic]:
    """A bar 1.5 mm high with figures at its ends and its middle."""
    (x, y), step, tall = item.at, item.size / item.parts / k, 1.5 / k
    shapes: list[Basic] = []
    for i in range(item.parts):
        part = rectangle(x + i * step, y, x + (i + 1) * step, y + tall)
        shapes.append(Polygon(part, item.layer, FINE, "none" if i % 2 else "solid"))
    marks = ((0.0, "0"), (0.5, f"{item.metres / 2:g}"), (1.0, f"{item.metres:g} m"))
    shapes += [Text(words, (x + share * item.size / k, y), 2.0, "middle" if share else "left", "base",
                    shift=(0.0, 2.6), layer=item.layer, mono=True) for share, words in marks]  # fmt: skip
    return [*shapes, Text(item.words, (x, y), 2.0, "left", "top", shift=(0.0, -1.2), layer=item.layer)]
