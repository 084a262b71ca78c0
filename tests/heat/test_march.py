"""The months of a station: energy of every balance with random stations, and what follows from more heat."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from firnstead.heat.airflow import AIR_HEAT, air_density
from firnstead.heat.case import (
    BuildingCase,
    ClimateCase,
    GapCase,
    LinkCase,
    PlaceCase,
    Scenario,
    Snowfield,
    StationCase,
    VentCase,
    WellCase,
)
from firnstead.heat.march import march
from firnstead.heat.numbers import station_flows
from firnstead.snow import study as snow_study
from firnstead.snow.ground_mesh import CutOutline
from firnstead.snow.ground_response import Surroundings, ground_of, response_of, wave_at_start
from firnstead.snow.year import MONTH, monthly_surface_temperature
from firnstead.station.reader import read_station
from house.project import ROOT

MONTHS = 24
MEAN, SWING, FIRST = 245.0, 18.0, 8
SCENARIOS = (Scenario("expected", 1.0, 0.5), Scenario("poor sink", 0.7, 1.0))
OUTLINE = ((0.0, 0.0), (1.6, 0.7), (2.3, 1.8), (2.3, 3.0), (3.1, 6.8), (0.0, 6.8))


@cache
def column():
    """The snow of the first example."""
    return snow_study(read_station(ROOT / "examples" / "stations" / "first").station).result.column


@cache
def field(months=MONTHS):
    """Two kinds of section, two scenarios, on a coarse mesh."""
    rows = tuple(
        tuple(Surroundings(CutOutline(OUTLINE, patch=patch, side=15.0, size=0.8, layers=9, first=0.02), 1.5, 500.0, 3.0,
                           MEAN, SWING, (FIRST - 6) % 12, months, each.conductivity) for each in SCENARIOS)
        for patch in (1.8, 2.4)
    )  # fmt: skip
    return Snowfield(SCENARIOS, rows, tuple(tuple(response_of(s, column()) for s in row) for row in rows))


def climate(months=MONTHS):
    """The months of a northern site from September."""
    row = monthly_surface_temperature(MEAN, SWING, 6)
    return ClimateCase(MEAN, (*row[FIRST:], *row[:FIRST]), FIRST, 72000.0, months, 5.0)


def building(place=0, **changes):
    """A hut with a swept gap."""
    gap = GapCase(0.6, "trench", 0.3, 0.0, 15.0)
    base = BuildingCase(
        "hut", place, 9.6, 3.6, 2.6, 293.0, 0.35, 25.0, 5.0, 0.008, 0.0, 0.03, False, 0.5, 0.0, 400.0, gap
    )
    return replace(base, **changes)


def place(name="north", **changes):
    """A trench without ducts."""
    return replace(PlaceCase(name, 0, 36.0, 100.0, 0.0, (), (), 255.15, 250.0), **changes)


def station(places, buildings=(), links=(), gains=None, months=MONTHS):
    """A station of these."""
    rows = gains or tuple((0.0,) * 12 for _ in places)
    return StationCase(
        climate(months), tuple(places), tuple(buildings), tuple(0 for _ in buildings), tuple(links), rows
    )


share = st.floats(0.0, 1.0)


@st.composite
def stations(draw):
    """Any station of one to four places with up to five buildings, ducts, wells, leaks and doors."""
    count = draw(st.integers(1, 4))
    places = [
        PlaceCase(
            f"p{i}", draw(st.integers(0, 1)), draw(st.floats(20.0, 60.0)), draw(st.floats(0.0, 4000.0)),
            draw(st.sampled_from([0.0, 0.05, 0.3])),
            tuple(draw(st.lists(st.one_of(
                st.builds(VentCase, st.floats(0.05, 1.0), st.floats(2.0, 9.0), st.just(0.0), st.just(0.0), st.just(1)),
                st.builds(VentCase, st.just(0.0), st.just(5.0), st.floats(0.1, 3.0), st.just(500.0), st.integers(1, 2)),
            ), max_size=2))),
            tuple(draw(st.lists(st.builds(WellCase, st.floats(0.05, 1.5), st.floats(245.0, 252.0),
                                          st.floats(0.0, 2000.0), st.integers(1, 2), st.just(5.0), st.none()),
                                max_size=2))),
            255.15, draw(st.floats(248.0, 254.0)))
        for i in range(count)
    ]  # fmt: skip
    gaps = st.builds(GapCase, st.floats(0.1, 1.0), st.sampled_from(["trench", "outside", "well"]), st.floats(0.01, 2.0),
                     st.floats(245.0, 252.0), st.just(10.0)) | st.builds(
        GapCase, st.floats(0.1, 1.0), st.just("none"), st.just(0.0), st.just(0.0), st.just(0.0))  # fmt: skip
    buildings = draw(st.lists(st.builds(
        BuildingCase, st.just("b"), st.integers(0, count - 1), st.floats(4.0, 12.0), st.floats(3.0, 4.5),
        st.floats(2.2, 4.0), st.floats(270.0, 297.0), st.floats(0.2, 0.7), st.floats(5.0, 150.0), st.floats(0.3, 8.0),
        st.sampled_from([0.0, 0.02]), st.sampled_from([0.0, 0.02]), st.sampled_from([0.0, 0.1]), st.booleans(),
        st.sampled_from([0.0, 0.6]), st.just(0.0), st.floats(0.0, 8000.0), gaps), max_size=5))  # fmt: skip
    links = [LinkCase(0, i, 2.4, 2.4, draw(st.sampled_from([0.0, 0.05]))) for i in range(1, count)]
    gains = tuple(tuple(draw(st.lists(st.floats(0.0, 3000.0), min_size=12, max_size=12))) for _ in places)
    return station(places, buildings, links, gains)


def moved(parts):
    """The heat that moves."""
    return np.sum([np.abs(each) for each in parts], axis=0) + 1.0


@given(stations())
@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_every_balance_closes(case):
    """Air of each place, rooms, gaps and the whole station: what comes in goes out within 1e-6, every month."""
    made = march(case, field())
    rho_c = air_density(72000.0, MEAN) * AIR_HEAT
    parts = [*made.terms.values(), made.links]
    assert np.all(np.abs(sum(parts)) <= 1e-6 * moved(parts))
    surface = np.array([case.climate.surface[n % 12] for n in range(MONTHS)])
    snow = np.zeros_like(made.snow_heat)
    for i, b in enumerate(case.buildings):
        here, gap = made.air[:, b.place], made.gap[:, i]
        fresh = rho_c * b.ventilation * (1 - b.recovery)
        leak = made.leak[:, i] * rho_c
        lost = (b.wall_roof + leak + (0.0 if b.from_outside else fresh)) * (b.temperature - here) + made.floor_loss[
            :, i
        ]
        lost = lost + (fresh * (b.temperature - surface) if b.from_outside else 0.0)
        rooms = [made.demand[:, i] + b.gains, -made.surplus[:, i], -lost]
        assert np.all(np.abs(sum(rooms)) <= 1e-6 * moved(rooms))
        supply = {"trench": here, "outside": surface, "well": b.gap.temperature, "none": gap}[b.gap.supply]
        air = rho_c * b.gap.flow * (gap - supply)
        snow[:, b.place] += made.floor_loss[:, i] - air
    # what does not go with the gap's air goes into the snow floor, and walls take what the air gives them
    assert np.all(np.abs(made.snow_heat - snow + made.terms["snow"]) <= 1e-6 * moved([made.snow_heat, snow]))
    flows = station_flows(case, made)
    total = np.abs(sum(flows.values())).sum()
    assert total <= 1e-6 * (1.0 + sum(np.abs(each).sum() for each in flows.values()))
    assert made.residual < 0.1


@given(st.floats(0.0, 5000.0), st.sampled_from([0, 1]))
@settings(max_examples=15, deadline=None)
def test_snow_takes_what_is_given_off(gains, section):
    """A shut trench without buildings gives all its heat to the snow, every month."""
    made = march(station([place(gains=gains, section=section)]), field())
    assert made.snow_heat == pytest.approx(np.full_like(made.snow_heat, gains), rel=1e-6, abs=1e-3)


def test_the_snow_answers_as_when_it_is_solved_again():
    """Stepping the mesh with the wall's own history gives the same heat as the answers laid over one another."""
    made = march(station([place(gains=1500.0)]), field())
    around = field().surroundings[0][0]
    ground = ground_of(around, column())
    temperature = wave_at_start(around, column(), ground.mesh.points[:, 1])[:, None]
    heat = []
    for n in range(MONTHS):
        wall = made.wall[0, 0, n] - MEAN
        held = np.array([[wall], [wall], [climate().surface[n % 12] - MEAN]])
        total = 0.0
        for _ in range(8):
            temperature, entered = ground.step(temperature, held, MONTH / 8)
            total += 2.0 * float(entered[:2].sum()) / MONTH * 36.0
        heat.append(total)
    assert np.sum(heat) == pytest.approx(made.snow_heat[0, 0].sum(), rel=0.02)
    assert heat[3:] == pytest.approx(made.snow_heat[0, 0, 3:].tolist(), rel=0.1)


