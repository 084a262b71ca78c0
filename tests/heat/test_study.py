"""The heat study on the example stations and on variants of them."""

import math
from collections import Counter

import pytest

from firnstead import heat, snow
from firnstead.core.memo import Memo
from firnstead.core.results import Verdict
from firnstead.core.working import evaluate
from firnstead.heat.envelope import HUT_MEASURED
from firnstead.heat.march import march
from firnstead.heat.numbers import numbers_of
from firnstead.heat.study_case import case_of, groups_of, snowfield
from firnstead.heat.study_change import remedies_for
from firnstead.station.heat import AirWell
from firnstead.station.reader import read_station
from house.project import ROOT

STATIONS = {name: read_station(ROOT / "examples" / "stations" / name).station for name in ("first", "full")}
SNOW = {name: snow.study(station).result for name, station in STATIONS.items()}
MEMO = Memo()
MADE = {name: heat.study(station, SNOW[name], MEMO) for name, station in STATIONS.items()}
FIRST = STATIONS["first"]
ZERO = (0.0,) * 12


def with_heat(**changes):
    """The first station with its heat part changed."""
    return FIRST.model_copy(update={"heat": FIRST.heat.model_copy(update=changes)})


def with_gap(**changes):
    """The first station with the gap below its huts changed."""
    envelope = FIRST.heat.envelopes["sleeping hut"]
    gap = envelope.gap.model_copy(update=changes)
    return with_heat(envelopes={"sleeping hut": envelope.model_copy(update={"gap": gap})})


def made_of(station, **more):
    """Its study, with the answers of the snow shared."""
    return heat.study(station, SNOW["first"], MEMO, **more)


def found(made, key):
    """The first check with this key."""
    return next(c for c in made.checks if c.key == f"heat.{key}")


@pytest.mark.parametrize("name", STATIONS)
def test_workings_give_their_values(name):
    """Every formula gives the value beside it; demand or limit of every verdict comes out of the working."""
    checks = MADE[name].checks
    for check in checks:
        for s in check.working:
            assert s.formula or s.text
            assert not s.formula or math.isclose(evaluate(s), s.value, rel_tol=1e-9, abs_tol=1e-9)
        if check.verdict != Verdict.NOT_CHECKED:
            assert {check.demand, check.limit} & {step.value for step in check.working}
        assert check.caution


@pytest.mark.parametrize("name", STATIONS)
def test_everything_is_answered(name):
    """Every place and building has its row and its checks; nothing fails in an example; work has names of its own."""
    made, station = MADE[name], STATIONS[name]
    assert not [c for c in made.checks if c.verdict == Verdict.FAILS]
    assert set(made.result.air) == set(made.result.air_years) == set(station.places)
    assert set(made.result.demand) == set(station.buildings)
    count = Counter(c.key for c in made.checks)
    assert count["heat.limit"] == len(station.places)
    assert count["heat.snow_floor"] == count["heat.heating"] == len(station.buildings)
    ids = [item.id for item in made.work_items]
    assert len(ids) == len(set(ids))
    assert all(item.mass > 0 or item.note for item in made.work_items)


def test_the_working_ends_at_the_air_of_the_march():
    """The temperature worked out by hand from the balance is the one of the march."""
    for name, made in MADE.items():
        for check in (c for c in made.checks if c.key == "heat.limit"):
            assert check.demand == pytest.approx(made.result.places[check.place].warmest, abs=2e-3), name


def test_rows_begin_in_january():
    """The trench is coldest in the dark half of the year and the demand follows; bounds enclose the expected air."""
    result = MADE["full"].result
    for name, row in result.air.items():
        assert len(row) == 12
        assert max(range(12), key=row.__getitem__) in range(5, 11)  # a still cold store lags by months
        assert all(low - 1e-9 <= t <= high + 1e-9 for low, t, high in
                   zip(result.air_low[name], row, result.air_high[name], strict=True))  # fmt: skip
    assert max(range(12), key=result.surface.__getitem__) == 6


def test_without_the_part_one_question_is_not_checked():
    """A station without heat goes on to work, with one open question."""
    made = heat.study(FIRST.model_copy(update={"heat": None}), SNOW["first"])
    assert [c.verdict for c in made.checks] == [Verdict.NOT_CHECKED]
    assert made.result is None
    assert not made.work_items


def test_a_kit_without_envelope_is_not_checked():
    """Buildings of which nothing is known are named, and do not hold."""
    made = made_of(with_heat(envelopes={}))
    assert {c.verdict for c in made.checks if c.key == "heat.building"} == {Verdict.NOT_CHECKED}
    assert not [c for c in made.checks if c.key == "heat.snow_floor"]


def test_memo_changes_nothing():
    """With and without a memo the answers are the same."""
    assert heat.study(FIRST, SNOW["first"]) == MADE["first"]


