"""The station's plan: passages, trenches with their verdicts, buildings, hatches, ways in, north and storm wind."""

from __future__ import annotations

import math

from firnstead.core.results import Verdict
from firnstead.drawings.figure import (
    FINE,
    MEDIUM,
    STRONG,
    Anchor,
    Circle,
    Dimension,
    Figure,
    Item,
    Label,
    LegendEntry,
    Level,
    Pattern,
    Point,
    Polygon,
    Polyline,
    Symbol,
    Text,
    extent,
    length_words,
)  # fmt: skip
from firnstead.drawings.lower import readable
from firnstead.drawings.plan_input import Outline, PlanInput, Ramp, Strip
from firnstead.drawings.shapes import rings

VERDICT_PATTERN: dict[Verdict, Pattern] = {
    Verdict.HOLDS: "none", Verdict.CLOSE: "hatch", Verdict.FAILS: "cross", Verdict.NOT_CHECKED: "dots",
}  # fmt: skip
"""The same four patterns everywhere; they survive a photocopier."""
VERDICT_WORDS = {
    Verdict.HOLDS: "holds: every check of the place",
    Verdict.CLOSE: "close to a limit: at least one check, none fails",
    Verdict.FAILS: "fails: at least one check",
    Verdict.NOT_CHECKED: "not checked: at least one question is open",
}
LISTED = 8  # names in the sentence above the plan; more are only counted
GRID = (5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0)  # spacing of the grid [m]


def plan(given: PlanInput) -> Figure:
    """The plan, with a legend of the verdicts that occur."""
    passages = [s for s in given.strips if s.passage]
    trenches = [s for s in given.strips if not s.passage]
    corners = [p for s in given.strips for p in s.outline()]
    corners += [p for r in given.ramps for p in _ramp_strip(r).outline()]
    strips = (*given.strips, *(_ramp_strip(r) for r in given.ramps))
    items: list[Item] = _grid(corners, strips) if corners else []
    for strip in (*trenches, *passages):
        items += _strip(strip, passages, given.buildings)
    for outline in (*given.links, *given.niches):
        items.append(Polygon(outline.corners, "cut", MEDIUM))
    items += [Polygon(b.corners, "building", MEDIUM) for b in given.buildings]
    items += [Circle(h.at, max(h.diameter, 1.4) / 2, "hatches", STRONG) for h in given.hatches]
    for ramp in given.ramps:
        items += _ramp(ramp)
    if corners:
        x0, y0, x1, y1 = extent(corners)
        items.append(Dimension((x0, y0), (x1, y0), -12.0, length_words(x1 - x0, given.units)))
        items.append(Dimension((x1, y0), (x1, y1), -12.0, length_words(y1 - y0, given.units)))
    items += [_name(s) for s in given.strips]
    symbols = [Symbol("north", (0.0, 0.0), 0.0, "grid north")]
    if given.storm_wind_from is not None:
        words = f"storm wind {given.storm_wind_from:.0f}°"
        symbols.append(Symbol("storm wind", (0.0, 0.0), given.storm_wind_from, words))
    return Figure(f"Plan of {given.station}", _reading(given), tuple(items), _legend(given), tuple(symbols))


def _strip(strip: Strip, passages: list[Strip], buildings: tuple[Outline, ...]) -> list[Item]:
    """Outline with the verdict's pattern round the buildings; the part of a trench inside a passage is not drawn."""
    from shapely import Polygon as Area

    pattern = VERDICT_PATTERN[strip.verdict] if strip.verdict else "none"
    shape = Area(strip.outline())
    if not strip.passage:
        for passage in passages:
            shape = shape.difference(Area(passage.outline()))
    clear = shape
    for building in buildings if pattern != "none" else ():
        clear = clear.difference(Area(building.corners))
    items = [Polygon(ring, "cut", 0.0, pattern, holes) for ring, holes in rings(clear)] if pattern != "none" else []
    return [*items, *(Polygon(ring, "cut", STRONG) for ring, _ in rings(shape))]


def _name(strip: Strip) -> Label:
    """The name of a trench beyond its far end, that of a passage inside it; else wherever it is free."""
    length, half = strip.length or 1.0, strip.width / 2
    ux, uy = (strip.end[0] - strip.start[0]) / length, (strip.end[1] - strip.start[1]) / length
    angle = readable(math.degrees(math.atan2(uy, ux)))
    height, bold = (3.0 if strip.passage else 2.5), strip.passage

    def along(at: Point, shift: Point = (0.0, 0.0)) -> Text:
        return Text(strip.name, at, height, "middle", "middle", angle, shift, bold=bold)

    inside = [along(strip.at(length * i / 24)) for i in range(1, 24)]
    beside = [along(strip.at(length * i / 24, side * half), (-uy * side * 3.0, ux * side * 3.0))
              for i in range(22, 1, -1) for side in (1.0, -1.0)]  # fmt: skip
    far, near, corners = list[Text](), list[Text](), list[Text]()
    for at, dx, dy, ends in ((strip.end, ux, uy, far), (strip.start, -ux, -uy, near)):
        for gap in (2.0, 5.5, 9.0):
            ends.append(Text(strip.name, at, height, *_outward(dx, dy), shift=(dx * gap, dy * gap), bold=bold))
        for side in (1.0, -1.0):
            corner, (cx, cy) = (at[0] - dy * side * half, at[1] + dx * side * half), (dx - dy * side, dy + dx * side)
            corners.append(Text(strip.name, corner, height, *_outward(cx, cy), shift=(cx * 1.5, cy * 1.5), bold=bold))
    if strip.passage:
        return Label((*inside, *corners, *beside, *far, *near))
    return Label((*far, *corners[:2], *beside, *inside, *near))