@given(stations(), st.floats(1.0, 2000.0))
@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_more_heat_never_cools(case, more):
    """Heat given off in one place more makes no place colder in any month.

    Wells whose fan warms more than its air cools are left out: there a thermostat may do odd things.
    """
    calm = tuple(replace(p, wells=tuple(replace(w, fan_power=0.0) for w in p.wells)) for p in case.places)
    case = replace(case, places=calm)
    warmer = replace(case, places=(replace(calm[0], gains=calm[0].gains + more), *calm[1:]))
    assert np.all(march(warmer, field()).air >= march(case, field()).air - 0.02)


def test_a_closed_gap_thaws_and_a_swept_one_does_not():
    """Without air through the gap the snow floor gets far warmer."""
    swept = march(station([place()], [building()]), field())
    closed = march(station([place()], [building(gap=GapCase(0.6, "none", 0.0, 0.0, 0.0))]), field())
    assert closed.snow_floor.max() > swept.snow_floor.max() + 5.0


def test_better_floors_keep_the_snow_colder():
    """A better floor takes less heat and leaves the snow below colder, at every depth."""
    poor = march(station([place()], [building(floor_resistance=2.0)]), field())
    good = march(station([place()], [building(floor_resistance=8.0)]), field())
    assert np.all(good.floor_loss < poor.floor_loss)
    assert np.all(good.snow_floor <= poor.snow_floor)
    assert np.all(good.probe[:, 0, :, -1] < poor.probe[:, 0, :, -1])
    assert good.demand[0, 0].mean() < poor.demand[0, 0].mean()


