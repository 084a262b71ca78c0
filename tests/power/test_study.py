"""The power study on the example stations and on variants of them."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.core.memo import Memo
from firnstead.core.results import Verdict, as_plain
from firnstead.core.working import evaluate
from firnstead.power import study
from firnstead.power.stock import MONTH_DAYS
from firnstead.station.power import Load, Motor, StatedSource
from firnstead.station.reader import read_station
from house.project import ROOT

STATIONS = {name: read_station(ROOT / "examples" / "stations" / name).station for name in ("first", "full")}
FIRST, FULL = STATIONS["first"], STATIONS["full"]
YEAR_SECONDS = 365 * 86400.0


def changed(station, **changes):
    """A station with its power part changed."""
    return station.model_copy(update={"power": station.power.model_copy(update=changes)})


def sets_changed(station, name, **changes):
    """A station with one kind of set changed."""
    sets = {**station.power.sets, name: station.power.sets[name].model_copy(update=changes)}
    return changed(station, sets=sets)


def found(made, key, subject=""):
    """The first check with this key."""
    return next(c for c in made.checks if c.key == f"power.{key}" and subject in c.subject)


VARIANTS = {
    "first": FIRST, "full": FULL,
    "no site factor": sets_changed(FULL, "Plant 1 sets", site_factor=None),
    "no ampacity, one phase": changed(
        FIRST, cables={"hut cable": FIRST.power.cables["hut cable"].model_copy(update={"ampacity": None})},
        feeders={n: f.model_copy(update={"phases": 1}) for n, f in FIRST.power.feeders.items()}),
    "odd section": changed(
        FIRST, cables={"hut cable": FIRST.power.cables["hut cable"].model_copy(update={"section": 7e-6})}),
    "American size": changed(
        FIRST, cables={"hut cable": FIRST.power.cables["hut cable"].model_copy(update={"section": None,
        "awg": "4/0"})}),
    "no gap told": changed(FULL, longest_gap=None),
    "two running": changed(FULL, running_at_least=2),
    "no tank": changed(FULL, fuel=FULL.power.fuel.model_copy(update={"tanks": {}, "resupply_month": None})),
    "no construction": changed(FULL, construction=None),
    "no feeders": changed(FIRST, feeders={}, boards={"Camp board": FIRST.power.boards["Camp board"]}, loads={
        n: x for n, x in FIRST.power.loads.items() if x.board == "Camp board"}),
    "too much load": changed(FULL, loads={
        **FULL.power.loads, "More": Load(board="East board", power="900 kW", demand_factor=1.0)}),
    "beyond all reason": changed(FULL, loads={
        **FULL.power.loads, "More": Load(board="North 11 board", power="4 MW", demand_factor=1.0)}),
    "standby in plant 2": sets_changed(FULL, "Plant 2 sets", duty="standby"),
    "a source": changed(FULL, stated_sources={"plant": StatedSource(
        where="Plant 2", board="Main board B", electric="80 kW", heat="200 kW", heat_to_place="5 kW", firm=True)}),
    "radiator in the room": sets_changed(FULL, "Plant 1 sets", radiator="in place", exhaust_heat=0.3),
    "no starting power": sets_changed(FULL, "Plant 1 sets", starting_power=None),
}  # fmt: skip


@pytest.fixture(scope="module")
def studies():
    """The study of every variant."""
    return {name: study(station) for name, station in VARIANTS.items()}


@pytest.mark.parametrize("name", VARIANTS)
def test_workings_give_their_values(studies, name):
    """Every formula gives the value beside it; demand or limit of every verdict comes out of the working."""
    for check in studies[name].checks:
        for step in check.working:
            assert step.formula or step.text
            assert not step.formula or math.isclose(evaluate(step), step.value, rel_tol=1e-9, abs_tol=1e-12), step
        if check.verdict != Verdict.NOT_CHECKED:
            assert {check.demand, check.limit} & {step.value for step in check.working}
        else:
            assert check.reason
        assert check.caution
        assert check.place in ("station", *FULL.places, *FIRST.places)


@pytest.mark.parametrize("name", STATIONS)
def test_nothing_fails_in_the_examples(studies, name):
    """The examples hold; each work item has its own name; every board and feeder has its row."""
    made = studies[name]
    assert not [c for c in made.checks if c.verdict == Verdict.FAILS]
    ids = [item.id for item in made.work_items]
    assert len(ids) == len(set(ids))
    assert {row.name for row in made.result.boards} == set(STATIONS[name].power.boards)
    assert {row.name for row in made.result.feeders} == set(STATIONS[name].power.feeders)
    assert as_plain(made.result)


@pytest.mark.parametrize("name", VARIANTS)
def test_energy_closes(studies, name):
    """Over the year every joule of fuel and of electricity is accounted for, row by row."""
    result = studies[name].result
    energy = result.energy
    assert energy.fuel == pytest.approx(
        energy.electric + energy.jacket + energy.exhaust + energy.radiated + energy.stack, rel=1e-6
    )
    assert energy.electric + energy.sources + energy.unserved == pytest.approx(energy.served + energy.lost, rel=1e-6)
    assert energy.served == pytest.approx(sum(row.energy for row in result.loads), rel=1e-6)
    assert energy.electric == pytest.approx(sum(row.energy for row in result.sets), rel=1e-6)
    assert sum(result.fuel) == pytest.approx(sum(row.fuel for row in result.sets), rel=1e-6, abs=1e-6)
    days = np.array(MONTH_DAYS)
    wanted = float((np.array(result.load).sum(axis=1) * days).sum() * 3600.0)
    assert wanted == pytest.approx(energy.electric + energy.unserved, rel=1e-6)
    recovered = float(((np.array(result.jacket) + np.array(result.exhaust)).sum(axis=1) * days).sum() * 3600.0)
    assert recovered == pytest.approx(energy.jacket + energy.exhaust, rel=1e-6, abs=1e-6)
    if result.feeders:
        assert energy.lost == pytest.approx(sum(row.energy_lost for row in result.feeders), rel=1e-6)  # fmt: skip


load_list = st.lists(
    st.tuples(st.sampled_from(["Hut 1 board", "Hut 2 board", "Camp board"]), st.floats(0.0, 9e3), st.floats(0.0, 1.0),
              st.floats(0.5, 1.0), st.sampled_from([None, "people", "cooking"]), st.sampled_from([None, "summer"]),
              st.booleans(), st.one_of(st.none(), st.integers(1, 4))),
    min_size=1, max_size=8)  # fmt: skip


@given(load_list, st.floats(1.0, 1.6))
def test_energy_closes_for_random_load_lists(rows, diversity):
    """Whatever hangs on the net, a plain sum over the hours of the year finds the same energy, fuel and heat."""
    loads = {
        f"load {i}": Load(board=b, power=f"{p} W", demand_factor=d, power_factor=c, day=day, year=year,
                          essential=essential, shed=None if essential else shed)
        for i, (b, p, d, c, day, year, essential, shed) in enumerate(rows)
    }  # fmt: skip
    station = changed(FIRST, loads=loads, diversity=diversity)
    result = study(station).result
    plan, energy = station.power, result.energy
    served = fuel = given_out = 0.0
    one = plan.sets["camp sets"]
    power = 6e3 * 0.78
    for month, days in enumerate(MONTH_DAYS):
        for hour in range(24):
            together = sum(
                x.power * x.demand_factor * (plan.days[x.day][hour] if x.day else 1.0)
                * (plan.years[x.year][month] if x.year else 1.0) for x in loads.values()) / diversity  # fmt: skip
            served += together * days * 3600
            wanted = result.load[month][hour]
            assert wanted >= together * (1 - 1e-9)
            count = result.running[month][hour]
            fewest = next((n for n in range(1, 5) if wanted <= 0.9 * n * power * (1 + 1e-12)), 4)
            assert count == (0 if wanted == 0 else fewest)
            out = min(wanted, count * power)
            given_out += out * days * 3600
            idle = (0.75 + 1.15 + 1.55 + 2.0) / 4 - _slope() * 0.625
            fuel += (idle * count + _slope() * out / 6e3) / 3.6e6 * days * 3600 * result.sets[0].fuel_factor
    assert energy.served == pytest.approx(served, rel=1e-6)
    assert energy.electric == pytest.approx(given_out, rel=1e-6)
    assert sum(result.fuel) == pytest.approx(fuel * plan.fuel.density, rel=1e-6, abs=1e-9)
    assert energy.electric + energy.unserved == pytest.approx(energy.served + energy.lost, rel=1e-6)
    assert energy.radiated == pytest.approx(0.1 * fuel * plan.fuel.heating_value, rel=1e-6)
    assert energy.stack == pytest.approx(energy.fuel - energy.electric - energy.radiated, rel=1e-6)
    assert one.jacket_heat == energy.jacket == 0


def _slope():
    """Slope of the first example's fuel table by hand, L/h per unit of load."""
    x, y = (0.25, 0.5, 0.75, 1.0), (0.75, 1.15, 1.55, 2.0)
    mean = sum(y) / 4
    return sum((a - 0.625) * (b - mean) for a, b in zip(x, y, strict=True)) / sum((a - 0.625) ** 2 for a in x)


