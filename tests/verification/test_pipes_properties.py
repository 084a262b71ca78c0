"""Water, steam and glycol of the pipe discipline against an independent property library."""

import CoolProp.CoolProp as library
import pytest

from firnstead.pipes import glycol, water

ATMOSPHERE = 101325.0
PROPERTIES = ((glycol.density_glycol, "D", 1e-9), (glycol.heat_capacity_glycol, "C", 1e-9),
              (glycol.conductivity_glycol, "L", 1e-9), (glycol.viscosity_glycol, "V", 1e-6))  # fmt: skip


@pytest.mark.parametrize("celsius", [0.01, 4.0, 10.0, 25.0, 50.0, 80.0, 99.0])
def test_water_is_that_of_the_library(celsius):
    """Density, conductivity and viscosity agree to 1e-4, the fitted heat capacity to 5e-4, from 0 to 99 degC."""
    t = 273.15 + celsius
    for ours, name, tolerance in (
        (water.density_water_kell, "D", 1e-4), (water.heat_capacity_water, "C", 5e-4),
        (water.conductivity_water, "L", 1e-4), (water.viscosity_water, "V", 1e-4),
    ):  # fmt: skip
        assert ours(t) == pytest.approx(library.PropsSI(name, "T", t, "P", ATMOSPHERE, "Water"), rel=tolerance)


@pytest.mark.parametrize("celsius", [55.0, 100.0, 120.0, 150.0, 195.0])
def test_steam_gives_off_what_the_library_says(celsius):
    """Heat of condensation agrees to 2e-4."""
    t = 273.15 + celsius
    drop = library.PropsSI("H", "T", t, "Q", 1, "Water") - library.PropsSI("H", "T", t, "Q", 0, "Water")
    assert water.latent_heat_steam(t) == pytest.approx(drop, rel=2e-4)


@pytest.mark.parametrize("kind, name", [("propylene", "MPG"), ("ethylene", "MEG")])
@pytest.mark.parametrize("share", [0.2, 0.35, 0.5, 0.58])
def test_glycol_is_that_of_the_library(kind, name, share):
    """The table of coefficients was typed without a slip: every property as the library that uses the same table."""
    fluid = f"INCOMP::{name}[{share}]"
    freezing = glycol.freezing_point_glycol(kind, share)
    assert freezing == pytest.approx(library.PropsSI("T_freeze", "T", 300.0, "P", 2e5, fluid), abs=1e-6)
    for t in (freezing + 1.0, 273.15, 300.0, 330.0):
        for ours, symbol, tolerance in PROPERTIES:
            assert ours(kind, share, t) == pytest.approx(
                library.PropsSI(symbol, "T", t, "P", 2e5, fluid), rel=tolerance
            )
