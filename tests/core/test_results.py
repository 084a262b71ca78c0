"""Checks and their verdicts."""

import math

import pytest

from firnstead.core.results import Check, Verdict, as_plain, check, not_checked

_WORDS = {
    "subject": 'Trench "A"',
    "question": "Arch bending",
    "unit": "Pa",
    "key": "roof.x",
    "discipline": "roof",
    "place": "A",
}


def _check(demand: float, limit: float, **more: object) -> Check:
    return check(demand=demand, limit=limit, **_WORDS, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("demand", "limit", "at_least", "verdict"),
    [
        (89, 100, False, Verdict.HOLDS),
        (91, 100, False, Verdict.CLOSE),
        (100, 100, False, Verdict.CLOSE),
        (100.1, 100, False, Verdict.FAILS),
        (12, 10, True, Verdict.HOLDS),
        (10.5, 10, True, Verdict.CLOSE),
        (9, 10, True, Verdict.FAILS),
        (0, 10, True, Verdict.FAILS),
        (5, 0, False, Verdict.FAILS),
        (0, 0, False, Verdict.FAILS),
        (-1, 0, False, Verdict.HOLDS),
        (0, 100, False, Verdict.HOLDS),
    ],
)
def test_verdict_follows_the_share_of_the_limit(demand: float, limit: float, at_least: bool, verdict: Verdict) -> None:
    """Holds below 90 % of the limit, close up to it, fails beyond; the same for limits from below."""
    assert _check(demand, limit, at_least=at_least).verdict is verdict


def test_a_result_that_is_no_number_never_holds() -> None:
    """NaN on either side is 'not checked' with a reason."""
    for demand, limit in ((math.nan, 1.0), (1.0, math.nan)):
        made = _check(demand, limit)
        assert made.verdict is Verdict.NOT_CHECKED
        assert made.reason


def test_not_checked_keeps_its_reason_and_has_no_ratio() -> None:
    """A question that could not be answered says why."""
    made = not_checked(subject="s", question="q", reason="no measurement", key="k", discipline="d", place="p")
    assert (made.verdict, made.ratio, made.reason) == (Verdict.NOT_CHECKED, None, "no measurement")


def test_json_holds_no_infinity_and_keeps_every_field_of_the_contract() -> None:
    """A check becomes a plain map with the fields that other programs read."""
    plain = as_plain(_check(5, 0))
    assert plain["ratio"] is None
    wanted = {"subject", "question", "demand", "limit", "unit", "ratio", "verdict", "working", "sources", "caution"}
    assert wanted <= set(plain)
