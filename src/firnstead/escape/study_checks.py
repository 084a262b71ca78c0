"""Checks of distances, dead ends, separation, and of every spot blocked in turn."""

from __future__ import annotations

from math import inf
from typing import Any

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.escape._answers import Answers
from firnstead.escape._graph import Forest
from firnstead.escape.presets import exits_needed, separation_least
from firnstead.escape.results import PlaceEscape

Names = dict[str, Any]
CHOICE = "which preset applies is the responsible engineer's choice"


def place_checks(a: Answers, name: str, row: PlaceEscape, names: Names) -> tuple[Check, ...]:
    """All distance checks of one place."""
    return (_travel(a, row, names), _blocked(a, name, row, names), *_common_path(a, row, names),
            _dead_end(a, row, names), _separation(a, name, row, names))  # fmt: skip


def route_steps(a: Answers, forest: Forest, node: int, until: set[int] | None = None) -> tuple[Step, ...]:
    """The walk from a node to the exit (or to the first node of `until`), leg by leg, and its length."""
    spots, legs = a.case.spots, list[tuple[str, float]]()
    path = forest.route(node)
    end = spots[path[-1]].name.removeprefix("outside ")
    for here, there in zip(path, path[1:], strict=False):
        if until is not None and here in until:
            end = spots[here].name
            break
        s = a.case.stretches[forest.way[here]]
        if s.kind == "ramp" or s.length == 0:
            continue
        where = spots[there if spots[here].kind in ("building", "niche", "refuge") else here].place
        words = {"door": f"inside {spots[here].name} to its door and into the aisle"
                 if spots[here].kind in ("building", "refuge") else f"through the door of {spots[there].name}",
                 "link": f"through the link of {s.place}", "ladder": "up the ladder"}.get(
                     s.kind, f"along {where}")  # fmt: skip
        if legs and legs[-1][0] == words:
            legs[-1] = (words, legs[-1][1] + s.length)
        else:
            legs.append((words, s.length))
    steps = [Step(f"l_{i}", "", (), length, "m", "statics", text) for i, (text, length) in enumerate(legs, 1)]
    inputs = tuple((s.symbol, s.value, "m") for s in steps)
    total = sum(length for _, length in legs)
    steps.append(Step("d", " + ".join(s.symbol for s in steps), inputs, total, "m", "statics",
                      f"from {spots[node].name} to {end}") if steps
                 else Step("d", "", (), 0.0, "m", "statics", f"{spots[node].name} is there already"))  # fmt: skip
    return tuple(steps)


def limit_step(a: Answers, symbol: str, value: float, unit: str, field: str) -> Step:
    """Where a limit comes from: the preset, or the file."""
    limits = a.case.limits
    source = limits.source if field not in a.changed else "own_rule"
    text = f"{limits.name}, {limits.clause}" if field not in a.changed else "set in the file instead of the preset's"
    if field not in a.changed and field not in limits.read:
        text += " (from memory, unchecked)"
    return Step(symbol, "", (), value, unit, source, text)


def none_of(count: int, words: str) -> tuple[Step, ...]:
    """Something that there may be none of."""
    return (Step("n", "", (), float(count), "1", "statics", words),
            Step("n_1", "", (), 0.0, "1", "own_rule", "there may be none"))  # fmt: skip


def number_of(a: Answers, name: str) -> int:
    return a.numbers[name]


def _travel(a: Answers, row: PlaceEscape, names: Names) -> Check:
    say: Names = {"question": "Walk to the nearest exit", "key": "escape.travel", **names}
    if row.travel == inf:
        words = f"there is no way out from {row.travel_from}"
        return check(demand=1.0, limit=0.0, unit="1", note=words, working=none_of(1, words), **say)
    steps = route_steps(a, a.case.open, number_of(a, row.travel_from))
    limit = a.case.limits.travel
    if limit is None:
        return not_checked(reason=f"{a.case.limits.name} has no limit of the walk and the file gives none",
                           working=steps, **say)  # fmt: skip
    return check(demand=row.travel, limit=limit, unit="m",
                 note=f"{a.case.limits.name}; {CHOICE}; a ladder counts, a walk by a ramp ends in the portal",
                 working=(*steps, limit_step(a, "d_1", limit, "m", "travel")), **say)  # fmt: skip


