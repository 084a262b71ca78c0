"""The air network and the gases in it against closed forms and against independent general solvers."""

import networkx as nx
import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import root

from firnstead.air.draught import area_in_series, opening_flow, shaft_flow
from firnstead.air.fans import curve_from_duty, fan_branch
from firnstead.air.mixing import share_mixed, share_steady
from firnstead.air.network import Openings, fresh_reach, solve_network
from firnstead.air.properties import air_density
from firnstead.air.transport import exchange_matrix, highest_mean, shares_in_time, steady_shares
from firnstead.core.units import G0

OUT = -1


def openings(rows):
    """Openings from rows of a, b, area, drive and both densities."""
    a, b, *rest = zip(*rows, strict=True)
    return Openings(np.array(a, dtype=np.intp), np.array(b, dtype=np.intp), *(np.array(r, dtype=float) for r in rest))


def random_network(seed, rooms=9):
    """A connected random network with draughts, fans and engines."""
    rng = np.random.default_rng(seed)
    tree = nx.random_labeled_tree(rooms, seed=seed)
    pairs = [*tree.edges, *(tuple(rng.integers(0, rooms, 2)) for _ in range(4)), (0, OUT), (rooms - 1, OUT), (2, OUT)]
    rows = [(i, j, rng.uniform(0.02, 2.0), rng.uniform(-15, 15), rng.uniform(0.8, 1.1), rng.uniform(0.8, 1.1))
            for i, j in pairs if i != j]  # fmt: skip
    fans = tuple(
        fan_branch(OUT, int(rng.integers(0, rooms)), rng.uniform(-10, 10), curve_from_duty(rng.uniform(0.2, 2), 80.0),
                   0.9, 1.2, rng.uniform(0.1, 0.6)) for _ in range(2))  # fmt: skip
    return rooms, openings(rows), fans, np.where(rng.random(rooms) < 0.3, 0.2, 0.0)


def left_over(p, network):
    """Air left over in each room at given pressures, written without the code under test."""
    rooms, holes, fans, drawn = network
    whole = np.append(p, 0.0)
    dp = whole[holes.a] - whole[holes.b] + holes.drive
    density = np.where(dp >= 0, holes.density_a, holes.density_b)
    m = holes.area * np.sqrt(2 * density) * dp / (dp**2 + 1e-6) ** 0.25
    out = np.zeros(rooms + 1)
    np.add.at(out, holes.a, m)
    np.subtract.at(out, holes.b, m)
    for fan in fans:
        flow = np.interp(whole[fan.a] - whole[fan.b] + fan.drive, fan.pressures, fan.masses)
        out[fan.a] += flow
        out[fan.b] -= flow
    return out[:rooms] + drawn


def test_network_against_a_general_root_finder():
    """Pressures of random networks leave no air over, and are those of a general root finder wherever it arrives."""
    arrived = 0
    for seed in range(8):
        network = random_network(seed)
        ours = solve_network(*network).pressure
        assert np.abs(left_over(ours, network)).max() < 1e-6
        found = root(left_over, ours + 0.5, args=(network,), method="lm", options={"xtol": 1e-13, "ftol": 1e-13})
        if np.abs(found.fun).max() < 1e-8:
            assert ours == pytest.approx(found.x, abs=1e-4)
            arrived += 1
    assert arrived >= 4


@pytest.mark.parametrize("seed", range(8))
def test_no_air_is_lost(seed):
    """What comes in from outside is what engines and openings take out."""
    rooms, holes, fans, drawn = random_network(seed)
    flow = solve_network(rooms, holes, fans, drawn)
    out = flow.openings[holes.b == OUT].sum() - flow.openings[holes.a == OUT].sum()
    brought = sum(m for fan, m in zip(fans, flow.fans, strict=True) if fan.a == OUT)
    assert out + drawn.sum() == pytest.approx(brought, abs=1e-7)
    assert flow.left_over < 1e-7
    assert flow.steps < 100


def test_two_openings_in_series():
    """A room with a hole in and a hole out passes what the one opening of both passes."""
    holes = openings([(OUT, 0, 0.3, 20.0, 1.0, 1.0), (0, OUT, 0.4, 0.0, 1.0, 1.0)])
    expected = opening_flow(area_in_series(0.3, 0.4), 20.0, 1.0, coefficient=1.0)
    assert solve_network(1, holes).openings == pytest.approx([expected, expected], rel=1e-6)


@pytest.mark.parametrize("outside", [233.15, 272.15])
def test_draught_through_two_shafts(outside):
    """A room with a low and a high opening passes the closed form, upward in the cold, downward in the warm season."""
    pressure, inside, rise = 70000.0, 253.15, 10.0
    rho_o, rho_i = air_density(pressure, outside), air_density(pressure, inside)
    # the room's level is the lower opening; outside pressure is counted from the upper one
    holes = openings([
        (0, OUT, 0.6 * 0.2, -rho_o * G0 * rise, rho_i, rho_o),
        (0, OUT, 0.6 * 0.3, -rho_i * G0 * rise, rho_i, rho_o),
    ])  # fmt: skip
    flow = solve_network(1, holes).openings
    assert flow[1] == pytest.approx(shaft_flow(0.2, 0.3, rise, pressure, outside, inside), rel=1e-5)
    assert flow[0] == pytest.approx(-flow[1], abs=1e-7)


