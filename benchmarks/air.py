"""Speed of the air study, as ratios measured side by side in one run: python benchmarks/air.py

The peer is the plain way: the same balance handed to a general root finder, and two hours of the same three gases
handed to a general integrator for stiff equations. Both answers are compared.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import fsolve

from firnstead import snow
from firnstead.air import study
from firnstead.air.network import Array
from firnstead.air.study import facts
from firnstead.air.study_facts import Facts
from firnstead.air.transport import shares_in_time
from firnstead.air.year import Month, solve_month
from firnstead.core.memo import Memo
from firnstead.station import read_station

FULL = Path(__file__).resolve().parent.parent / "examples" / "stations" / "full"
STEPS, STEP, GASES = 120, 60.0, 3


def seconds(work: Callable[[], object], rounds: int = 5) -> float:
    """Shortest wall time of a few calls: the others were disturbed."""
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def sources(f: Facts, month: Month) -> Array:
    """Three gases given off by the people of each hour."""
    given: Array = np.repeat(f.people_by_room[:, :1], GASES, axis=1) * f.moles * 0.029 / month.mass[:, None]
    return given


def ours(f: Facts) -> tuple[Month, Array]:
    """Flows of one month and two hours of three gases, by this package."""
    month = solve_month(f.case, f.surface[0], {name: row[0] for name, row in f.places.items()})
    matrix, outside = month.balance
    fresh = np.full(GASES, f.air.outdoor_co2)
    start = np.full((len(f.case.rooms), GASES), f.air.outdoor_co2)
    return month, shares_in_time(matrix, outside, fresh, start, sources(f, month)[None], np.ones((STEPS, 1)), STEP)


def plain_flows(f: Facts, month: Month) -> Array:
    """The same balance by a general root finder with finite differences."""
    from firnstead.air import year

    caught = {}
    real = year.solve_network

    def catch(*given: object, **more: object) -> object:
        caught["network"] = given
        return real(*given, **more)  # type: ignore[arg-type]

    year.solve_network = catch  # type: ignore[assignment]
    solve_month(f.case, f.surface[0], {name: row[0] for name, row in f.places.items()})
    year.solve_network = real
    rooms, holes, fans, drawn = caught["network"][:4]

    def left(p: Array) -> Array:
        whole = np.append(p, 0.0)
        dp = whole[holes.a] - whole[holes.b] + holes.drive
        rho = np.where(dp >= 0, holes.density_a, holes.density_b)
        m = holes.area * np.sqrt(2 * rho) * dp / (dp**2 + 1e-6) ** 0.25
        out = np.append(drawn, 0.0) + 1e-9 * whole
        np.add.at(out, holes.a, m)
        np.subtract.at(out, holes.b, m)
        for fan in fans:
            flow = fan.flow(whole[fan.a] - whole[fan.b] + fan.drive)
            out[fan.a] += flow
            out[fan.b] -= flow
        return out[:rooms]

    found: Array = fsolve(left, 0.9 * month.pressure, xtol=1e-10, maxfev=20000)  # started near: from 0 it gets stuck
    return found


def plain_gases(f: Facts, month: Month) -> Array:
    """The same two hours by a general integrator for stiff equations."""
    matrix, outside = month.balance
    rooms = len(f.case.rooms)
    fixed = outside[:, None] * f.air.outdoor_co2 + sources(f, month)

    def rate(_: float, x: Array) -> Array:
        return (matrix @ x.reshape(rooms, GASES) + fixed).ravel()

    start = np.full(rooms * GASES, f.air.outdoor_co2)
    times = np.arange(STEPS + 1) * STEP
    made = solve_ivp(rate, (0.0, times[-1]), start, method="BDF", t_eval=times, rtol=1e-6, atol=1e-10)
    found: Array = made.y.T.reshape(-1, rooms, GASES)
    return found


def main() -> None:
    """Print times and ratios."""
    station = read_station(FULL).station
    assert station.air is not None
    f, found = facts(station, station.air), snow.study(station).result
    month, shares = ours(f)
    t_ours = seconds(lambda: ours(f))
    t_flows = seconds(lambda: plain_flows(f, month), 2)
    t_gases = seconds(lambda: plain_gases(f, month), 2)
    off = np.abs(plain_flows(f, month) - month.pressure).max()
    apart = np.abs(plain_gases(f, month) - shares).max()
    print(f"{len(f.case.rooms)} rooms, {len(f.case.holes)} openings, {len(f.case.blowers)} fans")
    print(f"network and 2 h of {GASES} gases: {t_ours:.3f} s (goal 2 s)")
    plain = t_flows + t_gases
    print(f"plain: {t_flows:.2f} s + {t_gases:.2f} s; {plain / t_ours:.0f} times ours")
    print(f"pressures apart by {off:.1e} Pa, shares by {apart:.1e}")
    memo = Memo()
    whole = seconds(lambda: study(station, found, Memo()), 3)
    study(station, found, memo)
    warm = seconds(lambda: study(station, found, memo), 3)
    print(f"whole study: {whole:.2f} s; again with its memo: {warm:.3f} s")


if __name__ == "__main__":
    main()
