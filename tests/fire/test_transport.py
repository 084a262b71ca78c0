"""Smoke through networks: nothing lost, more fire never safer, a shut door never worse beyond it."""

from math import inf

import networkx as nx
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.fire.growth import energy_released, power_mean
from firnstead.fire.network import (
    Network,
    cells_beyond,
    directed_from,
    distances_from,
    flows_of,
    line_network,
    parts_joined,
    walk_to_nearest,
)
from firnstead.fire.tenability import Smoke, available_times, exposure_of, first_time
from firnstead.fire.transport import Blaze, march

PRESSURE = 72e3
SMOKE = Smoke((0.07, 0.14), (0.04, 0.4), (1.5, 1.5), 20e6, 0.7, 8700.0, 3.0, PRESSURE, 1.8, "light", 10.0, 333.15, 0.3)
CLASSES = (2.93, 11.72, 46.9, 187.6)


@st.composite
def networks(draw, loops=False, least=5.0):
    """A random network of cells; a tree unless loops are wanted."""
    n = draw(st.integers(3, 9))
    edges = [(draw(st.integers(0, j - 1)), j) for j in range(1, n)]
    if loops:
        extra = draw(st.lists(st.tuples(st.integers(0, n - 1), st.integers(0, n - 1)), max_size=3))
        edges += [e for e in extra if e[0] != e[1] and e not in edges and e[::-1] not in edges]
    edges = list(dict.fromkeys(edges))
    count = len(edges)

    def some(low, high, size):
        return np.array(draw(st.lists(st.floats(low, high), min_size=size, max_size=size)))

    width, height = some(0.8, 8.0, count), some(2.0, 8.0, count)
    opening = width * height
    return Network(
        tuple(f"c{i}" for i in range(n)), some(least, 800.0, n), some(2.2, 8.0, n), np.array([e[0] for e in edges]),
        np.array([e[1] for e in edges]), some(0.5, 12.0, count), width, opening, opening.copy(),
        (draw(st.integers(0, n - 1)),))  # fmt: skip


def blaze(coefficient=46.9, cap=2e6, fuel=inf, cell=0, short=False):
    """A fire in a cell."""
    return Blaze(cell, coefficient, cap, fuel, 0.7, short)


def times_of(network, fire, leak=None, duration=900.0):
    """Time at which each limit is reached in every cell."""
    run = march(network, fire, PRESSURE, duration, leak)
    met = exposure_of(run.times, run.mean, network.height, np.full(network.cells, 250.0), SMOKE)
    return available_times(met, SMOKE)


@given(networks(loops=True), st.sampled_from(CLASSES), st.floats(1e4, 2e7), st.floats(1e7, 1e10), st.booleans())
def test_no_smoke_is_lost_or_made(network, coefficient, cap, fuel, short):
    """The smoke in all cells is what the fire has released, to a billionth, and is nowhere negative."""
    run = march(network, blaze(coefficient, cap, fuel, 0, short), PRESSURE, 1800.0)
    assert np.allclose(run.kept(), run.released, rtol=1e-9, atol=1e-9 * run.released.max())
    assert run.mean.min() >= -1e-9 * run.mean.max()


@given(networks(loops=True))
def test_flows_neither_lose_nor_make(network):
    """What leaves a half enters another: columns of both matrices add up to nothing; volume balances too."""
    n = network.cells
    flows = flows_of(network, directed_from(network, 0), PRESSURE, network.leak)
    for row, column, value in (flows.exchange, flows.expansion):
        matrix = np.zeros((2 * n, 2 * n))
        np.add.at(matrix, (row, column), value)
        assert np.allclose(matrix.sum(axis=0), 0.0, atol=1e-12)
        if value is flows.exchange[2]:
            assert np.allclose(matrix.sum(axis=1), 0.0, atol=1e-9)


@given(
    networks(loops=True), st.sampled_from([(0, 1), (1, 2), (2, 3), (0, 3)]), st.floats(1e5, 5e6), st.floats(1.0, 4.0)
)
def test_a_bigger_fire_never_leaves_more_time(network, classes, cap, more):
    """A fire that grows faster to a higher top reaches every limit in every cell no later."""
    small = times_of(network, blaze(CLASSES[classes[0]], cap))
    big = times_of(network, blaze(CLASSES[classes[1]], cap * more))
    for limit, times in small.items():
        assert (big[limit] <= times * (1 + 1e-6) + 1e-6).all(), limit


@given(networks(least=60.0), st.data(), st.floats(0.0, 0.02), st.floats(2e5, 5e6))
def test_closing_a_door_never_brings_smoke_sooner_beyond_it(network, data, share, cap):
    """With a door shut (gaps of at most a fiftieth of it), no first limit beyond it is reached sooner than open.

    In cells of at least 60 m3: right behind the gap of a shut door a closet may fill sooner, with thicker smoke.
    """
    door = data.draw(st.integers(0, len(network.a) - 1))
    beyond = cells_beyond(network, 0, door)
    leak = network.leak.copy()
    leak[door] *= share
    opened, shut = times_of(network, blaze(cap=cap)), times_of(network, blaze(cap=cap), leak)
    assert (shut["first"][beyond] >= opened["first"][beyond] * (1 - 1e-6) - 1e-6).all()


