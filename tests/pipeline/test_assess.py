"""The assessment of whole stations."""

from __future__ import annotations

import json

import pytest

from firnstead.core.memo import Memo
from firnstead.core.results import Verdict
from firnstead.core.sources import source
from firnstead.core.working import evaluate
from firnstead.pipeline import Assessment, assess
from firnstead.station import StationFile


@pytest.fixture(scope="module", params=["first", "full"])
def made(request: pytest.FixtureRequest) -> Assessment:
    """The assessment of each example station."""
    return assess(request.getfixturevalue(request.param))


def test_every_step_of_every_working_gives_its_value(made: Assessment) -> None:
    """Putting the inputs into each printed formula gives the printed value."""
    wrong, tried = [], 0
    for c in made.checks:
        for step in c.working:
            if step.formula:
                tried += 1
                if evaluate(step) != pytest.approx(step.value, rel=1e-6, abs=1e-12):
                    wrong.append(
                        f"{c.key} {c.place}: {step.symbol} = {step.formula}: {evaluate(step)} is not {step.value}"
                    )
            elif not step.text:
                wrong.append(f"{c.key} {c.place}: {step.symbol} has neither a formula nor words")
    assert not wrong, "\n".join(wrong[:20])
    assert tried > 100


def test_a_working_has_no_jump(made: Assessment) -> None:
    """Every verdict has a working that ends in its demand or limit, every step a known source."""
    wrong = []
    for c in made.checks:
        for step in c.working:
            if step.source:
                source(step.source)
        if c.verdict is Verdict.NOT_CHECKED:
            continue
        values = [step.value for step in c.working] + [v for step in c.working for _, v, _ in step.inputs]
        near = [any(v == pytest.approx(x, rel=1e-6) for v in values) for x in (c.demand, c.limit)]
        if not c.working or not any(near):
            wrong.append(f"{c.key} {c.place}: demand {c.demand} and limit {c.limit} are not in the working")
    assert not wrong, "\n".join(wrong[:30])


def test_checks_can_be_told_apart(made: Assessment) -> None:
    """No two checks have the same place, subject and question; each has a place and a discipline."""
    names = [(c.place, c.subject, c.question) for c in made.checks]
    assert len(names) == len(set(names)), sorted(n for n in set(names) if names.count(n) > 1)[:10]
    known = {
        *made.station.places,
        *made.station.end_walls,
        *made.station.portals,
        *made.station.hatches,
        *made.station.buildings,
        "station",
    }
    assert {c.place for c in made.checks} <= known, {c.place for c in made.checks} - known
    assert all(c.discipline in made.studies for c in made.checks)


def test_work_items_follow_one_another(made: Assessment) -> None:
    """Ids are unique, what must come before exists, and there is no circle."""
    items = {item.id: item for item in made.work_items}
    assert len(items) == len(made.work_items)
    missing = {f"{i.id} after {a}" for i in made.work_items for a in i.after if a not in items}
    assert not missing, sorted(missing)[:10]
    done: set[str] = set()
    while len(done) < len(items):
        ready = {i for i, item in items.items() if i not in done and set(item.after) <= done}
        assert ready, f"a circle among {sorted(set(items) - done)[:10]}"
        done |= ready


def test_people_are_warned_where_they_could_be_hurt(made: Assessment) -> None:
    """Every check of a stress, a force or a life carries a caution."""
    strong = [
        c for c in made.checks if c.discipline in ("cutting", "roof", "walls") and c.unit in ("Pa", "N", "N/m", "s")
    ]
    assert len(strong) > 10
    assert not {c.key for c in strong if not c.caution}


def test_the_document_is_json_without_infinities(made: Assessment) -> None:
    """The machine-readable form survives strict JSON."""
    text = json.dumps(made.document(), allow_nan=False, default=str)
    assert set(json.loads(text)) == {"station", "checks", "results", "work_items"}


def test_a_memo_changes_nothing_but_the_time(full: StationFile) -> None:
    """An edit through a warm memo gives exactly what a fresh assessment gives."""
    memo = Memo()
    assess(full, memo)
    trench = full.station.trenches["North 2"].model_copy(update={"length": 31.0})
    station = full.station.model_copy(update={"trenches": {**full.station.trenches, "North 2": trench}})
    edited = StationFile(full.path, full.text, station, full.digest)
    assert assess(edited, memo).document() == assess(edited).document()


def test_two_assessments_are_the_same(full: StationFile) -> None:
    """The same file gives the same answers in the same order."""
    assert assess(full).document() == assess(full).document()


@pytest.mark.parametrize("name", ["first", "full"])
def test_all_parts_of_the_examples_are_taken(name: str, request: pytest.FixtureRequest) -> None:
    """Every part that some study needs is listed, and nothing listed is left over."""
    cargo = assess(request.getfixturevalue(name)).results["cargo"]
    assert cargo.missing == cargo.unneeded == ()
