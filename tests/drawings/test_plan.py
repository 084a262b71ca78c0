"""The plan: what is drawn, how verdicts show, what the sentence says."""

import pytest
from shapely import Point as Spot
from shapely import Polygon as Area

from drawings.samples import BLOCK, big_plan
from firnstead.core.results import Verdict
from firnstead.drawings.dxf import dxf
from firnstead.drawings.figure import Circle, Dimension, Polygon, rectangle
from firnstead.drawings.plan import VERDICT_PATTERN, plan
from firnstead.drawings.plan_input import Outline, PlanInput, Ramp, Strip
from firnstead.drawings.sheet import lay_out
from firnstead.drawings.svg import svg


def test_empty_station_is_drawn() -> None:
    """A station without places gives a sheet that says that nothing is laid out."""
    figure = plan(PlanInput("Nowhere yet"))
    assert "Nothing" in figure.reading
    sheet = lay_out(figure, BLOCK)
    assert svg(sheet).endswith("</svg>\n")
    assert dxf(sheet)


@pytest.mark.parametrize("verdict", list(Verdict))
def test_verdict_is_a_pattern_and_in_the_legend(verdict: Verdict) -> None:
    """Each verdict has its own pattern on the place and a line in the legend that names it."""
    figure = plan(PlanInput("S", (Strip("A", (0.0, 0.0), (0.0, 40.0), 6.0, verdict=verdict),)))
    patterns = {i.pattern for i in figure.items if isinstance(i, Polygon) and i.layer == "cut"}
    assert VERDICT_PATTERN[verdict] in patterns
    assert [e.pattern for e in figure.legend if verdict.value in e.words] == [VERDICT_PATTERN[verdict]]
    assert len(set(VERDICT_PATTERN.values())) == len(Verdict)


def test_buildings_are_left_out_of_the_pattern() -> None:
    """The verdict's pattern stops at the buildings."""
    strip = Strip("A", (0.0, 0.0), (0.0, 40.0), 6.0, verdict=Verdict.FAILS)
    hut = Outline("Hut", rectangle(-1.8, 10.0, 1.8, 20.0))
    figure = plan(PlanInput("S", (strip,), (hut,)))
    filled = [Area(i.points, i.holes) for i in figure.items if isinstance(i, Polygon) and i.pattern == "cross"]
    assert sum(a.area for a in filled) == pytest.approx(6.0 * 40.0 - 3.6 * 10.0)
    assert not any(a.contains(Spot(0.0, 15.0)) for a in filled)


def test_trench_stops_at_its_passage() -> None:
    """The part of a trench's axis inside the passage is not drawn as trench."""
    passage = Strip("Main", (-50.0, 0.0), (50.0, 0.0), 8.0, passage=True)
    figure = plan(PlanInput("S", (passage, Strip("North 1", (0.0, 0.0), (0.0, 40.0), 6.0))))
    areas = sorted(Area(i.points).area for i in figure.items if isinstance(i, Polygon) and i.layer == "cut")
    assert areas == pytest.approx([6.0 * 36.0, 8.0 * 100.0])


def test_overall_dimensions_hold_ramps() -> None:
    """The overall length runs from the top of one ramp to the top of the other."""
    figure = plan(big_plan())
    lengths = [i.value() for i in figure.items if isinstance(i, Dimension)]
    assert lengths == pytest.approx([428.0, 116.0])


def test_sentence_counts_and_names_what_fails() -> None:
    """The reading counts the parts and names places that fail."""
    reading = plan(big_plan()).reading
    assert "1 passage, 20 trenches, 20 buildings, 20 escape hatches, 2 portals" in reading
    assert "fails: South 4, South 8; close to a limit: North 3, North 7" in reading


def test_every_hatch_and_ramp_is_drawn() -> None:
    """As many hatches and ramps on the plan as in the input; a hatch at its place."""
    given = big_plan()
    figure = plan(given)
    assert [i.centre for i in figure.items if isinstance(i, Circle)] == [h.at for h in given.hatches]
    assert sum(isinstance(i, Polygon) and i.layer == "portals" for i in figure.items) == len(given.ramps)


def test_slanting_places_are_drawn() -> None:
    """Places at any bearing, and one without length, give a plan."""
    strips = tuple(Strip(f"T{i}", (0.0, 0.0), (9.0 * i, 4.0 * i - 20.0), 5.0) for i in range(10))
    figure = plan(PlanInput("S", (*strips, Strip("none", (3.0, 3.0), (3.0, 3.0), 5.0)), ramps=(
        Ramp("r", (0.0, 0.0), (-8.0, 11.0), 3.0),)))  # fmt: skip
    assert lay_out(figure, BLOCK).fits
