"""The walls study on an example station and on variants of it."""

import math

import pytest

from firnstead import snow
from firnstead.core.memo import Memo
from firnstead.core.results import Verdict
from firnstead.core.units import YEAR
from firnstead.core.working import evaluate
from firnstead.station.build import EndWallOpening, FormedRoof
from firnstead.station.reader import read_station
from firnstead.walls import study
from house.project import ROOT

STATIONS = {name: read_station(ROOT / "examples" / "stations" / name).station for name in ("first", "full")}
SNOW = {name: snow.study(station).result for name, station in STATIONS.items()}
FIRST = STATIONS["first"]
WALL = "North 1 far wall"


def study_first(**changes):
    """The study of the first station with parts of it changed."""
    return study(FIRST.model_copy(update=changes), SNOW["first"])


def with_wall(**changes):
    """End walls of the first station with its wall changed."""
    return {WALL: FIRST.end_walls[WALL].model_copy(update=changes)}


def with_door(**changes):
    """End walls of the first station with a doorway in its wall."""
    row = {"width": 0.9, "height": 2.0, "opens": "inward", "slip_gap": 0.7} | changes
    return {"end_walls": with_wall(door=EndWallOpening.model_construct(**row))}


def with_part(group, name, **changes):
    """A group of the first station with one item changed."""
    items = getattr(FIRST, group)
    return {group: {**items, name: items[name].model_copy(update=changes)}}


def with_rule(group, **changes):
    """Site or design of the first station changed."""
    return {group: getattr(FIRST, group).model_copy(update=changes)}


def found(made, key, subject=""):
    """The check with this key (of this subject)."""
    return next(c for c in made.checks if c.key == f"walls.{key}" and subject in c.subject)


@pytest.mark.parametrize("name", STATIONS)
def test_workings_give_their_values(name):
    """Every formula of every working gives the value that stands beside it, and demand or limit comes out of them."""
    made = study(STATIONS[name], SNOW[name])
    steps = [step for check in made.checks for step in check.working]
    wrong = [s for s in steps if s.formula and not math.isclose(evaluate(s), s.value, rel_tol=1e-9, abs_tol=1e-9)]
    assert steps
    assert not wrong
    for check in made.checks:
        if check.verdict != Verdict.NOT_CHECKED:
            assert {check.demand, check.limit} & {step.value for step in check.working}


@pytest.mark.parametrize("name", STATIONS)
def test_everything_in_the_file_is_answered_and_worked(name):
    """Every end wall, portal and hatch has a result, checks and work items with their own ids."""
    station = STATIONS[name]
    made = study(station, SNOW[name])
    assert set(made.result.end_walls) == set(station.end_walls)
    assert set(made.result.portals) == set(station.portals)
    assert set(made.result.hatches) == set(station.hatches)
    ids = [item.id for item in made.work_items]
    assert len(ids) == len(set(ids))
    assert sum(".walls.build." in i for i in ids) == len(station.end_walls) + len(station.portals)
    assert sum(".walls.ramp." in i for i in ids) == len(station.portals)
    assert sum(".walls.hatch." in i for i in ids) == len(station.hatches)
    named = {check.subject.split('"')[1] for check in made.checks if '"' in check.subject}
    assert named >= {*station.end_walls, *station.portals, *station.hatches}


def test_memo_changes_nothing_and_is_used():
    """With a memo the answers are the same, and walls that did not change are not worked out again."""
    memo = Memo()
    first, again = study(FIRST, SNOW["first"], memo), study(FIRST, SNOW["first"], memo)
    assert first == again == study(FIRST, SNOW["first"])
    assert again.result.end_walls[WALL] is first.result.end_walls[WALL]


def test_stronger_wind_and_thinner_wall_are_worse():
    """A stronger storm and fewer layers use up more of every limit before bonding; enough of either fails."""
    keys = ("overturning", "open_joints", "sliding", "base_pressure")
    calm, storm = study_first(), study_first(**with_rule("site", storm_wind_speed=40.0))
    thin = study_first(end_walls=with_wall(layers=1))
    for key in keys:
        assert found(calm, key, WALL).ratio < found(storm, key, WALL).ratio
        assert found(calm, key, WALL).ratio < found(thin, key, WALL).ratio
    assert found(storm, "overturning", WALL).verdict == Verdict.FAILS


def test_wall_that_tips_fails_everywhere():
    """Where the wind tips the wall its foot pressure has no bound and fails."""
    made = study_first(**with_rule("site", storm_wind_speed=80.0), end_walls=with_wall(layers=1))
    assert found(made, "base_pressure", WALL).verdict == Verdict.FAILS
    assert found(made, "bonded_tension", WALL).verdict == Verdict.FAILS


