"""Settling of footings against closed forms, elastic stresses and an independent integration in time."""

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp

from firnstead.core.units import YEAR
from firnstead.foundation.settlement import (
    hardening_table,
    rate_layers,
    rate_square,
    rate_strip,
    settlement_updated,
    stress_spread,
)  # fmt: skip

PRESSURE, WIDTH, ETA, DEPTH = 50e3, 1.0, 1e13, 5.0
EDGES = np.linspace(0.0, DEPTH, 2001)
MIDDLE, THICK = (EDGES[1:] + EDGES[:-1]) / 2, np.diff(EDGES)


def test_square_of_constant_viscosity():
    """Layers under a square footing by itself give the closed form."""
    stress = stress_spread(PRESSURE * WIDTH**2, WIDTH, WIDTH, MIDDLE)
    rate = rate_layers(THICK, stress, np.full_like(MIDDLE, ETA))
    assert rate == pytest.approx(rate_square(PRESSURE, WIDTH, ETA, DEPTH), rel=1e-6)


def test_strip_of_constant_viscosity():
    """A footing of enormous length settles as a strip."""
    long = 1e9
    stress = stress_spread(PRESSURE * WIDTH * long, WIDTH, long, MIDDLE)
    rate = rate_layers(THICK, stress, np.full_like(MIDDLE, ETA))
    assert rate == pytest.approx(rate_strip(PRESSURE, WIDTH, ETA, DEPTH), rel=1e-6)


def test_row_of_touching_footings_is_a_strip():
    """Footings that touch one another in a long row settle as a strip does."""
    many = 100_000
    stress = stress_spread(PRESSURE * WIDTH**2, WIDTH, WIDTH, MIDDLE, per_row=many, spacing_along=WIDTH)
    rate = rate_layers(THICK, stress, np.full_like(MIDDLE, ETA))
    assert rate == pytest.approx(rate_strip(PRESSURE, WIDTH, ETA, DEPTH), rel=1e-4)


def test_elastic_stress_settles_alike():
    """Boussinesq's stress below the middle of a strip, integrated by itself, settles within 1 % of two to one."""

    def stress(z):
        angle = 2 * np.arctan2(WIDTH / 2, z)
        return (angle + np.sin(angle)) / np.pi

    elastic = quad(stress, 0.0, DEPTH)[0] * PRESSURE / ETA
    assert elastic * ETA / (PRESSURE * WIDTH) == pytest.approx(1.786, rel=1e-3)
    assert elastic == pytest.approx(rate_strip(PRESSURE, WIDTH, ETA, DEPTH), rel=0.01)


def test_layers_growing_denser_against_solve_ivp():
    """The closed form in time of every layer is what an adaptive integration of d rho/dt = rho sigma/eta gives."""
    densities = np.arange(380.0, 800.0, 10.0)
    viscosities = 2e12 * np.exp(0.021 * (densities - 380.0))
    edges = 20.0 * np.linspace(0.0, 1.0, 25) ** 2
    middle, thick = (edges[1:] + edges[:-1]) / 2, np.diff(edges)
    density = 420.0 + 6.0 * middle
    stress = stress_spread(12e3, 0.6, 0.6, middle, 3, 4, 1.5, 3.0)

    def step(_, rho):
        return rho * stress / (2e12 * np.exp(0.021 * (rho - 380.0)))

    end = solve_ivp(step, (0.0, 15 * YEAR), density, method="LSODA", rtol=1e-9, atol=1e-6).y[:, -1]
    independent = float(np.sum(thick * (1 - density / end)))
    ours = settlement_updated(thick, density, stress * 15 * YEAR, hardening_table(densities, viscosities))
    assert ours == pytest.approx(independent, rel=1e-3)
    straight = rate_layers(thick, stress, 2e12 * np.exp(0.021 * (density - 380.0))) * 15 * YEAR
    assert ours < straight


def test_load_of_the_group_is_kept():
    """Far below, the stress times the area of the whole group is the whole load."""
    rows, per_row, load = 3, 4, 8e3
    z = np.array([30.0])
    stress = stress_spread(load, 0.6, 0.5, z, rows, per_row, 1.5, 3.0)[0]
    area = ((rows - 1) * 1.5 + 0.6 + z[0]) * ((per_row - 1) * 3.0 + 0.5 + z[0])
    assert stress * area == pytest.approx(rows * per_row * load)
