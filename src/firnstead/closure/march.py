"""March a section through the years: creep, densification, warming, growing cover.

The points of the mesh move with the snow, so every triangle keeps its mass. One nonlinear solve a step: positions are
predicted by the two-step rule of Adams and Bashforth and corrected by the trapezoidal rule; their difference gives
the error of the step (Milne) and the length of the next one. When triangles lose their shape the mesh is rezoned.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from firnstead.closure.assemble import Assembly, Tables, Topology, reference
from firnstead.closure.freedoms import UNLINED, Zips, freedoms_of_roof
from firnstead.closure.heat import step_of_heat
from firnstead.closure.law import CreepLaw
from firnstead.closure.mesh import HalfMesh, HalfSection, areas, half_mesh, quality
from firnstead.closure.rezone import Fields, Rezoner
from firnstead.closure.solve import Effort, Solver
from firnstead.core.units import G0, YEAR
from firnstead.snow._arrays import Array


@dataclass(frozen=True)
class Case:
    """One trench to be marched. Density [kg/m3] of x and depth, temperature [K] of depth, the rest of time [s].

    Roofs: `open` or `unlined` give the snow no help; `yielding` keeps roof and seats level with each other but lets
    the span close; `stiff` holds the span too. `surcharge` [Pa] lies on the whole top, `seat_load` [N/m] on each seat.
    `air` [K] is held on wall, floor and roof of the void; without it the temperature stays as it is.
    """

    section: HalfSection
    law: CreepLaw
    density: Callable[[Array, Array], Array]
    temperature: Callable[[Array], Array]
    roof: str = UNLINED
    surcharge: Callable[[float], float] = lambda time: 0.0
    seat_load: Callable[[float], float] = lambda time: 0.0
    air: Callable[[float], float] | None = None
    gravity: float = G0


@dataclass(frozen=True)
class Settings:
    """How finely to march: error of position a step [m], first and longest step [s], change of the last solve.

    `distortion` and `worst` are shares of the first quality of a triangle: where to rezone, and where to give up.
    """

    error: float = 1e-3
    first: float = 0.02 * YEAR
    longest: float = 1.0 * YEAR
    solve: float = 3e-3
    distortion: float = 0.2
    worst: float = 0.02


@dataclass(frozen=True, eq=False)
class Frame:
    """The mesh at one moment."""

    time: float
    points: Array
    velocity: Array
    density: Array
    temperature: Array
    mass: float


@dataclass(frozen=True, eq=False)
class History:
    """All frames, the mesh they stand on, what it cost, and why it ended early (empty if it did not)."""

    mesh: HalfMesh
    frames: tuple[Frame, ...]
    effort: Effort
    steps_refused: int
    rezones: int
    note: str

    def points(self, time: float) -> Array:
        """Points at any time covered, by cubics through positions and velocities of both neighbours."""
        times = [frame.time for frame in self.frames]
        after = int(np.clip(np.searchsorted(times, time), 1, len(times) - 1))
        a, b = self.frames[after - 1], self.frames[after]
        h, count = b.time - a.time, len(a.points)
        s = (time - a.time) / h
        position: Array = (
            (1 + 2 * s) * (1 - s) ** 2 * a.points + s * s * (3 - 2 * s) * b.points
            + h * s * (1 - s) ** 2 * a.velocity[:count] - h * s * s * (1 - s) * b.velocity[:count]
        )  # fmt: skip
        return position


@dataclass
class _State:
    """What changes from step to step."""

    time: float
    points: Array
    velocity: Array
    before: Array
    step: float
    mass: Array
    temperature: Array
    limit: float
    frames: list[Frame] = field(default_factory=list)


class March:
    """One case with its mesh, freedoms and solver."""

    def __init__(self, case: Case, settings: Settings | None = None, mesh: HalfMesh | None = None) -> None:
        self.case, self.settings = case, settings or Settings()
        self.mesh = mesh or half_mesh(case.section)
        self.topology = Topology(self.mesh.triangles, len(self.mesh.points))
        self.assembly = Assembly(self.topology, freedoms_of_roof(self.mesh, self.topology, case.roof))
        self.solver = Solver(self.assembly)
        self.zips = Zips(self.mesh, self.topology)
        edges = self.mesh.edges
        void = np.concatenate([edges[name] for name in ("wall", "floor", "roof")])
        self.void = np.unique(void)
        self._watched = self.void if self.void.size else np.unique(edges["top"])
        self._cold = np.setdiff1d(np.unique(np.concatenate((edges["top"], edges["bottom"]))), self.void)
        self._shape = quality(self.mesh.points, self.mesh.triangles)
        self._rezoner: Rezoner | None = None
        self.refused = self.rezones = 0

    def run(self, duration: float, stop: Callable[[float, Array], bool] | None = None) -> History:
        """March for `duration` [s], or until `stop(time, points)` says so, or until the mesh cannot follow."""
        state, note = self._start(), ""
        end = duration * (1.0 - 1e-9)
        while state.time < end and not (stop and stop(state.time, state.points)):
            note = self._advance(state, duration)
            if note:
                break
        return History(self.mesh, tuple(state.frames), self.solver.effort, self.refused, self.rezones, note)

    def _start(self) -> _State:
        points, triangles = self.mesh.points, self.mesh.triangles
        local, weights, _, _ = reference(self.assembly.order)
        inner = np.column_stack((1.0 - local.sum(axis=0), local[0], local[1]))
        places = np.einsum("qi,eic->eqc", inner, points[triangles])
        density = self.case.density(places[..., 0], -places[..., 1])
        temperature = self._warmed(self.case.temperature(-points[:, 1]), 0.0)
        mass = density * areas(points, triangles)[:, None] * weights
        empty = np.zeros(2 * self.topology.count)
        state = _State(0.0, points, empty, empty, 0.0, mass, temperature, self.settings.distortion)
        state.velocity = state.before = self._velocity(state, points, temperature, 0.0, None)
        self._keep(state)
        return state

    def _warmed(self, temperature: Array, time: float) -> Array:
        warmed = temperature.copy()
        if self.case.air is not None:
            warmed[self.void] = self.case.air(time)
        return warmed

    def _keep(self, state: _State) -> None:
        mean = state.mass.sum(axis=1) / areas(state.points, self.mesh.triangles)
        velocity = state.velocity.reshape(-1, 2)
        state.frames.append(
            Frame(state.time, state.points, velocity, mean, state.temperature, float(state.mass.sum())))  # fmt: skip

    def _velocity(self, state: _State, points: Array, temperature: Array, time: float, guess: Array | None) -> Array:
        assembly, case = self.assembly, self.case
        tables = assembly.tables(points)
        density = state.mass / tables.weights
        local, _, _, _ = reference(assembly.order)
        inner = np.column_stack((1.0 - local.sum(axis=0), local[0], local[1]))
        law = case.law.points(density, temperature[self.mesh.triangles] @ inner.T)
        return self.solver.solve(tables, law, self._forces(tables, points, density, time), guess, self.settings.solve)

    def _forces(self, tables: Tables, points: Array, density: Array, time: float) -> Array:
        assembly, case, edges = self.assembly, self.case, self.mesh.edges
        forces = assembly.loads(tables, np.stack((0.0 * density, -case.gravity * density), axis=2))
        pressure, load = case.surcharge(time), case.seat_load(time)
        if pressure:
            forces += assembly.pressure(points, edges["top"], lambda at: at * 0.0 + (0.0, -pressure))
        if load and "seat" in edges:
            width = float(np.abs(np.diff(points[edges["seat"], 0], axis=1)).sum())
            forces += assembly.pressure(points, edges["seat"], lambda at: at * 0.0 + (0.0, -load / width))
        return forces

    def _advance(self, state: _State, duration: float) -> str:
        """One accepted step; gives the reason if the mesh can no longer follow."""
        settings, count = self.settings, self.topology.points
        first = len(state.frames) == 1
        step = min(settings.first if first else state.step, duration - state.time, settings.longest)
        taken = state.frames[-1].time - state.frames[-2].time if not first else step
        while True:
            ratio = 0.0 if first else step / taken
            mean = (1.0 + ratio / 2.0) * state.velocity - ratio / 2.0 * state.before
            predicted = state.points + step * mean.reshape(-1, 2)[:count]
            if np.min(areas(predicted, self.mesh.triangles)) > 0.0:
                temperature = self._heated(state, predicted, step)
                guess = (1.0 + ratio) * state.velocity - ratio * state.before
                velocity = self._velocity(state, predicted, temperature, state.time + step, guess)
                corrected = state.points + 0.5 * step * (state.velocity + velocity).reshape(-1, 2)[:count]
                away = float(np.sqrt(np.mean(np.sum((corrected - predicted)[self._watched] ** 2, axis=1))))
                error = away / 3.0 if first else away / (3.0 + 3.0 / ratio)
                growth = float(np.clip(0.9 * (settings.error / max(error, 1e-12)) ** (1.0 / 3.0), 0.3, 2.0))
                if error <= settings.error and np.min(areas(corrected, self.mesh.triangles)) > 0.0:
                    break
            else:
                growth = 0.5
            self.refused += 1
            step *= min(growth, 0.7)
            if step < 1e-4 * settings.first:
                return "the mesh folds: the void is nearly closed"
        state.time, state.points, state.temperature = state.time + step, corrected, temperature
        state.before, state.velocity, state.step = state.velocity, velocity, step * growth
        note = self._zipped(state) or self._shaped(state)
        self._keep(state)
        return note

    def _zipped(self, state: _State) -> str:
        """Close the corners of the void where wall and floor or roof have met; they creep on as one."""
        closed = self.zips.close(state.points)
        if closed is None:
            return ""
        state.points = closed
        if np.min(areas(closed, self.mesh.triangles)) <= 0.0:
            return "a corner of the void has closed faster than the mesh can follow"
        freedoms = freedoms_of_roof(self.mesh, self.topology, self.case.roof, self.zips.pairs)
        state.velocity, state.before = (
            freedoms.spread(freedoms.gather(old) / freedoms.sharing) for old in (state.velocity, state.before)
        )
        self.assembly = Assembly(self.topology, freedoms, order=self.assembly.order)
        self.solver = Solver(self.assembly, effort=self.solver.effort)
        return ""

    def _heated(self, state: _State, points: Array, step: float) -> Array:
        if self.case.air is None:
            return state.temperature
        held = np.concatenate((self.void, self._cold))
        end = self._warmed(state.temperature, state.time + step)
        density = state.mass.sum(axis=1) / areas(points, self.mesh.triangles)
        return step_of_heat(points, self.mesh.triangles, density, state.temperature, held, end[held], step)

    def _shaped(self, state: _State) -> str:
        """Rezone when the shape of a triangle has suffered; gives the reason if that does not help."""
        triangles = self.mesh.triangles
        if np.min(quality(state.points, triangles) / self._shape) >= state.limit:
            return ""
        if self._rezoner is None:
            seat = np.unique(self.mesh.edges.get("seat", np.empty((0, 2), dtype=np.int64)))
            self._rezoner = Rezoner(self.topology, self.mesh.points, seat, order=self.assembly.order)
        new = self._rezoner.target(state.points)
        reached = float(np.min(quality(new, triangles) / self._shape))
        if reached < self.settings.worst:
            return "the mesh has lost its shape: the void is nearly closed"
        state.limit = min(self.settings.distortion, 0.6 * reached)
        self.rezones += 1
        both = np.hstack((state.velocity.reshape(-1, 2), state.before.reshape(-1, 2)))
        carried = self._rezoner.carry(state.points, new, Fields(state.mass, state.temperature, both))
        state.points, state.mass, state.temperature = new, carried.mass, carried.at_points
        state.velocity, state.before = (np.ascontiguousarray(carried.at_nodes[:, i : i + 2]).ravel() for i in (0, 2))
        return ""
