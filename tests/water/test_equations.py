"""Behaviour of the water equations at their ends."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.water.cut import time_to_first_ice, time_to_freezing_hose, time_to_ice
from firnstead.water.energy import circulation_flow, soaked_mass
from firnstead.water.properties import WATER_HEAT
from firnstead.water.shaft import time_to_freeze_shaft, time_until_narrow
from firnstead.water.supply import refill_time
from firnstead.water.wall import film_free


def test_a_printed_power_of_hot_water_does_not_agree_with_itself():
    """koci_1984 prints 1.75 MW for 320 L/min from 2 to 98 degC; the heat balance gives 2.145 MW, which is used."""
    balance = 320 / 60 * WATER_HEAT * 96.0
    assert balance == pytest.approx(2.145e6, rel=0.005)
    assert balance / 1.75e6 > 1.2
    assert circulation_flow(balance, 371.15, 275.15) == pytest.approx(320 / 60, rel=1e-9)


def test_hot_hose_loses_what_is_printed():
    """koci_1984: 1 K lost in 30 m at 320 L/min is about 745 W for a metre of bare hose."""
    loss = 320 / 60 * WATER_HEAT * 1.0 / 30.0
    assert loss == pytest.approx(745.0, rel=0.01)


def test_film_never_vanishes_in_the_pool():
    """With the least difference of density the film near 8 degC keeps 0.4 of that at 4 degC."""
    assert film_free(8.13, least_share=0.063) > 0.38 * film_free(3.98, least_share=0.063)
    assert film_free(0.0, least_share=0.063) > 0.0
    assert film_free(1.0, least_share=0.063) == pytest.approx(film_free(1.0), rel=0.01)


def test_nothing_stays_without_end_where_nothing_flows():
    """No flux, no closing, no spare flow, no frost: the times have no end."""
    assert time_to_first_ice(1.0, 0.0) == math.inf
    assert time_to_ice(0.01, 0.0) == math.inf
    assert time_until_narrow(1.0, 0.5, 0.0) == math.inf
    assert refill_time(10.0, 1.0, 1.0) == math.inf
    assert time_to_freezing_hose(0.05, 0.0, 0.04, 3.0, 0.0) == math.inf


@given(st.floats(0.3, 2.0), st.floats(0.0, 0.29), st.floats(200.0, 268.0))
def test_a_wider_shaft_freezes_later(diameter, clear, ice):
    """Water in a wider shaft, or down to a smaller width, takes longer to freeze."""
    first = time_to_freeze_shaft(diameter, clear, 60.0, 700.0, ice)
    assert time_to_freeze_shaft(diameter * 1.2, clear, 60.0, 700.0, ice) > first
    assert time_to_freeze_shaft(diameter, clear / 2, 60.0, 700.0, ice) >= first


@given(st.floats(350.0, 916.0), st.floats(200.0, 272.0), st.floats(0.0, 60.0))
def test_firn_takes_no_more_than_pores_and_cold(density, ice, warmth):
    """What soaks in never fills more than the pores, and warm water soaks in less."""
    taken = soaked_mass(density, ice, warmth)
    assert 0.0 <= taken <= 917.0 - density + 1e-9
    assert taken <= soaked_mass(density, ice, 0.0)
