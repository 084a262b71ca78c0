"""The study on the example stations and on stations changed in one point."""

from datetime import timedelta
from math import ceil
from typing import Any

import pytest

from firnstead import snow
from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, Verdict
from firnstead.core.working import evaluate
from firnstead.cutting import study
from firnstead.station import Station, StationFile

CUT_BY_MILLER = ("set_out", "bench", "cut", "relief", "throw_again")


def run(station: Station, memo: Memo | None = None, **more: Any) -> Study:
    """The cutting study of a station with its own snow."""
    return study(station, snow.study(station).result, memo, **more)


def checked(found: Study, key: str, place: str = "North 1") -> Check:
    """The first check of a key at a place."""
    return next(c for c in found.checks if c.key == f"cutting.{key}" and c.place == place)


def changed(station: Station, group: str, name: str, **fields: Any) -> Station:
    """The station with one entry of one group changed."""
    entries = getattr(station, group)
    return station.model_copy(update={group: {**entries, name: entries[name].model_copy(update=fields)}})


@pytest.fixture(scope="module")
def small(first: StationFile) -> Station:
    """The one-trench station."""
    return first.station


@pytest.fixture(scope="module")
def large(full: StationFile) -> Study:
    """The study of the full station."""
    return run(full.station)


def test_every_formula_gives_its_value(large):
    """Numbers put into the formula of each working step give the value beside it."""
    steps = [(c.key, s) for c in large.checks for s in c.working if s.formula]
    wrong = [(key, s.symbol) for key, s in steps if evaluate(s) != pytest.approx(s.value, rel=1e-9, abs=1e-9)]
    assert steps
    assert not wrong


def test_workings_end_in_demand_or_limit(large):
    """Every check's demand and limit come from its working or are figures of the station file."""
    from_file = {
        "bench_bearing",
        "reach",
        "shift",
        "stated_output",
        "operators",
        "at_once",
        "wide_undercut",
        "cover_snow",
    }
    for c in large.checks:
        values = [s.value for s in c.working]
        found = [any(v == pytest.approx(x) for v in values) for x in (c.demand, c.limit)]
        assert all(found) or (any(found) and c.key.removeprefix("cutting.") in from_file), c.key


def test_snow_is_kept(full, large):
    """Of every place: rows give the volume and the mass, the bank holds the mass, cover and rest make it up."""
    thrown = full.station.snow.milled.density_thrown
    for cut in large.result.places.values():
        assert sum(r.volume for r in cut.plan) == pytest.approx(cut.snow.in_place)
        assert sum(r.volume * r.density for r in cut.plan) == pytest.approx(cut.snow.mass)
        assert cut.snow.thrown * thrown == pytest.approx(cut.snow.mass)
        assert cut.snow.left + min(cut.snow.cover, cut.snow.mass) == pytest.approx(cut.snow.mass)
        assert cut.snow.in_place == pytest.approx(cut.section.area * cut.length)
    total = large.result
    assert total.mass == pytest.approx(sum(c.snow.mass for c in total.places.values()))


def test_hours_are_those_of_the_work_items(large):
    """Each miller's hours are the hours of its work items, and of the places; all are above nothing."""
    for name, miller in large.result.millers.items():
        items = [i for i in large.work_items if i.machine == name]
        assert {i.id.rsplit(".", 1)[1] for i in items} <= set(CUT_BY_MILLER)
        assert sum(i.hours for i in items) == pytest.approx(miller.hours)
        assert all(i.hours > 0 for i in items)
        assert sum(c.hours.get(name, 0.0) for c in large.result.places.values()) == pytest.approx(miller.hours)


def test_work_items_follow_items_that_exist(large):
    """Ids are unique, and every `after` names an item of the list."""
    ids = [i.id for i in large.work_items]
    assert len(set(ids)) == len(ids)
    assert {a for i in large.work_items for a in i.after} <= set(ids)


def test_planks_lie_on_both_benches(small):
    """Planks cover the length of the cut on both sides, and people are off the bench before the cut goes on."""
    items = {i.id: i for i in run(small).work_items}
    planks = items["North 1.cutting.planks"]
    plank = small.roofs["lateral arch"].plank
    assert planks.quantity == 2 * ceil(small.trenches["North 1"].length / plank.length - 1e-9)
    assert "North 1.cutting.bench" in planks.after
    assert set(items["North 1.cutting.cut"].after) == {"North 1.cutting.bench", "North 1.cutting.planks"}


def test_the_shallowest_cut_has_all_its_items(small):
    """A cut of a single pass still has the items that other work waits for."""
    flat = changed(small, "sections", "lateral", kind="straight", top_width=4.4, floor_width=4.4, undercut_from=None,
                   depth=0.9, bench_width=0.0, bench_depth=0.0)  # fmt: skip
    found = run(flat)
    assert len(found.result.places["North 1"].plan) == 1
    assert {"North 1.cutting.bench", "North 1.cutting.planks", "North 1.cutting.cut"} <= {
        i.id for i in found.work_items
    }


