"""The roof study: verdicts, bounds, workings, memo, pieces, on stations made from the first example."""

from __future__ import annotations

from math import inf
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conftest import EXAMPLES
from firnstead import roof, snow
from firnstead.core.formula import plain_name
from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, Verdict
from firnstead.core.sources import source
from firnstead.core.units import YEAR
from firnstead.core.working import evaluate
from firnstead.station import Station, StationFile, read_station
from firnstead.station.build import FormedRoof

PLACE, ROOF = "North 1", "lateral arch"
FORMED = FormedRoof(kind="formed", span="4.5 m", rise="1.5 m", cover="1 m", form_length="6 m")
SNOW: dict[Any, Any] = {}


def changed(station: Station, *, place: Any = None, design: Any = None, plank: Any = None, section: Any = None,
            site: Any = None, milled: Any = None, **of_roof: Any) -> Station:  # fmt: skip
    """The station with some fields of its one place, roof, section, design, site or milled snow replaced."""
    one = station.roofs[ROOF]
    if plank:
        of_roof["plank"] = one.plank.model_copy(update=plank)
    name = station.trenches[PLACE].section
    return station.model_copy(update={
        "roofs": {ROOF: one.model_copy(update=of_roof)},
        "trenches": {PLACE: station.trenches[PLACE].model_copy(update=place or {})},
        "sections": {name: station.sections[name].model_copy(update=section or {})},
        "design": station.design.model_copy(update=design or {}),
        "site": station.site.model_copy(update=site or {}),
        "snow": station.snow.model_copy(update={"milled": station.snow.milled.model_copy(update=milled or {})}),
    })  # fmt: skip


def run(station: Station) -> Study:
    """The roof study on the station's own snow; the snow is worked out once for each climate."""
    key = (station.site, station.snow)
    if key not in SNOW:
        SNOW[key] = snow.study(station).result
    return roof.study(station, SNOW[key])


def check(station: Station, key: str) -> Check:
    """One check of the one place."""
    return next(c for c in run(station).checks if c.key == f"roof.{key}")


def plain_station() -> Station:
    """The first example's site with a section, roof and design of our own, so that its tuning does not matter here."""
    return changed(
        read_station(EXAMPLES / "first").station,
        section={"top_width": 4.4, "floor_width": 6.0, "depth": 6.0, "bench_width": 0.9, "bench_depth": 0.6,
                 "undercut_from": 2.0},
        plank={"width": 0.6, "thickness": 0.075, "length": 3.6, "setback": 0.0, "keeper": 0.25},
        design={"life": 10 * YEAR, "arching_factor": 1.3, "drift_factor": 1.5},
        site={"accumulation_water": 0.25 / YEAR},
        gauge=12, span=4.9, rise=1.35, cover=0.9, haunch_cover=None, sheet_length=2.9, sheet_width=0.61, lap=0.1,
        one_side_cover=0.5,
    )  # fmt: skip


@pytest.fixture(scope="module")
def plain() -> Station:
    """A station of one trench with a plain arch."""
    return plain_station()


def test_every_formula_gives_its_value(plain: Station, full: StationFile) -> None:
    """Each step of each working gives its value when its inputs are put into its formula, and its source is known."""
    formed = plain.model_copy(update={"roofs": {ROOF: FORMED}})
    crossed = changed(plain, place={"vehicle_over": "tractor"}, milled=MEASURED)
    for station in (plain, formed, crossed, full.station):
        for found in run(station).checks:
            for step in found.working:
                assert source(step.source)
                if step.formula:
                    assert evaluate(step) == pytest.approx(step.value, rel=1e-12)
                else:
                    assert step.text
            shown = [plain_name(name) for name in {n for step in found.working for n, _, _ in step.inputs}]
            assert len(shown) == len(set(shown)), "two quantities would be printed alike"


MEASURED = {"measured_strength": 400e3, "measured_age": 5 * 86400.0, "measured_temperature": 250.0}


def test_working_leads_to_demand_and_limit(plain: Station) -> None:
    """Demand and limit of every check stand in its working, or are inputs of the station file."""
    inputs = {plain.design.steel_factor, plain.design.life, plain.roofs[ROOF].plank.bending_strength,
              plain.roofs[ROOF].plank.shear_strength}  # fmt: skip
    for found in run(plain).checks:
        if found.verdict == Verdict.NOT_CHECKED:
            continue
        values = {step.value for step in found.working} | inputs
        assert any(
            found.demand == pytest.approx(value) or found.demand == pytest.approx(abs(value)) for value in values
        )
        assert any(found.limit == pytest.approx(value) for value in values)


