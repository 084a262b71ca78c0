"""Hatch siting: set covers against brute force and bounds, corridors by hand, the model against the study."""

from __future__ import annotations

import itertools
import math
import random
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from escape.stations import LIMITS, corridor, random_case, with_exits
from firnstead.escape._blocking import Blocker
from firnstead.escape._case import Case
from firnstead.escape._siting_model import Candidate, Model
from firnstead.escape.cover import Row, Solver, fewest_cover


@given(st.integers(0, 10_000))
def test_small_covers_agree_with_brute_force(seed: int) -> None:
    """With rows that hold always and rows that hold only if a spot is taken, no smaller choice serves all rows."""
    rng = random.Random(seed)
    n = 7
    rows = []
    for _ in range(rng.randrange(2, 12)):
        given_spot = rng.choice([-1, -1, rng.randrange(n)])
        rows.append(Row(sum(1 << j for j in rng.sample(range(n), rng.randrange(1, 4))), given_spot))

    def serves(taken: int) -> bool:
        return all(row.mask & taken or (row.given >= 0 and not taken >> row.given & 1) for row in rows)

    least = min(bin(t).count("1") for t in range(1 << n) if serves(t))
    found = Solver(n, rows).fewest(20.0)
    assert found.proven
    assert found.count == least
    assert serves(sum(1 << j for j in found.chosen))


def test_larger_covers_lie_between_the_linear_bound_and_the_greedy_choice() -> None:
    """A cover of 60 spots and 200 rows is no less than its linear relaxation and no more than a greedy choice."""
    rng = random.Random(5)
    rows = [rng.sample(range(60), rng.randrange(3, 9)) for _ in range(200)]
    found = fewest_cover(rows, 60)
    matrix = np.zeros((200, 60))
    for r, row in enumerate(rows):
        matrix[r, row] = -1.0
    relaxed = linprog(np.ones(60), A_ub=matrix, b_ub=-np.ones(200), bounds=(0, 1)).fun
    left, greedy = [set(row) for row in rows], 0
    while left:
        best = max(range(60), key=lambda j: sum(j in row for row in left))
        left, greedy = [row for row in left if best not in row], greedy + 1
    assert found.proven
    assert math.ceil(relaxed - 1e-9) <= found.count <= greedy
    assert all(set(row) & set(found.chosen) for row in rows)


@pytest.mark.parametrize(("points", "least"), [("plane", 7), ("tripled", 18)])
def test_covers_of_known_size(points: str, least: int) -> None:
    """The lines of a projective space of 15 points need 7 (a hyperplane), a tripled Steiner system of 27 needs 18."""
    if points == "plane":
        rows = {tuple(sorted((a - 1, b - 1, (a ^ b) - 1))) for a, b in itertools.combinations(range(1, 16), 2)}
        assert fewest_cover(sorted(rows), 15).count == least
        return
    plane = [(0, 1, 2), (3, 4, 5), (6, 7, 8), (0, 3, 6), (1, 4, 7), (2, 5, 8), (0, 4, 8), (1, 5, 6), (2, 3, 7),
             (0, 5, 7), (1, 3, 8), (2, 4, 6)]  # fmt: skip
    rows = {tuple(9 * i + p for p in line) for i in range(3) for line in plane}
    rows |= {(p, 9 + p, 18 + p) for p in range(9)}
    rows |= {
        tuple(sorted(9 * i + q for i, q in enumerate(each))) for line in plane for each in itertools.permutations(line)
    }
    assert fewest_cover(sorted(rows), 27).count == least


def bare(case: Case, limit: float) -> Case:
    """A case without exits, with one limit for everything and nobody taken to be at a blocked spot."""
    limits = replace(LIMITS, travel=limit, dead_end=0.0)
    spots, stretches = case.spots, case.stretches
    points = [i for i, s in enumerate(spots) if s.kind == "point"]
    keep = len(points)
    assert points == list(range(keep))
    ways = tuple(s for s in stretches if s.b < keep)
    return replace(case, spots=spots[:keep], stretches=ways, exits=(), limits=limits, blocked_travel=limit, apart=0.0)


def everywhere(case: Case) -> tuple[Candidate, ...]:
    """A candidate at every point."""
    return tuple(Candidate(i, "C", s.at, s.x, s.y, 0.0, "") for i, s in enumerate(case.spots))


def brute(case: Case, limit: float) -> int:
    """Fewest exits so that everybody has one within the limit, open and with every other point taken out: all tried."""
    n = len(case.spots)
    for size in range(1, n + 1):
        for feet in itertools.combinations(range(n), size):
            ok = max(case.graph.forest(feet).distance) <= limit
            for v in range(n):
                if not ok:
                    break
                left = [f for f in feet if f != v]
                found = case.graph.forest(left, frozenset({v})).distance
                ok = all(found[i] <= limit for i in range(n) if i != v)
            if ok:
                return size
    return 0


@pytest.mark.parametrize(("limit", "least"), [(9, 3), (6, 4), (19, 2)])
def test_the_corridor_of_21_points(limit: float, least: int) -> None:
    """With every spot blocked in turn a corridor of 21 unit steps needs 3, 4 and 2 exits; its ends are among them."""
    case = bare(corridor([1.0] * 20, []), limit)
    model = Model(case, everywhere(case), limit, limit)
    found = Solver(21, model.build(None)).fewest(20.0)
    assert found.proven
    assert found.count == least == 1 + math.ceil(20 / (limit + 1))
    assert {0, 20} <= set(found.chosen)


@pytest.mark.parametrize("seed", range(12))
def test_siting_on_random_networks_agrees_with_brute_force(seed: int) -> None:
    """On small random networks with loops the fewest exits are those of trying every choice and every blocking."""
    limit = 25.0 + 5 * (seed % 3)
    case = bare(random_case(seed, nodes=9, ways=11, exits=0), limit)
    model = Model(case, everywhere(case), limit, limit)
    solver = Solver(9, model.build(None))
    least = brute(case, limit)
    if solver.hopeless:
        assert least == 0
    else:
        found = solver.fewest(20.0)
        assert found.proven
        assert found.count == least


@pytest.mark.parametrize("seed", range(6))
def test_chosen_spots_pass_every_blocking(seed: int) -> None:
    """Exits put where the model says leave nobody cut off when the study's own blockings look at them."""
    limit = 40.0
    case = bare(random_case(seed, nodes=12, ways=15, exits=0), limit)
    solver = Solver(12, Model(case, everywhere(case), limit, limit).build(None))
    if solver.hopeless:
        return
    feet = solver.fewest(20.0).chosen
    built = with_exits(list(case.spots), list(case.stretches), list(feet), 50.0, 3.0)
    built = replace(built, limits=case.limits, blocked_travel=limit, apart=0.0)
    found = Blocker(built).single()
    assert not found.cut_off
    assert max(found.worst[i] for i in range(12)) <= limit + 1e-9


def test_one_spot_fewer_leaves_the_least_unserved() -> None:
    """With too few spots as many rows as possible are served, and the rest is named."""
    rows = [Row(0b001), Row(0b010), Row(0b100), Row(0b110)]
    found = Solver(3, rows).at_most(2, 20.0)
    assert found.count <= 2
    assert len(found.missed) == 1
    assert Solver(3, [Row(0), Row(0b1)]).hopeless == (Row(0),)