def test_a_memo_changes_nothing(full, large):
    """With a memo kept between calls the study is the same, and a changed trench changes only itself and totals."""
    memo = Memo()
    assert run(full.station, memo) == run(full.station, memo) == large
    longer = changed(full.station, "trenches", "North 3", length=44.0)
    again = run(longer, memo)
    assert again == run(longer)
    differing = {n for n, c in again.result.places.items() if c != large.result.places[n]}
    assert differing == {"North 3"}


def test_snow_inside_the_passage_is_not_counted_again(full):
    """A trench that starts in the middle of its passage cuts as much as one that starts at the passage's wall."""
    station = full.station
    at = station.trenches["North 3"].start
    half = station.sections["passage"].top_width / 2 + station.sections["passage"].bench_width
    lengths = {"wall": (half, 40.0), "middle": (0.0, 40.0 + half)}
    cut = {
        name: run(changed(station, "trenches", "North 3", start=(at[0], y), length=n)).result.places["North 3"]
        for name, (y, n) in lengths.items()
    }
    assert cut["wall"].snow.in_place == pytest.approx(cut["middle"].snow.in_place)
    # below the bench the passage is narrower, so the trench's passes start nearer to its axis
    assert cut["wall"].plan[0].length == pytest.approx(40.0)
    assert cut["wall"].plan[-1].length == pytest.approx(40.0 + station.sections["passage"].bench_width)
    assert cut["wall"].hand_volume == 0.0


def test_links_and_niches_are_dug_by_hand(full, large):
    """A link goes through the snow left to the passage's wall at its height; niches are counted with their place."""
    station = full.station
    trench = station.trenches["North 1"]
    passage = station.sections["passage"]
    gap = trench.start[1] - passage.top_width / 2
    cut = large.result.places["North 1"]
    assert cut.hand_volume == pytest.approx(trench.link.width * trench.link.height * gap)
    niches = sum(n.width * n.depth * n.height for n in station.niches.values() if n.place == "Main")
    assert large.result.places["Main"].hand_volume == pytest.approx(niches)
    link = next(i for i in large.work_items if i.id == "North 1.cutting.link")
    assert link.hours * link.people == pytest.approx(cut.hand_hours)
    assert {"North 1.cutting.cut", "Main.cutting.cut"} == set(link.after)


def test_denser_snow_takes_longer(small):
    """The same cut in denser snow takes more hours and more mass, never fewer."""
    layers = tuple(x.model_copy(update={"density": 1.1 * x.density}) for x in small.snow.layers)
    denser = small.model_copy(update={"snow": small.snow.model_copy(update={"layers": layers})})
    light, heavy = run(small).result.places["North 1"], run(denser).result.places["North 1"]
    assert heavy.snow.mass > light.snow.mass
    assert all(h.hours > r.hours for h, r in zip(heavy.plan, light.plan, strict=True))


def test_too_short_a_reach_fails(small):
    """A miller that cannot reach under the wall cannot make the undercut, and the floor is left narrower."""
    found = run(changed(small, "machines", "miller 1", sideways_reach=0.01))
    assert checked(found, "reach").verdict is Verdict.FAILS
    assert found.result.places["North 1"].section.floor_width < small.sections["lateral"].floor_width
    assert checked(run(small), "reach").verdict is Verdict.HOLDS


def test_a_low_throw_needs_a_second_miller(small):
    """A throw too low for the depth fails with one miller and holds with two, whose hours are counted."""
    low = changed(small, "machines", "miller 1", cast_height=6.0)
    alone, two = run(low), run(changed(low, "machines", "miller 1", count=2))
    assert checked(alone, "cast_height").verdict is Verdict.FAILS
    assert checked(two, "cast_height").verdict is not Verdict.FAILS
    cut = two.result.places["North 1"]
    assert 0 < cut.snow.thrown_twice <= cut.snow.mass
    assert cut.hours["miller 1"] > run(small).result.places["North 1"].hours["miller 1"]


def test_a_heavy_machine_or_weak_snow_fails_the_wall(small):
    """More pressure at the edge uses more of the wall; too much fails, with the caution beside it."""
    pressed = changed(small, "machines", "tractor", ground_pressure=120e3)
    here, there = checked(run(small), "wall_stands"), checked(run(pressed), "wall_stands")
    assert here.verdict is Verdict.HOLDS
    assert there.verdict is Verdict.FAILS
    assert there.caution
    assert checked(run(pressed), "bench_bearing").verdict is Verdict.FAILS


