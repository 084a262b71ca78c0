"""Walking and queueing along the shortest ways, by two models side by side."""

from __future__ import annotations

from functools import cached_property
from math import inf, nan, radians
from typing import NamedTuple

from firnstead.escape import hydraulic, imo
from firnstead.escape._case import Case
from firnstead.escape._graph import Forest

MODELS = ("hydraulic", "imo")


class Leg(NamedTuple):
    """A stretch of a route as it is walked: people over it, capacity, speed, times."""

    stretch: int
    a: int
    b: int
    people: float
    capacity: float
    flow: float
    speed: float
    walk: float
    queue: float


class Trip(NamedTuple):
    """From a node to the snow: walking time and the longest queue on the route."""

    walk: float
    queue: float

    @property
    def total(self) -> float:
        """Walking and queueing."""
        return self.walk + self.queue


class Rate(NamedTuple):
    """How one model sees one stretch in one direction: capacity, width that counts, constant or row of its tables."""

    capacity: float
    width: float
    k: float
    row: str


NONE, LOST = Trip(0.0, 0.0), Trip(inf, 0.0)


class Timing:
    """Times of one case by one model."""

    def __init__(self, case: Case, model: str, factor: float) -> None:
        self.case, self.model, self.factor = case, model, factor
        own = 0.85 * hydraulic.K_LEVEL if model == "hydraulic" else imo.SPEEDS[0]
        self.scale = factor * (case.walking_speed / own if case.walking_speed is not None else 1.0)
        self._rates: dict[tuple[int, bool], Rate] = {}

    @cached_property
    def _climbs(self) -> dict[int, tuple[float, float] | None]:
        return {e.base: (e.climb.interval, e.climb.speed) if e.climb is not None else None for e in self.case.exits}

    def rate(self, number: int, forward: bool) -> Rate:
        """Capacity of a stretch; the slope is that in the direction of walking."""
        found = self._rates.get((number, forward))
        if found is None:
            found = self._rates[number, forward] = self._rate(number, forward)
        return found

    def _rate(self, number: int, forward: bool) -> Rate:
        s = self.case.stretches[number]
        slope = s.slope if forward else -s.slope
        if s.kind == "ladder":
            climb = self._climbs.get(s.a)
            if climb is None:
                return Rate(nan, s.width, nan, "ladder")
            return Rate(self.factor / climb[0], s.width, self.factor * climb[1], "ladder")
        if self.model == "hydraulic":
            k = hydraulic.constant_of_slope(radians(slope)) * self.scale
            width = hydraulic.effective_width(s.width, hydraulic.BOUNDARY[s.kind])
            return Rate(hydraulic.specific_flow_most(k) * width, width, k, "k")
        row = imo.kind_of_slope(slope)
        return Rate(imo.specific_flow_most_imo(row) * self.scale * s.width, s.width, 0.0, row)

    def speed(self, kind: str, width: float, k: float, row: str, flow: float) -> float:
        """Speed at a flow [persons/s]; inside a building people walk freely to the door."""
        if row == "ladder":
            return k
        specific = 0.0 if kind == "door" else flow / width if width > 0 else inf
        if self.model == "hydraulic":
            return hydraulic.speed_hydraulic(hydraulic.density_free(specific, k), k)
        return imo.speed_after_imo(specific / self.scale, row) * self.scale

    def _setting_out(self, people: float, length: float, clear: float, width: float, k: float) -> float:
        """Flow of people who stand spread over a way when they set out [persons/s]: that of their density."""
        if length * clear <= 0:
            return inf
        density = people / (length * clear)
        if self.model == "imo":
            return imo.specific_flow_imo(density) * self.scale * width
        return inf if density > 1 / (2 * hydraulic.A) else hydraulic.specific_flow_hydraulic(density, k) * width

    def legs(self, forest: Forest, people: tuple[tuple[int, int], ...]) -> list[Leg]:
        """What everybody's walk makes of each stretch, from the far ends to the exits; nobody is lost."""
        crowd: dict[int, float] = {}
        coming: dict[int, float] = {}
        for node, count in people:
            if forest.distance[node] < inf:
                crowd[node] = crowd.get(node, 0.0) + count
                coming[node] = inf
        waiting: dict[int, int] = {}
        walked: set[int] = set()
        for start in crowd:
            here = start
            while here not in walked:
                walked.add(here)
                waiting.setdefault(here, 0)
                if forest.next[here] < 0:
                    break
                here = forest.next[here]
                waiting[here] = waiting.get(here, 0) + 1
        return self._walked(forest, crowd, coming, waiting)

    def _walked(
        self, forest: Forest, crowd: dict[int, float], coming: dict[int, float], waiting: dict[int, int]
    ) -> list[Leg]:
        legs: list[Leg] = []
        ready = [node for node, count in waiting.items() if count == 0]
        for node in ready:
            then, number = forest.next[node], forest.way[node]
            if then < 0:
                continue
            stretch = self.case.stretches[number]
            capacity, width, k, row = self.rate(number, stretch.a == node)
            start = coming.get(node, 0.0)
            if start == inf and stretch.kind not in ("door", "link"):
                start = self._setting_out(crowd[node], stretch.length, stretch.width, width, k)
            flow = min(start, capacity)
            speed = self.speed(stretch.kind, width, k, row, flow)
            people = crowd[node]
            unknown = speed != speed
            walk = stretch.length / speed if unknown or speed > 0 else inf
            queue = people / capacity if unknown or capacity > 0 else inf
            legs.append(Leg(number, node, then, people, capacity, flow, speed, walk, queue))
            crowd[then] = crowd.get(then, 0.0) + people
            coming[then] = coming.get(then, 0.0) + flow
            waiting[then] -= 1
            if waiting[then] == 0:
                ready.append(then)
        return legs

    def trips(self, forest: Forest, people: tuple[tuple[int, int], ...]) -> dict[int, Trip]:
        """Times from everybody's place, and from every node on their ways, to the snow.

        Infinite without a way out, not a number over a ladder that was not measured.
        """
        done: dict[int, Trip] = {}
        for leg in reversed(self.legs(forest, people)):
            walk, queue = done.get(leg.b, NONE)
            longest = leg.queue if leg.queue > queue or leg.queue != leg.queue else queue
            done[leg.a] = Trip(leg.walk + walk, longest)
        for node, _ in people:
            done.setdefault(node, NONE if forest.distance[node] < inf else LOST)
        return done
