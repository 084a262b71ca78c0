"""The foundation study on the example stations and on variants of them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead import snow
from firnstead.core.memo import Memo
from firnstead.core.results import Verdict
from firnstead.core.units import YEAR
from firnstead.core.working import evaluate
from firnstead.foundation import study
from firnstead.station import parse_station
from firnstead.station.reader import read_station
from house.project import ROOT

STATIONS = {name: read_station(ROOT / "examples" / "stations" / name).station for name in ("first", "full")}
SNOW = {name: snow.study(station).result for name, station in STATIONS.items()}
FIRST = STATIONS["first"]
HUT = "sleeping hut"


def study_with(**changes):
    """The study of the first station with its footings changed."""
    kit = FIRST.kits[HUT]
    footings = kit.footings.model_copy(update=changes)
    kits = {**FIRST.kits, HUT: kit.model_copy(update={"footings": footings})}
    return study(FIRST.model_copy(update={"kits": kits}), SNOW["first"])


def hut(made):
    """The result of the first building."""
    return made.result.buildings["Hut 1"]


def found(made, key):
    """The check of the first building with this key."""
    return next(c for c in made.checks if c.key == f"foundation.{key}" and '"Hut 1"' in c.subject)


def settled(made):
    """The high end of settling in the design life."""
    return found(made, "settlement").demand


@pytest.mark.parametrize("name", STATIONS)
def test_workings_give_their_values(name):
    """Every formula gives the value beside it; demand or limit of every verdict comes out of the working."""
    made = study(STATIONS[name], SNOW[name])
    steps = [step for check in made.checks for step in check.working]
    assert not [s for s in steps if s.formula and not math.isclose(evaluate(s), s.value, rel_tol=1e-9, abs_tol=1e-15)]
    for check in made.checks:
        if check.verdict != Verdict.NOT_CHECKED:
            assert {check.demand, check.limit} & {step.value for step in check.working}
        assert check.caution


@pytest.mark.parametrize("name", STATIONS)
def test_every_building_is_answered(name):
    """Every building has a result, checks of its own and work in order; nothing fails in an example."""
    made = study(STATIONS[name], SNOW[name])
    assert set(made.result.buildings) == set(STATIONS[name].buildings)
    assert not [c for c in made.checks if c.verdict == Verdict.FAILS]
    ids = [item.id for item in made.work_items]
    assert len(ids) == len(set(ids))
    for kind in ("pads", "set", "level", "shims", "relevel"):
        assert sum(f".foundation.{kind}" in i for i in ids) == len(STATIONS[name].buildings)


@pytest.mark.parametrize(
    "changes",
    [{"rows": 2, "edge_share": None}, {"rows": 5, "edge_share": None}, {"drop_distance": 0.3}, {"warm_side": 4.0},
     {"pad_thickness": 0.0}, {"pad_thickness": 0.0, "drop_distance": 0.1}, {"eccentricity": 0.15},
     {"eccentricity": 0.5}, {"floor_temperature": 262.0}, {"live_load": 5e4, "width": 0.2, "length": 0.2}],
    ids=str,
)  # fmt: skip
def test_workings_of_variants(changes):
    """Every branch of the checks has a working that gives its values."""
    for check in study_with(**changes).checks:
        for s in check.working:
            assert s.formula or s.text
            assert not s.formula or math.isclose(evaluate(s), s.value, rel_tol=1e-9, abs_tol=1e-15)


def test_no_footings_is_not_checked():
    """A kit without footings gives questions that are not checked, never one that holds, and no work."""
    kits = {name: kit.model_copy(update={"footings": None}) for name, kit in FIRST.kits.items()}
    made = study(FIRST.model_copy(update={"kits": kits}), SNOW["first"])
    assert {c.verdict for c in made.checks} == {Verdict.NOT_CHECKED}
    assert {c.key for c in made.checks} >= {"foundation.pressure", "foundation.bearing", "foundation.settlement"}
    assert all(c.reason for c in made.checks)
    assert not made.work_items
    assert not made.result.buildings


def test_memo_changes_nothing():
    """With a memo the answers are the same."""
    memo = Memo()
    one, again = study(FIRST, SNOW["first"], memo), study(FIRST, SNOW["first"], memo)
    assert one == again == study(FIRST, SNOW["first"])


def test_buildings_alike_are_worked_out_once():
    """Two buildings of one kit on one floor share their working."""
    made = study(FIRST, SNOW["first"])
    one, two = [c for c in made.checks if c.key == "foundation.relevel"]
    assert one.working is two.working
    assert one.subject != two.subject


@given(st.floats(0.0, 20e3), st.floats(1.0, 3.0))
def test_more_load_never_settles_less(load, more):
    """A greater live load never settles less nor lets the building stand longer."""
    light, heavy = study_with(live_load=load), study_with(live_load=load * more + 1.0)
    assert settled(heavy) >= settled(light)
    assert hut(heavy).middle.settlement_low >= hut(light).middle.settlement_low
    assert hut(heavy).time_to_relevel <= hut(light).time_to_relevel * (1 + 1e-12)


@given(st.floats(0.01, 2.0), st.floats(480.0, 700.0))
def test_a_denser_pad_never_settles_more_than_none(thickness, density):
    """A pad that is denser than the snow it replaces never makes settling worse."""
    assert settled(study_with(pad_thickness=thickness, pad_density=max(density, 520.0))) <= settled(
        study_with(pad_thickness=0.0)
    )


@given(st.floats(246.2, 270.0), st.floats(0.1, 3.0))
def test_warmer_never_settles_slower(temperature, more):
    """A warmer floor never settles less; nor does a deeper warm layer."""
    cool, warm = study_with(floor_temperature=temperature), study_with(floor_temperature=temperature + more)
    assert settled(warm) >= settled(cool)
    deeper = study_with(floor_temperature=temperature, warm_depth=12.0)
    assert settled(deeper) >= settled(cool) * (1 - 1e-12)


def test_settling_is_straight_in_time_and_its_low_end_is_not():
    """Twice the design life settles twice as much at the high end, and less than twice at the low end."""
    longer = FIRST.model_copy(update={"design": FIRST.design.model_copy(update={"life": 20 * YEAR})})
    ten, twenty = hut(study(FIRST, SNOW["first"])), hut(study(longer, SNOW["first"]))
    assert twenty.middle.settlement_high == pytest.approx(2 * ten.middle.settlement_high)
    assert ten.middle.settlement_low < twenty.middle.settlement_low < 2 * ten.middle.settlement_low


def test_a_warm_side_tilts_the_building():
    """Warmth on one side shortens the time to relevelling and asks for more shims."""
    even, warm = hut(study_with()), hut(study_with(warm_side=8.0))
    assert warm.tilt_rate > even.tilt_rate
    assert warm.time_to_relevel < even.time_to_relevel
    assert warm.shims > even.shims


def test_bearing_needs_a_measured_strength():
    """A pad of milled snow is not checked until its strength is measured, and says what to measure."""
    check = found(study_with(), "pad_strength")
    assert check.verdict == Verdict.NOT_CHECKED
    assert "measure" in check.reason


def test_a_drop_beside_the_footing_lowers_its_bearing():
    """A pit close to a footing on natural snow lowers what the snow bears to 2 of 5.14."""
    far, near = (
        found(study_with(pad_thickness=0.0), "bearing"),
        found(study_with(pad_thickness=0.0, drop_distance=0.1), "bearing"),
    )
    assert near.limit == pytest.approx(far.limit * 2 / (2 + math.pi))


def test_heave_is_told_only_from_the_forecast():
    """Without the closure forecast the gap under the floor is not checked; with it half the gap lasts less long."""
    assert found(study(FIRST, SNOW["first"]), "floor_gap").verdict == Verdict.NOT_CHECKED
    slow, fast = (
        found(study(FIRST, SNOW["first"], floor_heave={"North 1": heave}), "floor_gap") for heave in (0.02, 0.4)
    )
    assert slow.verdict == Verdict.HOLDS
    assert fast.verdict == Verdict.FAILS
    gap = FIRST.kits["sleeping hut"].footing_height
    assert fast.demand < gap / 2 / 0.4 * YEAR
    assert gap / 2 / slow.demand - gap / 2 / fast.demand == pytest.approx(-0.38 / YEAR)


def test_missing_jacks_go_on_the_list():
    """Jacks that the kit lacks fail the check and are taken by the work of setting the footings."""
    made = study_with(rows=4)
    assert found(made, "jacks").verdict == Verdict.FAILS
    item = next(i for i in made.work_items if i.id == "Hut 1.foundation.set")
    assert item.parts == (("screw jack", 4.0),)


def test_shims_are_packed():
    """The shims of the design life are parts with their mass."""
    made = study_with()
    item = next(i for i in made.work_items if i.id == "Hut 1.foundation.shims")
    assert item.parts == (("levelling shim", float(hut(made).shims)),)
    assert item.mass == pytest.approx(hut(made).shims * FIRST.parts["levelling shim"].mass)


@pytest.mark.parametrize("line, cure", [("width: 1.5 m", "width"), ("jack_part: scew jack", "jack_part")])
def test_mistakes_in_the_file_have_a_line(line, cure):
    """Footings that do not fit and parts that are not there are told with their line."""
    from firnstead.core.errors import InputError

    text = (ROOT / "examples" / "stations" / "first" / "station.yaml").read_text(encoding="utf-8")
    head, tail = text.split("    footings:", 1)
    field = line.partition(":")[0]
    lines = [f"      {line}" if row.strip().startswith(f"{field}:") else row for row in tail.split("\n")[:14]]
    broken = head + "    footings:" + "\n".join([*lines, *tail.split("\n")[14:]])
    with pytest.raises(InputError) as told:
        parse_station(broken, ROOT / "examples" / "stations" / "first" / "station.yaml")
    assert cure in str(told.value)
