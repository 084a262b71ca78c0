"""Cross-section of a passage or trench: cut with its passes, planks, arch, cover, building, snow, dimensions."""

from __future__ import annotations

from dataclasses import replace

from firnstead.core.units import show, unit_text
from firnstead.drawings.figure import (
    FINE,
    HEAVY,
    MEDIUM,
    STRONG,
    Figure,
    Item,
    Label,
    LegendEntry,
    Point,
    Polygon,
    Polyline,
    Text,
    extent,
    length_words,
    rectangle,
)  # fmt: skip
from firnstead.drawings.section_dimensions import section_dimensions
from firnstead.drawings.section_input import BuildingShape, SectionInput
from firnstead.drawings.shapes import cover_area, filled, ground_area


def section(given: SectionInput) -> Figure:
    """The cross-section with its dimensions, which stand outside the snow that is drawn."""
    left, low, right, _ = extent(given.outline)
    wide = max(right, -left, given.bench_half)
    if given.arch and given.cover:
        wide = max(wide, given.cover.top_line(given.arch)[-1][0])
    frame = (wide + max(2.0, 0.2 * given.depth), low - max(0.8, 0.1 * given.depth))
    items: list[Item] = [*_snow(given, *frame), *_cut(given), *_roof(given), *_numbers(given), *_building(given)]
    items += [*_densities(given, frame[0]), *section_dimensions(given, *frame)]
    return Figure(f"Section of {given.place}", _reading(given), tuple(items), _legend(given), notes=given.notes)


def _snow(given: SectionInput, wide: float, low: float) -> list[Item]:
    """Dots in the snow that stays, the surface line on both sides of the cut."""
    edge = max((x for x, z in given.outline if abs(z) < 1e-6), default=given.bench_half)
    surface = [Polyline(((s * wide, 0.0), (s * edge, 0.0)), "snow", MEDIUM) for s in (-1.0, 1.0)]
    return [*filled(ground_area(-wide, wide, low, given.outline), "snow", "snow"), *surface]


def _cut(given: SectionInput) -> list[Item]:
    """The cut's outline without its open top, and the limits of the passes in it."""
    items: list[Item] = [Polyline(line, "passes", FINE, "dashed") for line in _pass_lines(given)]
    ring = given.outline
    flat = [abs(a[1]) < 1e-6 and abs(b[1]) < 1e-6 for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)]
    if True not in flat:
        return [*items, Polygon(ring, "cut", STRONG)]
    start = flat.index(True)
    return [*items, Polyline((*ring[start + 1 :], *ring[: start + 1]), "cut", STRONG)]


def _numbers(given: SectionInput) -> list[Item]:
    """The number of each pass at its left wall."""
    items: list[Item] = []
    for number, ring in enumerate(given.passes, 1):
        x0, z0, _, z1 = extent(ring)
        items.append(Text(str(number), (x0, (z0 + z1) / 2), 2.2, "left", "middle", shift=(1.5, 0.0), layer="passes",
                          mono=True))  # fmt: skip
    return items


def _pass_lines(given: SectionInput) -> list[tuple[Point, ...]]:
    """The limits of the passes, each drawn once, broken where the building stands."""
    from shapely import LinearRing, line_merge, unary_union
    from shapely import Polygon as Area

    if not given.passes:
        return []
    lines = unary_union([LinearRing(ring) for ring in given.passes]).difference(LinearRing(given.outline))
    if given.building:
        lines = lines.difference(Area(rectangle(*_building_box(given, given.building))))
    merged = line_merge(lines) if lines.geom_type == "MultiLineString" else lines
    return [tuple(part.coords) for part in getattr(merged, "geoms", [merged]) if part.geom_type == "LineString"]


def _roof(given: SectionInput) -> list[Item]:
    """Cover, planks and arch."""
    items: list[Item] = []
    arch, plank = given.arch, given.plank
    if arch and given.cover:
        bench = -given.bench_depth
        items += filled(cover_area(arch, given.cover, given.bench_half, bench), "cover", "tone", MEDIUM)
    if plank:
        z = -given.bench_depth
        for side in (-1.0, 1.0):
            ends = (side * plank.near, side * (plank.near + plank.width))
            items.append(Polygon(rectangle(min(ends), z, max(ends), z + plank.thickness), "planks", FINE, "solid"))
    if arch and arch.steel:
        items.append(replace(arch.arc(), weight=HEAVY))
    return items


def _building(given: SectionInput) -> list[Item]:
    building = given.building
    if building is None:
        return []
    left, base, half, _ = box = _building_box(given, building)
    floor, foot = -given.depth, min(0.3, building.width / 8)
    items: list[Item] = [Polygon(rectangle(*box), "building", MEDIUM)]
    if building.footing > 0:
        items += [Polygon(rectangle(x - foot / 2, floor, x + foot / 2, base), "building", FINE, "solid")
                  for x in (left + foot, 0.0, half - foot)]  # fmt: skip
    middle = (0.0, base + building.height / 2)
    size = f"{length_words(building.width, given.units)} x {length_words(building.height, given.units)}"
    return [*items, Text(building.name, middle, 2.5, "middle", "base", shift=(0.0, 0.8)),
            Text(size, middle, 2.2, "middle", "top", shift=(0.0, -1.2), mono=True)]  # fmt: skip


def _building_box(given: SectionInput, building: BuildingShape) -> tuple[float, float, float, float]:
    base = building.footing - given.depth
    return (-building.width / 2, base, building.width / 2, base + building.height)


def _densities(given: SectionInput, wide: float) -> list[Item]:
    """The snow's density at the left edge of the drawing."""
    items: list[Item] = []
    for depth, density in given.densities:
        number, unit = show(density, "kg/m3", given.units).split(" ")
        words, at = f"{number} {unit_text(unit)}", (-wide + 0.3, -depth)
        items.append(Polyline(((-wide, -depth), at), "snow", MEDIUM))
        items.append(Label(tuple(Text(words, at, 2.2, "left", "middle", shift=(1.2, up), mono=True)
                                 for up in (0.0, -2.8, 2.8))))  # fmt: skip
    return items


def _legend(given: SectionInput) -> tuple[LegendEntry, ...]:
    entries = [LegendEntry("snow in place", "snow", FINE)]
    if given.cover and given.arch:
        entries.append(LegendEntry("milled snow as placed", "tone", MEDIUM))
    if given.arch and given.arch.steel:
        entries.append(LegendEntry("steel arch", weight=HEAVY, swatch="line"))
    if given.plank:
        entries.append(LegendEntry("plank", "solid", FINE))
    if given.passes:
        entries.append(LegendEntry("passes in order of cutting", weight=FINE, line="dashed", swatch="line"))
    return tuple(entries)


def _reading(given: SectionInput) -> str:
    top, floor, deep = (length_words(v, given.units) for v in (given.top_width, given.floor_width, given.depth))
    widths = f"{top} wide" if top == floor else f"{top} wide at the top and {floor} at the floor"
    roof = ""
    if given.arch:
        kind = "steel arch" if given.arch.steel else "formed-snow roof"
        roof = f"; {kind} of {length_words(given.arch.span, given.units)} span"
        if given.cover:
            roof += f" under {length_words(given.cover.crown, given.units)} of milled snow"
    return f"{given.kind.capitalize()} cut, {deep} deep, {widths}{roof}."
