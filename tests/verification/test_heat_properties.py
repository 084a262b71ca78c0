"""Air, moist air and film coefficients against independent libraries."""

import pytest
from CoolProp.CoolProp import HAPropsSI, PropsSI
from ht.conv_free_immersed import Nu_vertical_plate_Churchill
from hypothesis import given, settings
from hypothesis import strategies as st

from firnstead.heat.airflow import AIR_HEAT, air_density
from firnstead.heat.envelope import film_radiation, film_still_air
from firnstead.heat.vapour import dew_point, vapour_pressure, vapour_pressure_ice


@pytest.mark.parametrize("temperature", [225.0, 245.0, 255.15, 273.15, 293.15])
@pytest.mark.parametrize("pressure", [70e3, 101325.0])
def test_dry_air(temperature, pressure):
    """Density within 0.3 % and heat capacity within 0.5 % of the reference equation for air."""
    assert air_density(pressure, temperature) == pytest.approx(
        PropsSI("D", "T", temperature, "P", pressure, "Air"), rel=3e-3
    )
    assert pytest.approx(PropsSI("C", "T", temperature, "P", pressure, "Air"), rel=5e-3) == AIR_HEAT


@given(st.floats(283.15, 303.15), st.floats(0.3, 0.9))
@settings(max_examples=30, deadline=None)
def test_dew_point(temperature, humidity):
    """Dew points above freezing within 0.1 K of the moist-air library."""
    ours = dew_point(temperature, humidity)
    if ours > 274.0:
        assert ours == pytest.approx(HAPropsSI("D", "T", temperature, "P", 101325.0, "R", humidity), abs=0.1)


@pytest.mark.parametrize("temperature", [274.15, 283.15, 293.15, 303.15])
def test_saturation_over_water(temperature):
    """Within 0.5 % of the reference equation for water."""
    assert vapour_pressure(temperature) == pytest.approx(PropsSI("P", "T", temperature, "Q", 0, "Water"), rel=5e-3)


@pytest.mark.parametrize("temperature", [228.15, 243.15, 258.15, 268.15])
def test_saturation_over_ice(temperature):
    """Within 1 % of the moist-air library, which takes ice below freezing."""
    ratio = HAPropsSI("W", "T", temperature, "P", 101325.0, "R", 1.0)
    pressure = 101325.0 * ratio / (0.62198 + ratio)
    assert vapour_pressure_ice(temperature) == pytest.approx(pressure, rel=0.01)


@pytest.mark.parametrize("height", [2.0, 4.0, 6.0])
@pytest.mark.parametrize("difference", [0.5, 2.0, 5.0])
def test_still_air_film(height, difference):
    """The standard's film at an upright wall is within 30 % of a correlation of the heat-transfer library, and both
    grow alike with the difference: what decides is that the snow behind resists far more."""
    film_temperature, pressure = 253.15, 101325.0
    conductivity = PropsSI("L", "T", film_temperature, "P", pressure, "Air")
    viscosity = PropsSI("V", "T", film_temperature, "P", pressure, "Air") / air_density(pressure, film_temperature)
    prandtl = PropsSI("Prandtl", "T", film_temperature, "P", pressure, "Air")
    grashof = 9.80665 * difference * height**3 / (film_temperature * viscosity**2)
    theirs = Nu_vertical_plate_Churchill(prandtl, grashof) * conductivity / height
    assert film_still_air(difference, height) == pytest.approx(theirs, rel=0.30)


def test_radiation_film_is_the_difference_of_fourth_powers():
    """The film coefficient times the difference is the net radiation."""
    hot, cold = 260.0, 250.0
    assert film_radiation(hot, cold, emissivity=1.0) * 10.0 == pytest.approx(5.67e-8 * (hot**4 - cold**4))
