"""A small plane frame of straight elements, written apart from the code it checks: forces and buckling of arches."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import eigvals

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Frame:
    """Nodes (x, y) in a chain, one bending stiffness each element, stiff against change of length."""

    nodes: Array
    stiffness: Array
    axial: float
    fixed_feet: bool = False

    @property
    def free(self) -> NDArray[np.intp]:
        """Freedoms that can move: hinged feet turn, fixed feet do not."""
        n = len(self.nodes)
        held = [0, 1, 3 * n - 3, 3 * n - 2] + ([2, 3 * n - 1] if self.fixed_feet else [])
        return np.setdiff1d(np.arange(3 * n), held)

    def _turned(self, i: int) -> tuple[float, Array]:
        (x1, y1), (x2, y2) = self.nodes[i], self.nodes[i + 1]
        length = float(np.hypot(x2 - x1, y2 - y1))
        c, s = (x2 - x1) / length, (y2 - y1) / length
        turn = np.zeros((6, 6))
        for k in (0, 3):
            turn[k : k + 3, k : k + 3] = [[c, s, 0], [-s, c, 0], [0, 0, 1]]
        return length, turn

    def _local(self, i: int, length: float) -> Array:
        k, e = np.zeros((6, 6)), self.stiffness[i]
        k[np.ix_([0, 3], [0, 3])] = self.axial / length * np.array([[1, -1], [-1, 1]])
        b = np.array([[12, 6 * length, -12, 6 * length], [0, 4 * length**2, -6 * length, 2 * length**2],
                      [0, 0, 12, -6 * length], [0, 0, 0, 4 * length**2]])  # fmt: skip
        k[np.ix_([1, 2, 4, 5], [1, 2, 4, 5])] = e / length**3 * (b + np.triu(b, 1).T)
        return k

    def _add(self, make) -> Array:
        total = np.zeros((3 * len(self.nodes),) * 2)
        for i in range(len(self.nodes) - 1):
            length, turn = self._turned(i)
            total[3 * i : 3 * i + 6, 3 * i : 3 * i + 6] += turn.T @ make(i, length) @ turn
        return total

    def solve(self, load: Array) -> tuple[Array, Array, Array, Array]:
        """Displacements, reactions, axial thrust and end moments of the elements under nodal loads."""
        k, free = self._add(self._local), self.free
        moved = np.zeros(load.size)
        moved[free] = np.linalg.solve(k[np.ix_(free, free)], load[free])
        thrust, moments = [], []
        for i in range(len(self.nodes) - 1):
            length, turn = self._turned(i)
            ends = self._local(i, length) @ turn @ moved[3 * i : 3 * i + 6]
            thrust.append(ends[0])
            moments.append((ends[2], -ends[5]))
        return moved, k @ moved - load, np.array(thrust), np.array(moments)

    def critical_factor(self, load: Array, follower: float = 0.0) -> float:
        """Lowest multiple of the load at which the arch buckles; `follower` is a normal pressure that turns with it."""
        _, _, thrust, _ = self.solve(load)

        def geometric(i: int, length: float) -> Array:
            g = np.array([[36, 3 * length, -36, 3 * length], [0, 4 * length**2, -3 * length, -(length**2)],
                          [0, 0, 36, -3 * length], [0, 0, 0, 4 * length**2]])  # fmt: skip
            k = np.zeros((6, 6))
            k[np.ix_([1, 2, 4, 5], [1, 2, 4, 5])] = thrust[i] / (30 * length) * (g + np.triu(g, 1).T)
            return k

        softening, free = self._add(geometric), self.free
        if follower:
            for i in range(len(self.nodes) - 1):  # pressure forces of an element turn and grow with its chord
                for node in (3 * i, 3 * i + 3):
                    for sign, end in ((-1, 3 * i), (1, 3 * i + 3)):
                        softening[node, end + 1] += follower / 2 * sign
                        softening[node + 1, end] -= follower / 2 * sign
        values = eigvals(softening[np.ix_(free, free)], self._add(self._local)[np.ix_(free, free)])
        return float(1 / values.real.max())


def plan_load(nodes: Array, start: float, end: float) -> Array:
    """Nodal loads of an even load 1 per plan length between two places."""
    load = np.zeros(3 * len(nodes))
    for i, (a, b) in enumerate(zip(nodes[:-1, 0], nodes[1:, 0], strict=True)):
        low, high = max(a, start), min(b, end)
        if high > low:
            share = ((low + high) / 2 - a) / (b - a)
            load[3 * i + 1] -= (high - low) * (1 - share)
            load[3 * i + 4] -= (high - low) * share
    return load


def pressure_load(nodes: Array, pressure: float) -> Array:
    """Nodal loads of a pressure normal to every element, pushing inward on an arch drawn from left to right."""
    load = np.zeros(3 * len(nodes))
    for i, (dx, dy) in enumerate(np.diff(nodes, axis=0)):
        for node in (3 * i, 3 * i + 3):
            load[node] += pressure / 2 * dy
            load[node + 1] -= pressure / 2 * dx
    return load


def segment(rise: float, elements: int, fixed_feet: bool = False) -> Frame:
    """A circular segment of span 1 and E I 1."""
    radius = (0.25 + rise**2) / (2 * rise)
    alpha = 2 * np.arctan(2 * rise)
    phi = np.linspace(-alpha, alpha, elements + 1)
    nodes = np.column_stack([0.5 + radius * np.sin(phi), radius * (np.cos(phi) - np.cos(alpha))])
    return Frame(nodes, np.ones(elements), 1e8, fixed_feet)


def parabola(rise: float, elements: int, fixed_feet: bool = False, constant: bool = True) -> Frame:
    """A parabola of span 1; E I is 1, or grows with the slope as I = I_0 sec(phi)."""
    x = np.linspace(0, 1, elements + 1)
    nodes = np.column_stack([x, 4 * rise * x * (1 - x)])
    chord = np.hypot(*np.diff(nodes, axis=0).T)
    return Frame(nodes, np.ones(elements) if constant else chord / np.diff(x), 1e8, fixed_feet)
