"""Speed of the heat study, as ratios measured in one run: python benchmarks/heat.py

The peer solves the same year plainly: the snow's own equations and the balances of the air as one system of ordinary
differential equations, by a general stiff solver (BDF with the sparse Jacobian's pattern), at a tolerance that leaves
about our own error in the air. It runs one place with one building through two years; ours runs the same case with the
same mesh. The full station is timed for its own sake.
"""

from __future__ import annotations

import time
from dataclasses import replace
from pathlib import Path

import numpy as np

from firnstead import heat, snow
from firnstead.core.memo import Memo
from firnstead.heat.case import ClimateCase, PlaceCase, Scenario, Snowfield, StationCase
from firnstead.heat.march import march
from firnstead.snow.ground_mesh import CutOutline
from firnstead.snow.ground_response import Surroundings, ground_of, response_of, wave_at_start
from firnstead.snow.year import MONTH, monthly_surface_temperature
from firnstead.station.reader import read_station

FULL = Path(__file__).parents[1] / "examples" / "stations" / "full"
MONTHS, LENGTH, GAINS, FILM = 24, 40.0, 3000.0, 5.0
OUTLINE = ((0.0, 0.0), (1.6, 0.7), (2.3, 1.8), (2.3, 3.0), (3.1, 6.8), (0.0, 6.8))


def main() -> None:
    """Time both and print the ratios."""
    station = read_station(FULL).station
    found = snow.study(station).result
    memo = Memo()
    start = time.perf_counter()
    heat.study(station, found, memo)
    cold = time.perf_counter() - start
    part = station.heat
    assert part is not None
    rooms = {**part.rooms, "Hut 1": part.room.model_copy(update={"temperature": 291.0})}
    warmer = station.model_copy(update={"heat": part.model_copy(update={"rooms": rooms})})
    start = time.perf_counter()
    heat.study(warmer, found, memo)
    print(f"full station, life of {station.design.life / 31557600:.0f} years: {cold:.2f} s cold, "
          f"{time.perf_counter() - start:.3f} s when one building changes")  # fmt: skip
    _peer(found)


def _peer(found: snow.SnowResult) -> None:
    around = Surroundings(CutOutline(OUTLINE, patch=1.8, side=15.0), 1.5, 500.0, 3.0, 245.0, 18.0, 2, MONTHS)
    row = monthly_surface_temperature(245.0, 18.0, 6)
    climate = ClimateCase(245.0, (*row[8:], *row[:8]), 8, 72000.0, MONTHS, FILM)
    place = PlaceCase("trench", 0, LENGTH, GAINS, 0.0, (), (), 255.0, 250.0)
    case = StationCase(climate, (place,), (), (), (), ((0.0,) * 12,))
    start = time.perf_counter()
    field = Snowfield((Scenario("expected", 1.0, 0.5),), ((around,),), ((response_of(around, found.column),),))
    ours = march(case, field).air[0, 0]
    quick = time.perf_counter() - start
    start = time.perf_counter()
    theirs = _by_general_solver(around, found, climate, 1e-4)
    slow = time.perf_counter() - start
    print(f"one trench, two years: ours {quick:.3f} s, general solver {slow:.2f} s, ratio {slow / quick:.0f}; "
          f"difference of the monthly air up to {np.abs(ours - theirs)[:2].max():.2f} K "
          f"in the first two months, {np.abs(ours - theirs)[2:].max():.3f} K after")  # fmt: skip


def _by_general_solver(
    around: Surroundings, found: snow.SnowResult, climate: ClimateCase, tolerance: float
) -> np.ndarray:
    """Monthly mean air of a trench whose wall is one temperature, by BDF on the mesh with the wall as an unknown."""
    from scipy.integrate import solve_ivp
    from scipy.sparse import bmat

    ground = ground_of(replace(around), found.column)
    walls = np.concatenate((ground.mesh.wall, ground.mesh.patch))
    free, top = ground.free, ground.mesh.top
    k = ground.matrix
    one = np.ones(len(walls))
    # unknowns: free points, then the one temperature of the wall
    inner, edge = k[free][:, free], k[free][:, walls] @ one
    row, corner = k[walls][:, free].T @ one, float(one @ k[walls][:, walls] @ one)
    matrix = bmat([[inner, edge[:, None]], [row[None, :], np.array([[corner]])]]).tocsc()
    mass = np.concatenate((ground.mass[free], [ground.mass[walls].sum()]))
    to_top = np.concatenate((k[free][:, top] @ np.ones(len(top)), [float(one @ k[walls][:, top] @ np.ones(len(top)))]))
    source = np.zeros(len(mass))
    source[-1] = GAINS / LENGTH / 2.0
    jacobian = (-matrix.multiply(1.0 / mass[:, None])).tocsc()
    state = wave_at_start(around, found.column, ground.mesh.points[:, 1])[free]
    state = np.concatenate((state, [0.0]))
    length = 2.0 * ground.mesh.wall_length + 2.0 * around.outline.patch
    air = []
    for n in range(MONTHS):
        surface = climate.surface[n % 12] - climate.mean
        force = (source - to_top * surface) / mass
        made = solve_ivp(lambda _, y, f=force: jacobian @ y + f, (0.0, MONTH), state, method="BDF", jac=jacobian,
                         rtol=tolerance, atol=tolerance, t_eval=np.linspace(0.0, MONTH, 33))  # fmt: skip
        state = made.y[:, -1]
        wall = np.trapezoid(made.y[-1], made.t) / MONTH
        air.append(climate.mean + wall + GAINS / LENGTH / (FILM * length))
    return np.array(air)


if __name__ == "__main__":
    main()
