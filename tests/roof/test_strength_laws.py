"""Stress, buckling, ring compression, seams, deflection, beams."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.roof import buckling, deflection, planks, ring, seam, stress
from firnstead.roof.thrust import segment_uniform_load

KSI = ring.KSI


@given(st.floats(1e3, 1e6), st.floats(0, 1e5), st.floats(0.1, 10))
def test_stress_is_linear_without_growth(axial: float, moment: float, factor: float) -> None:
    """Without second-order growth the stress is proportional to the load."""
    one = stress.combined_stress(axial, moment, 3.3e-3, 3.7e-5)
    assert stress.combined_stress(factor * axial, -factor * moment, 3.3e-3, 3.7e-5) == pytest.approx(factor * one)


@given(st.floats(1e5, 1e8), st.floats(0, 2e8), st.floats(0.001, 2.0))
def test_yield_factor_solves_its_equation(axial: float, bending: float, share: float) -> None:
    """At the factor, thrust and amplified bending together make the yield strength; it never passes buckling."""
    factor = stress.yield_factor(axial, bending, share, 2.275e8)
    assert factor * share <= 1 + 1e-9
    left = 1 - factor * share
    assert factor * axial * left + factor * bending == pytest.approx(2.275e8 * left, rel=1e-6, abs=1e3)


@given(st.floats(0, 0.99), st.floats(0.01, 0.5))
def test_amplifier_grows(share: float, more: float) -> None:
    """The amplifier is at least 1, rises with load, and is infinite from the critical load on."""
    low, high = stress.amplifier(share, 1.0), stress.amplifier(share + more, 1.0)
    assert 1 <= low < high
    assert stress.amplifier(np.array([1.0, 2.0]), 1.0).tolist() == [np.inf, np.inf]


@given(st.floats(0.1, 0.5))
def test_hingeless_is_stiffer_than_hinged(rise: float) -> None:
    """Fixed feet raise every buckling factor."""
    assert buckling.parabola_factor(rise, hinged=False) > buckling.parabola_factor(rise)
    assert buckling.segment_factor(rise, hinged=False) > buckling.segment_factor(rise)


def test_buckling_tables_have_ends() -> None:
    """Outside its table a factor is refused, not extended."""
    for rise in (0.05, 1.2):
        with pytest.raises(ValueError):
            buckling.parabola_factor(rise)
    with pytest.raises(ValueError):
        buckling.segment_factor(0.6)


@given(st.floats(100, 2000), st.floats(1, 500))
def test_supported_wall_stress_falls_with_slenderness(slenderness: float, more: float) -> None:
    """Both published curves fall as the ring gets more slender (their printed join jumps by 0.2 %)."""
    assert ring.wall_strength_aisi(slenderness + more) <= ring.wall_strength_aisi(slenderness) * 1.002
    assert ring.wall_strength_lrfd(slenderness + more, 1.0) <= ring.wall_strength_lrfd(slenderness, 1.0)


def test_supported_wall_stress_never_above_yield() -> None:
    """A softer steel lowers the first branch."""
    assert ring.wall_strength_aisi(200.0, 28 * KSI) == pytest.approx(28 * KSI)


def test_ring_thrust_is_pressure_times_radius() -> None:
    """Ring thrust uses the radius, and the area follows from it."""
    assert ring.thrust_ring(8000.0, 3.75) == 30000.0
    assert stress.required_area(30000.0, 113.8e6) == pytest.approx(2.636e-4, rel=1e-3)


def test_seams_without_a_table_have_no_strength() -> None:
    """Profiles outside the seam tables give no number."""
    assert seam.seam_strength_bolted("3x1", 12) is None
    assert seam.seam_strength_riveted("6x2", 12, 2) is None
    assert seam.seam_strength_riveted("3x1", 12, 2) == pytest.approx(53.0 * 14593.9, rel=1e-4)


def test_half_loaded_arch_sinks_and_rises() -> None:
    """Under a load on one half the loaded quarter sinks and the other one rises by nearly as much."""
    forces = segment_uniform_load(0.25, 0.0, 0.5)
    down, up = (deflection.deflection_coefficient(0.25, forces, place) for place in (0.25, 0.75))
    assert down > 0 > up
    assert -up == pytest.approx(down, rel=0.05)


def test_flexibility_of_a_known_pipe() -> None:
    """A 60 in pipe of 3x1, 16 gauge has a flexibility factor below the 0.033 in/lb of 1 in deep sheet."""
    factor = deflection.flexibility_factor(60 * 0.0254, 30e3 * KSI, 0.1039 * 0.0254**4 / 0.3048)
    assert factor / (0.0254 / 4.4482216) == pytest.approx(60**2 / (30e6 * 0.1039 / 12), rel=1e-6)


def test_plank() -> None:
    """Bending and shear of a plank by hand: 100 kPa, 0.2 m beyond the foot, 75 mm thick."""
    moment = planks.cantilever_moment(1e5, 0.2)
    assert planks.plank_bending_stress(moment, 0.075) == pytest.approx(2.133e6, rel=1e-3)
    assert planks.plank_shear_stress(1e5, 0.2, 0.075) == pytest.approx(0.4e6)
    assert planks.thickness_for_even_pressure(0.3) == pytest.approx(0.075)