def _blocked(a: Answers, name: str, row: PlaceEscape, names: Names) -> Check:
    say: Names = {"question": "Way out with any one spot blocked", "key": "escape.blocked", **names}
    cut = [c for c in a.single.cut_off if a.case.spots[c.node].place == name]
    certain = [c for c in cut if not c.own_door]
    if certain:
        who = list(dict.fromkeys(a.case.spots[c.node].name for c in certain))
        spots = list(dict.fromkeys(c.block for c in certain))
        lost = none_of(len(spots), f"spots that cut somebody off: {some(spots)}; cut off: {some(who)}")
        return check(demand=float(len(spots)), limit=0.0, unit="1", working=lost,
                     note=f"a fire at {some(spots, 2)} leaves {some(who, 2)} without a way out", **say)  # fmt: skip
    if cut:
        who = list(dict.fromkeys(a.case.spots[c.node].name for c in cut))
        return not_checked(
            reason=f"a fire at its only known door leaves {some(who)} without a way out; say in the kit where its "
                   "doors are (doors: near, far or both)", **say)  # fmt: skip
    steps = _blocked_steps(a, row)
    limit = a.case.blocked_travel
    if limit is None:
        return not_checked(reason=f"{a.case.limits.name} has no limit of the walk and the file gives none "
                                  "(escape.blocked_travel); nobody is cut off", working=steps, **say)  # fmt: skip
    field = "blocked_travel" if "blocked_travel" in a.changed else "travel"
    what = f"with {row.blocked_by} blocked" if row.blocked_by else "no blocked spot makes the walk longer"
    return check(
        demand=row.blocked,
        limit=limit,
        unit="m",
        working=(*steps, limit_step(a, "d_1", limit, "m", field)),
        note=f"{what}; {CHOICE}",
        **say,
    )


def _blocked_steps(a: Answers, row: PlaceEscape) -> tuple[Step, ...]:
    block = next((b for b in a.blocker.blocks if b.name == row.blocked_by), None)
    return route_steps(a, a.forest(block), number_of(a, row.blocked_from))


def _common_path(a: Answers, row: PlaceEscape, names: Names) -> tuple[Check, ...]:
    say: Names = {"question": "Walk before two ways are open", "key": "escape.common_path", **names}
    if not row.common_path_from or row.common_path == inf:
        return ()
    steps = _choice_steps(a, number_of(a, row.common_path_from))
    limit = a.case.limits.common_path
    if limit is None:
        return (not_checked(reason=f"{a.case.limits.name} has no limit of the common path and the file gives none",
                            working=steps, **say),)  # fmt: skip
    return (
        check(
            demand=row.common_path,
            limit=limit,
            unit="m",
            working=(*steps, limit_step(a, "d_1", limit, "m", "common_path")),
            note=f"{a.case.limits.name}; {CHOICE}",
            **say,
        ),
    )


def _choice_steps(a: Answers, node: int) -> tuple[Step, ...]:
    if not a.choice or a.choice_forest.distance[node] >= a.case.open.distance[node]:
        return route_steps(a, a.case.open, node)
    return route_steps(a, a.choice_forest, node)


def _dead_end(a: Answers, row: PlaceEscape, names: Names) -> Check:
    say: Names = {"question": "Dead end", "key": "escape.dead_end", **names}
    if row.dead_end == inf:
        words = f"there is no way out from {row.dead_end_at}"
        return check(demand=1.0, limit=0.0, unit="1", note=words, working=none_of(1, words), **say)
    steps = _choice_steps(a, number_of(a, row.dead_end_at))
    limit = a.case.limits.dead_end
    if limit is None:
        return not_checked(reason=f"{a.case.limits.name} has no limit of dead ends and the file gives none",
                           working=steps, **say)  # fmt: skip
    return check(
        demand=row.dead_end,
        limit=limit,
        unit="m",
        working=(*steps, limit_step(a, "d_1", limit, "m", "dead_end")),
        note=f"{a.case.limits.name}; {CHOICE}",
        **say,
    )


def _separation(a: Answers, name: str, row: PlaceEscape, names: Names) -> Check:
    say: Names = {"question": "Distance between two ways out", "key": "escape.separation", **names}
    share = a.case.limits.separation
    if share is None:
        return not_checked(
            reason=f"{a.case.limits.name} has no rule of separation in our table and the file gives none", **say
        )
    length, width = next((le, wi) for n, le, wi in a.case.places if n == name)
    least = separation_least(share, row.diagonal)
    ways = f"straight on the plan, farthest two of: {some(list(row.ways_out), 6)}" if row.ways_out else "there is none"
    steps = (
        Step("d", "", (), row.separation, "m", "statics", ways),
        Step(
            "D",
            "sqrt(l^2 + w^2)",
            (("l", length, "m"), ("w", width, "m")),
            row.diagonal,
            "m",
            "statics",
            "diagonal of the floor",
        ),
        Step(
            "d_1",
            "s D",
            (("s", share, "1"), ("D", row.diagonal, "m")),
            least,
            "m",
            "own_rule" if "separation" in a.changed else a.case.limits.source,
            "least distance",
        ),
    )
    return check(demand=row.separation, limit=least, unit="m", at_least=True, working=steps,
                 note=f"{a.case.limits.name}; {CHOICE}", **say)  # fmt: skip


