"""The escape study on the example stations and on variants of them."""

from __future__ import annotations

import math
import typing
from pathlib import Path

import pytest

from firnstead.core.errors import InputError
from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, Verdict, as_plain
from firnstead.core.working import evaluate
from firnstead.escape import siting, study
from firnstead.escape.presets import preset, preset_names
from firnstead.station import Station, StationFile, parse_station, read_station
from firnstead.station.escape import Escape, Preset
from house.project import ROOT

STATIONS = {name: read_station(ROOT / "examples" / "stations" / name).station for name in ("first", "full")}
FIRST, FULL = STATIONS["first"], STATIONS["full"]
MADE = {name: study(station) for name, station in STATIONS.items()}


def part_with(station: Station, **changes: object) -> Station:
    """The station with its escape part changed."""
    assert station.escape is not None
    return station.model_copy(update={"escape": station.escape.model_copy(update=changes)})


def found(made: Study, key: str, place: str = "") -> Check:
    """The check with this key, in this place if one is named."""
    return next(c for c in made.checks if c.key == f"escape.{key}" and (not place or c.place == place))


@pytest.mark.parametrize("name", STATIONS)
def test_examples_are_answered_and_nothing_fails(name: str) -> None:
    """Every place and building has its rows; nothing fails; nobody is cut off; time against smoke waits for fire."""
    made, station = MADE[name], STATIONS[name]
    result = made.result
    assert not [c for c in made.checks if c.verdict == Verdict.FAILS]
    assert set(result.places) == set(station.places)
    assert set(result.buildings) == {*station.buildings, *station.niches}
    assert set(result.muster) == set(station.buildings)
    assert set(result.exits) == {*station.hatches, *station.portals}
    assert not result.cut_off
    assert {c.verdict for c in made.checks if c.key == "escape.time"} == {Verdict.NOT_CHECKED}
    assert all(c.caution for c in made.checks)
    as_plain(result)


@pytest.mark.parametrize("name", STATIONS)
def test_workings_give_their_values(name: str) -> None:
    """Every formula gives the value beside it; demand or limit of every verdict comes out of the working."""
    for check in MADE[name].checks:
        for s in check.working:
            assert s.formula or s.text
            assert not s.formula or math.isclose(evaluate(s), s.value, rel_tol=1e-9, abs_tol=1e-12)
        if check.verdict != Verdict.NOT_CHECKED:
            values = [step.value for step in check.working]
            assert any(math.isclose(value, check.demand) for value in values), check.question
            assert any(math.isclose(value, check.limit) for value in values), check.question


def test_people_are_where_the_file_says_and_all_leave() -> None:
    """At every hour those who leave by the exits are those who are in the station, those carried left out."""
    result = MADE["full"].result
    assert [h.people for h in result.hours] == [100, 64, 102]
    for h, each in enumerate(result.hours):
        assert sum(row.people[h] for row in result.exits.values()) == each.people - each.carried
        assert sum(row.people[h] + row.carried[h] for row in result.buildings.values()) == each.people
        assert each.blocked_needed >= each.open_needed >= 1.25 * each.reaction
        assert each.guided <= each.open_needed / 1.25 - each.reaction + 1


def test_muster_plans_have_two_ways_that_share_nothing() -> None:
    """Every building of the full example has two ways out that share no node but the building."""
    for plan in MADE["full"].result.muster.values():
        assert plan.first is not None
        assert plan.second is not None
        assert plan.shared == 0
        assert not plan.note
        assert set(plan.first.nodes) & set(plan.second.nodes) == {plan.building}
        assert plan.second.length >= plan.first.length
        assert plan.first.line[0] != plan.first.line[-1]
        assert plan.refuge == "Spare quarters"


def test_routes_by_blocked_exit() -> None:
    """A hut's first route is open; for every exit it uses there is another route when that exit is blocked."""
    rows = MADE["full"].result.buildings["Hut 1"].routes
    assert rows[0].blocked == ""
    assert any(route.blocked == rows[0].exit and route.exit != rows[0].exit for route in rows)
    for route in rows:
        assert route.nodes[0] == "Hut 1"
        assert route.nodes[-1] == f"outside {route.exit}"
        for times in route.passed:
            assert list(times) == sorted(times)


def test_no_part_is_not_checked() -> None:
    """Without the part in the file the study says so and asks nothing else."""
    made = study(FIRST.model_copy(update={"escape": None}))
    assert [c.verdict for c in made.checks] == [Verdict.NOT_CHECKED]
    assert made.result is None


