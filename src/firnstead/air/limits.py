"""Limits of gases: the published list, and which of them decides."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

from firnstead.air.results import ChosenLimit


@cache
def published_limits() -> dict[str, ChosenLimit]:
    """The published list by name; which of them applies is the responsible engineer's choice."""
    text = files("firnstead.air.tables").joinpath("limits.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {
        f"{row['gas']} {row['of']}": ChosenLimit(
            row["gas"], float(row["value"]), float(row["over"]), row["of"], row["source"]
        )
        for row in rows
    }


def strictest(limits: dict[str, ChosenLimit], gas: str, short: bool = False) -> tuple[str, ChosenLimit] | None:
    """The lowest limit of a gas (the highest for oxygen); with `short` only those of less than an hour, if any."""
    found = [(name, limit) for name, limit in limits.items() if limit.gas == gas]
    if short and any(limit.over < 3600 for _, limit in found):
        found = [(name, limit) for name, limit in found if limit.over < 3600]
    if not found:
        return None
    return (max if gas == "oxygen" else min)(found, key=lambda one: one[1].value)