def station_checks(a: Answers, names: Names) -> tuple[Check, ...]:
    """Number of exits, width of ways for the people on them, pairs, refuges."""
    people = max((hour.total for hour in a.case.hours), default=0)
    least = max(2, exits_needed(people))
    steps = (Step("P", "", (), float(people), "1", "statics", "people in the station at its fullest hour"),
             Step("n_1", "", (("P", float(people), "1"),), float(least), "1", "ibc_2021",
                  "ways out for so many people, and never fewer than two (own rule)"),
             Step("n", "", (), float(len(a.case.exits)), "1", "statics", "hatches and portals"))  # fmt: skip
    exits = check(
        question="Number of ways out",
        key="escape.exits",
        demand=float(len(a.case.exits)),
        limit=float(least),
        unit="1",
        at_least=True,
        working=steps,
        ratio=_count_ratio(len(a.case.exits), least),
        note="two ways out are the least; a number alone says nothing about where they are",
        **names,
    )
    return (exits, *_width(a, names), *_refuge(a, names), *_pairs(a, names))


def _count_ratio(have: int, least: int) -> float:
    """Whole things are enough or not: one exactly at the least holds."""
    return inf if not have else least / have * (0.9 if have >= least else 1.0)


def _width(a: Answers, names: Names) -> tuple[Check, ...]:
    each = a.case.limits.width_per_person
    if each is None:
        return ()
    worst: tuple[float, float, float, str, str] | None = None
    for hour in a.case.hours:
        forest = a.case.open
        for leg in a.timing("imo", hour.factor).legs(forest, hour.people):
            s = a.case.stretches[leg.stretch]
            if s.kind != "ladder" and (worst is None or leg.people * each / s.width > worst[0]):
                worst = (leg.people * each / s.width, leg.people, s.width, a.case.spots[leg.a].name, hour.name)
    if worst is None:
        return ()
    _, people, width, where, hour_name = worst
    steps = (
        Step("P", "", (), people, "1", "statics", f"people who leave through it at the hour {hour_name!r}"),
        Step(
            "b", "P w", (("P", people, "1"), ("w", each, "m")), people * each, "m", a.case.limits.source, "width needed"
        ),
        Step("W", "", (), width, "m", "statics", f"clear width behind {where}"),
    )
    return (
        check(
            question="Width of the ways for the people on them",
            key="escape.width",
            demand=people * each,
            limit=width,
            unit="m",
            working=steps,
            note=f"fullest way: behind {where}, with nothing blocked",
            **names,
        ),
    )


def _refuge(a: Answers, names: Names) -> tuple[Check, ...]:
    say: Names = {"question": "Room in the refuges for those without a second way", "key": "escape.refuge", **names}
    if not a.case.refuges:
        return ()
    spots = a.case.spots
    cut: dict[str, set[int]] = {}
    for c in a.single.cut_off:
        cut.setdefault(c.block, set()).add(c.node)
    most, by = 0, ""
    for hour in a.case.hours:
        for block, nodes in cut.items():
            count = sum(n for node, n in (*hour.people, *hour.injured) if node in nodes)
            if count > most:
                most, by = count, block
    room = float(sum(people for _, people, _ in a.case.refuges))
    steps = (
        Step(
            "P",
            "",
            (),
            float(most),
            "1",
            "statics",
            f"most people cut off by one blocked spot{f': {by}' if by else ''}",
        ),
        Step(
            "R",
            "",
            (),
            room,
            "1",
            "cfr_30_57",
            f"people that the refuges hold: {some([spots[n].name for n, _, _ in a.case.refuges])}",
        ),
    )
    return (
        check(
            demand=float(most),
            limit=room,
            unit="1",
            working=steps,
            note="a refuge must be tight against smoke and hold its own air, warmth, water and tools",
            **say,
        ),
    )


def _pairs(a: Answers, names: Names) -> tuple[Check, ...]:
    found = a.pairs
    if found is None:
        return ()
    inside = {room.node for room in a.case.rooms}
    bad = {c.block for c in found.cut_off if c.node in inside}
    steps = (
        Step("n", "", (), float(found.count), "1", "statics", "pairs of spots blocked together"),
        Step("n_c", "", (), float(len(bad)), "1", "statics", "pairs that leave a room without a way out"),
    )
    return (not_checked(question="Every two spots blocked together", key="escape.pairs", working=steps,
                        reason=f"no code asks for it; {len(bad)} of {found.count} pairs leave a room without a way out "
                               f"{some(sorted(bad), 3)}".strip(), **names),)  # fmt: skip


def some(names: list[str], most: int = 4) -> str:
    """The first few names, and how many more."""
    more = len(names) - most
    return ", ".join(names[:most]) + (f" and {more} more" if more > 0 else "")
