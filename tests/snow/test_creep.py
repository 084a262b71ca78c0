"""Behaviour of the creep laws outside their fits, and of the viscosities."""

import math

import numpy as np
import pytest

from firnstead.core.units import YEAR
from firnstead.snow.confined import depth_of_density_steady_arrizabalaga, softness_of_site_arrizabalaga
from firnstead.snow.creep import (
    coefficients_arrizabalaga,
    coefficients_gagliardini_meyssonnier,
    note_relative_density,
)
from firnstead.snow.rate_factor import rate_factor_cuffey_paterson, rate_factor_paterson_budd
from firnstead.snow.viscosity import viscosity_crocus, viscosity_yamazaki


def test_loose_snow_is_held_and_noted() -> None:
    """Below a relative density of 0.4 the coefficients stay as they are at 0.4, and a note says so."""
    assert coefficients_gagliardini_meyssonnier(0.3) == coefficients_gagliardini_meyssonnier(0.4)
    assert coefficients_arrizabalaga(0.3, 500.0) == coefficients_arrizabalaga(0.4, 500.0)
    assert note_relative_density(0.35)
    assert note_relative_density(1.01)
    assert not note_relative_density(0.5)


def test_ice_does_not_compact() -> None:
    """At the density of ice a is 1 and b is 0."""
    assert coefficients_gagliardini_meyssonnier(1.0) == pytest.approx((1.0, 0.0))
    assert coefficients_gagliardini_meyssonnier(1.2) == pytest.approx((1.0, 0.0))


def test_arrays_as_floats() -> None:
    """Arrays give what their elements give, across the border of the fits."""
    densities = np.array([0.3, 0.5, 0.81, 0.9])
    a, b = coefficients_gagliardini_meyssonnier(densities)
    for i, density in enumerate(densities):
        assert coefficients_gagliardini_meyssonnier(float(density)) == pytest.approx((a[i], b[i]), rel=1e-12)
    warm = rate_factor_cuffey_paterson(np.array([253.15, 268.15]))
    assert warm[1] == pytest.approx(rate_factor_cuffey_paterson(268.15), rel=1e-12)


def test_warm_ice_creeps_faster() -> None:
    """Both rate factors grow with temperature and meet without a jump where the branch changes."""
    for law in (rate_factor_cuffey_paterson, rate_factor_paterson_budd):
        values = law(np.linspace(223.15, 273.15, 200))
        assert np.all(np.diff(values) > 0)
        assert law(263.1500001) == pytest.approx(law(263.1499999), rel=0.03)


def test_site_number_is_found_again() -> None:
    """The k with which a depth was computed is found from that depth; an impossible depth finds none."""
    cold = rate_factor_paterson_budd(248.15)
    site = (550.0, cold, 360.0 / YEAR, 340.0)
    depth = depth_of_density_steady_arrizabalaga(*site, 600.0)
    assert softness_of_site_arrizabalaga(depth, *site) == pytest.approx(600.0, rel=2e-3)
    assert math.isnan(softness_of_site_arrizabalaga(500.0, *site))


def test_viscosity_grows_with_density_and_cold() -> None:
    """Denser and colder snow is stiffer by either law."""
    for law in (viscosity_crocus, viscosity_yamazaki):
        assert law(500.0, 248.15) > law(400.0, 248.15)
        assert law(400.0, 248.15) > law(400.0, 258.15)
