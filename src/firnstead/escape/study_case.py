"""From the station file to the numbers that escape depends on."""

from __future__ import annotations

from dataclasses import replace
from math import inf

from firnstead.escape._case import Case, Climb, Exit, Hour, Room, Spot, Stretch
from firnstead.escape.presets import Limits, preset
from firnstead.station import Station
from firnstead.station.escape import Escape, EscapeScenario
from firnstead.station.geometry import axis
from firnstead.station.ways import Ways, walking_network

REACTION = {True: 600.0, False: 300.0}  # s asleep and awake: response times of the circular (from memory, unchecked)
CHANGEABLE = ("travel", "common_path", "dead_end", "separation", "surface_time", "refuge_time")


def limits_of(part: Escape) -> tuple[Limits, tuple[str, ...]]:
    """The preset with what the file changes in it, and the names of what it changes."""
    base = preset(part.preset)
    own = {name: getattr(part, name) for name in CHANGEABLE if getattr(part, name) is not None}
    return replace(base, **own), tuple(own)


def case_of(station: Station, part: Escape, made: Ways | None = None) -> Case:
    """The case of a station, with the ladders and ramps of the end of the design life."""
    made = made if made is not None else walking_network(station, age=station.design.life)
    exits = []
    for name, outside in made.exits.items():
        hatch = station.hatches.get(name)
        ladder = part.ladders.get(hatch.kind) if hatch is not None else None
        climb = (
            Climb(ladder.interval, ladder.climb_speed, ladder.carried, ladder.measured) if ladder is not None else None
        )
        exits.append(
            Exit(
                name, "hatch" if hatch is not None else "portal", outside, made.inside[name], made.doors[name][0], climb
            )
        )
    number = {name: made.inside[name] for name in (*station.niches, *station.buildings)}
    rooms = tuple(
        Room(number[name], made.doors[name],
             name in station.niches or station.kits[station.buildings[name].kit].doors is not None)
        for name in (*station.buildings, *station.niches))  # fmt: skip
    base = Case(
        spots=tuple(Spot(n.name, n.place, n.kind, n.x, n.y, n.z, n.at) for n in made.nodes),
        stretches=tuple(Stretch(w.a, w.b, w.length, w.width, w.slope, w.kind, w.place) for w in made.ways),
        exits=tuple(exits), rooms=rooms, hours=(),
        refuges=tuple((number[n], r.people, r.duration) for n, r in part.refuges.items()),
        limits=limits_of(part)[0],
        blocked_travel=part.blocked_travel if part.blocked_travel is not None else limits_of(part)[0].travel,
        margin=part.margin, least_width=part.least_width, walking_speed=part.walking_speed,
        carrying_speed=part.carrying_speed, apart=part.siting.apart,
        places=tuple((name, axis(p).length, station.sections[p.section].floor_width)
                     for name, p in station.places.items()))  # fmt: skip
    remotest = _remotest(base)
    hours = tuple(_hour(name, s, station, {**remotest, **number}) for name, s in part.scenarios.items())
    return replace(base, hours=hours)


def _remotest(case: Case) -> dict[str, int]:
    """The point of every place from which the walk out is longest."""
    found: dict[str, int] = {}
    for i, spot in enumerate(case.spots):
        if spot.kind in ("point", "junction"):
            best = found.get(spot.place)
            if best is None or _finite(case, best) < _finite(case, i):
                found[spot.place] = i
    return found


def _finite(case: Case, node: int) -> float:
    d = case.open.distance[node]
    return -1.0 if d == inf else d


def _hour(name: str, scenario: EscapeScenario, station: Station, nodes: dict[str, int]) -> Hour:
    people = dict(scenario.people) or {n: b.people for n, b in station.buildings.items()}
    reaction = scenario.reaction if scenario.reaction is not None else REACTION[scenario.asleep]
    return Hour(
        name=name, words=scenario.hour, reaction=reaction,
        reaction_source="" if scenario.reaction is not None else "imo_msc_circ_1533", factor=scenario.speed_factor,
        people=tuple((nodes[n], count) for n, count in people.items() if count),
        injured=tuple((nodes[n], count) for n, count in scenario.injured.items() if count))  # fmt: skip
