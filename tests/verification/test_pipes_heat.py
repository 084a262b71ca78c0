"""Pipe results against an independent heat-transfer library, general solvers and numerical solutions."""

import math

import ht
import numpy as np
import pytest
from fluids.friction import friction_factor as library_friction
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from firnstead.pipes.flowing import (
    distance_to_temperature,
    friction_factor,
    least_flow_legs,
    temperature_along,
)
from firnstead.pipes.freezing import dead_leg_limit, heat_content, time_to_freeze_share, time_to_temperature
from firnstead.pipes.line import Wrapping, resistance_line
from firnstead.pipes.resistance import resistance_layer, resistance_shape_pipe
from firnstead.pipes.thaw import jacket_in_snow, shifted_ground, thaw_cylinder

PUR = Wrapping(0.0525, 0.0603, 50.0, ((0.05, 0.027, 0.0),), 0.0008, 0.9)
AIR = {"rho": 1.4, "mu": 1.6e-5, "k": 0.0226, "Cp": 1005.0}  # at about -20 degC


def total_with_library(wrapping, inside, air):
    """Resistance of one metre where the library gives cylinder and free convection, solved by its own root finder."""
    steps = [(wrapping.outer, wrapping.bore, wrapping.wall_conductivity)]
    for thickness, k, _ in wrapping.layers:
        steps.append((steps[-1][0] + 2 * thickness, steps[-1][0], k))
    below = sum(ht.R_cylinder(Di=low, Do=high, k=k, L=1.0) for high, low, k in steps)
    outside = steps[-1][0] + 2 * wrapping.jacket

    def film(surface):
        grashof = 9.81 / air * abs(surface - air) * outside**3 * (AIR["rho"] / AIR["mu"]) ** 2
        prandtl = AIR["Cp"] * AIR["mu"] / AIR["k"]
        convection = ht.Nu_horizontal_cylinder_Churchill_Chu(prandtl, grashof) * AIR["k"] / outside
        radiation = ht.q_rad(wrapping.emissivity, surface, air) / (surface - air)
        return convection + radiation

    surface = brentq(
        lambda s: (inside - s) / below - math.pi * outside * film(s) * (s - air), air + 1e-6, inside - 1e-9
    )
    return below + 1 / (math.pi * outside * film(surface))


@pytest.mark.parametrize("inside, air", [(278.15, 222.15), (278.15, 253.15), (348.15, 243.15)])
@pytest.mark.parametrize("thickness", [0.02, 0.05, 0.12])
def test_resistance_of_a_line_is_that_of_the_library(inside, air, thickness):
    """Cylinders and free convection of the library give our resistance of a metre within 3 %."""
    line = Wrapping(0.0525, 0.0603, 50.0, ((thickness, 0.027, 0.0),), 0.0008, 0.9)
    assert resistance_line(line, inside, air).total == pytest.approx(total_with_library(line, inside, air), rel=0.03)


@pytest.mark.parametrize("low, high, k", [(0.0525, 0.0603, 50.0), (0.1, 0.25, 0.03)])
def test_cylinder_is_that_of_the_library(low, high, k):
    """A layer's resistance is that of the library to rounding."""
    assert resistance_layer(low, high, k) == pytest.approx(ht.R_cylinder(Di=low, Do=high, k=k, L=1.0), rel=1e-12)


@pytest.mark.parametrize("diameter, depth", [(0.7, 1.5), (0.2, 0.15), (0.1, 3.0)])
def test_shape_factor_is_that_of_the_library(diameter, depth):
    """A pipe below a plane has the library's shape factor."""
    ours = 1 / resistance_shape_pipe(diameter, depth, 1.0)
    assert ours == pytest.approx(ht.S_isothermal_pipe_to_plane(diameter, depth), rel=1e-12)


@pytest.mark.parametrize("number", [500.0, 2000.0, 1e4, 1e5, 1e6])
@pytest.mark.parametrize("roughness", [0.0, 5e-4, 5e-3])
def test_friction_is_that_of_the_library(number, roughness):
    """The explicit friction factor lies within 2.5 % of the library's implicit one."""
    assert friction_factor(number, roughness) == pytest.approx(library_friction(Re=number, eD=roughness), rel=0.025)


