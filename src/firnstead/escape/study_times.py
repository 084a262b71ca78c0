"""Checks of time: to the snow by either of two ways, carried persons, refuges, and against what smoke leaves."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from typing import Any

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.escape import hydraulic, imo
from firnstead.escape._answers import Answers, Slowest
from firnstead.escape._case import Hour
from firnstead.escape._graph import Forest
from firnstead.escape._times import MODELS, Leg
from firnstead.escape.results import BuildingEscape
from firnstead.escape.study_checks import limit_step, none_of

Names = dict[str, Any]
Available = Mapping[str, Mapping[str, float]]
MODEL_NOTE = (
    "people go to the nearest way out; both models are for people dressed for indoors at low altitude unless the "
    "file gives a walking speed of your own"
)
NO_TRIAL = "no trial on the ladder of this kind of hatch is in the file (escape.ladders); no published rate was found"


def station_times(a: Answers, names: Names) -> tuple[Check, ...]:
    """Times of the whole station."""
    return (*_surface(a, names), *_carried(a, names), *_refuge_time(a, names), *_trials(a, names))


def _trials(a: Answers, names: Names) -> tuple[Check, ...]:
    bare = [e.name for e in a.case.exits if e.kind == "hatch" and e.climb is None]
    if not bare:
        return ()
    return (
        not_checked(
            question="Capacity of ladders and hatches",
            key="escape.ladder",
            reason=f"{NO_TRIAL}; it concerns {len(bare)} hatches: measure it with your own people in outdoor clothes",
            **names,
        ),
    )


def _surface(a: Answers, names: Names) -> tuple[Check, ...]:
    say: Names = {
        "question": "Time until all are on the snow by either of two ways",
        "key": "escape.surface_time",
        **names,
    }
    limit = a.case.limits.surface_time
    rows = [(hour, row) for hour in a.case.hours if (row := a.slowest(hour, blocked=True)) is not None]
    if not rows:
        return ()
    hour, row = max(rows, key=lambda pair: (pair[1].needed != pair[1].needed, pair[1].needed))
    if row.needed != row.needed:
        return (not_checked(reason=NO_TRIAL, **say),)
    if row.needed == inf:
        return (
            not_checked(
                reason=f"{a.case.spots[row.node].name} has no second way out: with {row.block} blocked nobody "
                "there reaches the snow; the refuge counts",
                **say,
            ),
        )
    steps = time_steps(a, hour, row)
    if limit is None:
        return (
            not_checked(
                reason=f"{a.case.limits.name} has no limit of time and the file gives none (escape.surface_time)",
                working=steps,
                **say,
            ),
        )
    return (check(demand=row.needed, limit=limit, unit="s",
                  working=(*steps, limit_step(a, "t_1", limit, "s", "surface_time")),
                  note=f"{hour.name}: {a.case.spots[row.node].name}"
                       f"{f', with {row.block} blocked' if row.block else ''}; {MODEL_NOTE}", **say),)  # fmt: skip


def _carried(a: Answers, names: Names) -> tuple[Check, ...]:
    say: Names = {"question": "Carried persons out or in a refuge", "key": "escape.carried", **names}
    rows = [(hour, found) for hour in a.case.hours if (found := a.carried(hour)) is not None]
    if not rows:
        return ()
    hour, row = max(rows, key=lambda pair: pair[1].needed)
    who = a.case.spots[row.node].name
    if row.needed == inf:
        words = f"with {row.block or 'nothing'} blocked no exit that a stretcher passes and no refuge is left for {who}"
        lost = none_of(1, words)
        return (
            check(
                demand=1.0,
                limit=0.0,
                unit="1",
                working=lost,
                note="a hatch counts only if a trial says how long one carried person takes (ladders: carried), or "
                "there is a refuge",
                **say,
            ),
        )
    case = a.case
    speed = case.carrying_speed * hour.factor
    walk, total = row.distance / speed, row.distance / speed + row.lift * row.count
    steps = (
        Step(
            "d",
            "",
            (),
            row.distance,
            "m",
            "statics",
            f"from {who} to {row.exit}{f', with {row.block} blocked' if row.block else ''}",
        ),
        Step(
            "v",
            "f v_c",
            (("f", hour.factor, "1"), ("v_c", case.carrying_speed, "m/s")),
            speed,
            "m/s",
            "own_rule",
            "speed of bearers",
        ),
        Step("t_w", "d/v", (("d", row.distance, "m"), ("v", speed, "m/s")), walk, "s", "statics", "walk"),
        Step(
            "t",
            "t_w + P t_l",
            (("t_w", walk, "s"), ("P", float(row.count), "1"), ("t_l", row.lift, "s")),
            total,
            "s",
            "statics",
            "and one after the other up the ladder",
        ),
        _needed_step(a, hour, total, row.needed),
    )
    limit = case.limits.surface_time
    if limit is None:
        return (not_checked(reason="there is no limit of time (escape.surface_time)", working=steps, **say),)
    return (
        check(
            demand=row.needed,
            limit=limit,
            unit="s",
            working=(*steps, limit_step(a, "t_1", limit, "s", "surface_time")),
            note=f"{hour.name}; bearers must be there, and know the way",
            **say,
        ),
    )


def _needed_step(a: Answers, hour: Hour, travel: float, value: float) -> Step:
    whence = "response time of the circulars, from memory, unchecked" if hour.reaction_source else "from the file"
    return Step(
        "t_n",
        "m (t_r + t)",
        (("m", a.case.margin, "1"), ("t_r", hour.reaction, "s"), ("t", travel, "s")),
        value,
        "s",
        "imo_msc_circ_1533",
        f"reaction at the hour {hour.name!r} ({whence}), travel, and the margin",
    )


def _refuge_time(a: Answers, names: Names) -> tuple[Check, ...]:
    limit = a.case.limits.refuge_time
    alone = sorted({c.node for c in a.single.cut_off if not c.own_door} & {room.node for room in a.case.rooms})
    if limit is None or not alone:
        return ()
    say: Names = {"question": "Time to a refuge without a second way", "key": "escape.refuge_time", **names}
    far = max(alone, key=lambda node: a.to_refuge.distance[node])
    d = a.to_refuge.distance[far]
    if d == inf:
        words = f"no refuge can be reached from {a.case.spots[far].name}"
        return (check(demand=1.0, limit=0.0, unit="1", note=words, working=none_of(1, words), **say),)
    slowest = min(hour.factor for hour in a.case.hours)
    free = hydraulic.speed_hydraulic(0.0) * a.timing("hydraulic", slowest).scale
    step = Step("t", "d/v", (("d", d, "m"), ("v", free, "m/s")), d / free, "s", "cfr_30_57",
                f"walk from {a.case.spots[far].name} to the nearest refuge at the slowest hour")  # fmt: skip
    return (
        check(
            demand=d / free,
            limit=limit,
            unit="s",
            working=(step, limit_step(a, "t_1", limit, "s", "refuge_time")),
            **say,
        ),
    )


def time_steps(a: Answers, hour: Hour, row: Slowest) -> tuple[Step, ...]:
    """The slower of both models, leg by leg, beside the other one's sum."""
    forest = a.forest(next((b for b in a.blocker.blocks if b.name == row.block), None))
    sums = {"hydraulic": row.hydraulic.total, "imo": imo.travel_time_imo(row.imo.total)}
    model = max(MODELS, key=lambda name: sums[name])
    other = next(name for name in MODELS if name != model)
    trip = row.hydraulic if model == "hydraulic" else row.imo
    key = "sfpe_handbook_59" if model == "hydraulic" else "imo_msc_circ_1238"
    legs = _path_legs(a, forest, hour, row.node, model)
    steps = _walk_steps(a, legs, model, key)
    walks = tuple((s.symbol, s.value, "s") for s in steps if s.symbol.startswith("t_"))
    steps.append(Step("t_w", " + ".join(n for n, _, _ in walks), walks, trip.walk, "s", key, "walk"))
    steps += _queue_steps(a, legs, hour, model)
    total = [("t_w", trip.walk, "s"), ("t_q", trip.queue, "s")]
    travel = sums[model]
    if model == "imo":
        steps.append(Step("t", "(c + g) (t_w + t_q)", (("c", 2.0, "1"), ("g", 0.3, "1"), *total), travel, "s", key,
                          "correction and counterflow"))  # fmt: skip
    else:
        steps.append(Step("t", "t_w + t_q", tuple(total), travel, "s", key, "travel"))
    word = {"hydraulic": "hydraulic model", "imo": "simplified method of the circulars, correction included"}[other]
    steps.append(Step("t_o", "", (), sums[other], "s", "imo_msc_circ_1238" if other == "imo" else "sfpe_handbook_59",
                      f"the same by the {word}: the longer of both is taken"))  # fmt: skip
    steps.append(_needed_step(a, hour, travel, row.needed))
    return tuple(steps)


