"""The closure of the example station: what is asked, what is answered, what must be done."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from closure.specs import SOFT
from firnstead import closure, snow
from firnstead.closure import study_spec
from firnstead.closure.results import Softness
from firnstead.closure.spec import EXPECTED, Spec
from firnstead.closure.trace import Trace, trace_of
from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, Verdict
from firnstead.core.units import YEAR
from firnstead.core.working import evaluate
from firnstead.station import Station, StationFile

LOADS = {"North 1": 6700.0}


class Shelf:
    """Marches in memory, coarse and short; `made` counts what was looked for."""

    def __init__(self, soft: Softness | None = SOFT) -> None:
        self.soft, self.kept = soft, {}  # type: ignore[var-annotated]

    def softness(self, station: Station, found: object) -> Softness | None:
        """What was given."""
        return self.soft

    def family(self, specs: Mapping[str, Spec]) -> dict[str, Trace] | None:
        """Marches, made once."""
        name = specs[EXPECTED].digest()
        if name not in self.kept:
            coarse = {n: replace(s, size=0.9, years=3.0) for n, s in specs.items()}
            self.kept[name] = {n: trace_of(s) for n, s in coarse.items()}
        return self.kept[name]


@pytest.fixture(scope="module")
def shelf() -> Shelf:
    """One shelf for all tests: the marches take seconds."""
    return Shelf()


def answered(station: Station, shelf: Shelf | None) -> Study:
    """The study of a station."""
    return closure.study(station, snow.study(station).result, LOADS, Memo(), shelf)


def by_key(made: Study, key: str) -> list[Check]:
    """The checks of one question."""
    return [c for c in made.checks if c.key == key]


def changed(station: Station, group: str, name: str, **fields: object) -> Station:
    """The station with fields of one entry changed."""
    entries = getattr(station, group)
    return station.model_copy(update={group: {**entries, name: entries[name].model_copy(update=fields)}})


def test_without_marches_nothing_is_checked(first: StationFile) -> None:
    """Before the years are worked out every question is open, with the command that answers it."""
    made = answered(first.station, None)
    assert made.checks
    assert {c.verdict for c in made.checks} == {Verdict.NOT_CHECKED}
    assert all("firnstead years" in c.reason for c in made.checks)
    assert made.result.waiting == tuple(first.station.places)


def test_every_building_is_asked_about(first: StationFile, shelf: Shelf) -> None:
    """Room beside and above each building is dated, with a working that can be followed to the date."""
    made = answered(first.station, shelf)
    sides = by_key(made, "closure.side")
    assert {c.subject for c in sides} == {f'Building "{name}"' for name in first.station.buildings}
    for c in sides:
        assert c.working[-1].value == pytest.approx(c.demand)
        for step in c.working:
            if step.formula:
                assert evaluate(step) == pytest.approx(step.value, rel=1e-9)
        assert c.caution


def test_the_fast_end_decides(first: StationFile, shelf: Shelf) -> None:
    """A wanted time between the fast end and the expected date is close, beyond it fails, before it holds."""
    lost = answered(first.station, shelf).result.places["North 1"].forecast.side
    assert lost.earliest < lost.expected < float("inf")
    for wanted, verdict in (
        (0.5 * lost.earliest, Verdict.HOLDS),
        (0.5 * (lost.earliest + lost.expected), Verdict.CLOSE),
        (1.1 * lost.expected, Verdict.FAILS),
    ):
        design = first.station.design.model_copy(update={"trim_interval": wanted})
        made = answered(first.station.model_copy(update={"design": design}), shelf)
        assert {c.verdict for c in by_key(made, "closure.side")} == {verdict}


def test_a_room_too_small_as_cut_fails_at_once(first: StationFile, shelf: Shelf) -> None:
    """A building that does not fit with its clearance fails from the first day."""
    made = answered(changed(first.station, "kits", "sleeping hut", clearance=2.0), shelf)
    check = by_key(made, "closure.side")[0]
    assert check.verdict is Verdict.FAILS
    assert check.demand == 0.0


def test_place_without_anything_to_keep_is_not_checked(first: StationFile, shelf: Shelf) -> None:
    """Without a building and without a way nobody can say what is lost; the movements are told all the same."""
    made = answered(first.station.model_copy(update={"buildings": {}}), shelf)
    assert {c.verdict for c in made.checks} == {Verdict.NOT_CHECKED}
    assert made.result.places["North 1"].first_year > 0.0
    assert not made.work_items


def test_way_through_is_asked_about(first: StationFile, shelf: Shelf) -> None:
    """A width and height that must stay clear are dated like a building."""
    bare = first.station.model_copy(update={"buildings": {}})
    made = answered(changed(bare, "trenches", "North 1", clear_width=3.0, clear_height=2.2), shelf)
    assert [c.verdict for c in by_key(made, "closure.side")] != [Verdict.NOT_CHECKED]


def test_trimming_is_work(first: StationFile, shelf: Shelf) -> None:
    """The snow to trim in later years is a work item under the roof with hours by the file's output."""
    (item,) = answered(first.station, shelf).work_items
    assert item.id == "North 1.closure.trim"
    assert item.hours * item.people == pytest.approx(item.quantity / first.station.hand_work.excavation / 3600)