def test_a_missing_hatch_fails_and_says_where() -> None:
    """Without its hatch a trench is a dead end and its huts are cut off by a fire at the mouth."""
    hatches = {n: h for n, h in FULL.hatches.items() if n != "North 3 hatch"}
    made = study(FULL.model_copy(update={"hatches": hatches}))
    for key in ("blocked", "dead_end"):
        assert found(made, key, "North 3").verdict == Verdict.FAILS
        assert found(made, key, "North 2").verdict != Verdict.FAILS
    assert {row.who for row in made.result.cut_off} >= {"Hut 5", "Hut 6"}
    assert made.result.worst[0].place == "North 3"
    assert made.result.muster["Hut 5"].shared > 0
    assert made.result.muster["Hut 5"].note


def test_unknown_doors_are_not_checked_known_single_doors_fail() -> None:
    """A hut whose doors the file does not tell is not checked against fire at its door; a single door fails."""
    for doors, verdict in ((None, Verdict.NOT_CHECKED), ("near", Verdict.FAILS), ("both", Verdict.HOLDS)):
        kits = {n: k.model_copy(update={"doors": doors}) for n, k in FIRST.kits.items()}
        made = study(FIRST.model_copy(update={"kits": kits}))
        assert found(made, "blocked", "North 1").verdict == verdict


def test_ladders_without_a_trial_are_not_checked() -> None:
    """Where no ladder was measured no time holds or fails."""
    made = study(part_with(FULL, ladders={}))
    assert found(made, "ladder").verdict == Verdict.NOT_CHECKED
    assert found(made, "surface_time").verdict == Verdict.NOT_CHECKED
    smoke = {"a fire": {"Hut 1": 900.0, "North 1 hatch": 900.0}}
    assert study(part_with(FULL, ladders={}), available=smoke).checks
    assert found(study(part_with(FULL, ladders={}), available=smoke), "time", "North 1").verdict == Verdict.NOT_CHECKED


def test_time_available_decides() -> None:
    """Smoke that comes late holds, smoke at once fails, smoke on one way only sends people by the other."""
    nodes = [n for r in MADE["full"].result.buildings.values() for route in r.routes for n in route.nodes]
    for seconds, verdict in ((1e5, Verdict.HOLDS), (60.0, Verdict.FAILS)):
        made = study(FULL, available={"fire": dict.fromkeys(nodes, seconds)})
        checks = [c for c in made.checks if c.key == "escape.time"]
        assert {c.verdict for c in checks} == {verdict}
    one_way = study(FULL, available={"fire": {"North 1 hatch": 1.0}})
    check = found(one_way, "time", "North 1")
    assert check.verdict == Verdict.NOT_CHECKED or check.ratio <= 1
    away = {"fire": {"North 1 hatch": 1.0, **{n: 1e5 for n in nodes if n.startswith("Main")}}}
    assert found(study(FULL, available=away), "time", "North 1").verdict == Verdict.HOLDS


def test_every_pair_on_request() -> None:
    """With pairs asked for, the check tells how many of them leave a room without a way out."""
    made = study(FIRST, pairs=True)
    pairs = made.result.pairs
    assert pairs is not None
    assert pairs.pairs == 8 * 7 // 2
    assert pairs.rooms  # both exits of one trench closed
    assert found(made, "pairs").verdict == Verdict.NOT_CHECKED


def test_two_hatches_side_by_side_are_one() -> None:
    """A second hatch near the first does not save a trench whose mouth is far; a far one makes the walk shorter."""
    near = {**FIRST.hatches, "twin": FIRST.hatches["North 1 hatch"].model_copy(update={"at": 33.0})}
    portals: dict[str, object] = {}
    made = study(FIRST.model_copy(update={"hatches": near, "portals": portals}))
    assert found(made, "blocked", "North 1").verdict == Verdict.FAILS


def test_memo_changes_nothing() -> None:
    """With a memo the checks are the same, and a changed limit is seen."""
    memo = Memo()
    assert study(FIRST, memo).checks == study(FIRST, memo).checks == study(FIRST).checks
    tight = study(part_with(FIRST, travel=10.0), memo)
    assert found(tight, "travel", "North 1").verdict == Verdict.FAILS
    assert "travel" in tight.result.limits.changed


