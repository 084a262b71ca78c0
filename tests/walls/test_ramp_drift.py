"""Ramps and drift: plan geometry."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.walls.drift import angle_to_wind, downwind, hours_to_fill, in_drift_shadow
from firnstead.walls.ramp import grade, headroom_at_foot, ramp_length, ramp_volume, width_for_vehicle

BEARING = st.floats(0.0, 360.0)


def test_ramp_is_a_wedge():
    """A ramp 5 m deep at one in five is 25 m long and half a box in volume."""
    length = ramp_length(5.0, 0.2)
    assert length == pytest.approx(25.0)
    assert ramp_volume(4.0, 5.0, length) == pytest.approx(0.5 * 4.0 * 5.0 * 25.0)
    assert grade(45.0) == pytest.approx(1.0)


def test_vehicle_needs_more_headroom_on_a_steeper_ramp():
    """The kink at the foot lifts the vehicle's middle by a quarter of length times grade."""
    assert headroom_at_foot(3.0, 4.0, 0.0, 0.2) == pytest.approx(3.2)
    assert headroom_at_foot(3.0, 4.0, 0.2, 0.2) == pytest.approx(3.4)
    assert width_for_vehicle(2.6, 0.3) == pytest.approx(3.2)


@given(BEARING, BEARING)
def test_angle_to_wind_is_folded(bearing, wind):
    """The angle is between 0 and 90 and the same for both ends of the axis and both ways of the wind."""
    angle = angle_to_wind(bearing, wind)
    assert 0.0 <= angle <= 90.0
    assert angle_to_wind(bearing + 180.0, wind) == pytest.approx(angle, abs=1e-6)
    assert angle_to_wind(wind, bearing) == pytest.approx(angle, abs=1e-6)


@given(BEARING, st.floats(-500, 500), st.floats(-500, 500))
def test_downwind_keeps_the_distance(wind, east, north):
    """Distance along and beside the wind make up the distance on plan, and swapping the places turns its sign."""
    along, beside = downwind((east, north), (0.0, 0.0), wind)
    assert along**2 + beside**2 == pytest.approx(east**2 + north**2, abs=1e-6)
    assert downwind((0.0, 0.0), (east, north), wind)[0] == pytest.approx(-along, abs=1e-9)


def test_wind_from_the_west_blows_east():
    """A place to the east lies downwind of a westerly wind."""
    assert downwind((100.0, 0.0), (0.0, 0.0), 270.0) == pytest.approx((100.0, 0.0))


def test_belt_behind_an_obstacle():
    """The belt starts at ten heights, ends at thirty and has edges to the side."""
    assert not in_drift_shadow(19.0, 0.0, 2.0, 5.0)
    assert in_drift_shadow(20.0, 0.0, 2.0, 5.0)
    assert in_drift_shadow(60.0, 5.0, 2.0, 5.0)
    assert not in_drift_shadow(61.0, 0.0, 2.0, 5.0)
    assert not in_drift_shadow(40.0, 5.1, 2.0, 5.0)


def test_hollow_fills_with_the_mass_that_blows_in():
    """Time to fill times transport times width is the mass of the fill; without drift it never fills."""
    time = hours_to_fill(250.0, 400.0, 0.126, 8.0)
    assert time * 0.126 * 8.0 == pytest.approx(250.0 * 400.0)
    assert hours_to_fill(250.0, 400.0, 0.0, 8.0) == float("inf")
