"""Which velocities are unknown: supports, roofs that tie points together, and corners of the void that have closed.

A sharp corner of the void closes like a crack: wall and floor fold onto each other from the corner outwards. Where
they have met they are zipped: both points follow one unknown from then on, as snow that has sintered does.
"""

from __future__ import annotations

import math

import numpy as np

from firnstead.closure.assemble import Freedoms, Topology
from firnstead.closure.mesh import HalfMesh, Integers, areas
from firnstead.snow._arrays import Array

OPEN, UNLINED, YIELDING, STIFF = "open", "unlined", "yielding", "stiff"
Pair = tuple[int, int]


def freedoms_of_roof(mesh: HalfMesh, topology: Topology, roof: str, zipped: tuple[Pair, ...] = ()) -> Freedoms:
    """Give the unknown velocities under a kind of roof.

    u_x = 0 on axis and far side, u_y = 0 at the bottom; one u_y for roof and seats; u_x = 0 there if stiff

    Parameters
    ----------
    mesh : HalfMesh [text]
        The mesh.
    topology : Topology [text]
        Its nodes.
    roof : str [text]
        open, unlined, yielding or stiff.
    zipped : tuple of (int, int) [1]
        Nodes that have met and move as one.
    Returns
    -------
    Freedoms [text]
        Which unknown each component follows.
    Validity: yielding and stiff are bounds of what a real arch does.
    Source: own_rule.

    >>> from firnstead.closure.mesh import HalfSection, half_mesh
    >>> m = half_mesh(HalfSection(((1.5, 1.0), (1.5, 4.0)), side=10.0, depth=10.0, seat=0.5))
    >>> t = Topology(m.triangles, len(m.points))
    >>> freedoms_of_roof(m, t, STIFF).count < freedoms_of_roof(m, t, UNLINED).count
    True
    """
    fixed = np.zeros((topology.count, 2), dtype=bool)
    for name, component in (("axis", 0), ("far", 0), ("bottom", 1)):
        fixed[topology.on(mesh.edges[name]), component] = True
    leader = np.arange(2 * topology.count)
    if roof in (YIELDING, STIFF):
        pieces = [mesh.edges[name] for name in ("roof", "seat") if len(mesh.edges.get(name, ()))]
        tied = topology.on(np.concatenate(pieces))
        leader[2 * tied + 1] = 2 * tied[0] + 1
        fixed[tied, 0] |= roof == STIFF
    held = fixed.ravel()
    for one, two in zipped:
        for component in (0, 1):
            a, b = leader[2 * one + component], leader[2 * two + component]
            leader[leader == b] = a
            held[a] |= held[b]
    held = held[leader]
    number = np.cumsum((leader == np.arange(leader.size)) & ~held) - 1
    return Freedoms(np.where(held, -1, number[leader]).astype(np.int64), np.zeros(leader.size))


class Zips:
    """The corners of the void and how far each has closed. `angle` [rad] is the opening at which a corner closes."""

    def __init__(self, mesh: HalfMesh, topology: Topology, *, angle: float = math.radians(12.0)) -> None:
        wall = _chain(mesh.edges["wall"], mesh.points, 1)
        floor = _chain(mesh.edges["floor"], mesh.points, 0)
        roof = _chain(mesh.edges["roof"], mesh.points, 0)
        self._sides = [(wall, floor[::-1])] + ([(wall[::-1], roof[::-1])] if roof else [])
        self._done = [0 for _ in self._sides]
        self._topology, self._angle = topology, angle
        self.pairs: tuple[Pair, ...] = ()

    def close(self, points: Array) -> Array | None:
        """Points after closing what has met; nothing if no corner has."""
        before = self.pairs
        for corner, (wall, other) in enumerate(self._sides):
            while self._met(points, wall, other, self._done[corner]):
                done = self._done[corner]
                one, two = wall[done + 1], other[done + 1]
                points = self._joined(points, one, two)
                edges = np.array([[wall[done], one], [other[done], two]])
                middles = self._topology.middles(np.sort(edges, axis=1))
                self.pairs += ((one, two), (int(middles[0]), int(middles[1])))
                self._done[corner] += 1
        return points if len(self.pairs) > len(before) else None

    def _joined(self, points: Array, one: int, two: int) -> Array:
        """Both points at the place between them that hurts the triangles least."""
        triangles, best, least = self._topology.triangles, points, -np.inf
        for share in (0.5, 0.25, 0.75, 0.0, 1.0):
            moved = points.copy()
            moved[[one, two]] = (1.0 - share) * points[one] + share * points[two]
            worst = float(np.min(areas(moved, triangles)[np.isin(triangles, (one, two)).any(axis=1)]))
            if worst > least and (share in (0.5, 0.25, 0.75) or least <= 0.0):
                best, least = moved, worst
        return best

    def _met(self, points: Array, wall: list[int], other: list[int], done: int) -> bool:
        if done + 2 >= len(other) or sum(self._done) + 3 >= len(wall):
            return False
        one, two = points[wall[done + 1]] - points[wall[done]], points[other[done + 1]] - points[other[done]]
        turn = abs(math.atan2(one[0] * two[1] - one[1] * two[0], float(one @ two)))
        crossed = (one[1] - two[1]) * (1.0 if points[wall[-1], 1] > points[wall[0], 1] else -1.0) < 0.0
        return turn < self._angle or (crossed and turn < 0.5 * math.pi)


def _chain(edges: Integers, points: Array, axis: int) -> list[int]:
    """Points of a piece of boundary in order of a coordinate at the start."""
    found = np.unique(edges)
    return [int(point) for point in found[np.argsort(points[found, axis], kind="stable")]]
