"""Plan of the ways out: exits, walking distances, the two ways of the worst places, dead ends, what hangs there."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from firnstead.drawings.escape_plan_input import DeadEnd, EscapePlanInput, FarSpot, Walk
from firnstead.drawings.figure import (
    FINE,
    HEAVY,
    MEDIUM,
    STRONG,
    Dimension,
    Figure,
    Item,
    Label,
    LegendEntry,
    LineKind,
    Point,
    Polygon,
    Polyline,
    Symbol,
    Text,
    length_words,
    rectangle,
)  # fmt: skip
from firnstead.drawings.plan import plan
from firnstead.drawings.plan_input import Strip

SIDE = 0.6  # m: half the side of the mark of an extinguisher or alarm point
HEAD = 3.0  # m: length of an arrow's head
NOTE = (
    "Numbers by the name of each place, in {unit}: walk from its farthest spot (diamond) to the nearest exit | longest "
    "walk from the place with any one spot blocked. A ladder counts; a walk by a ramp ends in the portal. Ramps as "
    "cut: they grow longer as the snow rises."
)


def escape_plan(given: EscapePlanInput) -> Figure:
    """The plan, with a legend of what occurs on it."""
    base = plan(given.ground)
    items: list[Item] = [_lighter(i) for i in base.items if not isinstance(i, Dimension) and _layer(i) != "grid"]
    for b in given.ground.buildings:
        if b.name in given.refuges:
            items.append(Polygon(b.corners, "refuge", STRONG, "tone"))
    for ways in given.worst:
        items += walk_lines(ways.first, HEAVY, "solid")
        if ways.second is not None:
            items += walk_lines(ways.second, HEAVY, "dashed")
    items += [_mark(p, "extinguishers", "solid") for p in dict.fromkeys(given.extinguishers)]
    items += [_mark(p, "alarm points", "cross", 2 * SIDE) for p in dict.fromkeys(given.alarm_points)]
    for end in given.dead_ends:
        items += _dead_end(end)
    strips = {s.name: s for s in given.ground.strips}
    for far in given.far:
        items += _far(far, strips.get(far.place), given.ground.units)
    items += [_exit_name(e.name, e.at) for e in given.exits]
    items += [_name(b.name, b.corners) for b in given.ground.buildings if b.name in given.refuges]
    return Figure(f"Ways out of {given.ground.station}", _reading(given), tuple(items), _legend(given),
                  (Symbol("north", (0.0, 0.0), 0.0, "grid north"),),
                  (NOTE.format(unit="feet" if given.ground.units == "us" else "metres"),))  # fmt: skip


def walk_lines(walk: Walk, weight: float, line: LineKind) -> list[Item]:
    """A way with an arrow at its end."""
    items: list[Item] = [Polyline(walk.line, "ways out", weight, line)]
    if len(walk.line) > 1:
        items.append(Polygon(arrow_head(walk.line[-2], walk.line[-1], HEAD), "ways out", FINE, "solid"))
    return items


def arrow_head(before: Point, tip: Point, length: float) -> tuple[Point, Point, Point]:
    """A triangle whose tip is the end of a way."""
    reach = math.dist(before, tip) or 1.0
    ux, uy = (tip[0] - before[0]) / reach, (tip[1] - before[1]) / reach
    back = (tip[0] - ux * length, tip[1] - uy * length)
    half = length / 3
    return tip, (back[0] - uy * half, back[1] + ux * half), (back[0] + uy * half, back[1] - ux * half)


def _lighter(item: Item) -> Item:
    """The ground stands behind the ways: no line of it as heavy as theirs."""
    if isinstance(item, (Polygon, Polyline)) and item.layer != "hatches":
        return replace(item, weight=min(item.weight, FINE) if item.layer == "building" else min(item.weight, MEDIUM))
    return item


def _layer(item: Item) -> str:
    return item.choices[0].layer if isinstance(item, Label) else item.layer


def _mark(at: Point, layer: str, pattern: str, side: float = SIDE) -> Polygon:
    (x, y), s = at, side
    return Polygon(rectangle(x - s, y - s, x + s, y + s), layer, FINE, "solid" if pattern == "solid" else "cross")


def _dead_end(end: DeadEnd) -> list[Item]:
    """A saltire at the blind end."""
    (x, y), s = end.at, 1.2
    return [Polyline(((x - s, y - s), (x + s, y + s)), "dead ends", STRONG),
            Polyline(((x - s, y + s), (x + s, y - s)), "dead ends", STRONG)]  # fmt: skip


def _far(far: FarSpot, strip: Strip | None, units: str) -> list[Item]:
    """The farthest spot, and its numbers by the name of the place: beyond a trench's end, else beside the spot."""
    blocked = "cut off" if math.isinf(far.blocked) else _whole(far.blocked, units).split()[0]
    words = f"{_whole(far.walk, units).split()[0]} | {blocked}"
    (x, y), s = far.at, 1.1
    diamond = ((x - s, y), (x, y + s), (x + s, y), (x, y - s))
    around = [(dx, dy) for dx in (4.0, -4.0, 6.5, -6.5, 9.0, -9.0) for dy in (0.0, 3.0, -3.0, 7.0, -7.0, 12.0, -12.0)]
    beside = _round(words, far.at, 2.2, around, mono=True)
    if strip is not None and not strip.passage:
        length = strip.length or 1.0
        ux, uy = (strip.end[0] - strip.start[0]) / length, (strip.end[1] - strip.start[1]) / length
        beyond = [(ux * gap, uy * gap) for gap in (6.5, 2.5, 10.0, 13.5)]
        beside = Label((*_round(words, strip.end, 2.2, beyond, mono=True).choices, *beside.choices))
    return [Polygon(diamond, "walks", STRONG), beside]


