"""Properties against a library, shaft and sump against exact heat and mass, ice on still water against a grid."""

import math

import CoolProp.CoolProp as CP
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import j0, y0

from firnstead.water.cut import STILL_CONDUCTIVITY, time_to_first_ice
from firnstead.water.energy import STEAM_HEAT, soaked_mass
from firnstead.water.properties import (
    LATENT,
    WATER_DENSITY,
    WATER_HEAT,
    water_conductivity,
    water_density_kell,
    water_viscosity,
)
from firnstead.water.shaft import heat_given_cylinder, number_of_heat_cylinder
from firnstead.water.sump import SumpCase, bulb_through_the_years


@pytest.mark.parametrize("warmth", [0.02, 3.98, 8.13, 20.0, 40.0, 60.0])
def test_water_against_a_library(warmth):
    """Density, conductivity, viscosity and heat of water are those of an independent library."""

    def library(what):
        return CP.PropsSI(what, "T", 273.15 + warmth, "P", 101325, "Water")

    assert water_density_kell(warmth) == pytest.approx(library("D"), abs=0.005)
    assert water_conductivity(warmth) == pytest.approx(library("L"), rel=0.003)
    assert water_viscosity(warmth) == pytest.approx(library("V"), rel=0.004)
    assert pytest.approx(library("C"), rel=0.006) == WATER_HEAT


def test_steam_against_a_library():
    """Heat of steam at 101 kPa down to water at 0 degC is the library's."""
    steam = CP.PropsSI("H", "P", 101325, "Q", 1, "Water") - CP.PropsSI("H", "T", 273.16, "Q", 0, "Water")
    assert pytest.approx(steam, rel=2e-4) == STEAM_HEAT


@pytest.mark.parametrize("number", [0.002, 0.02, 0.15, 0.5, 3.0, 40.0, 700.0])
def test_cylinder_against_quadrature(number):
    """The heat a warm cylinder has given off is the textbook integral, within 0.7 % and never less."""

    def weight(u):
        return j0(u) ** 2 + y0(u) ** 2

    near = quad(lambda x: number / weight(math.exp(x)), -400, -20, limit=2000)[0]
    middle = quad(lambda x: -math.expm1(-number * math.exp(2 * x)) * math.exp(-2 * x) / weight(math.exp(x)), -20, 0)[0]
    far = quad(
        lambda x: -math.expm1(-number * math.exp(2 * x)) * math.exp(-2 * x) / weight(math.exp(x)), 0, 12, limit=20000
    )[0]
    exact = 4 / math.pi**2 * (near + middle + far + math.pi / 2 * math.exp(-12)) + number / 400
    ours = heat_given_cylinder(number)
    assert exact * (1 - 1e-5) < ours < exact * 1.0072
    assert number_of_heat_cylinder(ours) == pytest.approx(number, rel=1e-6)


def test_first_ice_against_a_grid():
    """Still water that loses a steady flux upwards is at 0 degC when the closed form says so."""
    warmth, flux, step = 1.0, 15.0, 0.002
    diffusivity = STILL_CONDUCTIVITY / (WATER_DENSITY * WATER_HEAT)
    t, dt = np.full(300, warmth), 0.4 * step**2 / diffusivity
    time = 0.0
    while 1.5 * t[0] - 0.5 * t[1] > 0.0:
        flow = np.concatenate(([flux], STILL_CONDUCTIVITY * np.diff(t) / step, [0.0]))
        flow[0], flow[1:] = flux, -flow[1:]
        t = t - dt * (np.concatenate(([flux], -flow[1:-1])) - np.concatenate((-flow[1:-1], [0.0]))) / (
            WATER_DENSITY * WATER_HEAT * step
        )
        time += dt
    assert time_to_first_ice(warmth, flux) == pytest.approx(time, rel=0.02)


@settings(max_examples=20)
@given(
    st.floats(200.0, 268.0),
    st.floats(0.0, 80.0),
    st.lists(st.floats(0.0, 3.0), min_size=12, max_size=12).map(tuple),
    st.floats(0.0, 5000.0),
)
def test_sump_keeps_mass_and_heat(ice, warmth, flow, cavity):
    """Sewage, meltwater and ice of the bulb balance to 1e-6, and it never melts more than its heat allows."""
    case = SumpCase(ice, 800.0, cavity, warmth, flow, 3, 36, 700.0, 5.0)
    last = bulb_through_the_years(case)[-1]
    scale = max(last.sewage, 1.0)
    assert last.sewage == pytest.approx(sum(flow) * 3 * 365.25 * 7200.0, rel=1e-9, abs=1e-6)
    frozen = last.sewage + last.melted - last.liquid
    assert frozen >= -1e-6 * scale
    heat = max(last.heat_in, LATENT * scale)
    assert abs(last.heat_in - last.into_ice - LATENT * (last.liquid - last.sewage)) < 1e-6 * heat
    assert last.reach >= last.radius
    assert soaked_mass(700.0, ice, warmth) <= 217.0


def test_hot_sewage_melts_its_share():
    """Much hot sewage, little conduction: what melts comes up to the closed bound c t/(L + s)."""
    case = SumpCase(263.15, 800.0, 0.0, 60.0, (50.0,) * 12, 0, 12, 700.0, 5.0)
    last = bulb_through_the_years(case)[-1]
    bound = WATER_HEAT * 60.0 / (LATENT + 20.6e3)
    assert 0.97 * bound < last.melted / last.sewage < bound * 1.01
