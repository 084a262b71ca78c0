"""What the schema cannot see in the fire part: things in no place, fires in nothing, doors that close no way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from firnstead.core.units import show
from firnstead.station import geometry
from firnstead.station.fire import Fire
from firnstead.station.model import Station

Found = Iterator[tuple[tuple[str | int, ...], str, str]]
PUT_UP = ("doors", "stores")  # what stands or lies in places
HANGS = ("detectors", "alarm_points", "extinguishers")  # what hangs in places or buildings


def fire_problems(station: Station, written: Mapping[str, Any]) -> Found:
    """All inconsistencies of the fire part; `written` is the file as it stands, for names whose entries are wrong."""
    fire = getattr(station, "fire", None)
    if fire is None:
        return
    yield from _names(fire, written)
    yield from _parts(fire, written)
    yield from _lengths(station, fire)
    yield from _scenarios(station, fire)
    yield from _doors(station, fire)
    yield from _extinguishers(fire)


def _known(written: Mapping[str, Any], *groups: str) -> list[str]:
    found = [written.get(group) for group in groups]
    return [str(name) for names in found if isinstance(names, Mapping) for name in names]


def _lead(path: tuple[str | int, ...], name: str, known: list[str], what: str) -> Found:
    if name not in known:
        near = get_close_matches(name, known, n=1, cutoff=0.5)
        cure = f"Did you mean {near[0]!r}?" if near else f"Known: {', '.join(known[:12]) or 'none yet'}"
        yield path, f"there is no {what} {name!r}", cure


def _names(fire: Fire, written: Mapping[str, Any]) -> Found:
    places, buildings = _known(written, "passages", "trenches"), _known(written, "buildings")
    rooms = [*places, *buildings]
    for group in PUT_UP:
        for name, item in getattr(fire, group).items():
            yield from _lead(("fire", group, name, "place"), item.place, places, "place")
    for group in HANGS:
        for name, item in getattr(fire, group).items():
            yield from _lead(("fire", group, name, "place"), item.place, rooms, "place or building")
            if item.place in places and item.at is None:
                yield ("fire", group, name), "it hangs nowhere in particular", "Add `at:`, a distance along the axis"
            if item.place in buildings and item.at is not None:
                yield ("fire", group, name, "at"), "in a building it has no distance of its own", "Remove the line"
    for name, scenario in fire.scenarios.items():
        at = ("fire", "scenarios", name)
        if scenario.building is not None:
            yield from _lead((*at, "building"), scenario.building, buildings, "building")
        if scenario.place is not None:
            yield from _lead((*at, "place"), scenario.place, places, "place")
    for name in fire.hazards:
        yield from _lead(("fire", "hazards", name), name, places, "place")
    for name, service in fire.services.items():
        for i, place in enumerate(service.places):
            yield from _lead(("fire", "services", name, "places", i), place, places, "place")
    for i, room in enumerate(fire.survival):
        yield from _lead(("fire", "survival", i), room, rooms, "place or building")
    for name in fire.spare_beds:
        yield from _lead(("fire", "spare_beds", name), name, buildings, "building")
    if fire.water is not None:
        for name, tank in fire.water.tanks.items():
            yield from _lead(("fire", "water", "tanks", name, "place"), tank.place, rooms, "place or building")
        for field in ("pump", "supply"):
            named = getattr(fire.water, field)
            if named is not None:
                yield from _lead(("fire", "water", field), named, rooms, "place or building")


def _parts(fire: Fire, written: Mapping[str, Any]) -> Found:
    parts = _known(written, "parts")
    for group in ("doors", "detectors", "alarm_points", "extinguishers"):
        for name, item in getattr(fire, group).items():
            if item.part is not None:
                yield from _lead(("fire", group, name, "part"), item.part, parts, "part")


def _length(station: Station, name: str) -> float | None:
    """Length of a place that is sound enough to have one."""
    place = station.places.get(name)
    return None if place is None else geometry.axis(place).length


def _lengths(station: Station, fire: Fire) -> Found:
    for group in (*PUT_UP, *HANGS, "scenarios"):
        for name, item in getattr(fire, group).items():
            length = None if item.place is None else _length(station, item.place)
            if length is not None and item.at is not None and item.at > length + 1e-6:
                yield (
                    ("fire", group, name, "at"),
                    f"it lies outside {item.place!r}, which is {show(length, 'm')} long",
                    "Give a distance from the start of the axis",
                )


def _scenarios(station: Station, fire: Fire) -> Found:
    for name, scenario in fire.scenarios.items():
        at = ("fire", "scenarios", name)
        if (scenario.building is None) == (scenario.place is None):
            yield at, "it must start either in a building or in a place", "Give one of `building:` and `place:`"
        if scenario.building is not None and scenario.at is not None:
            yield (*at, "at"), "a fire in a building has no distance of its own", "Remove the line, or give a place"
    if not fire.every_place and not fire.scenarios:
        yield ("fire", "every_place"), "no fire is left to reckon with", "Write `every_place: true` or add scenarios"


def _doors(station: Station, fire: Fire) -> Found:
    taken: dict[tuple[str, float | None], str] = {}
    for name, door in fire.doors.items():
        at = ("fire", "doors", name)
        trench = station.trenches.get(door.place)
        if door.at is None and door.place in station.places and (trench is None or trench.opens_into is None):
            yield (
                (*at, "place"),
                f"{door.place!r} does not open into a passage, so no door can close it against one",
                "Give `at:`, a distance along its axis",
            )
        if (door.place, door.at) in taken:
            yield at, f"{taken[door.place, door.at]!r} stands in the same spot", "Move or remove one of them"
        taken[door.place, door.at] = name
        if door.leakage > door.width * door.height:
            yield (
                (*at, "leakage"),
                "it leaks more when shut than it lets through when open",
                f"Give less than {show(door.width * door.height, 'm2')}",
            )
        link = trench.link if trench is not None and door.at is None else None
        if link is not None and (door.width > link.width + 1e-6 or door.height > link.height + 1e-6):
            yield at, f"it is larger than the way it closes into {door.place!r}", "Make it fit the link"


def _extinguishers(fire: Fire) -> Found:
    for name, item in fire.extinguishers.items():
        if item.rating_a == 0 and item.rating_b == 0:
            yield ("fire", "extinguishers", name), "it has no rating", "Give `rating_a:` or `rating_b:` from its label"
