"""Routes along the axes of places: length, places, bends and levels."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.station import read_station
from firnstead.station.pipes import RoutePoint
from firnstead.station.routes import meeting, straights, stretches
from house.project import ROOT

FULL = read_station(ROOT / "examples" / "stations" / "full").station


def way(*points):
    """The stretches of a route given as (place, at, height)."""
    return stretches(FULL, [RoutePoint.model_construct(place=p, at=a, height=h) for p, a, h in points])


def length(pieces):
    """Whole length."""
    return sum(piece.length for piece in pieces)


def test_along_one_place():
    """Along one axis the length is the difference of distances, whichever way."""
    assert length(way(("Main", 20.0, None), ("Main", 95.0, None))) == pytest.approx(75.0)
    assert length(way(("Main", 95.0, None), ("Main", 20.0, None))) == pytest.approx(75.0)


def test_from_trench_to_trench_through_the_passage():
    """From a trench through its link and the passage into another, the length is that along the axes."""
    pieces = way(("Plant 4", 8.0, None), ("Main", None, None), ("North 7", 21.0, None))
    assert length(pieces) == pytest.approx(8 + 6.8 + (324 - 201) + 6.8 + 21)
    assert [p.place for p in pieces] == ["Plant 4", "Plant 4", "Main", "North 7", "North 7"]
    assert straights(pieces) == pytest.approx((14.8, 123.0, 27.8))


@given(st.floats(0, 40), st.floats(0, 340), st.floats(0, 48))
def test_a_route_and_its_way_back_are_as_long(a, b, c):
    """Backwards the same route has the same length."""
    points = (("North 3", a, None), ("Main", b, None), ("Plant 2", c, None))
    assert length(way(*points)) == pytest.approx(length(way(*reversed(points))))


def test_levels_are_straight_lines():
    """Between two heights the level falls evenly along the way, floors being where they are."""
    pieces = way(("North 9", 16.0, 0.45), ("Main", 250.0, 0.3))
    assert pieces[0].upper == pytest.approx(-6.2 + 0.45)
    assert pieces[-1].lower == pytest.approx(-6.8 + 0.3)
    falls = [(p.upper - p.lower) / p.length for p in pieces]
    assert falls == pytest.approx([falls[0]] * len(falls), rel=1e-3)


def test_a_riser_counts():
    """A change of height at one spot is as long as it is high."""
    assert length(way(("Main", 20.0, 0.0), ("Main", 20.0, 3.0))) == pytest.approx(3.0)


def test_places_that_do_not_meet():
    """Two trenches never meet without their passage; the reason names both."""
    assert meeting(FULL, "North 1", "North 2") is None
    told = way(("North 1", 5.0, None), ("North 2", 5.0, None))
    assert "North 1" in told
    assert "North 2" in told
    assert isinstance(way(("Main", None, None), ("Main", 5.0, None)), str)


def test_passages_that_cross():
    """Two passages meet where their axes cross, and end to end; not where they pass at a distance."""
    main = FULL.passages["Main"]

    def passage(start, end):
        return main.model_copy(update={"start": start, "end": end})

    station = FULL.model_copy(update={"passages": {
        "Main": main, "Cross": passage((100.0, -50.0), (100.0, 50.0)), "Beyond": passage((340.0, 0.0), (400.0, 0.0)),
        "Apart": passage((0.0, 80.0), (300.0, 80.0)), "Stub": passage((200.0, 4.0), (200.0, 60.0))}})  # fmt: skip
    assert meeting(station, "Main", "Cross") == pytest.approx((100.0, 50.0))
    assert meeting(station, "Main", "Beyond") == pytest.approx((340.0, 0.0))
    assert meeting(station, "Main", "Stub") == pytest.approx((200.0, 0.0))
    assert meeting(station, "Main", "Apart") is None