def test_no_power_is_not_checked():
    """A file without power gives one open question and no work."""
    made = study(FIRST.model_copy(update={"power": None}))
    assert [c.verdict for c in made.checks] == [Verdict.NOT_CHECKED]
    assert not made.work_items


def test_memo_changes_nothing():
    """With a memo, and asked twice, the answers are the same."""
    memo = Memo()
    one, again = study(FULL, memo), study(FULL, memo)
    assert one == again == study(FULL)


def test_loads_of_other_studies_are_counted():
    """Tracing and pumps that are handed over raise load and fuel by what they take, and close the open question."""
    row = (6e3,) * 6 + (2e3,) * 6
    with_them = study(FULL, loads={"tracing": row, "nothing": (0.0,) * 12})
    without = study(FULL, loads={})
    assert not [c for c in with_them.checks if c.key == "power.other_loads"]
    assert [c for c in study(FULL).checks if c.key == "power.other_loads"]
    more = with_them.result.energy.served - without.result.energy.served
    assert more == pytest.approx(sum(w * d * 86400 for w, d in zip(row, MONTH_DAYS, strict=True)) / 1.05)
    assert sum(with_them.result.fuel) > sum(without.result.fuel)
    assert next(r for r in with_them.result.loads if r.name == "tracing").essential


