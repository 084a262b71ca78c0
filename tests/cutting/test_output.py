"""Miller hours grow with density and never fall below nothing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.cutting.output import (
    output_at_density,
    pass_time,
    rethrow_time,
    season_hours,
    travel_speed,
    working_hours_per_day,
)

DENSITY = st.floats(200.0, 700.0)


@given(
    volume=st.floats(0.0, 1e4), thin=DENSITY, dense=DENSITY, stated=DENSITY, share=st.floats(0.3, 1.0),
    runs=st.integers(1, 8), turning=st.floats(0.0, 3600.0),
)  # fmt: skip
def test_denser_snow_takes_longer(volume, thin, dense, stated, share, runs, turning):
    """Hours are never negative, and never fewer in denser snow or in thinner air."""
    thin, dense = sorted((thin, dense))
    times = [pass_time(volume, output_at_density(0.14, stated, d, share), runs, turning) for d in (thin, dense)]
    assert 0.0 <= times[0] <= times[1] * (1 + 1e-12)
    assert times[0] >= pass_time(volume, output_at_density(0.14, stated, thin), runs, turning) * (1 - 1e-12)


@given(density=DENSITY, stated=DENSITY)
def test_the_same_mass_is_moved_in_any_snow(density, stated):
    """Output times density is what is stated; throwing a mass again takes as long as cutting it."""
    output = output_at_density(0.2, stated, density)
    assert output * density == pytest.approx(0.2 * stated)
    assert rethrow_time(50.0 * density, 0.2, stated) == pytest.approx(pass_time(50.0, output, 1, 0.0))


def test_travel_speed_fills_the_output():
    """Speed times width times depth is the output."""
    assert travel_speed(0.13, 2.6, 1.0) * 2.6 * 1.0 == pytest.approx(0.13)


def test_a_day_has_no_more_than_24_hours():
    """Three shifts of twelve hours are not thirty-six."""
    assert working_hours_per_day(12.0, 3, 0.5) == 12.0
    assert season_hours(10.0, 0.5, 12.0, 2) == 120.0