def test_vents_shut_while_the_surface_is_warmer():
    """A gravity vent never warms a trench: where the surface is warmer it does nothing."""
    vent = VentCase(1.0, 7.0, 0.0, 0.0, 1)
    made = march(station([place(vents=(vent,), gains=1000.0)]), field())
    assert made.terms["vents"].max() <= 0.0
    assert made.terms["vents"].min() < -100.0


def test_surface_air_through_portals_warms_in_summer_and_cools_in_winter():
    """Leaks to the surface turn round in summer."""
    made = march(station([place(outside_leak=0.2, gains=0.0)]), field())
    assert made.terms["outside"][0, 0].max() > 0.0 > made.terms["outside"][0, 0].min()


def test_the_trench_warms_for_years():
    """With the same heat each year the yearly mean rises, ever more slowly."""
    made = march(station([place(gains=2000.0)], months=72), field(72))
    years = made.air[0, 0].reshape(-1, 12).mean(axis=1)
    steps = np.diff(years)
    assert np.all(steps > 0)
    assert np.all(np.diff(steps) < 0)


def test_an_open_doorway_evens_out():
    """Two places with an open doorway are nearer in temperature than with a shut door."""
    two = [place("a", gains=3000.0), place("b", gains=0.0)]
    apart = {}
    for name, leak in (("open", 0.0), ("shut", 0.05)):
        air = march(station(two, links=[LinkCase(0, 1, 2.4, 2.4, leak)]), field()).air
        apart[name] = float(np.abs(air[0, 0] - air[0, 1]).max())
    assert apart["open"] < 0.3 * apart["shut"]
