"""The net against an independent power-flow library, a general solver, closed forms and worked examples."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from power_grid_model import ComponentType, LoadGenType, PowerGridModel, initialize_array
from scipy.optimize import fsolve

from firnstead.power.drop import voltage_drop
from firnstead.power.network import tree
from firnstead.power.numbers import numbers_of
from firnstead.power.study_case import case_of
from firnstead.power.sweep import drop_of_currents, sweep
from firnstead.station.reader import read_station
from house.project import ROOT

FULL = read_station(ROOT / "examples" / "stations" / "full").station


def independent(parents, impedance, power, voltage):
    """Voltages by the independent library: lines without charging, a source without impedance, constant power."""
    count = len(parents)
    node = initialize_array("input", "node", count)
    node["id"], node["u_rated"] = np.arange(count), voltage
    line = initialize_array("input", "line", count - 1)
    line["id"] = np.arange(count, 2 * count - 1)
    line["from_node"], line["to_node"] = parents[1:], np.arange(1, count)
    line["from_status"] = line["to_status"] = 1
    line["r1"], line["x1"] = impedance[1:].real, impedance[1:].imag
    line["c1"] = line["tan1"] = 0.0
    line["i_n"] = 1e3
    source = initialize_array("input", "source", 1)
    source["id"], source["node"], source["status"], source["u_ref"], source["sk"] = 3 * count, 0, 1, 1.0, 1e20
    load = initialize_array("input", "sym_load", count)
    load["id"], load["node"], load["status"] = np.arange(4 * count, 5 * count), np.arange(count), 1
    load["type"] = LoadGenType.const_power
    load["p_specified"], load["q_specified"] = power.real, power.imag
    model = PowerGridModel({ComponentType.node: node, ComponentType.line: line, ComponentType.source: source,
                            ComponentType.sym_load: load})  # fmt: skip
    found = model.calculate_power_flow(error_tolerance=1e-12)
    return found[ComponentType.node]["u"], found[ComponentType.line]["i_from"]


@given(st.integers(2, 25), st.integers(0, 2**31))
def test_random_nets_agree_with_the_library(count, seed):
    """In random trees with random lines and loads every voltage and current is what the library finds."""
    random = np.random.default_rng(seed)
    parents = [-1, *(int(random.integers(0, i)) for i in range(1, count))]
    impedance = np.concatenate(
        ([0], random.uniform(0.002, 0.03, count - 1) + 1j * random.uniform(0.001, 0.02, count - 1))
    )
    power = random.uniform(0, 6e3, count) * (1 + 1j * random.uniform(0.0, 0.9, count))
    power[0] = 0
    flow = sweep(parents, impedance, power[:, None], 400.0)
    assert flow.converged
    voltage, current = independent(parents, impedance, power, 400.0)
    assert np.abs(flow.voltage[:, 0]) == pytest.approx(voltage, rel=1e-9)
    assert np.abs(flow.current[1:, 0]) / np.sqrt(3) == pytest.approx(current, rel=1e-7, abs=1e-7)


def test_the_full_station_agrees_with_the_library():
    """Voltages and losses of the full example, at its worst hour and in every way of feeding, are the library's."""
    numbers = numbers_of(case_of(FULL, FULL.power, None, None))
    assert len(numbers.feedings) == 3
    for feeding in numbers.feedings:
        hour = int(np.argmax(feeding.drop.max(axis=0)))
        impedance = np.array([0 if f is None else f.impedance for f in feeding.fed_by], dtype=complex)
        index = {board: i for i, board in enumerate(feeding.boards)}
        power = np.zeros(len(index), dtype=complex)
        for load, row, kept in zip(numbers.case.loads, numbers.demand, feeding.kept, strict=True):
            if kept[hour]:
                power[index[load.board]] += row[hour] * (1 + 1j * np.tan(np.arccos(load.power_factor)))
        voltage, current = independent(feeding.parents, impedance, power, numbers.case.voltage)
        assert 1 - voltage / numbers.case.voltage == pytest.approx(feeding.drop[:, hour], abs=1e-9)
        lost = 3 * np.sum(impedance[1:].real * current**2)
        assert feeding.loss[:, hour].sum() == pytest.approx(lost, rel=1e-7)


