"""Mistakes in the air part of a station file: where, what, and how to mend it."""

import pytest

from firnstead.core.errors import InputError
from firnstead.station import StationFile, parse_station


@pytest.mark.parametrize(
    ("written", "wrong", "line_with", "said"),
    [
        ("blows_into: North 1", "blows_into: Norht 1", "blows_into: Norht", "North 1"),
        ("draws_from: outside\n", "draws_from: North 1\n", "blows_into: North 1", "two different rooms"),
        ("      pressure: 90 Pa\n", "", "North 1 supply:", "flow` and `pressure"),
        ("      at: 33 m\n", "      at: 44 m\n", "at: 44 m", "outside 'North 1'"),
        ("area: 0.35 m2", "area: 0 m2", "North 1 vent:", "more than"),
        ("at: 4 m, area", "at: 60 m, area", "North 1 vent:", "outside 'North 1'"),
        ("flow: 0.6 m3/s", "flow: 0.6", "flow: 0.6", "no unit"),
        ("    North 1 portal: {leakage", "    North 1 door: {leakage", "North 1 door:", "portal, hatch or trench"),
        ("    sleeping hut: {supply", "    sleping hut: {supply", "sleping hut:", "sleeping hut"),
        ("{where: Hut 1, gas", "{where: Hut 9, gas", "where: Hut 9", "place or building"),
        ("gas: oxygen, value: 19.5 %", "gas: oxygen, value: 195 ppm", "value: 195 ppm", "19.5 %"),
        ("set_point: 4000 ppm", "set_point: 4000", "set_point: 4000", "at most"),
    ],
)
def test_one_mistake_gives_its_line_and_its_cure(first: StationFile, written, wrong, line_with, said):
    """A fan in no place, a vent without area and their like are found on their own lines."""
    text = first.text.replace(written, wrong, 1)
    assert text != first.text
    with pytest.raises(InputError) as caught:
        parse_station(text, first.path)
    line = text[: text.index(line_with)].count("\n") + 1
    hits = [p for p in caught.value.problems if p.line == line]
    assert hits, [str(p) for p in caught.value.problems]
    assert any(said in f"{p.what} {p.cure}" for p in hits), [str(p) for p in hits]


def test_nobody_anywhere_is_refused(first: StationFile):
    """An air part for nobody is a mistake: air is for people."""
    with pytest.raises(InputError) as caught:
        parse_station(first.text.replace("people: 10}", "people: 0}"), first.path)
    assert any("nobody" in p.what for p in caught.value.problems)


def test_a_curve_that_rises_is_refused(first: StationFile):
    """A fan curve must fall, or the balance has more than one answer."""
    curve = "      curve: [[0 m3/s, 80 Pa], [0.4 m3/s, 95 Pa], [1.0 m3/s, 20 Pa]]\n"
    with pytest.raises(InputError) as caught:
        parse_station(first.text.replace("      pressure: 90 Pa\n", "      pressure: 90 Pa\n" + curve), first.path)
    assert any("does not fall" in p.what for p in caught.value.problems)
