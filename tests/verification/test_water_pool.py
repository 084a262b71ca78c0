"""The pool against its closed limits, its balances, exact conduction and an independent solver."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad, solve_bvp, solve_ivp

from firnstead.water.case import MONTH, PoolCase, example_case, start_mass
from firnstead.water.march import _slopes, _step, march
from firnstead.water.pool import FLOORS, flows, hours_until_cold, pool_through_the_years, rates_of
from firnstead.water.properties import LATENT, WATER_DENSITY, WATER_HEAT
from firnstead.water.shape import conduction_factor, radius_of_volume, wall_factor
from firnstead.water.wall import flux_into_ice, melt_rate

FREE = {"level_limit": 1e4, "hose_limit": 1e4, "span_limit": 1e4, "least_depth": 0.01}
EXAMPLE = replace(example_case(), **FREE)
SOLID = replace(EXAMPLE, densities=(917.0,) * 400)


def radius(state, case):
    """Radius of the water surface of a state."""
    return radius_of_volume(state.mass / WATER_DENSITY, case.shape)


@st.composite
def wells(draw) -> PoolCase:
    """Random wells, strong and weak, wet and dry, in firn and ice."""
    start = draw(st.floats(20.0, 90.0))
    row = st.lists(st.floats(0.0, 0.2), min_size=12, max_size=12).map(tuple)
    return replace(
        EXAMPLE, ice_temperature=draw(st.floats(200.0, 265.0)), shape=draw(st.floats(0.3, 5.0)), start_depth=start,
        film_constant=draw(st.floats(0.08, 0.15)), target=draw(st.floats(1e4, 5e6)), draw=draw(row),
        heat_limit=draw(st.lists(st.floats(0.0, 3e5), min_size=12, max_size=12).map(tuple)),
        circulation=draw(st.floats(0.05, 3.0)), supply=draw(st.floats(5.0, 80.0)), lead=draw(st.integers(0, 14)),
        months=30, start_radius=draw(st.floats(0.2, 1.0)), zone=draw(st.floats(2.0, 10.0)))  # fmt: skip


@settings(max_examples=25)
@given(wells())
def test_mass_and_heat_are_kept(case):
    """Over the months mass and heat balance to 1e-6 for any well, to whatever end it comes."""
    states = pool_through_the_years(case).states
    first, last = states[0], states[-1]
    mass = max(first.mass, last.melted, last.drawn)
    assert abs(last.mass - first.mass - last.melted + last.drawn) < 1e-6 * mass
    out = last.melted * LATENT + last.into_ice + last.into_air + last.drawn_heat
    heat = max(first.heat, last.heat_in, abs(out))
    assert abs(last.heat - first.heat - last.heat_in + out) < 1e-6 * heat


@settings(max_examples=10)
@given(wells())
def test_no_kilogram_costs_less_than_the_least(case):
    """What is put in is never less than the least heat of what melts and is still there or drawn."""
    last = pool_through_the_years(case).states[-1]
    assert last.heat_in + 1e6 >= (LATENT + case.sensible) * last.melted - 1e-6 * abs(last.heat_in)


def test_pool_held_without_draw():
    """No draw: in the end the heat put in is the standing loss, and the wall neither melts nor freezes."""
    case = replace(EXAMPLE, draw=(0.0,) * 12, lead=0, months=120)
    last = pool_through_the_years(case).states[-1]
    now = flows(case, last.time, last.mass, last.heat, 0.0, 60e3)
    assert now.power == pytest.approx(now.standing_loss, rel=2e-3)
    assert abs(now.melt) * LATENT < 2e-3 * now.power
    assert last.mass == pytest.approx(case.target, rel=0.02)


def test_pool_without_heat():
    """No heat: the pool cools to 0 degC, the time is finite, and all it loses comes out of water and fresh ice."""
    warm = pool_through_the_years(EXAMPLE).states[-1]
    end = hours_until_cold(EXAMPLE, warm)
    assert end.heat == pytest.approx(0.0, abs=1.0)
    assert warm.heat == pytest.approx(end.melted * LATENT + end.into_ice + end.into_air, rel=1e-9)
    assert end.heat_in == end.drawn_heat == 0.0


def test_all_heat_into_melting():
    """Strong heat and no loss upwards: heat for a kilogram comes down to the least possible."""
    ratios = []
    for power in (3e4, 3e5, 3e6):
        case = replace(SOLID, draw=(0.0,) * 12, heat_limit=(power,) * 12, target=1e9, months=2, top_film=1e-9,
                       circulation=1e3, supply=90.0)  # fmt: skip
        last = pool_through_the_years(case).states[-1]
        used = last.heat_in - last.heat
        ratios.append(used / (last.melted * (LATENT + case.sensible)))
    assert ratios[0] > ratios[1] > ratios[2] > 1.0
    assert ratios[2] < 1.005


def test_level_of_a_pool_that_grows_in_ice():
    """No draw in solid ice: the level falls by 2 (rho_w/rho_i - 1) of what a half sphere's radius gains."""
    case = replace(SOLID, draw=(0.0,) * 12, months=6, lead=0)
    first, *_, last = pool_through_the_years(case).states
    gain = radius(last, case) - radius(first, case)
    assert last.level - first.level == pytest.approx(2 * (1000 / 917 - 1) * gain, rel=1e-4)


@pytest.mark.parametrize(("density", "share"), [(917.0, 0.083), (700.0, 0.30)])
def test_surface_falls_by_the_missing_ice(density, share):
    """Melting without draw: the level falls by 8.3 % of the melted depth in ice, 30 % in firn of 700."""
    case = replace(EXAMPLE, densities=(density,) * 400)
    rates = rates_of(case, 0.0, 1e6)(1e7, [1e5, 1e5 * WATER_HEAT * 3.0, 80.0, 0, 0, 0, 0, 0])
    depth = rates[3] / density / (math.pi * radius_of_volume(100.0, 1.0) ** 2)
    assert rates[2] / depth == pytest.approx(share, abs=5e-4)