def _path_legs(a: Answers, forest: Forest, hour: Hour, node: int, model: str) -> list[Leg]:
    """The legs of one person's way. People by other exits make no difference, so all are walked at once."""
    by_start = {leg.a: leg for leg in a.timing(model, hour.factor).legs(forest, hour.people)}
    return [by_start[i] for i in forest.route(node) if i in by_start]


def _walk_steps(a: Answers, legs: list[Leg], model: str, key: str) -> list[Step]:
    """Walking times; legs of the same kind and speed that follow each other are one step."""
    rows: list[list[Any]] = []
    for leg in legs:
        s = a.case.stretches[leg.stretch]
        words = f"{s.kind} of {a.case.spots[leg.a].place}, {s.width:.2f} m wide"
        if rows and rows[-1][0] == words and abs(rows[-1][2] - leg.speed) < 1e-9:
            rows[-1][1] += s.length
            rows[-1][3] += leg.walk
        elif s.length > 0:
            rows.append([words, s.length, leg.speed, leg.walk, leg.flow])
    steps = []
    for i, (words, length, speed, walk, flow) in enumerate(rows, 1):
        text = f"{words}; {flow:.2f} persons/s"
        steps.append(
            Step(f"t_{i}", f"l_{i}/v_{i}", ((f"l_{i}", length, "m"), (f"v_{i}", speed, "m/s")), walk, "s", key, text)
        )
    return steps


