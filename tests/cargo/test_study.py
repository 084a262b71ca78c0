"""The packing list of an example station with work items added by hand."""

import pytest

from firnstead.cargo import study
from firnstead.core.results import Verdict, WorkItem
from firnstead.station.reader import read_station
from house.project import ROOT

STATION = read_station(ROOT / "examples" / "stations" / "first").station


def item(parts, mass=0.0, volume=0.0, **changes):
    """A work item of the one trench that takes parts."""
    row = {"id": "North 1.roof.sheets", "place": "North 1", "discipline": "roof", "what": "sheets", "quantity": 1.0,
           "unit": "piece", "mass": mass, "volume": volume, "parts": parts} | changes  # fmt: skip
    return WorkItem(**row)


HATCH = item((("hatch lid", 1.0), ("hatch ring", 3.0), ("ladder section", 3.0)), id="North 1.walls.hatch.x",
             discipline="walls", after=("North 1.roof.sheets",))  # fmt: skip
SHIMS = item((("levelling shim", 16.0),), id="Hut 1.foundation.shims", discipline="foundation")
SHEETS = item((("arch sheet", 100.0),), mass=4200.0, volume=9.0)


def found(study_made, key):
    """The check with this key."""
    return next(c for c in study_made.checks if c.key == f"cargo.{key}")


def line(study_made, part):
    """The line of this part."""
    return next(row for row in study_made.result.lines if row.part == part)


def test_all_that_is_needed_is_listed_and_the_other_way_round():
    """With everything taken both lists of leftovers are empty, and the verdicts say so."""
    taken = {part for kit in STATION.kits.values() for part in kit.parts} | set(STATION.stores)
    taken |= {part for item in (HATCH, SHEETS, SHIMS) for part, _ in item.parts}
    parts = {name: part for name, part in STATION.parts.items() if name in taken}
    made = study(STATION.model_copy(update={"parts": parts}), (HATCH, SHEETS, SHIMS))
    assert made.result.missing == made.result.unneeded == ()
    assert found(made, "not_listed").verdict == found(made, "not_needed").verdict == Verdict.HOLDS


def test_kit_parts_are_multiplied_by_the_buildings():
    """Two huts of twenty wall panels need forty, and five in a hundred are carried as spares."""
    panel = line(study(STATION, (HATCH,)), "wall panel")
    assert (panel.needed, panel.spares) == (40, 2)
    assert panel.places == (("North 1", 40), ("spares", 2))
    assert panel.kits == (("sleeping hut", 40),)
    assert panel.mass == pytest.approx(42 * 58.0)


def test_part_that_only_a_study_knows_weighs_what_the_item_says():
    """Mass and volume of a part outside the file stand on the item, less what the file's own parts weigh."""
    mixed = item((("arch sheet", 100.0), ("fastener box", 4.0)), mass=4200.0 + 100.0, volume=9.0 + 4 * 0.048)
    sheet = line(study(STATION, (HATCH, mixed)), "arch sheet")
    assert sheet.mass_each == pytest.approx(42.0)
    assert sheet.volume_each == pytest.approx(0.09)
    assert sheet.size is None
    assert not sheet.listed


def test_size_of_planks_and_sheets_comes_from_the_roof():
    """Planks and sheets have the roof's sizes; of other parts of a study only small ones pass without a size."""
    plank, bolt = item((("plank lateral arch", 10.0),), mass=450.0, volume=0.81), item((("bolt set", 9.0),), 2.0, 1e-3)
    sheet = item((("arch sheet lateral arch", 10.0),), mass=530.0, volume=0.2)
    made, roof = study(STATION, (HATCH, plank, bolt, sheet)), STATION.roofs["lateral arch"]
    timber = roof.plank
    assert line(made, "plank lateral arch").size == pytest.approx(
        (timber.length, timber.width, 0.081 / timber.length / timber.width)
    )
    assert line(made, "arch sheet lateral arch").longest == pytest.approx(roof.sheet_length)
    assert not [c for c in made.checks if c.key == "cargo.longest_worked_out"]
    assert found(study(STATION, (HATCH, SHEETS)), "longest_worked_out").verdict == Verdict.NOT_CHECKED


