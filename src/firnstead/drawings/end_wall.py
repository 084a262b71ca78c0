"""An end wall of snow blocks seen from inside: courses, doorway with its slip gap, dimensions."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from firnstead.core.units import show
from firnstead.drawings.figure import (
    FINE,
    MEDIUM,
    STRONG,
    Dimension,
    Figure,
    Item,
    LegendEntry,
    Point,
    Polygon,
    extent,
    length_words,
    rectangle,
)  # fmt: skip
from firnstead.drawings.shapes import filled, half_width, rings


@dataclass(frozen=True)
class Doorway:
    """A doorway in the middle of the wall, standing on the floor; clear size and gap round the frame [m]."""

    width: float
    height: float
    slip_gap: float


@dataclass(frozen=True)
class EndWallInput:
    """All that the elevation shows; x across from the axis, z up from the snow surface [m]."""

    name: str
    place: str
    outline: tuple[Point, ...]
    """The opening that the wall closes: the cut below, the inside of the roof above."""
    block_length: float
    block_height: float
    block_thickness: float
    layers: int
    door: Doorway | None = None
    notes: tuple[str, ...] = ()
    units: str = "metric"


def end_wall(given: EndWallInput) -> Figure:
    """The elevation: blocks in running bond, cut to the outline and to the doorway."""
    from shapely import Polygon as Area

    left, low, right, top = extent(given.outline)
    wall = Area(given.outline).buffer(0)
    items: list[Item] = []
    if given.door:
        half, high = given.door.width / 2, low + given.door.height
        gap = given.door.slip_gap
        wall = wall.difference(Area(rectangle(-half - gap, low - 1.0, half + gap, high + gap)))
        items.append(Polygon(rectangle(-half, low, half, high), "building", MEDIUM))
    items += filled(_blocks(given, wall), "blocks", "none", FINE)
    items += filled(rings(wall), "walls", "none", STRONG)
    items += _dimensions(given, (left, low, right, top))
    courses = math.ceil((top - low) / given.block_height - 1e-9)
    size = " x ".join(
        show(v, "m", given.units) for v in (given.block_length, given.block_height, given.block_thickness)
    )
    layers = f"{given.layers} block{'s' * (given.layers != 1)} thick"
    reading = f"{courses} courses of blocks {size} (length, height, thickness), {layers}, running bond{_door(given)}."
    legend = [LegendEntry("block of quarried snow", weight=FINE)]
    if given.door:
        legend.append(LegendEntry("door frame, slip gap round it", weight=MEDIUM))
    return Figure(f"End wall {given.name} of {given.place}", reading, tuple(items), tuple(legend), notes=given.notes)


def _blocks(given: EndWallInput, wall: Any) -> list[Any]:
    """The blocks course by course, every other course half a block aside, cut to the wall."""
    from shapely import box, intersection_all

    left, low, right, top = extent(given.outline)
    blocks: list[Any] = []
    for course in range(math.ceil((top - low) / given.block_height - 1e-9)):
        z = low + course * given.block_height
        x = left - (given.block_length / 2 if course % 2 else 0.0)
        while x < right - 1e-9:
            block = box(x, z, x + given.block_length, z + given.block_height)
            blocks += rings(intersection_all([block, wall]))
            x += given.block_length
    return blocks


def _dimensions(given: EndWallInput, size: tuple[float, float, float, float]) -> list[Item]:
    """Width and doorway below, height at the right, height of the doorway at the left."""
    left, low, right, top = size
    floor = half_width(given.outline, low + 1e-6)
    words, height = f"floor {length_words(2 * floor, given.units)}", f"height {length_words(top - low, given.units)}"
    items: list[Item] = [
        Dimension((-floor, low), (floor, low), -13.0 if given.door else -6.0, words),
        Dimension((0.0, top), (right, low), 6.0, height, axis="y", upright=True),
    ]
    if right - left > 2 * floor + 0.005:
        level = max((z for x, z in given.outline if x > right - 1e-6), default=top)
        words = f"widest {length_words(right - left, given.units)}"
        items.append(Dimension((left, level), (right, level), 6.0, words, clear_of=(0.0, top)))
    door = given.door
    if door:
        half = door.width / 2
        items.append(Dimension((-half, low), (half, low), -6.0, f"door {length_words(door.width, given.units)}"))
        words = f"door {length_words(door.height, given.units)}"
        items.append(Dimension((-half, low + door.height), (-half, low), -6.0, words, axis="y", upright=True,
                               clear_of=(left, low)))  # fmt: skip
    return items


def _door(given: EndWallInput) -> str:
    door = given.door
    if door is None:
        return ""
    width, height, gap = (length_words(v, given.units) for v in (door.width, door.height, door.slip_gap))
    return f"; doorway {width} x {height} with a slip gap of {gap} round its frame"