def _queue_steps(a: Answers, legs: list[Leg], hour: Hour, model: str) -> list[Step]:
    """The longest queue on the way: what passes there, and how many."""
    if not legs:
        return [Step("t_q", "", (), 0.0, "s", "statics", "no queue")]
    leg = max(legs, key=lambda each: each.queue)
    s, timing = a.case.stretches[leg.stretch], a.timing(model, hour.factor)
    rate = timing.rate(leg.stretch, s.a == leg.a)
    if rate.row == "ladder":
        interval = hour.factor / rate.capacity
        flow = Step("F_c", "f/t_i", (("f", hour.factor, "1"), ("t_i", interval, "s")), rate.capacity, "1/s", "statics",
                    f"trial on the ladder: {_measured(a, leg)}")  # fmt: skip
    elif model == "hydraulic":
        layer = hydraulic.BOUNDARY[s.kind]
        flow = Step("F_c", "k/(4 a) (W - 2 b)", (("k", rate.k, "m/s"), ("a", hydraulic.A, "m2"), ("W", s.width, "m"),
                    ("b", layer, "m")), rate.capacity, "1/s", "sfpe_handbook_59", f"{s.kind} of {s.place}")  # fmt: skip
    else:
        most = rate.capacity / s.width
        flow = Step("F_c", "F_s W", (("F_s", most, "1/m/s"), ("W", s.width, "m")), rate.capacity, "1/s",
                    "imo_msc_circ_1238", f"{s.kind} of {s.place}")  # fmt: skip
    return [
        flow,
        Step(
            "t_q",
            "P/F_c",
            (("P", leg.people, "1"), ("F_c", rate.capacity, "1/s")),
            leg.queue,
            "s",
            flow.source,
            "longest queue on the way",
        ),
    ]


