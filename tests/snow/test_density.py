"""Behaviour of the density laws over the climates of ice sheets."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.core.units import YEAR
from firnstead.snow.density import (
    JOHNSEN,
    density_herron_langway,
    density_schytt,
    depth_of_550_herron_langway,
    depth_of_density_herron_langway,
    mass_above_herron_langway,
)

climates = st.tuples(st.floats(210.0, 265.0), st.floats(0.01 / YEAR * 1000, 1.0 / YEAR * 1000), st.floats(250.0, 545.0))


@given(climates)
def test_density_grows_with_depth(climate) -> None:
    """Density grows with depth, from the surface density to below that of ice, and so does the mass."""
    depth = np.linspace(0.0, 100.0, 201)
    density = density_herron_langway(depth, *climate)
    assert density[0] == pytest.approx(climate[2])
    assert np.all(np.diff(density) >= 0)
    assert np.all(density <= 917.0)
    assert np.all(np.diff(mass_above_herron_langway(depth, *climate)) > 0)


@given(climates, st.floats(1.1, 5.0))
def test_depth_of_550_does_not_depend_on_accumulation(climate, times) -> None:
    """More snow leaves the depth of 550 where it is and lowers every density below it."""
    temperature, accumulation, surface = climate
    one = depth_of_density_herron_langway(550.0, temperature, accumulation, surface)
    assert one == pytest.approx(depth_of_density_herron_langway(550.0, temperature, times * accumulation, surface))
    assert one == pytest.approx(depth_of_550_herron_langway(temperature, surface))
    deep = one + 20.0
    more = density_herron_langway(deep, temperature, times * accumulation, surface)
    assert more < density_herron_langway(deep, temperature, accumulation, surface)


def test_no_depth_above_the_surface() -> None:
    """A density at or below the surface's is met at the surface, and a dense start skips stage 1."""
    assert depth_of_density_herron_langway(340.0, 248.0, 1e-5, 350.0) == 0.0
    assert depth_of_550_herron_langway(248.0, 600.0) == 0.0
    assert density_herron_langway(0.0, 248.0, 1e-5, 600.0) == pytest.approx(600.0)


def test_correction_for_central_greenland() -> None:
    """The corrected constants put 550 deeper and 830 shallower than the uncorrected ones."""
    law = (241.45, 210.0 / YEAR, 340.0)
    shares = {"stage_1_share": JOHNSEN[0], "stage_2_share": JOHNSEN[1]}
    assert depth_of_density_herron_langway(550.0, *law, **shares) > depth_of_density_herron_langway(550.0, *law)
    assert depth_of_density_herron_langway(830.0, *law, **shares) < depth_of_density_herron_langway(830.0, *law)


def test_float_in_float_out() -> None:
    """A float gives a float and an array an array of the same values."""
    law = (248.15, 1e-5, 350.0)
    one = density_herron_langway(12.0, *law)
    assert type(one) is float
    assert density_herron_langway(np.array([0.0, 12.0]), *law)[1] == pytest.approx(one, rel=1e-14)


def test_exponential_first_guess() -> None:
    """The exponential starts at the surface density and nears ice without passing it."""
    values = density_schytt(np.array([0.0, 30.0, 1000.0]), 350.0, 68.0)
    assert values[0] == pytest.approx(350.0)
    assert 350.0 < values[1] < values[2] <= 917.0
