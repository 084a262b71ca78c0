"""What is wrong with the ways out before anything is worked out: names that lead nowhere, hatches into buildings, rooms
that nobody can leave, hours in which nobody is anywhere."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from firnstead.station.escape import Escape
from firnstead.station.model import Station
from firnstead.station.ways import walking_network

Found = Iterator[tuple[tuple[str | int, ...], str, str]]


def problems(station: Station, sound: bool) -> Found:
    """All problems of the escape part and of the hatches; the walk itself only in a station that is otherwise sound."""
    yield from _hatches(station)
    part = station.escape
    if part is None:
        return
    yield from _names(station, part)
    yield from _hours(station, part)
    twice = list(_twice(station))
    yield from twice
    if sound and not twice:
        yield from _rooms(station, part)


def _hatches(station: Station) -> Found:
    for name, hatch in station.hatches.items():
        kind = station.hatchways.get(hatch.kind)
        for other, building in station.buildings.items():
            if building.place != hatch.place or kind is None or building.kit not in station.kits:
                continue
            near, far = building.at, building.at + station.kits[building.kit].length
            if near - kind.diameter / 2 < hatch.at < far + kind.diameter / 2:
                yield (
                    ("hatches", name, "at"),
                    f"the hatch comes down on the building {other!r}",
                    f"Put it before {near:g} m or behind {far:g} m along the axis, or move the building",
                )


def _names(station: Station, part: Escape) -> Found:
    rooms = [*station.buildings, *station.niches]
    anywhere = [*rooms, *station.places]
    wanted: list[tuple[tuple[str | int, ...], str, list[str], str]] = [
        *((("escape", "refuges", n), n, rooms, "building or niche") for n in part.refuges),
        *((("escape", "fuel", i), n, anywhere, "place, building or niche") for i, n in enumerate(part.fuel)),
        *((("escape", "ladders", n), n, [*station.hatchways], "kind of hatch") for n in part.ladders),
    ]
    for hour, scenario in part.scenarios.items():
        for field in ("people", "injured"):
            for name in getattr(scenario, field):
                wanted.append((("escape", "scenarios", hour, field, name), name, anywhere, "place, building or niche"))
    for path, name, known, what in wanted:
        if name not in known:
            near = get_close_matches(name, known, n=1, cutoff=0.5)
            cure = f"Did you mean {near[0]!r}?" if near else f"Known: {', '.join(known[:12]) or 'none yet'}"
            yield path, f"there is no {what} {name!r}", cure


def _twice(station: Station) -> Found:
    taken: dict[str, str] = dict.fromkeys(station.places, "place")
    for group, what in (("portals", "portal"), ("hatches", "hatch"), ("niches", "niche"), ("buildings", "building")):
        for name in getattr(station, group):
            if name in taken:
                yield (
                    (group, name),
                    f"the name {name!r} is used for a {taken[name]} and for a {what}",
                    "Rename one of them",
                )
            taken[name] = what


def _hours(station: Station, part: Escape) -> Found:
    if not part.scenarios:
        yield ("escape", "scenarios"), "there is no hour to look at", "Give at least one, such as `night: {hour: ...}`"
    sleeping = sum(building.people for building in station.buildings.values())
    for name, scenario in part.scenarios.items():
        here = sum(scenario.people.values()) if scenario.people else sleeping
        if here + sum(scenario.injured.values()) == 0:
            yield (
                ("escape", "scenarios", name),
                "nobody is anywhere at this hour",
                "Give `people:` here, or `people:` to the buildings that they sleep in",
            )


def _rooms(station: Station, part: Escape) -> Found:
    made = walking_network(station)
    near: list[list[int]] = [[] for _ in made.nodes]
    for way in made.ways:
        if way.kind == "ladder" or way.width >= part.least_width:
            near[way.a].append(way.b)
            near[way.b].append(way.a)
    queue = list(made.exits.values())
    reached = set(queue)
    for node in queue:
        for other in near[node]:
            if other not in reached:
                reached.add(other)
                queue.append(other)
    for group in ("buildings", "niches"):
        for name in getattr(station, group):
            if made.inside[name] not in reached:
                yield (
                    (group, name, "place"),
                    "nobody can walk from here to a hatch or a portal",
                    f"Give its place a hatch, portal, link or doorway; no way under {part.least_width:g} m counts",
                )
