"""Speed of the closure forecast, as ratios measured side by side in one run: python benchmarks/closure.py

The floor is the number of nonlinear solves times one sparse factorisation of that matrix. The peer is a textbook
implementation of the same physics on the same mesh: interpreted forms, Picard iteration, a direct solve each time and
equal explicit steps. How many equal steps reach our accuracy is measured with our own (quick) velocities; what one
textbook step costs is measured at moments spread over the ten years. FIRNSTEAD_LONG=1 runs the peer from end to end.
"""

from __future__ import annotations

import os
import resource
import statistics
import time

import numpy as np

from firnstead.closure.law import CreepLaw, Points
from firnstead.closure.march import Case, History, March, Settings, _State
from firnstead.closure.mesh import HalfSection, areas
from firnstead.closure.outcome import Outcome
from firnstead.closure.solve import factorised
from firnstead.core.units import YEAR
from firnstead.snow._arrays import Array

YEARS = 10.0
SIZE = 0.35


def trench() -> Case:
    """A covered undercut trench in snow of k = 569 at -24.6 degC, with growing cover and warmer air."""
    section = HalfSection(((1.8, 2.0), (2.6, 8.0)), side=30.0, depth=35.0, seat=0.5, lines=(3.0,), size=SIZE)

    def density(x: Array, depth: Array) -> Array:
        return np.where((depth < 2.0) & (x < 3.0), 550.0, 917.0 - 537.0 * np.exp(-1.9 * depth / 70.0))

    return Case(
        section, CreepLaw(569.0), density, lambda depth: 0 * depth + 248.55,
        surcharge=lambda time: 3430.0 * time / YEAR, air=lambda time: 253.15)  # fmt: skip


class EqualSteps(March):
    """Our velocities, explicit Euler with equal steps: to learn how many steps the peer needs."""

    def equal(self, steps: int) -> History:
        """March the ten years."""
        state, step = self._start(), YEARS * YEAR / steps
        for _ in range(steps):
            self.one(state, step)
        return History(self.mesh, tuple(state.frames), self.solver.effort, 0, 0, "")

    def one(self, state: _State, step: float) -> None:
        """One explicit step: move with the velocity at its start, then solve anew."""
        count = self.topology.points
        state.points = state.points + step * state.velocity.reshape(-1, 2)[:count]
        state.temperature = self._heated(state, state.points, step)
        state.time += step
        if self._zipped(state):
            raise ArithmeticError("the mesh folds")
        state.velocity = self._velocity(state, state.points, state.temperature, state.time, state.velocity)
        self._keep(state)


class Textbook(EqualSteps):
    """Standard assembly of interpreted forms and Picard iteration with a direct solve each time."""

    picards = 0

    def _velocity(self, state: _State, points: Array, temperature: Array, time: float, guess: Array | None) -> Array:
        from scipy.sparse import csr_matrix
        from scipy.sparse.linalg import spsolve
        from skfem import Basis, BilinearForm, ElementTriP2, ElementVector, LinearForm, MeshTri
        from skfem.helpers import ddot, dot, sym_grad, trace

        basis = Basis(
            MeshTri(np.ascontiguousarray(points.T), np.ascontiguousarray(self.mesh.triangles.T)),
            ElementVector(ElementTriP2()),
            intorder=2,
        )
        density = (state.mass.sum(axis=1) / areas(points, self.mesh.triangles))[:, None] * np.ones((1, 3))
        law: Points = self.case.law.points(
            density, temperature[self.mesh.triangles].mean(axis=1)[:, None] + 0 * density
        )
        shear, bulk, power = law.shear, law.bulk, (1.0 - law.exponent) / (2.0 * law.exponent)

        @BilinearForm
        def stiffness(u, v, w):  # type: ignore[no-untyped-def]
            e, d = sym_grad(u), sym_grad(v)
            return w.eta * (shear * ddot(e, d) + (bulk - shear / 3.0) * trace(e) * trace(d))

        @LinearForm
        def weight(v, w):  # type: ignore[no-untyped-def]
            return dot(np.stack((0 * w.density, -self.case.gravity * w.density)), v)

        ours = _our_numbers(basis, self.topology)
        freedoms = self.assembly.freedoms
        free = freedoms.unknown >= 0
        tie = csr_matrix((np.ones(free.sum()), (np.flatnonzero(free), freedoms.unknown[free])),
                         shape=(free.size, freedoms.count))[ours]  # fmt: skip
        load = weight.assemble(basis, density=density)
        pressure = self.case.surcharge(time)
        top = self.assembly.pressure(points, self.mesh.edges["top"], lambda at: at * 0.0 + (0.0, -pressure))
        load += top[ours]
        velocity = guess if guess is not None else np.zeros(free.size)
        for _ in range(200):
            self.picards += 1
            e = sym_grad(basis.interpolate(velocity[ours]))
            q = (
                shear * ddot(e, e)
                + (bulk - shear / 3.0) * trace(e) ** 2
                + law.at_rest * (1.0 if guess is not None else 1e8)
            )
            matrix = tie.T @ stiffness.assemble(basis, eta=law.constant * q**power) @ tie
            new = freedoms.spread(spsolve(matrix.tocsc(), tie.T @ load))
            change = np.max(np.abs(new - velocity)) / np.max(np.abs(new))
            velocity, guess = new, new
            if change < self.settings.solve:
                break
        return velocity


