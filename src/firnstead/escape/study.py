"""Escape from a station: distances, every spot blocked in turn, times by two models, inspection, muster plans."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, not_checked
from firnstead.escape._answers import Answers
from firnstead.escape._case import Case
from firnstead.escape.results import EscapeResult, LimitSet
from firnstead.escape.study_case import case_of, limits_of
from firnstead.escape.study_checks import place_checks, station_checks
from firnstead.escape.study_items import inspection_items
from firnstead.escape.study_routes import building_of, muster_of
from firnstead.escape.study_tables import cut_off_rows, exit_rows, hour_rows, pairs_row, place_rows, worst_places
from firnstead.escape.study_times import available_check, station_times
from firnstead.station import Station
from firnstead.station.escape import Escape

Names = dict[str, Any]


def study(
    station: Station, memo: Memo | None = None, *, available: Mapping[str, Mapping[str, float]] | None = None,
    pairs: bool = False,
) -> Study:  # fmt: skip
    """Everything about getting out. `available`: seconds until a node of the walking network is lost, by fire and name
    of the node, from the fire study; `pairs`: block every two spots as well."""
    memo = memo if memo is not None else Memo()
    caution = caution_for("escape")
    names: Names = {"subject": "Station", "discipline": "escape", "place": "", "caution": caution}
    part = station.escape
    if part is None:
        return Study(
            None,
            (
                not_checked(
                    question="Escape",
                    key="escape.part",
                    reason="No `escape:` in the file: people by the hour, ladders, limits",
                    **names,
                ),
            ),
        )
    case = case_of(station, part)
    changed = limits_of(part)[1] + (("blocked_travel",) if part.blocked_travel is not None else ())
    answers: Answers = memo.get(("escape", case, changed, pairs), lambda: Answers(case, changed, pairs))
    result, checks = memo.get(
        ("escape.result", case, changed, pairs, _outlines(station)), lambda: _work_out(station, part, answers, names)
    )
    timed: list[Check] = []
    for name in station.places:
        rooms = {n: row for n, row in result.buildings.items() if row.place == name}
        timed += available_check(answers, rooms, available, {**names, **_subject(station, name)})
    every = (*checks, *timed)
    result = replace(result, worst=worst_places(every))
    return Study(result, every, inspection_items(station))


def _outlines(station: Station) -> tuple[object, ...]:
    """What muster plans need besides the case."""
    return tuple((n, b.place, b.at, b.kit, station.kits[b.kit].length, station.kits[b.kit].width)
                 for n, b in station.buildings.items())  # fmt: skip


def _subject(station: Station, name: str) -> Names:
    word = "Passage" if name in station.passages else "Trench"
    return {"subject": f'{word} "{name}"', "place": name}


def _work_out(station: Station, part: Escape, a: Answers, names: Names) -> tuple[EscapeResult, tuple[Check, ...]]:
    places = place_rows(a)
    checks: list[Check] = [*station_checks(a, names), *station_times(a, names)]
    for name, row in places.items():
        checks += place_checks(a, name, row, {**names, **_subject(station, name)})
    rooms = {a.case.spots[room.node].name: room for room in a.case.rooms}
    result = EscapeResult(
        limits=_limit_set(a.case, part, a.changed), hours=hour_rows(a), places=places,
        buildings={name: building_of(a, room) for name, room in rooms.items()}, exits=exit_rows(a),
        cut_off=cut_off_rows(a), blockings=a.single.count,
        muster={name: muster_of(a, station, name, a.numbers[name]) for name in station.buildings if name in a.numbers},
        worst=(), pairs=pairs_row(a))  # fmt: skip
    return result, tuple(checks)


def _limit_set(case: Case, part: Escape, changed: tuple[str, ...]) -> LimitSet:
    limits = case.limits
    return LimitSet(
        preset=limits.name, clause=limits.clause, travel=limits.travel, blocked_travel=case.blocked_travel,
        common_path=limits.common_path, dead_end=limits.dead_end, separation=limits.separation,
        width_per_person=limits.width_per_person, surface_time=limits.surface_time, refuge_time=limits.refuge_time,
        margin=part.margin, changed=changed)  # fmt: skip
