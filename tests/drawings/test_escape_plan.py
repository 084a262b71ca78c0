"""The plan of the ways out and the muster plans: what is drawn, that words stay on the page, both back ends."""

import math
from dataclasses import replace

import pytest

from drawings.samples import BLOCK
from firnstead import escape
from firnstead.drawings.dxf import dxf
from firnstead.drawings.escape_plan import arrow_head, escape_plan
from firnstead.drawings.escape_plan_input import EscapePlanInput, ExitMark, FarSpot, MusterInput, TwoWays, Walk
from firnstead.drawings.figure import Circle, Label, Polygon, Polyline, Text, rectangle
from firnstead.drawings.lower import bounds, lower
from firnstead.drawings.map_escape import escape_plan_input, muster_inputs
from firnstead.drawings.map_plan import plan_input
from firnstead.drawings.muster_plan import muster_figure, muster_sheet
from firnstead.drawings.plan_input import HatchMark, Outline, PlanInput, Strip
from firnstead.drawings.sheet import lay_out
from firnstead.drawings.svg import svg
from firnstead.pipeline import assess
from firnstead.station import StationFile

GROUND = PlanInput(
    "S",
    (Strip("Main", (0.0, 0.0), (80.0, 0.0), 9.0, passage=True), Strip("A", (40.0, 6.0), (40.0, 46.0), 6.0)),
    (Outline("Hut", rectangle(38.2, 12.0, 41.8, 22.0)),),
    hatches=(HatchMark("A hatch", (40.0, 43.0)),),
)
FIRST = Walk("A hatch", ((40.0, 17.0), (37.5, 22.0), (40.0, 43.0)), 40.0, 13.0)
SECOND = Walk("Main portal", ((40.0, 17.0), (37.5, 12.0), (40.0, 0.0), (0.0, 0.0)), 60.0)
PAGE = MusterInput(
    "Hut", "A", "S", "abc", "2031-01-01", GROUND, (40.0, 17.0), GROUND.buildings[0].corners, FIRST, SECOND
)


def _words(items: tuple) -> list[str]:
    chosen = [i.choices[0] if isinstance(i, Label) else i for i in items]
    return [i.words for i in chosen if isinstance(i, Text)]


def test_two_ways_exits_and_distances_are_drawn() -> None:
    """Both ways are lines that can be told apart without colour; exits are named; distances stand by their place."""
    given = EscapePlanInput(
        GROUND, (ExitMark("A hatch", (40.0, 43.0), True),), (TwoWays("Hut", FIRST, SECOND),),
        (FarSpot("A", (40.0, 17.0), 40.0, math.inf), FarSpot("Main", (20.0, 0.0), 20.0, 33.4)), (), ("Hut",),
        ((10.0, 0.0),), ((12.0, 0.0),),
    )  # fmt: skip
    figure = escape_plan(given)
    lines = [i for i in figure.items if isinstance(i, Polyline) and i.layer == "ways out"]
    assert {line.line for line in lines} == {"solid", "dashed"}
    words = _words(figure.items)
    assert "A hatch" in words
    assert "20 | 33" in words
    assert any("cut off" in w for w in words)
    assert "A" in figure.reading.split("cut off", 1)[1]
    layers = {i.layer for i in figure.items if isinstance(i, Polygon)}
    assert {"extinguishers", "alarm points", "refuge"} <= layers
    assert dxf(lay_out(figure, BLOCK))


def test_an_empty_station_is_drawn() -> None:
    """Without places and exits there is still a sheet."""
    figure = escape_plan(EscapePlanInput(PlanInput("Nowhere yet")))
    assert not figure.legend
    assert svg(lay_out(figure, BLOCK)).endswith("</svg>\n")


def test_arrow_head_points_along_the_way() -> None:
    """The head's tip is the end of the way, its base behind it."""
    tip, a, b = arrow_head((0.0, 0.0), (10.0, 0.0), 3.0)
    assert tip == (10.0, 0.0)
    assert a[0] == b[0] == 7.0
    assert a[1] == -b[1]


def test_muster_page_says_both_ways_and_stays_on_its_paper() -> None:
    """The page names the building, both exits and their distances, and nothing lies outside the paper."""
    sheet = muster_sheet(PAGE)
    said = " ".join(_words(sheet.furniture))
    assert all(word in said for word in ("Hut", "A hatch", "40 m", "Main portal", "60 m"))
    assert sheet.fits
    x0, y0, x1, y1 = bounds(lower(sheet.items, sheet.mm_per_m), sheet.mm_per_m)
    ox, oy = sheet.origin
    assert ox + x0 >= 20.0
    assert ox + x1 <= sheet.width - 10.0
    assert oy + y0 >= 0.0
    assert oy + y1 <= sheet.height - 10.0
    assert dxf(sheet)
    assert "#000" in svg(sheet)


def test_muster_map_shows_hatch_and_hides_what_is_far() -> None:
    """Hatches near the ways are drawn; a place far away is not."""
    far = replace(GROUND, strips=(*GROUND.strips, Strip("B", (900.0, 0.0), (900.0, 40.0), 6.0)))
    figure = muster_figure(replace(PAGE, ground=far))
    assert any(isinstance(i, Circle) and i.layer == "hatches" for i in figure.items)
    assert all(x < 200 for i in figure.items if isinstance(i, Polygon) for x, _ in i.points)


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"second": None, "note": "There is no second way out."}, "no second way"),
        ({"refuge": "Hut"}, "is a refuge"),
        ({"refuge": "Shelter", "refuge_length": 95.0}, "Shelter, 95 m"),
        ({"units": "us"}, "131 ft"),
    ],
)
def test_muster_page_says_what_people_must_know(change: dict, word: str) -> None:
    """A missing second way, a refuge and the reader's units reach the page."""
    assert word in " ".join(_words(muster_sheet(replace(PAGE, **change)).furniture))


def test_a_building_without_any_way_has_a_page() -> None:
    """Nothing to draw is said, not hidden."""
    page = replace(PAGE, first=None, second=None, note="There is no way out.")
    assert "no way out" in " ".join(_words(muster_sheet(page).furniture))


def test_the_full_station_has_a_page_for_each_building(full: StationFile) -> None:
    """Every building has its page with the ways of the study; the plan marks every exit where its ramp ends."""
    made, result = assess(full), escape.study(full.station).result
    ground = plan_input(made)
    pages = muster_inputs(full.station, result, ground, made.file.version)
    assert set(pages) == set(full.station.buildings)
    assert all(page.first.length == result.muster[name].first.length for name, page in pages.items())
    given = escape_plan_input(full.station, result, ground)
    tops = {ramp.name: ramp.top for ramp in ground.ramps}
    assert {e.name for e in given.exits} == {*full.station.hatches, *full.station.portals}
    assert all(e.at == tops[e.name] for e in given.exits if not e.hatch)
    assert len(given.far) == len(full.station.places)
    assert len(given.worst) > 1
    assert muster_sheet(pages["Mess"]).fits
