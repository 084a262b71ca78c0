"""The fire study on the example stations and on variants of them."""

import math

import numpy as np
import pytest

from firnstead import fire
from firnstead.core.memo import Memo
from firnstead.core.results import Verdict
from firnstead.core.working import evaluate
from firnstead.fire.results import available_times_at
from firnstead.fire.study_network import air_section, model_of
from firnstead.station.fire import Extinguisher, FireDoor, FireScenario, FireSmoke, FireStore, FireWater
from firnstead.station.reader import read_station
from house.project import ROOT


def by_use(name):
    """An example station with the fires that its use sets everywhere, in the default smoke, and without its niches."""
    station = read_station(ROOT / "examples" / "stations" / name).station
    fires = station.fire.model_copy(update={"scenarios": {}, "smoke": FireSmoke()})
    return station.model_copy(update={"fire": fires, "niches": {}, "water": None})


STATIONS = {name: by_use(name) for name in ("first", "full")}
FIRST, FULL = STATIONS["first"], STATIONS["full"]
MEMO = Memo()
MADE = {name: fire.study(station, None, MEMO) for name, station in STATIONS.items()}


def changed(station, **changes):
    """The station with its fire part changed."""
    return station.model_copy(update={"fire": station.fire.model_copy(update=changes)})


def without_fires(**changes):
    """The full station with one small fire only, for what does not depend on the fires."""
    one = {"one": FireScenario(building="Radio", heat_release="50 kW")}
    return changed(FULL, **{"every_place": False, "scenarios": one, **changes})


def with_limits(station, **changes):
    """The station with its limits changed."""
    return changed(station, limits=station.fire.limits.model_copy(update=changes))


def studied(station):
    """Its study; what did not change is remembered."""
    return fire.study(station, None, MEMO)


def found(made, key, place=None):
    """The check with this key (of a place)."""
    return next(c for c in made.checks if c.key == f"fire.{key}" and place in (None, c.place))


@pytest.mark.parametrize("name", STATIONS)
def test_workings_give_their_values(name):
    """Every formula gives the value beside it; demand or limit of every verdict comes out of the working."""
    for check in MADE[name].checks:
        for step in check.working:
            assert step.formula or step.text
            assert not step.formula or math.isclose(evaluate(step), step.value, rel_tol=1e-9, abs_tol=1e-15)
        if check.verdict != Verdict.NOT_CHECKED:
            assert {check.demand, check.limit} & {step.value for step in check.working}, check.key
        else:
            assert check.reason
        assert check.caution


@pytest.mark.parametrize("name", STATIONS)
def test_nothing_fails_in_the_examples(name):
    """Nothing fails; every place has its cover; every work item has its own name."""
    made = MADE[name]
    assert not [c for c in made.checks if c.verdict == Verdict.FAILS]
    assert set(made.result.cover) == set(made.result.losses) == set(STATIONS[name].places)
    ids = [item.id for item in made.work_items]
    assert len(ids) == len(set(ids))
    assert {"station.fire.round"} <= set(ids)


@pytest.mark.parametrize("name", STATIONS)
def test_every_fire_keeps_its_smoke(name):
    """In every fire of the examples the smoke in the station is what was released, to a billionth."""
    for case in MADE[name].result.cases.values():
        assert case.lost < 1e-9
        assert case.released > 0
        assert min(case.available.values()) > 0


def test_every_place_with_something_in_it_has_a_fire():
    """Every trench of the full station has a fire, each kind of building in it one; the passage has none."""
    places = {case.place for case in MADE["full"].result.cases.values()}
    assert places == set(FULL.trenches)
    kitchen = [c for c in MADE["full"].result.cases.values() if c.place == "North 7"]
    assert {c.use for c in kitchen} == {"mess", "kitchen"}


def test_no_part_is_not_checked():
    """A station without a fire part goes on to work, with one question that is not checked."""
    made = fire.study(FIRST.model_copy(update={"fire": None}))
    assert [c.verdict for c in made.checks] == [Verdict.NOT_CHECKED]
    assert not made.result.cases
    assert not made.work_items


def test_memo_changes_nothing():
    """With a memo the answers are the same, and a second time they are the same again."""
    again = studied(FIRST)
    assert again == MADE["first"] == fire.study(FIRST)