def test_softness_out_of_range_says_nothing(first: StationFile) -> None:
    """A profile that no softness fits leaves every question open."""
    made = answered(first.station, Shelf(replace(SOFT, k=(5.0, 555.0, 772.0))))
    assert {c.verdict for c in made.checks} == {Verdict.NOT_CHECKED}


def test_pillar_between_trenches(full: StationFile) -> None:
    """Trenches side by side carry one another's load: nearer ones sink faster, by the hand formula."""
    station = full.station
    near = study_spec.neighbour(station, "South 2")
    assert near is not None
    assert near.name in ("South 1", "South 3")
    assert near.pillar == pytest.approx(25.0 - 6.2)
    assert study_spec.neighbour(station, "Main") is None


def test_arch_and_vault_become_specs(full: StationFile) -> None:
    """An arch is a tied roof whose slab and seats carry its load; a vault is snow in the outline itself."""
    station = full.station
    found = snow.study(station).result
    arch, vault = (study_spec.spec_of(station, found, SOFT, name, 6700.0, (244.0,)) for name in ("North 1", "South 6"))
    assert arch.roof == "yielding"
    carried = 9.80665 * arch.slab * 1.2 * 2.3 + arch.seat_load
    assert carried == pytest.approx(6700.0 * 5.4 / 2)
    assert vault.roof == "unlined"
    assert vault.outline[0][1] == pytest.approx(1.3, abs=0.1)  # the cover over the crown
    assert vault.years == 10.0


def test_distinct_sections_are_marched_once(full: StationFile) -> None:
    """Places alike share one family of marches."""
    station = full.station
    loads = dict.fromkeys(station.places, 6700.0)
    families = closure.wanted(station, snow.study(station).result, SOFT, loads)
    assert 4 <= len(families) <= 7
    assert len(station.places) > 20


def test_softness_is_fitted_to_the_profile(first: StationFile) -> None:
    """The k of every exponent comes from the density profile and fits it to a few per cent."""
    fitted = study_spec.softness(first.station, snow.study(first.station).result)
    assert not study_spec.unfit(fitted)
    assert all(off < 20.0 for off in fitted.misfit)
    assert fitted.k_lighter < fitted.k[1] < fitted.k_denser  # denser snow at the same depth has crept faster


def test_heave_and_seats_are_handed_on(first: StationFile, shelf: Shelf) -> None:
    """The floor's rise is a rate over the years looked at; the seats come in at most as fast as the band's end."""
    result = answered(first.station, shelf).result
    forecast = result.places["North 1"].forecast
    years = forecast.dates[-1] / YEAR
    assert closure.floor_heave(result)["North 1"] == pytest.approx(forecast.floor_heave.greatest[-1] / years)
    dates, expected, greatest = closure.seats(result)["North 1"]
    assert len(dates) == len(expected) == len(greatest)
    assert greatest[-1] > expected[-1] > 0.0
