"""The site's k against the table of sites, and the fluidity factor recovered from noisy synthetic tape readings."""

import math

import numpy as np
import pytest

from closure.boxes import trench
from firnstead.closure.calibrate import softness_from_depth, softness_from_profile, steady_depths
from firnstead.closure.law import CreepLaw
from firnstead.closure.march import March
from firnstead.closure.outcome import Outcome
from firnstead.closure.readings import interpolated, posterior_of_fluidity
from firnstead.core.units import YEAR
from firnstead.snow.rate_factor import rate_factor_cuffey_paterson

# Measured depths: density_compilation_2024 and core_profile_1963 (read); k and the depth to 830 fitted to them with
# the law of arrizabalaga_2025 and the rate factor of paterson_budd_1982 (computed).
# temperature degC, accumulation m of water a year, measured depth to 550 kg/m3, k and depth to 830 fitted to it
SITES = {
    "Dye 3": (-21.0, 0.50, 11.1, 824, 82.3), "Site 2": (-25.0, 0.36, 11.8, 741, 85.3),
    "Site A": (-29.5, 0.282, 14.7, 451, 92.5), "GRIP": (-31.7, 0.21, 16.4, 313, 92.7),
    "NGRIP": (-31.5, 0.175, 17.7, 195, 88.8), "77N-1963": (-24.6, 0.35, 12.35, 569, 83.9),
}  # fmt: skip


@pytest.mark.parametrize("site", SITES)
def test_k_of_sites(site: str) -> None:
    """k of each site follows from its depth to 550 within 6 % (the table does not state its surface density: 340)."""
    celsius, water, depth, k, deep = SITES[site]
    climate = (celsius + 273.15, water * 1000 / YEAR)
    found = softness_from_depth(depth, 550.0, 340.0, *climate)
    assert found == pytest.approx(k, rel=0.06)
    assert steady_depths(np.linspace(340, 830, 3001), found, *climate)[-1] == pytest.approx(deep, abs=0.3)


def test_quarter_power() -> None:
    """Depths go with the fourth root of accumulation over rate factor."""
    steps = np.linspace(340, 550, 2001)
    depths = [steady_depths(steps, 700.0, 248.15, a / YEAR)[-1] for a in (180.0, 360.0, 720.0)]
    assert depths[1] / depths[0] == pytest.approx(2**0.25, rel=1e-6)
    assert depths[2] / depths[1] == pytest.approx(2**0.25, rel=1e-6)


@pytest.mark.parametrize("exponent", [1.0, 2.0, 3.0])
def test_k_from_profile(exponent: float) -> None:
    """A profile made with a known k gives it back, for each exponent and with another rate factor."""
    steps = np.linspace(340, 640, 2001)
    column = steady_depths(steps, 400.0, 248.15, 350 / YEAR, exponent=exponent, rate_factor=rate_factor_cuffey_paterson)
    depths = np.linspace(1.0, 0.9 * column[-1], 15)
    k, misfit = softness_from_profile(
        depths, np.interp(depths, column, steps), 340.0, 248.15, 350 / YEAR, exponent=exponent,
        rate_factor=rate_factor_cuffey_paterson)  # fmt: skip
    assert k == pytest.approx(400.0, rel=0.01)
    assert misfit < 0.5


def test_no_k_fits() -> None:
    """A depth that no k reaches gives no number rather than a limit."""
    assert math.isnan(softness_from_depth(500.0, 550.0, 340.0, 248.15, 350 / YEAR))


@pytest.fixture(scope="module")
def runs() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Widths and heights at four dates of readings and two of forecasts, for five fluidity factors."""
    logarithm = np.log([0.25, 0.5, 1.0, 2.0, 4.0])
    rows = []
    for factor in np.exp(logarithm):
        case = trench(0.7, law=CreepLaw(569.0, fluidity=float(factor)), air=None)
        outcome = Outcome(March(case).run(1.5 * YEAR))
        voids = [outcome.void(t * YEAR) for t in (0.1, 0.2, 0.3, 0.4, 0.8, 1.5)]
        rows.append([value for void in voids for value in (2 * void.half_width(2.0), void.height)])
    table = np.array(rows)
    return logarithm, table[:, :8], table[:, 8:]


def test_tape_readings_recover_the_fluidity_factor(runs: tuple[np.ndarray, np.ndarray, np.ndarray]) -> None:
    """Bands of 90 % hold the true factor, and the true forecast, in 85 to 95 % of 200 trials."""
    logarithm, seen, ahead = runs
    accuracy = np.tile([0.02, 0.03], 4)
    dice = np.random.default_rng(20)
    factor_held = forecast_held = 0
    for _ in range(200):
        truth = np.array([dice.normal(0.0, 0.5)])
        readings = interpolated(logarithm, seen, truth)[0] + dice.normal(0.0, accuracy)
        found = posterior_of_fluidity(readings, accuracy, logarithm, seen)
        factor_held += found.factor(0.05) <= math.exp(truth[0]) <= found.factor(0.95)
        band = found.band(logarithm, ahead)
        forecast_held += band[0, 0] <= interpolated(logarithm, ahead, truth)[0, 0] <= band[2, 0]
    assert 170 <= factor_held <= 190
    assert 170 <= forecast_held <= 190


def test_factor_between_runs_is_recovered(runs: tuple[np.ndarray, np.ndarray, np.ndarray]) -> None:
    """Readings from a march of their own, at a factor that is none of the runs, give it back."""
    logarithm, seen, _ = runs
    outcome = Outcome(March(trench(0.7, law=CreepLaw(569.0, fluidity=1.4), air=None)).run(0.5 * YEAR))
    voids = [outcome.void(t * YEAR) for t in (0.1, 0.2, 0.3, 0.4)]
    readings = np.array([value for void in voids for value in (2 * void.half_width(2.0), void.height)])
    found = posterior_of_fluidity(readings, np.full(8, 0.01), logarithm, seen)
    assert found.factor(0.5) == pytest.approx(1.4, rel=0.05)


def test_readings_that_disagree_widen_the_band(runs: tuple[np.ndarray, np.ndarray, np.ndarray]) -> None:
    """Readings that no factor explains widen their accuracy, and no reading at all leaves the first belief."""
    logarithm, seen, _ = runs
    odd = interpolated(logarithm, seen, np.zeros(1))[0] + np.tile([0.2, -0.2], 4)
    wide = posterior_of_fluidity(odd, np.full(8, 0.01), logarithm, seen)
    assert wide.widened > 5.0
    none = posterior_of_fluidity(np.empty(0), np.empty(0), logarithm, seen[:, :0])
    assert none.factor(0.95) == pytest.approx(math.exp(1.645 * 0.5), rel=0.01)
