"""Walking and queueing: by hand, conservation of people, what makes it slower."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from escape.stations import corridor, hour, random_case, rooms_at
from firnstead.core.errors import FirnsteadError
from firnstead.escape import hydraulic, imo
from firnstead.escape._answers import Answers
from firnstead.escape._case import Climb
from firnstead.escape._times import MODELS, Timing


@pytest.mark.parametrize("model", MODELS)
def test_one_person_walks_freely(model: str) -> None:
    """One person in a wide corridor walks at the free speed and passes a wide opening in no time to speak of."""
    case = corridor([20.0, 20.0], [0], width=40.0)
    trip = Timing(case, model, 1.0).trips(case.open, ((2, 1),))[2]
    assert trip.walk == pytest.approx(40.0 / (1.2 if model == "imo" else 1.4 * (1 - 0.266 * 0.54)))
    assert trip.queue <= 0.1


def test_the_narrowest_way_governs() -> None:
    """Forty people from a room through a door of 0.9 m and a wide corridor: the door's flow is the queue."""
    case = rooms_at(corridor([30.0], [0], width=6.0), (1,))
    room = case.rooms[0].node
    trips = Timing(case, "hydraulic", 1.0).trips(case.open, ((room, 40),))
    assert trips[room].queue == pytest.approx(40 / (1.4 / (4 * 0.266) * 0.6))
    assert trips[room].queue == pytest.approx(51, abs=0.7)  # as worked out by hand
    assert Timing(case, "imo", 1.0).trips(case.open, ((room, 40),))[room].queue == pytest.approx(40 / (1.3 * 0.9))


def test_a_ladder_counts_as_measured() -> None:
    """Ten people by a ladder with ten seconds between them queue 100 s and climb 6 m at 0.5 m/s; slower in the dark."""
    case = corridor([10.0], [0], ladder=True)
    trips = Timing(case, "hydraulic", 1.0).trips(case.open, ((1, 10),))
    assert trips[1].queue == pytest.approx(100.0)
    climb = trips[case.exits[0].base].walk
    assert climb == pytest.approx(12.0)
    dark = Timing(case, "hydraulic", 0.5).trips(case.open, ((1, 10),))
    assert dark[1].queue == pytest.approx(200.0)
    bare = replace(case, exits=tuple(replace(e, climb=None) for e in case.exits))
    assert math.isnan(Timing(bare, "imo", 1.0).trips(bare.open, ((1, 10),))[1].queue)


@pytest.mark.parametrize("model", MODELS)
@given(seed=st.integers(0, 10_000), count=st.integers(1, 30))
def test_nobody_is_lost(model: str, seed: int, count: int) -> None:
    """Whoever starts arrives: people over the last stretches add up to all; walking times are no shorter than free."""
    case = random_case(seed)
    people = tuple((i, 1 + (seed + i) % count) for i in range(0, 14, 3))
    legs = Timing(case, model, 1.0).legs(case.open, people)
    outside = {e.outside for e in case.exits}
    assert sum(leg.people for leg in legs if leg.b in outside) == sum(n for _, n in people)
    trips = Timing(case, model, 1.0).trips(case.open, people)
    for node, _ in people:
        assert trips[node].walk >= case.open.distance[node] / 1.2 - 1e-9
        assert trips[node].queue >= 0


@given(seed=st.integers(0, 10_000), factor=st.floats(0.1, 1.0))
def test_more_people_or_less_light_never_helps(seed: int, factor: float) -> None:
    """Twice as many people queue no shorter; at a share of the speed everything takes longer in proportion or more."""
    case = random_case(seed)
    one, two = ((5, 3), (9, 4)), ((5, 6), (9, 8))
    for model in MODELS:
        light = Timing(case, model, 1.0)
        few, many = light.trips(case.open, one), light.trips(case.open, two)
        dark = Timing(case, model, factor).trips(case.open, one)
        for node in (5, 9):
            assert many[node].queue >= few[node].queue
            assert dark[node].total >= few[node].total * (1 - 1e-9)
            assert dark[node].walk == pytest.approx(few[node].walk / factor)


def test_time_needed_takes_the_longer_model_with_reaction_and_margin() -> None:
    """Needed = 1.25 (reaction + travel), travel the longer of hydraulic and corrected simplified method."""
    case = replace(corridor([30.0], [0]), hours=(hour({1: 20}, reaction=300.0),))
    a = Answers(case)
    row = a.slowest(case.hours[0], blocked=False)
    assert row is not None
    assert row.needed == pytest.approx(1.25 * (300 + max(row.hydraulic.total, 2.3 * row.imo.total)))


def test_a_blocked_spot_sends_people_the_other_way() -> None:
    """With the near exit's passage blocked the far exit takes all, and the slowest of all cases is slower."""
    case = corridor([10.0, 10.0, 10.0, 10.0], [0, 4])
    case = replace(case, hours=(hour({1: 5}),), limits=replace(case.limits, dead_end=0.0))
    a = Answers(case)
    quiet, worst = a.slowest(case.hours[0], blocked=False), a.slowest(case.hours[0], blocked=True)
    assert quiet is not None
    assert worst is not None
    assert worst.block == "e0"
    assert worst.needed > quiet.needed
    assert a.times["h", "e0"].use == {case.exits[1].outside: 5}
    assert a.guided["h"] <= quiet.hydraulic.total + 1.0  # known to a second


def test_carried_persons_need_a_way_that_a_stretcher_passes() -> None:
    """By a hatch without a trial for carried persons nobody is carried; with one, it takes its time."""
    case = corridor([10.0, 10.0], [0, 2], ladder=True)
    case = replace(case, hours=(replace(hour({1: 1}), injured=((1, 2),)),))
    none = Answers(case).carried(case.hours[0])
    assert none is not None
    assert math.isinf(none.needed)
    lift = Climb(10.0, 0.5, 240.0, "trial")
    case = replace(case, exits=tuple(replace(e, climb=lift) for e in case.exits))
    some = Answers(case).carried(case.hours[0])
    assert some is not None
    assert some.needed == pytest.approx(1.25 * (16.0 / 0.4 + 2 * 240.0))


def test_models_agree_with_their_tables_at_the_ends() -> None:
    """Nobody moves in a jam, and no width behind a point is refused."""
    assert hydraulic.speed_hydraulic(3.9) == 0.0
    assert hydraulic.passing_time(5, 0.0) == math.inf
    assert hydraulic.density_free(99.0) == pytest.approx(1 / (2 * hydraulic.A))
    assert imo.speed_imo(9.0) == 0.10
    assert imo.kind_of_slope(-30.0) == "down"
    with pytest.raises(FirnsteadError):
        hydraulic.specific_flow_after(1.0, 1.0, 0.0, 0.0, 0.0)
