"""Every single spot of the ways blocked in turn, with the exit at it; every pair on request."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from math import inf

from firnstead.escape._case import Case, Room


@dataclass(frozen=True)
class Block:
    """A spot of the ways that is closed: what is taken out, the exits lost with it, who stands at it."""

    name: str
    node: int
    removed: frozenset[int]
    exits: tuple[str, ...]
    at_it: frozenset[int]


@dataclass(frozen=True)
class CutOff:
    """Somebody without a way out while this is blocked."""

    node: int
    block: str
    own_door: bool
    """Only the door itself is blocked, and the file does not say where the other doors are."""


@dataclass(frozen=True, eq=False)
class Blockings:
    """Worst distance of every node over all blockings, and by which one; who is cut off."""

    worst: tuple[float, ...]
    by: tuple[str, ...]
    cut_off: tuple[CutOff, ...]
    count: int


class Blocker:
    """All blockings of one case."""

    def __init__(self, case: Case) -> None:
        self.case = case

    @cached_property
    def blocks(self) -> tuple[Block, ...]:
        """One for every point of the walking lines. At the foot of an exit it takes the exit with it, and every other
        exit within the distance below which two count as one."""
        case = self.case
        feet: dict[int, list[str]] = {}
        for each in case.exits:
            feet.setdefault(each.foot, []).append(each.name)
        found = []
        for node, spot in enumerate(case.spots):
            if spot.kind not in ("point", "junction"):
                continue
            at_it = case.graph.within(node, case.near)
            lost = [case.exits[i] for i in self._lost(node)] if node in feet else []
            found.append(Block(
                name=" and ".join(feet[node]) if node in feet else spot.name, node=node,
                removed=frozenset({node, *(e.base for e in lost)}), exits=tuple(e.name for e in lost),
                at_it=frozenset(i for i in at_it if case.spots[i].kind in ("point", "junction", "niche"))))  # fmt: skip
        return tuple(found)

    def _lost(self, node: int) -> list[int]:
        reach = self.case.graph.within(node, self.case.apart)
        return [i for i, e in enumerate(self.case.exits) if reach.get(e.foot, inf) < self.case.apart or e.foot == node]

    @cached_property
    def _rooms(self) -> dict[int, Room]:
        return {room.node: room for room in self.case.rooms}

    def single(self) -> Blockings:
        """Every spot in turn."""
        return self._over(
            lambda note: [note(b, self.case.open.changes(b.removed)) for b in self.blocks], self.case.open.distance
        )

    def pairs(self) -> Blockings:
        """Every two spots together; who is near either is at it."""

        def run(note: Callable[[Block, dict[int, tuple[float, int, int]]], None]) -> None:
            for i, first in enumerate(self.blocks):
                forest = self.case.open.without(first.removed)
                lost = {i: (inf, -1, -1) for i, d in enumerate(forest.distance) if d == inf}  # by the first alone
                for second in self.blocks[i + 1 :]:
                    both = Block(
                        f"{first.name} with {second.name}", second.node, first.removed | second.removed,
                        first.exits + second.exits, first.at_it | second.at_it)  # fmt: skip
                    note(both, lost | forest.changes(second.removed - first.removed))

        return self._over(run, list(self.single().worst))

    def _over(self, run: Callable[..., object], start: list[float]) -> Blockings:
        case = self.case
        worst, by = list(start), [""] * len(case.spots)
        stands = [case.stands(i) for i in range(len(case.spots))]
        cut_off: list[CutOff] = []
        count = 0

        def note(block: Block, changed: dict[int, tuple[float, int, int]]) -> None:
            nonlocal count
            count += 1
            for node, (d, _, _) in changed.items():
                if d <= worst[node] or not stands[node] or node in block.removed or node in block.at_it:
                    continue
                if d < inf:
                    worst[node], by[node] = d, block.name
                    continue
                room = self._rooms.get(node)
                own = room is not None and not room.told and set(room.feet) <= block.removed
                cut_off.append(CutOff(node, block.name, own))

        run(note)
        return Blockings(tuple(worst), tuple(by), tuple(cut_off), count)
