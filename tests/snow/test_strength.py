"""Bands of strength and the laws of stability that use them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.snow.drift import cover_mass, drift_transport_tabler
from firnstead.snow.elastic_openings import (
    closure_rate_nye,
    hoop_stress_crown_kirsch,
    lateral_pressure_ratio_confined,
)
from firnstead.snow.ram import ram_hardness
from firnstead.snow.strength import arrhenius_factor, compressive_strength_band, tensile_strength_band
from firnstead.snow.walls_stability import (
    bending_tension_leaning_wall,
    bending_tension_ledge,
    critical_height_circular,
    critical_height_coulomb,
    critical_height_lower_bound,
    critical_height_tension_crack,
)

densities = st.floats(200.0, 900.0)


@given(densities)
def test_bands_are_in_order(density) -> None:
    """Low, middle and high are in that order at every density below ice, in compression and in tension."""
    for band in (compressive_strength_band(density), tensile_strength_band(density)):
        assert 0 < band.low < band.middle < band.high


@given(densities, st.floats(0.0, 1e5), st.floats(0.0, 1e5))
def test_critical_height_falls_with_surcharge(density, one, other) -> None:
    """A heavier load on the edge never lets a cut stand higher, and no height is negative."""
    light, heavy = sorted((one, other))
    high = critical_height_lower_bound(50e3, density, surcharge=light)
    low = critical_height_lower_bound(50e3, density, surcharge=heavy)
    assert 0.0 <= low <= high


@given(densities, st.floats(1e3, 1e5))
def test_lower_bound_is_the_lowest(density, cohesion) -> None:
    """Of the laws for a vertical cut without friction the lower bound allows the least height."""
    least = critical_height_lower_bound(2 * cohesion, density)
    assert least < critical_height_tension_crack(cohesion, density)
    assert least < critical_height_circular(cohesion, density) < critical_height_coulomb(cohesion, density)


def test_a_ledge_is_worse_than_a_lean() -> None:
    """A thin ledge carries far more tension than a wall that leans by as much, and a load on it adds to it."""
    assert bending_tension_ledge(0.6, 0.5, 450.0) > 30 * bending_tension_leaning_wall(0.6, 6.0, 450.0)
    assert bending_tension_ledge(0.6, 0.5, 450.0, surcharge=1e3) > bending_tension_ledge(0.6, 0.5, 450.0)


def test_law_of_ice_says_that_it_is_for_ice() -> None:
    """In firn the closing rate of a hole in ice carries a warning, in ice it does not."""
    assert closure_rate_nye(15e3, 6.67e-26, 430.0).note
    assert not closure_rate_nye(0.9e6, 6.67e-26, 917.0).note


def test_roof_of_a_hole_in_tension() -> None:
    """The crown comes into tension where the sideways pressure is below a third."""
    assert hoop_stress_crown_kirsch(1.0, lateral_pressure_ratio_confined(0.2)) < 0
    assert hoop_stress_crown_kirsch(1.0, lateral_pressure_ratio_confined(0.3)) > 0


def test_more_snow_more_cover() -> None:
    """Cover grows with time by the drift factor; wind carries more than in proportion to its speed."""
    assert cover_mass(700.0, 1e-5, 1e8, drift_factor=2.0) - 700.0 == pytest.approx(2e3)
    assert drift_transport_tabler(20.0) > 4 * drift_transport_tabler(10.0)


def test_ram_hardness_of_a_cone_that_sinks_by_itself() -> None:
    """Without a blow the ram hardness is the dead weight."""
    assert ram_hardness(0.0, 0.5, 0.1, 10.0, 9.0) == 19.0


def test_arrhenius_factor_is_one_at_its_own_temperature() -> None:
    """The factor is 1 at the reference temperature and grows with warmth."""
    assert arrhenius_factor(250.0, 250.0, 6e4) == 1.0
    assert arrhenius_factor(255.0, 250.0, 6e4) > 1.0