def test_not_checked_says_why(plain: Station) -> None:
    """Seams and hardening cannot be checked without what is missing, and say so."""
    for key in ("seam", "hardening"):
        found = check(plain, key)
        assert found.verdict == Verdict.NOT_CHECKED
        assert found.reason


def test_measured_strength_gives_a_wait(plain: Station) -> None:
    """With a measured strength the wait is a number, no shorter than was measured, longer for a stronger demand."""
    short = check(changed(plain, milled=MEASURED), "hardening")
    long = check(changed(plain, milled=MEASURED, design={"snow_factor": 20.0}), "hardening")
    assert short.demand is not None
    assert long.demand is not None
    assert MEASURED["measured_age"] <= short.demand < long.demand


def test_between_the_bounds_only_a_measured_strength_decides(plain: Station) -> None:
    """Past what steel alone carries there is no verdict before the cover's strength is measured; then there is."""
    station = changed(plain, design={"drift_factor": 1.0, "arching_factor": 1.0, "life": 4 * YEAR})
    unmeasured, measured = run(station), run(changed(station, milled=MEASURED))
    life = unmeasured.result.places[PLACE].life
    assert life.alone < station.design.life < life.supported
    key = "roof.life"
    assert next(c for c in unmeasured.checks if c.key == key).verdict == Verdict.NOT_CHECKED
    assert next(c for c in measured.checks if c.key == key).verdict in (Verdict.HOLDS, Verdict.CLOSE)


def test_beyond_the_upper_bound_it_fails(plain: Station) -> None:
    """Where even a supported arch fails within the design life, the check fails, measured or not."""
    for station in (
        changed(plain, design={"life": 50 * YEAR}),
        changed(plain, design={"life": 50 * YEAR}, milled=MEASURED),
    ):
        assert check(station, "life").verdict == Verdict.FAILS
        assert check(station, "wall_life").verdict == Verdict.FAILS


def test_light_load_holds_on_steel_alone(plain: Station) -> None:
    """Where nearly nothing accumulates the steel alone carries the cover for the whole design life."""
    station = changed(plain, design={"drift_factor": 0.5, "arching_factor": 1.0, "life": YEAR},
                      site={"accumulation_water": 0.01 / YEAR})  # fmt: skip
    assert check(station, "wall_life").verdict == Verdict.HOLDS
    assert check(station, "life").verdict == Verdict.HOLDS


@settings(max_examples=15)
@given(st.floats(0.02, 1.0), st.floats(1.02, 3.0))
def test_more_accumulation_never_lengthens_life(water: float, more: float) -> None:
    """More snow a year never lengthens a roof's life, on either bound."""
    station = plain_station()
    found = snow.study(station).result  # the same snow: only the load grows faster
    lives = []
    for rate in (water, water * more):
        study = roof.study(changed(station, site={"accumulation_water": rate / YEAR}), found)
        lives.append(study.result.places[PLACE].life)
    slow, fast = lives
    assert fast.alone <= slow.alone * (1 + 1e-9)
    assert fast.supported <= slow.supported * (1 + 1e-9)


@settings(max_examples=15)
@given(st.floats(0.5, 4.0), st.floats(1.02, 2.0), st.floats(1.0, 2.0))
def test_more_drift_or_arching_never_lengthens_life(drift: float, more: float, arching: float) -> None:
    """A larger drift or arching factor never lengthens a roof's life."""
    station = plain_station()
    lives = []
    for design in (
        {"drift_factor": drift, "arching_factor": arching},
        {"drift_factor": drift * more, "arching_factor": arching},
        {"drift_factor": drift, "arching_factor": arching * more},
    ):
        lives.append(run(changed(station, design=design)).result.places[PLACE].life)
    assert lives[1].supported <= lives[0].supported * (1 + 1e-9)
    assert lives[2].supported <= lives[0].supported * (1 + 1e-9)


def test_ratios_never_fall(full: StationFile) -> None:
    """The share of every limit rises or stays from year to year."""
    found = [place.ratios for place in run(full.station).result.places.values() if place.kind == "arch"]
    assert len(found) > 1
    for ratios in found:
        for name in ratios.__dataclass_fields__:
            values = getattr(ratios, name)
            assert all(a <= b for a, b in zip(values, values[1:], strict=False)), name


def test_one_side_leading_less_is_safer(plain: Station) -> None:
    """A smaller lead of one side raises the factor; the whole thickness is the default and the worst."""
    factors = [check(changed(plain, one_side_cover=lead), "bending_one_sided").demand for lead in (0.2, 0.6, None)]
    assert factors[0] > factors[1] > factors[2]


