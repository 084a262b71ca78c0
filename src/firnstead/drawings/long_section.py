"""A passage or trench lengthwise: floor, roof and cover, end walls, ways in, hatches and buildings."""

from __future__ import annotations

import math

from firnstead.drawings.figure import (
    FINE,
    HEAVY,
    MEDIUM,
    STRONG,
    Anchor,
    Dimension,
    Figure,
    Item,
    Label,
    LegendEntry,
    Point,
    Polygon,
    Polyline,
    Text,
    length_words,
    rectangle,
)  # fmt: skip
from firnstead.drawings.long_section_input import EndSide, LongSectionInput
from firnstead.drawings.shapes import filled, ground_area


def long_section(given: LongSectionInput) -> Figure:
    """The long section with its length, depth and the places of the hatches."""
    margin, top = max(3.0, 0.04 * given.length), given.crown + given.cover
    left, right = -margin - _reach(given, given.start), given.length + margin + _reach(given, given.end)
    low = -given.depth - max(1.0, 0.02 * given.length)
    ends = ((0.0, -1.0, given.start), (given.length, 1.0, given.end))
    beyond = [opening for x, out, side in ends if (opening := _opening(given, x, out, side))]
    room = rectangle(0.0, -given.depth, given.length, 0.0)
    items: list[Item] = [*filled(ground_area(left, right, low, room, *beyond), "snow", "snow")]
    for x, edge in ((0.0, left), (given.length, right)):
        items.append(Polyline(((edge, 0.0), (x, 0.0)), "snow", MEDIUM))
    if given.cover > 0:
        items.append(Polygon(rectangle(0.0, given.crown, given.length, top), "cover", MEDIUM, "tone"))
    items += [*_room(given, ends), *_walls(given), *_buildings(given), *_hatches(given, top)]
    floor = (0.0, -given.depth), (given.length, -given.depth)
    items.append(Dimension(*floor, -6.0, length_words(given.length, given.units), clear_of=(0.0, low)))
    depth = f"depth {length_words(given.depth, given.units)}"
    items.append(Dimension((given.length, 0.0), floor[1], 6.0, depth, axis="y", upright=True, clear_of=(right, 0.0)))
    return Figure(f"Long section of {given.place}", _reading(given), tuple(items), _legend(given), notes=given.notes)


def _reach(given: LongSectionInput, side: EndSide) -> float:
    """How far the ramp or the link reaches beyond the end [m]."""
    return given.depth / math.tan(math.radians(side.ramp_slope)) if side.ramp_slope > 0 else side.link or 0.0


def _opening(given: LongSectionInput, x: float, out: float, side: EndSide) -> tuple[Point, ...]:
    """What is cut beyond an end: the ramp, open to the sky, or the link with its clear height."""
    reach, floor = _reach(given, side), -given.depth
    if reach <= 0:
        return ()
    if side.ramp_slope > 0:
        return ((x, floor), (x + out * reach, 0.0), (x, 0.0))
    far, high = x + out * reach, floor + side.opening
    return rectangle(min(x, far), floor, max(x, far), high)


def _room(given: LongSectionInput, ends: tuple[tuple[float, float, EndSide], ...]) -> list[Item]:
    """Floor, crown and ends, open where there is a way through, and the floor and roof of what lies beyond."""
    floor, items = -given.depth, list[Item]()
    items.append(Polyline(((0.0, floor), (given.length, floor)), "cut", STRONG))
    crown = ((0.0, given.crown), (given.length, given.crown))
    items.append(Polyline(crown, "arch", HEAVY) if given.steel else Polyline(crown, "cover", MEDIUM))
    for x, out, side in ends:
        items.append(Polyline(((x, given.crown), (x, floor + side.opening)), "cut", STRONG))
        reach, high = _reach(given, side), floor + side.opening
        if side.ramp_slope > 0:
            items.append(Polyline(((x, floor), (x + out * reach, 0.0)), "portals", MEDIUM))
            words, at = f"ramp {side.ramp_slope:g}°", (x + out * reach / 2, floor / 2)
            items.append(Text(words, at, 2.2, "middle", "top", shift=(0.0, -1.5)))
        elif side.link is not None:
            items += [Polyline(((x, z), (x + out * reach, z)), "cut", MEDIUM) for z in (floor, high) if reach > 0]
            anchor: Anchor = "right" if out < 0 else "left"
            at = (x + out * reach, (floor + high) / 2)
            items.append(Text(side.leads_to, at, 2.2, anchor, "middle", shift=(out * 1.5, 0.0)))
    return items


