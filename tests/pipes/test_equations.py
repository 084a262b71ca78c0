"""How the equations of pipes behave: no jumps, limits, signs."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.pipes.expansion import length_change, loop_leg
from firnstead.pipes.flowing import least_flow, least_flow_legs, temperature_along
from firnstead.pipes.freezing import dead_leg_limit, time_to_freeze_share, time_to_temperature
from firnstead.pipes.line import Wrapping, resistance_line
from firnstead.pipes.resistance import (
    critical_radius,
    film_still_air_iso_12241,
    film_wind_iso_12241,
    loss_insulation,
    surface_temperature,
)
from firnstead.pipes.sewer import fall, fall_after_heave, heave_margin, wetted_share
from firnstead.pipes.thaw import thaw_cylinder
from firnstead.pipes.tracing import cable_length, circuit_current, circuits_needed, tracing_needed

temperatures = st.floats(200.0, 272.0)


def line(thickness, growth=0.0):
    """A DN50 line with one layer."""
    return Wrapping(0.0525, 0.0603, 50.0, ((thickness, 0.03, growth),), 0.0008, 0.9)


@pytest.mark.parametrize("diameter", [0.01, 0.1, 0.3])
def test_wind_film_has_no_jump(diameter):
    """Through the standard's change of branch the film coefficient grows evenly and never lies below either branch."""
    at = 8.55e-3 / diameter
    speeds = [at * (0.5 + 0.001 * i) for i in range(20_000)]
    films = [film_wind_iso_12241(diameter, v) for v in speeds]
    assert all(1 <= b / a < 1.01 for a, b in pairwise(films))
    assert film_wind_iso_12241(diameter, at) == pytest.approx(2.44 * 8.9 * at**0.9 / diameter**0.1, rel=0.01)


@given(st.floats(0.01, 1.0), st.floats(0.01, 100.0), st.booleans())
def test_still_air_film_has_no_jump(diameter, difference, vertical):
    """The film coefficient of still air grows evenly with the difference of temperature."""
    a = film_still_air_iso_12241(diameter, difference, vertical=vertical)
    b = film_still_air_iso_12241(diameter, difference * 1.001, vertical=vertical)
    assert a < b < 1.001 * a


@given(st.floats(230.0, 380.0), temperatures, st.floats(1e-4, 20.0), st.floats(0.02, 0.8), st.floats(0.0, 10.0))
def test_heat_through_the_surface_is_kept(inside, air, below, diameter, speed):
    """What comes through the insulation leaves the surface, for warm and for cold lines."""
    surface = surface_temperature(inside, air, below, diameter, 0.5, speed)
    assert min(inside, air) - 1e-9 <= surface <= max(inside, air) + 1e-9
    film = film_still_air_iso_12241(diameter, abs(surface - air))
    film = max(film, film_wind_iso_12241(diameter, speed)) if speed > 0 else film
    film += 0.5 * 5.670374e-8 * (surface**2 + air**2) * (surface + air)
    assert (inside - surface) / below == pytest.approx(math.pi * diameter * film * (surface - air), rel=1e-6, abs=1e-6)


@given(st.floats(0.01, 0.2), st.floats(0.001, 0.1), temperatures)
def test_more_insulation_keeps_more_heat(thickness, more, air):
    """Beyond the critical radius more insulation raises the resistance; moving air and wet insulation lower it."""
    thin, thick = (resistance_line(line(t), 283.15, air) for t in (thickness, thickness + more))
    assert thick.total > thin.total
    assert resistance_line(line(thickness), 283.15, air, speed=5.0).total <= thin.total
    assert resistance_line(line(thickness), 283.15, air, wet=3.0).total < thin.total
    assert resistance_line(line(thickness), 283.15, air, share=0.5).total < thin.total


def test_a_thin_tube_loses_more_under_thin_insulation():
    """Below the critical radius insulation raises the loss."""
    tube = Wrapping(0.004, 0.006, 390.0, (), 0.0, 0.05)
    wrapped = Wrapping(0.004, 0.006, 390.0, ((0.001, 0.06, 0.0),), 0.0, 0.05)
    bare = resistance_line(tube, 278.15, 253.15)
    assert resistance_line(wrapped, 278.15, 253.15).total < bare.total
    assert critical_radius(0.06, bare.radiation + bare.convection) > 0.003


def test_hot_insulation_conducts_better():
    """With growth of conductivity a hot line loses more than at the declared value, a cold one less."""
    for inside, worse in ((393.15, True), (278.15, False)):
        grown = resistance_line(line(0.05, 0.005), inside, 233.15).total
        assert (grown < resistance_line(line(0.05), inside, 233.15).total) == worse


def test_published_losses_of_hot_rows_are_higher_than_at_constant_conductivity():
    """The rows for 100 and 200 degF of the handbook lie 5 and 13 % above constant conductivity: it grows."""
    for difference, published, share in ((100.0, 11.5, 0.05), (200.0, 24.7, 0.13)):
        watts = loss_insulation(2.375 * 0.0254, 3.375 * 0.0254, 0.25 * 0.1442279, difference * 5 / 9) * 0.3048
        assert published / watts - 1 == pytest.approx(share, abs=0.01)


