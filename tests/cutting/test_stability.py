"""Overhangs while an undercut is made."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.cutting.passes import Pass
from firnstead.cutting.stability import overhang_shear, overhang_strips, overhang_tension


def test_strips_of_a_stepped_wall():
    """Only layers that reach out past the pass's wall hang; a wider bench above does not."""
    passes = (
        Pass("bench", 0.0, 0.5, -3.0, 3.0, 3),
        Pass("straight", 0.5, 2.0, -2.0, 2.0, 2),
        Pass("undercut", 2.0, 3.0, -2.3, 2.3, 2),
        Pass("undercut", 3.0, 4.0, -2.6, 2.6, 2),
    )
    assert overhang_strips(passes, 1) == ()
    assert [pytest.approx(s) for s in overhang_strips(passes, 2)] == [(0.3, 1.5)]
    assert [pytest.approx(s) for s in overhang_strips(passes, 3)] == [(0.6, 1.5), (0.3, 1.0)]


def test_nothing_hangs_over_a_straight_cut():
    """Without an overhang there is neither tension nor shear."""
    assert overhang_tension((), 4400.0, 1000.0) == overhang_shear((), 4400.0, 1000.0) == 0.0


@given(reach=st.floats(0.05, 2.0), thick=st.floats(0.2, 6.0), more=st.floats(0.01, 1.0), load=st.floats(0.0, 5e3))
def test_farther_out_or_thinner_is_worse(reach, thick, more, load):
    """Tension grows with the overhang and with the load, and falls with the thickness of the ledge."""
    here = overhang_tension(((reach, thick),), 4400.0, load)
    assert overhang_tension(((reach + more, thick),), 4400.0, load) > here
    assert overhang_tension(((reach, thick),), 4400.0, load + 100.0) > here
    assert overhang_tension(((reach, thick + more),), 4400.0, load) < here


@given(reach=st.floats(0.05, 2.0), thick=st.floats(0.2, 6.0), parts=st.integers(2, 6))
def test_layers_of_one_ledge_are_one_ledge(reach, thick, parts):
    """A ledge told as several layers of the same reach is the same ledge."""
    whole, layers = ((reach, thick),), ((reach, thick / parts),) * parts
    assert overhang_tension(layers, 4400.0, 500.0) == pytest.approx(overhang_tension(whole, 4400.0, 500.0))
    assert overhang_shear(layers, 4400.0, 500.0) == pytest.approx(overhang_shear(whole, 4400.0, 500.0))
