"""Results of the walls study."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity


@dataclass(frozen=True)
class BlockWall:
    """A wall of snow blocks that closes an end of a place, or stands round a portal."""

    place: str = quantity("text", "place that it closes")
    at: str = quantity("text", "end of the place's axis: start or end")
    height: float = quantity("m", "from the floor to the crown of the roof")
    area: float = quantity("m2", "area of the face")
    opening_area: float = quantity("m2", "area of its doorway or portal, with the gap round the frame")
    layers: int = quantity("1", "blocks one behind the other")
    thickness: float = quantity("m", "thickness with joints")
    courses: int = quantity("1", "courses of blocks")
    blocks: int = quantity("1", "blocks in the wall")
    blocks_cut: int = quantity("1", "blocks to be cut, waste included")
    block_mass: float = quantity("kg", "mass of one block")
    mass: float = quantity("kg", "mass of the blocks in the wall")
    quarry_volume: float = quantity("m3", "snow in place that the quarry takes")
    quarry_area: float = quantity("m2", "area of the quarry pit")
    person_hours: float = quantity("h", "person-hours to quarry and lay")
    build_time: float = quantity("s", "calendar time of one crew on all its shifts")
    wind_pressure: float = quantity("Pa", "storm wind on the whole face")
    overturning: float = quantity("1", "factor against overturning, no bond")
    sliding: float = quantity("1", "factor against sliding, no bond")
    no_tension: float = quantity("m", "thickness at which no joint opens")
    base_pressure: float = quantity("Pa", "greatest pressure under the wall, no bond")
    bonded_tension: float = quantity("Pa", "tension at the windward foot when bonded")


@dataclass(frozen=True)
class Ramp:
    """A portal's ramp."""

    place: str = quantity("text", "place that it leads into")
    at: str = quantity("text", "end of the place's axis: start or end")
    depth: float = quantity("m", "depth of the portal's floor below the snow surface")
    grade: float = quantity("1", "grade of the ramp")
    length: float = quantity("m", "length on plan")
    volume: float = quantity("m3", "snow in place to be cut")
    foot: tuple[float, float] = quantity("m", "east and north of the ramp's foot")
    top: tuple[float, float] = quantity("m", "east and north of the ramp's top")
    wind_angle: float = quantity("deg", "angle between the ramp and the storm wind")
    transport: float = quantity("kg/m/s", "snow carried by the storm wind per metre across it")
    fill_time: float = quantity("s", "shortest time in which that wind could fill the ramp")
    wall: BlockWall = quantity("text", "wall of blocks round the portal")


@dataclass(frozen=True)
class HatchShaft:
    """An escape hatch's shaft, now and later."""

    place: str = quantity("text", "place that it leads out of")
    kind: str = quantity("text", "kind of hatch")
    position: tuple[float, float] = quantity("m", "east and north of the hatch")
    cover: float = quantity("m", "snow over the crown as placed")
    rise_rate: float = quantity("m/s", "rise of the snow surface over it")
    shaft: float = quantity("m", "length of the shaft as set")
    rings: int = quantity("1", "rings in it")
    collar: float = quantity("m", "height of the lid above the snow when set")
    time_to_buried: float | None = quantity("s", "time until the snow reaches the lid; empty: never")
    ladder: float = quantity("m", "climb from the floor to the lid")
    rings_later: int = quantity("1", "further rings over the design life")
    ladder_later: float = quantity("m", "climb at the end of the design life")


@dataclass(frozen=True)
class WallsResult:
    """End walls, portals and hatches of the whole station."""

    end_walls: dict[str, BlockWall] = quantity("text", "by name of the end wall")
    portals: dict[str, Ramp] = quantity("text", "by name of the portal")
    hatches: dict[str, HatchShaft] = quantity("text", "by name of the hatch")
    blocks: int = quantity("1", "blocks to be cut, all walls")
    quarry_volume: float = quantity("m3", "snow in place for blocks, all walls")
    ramp_volume: float = quantity("m3", "snow in place for ramps")
    person_hours: float = quantity("h", "person-hours for all walls")
