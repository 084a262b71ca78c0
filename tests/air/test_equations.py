"""The small laws of the air: how they hang together and what happens at their ends."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.air.cohb import cohb_coburn, cohb_in_the_end, cohb_rise_stewart, time_to_cohb_stewart
from firnstead.air.draught import area_in_series, draught_pressure, duct_coefficient, opening_flow, wind_pressure
from firnstead.air.fans import curve_from_duty, fan_branch, pressure_on_curve
from firnstead.air.limits import published_limits, strictest
from firnstead.air.mixing import flow_needed, share_mixed, share_steady, time_to_share
from firnstead.air.properties import air_density, altitude_of_pressure, head_of_air, pressure_standard

flows = st.floats(1e-3, 10.0)


@given(st.floats(0.0, 6000.0))
def test_pressure_and_altitude_are_inverse(height):
    """The altitude of the pressure at a height is that height."""
    assert altitude_of_pressure(pressure_standard(height)) == pytest.approx(height, abs=1e-6)


@given(st.floats(50e3, 105e3), st.floats(1.0, 30.0), st.floats(210.0, 270.0), st.floats(210.0, 270.0))
def test_draught_is_the_difference_of_two_columns(pressure, height, outside, inside):
    """The printed factor gives the weight of the outside column less that of the inside one."""
    columns = head_of_air(height, air_density(pressure, outside)) - head_of_air(height, air_density(pressure, inside))
    assert draught_pressure(pressure, height, outside, inside) == pytest.approx(columns, abs=2e-3, rel=1e-3)


@given(flows, st.floats(1e-7, 1e-3), st.floats(10.0, 1e4), st.floats(0.0, 0.01))
def test_time_to_a_share_is_when_it_is_there(flow, gas, volume, start):
    """After the time to a limit the room is at the limit."""
    limit = start + 0.5 * (share_steady(flow, gas, start) - start)
    time = time_to_share(volume, flow, gas, start, start, limit)
    assert share_mixed(time, volume, flow, gas, start, start) == pytest.approx(limit, rel=1e-6, abs=1e-12)


@given(st.floats(1e-7, 1e-3), st.floats(1e-4, 0.01), st.floats(1.0, 10.0))
def test_needed_air_just_holds_the_limit(gas, limit, mixing):
    """With the air that is needed the room comes to the limit."""
    assert share_steady(flow_needed(gas, limit, 0.0, mixing), gas, 0.0, mixing) == pytest.approx(limit)


def test_ends_of_the_mixed_room():
    """No gas, no air, a limit below the start and a limit that is never reached."""
    assert share_steady(0.0, 1e-6, 0.0) == math.inf
    assert flow_needed(0.0, 1e-3, 0.0) == 0.0
    assert flow_needed(1e-6, 4e-4, 4e-4) == math.inf
    assert time_to_share(100.0, 0.0, 0.0, 0.0, 0.0, 1e-3) == math.inf
    assert time_to_share(100.0, 1.0, 1e-6, 0.0, 0.0, 1e-3) == math.inf
    assert time_to_share(100.0, 1.0, 1e-6, 0.0, 2e-3, 1e-3) == 0.0


@given(st.floats(5e-6, 500e-6))
def test_blood_comes_to_its_balance(co):
    """After days in steady air the blood is where the balance without time says."""
    assert cohb_coburn(10 * 86400.0, co, 101325.0, steps=4000) == pytest.approx(cohb_in_the_end(co, 101325.0), rel=1e-3)


@given(st.floats(1e-4, 5e-3))
def test_short_uptake_and_its_time_are_inverse(co):
    """The blood after the time to a share holds that share."""
    time = time_to_cohb_stewart(co, 0.2, 25e-3 / 60)
    assert cohb_rise_stewart(co, time, 25e-3 / 60) == pytest.approx(0.2)
    assert time_to_cohb_stewart(0.0, 0.2, 25e-3 / 60) == math.inf


def test_less_oxygen_lets_more_carbon_monoxide_in():
    """With a lower pressure of oxygen in the blood the same air does more harm."""
    assert cohb_coburn(4 * 3600.0, 50e-6, 70000.0, oxygen=60.0) > cohb_coburn(4 * 3600.0, 50e-6, 70000.0)


@given(st.floats(0.05, 2.0), st.floats(0.05, 2.0))
def test_openings_in_series_pass_less_than_either(first, second):
    """Two openings behind one another pass less than the smaller one alone."""
    assert area_in_series(first, second) < min(first, second)


def test_signs():
    """Flow goes with the pressure, suction is suction, a longer duct passes less."""
    assert opening_flow(0.1, -5.0, 1.0) == -opening_flow(0.1, 5.0, 1.0)
    assert wind_pressure(10.0, 1.0, -0.5) < 0
    assert duct_coefficient(30.0, 0.5, 0.02, 1.5) < duct_coefficient(10.0, 0.5, 0.02, 1.5)


@given(flows, st.floats(10.0, 500.0))
def test_a_curve_goes_through_its_point(flow, pressure):
    """The curve made from one point passes near it and falls all the way to no pressure."""
    curve = curve_from_duty(flow, pressure)
    assert pressure_on_curve(flow, curve) == pytest.approx(pressure, rel=0.02)
    assert curve[-1][1] == pytest.approx(0.0, abs=1e-9 * pressure)
    assert all(p2 < p1 for (_, p1), (_, p2) in zip(curve, curve[1:], strict=False))


@given(flows, st.floats(10.0, 500.0), st.floats(0.5, 1.3), st.floats(0.05, 3.0), st.floats(-300.0, 300.0))
def test_a_fan_passes_more_with_more_help(flow, pressure, density, duct, helping):
    """The flow of a fan's branch rises with the pressure that helps it: the balance has one answer."""
    branch = fan_branch(-1, 0, 0.0, curve_from_duty(flow, pressure), density, 1.2, duct)
    assert branch.flow(helping + 1.0) >= branch.flow(helping)
    assert branch.slope(helping) > 0


def test_limits_of_the_list():
    """The strictest limit is the lowest, for oxygen the highest; without any there is none."""
    limits = published_limits()
    assert strictest(limits, "co")[1].value == pytest.approx(25e-6)
    assert strictest(limits, "co2", short=True)[1].value == pytest.approx(0.03)
    assert strictest(limits, "oxygen")[1].value == pytest.approx(0.195)
    assert strictest({}, "co") is None
