"""Speed of the smoke model, as ratios measured side by side in one run: python benchmarks/fire.py"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import coo_matrix

from firnstead import fire
from firnstead.core.memo import Memo
from firnstead.fire.network import directed_from, flows_of
from firnstead.fire.study_network import Model, model_of
from firnstead.fire.study_scenarios import Case, cases_of, leak_of
from firnstead.fire.transport import Blaze, march
from firnstead.station import read_station

FULL = Path(__file__).resolve().parent.parent / "examples" / "stations" / "full"
PRESSURE = 70e3
TWO_HOURS = 7200.0


def seconds(work: Callable[[], object], rounds: int) -> float:
    """Median wall time of a call."""
    found = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return statistics.median(found)


def plain_loop(model: Model, blaze: Blaze, leak: np.ndarray, until: float) -> list[float]:
    """The same equations, one cell after the other, explicit steps that just stay stable."""
    network = model.network
    n = network.cells
    flows = flows_of(network, directed_from(network, blaze.cell), PRESSURE, leak)
    moves = [[(int(r), int(c), float(v)) for r, c, v in zip(*part, strict=True) if v > 0]
             for part in (flows.exchange, flows.expansion)]  # fmt: skip
    half = [max(0.1, float(v)) / 2 for v in network.volume] * 2
    out = [0.0] * (2 * n)
    third, whole = (blaze.convective * blaze.cap) ** (1 / 3), blaze.convective * blaze.cap
    for row, factor in zip(moves, (third, whole), strict=True):
        for _, c, v in row:
            out[c] += factor * v / half[c]
    step = 0.9 / max(out)
    stock, at = [0.0] * (2 * n), 0.0
    while at < until:
        heat = min(blaze.coefficient * at**2, blaze.cap)
        change = [0.0] * (2 * n)
        for row, factor in zip(moves, ((blaze.convective * heat) ** (1 / 3), blaze.convective * heat), strict=True):
            for r, c, v in row:
                moved = factor * v * stock[c] / half[c]
                change[r] += moved
                change[c] -= moved
        change[blaze.cell] += heat
        for i in range(2 * n):
            stock[i] += step * change[i]
        at += step
    return stock


def integrator(model: Model, blaze: Blaze, leak: np.ndarray, times: np.ndarray, tolerance: float) -> np.ndarray:
    """Mean energy by time and cell from the same equations, by a general implicit integrator with a sparse Jacobian."""
    network = model.network
    n = network.cells
    flows = flows_of(network, directed_from(network, blaze.cell), PRESSURE, leak)
    half = np.tile(np.maximum(0.1, network.volume) / 2, 2)
    one, two = (coo_matrix((v / half[c], (r, c)), shape=(2 * n, 2 * n)).tocsr()
                for r, c, v in (flows.exchange, flows.expansion))  # fmt: skip

    def power(at: float) -> float:
        return float(blaze.convective * min(blaze.coefficient * at**2, blaze.cap))

    def rate(at: float, stock: np.ndarray) -> np.ndarray:
        change = power(at) ** (1 / 3) * (one @ stock) + power(at) * (two @ stock)
        change[blaze.cell] += power(at) / blaze.convective
        return change

    found = solve_ivp(rate, (0.0, times[-1]), np.zeros(2 * n), method="BDF", rtol=tolerance, atol=tolerance * 1e6,
                      t_eval=times, jac=lambda at, _: power(at) ** (1 / 3) * one + power(at) * two)  # fmt: skip
    return np.asarray((found.y[:n] + found.y[n:]).T / np.maximum(0.1, network.volume))


def error_of(found: np.ndarray, known: np.ndarray, times: np.ndarray) -> float:
    """Greatest error over all cells and all times after the first minute, over the thickest smoke of that time."""
    late = times >= 60.0
    return float((np.abs(found - known)[late].max(axis=1) / known[late].max(axis=1)).max())


def one_fire(model: Model, case: Case, leak: np.ndarray) -> None:
    """Two hours of one fire of the full station, three ways."""
    ours = seconds(lambda: march(model.network, case.blaze, PRESSURE, TWO_HOURS, leak), 7)
    n, run = model.network.cells, march(model.network, case.blaze, PRESSURE, TWO_HOURS, leak)
    known = integrator(model, case.blaze, leak, run.times, 1e-8)
    error = error_of(run.mean.sum(axis=0), known, run.times)
    tolerance = 1e-1
    # the loosest tolerance at which the integrator is as near as we are
    while error_of(integrator(model, case.blaze, leak, run.times, tolerance), known, run.times) > max(error, 1e-5):
        tolerance /= 2
    theirs = seconds(lambda: integrator(model, case.blaze, leak, run.times, tolerance), 5)
    short = 60.0
    loop = seconds(lambda: plain_loop(model, case.blaze, leak, short), 1) * TWO_HOURS / short
    print(f"2 h of one fire, {n} cells: {1000 * ours:.0f} ms (goal 2 s), error {error:.1e}")
    print(f"  against a general integrator as near ({tolerance:.0e}): ratio of times {ours / theirs:.2f}")
    print(f"  against a loop over cells (timed for {short:.0f} s): ratio of times {ours / loop:.1e}")


def whole_study() -> None:
    """The whole fire study of the full station, and again with its memory."""
    station, memo = read_station(FULL).station, Memo()
    first = seconds(lambda: fire.study(station), 3)
    fire.study(station, None, memo)
    again = seconds(lambda: fire.study(station, None, memo), 3)
    print(f"whole study of the full station: {first:.2f} s; unchanged, with memory: {again / first:.2f} of that")


if __name__ == "__main__":
    full = read_station(FULL).station
    assert full.fire is not None
    made = model_of(full, full.fire)
    hut = next(case for case in cases_of(full, full.fire, made) if case.name == "Hut 1")
    endless = Case(**{**hut.__dict__, "blaze": Blaze(hut.blaze.cell, 11.72, hut.blaze.cap, float("inf"), 0.7, False)})
    one_fire(made, endless, leak_of(full.fire, made, hut))
    whole_study()