def _round(words: str, at: Point, height: float, shifts: Iterable[Point], mono: bool = False) -> Label:
    """Words beside a spot wherever they are free."""
    return Label(tuple(
        Text(words, at, height, "left" if dx > 0.1 else "right" if dx < -0.1 else "middle",
             "base" if dy > 0.1 else "top" if dy < -0.1 else "middle", shift=(dx, dy), mono=mono)
        for dx, dy in shifts))  # fmt: skip


def _exit_name(name: str, at: Point) -> Label:
    near = ((2.5, 2.0), (-2.5, 2.0), (2.5, -2.0), (-2.5, -2.0), (0.0, 4.0), (0.0, -4.0), (5.0, 6.0), (-5.0, 6.0),
            (5.0, -6.0), (-5.0, -6.0), (0.0, 9.0), (0.0, -9.0), (0.0, 13.0), (0.0, -13.0))  # fmt: skip
    return _round(name, at, 2.2, near)


def _name(name: str, corners: tuple[Point, ...]) -> Label:
    x, y = (sum(p[i] for p in corners) / len(corners) for i in (0, 1))
    return _round(name, (x, y), 2.2, ((4.0, 0.0), (-4.0, 0.0), (0.0, -6.0), (0.0, 6.0)))


def _whole(metres: float, units: str) -> str:
    number, unit = length_words(metres, units).split()
    return f"{float(number):.0f} {unit}"


def _reading(given: EscapePlanInput) -> str:
    """One sentence: how many ways out, and what is farthest."""
    hatches = sum(e.hatch for e in given.exits)
    portals = len(given.exits) - hatches
    said = (f"{hatches} escape hatch{'' if hatches == 1 else 'es'} and "
            f"{portals} portal{'' if portals == 1 else 's'}")  # fmt: skip
    cut = [f.place for f in given.far if math.isinf(f.blocked)]
    if cut:
        return f"{said}; cut off while one spot is blocked: {', '.join(cut)}."
    if not given.far:
        return f"{said}."
    open_, blocked = max(given.far, key=lambda f: f.walk), max(given.far, key=lambda f: f.blocked)
    ways = f"; two ways drawn for {', '.join(w.who for w in given.worst)}" if given.worst else ""
    return (f"{said}; farthest walk {_whole(open_.walk, given.ground.units)} in {open_.place}, with one spot blocked "
            f"{_whole(blocked.blocked, given.ground.units)} in {blocked.place}{ways}.")  # fmt: skip


def _legend(given: EscapePlanInput) -> tuple[LegendEntry, ...]:
    """Only what occurs on this plan."""
    rows = (
        (given.worst, LegendEntry("first way out of a worst place", weight=HEAVY, swatch="line")),
        (any(w.second for w in given.worst), LegendEntry("its second way", "none", HEAVY, "dashed", "line")),
        (any(e.hatch for e in given.exits), LegendEntry("escape hatch", weight=STRONG, swatch="circle")),
        (given.ground.ramps, LegendEntry("portal and ramp, arrow up the slope", "none", MEDIUM, "dashed")),
        (given.refuges, LegendEntry("refuge", "tone", STRONG)),
        (given.extinguishers, LegendEntry("extinguisher", "solid", FINE)),
        (given.alarm_points, LegendEntry("alarm point (larger square)", "cross", FINE)),
        (given.dead_ends, LegendEntry("saltire: dead end", "none", 0.0)),
    )  # fmt: skip
    return tuple(entry for present, entry in rows if present)
