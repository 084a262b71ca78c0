"""Small networks and stations that the tests of escape share."""

from __future__ import annotations

import random
from dataclasses import replace

from firnstead.escape._case import Case, Climb, Exit, Hour, Room, Spot, Stretch
from firnstead.escape.presets import Limits

LIMITS = Limits("ours", "own_rule", "test", "", travel=60.0, common_path=20.0, dead_end=6.0, separation=0.5)


def corridor(lengths: list[float], exits: list[int], width: float = 3.0, *, ladder: bool = False) -> Case:
    """A straight corridor of points with ways of these lengths and exits at some of them."""
    n = len(lengths) + 1
    at = [sum(lengths[:i]) for i in range(n)]
    spots = [Spot(f"p{i}", "C", "point", at[i], 0.0, -6.0, at[i]) for i in range(n)]
    ways = [Stretch(i, i + 1, length, width, 0.0, "passage", "C") for i, length in enumerate(lengths)]
    return with_exits(spots, ways, exits, sum(lengths), width, ladder=ladder)


def with_exits(
    spots: list[Spot], ways: list[Stretch], feet: list[int], length: float, width: float, *, ladder: bool = False
) -> Case:
    """Put exits at some points; their ladders or doors have no length."""
    outs = []
    for k, foot in enumerate(feet):
        base, out = len(spots), len(spots) + 1
        kind = "hatch" if ladder else "portal"
        spots.append(replace(spots[foot], name=f"e{k}", kind=kind))
        spots.append(replace(spots[foot], name=f"outside e{k}", kind="outside", z=0.0))
        ways.append(Stretch(foot, base, 0.0, width, 0.0, "passage", "C"))
        ways.append(
            Stretch(
                base, out, 6.0 if ladder else 0.0, width, 90.0 if ladder else 0.0, "ladder" if ladder else "ramp", "C"
            )
        )
        climb = Climb(10.0, 0.5, None, "trial") if ladder else None
        outs.append(Exit(f"e{k}", kind, out, base, foot, climb))
    return Case(
        spots=tuple(spots), stretches=tuple(ways), exits=tuple(outs), rooms=(), hours=(), refuges=(), limits=LIMITS,
        blocked_travel=60.0, margin=1.25, least_width=0.6, walking_speed=None, carrying_speed=0.4, apart=0.5,
        places=(("C", length, width),))  # fmt: skip


def random_case(seed: int, nodes: int = 14, ways: int = 18, exits: int = 3) -> Case:
    """A connected random network with different lengths, so that shortest ways are unique."""
    rng = random.Random(seed)
    spots = [Spot(f"p{i}", "C", "point", rng.uniform(0, 50), rng.uniform(0, 50), -6.0, float(i)) for i in range(nodes)]
    pairs = {(rng.randrange(i), i) for i in range(1, nodes)}
    while len(pairs) < ways:
        a, b = sorted(rng.sample(range(nodes), 2))
        pairs.add((a, b))
    stretches = [Stretch(a, b, rng.uniform(1, 20), rng.uniform(1, 4), 0.0, "passage", "C") for a, b in sorted(pairs)]
    return with_exits(spots, stretches, rng.sample(range(nodes), exits), 50.0, 3.0)


def hour(people: dict[int, int], **more: object) -> Hour:
    """An hour with people at nodes."""
    base = Hour("h", "test", 0.0, "", 1.0, tuple(people.items()), ())
    return replace(base, **more)


def rooms_at(case: Case, *feet: tuple[int, ...]) -> Case:
    """Add rooms, each with a way of 5 m to every one of its feet."""
    spots, ways, rooms = list(case.spots), list(case.stretches), []
    for k, doors in enumerate(feet):
        node = len(spots)
        spots.append(Spot(f"room {k}", "C", "building", 0.0, 0.0, -6.0, 0.0))
        ways += [Stretch(node, foot, 5.0, 0.9, 0.0, "door", "C") for foot in doors]
        rooms.append(Room(node, doors, told=True))
    return replace(case, spots=tuple(spots), stretches=tuple(ways), rooms=tuple(rooms))
