"""What the studies of walls take from the station: the room that is closed, the climate and the crew."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from firnstead.station import Station
from firnstead.station.build import ArchRoof, FormedRoof, Plank, Roof, Section
from firnstead.station.geometry import Axis, axis
from firnstead.station.machines import Blocks, HandWork
from firnstead.station.places import Place
from firnstead.station.site import Design, Season, Site

Names = dict[str, Any]  # what all checks of one thing share: subject, place, discipline, caution
HAND_CREWS = ("hand", "building")  # the crew that quarries and lays: the first of these that the file names (own rule)
HAND_PEOPLE = 4  # people at a wall where the file names no such crew (own rule)


@dataclass(frozen=True)
class Common:
    """What all walls of a station share."""

    site: Site
    design: Design
    season: Season
    blocks: Blocks
    hand_work: HandWork
    surface_density: float
    crew: str
    people: int


@dataclass(frozen=True)
class Room:
    """A place seen from its end: the cut below the roof's feet, the roof's inner line above."""

    name: str
    roof: str
    formed: bool
    line: Axis
    depth: float
    bench_depth: float
    top_width: float
    floor_width: float
    undercut_height: float
    span: float
    rise: float
    cover: float
    drift_factor: float
    plank: Plank | None

    @property
    def wall_height(self) -> float:
        """Height from the floor to the feet of the roof [m]."""
        return self.depth - self.bench_depth

    @property
    def height(self) -> float:
        """Height from the floor to the crown [m]."""
        return self.wall_height + self.rise

    @property
    def shape(self) -> tuple[float, float, float, float, float, float]:
        """The arguments that the equations of the face share."""
        return (self.floor_width, self.top_width, self.wall_height, self.undercut_height, self.span, self.rise)


def common_of(station: Station) -> Common:
    """The inputs that every wall of the station depends on."""
    crew = next((name for name in HAND_CREWS if name in station.crews), "")
    return Common(
        station.site, station.design, station.season, station.blocks, station.hand_work, station.snow.surface_density,
        crew, station.crews[crew].people if crew else HAND_PEOPLE)  # fmt: skip


def room_of(name: str, place: Place, section: Section, roof: Roof, design: Design) -> Room:
    """The room behind an end of a place."""
    depth = section.depth if place.floor_level is None else -place.floor_level
    wall_height = depth - section.bench_depth
    undercut = depth - section.undercut_from if section.undercut_from is not None else 0.0
    return Room(
        name=name, roof=place.roof, formed=isinstance(roof, FormedRoof), line=axis(place),
        depth=depth, bench_depth=section.bench_depth, top_width=section.top_width,
        floor_width=section.floor_width, undercut_height=min(undercut, wall_height), span=roof.span, rise=roof.rise,
        cover=roof.cover, drift_factor=design.drift_factor if place.drift_factor is None else place.drift_factor,
        plank=roof.plank if isinstance(roof, ArchRoof) else None)  # fmt: skip