def test_other_fuel_shortens_the_stock():
    """What heaters burn is taken from the same tanks."""
    plain, more = study(FULL).result.resupply, study(FULL, other_fuel=(10e3,) * 12).result.resupply
    assert more.needed == pytest.approx(plain.needed + 120e3)
    assert more.lasts < plain.lasts


def test_waste_heat_that_is_used_does_not_warm_the_room(studies):
    """With radiators in the room, heat taken by others is heat that the room does not get."""
    station = VARIANTS["radiator in the room"]
    waste = studies["radiator in the room"].result.waste
    warm = studies["radiator in the room"].result.gains["Plant 1"]
    half = study(station, waste_used=tuple(w / 2 for w in waste)).result.gains["Plant 1"]
    none = study(station, waste_used=waste).result.gains["Plant 1"]
    outside = study(sets_changed(station, "Plant 1 sets", radiator="outside")).result.gains["Plant 1"]
    assert none == pytest.approx(outside)
    assert [2 * h for h in half] == pytest.approx([a + b for a, b in zip(warm, none, strict=True)])


def test_waste_heat_is_what_the_load_of_the_hour_gives(studies):
    """Jacket heat is 0.85 of what the sets give in that hour, exhaust its own share, never more."""
    result = studies["radiator in the room"].result
    assert np.array(result.jacket) == pytest.approx(0.85 * np.array(result.load))
    assert np.array(result.exhaust) == pytest.approx(0.3 * np.array(result.load))
    assert result.waste == pytest.approx((np.array(result.jacket) + np.array(result.exhaust)).mean(axis=1))


def test_waste_heat_is_as_much_as_was_measured_elsewhere(studies):
    """Jacket heat per rated power of the running sets lies within 20 % of 100 kW from a 225 kW set (blythe_2014)."""
    result = studies["full"].result
    rated = sum(row.set_hours * row.rated for row in result.sets) / 8760
    assert sum(result.waste) / 12 / rated == pytest.approx(100 / 225, rel=0.2)


