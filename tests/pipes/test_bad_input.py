"""Mistakes in the pipes of a station file: each has its line, what is wrong and a cure."""

import pytest

from firnstead.core.errors import InputError
from firnstead.station import parse_station
from house.project import ROOT

PATH = {name: ROOT / "examples" / "stations" / name / "station.yaml" for name in ("first", "full")}
TEXT = {name: path.read_text(encoding="utf-8") for name, path in PATH.items()}


def problems(name, written, wrong):
    """The problems of an example in which one text of its pipes is replaced."""
    head, tail = TEXT[name].split("\npipes:", 1)
    assert written in tail
    text = head + "\npipes:" + tail.replace(written, wrong, 1)
    with pytest.raises(InputError) as told:
        parse_station(text, PATH[name])
    return text, told.value.problems


@pytest.mark.parametrize(
    "name, written, wrong, line, word",
    [
        ("first", "thickness: 80 mm", "thickness: -80 mm", "thickness: -80 mm", "more than"),
        ("first", "conductivity: 0.027 W/m/K", "conductivity: -0.027 W/m/K", "conductivity: -0.027", "at least"),
        ("first", "bore: 40 mm", "bore: 40", "bore: 40\n", "unit"),
        ("first", "{place: North 1, at: 33 m, height: 0.1 m}", "{place: North 9, at: 33 m, height: 0.1 m}",
         "North 9", "North 1"),
        ("first", "at: 33 m, height: 0.1 m", "at: 53 m, height: 0.1 m", "at: 53 m", "outside"),
        ("first", "at: 33 m, height: 0.1 m", "at: 33 m, height: 0.7 m", "    Hut drain:", "uphill"),
        ("first", "at: 33 m, height: 0.1 m", "at: 33 m", "    Hut drain:", "height"),
        ("first", "kind: hut drain pipe", "kind: hut drian pipe", "kind: hut drian", "hut drain pipe"),
        ("first", "{cable: flat cable,", "{cable: flat cabel,", "cable: flat cabel", "flat cable"),
        ("first", "ends: Hut 2", "ends: Hutt 2", "ends: Hutt 2", "Hut 2"),
        ("first", "part: hut pipe", "part: hut pip", "part: hut pip\n", "hut pipe"),
        ("first", "off: 8 degC", "off: 4 degC", "off: 4 degC", "switches off"),
        ("first", "alarm: 3 degC", "alarm: -3 degC", "alarm: -3 degC", "ice"),
        ("first", "alarm: 3 degC", "alarm: 6 degC", "alarm: 6 degC", "alarm"),
        ("first", "supply: 8 degC", "supply: 3 degC", "supply: 3 degC", "colder"),
        ("first", "supply: 8 degC", "supply: 108 degC", "supply: 108 degC", "boils"),
        ("first", "{kind: hung, spacing: 1.5 m}", "{kind: in snow}", "in snow", "depth"),
        ("first", "{kind: hung, spacing: 1.5 m}", "{kind: in a niche}", "in a niche", "niche_width"),
        ("first", "carrier: water\n", "carrier: glycol\n", "carrier: glycol", "glycol_share"),
        ("first", "carrier: water\n", "carrier: fuel\n", "carrier: fuel", "fuel"),
        ("full", "place: Main, insulated: 0.6", "place: South 1, insulated: 0.6", "South 1, insulated", "pass"),
        ("full", "        - {place: Main}\n        - {place: North 7", "        - {place: North 7",
         "    Water main:", "does not meet"),
    ],
)  # fmt: skip
def test_one_mistake_has_its_line_and_cure(name, written, wrong, line, word):
    """A mistake is told with the line on which it stands and the way out."""
    text, found = problems(name, written, wrong)
    first = text[: text.index("\npipes:")].count("\n") + 1
    at = text[: text.index(line, text.index("\npipes:"))].count("\n") + 1
    near = [p for p in found if first <= p.line and abs(p.line - at) <= (0 if not line.startswith("    ") else 8)]
    assert any(word in f"{p.what} {p.cure}" for p in near), [str(p) for p in found]
    assert all(p.what and p.cure for p in found)


def test_a_loop_of_sewers_is_told_once():
    """Gravity lines that lead into one another in a ring are refused, and the ring is told."""
    head, tail = TEXT["full"].split("\npipes:", 1)
    one, two = tail.split("    Kitchen drain:", 1)
    one = one.replace("ends: tank\n      drive: gravity", "ends: Kitchen drain\n      drive: gravity")
    two = two.replace("ends: tank\n      drive: gravity", "ends: Wash house drain\n      drive: gravity", 1)
    with pytest.raises(InputError) as told:
        parse_station(f"{head}\npipes:{one}    Kitchen drain:{two}", PATH["full"])
    loops = [p for p in told.value.problems if "loop" in p.what]
    assert len(loops) == 1
    assert "Kitchen drain" in loops[0].what
    assert "Wash house drain" in loops[0].what


def test_a_drain_that_does_not_reach_the_line_it_ends_in():
    """A line that ends in another must come to a place that the other passes."""
    _, found = problems("full", "ends: sump\n", "ends: Fuel line\n")
    assert any("does not reach" in p.what for p in found)


def test_a_file_without_pipes_is_read():
    """Pipes may be left out."""
    head, tail = TEXT["first"].split("\npipes:", 1)
    rest = next((tail[i:] for i in range(len(tail) - 1) if tail[i] == "\n" and tail[i + 1 : i + 2].isalpha()), "\n")
    assert parse_station(head + rest, PATH["first"]).station.pipes is None
