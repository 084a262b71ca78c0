"""Heat, pipes, water and power as one balance."""

import numpy as np
import pytest

from firnstead import snow
from firnstead.core.memo import Memo
from firnstead.core.results import Verdict
from firnstead.pipeline.utilities import AIR_TOLERANCE, POWER_TOLERANCE, Utilities, utilities
from firnstead.station import Station, StationFile


def balance(station: Station, memo: Memo | None = None) -> Utilities:
    """The balance of a station."""
    return utilities(station, snow.study(station).result, memo if memo is not None else Memo())


@pytest.fixture(scope="module")
def made(first: StationFile) -> Utilities:
    """The balance of the one-trench station."""
    return balance(first.station)


def test_it_settles_within_the_stated_tolerance(made: Utilities) -> None:
    """A few rounds are enough, and the check says what still moved."""
    assert 2 <= made.rounds <= 6
    assert made.settled
    assert made.moved_air <= AIR_TOLERANCE
    assert made.moved_power <= POWER_TOLERANCE
    (check,) = [c for c in made.studies["power"].checks if c.key == "power.balance"]
    assert check.verdict is Verdict.HOLDS


def test_what_one_takes_the_other_gives(made: Utilities) -> None:
    """Loads of the sets hold fans, tracing and pumps; waste heat used is no more than the sets give."""
    power, water = made.studies["power"].result, made.studies["water"].result
    names = {row.name: row for row in power.loads if row.worked_out}
    assert set(water.electric) <= set(names)
    for name, row in water.electric.items():
        assert np.allclose(names[name].month, row)
    used = np.add(water.waste_used, made.studies["heat"].result.waste_used)
    assert np.all(used <= np.array(power.waste) + 1e-6)


def test_air_is_that_of_the_heat_and_warmer_than_the_snow(made: Utilities, first: StationFile) -> None:
    """Trench air by the balance lies between the snow's mean and freezing."""
    for row in (made.air or {}).values():
        assert first.station.site.mean_temperature < min(row) <= max(row) < 273.15


def test_again_gives_the_same(first: StationFile, made: Utilities) -> None:
    """The loop starts from nothing each time, so a kept memo changes no answer."""
    memo = Memo()
    one, two = balance(first.station, memo), balance(first.station, memo)
    assert one.air == two.air == made.air


@pytest.mark.parametrize("part", ["heat", "pipes", "water", "power"])
def test_any_part_may_be_missing(first: StationFile, part: str) -> None:
    """Without one of the four the others are worked out all the same, and the missing one says so."""
    found = balance(first.station.model_copy(update={part: None}))
    assert Verdict.NOT_CHECKED in {c.verdict for c in found.studies[part].checks}
    assert all(study.checks for study in found.studies.values())


def test_colder_trench_means_less_heat_given(first: StationFile) -> None:
    """More heat put into a place warms its air: the loop has the right sign."""
    station = first.station
    assert station.heat is not None
    place = station.heat.place.model_copy(update={"equipment": 500.0})
    warm = balance(station.model_copy(update={"heat": station.heat.model_copy(update={"place": place})}))
    base = balance(station)
    for name, row in (warm.air or {}).items():
        assert np.mean(row) > np.mean((base.air or {})[name])
