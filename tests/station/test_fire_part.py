"""Mistakes in the fire part of the file: each has its line, its place and its cure."""

import re

import pytest

from firnstead.core.errors import InputError
from firnstead.station import parse_station
from house.project import ROOT

FULL = ROOT / "examples" / "stations" / "full" / "station.yaml"
WHOLE = FULL.read_text(encoding="utf-8")
TEXT = re.sub(r"(?m)^  scenarios: +# automatic.*\n(    fire in .*\n)+", "", WHOLE)  # tests set their own fires


def problems(old, new):
    """What is said about the full station with one text replaced, once."""
    assert TEXT.count(old) == 1, old
    with pytest.raises(InputError) as caught:
        parse_station(TEXT.replace(old, new), FULL)
    return caught.value.problems, TEXT[: TEXT.index(old)].count("\n") + 1


HUT = "Hut 1 smoke: {place: Hut 1, kind: smoke, coldest: 0 degC, part: detector}"
TANK = "water plant tank: {place: Water plant, volume: 12 m3, temperature: 5 degC, alarmed: true}"
DOOR = (
    "North 1 fire door: {place: North 1, width: 1.2 m, height: 2.0 m, leakage: 0.02 m2, mass: 90 kg, part: fire door}"
)


@pytest.mark.parametrize(("old", "new", "word"), [
    (HUT, HUT.replace("place: Hut 1,", "place: Hut 111,"), "there is no place or building"),
    (HUT, HUT.replace("place: Hut 1,", "place: North 1,"), "nowhere in particular"),
    (HUT, HUT.replace("kind: smoke", "at: 3 m, kind: smoke"), "no distance of its own"),
    (HUT, HUT.replace("part: detector", "part: detectr"), "there is no part"),
    (HUT, HUT.replace("0 degC", "0"), "has no unit"),
    (TANK, TANK.replace("place: Water plant", "place: Water plnt"), "there is no place or building"),
    (TANK, TANK.replace("12 m3", "-12 m3"), "out of range"),
    (DOOR, DOOR.replace("width: 1.2 m", "width: 0 m"), "out of range"),
    (DOOR, DOOR.replace("width: 1.2 m", "width: 4 m"), "larger than the way"),
    (DOOR, DOOR.replace("place: North 1", "place: Main"), "does not open into a passage"),
    (DOOR, DOOR.replace("place: North 1", "place: North 2"), "in the same spot"),
    (DOOR, DOOR.replace("0.02 m2", "1.9 m2").replace("width: 1.2 m", "width: 0.9 m"), "leaks more when shut"),
    (DOOR, DOOR.replace("width: 1.2 m", "at: 99 m, width: 1.2 m"), "lies outside"),
    ("spare_beds: {Spare quarters: 10}", "spare_beds: {Spare quarters: -1}", "out of range"),
    ("spare_beds: {Spare quarters: 10}", "spare_beds: {Nowhere: 1}", "there is no building"),
    ("survival: [South 7, Radio]", "survival: [South 77, Radio]", "there is no place or building"),
    ("cold food: {place: South 5, at: 20 m,", "cold food: {place: South 5, at: 60 m,", "lies outside"),
    ("pump: Water plant", "pump: Nowhere", "there is no place or building"),
    ("  closers: true  ", "  every_place: false\n  closers: true  ", "no fire is left"),
    ("  closers: true  ", "  scenarios: {both: {building: Hut 1, place: North 1}}\n  closers: true  ", "either"),
    ("  closers: true  ", "  scenarios: {none: {growth: fast}}\n  closers: true  ", "either"),
    ("  closers: true  ", "  scenarios: {at: {building: Hut 1, at: 3 m}}\n  closers: true  ", "no distance of its own"),
    ("  closers: true  ", "  hazards: {Nowhere: light}\n  closers: true  ", "there is no place"),
    ("Mess 1: {place: Mess, kind: dry chemical, rating_a: 4, rating_b: 80,", "Mess 1: {place: Mess, kind: water,",
     "has no rating"),
], ids=lambda text: text[-24:])  # fmt: skip
def test_mistakes_are_told(old, new, word):
    """Each mistake is one problem near its line, with a cure."""
    found, line = problems(old, new)
    told = [p for p in found if word in f"{p.what} {p.cure}"]
    assert told, found
    assert abs(told[0].line - line) <= 30
    assert told[0].cure
    assert told[0].path.startswith("fire")


def test_the_examples_are_sound():
    """Both example files are read with their fire part."""
    for name in ("first", "full"):
        path = ROOT / "examples" / "stations" / name / "station.yaml"
        assert parse_station(path.read_text(encoding="utf-8"), path).station.fire is not None
