"""The march through the years: mass, settling, heat, mesh and step do not matter. FIRNSTEAD_LONG=1: longer runs."""

import math
import os
from functools import cache

import numpy as np
import pytest

from closure.boxes import column_mesh, grid, trench
from firnstead.closure.freedoms import STIFF, YIELDING
from firnstead.closure.heat import step_of_diffusion
from firnstead.closure.law import CreepLaw
from firnstead.closure.march import Case, History, March, Settings
from firnstead.closure.mesh import areas, quality
from firnstead.closure.outcome import Outcome
from firnstead.core.units import G0, YEAR
from firnstead.snow.confined import confined_fluidity_arrizabalaga
from firnstead.snow.rate_factor import rate_factor_paterson_budd

LONG = bool(os.environ.get("FIRNSTEAD_LONG"))
YEARS = 10.0 if LONG else 5.0


@cache
def marched(size: float, error: float, distortion: float = 0.2, years: float = YEARS, roof: str = "unlined") -> History:
    """A covered trench marched with this mesh and these steps."""
    return March(trench(size, roof=roof), Settings(error=error, distortion=distortion)).run(years * YEAR)


def closure_curve(history: History, years: float = YEARS) -> np.ndarray:
    """Loss of half-width at 1.5 and 2 m above the floor and of height, at four times."""
    outcome = Outcome(history)
    first = outcome.void(0.0)
    rows = []
    for share in (0.1, 0.2, 0.4, 1.0):
        void = outcome.void(share * years * YEAR)
        rows.append([first.half_width(h) - void.half_width(h) for h in (1.5, 2.0)] + [first.height - void.height])
    return np.array(rows)[:, [0, 2]] if years > 6 else np.array(rows)


def test_steps_do_not_matter() -> None:
    """Ten times smaller errors a step change the closure curve by less than 1 %."""
    assert closure_curve(marched(0.5, 1e-3)) == pytest.approx(closure_curve(marched(0.5, 1e-4)), rel=0.01)


def test_mesh_does_not_matter() -> None:
    """Elements of two thirds the size change the closure curve by less than 2 %."""
    coarse, fine = (marched(0.45, 1e-3), marched(0.3, 1e-3))
    assert closure_curve(coarse) == pytest.approx(closure_curve(fine), rel=0.02)


def test_mass_is_kept() -> None:
    """Over ten years, with and without rezoning, no mass is lost and no triangle has turned over."""
    for distortion in (0.2, 0.9):
        history = marched(0.5, 1e-3, distortion, 10.0)
        first, last = history.frames[0], history.frames[-1]
        assert not history.note
        assert last.time == pytest.approx(10 * YEAR)
        assert np.sum(last.density * areas(last.points, history.mesh.triangles)) == pytest.approx(first.mass, rel=1e-6)
        assert quality(last.points, history.mesh.triangles).min() > 0.0
    assert history.rezones >= 3


def test_rezoning_changes_little() -> None:
    """Rezoning again and again gives the same closure curve within 2.5 % as following the snow."""
    often, never = marched(0.5, 1e-3, 0.9, 10.0), marched(0.5, 1e-3, 0.2, 10.0)
    assert closure_curve(often, 5.0) == pytest.approx(closure_curve(never, 5.0), rel=0.025)


def test_stiff_roof_bounds_yielding_roof() -> None:
    """A stiff roof keeps more width at its seats, and both keep more height than an unlined cover."""
    height, seat = {}, {}
    for kind in (STIFF, YIELDING, "unlined"):
        history = marched(0.5, 1e-3, roof=kind)
        height[kind] = Outcome(history).void(2 * YEAR).height
        seat[kind] = history.points(2 * YEAR)[np.unique(history.mesh.edges["roof"]), 0].max()
    assert min(height[STIFF], height[YIELDING]) > height["unlined"]
    assert seat[STIFF] == pytest.approx(1.8, abs=1e-9)
    assert seat[YIELDING] < 1.79


def test_colder_air_and_tighter_pillar() -> None:
    """Warm air closes a trench faster; so does a neighbour whose pillar shares the load."""
    cold = Outcome(March(trench(0.6, air=None)).run(YEAR)).void(YEAR)
    warm = Outcome(March(trench(0.6, air=lambda time: 263.15)).run(YEAR)).void(YEAR)
    near = trench(0.6, air=None).section
    pillar = Outcome(March(trench(0.6, air=None, section=type(near)(**{**vars(near), "side": 5.5}))).run(YEAR)).void(
        YEAR
    )
    assert warm.half_width(2.0) < cold.half_width(2.0) - 0.05
    assert pillar.height < cold.height - 0.05


def test_column_settles_as_layers_do() -> None:
    """Ten years of a confined column under growing load follow independent layers, each an ordinary equation."""
    from scipy.integrate import solve_ivp

    k, temperature, height, load = 500.0, 248.15, 20.0, 3000.0 / YEAR
    case = Case(
        trench().section, CreepLaw(k, ice_density=910.0), lambda x, z: 380.0 + 10.0 * z, lambda z: 0 * z + temperature,
        surcharge=lambda time: load * time, roof="open")  # fmt: skip
    history = March(case, Settings(error=2e-4), column_mesh(2.0, height, 24)).run(10 * YEAR)
    edges = np.linspace(0, height, 801)
    middle = (edges[1:] + edges[:-1]) / 2
    mass = (380.0 + 10.0 * middle) * np.diff(edges)
    above = G0 * (np.cumsum(mass) - mass / 2)
    rate = rate_factor_paterson_budd(temperature)

    def slopes(time: float, density: np.ndarray) -> np.ndarray:
        return density * confined_fluidity_arrizabalaga(density / 910.0, k, rate) * (above + load * time) ** 3

    done = solve_ivp(slopes, (0, 10 * YEAR), 380.0 + 10.0 * middle, rtol=1e-8, method="LSODA")
    sunk = height - float(np.sum(mass / done.y[:, -1]))
    top = np.unique(history.mesh.edges["top"])
    assert -history.points(10 * YEAR)[top, 1] == pytest.approx(sunk, rel=2e-3)


@pytest.mark.parametrize(("steps", "tolerance"), [(20, 4e-3), (80, 1e-3)])
def test_heat_after_a_sudden_warming(steps: int, tolerance: float) -> None:
    """A wall warmed at once sends erfc[x/(2 sqrt(kappa t))] into the snow."""
    points, triangles = grid(np.linspace(0, 1, 2), np.linspace(0, 40, 401))
    conductivity, capacity = np.full(len(triangles), 0.5), np.full(len(triangles), 8e5)
    held, temperature = np.flatnonzero(points[:, 1] < 1e-9), np.zeros(len(points))
    for _ in range(steps):
        temperature = step_of_diffusion(
            points, triangles, conductivity, capacity, temperature, held, np.ones(held.size), YEAR / steps)  # fmt: skip
    exact = [math.erfc(y / (2 * math.sqrt(0.5 / 8e5 * YEAR))) for y in points[:, 1]]
    assert temperature == pytest.approx(exact, abs=tolerance)
    assert temperature.max() <= 1.0
    assert temperature.min() >= -1e-3
