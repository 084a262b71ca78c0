"""Inputs of long sections taken from an assessed station."""

from __future__ import annotations

from firnstead.drawings.long_section_input import EndSide, HouseSide, LongSectionInput, ShaftSide
from firnstead.drawings.map_section import arch
from firnstead.pipeline.assess import Assessment
from firnstead.station.geometry import axis, junction
from firnstead.station.places import Trench


def long_section_input(assessment: Assessment, place: str) -> LongSectionInput:
    """A place lengthwise."""
    station, found = assessment.station, assessment.station.places[place]
    roof = arch(station, place)
    depth = max(z for _, z in assessment.results["cutting"].places[place].section.polygon)
    houses = [(name, b, station.kits[b.kit]) for name, b in station.buildings.items() if b.place == place]
    return LongSectionInput(
        place=place,
        length=axis(found).length,
        depth=depth,
        crown=roof.crown,
        cover=station.roofs[found.roof].cover,
        steel=roof.steel,
        buildings=tuple(HouseSide(name, b.at, b.at + kit.length, kit.height, kit.footing_height)
                        for name, b, kit in houses),
        hatches=tuple(ShaftSide(name, h.at, station.hatchways[h.kind].diameter)
                      for name, h in station.hatches.items() if h.place == place),
        start=_end(assessment, place, "start"),
        end=_end(assessment, place, "end"),
        units=station.units,
    )  # fmt: skip


def _end(assessment: Assessment, place: str, at: str) -> EndSide:
    """What closes or opens one end: a portal, the passage, a wall of blocks, or nothing."""
    station, walls = assessment.station, assessment.results["walls"]
    for name, portal in station.portals.items():
        if (portal.place, portal.at) == (place, at):
            return EndSide(walls.portals[name].wall.thickness, portal.slope, None, portal.height)
    for name, wall in station.end_walls.items():
        if (wall.place, wall.at) == (place, at):
            return EndSide(walls.end_walls[name].thickness, opening=wall.door.height if wall.door else 0.0)
    trench = station.places[place]
    if at == "start" and isinstance(trench, Trench) and (met := junction(station, trench)):
        roof, depth = arch(station, place), station.sections[trench.section].depth
        high = trench.link.height if trench.link else roof.crown + depth
        return EndSide(link=met.gap, opening=high, leads_to=trench.opens_into or "")
    return EndSide()