def test_a_stated_source_takes_load_from_the_sets(studies):
    """A source of 80 kW takes just that, adds its heat, leaves its own design open, and is lost with its place."""
    made, plain = studies["a source"], studies["full"].result
    assert np.array(made.result.load) == pytest.approx(np.array(plain.load) - 80e3, rel=1e-9)
    assert made.result.energy.sources == pytest.approx(80e3 * YEAR_SECONDS)
    assert made.result.gains["Plant 2"][0] > plain.gains["Plant 2"][0] + 4.9e3
    assert found(made, "stated_source").verdict == Verdict.NOT_CHECKED
    lost = {x.place: x for x in made.result.lost_places}
    assert lost["Plant 1"].essential < lost["Plant 2"].essential
    huge = StatedSource(where="Plant 2", board="Main board B", electric="2 MW", firm=True)
    full_cover = study(changed(FULL, stated_sources={"huge": huge})).result
    assert full_cover.energy.electric == 0
    assert full_cover.energy.curtailed > 0


def test_one_set_too_few_fails():
    """With one set there is none left when it fails."""
    made = study(sets_changed(FIRST, "camp sets", count=1))
    assert found(made, "n_plus_one").verdict == Verdict.FAILS


def test_sets_in_one_room_are_lost_together():
    """All sets in one place fail the question of a lost place, however many there are."""
    sets = {"Plant 1 sets": FULL.power.sets["Plant 1 sets"].model_copy(update={"count": 6})}
    made = study(changed(FULL, sets=sets))
    assert found(made, "n_plus_one").verdict == Verdict.HOLDS
    assert found(made, "place_lost").verdict == Verdict.FAILS


def test_loads_behind_a_lost_board_are_named():
    """Without the open feeders the west is cut off when Plant 1 is lost, and the check fails by name."""
    closed = {n: f for n, f in FULL.power.feeders.items() if not f.normally_open}
    check = found(study(changed(FULL, feeders=closed)), "place_lost", "Plant 1")
    assert check.verdict == Verdict.FAILS
    assert "Passage lights west" in check.reason


def test_idling_sets_are_found():
    """A set that is far too large idles: below its least load every hour of the season."""
    made = study(sets_changed(FIRST, "camp sets", rated=80e3))
    assert found(made, "least_load").verdict == Verdict.FAILS
    assert made.result.sets[0].hours_below == pytest.approx(made.result.sets[0].set_hours)


def test_impossible_heat_is_found():
    """Heat from jacket and exhaust beyond what the fuel holds fails."""
    assert found(study(sets_changed(FULL, "Plant 1 sets", exhaust_heat=1.2)), "heat_balance").verdict == Verdict.FAILS


def test_a_rosy_site_factor_is_found():
    """A site factor above every published rule fails; none at all is not checked and the lowest rule is used."""
    assert found(study(sets_changed(FULL, "Plant 1 sets", site_factor=0.99)), "derating").verdict == Verdict.FAILS
    made = study(VARIANTS["no site factor"])
    assert found(made, "derating", "Plant 1").verdict == Verdict.NOT_CHECKED
    assert made.result.sets[0].factor < 0.74


def test_loads_go_in_their_order():
    """Loads are switched off from the first order to the last; an essential load is in no step."""
    steps = study(FULL).result.shedding
    assert [step.order for step in steps] == sorted(step.order for step in steps)
    essential = {n for n, x in FULL.power.loads.items() if x.essential}
    assert not essential & {name for step in steps for name in step.loads}
    assert all(a.left >= b.left for a, b in zip(steps, steps[1:], strict=False))
    assert all(a.hours >= b.hours for a, b in zip(steps, steps[1:], strict=False))
    assert steps[-1].left == pytest.approx(sum(r.at_peak for r in study(FULL).result.loads if r.essential))


def test_running_sets_bridge_a_failure():
    """With two sets always running the essential loads go on; with one and no batteries told it is not checked."""
    assert found(study(changed(FULL, running_at_least=2, longest_gap=None)), "one_fails").verdict == Verdict.HOLDS
    assert found(study(changed(FULL, longest_gap=None)), "one_fails").verdict == Verdict.NOT_CHECKED
    assert found(study(changed(FULL, longest_gap=10.0)), "one_fails").verdict == Verdict.FAILS


def test_a_thin_cable_drops_too_much():
    """With branch cables of 1.5 mm2 the kitchen's board fails and its current is beyond the maker's figure."""
    cables = {**FULL.power.cables,
              "branch cable": FULL.power.cables["branch cable"].model_copy(update={"section": 1.5e-6,
              "ampacity": 18.0})}  # fmt: skip
    made = study(changed(FULL, cables=cables))
    assert found(made, "voltage_drop", "North 7").verdict == Verdict.FAILS
    assert found(made, "current", "To North 7").verdict == Verdict.FAILS