def test_fan_on_a_hole():
    """A fan that blows into a room with one hole runs where its curve meets the hole's."""
    curve, area, rho = ((0.0, 120.0), (2.0, 0.0)), 0.1, 0.9
    fan = fan_branch(OUT, 0, 0.0, curve, rho, 1.2, float("inf"))
    flow = solve_network(1, openings([(0, OUT, area, 0.0, rho, rho)]), (fan,))
    volume = flow.fans[0] / rho
    assert flow.pressure[0] == pytest.approx((120.0 - 60.0 * volume) * rho / 1.2, rel=1e-6)
    assert volume == pytest.approx(area * (2 * flow.pressure[0] / rho) ** 0.5, rel=1e-6)


def test_a_damper_stops_the_draught_of_a_standing_fan():
    """A fan that stands lets nothing through with a damper, and a draught without one."""
    holes = openings([(0, OUT, 0.1, 30.0, 1.0, 1.0)])
    with_damper, without = (
        solve_network(1, holes, (fan_branch(OUT, 0, 0.0, curve_from_duty(1.0, 50.0), 1.0, 1.2, 0.2, False, shut),))
        for shut in (True, False)
    )
    assert abs(with_damper.fans[0]) < 1e-6
    assert without.fans[0] == pytest.approx(
        opening_flow(area_in_series(0.1, 0.2), 30.0, 1.0, coefficient=1.0), rel=0.02
    )


def carried(seed):
    """Flows of a random network with the balance of two gases."""
    rooms, holes, fans, _ = random_network(seed)
    flow = solve_network(rooms, holes, fans)
    a = np.concatenate([holes.a, [f.a for f in fans]])
    b = np.concatenate([holes.b, [f.b for f in fans]])
    m = np.concatenate([flow.openings, flow.fans])
    rng = np.random.default_rng(seed + 100)
    mass = rng.uniform(50, 400, rooms)
    given = rng.uniform(0, 1e-5, (1, rooms, 2))
    return rooms, a, b, m, mass, given


@pytest.mark.parametrize("seed", range(3))
def test_gases_against_a_general_integrator(seed):
    """Two hours of two gases, one source running half of the time, agree with a general integrator."""
    rooms, a, b, m, mass, given = carried(seed)
    k, out = exchange_matrix(rooms, a, b, m, mass)
    fresh, start = np.array([4e-4, 0.0]), np.tile([4e-4, 0.0], (rooms, 1))
    running = np.zeros((120, 1))
    running[:60] = 1
    ours = shares_in_time(k, out, fresh, start, given, running, 60.0)

    def rate(t, x):
        return ((k @ x.reshape(rooms, 2)) + out[:, None] * fresh + (given[0] if t < 3600 else 0)).ravel()

    first = solve_ivp(rate, (0, 3600), start.ravel(), method="LSODA", rtol=1e-10, atol=1e-14).y[:, -1]
    last = solve_ivp(lambda t, x: rate(t + 3600, x), (0, 3600), first, method="LSODA", rtol=1e-10, atol=1e-14).y[:, -1]
    assert ours[60].ravel() == pytest.approx(first, rel=1e-6)
    assert ours[120].ravel() == pytest.approx(last, rel=1e-6)


@pytest.mark.parametrize("seed", range(4))
def test_no_gas_is_lost(seed):
    """In the long run as much gas leaves the station as is given off in it."""
    rooms, a, b, m, mass, given = carried(seed)
    k, out = exchange_matrix(rooms, a, b, m, mass)
    reached = fresh_reach(rooms, a, b, m)
    fresh = np.array([4e-4, 0.0])
    given = given * reached[None, :, None]
    shares = np.where(reached[:, None], steady_shares(k, out, fresh, given[0], reached), 0.0)
    whole = np.vstack([shares, fresh])
    leaving = np.zeros(2)
    for i, j, flow in zip(a, b, m, strict=True):
        source, target = (i, j) if flow > 0 else (j, i)
        leaving += abs(flow) * whole[source] * (int(target == OUT) - int(source == OUT))
    assert leaving == pytest.approx((given[0] * mass[:, None]).sum(axis=0), rel=1e-4, abs=1e-9)


def test_one_room_against_the_closed_form():
    """One room in time and in the long run is the published well-mixed balance."""
    one, volume, density, flow, gas = np.array([0]), 200.0, 0.95, 0.05, 5e-6
    k, out = exchange_matrix(1, np.array([OUT]), one, np.array([flow * density]), np.array([volume * density]))
    given = np.array([[[gas / volume]]])
    made = shares_in_time(k, out, np.array([4e-4]), np.array([[4e-4]]), given, np.ones((12, 1)), 600.0)
    expected = [share_mixed(600.0 * i, volume, flow, gas, 4e-4, 4e-4) for i in range(13)]
    assert made[:, 0, 0] == pytest.approx(expected, rel=1e-9)
    steady = steady_shares(k, out, np.array([4e-4]), given[0], np.array([True]))
    assert steady[0, 0] == pytest.approx(share_steady(flow, gas, 4e-4))
    assert highest_mean(made[:, 0, 0], 600.0, 0.0) == made[-1, 0, 0]
