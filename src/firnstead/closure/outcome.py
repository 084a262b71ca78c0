"""What the engineer reads off a march: widths, heights, heave, sag, clearance and when it is lost, snow to trim."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from firnstead.closure.march import History
from firnstead.closure.mesh import Integers
from firnstead.snow._arrays import Array

MOMENTS = 241  # moments at which a curve is looked at before its crossing is interpolated


@dataclass(frozen=True, eq=False)
class Void:
    """Half the outline of the void at one moment: from the floor on the axis round to the top on the axis."""

    line: Array
    floor: float
    top: float

    @property
    def height(self) -> float:
        """Height [m] on the axis."""
        return self.top - self.floor

    def half_widths(self, heights: Array) -> Array:
        """Clear half-widths [m] at heights [m] above the floor on the axis; 0 where there is no void."""
        y = (self.floor + np.asarray(heights, dtype=np.float64))[:, None]
        a, b = self.line[:-1], self.line[1:]
        rise = b[:, 1] - a[:, 1]
        steep = np.abs(rise) > 1e-12
        share = np.where(steep, (y - a[:, 1]) / np.where(steep, rise, 1.0), -1.0)
        x = a[:, 0] + share * (b[:, 0] - a[:, 0])
        met = (share >= 0.0) & (share <= 1.0) & (x > 1e-9)
        nearest = np.where(met, x, np.inf).min(axis=1)
        inside = (y[:, 0] >= self.floor) & (y[:, 0] <= self.top) & np.isfinite(nearest)
        found: Array = np.where(inside, nearest, 0.0)
        return found

    def half_width(self, height: float) -> float:
        """Clear half-width [m] at one height above the floor on the axis; 0 where there is no void."""
        return float(self.half_widths(np.array([height]))[0])

    def room_above(self, half_width: float, points: int = 9) -> float:
        """Least height [m] between the floor on the axis and the top, over the middle 2 `half_width`.

        Only as far out as the walls leave room: what comes in from the side is lost beside, not above.
        """
        middle = self.floor + 0.5 * self.height
        waist = float(self.half_widths(np.linspace(0.2, 0.8, 13) * self.height).min())
        x = np.linspace(0.0, max(0.0, min(half_width, 0.98 * waist)), points)[:, None]
        a, b = self.line[:-1], self.line[1:]
        run = b[:, 0] - a[:, 0]
        level = np.abs(run) > 1e-12
        share = np.where(level, (x - a[:, 0]) / np.where(level, run, 1.0), -1.0)
        y = a[:, 1] + share * (b[:, 1] - a[:, 1])
        over = (share >= 0.0) & (share <= 1.0) & (y > middle)
        return float(min(np.where(over, y, np.inf).min(), self.top)) - self.floor


@dataclass(frozen=True)
class Envelope:
    """What must stay free: half-width and height above the floor [m] of a building or passage.

    Above its edges an arch may rise by `lift` [m] over the top of the void, which ends at the feet of the arch.
    """

    half_width: float
    height: float
    foot: float = 0.3
    lift: float = 0.0

    def side_clearance(self, void: Void, points: int = 25) -> float:
        """Least room beside it [m]; the lowest `foot` is left to hand trimming, for sharp corners always close."""
        heights = np.linspace(self.foot, max(self.foot, min(self.height, void.height - 1e-9)), points)
        return float(void.half_widths(heights).min()) - self.half_width

    def top_clearance(self, void: Void) -> float:
        """Least room above it [m]."""
        return void.room_above(self.half_width) + self.lift - self.height


def area_to_trim(void: Void, half_width: float, height: float, *, strips: int = 200) -> float:
    """Give the snow that stands inside a rectangle that must be free, both sides, per length of trench.

    2 integral over the height of max(0, half-width wanted - half-width there)

    Parameters
    ----------
    void : Void [m]
        Outline.
    half_width : float [m]
        Half-width that must be free.
    height : float [m]
        Height above the floor that must be free.
    strips : int [1]
        Strips of the integral.
    Returns
    -------
    float [m3/m]
        Volume to cut per metre of trench.
    Validity: the floor counts as cut level with its middle; trimming itself sets free a little more creep.
    Source: statics.

    >>> box = Void(np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 2.0], [0.0, 2.0]]), 0.0, 2.0)
    >>> round(area_to_trim(box, 1.1, 2.0), 6)
    0.4
    """
    heights = (np.arange(strips) + 0.5) * height / strips
    missing = np.maximum(0.0, half_width - void.half_widths(heights))
    return 2.0 * float(np.sum(missing)) * height / strips


@dataclass(frozen=True, eq=False)
class Outcome:
    """Reads a march. Nothing is said beyond its end: a march that ended early proves nothing later."""

    history: History

    def void(self, time: float) -> Void:
        """The outline of the void at a time [s]; an open void ends at the top of its wall."""
        points, edges, first = self.history.points(time), self.history.mesh.edges, self.history.mesh.points
        floor, wall = _ordered(edges["floor"], first, 0), _ordered(edges["wall"], first, 1)
        roof = _ordered(edges["roof"], first, 0)
        line = points[[*floor, *wall[1:], *roof[::-1][1:]]]
        return Void(line, float(line[0, 1]), float(line[-1, 1]))

    def time_lost(self, clearance: Callable[[Void], float], needed: float) -> float:
        """First time [s] at which a clearance (as Envelope.side_clearance) is below `needed`; infinite if never."""
        times = np.linspace(0.0, self.history.frames[-1].time, MOMENTS)
        before = np.inf
        for index, time in enumerate(times):
            now = clearance(self.void(float(time))) - needed
            if now < 0.0:
                passed = before / (before - now) if index else 0.0
                return float(times[index - 1] * (1.0 - passed) + time * passed) if index else 0.0
            before = now
        return np.inf

    def rise(self, time: float, piece: str, *, at_wall: bool = False) -> float:
        """Rise [m] of floor (heave) or roof (sag is negative) against far snow of the same first depth.

        In the middle of the trench, or `at_wall`: of the roof that is the shoulder.
        """
        points, first, edges = self.history.points(time), self.history.mesh.points, self.history.mesh.edges
        chain = _ordered(edges[piece], first, 0)
        point = chain[-1] if at_wall else chain[0]
        far = np.array(_ordered(edges["far"], first, 1))
        settled = np.interp(first[point, 1], first[far, 1], points[far, 1] - first[far, 1])
        return float(points[point, 1] - first[point, 1] - settled)

    def shoulder(self, time: float) -> tuple[float, float]:
        """How far the top of the wall has come in, and its rise against far snow [m]."""
        points, first = self.history.points(time), self.history.mesh.points
        top = _ordered(self.history.mesh.edges["wall"], first, 1)[-1]
        far = np.array(_ordered(self.history.mesh.edges["far"], first, 1))
        settled = np.interp(first[top, 1], first[far, 1], points[far, 1] - first[far, 1])
        return float(first[top, 0] - points[top, 0]), float(points[top, 1] - first[top, 1] - settled)


def _ordered(edges: Integers, first: Array, axis: int) -> list[int]:
    found = np.unique(edges)
    return [int(point) for point in found[np.argsort(first[found, axis], kind="stable")]] if found.size else []