def test_sharper_undercut_never_bears_more(plain: Station) -> None:
    """Widening the floor below the shoulder never raises its bearing limit."""
    limits = [
        check(changed(plain, section={"floor_width": 4.4 + 2 * u}), "seat_bearing").limit for u in (0.1, 0.8, 1.6)
    ]
    assert limits == sorted(limits, reverse=True)


def test_keeper_carries_thrust(plain: Station) -> None:
    """Without a keeper the plank's edge alone takes the thrust, and takes less."""
    with_keeper, without = (check(changed(plain, plank={"keeper": k}), "seat_thrust") for k in (0.3, None))
    assert with_keeper.limit > without.limit
    assert with_keeper.demand == without.demand


def test_foot_beside_its_plank(plain: Station) -> None:
    """An arch whose foot misses its plank fails and gives no bearing pressure."""
    station = changed(plain, plank={"setback": 0.6, "width": 0.3})
    assert check(station, "seat_position").verdict == Verdict.FAILS
    assert check(station, "seat_bearing").verdict == Verdict.NOT_CHECKED


def test_levelled_cover_is_heavier(plain: Station) -> None:
    """A cover levelled to the crown loads the haunches; one that follows the arch does not."""
    level, even = (run(changed(plain, haunch_cover=h)).result.places[PLACE] for h in (None, 0.9))
    assert level.load_placed > even.load_placed
    assert level.cover_volume > even.cover_volume


@pytest.mark.parametrize("of_roof", [{"gauge": 18}, {"rise": 0.4}])
def test_unknown_sheet_or_flat_arch_is_not_checked(plain: Station, of_roof: dict[str, Any]) -> None:
    """A sheet that is not in the table, or an arch flatter than the laws reach, is not checked but still listed."""
    study = run(changed(plain, **of_roof))
    assert {c.verdict for c in study.checks} == {Verdict.NOT_CHECKED}
    assert any(item.id == f"{PLACE}.roof.arches" and item.quantity > 0 for item in study.work_items)


def test_lapped_sheets_have_no_seam(plain: Station) -> None:
    """Overlapped sheets have no rated seam."""
    found = check(changed(plain, joint="lapped"), "seam")
    assert found.verdict == Verdict.NOT_CHECKED
    assert found.limit is None


def test_vehicle(plain: Station) -> None:
    """A vehicle that may cross asks for the least cover and is carried by the wall; none, no question."""
    assert not any("vehicle" in c.key for c in run(plain).checks)
    crossed = changed(plain, place={"vehicle_over": "tractor"})
    assert check(crossed, "vehicle_cover").limit == pytest.approx(4.9 / 8)
    assert check(crossed, "vehicle_wall").demand < check(crossed, "wall_placed").demand
    assert check(changed(crossed, cover=0.3), "vehicle_cover").verdict == Verdict.FAILS


def test_formed_roof(plain: Station) -> None:
    """A roof of formed snow has a verdict only by a measured strength, and never carries a vehicle."""
    station = plain.model_copy(update={"roofs": {ROOF: FORMED}})
    found = {c.key: c for c in run(station).checks}
    for key in ("hardening", "formed_stress_placed", "formed_stress_life", "formed_span"):
        assert found[f"roof.{key}"].verdict == Verdict.NOT_CHECKED, key
        assert found[f"roof.{key}"].reason
    assert found["roof.hardening"].caution
    assert found["roof.formed_span"].demand == 4.5
    milled = station.snow.milled.model_copy(update=MEASURED)
    tested = station.model_copy(update={"snow": station.snow.model_copy(update={"milled": milled})})
    thick = {c.key: c for c in run(tested).checks}["roof.formed_stress_placed"]
    thin_roof = {ROOF: FORMED.model_copy(update={"cover": 0.3})}
    thin = {c.key: c for c in run(tested.model_copy(update={"roofs": thin_roof})).checks}["roof.formed_stress_placed"]
    assert thick.verdict == Verdict.HOLDS
    assert thick.ratio is not None
    assert thin.ratio is not None
    assert thin.ratio > thick.ratio
    items = {item.id: item for item in run(station).work_items}
    assert items[f"{PLACE}.roof.forms"].quantity == 6
    assert f"{PLACE}.roof.strip" in items


