"""The column: consistent with itself, mass kept between any depths, bands in order."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.core.results import as_plain
from firnstead.core.units import G0, YEAR
from firnstead.snow.column import snow_column
from firnstead.snow.profile import DensityLaw, profile_from_law, profile_from_layers

LAW = DensityLaw(248.15, 350.0 / YEAR, 350.0)
COLUMN = snow_column(profile_from_law(LAW), 248.15, 20.0)
depths = st.floats(0.0, 40.0)


@given(depths, depths, depths)
def test_mass_adds_up(one, two, three) -> None:
    """The masses of two stretches add up to that of both, and mean density times thickness is mass."""
    a, b, c = sorted((one, two, three))
    assert COLUMN.mass(a, b) + COLUMN.mass(b, c) == pytest.approx(COLUMN.mass(a, c), abs=1e-6)
    assert COLUMN.mean("density", a, c) * (c - a) == pytest.approx(COLUMN.mass(a, c), abs=1e-6)


def test_overburden_is_the_weight_of_the_density() -> None:
    """The overburden is gravity times the integral of the density."""
    step = np.diff(COLUMN.depth)
    mass = np.concatenate(([0.0], np.cumsum(step * (COLUMN.density[1:] + COLUMN.density[:-1]) / 2)))
    assert COLUMN.overburden == pytest.approx(G0 * mass, rel=1e-4, abs=1.0)


@pytest.mark.parametrize("measured", [False, True])
def test_bands_are_in_order(measured) -> None:
    """Low, middle and high stay in order at every depth, also with a weak layer in the core."""
    layers = [(0.0, 2.0, 380.0), (2.0, 3.0, 340.0), (3.0, 8.0, 450.0)]
    profile = profile_from_layers(layers, LAW) if measured else profile_from_law(LAW)
    column = snow_column(profile, 248.15, 20.0)
    assert np.all((column.density_low <= column.density) & (column.density <= column.density_high))
    assert np.all((column.ucs_low < column.ucs_middle) & (column.ucs_middle < column.ucs_high))
    assert np.all(column.tensile_low < column.tensile_middle)
    assert np.all((column.coldest <= column.mean_temperature) & (column.mean_temperature <= column.warmest))


def test_values_between_depths() -> None:
    """Fields are interpolated, averaged and searched for their least between depths."""
    assert COLUMN.at("density", 0.0) == pytest.approx(350.0)
    assert COLUMN.at("density", 5.05) == pytest.approx((COLUMN.at("density", 5.0) + COLUMN.at("density", 5.1)) / 2)
    assert COLUMN.least("ucs_low", 3.0, 6.0) == pytest.approx(COLUMN.at("ucs_low", 3.0))
    assert COLUMN.at("porosity", 3.0) > COLUMN.mean("porosity", 3.0, 6.0) > COLUMN.at("porosity", 6.0)
    assert COLUMN.mean("ucs_low", 3.0, 3.0) == COLUMN.at("ucs_low", 3.0)


def test_nothing_outside_the_column() -> None:
    """A depth above the snow or below the column is refused, not guessed."""
    for depth in (-0.1, 40.1):
        with pytest.raises(ValueError):
            COLUMN.at("density", depth)
    with pytest.raises(ValueError):
        COLUMN.mean("density", 39.0, 41.0)


def test_column_cannot_be_changed() -> None:
    """The arrays are read-only, and the column turns into plain lists."""
    with pytest.raises(ValueError):
        COLUMN.density[0] = 0.0
    assert as_plain(COLUMN)["depth"][:2] == pytest.approx([0.0, 0.1])
