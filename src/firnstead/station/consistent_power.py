"""Mistakes in the power part of a station file that the schema cannot see."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from firnstead.core.units import show
from firnstead.station.geometry import axis
from firnstead.station.model import Station
from firnstead.station.power import OUTSIDE, PowerPlan
from firnstead.station.ways_along import joints, spot_of, way

Where = tuple[str | int, ...]
Found = Iterator[tuple[Where, str, str]]
AT = ("power",)
SMALLEST_CIRCULAR = 250  # from here on an American size is in thousand circular mils


def power_problems(station: Station, sound: Station, written: Any) -> Found:
    """All inconsistencies of the power part; `sound` holds the places that geometry can work on."""
    plan = station.power
    if plan is None:
        return
    yield from _references(station, plan, written)
    yield from _cables(plan)
    yield from _sets(plan)
    yield from _net(plan)
    yield from _lengths(plan, sound)


def _names(written: Any, *groups: str) -> list[str]:
    found: list[str] = []
    for group in groups:
        entry = written.get(group) if isinstance(written, Mapping) else None
        found += [str(name) for name in entry] if isinstance(entry, Mapping) else []
    return found


def _lead(path: Where, name: str | None, names: list[str], what: str) -> Found:
    if name is None or name in names:
        return
    near = get_close_matches(name, names, n=1, cutoff=0.5)
    cure = f"Did you mean {near[0]!r}?" if near else f"Known: {', '.join(names[:12]) or 'none yet'}"
    yield path, f"there is no {what} {name!r}", cure


def _references(station: Station, plan: PowerPlan, written: Any) -> Found:
    stands = _names(written, "passages", "trenches", "buildings")
    parts = _names(written, "parts")
    anywhere = [*stands, OUTSIDE]
    boards, days, years = list(plan.boards), list(plan.days), list(plan.years)
    if not boards:
        yield (*AT, "boards"), "there is no board", "Add the board that the sets feed"
    for name, board in plan.boards.items():
        yield from _lead((*AT, "boards", name, "where"), board.where, stands, "place or building")
        yield from _lead((*AT, "boards", name, "part"), board.part, parts, "part")
    for name, feeder in plan.feeders.items():
        yield from _lead((*AT, "feeders", name, "start"), feeder.start, boards, "board")
        yield from _lead((*AT, "feeders", name, "end"), feeder.end, boards, "board")
        yield from _lead((*AT, "feeders", name, "cable"), feeder.cable, list(plan.cables), "cable")
    for group in ("sets", "stated_sources"):
        for name, item in getattr(plan, group).items():
            yield from _lead((*AT, group, name, "where"), item.where, anywhere, "place or building")
            yield from _lead((*AT, group, name, "board"), item.board, boards, "board")
    for name, generator in plan.sets.items():
        yield from _lead((*AT, "sets", name, "part"), generator.part, parts, "part")
    for name, source in plan.stated_sources.items():
        yield from _lead((*AT, "stated_sources", name, "year"), source.year, years, "pattern of a year")
    for name, load in plan.loads.items():
        yield from _lead((*AT, "loads", name, "where"), load.where, anywhere, "place or building")
        yield from _lead((*AT, "loads", name, "board"), load.board, boards, "board")
        yield from _lead((*AT, "loads", name, "day"), load.day, days, "pattern of a day")
        yield from _lead((*AT, "loads", name, "year"), load.year, years, "pattern of a year")
        if load.essential and load.shed is not None:
            yield ((*AT, "loads", name, "shed"), "an essential load is never switched off",
                   "Leave out `shed`, or write `essential: false`")  # fmt: skip
    for name, other in plan.other_loads.items():
        yield from _lead((*AT, "other_loads", name, "board"), other.board, boards, "board")
        if name in plan.loads:
            yield ((*AT, "other_loads", name), f"the name {name!r} is a load of this file too",
                   "Rename one of them, or it would be counted twice")  # fmt: skip
    for name, tank in plan.fuel.tanks.items():
        yield from _lead((*AT, "fuel", "tanks", name, "where"), tank.where, stands, "place or building")
    yield from _lead((*AT, "fuel", "container"), plan.fuel.container, parts, "part")
    if plan.construction is not None:
        yield from _lead((*AT, "construction", "part"), plan.construction.part, parts, "part")


def _cables(plan: PowerPlan) -> Found:
    for name, cable in plan.cables.items():
        at = (*AT, "cables", name)
        if (cable.section is None) == (cable.awg is None):
            yield at, "the size is not given in one way", "Give either `section` or `awg`"
        if cable.awg is not None and not _is_awg(cable.awg):
            yield ((*at, "awg"), f"{cable.awg!r} is not an American size",
                   "Write 14 to 1, 1/0 to 4/0, or 250 to 1000 for thousand circular mils")  # fmt: skip


def _is_awg(size: str) -> bool:
    if size in ("1/0", "2/0", "3/0", "4/0"):
        return True
    return size.isascii() and size.isdigit() and (1 <= int(size) <= 14 or SMALLEST_CIRCULAR <= int(size) <= 1000)


def _sets(plan: PowerPlan) -> Found:
    if not plan.sets and not plan.stated_sources:
        yield (*AT, "sets"), "there is nothing that gives power", "Add generator sets"
    elif not any(generator.duty == "main" for generator in plan.sets.values()) and plan.sets:
        yield (*AT, "sets"), "no generator set has the duty main", "Write `duty: main` for those that run by turns"
    tables: list[tuple[Where, Any]] = [((*AT, "sets", n, "fuel"), each.fuel) for n, each in plan.sets.items()]
    if plan.construction is not None:
        tables.append(((*AT, "construction", "fuel"), plan.construction.fuel))
    for path, table in tables:
        loads, flows = [p.load for p in table], [p.flow for p in table]
        if any(b <= a for a, b in zip(loads, loads[1:], strict=False)) or any(
            b <= a for a, b in zip(flows, flows[1:], strict=False)
        ):
            yield path, "the fuel table does not rise from line to line", "Sort it by load; more load burns more fuel"


def _net(plan: PowerPlan) -> Found:
    group: dict[str, str] = {}

    def head(board: str) -> str:
        while group.get(board, board) != board:
            board = group[board]
        return board

    for name, feeder in plan.feeders.items():
        at = (*AT, "feeders", name)
        if feeder.start == feeder.end:
            yield (*at, "end"), "the feeder ends where it starts", "Name the board at its other end"
        elif not feeder.normally_open:
            if head(feeder.start) == head(feeder.end):
                yield (at, f"the feeder closes a ring between {feeder.start!r} and {feeder.end!r}",
                       "Take it out, or write `normally_open: true`: every board is fed one way only")  # fmt: skip
            group[head(feeder.start)] = head(feeder.end)
        if (feeder.voltage is None) != (feeder.transformer is None):
            yield ((*at, "voltage"), "a feeder of another voltage needs its transformers, and they a voltage",
                   "Give both `voltage` and `transformer`, or neither")  # fmt: skip
    fed = {head(item.board) for g in (plan.sets, plan.stated_sources) for item in g.values()}
    for board in plan.boards:
        if fed and head(board) not in fed:
            yield (*AT, "boards", board), "no feeder leads from a source to this board", "Add the feeder that feeds it"
    if len({head(item.board) for item in plan.sets.values()}) > 1:
        yield (*AT, "sets"), "the sets feed nets that are not joined", "Join their boards by a feeder"


def _lengths(plan: PowerPlan, sound: Station) -> Found:
    known, met = set(sound.places) | set(sound.buildings), joints(sound)
    for name, board in plan.boards.items():
        if board.at is not None and board.where in sound.places:
            length = axis(sound.places[board.where]).length
            if board.at > length:
                yield ((*AT, "boards", name, "at"),
                       f"it lies outside {board.where!r}, which is {show(length, 'm')} long",
                       "Give a distance from the start of the axis")  # fmt: skip
    for name, feeder in plan.feeders.items():
        ends = [plan.boards.get(board) for board in (feeder.start, feeder.end)]
        if feeder.length is not None or any(board is None or board.where not in known for board in ends):
            continue
        start, end = (spot_of(sound, board.where, board.at) for board in ends if board is not None)
        if way(met, start, end) is None:
            yield ((*AT, "feeders", name), "no passage leads from its one board to the other",
                   "Give its `length`")  # fmt: skip
