"""The closed forms and integrals of arches against a plane frame written apart from them."""

import numpy as np
import pytest

from firnstead.roof import buckling, deflection, parabola, thrust
from verification.roof_frame import Frame, plan_load, pressure_load, segment
from verification.roof_frame import parabola as parabola_frame

RISES = (0.1, 0.25, 0.4, 0.5)


def point_load(frame: Frame, node: int) -> np.ndarray:
    """One load of 1 downward on a node."""
    load = np.zeros(3 * len(frame.nodes))
    load[3 * node + 1] = -1.0
    return load


@pytest.mark.parametrize("rise", RISES)
@pytest.mark.parametrize("start, end", [(0.0, 1.0), (0.0, 0.5), (0.0, 0.35), (0.3, 0.6)])
def test_even_load(rise: float, start: float, end: float) -> None:
    """Thrust, reactions, bending and compression of the two-hinged segment under part loads are those of the frame."""
    ours, frame = thrust.segment_uniform_load(rise, start, end), segment(rise, 120)
    _, reaction, axial, moment = frame.solve(plan_load(frame.nodes, start, end))
    assert ours.horizontal == pytest.approx(reaction[0], rel=5e-4)
    assert ours.left == pytest.approx(reaction[1], rel=1e-6)
    assert ours.right == pytest.approx(reaction[-2], rel=1e-6)
    assert ours.bending == pytest.approx(np.abs(moment).max(), abs=2e-5)
    assert ours.compression == pytest.approx(axial.max(), rel=1.2e-2)  # the frame gives the middle of each element


@pytest.mark.parametrize("rise", RISES)
@pytest.mark.parametrize("end", [0.4, 1.0])
def test_haunch_load(rise: float, end: float) -> None:
    """The wedges of snow over the haunches act as the sum of many narrow even loads does in the frame."""
    ours, frame = thrust.segment_haunch_load(rise, 0.0, end), segment(rise, 120)
    edges = np.linspace(0.0, end, 401)
    radius = (0.25 + rise**2) / (2 * rise)
    load = np.zeros(3 * len(frame.nodes))
    for a, b in zip(edges[:-1], edges[1:], strict=True):
        height = np.sqrt(radius**2 - ((a + b) / 2 - 0.5) ** 2) - (radius - rise)
        load += (1 - height / rise) * plan_load(frame.nodes, a, b)
    _, reaction, _, moment = frame.solve(load)
    assert ours.horizontal == pytest.approx(reaction[0], rel=1e-3)
    assert ours.left == pytest.approx(reaction[1], rel=1e-3)
    assert ours.bending == pytest.approx(np.abs(moment).max(), abs=2e-5)


@pytest.mark.parametrize("rise", RISES)
@pytest.mark.parametrize("share", [0.5, 0.25])
def test_point_load(rise: float, share: float) -> None:
    """A load at the crown or at the quarter of the arc gives the frame's thrust and bending."""
    frame = segment(rise, 120)
    node = round(120 * share)
    ours = thrust.segment_point_load(rise, float(frame.nodes[node, 0]))
    _, reaction, _, moment = frame.solve(point_load(frame, node))
    assert ours.horizontal == pytest.approx(reaction[0], rel=1e-3)
    assert ours.bending == pytest.approx(np.abs(moment).max(), rel=1e-2)


@pytest.mark.parametrize("length", [0.3, 0.5, 1.0])
def test_parabola_part_load(length: float) -> None:
    """The closed form of the parabola with stiffness growing with slope is the frame's, the printed one is not."""
    frame = parabola_frame(0.3, 120, constant=False)
    _, reaction, _, _ = frame.solve(plan_load(frame.nodes, 0.0, length))
    assert parabola.thrust_parabola_partial(1.0, 1.0, 0.3, length) == pytest.approx(reaction[0], rel=5e-4)


def test_parabola_half_load_moment() -> None:
    """A parabola loaded on one half bends by w L^2/64 at its quarter points."""
    frame = parabola_frame(0.2, 120, constant=False)
    _, _, _, moment = frame.solve(plan_load(frame.nodes, 0.0, 0.5))
    assert parabola.moment_parabola_half(1.0, 1.0) == pytest.approx(moment.max(), rel=2e-3)
    assert parabola.moment_parabola_half(1.0, 1.0) == pytest.approx(-moment.min(), rel=2e-3)


