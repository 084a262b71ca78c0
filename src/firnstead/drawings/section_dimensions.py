"""The dimensions of a cross-section, all outside the snow that is drawn."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from firnstead.drawings.figure import Dimension, Item, Point, length_words
from firnstead.drawings.section_input import SectionInput

NEAR, ROW, COLUMN = 5.0, 6.0, 22.0  # first line, next line below, next line beside it [mm]


def section_dimensions(given: SectionInput, wide: float, low: float) -> list[Item]:
    """Depths at the right of `wide`, widths below `low`, the roof above and at the left [m]."""
    return [*_depths(given, wide), *_widths(given, low), *_roof(given, wide)]


def _depths(given: SectionInput, wide: float) -> list[Item]:
    """At the right: bench and wall in a chain, the whole depth outside it."""
    top, bench, floor = (
        (given.bench_half, 0.0),
        (given.bench_half, -given.bench_depth),
        (given.floor_width / 2, -given.depth),
    )
    whole, clear = f"depth {length_words(given.depth, given.units)}", (wide, 0.0)
    if given.bench_depth <= 0:
        return [_upright(top, floor, NEAR, whole, clear)]
    chain = [
        _upright(a, b, NEAR, length_words(a[1] - b[1], given.units), clear) for a, b in pairwise((top, bench, floor))
    ]
    return [*chain, _upright(top, floor, NEAR + COLUMN, whole, clear)]


def _widths(given: SectionInput, low: float) -> list[Item]:
    """Below the floor: its width; and, where it is wider than the top, the top and the undercuts in a chain."""
    z, top, floor, clear = -given.depth, given.top_width / 2, given.floor_width / 2, (0.0, low)
    width = length_words(given.floor_width, given.units)
    if floor - top < 0.005:
        return [Dimension((-floor, z), (floor, z), -NEAR, f"clear {width}", clear_of=clear)]
    under = length_words(floor - top, given.units)
    return [
        Dimension((-top, z), (top, z), -NEAR, f"top {length_words(given.top_width, given.units)}", clear_of=clear),
        Dimension((top, z), (floor, z), -NEAR, under, clear_of=clear),
        Dimension((-top, z), (-floor, z), NEAR, under, clear_of=clear),
        Dimension((-floor, z), (floor, z), -NEAR - ROW, f"floor {width}", clear_of=clear),
    ]


def _roof(given: SectionInput, wide: float) -> list[Item]:
    """Above: the span; at the left: rise and cover."""
    arch, cover, clear = given.arch, given.cover, (-wide, 0.0)
    if arch is None:
        return []
    half, top = arch.span / 2, cover.top(arch) if cover else arch.crown
    span, rise = (length_words(v, given.units) for v in (arch.span, arch.rise))
    items: list[Item] = [
        Dimension((-half, arch.seat), (half, arch.seat), NEAR, f"span {span}", clear_of=(0.0, max(top, 0.0))),
        _upright((0.0, arch.crown), (-half, arch.seat), -NEAR, f"rise {rise}", clear),
    ]
    if cover:
        words = f"cover {length_words(cover.crown, given.units)}"
        items.append(replace(_upright((0.0, top), (0.0, arch.crown), -NEAR, words, clear), short="start"))
    return items


def _upright(high: Point, deep: Point, offset: float, words: str, clear: Point) -> Dimension:
    """An upright dimension from a high point down to a deep one; a positive offset lies to the right."""
    return Dimension(high, deep, offset, words, axis="y", upright=True, clear_of=clear)
