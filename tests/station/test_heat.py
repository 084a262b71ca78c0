"""Bad input in the heat part: each mistake is a problem with its line and a cure."""

import pytest

from firnstead.core.errors import InputError
from firnstead.station import parse_station
from firnstead.station.reader import read_station
from house.project import ROOT

FOLDER = ROOT / "examples" / "stations" / "first"
TEXT = (FOLDER / "station.yaml").read_text(encoding="utf-8")
GAP = "gap: {kind: trench air, flow: 0.25 m3/s, fan_power: 15 W}"
LAYER = "thickness: 120 mm, conductivity: 0.028 W/m/K"


def problems(old, new):
    """What the reader says of the first station with one piece of its text changed."""
    assert TEXT.count(old) == 1, old
    with pytest.raises(InputError) as caught:
        parse_station(TEXT.replace(old, new), FOLDER / "station.yaml")
    return caught.value.problems


@pytest.mark.parametrize(
    ("old", "new", "where"),
    [
        (LAYER, "thickness: -120 mm, conductivity: 0.028 W/m/K", "thickness"),
        (LAYER, "thickness: 120 mm, conductivity: -0.028 W/m/K", "conductivity"),
        (LAYER, LAYER + ", on_site: true", "floor.layers"),
        ("walls: {u: 0.20 W/m2/K}", "walls: {}", "walls"),
        ("roof: {u: 0.18 W/m2/K}", "roof: {u: -0.18 W/m2/K}", "roof.u"),
        ("leak_area: 0.008 m2 ", "leak_area: 0.008 m2\n      air_change: 0.2 1/h ", "sleeping hut"),
        (GAP, "gap: {kind: closed, flow: 0.25 m3/s}", "gap.flow"),
        (GAP, "gap: {kind: trench air}", "gap.flow"),
        (GAP, "gap: {kind: well air, flow: 0.2 m3/s}", "gap.supply_temperature"),
        (GAP, "gap: {kind: closed, height: 0.9 m}", "gap.height"),
        ("opening_area: 3.0 m2", "opening_area: 150 m2", "opening_area"),
        ("supply_temperature: -22.5 degC", "supply_temperature: -40 degC", "supply_temperature"),
        ("- {kind: gravity, area: 0.5 m2", "- {kind: gravity, flow: 0.5 m3/s", "vents"),
        ("- {kind: gravity, area: 0.5 m2", "- {kind: fan, area: 0.5 m2", "flow"),
        ("part: vent duct}", "part: went duct}", "part"),
        ("serves: [Hut 1]", "serves: [Hut 9]", "serves"),
        ("stove 1: {kind: fuel,", "stove 1: {kind: waste heat,", "efficiency"),
        ("limit: -18 degC  ", "limit: 0 degC  ", "limit"),
        ("  envelopes:                    #", "  rooms: {Hut 7: {temperature: 20 degC}}\n  envelopes: #", "rooms"),
        ("  envelopes:                    #", "  rooms: {Hut 1: {lamps: 20 W}}\n  envelopes: #", "rooms"),
        ("  envelopes:                    #", "  places: {South 1: {lamps: 20 W}}\n  envelopes: #", "places"),
        ("room: {temperature: 19 degC, ventilation: 0.06 m3/s,", "room: {ventilation: 0.06 m3/s,", "room"),
    ],
)  # fmt: skip
def test_bad_input_is_told_with_place_and_cure(old, new, where):
    """Each mistake names where it is, on its line, and how to mend it."""
    found = [p for p in problems(old, new) if where in p.path]
    assert found
    assert all(p.line >= TEXT.count("\n", 0, TEXT.index("\nheat:")) and p.cure for p in found)


def test_an_unknown_kit_is_named_with_a_likely_one():
    """A slip in a kit's name gives the name that was meant."""
    found = problems("    sleeping hut:\n      walls: {u", "    sleeping hat:\n      walls: {u")
    assert any("sleeping hut" in p.cure for p in found)


def test_a_station_without_the_part_is_read():
    """The heat part may be left out."""
    head, _, tail = TEXT.partition("\nheat:")
    rest = tail.splitlines()
    after = next((i for i, line in enumerate(rest) if i and line and not line.startswith((" ", "#"))), len(rest))
    text = head + "\n" + "\n".join(rest[after:]) + "\n"
    assert parse_station(text, FOLDER / "station.yaml").station.heat is None
    assert read_station(FOLDER).station.heat is not None
