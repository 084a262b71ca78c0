"""A free wall under wind: limits and trends."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.walls.stability import (
    base_stress,
    base_tension_bonded,
    overturning_factor,
    overturning_moment,
    sliding_factor,
    thickness_no_tension,
    thickness_overturning,
    wall_weight,
)  # fmt: skip
from firnstead.walls.wind import air_density, air_pressure_standard, wind_pressure

PRESSURE, HEIGHT, DENSITY = st.floats(10.0, 1500.0), st.floats(1.0, 10.0), st.floats(300.0, 650.0)


@given(PRESSURE, HEIGHT, DENSITY)
def test_no_tension_is_a_factor_of_three(pressure, height, density):
    """At the thickness where no joint opens the factor against overturning is three and the edge stress doubles."""
    t = thickness_no_tension(pressure, height, density)
    weight, moment = wall_weight(density, t, height), overturning_moment(pressure, height)
    assert overturning_factor(weight, t, moment) == pytest.approx(3.0)
    assert base_stress(weight, t, moment) == pytest.approx(2 * weight / t)
    assert base_tension_bonded(weight, t, moment) == pytest.approx(0.0, abs=1e-6 * weight / t)


@given(PRESSURE, HEIGHT, DENSITY, st.floats(1.0, 3.0))
def test_thickness_gives_the_factor_asked_for(pressure, height, density, factor):
    """The thickness for a factor gives that factor."""
    t = thickness_overturning(pressure, height, density, factor)
    assert overturning_factor(
        wall_weight(density, t, height), t, overturning_moment(pressure, height)
    ) == pytest.approx(factor)


def test_wall_that_tips_has_no_base_stress():
    """Where the resultant leaves the base the edge stress is infinite, and without wind the factors are."""
    assert base_stress(10e3, 0.5, 2600.0) == float("inf")
    assert overturning_factor(10e3, 0.5, 0.0) == float("inf")
    assert sliding_factor(0.3, 10e3, 0.0, 3.0) == float("inf")


def test_sliding_factor_does_not_depend_on_height():
    """Weight and wind both grow with height, so the factor against sliding stays."""
    low, high = (sliding_factor(0.3, wall_weight(450.0, 0.6, h), 400.0, h) for h in (1.0, 8.0))
    assert low == pytest.approx(high)


def test_wind_presses_less_in_thin_air():
    """The same wind presses less at altitude and more in the cold."""
    at_sea, on_ice = (air_density(air_pressure_standard(z), 250.0) for z in (0.0, 3000.0))
    assert wind_pressure(on_ice, 20.0, 1.3) < wind_pressure(at_sea, 20.0, 1.3)
    assert air_density(70e3, 220.0) > air_density(70e3, 250.0)
