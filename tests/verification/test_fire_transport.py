"""The smoke model against an independent integrator, an exact front, and exact single cells."""

from math import inf

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from firnstead.fire.dose import cohb_rate_cfk
from firnstead.fire.filling import filling_time_by_steps, layer_height_yamana_tanaka
from firnstead.fire.network import Network, directed_from, flows_of, line_network
from firnstead.fire.plume import mass_flow_plume
from firnstead.fire.pressure import front_speed
from firnstead.fire.transport import Blaze, march

PRESSURE = 72e3
FIRE = Blaze(1, 46.9, 1.5e6, inf, 0.7, False)


def forked():
    """A passage with two side trenches, one behind a leaky door, and a loop."""
    a, b = np.array([0, 1, 2, 3, 2, 5, 3, 4]), np.array([1, 2, 3, 4, 5, 6, 7, 0])
    count = 8
    width = np.array([5.0, 5.0, 2.4, 5.0, 2.4, 6.0, 5.0, 3.0])
    height = np.array([7.0, 7.0, 2.4, 7.0, 2.4, 6.0, 7.0, 3.0])
    leak = width * height
    leak[4] = 0.05
    return Network(
        tuple("abcdefgh"), np.array([150.0, 200.0, 180.0, 120.0, 90.0, 60.0, 400.0, 300.0]), np.full(count, 6.0), a, b,
        np.full(count, 10.0), width, width * height, leak, (7,))  # fmt: skip


def matrices(network, cell):
    """The two flow matrices, dense."""
    n = network.cells
    flows = flows_of(network, directed_from(network, cell), PRESSURE, network.leak)
    made = []
    for row, column, value in (flows.exchange, flows.expansion):
        matrix = np.zeros((2 * n, 2 * n))
        np.add.at(matrix, (row, column), value)
        made.append(matrix)
    return made


def integrated(network, fire, duration):
    """Mean energy in each cell at the end by a general integrator."""
    n = network.cells
    exchange, expansion = matrices(network, fire.cell)
    half = np.concatenate((network.volume, network.volume)) / 2

    def rate(time, stock):
        heat = min(fire.coefficient * time**2, fire.cap)
        convective = fire.convective * heat
        change = (convective ** (1 / 3) * exchange + convective * expansion) @ (stock / half)
        change[fire.cell] += heat
        return change

    peak = (fire.cap / fire.coefficient) ** 0.5
    stock = np.zeros(2 * n)
    for start, end in ((0.0, min(peak, duration)), (min(peak, duration), duration)):
        if end > start:
            stock = solve_ivp(rate, (start, end), stock, method="LSODA", rtol=1e-9, atol=1.0).y[:, -1]
    return (stock[:n] + stock[n:]) / network.volume


@pytest.mark.parametrize("duration", [90.0, 300.0, 900.0])
def test_against_a_general_integrator(duration):
    """Every cell agrees with an adaptive integrator of the same equations; cells far from the fire, too."""
    network = forked()
    theirs = integrated(network, FIRE, duration)
    ours = march(network, FIRE, PRESSURE, duration, finer=16).mean[0, -1]
    assert np.allclose(ours, theirs, rtol=0.03, atol=1e-3 * theirs.max())
    coarse = march(network, FIRE, PRESSURE, duration).mean[0, -1]
    assert np.allclose(coarse, theirs, rtol=0.15, atol=0.02 * theirs.max())


def test_order_of_convergence():
    """Halving the steps halves the error: first order in time."""
    network = forked()
    theirs = integrated(network, FIRE, 300.0)
    errors = [np.abs(march(network, FIRE, PRESSURE, 300.0, finer=k).mean[0, -1] - theirs).max() for k in (4, 8, 16)]
    orders = np.log2(np.array(errors[:-1]) / np.array(errors[1:]))
    assert np.all(orders > 0.8)
    assert np.all(orders < 1.3)