def test_pieces(plain: Station) -> None:
    """Sheets, planks, steel and cover of 36 m of the example arch by hand."""
    place = run(plain).result.places[PLACE]
    items = {item.id: item for item in run(plain).work_items}
    assert place.planks == 20  # 36 m in planks of 3.6 m, both sides
    assert place.sheets == 60 * 3  # 60 rows of 0.61 m (the last one cut), three sheets of 2.9 m round 5.86 m with laps
    arches = items[f"{PLACE}.roof.arches"]
    assert arches.mass == pytest.approx(180 * 3.294e-3 * 7850 * 0.71 * 2.9, rel=1e-3)
    assert place.steel_per_metre == pytest.approx(arches.mass / 36)
    assert arches.parts == ((f"arch sheet {ROOF}", 180.0),)
    assert f"{PLACE}.cutting.planks" in arches.after
    volume = 36 * (6.2 * 2.25 - _segment_area(4.9, 1.35))
    assert place.cover_volume == pytest.approx(volume, rel=1e-6)
    assert items[f"{PLACE}.roof.cover"].after == (f"{PLACE}.roof.arches",)


def _segment_area(span: float, rise: float) -> float:
    from math import asin

    radius = (span**2 / 4 + rise**2) / (2 * rise)
    return radius**2 * asin(span / 2 / radius) - span / 2 * (radius - rise)


def test_memo_recomputes_only_what_changed(full: StationFile) -> None:
    """With a memo, an edit of one trench leaves every other place's checks the same objects."""
    station, memo = full.station, Memo()
    found = snow.study(station).result
    before = roof.study(station, found, memo)
    name = next(iter(station.trenches))
    trench = station.trenches[name].model_copy(update={"drift_factor": 3.0})
    after = roof.study(station.model_copy(update={"trenches": {**station.trenches, name: trench}}), found, memo)
    same = {id(c) for c in before.checks}
    assert all(id(c) in same for c in after.checks if c.place != name)
    assert after.result.places[name].load_at_life > before.result.places[name].load_at_life


def test_subject_and_place(full: StationFile) -> None:
    """Every check names its place; every place has its checks, and its work in order."""
    study = run(full.station)
    assert {c.place for c in study.checks} == set(full.station.places)
    assert all(c.place in c.subject and c.discipline == "roof" for c in study.checks)
    assert all(c.demand is None or c.demand < inf for c in study.checks)
    ids = {item.id for item in study.work_items}
    assert all(before in ids for i in study.work_items for before in i.after if ".roof." in before)


@settings(max_examples=40)
@given(st.data())
def test_any_station_gets_an_answer(data: st.DataObject) -> None:
    """Whatever sizes the station file may hold, the study answers: no exception, no number that is not one."""

    def pick(low: float, high: float) -> float:
        return data.draw(st.one_of(st.just(low), st.just(high), st.floats(low, high)))

    span = pick(0.5, 20.0)
    top = pick(0.5, span) if span > 0.5 else 0.5
    bench = pick(0.0, 3.0)
    station = changed(
        plain_station(),
        section={"top_width": top, "floor_width": top + pick(0.0, 3.0), "bench_depth": bench, "bench_width": pick(0, 3),
                 "undercut_from": bench + pick(0.0, 2.0), "depth": bench + 2.0 + pick(0.1, 10.0)},
        plank={"width": pick(0.1, 2), "thickness": pick(0.02, 0.3), "setback": pick(0, 2), "keeper": pick(0, 1)},
        design={"life": pick(1, 50) * YEAR, "friction": pick(0.02, 1), "erection_load": pick(0, 5000),
                "drift_factor": pick(0.5, 5), "arching_factor": pick(1, 3)},
        site={"accumulation_water": pick(0.005, 3.0) / YEAR},
        place={"vehicle_over": data.draw(st.sampled_from([None, "tractor"]))},
        span=span, rise=pick(0.1, 0.5) * span, cover=pick(0.0, 6.0), lap=pick(0.0, 1.0),
        haunch_cover=data.draw(st.one_of(st.none(), st.floats(0, 12))), sheet_length=pick(0.5, 12.0),
        one_side_share=pick(0.1, 1.0), one_side_cover=data.draw(st.one_of(st.none(), st.floats(0, 6))),
        gauge=data.draw(st.sampled_from([18, 12, 1])),
    )  # fmt: skip
    study = roof.study(station, SNOW.setdefault("plain", snow.study(plain_station()).result))
    for found in study.checks:
        for value in (found.demand, found.limit, found.ratio):
            assert value is None or value == value
        for step in found.working:
            assert abs(step.value) < inf, step
            if step.formula:
                assert evaluate(step) == pytest.approx(step.value, rel=1e-9)
    for item in study.work_items:
        assert item.quantity >= 0
        assert 0 <= item.hours < inf
