"""Carrying fields from mesh to mesh."""

import numpy as np
import pytest

from closure.boxes import grid
from firnstead.closure.assemble import Topology, reference
from firnstead.closure.mesh import areas, quality
from firnstead.closure.rezone import Fields, Rezoner


def shaken(share: float) -> tuple[Topology, np.ndarray, np.ndarray]:
    """A grid and the same with its inner points moved."""
    points, triangles = grid(np.linspace(0, 3, 13), np.linspace(0, 2, 9))
    inner = np.all((points > 1e-9) & (points < np.array([3, 2]) - 1e-9), axis=1)
    moved = points + share * 0.25 * np.random.default_rng(5).uniform(-1, 1, points.shape) * inner[:, None]
    return Topology(triangles, len(points)), points, moved


def at_quadrature(points: np.ndarray, triangles: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Positions and weights of the quadrature points."""
    local, weights, _, _ = reference(2)
    inner = np.column_stack((1 - local.sum(axis=0), *local))
    return np.einsum("qi,eic->eqc", inner, points[triangles]), areas(points, triangles)[:, None] * weights


def test_planes_are_carried_exactly_and_mass_is_kept() -> None:
    """A density that is a plane stays one away from its extremes; nodal fields of second degree stay what they are."""
    topology, points, moved = shaken(0.6)
    triangles = topology.triangles
    before, weights = at_quadrature(points, triangles)
    plane = lambda at: 400.0 + 30.0 * at[..., 0] - 20.0 * at[..., 1]  # noqa: E731
    bent = lambda at: np.stack((at[..., 0] ** 2, at[..., 0] * at[..., 1] - at[..., 1]), axis=-1)  # noqa: E731
    fields = Fields(plane(before) * weights, plane(points), bent(topology.places(points)))
    after = Rezoner(topology, points, np.empty(0, dtype=np.int64)).carry(points, moved, fields)
    place, new_weights = at_quadrature(moved, triangles)
    density = after.mass / new_weights
    assert after.mass.sum() == pytest.approx(fields.mass.sum(), rel=1e-13)
    inner = np.all((place > 0.5) & (place < np.array([2.5, 1.5])), axis=(1, 2))
    assert density[inner] == pytest.approx(plane(place)[inner], rel=2e-3)
    assert after.at_points == pytest.approx(plane(moved))
    assert after.at_nodes == pytest.approx(bent(topology.places(moved)), abs=1e-9)


def test_a_step_in_density_makes_no_new_extremes() -> None:
    """Where milled snow meets natural snow no density outside both appears, and mass is kept."""
    topology, points, moved = shaken(0.5)
    before, weights = at_quadrature(points, topology.triangles)
    density = np.where(before[..., 0] < 1.5, 550.0, 380.0)
    nothing = np.zeros(len(points))
    fields = Fields(density * weights, nothing, np.zeros((topology.count, 2)))
    after = Rezoner(topology, points, np.empty(0, dtype=np.int64)).carry(points, moved, fields)
    new = after.mass / at_quadrature(moved, topology.triangles)[1]
    assert after.mass.sum() == pytest.approx(fields.mass.sum(), rel=1e-13)
    assert new.min() >= 380.0 * 0.995
    assert new.max() <= 550.0 * 1.005


def test_target_mends_a_distorted_mesh() -> None:
    """Inner points go where the triangles look as they first did, without moving the boundary or held points."""
    topology, points, moved = shaken(0.4)
    held = np.array([30])
    new = Rezoner(topology, points, held).target(moved)
    assert np.array_equal(new[30], moved[30])
    before, after = quality(moved, topology.triangles), quality(new, topology.triangles)
    assert after.min() > max(0.6, before.min())
