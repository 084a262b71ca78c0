"""Hand work, free ground beside a cut, and what an undercut saves."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.cutting.altitude import power_share, pressure_altitude
from firnstead.cutting.hand import people_at_face, person_hours, sled_trips
from firnstead.cutting.rooms import free_ground
from firnstead.cutting.undercut_gain import arc_length, straight_span, undercut_gain

NORTH = ((0.0, 0.0), (0.0, 1.0), 40.0, 3.0)


def box(x0: float, y0: float, x1: float, y1: float) -> tuple[tuple[float, float], ...]:
    """Corners of a rectangle along the grid."""
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def test_hand_work():
    """Nobody cuts alone, every kilogram is carried, hours follow the volume."""
    assert people_at_face(0.6, 1.0) == 2
    assert people_at_face(3.0, 3.0) == 6
    assert sled_trips(0.0) == 0
    assert sled_trips(301.0) == 3
    assert person_hours(24.0, 1.0 / 3600) == pytest.approx(24.0)


def test_neighbours_on_both_sides():
    """The nearest outline on each side counts, less the half width; what lies beyond the ends does not."""
    near, far = box(10.0, 5.0, 14.0, 30.0), box(30.0, 0.0, 34.0, 40.0)
    assert free_ground(*NORTH, [near, far]) == (97.0, 7.0)
    assert free_ground(*NORTH, [box(-20.0, 0.0, -8.0, 40.0), near]) == (5.0, 7.0)
    assert free_ground(*NORTH, [box(5.0, 41.0, 9.0, 60.0), box(5.0, -20.0, 9.0, -1.0)]) == (97.0, 97.0)


def test_a_slanting_neighbour_counts_where_it_is_beside_the_cut():
    """Of a cut that runs away at an angle only the part beside this one counts."""
    slant = ((10.0, -20.0), (12.0, -20.0), (52.0, 60.0), (50.0, 60.0))  # its left edge is at x = 20 where y = 0
    assert free_ground(*NORTH, [slant])[1] == pytest.approx(20.0 - 3.0)


def test_a_passage_across_the_axis_is_left_out():
    """A cut that crosses the axis is not beside it."""
    assert free_ground(*NORTH, [box(-30.0, 10.0, 30.0, 14.0)]) == (97.0, 97.0)


@given(low=st.floats(0.0, 4000.0), more=st.floats(0.0, 2000.0), loss=st.floats(0.0, 3e-4))
def test_higher_leaves_less_power(low, more, loss):
    """Power never grows with altitude, is whole at sea level and never below nothing."""
    assert 1.0 >= power_share(low, loss) >= power_share(low + more, loss) >= 0.0
    assert power_share(0.0, loss) == 1.0


def test_pressure_of_the_sea_is_altitude_nought():
    """Standard pressure at sea level is altitude 0, and thinner air is higher."""
    assert pressure_altitude(101325.0) == pytest.approx(0.0, abs=1e-9)
    assert pressure_altitude(60000.0) > pressure_altitude(70000.0) > 0.0


@given(span=st.floats(2.0, 8.0), undercut=st.floats(0.05, 2.0), rise_share=st.floats(0.1, 0.5))
def test_an_undercut_always_saves_span_and_sheet(span, undercut, rise_share):
    """The straight cut needs a wider arch with more sheet; steel is sheet times its mass."""
    gain = undercut_gain(
        span=span, rise=rise_share * span, top_width=span - 0.5, floor_width=span - 0.5 + 2 * undercut,
        area_undercut=30.0, area_straight=33.0, passes_undercut=8, passes_straight=6, hours_undercut=0.2,
        hours_straight=0.1, sheet_mass=26.0,
    )  # fmt: skip
    assert gain.span_straight - gain.span_undercut == pytest.approx(2 * undercut)
    assert gain.steel_saved == pytest.approx(26.0 * (gain.sheet_straight - gain.sheet_undercut))
    assert gain.steel_saved > 0
    assert (gain.volume_saved, gain.passes_more) == (3.0, 2)
    assert gain.hours_saved == pytest.approx(-0.1)


def test_steel_is_not_made_up():
    """Without a mass of the sheet no steel is given."""
    gain = undercut_gain(span=5.0, rise=1.0, top_width=4.0, floor_width=5.0, area_undercut=1.0, area_straight=1.0,
                         passes_undercut=1, passes_straight=1, hours_undercut=0.0, hours_straight=0.0,
                         sheet_mass=None)  # fmt: skip
    assert gain.steel_saved is None
    assert gain.span_straight == straight_span(5.0, 4.0, 5.0) == 6.0


@given(span=st.floats(1.0, 10.0), rise_share=st.floats(0.02, 0.5))
def test_an_arc_is_longer_than_its_chord_and_shorter_than_two_legs(span, rise_share):
    """The length lies between the straight line and the way over the crown's corner points."""
    rise = rise_share * span
    assert span < arc_length(span, rise) < span + 2 * rise
