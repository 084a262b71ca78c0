"""Throwing and the bank: farther is lower, banks keep off the edge and hold all the snow."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from firnstead.cutting.casting import (
    available_lift,
    landing_lift,
    machines_at_once,
    reach_at_lift,
    throws_needed,
)
from firnstead.cutting.spoil import LEAST_SET_BACK, bank_base, bank_height, bank_pressure, place_bank

HEIGHT, DISTANCE = st.floats(3.0, 20.0), st.floats(8.0, 60.0)


@given(height=HEIGHT, distance=DISTANCE, x=st.floats(0.0, 80.0), more=st.floats(0.0, 20.0))
def test_farther_is_lower(height, distance, x, more):
    """A throw gains no more height farther away, and none beyond its greatest distance."""
    assert available_lift(x, height, distance) >= available_lift(x + more, height, distance) >= 0.0
    assert available_lift(distance + more, height, distance) == 0.0


@given(height=HEIGHT, distance=DISTANCE, share=st.floats(0.0, 1.0))
def test_reach_and_lift_are_each_other_turned_round(height, distance, share):
    """At the distance that a lift allows, the height of the throw is that lift."""
    lift = share * height
    assert available_lift(reach_at_lift(lift, height, distance), height, distance) == pytest.approx(lift, abs=1e-6)


@given(lift=st.floats(0.0, 40.0), far=st.floats(0.0, 15.0), height=HEIGHT)
def test_throws_are_just_enough(lift, far, height):
    """The throws lift the snow as high as needed, and one fewer would not."""
    n = throws_needed(lift, far, height)
    assert far + (n - 1) * height >= lift - 1e-6
    assert n == 1 or far + (n - 2) * height < lift


@given(
    area=st.floats(1.0, 200.0), repose=st.floats(25.0, 55.0), depth=st.floats(2.0, 12.0), edge=st.floats(1.0, 9.0),
    left=st.floats(-2.0, 100.0), right=st.floats(-2.0, 100.0), height=HEIGHT, distance=DISTANCE,
    far_run=st.floats(0.0, 5.0),
)  # fmt: skip
def test_bank_keeps_its_rules(area, repose, depth, edge, left, right, height, distance, far_run):
    """The bank keeps the least set-back, stays within the ground where it fits, and is never set farther than asked."""
    bank = place_bank(area, repose, depth, edge, (left, right), height, distance, far_run)
    assert bank.set_back >= LEAST_SET_BACK
    assert bank.set_back <= max(depth, LEAST_SET_BACK) + 1e-9
    assert area / 2 - 1e-9 <= bank.area <= area + 1e-9
    assert bank.height * bank.base / 2 == pytest.approx(bank.area)
    assert bank.room in (left, right)
    if bank.room_needed <= bank.room:
        assert bank.set_back + bank.base <= bank.room + 1e-6


def test_bank_goes_to_the_side_that_has_room():
    """Even where both sides are open, uneven where one is narrow, on one side where the other has none."""
    args = (60.0, 40.0, 6.0, 3.0)
    even = place_bank(*args, (40.0, 50.0), 12.0, 40.0, 1.5)
    uneven = place_bank(*args, (9.0, 50.0), 12.0, 40.0, 1.5)
    single = place_bank(*args, (1.0, 50.0), 12.0, 40.0, 1.5)
    assert (even.sides, uneven.sides, single.sides) == (2, 2, 1)
    assert even.area == pytest.approx(30.0)
    assert even.area < uneven.area < single.area
    assert single.area == pytest.approx(60.0)


def test_bank_comes_nearer_where_the_throw_is_short():
    """A miller that throws less far puts the bank nearer to the edge; one that cannot reach is helped by a second."""
    args = (30.0, 40.0, 6.0, 3.0, (60.0, 60.0))
    strong, weak = place_bank(*args, 15.0, 45.0, 1.5), place_bank(*args, 9.0, 27.0, 1.5)
    assert strong.set_back == pytest.approx(6.0)
    assert LEAST_SET_BACK <= weak.set_back < strong.set_back
    helped = place_bank(*args, 7.0, 20.0, 1.5)
    lift = landing_lift(6.0, helped.height)
    assert throws_needed(lift, available_lift(helped.distance, 7.0, 20.0), 7.0) == 2


@given(area=st.floats(0.5, 100.0), repose=st.floats(25.0, 55.0))
def test_bank_slopes_at_the_angle_of_repose(area, repose):
    """Height over half the foot is the tangent of the angle, and the triangle has the area."""
    from math import radians, tan

    height, base = bank_height(area, repose), bank_base(area, repose)
    assert height / (base / 2) == pytest.approx(tan(radians(repose)))
    assert height * base / 2 == pytest.approx(area)


def test_landing_and_pressure():
    """A low bank still leaves clearance over the edge; the crest presses with its whole height."""
    assert landing_lift(6.0, 0.3) == 6.5
    assert landing_lift(6.0, 3.0) == 7.0
    assert bank_pressure(2.0, 500.0, gravity=10.0) == 10000.0


@given(width=st.floats(2.0, 14.0))
def test_only_the_widest_cuts_take_three_millers(width):
    """Three at once from some 40 ft, one below."""
    assume(abs(width - 10.9728) > 1e-6)
    assert machines_at_once(width) == (3 if width > 10.97 else 1)