def test_level_of_a_pool_that_gives_water():
    """Steady draw: the level falls by the draw over the firn's density and the pool's surface."""
    case = replace(SOLID, months=120)
    a, b = pool_through_the_years(case).states[-13::12]
    fall = case.draw[0] * 12 * MONTH / (917.0 * math.pi * radius(b, case) ** 2)
    assert b.level - a.level == pytest.approx(fall, rel=1e-4)


def test_against_a_general_solver():
    """A general stiff solver with tight tolerance gives the same pool after thirty months."""
    case = replace(EXAMPLE, months=30)
    mass = start_mass(case)
    y = np.array([mass, mass * WATER_HEAT * case.start_warmth, case.start_depth, 0, 0, 0, 0, 0])
    for k in range(case.months):
        month = (case.first_month + k) % 12
        rates = rates_of(case, case.draw[month] if k >= case.lead else 0.0, case.heat_limit[month])
        span = (86400.0 + k * MONTH, 86400.0 + (k + 1) * MONTH)
        found = solve_ivp(rates, span, y, method="LSODA", rtol=1e-9, atol=[1e-3, 1e2, 1e-7, 1e-3, 1e3, 1e3, 1e3, 1e3])
        y = found.y[:, -1]
    last = pool_through_the_years(case).states[-1]
    ours = [last.mass, last.heat, last.level, last.melted, last.heat_in, last.into_ice, last.into_air, last.drawn_heat]
    assert ours == pytest.approx(list(y), rel=2e-5)


def test_march_is_of_third_order():
    """Halving the step of a stiff system that depends on time cuts the error by eight."""

    def rates(t, y):
        return [-50 * (y[0] - math.cos(t)) - math.sin(t) + (y[1] - math.exp(-t)) ** 2, -y[1] * y[0] / math.cos(t)]

    errors = []
    for steps in (80, 160, 320):
        y, h = [1.0, 1.0], 1.0 / steps
        for i in range(steps):
            f = rates(i * h, y)
            slopes = _slopes(rates, i * h, y, f, (1e-9, 1e-9), h, True)
            y, _ = _step(rates, i * h, y, f, h, slopes, 1e-6, (1e-9, 1e-9))
        errors.append(abs(y[0] - math.cos(1.0)))
    assert errors[0] / errors[1] > 6.0
    assert errors[1] / errors[2] > 7.0


def test_event_is_met_in_time():
    """The march ends where the event function rises through zero, to the accuracy of its steps."""
    done = march(lambda t, y: [-y[0], 0.0], 0.0, [1.0, 0.0], 5.0, tolerance=1e-8, floors=(1e-10, 1e-10), step=0.01,
                 events=[lambda t, y: 0.5 - y[0]])  # fmt: skip
    assert done.event == 0
    assert done.time == pytest.approx(math.log(2.0), abs=1e-6)


@pytest.mark.parametrize("number", [0.0, 0.3, 2.0, 20.0])
def test_moving_wall_against_a_boundary_value_solver(number):
    """Conduction ahead of a wall that melts back is the exact solution in the frame of the wall."""
    zone, integral, r0, sensible = 4.5, 60.0, 5.0, 6e4
    found = solve_bvp(
        lambda r, y: np.vstack([y[1], -(2 / r + number / r**2) * y[1]]),
        lambda a, b: np.array([a[0] - 1.0, b[0]]),
        np.linspace(1.0, zone, 400),
        np.vstack([np.linspace(1, 0, 400), -np.ones(400)]),
        tol=1e-8,
        max_nodes=100000,
    )
    exact = -found.y[1][0] * integral / r0
    assert flux_into_ice(number * integral / (r0 * sensible), integral, r0, sensible, zone) == pytest.approx(
        exact, rel=1e-5
    )


@given(st.floats(-100.0, 1e5), st.floats(1.0, 200.0), st.floats(0.1, 50.0), st.floats(1e4, 1.5e5), st.floats(1.05, 10))
def test_wall_keeps_its_heat(flux, integral, core, sensible, zone):
    """Heat from the water is what melts and what goes into the ice, and sensible heat is counted once."""
    melt = melt_rate(flux, integral, core, sensible, zone)
    into = flux_into_ice(melt, integral, core, sensible, zone)
    assert melt * LATENT + into == pytest.approx(flux, rel=1e-9, abs=1e-9 * into + 1e-9)
    assert into >= max(melt, 0.0) * sensible * (1 - 1e-9)


@pytest.mark.parametrize("shape", [0.2, 0.7, 1.0, 1.3, 4.0])
def test_spheroid_against_integrals(shape):
    """Wall and conduction of the half spheroid are those of the surface and the capacity integrals."""
    c = shape
    potential = quad(lambda s: 1 / ((1 + s) * math.sqrt(c**2 + s)), 0, np.inf, limit=200)[0] / 2
    assert conduction_factor(shape) == pytest.approx(2 * math.pi / potential, rel=1e-6)
    wall = quad(lambda a: math.sin(a) * math.sqrt(math.cos(a) ** 2 * 1 + (c * math.sin(a)) ** 2), 0, math.pi / 2)[0]
    assert wall_factor(shape) == pytest.approx(2 * math.pi * wall, rel=1e-6)


def test_floors_are_small():
    """The absolute tolerances are a small share of the smallest pool."""
    assert FLOORS[0] < 0.01 * start_mass(EXAMPLE)
    assert FLOORS[1] < 0.1 * start_mass(EXAMPLE) * WATER_HEAT
