"""Doors, lintels and lids: what still opens."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.walls.openings import (
    bending_stress,
    drift_depth_to_push,
    lid_depth_to_lift,
    lintel_moment,
    movement,
    snow_force_on_door,
)  # fmt: skip


@given(st.floats(50.0, 800.0), st.floats(200.0, 600.0), st.floats(0.5, 3.0), st.floats(0.1, 1.0))
def test_push_and_force_agree(push, density, width, coefficient):
    """At the depth that can just be pushed, the push at the edge is half the force on the leaf."""
    depth = drift_depth_to_push(push, density, width, coefficient)
    assert snow_force_on_door(density, depth, width, coefficient) == pytest.approx(2 * push)


def test_lintel_by_hand():
    """A plank of 0.3 x 0.075 m under 2 kN/m over 1.2 m bends at 1.28 MPa."""
    assert bending_stress(lintel_moment(2000.0, 1.2), 0.3, 0.075) == pytest.approx(1.28e6)


def test_lid_that_is_too_heavy_lifts_no_snow():
    """A lid heavier than the push leaves nothing for snow."""
    assert lid_depth_to_lift(100.0, 350.0, 0.6, 30.0) == 0.0
    assert lid_depth_to_lift(400.0, 350.0, 0.6, 10.0) > lid_depth_to_lift(400.0, 500.0, 0.6, 10.0)


def test_movement_is_rate_times_time():
    """A wall that moves 60 mm a year moves 120 mm in two."""
    assert movement(0.06, 2.0) == pytest.approx(0.12)
