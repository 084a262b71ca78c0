"""The law at points: derivatives, relation to the other convention, agreement of the exponents."""

import numpy as np
import pytest

from firnstead.closure.law import DENSEST, LOOSEST, CreepLaw, points_of_law
from firnstead.snow.confined import confined_fluidity_arrizabalaga
from firnstead.snow.creep import coefficients_gagliardini_meyssonnier, strain_rates_gagliardini_meyssonnier
from firnstead.snow.rate_factor import rate_factor_cuffey_paterson, rate_factor_paterson_budd

DICE = np.random.default_rng(3)


@pytest.mark.parametrize("exponent", [1.0, 1.7, 3.0])
def test_stress_and_tangent_are_derivatives(exponent: float) -> None:
    """Stress is the slope of the potential and the tangent the slope of the stress; the tangent is positive."""
    law = points_of_law(DICE.uniform(1, 50, 8), DICE.uniform(0.5, 50, 8), DICE.uniform(0.1, 2, 8), exponent)
    strain, step = DICE.normal(size=(8, 3)), 1e-6
    _, stress, tangent = law.tangent(strain)
    assert np.linalg.eigvalsh(tangent).min() > 0.0
    for i in range(3):
        change = np.zeros(3)
        change[i] = step
        up, down = law.energy(strain + change), law.energy(strain - change)
        assert (up[0] - down[0]) / (2 * step) == pytest.approx(stress[:, i], rel=1e-6, abs=1e-9)
        assert (up[1] - down[1]) / (2 * step) == pytest.approx(tangent[:, :, i], rel=1e-5, abs=1e-7)


def test_relation_of_the_two_conventions() -> None:
    """With 3 b and B = 2A the stress gives back the strain rates of the other convention (its own inverse form)."""
    from scipy.optimize import brentq

    a, b = coefficients_gagliardini_meyssonnier(0.6)
    fluidity, xx, yy = 3e-24, 2e3, -3e4

    def rates_under(zz: float) -> tuple[float, float, float]:
        return strain_rates_gagliardini_meyssonnier(xx, yy, zz, a, b, fluidity)

    rates = rates_under(brentq(lambda zz: rates_under(zz)[2] * 1e9, -6e4, 6e4, xtol=1e-9))  # plane strain: e_zz = 0
    assert abs(rates[2]) < 1e-6 * abs(rates[1])
    law = points_of_law(np.array([a]), np.array([3 * b]), np.array([fluidity / 2]), 3.0)
    stress = law.energy(np.array([[rates[0], rates[1], 0.0]]))[1][0]
    assert stress[:2] == pytest.approx([xx, yy], rel=1e-5)


@pytest.mark.parametrize("density", [380.0, 500.0, 650.0])
def test_exponents_agree_at_the_reference_stress(density: float) -> None:
    """At the reference stress a confined column creeps alike for every exponent; at half of it in proportion to 2^n."""
    confined = float(confined_fluidity_arrizabalaga(density / 910.0, 400.0, rate_factor_paterson_budd(250.0)))
    for exponent in (1.0, 2.0, 3.0):
        law = CreepLaw(400.0, exponent=exponent, reference_stress=25e3, at_rest=0.0)
        points = law.points(np.array([density]), np.array([250.0]))
        for stress in (25e3, 12.5e3):
            rate = confined * 25e3**3 * (stress / 25e3) ** exponent
            assert points.energy(np.array([[0.0, -rate, 0.0]]))[1][0, 1] == pytest.approx(-stress, rel=1e-9)


def test_density_is_held_and_temperature_counts() -> None:
    """Beyond the limits of density the law stays as at them; warmer snow is softer; fluidity multiplies all rates."""
    law = CreepLaw(400.0)
    loose, dense = law.points(np.array([100.0, LOOSEST * 910]), np.full(2, 250.0)), law.points(
        np.array([DENSEST * 910, 917.0]), np.full(2, 250.0))  # fmt: skip
    for points in (loose, dense):
        assert points.shear[0] == points.shear[1]
        assert points.bulk[0] == points.bulk[1]
    ratio = rate_factor_cuffey_paterson(263.15) / rate_factor_cuffey_paterson(248.15)
    cold, warm = (
        CreepLaw(400.0, rate_factor=rate_factor_cuffey_paterson).points(np.array([450.0]), np.array([t]))
        for t in (248.15, 263.15)
    )
    assert float(cold.constant[0] / warm.constant[0]) ** 3 == pytest.approx(ratio)
    double = CreepLaw(400.0, fluidity=2.0).points(np.array([450.0]), np.array([250.0]))
    assert float(
        law.points(np.array([450.0]), np.array([250.0])).constant[0] / double.constant[0]
    ) ** 3 == pytest.approx(2)
