"""What the schema cannot see in the air part: fans in no place, curves that rise, nobody anywhere."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from firnstead.core.units import show
from firnstead.station import geometry
from firnstead.station.air import OUTSIDE, Air
from firnstead.station.model import Station

Found = Iterator[tuple[tuple[str | int, ...], str, str]]


def air_problems(station: Station, written: Mapping[str, Any]) -> Found:
    """All inconsistencies of the air part; `written` is the file as it stands, for names whose entries are wrong."""
    air = getattr(station, "air", None)
    if air is None:
        return
    yield from _names(air, written)
    yield from _lengths(station, air)
    yield from _fans(air)
    yield from _people(station, air)
    for name, vehicle in air.vehicles.items():
        if vehicle.runs > vehicle.every:
            yield (
                ("air", "vehicles", name, "every"),
                "it starts again before it has stopped",
                "Give a time from start to start that is longer than it runs",
            )
    for name, limit in air.limits.items():
        if limit.gas == "oxygen" and limit.value < 0.05:
            yield (
                ("air", "limits", name, "value"),
                f"{limit.value:.3%} of oxygen is no limit for people",
                "Write it in %, such as 19.5 %",
            )


def _known(written: Mapping[str, Any], *groups: str) -> list[str]:
    found = [written.get(group) for group in groups]
    return [str(name) for names in found if isinstance(names, Mapping) for name in names]


def _lead(path: tuple[str | int, ...], name: str, known: list[str], what: str) -> Found:
    if name not in known:
        near = get_close_matches(name, known, n=1, cutoff=0.5)
        cure = f"Did you mean {near[0]!r}?" if near else f"Known: {', '.join(known[:12]) or 'none yet'}"
        yield path, f"there is no {what} {name!r}", cure


def _names(air: Air, written: Mapping[str, Any]) -> Found:
    # an entry that is there but wrong has a message of its own: a reference to it is not to nothing
    places = _known(written, "passages", "trenches")
    rooms = [*places, *_known(written, "buildings")]
    for name, fan in air.fans.items():
        for field in ("draws_from", "blows_into"):
            yield from _lead(("air", "fans", name, field), getattr(fan, field), [*rooms, OUTSIDE], "place or building")
    for name, vent in air.vents.items():
        yield from _lead(("air", "vents", name, "place"), vent.place, places, "place")
    for name in air.doors:
        yield from _lead(
            ("air", "doors", name), name, _known(written, "portals", "hatches", "trenches"), "portal, hatch or trench"
        )
    for name in air.leakage:
        yield from _lead(("air", "leakage", name), name, places, "place")
    for name in air.kits:
        yield from _lead(("air", "kits", name), name, _known(written, "kits"), "kit")
    for name, engine in air.engines.items():
        yield from _lead(("air", "engines", name, "where"), engine.where, rooms, "place or building")
        if engine.exhaust is not None:
            yield from _lead(("air", "engines", name, "exhaust"), engine.exhaust, list(air.exhausts), "exhaust")
    for name, vehicle in air.vehicles.items():
        yield from _lead(("air", "vehicles", name, "place"), vehicle.place, places, "place")
    for name, alarm in air.alarms.items():
        yield from _lead(("air", "alarms", name, "where"), alarm.where, rooms, "place or building")
    for name in air.day:
        yield from _lead(("air", "day", name), name, [*rooms, *_known(written, "niches")], "place, building or niche")


def _lengths(station: Station, air: Air) -> Found:
    def outside(path: tuple[str | int, ...], place: str, at: float | None) -> Found:
        found = station.places.get(place)
        if found is None or at is None or (found.end is None and found.length is None):
            return
        length = geometry.axis(found).length
        if at > length:
            yield (
                path,
                f"it lies outside {place!r}, which is {show(length, 'm')} long",
                "Give a distance along the axis",
            )

    for name, vent in air.vents.items():
        yield from outside(("air", "vents", name, "at"), vent.place, vent.at)
    for name, fan in air.fans.items():
        for end in (fan.draws_from, fan.blows_into):
            yield from outside(("air", "fans", name, "at"), end, fan.at)


def _fans(air: Air) -> Found:
    for name, fan in air.fans.items():
        at = ("air", "fans", name)
        if fan.draws_from == fan.blows_into:
            yield (*at, "blows_into"), "it blows into where it draws from", "Name two different rooms, or `outside`"
        if not fan.curve and (fan.flow is None or fan.pressure is None):
            yield at, "it has neither a curve nor a flow with its pressure", "Give `curve`, or `flow` and `pressure`"
        if fan.curve and len(fan.curve) < 2:
            yield (*at, "curve"), "one point is no curve", "Give two points or more, or `flow` and `pressure`"
        for (q1, p1), (q2, p2) in zip(fan.curve, fan.curve[1:], strict=False):
            if q2 <= q1 or p2 >= p1:
                yield (
                    (*at, "curve"),
                    "the curve does not fall: each point needs more flow and less pressure than the one before",
                    "Leave out the stretch where the fan stalls",
                )
                break


def _people(station: Station, air: Air) -> Found:
    escape = getattr(station, "escape", None)
    elsewhere = any(sum(s.people.values()) for s in escape.scenarios.values()) if escape is not None else False
    if not any(b.people for b in station.buildings.values()) and not sum(air.day.values()) and not elsewhere:
        yield ("air",), "there is nobody anywhere", "Give `people` to a building, or `day` with people by place"