def _walls(given: LongSectionInput) -> list[Item]:
    """End walls: hatched; the doorway in them is left open."""
    items: list[Item] = []
    for x, inward, side in ((0.0, 1.0, given.start), (given.length, -1.0, given.end)):
        if side.wall > 0:
            ends, foot = sorted((x, x + inward * side.wall)), -given.depth + side.opening
            items.append(Polygon(rectangle(ends[0], foot, ends[1], given.crown), "walls", MEDIUM, "hatch"))
    return items


def _buildings(given: LongSectionInput) -> list[Item]:
    items: list[Item] = []
    for house in given.buildings:
        base, foot = house.footing - given.depth, min(0.3, (house.far - house.near) / 12)
        items.append(Polygon(rectangle(house.near, base, house.far, base + house.height), "building", MEDIUM))
        if house.footing > 0:
            feet = (house.near + foot, (house.near + house.far - foot) / 2, house.far - 2 * foot)
            items += [Polygon(rectangle(x, -given.depth, x + foot, base), "building", FINE, "solid") for x in feet]
        middle = ((house.near + house.far) / 2, base + house.height / 2)
        above = (middle[0], base + house.height)
        items.append(Label((Text(house.name, middle, 2.5, "middle", "middle"),
                            Text(house.name, above, 2.5, "middle", "base", shift=(0.0, 1.5)),
                            Text(house.name, middle, 2.0, "middle", "middle", 90.0))))  # fmt: skip
    return items


def _hatches(given: LongSectionInput, top: float) -> list[Item]:
    """Shafts from the crown to above the cover, named, with their distance from the start."""
    items: list[Item] = []
    for hatch in given.hatches:
        half, lid = hatch.width / 2, max(top, 0.0) + 0.6
        items += [
            Polyline(((hatch.at + side, given.crown), (hatch.at + side, lid)), "hatches", MEDIUM)
            for side in (-half, half)
        ]
        items.append(Polyline(((hatch.at - 1.5 * half, lid), (hatch.at + 1.5 * half, lid)), "hatches", STRONG))
        words = f"{hatch.name}, at {length_words(hatch.at, given.units)}"
        items.append(Label(tuple(Text(words, (hatch.at, lid), 2.5, "middle", "base", shift=(0.0, up))
                                 for up in (2.0, 6.0, 10.0, 14.0))))  # fmt: skip
    return items


def _legend(given: LongSectionInput) -> tuple[LegendEntry, ...]:
    entries = [LegendEntry("snow in place", "snow", FINE)]
    if given.cover > 0:
        entries.append(LegendEntry("milled snow as placed", "tone", MEDIUM))
    if given.steel:
        entries.append(LegendEntry("crown of the steel arch", weight=HEAVY, swatch="line"))
    if given.start.wall > 0 or given.end.wall > 0:
        entries.append(LegendEntry("wall of snow blocks", "hatch", MEDIUM))
    return tuple(entries)


def _reading(given: LongSectionInput) -> str:
    length, depth = length_words(given.length, given.units), length_words(given.depth, given.units)
    houses, hatches = _number(len(given.buildings), "building"), _number(len(given.hatches), "escape hatch", "es")
    return f"{length} long, floor {depth} below the surface; {houses}, {hatches}."


def _number(count: int, what: str, plural: str = "s") -> str:
    return f"{count} {what}{plural * (count > 1)}" if count else f"no {what}"