def test_shut_doors_keep_other_trenches_longer():
    """With all fire doors shut, no spot of another trench is lost sooner than open, and some last far longer."""
    doors = {name: door.model_copy(update={"open": True}) for name, door in FULL.fire.doors.items()}
    opened = studied(changed(FULL, doors=doors)).result.cases["Hut 1"].available
    shut = MADE["full"].result.cases["Hut 1"].available
    other = [s for s in shut if s.startswith("North 2 at")]
    assert other
    assert all(shut[s] >= opened[s] for s in other)
    assert sum(min(shut[s], 1800.0) for s in other) > 1.5 * sum(min(opened[s], 1800.0) for s in other)


def test_compartments_follow_the_doors():
    """Behind a shut door a trench is a compartment of its own; with the door open it is the passage's."""
    alone = MADE["full"].result.losses["North 1"]
    assert alone.with_it == ()
    assert alone.sleepers == alone.sleepers_with_it == 10
    doors = {**FULL.fire.doors}
    doors["North 1 fire door"] = doors["North 1 fire door"].model_copy(update={"open": True})
    joined = studied(without_fires(doors=doors)).result.losses["North 1"]
    assert joined.with_it == ("Main",)


def test_plant_with_sleepers_fails():
    """Doors left out, everybody sleeps in one compartment with the generators: that fails, and so do the beds."""
    made = studied(without_fires(doors={}))
    assert found(made, "sleepers_apart", "Plant 1").demand == 100
    assert found(made, "sleepers_apart", "Plant 1").verdict == Verdict.FAILS
    assert found(made, "beds").verdict == Verdict.FAILS
    assert found(made, "survival").verdict == Verdict.FAILS
    assert found(made, "doors").verdict == Verdict.NOT_CHECKED


def test_plain_filling_is_refused_in_a_trench():
    """The plain filling law never gives a verdict: outside its shape, or spoilt by what stands in the place."""
    for made in MADE.values():
        assert {c.verdict for c in made.checks if c.key == "fire.filling"} == {Verdict.NOT_CHECKED}
    long = {**FIRST.trenches, "North 1": FIRST.trenches["North 1"].model_copy(update={"length": 150.0})}
    check = found(fire.study(FIRST.model_copy(update={"trenches": long})), "filling")
    assert check.demand > check.limit == 14.0


def test_snow_walls_are_not_checked():
    """Melting and falling snow is never said to hold."""
    assert found(MADE["full"], "snow_walls").verdict == Verdict.NOT_CHECKED


def test_bigger_fires_and_stricter_limits_leave_less_time():
    """A faster class, and a longer sight asked for, leave no spot more time."""
    slow = FireScenario(building="Hut 1", growth="slow")
    fast = FireScenario(building="Hut 1", growth="ultrafast")
    one, two = (studied(changed(FIRST, scenarios={"fire": s})).result.cases["fire"] for s in (slow, fast))
    assert all(two.available[s] <= one.available[s] for s in one.available)
    strict = studied(with_limits(FIRST, visibility=15.0)).result.cases["Hut 1"]
    assert all(strict.available[s] <= t for s, t in MADE["first"].result.cases["Hut 1"].available.items())


def test_times_by_fire_leave_out_the_burning_room():
    """Every fire gives a time at every spot but the burning building itself; no limit comes before the first."""
    result = MADE["full"].result
    for name, times in result.by_fire().items():
        case = result.cases[name]
        assert times.keys() == case.available.keys() - {case.building}
        assert min(case.place_limits.values()) == pytest.approx(case.place_time)
        assert min(case.passage_limits.values()) == pytest.approx(case.passage_time)


def test_scenarios_of_the_file():
    """A fire of the file takes the place of the one of its kind, starts where it says, and is as big as it says."""
    scenario = FireScenario(place="North 1", at="30 m", growth="medium", heat_release="2 MW", fuel="500 MJ")
    made = studied(changed(FIRST, scenarios={"sled": scenario}))
    case = made.result.cases["sled"]
    assert case.start == "North 1 at 30.0 m"
    assert case.cap == 2e6
    assert case.cap_by == "the file"
    assert case.released == pytest.approx(5e8)
    assert set(made.result.cases) == {"sled", "Hut 1"}
    only = studied(changed(FIRST, scenarios={"sled": scenario}, every_place=False))
    assert set(only.result.cases) == {"sled"}
    assert available_times_at(made.result, "Hut 2").keys() == {"sled", "Hut 1"}


