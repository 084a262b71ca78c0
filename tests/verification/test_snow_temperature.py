"""The annual wave against finite differences of the heat equation."""

import math

import numpy as np
import pytest
from scipy.linalg import solve_banded

from firnstead.core.units import YEAR
from firnstead.snow.conduction import conductivity_calonne_2019
from firnstead.snow.density import density_herron_langway
from firnstead.snow.heat_capacity import diffusivity, heat_capacity_ice
from firnstead.snow.temperature import penetration_depth, swing_share, temperature_annual_wave

MEAN, SWING = 248.15, 20.0
STEPS = 730  # a year


def annual_temperatures(depth: np.ndarray, conductivity: np.ndarray, capacity: np.ndarray) -> np.ndarray:
    """Temperatures of the fifth year by Crank-Nicolson, one row a step; the bottom keeps the mean."""
    dz, dt = depth[1] - depth[0], YEAR / STEPS
    face = (conductivity[:-1] + conductivity[1:]) / 2
    left, right = face[:-1], face[1:]
    factor = dt / (2 * dz**2 * capacity[1:-1])
    bands = np.zeros((3, depth.size))
    bands[1] = 1.0
    bands[1, 1:-1] += factor * (left + right)
    bands[0, 2:] = -factor * right
    bands[2, :-2] = -factor * left
    now = np.full(depth.size, MEAN)
    rows = []
    for step in range(1, 5 * STEPS + 1):
        known = now.copy()
        known[1:-1] += factor * (left * now[:-2] - (left + right) * now[1:-1] + right * now[2:])
        known[0], known[-1] = MEAN + SWING * math.cos(2 * math.pi * step / STEPS), MEAN
        now = solve_banded((1, 1), bands, known)
        if step > 4 * STEPS:
            rows.append(now)
    return np.array(rows)


def test_wave_in_uniform_snow() -> None:
    """In uniform snow the closed form is the solution, at every depth and time of year."""
    depth = np.linspace(0.0, 30.0, 601)
    kappa = 5.5e-7
    found = annual_temperatures(depth, np.full(depth.size, kappa), np.ones(depth.size))
    penetration = penetration_depth(kappa)
    for step in range(9, STEPS, 120):
        closed = temperature_annual_wave(depth, (step + 1) * YEAR / STEPS, MEAN, SWING, penetration)
        assert found[step] == pytest.approx(closed, abs=0.03)


def test_envelope_where_density_grows_with_depth() -> None:
    """In a real profile the summed local decay gives at most 0.5 K more swing than is right, and never less."""
    depth = np.linspace(0.0, 30.0, 601)
    density = density_herron_langway(depth, MEAN, 360.0 / YEAR, 350.0)
    conductivity = conductivity_calonne_2019(density, np.full_like(depth, MEAN))
    capacity = heat_capacity_ice(MEAN)
    found = annual_temperatures(depth, conductivity, density * capacity)
    share = swing_share(depth, penetration_depth(diffusivity(conductivity, density, np.full_like(depth, capacity))))
    envelope = np.abs(found - MEAN).max(axis=0)
    assert np.all(SWING * share - envelope > -0.02)
    assert np.all(SWING * share - envelope < 0.5)


def test_depth_of_penetration_at_trench_densities() -> None:
    """Between 400 and 500 kg/m3 the swing falls to 1/e within 2.3 to 2.7 m, and to 1-2 % at 10 m."""
    for density in (400.0, 500.0):
        kappa = diffusivity(conductivity_calonne_2019(density, MEAN), density, heat_capacity_ice(MEAN))
        found = penetration_depth(kappa)
        assert 2.25 <= found <= 2.75
        assert 0.01 <= math.exp(-10.0 / found) <= 0.026