def _outward(dx: float, dy: float) -> tuple[Anchor, Level]:
    """How words are hung on a point so that they lie on its side towards dx, dy."""
    return ("left" if dx > 0.5 else "right" if dx < -0.5 else "middle",
            "base" if dy > 0.5 else "top" if dy < -0.5 else "middle")  # fmt: skip


def _ramp_strip(ramp: Ramp) -> Strip:
    return Strip(ramp.name, ramp.foot, ramp.top, ramp.width)


def _ramp(ramp: Ramp) -> list[Item]:
    """A dashed outline with an arrow pointing up the ramp."""
    strip = _ramp_strip(ramp)
    size = min(ramp.width / 3, strip.length / 4)
    tip = strip.at(strip.length * 0.9)
    barb = (strip.at(strip.length * 0.9 - size, size / 2), tip, strip.at(strip.length * 0.9 - size, -size / 2))
    shaft = (strip.at(strip.length * 0.1), tip)
    return [Polygon(strip.outline(), "portals", MEDIUM, line="dashed"), Polyline(shaft, "portals", FINE),
            Polyline(barb, "portals", MEDIUM)]  # fmt: skip


def _grid(corners: list[Point], strips: tuple[Strip, ...]) -> list[Item]:
    """Crosses at round east and north values outside the cuts, with the values along two edges."""
    x0, y0, x1, y1 = extent(corners)
    size = max(x1 - x0, y1 - y0, 1.0)
    step = next((s for s in GRID if size / s <= 10), GRID[-1])
    arm, edge = 0.006 * size, 0.04 * size
    easts, norths = _rounds(x0, x1, step), _rounds(y0, y1, step)
    items: list[Item] = []
    for x in easts:
        top = (x, y1 + edge)
        items += [
            Polyline((top, (x, y1 + edge + arm)), "grid", FINE),
            _value("E", x, top, "middle", "base", (0.0, 4.0)),
        ]
    for y in norths:
        side, tip = (x0 - edge, y), (x0 - edge - arm, y)
        items += [Polyline((tip, side), "grid", FINE), _value("N", y, tip, "right", "middle", (-1.0, 0.0))]
    for x, y in ((x, y) for x in easts for y in norths):
        if not any(strip.near((x, y), 2 * arm) for strip in strips):
            items += [Polyline(((x - arm, y), (x + arm, y)), "grid", FINE),
                      Polyline(((x, y - arm), (x, y + arm)), "grid", FINE)]  # fmt: skip
    return items


def _rounds(low: float, high: float, step: float) -> list[float]:
    return [i * step for i in range(math.ceil(low / step), math.floor(high / step) + 1)]


def _value(axis: str, value: float, at: Point, anchor: Anchor, level: Level, shift: Point) -> Text:
    return Text(f"{axis} {value:g}", at, 2.0, anchor, level, shift=shift, layer="grid", mono=True)


def _legend(given: PlanInput) -> tuple[LegendEntry, ...]:
    """Only what occurs on this plan."""
    met = {s.verdict for s in given.strips if s.verdict}
    entries = [LegendEntry(words, VERDICT_PATTERN[v], STRONG) for v, words in VERDICT_WORDS.items() if v in met]
    if given.buildings:
        entries.append(LegendEntry("building", "none", MEDIUM))
    if given.hatches:
        entries.append(LegendEntry("escape hatch", weight=STRONG, swatch="circle"))
    if given.ramps:
        entries.append(LegendEntry("portal and ramp, arrow up the slope", "none", MEDIUM, "dashed"))
    return tuple(entries)


def _reading(given: PlanInput) -> str:
    """One sentence: what is there, and what needs a look."""
    trenches = sum(not s.passage for s in given.strips)
    passages = len(given.strips) - trenches
    counts = (_count(passages, "passage"), _count(trenches, "trench", "trenches"),
              _count(len(given.buildings), "building"), _count(len(given.hatches), "escape hatch", "escape hatches"),
              _count(len(given.ramps), "portal"))  # fmt: skip
    said = [", ".join(c for c in counts if c) or "Nothing is laid out yet"]
    for verdict, words in ((Verdict.FAILS, "fails"), (Verdict.CLOSE, "close to a limit")):
        names = [s.name for s in given.strips if s.verdict is verdict]
        if names:
            said.append(f"{words}: {', '.join(names) if len(names) <= LISTED else f'{len(names)} places'}")
    return "; ".join(said) + "."


def _count(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if number == 1 else many or one + 's'}" if number else ""
