"""One page on the wall of a building: where to go, in big words, and the two ways out drawn. Black and white."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

from firnstead.core.cautions import SHORT
from firnstead.drawings.corner import bar_length
from firnstead.drawings.escape_plan import arrow_head
from firnstead.drawings.escape_plan_input import MusterInput, Walk
from firnstead.drawings.figure import (
    FINE,
    HEAVY,
    MEDIUM,
    STRONG,
    Circle,
    Figure,
    Fixed,
    Item,
    Label,
    Point,
    Polygon,
    Polyline,
    ScaleBar,
    Symbol,
    Text,
    extent,
    length_words,
    rectangle,
)  # fmt: skip
from firnstead.drawings.labels import settle
from firnstead.drawings.lower import bounds, lower, text_corners
from firnstead.drawings.shapes import rings
from firnstead.drawings.sheet import LEFT, MARGIN, PAPERS, Sheet
from firnstead.drawings.textsize import fit, wrap

BAND = 1.6  # mm: width of the drawn ways
DASH, GAP = 4.0, 2.2  # mm: of the second way
HEAD = 5.0  # mm: length of an arrow's head
MAP_SCALES = (200, 250, 300, 400, 500, 600, 750, 1000, 1250, 1500, 2000, 3000, 5000)  # a wall page is not measured off
ROUND = 6.0  # m of snow shown round the ways
FOOT = 18.0  # mm of the page under the map
ALARM = "If the alarm sounds or you smell smoke: warn the others, leave at once, shut the door behind you."
AGAIN = "Never go back in. Stay low in smoke, one hand on the wall. Be counted at the muster point:"


def muster_sheet(given: MusterInput) -> Sheet:
    """The page, A4 upright on its long side, at the largest scale that shows both ways whole."""
    width, height = PAPERS["A4"]
    left, right, top = LEFT, width - MARGIN, height - MARGIN
    words, below = _words(given, left + 4.0, right - 4.0, top)
    x0, y0, x1, y1 = left + 3.0, MARGIN + FOOT + 2.0, right - 3.0, below - 2.0
    view = _view(given)
    scale = next((s for s in MAP_SCALES if _fits(view, 1000.0 / s, x1 - x0, y1 - y0)), MAP_SCALES[-1])
    k = 1000.0 / scale
    view = _filled(view, (x1 - x0) / k, (y1 - y0) / k)
    items = settle(_map(given, view, k), k)
    a, b, c, d = bounds(lower(items, k), k)
    origin = ((x0 + x1) / 2 - (view[0] + view[2]) / 2 * k, (y0 + y1) / 2 - (view[1] + view[3]) / 2 * k)
    fits = c - a <= right - left and d - b <= y1 - y0 + 4.0
    furniture: list[Fixed] = [
        Polygon(rectangle(left, MARGIN, right, top), "frame", HEAVY),
        Polyline(((left, below), (right, below)), "frame", MEDIUM),
        Polyline(((left, MARGIN + FOOT), (right, MARGIN + FOOT)), "frame", MEDIUM),
        *words,
        *_foot(given, left + 4.0, right - 4.0, scale),
    ]
    figure = muster_figure(given)
    return Sheet(figure.title, figure.reading, "A4", width, height, scale, origin, tuple(items), tuple(furniture), fits)


def muster_figure(given: MusterInput) -> Figure:
    """The map alone, with its title and what it says in one sentence."""
    reading = " ".join(f"{n}: {_way(w, given.units)}." for n, w in _ways(given))
    return Figure(f"Ways out of {given.building}", reading or given.note, tuple(_map(given, _view(given), 2.0)))


def _ways(given: MusterInput) -> list[tuple[str, Walk]]:
    return [(n, w) for n, w in (("1", given.first), ("2", given.second)) if w is not None]


def _way(walk: Walk, units: str) -> str:
    """A way in words: the exit, how far, and how it ends."""
    end = f"up the ladder ({_whole(walk.ladder, units)})" if walk.ladder else "out by the ramp"
    return f"{walk.exit}, {_whole(walk.length, units)}, {end}"


def _whole(metres: float, units: str) -> str:
    number, unit = length_words(metres, units).split()
    return f"{float(number):.0f} {unit}"


def _words(given: MusterInput, left: float, right: float, top: float) -> tuple[list[Fixed], float]:
    """Heading and instructions; and the level below them."""
    name, height = fit(given.building, (right - left) * 0.45, 10.0, bold=True)
    items: list[Fixed] = [
        Text(name, (left, top - 14.0), height, bold=True, layer="frame"),
        Text(f"Ways out. {given.place}", (right, top - 8.0), 4.0, "right", layer="frame"),
    ]
    people = ", ".join(f"{hour} {count}" for hour, count in given.people)
    if people:
        said, size = fit(f"People in it: {people}", (right - left) * 0.5, 3.0)
        items.append(Text(said, (right, top - 14.0), size, "right", layer="frame"))
    y = top - 22.0
    alarm, size = fit(ALARM, (right - left) * 0.9, 3.8)
    items.append(Text(alarm, (left, y), size, layer="frame"))
    y -= 9.0
    for number, words in _instructions(given):
        if number:
            at = (left + 4.2, y + 2.4)
            items += [Circle(at, 4.2, "frame", HEAVY),
                      Text(number, at, 4.4, "middle", "middle", bold=True, layer="frame")]  # fmt: skip
        lines = wrap(words, (right - left - 27.0) * 1.1, 4.6)
        for line in lines[:2]:
            said, size = fit(line, right - left - 27.0, 4.6, bold=True)
            items.append(Text(said, (left + 11.0, y), size, bold=True, layer="frame"))
            y -= 7.2
        y -= 2.8
    items.append(Symbol("north", (right - 6.0, min(top - 34.0, y + 18.0)), 0.0, "north", 12.0, "frame"))
    return items, y + 3.5


def _instructions(given: MusterInput) -> list[tuple[str, str]]:
    said = []
    if given.first is not None:
        said.append(("1", f"Go to {_way(given.first, given.units)}."))
    if given.second is not None:
        said.append(("2", f"If that way is closed: {_way(given.second, given.units)}."))
    if given.refuge == given.building:
        said.append(("", "This building is a refuge: if no way is open, stay, shut the doors, and call."))
    elif given.refuge and given.refuge_length is not None:
        far = _whole(given.refuge_length, given.units)
        said.append(("", f"If no way to the snow is open: refuge {given.refuge}, {far}."))
    if given.note:
        said.append(("", f"Know this: {given.note}"))
    return said


def _foot(given: MusterInput, left: float, right: float, scale: int) -> list[Fixed]:
    low = MARGIN
    metres, parts = bar_length(scale)
    size = metres * 1000.0 / scale
    again, height = fit(AGAIN, (right - left) - 68.0, 3.2, bold=True)
    items: list[Fixed] = [
        Text(again, (left, low + FOOT - 6.5), height, bold=True, layer="frame"),
        Polyline(((right - 60.0, low + FOOT - 7.1), (right, low + FOOT - 7.1)), "frame", MEDIUM),
        ScaleBar((right - 8.0 - size, low + 3.4), metres, size, parts, ""),
    ]
    traced = f"{given.station}, file {given.file_version}, {given.dated}, scale 1:{scale}. {SHORT}"
    for i, line in enumerate(wrap(traced, (right - left - 66.0) * 1.1, 1.9)[:2]):
        items.append(Text(line, (left, low + 5.6 - 3.2 * i), 1.9, layer="frame"))
    return items


Box = tuple[float, float, float, float]


def _view(given: MusterInput) -> Box:
    """What the map must show [m]: the building and both ways."""
    points = [p for _, w in _ways(given) for p in w.line] + list(given.outline)
    for strip in given.ground.strips:
        if strip.name == given.place and not strip.passage:
            points += strip.outline()
    x0, y0, x1, y1 = extent(points)
    return (x0 - ROUND, y0 - ROUND, x1 + ROUND, y1 + ROUND)


def _fits(view: Box, k: float, wide: float, tall: float) -> bool:
    return (view[2] - view[0]) * k <= wide and (view[3] - view[1]) * k <= tall


def _filled(view: Box, wide: float, tall: float) -> Box:
    """The view widened to all of the paper that is there."""
    dx, dy = max(0.0, wide - (view[2] - view[0])) / 2, max(0.0, tall - (view[3] - view[1])) / 2
    return (view[0] - dx, view[1] - dy, view[2] + dx, view[3] + dy)


def _map(given: MusterInput, view: Box, k: float) -> list[Item]:
    """Snow left out; trenches, passages and buildings as outlines, clipped to the view; the ways over them."""
    ground = given.ground
    items: list[Item] = []
    for corners, weight in [(s.outline(), MEDIUM) for s in ground.strips] + [
        (o.corners, MEDIUM) for o in (*ground.links, *ground.niches)
    ]:
        items += _clipped(corners, view, "cut", weight)
    for ramp in ground.ramps:
        items += _clipped(_strip(ramp.foot, ramp.top, ramp.width), view, "portals", FINE)
    for b in ground.buildings:
        if b.name != given.building:
            items += _clipped(b.corners, view, "building", FINE)
    items.append(Polygon(given.outline, "building", HEAVY, "hatch"))
    items += [Circle(h.at, max(h.diameter, 2.0 / k) / 2 * 1.6, "hatches", STRONG)
              for h in ground.hatches if _inside(h.at, view)]  # fmt: skip
    second_first = [*_ways(given)[1:], *_ways(given)[:1]]
    for number, walk in second_first:
        items += _drawn(walk, k, dashed=number == "2")
    items += _label(_here(given, k), view, k)
    for number, walk in _ways(given):
        items += _label(_numbered(f"{number}  {walk.exit}", walk.line[-1]), view, k)
    return [*items, *_names(given, view, k)]


def _label(choices: tuple[Text, ...], view: Box, k: float) -> list[Item]:
    """Words at the first free spot that lies on the map."""
    kept = []
    for text in choices:
        x0, y0, x1, y1 = extent(text_corners(text, k, 1.0))
        if view[0] * k <= x0 and view[1] * k <= y0 and x1 <= view[2] * k and y1 <= view[3] * k:
            kept.append(text)
    return [Label(tuple(kept))] if kept else []


def _here(given: MusterInput, k: float) -> tuple[Text, ...]:
    """ "You are here", beside the building and not over a way."""
    xs = [p[0] for p in given.outline]
    half = (max(xs) - min(xs)) / 2 * k
    return tuple(
        Text(words, given.here, height, "left" if side > 0 else "right", "middle", shift=(side * (half + gap), dy),
             bold=True)
        for words, height in (("You are here", 3.4), ("You are here", 2.6), ("Here", 3.4)) for gap in (4.0, 6.0, 10.0)
        for dy in (0.0, 6.0, -6.0, 12.0, -12.0) for side in (1.0, -1.0))  # fmt: skip


def _numbered(words: str, at: Point) -> tuple[Text, ...]:
    return tuple(
        Text(
            words,
            at,
            3.8,
            "left" if dx > 0 else "right" if dx < 0 else "middle",
            "base" if dy > 0 else "top" if dy < 0 else "middle",
            shift=(dx * out, dy * out),
            bold=True,
        )
        for out in (1.0, 1.6, 2.4, 3.5, 5.0)
        for dx, dy in (
            (5.0, 0.0),
            (-5.0, 0.0),
            (5.0, 3.0),
            (-5.0, 3.0),
            (5.0, -3.0),
            (-5.0, -3.0),
            (0.0, 6.0),
            (0.0, -6.0),
        )
    )


def _names(given: MusterInput, view: Box, k: float) -> list[Item]:
    """Names of the places that the ways run through, on their axes or beside them."""
    made: list[Item] = []
    lines = [p for _, w in _ways(given) for p in w.line]
    for strip in given.ground.strips:
        if not any(strip.near(p, 0.5) for p in lines):
            continue
        length = strip.length or 1.0
        ux, uy = (strip.end[0] - strip.start[0]) / length, (strip.end[1] - strip.start[1]) / length
        angle = math.degrees(math.atan2(uy, ux))
        angle = angle - 180.0 if angle > 90.1 else angle + 180.0 if angle <= -89.9 else angle
        inside = [p for p in lines if strip.near(p, 0.5)]
        spots = [(strip.at(length * i / 24, side * strip.width / 2), side) for i in range(1, 24)
                 for side in (1.0, -1.0)]  # fmt: skip
        spots.sort(key=lambda spot: min(math.dist(spot[0], p) for p in inside))
        choices = tuple(
            Text(strip.name, at, 3.0, "middle", "middle", angle, (-uy * side * gap, ux * side * gap))
            for gap in (3.5, 6.0) for at, side in spots)  # fmt: skip
        made += _label(choices, view, k)
    return made


def _inside(p: Point, view: Box) -> bool:
    return view[0] <= p[0] <= view[2] and view[1] <= p[1] <= view[3]


def _clipped(corners: tuple[Point, ...], view: Box, layer: str, weight: float) -> list[Item]:
    from shapely import Polygon as Area
    from shapely import box

    return [Polygon(outer, layer, weight, "none", holes)
            for outer, holes in rings(Area(corners).intersection(box(*view)))]  # fmt: skip


def _strip(a: Point, b: Point, width: float) -> tuple[Point, ...]:
    reach = math.dist(a, b) or 1.0
    nx, ny = -(b[1] - a[1]) / reach * width / 2, (b[0] - a[0]) / reach * width / 2
    return ((a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny), (b[0] - nx, b[1] - ny), (a[0] - nx, a[1] - ny))


def _drawn(walk: Walk, k: float, dashed: bool) -> list[Item]:
    """A way as a heavy band with an arrow's head; the second one broken."""
    from shapely import LineString
    from shapely.ops import substring

    line: Any = LineString(walk.line) if len(walk.line) > 1 else None
    if line is None or line.length == 0:
        return []
    head = min(HEAD / k, line.length / 2)
    body = line.length - head * 0.6
    step = (DASH + GAP) / k
    starts = [i * step for i in range(math.ceil(body / step))] if dashed else [0.0]
    stretches = [substring(line, at, min(at + DASH / k, body) if dashed else body) for at in starts]
    items: list[Item] = []
    for stretch in stretches:
        for outer, holes in rings(stretch.buffer(BAND / 2 / k, cap_style="flat", join_style="mitre")):
            items.append(Polygon(outer, "ways out", 0.0, "solid", holes))
    before = next((p for p, _ in reversed(list(pairwise(walk.line))) if p != walk.line[-1]), walk.line[0])
    items.append(Polygon(arrow_head(before, walk.line[-1], head), "ways out", FINE, "solid"))
    return items
