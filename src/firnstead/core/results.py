"""Checks with their working, work items and the triple that every study returns."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from enum import StrEnum
from typing import Any

WHOLE = "station"  # the place of a check that concerns the station as a whole
CLOSE_SHARE = 0.9  # a demand above this share of the limit is "close" (house rule: within 10 % of the limit)


class Verdict(StrEnum):
    """The four verdict words, the same everywhere."""

    HOLDS = "holds"
    CLOSE = "close"
    FAILS = "fails"
    NOT_CHECKED = "not checked"


@dataclass(frozen=True)
class Step:
    """One line of a working.

    `symbol` and `formula` are typst mathematics (``q_"cr"``, ``E I/R^3 (pi^2/alpha^2 - 1)``); products are
    written with a space. `inputs` are (symbol, SI value, SI unit); a test puts them in and recomputes `value`.
    Where the value comes from a table, an integral or a solver, `formula` is empty and `text` says how.
    """

    symbol: str
    formula: str
    inputs: tuple[tuple[str, float, str], ...]
    value: float
    unit: str
    source: str
    text: str = ""


@dataclass(frozen=True)
class Check:
    """One question about one place, answered with its margin."""

    subject: str
    question: str
    demand: float | None
    limit: float | None
    unit: str
    ratio: float | None
    verdict: Verdict
    working: tuple[Step, ...] = ()
    sources: tuple[str, ...] = ()
    caution: str = ""
    discipline: str = ""
    place: str = ""
    key: str = ""
    sense: str = "at most"
    reason: str = ""


def check(
    *, subject: str, question: str, demand: float, limit: float, unit: str, key: str, discipline: str, place: str,
    at_least: bool = False, working: tuple[Step, ...] = (), sources: tuple[str, ...] = (), caution: str = "",
    note: str = "", ratio: float | None = None,
) -> Check:  # fmt: skip
    """Compare demand and limit (both SI `unit`) and give the verdict; with `at_least` the limit is a minimum.

    `ratio` is worked out (share of the limit used; above 1 fails) unless a better measure is given.
    `note` says what the reader must know about validity. Sources of the working are added by themselves.
    """
    if ratio is None:
        ratio = _ratio(limit, demand) if at_least else _ratio(demand, limit)
    if ratio != ratio:
        return not_checked(
            subject=subject, question=question, reason="the numbers do not give a result", key=key,
            discipline=discipline, place=place, caution=caution, working=working, sources=sources)  # fmt: skip
    verdict = Verdict.FAILS if ratio > 1 else Verdict.CLOSE if ratio > CLOSE_SHARE else Verdict.HOLDS
    cited = tuple(dict.fromkeys([*(s.source for s in working if s.source), *sources]))
    return Check(subject, question, demand, limit, unit, ratio, verdict, working, cited, caution,
                 discipline, place or WHOLE, key, "at least" if at_least else "at most", note)  # fmt: skip


def not_checked(
    *, subject: str, question: str, reason: str, key: str, discipline: str, place: str, caution: str = "",
    working: tuple[Step, ...] = (), sources: tuple[str, ...] = (), unit: str = "",
    demand: float | None = None, limit: float | None = None,
) -> Check:  # fmt: skip
    """A question that could not be answered, with the reason."""
    cited = tuple(dict.fromkeys([*(s.source for s in working if s.source), *sources]))
    return Check(subject, question, demand, limit, unit, None, Verdict.NOT_CHECKED, working, cited, caution,
                 discipline, place or WHOLE, key, "at most", reason)  # fmt: skip


def _ratio(part: float, whole: float) -> float:
    if part <= 0 and whole > 0:
        return 0.0
    if whole <= 0:
        return float("inf") if part >= whole else 0.0
    return part / whole


class Exposure(StrEnum):
    """Where a work item is done; storms stop outdoor work only."""

    OUTDOOR = "outdoor"
    UNDER_ROOF = "under roof"
    INDOOR = "indoor"


@dataclass(frozen=True)
class WorkItem:
    """Something that must be done or bought. Masses and volumes are totals for the whole quantity."""

    id: str
    place: str
    discipline: str
    what: str
    quantity: float
    unit: str
    mass: float = 0.0
    volume: float = 0.0
    crew: str = ""
    machine: str = ""
    hours: float = 0.0
    people: int = 0
    exposure: Exposure = Exposure.OUTDOOR
    after: tuple[str, ...] = ()
    parts: tuple[tuple[str, float], ...] = ()
    """(part key, pieces): what this item takes from the cargo list."""
    note: str = ""


@dataclass(frozen=True)
class Study:
    """What every discipline's study returns: result, checks and work items."""

    result: Any
    checks: tuple[Check, ...] = ()
    work_items: tuple[WorkItem, ...] = ()


def quantity(unit: str, help: str, **more: Any) -> Any:
    """A field of a result dataclass with its unit and help (a test demands both)."""
    return field(metadata={"unit": unit, "help": help}, **more)


def as_plain(value: Any) -> Any:
    """Turn results into what JSON can hold: dataclasses to maps, tuples to lists, arrays to lists."""
    if hasattr(value, "__dataclass_fields__"):
        return {f.name: as_plain(getattr(value, f.name)) for f in fields(value)}
    if isinstance(value, Mapping):
        return {str(k): as_plain(v) for k, v in value.items()}
    if hasattr(value, "tolist"):
        return as_plain(value.tolist())
    if isinstance(value, (list, tuple, set, frozenset)):
        return [as_plain(v) for v in value]
    if isinstance(value, float) and (value != value or value in (float("inf"), float("-inf"))):
        return None
    return value
