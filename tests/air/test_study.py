"""The air study on the example stations and on variants of them."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firnstead import snow
from firnstead.air import NoAir, study
from firnstead.air.case import OUTSIDE
from firnstead.air.properties import AIR_MOLAR_MASS
from firnstead.air.study import facts
from firnstead.air.study_rooms import air_case, free_area
from firnstead.core.memo import Memo
from firnstead.core.results import Verdict
from firnstead.core.working import evaluate
from firnstead.station.reader import read_station
from house.project import ROOT

STATIONS = {name: read_station(ROOT / "examples" / "stations" / name).station for name in ("first", "full")}
SNOW = {name: snow.study(station).result for name, station in STATIONS.items()}
FIRST = STATIONS["first"]
MADE = {name: study(station, SNOW[name]) for name, station in STATIONS.items()}


def changed(station=FIRST, **fields):
    """The station with its air part changed."""
    return station.model_copy(update={"air": station.air.model_copy(update=fields)})


def changed_fan(**fields):
    """The first station with its fan changed."""
    name, fan = next(iter(FIRST.air.fans.items()))
    return changed(fans={name: fan.model_copy(update=fields)})


def found(made, key, subject=""):
    """Checks with a key, of a subject."""
    return [c for c in made.checks if c.key == f"air.{key}" and subject in c.subject]


def co2(station, name="Hut 1"):
    """Carbon dioxide of a building in its worst month."""
    return facts(station, station.air).worst[name].share


@pytest.mark.parametrize("name", STATIONS)
def test_workings_give_their_values(name):
    """Every formula gives the value beside it; demand or limit of every verdict comes out of the working."""
    for check in MADE[name].checks:
        for s in check.working:
            assert s.formula or s.text
            if s.formula:
                assert math.isclose(evaluate(s), s.value, rel_tol=1e-9, abs_tol=1e-15), (check.key, s.symbol)
        if check.verdict != Verdict.NOT_CHECKED:
            values = [step.value for step in check.working]
            assert any(math.isclose(d, v, rel_tol=1e-9) for d in (check.demand, check.limit) for v in values), check.key
        assert check.caution


@pytest.mark.parametrize("name", STATIONS)
def test_nothing_fails_in_an_example(name):
    """The examples are designed well, and every room with people has its three answers."""
    made = MADE[name]
    assert not [c for c in made.checks if c.verdict == Verdict.FAILS]
    for key in ("fresh", "co2", "stopped"):
        assert len(found(made, key)) == len(made.result.rooms)
    assert made.result.left_over < 1e-6
    ids = [item.id for item in made.work_items]
    assert len(ids) == len(set(ids))
    assert all(item.mass >= 0 and item.hours >= 0 for item in made.work_items)


@pytest.mark.parametrize("name", STATIONS)
def test_no_air_is_lost_in_any_room(name):
    """In every month what comes into a room goes out of it again."""
    f = facts(STATIONS[name], STATIONS[name].air)
    for month in f.months:
        rest = np.zeros(len(f.case.rooms) + 1)
        np.add.at(rest, month.b, month.flow)
        np.subtract.at(rest, month.a, month.flow)
        assert np.abs(rest[:-1]).max() < 1e-6
        assert rest[OUTSIDE] == pytest.approx(0.0, abs=1e-4)  # what keeps tight rooms solvable, all rooms together


@pytest.mark.parametrize("name", STATIONS)
def test_no_gas_is_lost(name):
    """In the long run the carbon dioxide that leaves the station is what the people in it breathe out."""
    f = facts(STATIONS[name], STATIONS[name].air)
    month = f.months[0]
    shares = np.vstack([f.co2[0], np.full(len(f.hours), f.air.outdoor_co2)])
    source, target = np.where(month.flow > 0, month.a, month.b), np.where(month.flow > 0, month.b, month.a)
    outward = (target == OUTSIDE).astype(float) - (source == OUTSIDE)
    leaving = (np.abs(month.flow) * outward) @ shares[source]
    expected = f.people_by_room.sum(axis=0) * f.moles * AIR_MOLAR_MASS
    assert leaving == pytest.approx(expected, rel=1e-4)


def test_station_without_air_goes_on():
    """Without an air part there is one check that says so."""
    made = study(FIRST.model_copy(update={"air": None}), SNOW["first"])
    assert isinstance(made.result, NoAir)
    assert [c.verdict for c in made.checks] == [Verdict.NOT_CHECKED]


@settings(max_examples=12)
@given(st.floats(0.15, 2.0), st.floats(1.02, 3.0))
def test_more_fresh_air_never_raises_carbon_dioxide(flow, more):
    """A larger fan, or a larger exchange of the huts, never makes the air of a hut fouler."""
    assert co2(changed_fan(flow=flow * more)) <= co2(changed_fan(flow=flow)) * (1 + 1e-9)
    kits = {name: kit.model_copy(update={"supply": kit.supply * more}) for name, kit in FIRST.air.kits.items()}
    assert co2(changed(kits=kits)) <= co2(FIRST) * (1 + 1e-9)


@settings(max_examples=12)
@given(st.integers(0, 15), st.sampled_from(["Hut 1", "Hut 2"]))
def test_one_more_person_never_lowers_carbon_dioxide(people, where):
    """Another sleeper in either hut makes the air of no hut better."""

    def with_people(count):
        building = FIRST.buildings[where].model_copy(update={"people": count})
        return FIRST.model_copy(update={"buildings": {**FIRST.buildings, where: building}})

    before, after = (facts(s, s.air) for s in (with_people(people), with_people(people + 1)))
    for name in before.worst:
        assert after.worst[name].share >= before.worst[name].share * (1 - 1e-12)


def test_a_hut_comes_to_the_closed_form():
    """Two huts that draw from one trench with one fan come to the shares of the two-step dilution."""
    f = facts(FIRST, FIRST.air)
    w = f.worst["Hut 1"]
    month = f.months[w.month]
    cell = next(e.other for e in f.case.exchanges if e.room == w.room)
    supplied = next(e.flow for e in f.case.exchanges if e.room == w.room) * float(month.density[cell])
    given_off = w.people * w.hour.effort * f.moles * AIR_MOLAR_MASS
    expected = float(f.co2[w.month, cell, 0]) + given_off / supplied
    assert w.mean == pytest.approx(expected, rel=1e-3)


def test_draught_turns_in_summer():
    """With surface air warmer than the trench a vent without a fan runs downward, in winter upward."""
    air = FIRST.air
    vents = {"low": air.vents["North 1 vent"].model_copy(update={"top": 0.5}),
             "high": air.vents["North 1 vent"].model_copy(update={"top": 6.0, "duty": "out"})}  # fmt: skip
    station = changed(fans={}, vents=vents)
    rows = {"North 1": (FIRST.site.mean_temperature,) * 12}
    made = study(station, SNOW["first"], temperatures=rows)
    flow = made.result.vents["high"].flow
    assert flow[0] > 0 > flow[6]
    assert made.result.vents["high"].draught[0] > 0 > made.result.vents["high"].draught[6]
    check = found(made, "draught", "high")[0]
    assert check.verdict == Verdict.FAILS
    damped = {**vents, "high": vents["high"].model_copy(update={"shut_when_warmer": True})}
    made = study(changed(fans={}, vents=damped), SNOW["first"], temperatures=rows)
    assert found(made, "draught", "high")[0].verdict == Verdict.HOLDS
    assert any(made.result.vents["high"].shut)


def test_a_room_that_no_air_reaches_fails():
    """Without fan, vent and own ventilation nothing reaches the huts, and the gas has no end."""
    made = study(changed(fans={}, vents={}, doors={}, kits={}), SNOW["first"])
    for key in ("fresh", "co2"):
        assert {c.verdict for c in found(made, key)} == {Verdict.FAILS}


def test_thin_air_weakens_a_fan():
    """At half the pressure of the air a fan moves about the same volume and half the mass."""
    thick, thin = (facts(s, s.air) for s in (changed(station_pressure=100000.0), changed(station_pressure=50000.0)))
    mass = [float(min(m.fans[0] for m in f.months)) for f in (thick, thin)]
    assert mass[1] == pytest.approx(mass[0] / 2, rel=0.05)


def test_people_stand_longer_in_a_larger_room():
    """Time to bad air grows with the air in the room and falls with the people in it."""
    full = MADE["full"]
    hut, hall = (found(full, "stopped", f'"{name}"')[0] for name in ("Hut 1", "Laboratory 1"))
    assert hut.limit > hall.limit  # sleepers must be woken
    rows = [r for r in full.result.stopped if r.room == "Hut 1"]
    assert all(r.time_open > r.time for r in rows)
    assert {r.gas for r in rows} == {"co2", "oxygen"}


def test_missing_figures_are_not_checked():
    """Without a maker's carbon monoxide, a set point's limit or an engineer's distance there is no verdict."""
    air = STATIONS["full"].air
    engines = {name: e.model_copy(update={"co": None}) for name, e in air.engines.items()}
    station = changed(STATIONS["full"], engines=engines, exhaust_distance=None)
    made = study(station, SNOW["full"])
    assert {c.verdict for c in found(made, "engine_co")} == {Verdict.NOT_CHECKED}
    assert {c.verdict for c in found(made, "fumes_people")} == {Verdict.NOT_CHECKED}
    assert not found(made, "exhaust")
    assert {c.verdict for c in found(made, "exhaust_dilution")} == {Verdict.NOT_CHECKED}


