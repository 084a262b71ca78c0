"""Smoke through the cells of a station in time: implicit steps on a sparse matrix, one fire at a time."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

import numpy as np

from firnstead.fire._arrays import Array, Flags
from firnstead.fire.growth import burnout_time, energy_released, power_mean, time_to_heat_release
from firnstead.fire.network import LEAST_VOLUME, Directed, Network, directed_from, flows_of

# seconds at which the flows are set anew, and the steps between: fine while the fire grows, coarse when it is old
BLOCKS = (0, 15, 30, 45, 60, 75, 90, 105, 120, 150, 180, 210, 240, 300, 360, 420, 480, 600, 720, 900, 1200, 1500,
          1800, 2400, 3000, 3600, 4800, 6000, 7200)  # fmt: skip
STEPS = 6


@dataclass(frozen=True)
class Blaze:
    """A fire in numbers: where it is, how it grows, what caps it, what it has to burn.

    `short_of_air`: whether the cap is what the air allows; from then on it burns with more soot and carbon monoxide.
    """

    cell: int
    coefficient: float
    cap: float
    fuel: float
    convective: float
    short_of_air: bool

    def released(self, time: float) -> float:
        """Energy released until a time [J]."""
        return energy_released(time, self.coefficient, self.cap, self.fuel)

    @property
    def peak(self) -> float:
        """Time at which the cap is reached [s]."""
        return time_to_heat_release(self.cap, self.coefficient)

    @property
    def burnout(self) -> float:
        """Time at which the fuel is used up [s]."""
        return burnout_time(self.coefficient, self.cap, self.fuel) if self.fuel < inf else inf

    def split(self, time: float) -> tuple[float, float]:
        """Energy released until a time with enough air, and short of it [J]."""
        all_of_it = self.released(time)
        with_air = self.released(min(time, self.peak)) if self.short_of_air else all_of_it
        return with_air, all_of_it - with_air


@dataclass(frozen=True, eq=False)
class Run:
    """What one fire does: at each time and cell, the energy whose smoke is there, for each cubic metre of air
    [J/m3]: `mean[0]` burnt with enough air, `mean[1]` burnt short of air. `released` in the same two [J]."""

    network: Network
    blaze: Blaze
    directed: Directed
    times: Array
    mean: Array
    released: Array

    @property
    def volume(self) -> Array:
        """Volume of each cell as it was reckoned with [m3]."""
        return np.maximum(self.network.volume, LEAST_VOLUME)

    def kept(self) -> Array:
        """Energy whose smoke is in the station at each time, both kinds [J]; it must be what was released."""
        found: Array = np.einsum("ktn,n->kt", self.mean, self.volume)
        return found

    def with_all_kept(self, cells: Flags, inside: tuple[int, ...] = ()) -> Array:
        """The means, in `cells` never less than if all smoke of the fire had stayed there, evenly mixed [J/m3].

        `inside` are the cells of the burning building; what is still in there has not come out.
        """
        if not cells.any():
            return self.mean
        still = sum((self.mean[:, :, i] * self.volume[i] for i in inside), np.zeros_like(self.released))
        least = np.maximum(0.0, self.released - still) / self.volume[cells].sum()
        held: Array = np.where(cells, np.maximum(self.mean, least[:, :, None]), self.mean)
        return held


def block_edges(duration: float) -> Array:
    """Give the times at which the flows are set anew.

    fixed times up to the duration

    Parameters
    ----------
    duration : float [s]
        How long the fire is followed.
    Returns
    -------
    Array [s]
        Times.
    Validity: any duration.
    Source: own_rule, a step is short against what it must show.

    >>> [float(t) for t in block_edges(40.0)]
    [0.0, 15.0, 30.0, 40.0]
    """
    fixed = [float(t) for t in BLOCKS if t < duration]
    while fixed[-1] + 1200.0 < duration:  # beyond the table: every 20 minutes
        fixed.append(fixed[-1] + 1200.0)
    return np.array([*fixed, duration])


def march(
    network: Network, blaze: Blaze, pressure: float, duration: float, leak: Array | None = None, steps: int = STEPS,
    finer: int = 1,
) -> Run:  # fmt: skip
    """Follow the smoke of one fire through the station.

    V dc/dt = Q_c^(1/3) F_1 c + Q_c F_2 c + dE/dt, implicit Euler; columns of F_1 and F_2 add up to nothing

    Parameters
    ----------
    network : Network [1]
        Cells and openings.
    blaze : Blaze [1]
        The fire.
    pressure : float [Pa]
        Air pressure.
    duration : float [s]
        How long it is followed.
    leak : Array | None [m2]
        Area of each opening that passes; none: the network's own.
    steps : int [1]
        Steps in each stretch of constant flows.
    finer : int [1]
        Stretches into which each stretch is cut again.
    Returns
    -------
    Run [1]
        Smoke in every cell at every step.
    Validity: still air; flows from the fire's heat alone, none lost to the snow; smoke is neither lost nor made.
    Source: own_rule, one-dimensional network in two halves (computed).

    >>> from firnstead.fire.network import line_network
    >>> line = line_network(40.0, 4)
    >>> found = march(line, Blaze(0, 46.9, 1e6, inf, 0.7, False), 101325.0, 300.0)
    >>> bool(np.allclose(found.kept(), found.released, rtol=1e-9))
    True
    """
    from scipy.sparse.linalg import splu

    directed = directed_from(network, blaze.cell)
    pattern = _Pattern(network, directed, pressure, network.leak if leak is None else leak)
    edges = block_edges(duration)
    if finer > 1:
        edges = np.interp(np.arange(finer * (len(edges) - 1) + 1) / finer, np.arange(len(edges)), edges)
    n = network.cells
    kinds = 2 if blaze.short_of_air and duration > blaze.peak else 1
    half = np.concatenate((pattern.volume, pattern.volume)) / 2
    state = np.zeros((2 * n, kinds))
    times, means, released = [0.0], [np.zeros((n, kinds))], [np.zeros(kinds)]
    for start, end in zip(edges[:-1].tolist(), edges[1:].tolist(), strict=True):
        step = (end - start) / steps
        third = blaze.convective ** (1 / 3) * power_mean(start, end, 1 / 3, blaze.coefficient, blaze.cap)
        whole = blaze.convective * power_mean(start, end, 1.0, blaze.coefficient, blaze.cap)
        solver = splu(pattern.matrix(step * third, step * whole), permc_spec="COLAMD")
        for k in range(1, steps + 1):
            time = start + k * step
            now = np.array(blaze.split(time)[:kinds])
            load = half[:, None] * state
            load[blaze.cell] += now - released[-1]
            state = solver.solve(load)
            times.append(time)
            released.append(now)
            means.append((state[:n] + state[n:]) / 2)
    mean = np.zeros((2, len(times), n))
    mean[:kinds] = np.moveaxis(np.array(means), 2, 0)
    made = np.zeros((2, len(times)))
    made[:kinds] = np.array(released).T
    return Run(network, blaze, directed, np.array(times), mean, made)


class _Pattern:
    """The matrix V/2 - dt F with its places fixed once, so that each stretch only puts in new numbers."""

    def __init__(self, network: Network, directed: Directed, pressure: float, leak: Array) -> None:
        from scipy.sparse import csc_matrix

        n = network.cells
        self.volume = np.maximum(network.volume, LEAST_VOLUME)
        flows = flows_of(network, directed, pressure, leak)
        diagonal = np.arange(2 * n)
        row = np.concatenate((flows.exchange[0], flows.expansion[0], diagonal))
        column = np.concatenate((flows.exchange[1], flows.expansion[1], diagonal))
        places, where = np.unique(column * (2 * n) + row, return_inverse=True)
        first = len(flows.exchange[2])
        second = first + len(flows.expansion[2])
        size = len(places)
        self._exchange = np.bincount(where[:first], weights=flows.exchange[2], minlength=size)
        self._expansion = np.bincount(where[first:second], weights=flows.expansion[2], minlength=size)
        self._volume = np.bincount(where[second:], weights=np.tile(self.volume / 2, 2), minlength=size)
        pointer = np.searchsorted(places // (2 * n), np.arange(2 * n + 1))
        self._matrix = csc_matrix((self._volume, places % (2 * n), pointer), shape=(2 * n, 2 * n))

    def matrix(self, exchange: float, expansion: float) -> object:
        """The matrix of one step; `exchange` and `expansion` are the step times W^(1/3) and W."""
        self._matrix.data = self._volume - exchange * self._exchange - expansion * self._expansion
        return self._matrix
