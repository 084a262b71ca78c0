"""Closed forms of densification against numerical integration of the rate law, and the viscosities that follow."""

import math

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp

from firnstead.core.units import G0, YEAR
from firnstead.snow.density import (
    age_herron_langway,
    density_herron_langway,
    depth_of_density_herron_langway,
    mass_above_herron_langway,
)
from firnstead.snow.viscosity import compaction_rate_sorge, viscosity_sorge

ICE, GAS = 917.0, 8.314
CLIMATES = [(228.65, 0.07, 340.0), (248.55, 0.35, 362.0), (255.15, 0.5, 420.0), (241.65, 0.175, 560.0)]


def rate(density: float, temperature: float, water: float) -> float:
    """Herron & Langway's rate of densification per year, as the publication writes it (Mg/m3, m of water)."""
    rho = density / 1000.0
    if rho < 0.55:
        return 1000.0 * 11.0 * math.exp(-10160.0 / (GAS * temperature)) * water * (ICE / 1000.0 - rho)
    return 1000.0 * 575.0 * math.exp(-21400.0 / (GAS * temperature)) * math.sqrt(water) * (ICE / 1000.0 - rho)


@pytest.mark.parametrize("climate", CLIMATES)
def test_closed_form_solves_the_rate_law(climate) -> None:
    """Following a layer down through time gives the densities, ages and masses of the closed form."""
    temperature, water, start = climate

    def sinking(_, state):
        density, _depth = state
        return [rate(density, temperature, water), water * 1000.0 / density]

    times = np.linspace(0.0, 150.0, 31)
    path = solve_ivp(sinking, (0.0, 150.0), [start, 0.0], t_eval=times, rtol=1e-9, atol=1e-9, max_step=0.5)
    density, depth = path.y
    law = (temperature, water * 1000.0 / YEAR, start)
    assert density_herron_langway(depth, *law) == pytest.approx(density, rel=2e-5)
    assert age_herron_langway(depth, *law) / YEAR == pytest.approx(times, rel=2e-5, abs=1e-6)
    assert mass_above_herron_langway(depth, *law) == pytest.approx(water * 1000.0 * times, rel=2e-5, abs=1e-3)


@pytest.mark.parametrize("climate", CLIMATES)
def test_mass_is_the_integral_of_density(climate) -> None:
    """The closed form of the mass equals the quadrature of the density."""
    temperature, water, start = climate
    law = (temperature, water * 1000.0 / YEAR, start)
    border = depth_of_density_herron_langway(550.0, *law)
    for depth in (1.0, 8.0, 40.0, 90.0):
        points = [border] if 0.0 < border < depth else None
        by_hand, _ = quad(lambda z: density_herron_langway(z, *law), 0.0, depth, points=points, epsabs=1e-9)
        assert mass_above_herron_langway(depth, *law) == pytest.approx(by_hand, rel=1e-9)


def test_depth_and_density_are_inverse() -> None:
    """The depth of a density has that density, in both stages."""
    law = (248.55, 350.0 / YEAR, 362.0)
    for density in (363.0, 450.0, 549.9, 550.1, 700.0, 830.0):
        depth = depth_of_density_herron_langway(density, *law)
        assert density_herron_langway(depth, *law) == pytest.approx(density, rel=1e-12)


# computed figures of the research notes, two digits; the density of a layer is rounded, hence 5 %
@pytest.mark.parametrize(
    "density, viscosity", [(395.0, 6.3e12), (445.0, 2.1e13), (529.0, 6.7e13), (573.0, 3.5e14), (603.0, 5.6e14)]
)
def test_viscosity_of_the_steady_column(density, viscosity) -> None:
    """The viscosity that the law and Sorge's law give at 77 N is the one worked out independently."""
    law = (248.55, 350.0 / YEAR, 362.0)
    depth = depth_of_density_herron_langway(density, *law)
    slope = (density_herron_langway(depth + 1e-4, *law) - density_herron_langway(depth - 1e-4, *law)) / 2e-4
    load = G0 * mass_above_herron_langway(depth, *law)
    found = viscosity_sorge(density, slope, load, law[1])
    assert found == pytest.approx(viscosity, rel=0.05)
    assert -load / compaction_rate_sorge(density, slope, law[1]) == pytest.approx(found, rel=1e-12)
