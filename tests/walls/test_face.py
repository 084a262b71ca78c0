"""The face that a wall closes."""

from math import asin, pi

import pytest

from firnstead.walls.face import arch_width, course_widths, cut_width, face_area


def test_straight_cut_without_roof_is_a_rectangle():
    """A straight cut with hardly any roof has the area of a rectangle."""
    assert face_area(4.0, 4.0, 3.0, 0.0, 4.0, 1e-6) == pytest.approx(12.0, rel=1e-5)


def test_circular_segment_area():
    """The roof's area is that of a circular segment."""
    span, rise = 4.9, 1.35
    radius = (span**2 / 4 + rise**2) / (2 * rise)
    alpha = asin(span / (2 * radius))
    segment = radius**2 * (alpha - (radius - rise) / radius * (span / (2 * radius)))
    assert face_area(4.9, 4.9, 0.0, 0.0, span, rise, slices=4000) == pytest.approx(segment, rel=1e-5)


def test_high_roof_is_an_ellipse():
    """A roof higher than half its span has the area of half an ellipse."""
    assert face_area(2.0, 2.0, 0.0, 0.0, 2.0, 2.0, slices=4000) == pytest.approx(pi * 1.0 * 2.0 / 2, rel=1e-4)


def test_undercut_cut_is_widest_at_the_floor():
    """The width falls from the floor to the undercut's top and stays from there on."""
    widths = [cut_width(y, 6.0, 4.4, 5.4, 4.0) for y in (0.0, 2.0, 4.0, 5.0, 5.5)]
    assert widths == pytest.approx([6.0, 5.2, 4.4, 4.4, 0.0])
    assert arch_width(-0.1, 4.0, 1.0) == 0.0


def test_courses_reach_the_crown():
    """There is a course for every block height up to the crown, and the roof's feet widen the course they lie in."""
    widths = course_widths(6.0, 4.4, 5.4, 4.0, 4.9, 1.35, 0.3)
    assert len(widths) == 23  # 6.75 m in courses of 0.3 m
    assert widths[0] == pytest.approx(6.0)
    assert widths[17] == pytest.approx(4.4)
    assert widths[18] == pytest.approx(4.9)