@pytest.mark.parametrize("share", [0.25, 0.5])
def test_parabola_point_load(share: float) -> None:
    """Two-hinged and hingeless parabola under one load agree with the frame."""
    node = round(120 * share)
    hinged = parabola_frame(0.25, 120, constant=False)
    _, reaction, _, _ = hinged.solve(point_load(hinged, node))
    assert parabola.thrust_parabola_point(1.0, 1.0, 0.25, share) == pytest.approx(reaction[0], rel=1e-3)
    fixed = parabola_frame(0.25, 120, fixed_feet=True, constant=False)
    _, reaction, _, moment = fixed.solve(point_load(fixed, node))
    closed = parabola.hingeless_parabola_point(1.0, 1.0, 0.25, share)
    assert closed.horizontal == pytest.approx(reaction[0], rel=1e-3)
    assert closed.vertical == pytest.approx(reaction[1], rel=1e-3)
    assert abs(closed.moment_left) == pytest.approx(abs(reaction[2]), abs=2e-4)
    assert abs(closed.moment_right) == pytest.approx(abs(reaction[-1]), abs=2e-4)
    assert closed.moment_crown == pytest.approx(-moment[59][1], abs=2e-4)


@pytest.mark.parametrize("opening", [30, 60, 90, 120, 150, 180])
@pytest.mark.parametrize("fixed", [False, True])
def test_buckling_under_pressure(opening: int, fixed: bool) -> None:
    """Critical normal pressure of circular arches is the frame's eigenvalue with the pressure following the arch."""
    half = np.radians(opening / 2)
    radius = 1 / (2 * np.sin(half))
    frame = segment(float((1 - np.cos(half)) * radius), 40, fixed)
    law = buckling.critical_pressure_hingeless if fixed else buckling.critical_pressure_two_hinged
    load = pressure_load(frame.nodes, 1.0)
    assert law(1.0, radius, half) == pytest.approx(frame.critical_factor(load, follower=1.0), rel=2e-3)
    if opening > 100:  # a pressure that does not follow would give an unsafe answer
        assert frame.critical_factor(load) > 1.05 * law(1.0, radius, half)


@pytest.mark.parametrize("rise", [0.1, 0.2, 0.3, 0.4, 0.5])
@pytest.mark.parametrize("hinged", [True, False])
def test_buckling_factors_under_plan_load(rise: float, hinged: bool) -> None:
    """The factors of the segment are the frame's; those of the parabola are never above the frame's by over 1 %."""
    arch = segment(rise, 40, not hinged)
    exact = arch.critical_factor(plan_load(arch.nodes, 0.0, 1.0))
    assert buckling.segment_factor(rise, hinged) == pytest.approx(exact, rel=3e-3)
    other = parabola_frame(rise, 40, not hinged)
    exact = other.critical_factor(plan_load(other.nodes, 0.0, 1.0))
    assert 0.9 * exact < buckling.parabola_factor(rise, hinged) < 1.01 * exact


@pytest.mark.parametrize("rise", [0.1, 0.18, 0.25, 0.33, 0.4, 0.5])
def test_lowest_critical_load_is_safe(rise: float) -> None:
    """The lowest of our laws never lies above the frame's buckling load, also between the rows of the tables."""
    frame = segment(rise, 48)
    full = thrust.segment_uniform_load(rise)
    quarter = float(np.interp(0.25, np.linspace(0, 1, full.axial.size), full.axial))  # equal steps along the arc
    laws = buckling.critical_loads_segment(1.0, 1.0, rise, quarter)
    assert min(laws.values()) < 1.005 * frame.critical_factor(plan_load(frame.nodes, 0.0, 1.0))


def test_worked_arch() -> None:
    """6 m span, 1.5 m rise, 8 kPa on one half: thrust, deflection and critical load of the frame in our numbers."""
    frame, stiffness = segment(0.25, 96), 200e9 * 9.9e-7
    moved, reaction, _, _ = frame.solve(plan_load(frame.nodes, 0.0, 0.5))
    assert reaction[0] * 8000 * 6 == pytest.approx(11.56e3, rel=1e-2)
    scale = 8000 * 6**4 / stiffness
    node = int(np.argmin(moved[1::3]))
    ours = deflection.deflection_coefficient(
        0.25, thrust.segment_uniform_load(0.25, 0.0, 0.5), float(frame.nodes[node, 0])
    )
    assert ours * scale == pytest.approx(-moved[3 * node + 1] * scale, rel=5e-3)
    assert ours * scale == pytest.approx(0.024, abs=1e-3)
    assert frame.critical_factor(plan_load(frame.nodes, 0.0, 1.0)) * stiffness / 6**3 == pytest.approx(44.7e3, rel=1e-2)
