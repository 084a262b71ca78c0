"""Mistakes in the power part of a station file: each is found on its line, with a cure."""

import pytest

from firnstead.core.errors import InputError
from firnstead.station import parse_station
from firnstead.station.reader import read_station
from firnstead.station.ways_along import joints, spot_of, way
from house.project import ROOT

FIRST = read_station(ROOT / "examples" / "stations" / "first")
FULL = read_station(ROOT / "examples" / "stations" / "full")

OPEN = """    To hut 2 by night:
      normally_open: true
      start: Camp board
      end: Hut 2 board
      cable: hut cable
    To hut 3:"""


@pytest.mark.parametrize(
    ("written", "wrong", "said"),
    [
        ("end: Hut 2 board,", "end: Hut 3 board,", "Hut 2 board"),
        ("{start: Camp board, end: Hut 2 board,", "{start: Hut 2 board, end: Hut 2 board,", "where it starts"),
        ("    To hut 2:", "    Ring: {start: Hut 1 board, end: Camp board, cable: hut cable}\n    To hut 2:", "ring"),
        ("board, power: 2 kW, demand_factor: 0.9", "board, power: -2 kW, demand_factor: 0.9", "at least"),
        ("demand_factor: 0.9", "demand_factor: 1.9", "at most"),
        ("where: outside ", "where: North 7 ", "North 1"),
        ("      board: Camp board\n", "      board: Camp bord\n", "Camp board"),
        ("day: cooking", "day: coking", "cooking"),
        ("year: summer, shed: 1", "year: winter, shed: 1", "summer"),
        ("section: 6 mm2", "section: 6 mm2, awg: 4/0", "section"),
        ("section: 6 mm2", "awg: 5/0", "American"),
        ("section: 6 mm2", "section: 6 mm", "another kind"),
        ("voltage: 400 V ", "voltage: 400 ", "no unit"),
        ("cable: hut cable}    #", "cable: hut cable, voltage: 2.4 kV}    #", "transformer"),
        ("container: fuel drum", "container: fuel can", "fuel drum"),
        ("{load: 25 %, flow: 0.75 L/h}, {load: 50 %, flow: 1.15 L/h}",
         "{load: 50 %, flow: 1.15 L/h}, {load: 25 %, flow: 0.75 L/h}",
         "rise"),
        ("      count: 4                  # as", "      duty: standby\n      count: 4                  # as", "main"),
        ("day: people, year: summer, shed: 2}", "day: people, year: summer, shed: 2, essential: true}", "never"),
        ("at: 4 m, mass: 60 kg", "at: 400 m, mass: 60 kg", "outside"),
        ("    To hut 2:", OPEN, ""),
    ],
)  # fmt: skip
def test_one_mistake_is_found_on_its_line(written, wrong, said):
    """A single mistake in a sound file is found, on the line that was changed, and the message names the way out."""
    start = FIRST.text.index("\npower:")
    text = FIRST.text[:start] + FIRST.text[start:].replace(written, wrong, 1)
    assert text != FIRST.text
    if not said:
        parse_station(text, FIRST.path)  # an open feeder beside a closed one is no mistake
        return
    with pytest.raises(InputError) as caught:
        parse_station(text, FIRST.path)
    changed = [i for i, (a, b) in enumerate(zip(FIRST.text.splitlines(), text.splitlines(), strict=False), 1) if a != b]
    found = caught.value.problems
    assert any(said in f"{p.what} {p.cure}" for p in found), [str(p) for p in found]
    assert min(abs(p.line - changed[0]) for p in found) <= 12
    assert all(p.path.startswith("power") for p in found)


def test_a_board_that_nothing_feeds_is_found():
    """A board without a feeder is named, and so are two nets that are not joined."""
    text = FIRST.text.replace(
        "    To hut 2: {start: Camp board,", "    To hut 2: {normally_open: true, start: Camp board,", 1
    )
    with pytest.raises(InputError) as caught:
        parse_station(text, FIRST.path)
    assert any("Hut 2 board" in p.path for p in caught.value.problems)
    apart = FULL.text.replace("end: Main board B, cable: main cable, parallel: 2}",
                              "end: Main board B, cable: main cable, parallel: 2, normally_open: true}", 1)  # fmt: skip
    assert apart != FULL.text
    with pytest.raises(InputError) as caught:
        parse_station(apart, FULL.path)
    assert any("not joined" in p.what for p in caught.value.problems)


def test_a_mistake_elsewhere_is_not_told_twice():
    """A trench whose roof is wrong gives no message about the power that stands in it."""
    text = FIRST.text.replace("roof: lateral arch", "roof: no such arch", 1)
    with pytest.raises(InputError) as caught:
        parse_station(text, FIRST.path)
    assert not [p for p in caught.value.problems if p.path.startswith("power")]


def test_the_way_follows_the_passages():
    """From hut to plant the way runs along trench, passage and trench; a way back is as long."""
    station = FULL.station
    met = joints(station)
    a, b = spot_of(station, "Generators 1", None), spot_of(station, "Hut 1", None)
    there, back = way(met, a, b), way(met, b, a)
    assert [place for place, _ in there] == ["Plant 1", "Main", "North 1"]
    assert sum(x for _, x in there) == pytest.approx(27 + 6.8 + 180 + 6.8 + 7.8)
    assert sum(x for _, x in there) == pytest.approx(sum(x for _, x in back))
    assert way({}, a, b) is None
    assert way(met, a, a) == ()