def test_detectors_that_do_not_work_in_the_cold_do_not_count():
    """A spot smoke head in a cold trench fails and never gives the alarm; without a figure it is not checked."""
    detectors = {"cold head": FULL.fire.detectors["North 1 air"].model_copy(update={"kind": "smoke", "coldest": None})}
    made = studied(without_fires(detectors=detectors))
    assert found(made, "detector_cold", "North 1").verdict == Verdict.FAILS
    assert found(made, "alarm").verdict == Verdict.NOT_CHECKED
    unknown = {"head": FULL.fire.detectors["North 1 air"].model_copy(update={"coldest": None})}
    assert found(studied(without_fires(detectors=unknown)), "detector_cold", "North 1").verdict == Verdict.NOT_CHECKED


@pytest.mark.parametrize(("kind", "verdict"), [("water", "fails"), ("carbon dioxide", "fails"), ("foam", "fails"),
                                               ("clean agent", "not checked"), ("dry chemical", "holds")])  # fmt: skip
def test_agents_in_the_cold(kind, verdict):
    """Plain water, carbon dioxide and foam fail in a cold trench and do not count for the walk; heated they do."""
    hung = {n: e.model_copy(update={"kind": kind}) for n, e in FIRST.fire.extinguishers.items()}
    made = studied(changed(FIRST, extinguishers=hung))
    assert found(made, "extinguisher_cold").verdict == verdict
    assert (found(made, "walk_a").verdict == Verdict.HOLDS) == (verdict == "holds")
    heated = {n: e.model_copy(update={"heated": True}) for n, e in hung.items()}
    assert found(studied(changed(FIRST, extinguishers=heated)), "walk_a").verdict == Verdict.HOLDS


def test_an_extinguisher_more_never_lengthens_a_walk():
    """Hanging one more never makes any walk longer; taking one away never shorter."""
    more = {**FULL.fire.extinguishers, "more": Extinguisher(place="Main", at="70 m", kind="dry chemical", rating_a=4)}
    one, two = MADE["full"].result.cover, studied(without_fires(extinguishers=more)).result.cover
    assert all(two[place].walk_a <= row.walk_a + 1e-9 for place, row in one.items())
    none = studied(without_fires(extinguishers={}))
    assert all(math.isinf(row.walk_a) for row in none.result.cover.values())
    assert found(none, "walk_a").verdict == Verdict.NOT_CHECKED


def test_stores_in_the_way_out_fail():
    """A store that burns in a passage fails and sets a fire there; one that does not burn does neither."""
    burning = FireStore(place="Main", at="120 m", what="boxes of paper")
    made = studied(changed(FULL, stores={"boxes": burning}))
    assert found(made, "stores_in_way").verdict == Verdict.FAILS
    assert "Main" in made.result.cases
    assert found(MADE["full"], "stores_in_way").verdict == Verdict.HOLDS


def test_water():
    """Enough water holds, too little fails; one tank, cold water, no alarm and a shared pump each fail on their own."""
    water = FULL.fire.water
    assert MADE["full"].result.water_needed == pytest.approx(24.0)
    tanks = {"one": next(iter(water.tanks.values())).model_copy(
        update={"volume": 20.0, "temperature": 274.0, "alarmed": False})}  # fmt: skip
    bad = studied(without_fires(water=water.model_copy(update={"tanks": tanks, "supply": "Plant 4", "refill": 1e-4})))
    for key in ("water", "water_tanks", "water_warm", "water_refill", "water_pump", "water_alarm"):
        assert found(bad, key).verdict == Verdict.FAILS, key
    bare = studied(without_fires(water=FireWater(flow="400 L/min", duration="60 min")))
    assert found(bare, "water").verdict == Verdict.FAILS
    assert found(bare, "water_warm").verdict == Verdict.NOT_CHECKED
    assert found(studied(without_fires(water=None)), "water").verdict == Verdict.NOT_CHECKED


