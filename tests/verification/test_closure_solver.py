"""The velocity solver against exact and manufactured solutions and an independent one-dimensional one."""

import math
from itertools import pairwise

import numpy as np
import pytest

from closure.boxes import body, grid, row_of_edges
from firnstead.closure.assemble import Topology, reference
from firnstead.closure.law import DENSEST, CreepLaw, Points, points_of_law
from firnstead.closure.solve import Solver
from firnstead.core.units import YEAR
from firnstead.snow.creep import coefficients_arrizabalaga, strain_rates_arrizabalaga


def uniform(shape: tuple[int, int], a: float, b: float, rate: float, exponent: float) -> Points:
    """The law with the same coefficients at every point."""
    ones = np.ones(shape)
    return points_of_law(a * ones, b * ones, rate * ones, exponent)


def exact_velocity(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """A smooth field without a point of rest."""
    return np.stack((0.3 * np.sin(2 * x + y) + 0.5 * x, 0.2 * np.cos(x - 1.5 * y) - 0.8 * y), axis=-1)


def exact_stress(x: np.ndarray, y: np.ndarray, a: float, b: float, n: float) -> np.ndarray:
    """Its stress (xx, yy, xy), written from the law anew; takes complex arguments."""
    xx, yy = 0.6 * np.cos(2 * x + y) + 0.5, 0.3 * np.sin(x - 1.5 * y) - 0.8
    xy = 0.5 * (0.3 * np.cos(2 * x + y) - 0.2 * np.sin(x - 1.5 * y))
    trace = xx + yy
    q = (xx**2 + yy**2 + 2 * xy**2 - trace**2 / 3) / a + 1.5 * trace**2 / b
    eta = 2 ** ((n - 1) / (2 * n)) * q ** ((1 - n) / (2 * n))
    bulk = 1.5 * trace / b
    return eta * np.stack(((xx - trace / 3) / a + bulk, (yy - trace / 3) / a + bulk, xy / a))


def manufactured_error(cells: int, n: float, order: int) -> float:
    """L2 error of the velocity on the unit square with the exact velocity on its boundary."""
    points, triangles = grid(np.linspace(0, 1, cells + 1), np.linspace(0, 1, cells + 1))
    points[:, 0] += 0.1 / cells * np.sin(7 * points[:, 1]) * np.sin(math.pi * points[:, 0])  # no lucky cancelling
    topology = Topology(triangles, len(points))
    places = topology.places(points)
    rim = np.any((places < 1e-9) | (places > 1 - 1e-9), axis=1)
    given = exact_velocity(*places.T) * rim[:, None]
    assembly = body(points, triangles, np.repeat(rim[:, None], 2, axis=1), given, order)
    tables = assembly.tables(points)
    local, _, values, _ = reference(order)
    at = np.einsum("qi,eic->eqc", np.column_stack((1 - local.sum(axis=0), *local)), points[triangles])
    x, y, h = at[..., 0], at[..., 1], 1e-30
    by_x, by_y = exact_stress(x + 1j * h, y, 4.0, 2.0, n).imag / h, exact_stress(x, y + 1j * h, 4.0, 2.0, n).imag / h
    force = -np.stack((by_x[0] + by_y[2], by_x[2] + by_y[1]), axis=-1)
    law = uniform(tables.weights.shape, 4.0, 2.0, 1.0, n)
    found = Solver(assembly).solve(tables, law, assembly.loads(tables, force), None, 1e-10).reshape(-1, 2)
    miss = np.einsum("qi,eic->eqc", values, found[topology.nodes]) - exact_velocity(x, y)
    return math.sqrt(float(np.sum(tables.weights[..., None] * miss**2)))


@pytest.mark.parametrize("exponent", [1.0, 2.0, 3.0])
def test_order_of_convergence(exponent: float) -> None:
    """A manufactured solution is approached with order three in the mean square of the velocity."""
    errors = [manufactured_error(cells, exponent, 4) for cells in (4, 8, 16)]
    orders = [math.log2(a / b) for a, b in pairwise(errors)]
    assert min(orders) >= 2.8


def test_order_of_convergence_with_few_points() -> None:
    """Three quadrature points, as marches use, keep the order."""
    errors = [manufactured_error(cells, 3.0, 2) for cells in (4, 8, 16)]
    assert math.log2(errors[0] / errors[1]) >= 2.7
    assert math.log2(errors[1] / errors[2]) >= 2.8


def test_confined_column() -> None:
    """The top of a confined column of 10 m sinks at the closed form's 0.222633 m a year (arrizabalaga_2025's law)."""
    points, triangles = grid(np.linspace(0, 1, 5), np.linspace(0, 10, 41))
    places = Topology(triangles, len(points)).places(points)
    fixed = np.column_stack(((places[:, 0] < 1e-9) | (places[:, 0] > 1 - 1e-9), places[:, 1] < 1e-9))
    assembly = body(points, triangles, fixed)
    tables = assembly.tables(points)
    shape = tables.weights.shape
    law = CreepLaw(500.0).points(np.full(shape, 500.0), np.full(shape, 253.15))
    weight = np.broadcast_to(np.array([0.0, -500.0 * 9.82]), (*shape, 2))
    velocity = Solver(assembly).solve(tables, law, assembly.loads(tables, weight), None, 1e-9)
    assert velocity.min() * YEAR == pytest.approx(-0.222633, rel=1e-5)


@pytest.mark.parametrize("exponent", [1.0, 3.0])
def test_free_block_in_plane_strain(exponent: float) -> None:
    """A block pressed between smooth plates spreads and shortens as the law says, written the other way round."""
    from scipy.optimize import brentq

    a, b = coefficients_arrizabalaga(0.5, 600.0)
    rate, pressure = 1e-16, 20e3
    across = brentq(
        lambda z: strain_rates_arrizabalaga(0.0, -pressure, z, a, b, rate, exponent=exponent)[2], -pressure, pressure,
        xtol=1e-9)  # fmt: skip
    wide, short, _ = strain_rates_arrizabalaga(0.0, -pressure, across, a, b, rate, exponent=exponent)
    points, triangles = grid(np.linspace(0, 2, 4), np.linspace(0, 3, 4))
    topology = Topology(triangles, len(points))
    places = topology.places(points)
    assembly = body(points, triangles, places < 1e-9)
    tables = assembly.tables(points)
    top = row_of_edges(points, triangles, 1, 3.0)
    force = assembly.pressure(points, top, lambda at: at * 0.0 + (0.0, -pressure))
    law = uniform(tables.weights.shape, a, b, rate, exponent)
    found = Solver(assembly).solve(tables, law, force, None, 1e-9).reshape(-1, 2)
    corner = np.flatnonzero((places[:, 0] > 2 - 1e-9) & (places[:, 1] > 3 - 1e-9))[0]
    assert found[corner] == pytest.approx([2 * wide, 3 * short], rel=1e-3)


def hole_rate(a: float, b: float, outer: float, cells: tuple[int, int]) -> float:
    """Inward rate at the wall of a round hole of radius 1 under a pressure of 1 at `outer`; A = 1, n = 3."""
    angle, radius = np.linspace(0, math.pi / 2, cells[0] + 1), np.geomspace(1.0, outer, cells[1] + 1)
    polar, triangles = grid(angle, np.log(radius))
    size = np.exp(polar[:, 1])
    points = np.column_stack((size * np.cos(polar[:, 0]), size * np.sin(polar[:, 0])))
    triangles = triangles[:, [0, 2, 1]]
    topology = Topology(triangles, len(points))
    places = topology.places(points)
    assembly = body(points, triangles, np.abs(places) < 1e-9 * outer, order=4)
    tables = assembly.tables(points)
    last = topology.edges[np.all(size[topology.edges] > outer * (1 - 1e-9), axis=1)]
    force = assembly.pressure(points, last, lambda at: -at / np.linalg.norm(at, axis=1)[:, None])
    law = uniform(tables.weights.shape, a, b, 1.0, 3.0)
    found = Solver(assembly).solve(tables, law, force, None, 1e-8).reshape(-1, 2)
    wall = np.flatnonzero(size < 1 + 1e-9)
    return float(-np.mean(np.sum(found[wall] * points[wall], axis=1)))


def radial_rate(a: float, b: float, outer: float) -> float:
    """The same by an own one-dimensional solver: a shooting of the two radial equations in ln r."""
    from scipy.integrate import solve_ivp
    from scipy.optimize import brentq

    def stress(rr: float, tt: float) -> tuple[float, float]:
        trace = rr + tt
        q = (rr**2 + tt**2 - trace**2 / 3) / a + 1.5 * trace**2 / b
        eta = 2 ** (1 / 3) * q ** (-1 / 3)
        return eta * ((rr - trace / 3) / a + 1.5 * trace / b), eta * ((tt - trace / 3) / a + 1.5 * trace / b)

    def radial_strain(traction: float, tt: float) -> float:
        scale = abs(tt) * 10
        return float(brentq(lambda rr: stress(rr, tt)[0] - traction, -scale, scale, xtol=1e-14, rtol=1e-13))

    def slopes(_: float, state: np.ndarray) -> list[float]:
        velocity, traction, place = state[0], state[1], state[2]
        tt = velocity / place
        rr = radial_strain(traction, tt)
        return [rr * place, stress(rr, tt)[1] - traction, place]

    done = solve_ivp(slopes, (0.0, math.log(outer)), [-1.0, 0.0, 1.0], rtol=1e-9, atol=1e-12)
    return float((1.0 / -done.y[1, -1]) ** 3)  # every velocity goes with the cube of the pressure


@pytest.mark.parametrize(
    ("a", "b", "printed"), [(19.32, 5.999, 175.920), (1.404, 0.1742, 0.458793), (1.116, 0.0643, 0.185086)]
)
def test_thick_walled_compressible_cylinder(a: float, b: float, printed: float) -> None:
    """The wall of a compressible cylinder of radii 1 and 20 moves as the one-dimensional solver says (b_here = 3 b)."""
    reference_rate = radial_rate(a, 3 * b, 20.0)
    assert reference_rate == pytest.approx(printed, rel=2e-3)
    assert hole_rate(a, 3 * b, 20.0, (16, 16)) == pytest.approx(reference_rate, rel=5e-3)


def test_hole_in_dense_ice_closes_after_nye() -> None:
    """With b = 1e-6 (1 - D = 5e-11) and a far boundary of 4000 radii the wall closes at Nye's A (p/n)^n."""
    found = hole_rate(1.0, 1e-6, 4000.0, (32, 90))
    assert found == pytest.approx(1 / 27, rel=0.02)
    assert found == pytest.approx(1 / (27 * (1 - 4000 ** (-2 / 3)) ** 3), rel=0.01)  # the same with its far boundary


def test_density_is_held_where_elements_do_not_lock() -> None:
    """At the densest state that marches use (0.98) a hole of 16 by 16 cells is right within 1 %."""
    a, b = coefficients_arrizabalaga(DENSEST, 500.0)
    assert hole_rate(a, b, 20.0, (16, 16)) == pytest.approx(radial_rate(a, b, 20.0), rel=0.01)
