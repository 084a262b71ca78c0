"""Milled snow: nothing at age zero, monotone growth, an envelope, and the wait that is its inverse."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.snow.hardening import (
    strength_milled_snow,
    strength_milled_snow_low,
    temperature_factor_milled_snow,
    waiting_time_milled_snow,
    waiting_time_text,
)
from firnstead.snow.results import MilledStrength

DAY = 86400.0
ages = st.floats(1.0, 1e9)
measured = st.tuples(st.floats(1e3, 5e5), st.floats(3600.0, 30 * DAY), st.floats(1e4, 1e6))


@given(ages, ages, measured)
def test_strength_grows_with_age_below_the_envelope(one, other, sample) -> None:
    """Older snow is never weaker and never stronger than the envelope."""
    young, old = sorted((one, other))
    assert strength_milled_snow_low(young, *sample) <= strength_milled_snow_low(old, *sample) <= sample[2]


@given(measured, st.floats(1e3, 2e6))
def test_wait_is_the_inverse(sample, wanted) -> None:
    """The wait gives the wanted strength, no earlier than was measured; above the envelope it never ends."""
    wait = waiting_time_milled_snow(wanted, *sample)
    if wanted > sample[2]:
        assert math.isinf(wait)
    else:
        assert wait >= sample[1]
        assert strength_milled_snow_low(wait, *sample) >= wanted * (1 - 1e-9)
        assert wait == sample[1] or strength_milled_snow_low(0.99 * wait, *sample) < wanted


def test_fresh_snow_has_no_strength() -> None:
    """At age zero there is no strength, whatever was measured later."""
    assert strength_milled_snow_low(0.0, 50e3, DAY, 5e5) == 0.0
    assert strength_milled_snow(-1.0, 50e3, DAY, 5e5, exponent=0.3) == 0.0


def test_unknown_temperature_stays_unknown() -> None:
    """Without an activation energy snow colder than the sample has no factor, no strength and no waiting time."""
    factor = temperature_factor_milled_snow(240.0, 250.0, None)
    assert math.isnan(factor)
    assert math.isnan(strength_milled_snow_low(DAY, 50e3, DAY, 5e5, temperature_factor=factor))
    assert math.isnan(waiting_time_milled_snow(40e3, 50e3, DAY, 5e5, temperature_factor=factor))
    assert waiting_time_text(math.nan, DAY) == "not known"


def test_cold_hardens_slower() -> None:
    """With an activation energy colder snow has the lower factor and the longer wait."""
    factor = temperature_factor_milled_snow(250.0, 260.0, 50e3)
    assert factor < 1.0
    assert waiting_time_milled_snow(60e3, 50e3, DAY, 5e5, temperature_factor=factor) > waiting_time_milled_snow(
        60e3, 50e3, DAY, 5e5
    )


def test_words_for_a_wait() -> None:
    """A wait past the horizon is told as not within it, an endless one too."""
    assert waiting_time_text(math.inf, 30 * DAY) == "not within 30 days"
    assert waiting_time_text(0.4 * DAY, 30 * DAY) == "1 day"
    assert waiting_time_text(12.2 * DAY, 30 * DAY) == "13 days"


def test_milled_strength_that_was_not_measured() -> None:
    """Before a measurement nothing is told but zero at age zero and what can never be reached."""
    milled = MilledStrength(500.0, 4.8e5, None, None, math.nan, 0.18, 0.4, "nothing was measured")
    assert milled.strength_low(0.0) == 0.0
    assert milled.strength_low(DAY) is None
    assert milled.waiting_time(1e5) is None
    assert milled.waiting_time(5e5) == math.inf
    assert milled.waiting_time(0.0) == 0.0


def test_milled_strength_that_was_measured() -> None:
    """After a measurement strength and wait belong together."""
    milled = MilledStrength(500.0, 4.8e5, 1e5, 2 * DAY, 1.0, 0.18, 0.4, "")
    assert milled.strength_low(2 * DAY) == pytest.approx(1e5)
    wait = milled.waiting_time(1.5e5)
    assert wait is not None
    assert milled.strength_low(wait) == pytest.approx(1.5e5)