def test_a_net_that_cannot_carry_its_loads_says_so(studies):
    """Beyond what the cables can carry there is no voltage: every board fails, and all figures stay finite."""
    made = studies["beyond all reason"]
    assert {c.verdict for c in made.checks if c.key == "power.voltage_drop"} == {Verdict.FAILS}
    assert math.isfinite(made.result.energy.lost)


def test_a_higher_voltage_drops_less():
    """The same feeder at 3 kV behind transformers loses less in its cable; the drop is mostly that of transformers."""
    from firnstead.station.power import Transformer

    pair = Transformer(rating="160 kVA", resistance=0.012, reactance=0.04, mass="700 kg", volume="1.5 m3")
    feeders = {**FULL.power.feeders, "A to West": FULL.power.feeders["A to West"].model_copy(
        update={"voltage": 3000.0, "transformer": pair, "length": 2000.0})}  # fmt: skip
    high = study(changed(FULL, feeders=feeders))
    feeders["A to West"] = feeders["A to West"].model_copy(update={"voltage": None, "transformer": None})
    low = study(changed(FULL, feeders=feeders))
    drop = {made: found(made_study, "voltage_drop", "West").demand for made, made_study in (("h", high), ("l", low))}
    assert drop["h"] < drop["l"]
    for check in high.checks:
        assert not [s for s in check.working if s.formula and not math.isclose(evaluate(s), s.value, rel_tol=1e-9)]
    assert [i for i in high.work_items if "transformers" in i.id]


def test_the_working_by_hand_is_near_the_exact_drop():
    """Summing the drops of the feeders by hand comes within 2 % of the exact one."""
    for check in study(FULL).checks:
        if check.key == "power.voltage_drop":
            by_hand = next(s.value for s in check.working if s.symbol == "d")
            assert by_hand == pytest.approx(check.demand, rel=0.02, abs=1e-5)


def test_a_large_motor_asks_for_more():
    """A motor that starts on the line adds to what must stay when a set fails, and its start drops the voltage."""
    water = FULL.power.loads["Water plant"]
    big = water.model_copy(update={"motor": Motor(power="75 kW", starting_current=6.5)})
    made = study(changed(FULL, loads={**FULL.power.loads, "Water plant": big}))
    plain = study(FULL)
    assert found(made, "n_plus_one").demand > found(plain, "n_plus_one").demand
    assert found(made, "start_drop").demand > found(plain, "start_drop").demand
    assert found(made, "motor_start").verdict == Verdict.FAILS


def test_more_cable_weighs_more():
    """Mass on the drums is length times mass per length and the drums; sets, boards and tanks carry theirs."""
    items = {item.id: item for item in study(FULL).work_items}
    drums = {name: (length, count, mass) for name, length, count, mass in study(FULL).result.drums}
    for name, (length, count, mass) in drums.items():
        cable = FULL.power.cables[name]
        assert mass == pytest.approx(length * cable.mass)
        assert items[f"{name}.power.drums"].mass == pytest.approx(mass + count * cable.drum_mass)
        assert length == pytest.approx(sum(
            r.length * r.parallel for r in study(FULL).result.feeders if r.cable == name))  # fmt: skip
    assert items["Plant 1 sets.power.sets"].mass == 3 * 6500
    assert dict(items["Plant 1 sets.power.sets"].parts) == {"generator set": 3.0}
    assert items["field tanks.power.tank"].mass == 26 * 290


@given(st.floats(0.5, 3.0))
def test_more_load_never_needs_less(factor):
    """More load never burns less fuel, never lasts longer, never drops less."""
    loads = {n: x.model_copy(update={"power": x.power * factor}) for n, x in FIRST.power.loads.items()}
    plain, more = study(FIRST), study(changed(FIRST, loads=loads))
    low, high = (plain, more) if factor >= 1 else (more, plain)
    assert sum(high.result.fuel) >= sum(low.result.fuel) * (1 - 1e-9)
    assert high.result.resupply.lasts <= low.result.resupply.lasts * (1 + 1e-9)
    assert found(high, "voltage_drop").demand >= found(low, "voltage_drop").demand * (1 - 1e-9)
