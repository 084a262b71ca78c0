"""One named spot or exit blocked: where everybody goes then, how far, how long."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from math import inf, nan

from firnstead.core.errors import NoSuchPlace
from firnstead.core.results import quantity
from firnstead.escape import imo
from firnstead.escape._answers import Answers
from firnstead.escape._blocking import Block
from firnstead.escape.study_case import case_of
from firnstead.station import Station


@dataclass(frozen=True)
class BlockedRoom:
    """A building or niche while the spot is blocked."""

    place: str = quantity("text", "place that it stands in")
    people: int = quantity("1", "most people in it at any hour")
    open_exit: str = quantity("text", "exit that it uses with nothing blocked")
    open_length: float = quantity("m", "walk to it")
    exit: str = quantity("text", "exit that it uses now; empty: none is left")
    length: float = quantity("m", "walk to it; infinite: cut off")
    hydraulic: float = quantity("s", "walk and queue at the slowest hour, hydraulic model")
    imo: float = quantity("s", "the same by the simplified method, correction included")
    needed: float = quantity("s", "time needed at the slowest hour, reaction and margin included")
    hour: str = quantity("text", "the slowest hour; empty: nobody is in it at any hour")


@dataclass(frozen=True)
class BlockedSpot:
    """A blocked spot and what it does."""

    name: str = quantity("text", "spot")
    exits: tuple[str, ...] = quantity("text", "exits lost with it")
    at_it: tuple[str, ...] = quantity("text", "spots so near that who stands there is at it")
    rooms: dict[str, BlockedRoom] = quantity("text", "buildings and niches whose way it changes")
    unchanged: int = quantity("1", "buildings and niches that leave as before")


def blocked(station: Station, name: str) -> BlockedSpot:
    """Block the spot or exit of that name; NoSuchPlace with the nearest name where there is none."""
    part = station.escape
    if part is None:
        raise NoSuchPlace("The file has no `escape:`; there is nothing to block.")
    a = Answers(case_of(station, part))
    block = _named(a, name)
    forest = a.forest(block)
    rooms = {}
    for room in a.case.rooms:
        before, now = a.case.open.route(room.node), forest.route(room.node)
        if before != now and room.node not in block.at_it:
            rooms[a.case.spots[room.node].name] = _room(a, block, room.node, before, now)
    spots = a.case.spots
    return BlockedSpot(block.name, block.exits, tuple(sorted(spots[i].name for i in block.at_it if i != block.node)),
                       rooms, len(a.case.rooms) - len(rooms))  # fmt: skip


def _named(a: Answers, name: str) -> Block:
    """A block by its own name, by one of its exits or by its spot, whatever the case of the letters."""
    known: dict[str, Block] = {}
    for block in a.blocker.blocks:
        for each in (block.name, *block.exits, a.case.spots[block.node].name):
            known.setdefault(each.casefold(), block)
    found = known.get(name.strip().casefold())
    if found is not None:
        return found
    names = {n: b.name for n, b in known.items()}
    near = get_close_matches(name.casefold(), list(names), n=3, cutoff=0.4)
    hint = f" Did you mean {', '.join(repr(names[n]) for n in near)}?" if near else ""
    raise NoSuchPlace(f"No exit or spot of the walking network is called {name!r}.{hint}")


def _room(a: Answers, block: Block, node: int, before: list[int], now: list[int]) -> BlockedRoom:
    case, spots = a.case, a.case.spots
    crowd = [sum(n for at, n in (*hour.people, *hour.injured) if at == node) for hour in case.hours]
    slow: tuple[float, float, float, str] = (nan, nan, nan, "")
    for hour in case.hours:
        row = (a.times.get((hour.name, block.name)) or a.times[hour.name, ""]).rows.get(node)
        if row is not None and not row.needed <= slow[2]:
            slow = (row.hydraulic.total, imo.travel_time_imo(row.imo.total), row.needed, hour.name)
    if not now:
        slow = (inf, inf, inf, slow[3])

    def end(path: list[int]) -> str:
        return case.exit_of[path[-1]].name if path and path[-1] in case.exit_of else ""

    return BlockedRoom(
        place=spots[node].place, people=max(crowd, default=0), open_exit=end(before),
        open_length=case.open.distance[node] if before else inf, exit=end(now),
        length=a.forest(block).distance[node] if now else inf, hydraulic=slow[0], imo=slow[1], needed=slow[2],
        hour=slow[3])  # fmt: skip