def test_part_without_mass_fails_by_name():
    """A part that nobody gives a mass is named, and the list fails."""
    made = study(STATION, (HATCH, item((("mystery", 2.0),))))
    assert made.result.missing == ("mystery",)
    assert found(made, "not_listed").verdict == Verdict.FAILS
    assert "mystery" in found(made, "not_listed").reason


def test_part_that_nothing_needs_is_named():
    """A part in the file that nothing takes is named, and so is a kit that no building uses."""
    made = study(STATION.model_copy(update={"buildings": {}}), (HATCH,))
    assert "kit sleeping hut" in made.result.unneeded
    assert "wall panel" in made.result.unneeded
    assert found(made, "not_needed").verdict == Verdict.CLOSE


def test_piece_that_nothing_carries_fails():
    """A part longer than every means of transport allows is named and fails."""
    parts = {**STATION.parts, "floor beam": STATION.parts["floor beam"].model_copy(update={"size": (13.0, 0.3, 0.2)})}
    made = study(STATION.model_copy(update={"parts": parts}), (HATCH,))
    assert found(made, "fits").verdict == found(made, "longest").verdict == Verdict.FAILS
    assert "floor beam" in found(made, "fits").reason


def test_no_transport_is_not_checked():
    """Without means of transport nothing about carrying is answered."""
    made = study(STATION.model_copy(update={"transport": {}}), (HATCH,))
    assert {found(made, key).verdict for key in ("fits", "capacity", "order_of_loading")} == {Verdict.NOT_CHECKED}


def test_too_few_trips_fail():
    """Planned trips that cannot carry the mass fail, and no number of trips is given."""
    transport = {"sled train": STATION.transport["sled train"].model_copy(update={"trips": 0})}
    made = study(STATION.model_copy(update={"transport": transport}), (HATCH,))
    assert found(made, "mass").verdict == Verdict.FAILS
    assert made.result.fewest_trips is None


def test_order_of_need_follows_the_work():
    """Machines and stores come first, sheets with the first work, the hatch after them, the huts after the roof."""
    made = study(STATION, (HATCH, SHEETS))
    steps = {row.part: row.first_step for row in made.result.lines}
    assert steps["tractor"] == steps["ration box"] == steps["arch sheet"] == 0
    assert steps["hatch lid"] == steps["wall panel"] == 1
    assert [row.first_step for row in made.result.lines] == sorted(steps.values())


def test_buildings_are_put_up_under_the_roof():
    """Each building is a work item with its kit's person-hours shared by the crew, after the roof of its place."""
    huts = study(STATION, (SHEETS,)).work_items
    assert [hut.id for hut in huts] == ["Hut 1.cargo.put_up", "Hut 2.cargo.put_up"]
    assert all(hut.hours * hut.people == pytest.approx(60.0) for hut in huts)
    assert all(hut.after == ("North 1.roof.sheets",) for hut in huts)


def test_machine_with_the_name_of_a_part_has_its_own_line():
    """A machine and a part of one name do not share a line."""
    parts = {**STATION.parts, "tractor": STATION.parts["ration box"]}
    made = study(STATION.model_copy(update={"parts": parts, "stores": {"tractor": 3}}), (HATCH,))
    assert line(made, "tractor (machine)").mass_each == pytest.approx(12e3)
    assert line(made, "tractor").needed == 3


def test_the_list_adds_up_and_does_not_depend_on_the_order_of_the_work():
    """The lines hold everything once with the total mass, whatever the order in which work items come."""
    one, other = study(STATION, (HATCH, SHEETS)).result, study(STATION, (SHEETS, HATCH)).result
    assert [(line.part, line.pieces) for line in one.lines] == [(line.part, line.pieces) for line in other.lines]
    assert sum(line.mass for line in one.lines) == pytest.approx(one.mass)
