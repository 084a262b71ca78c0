"""A free block wall against direct statics of its blocks, joint by joint."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.walls.face import course_widths, face_area
from firnstead.walls.stability import (
    base_stress,
    base_tension_bonded,
    overturning_factor,
    overturning_moment,
    sliding_factor,
    wall_weight,
)  # fmt: skip

G = 9.80665
BLOCK = 0.05


def _blocks(pressure, height, density, thickness):
    """Weights, wind forces, and levels of a pile of thin blocks of height BLOCK."""
    n = round(height / BLOCK)
    levels = (np.arange(n) + 0.5) * BLOCK
    return np.full(n, density * G * thickness * BLOCK), np.full(n, pressure * BLOCK), levels


@given(st.floats(20.0, 1200.0), st.integers(20, 160), st.floats(300.0, 650.0), st.floats(0.3, 2.5), st.floats(0.1, 0.8))
def test_block_by_block(pressure, courses, density, thickness, friction):
    """Moments about the lee edge and shear in every joint, summed over the blocks above, give the closed forms."""
    height = courses * BLOCK
    weights, winds, levels = _blocks(pressure, height, density, thickness)
    weight, moment = wall_weight(density, thickness, height), overturning_moment(pressure, height)
    joint_factors, sliding = [], []
    for i in range(courses):
        above = slice(i, None)
        tipping = (winds[above] * (levels[above] - i * BLOCK)).sum()
        joint_factors.append(weights[above].sum() * thickness / 2 / tipping)
        sliding.append(friction * weights[above].sum() / winds[above].sum())
    assert min(joint_factors) == pytest.approx(joint_factors[0])  # the base is the worst joint
    assert overturning_factor(weight, thickness, moment) == pytest.approx(joint_factors[0])
    assert sliding_factor(friction, weight, pressure, height) == pytest.approx(min(sliding))


@given(st.floats(2e3, 5e4), st.floats(0.3, 2.5), st.floats(0.0, 0.48))
def test_base_pressure_carries_weight_and_moment(weight, thickness, share):
    """A straight-line pressure from the edge stress down to zero or to the far edge carries weight and moment."""
    moment = weight * share * thickness
    peak = base_stress(weight, thickness, moment)
    if share <= 1 / 6:
        low = 2 * weight / thickness - peak
        x = np.linspace(0.0, thickness, 4001)
        p = peak + (low - peak) * x / thickness
        assert low >= -1e-6 * peak
    else:
        pressed = 3 * (thickness / 2 - share * thickness)
        x = np.linspace(0.0, pressed, 4001)
        p = peak * (1 - x / pressed)
    assert np.trapezoid(p, x) == pytest.approx(weight, rel=1e-6)
    assert np.trapezoid(p * (thickness / 2 - x), x) == pytest.approx(moment, rel=1e-5, abs=1e-5 * weight * thickness)


@given(st.floats(2e3, 5e4), st.floats(0.3, 2.5), st.floats(0.0, 1.0))
def test_bonded_joint_against_a_fibre_model(weight, thickness, share):
    """The tension of a bonded joint is that of elastic fibres in equilibrium with weight and moment."""
    moment = weight * share * thickness
    fibres = (np.arange(2000) + 0.5) / 2000 * thickness - thickness / 2
    area = thickness / 2000
    curvature = moment / (fibres**2 * area).sum()
    stress = weight / thickness + curvature * np.array([-thickness / 2, thickness / 2])  # pressed positive
    assert base_tension_bonded(weight, thickness, moment) == pytest.approx(
        max(0.0, -stress.min()), rel=1e-5, abs=1e-5 * weight / thickness
    )


@given(st.floats(2.0, 12.0), st.floats(0.5, 1.0), st.floats(1.0, 8.0), st.floats(0.0, 1.0), st.floats(0.1, 0.5))
def test_face_area_against_shapely(floor, narrowing, wall, undercut, rise_share):
    """Area and course widths agree with a polygon of the same face."""
    from shapely import LineString, Polygon

    top, span = floor * narrowing, floor * narrowing * 1.1
    rise, under = span * rise_share, undercut * wall
    radius = (span**2 / 4 + rise**2) / (2 * rise)
    half = np.arcsin(min(1.0, span / (2 * radius)))
    turn = np.linspace(half, -half, 1001)
    arch = list(zip(radius * np.sin(turn), wall + rise - radius + radius * np.cos(turn), strict=True))
    face = Polygon(
        [(-floor / 2, 0), (floor / 2, 0), (top / 2, under), (top / 2, wall), *arch, (-top / 2, wall), (-top / 2, under)]
    )
    assert face_area(floor, top, wall, under, span, rise, slices=2000) == pytest.approx(face.area, rel=2e-4)
    for i, width in enumerate(course_widths(floor, top, wall, under, span, rise, 0.3)):
        for y in (i * 0.3 + 0.01, i * 0.3 + 0.29):
            cut = face.intersection(LineString([(-20, y), (20, y)]))
            if not cut.is_empty:
                x0, _, x1, _ = cut.bounds
                assert x1 - x0 <= width + 1e-3
