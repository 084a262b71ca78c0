"""Inputs of cross-sections and end walls taken from an assessed station."""

from __future__ import annotations

from typing import Any

from firnstead.core.units import show
from firnstead.drawings.end_wall import Doorway, EndWallInput
from firnstead.drawings.figure import Point, rectangle
from firnstead.drawings.section_input import BuildingShape, PlankShape, SectionInput
from firnstead.drawings.shapes import ArchShape, CoverShape
from firnstead.pipeline.assess import Assessment
from firnstead.station import Station
from firnstead.station.build import ArchRoof

DENSITY_AT = (0.12, 0.55, 1.0)  # depths at which the density is written, shares of the cut's depth


def section_input(assessment: Assessment, place: str) -> SectionInput:
    """The cross-section of a place as its passes leave it."""
    station, cut = assessment.station, assessment.results["cutting"].places[place]
    section, made = station.sections[station.places[place].section], cut.section
    roof = station.roofs[station.places[place].roof]
    depth = max(z for _, z in made.polygon)
    column = assessment.results["snow"].column
    plank = roof.plank if isinstance(roof, ArchRoof) else None
    return SectionInput(
        place=place,
        kind=section.kind,
        top_width=made.top_width,
        floor_width=made.floor_width,
        depth=depth,
        bench_width=section.bench_width if section.bench_depth > 0 else 0.0,
        bench_depth=section.bench_depth if section.bench_width > 0 else 0.0,
        outline=outline(made.polygon),
        passes=tuple(rectangle(-r.width / 2, -r.bottom, r.width / 2, -r.top) for r in cut.plan),
        arch=arch(station, place),
        plank=PlankShape(made.top_width / 2 + plank.setback, plank.width, plank.thickness) if plank else None,
        cover=CoverShape(roof.cover, roof.haunch_cover if isinstance(roof, ArchRoof) else None,
                         station.snow.milled.repose_angle),
        building=_building(station, place),
        densities=tuple((share * depth, column.at("density", share * depth)) for share in DENSITY_AT),
        notes=_notes(roof, station.units),
        units=station.units,
    )  # fmt: skip


def arch(station: Station, place: str) -> ArchShape:
    """The inner line of a place's roof: steel stands on its planks, formed snow on the bench."""
    found = station.places[place]
    roof, section = station.roofs[found.roof], station.sections[found.section]
    steel = isinstance(roof, ArchRoof)
    on = roof.plank.thickness if isinstance(roof, ArchRoof) else 0.0
    return ArchShape(roof.span, roof.rise, on - section.bench_depth, steel)


def outline(polygon: tuple[Point, ...]) -> tuple[Point, ...]:
    """A polygon of the cutting study (depth downward) with levels upward."""
    return tuple((x, 0.0 - z) for x, z in polygon)


def end_wall_input(assessment: Assessment, name: str) -> EndWallInput:
    """The block wall that closes an end: the cut below the bench, and the inside of the roof above it."""
    from shapely import Polygon as Area
    from shapely import box

    station, wall = assessment.station, assessment.station.end_walls[name]
    place = station.places[wall.place]
    cut = Area(outline(assessment.results["cutting"].places[wall.place].section.polygon)).buffer(0)
    bench, (left, low, right, _) = -station.sections[place.section].bench_depth, cut.bounds
    room = cut.intersection(box(left, low, right, bench)).union(Area(arch(station, wall.place).inside(bench)).buffer(0))
    widest = max(getattr(room, "geoms", [room]), key=lambda part: part.area)
    blocks, door = station.blocks, wall.door
    return EndWallInput(
        name, wall.place, tuple(widest.exterior.coords)[:-1], blocks.length, blocks.height, blocks.thickness,
        wall.layers, Doorway(door.width, door.height, door.slip_gap) if door else None, (), station.units)  # fmt: skip


def _building(station: Station, place: str) -> BuildingShape | None:
    """The largest building of a place, seen from its end."""
    kits = {b.kit: station.kits[b.kit] for b in station.buildings.values() if b.place == place}
    if not kits:
        return None
    name, kit = max(kits.items(), key=lambda item: (item[1].width * item[1].height, item[0]))
    return BuildingShape(name, kit.width, kit.height, kit.footing_height)


def _notes(roof: Any, units: str) -> tuple[str, ...]:
    if not isinstance(roof, ArchRoof):
        return ("Roof of milled snow over a removable form; no steel stays in it.",)
    plank = roof.plank
    size = " x ".join(show(v, "m", units) for v in (plank.width, plank.thickness, plank.length))
    sheet = f"Arch: corrugation {roof.profile.replace('x', ' x ')} in, {roof.gauge} gauge, {roof.joint}."
    edge = show(plank.setback, "m", units)
    return (f"{sheet} Planks {size} (width, thickness, length), near side {edge} from the edge.",)
