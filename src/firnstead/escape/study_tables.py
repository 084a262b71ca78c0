"""Rows of the result: places, exits, hours, who is cut off, pairs, the list that begins with the worst place."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot, inf

from firnstead.core.results import Check, Verdict
from firnstead.escape import imo
from firnstead.escape._answers import Answers
from firnstead.escape.results import CutOffRow, ExitUse, HourTimes, PairsResult, PlaceEscape, WorstPlace

CURES = {
    "travel": "Put a hatch nearer to where the walk starts, or another portal",
    "blocked": "Give it a second way out that shares nothing with the first: a hatch at the other end, a door at the "
               "building's other end",
    "common_path": "Give the room a second door, or bring a way out nearer to its door",
    "dead_end": "Put the hatch nearer to the end, or fill the end with snow",
    "separation": "Move the hatch away from the mouth, to the far end",
    "time": "Share people among more exits, make the ladder easier to climb, warn people sooner",
}  # fmt: skip


def place_rows(a: Answers) -> dict[str, PlaceEscape]:
    """One row for every place."""
    return {name: _place(a, name, length, width) for name, length, width in a.case.places}


def _place(a: Answers, name: str, length: float, width: float) -> PlaceEscape:
    case = a.case
    inside = [i for i, s in enumerate(case.spots) if s.place == name and case.stands(i)]
    points = [i for i in inside if case.spots[i].kind in ("point", "junction")]
    rooms = [i for i in inside if i not in points]
    far = max(inside, key=lambda i: case.open.distance[i])
    cut = {c.node: c.block for c in a.single.cut_off}
    blocked = max(inside, key=lambda i: inf if i in cut else a.single.worst[i])
    room = max(rooms, key=lambda i: a.to_choice[i], default=-1)
    stub = max(points, key=lambda i: a.to_choice[i])
    outs = _ways_out(a, name)
    ways = [s for s in case.stretches if s.place == name and s.kind != "ladder"]
    apart = max((case.apart_straight(p, q) for p, _ in outs for q, _ in outs), default=0.0)
    end = case.open.end(far)
    return PlaceEscape(
        travel=case.open.distance[far],
        travel_from=case.spots[far].name,
        travel_exit=case.exit_of[end].name if end >= 0 else "",
        blocked=inf if blocked in cut else a.single.worst[blocked],
        blocked_from=case.spots[blocked].name,
        blocked_by=cut.get(blocked) or a.single.by[blocked],
        common_path=a.to_choice[room] if room >= 0 else 0.0,
        common_path_from=case.spots[room].name if room >= 0 else "",
        dead_end=a.to_choice[stub],
        dead_end_at=case.spots[stub].name,
        diagonal=hypot(length, width),
        separation=apart,
        ways_out=tuple(name for _, name in outs),
        narrowest=min((s.width for s in ways), default=inf),
        steepest=max((abs(s.slope) for s in ways), default=0.0),
    )


def _ways_out(a: Answers, name: str) -> list[tuple[int, str]]:
    """Where a place can be left: its exits, its mouth into a passage, junctions on it."""
    case = a.case
    outs: list[tuple[int, str]] = [(e.foot, e.name) for e in case.exits if case.spots[e.foot].place == name]
    for s in case.stretches:
        p, q = case.spots[s.a], case.spots[s.b]
        for near, other in ((s.a, q), (s.b, p)):
            if case.spots[near].place == name and other.place != name and s.kind != "ladder":
                outs.append((near, f"way to {other.place}"))
    return list(dict(outs).items())


def exit_rows(a: Answers) -> dict[str, ExitUse]:
    """One row for every exit."""
    case, found = a.case, {}
    for e in case.exits:
        people, most, by = [], [], []
        for hour in case.hours:
            uses = {block: row.use.get(e.outside, 0) for (name, block), row in a.times.items() if name == hour.name}
            worst = max(uses, key=lambda block: uses[block])
            people.append(uses[""])
            most.append(uses[worst])
            by.append(worst)
        out, stretch = case.spots[e.outside], next(s for s in case.stretches if s.b == e.outside)
        found[e.name] = ExitUse(
            place=out.place, kind=e.kind, position=(out.x, out.y), length=stretch.length,
            interval=e.climb.interval if e.climb is not None else None, people=tuple(people), most=tuple(most),
            most_blocked=tuple(by))  # fmt: skip
    return found


def hour_rows(a: Answers) -> tuple[HourTimes, ...]:
    """One row for every hour."""
    rows, spots = [], a.case.spots
    for hour in a.case.hours:
        quiet, worst, carried = a.slowest(hour, blocked=False), a.slowest(hour, blocked=True), a.carried(hour)

        def row(found: object, what: str, none: float = 0.0) -> float:
            return none if found is None else float(getattr(found, what))

        rows.append(HourTimes(
            name=hour.name, words=hour.words, people=hour.total, reaction=hour.reaction, factor=hour.factor,
            open_from=spots[quiet.node].name if quiet else "", open_hydraulic=quiet.hydraulic.total if quiet else 0.0,
            open_imo=imo.travel_time_imo(quiet.imo.total) if quiet else 0.0, open_needed=row(quiet, "needed"),
            blocked_from=spots[worst.node].name if worst else "", blocked_by=worst.block if worst else "",
            blocked_hydraulic=worst.hydraulic.total if worst else 0.0,
            blocked_imo=imo.travel_time_imo(worst.imo.total) if worst else 0.0, blocked_needed=row(worst, "needed"),
            guided=a.guided[hour.name], carried=sum(n for _, n in hour.injured),
            carried_needed=row(carried, "needed"), carried_by=carried.block if carried else ""))  # fmt: skip
    return tuple(rows)


def cut_off_rows(a: Answers) -> tuple[CutOffRow, ...]:
    """Who has no way out while a spot is blocked."""
    spots = a.case.spots
    return tuple(CutOffRow(spots[c.node].name, spots[c.node].place, c.block, c.own_door) for c in a.single.cut_off)


def pairs_row(a: Answers) -> PairsResult | None:
    """Every pair, if asked for."""
    if a.pairs is None:
        return None
    spots, found = a.case.spots, a.pairs
    cut: dict[str, int] = {}
    rooms: dict[str, int] = {}
    inside = {room.node for room in a.case.rooms}
    for each in found.cut_off:
        name = spots[each.node].name
        cut[name] = cut.get(name, 0) + 1
        if each.node in inside:
            rooms[name] = rooms.get(name, 0) + 1
    standing = [i for i in range(len(spots)) if a.case.stands(i) and found.worst[i] < inf]
    far = max(standing, key=lambda i: found.worst[i])
    return PairsResult(found.count, cut, rooms, found.worst[far], spots[far].name, found.by[far])


def worst_places(checks: Sequence[Check]) -> tuple[WorstPlace, ...]:
    """What fails or is close, worst first, with what to do; then the fullest of the rest, one for each place."""
    rows = [c for c in checks if c.ratio is not None]
    rows.sort(key=lambda c: -(c.ratio or 0.0))
    seen: set[str] = set()
    found = []
    for c in rows:
        if c.verdict in (Verdict.FAILS, Verdict.CLOSE) or c.place not in seen:
            seen.add(c.place)
            cure = CURES.get(c.key.removeprefix("escape."), "See the working of this check")
            found.append(WorstPlace(c.place, c.question, c.ratio or 0.0, cure))
    return tuple(found)