def test_tension_in_a_bonded_joint_is_never_called_safe():
    """Without tension the foot holds; with some, below the snow's own strength, there is no verdict."""
    calm = study_first(end_walls=with_wall(layers=2))
    windy = study_first(**with_rule("site", storm_wind_speed=26.0), end_walls=with_wall(layers=1))
    assert found(calm, "bonded_tension", WALL).verdict == Verdict.HOLDS
    made = found(windy, "bonded_tension", WALL)
    assert made.demand > 0
    assert made.verdict in (Verdict.NOT_CHECKED, Verdict.FAILS)


def test_wall_round_a_portal_stands():
    """The wall round a portal gets as many layers as it needs, in any storm."""
    for speed in (10.0, 25.0, 45.0):
        made = study_first(**with_rule("site", storm_wind_speed=speed))
        for key in ("overturning", "open_joints", "sliding"):
            assert found(made, key, "portal").verdict != Verdict.FAILS


def test_closing_of_the_snow_is_not_checked():
    """What needs the closure forecast is not checked, with a reason; without an allowance the gaps are not either."""
    made = study_first(**with_rule("design", wall_movement=None))
    for key in ("closing", "hatch_gap"):
        assert found(made, key).verdict == Verdict.NOT_CHECKED
        assert found(made, key).reason


def test_gap_must_last_the_design_life():
    """A gap holds where it is wider than the movement over the design life, and fails where it is not."""
    narrow = found(study_first(**with_part("hatchways", "standard hatch", slip_gap=0.15)), "hatch_gap")
    wide = found(study_first(**with_part("hatchways", "standard hatch", slip_gap=0.7)), "hatch_gap")
    assert narrow.demand == pytest.approx(0.6)
    assert (narrow.verdict, wide.verdict) == (Verdict.FAILS, Verdict.HOLDS)


def test_doorway_saves_blocks_and_brings_its_checks_and_its_leaf():
    """A doorway takes blocks off, is checked, and puts a leaf on the list."""
    plain, door = study_first(), study_first(**with_door())
    assert door.result.end_walls[WALL].blocks < plain.result.end_walls[WALL].blocks
    assert found(door, "door_gap").verdict == Verdict.HOLDS
    assert found(door, "lintel", WALL).verdict == Verdict.HOLDS
    items = {i.id: i for i in door.work_items}
    assert items["North 1.walls.door.end"].parts[0][1] == 1.0
    assert items["North 1.walls.door.end"].mass > 0
    assert items["North 1.walls.beam.end"].parts == (("plank lateral arch", found(door, "lintel", WALL).demand),)
    assert not [i for i in study_first(**with_door(opens="none")).work_items if ".door." in i.id]


def test_door_that_opens_outward_is_held_by_drift():
    """An outward door fails against drift as high as itself, an inward one holds, an open way is not asked."""
    assert found(study_first(**with_door(opens="outward")), "door_opens").verdict == Verdict.FAILS
    assert found(study_first(**with_door(opens="inward")), "door_opens").verdict == Verdict.HOLDS
    open_way = study_first(**with_door(opens="none"))
    assert not [c for c in open_way.checks if c.key == "walls.door_opens"]


def test_beam_over_a_doorway_needs_planks_that_reach():
    """Without planks, or with planks too short for the opening, the beam is not checked; thin ones fail."""
    roof = FIRST.roofs["lateral arch"]
    formed = FormedRoof.model_construct(kind="formed", span=4.9, rise=1.35, cover=0.9, form_length=10.0)
    bare = study_first(**with_door(), roofs={"lateral arch": formed})
    assert found(bare, "lintel", WALL).verdict == Verdict.NOT_CHECKED
    wide = study_first(**with_door(width=3.6))
    assert found(wide, "lintel", WALL).verdict == Verdict.NOT_CHECKED
    weak = roof.model_copy(update={"plank": roof.plank.model_copy(update={"width": 0.1, "length": 8.0})})
    thin = study_first(**with_door(width=2.5), roofs={"lateral arch": weak})
    assert found(thin, "lintel", WALL).verdict == Verdict.FAILS


