"""Checks as rows of a table and as whole entries with their working."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf, isfinite
from typing import Any

from firnstead.core.errors import FormulaError, UnknownSource
from firnstead.core.formula import parse, plain_name
from firnstead.core.results import Step
from firnstead.core.sources import source
from firnstead.core.working import displayed, formula_maths, given_text, numbers_put_in, quantity_text
from firnstead.reports.words import BAR_END, WHOLE_STATION, pair, place_words, ratio_text

Plain = Mapping[str, Any]
WIDE = 120  # characters from which a formula is set smaller
KINDS = {"passages": "Passage", "trenches": "Trench"}


def check_row(check: Plain, system: str) -> dict[str, Any]:
    """One check as a row of a table."""
    unit, verdict = check["unit"], check["verdict"]
    ratio = check["ratio"] if check["ratio"] is not None else BAR_END if verdict == "fails" else None
    demand, limit = pair(check["demand"], check["limit"], unit, system)
    return {
        "place": place_words(check["place"]),
        "about": "" if check["subject"] in _plain_subjects(check["place"]) else check["subject"],
        "question": check["question"],
        "demand": demand,
        "limit": limit,
        "sense": check["sense"],
        "share": None if ratio is None else max(0.0, min(ratio, BAR_END)) / BAR_END,
        "ratio": ratio_text(check["ratio"], verdict),
        "verdict": verdict,
        "reason": check["reason"],
    }


def _plain_subjects(place: str) -> set[str]:
    """Subjects that say no more than the place itself."""
    return {place, "Station", WHOLE_STATION, *(f'{kind} "{place}"' for kind in KINDS.values())}


def check_full(check: Plain, system: str, printed: dict[str, tuple[str, str]]) -> dict[str, Any]:
    """One check with its caution and its working.

    A working that is the same, number for number, as one in `printed` (by its text: label and place) is not set
    out again; the page where it stands is named instead.
    """
    row = {**check_row(check, system), "caution": check["caution"], "steps": [], "others": [], "label": "",
           "same_as": "", "same_at": ""}  # fmt: skip
    if not check["working"]:
        return {**row, "others": check["sources"]}
    text = repr((check["question"], check["working"], check["sources"]))
    if text in printed:
        label, where = printed[text]
        return {**row, "same_as": where, "same_at": label}
    label = f"working-{len(printed) + 1}"
    printed[text] = (label, place_words(check["place"]))
    steps = [_step(step, system) for step in check["working"]]
    used = {step["key"] for step in steps}
    others = [key for key in check["sources"] if key.split(",")[0].strip() not in used]
    return {**row, "label": label, "steps": steps, "others": others}


def _step(row: Plain, system: str) -> dict[str, Any]:
    """One step ready for typesetting; what typst cannot read is shown as it was written."""
    inputs = tuple((name, _number(value), unit) for name, value, unit in row["inputs"])
    value = _number(row["value"])
    step = Step(row["symbol"], row["formula"], inputs, value, row["unit"], row["source"], row["text"])
    key, _, at = step.source.partition(",")
    try:
        formula, numbers, broken = formula_maths(step), numbers_put_in(step), ""
    except FormulaError:
        formula, numbers, broken = "", "", step.formula
    return {
        "symbol": _maths(step.symbol),
        "name": plain_name(step.symbol),
        "formula": formula,
        "numbers": numbers if numbers != formula else "",
        "broken": broken,
        "wide": len(numbers) > WIDE,
        "value": quantity_text(value, step.unit) if isfinite(value) else "beyond all bounds",
        "shown": displayed(step, system) if isfinite(value) else "",
        "text": step.text,
        "given": "" if formula else given_text(step),
        "key": key.strip(),
        "at": at.strip(),
        "memory": _from_memory(key.strip()),
    }


def _number(value: float | None) -> float:
    """A number of the contract; JSON has no infinity, it says nothing instead."""
    return inf if value is None else value


def _maths(symbol: str) -> str:
    try:
        return symbol if parse(symbol).kind == "name" else ""
    except FormulaError:
        return ""


def _from_memory(key: str) -> bool:
    try:
        return source(key).obtained == "from memory, unchecked"
    except UnknownSource:
        return False