@given(st.floats(274.0, 300.0), temperatures, st.floats(500.0, 5e4), st.floats(0.5, 10.0))
def test_times_grow_with_what_they_should(start, air, content, resistance):
    """Time to 0 degC grows with content, resistance and starting temperature, and falls with colder air."""

    def time(**change):
        given = {"start": start, "end": 273.15, "air": air, "content": content, "resistance": resistance, **change}
        return time_to_temperature(**given)

    assert time() > 0
    assert time(start=start + 1) > time() > time(air=air - 1)
    assert time(content=2 * content) == pytest.approx(2 * time())
    assert time(resistance=2 * resistance) == pytest.approx(2 * time())


def test_limits_of_times():
    """Air at or above the freezing point never freezes a line; a line at its freezing point has no time left."""
    assert math.isinf(time_to_temperature(280.0, 273.15, 273.15, 1e4, 5.0))
    assert time_to_temperature(273.15, 273.15, 250.0, 1e4, 5.0) == 0
    assert math.isinf(time_to_freeze_share(0.5, 273.15, 274.0, 3e8, 0.05, 5.0, 2.2))
    shares = [time_to_freeze_share(f, 273.15, 240.0, 3e8, 0.05, 5.0, 2.2) for f in (0.05, 0.25, 0.5, 1.0)]
    assert shares == sorted(shares)
    assert math.isinf(dead_leg_limit(280.0, 274.0, 274.0, 5.0, 0.05))
    assert dead_leg_limit(274.0, 274.0, 250.0, 5.0, 0.05) == 0


def test_limits_of_flow():
    """Warm air needs no flow, too cold a supply finds none; no flow leaves the air's temperature, tracing lifts it."""
    assert least_flow(278.0, 274.0, 275.0, 100.0, 4200.0, 5.0) == 0
    assert math.isinf(least_flow(274.0, 274.0, 250.0, 100.0, 4200.0, 5.0))
    assert math.isinf(least_flow_legs(274.0, 274.0, [(100.0, 250.0, 5.0)], 4200.0))
    assert least_flow_legs(278.0, 274.0, [(100.0, 275.0, 5.0)], 4200.0) == 0
    assert temperature_along(280.0, 250.0, 10.0, 0.0, 4200.0, 5.0) == 250.0
    assert temperature_along(280.0, 250.0, 10.0, 0.0, 4200.0, 5.0, heating=6.0) == 280.0
    one = least_flow(278.0, 274.0, 240.0, 300.0, 4200.0, 5.0)
    assert least_flow_legs(278.0, 274.0, [(100.0, 240.0, 5.0)] * 3, 4200.0) == pytest.approx(one, rel=1e-9)


def test_tracing_and_its_circuits():
    """A strapped round cable needs half as much again; whole circuits; current from power."""
    assert tracing_needed(8.0, 1.25, 1.5) == 1.5 * tracing_needed(8.0, 1.25, 1.0)
    assert [circuits_needed(length, 100.0) for length in (99.0, 100.0, 100.1)] == [1, 1, 2]
    assert cable_length(100.0, 0.0) == pytest.approx(105.0)
    assert circuit_current(20.0, 230.0, 2, 230.0) == pytest.approx(10.0)


def test_falls():
    """A rising lower floor takes fall away, a rising upper one gives it; the margin is what makes it just enough."""
    present = fall(-5.0, -5.6, 30.0)
    assert fall_after_heave(present, 30.0, 0.0, 0.01, 10.0) < present < fall_after_heave(present, 30.0, 0.01, 0.0, 10.0)
    spare = heave_margin(present, 0.01, 30.0)
    assert fall_after_heave(present, 30.0, 0.0, spare, 1.0) == pytest.approx(0.01)
    assert math.isinf(wetted_share(0.001, 0.1, 0.0))
    assert wetted_share(0.001, 0.1, 0.02) < wetted_share(0.001, 0.1, 0.01) < wetted_share(0.002, 0.1, 0.01)


def test_expansion():
    """Twice the length needs a leg longer by the square root of two."""
    one, two = (loop_leg(length_change(length, 12e-6, 50.0), 0.06, 2e11, 1.2e8) for length in (20.0, 40.0))
    assert two == pytest.approx(one * math.sqrt(2))


def test_nothing_thaws_round_a_cold_jacket():
    """With the jacket at or below 0 degC the cylinder is the pipe itself; it grows with warmth."""
    assert thaw_cylinder(273.15, 1.0, 0.1, 273.15, 250.0, 0.5, 0.5) == (1.0, 0.1)
    radii = [thaw_cylinder(t, 1.0, 0.1, 273.15, 250.0, 0.5, 0.5)[1] for t in (274.0, 280.0, 300.0)]
    assert radii == sorted(radii)
