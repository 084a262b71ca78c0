"""Speed of the melt well through fifteen years, as a ratio measured side by side in one run: python benchmarks/well.py

The peer is the same model, the same months and the same relative tolerance, written plainly with a general solver
(scipy.integrate.solve_ivp, BDF and LSODA). Both are then measured against a run with tight tolerance, so that nobody
is fast by being wrong.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from firnstead.water.case import MONTH, PoolCase, example_case, start_mass
from firnstead.water.pool import pool_through_the_years, rates_of
from firnstead.water.properties import WATER_HEAT

YEARS, TOLERANCE, RUNS = 15, 1e-6, 5
FLOORS = np.array([1.0, 1e5, 1e-4, 1.0, 1e5, 1e5, 1e5, 1e5])


def well() -> PoolCase:
    """A well with a draw that changes by the month and a lift that is never too great."""
    draw = tuple(w / 86.4 for w in (3.0, 3.0, 3.0, 3.0, 5.0, 7.7, 7.7, 7.7, 5.0, 3.0, 3.0, 3.0))
    return replace(example_case(), months=12 * YEARS, draw=draw, level_limit=1e4, hose_limit=1e4, span_limit=1e4)


def ours(case: PoolCase, tolerance: float = TOLERANCE) -> tuple[float, float, float]:
    """Mass, heat and level at the end, by the tool."""
    last = pool_through_the_years(case, tolerance=tolerance).states[-1]
    return last.mass, last.heat, last.level


def plain(case: PoolCase, method: str, tolerance: float = TOLERANCE) -> tuple[float, float, float]:
    """The same by a general solver, month after month."""
    from scipy.integrate import solve_ivp

    mass = start_mass(case)
    y = np.array([mass, mass * WATER_HEAT * case.start_warmth, case.start_depth, 0, 0, 0, 0, 0], dtype=float)
    for k in range(case.months):
        month = (case.first_month + k) % 12
        rates = rates_of(case, case.draw[month] if k >= case.lead else 0.0, case.heat_limit[month])
        span = (86400.0 + k * MONTH, 86400.0 + (k + 1) * MONTH)
        y = solve_ivp(rates, span, y, method=method, rtol=tolerance, atol=FLOORS * tolerance / 1e-6).y[:, -1]
    return float(y[0]), float(y[1]), float(y[2])


def timed(run: Callable[[], tuple[float, float, float]]) -> tuple[float, tuple[float, float, float]]:
    """Median time of some runs, and what came out."""
    times, found = [], (0.0, 0.0, 0.0)
    for _ in range(RUNS):
        start = time.perf_counter()
        found = run()
        times.append(time.perf_counter() - start)
    return statistics.median(times), found


def main() -> None:
    """Print the table."""
    case = well()
    exact = plain(case, "LSODA", 1e-10)
    mine, found = timed(lambda: ours(case))
    rows = [("firnstead", mine, found)]
    for method in ("BDF", "LSODA"):
        rows.append((f"solve_ivp {method}", *timed(lambda method=method: plain(case, method))))
    print(f"melt well, {YEARS} years, relative tolerance {TOLERANCE:g}, median of {RUNS} runs")
    for name, took, end in rows:
        error = max(abs(a / b - 1) for a, b in zip(end, exact, strict=True))
        print(f"  {name:18} {took:7.3f} s   ratio to ours {took / mine:6.1f}   error {error:.1e}")


if __name__ == "__main__":
    main()
