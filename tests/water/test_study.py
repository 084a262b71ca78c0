"""The water study on the example stations and on variants of them."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firnstead import snow
from firnstead.core.memo import Memo
from firnstead.core.results import Verdict
from firnstead.core.units import YEAR
from firnstead.core.working import evaluate
from firnstead.station.reader import read_station
from firnstead.station.water import Spot, Tank, WaterUse, WellHeat
from firnstead.water import study
from firnstead.water.case import MONTH
from house.project import ROOT

STATIONS = {name: read_station(ROOT / "examples" / "stations" / name).station for name in ("first", "full")}
SNOW = {name: snow.study(station).result for name, station in STATIONS.items()}
FIRST, FULL = STATIONS["first"], STATIONS["full"]
MEMO = Memo()


def with_water(station=FIRST, well=None, life=None, **changes):
    """The study of a station with its water changed."""
    water = station.water
    if well:
        changes["well"] = water.well.model_copy(update=well)
    update = {"water": water.model_copy(update=changes)}
    if life is not None:
        update["design"] = station.design.model_copy(update={"life": life})
    return study(station.model_copy(update=update), SNOW["first" if station is FIRST else "full"], MEMO)


def pump(**changes):
    """The first station's pump, changed."""
    return {"pump": FIRST.water.well.pump.model_copy(update=changes)}


def found(made, key):
    """The check with this key."""
    return next(c for c in made.checks if c.key == f"water.{key}")


@pytest.mark.parametrize("name", STATIONS)
def test_workings_give_their_values(name):
    """Every formula gives the value beside it; demand or limit of every verdict comes out of the working."""
    made = study(STATIONS[name], SNOW[name], MEMO)
    assert not [c for c in made.checks if c.verdict == Verdict.FAILS]
    check_workings(made)


def check_workings(made):
    """Formulas, limits and cautions of all checks of a study."""
    for check in made.checks:
        for s in check.working:
            assert s.formula or s.text
            assert not s.formula or math.isclose(evaluate(s), s.value, rel_tol=1e-9, abs_tol=1e-12), (check.key, s)
        if check.verdict != Verdict.NOT_CHECKED:
            assert {check.demand, check.limit} & {step.value for step in check.working}, check.key
        else:
            assert check.reason
        assert check.caution


@pytest.mark.parametrize(
    "changes",
    [
        {"life": YEAR},
        {"life": 15 * YEAR},
        {"sump": None},
        {"tanks": {}},
        {"fire_flow": None},
        {"ice_flow": None},
        {"fuel_places": ("North 1",)},
        {"well": {"heat_limit": 300.0}},
        {"well": {"heat_limit": 4000.0}},
        {"well": {"shape": 3.0, "shaft_closing": 0.1 / YEAR}},
        {"well": {"roof_span": 8.0}},
        {"well": {"heat": {"heater": WellHeat(kind="electric", power="15 kW")}}},
        {"well": {"lead": 0.0, "pool": 2.0}},
        {"well": {"hose": FIRST.water.well.hose.model_copy(update={"drains": False})}},
        {"well": pump(spares=0, flow=1e-6, lowered_every=YEAR)},
        {"next_wells": (Spot(at=("60 m", "-40 m")),)},
        {"sump": FIRST.water.sump.model_copy(update={"cavity": 3000.0, "temperature": 303.15, "depth": 20.0})},
    ],
    ids=str,
)
def test_workings_of_variants(changes):
    """Every branch of the checks has a working that gives its values, and names its work once."""
    made = with_water(**changes)
    check_workings(made)
    ids = [item.id for item in made.work_items]
    assert len(ids) == len(set(ids))
    assert all(math.isfinite(item.mass) and item.mass >= 0 for item in made.work_items)


def test_no_water_is_not_checked():
    """A station without a water part gives one question that is not checked, and no work."""
    made = study(FIRST.model_copy(update={"water": None}), SNOW["first"])
    assert [c.verdict for c in made.checks] == [Verdict.NOT_CHECKED]
    assert made.checks[0].reason
    assert not made.work_items
    assert made.result.fuel == (0.0,) * 12


def test_memo_changes_nothing():
    """With a memo the answers are the same."""
    memo = Memo()
    one, again = study(FIRST, SNOW["first"], memo), study(FIRST, SNOW["first"], memo)
    assert one == again == study(FIRST, SNOW["first"])


def test_weak_heat_raises_the_alarm():
    """A well with less heat than it needs fails on heat and on the pool kept, and never holds for life."""
    made = with_water(well={"heat_limit": 3000.0})
    assert found(made, "heat").verdict == Verdict.FAILS
    assert found(made, "pool_kept").verdict == Verdict.FAILS
    assert made.result.well.alarm_temperature > 273.15
    dead = with_water(well={"heat_limit": 300.0})
    assert found(dead, "pool_kept").demand == 0.0
    assert dead.result.well.end


