"""What the schema cannot see of pipes: names, routes, falls, loops."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from firnstead.core.units import show
from firnstead.station import geometry
from firnstead.station.model import Station
from firnstead.station.pipes import FIXED_ENDS, PipeRun, Pipes
from firnstead.station.routes import stretches

Found = Iterator[tuple[tuple[str | int, ...], str, str]]
_FREEZING = 273.15
_LEVEL = 1e-3  # m of rise that is still level


def pipe_problems(sound: Station, written: Mapping[str, Any]) -> Found:
    """Everything inconsistent about pipes; `sound` holds the entries of the station that are sound."""
    pipes = sound.pipes
    if pipes is None:
        return
    places = _names(written, "passages") | _names(written, "trenches")
    yield from _kinds(pipes, _names(written, "parts"))
    ends = {*FIXED_ENDS, *pipes.runs, *places, *_names(written, "buildings")}
    for name, run in pipes.runs.items():
        at = ("pipes", "runs", name)
        yield from _leads((*at, "kind"), run.kind, pipes.kinds, "kind of pipe")
        for end in ("begins", "ends"):
            yield from _leads((*at, end), getattr(run, end), ends, "building, run, place or fixed end")
        yield from _carrier(at, pipes, run)
        yield from _tracing(at, pipes, run)
        yield from _things(at, run)
        yield from _route(at, sound, pipes, run, places)
    yield from _loops(pipes)


def _names(written: Mapping[str, Any], group: str) -> set[str]:
    found = written.get(group)
    return {str(name) for name in found} if isinstance(found, Mapping) else set()


def _leads(at: tuple[str | int, ...], name: str, known: Any, what: str) -> Found:
    if name not in known:
        near = get_close_matches(name, [str(k) for k in known], n=1, cutoff=0.5)
        listed = ", ".join(sorted(map(str, known))[:12]) or "none yet"
        yield at, f"there is no {what} {name!r}", f"Did you mean {near[0]!r}?" if near else f"Known: {listed}"


def _kinds(pipes: Pipes, parts: set[str]) -> Found:
    for group, items in (("kinds", pipes.kinds), ("cables", pipes.cables)):
        for name, item in items.items():
            if item.part is not None:
                yield from _leads(("pipes", group, name, "part"), item.part, parts, "part")


def _carrier(at: tuple[str | int, ...], pipes: Pipes, run: PipeRun) -> Found:
    if run.carrier == "glycol" and run.glycol_share is None:
        yield (*at, "carrier"), "how much glycol is in it is not told", "Add `glycol_share: 50 %`"
    if run.carrier != "glycol" and run.glycol_share is not None:
        yield (*at, "glycol_share"), f"{run.carrier} holds no glycol", "Leave it out, or make the carrier glycol"
    if run.carrier == "fuel" and pipes.fuel is None:
        yield (*at, "carrier"), "the fuel is not described", "Add `fuel:` with density, heat_capacity and cloud_point"
    if run.carrier == "steam" and run.supply < 323.15:
        yield (*at, "supply"), "steam is not as cold as that", "Give the temperature at which it is saturated"
    if run.carrier != "steam" and run.supply > 373.15:
        yield (*at, "supply"), f"{run.carrier} boils at that temperature", "Give less than 100 degC"
    if run.carrier not in ("steam", "fuel") and run.supply < run.least:
        yield (*at, "supply"), "it enters colder than the lowest temperature wanted", "Raise it, or lower `least`"
    if run.carrier in ("water", "waste water", "condensate") and run.least < _FREEZING:
        yield (*at, "least"), "the lowest temperature wanted is below freezing", "Give 0 degC or more"


def _tracing(at: tuple[str | int, ...], pipes: Pipes, run: PipeRun) -> Found:
    t = run.tracing
    if t is None:
        return
    yield from _leads((*at, "tracing", "cable"), t.cable, pipes.cables, "tracing cable")
    if t.off <= t.on:
        yield (*at, "tracing", "off"), "the thermostat switches off before it switches on", "Give more than `on`"
    if t.alarm >= t.on:
        yield (*at, "tracing", "alarm"), "the alarm sounds before the tracing switches on", "Give less than `on`"
    if run.carrier in ("water", "waste water", "condensate") and t.alarm <= _FREEZING:
        yield (*at, "tracing", "alarm"), "the alarm sounds only when ice forms", "Give a degree or more above 0 degC"


def _things(at: tuple[str | int, ...], run: PipeRun) -> Found:
    passed = {point.place for point in run.route}
    for group in ("fittings", "dead_legs"):
        for i, thing in enumerate(getattr(run, group)):
            if thing.place is not None and thing.place not in passed:
                yield (*at, group, i, "place"), f"the run does not pass {thing.place!r}", "Name a place of its route"
    s = run.supports
    if s.kind == "in snow" and s.depth is None:
        yield (*at, "supports"), "how deep it lies in the snow is not told", "Add `depth:` of its axis"
    if s.kind == "in a niche" and (s.niche_width is None or s.niche_height is None):
        yield (*at, "supports"), "the size of the niche is not told", "Add `niche_width:` and `niche_height:`"


def _route(at: tuple[str | int, ...], sound: Station, pipes: Pipes, run: PipeRun, written: set[str]) -> Found:
    wrong = False
    for i, point in enumerate(run.route):
        here = (*at, "route", i)
        for found in _leads((*here, "place"), point.place, written, "place"):
            wrong = True
            yield found
        if point.place not in sound.places:
            wrong = True  # it is not there, or is wrong itself and has a message of its own
            continue
        place = sound.places[point.place]
        length = geometry.axis(place).length
        if point.at is not None and point.at > length + 1e-6:
            wrong = True
            yield (*here, "at"), f"it lies outside {point.place!r}, which is {show(length, 'm')} long", "Give less"
        deep = sound.sections[place.section].depth
        if point.height is not None and point.height > deep:
            yield (*here, "height"), f"the pipe is above the snow: the cut is {show(deep, 'm')} deep", "Lay it lower"
    if wrong:
        return
    pieces = stretches(sound, run.route)
    if isinstance(pieces, str):
        yield (*at, "route"), pieces, "Name every place that the run passes, in order, each joined to the next"
        return
    if sum(piece.length for piece in pieces) < 0.5:
        yield (*at, "route"), "the run is shorter than 0.5 m", "Check its points"
    if run.drive == "gravity":
        if run.route[0].height is None or run.route[-1].height is None:
            yield (
                (*at, "route"),
                "a gravity line needs a height at both ends",
                "Add `height:` to its first and last point",
            )
            return
        for piece in pieces:
            if piece.upper is not None and piece.lower is not None and piece.lower > piece.upper + _LEVEL:
                rise = show(piece.lower - piece.upper, "m")
                yield (*at, "route"), f"the gravity line runs uphill by {rise} in {piece.place!r}", (
                    "Lower it towards its end, raise its beginning, or make it `drive: pumped`")  # fmt: skip
                return
    outside = pipes.kinds[run.kind].outside if run.kind in pipes.kinds else 0.0
    if run.supports.depth is not None and run.supports.depth <= outside / 2:
        yield (
            (*at, "supports", "depth"),
            "its axis is not deeper than half its diameter",
            "It lies on the snow, not in it",
        )


def _loops(pipes: Pipes) -> Found:
    """Gravity runs that lead into one another in a ring, told once for each ring, and ends that do not touch."""
    told: set[str] = set()
    for name in pipes.runs:
        way: list[str] = []
        at = name
        while at in pipes.runs and pipes.runs[at].drive == "gravity" and at not in way:
            way.append(at)
            at = pipes.runs[at].ends
        if at in way:
            ring = way[way.index(at) :]
            if not told & set(ring):
                told |= set(ring)
                chain = " to ".join([*ring, at])
                yield ("pipes", "runs", at, "ends"), f"the gravity lines run in a loop: {chain}", (
                    "Let one of them end in a sump, a tank or a building")  # fmt: skip
    for name, run in pipes.runs.items():
        into = pipes.runs.get(run.ends)
        if into is not None and name not in told and run.route and run.route[-1].place not in {
            p.place for p in into.route
        }:  # fmt: skip
            yield ("pipes", "runs", name, "ends"), f"it does not reach {run.ends!r}, which passes other places", (
                "Lead its route to a place that the other run passes")  # fmt: skip