def test_a_wider_undercut_hangs_more(small):
    """The overhang is used more the farther the floor goes under the wall, until it fails; a straight cut has none."""
    top = small.sections["lateral"].top_width
    floors = (top + 0.6, top + 1.6, top + 2.6, top + 5.0)
    wider = [checked(run(changed(small, "sections", "lateral", floor_width=w)), "ledge") for w in floors]
    ratios = [c.ratio for c in wider]
    assert ratios == sorted(ratios)
    assert (wider[0].verdict, wider[-1].verdict) == (Verdict.HOLDS, Verdict.FAILS)
    assert "overhang" in wider[-1].caution
    straight = changed(small, "sections", "lateral", kind="straight", floor_width=top, undercut_from=None)
    assert not [c for c in run(straight).checks if c.key in ("cutting.ledge", "cutting.reach")]


def test_a_short_season_is_too_short(small):
    """Fewer days offer fewer miller hours; a season of half a day's work fails."""
    season = small.season.model_copy(update={"end": small.season.start + timedelta(days=1), "outdoor_share": 0.1})
    found = run(small.model_copy(update={"season": season}))
    assert next(c for c in found.checks if c.key == "cutting.season_hours").verdict is Verdict.FAILS


def test_buildings_must_fit(small):
    """A wider or higher building than the section takes fails; the one of the example fits."""
    fits = run(small)
    assert checked(fits, "building_width").verdict is not Verdict.FAILS
    assert checked(fits, "headroom").verdict is Verdict.HOLDS
    large = run(changed(small, "kits", "sleeping hut", width=5.0, height=6.0))
    assert checked(large, "building_width").verdict is Verdict.FAILS
    assert checked(large, "headroom").verdict is Verdict.FAILS


def test_neighbours_leave_less_room_for_the_bank(full, large):
    """Trenches moved together leave no room for the snow of both."""
    start = full.station.trenches["North 2"].start
    near = changed(full.station, "trenches", "North 3", start=(start[0] + 9.0, start[1]))
    near = changed(near, "trenches", "North 1", start=(start[0] - 9.0, start[1]))
    assert checked(large, "spoil_fits", "North 2").verdict is Verdict.HOLDS
    assert checked(run(near), "spoil_fits", "North 2").verdict is Verdict.FAILS


def test_the_undercut_is_set_beside_the_straight_cut(full, large):
    """Undercut trenches save span and snow; straight ones have no such page; steel only where its mass is given."""
    assert large.result.places["Plant 1"].undercut is None
    gain = large.result.places["North 1"].undercut
    section = full.station.sections["lateral"]
    assert gain.span_straight - gain.span == pytest.approx(section.floor_width - section.top_width)
    assert gain.sheet_saved > 0
    assert gain.steel_saved is None
    given = run(full.station, sheet_mass={"lateral arch": 26.0}).result.places["North 1"].undercut
    assert given.steel_saved == pytest.approx(26.0 * gain.sheet_saved)


def test_the_widest_cuts_take_three_millers_and_a_relief_cut(full, large):
    """Plant trenches of 40 ft ask for three millers and have a relief cut; the others do not."""
    assert checked(large, "at_once", "Plant 1").demand == 3
    assert large.result.places["Plant 1"].relief_volume > 0
    assert any(i.id == "Plant 1.cutting.relief" for i in large.work_items)
    assert large.result.places["North 1"].relief_volume == 0
    few = run(changed(full.station, "machines", "miller", count=2))
    assert checked(few, "at_once", "Plant 1").verdict is Verdict.FAILS


def test_work_is_shared_between_kinds_of_miller(full):
    """Two kinds of equal millers each get a part of the places; one that cannot make an undercut gets none of those."""
    machine = full.station.machines["miller"]
    other = machine.model_copy(update={"count": 3})
    both = run(full.station.model_copy(update={"machines": {**full.station.machines, "second": other}}))
    used = [sum(c.miller == n for c in both.result.places.values()) for n in ("miller", "second")]
    assert min(used) >= 5
    stiff = machine.model_copy(update={"sideways_reach": 0.0})
    mixed = run(full.station.model_copy(update={"machines": {**full.station.machines, "second": stiff}}))
    assert all(c.miller == "miller" for c in mixed.result.places.values() if c.undercut is not None)


def test_formed_roofs_have_no_planks(small):
    """Under a roof of formed snow no planks are laid."""
    from firnstead.station.build import FormedRoof

    roof = FormedRoof.model_validate(
        {"kind": "formed", "span": "4.6 m", "rise": "1.4 m", "cover": "1 m", "form_length": "6 m"}
    )
    found = run(small.model_copy(update={"roofs": {"lateral arch": roof}}))
    assert not any("planks" in i.id for i in found.work_items)
    assert found.result.places["North 1"].snow.cover > 0
    # the formed roof is a parabola, so this is its height over its feet at the edge of the building
    section, kit = small.sections["lateral"], small.kits["sleeping hut"]
    over = roof.rise * (1 - (kit.width / roof.span) ** 2)
    assert checked(found, "headroom").demand == pytest.approx(section.depth - section.bench_depth + over)
