"""Hatch shafts: longer with more snow, never shorter."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.core.units import YEAR
from firnstead.walls.hatch import ladder_length, rings, shaft_length, surface_rise_rate, time_to_buried

RATE = st.floats(0.0, 1000.0 / YEAR)


@given(a=RATE, b=RATE, factor=st.floats(0.5, 5.0), density=st.floats(200.0, 550.0), cover=st.floats(0.0, 5.0))
def test_shaft_is_never_shorter_with_more_accumulation(a, b, factor, density, cover):
    """More accumulation never gives a shorter shaft, fewer rings or a later burial."""
    low, high = sorted((a, b))
    rise = [surface_rise_rate(x, factor, density) for x in (low, high)]
    length = [shaft_length(cover, 0.5, r * YEAR) for r in rise]
    assert length[0] <= length[1]
    assert rings(length[0], 1.0) <= rings(length[1], 1.0)
    assert time_to_buried(0.5, rise[0]) >= time_to_buried(0.5, rise[1])


def test_rings_reach_the_length():
    """Whole rings reach the length; none are needed for none."""
    assert rings(3.0, 1.0) == 3
    assert rings(3.01, 1.0) == 4
    assert rings(-1.0, 1.0) == 0


def test_buried_lid_and_dry_site():
    """A lid under the snow is buried now; where nothing falls it never is."""
    assert time_to_buried(-0.2, 1e-8) == 0.0
    assert time_to_buried(0.5, 0.0) == float("inf")
    assert ladder_length(3.0, 2.0) == pytest.approx(5.0)
