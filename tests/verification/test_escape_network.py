"""Shortest ways, blockings, two separate ways and greatest flow against an independent library and brute force."""

from __future__ import annotations

import itertools
import math
import random

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from escape.stations import corridor, random_case
from firnstead.escape._blocking import Blocker
from firnstead.escape._case import Case
from firnstead.escape._flow import greatest_flow, least_clearing_time
from firnstead.escape._graph import Graph

SEEDS = st.integers(0, 10_000)


def graph(case: Case, removed: frozenset[int] = frozenset()) -> nx.Graph:
    """The same network for the independent library, with a node beyond all exits."""
    g = nx.Graph()
    g.add_nodes_from(i for i in range(len(case.spots)) if i not in removed)
    for i, row in enumerate(case.graph.edges):
        for j, length, _ in row:
            if i not in removed and j not in removed:
                g.add_edge(i, j, weight=length)
    for e in case.exits:
        if e.outside not in removed:
            g.add_edge(e.outside, "snow", weight=0.0)
    return g


def distances(case: Case, removed: frozenset[int] = frozenset()) -> dict[object, float]:
    """Distances to the nearest exit by the independent library, from scratch."""
    g = graph(case, removed)
    if "snow" not in g:
        return {}
    return dict(nx.single_source_dijkstra_path_length(g, "snow", weight="weight"))


@given(SEEDS)
def test_every_single_blocking_agrees_with_a_graph_library(seed: int) -> None:
    """Distances with each spot taken out in turn are those of shortest paths worked out from scratch."""
    case = random_case(seed)
    theirs = distances(case)
    assert all(math.isclose(case.open.distance[i], theirs[i]) for i in range(len(case.spots)))
    for block in Blocker(case).blocks:
        ours, other = case.open.without(block.removed), distances(case, block.removed)
        changed = case.open.changes(block.removed)
        for i in range(len(case.spots)):
            wanted = other.get(i, math.inf) if i not in block.removed else math.inf
            assert math.isclose(ours.distance[i], wanted)
            assert math.isclose(changed[i][0] if i in changed else case.open.distance[i], wanted)


@given(SEEDS)
def test_every_pair_agrees_with_a_graph_library(seed: int) -> None:
    """The worst distance over all pairs, and who is cut off by which, are those of the library from scratch."""
    case = random_case(seed, nodes=9, ways=11, exits=2)
    blocker = Blocker(case)
    found = blocker.pairs()
    worst = list(blocker.single().worst)
    cut = 0
    for a, b in itertools.combinations(blocker.blocks, 2):
        removed, at_it = a.removed | b.removed, a.at_it | b.at_it
        other = distances(case, removed)
        for i in range(len(case.spots)):
            if case.stands(i) and i not in removed and i not in at_it:
                d = other.get(i, math.inf)
                cut += math.isinf(d)
                worst[i] = max(worst[i], d) if d < math.inf else worst[i]
    assert found.count == len(blocker.blocks) * (len(blocker.blocks) - 1) // 2
    assert len(found.cut_off) == cut
    assert found.worst == pytest.approx(worst)


@given(SEEDS)
def test_two_separate_ways_agree_with_a_graph_library(seed: int) -> None:
    """Two ways that share no node exist exactly where the library finds two node-disjoint paths to the snow."""
    case = random_case(seed, nodes=10, ways=11, exits=3)
    choice = case.graph.two_ways([e.outside for e in case.exits])
    g = graph(case)
    for i, spot in enumerate(case.spots):
        if spot.kind == "point":
            assert (i in choice) == (nx.node_connectivity(g, i, "snow") >= 2)


@given(SEEDS)
def test_an_exit_more_never_lengthens_and_a_blocking_never_shortens(seed: int) -> None:
    """With one exit more nobody walks farther, also with spots blocked; with a spot blocked nobody walks less."""
    few, many = random_case(seed, exits=2), random_case(seed, exits=3)
    n = 14
    assert few.stretches[:18] == many.stretches[:18]
    if {e.foot for e in few.exits} <= {e.foot for e in many.exits}:
        assert all(many.open.distance[i] <= few.open.distance[i] + 1e-9 for i in range(n))
    worst = Blocker(few).single().worst
    assert all(worst[i] >= few.open.distance[i] for i in range(n))
    for block in Blocker(few).blocks:
        after = few.open.without(block.removed)
        assert all(after.distance[i] >= few.open.distance[i] - 1e-9 for i in range(n))


@given(SEEDS)
def test_greatest_flow_agrees_with_a_graph_library(seed: int) -> None:
    """The greatest flow through a random network is the library's."""
    rng = random.Random(seed)
    n = 8
    arcs = [(a, b, rng.randrange(1, 9)) for a in range(n) for b in range(n) if a != b and rng.random() < 0.35]
    g = nx.DiGraph()
    g.add_nodes_from(range(n))
    for a, b, c in arcs:
        g.add_edge(a, b, capacity=c)
    assert greatest_flow(n, arcs, 0, n - 1) == nx.maximum_flow_value(g, 0, n - 1)


@given(st.lists(st.integers(1, 4), min_size=1, max_size=3), SEEDS)
def test_no_plan_is_faster_than_the_least_clearing_time(people: list[int], seed: int) -> None:
    """Of all ways to share people among two exits the best takes no less than the bound, to a second."""
    rng = random.Random(seed)
    walks = [[rng.uniform(5, 60), rng.uniform(5, 60)] for _ in people]
    rates = [rng.uniform(0.05, 0.5), rng.uniform(0.05, 0.5)]
    bound = least_clearing_time(people, walks, rates)
    best = math.inf
    for split in itertools.product(*(range(p + 1) for p in people)):
        shares = [list(split), [p - s for p, s in zip(people, split, strict=True)]]
        ends = []
        for j in (0, 1):
            arrivals = sorted(walks[i][j] for i, s in enumerate(shares[j]) for _ in range(s))
            free = 0.0
            for arrival in arrivals:  # one after the other through the exit
                free = max(arrival, free)
                ends.append(free)
                free += 1 / rates[j]
        best = min(best, max(ends, default=0.0))
    assert bound <= best + 1.0


def test_graph_without_exits_has_no_way() -> None:
    """Where there is no exit nobody has a way, and nothing is a choice."""
    lonely = Graph.of(3, [(0, 1, 1.0), (1, 2, 1.0)])
    assert set(lonely.forest([]).distance) == {math.inf}
    assert lonely.two_ways([]) == set()


@pytest.mark.parametrize(("limit", "exits"), [(9, [0, 10, 20]), (6, [0, 7, 13, 20]), (19, [0, 20])])
def test_a_corridor_with_blocked_spots(limit: int, exits: list[int]) -> None:
    """A corridor of 21 points is served by exits at its ends and every limit + 1 points, also with any spot blocked."""
    worst = Blocker(corridor([1.0] * 20, exits)).single()
    assert max(worst.worst[:21]) <= limit
    assert not worst.cut_off