def test_detectors_are_compared_with_the_limits():
    """A set point above the limit fails, a missing detector in a sleeping hut fails, an unknown cold is not checked."""
    air = STATIONS["full"].air
    alarms = dict(air.alarms)
    del alarms["Hut 3 detector"]
    alarms["Hut 1 detector"] = alarms["Hut 1 detector"].model_copy(update={"set_point": 400e-6})
    alarms["Main detector"] = alarms["Main detector"].model_copy(update={"coldest": None})
    made = study(changed(STATIONS["full"], alarms=alarms), SNOW["full"])
    assert found(made, "alarm", "Hut 1 detector")[0].verdict == Verdict.FAILS
    cover = found(made, "alarm_cover")[0]
    assert cover.verdict == Verdict.FAILS
    assert "Hut 3" in cover.reason
    assert found(made, "alarm_cold", "Main detector")[0].verdict == Verdict.NOT_CHECKED


def test_a_vehicle_that_runs_longer_fouls_its_place_more():
    """Peak and mean grow with the running time; a mean is never above the peak."""
    air = STATIONS["full"].air
    name = "Tractor in the garage"
    longer = {**air.vehicles, name: air.vehicles[name].model_copy(update={"runs": 3600.0})}
    before = MADE["full"].result.vehicles[name]
    after = study(changed(STATIONS["full"], vehicles=longer), SNOW["full"]).result.vehicles[name]
    assert after.peak > before.peak
    assert after.mean > before.mean
    assert before.mean <= before.peak == max(before.curve)
    assert after.cohb > before.cohb