def _our_numbers(basis, topology):  # type: ignore[no-untyped-def]
    """For each unknown of the peer's basis its number here."""
    places = {
        tuple(key): i for i, key in enumerate(np.round(topology.places(basis.mesh.p.T) * 1e7).astype(int).tolist())
    }
    ours = np.empty(basis.N, dtype=np.int64)
    seen: dict[tuple[int, int], int] = {}
    for dof, (x, y) in enumerate(np.round(basis.doflocs.T * 1e7).astype(int).tolist()):
        component = seen.get((x, y), 0)
        seen[(x, y)] = component + 1
        ours[dof] = 2 * places[(x, y)] + component
    return ours


def curve(history: History) -> Array:
    """Loss of width at 1.5 m and of height through the years."""
    outcome, first = Outcome(history), Outcome(history).void(0.0)
    voids = [outcome.void(t * YEAR) for t in (0.5, 1.0, 2.0, 5.0, 9.99)]
    return np.array([[first.half_width(1.5) - v.half_width(1.5), first.height - v.height] for v in voids])


def main() -> None:
    """Print every ratio."""
    case = trench()
    reference = curve(March(case, Settings(error=3e-5, solve=1e-4)).run(YEARS * YEAR))
    runs, factors = [], []
    for _ in range(7):  # in turns, medians of both: other work on the machine slows both
        march = March(case)
        start = time.perf_counter()
        history = march.run(YEARS * YEAR)
        runs.append(time.perf_counter() - start)
        matrix = _matrix(march, history.frames[len(history.frames) // 2].points)
        for _ in range(5):
            start = time.perf_counter()
            factorised(matrix)
            factors.append(time.perf_counter() - start)
    ours, factor = statistics.median(runs), statistics.median(factors)
    error = float(np.max(np.abs(curve(history) / reference - 1)))
    effort, floor = history.effort, history.effort.solves * factor
    print(f"{march.assembly.freedoms.count} unknowns, {len(history.frames) - 1} steps, {effort}, note {history.note!r}")
    print(f"ten years: {ours:.2f} s (goal 15); time-step error {100 * error:.2f} % (goal 1)")
    print(f"floor {effort.solves} solves x {1e3 * factor:.1f} ms = {floor:.2f} s: ratio {ours / floor:.2f} (goal 2.5)")
    steps = 50
    while True:
        start = time.perf_counter()
        off = float(np.max(np.abs(curve(EqualSteps(case).equal(steps)) / reference - 1)))
        print(
            f"  {steps} equal steps: error {100 * off:.2f} % ({time.perf_counter() - start:.1f} s with our velocities)"
        )
        if off <= 0.01 or steps >= 3200:
            break
        steps *= 2
    steps = round(steps * max(1.0, off / error))  # explicit steps are of first order: as many as our error needs
    peer = _peer(case, history, steps)
    print(f"textbook peer, {steps} steps for the same error: {peer:.0f} s: {peer / ours:.0f} times ours (goal 8)")
    print(f"peak memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 2**20:.2f} GiB (goal 1.5)")


def _matrix(march: March, points: Array) -> object:
    tables = march.assembly.tables(points)
    shape = tables.weights.shape
    law = march.case.law.points(np.full(shape, 500.0), np.full(shape, 250.0))
    velocity = march.topology.places(points).ravel() * 1e-9
    return march.assembly.tangent(tables, law, velocity)[2]


def _peer(case, history: History, steps: int) -> float:  # type: ignore[no-untyped-def]
    """Seconds of the peer: all steps if FIRNSTEAD_LONG, else the mean of a few moments times their number."""
    peer = Textbook(case)
    if os.environ.get("FIRNSTEAD_LONG"):
        start = time.perf_counter()
        peer.equal(steps)
        return time.perf_counter() - start
    step, times, spent = YEARS * YEAR / steps, [frame.time for frame in history.frames], []
    for at in (0.0, 0.3, 1.0, 3.0):  # before any corner of the void has to be zipped for long
        frame = history.frames[int(np.searchsorted(times, at * YEAR))]
        state = peer._start() if at == 0.0 else state  # noqa: F821
        state.time, state.points, state.temperature = frame.time, frame.points, frame.temperature
        state.velocity = frame.velocity.ravel()
        peer.zips._done = [0 for _ in peer.zips._done]
        peer.one(state, step)
        start, before = time.perf_counter(), peer.picards
        peer.one(state, step)
        spent.append(time.perf_counter() - start)
        print(f"  peer at {at} years: {spent[-1]:.2f} s a step, {peer.picards - before} Picard iterations")
    return float(np.mean(spent)) * steps


if __name__ == "__main__":
    main()
