"""What was found out about one case: distances, blockings, times; everything that checks and results are made of."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from firnstead.escape import hydraulic, imo
from firnstead.escape._blocking import Block, Blocker, Blockings
from firnstead.escape._case import Case, Hour
from firnstead.escape._flow import least_clearing_time
from firnstead.escape._graph import Forest
from firnstead.escape._times import MODELS, Timing, Trip


@dataclass(frozen=True)
class Slowest:
    """The slowest of an hour: who, what is blocked, walk and queue by both models, time needed."""

    node: int
    block: str
    hydraulic: Trip
    imo: Trip
    needed: float


@dataclass(frozen=True, eq=False)
class CaseTimes:
    """One hour with one spot blocked: the forest, rows of people, times from every node on the ways, people by exit."""

    forest: Forest
    rows: dict[int, Slowest]
    hydraulic: dict[int, Trip]
    imo: dict[int, Trip]
    use: dict[int, int]


@dataclass(frozen=True)
class Carried:
    """Those who must be carried: the last of them is out, worst spot blocked."""

    node: int
    block: str
    distance: float
    exit: str
    count: int
    lift: float
    needed: float


@dataclass(eq=False)
class Answers:
    """Answers of one case, each worked out when it is asked for."""

    case: Case
    changed: tuple[str, ...] = ()
    """Limits that the file sets otherwise than the preset."""
    with_pairs: bool = False
    _timings: dict[tuple[str, float], Timing] = field(default_factory=dict)
    _exits: dict[int, list[float]] = field(default_factory=dict)

    @cached_property
    def blocker(self) -> Blocker:
        """All blockings."""
        return Blocker(self.case)

    @cached_property
    def single(self) -> Blockings:
        """Every spot blocked in turn."""
        return self.blocker.single()

    @cached_property
    def choice(self) -> set[int]:
        """Nodes from which two separate ways lead to two exits."""
        return self.case.graph.two_ways([e.outside for e in self.case.exits])

    @cached_property
    def choice_forest(self) -> Forest:
        """Shortest walks to where two separate ways are open."""
        return self.case.graph.forest(sorted(self.choice))

    @cached_property
    def to_choice(self) -> list[float]:
        """Walk from every node until two separate ways are open; where they never are, the walk to the exit."""
        return [min(a, b) for a, b in zip(self.choice_forest.distance, self.case.open.distance, strict=True)]

    @cached_property
    def numbers(self) -> dict[str, int]:
        """Number of every node by name."""
        return {spot.name: i for i, spot in enumerate(self.case.spots)}

    @cached_property
    def to_refuge(self) -> Forest:
        """Shortest ways to refuges."""
        return self.case.graph.forest([node for node, _, _ in self.case.refuges])

    def forest(self, block: Block | None) -> Forest:
        """Shortest ways with a spot blocked, or with none."""
        return self.case.open if block is None else self.case.open.without(block.removed)

    @cached_property
    def moving(self) -> tuple[Block, ...]:
        """Blockings that change somebody's way at some hour."""
        occupied = {node for hour in self.case.hours for node, _ in (*hour.people, *hour.injured)}
        return tuple(b for b in self.blocker.blocks
                     if occupied.intersection(self.case.open.hanging(b.removed)) - b.at_it)  # fmt: skip

    @cached_property
    def forests(self) -> tuple[tuple[Block | None, Forest], ...]:
        """Open, then every blocking that changes somebody's way."""
        return tuple((b, self.forest(b)) for b in (None, *self.moving))

    def forests_of(self, node: int) -> list[tuple[Block | None, Forest]]:
        """Open, then every blocking that changes the way of this node."""
        path = set(self.case.open.route(node))
        blocks = [b for b in self.blocker.blocks if path & b.removed and node not in b.at_it]
        kept = {id(b): f for b, f in self.forests if b is not None}
        return [(None, self.case.open), *((b, kept.get(id(b)) or self.forest(b)) for b in blocks)]

    def timing(self, model: str, factor: float) -> Timing:
        """Times by a model at a share of the walking speed."""
        return self._timings.setdefault((model, factor), Timing(self.case, model, factor))

    @cached_property
    def times(self) -> dict[tuple[str, str], CaseTimes]:
        """By hour and blocked spot (empty: none): walk, queue and time needed of everybody who is not at that spot.

        With a spot blocked only those are listed who leave by an exit that gains or loses somebody by it: the others
        walk as they do with nothing blocked.
        """
        found: dict[tuple[str, str], CaseTimes] = {}
        base = self.case.open
        for hour in self.case.hours:
            ends = {node: base.end(node) for node, _ in hour.people}
            found[hour.name, ""] = self._case_times(hour, base, None, hour.people, ends)
            for block, forest in self.forests[1:]:
                new = {node: forest.end(node) for node in ends}
                moved = [
                    node for node in ends if forest.distance[node] != base.distance[node] or new[node] != ends[node]
                ]
                touched = {end for node in moved for end in (ends[node], new[node])}
                people = tuple(row for row in hour.people if new[row[0]] in touched)
                if people and block is not None:
                    found[hour.name, block.name] = self._case_times(hour, forest, block, people, new)
        return found

    def _case_times(
        self, hour: Hour, forest: Forest, block: Block | None, people: tuple[tuple[int, int], ...], ends: dict[int, int]
    ) -> CaseTimes:
        first, other = (self.timing(m, hour.factor).trips(forest, people) for m in MODELS)
        at_it = frozenset[int]() if block is None else block.at_it | block.removed
        name = "" if block is None else block.name
        rows = {node: Slowest(node, name, first[node], other[node],
                              self.needed(hour, first[node], other[node]))
                for node, _ in people if node not in at_it}  # fmt: skip
        use: dict[int, int] = {}
        for node, count in people:
            use[ends[node]] = use.get(ends[node], 0) + count
        return CaseTimes(forest, rows, first, other, use)

    def needed(self, hour: Hour, hydraulic: Trip, other: Trip) -> float:
        """The longer of the two models' times, with reaction and margin; not a number where a ladder is unmeasured."""
        a, b = hydraulic.total, imo.travel_time_imo(other.total)
        travel = max(a, b) if a == a and b == b else float("nan")
        return imo.time_needed(hour.reaction, travel, self.case.margin)

    def slowest(self, hour: Hour, blocked: bool) -> Slowest | None:
        """Whoever needs longest at an hour, with nothing blocked or over all cases; those cut off count as infinite."""
        rows = [row for (name, block), found in self.times.items() if name == hour.name and (blocked or not block)
                for row in found.rows.values()]  # fmt: skip
        return max(rows, key=lambda row: (row.needed != row.needed, row.needed), default=None)

    def carried(self, hour: Hour) -> Carried | None:
        """The carried: to the nearest exit that a stretcher passes, or a refuge; they wait for one another there."""
        case = self.case
        if not hour.injured:
            return None
        lifts = {e.outside: 0.0 if e.kind == "portal" else e.climb.carried if e.climb is not None else None
                 for e in case.exits}  # fmt: skip
        ends = [node for node, lift in lifts.items() if lift is not None] + [node for node, _, _ in case.refuges]
        base = case.graph.forest(ends)
        worst: Carried | None = None
        for block in (None, *self.blocker.blocks):
            if block is not None and not {n for n, _ in hour.injured}.intersection(base.hanging(block.removed)):
                continue
            forest = base if block is None else base.without(block.removed)
            crowd: dict[int, int] = {}
            last = {node: (forest.route(node) or [-1])[-1] for node, _ in hour.injured}
            for node, count in hour.injured:
                crowd[last[node]] = crowd.get(last[node], 0) + count
            for node, _ in hour.injured:
                if block is not None and node in block.at_it:
                    continue
                end, d = last[node], forest.distance[node]
                lift = (lifts.get(end) or 0.0) / hour.factor
                walk = d / (case.carrying_speed * hour.factor)
                need = imo.time_needed(hour.reaction, walk + lift * crowd[end], case.margin)
                if worst is None or need > worst.needed:
                    name = case.exit_of[end].name if end in case.exit_of else "" if end < 0 else case.spots[end].name
                    worst = Carried(node, "" if block is None else block.name, d, name, crowd[end], lift, need)
        return worst

    @cached_property
    def guided(self) -> dict[str, float]:
        """By hour: no plan brings everybody out sooner than this, whoever goes where (hydraulic model) [s]."""
        return {hour.name: least_clearing_time(*self._choices(hour)) for hour in self.case.hours}

    def _choices(self, hour: Hour) -> tuple[list[int], list[list[float]], list[float]]:
        """People of each group, their walking times to each exit, persons a second through each exit."""
        timing = self.timing("hydraulic", hour.factor)
        free = hydraulic.speed_hydraulic(0.0) * timing.scale
        rates, walks = [], []
        for each in self.case.exits:
            number = next(i for i, s in enumerate(self.case.stretches) if s.b == each.outside)
            rate, length = timing.rate(number, True), self.case.stretches[number].length
            rates.append(rate.capacity)
            climb = length / rate.k if each.climb is not None else length / free
            level = length if each.climb is not None else 0.0  # of the distances, which leave out ramps
            walks.append([(d - level) / free + climb for d in self._from_exit(each.outside)])
        groups = [node for node, _ in hour.people]
        return [count for _, count in hour.people], [[walk[node] for walk in walks] for node in groups], rates

    def _from_exit(self, outside: int) -> list[float]:
        found = self._exits.get(outside)
        if found is None:
            found = self._exits[outside] = self.case.graph.forest([outside]).distance
        return found

    @cached_property
    def pairs(self) -> Blockings | None:
        """Every two spots blocked, if asked for."""
        return self.blocker.pairs() if self.with_pairs else None
