"""Masses are kept between snow in place, thrown and placed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.cutting.volumes import (
    circular_segment_area,
    cover_area,
    length_beyond_wall,
    mass_of,
    snow_balance,
    swell_factor,
    volume_at,
)

DENSITY = st.floats(200.0, 700.0)


@given(volume=st.floats(0.0, 1e5), place=DENSITY, thrown=DENSITY)
def test_mass_is_the_same_in_place_and_thrown(volume, place, thrown):
    """Snow thrown has the mass it had in place, and its volume is the swell factor times the volume in place."""
    mass = mass_of(volume, place)
    loose = volume_at(mass, thrown)
    assert mass_of(loose, thrown) == pytest.approx(mass)
    assert loose == pytest.approx(volume * swell_factor(place, thrown))


@given(cut=st.floats(0.0, 1e7), wanted=st.floats(0.0, 1e7), lost=st.floats(0.0, 1.0))
def test_balance_sums_to_what_was_cut(cut, wanted, lost):
    """Cover, bank and what the wind takes add up to the mass cut; none is less than nothing; the cover is never more
    than was wanted."""
    shared = snow_balance(cut, wanted, lost)
    assert shared.cover + shared.bank + shared.lost == pytest.approx(cut, abs=1e-6)
    assert min(shared.cover, shared.bank, shared.lost) >= -1e-6
    assert shared.cover <= wanted


def test_length_from_the_wall_at_each_depth():
    """Where the passage is narrower the trench's pass is longer by that much, more so when it meets at a slant."""
    assert length_beyond_wall(40.0, 4.0, 4.0, 1.0) == 40.0
    assert length_beyond_wall(40.0, 4.0, 3.0, 0.5) == pytest.approx(42.0)


@given(rise=st.floats(0.3, 2.4), more=st.floats(0.0, 2.0))
def test_more_cover_takes_more_snow(rise, more):
    """A thicker cover over the crown takes the width times the difference where the top is level."""
    area = circular_segment_area(5.0, rise)
    thin = cover_area(7.0, 5.0, rise, 1.0, rise + 1.0, area)
    thick = cover_area(7.0, 5.0, rise, 1.0 + more, rise + 1.0 + more, area)
    assert thick - thin == pytest.approx(7.0 * more)