def test_closed_gap_fails_with_a_reason():
    """A closed gap warms the snow past its limit, and the check says what would help."""
    check = found(made_of(with_gap(kind="closed", flow=0.0)), "snow_floor")
    assert check.verdict == Verdict.FAILS
    assert check.reason


@pytest.mark.parametrize(
    "changes", [{"kind": "outside air", "flow": 0.3}, {"kind": "well air", "flow": 0.3, "supply_temperature": 250.0},
                {"kind": "closed", "flow": 0.0}, {"height": 0.2}], ids=str)  # fmt: skip
def test_workings_of_every_gap(changes):
    """Every kind of gap has a working that gives its values."""
    for check in made_of(with_gap(**changes)).checks:
        for s in check.working:
            assert not s.formula or math.isclose(evaluate(s), s.value, rel_tol=1e-9, abs_tol=1e-9)


def test_gains_warm_the_place():
    """Heat of pipes and engines in a place warms its air in every month."""
    plain, more = MADE["first"].result, made_of(FIRST, gains={"North 1": (2000.0,) * 12}).result
    assert all(b > a for a, b in zip(plain.air["North 1"], more.air["North 1"], strict=True))


def test_waste_heat_saves_fuel():
    """Waste heat is used first, never more than there is nor than is wanted, and saves fuel."""
    station, result = STATIONS["full"], MADE["full"].result
    waste = (20e3,) * 6 + (500e3,) * 6
    with_waste = heat.study(station, SNOW["full"], MEMO, waste=waste).result
    wanted = [sum(row[m] for row in result.demand.values()) for m in range(12)]
    assert all(u <= w + 1e-6 for u, w in zip(with_waste.waste_used, waste, strict=True))
    assert with_waste.waste_used[11] == pytest.approx(min(120e3, wanted[11]))
    assert sum(with_waste.fuel) < sum(result.fuel)
    assert result.waste_used == ZERO


def test_too_small_a_heater_fails():
    """A heater below the peak fails; none at all is not checked."""
    small = {n: h.model_copy(update={"output": 500.0}) for n, h in FIRST.heat.heaters.items()}
    assert found(made_of(with_heat(heaters=small)), "heating").verdict == Verdict.FAILS
    assert found(made_of(with_heat(heaters={})), "heating").verdict == Verdict.NOT_CHECKED


def test_a_limit_below_the_snow_fails():
    """No trench is colder than undisturbed snow all year."""
    assert found(made_of(with_heat(limit=FIRST.site.mean_temperature - 1.0)), "limit").verdict == Verdict.FAILS


def test_what_to_change_is_enough():
    """The cold air that is asked for, put into the file, brings the warmest month near or below the limit."""
    bare = FIRST.heat.place.model_copy(update={"wells": ()})
    heat_part = with_heat(place=bare).heat
    groups = groups_of(FIRST, heat_part)
    case = case_of(FIRST, heat_part, groups)
    field = snowfield(FIRST, SNOW["first"], heat_part, groups, case.climate, MEMO)
    before = numbers_of(case, field, (), None)
    remedies, steps = remedies_for(before, 0)
    cold = next(r for r in remedies if r.unit == "m3/s")
    supply = case.climate.mean + 4.0
    well = AirWell(flow=f"{cold.amount} m3/s", supply_temperature=f"{supply} K", casing="5 m", fan_power="0 W")
    with_well = with_heat(place=bare.model_copy(update={"wells": (well,)})).heat
    after = march(case_of(FIRST, with_well, groups), field)
    limit = case.places[0].limit
    assert before.march.air[:, 0].max() > limit + 1.0
    assert limit - 2.0 < after.air[:, 0].max() < limit + 0.3
    assert all(math.isclose(evaluate(s), s.value, rel_tol=1e-9) for s in steps if s.formula)


def test_the_measured_hut_in_si():
    """0.158 Btu/(h ft2 degF) is 0.90 W/(m2 K)."""
    assert pytest.approx(0.897, abs=0.001) == HUT_MEASURED


def test_parts_go_on_the_packing_list():
    """Ducts, wells and heaters with a part take it from the packing list; boards put on at the site weigh something."""
    items = MADE["full"].work_items
    parts = Counter()
    for item in items:
        for part, pieces in item.parts:
            parts[part] += pieces
    assert parts["boiler"] == 2
    assert parts["air well"] >= len(STATIONS["full"].trenches) - 2
    boards = [i for i in items if i.id.endswith(".heat.floor_4")]
    assert len(boards) == sum(b.kit == "sleeping hut" for b in STATIONS["full"].buildings.values())
    kit = STATIONS["full"].kits["sleeping hut"]
    assert boards[0].mass == pytest.approx(kit.length * kit.width * 0.05 * 35.0)
