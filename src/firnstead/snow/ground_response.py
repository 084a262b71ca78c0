"""How the snow round a section answers: heat it takes, month by month, for a wall or a floor that is held warmer.

The snow is linear, so one run for a step of the wall, one for a step of the covered floor and one for the weather give
the answer to any history of both, without solving again.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from firnstead.snow._arrays import Array
from firnstead.snow.conduction import conductivity_calonne_2019
from firnstead.snow.ground_heat import Ground
from firnstead.snow.ground_mesh import CutOutline, mesh_round
from firnstead.snow.heat_capacity import heat_capacity_ice
from firnstead.snow.results import SnowColumn
from firnstead.snow.temperature import penetration_depth, swing_share
from firnstead.snow.year import MONTH

PROBES = (1.0, 2.0, 5.0)  # m below the middle of the floor
FINE = 8  # steps in the first month, while the flux falls fast
MONTHLY = 60  # months at monthly steps; then the answer changes so slowly that quarters do
SETTLED = 48  # months after which the weather's part repeats every year
QUARTER = 3


@dataclass(frozen=True)
class Surroundings:
    """A cut with its roof in the snow: outline with the crown at depth 0, cover over it, and the year at the surface.

    `swing` and `month` (of the surface, counted from the warmest) tell where in the year the first month lies.
    """

    outline: CutOutline
    cover: float
    placed_density: float
    placed_half: float
    """Half-width within which the snow above the crown is placed snow [m]."""
    mean_temperature: float
    swing: float
    month: int
    months: int
    conductivity_factor: float = 1.0


@dataclass(frozen=True, eq=False)
class Response:
    """Answers per metre of trench, both halves together, months counted from the first."""

    pulse: Array
    """Heat into the snow [W/m/K] in month n after the held piece was 1 K warmer in month 0: [out, in, n], where the
    pieces are 0 the wall with roof and free floor, 1 the covered floor."""
    weather: Array
    """Heat into the snow [W/m] with both pieces at the mean temperature: [out, n]."""
    probe: Array
    """Rise below the floor [K/K] at the end of month n, as pulse: [probe, in, n]."""
    probe_weather: Array
    """Departure from the mean below the floor [K]: [probe, n]."""
    wall_length: float
    patch_width: float


def density_round(case: Surroundings, column: SnowColumn, points: Array) -> Array:
    """Density at points of the snow: the site's profile below the present surface, placed snow over the cut."""
    natural = np.interp(points[:, 1], column.depth, column.density)
    over = (points[:, 1] < case.cover) & (points[:, 0] < case.placed_half)
    density: Array = np.where(over, case.placed_density, natural)
    return density


def ground_of(case: Surroundings, column: SnowColumn) -> Ground:
    """The snow of a case, meshed."""
    cut = case.outline
    lowered = replace(cut, points=tuple((x, z + case.cover) for x, z in cut.points))
    mesh = mesh_round(lowered)
    density = density_round(case, column, mesh.points[mesh.triangles].mean(axis=1))
    conductivity = conductivity_calonne_2019(density, np.full_like(density, case.mean_temperature))
    return Ground(mesh, conductivity * case.conductivity_factor, density * heat_capacity_ice(case.mean_temperature))


def wave_at_start(case: Surroundings, column: SnowColumn, depth: Array) -> Array:
    """Departure of undisturbed snow from its mean at the start of the first month."""
    share = np.interp(depth, column.depth, swing_share(column.depth, penetration_depth(column.diffusivity)))
    phase = 2.0 * math.pi * (case.month - 0.5) / 12.0
    wave: Array = case.swing * share * np.cos(phase + np.log(np.maximum(share, 1e-300)))
    return wave


def response_of(case: Surroundings, column: SnowColumn) -> Response:
    """Run the three cases together."""
    ground = ground_of(case, column)
    points, axis = ground.mesh.points, ground.mesh.axis
    depth = points[axis, 1] - points[axis[0], 1]
    fields = np.zeros((len(points), 3))
    fields[:, 2] = wave_at_start(case, column, points[:, 1])
    boundary = np.zeros((3, 3))
    boundary[0, 0] = boundary[1, 1] = 1.0
    months = case.months
    heat = np.zeros((3, 3, months))
    probe = np.zeros((len(PROBES), 3, months))
    n = 0
    while n < months:
        length = 1 if n < MONTHLY else min(QUARTER, months - n)
        weather = n < SETTLED
        columns = 3 if weather else 2
        boundary[2, 2] = case.swing * math.cos(2.0 * math.pi * (case.month + n) / 12.0)
        pieces = FINE if n == 0 else 1
        for _ in range(pieces):
            fields, moved = ground.step(fields[:, :columns], boundary[:, :columns], length * MONTH / pieces)
            heat[:, :columns, n] += moved / (length * MONTH)
        for i, at in enumerate(PROBES):
            probe[i, :columns, n] = [np.interp(at, depth, fields[axis, c]) for c in range(columns)]
        for later in range(1, length):
            heat[:, :2, n + later], probe[:, :2, n + later] = heat[:, :2, n], probe[:, :2, n]
        n += length
    last = min(SETTLED, months)
    for n in range(last, months):
        heat[:, 2, n], probe[:, 2, n] = heat[:, 2, n - 12], probe[:, 2, n - 12]
    return Response(
        pulse=2.0 * np.diff(heat[:2, :2], axis=2, prepend=0.0), weather=2.0 * heat[:2, 2],
        probe=np.diff(probe[:, :2], axis=2, prepend=0.0), probe_weather=probe[:, 2],
        wall_length=2.0 * ground.mesh.wall_length, patch_width=2.0 * case.outline.patch)  # fmt: skip