def test_wind_moves_air_through_openings():
    """Wind on one opening and suction on another bring more air through the station."""
    doors = {name: d.model_copy(update={"wind_coefficient": 0.6}) for name, d in FIRST.air.doors.items()}
    still, windy = (
        facts(s, s.air).through["North 1"][0]
        for s in (changed(fans={}, doors=doors), changed(fans={}, doors=doors, wind_speed=15.0))
    )
    assert windy > still


def test_an_open_door_joins_trench_and_passage():
    """A shut door leaves its gaps as the only way between a trench and its passage."""
    full = STATIONS["full"]
    joints = {h.name: h.area for h in air_case(full, full.air, 70000.0).holes if h.kind == "joint"}
    shut, link = joints["Main to Plant 1"], full.trenches["North 1"].link
    assert shut == pytest.approx(0.6 * full.air.doors["Plant 1"].leakage)
    assert joints["Main to North 1"] == pytest.approx(0.6 * link.width * link.height)


def test_rooms_hold_the_air_of_the_place():
    """Stretches and buildings together hold no more than the clear cross-section times the length."""
    full = STATIONS["full"]
    case = air_case(full, full.air, 70000.0)
    for name, place in full.trenches.items():
        held = sum(r.volume for r in case.rooms if r.place == name and not r.building)
        kits = [full.kits[b.kit] for b in full.buildings.values() if b.place == name]
        taken = sum(k.length * k.width * k.height for k in kits)
        assert held == pytest.approx(free_area(full, place) * place.length - taken, rel=1e-6)


def test_an_edit_of_another_part_is_not_solved_again():
    """With a memo the year and the standing fans are taken from it."""
    memo = Memo()
    first = study(FIRST, SNOW["first"], memo)
    f1, f2 = facts(FIRST, FIRST.air, memo), facts(FIRST, FIRST.air, memo)
    assert f1.months is f2.months
    assert study(FIRST, SNOW["first"], memo).checks == first.checks


def test_a_fan_that_stands_is_answered():
    """For every fan there is an answer to what happens while it stands, and it is never better than with it."""
    made = MADE["full"]
    rows = found(made, "fan_stands")
    assert len(rows) == len(STATIONS["full"].air.fans)
    best = max(1e6 * max(room.co2) for room in made.result.rooms.values())
    assert all(c.demand > 0 for c in rows)
    assert max(c.demand for c in rows) > best


def test_hours_of_the_escape_part_count():
    """People by the hour in the escape part are hours of the air study too, asleep or at work."""
    full = STATIONS["full"]
    f = facts(full, full.air)
    for name, scenario in full.escape.scenarios.items():
        if sum(scenario.people.values()):
            hour = next(h for h in f.hours if h.name == name)
            assert sum(count for _, count in hour.people) == sum(scenario.people.values())
            assert hour.asleep == scenario.asleep


def test_limits_of_the_list_are_shown_where_none_is_chosen():
    """Without limits in the file the published list answers, and every answer says that nobody chose it."""
    made = study(changed(limits={}), SNOW["first"])
    assert found(made, "co2")[0].limit == pytest.approx(5000.0)
    assert "chooses none" in found(made, "co2")[0].reason
