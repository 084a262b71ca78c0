"""Words kept off lines: of a label's possible places the one that touches least is taken."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

from firnstead.drawings.figure import Arc, Basic, Circle, Fixed, Item, Label, Point, Polygon, Polyline, Text
from firnstead.drawings.lower import lower, text_corners

Segment = tuple[float, float, float, float]
CLEAR = 0.6  # free paper round words [mm]


def settle(items: Iterable[Item], mm_per_m: float) -> list[Fixed]:
    """The items with every label turned into words, last, clear of all that is drawn and of one another."""
    fixed: list[Fixed] = []
    labels: list[Label] = []
    for item in items:
        if isinstance(item, Label):
            labels.append(item)
        else:
            fixed.append(item)
    busy = Segments(lower(fixed, mm_per_m) if labels else (), mm_per_m)
    for label in labels:
        text = choose(label, busy, mm_per_m)
        busy.add_text(text, mm_per_m)
        fixed.append(text)
    return fixed


class Segments:
    """All lines drawn so far, on paper [mm]."""

    def __init__(self, plain: Iterable[Basic], mm_per_m: float) -> None:
        self.lines: list[Segment] = []
        for shape in plain:
            if isinstance(shape, Text):
                self.add_text(shape, mm_per_m)
            else:
                for ring in _rings(shape):
                    self._add([(x * mm_per_m, y * mm_per_m) for x, y in ring])

    def add_text(self, text: Text, mm_per_m: float) -> None:
        """Words are obstacles too: their box and its diagonals."""
        a, b, c, d = text_corners(text, mm_per_m)
        self._add([a, b, c, d, a, c])
        self._add([b, d])

    def touched(self, corners: tuple[Point, Point, Point, Point]) -> int:
        """How many lines run through a box."""
        (ax, ay), (bx, by), _, (dx, dy) = corners
        xs, ys = [p[0] for p in corners], [p[1] for p in corners]
        x0, x1, y0, y1 = min(xs), max(xs), min(ys), max(ys)
        wide, tall = math.hypot(bx - ax, by - ay), math.hypot(dx - ax, dy - ay)
        ux, uy, vx, vy = (bx - ax) / wide, (by - ay) / wide, (dx - ax) / tall, (dy - ay) / tall
        count = 0
        for px, py, qx, qy in self.lines:
            if (px < x0 and qx < x0) or (px > x1 and qx > x1) or (py < y0 and qy < y0) or (py > y1 and qy > y1):
                continue
            p = ((px - ax) * ux + (py - ay) * uy, (px - ax) * vx + (py - ay) * vy)
            q = ((qx - ax) * ux + (qy - ay) * uy, (qx - ax) * vx + (qy - ay) * vy)
            count += _crosses(p, q, wide, tall)
        return count

    def _add(self, path: list[Point]) -> None:
        self.lines += [(*p, *q) for p, q in pairwise(path)]


def choose(label: Label, busy: Segments, mm_per_m: float) -> Text:
    """The first place that is free, else the one that touches the fewest lines."""
    best, least = label.choices[0], math.inf
    for text in label.choices:
        count = busy.touched(text_corners(text, mm_per_m, CLEAR))
        if count < least:
            best, least = text, count
        if count == 0:
            break
    return best


def _rings(shape: Polyline | Polygon | Circle | Arc) -> list[tuple[Point, ...]]:
    if isinstance(shape, Polyline):
        return [shape.points]
    if isinstance(shape, Arc):
        return [shape.points()]
    if isinstance(shape, Circle):
        return [Arc(shape.centre, shape.radius, 0.0, 360.0, shape.layer).points(24)]
    rings = (shape.points, *shape.holes) if shape.weight else ()
    return [(*ring, *ring[:1]) for ring in rings]


def _crosses(p: Point, q: Point, wide: float, tall: float) -> bool:
    """Does the segment p-q meet the box 0..wide, 0..tall?"""
    low, high = 0.0, 1.0
    for start, step, size in ((p[0], q[0] - p[0], wide), (p[1], q[1] - p[1], tall)):
        if step == 0:
            if not 0.0 <= start <= size:
                return False
            continue
        a, b = sorted((-start / step, (size - start) / step))
        low, high = max(low, a), min(high, b)
    return low <= high