def test_start_in_open_firn_fails():
    """A pool that starts in firn that lets water through fails."""
    made = with_water(well={"start_depth": 36.6})
    assert found(made, "sealing").verdict == Verdict.FAILS


def test_waste_heat_saves_fuel_and_nothing_else():
    """With boilers strong enough, waste heat changes the fuel alone, never the pool."""
    none, some = (study(FIRST, SNOW["first"], MEMO, waste=(w,) * 12).result for w in (0.0, 2000.0))
    assert [m.mass for m in none.well.months] == [m.mass for m in some.well.months]
    assert sum(some.fuel) < sum(none.fuel)
    assert all(used <= 2000.0 + 1e-6 for used in some.waste_used)
    saved = sum(none.fuel) - sum(some.fuel)
    heat = FIRST.water.fuel_heat / FIRST.water.fuel_density * FIRST.water.well.heat["boiler 1"].efficiency
    assert saved * heat == pytest.approx(sum(some.waste_used) * MONTH, rel=1e-9)


def test_rows_of_the_contract():
    """Rows have twelve months of floats and add up: heat is waste, boilers and heaters."""
    result = study(FULL, SNOW["full"], MEMO).result
    rows = [result.heat, result.waste_used, result.fuel, result.draw, *result.electric.values()]
    assert all(len(row) == 12 and min(row) >= 0.0 for row in rows)
    for month in result.well.months:
        assert month.waste + month.boiler + month.electric_heat == pytest.approx(month.power, rel=1e-6)
    assert result.draw[6] == max(result.draw)


def test_the_next_well_is_started_a_lead_before_the_end():
    """The second well's start comes the lead time and the melting before the first one's end."""
    well = study(FULL, SNOW["full"], MEMO).result.well
    assert well.end
    assert well.next_start
    gap = well.end_age - well.next_start_age
    assert gap == pytest.approx(FULL.water.well.lead + well.shaft_time)
    assert any(item.id.endswith(".water.next") for item in study(FULL, SNOW["full"], MEMO).work_items)


def test_sewage_and_water_shafts_are_distinct():
    """Well and sump have signs of their own, and a sump moved to the well fails on distance."""
    made = study(FULL, SNOW["full"], MEMO)
    labels = [shaft.label for shaft in made.result.shafts]
    assert len(labels) == len(set(labels)) == 3
    near = with_water(FULL, sump=FULL.water.sump.model_copy(update={"at": (320.0, 20.0)}))
    assert found(near, "sump_well").verdict == Verdict.FAILS


def test_a_shallow_sump_meets_the_floor():
    """A sump whose sheet lies at the trenches' depth fails on the snow to their floors."""
    made = with_water(sump=FIRST.water.sump.model_copy(update={"depth": 7.0, "at": (20.0, 20.0)}))
    assert found(made, "sump_floor").verdict == Verdict.FAILS


def test_a_narrowing_shaft_ends_the_well():
    """A shaft that closes fast ends the well when pump and hoses no longer fit."""
    made = with_water(well={"shaft_closing": 0.2 / YEAR})
    assert made.result.well.end_age == pytest.approx((1.0668 - 0.5) / 0.2 * YEAR)
    assert found(made, "life").verdict == Verdict.FAILS


def test_cold_tank_and_lack_of_water_fail():
    """A tank at 1 degC, too little for a fire, and none for a repair all fail."""
    cold = Tank(place="North 1", volume="0.3 m3", use="fire", temperature="1 degC")
    made = with_water(tanks={"cold": cold})
    for key in ("tank_warmth", "fire", "storage", "day", "fire_split"):
        assert found(made, key).verdict == Verdict.FAILS


@settings(max_examples=6)
@given(st.floats(1.0, 2.0))
def test_more_use_never_lengthens_the_life(more):
    """More water for each person never makes the well last longer nor the sump smaller."""
    use = {"all": WaterUse(per_head=f"{60 * more} L/day")}
    less, much = with_water(uses={"all": WaterUse(per_head="60 L/day")}), with_water(uses=use)
    assert much.result.well.end_age <= less.result.well.end_age + 1.0
    assert much.result.bulbs[-1].reach >= less.result.bulbs[-1].reach - 1e-9


def test_work_is_in_order():
    """Steam plant, shaft, pump and growing follow one another; parts carry their mass."""
    made = study(FULL, SNOW["full"], MEMO)
    items = {item.id: item for item in made.work_items}
    grow = items["Plant 4.water.grow"]
    assert grow.after == ("Plant 4.water.pump",)
    assert "Plant 4.water.drill" in items["Plant 4.water.pump"].after
    assert items["Plant 4.water.pump"].parts == (("well pump", 2.0), ("well hose", 4.0))
    assert items["Plant 4.water.pump"].mass == pytest.approx(2 * 85 + 4 * 110)
