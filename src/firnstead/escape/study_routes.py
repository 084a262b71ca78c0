"""Routes as they are walked, the rows of buildings, and the muster plan of each building."""

from __future__ import annotations

from math import inf, nan

from firnstead.escape import imo
from firnstead.escape._answers import Answers, CaseTimes
from firnstead.escape._case import Hour, Room
from firnstead.escape._graph import Forest
from firnstead.escape.results import BuildingEscape, MusterPlan, Point, Route
from firnstead.station import Station
from firnstead.station.geometry import axis, rectangle

NOBODY = (nan, nan, nan, nan, nan)


def route_of(a: Answers, forest: Forest, node: int, blocked: str) -> Route | None:
    """The way out of a node in a forest, with its times; None where there is no way."""
    path = forest.route(node)
    if not path:
        return None
    case, end = a.case, path[-1]
    rows: list[tuple[float, float, float, float, float]] = []
    passed: list[tuple[float, ...]] = []
    for hour in case.hours:
        found = a.times.get((hour.name, blocked))
        if found is None:  # a way that no blocked spot forces: its queues were never worked out
            rows.append(NOBODY)
            passed.append(())
            continue
        rows.append(_row(a, hour, found, node))
        passed.append(_passed(a, hour, found, path) if node in found.rows else ())
    length = forest.distance[node]
    exit = case.exit_of.get(end)
    name = exit.name if exit is not None else case.spots[end].name
    climb = case.spots[end].z - case.spots[path[-2]].z if exit is not None and exit.kind == "hatch" else 0.0
    walk_h, queue_h, walk_i, queue_i, need = zip(*rows, strict=True) if rows else ((),) * 5
    return Route(
        blocked=blocked, exit=name, nodes=tuple(case.spots[i].name for i in path), line=line_of(a, path), length=length,
        climb=climb, walk_hydraulic=walk_h, queue_hydraulic=queue_h, walk_imo=walk_i, queue_imo=queue_i, needed=need,
        passed=tuple(passed))  # fmt: skip


def line_of(a: Answers, path: list[int]) -> tuple[Point, ...]:
    """A path on the plan; points that fall together are taken once."""
    line: list[Point] = []
    for i in path:
        point = (a.case.spots[i].x, a.case.spots[i].y)
        if not line or point != line[-1]:
            line.append(point)
    return tuple(line)


def _row(a: Answers, hour: Hour, found: CaseTimes, node: int) -> tuple[float, float, float, float, float]:
    row = found.rows.get(node)
    if row is None:
        return NOBODY
    return (row.hydraulic.walk, row.hydraulic.queue, row.imo.walk, row.imo.queue, row.needed)


def _passed(a: Answers, hour: Hour, found: CaseTimes, path: list[int]) -> tuple[float, ...]:
    """When the last passes each node: reaction, the whole queue and the walk so far, with the margin, longer model."""
    first, other = found.hydraulic[path[0]], found.imo[path[0]]
    times = []
    for node in path:
        h = first.total - found.hydraulic[node].walk if node in found.hydraulic else first.total
        i = other.total - found.imo[node].walk if node in found.imo else other.total
        times.append(imo.time_needed(hour.reaction, max(h, imo.travel_time_imo(i)), a.case.margin))
    return tuple(times)


def building_of(a: Answers, room: Room) -> BuildingEscape:
    """The ways out of one room: the shortest, and every other that a blocked spot leads to."""
    case, node = a.case, room.node
    routes: list[Route] = []
    seen: set[tuple[int, ...]] = set()
    for block, forest in a.forests_of(node):
        if block is not None and node in block.removed:
            continue
        path = tuple(forest.route(node))
        if path and path not in seen:
            seen.add(path)
            found = route_of(a, forest, node, "" if block is None else block.name)
            if found is not None:
                routes.append(found)
    people = tuple(sum(n for at, n in hour.people if at == node) for hour in case.hours)
    carried = tuple(sum(n for at, n in hour.injured if at == node) for hour in case.hours)
    cut = next((c.block for c in a.single.cut_off if c.node == node), "")
    return BuildingEscape(
        case.spots[node].place, people, carried, len(room.feet), a.to_choice[node], tuple(routes),
        cut or a.single.by[node], inf if cut else a.single.worst[node])  # fmt: skip


def muster_of(a: Answers, station: Station, name: str, node: int) -> MusterPlan:
    """The page of one building: the shortest way, and the one that shares nothing with it if there is such a way."""
    case, building = a.case, station.buildings[name]
    kit = station.kits[building.kit]
    first = case.open.route(node)
    second, shared, note = [], 0.0, ""
    if first:
        forest = case.open.without(frozenset(first[1:]))
        second = forest.route(node)
        blocked = f"the first way out of {name}"
        if not second:  # no way that shares nothing: the one that is left when the exit and the passage at it are shut
            exit = case.exit_of[first[-1]]
            block = next((b for b in a.blocker.blocks if exit.name in b.exits), None)
            if block is not None:
                forest, blocked = a.forest(block), block.name
                second = forest.route(node)
                shared = _shared(a, first, second)
                note = "The two ways share a stretch. A fire there closes both."
            if not second:
                note = "There is no second way out."
    else:
        note = "There is no way out."
    far = a.to_refuge
    refuge = far.route(node)
    outline = rectangle(axis(station.places[building.place]), building.at, building.at + kit.length, kit.width / 2)
    return MusterPlan(
        building=name, place=building.place, outline=outline,
        people=tuple(sum(n for at, n in (*h.people, *h.injured) if at == node) for h in case.hours),
        first=route_of(a, case.open, node, ""),
        second=route_of(a, forest, node, blocked) if second else None, shared=shared,
        refuge=case.spots[refuge[-1]].name if refuge else "",
        refuge_route=route_of(a, far, node, "") if len(refuge) > 1 else None, note=note)  # fmt: skip


def _shared(a: Answers, first: list[int], second: list[int]) -> float:
    steps = {frozenset(pair) for pair in zip(first, first[1:], strict=False)}
    lengths = {frozenset((s.a, s.b)): s.length for s in a.case.stretches}
    return sum(lengths[step] for pair in zip(second, second[1:], strict=False) if (step := frozenset(pair)) in steps)
