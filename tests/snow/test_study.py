"""The study: which verdicts a station gets from what it measured, and that every working can be followed."""

import math

import pytest

from firnstead.core.results import Verdict
from firnstead.core.working import evaluate
from firnstead.snow import study
from firnstead.station.site import MeasuredStrength

SAMPLE = {"measured_strength": 1e5, "measured_age": 2e5}


def sample(depth, strength):
    """A measured strength of natural snow."""
    return MeasuredStrength.model_construct(depth=depth, strength=strength)


def changed(station, *, site=None, snow=None, milled=None):
    """The station with some fields of its site, snow and milled snow changed, unchecked."""
    milled_snow = station.snow.milled.model_copy(update=milled or {})
    return station.model_copy(
        update={
            "site": station.site.model_copy(update=site or {}),
            "snow": station.snow.model_copy(update={"milled": milled_snow, **(snow or {})}),
        }
    )


def verdicts(station):
    """Verdict by key."""
    return {check.key: check.verdict for check in study(station).checks}


def test_example_station(first) -> None:
    """The example has a measured core that agrees with the law, and no strength measured."""
    found = verdicts(first.station)
    assert found["snow.core_against_law"] == Verdict.HOLDS
    assert found["snow.natural_strength"] == Verdict.NOT_CHECKED
    assert found["snow.milled_strength"] == Verdict.NOT_CHECKED
    assert Verdict.FAILS not in found.values()


@pytest.mark.parametrize("name", ["first", "full"])
def test_workings_can_be_followed(name, request) -> None:
    """Every formula of every working gives its value from its inputs."""
    station = request.getfixturevalue(name).station
    station = changed(
        station,
        snow={"strengths": (sample(3.0, 4e5),)},
        milled={**SAMPLE, "measured_temperature": 250.0},
    )
    steps = [step for check in study(station).checks for step in check.working if step.formula]
    assert len(steps) >= 8
    for step in steps:
        assert evaluate(step) == pytest.approx(step.value, rel=1e-9)


def test_nothing_measured(first) -> None:
    """Without layers the law alone stands, the comparison is not made, and the depths come from the law."""
    found = study(changed(first.station, snow={"layers": ()}))
    keys = {check.key: check for check in found.checks}
    assert keys["snow.core_against_law"].verdict == Verdict.NOT_CHECKED
    assert found.result.measured_depth == 0.0
    assert found.result.depth_of_550 == pytest.approx(found.result.law_depth_of_550)


def test_core_that_contradicts_the_climate(first) -> None:
    """A core far denser than the climate allows fails the comparison."""
    layers = tuple(layer.model_copy(update={"density": layer.density + 130}) for layer in first.station.snow.layers)
    assert verdicts(changed(first.station, snow={"layers": layers}))["snow.core_against_law"] == Verdict.FAILS


def test_climate_beyond_the_compared_cores(first) -> None:
    """Colder or drier than the compared cores: nothing is said, rather than that it holds."""
    found = verdicts(changed(first.station, site={"mean_temperature": 223.15, "accumulation_water": 0.07 / 31557600}))
    assert found["snow.law_temperature"] == Verdict.NOT_CHECKED
    assert found["snow.law_accumulation"] == Verdict.NOT_CHECKED


def test_warm_site(first) -> None:
    """Snow warmer than the warning for tunnels fails, and so does a surface that melts; a note says so."""
    found = study(changed(first.station, site={"mean_temperature": 257.15, "annual_swing": 20.0}))
    keys = {check.key: check.verdict for check in found.checks}
    assert keys["snow.warm_tunnel"] == Verdict.FAILS
    assert keys["snow.melt"] == Verdict.FAILS
    assert any("melting" in note for note in found.result.notes)
    assert float(found.result.column.warmest.max()) <= 273.15


def test_weak_sample_fails_the_band(first) -> None:
    """A natural sample weaker than the low end of the band fails: other checks would be too hopeful."""
    weak, strong = sample(4.0, 5e4), sample(4.0, 9e5)
    for strengths, verdict in (((weak, strong), Verdict.FAILS), ((strong,), Verdict.HOLDS)):
        found = verdicts(changed(first.station, snow={"strengths": strengths}))
        assert found["snow.natural_strength"] == verdict


@pytest.mark.parametrize(
    "milled, known",
    [
        ({}, False),
        (SAMPLE, False),
        ({**SAMPLE, "measured_temperature": 265.0}, False),
        ({**SAMPLE, "measured_temperature": 265.0, "activation_energy": 5e4}, True),
        ({**SAMPLE, "measured_temperature": 250.0}, True),
    ],
)
def test_what_is_known_of_milled_snow(first, milled, known) -> None:
    """Strength of milled snow is known only from a sample whose temperature can be carried to the cover's."""
    found = study(changed(first.station, milled=milled)).result.milled
    assert bool(found.unknown) is not known
    assert (found.waiting_time(5e4) is not None) is known
    assert found.strength_low(0.0) == 0.0
    assert found.waiting_time(5e6) == math.inf


def test_work_items(first) -> None:
    """Density and both strengths are to be measured; a strength already measured is not asked for again."""
    one = {item.id for item in study(first.station).work_items}
    assert one == {"snow.density", "snow.strength", "snow.milled_strength"}
    strong = sample(4.0, 9e5)
    assert "snow.strength" not in {
        item.id for item in study(changed(first.station, snow={"strengths": (strong,)})).work_items
    }


@pytest.mark.parametrize("surface", [150.0, 550.0])
def test_limits_of_the_station_file(first, surface) -> None:
    """The widest climates and densities that the file allows give finite numbers."""
    for temperature, water in ((193.15, 0.005), (273.15, 3.0), (273.15, 0.005)):
        station = changed(
            first.station,
            site={"mean_temperature": temperature, "accumulation_water": water / 31557600, "annual_swing": 50.0},
            snow={"surface_density": surface, "layers": ()},
        )
        column = study(station).result.column
        assert all(math.isfinite(x) for x in (*column.overburden, *column.ucs_low, *column.warmest))
