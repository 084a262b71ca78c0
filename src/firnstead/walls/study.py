"""End walls, portals and hatches of a station: quantities, checks, work."""

from __future__ import annotations

from functools import partial

from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, WorkItem
from firnstead.snow import SnowResult
from firnstead.station import Station
from firnstead.station.build import Hatchway
from firnstead.station.machines import Machine, Miller
from firnstead.station.places import EndWall, Portal
from firnstead.walls.results import BlockWall, HatchShaft, Ramp, WallsResult
from firnstead.walls.study_door import beam_items, door_checks, door_item, opening_area
from firnstead.walls.study_hatch import hatch_checks, hatch_item, lid_check, shaft_of
from firnstead.walls.study_portal import portal_checks, portal_item, ramp_of, shelter_check
from firnstead.walls.study_room import Common, Room, common_of, room_of
from firnstead.walls.study_wall import block_wall, density_check, wall_checks, wall_items

Found = tuple[tuple[Check, ...], tuple[WorkItem, ...]]


def study(station: Station, snow: SnowResult, memo: Memo | None = None) -> Study:
    """Work out every end wall, portal and hatch; with a `memo` only what changed is worked out again."""
    memo = memo if memo is not None else Memo()
    common = common_of(station)
    hatches, hatch_found = _hatches(station, common)
    walls: dict[str, BlockWall] = {}
    portals: dict[str, Ramp] = {}
    found: list[Found] = []
    for name, wall in station.end_walls.items():
        room = _room(station, wall.place)
        work = partial(_end_wall, common, room, name, wall)
        walls[name], now = memo.get(("walls.end_wall", name, wall, room, common), work)
        found.append(now)
    for name, portal in station.portals.items():
        room, vehicle = _room(station, portal.place), station.machines[portal.vehicle] if portal.vehicle else None
        miller = next(iter(station.millers.items()))
        dig = partial(_portal, common, room, name, portal, vehicle, miller)
        portals[name], now = memo.get(("walls.portal", name, portal, room, common, vehicle, miller), dig)
        shelter = shelter_check(common, room, portal, portals[name], hatches, f'Portal "{name}"')
        found += [now, ((shelter,), ())]
    found += [*hatch_found, (tuple(lid_check(common, name, kind) for name, kind in _kinds_used(station)), ())]
    if walls or portals:
        found.append(((density_check(common, snow, _deepest(station)),), ()))
    result = WallsResult(
        end_walls=walls, portals=portals, hatches=hatches,
        blocks=sum(w.blocks_cut for w in _all_walls(walls, portals)),
        quarry_volume=sum(w.quarry_volume for w in _all_walls(walls, portals)),
        ramp_volume=sum(r.volume for r in portals.values()),
        person_hours=sum(w.person_hours for w in _all_walls(walls, portals)))  # fmt: skip
    return Study(result, tuple(c for checks, _ in found for c in checks), tuple(i for _, items in found for i in items))


def _deepest(station: Station) -> float:
    return max(_room(station, name).depth for name in station.places)


def _all_walls(walls: dict[str, BlockWall], portals: dict[str, Ramp]) -> list[BlockWall]:
    return [*walls.values(), *(ramp.wall for ramp in portals.values())]


def _room(station: Station, name: str) -> Room:
    place = station.places[name]
    return room_of(name, place, station.sections[place.section], station.roofs[place.roof], station.design)


def _before(room: Room) -> tuple[str, ...]:
    """What comes before ends are closed and hatches set: the place is cut, its arches stand or its form is out."""
    return (f"{room.name}.cutting.cut", f"{room.name}.roof.{'strip' if room.formed else 'arches'}")


def _end_wall(common: Common, room: Room, name: str, wall: EndWall) -> tuple[BlockWall, Found]:
    door = wall.door
    area = opening_area(door.width, door.height, door.slip_gap) if door is not None else 0.0
    made = block_wall(common, room, wall.at, wall.layers, area)
    subject = f'End wall "{name}"'
    checks, items = (
        wall_checks(common, room, made, subject, "layers as in the file"),
        wall_items(common, made, name, _before(room)),
    )
    if door is not None:
        checks += door_checks(common, room, made, door, subject)
        items += beam_items(common, room, made, door.width, door.height, name)
        items += (door_item(made, door, name, f"{room.name}.walls.build.{wall.at}"),) if door.opens != "none" else ()
    return made, (checks, items)


def _portal(
    common: Common, room: Room, name: str, portal: Portal, vehicle: Machine | None, miller: tuple[str, Miller]
) -> tuple[Ramp, Found]:
    ramp = ramp_of(common, room, portal)
    subject = f'Portal "{name}"'
    checks = portal_checks(common, room, portal, ramp, vehicle, subject)
    cut = portal_item(common, portal, ramp, name, miller)
    return ramp, (
        (*checks, *wall_checks(common, room, ramp.wall, subject, "fewest layers that stand")),
        (
            cut,
            *wall_items(common, ramp.wall, f"the wall round {name}", (cut.id, *_before(room))),
            *beam_items(common, room, ramp.wall, portal.width, portal.height, name),
        ),
    )


def _hatches(station: Station, common: Common) -> tuple[dict[str, HatchShaft], list[Found]]:
    shafts: dict[str, HatchShaft] = {}
    found: list[Found] = []
    for name, hatch in station.hatches.items():
        room, kind = _room(station, hatch.place), station.hatchways[hatch.kind]
        shafts[name] = shaft_of(common, room, hatch, kind)
        checks = hatch_checks(common, room, shafts[name], kind, f'Hatch "{name}"')
        found.append((checks, (hatch_item(shafts[name], kind, name, station.parts, _before(room)),)))
    return shafts, found


def _kinds_used(station: Station) -> list[tuple[str, Hatchway]]:
    used = dict.fromkeys(hatch.kind for hatch in station.hatches.values())
    return [(name, station.hatchways[name]) for name in used]
