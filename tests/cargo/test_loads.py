"""Limits of transport and bounds on trips."""

from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.cargo.loads import Means, fewest_trips, takes, trips_lower_bound

SLED = Means("sled", 40e3, 160.0, 12.0, 3.0, 2.5, 15e3, 3)
PLANE = Means("plane", 9e3, 50.0, 10.0, 2.8, 2.4, 6e3, 4)


@pytest.mark.parametrize(
    ("mass", "size", "upright", "fits"),
    [
        (100.0, (2.4, 1.2, 0.1), False, True),
        (15.1e3, (2.0, 1.0, 1.0), False, False),  # too heavy
        (100.0, (12.1, 0.2, 0.2), False, False),  # too long
        (100.0, (0.2, 0.2, 12.0), False, True),  # laid down
        (100.0, (0.2, 0.2, 12.0), True, False),  # may not be laid down
        (100.0, (2.9, 2.9, 2.9), False, False),  # too wide in every position
    ],
)
def test_one_piece(mass, size, upright, fits):
    """A piece fits where mass and sizes are within the limits in some allowed position."""
    assert takes(SLED, mass, size, upright) is fits


@given(st.floats(0, 1e6), st.floats(0, 1e4))
def test_lower_bound_is_the_greater_of_both(mass, volume):
    """No number of trips below the bound carries the mass and the volume, and one below it would not do."""
    bound = trips_lower_bound(mass, volume, SLED.payload, SLED.volume)
    assert bound * SLED.payload >= mass - 1e-3
    assert bound * SLED.volume >= volume - 1e-3
    assert bound == 0 or (bound - 1) * SLED.payload < mass or (bound - 1) * SLED.volume < volume


@given(st.floats(0, 150e3), st.floats(0, 650.0))
def test_fewest_trips_against_every_mix(mass, volume):
    """The fewest trips are at most those of any mix of planned trips that carries mass and volume."""
    mixes = [
        sleds + planes
        for sleds in range(SLED.trips + 1)
        for planes in range(PLANE.trips + 1)
        if sleds * SLED.payload + planes * PLANE.payload >= mass
        and sleds * SLED.volume + planes * PLANE.volume >= volume
    ]
    bound = fewest_trips(mass, volume, [SLED, PLANE])
    if mixes:
        assert bound is not None
        assert bound <= min(mixes)
        assert bound >= ceil(mass / SLED.payload - 1e-9)


def test_too_few_trips_and_none_at_all():
    """Where all planned trips are too few, or there are none, there is no answer; nothing needs no trip."""
    assert fewest_trips(1e6, 1.0, [SLED, PLANE]) is None
    assert fewest_trips(1.0, 1.0, []) is None
    assert fewest_trips(0.0, 0.0, [SLED]) == 0