@given(networks(loops=True))
def test_distances_are_those_of_an_independent_library(network):
    """Shortest ways and connected parts agree with a general graph library."""
    graph = nx.Graph()
    graph.add_nodes_from(range(network.cells))
    for a, b, length in zip(network.a, network.b, network.length, strict=True):
        known = graph.get_edge_data(int(a), int(b), {"length": np.inf})["length"]
        graph.add_edge(int(a), int(b), length=min(known, float(length) + 0.01))
    found = distances_from(network, 0)[0]
    other = nx.single_source_dijkstra_path_length(graph, 0, weight="length")
    assert all(found[i] == pytest.approx(other[i]) for i in range(network.cells))
    targets = (0, network.cells - 1)
    nearest = nx.multi_source_dijkstra_path_length(graph, set(targets), weight="length")
    assert all(walk_to_nearest(network, targets)[i] == pytest.approx(nearest[i]) for i in nearest)
    keep = np.arange(len(network.a)) % 2 == 0
    some = nx.Graph()
    some.add_nodes_from(range(network.cells))
    some.add_edges_from([(int(a), int(b)) for a, b, k in zip(network.a, network.b, keep, strict=True) if k])
    assert len(set(parts_joined(network, keep).tolist())) == nx.number_connected_components(some)


@given(networks(loops=True))
def test_the_heat_that_leaves_a_fire_is_all_of_it(network):
    """Shares of heat on the openings out of the fire's cell add up to one and never grow on the way in a tree."""
    directed = directed_from(network, 0)
    out = directed.near == 0
    assert directed.share[out].sum() == pytest.approx(1.0)
    assert directed.share.min() >= 0


def test_a_cell_cut_off_stays_clear():
    """Where no opening leads, no smoke comes and the time is infinite; a fire alone in a cell keeps it all."""
    line = line_network(40.0, 4)
    cut = Network(line.names, line.volume, line.height, line.a[:2], line.b[:2], line.length[:2], line.width[:2],
                  line.opening[:2], line.leak[:2], ())  # fmt: skip
    assert times_of(cut, blaze())["first"][3] == inf
    lonely = march(cut, blaze(cell=3), PRESSURE, 60.0)
    assert lonely.mean[0, -1, 3] * lonely.volume[3] == pytest.approx(lonely.released[0, -1])


def test_a_tight_door_stops_smoke_where_nothing_drives_it():
    """A door without gaps keeps what is beyond it clear when the air that expands has another way."""
    line = line_network(40.0, 4, leak=0.0)
    tight = Network(line.names, line.volume, line.height, line.a, line.b, line.length, line.width, line.opening,
                    line.leak, (0,))  # fmt: skip
    assert np.isinf(times_of(tight, blaze())["first"][2:]).all()


def test_refining_time_changes_little():
    """Stretches cut in four move no time by more than a few per cent."""
    line = line_network(100.0, 10)
    met = []
    for finer in (1, 4):
        run = march(line, blaze(11.72), PRESSURE, 900.0, finer=finer)
        met.append(available_times(exposure_of(run.times, run.mean, line.height, np.full(10, 250.0), SMOKE), SMOKE))
    assert np.allclose(met[0]["first"], met[1]["first"], rtol=0.03)


def test_short_of_air_makes_worse_smoke():
    """The same heat short of air gives the dose sooner and never later sight."""
    line = line_network(60.0, 6)
    fine, short = times_of(line, blaze(cap=5e5)), times_of(line, blaze(cap=5e5, short=True))
    assert (short["dose"] <= fine["dose"]).all()
    assert (short["visibility"] <= fine["visibility"] + 1e-9).all()
    assert short["dose"].sum() < fine["dose"].sum()


def test_the_end_of_fuel_ends_the_release():
    """After the fuel is used up nothing more is released, and the smoke stays in the station."""
    line = line_network(60.0, 6)
    run = march(line, blaze(fuel=5e7), PRESSURE, 1800.0)
    assert run.released[0, -1] == 5e7
    assert run.kept()[0, -1] == pytest.approx(5e7)
    assert energy_released(1e4, 46.9, 2e6, 5e7) == 5e7


@given(st.floats(0.0, 500.0), st.floats(1.0, 500.0), st.sampled_from([1 / 3, 1.0]))
def test_mean_powers_lie_between_start_and_end(start, length, exponent):
    """The mean of a power of a growing rate lies between its values at both ends and agrees with a fine sum."""
    times = np.linspace(start, start + length, 4001)
    rate = np.minimum(11.72 * times**2, 1e6) ** exponent
    mean = power_mean(start, start + length, exponent, 11.72, 1e6)
    assert rate[0] - 1e-6 <= mean <= rate[-1] + 1e-6
    assert mean == pytest.approx(np.trapezoid(rate, times) / length, rel=1e-4, abs=1e-3)


def test_first_time_is_the_first():
    """A limit passed, left and passed again counts from the first time; passed at once counts from the start."""
    times = np.array([0.0, 10.0, 20.0, 30.0])
    ratio = np.array([[0.0, 2.0, 0.0], [2.0, 2.0, 0.2], [0.0, 2.0, 0.4], [2.0, 2.0, 0.9]])
    assert first_time(times, ratio).tolist() == [5.0, 0.0, inf]


def test_smoke_kept_in_its_place_is_a_bound():
    """Held back in some cells the mean there is never less than all smoke over their air, elsewhere it is unchanged."""
    line = line_network(60.0, 6)
    run = march(line, blaze(), PRESSURE, 600.0)
    cells = np.arange(6) < 2
    held = run.with_all_kept(cells)
    assert (held[0][:, cells] >= run.released[0][:, None] / run.volume[cells].sum() - 1e-9).all()
    assert np.array_equal(held[:, :, ~cells], run.mean[:, :, ~cells])
    assert run.with_all_kept(np.zeros(6, dtype=bool)) is run.mean
