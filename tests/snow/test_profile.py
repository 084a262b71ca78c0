"""Measured layers joined to the law: mass kept, monotone where the layers are, first crossings found."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.core.units import YEAR
from firnstead.snow.profile import DensityLaw, overburden, porosity, profile_from_law, profile_from_layers

LAW = DensityLaw(248.55, 350.0 / YEAR, 362.0)
CORE = list(zip([0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20], [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30],
                [374, 397, 417, 435, 453, 470, 494, 523, 546, 570, 601, 645], strict=True))  # fmt: skip
cores = st.lists(st.tuples(st.floats(0.05, 4.0), st.floats(150.0, 900.0)), min_size=1, max_size=12)


def layers_of(core, *, rising=False):
    """Layers from thicknesses and densities."""
    bottoms = np.cumsum([thickness for thickness, _ in core])
    densities = sorted(rho for _, rho in core) if rising else [rho for _, rho in core]
    return [(float(b - t), float(b), rho) for b, (t, _), rho in zip(bottoms, core, densities, strict=True)]


@given(cores)
def test_mass_of_every_layer_is_kept(core) -> None:
    """The mean density over each measured layer is the measured one, however wild the core."""
    layers = layers_of(core)
    profile = profile_from_layers(layers, LAW)
    for top, bottom, density in layers:
        assert profile.mean_density(top, bottom) == pytest.approx(density, rel=1e-6)


@given(cores)
def test_rising_layers_give_a_rising_density(core) -> None:
    """Where every layer is denser than the one above, density never falls with depth, nor across the join."""
    profile = profile_from_layers(layers_of(core, rising=True), LAW)
    density = profile.density(np.linspace(0.0, profile.measured_depth + 20.0, 600))
    assert np.all(np.diff(density) >= -1e-9)


@given(cores)
def test_mass_is_the_integral_of_density(core) -> None:
    """The mass above a depth is the density summed over the depth."""
    profile = profile_from_layers(layers_of(core), LAW)
    depth = np.linspace(0.0, profile.measured_depth + 10.0, 20001)
    middle = (depth[:-1] + depth[1:]) / 2
    summed = np.sum(profile.density(middle)) * (depth[1] - depth[0])
    assert profile.mass_above(depth)[-1] == pytest.approx(summed, rel=1e-3)


def test_law_takes_over_at_the_deepest_layer() -> None:
    """Below the core the density goes on from the deepest layer's, as the law from there."""
    profile = profile_from_layers(CORE, LAW)
    below = profile.density(np.array([25.0, 29.999, 30.001, 60.0]))
    assert below[0] == pytest.approx(645.0, abs=1.0)
    assert below[1] <= below[2] <= below[1] + 6.0
    assert below[3] > below[2]
    assert profile.depth_of(830.0) > 60.0


def test_first_crossing() -> None:
    """The depth of a density is its first crossing; below the core it comes from the law."""
    profile = profile_from_layers(CORE, LAW)
    depth = profile.depth_of(550.0)
    assert 11.0 < depth < 13.0
    assert float(profile.density(np.array([depth]))[0]) == pytest.approx(550.0, abs=0.5)
    assert profile.depth_of(300.0) == 0.0
    crust = profile_from_layers([(0.0, 1.0, 400.0), (1.0, 1.2, 600.0), (1.2, 9.0, 420.0)], LAW)
    assert 1.0 <= crust.depth_of(550.0) <= 1.2
    assert profile_from_law(LAW).depth_of(550.0) == pytest.approx(11.26, abs=0.01)


def test_gaps_and_overlaps() -> None:
    """A gap is filled between its neighbours, the missing top with the surface density; an overlap is refused."""
    profile = profile_from_layers([(1.0, 2.0, 400.0), (3.0, 4.0, 440.0)], LAW)
    assert profile.mean_density(0.0, 1.0) == pytest.approx(362.0)
    assert profile.mean_density(2.0, 3.0) == pytest.approx(420.0)
    with pytest.raises(ValueError):
        profile_from_layers([(0.0, 2.0, 400.0), (1.0, 3.0, 420.0)], LAW)


def test_a_layer_as_dense_as_ice() -> None:
    """A deepest layer at the density of ice leaves finite masses below it."""
    profile = profile_from_layers([(0.0, 2.0, 400.0), (2.0, 3.0, 920.0)], LAW)
    assert np.all(np.isfinite(profile.mass_above(np.linspace(0.0, 40.0, 41))))


def test_weight_and_air() -> None:
    """A metre of water weighs 9.8 kPa, and ice has no air."""
    assert overburden(1000.0) == pytest.approx(9806.65)
    assert porosity(917.0) == pytest.approx(0.0)
