"""Loads, pressures and bearing of footings."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.foundation.bearing import bearing_beside_drop, bearing_wedge, pad_needed, pressure_below_pad
from firnstead.foundation.pressure import building_load, eccentric_pressure, footing_load, row_shares

side = st.floats(0.1, 3.0)


@given(st.integers(2, 12), st.one_of(st.none(), st.floats(0.05, 0.95)))
def test_rows_carry_the_whole_load(rows, share):
    """Two outer rows and all inner rows together carry everything."""
    outer, inner = row_shares(rows, share)
    assert 2 * outer + (rows - 2) * inner == pytest.approx(1.0)


def test_rows_by_floor_area():
    """Without a share of its own an outer row carries half of what an inner one does."""
    outer, inner = row_shares(5)
    assert outer == pytest.approx(inner / 2)


def test_live_load_counts_in_full_or_in_part():
    """The share of the live load changes the load by just that."""
    full, part = building_load(2000.0, 1900.0, 9.6, 3.6), building_load(2000.0, 1900.0, 9.6, 3.6, 0.5)
    assert full - part == pytest.approx(0.5 * 1900.0 * 9.6 * 3.6)
    assert footing_load(full, 0.25, 4, 0.1) == pytest.approx(full / 16 * 1.1)


@given(st.floats(1e3, 1e5), side, st.floats(0.0, 0.49))
def test_pressure_of_an_eccentric_load_carries_it(mean, width, share):
    """The straight-line pressure under the footing sums to the load, and its middle of force is the load's place."""
    e = share * width
    peak = eccentric_pressure(mean, width, e)
    if e <= width / 6:
        low = 2 * mean - peak
        assert (peak - low) * width**2 / 12 == pytest.approx(mean * width * e, abs=1e-6 * mean)
    else:
        pressed = 3 * (width / 2 - e)
        assert peak * pressed / 2 == pytest.approx(mean * width)


def test_a_post_outside_its_footing_tips_it():
    """From half the width on the pressure is infinite."""
    assert eccentric_pressure(1e4, 0.6, 0.3) == float("inf")


@given(st.floats(1e3, 1e6), side, st.floats(0.0, 5.0))
def test_safe_bound_lies_below_the_wedge(cohesion, width, distance):
    """The bearing that is designed on never passes the upper bound, and a drop never helps."""
    safe = bearing_beside_drop(cohesion, width, distance)
    assert safe <= bearing_wedge(cohesion, width, distance) * (1 + 1e-12)
    assert safe <= bearing_beside_drop(cohesion, width, None)


@given(st.floats(1e3, 1e5), side, side, st.floats(1e3, 1e6))
def test_the_least_pad_is_just_enough(load, width, length, allowable):
    """Below a pad of the needed thickness the pressure is the allowable one, or less where none is needed."""
    thickness = pad_needed(load, width, length, allowable)
    below = pressure_below_pad(load, width, length, thickness)
    if thickness > 0:
        assert below == pytest.approx(allowable, rel=1e-6)
    else:
        assert below <= allowable * (1 + 1e-9)