def test_the_front_runs_at_its_speed():
    """In a fine grid the smoke of a steady fire stands where its speed has taken it, and is S/q thick behind."""
    length, cells, width, height, power = 200.0, 800, 5.0, 4.0, 1e6
    line = line_network(length, cells, width, height)
    line = Network(line.names, line.volume, line.height, line.a, line.b, line.length, line.width, line.opening,
                   line.leak, (0,))  # fmt: skip
    fire = Blaze(0, 1e12, power, inf, 0.7, False)
    speed, time = front_speed(0.7 * power, width, PRESSURE), 60.0
    run = march(line, fire, PRESSURE, time, finer=24)
    mean = run.mean[0, -1]
    plateau = power / (speed * width * height)  # half of S/q: the lower half behind the front is clear
    reached = np.interp(0.5, (mean[::-1] / plateau), (np.arange(cells)[::-1] + 0.5) * length / cells)
    assert reached == pytest.approx(speed * time, rel=0.03)
    assert mean[:80] == pytest.approx(np.full(80, plateau), rel=0.02)


def test_coarse_cells_bring_smoke_no_later():
    """Long cells smear the front forward: thin smoke comes sooner than in short ones, never later."""
    at = []
    for cells in (10, 40, 160):
        line = line_network(100.0, cells)
        run = march(line, Blaze(0, 46.9, 1e6, inf, 0.7, False), PRESSURE, 240.0, finer=4)
        far = run.mean[0][:, int(cells * 0.9)]
        at.append(float(run.times[np.argmax(far > 1e3)]))
    assert at[0] <= at[1] <= at[2]


def test_one_cell_fills_exactly():
    """One closed cell holds what was released, however it is stepped."""
    alone = Network(("a",), np.array([100.0]), np.array([4.0]), np.array([], dtype=int), np.array([], dtype=int),
                    *(np.array([]) for _ in range(4)), ())  # fmt: skip
    run = march(alone, Blaze(0, 11.72, 1e6, inf, 0.7, False), PRESSURE, 600.0)
    assert run.mean[0, :, 0] * 100.0 == pytest.approx(run.released[0], rel=1e-12)


def test_hand_filling_against_a_general_integrator():
    """Filling by steps of a tenth of a second agrees with an adaptive integrator of the same equation."""

    def sink(time, z):
        power = 0.7 * 46.9 * time**2
        return [-(mass_flow_plume(power, float(z[0])) / 1.2 + power / 353e3) / 500.0]

    def low(_, z):
        return z[0] - 2.0

    low.terminal = True
    found = solve_ivp(sink, (0.0, 1000.0), [4.5], events=low, rtol=1e-9, atol=1e-9)
    assert filling_time_by_steps(2.0, 46.9, 500.0, 4.5) == pytest.approx(found.t_events[0][0], rel=2e-3)


def test_yamana_tanaka_solves_its_equation():
    """The closed form sinks at k Q^(1/3) z^(5/3)/A."""
    k, power, area, h = 0.012, 1e6, 250.0, 1e-3
    z = [layer_height_yamana_tanaka(t, power, area, 4.5, k) for t in (90.0 - h, 90.0, 90.0 + h)]
    assert (z[2] - z[0]) / (2 * h) == pytest.approx(-k * power ** (1 / 3) * z[1] ** (5 / 3) / area, rel=1e-6)


def test_blood_comes_to_rest_where_uptake_ends():
    """Carbon monoxide in the blood settles where its rate is nothing; more in the air, more in the blood."""
    ends = []
    for share in (25e-6, 100e-6):
        found = solve_ivp(lambda _, c, s=share: [cohb_rate_cfk(float(c[0]), s)], (0.0, 2e5), [0.005], rtol=1e-8)
        assert abs(cohb_rate_cfk(float(found.y[0, -1]), share)) < 1e-9
        ends.append(float(found.y[0, -1]))
    assert 0.02 < ends[0] < ends[1] < 0.2