def test_a_general_solver_finds_the_same_voltages():
    """The balance of power at every board, given to a general solver, has the same voltages."""
    parents = [-1, 0, 1, 1, 3]
    z = np.array([1, 0.02 + 0.01j, 0.05 + 0.02j, 0.03 + 0.03j, 0.08 + 0.01j])
    power = np.array([0, 3e3 + 1e3j, 8e3 + 2e3j, 0, 5e3 + 4e3j])

    def balance(x):
        v = np.concatenate(([400.0], x[:4] + 1j * x[4:]))
        flow = [(v[p] - v[i]) / z[i] if p >= 0 else 0 for i, p in enumerate(parents)]
        rest = [
            flow[i] - sum(flow[j] for j in range(5) if parents[j] == i) - np.conj(power[i] / v[i]) for i in range(1, 5)
        ]
        return [r.real for r in rest] + [r.imag for r in rest]

    x = fsolve(balance, [400.0] * 4 + [0.0] * 4, xtol=1e-13)
    flow = sweep(parents, np.where(np.arange(5) > 0, z, 0), power[:, None], 400.0)
    assert flow.voltage[1:, 0] == pytest.approx(x[:4] + 1j * x[4:], rel=1e-9)


@given(st.floats(0.0, 0.24))
def test_one_feeder_has_its_closed_form(share):
    """Over a resistance a load of constant power leaves V = (1 + sqrt(1 - 4 R P/V0^2)) V0/2."""
    resistance, source = 0.2, 400.0
    power = share * source**2 / resistance
    flow = sweep([-1, 0], np.array([0, resistance + 0j]), np.array([[0], [power + 0j]]), source, most=3000)
    exact = source / 2 * (1 + np.sqrt(1 - 4 * resistance * power / source**2))
    assert flow.voltage[1, 0].real == pytest.approx(exact, rel=1e-8)


def test_more_than_the_net_can_carry_is_seen():
    """Beyond a quarter of V0^2/R there is no voltage at which the load is served, and the sweep says so."""
    flow = sweep([-1, 0], np.array([0, 0.2 + 0j]), np.array([[0], [0.26 * 400.0**2 / 0.2 + 0j]]), 400.0)
    assert not flow.converged


def test_worked_example_two_loads():
    """mehta_mehta, ex. 14.1 (read second-hand): 100 A at 200 m, 200 A at 300 m, 0.2 + j0.1 ohm/km: 17.85 V."""
    z = (0.2 + 0.1j) * np.array([0, 0.2, 0.1])
    currents = np.array([0, 100 * (0.707 - 1j * np.sqrt(1 - 0.707**2)), 200 * (0.8 - 0.6j)])
    assert abs(drop_of_currents([-1, 0, 1], z, currents)[-1]) == pytest.approx(17.85, abs=0.01)


def test_worked_example_sending_voltage():
    """mehta_mehta, ex. 14.2 (read second-hand): 230 V at the far end of 2 km needs 261.67 V at 3.83 deg."""
    currents = np.array([0, 80 * (0.9 - 1j * np.sqrt(1 - 0.81)), 120 * (0.8 - 0.6j)])
    sent = 230 + drop_of_currents([-1, 0, 1], (0.05 + 0.1j) * np.array([0, 1, 1]), currents)[-1]
    assert abs(sent) == pytest.approx(261.67, abs=0.01)
    assert np.degrees(np.angle(sent)) == pytest.approx(3.83, abs=0.01)


@given(st.floats(0.5, 1.0), st.floats(1.0, 60.0), st.floats(0.0, 0.3), st.floats(0.0, 0.3))
def test_the_drop_by_hand_is_the_exact_one_to_the_second_order(cosine, current, resistance, reactance):
    """The rule of thumb differs from the phasors by no more than half the square of the cross drop."""
    exact = abs(230 + (resistance + 1j * reactance) * current * (cosine - 1j * np.sqrt(1 - cosine**2))) - 230
    by_hand = voltage_drop(current, 1.0, resistance, cosine, reactance, 3) / np.sqrt(3)
    cross = current * (reactance * cosine - resistance * np.sqrt(1 - cosine**2))
    assert -1e-9 <= exact - by_hand <= cross**2 / (2 * 230) + 1e-9


def test_open_feeders_take_over_only_where_they_must():
    """With everything sound the open feeder stays open; with a board lost it feeds what was behind it."""
    lines = [("ab", "a", "b", False), ("bc", "b", "c", False), ("ac", "a", "c", True)]
    assert tree(lines, "a")["c"] == ("b", "bc")
    assert tree(lines, "a", ("b",)) == {"a": ("", ""), "c": ("a", "ac")}
