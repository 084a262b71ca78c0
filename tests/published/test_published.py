"""Every published value against our code; the values are data in the files beside this one."""

from collections import Counter

import pytest

from firnstead.core.sources import OBTAINED, sources
from published.cases import ALLOWED, NEEDED, Case, cases

CASES = cases()
VALUES_WANTED = 45


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_published_value(case: Case) -> None:
    """Our value is as near to the published one as the case asks."""
    ours = case.ours()
    assert case.agrees(ours), (
        f"{case.where}: ours {ours}, published {case.expected} ({case.row['source']}, {case.row['place']}), "
        f"allowed difference {case.allowed_difference()}: {case.row['why']}"
    )


def test_cases_are_complete() -> None:
    """Every case says what it calls, what is expected, why the tolerance, from where, and how that was obtained."""
    wrong = []
    for case in CASES:
        wrong += [f"{case.where}: {field} is missing or empty" for field in NEEDED if case.row.get(field, "") == ""]
        wrong += [f"{case.where}: unknown field {field!r}" for field in case.row.keys() - ALLOWED]
        text = isinstance(case.row.get("expected"), (str, bool))
        if text + ("tolerance" in case.row) + ("tolerance_abs" in case.row) != 1:
            wrong.append(f"{case.where}: give either tolerance or tolerance_abs (neither for a text)")
        if case.row.get("obtained") not in OBTAINED:
            wrong.append(f"{case.where}: obtained must be one of {', '.join(OBTAINED)}")
        if case.row.get("source") not in sources():
            wrong.append(f"{case.where}: the source {case.row.get('source')!r} is not in core/sources.toml")
    assert not wrong, "\n".join(wrong)


def test_names_are_unique() -> None:
    """No two cases have the same name, in whatever file."""
    often = {name for name, count in Counter(case.name for case in CASES).items() if count > 1}
    assert not often, "\n".join(
        f"{case.where}: this name is used more than once" for case in CASES if case.name in often
    )


def test_enough_values() -> None:
    """The laws in use are held by at least as many published values as the house asks for."""
    assert len(CASES) >= VALUES_WANTED, f"{len(CASES)} published values, {VALUES_WANTED} wanted"