def _measured(a: Answers, leg: Leg) -> str:
    return next((e.climb.measured for e in a.case.exits if e.base == leg.a and e.climb is not None), "")


def available_check(
    a: Answers, rooms: Mapping[str, BuildingEscape], available: Available | None, names: Names
) -> tuple[Check, ...]:
    """Time needed against the time that smoke leaves, for the rooms of one place: on the best of their ways, at the
    node where the two are closest; the worst room, hour and fire."""
    say: Names = {"question": "Time to get out against the time that smoke leaves", "key": "escape.time", **names}
    used = {name: row for name, row in rooms.items() if any(row.people)}
    if not used:
        return ()
    steps = _slowest_steps(a, used)
    if available is None:
        return (not_checked(reason="the time available comes from the fire study", working=steps, **say),)
    worst: tuple[float, float, float, str] | None = None
    for fire, limits in available.items():
        for name, row in used.items():
            for h, hour in enumerate(a.case.hours):
                if row.people[h]:
                    found = _best_route(row, h, limits)
                    if found[0] != found[0]:
                        return (not_checked(reason=NO_TRIAL, working=steps, **say),)
                    if worst is None or found[0] > worst[0]:
                        worst = (
                            found[0],
                            found[1],
                            found[2],
                            f"{name} at the hour {hour.name!r}, fire {fire!r}: {found[3]}",
                        )
    if worst is None or worst[2] == inf:
        return (not_checked(reason="the fire study gives no time for any way out from here", working=steps, **say),)
    ratio, needed, limit, words = worst
    if needed == inf:
        return (not_checked(reason=f"{words}: there is no way out", working=steps, **say),)
    steps = (
        Step("t_n", "", (), needed, "s", "imo_msc_circ_1533", f"{words}; reaction, queue, walk so far and margin"),
        Step("t_a", "", (), limit, "s", "statics", "after the start of the fire that spot is lost (fire study)"),
    )
    return (check(demand=needed, limit=limit, unit="s", ratio=ratio, working=steps,
                  note=f"people must take the way that is still open; {MODEL_NOTE}", **say),)  # fmt: skip


def _best_route(row: BuildingEscape, hour: int, limits: Mapping[str, float]) -> tuple[float, float, float, str]:
    """Ratio, time needed and available where they are closest, on the best of a room's ways."""
    best = (inf, inf, 0.0, "no way out")
    for route in row.routes:
        times = route.passed[hour]
        rows = [
            (t / limits[n] if limits[n] > 0 else inf, t, limits[n], n)
            for n, t in zip(route.nodes, times, strict=False)
            if n in limits
        ]
        if not times:
            continue
        worst = max(rows, default=(0.0, times[-1], inf, route.nodes[-1]), key=lambda r: (r[0] != r[0], r[0]))
        if worst[0] != worst[0]:
            return (worst[0], worst[1], worst[2], "")
        if worst[0] < best[0] or best[1] == inf:
            best = (worst[0], worst[1], worst[2], f"by {route.exit}, at {worst[3]}")
    return best


def _slowest_steps(a: Answers, rooms: Mapping[str, BuildingEscape]) -> tuple[Step, ...]:
    nodes = {a.numbers[name] for name in rooms}
    found = [(hour, row) for hour in a.case.hours for (name, _), times in a.times.items() if name == hour.name
             for node, row in times.rows.items() if node in nodes and row.needed < inf]  # fmt: skip
    if not found:
        return ()
    hour, row = max(found, key=lambda pair: pair[1].needed)
    return time_steps(a, hour, row)
