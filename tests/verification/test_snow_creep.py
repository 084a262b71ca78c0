"""Creep of firn: both conventions against one another, closed forms against quadrature and integration."""

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp

from firnstead.core.units import YEAR
from firnstead.snow.confined import (
    confined_fluidity_arrizabalaga,
    confined_fluidity_gagliardini_meyssonnier,
    depth_of_density_steady_arrizabalaga,
    strain_rate_confined,
    surface_velocity_confined,
)
from firnstead.snow.creep import (
    coefficients_arrizabalaga,
    coefficients_gagliardini_meyssonnier,
    strain_rates_arrizabalaga,
    strain_rates_gagliardini_meyssonnier,
)
from firnstead.snow.rate_factor import rate_factor_paterson_budd

COLD = rate_factor_paterson_budd(248.15)


def test_confined_column_against_quadrature() -> None:
    """The top of a column sinks as fast as the strain rates of all its slices add up to."""
    density, height, gravity = 500.0, 10.0, 9.82
    fluidity = confined_fluidity_arrizabalaga(density / 910.0, 500.0, rate_factor_paterson_budd(253.15))
    summed, _ = quad(lambda z: strain_rate_confined(-density * gravity * z, fluidity), 0.0, height)
    closed = surface_velocity_confined(height, density, fluidity, gravity=gravity)
    assert closed == pytest.approx(summed, rel=1e-9)
    assert closed * YEAR == pytest.approx(-0.222633, rel=1e-5)


@pytest.mark.parametrize("density", [0.42, 0.5, 0.65, 0.8, 0.9])
def test_law_as_stress_gives_back_the_stress(density) -> None:
    """The strain rates put into the publication's stress form (deviator and mean) give the stresses again."""
    a, b = coefficients_arrizabalaga(density, 500.0)
    stress = np.array([-3e4, -1e4, -6e4])
    rate = np.array(strain_rates_arrizabalaga(*stress, a, b, COLD))
    total = rate.sum()
    effective = (rate @ rate - total**2 / 3) / a + 1.5 * total**2 / b
    eta = 0.5 ** (-2 / 6) * COLD ** (-1 / 3) * effective ** (-2 / 6)
    assert eta * ((rate - total / 3) / a + 1.5 * total / b) == pytest.approx(stress, rel=1e-9)


@pytest.mark.parametrize("density", [0.42, 0.5, 0.65, 0.8])
def test_confined_state_of_the_general_law(density) -> None:
    """The sideways stress at which the general law gives no sideways strain leads to the confined closed form."""
    a, b = coefficients_gagliardini_meyssonnier(density)

    def sideways(stress: float) -> float:
        return strain_rates_gagliardini_meyssonnier(stress, stress, -5e4, a, b, 2 * COLD)[0]

    low, high = -5e4, 0.0
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if sideways(middle) < 0 else (low, middle)
    vertical = strain_rates_gagliardini_meyssonnier(low, low, -5e4, a, b, 2 * COLD)[2]
    closed = strain_rate_confined(-5e4, confined_fluidity_gagliardini_meyssonnier(density, 2 * COLD))
    assert vertical == pytest.approx(closed, rel=1e-6)


@pytest.mark.parametrize("density, ratio", [(0.4, 3.4), (0.8, 7.0)])
def test_the_conventions_are_not_the_same_material(density, ratio) -> None:
    """With the same printed numbers one convention creeps 3.4 to 7 times faster than the other when confined."""
    a, b = coefficients_gagliardini_meyssonnier(density)
    one = strain_rates_gagliardini_meyssonnier
    fluid = (4 / 3 / a + 1 / b) ** -2 / (4 / 3 / a + 3 / b) ** -2
    assert fluid == pytest.approx(ratio, rel=0.03)
    assert one(0, 0, -1e4, a, b, 2 * COLD) == pytest.approx(strain_rates_arrizabalaga(0, 0, -1e4, a, 3 * b, COLD))


def test_block_does_not_shrink_sideways() -> None:
    """Freely compressed, a block widens at every density (3a > 2b in the first convention)."""
    for density in np.linspace(0.4, 0.99, 30):
        a, b = coefficients_gagliardini_meyssonnier(float(density))
        assert strain_rates_gagliardini_meyssonnier(0.0, 0.0, -1e4, a, b, 2 * COLD)[0] > 0


def test_steady_column_against_integration() -> None:
    """The quadrature of the steady column is what stepping down through it gives."""
    accumulation = 360.0 / YEAR

    def down(_, state):
        density, stress = state
        fluidity = confined_fluidity_arrizabalaga(density / 910.0, 700.0, COLD)
        return [density**2 * fluidity * stress**3 / accumulation, density * 9.82]

    def reached(_, state):
        return state[0] - 550.0

    reached.terminal = True
    path = solve_ivp(down, (0.0, 40.0), [340.0, 1e-3], events=reached, rtol=1e-9, atol=1e-8)
    found = depth_of_density_steady_arrizabalaga(550.0, COLD, accumulation, 340.0, 700.0)
    assert found == pytest.approx(path.t_events[0][0], rel=1e-4)


def test_quarter_power_of_accumulation() -> None:
    """Depths grow with the fourth root of accumulation over the rate factor, exactly."""
    depths = [depth_of_density_steady_arrizabalaga(550.0, COLD, a / YEAR, 340.0, 700.0) for a in (180.0, 360.0, 720.0)]
    assert depths[1] / depths[0] == pytest.approx(2**0.25, rel=1e-9)
    assert depths[2] / depths[1] == pytest.approx(2**0.25, rel=1e-9)