def test_vehicle_must_fit_the_portal():
    """A portal narrower or lower than the vehicle fails; a wide and high one holds; its slope is not checked."""
    tight = study_first(**with_part("portals", "North 1 portal", width=2.4, height=2.6))
    roomy = study_first(**with_part("portals", "North 1 portal", width=4.0, height=4.0))
    for key in ("portal_width", "portal_height"):
        assert found(tight, key).verdict == Verdict.FAILS
        assert found(roomy, key).verdict == Verdict.HOLDS
    assert found(roomy, "ramp_grade").verdict == Verdict.NOT_CHECKED
    on_foot = study_first(**with_part("portals", "North 1 portal", vehicle=None))
    assert not [c for c in on_foot.checks if c.key in ("walls.portal_width", "walls.ramp_grade")]


def test_portal_wider_than_the_cut_fails():
    """A portal that is wider than the cut at its head fails."""
    made = study_first(**with_part("portals", "North 1 portal", width=4.8, height=5.0))
    assert found(made, "portal_fits").verdict == Verdict.FAILS


def test_ramp_along_or_across_the_storm_wind_fails():
    """A ramp straight along or across the storm wind fails; at 45 degrees it uses nothing of the tolerance."""
    for wind, verdict in ((0.0, Verdict.FAILS), (90.0, Verdict.FAILS), (45.0, Verdict.HOLDS), (225.0, Verdict.HOLDS)):
        assert found(study_first(**with_rule("site", storm_wind_from=wind)), "wind_angle").verdict == verdict


def test_ramp_behind_a_hatch_is_named():
    """A hatch straight upwind of the ramp at twenty of its heights puts the ramp into its belt."""
    # The trench runs north, the ramp leads south from its start; the hatch's lid is 2.1 m above the snow.
    made = study_first(**with_part("hatches", "North 1 hatch", at=1.0), **with_rule("site", storm_wind_from=0.0))
    belt = found(made, "drift_belt")
    assert belt.verdict == Verdict.FAILS
    assert "North 1 hatch" in belt.working[0].text
    assert found(study_first(**with_rule("site", storm_wind_from=90.0)), "drift_belt").verdict == Verdict.HOLDS


@pytest.mark.parametrize("factor", [1.0, 1.2, 2.0, 4.0])
def test_more_accumulation_never_shortens_a_shaft(factor):
    """With more accumulation a shaft is at least as long, is buried earlier and needs at least as many rings."""
    water = FIRST.site.accumulation_water
    less = study_first().result.hatches["North 1 hatch"]
    more = study_first(**with_rule("site", accumulation_water=water * factor)).result.hatches["North 1 hatch"]
    assert more.shaft >= less.shaft
    assert more.rings + more.rings_later >= less.rings + less.rings_later
    if more.rings == less.rings:
        assert more.time_to_buried <= less.time_to_buried


def test_short_hatch_fails_but_the_packing_list_has_enough_rings():
    """A kind of hatch too short for a year's snow fails; the work item takes the rings that are needed."""
    kind = FIRST.hatchways["standard hatch"]
    short = study_first(**with_part("hatchways", "standard hatch", parts={**kind.parts, "hatch ring": 1}))
    assert found(short, "hatch_length").verdict == Verdict.FAILS
    item = next(i for i in short.work_items if ".hatch." in i.id)
    assert dict(item.parts)["hatch ring"] == short.result.hatches["North 1 hatch"].rings > 1
    none = study_first(**with_part("hatchways", "standard hatch", parts={"hatch lid": 1}))
    assert found(none, "hatch_length").verdict == Verdict.NOT_CHECKED


def test_hatch_lid_is_above_the_snow_for_a_year():
    """The shaft as set keeps the lid above the snow for at least a year, with our margin."""
    for station, known in zip(STATIONS.values(), SNOW.values(), strict=True):
        for hatch in study(station, known).result.hatches.values():
            assert hatch.collar >= hatch.rise_rate * YEAR + 0.5 - 1e-9


def test_build_comes_after_quarry_cut_and_roof():
    """The wall is built after its blocks are quarried and its place is cut."""
    items = {i.id: i for i in study_first().work_items}
    assert "North 1.walls.quarry.end" in items["North 1.walls.build.end"].after
    assert "North 1.cutting.cut" in items["North 1.walls.build.end"].after
    assert "North 1.walls.ramp.start" in items["North 1.walls.build.start"].after


def test_blocks_denser_than_the_snow_within_reach_fail():
    """Blocks that are stated denser than any snow down to the deepest floor fail; light ones lie at the surface."""
    heavy = study_first(blocks=FIRST.blocks.model_copy(update={"density": 620.0}))
    assert found(heavy, "block_density").verdict == Verdict.FAILS
    light = study_first(blocks=FIRST.blocks.model_copy(update={"density": 320.0}))
    assert found(light, "block_density").demand == 0.0
