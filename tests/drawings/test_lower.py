"""Dimensions, symbols and words turned into plain lines."""

import math

import pytest

from firnstead.drawings.figure import Dimension, Polyline, ScaleBar, Symbol, Text, printable
from firnstead.drawings.lower import bounds, dimension, dimension_line, lower, readable, text_corners
from firnstead.drawings.textsize import fit, text_width, wrap


def test_dimension_measures_along_its_axis() -> None:
    """A sloping pair of points has three lengths: along, across and up."""
    ends = (1.0, 2.0), (4.0, -2.0)
    assert Dimension(*ends, 5.0, "").value() == pytest.approx(5.0)
    assert Dimension(*ends, 5.0, "", axis="x").value() == pytest.approx(3.0)
    assert Dimension(*ends, 5.0, "", axis="y").value() == pytest.approx(4.0)


@pytest.mark.parametrize(("offset", "level"), [(6.0, 0.06), (-6.0, -0.06)])
def test_dimension_line_lies_at_its_offset(offset: float, level: float) -> None:
    """The offset is millimetres on paper, to the left of the way from start to end."""
    start, end = dimension_line(Dimension((0.0, 0.0), (3.0, 0.0), offset, ""), 100.0)
    assert start == pytest.approx((0.0, level))
    assert end == pytest.approx((3.0, level))


def test_dimension_line_clears_what_it_is_told_to() -> None:
    """A point further out than both ends pushes the line beyond it; one further in does not."""
    far = Dimension((0.0, 0.0), (3.0, 0.0), 6.0, "", clear_of=(1.0, 2.0))
    near = Dimension((0.0, 0.0), (3.0, 0.0), 6.0, "", clear_of=(1.0, -2.0))
    assert dimension_line(far, 100.0)[0][1] == pytest.approx(2.06)
    assert dimension_line(near, 100.0)[0][1] == pytest.approx(0.06)


def test_words_of_a_short_dimension_stand_outside_it() -> None:
    """Words that do not fit between the ticks go beyond the end, and the line runs on under them."""
    shapes = dimension(Dimension((0.0, 0.0), (0.3, 0.0), 5.0, "0.30 m"), 50.0)
    words = next(s for s in shapes if isinstance(s, Text))
    line = max((s for s in shapes if isinstance(s, Polyline)), key=lambda s: math.dist(*s.points))
    left = min(x for x, _ in text_corners(words, 50.0))
    right = max(x for x, _ in text_corners(words, 50.0))
    assert left > 0.3 * 50.0
    assert line.points[-1][0] * 50.0 >= right


def test_words_of_short_upright_dimensions_in_a_chain_stay_apart() -> None:
    """Two short lengths one above the other: the upper one's words go up, the lower one's down."""
    upper = Dimension((0.0, 0.3), (0.0, 0.2), -5.0, "cover", axis="y", upright=True, short="start")
    lower_one = Dimension((0.0, 0.2), (0.0, 0.0), -5.0, "rise", axis="y", upright=True)
    boxes = [text_corners(s, 10.0) for d in (upper, lower_one) for s in dimension(d, 10.0) if isinstance(s, Text)]
    assert min(y for _, y in boxes[0]) > max(y for _, y in boxes[1])


def test_words_are_never_upside_down() -> None:
    """Whatever the direction, words read from below or from the right."""
    for angle in range(-720, 721, 15):
        assert -90.0 < readable(float(angle)) <= 90.0 + 1e-6
        assert (readable(float(angle)) - angle) % 180.0 == pytest.approx(0.0, abs=1e-6)


def test_storm_wind_points_where_it_blows_to() -> None:
    """Wind from the south-east: the arrow's tip lies to the north-west of its tail."""
    shaft = lower([Symbol("storm wind", (0.0, 0.0), 135.0, "")], 1.0)[0]
    assert isinstance(shaft, Polyline)
    (x0, y0), (x1, y1) = shaft.points
    assert x1 < x0
    assert y1 > y0


def test_scale_bar_has_its_length_on_paper() -> None:
    """A bar of 5 m at 1:100 is 50 mm long, whatever unit it is drawn in."""
    bar = ScaleBar((0.0, 0.0), 5.0, 50.0, 5, "")
    parts = [s for s in lower([bar], 10.0) if not isinstance(s, Text)]
    x0, _, x1, _ = bounds(parts, 10.0)
    assert x1 - x0 == pytest.approx(50.0)


def test_bounds_hold_rotated_words() -> None:
    """Words turned upright are tall, not wide."""
    x0, y0, x1, y1 = bounds([Text("a long word", (0.0, 0.0), 2.5, rotation=90.0)], 1.0)
    assert y1 - y0 > 5 * (x1 - x0)


def test_words_are_made_to_fit() -> None:
    """Words are made smaller, then shorter, until they fit; wrapped lines keep every word."""
    words, height = fit("a station with a very long name indeed, and then some more", 40.0, 3.5)
    assert text_width(words, height) <= 40.0
    assert words.endswith("…")
    assert fit("short", 40.0, 3.5) == ("short", 3.5)
    text = "Nobody below an edge that is being cut; no load on a cover before its strength is measured."
    assert " ".join(wrap(text, 60.0, 2.0)) == text


def test_printable_keeps_letters_and_drops_control_characters() -> None:
    """What no drawing file can hold becomes a space; all else stays."""
    assert printable("North\n6\x00\x1b ø–é ") == "North 6 ø–é"
