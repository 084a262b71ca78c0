"""Viscosity curves, warmth, distortion and relevelling."""

import numpy as np
import pytest

from firnstead.core.units import G0, YEAR
from firnstead.foundation.differential import difference_rate, time_to_limit, warm_side_rate
from firnstead.foundation.relevel import raise_needed, relevel_count, relevel_step, shims_needed
from firnstead.foundation.viscosity import curve_crocus, curve_sorge, viscosity_at, warmth_arrhenius, warmth_crocus

Z = np.linspace(0.0, 40.0, 401)
RHO = 917 - 567 * np.exp(-Z / 25)
SIGMA = G0 * (917 * Z - 567 * 25 * (1 - np.exp(-Z / 25)))


@pytest.mark.parametrize("depth, expected", [(5.0, 1.72e13), (20.0, 3.51e14)])
def test_curve_of_a_steady_profile(depth, expected):
    """The curve of an exponential profile gives the printed viscosities."""
    curve = curve_sorge(Z, RHO, SIGMA, 400 / YEAR)
    assert viscosity_at(float(np.interp(depth, Z, RHO)), curve) == pytest.approx(expected, rel=0.01)


def test_a_rough_profile_gives_a_usable_curve():
    """Ice lenses and light layers in a core leave the curve rising and finite."""
    rough = RHO + 60.0 * np.sin(Z * 1.7)
    densities, viscosities = curve_sorge(Z, rough, SIGMA, 400 / YEAR)
    assert np.all(np.diff(densities) > 0)
    assert np.all(np.diff(viscosities) >= 0)
    assert np.all(np.isfinite(viscosities))
    assert viscosities.min() > 0


def test_lighter_and_denser_than_the_curve():
    """Beyond the ends of the curve snow is softer, or no harder than its end."""
    curve = curve_sorge(Z, RHO, SIGMA, 400 / YEAR)
    assert viscosity_at(curve[0][0] - 50.0, curve) < curve[1][0]
    assert viscosity_at(900.0, curve) == pytest.approx(curve[1][-1])


def test_the_laws_meet_within_a_factor_of_a_few():
    """For the snow of a cold site's trench floor the two laws lie within a factor of five of one another."""
    sorge, crocus = curve_sorge(Z, RHO, SIGMA, 400 / YEAR), curve_crocus(248.15)
    for density in (450.0, 500.0, 550.0):
        assert 0.2 < viscosity_at(density, sorge) / viscosity_at(density, crocus) < 5.0


def test_warmth_is_one_at_the_site_and_grows():
    """At the site's temperature nothing changes; both laws grow with warmth, and the higher energy faster."""
    assert warmth_arrhenius(248.0, 248.0, 5e4) == warmth_crocus(248.0, 248.0) == 1.0
    assert 1.0 < warmth_arrhenius(253.0, 248.0, 42e3) < warmth_arrhenius(253.0, 248.0, 67e3)


def test_equal_rows_part_by_their_spread_only():
    """Rows that settle alike part by the spread; without spread they do not part."""
    assert difference_rate(2e-10, 2e-10, 0.25) == pytest.approx(5e-11)
    assert difference_rate(2e-10, 2e-10, 0.0) == 0.0
    assert warm_side_rate(2e-10, 1.0, 0.0) == 0.0


def test_time_until_the_limit_is_straight_in_time():
    """Twice the rate takes half the time; with no rate it is never reached, and used-up slope leaves none."""
    assert time_to_limit(1 / 300, 0.001, 2e-11) == pytest.approx(time_to_limit(1 / 300, 0.001, 1e-11) / 2)
    assert time_to_limit(1 / 300, 0.0, 0.0) == float("inf")
    assert time_to_limit(1 / 300, 1 / 200, 1e-11) == 0.0


@pytest.mark.parametrize(
    "years, step, count", [(0.4, 0.4, 24), (1.0, 1.0, 9), (2.9, 2.0, 4), (3.2, 3.0, 3), (12.0, 12.0, 0)]
)
def test_dates_of_relevelling(years, step, count):
    """Relevelling falls into whole years where it can, and not on the last day of the design life."""
    found = relevel_step(years * YEAR)
    assert found == pytest.approx(step * YEAR)
    assert relevel_count(10 * YEAR, found) == count


def test_heights_and_shims():
    """The slowest row without spread is never raised; shims are whole."""
    assert raise_needed(2e-10, 2e-10, 0.0, 10 * YEAR) == 0.0
    height = raise_needed(3e-10, 2e-10, 0.25, 10 * YEAR)
    assert height == pytest.approx(1.75e-10 * 10 * YEAR)
    assert shims_needed(height, 0.01) == 6
