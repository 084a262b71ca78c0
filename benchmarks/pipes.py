"""Speed of the pipe study, as ratios measured side by side in one run: python benchmarks/pipes.py

The peer is the same loop written plainly: every leg of every run for every month as a differential equation for a
general solver, with the same resistances, and every kind of metre cooling to its freezing point with an event. Both
to the same tolerance: the peer's own is loosened as far as its error against a very tight run allows.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp

from firnstead import snow
from firnstead.core.memo import Memo
from firnstead.pipes import study
from firnstead.pipes.study_case import Case, case_of
from firnstead.pipes.study_numbers import Numbers
from firnstead.station import Station, read_station

FULL = Path(__file__).resolve().parent.parent / "examples" / "stations" / "full"
TOLERANCE = 1e-6  # K on temperatures, share on times
AIR = tuple(243.0 + 8.0 * np.cos(2 * np.pi * (month - 6) / 12) for month in range(12))


def seconds(work: Callable[[], object]) -> float:
    """Wall time of one call."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def cases(station: Station, air: dict[str, tuple[float, ...]]) -> list[Case]:
    """Every run of the station in numbers."""
    found = snow.study(station).result
    assert station.pipes is not None
    made = [case_of(station, station.pipes, found, run, air, None) for run in station.pipes.runs.values()]
    return [case for case in made if isinstance(case, Case)]


def ours(all_cases: list[Case]) -> list[tuple[list[float], list[float]]]:
    """Temperatures at the ends of legs by month, and times of every kind of metre."""
    found = []
    for case in all_cases:
        n = Numbers(case)
        ends = [flow.end for month in range(12) for flow in n.service(tuple(leg.usual[month] for leg in case.legs))]
        found.append((ends, [m.to_zero for m in n.metres if np.isfinite(m.to_zero)]))
    return found


def plain(all_cases: list[Case], tolerance: float) -> list[tuple[list[float], list[float]]]:
    """The same by a general solver, from the same resistances."""
    found = []
    for case in all_cases:
        n = Numbers(case)
        capacity, ends = n.mass_flow * case.carrier.heat_capacity, []
        for month in range(12):
            at = case.run.supply
            for leg in case.legs:
                air = leg.usual[month]
                r = n.resistance(leg, case.run.supply, air)
                if case.run.carrier == "steam":
                    ends.append(at)
                    continue
                if capacity <= 0:
                    at = air
                else:
                    at = float(solve_ivp(lambda _, t, a=air, k=capacity * r: -(t - a) / k, (0, leg.length), [at],
                                         rtol=tolerance, atol=tolerance).y[0, -1])  # fmt: skip
                at = at if n.held is None else max(at, n.held)
                ends.append(at)
        found.append((ends, [_time(n, m.air, m.resistance, tolerance) for m in n.metres if np.isfinite(m.to_zero)]))
    return found


def _time(n: Numbers, air: float, resistance: float, tolerance: float) -> float:
    def frozen(_: float, t: np.ndarray) -> float:
        return float(t[0] - n.case.carrier.freezing)

    frozen.terminal = True  # type: ignore[attr-defined]
    if n.start <= n.case.carrier.freezing:
        return 0.0
    made = solve_ivp(lambda _, t: -(t - air) / (n.content * resistance), (0, 1e9), [n.start], events=frozen,
                     rtol=tolerance, atol=tolerance)  # fmt: skip
    return float(made.t_events[0][0])


def worst(a: list[tuple[list[float], list[float]]], b: list[tuple[list[float], list[float]]]) -> tuple[float, float]:
    """Greatest difference of temperatures [K] and of times [share]."""
    temperature = max(abs(x - y) for (p, _), (q, _) in zip(a, b, strict=True) for x, y in zip(p, q, strict=True))
    times = max((abs(x / y - 1) for (_, p), (_, q) in zip(a, b, strict=True) for x, y in zip(p, q, strict=True) if y),
                default=0.0)  # fmt: skip
    return temperature, times


def against_solver(rounds: int = 5) -> None:
    """Network temperatures through the year and times to freeze, against the general solver at the same tolerance."""
    station = read_station(FULL).station
    all_cases = cases(station, dict.fromkeys(station.places, AIR))
    exact = plain(all_cases, 1e-11)
    tolerance = next(t for t in (1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10)
                     if max(worst(plain(all_cases, t), exact)) <= TOLERANCE)  # fmt: skip
    a, b = [], []
    for _ in range(rounds):
        a.append(seconds(lambda: ours(all_cases)))
        b.append(seconds(lambda: plain(all_cases, tolerance)))
    o, p = statistics.median(a), statistics.median(b)
    kelvin, share = worst(ours(all_cases), exact)
    print(f"temperatures of a year and times to freeze: {1000 * o:.1f} ms against {1000 * p:.0f} ms with a "
          f"general solver (rtol {tolerance:g}): ratio {o / p:.3f}; ours off by {kelvin:.1g} K, {share:.1g}"
          )  # fmt: skip


def edit(rounds: int = 15) -> None:
    """The study after one run has changed against the whole study."""
    station = read_station(FULL).station
    found, memo = snow.study(station).result, Memo()
    assert station.pipes is not None
    study(station, found, memo)
    whole, again = [], []
    for step in range(rounds):
        run = station.pipes.runs["Water main"].model_copy(update={"supply": 282.0 + 0.01 * step})
        pipes = station.pipes.model_copy(update={"runs": {**station.pipes.runs, "Water main": run}})
        changed = station.model_copy(update={"pipes": pipes})
        whole.append(seconds(lambda: study(station, found, Memo())))
        again.append(seconds(lambda changed=changed: study(changed, found, memo)))  # type: ignore[misc]
    w, e = statistics.median(whole), statistics.median(again)
    print(f"one run changed: {1000 * e:.1f} ms against {1000 * w:.1f} ms whole: ratio {e / w:.2f}")


if __name__ == "__main__":
    against_solver()
    edit()