@pytest.mark.parametrize("start, air", [(278.15, 222.15), (283.15, 233.15), (303.15, 253.15)])
def test_time_to_zero_is_on_the_short_side_of_a_general_solver(start, air):
    """With resistance following the temperature an ODE solver takes longer than our time, by less than 2 %."""
    content = heat_content(PUR.bore, 1000.0, 4200.0)
    ours = time_to_temperature(start, 273.15, air, content, resistance_line(PUR, start, air).total)

    def cooling(_, t):
        return [-(t[0] - air) / (content * resistance_line(PUR, float(t[0]), air).total)]

    def zero(_, t):
        return t[0] - 273.15

    zero.terminal = True
    found = solve_ivp(cooling, (0, 10 * ours), [start], events=zero, rtol=1e-8, atol=1e-8)
    assert ours <= found.t_events[0][0] <= 1.02 * ours


legs_strategy = st.lists(
    st.tuples(st.floats(1.0, 300.0), st.floats(215.0, 270.0), st.floats(1.0, 10.0)), min_size=1, max_size=4
)


@given(legs_strategy, st.floats(0.05, 3.0), st.floats(276.0, 350.0))
def test_temperatures_and_heat_of_a_line_are_those_of_a_general_solver(legs, flow, start):
    """Leg by leg the closed form gives the ODE solver's temperature, and the heat lost is the integral to 1e-6."""
    capacity, at = 4200.0, start
    for length, air, resistance in legs:
        end = temperature_along(at, air, length, flow, capacity, resistance)
        found = solve_ivp(
            lambda _, y, a=air, r=resistance: [-(y[0] - a) / (flow * capacity * r), (y[0] - a) / r],
            (0, length), [at, 0.0], method="DOP853", rtol=1e-11, atol=1e-9,
        )  # fmt: skip
        assert end == pytest.approx(found.y[0, -1], abs=1e-6)
        assert flow * capacity * (at - end) == pytest.approx(found.y[1, -1], rel=1e-6, abs=1e-6)
        at = end


@given(legs_strategy, st.floats(276.0, 290.0), st.floats(273.5, 275.0))
def test_least_flow_brings_the_far_end_to_what_is_wanted(legs, start, end):
    """With the least flow the far end has the wanted temperature, and with less it is colder."""
    flow = least_flow_legs(start, end, legs, 4200.0)

    def far(m):
        at = start
        for length, air, resistance in legs:
            at = temperature_along(at, air, length, m, 4200.0, resistance)
        return at

    assert far(flow) == pytest.approx(end, abs=1e-6)
    assert far(0.9 * flow) < end


@given(st.floats(0.05, 3.0), st.floats(276.0, 350.0), st.floats(215.0, 270.0), st.floats(1.0, 10.0))
def test_distance_and_temperature_are_inverse(flow, start, air, resistance):
    """The temperature after the distance to a temperature is that temperature."""
    wanted = air + 0.7 * (start - air)
    distance = distance_to_temperature(start, wanted, air, flow, 4200.0, resistance)
    assert temperature_along(start, air, distance, flow, 4200.0, resistance) == pytest.approx(wanted, rel=1e-9)


@pytest.mark.parametrize("share", [0.05, 0.25, 0.7, 1.0])
def test_ring_of_ice_is_the_integral_of_its_growth(share):
    """The closed form is the integral of the quasi-steady growth of a ring of ice."""
    bore, resistance, ice, latent, span = 0.08, 3.0, 2.2, 3.06e8, 40.0
    radius = np.linspace(bore / 2, bore / 2 * math.sqrt(1 - share), 200_001)[:-1]
    middle = (radius[1:] + radius[:-1]) / 2
    rate = latent * 2 * math.pi * middle * (resistance + np.log(bore / 2 / middle) / (2 * math.pi * ice)) / span
    numeric = float(np.sum(rate * -np.diff(radius)))
    ours = time_to_freeze_share(share, 273.15, 273.15 - span, latent, bore, resistance, ice)
    assert ours == pytest.approx(numeric, rel=1e-4)