def test_separation_needs_a_limit():
    """Snow between places is not checked without the engineer's own limit, and compared with it where there is one."""
    assert found(MADE["full"], "separation").verdict == Verdict.NOT_CHECKED
    assert found(studied(without_fires(separation=10.0)), "separation").verdict == Verdict.HOLDS
    assert found(studied(without_fires(separation=30.0)), "separation").verdict == Verdict.FAILS


def test_radiation_between_buildings():
    """Near buildings are outside the law and not checked; a small fire far from its neighbour holds."""
    assert found(MADE["full"], "radiation").verdict == Verdict.NOT_CHECKED
    small = FireScenario(building="Hut 1", heat_release="50 kW")
    assert found(studied(changed(FIRST, scenarios={"bin": small})), "radiation").verdict == Verdict.HOLDS


def test_heavy_doors_fail():
    """A closer that is too strong fails at the worst door."""
    doors = {**FULL.fire.doors, "stiff": FireDoor(place="Main", at="50 m", width="1 m", height="2 m",
                                                  leakage="0.03 m2", closer="150 N")}  # fmt: skip
    check = found(studied(without_fires(doors=doors)), "door_force")
    assert check.verdict == Verdict.FAILS
    assert "stiff" in check.reason


def test_ways_out():
    """Along a way: late is worse than early, the dose grows, and who is in the burning room is left out."""
    spots = ["North 1 at 28.6 m", "North 1 at 31.0 m", "North 1 hatch", "outside North 1 hatch"]
    times = {("Hut 2", label): [(spot, start + 20.0 * i) for i, spot in enumerate(spots)]
             for label, start in (("early", 60.0), ("late", 900.0))}  # fmt: skip
    made = fire.study(FIRST, None, MEMO, escape_times=times)
    rows = {row.way: row for row in made.result.ways_out}
    assert rows["early"].margin > rows["late"].margin
    assert rows["early"].dose <= rows["late"].dose
    assert rows["early"].visibility >= rows["late"].visibility
    assert found(made, "way_dose").demand == rows["early"].dose
    assert found(made, "way_dose").verdict == Verdict.HOLDS
    late = fire.study(FIRST, None, MEMO, escape_times={("Hut 2", "late"): times["Hut 2", "late"]})
    assert found(late, "way_dose").verdict == Verdict.FAILS
    burning = fire.study(FIRST, None, MEMO, escape_times={("Hut 1", "late"): times["Hut 2", "late"]})
    assert found(burning, "way_dose").verdict == Verdict.NOT_CHECKED


def test_the_air_of_places_is_counted_once():
    """The air in the cells of a trench without buildings is its section times its length; a building takes its own."""
    bare = FIRST.model_copy(update={"buildings": {}})
    model, trench = model_of(bare, bare.fire.model_copy(update={"detectors": {}})), FIRST.trenches["North 1"]
    volume = float(np.maximum(model.network.volume, 0.0)[model.cells_in("North 1")].sum())
    assert volume == pytest.approx(air_section(FIRST, trench) * 36.0, rel=1e-3)
    filled = model_of(FIRST, FIRST.fire)
    taken = 2 * 9.6 * 3.0 * 2.6
    assert float(filled.network.volume[filled.cells_in("North 1")].sum()) == pytest.approx(volume - taken, rel=1e-3)
    assert filled.network.volume[filled.cell_of["Hut 1"]] == pytest.approx(9.6 * 3.0 * 2.6)


def test_work_items_carry_mass_and_parts():
    """What is hung has its mass and its parts on the packing list; rounds name what to look at."""
    items = {item.id: item for item in MADE["full"].work_items}
    hung = items["Plant 1.fire.extinguishers"]
    assert hung.mass == pytest.approx(7 * 90.0)
    assert dict(hung.parts) == {"wheeled extinguisher": 7.0}
    assert items["North 1.fire.doors"].parts == (("fire door", 1.0),)
    assert items["station.fire.round"].quantity == sum(
        len(getattr(FULL.fire, g)) for g in ("extinguishers", "detectors", "alarm_points", "doors"))  # fmt: skip
