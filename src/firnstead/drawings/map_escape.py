"""Input of the plan of the ways out and of the muster plans, from a station and its escape study."""

from __future__ import annotations

from dataclasses import replace
from math import inf

from firnstead.drawings.escape_plan_input import (
    DeadEnd,
    EscapePlanInput,
    ExitMark,
    FarSpot,
    MusterInput,
    TwoWays,
    Walk,
)  # fmt: skip
from firnstead.drawings.figure import Point
from firnstead.drawings.plan_input import PlanInput
from firnstead.escape import EscapeResult, Route
from firnstead.station import Station
from firnstead.station.geometry import axis
from firnstead.station.ways import walking_network

WORST = 4  # places whose two ways are drawn
LEAST_DEAD_END = 0.5  # m; shorter ones are not drawn


def escape_plan_input(station: Station, result: EscapeResult, ground: PlanInput) -> EscapePlanInput:
    """All that the plan shows; `ground` is the input of the station's plan."""
    nodes = {node.name: (node.x, node.y) for node in walking_network(station).nodes}
    tops = ramp_tops(ground)
    return EscapePlanInput(
        ground=_plain(ground),
        exits=tuple(ExitMark(name, tops.get(name, use.position), use.kind == "hatch")
                    for name, use in result.exits.items()),
        worst=_worst(result, tops),
        far=tuple(FarSpot(name, nodes[p.travel_from], p.travel, p.blocked)
                  for name, p in result.places.items() if p.travel_from in nodes),
        dead_ends=tuple(DeadEnd(nodes[p.dead_end_at], p.dead_end) for p in result.places.values()
                        if p.dead_end > LEAST_DEAD_END and p.dead_end_at in nodes),
        refuges=tuple(station.escape.refuges) if station.escape is not None else (),
        extinguishers=_hung(station, "extinguishers"), alarm_points=_hung(station, "alarm_points"))  # fmt: skip


def _plain(ground: PlanInput) -> PlanInput:
    return replace(ground, strips=tuple(replace(s, verdict=None) for s in ground.strips))


def ramp_tops(ground: PlanInput) -> dict[str, Point]:
    """Upper ends of the ramps as cut; the study's ends are those of the last year, when the snow has risen."""
    return {ramp.name: ramp.top for ramp in ground.ramps}


def _worst(result: EscapeResult, tops: dict[str, Point]) -> tuple[TwoWays, ...]:
    """The two ways of the room that walks farthest in each of the worst places; one way is worst of all."""
    found: list[TwoWays] = []
    for place in dict.fromkeys(row.place for row in result.worst):
        rooms = [m for m in result.muster.values() if m.place == place and m.first is not None]
        rooms.sort(key=lambda m: (m.second is not None, -(m.second or m.first).length))  # type: ignore[union-attr]
        if rooms and (first := rooms[0].first) is not None:
            second = rooms[0].second
            found.append(TwoWays(rooms[0].building, _walk(first, tops), _walk(second, tops) if second else None))
        if len(found) == WORST:
            break
    return tuple(found)


def _walk(route: Route, tops: dict[str, Point]) -> Walk:
    line = (*route.line[:-1], tops[route.exit]) if route.exit in tops else route.line
    return Walk(route.exit, line, route.length, route.climb)


def _hung(station: Station, what: str) -> tuple[Point, ...]:
    """Where extinguishers or alarm points hang; those in a building in its middle."""
    if station.fire is None:
        return ()
    found = []
    for thing in getattr(station.fire, what).values():
        building = station.buildings.get(thing.place)
        if building is not None:
            line, at = axis(station.places[building.place]), building.at + station.kits[building.kit].length / 2
        else:
            line = axis(station.places[thing.place])
            at = line.length / 2 if thing.at is None else thing.at
        found.append(line.at(at))
    return tuple(found)


def muster_inputs(
    station: Station, result: EscapeResult, ground: PlanInput, file_version: str
) -> dict[str, MusterInput]:
    """One page for each building that stands in the study, by its name."""
    hours, tops, made = [hour.name for hour in result.hours], ramp_tops(ground), {}
    for name, m in result.muster.items():
        xs, ys = [p[0] for p in m.outline], [p[1] for p in m.outline]
        there = 0.0 if m.refuge == name else m.refuge_route.length if m.refuge_route else inf
        made[name] = MusterInput(
            building=name, place=m.place, station=station.name, file_version=file_version,
            dated=station.dated.isoformat(), ground=_plain(ground), here=(sum(xs) / len(xs), sum(ys) / len(ys)),
            outline=m.outline, first=_walk(m.first, tops) if m.first else None,
            second=_walk(m.second, tops) if m.second else None, shared=m.shared, refuge=m.refuge,
            refuge_length=None if there == inf else there, people=tuple(zip(hours, m.people, strict=True)),
            note=m.note, units=station.units)  # fmt: skip
    return made