def test_true_freezing_takes_longer():
    """Finite differences with the ice's own heat take some per cent longer than the quasi-steady time: it is short."""
    ice, density, heat, latent, radius, span, n = 2.2, 917.0, 2000.0, 3.34e5, 0.05, 20.0, 40
    step = radius / n
    edges = np.linspace(0, radius, n + 1)
    area, energy = math.pi * (edges[1:] ** 2 - edges[:-1] ** 2), np.full(n, density * latent)
    dt = 0.2 * step**2 * density * heat / ice
    time = 0.0
    while energy[0] > 0:
        t = np.where(energy < 0, energy / (density * heat), 0.0)
        flux = np.zeros(n + 1)
        flux[1:n] = -ice * np.diff(t) / step * 2 * math.pi * edges[1:n]
        flux[n] = ice * (t[-1] + span) / (step / 2) * 2 * math.pi * radius
        energy -= dt * np.diff(flux) / area
        time += dt
    quasi = time_to_freeze_share(1.0, 273.15, 273.15 - span, density * latent, 2 * radius, 1e-12, ice)
    assert 1.03 < time / quasi < 1.2  # 1 + 0.65 Ste = 1.08


def test_dead_leg_is_a_fin():
    """A fin with a closed end, by finite differences, has our temperature at its end."""
    main, end, air, resistance, axial = 283.15, 274.15, 243.15, 5.0, 0.05
    length, n = dead_leg_limit(main, end, air, resistance, axial), 400
    dx = length / n
    matrix = np.diag(np.full(n, -2 - dx**2 / (resistance * axial))) + np.diag(np.ones(n - 1), 1) + np.diag(
        np.ones(n - 1), -1)  # fmt: skip
    matrix[-1, -2] = 2.0
    right = np.zeros(n)
    right[0] = -(main - air)
    assert air + np.linalg.solve(matrix, right)[-1] == pytest.approx(end, abs=1e-3)


@pytest.mark.parametrize("frozen, thawed", [(0.5, 0.5), (0.6, 0.4)])
def test_thaw_cylinder_lies_at_the_melting_point(frozen, thawed):
    """The bipolar field is 0 degC all round the cylinder, and brings as much heat in as goes out beyond it."""
    surface, depth, radius, melting, ground = 293.15, 1.0, 0.1, 273.15, 258.15
    h, r = thaw_cylinder(surface, depth, radius, melting, ground, frozen, thawed)
    shifted, c = shifted_ground(melting, ground, frozen, thawed), math.sqrt(depth**2 - radius**2)
    heat = 2 * math.pi * thawed * (surface - shifted) / math.acosh(depth / radius)
    for angle in np.linspace(0, 2 * math.pi, 9):
        x, z = r * math.sin(angle), h + r * math.cos(angle)
        ratio = (x**2 + (z + c) ** 2) / (x**2 + (z - c) ** 2)
        assert shifted + heat * math.log(ratio) / (4 * math.pi * thawed) == pytest.approx(melting, abs=1e-9)
    assert 2 * math.pi * frozen * (melting - ground) / math.acosh(h / r) == pytest.approx(heat, rel=1e-9)


def test_jacket_in_snow_is_continuous_where_it_begins_to_thaw():
    """Just below and just above the first thaw the jacket has the same temperature, and the cylinder starts there."""

    def jacket(inside):
        return jacket_in_snow(inside, 0.5, 0.5, 0.1, 273.15, 258.15, 0.6, 0.4)

    first = brentq(lambda t: jacket(t) - 273.15, 260.0, 400.0)
    assert jacket(first + 1e-6) == pytest.approx(jacket(first - 1e-6), abs=1e-4)
    assert thaw_cylinder(jacket(first + 1e-6), 0.5, 0.1, 273.15, 258.15, 0.6, 0.4)[1] == pytest.approx(0.1, rel=1e-3)