def test_presets_of_the_schema_are_those_of_the_table() -> None:
    """The names that the file may use are the rows of the table, and every one can be chosen."""
    assert set(typing.get_args(Preset)) == set(preset_names())
    for name in preset_names():
        made = study(part_with(FIRST, preset=name))
        assert made.result.limits.preset == name
        assert preset(name).source in {"ibc_2021", "nfpa_101_2021", "cfr_30_57"}


def test_work_items_are_rounds_and_drills() -> None:
    """Every hatch and portal has its round, doors and drills are there, each with a name of its own."""
    items = MADE["full"].work_items
    ids = [item.id for item in items]
    assert len(ids) == len(set(ids))
    assert sum(".escape.hatch" in i for i in ids) == len(FULL.hatches)
    assert sum(".escape.portal" in i for i in ids) == len(FULL.portals)
    assert {"station.escape.doors", "station.escape.drill"} <= set(ids)


def test_siting_of_the_first_station() -> None:
    """One hatch is needed beside the portal, proven, where the file has it; without any somebody has no second way."""
    told: list[str] = []
    made = siting(FIRST, lambda what, share: told.append(what))
    assert told
    assert made.proven
    assert made.count == made.bound == 1
    assert made.chosen[0].present == "North 1 hatch"
    assert not made.present_unserved
    assert not made.verified
    assert made.one_fewer_unserved


def test_siting_keeps_clear_of_what_the_rules_say() -> None:
    """No chosen hatch stands above a building, near a portal, or under what stands on the snow."""
    assert FIRST.escape is not None
    rules = FIRST.escape.siting.model_copy(update={"spacing": 2.0})
    mast = {"mast": {"centre": ["0 m", "32 m"], "radius": "2 m"}}
    part = Escape.model_validate(
        {"preset": FIRST.escape.preset, "scenarios": {"night": {"hour": "night"}}, "above": mast}
    )
    made = siting(part_with(FIRST, siting=rules, above=part.above))
    assert made.refused["under something that stands on the snow"] > 0
    assert made.refused["above a building"] > 0
    assert made.refused["too near a portal"] > 0
    for spot in made.chosen:
        assert not 29.5 < spot.at < 34.5 or spot.at > 34


def problems(text: str, beside: Path) -> str:
    """All problems of a text as one."""
    with pytest.raises(InputError) as caught:
        parse_station(text, beside)
    assert all(p.line > 1 and p.what and p.cure for p in caught.value.problems)
    return "\n".join(str(p) for p in caught.value.problems)


@pytest.mark.parametrize(
    ("written", "wrong", "said"),
    [
        ("{place: North 1, at: 31 m, kind", "{place: North 1, at: 22 m, kind", "comes down on the building"),
        ("people: {Hut 1: 4, Hut 2: 16}", "people: {Hut 1: 4, Hut 3: 16}", "Hut 2"),
        ("people: {Hut 1: 4, Hut 2: 16}", "people: {Hut 1: 0}", "nobody is anywhere"),
        ("    doors: both", "    door_width: 0 m\n    doors: both", "at least"),
        ("    doors: both", "    door_width: 0.5 m\n    doors: both", "nobody can walk from here"),
        ("      interval: 15 s", "      interval: 15", "no unit"),
        ("    standard hatch:\n      interval", "    standart hatch:\n      interval", "standard hatch"),
        ("IBC 2021 R-2, unsprinklered", "IBC 1921", "not one of the choices"),
        ("      climb_speed: 0.25 m/s", "      climb_speed: 25 m/s", "at most"),
    ],
)
def test_wrong_parts_give_their_line_and_cure(first: StationFile, written: str, wrong: str, said: str) -> None:
    """A hatch into a building, people nowhere, a door too narrow, a name to nowhere: each says how to mend it."""
    text = first.text.replace(written, wrong, 1)
    assert text != first.text
    assert said in problems(text, first.path)


def test_rooms_that_nobody_can_leave_are_refused(full: StationFile) -> None:
    """A wall without a doorway between a trench and its passage, and no hatch: its huts are named."""
    text = full.text.replace(
        "  North 1 far wall:", "  shut: {place: North 1, at: start, layers: 1}\n  North 1 far wall:", 1
    )
    text = text.replace("  North 1 hatch: {place: North 1, at: 37 m, kind: standard hatch}\n", "", 1)
    said = problems(text, full.path)
    assert "Hut 1" in said
    assert "nobody can walk from here" in said
    assert "Hut 3" not in said
