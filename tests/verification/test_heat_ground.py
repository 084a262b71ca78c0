"""Conduction in two dimensions round a cut against exact solutions, and its energy to rounding."""

import math

import numpy as np
import pytest

from firnstead.heat.closed_form import heat_cylinder
from firnstead.snow.ground_heat import Ground
from firnstead.snow.ground_mesh import CutOutline, mesh_round
from firnstead.snow.year import MONTH

K, RHO_C = 0.5, 500.0 * 1950.0
ALPHA = K / RHO_C


def uniform(cut):
    """The snow round a cut, uniform."""
    mesh = mesh_round(cut)
    count = len(mesh.triangles)
    return Ground(mesh, np.full(count, K), np.full(count, RHO_C))


def round_hole(radius=2.0, corners=48, depth=80.0):
    """A round hole far from the surface."""
    angles = np.linspace(0.0, math.pi, corners + 1)
    points = [(radius * math.sin(a), depth - radius * math.cos(a)) for a in angles]
    points[0], points[-1] = (0.0, depth - radius), (0.0, depth + radius)
    return CutOutline(tuple(points), side=80.0, below=80.0, size=10.0, layers=30, first=0.002)


def wide_floor():
    """A cut so wide and flat that its floor answers as a half space."""
    return CutOutline(((0.0, 20.0), (20.0, 20.0), (20.0, 40.0), (0.0, 40.0)), patch=20.0, side=40.0, below=40.0,
                      size=2.0, layers=60, first=0.0004)  # fmt: skip


def test_round_hole_takes_the_heat_of_the_exact_solution():
    """The heat into the snow round a long hole agrees with the exact solution within 1 % from a month to ten years."""
    ground, total = uniform(round_hole()), 0.0
    field, held = np.zeros((len(ground.mesh.points), 1)), np.array([[1.0], [0.0], [0.0]])
    for month in range(120):
        for _ in range(8 if month == 0 else 1):
            field, heat = ground.step(field, held, MONTH / (8 if month == 0 else 1))
            total += 2.0 * heat[0, 0]
        if month in (0, 1, 5, 11, 59, 119):
            time = (month + 1) * MONTH
            exact = 2.0 * math.pi * K * time * heat_cylinder(ALPHA * time / 4.0)
            assert total == pytest.approx(exact, rel=0.012)


def test_finer_meshes_come_nearer():
    """The error of the round hole falls as the mesh is refined."""
    errors = []
    for layers, first in ((10, 0.02), (20, 0.006), (40, 0.0012)):
        cut = round_hole()
        ground = uniform(CutOutline(cut.points, side=80.0, below=80.0, size=10.0, layers=layers, first=first))
        field, total = np.zeros((len(ground.mesh.points), 1)), 0.0
        for _ in range(40):
            field, heat = ground.step(field, np.array([[1.0], [0.0], [0.0]]), 0.3 * MONTH)
            total += 2.0 * heat[0, 0]
        time = 12.0 * MONTH
        errors.append(abs(total / (2.0 * math.pi * K * time * heat_cylinder(ALPHA * time / 4.0)) - 1.0))
    assert errors[0] > errors[1] > errors[2]
    assert errors[2] < 0.01


@pytest.mark.parametrize(("days", "share"), [(10.0, 0.29), (30.0, 0.54), (100.0, 0.74)])
def test_half_space(days, share):
    """Below the middle of a wide floor the step comes down as the error function says, and the heat as sqrt(t)."""
    ground = uniform(wide_floor())
    field, steps = np.zeros((len(ground.mesh.points), 1)), 80
    held = np.array([[1.0], [1.0], [0.0]])
    for _ in range(steps):
        field, _ = ground.step(field, held, days * 86400.0 / steps)
    axis = ground.mesh.axis
    depth = ground.mesh.points[axis, 1] - ground.mesh.points[axis[0], 1]
    exact = math.erfc(1.0 / (2.0 * math.sqrt(ALPHA * days * 86400.0)))
    assert float(np.interp(1.0, depth, field[axis, 0])) == pytest.approx(exact, abs=0.006)
    assert exact == pytest.approx(share, abs=0.01)
    taken = float(np.trapezoid(field[axis, 0], depth))  # the heat that came in, over density and heat capacity
    assert taken == pytest.approx(2.0 * math.sqrt(ALPHA * days * 86400.0 / math.pi), rel=0.01)


def test_steady_strip():
    """A warm floor in a surface that stays cold: the middle of the strip at depth a takes half, at 2 a 0.2952."""
    size = 0.25
    cut = CutOutline(((0.0, 30.0), (30.0, 30.0), (30.0, 60.0), (0.0, 60.0)), patch=2.0, side=160.0, below=160.0,
                     size=size, layers=60, first=0.0006)  # fmt: skip
    ground = uniform(cut)
    field = np.zeros((len(ground.mesh.points), 1))
    for _ in range(60):
        field, _ = ground.step(field, np.array([[0.0], [1.0], [0.0]]), 400.0 * 12 * MONTH)
    axis = ground.mesh.axis
    depth = ground.mesh.points[axis, 1] - ground.mesh.points[axis[0], 1]
    for at, share in ((2.0, 0.5), (4.0, 0.2952)):
        assert 2.0 * math.atan(2.0 / at) / math.pi == pytest.approx(share, abs=1e-4)
        # the floor's warmth falls to the surface's over one element: half of that belongs to the strip
        exact = 2.0 * math.atan((2.0 + size / 2.0) / at) / math.pi
        assert float(np.interp(at, depth, field[axis, 0])) == pytest.approx(exact, abs=0.004)


def test_what_enters_is_stored():
    """Random boundary temperatures: what enters by wall, floor and surface is what the snow stores, to rounding."""
    rng = np.random.default_rng(3)
    cut = CutOutline(((0.0, 1.0), (2.0, 2.5), (2.0, 4.0), (3.0, 7.0), (0.0, 7.0)), patch=1.8, side=15.0)
    mesh = mesh_round(cut)
    ground = Ground(mesh, rng.uniform(0.2, 1.5, len(mesh.triangles)), rng.uniform(5e5, 1.5e6, len(mesh.triangles)))
    field = rng.normal(size=(len(mesh.points), 4))
    for _ in range(24):
        before = ground.stored(field)
        field, heat = ground.step(field, rng.normal(size=(3, 4)), MONTH)
        assert np.allclose(heat.sum(axis=0), ground.stored(field) - before, rtol=0, atol=1e-9 * np.abs(heat).max())


def test_no_triangle_is_turned_over():
    """The mesh covers the snow once: its area is that of the rectangle less the cut, nearly."""
    for cut in (round_hole(), wide_floor(), CutOutline(((0.0, 0.3), (1.2, 0.9), (2.3, 1.8), (3.1, 6.8), (0.0, 6.8)))):
        mesh = mesh_round(cut)
        a, b, c = (mesh.points[mesh.triangles[:, i]] for i in range(3))
        signed = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
        assert np.all(signed > 0) or np.all(signed < 0)
        x, z = np.array(cut.points).T
        void = abs(float(np.sum((x[1:] + x[:-1]) * (z[1:] - z[:-1]))) / 2.0)
        whole = cut.side * (cut.points[-1][1] + cut.below)
        assert float(np.abs(signed).sum()) / 2.0 == pytest.approx(whole - void, rel=0.02)
