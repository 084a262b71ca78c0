"""How numbers, ratios and verdicts are written in every list and on every page."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firnstead.core.results import Verdict
from firnstead.core.units import SHOWN, convert, number_text, show, shown_unit, unit_text

ORDER = (Verdict.FAILS, Verdict.CLOSE, Verdict.HOLDS, Verdict.NOT_CHECKED)
WHOLE_STATION = "Whole station"
BAR_END = 1.5  # share of the limit at which the bar is full


def shown(value: float | None, unit: str, system: str, digits: int = 3) -> str:
    """An SI value with the unit that the reader of `system` is used to.

    >>> shown(450.0, "kg/m3", "metric"), shown(45.0, "deg", "us"), shown(None, "Pa", "us")
    ('450 kg/m³', '45°', '–')
    """
    if value is None:
        return "–"
    number, _, name = show(value, unit, system, digits).partition(" ")
    return _with_unit(number, name)


def pair(demand: float | None, limit: float | None, unit: str, system: str) -> tuple[str, str]:
    """Demand and limit in the same unit, with digits enough to tell them apart.

    >>> pair(0.0, 4680.0, "Pa", "metric"), pair(0.9, 1.2, "m", "metric"), pair(1.0, 2e6, "Pa", "metric")
    (('0 kPa', '4.68 kPa'), ('0.9 m', '1.2 m'), ('1 Pa', '2 MPa'))
    >>> pair(1.2071, 1.2112, "m", "metric")
    ('1.207 m', '1.211 m')
    """
    name = shown_unit(max((abs(v) for v in (demand, limit) if v is not None), default=0.0), unit, system)

    def written(value: float | None, digits: int) -> str:
        if value is None or unit not in SHOWN or 0 < abs(convert(value, name)) < 0.01:
            return shown(value, unit, system, digits)
        return _with_unit(number_text(convert(value, name), digits), name)

    texts = [(written(demand, digits), written(limit, digits)) for digits in (3, 4, 5)]
    return next((two for two in texts if two[0] != two[1]), texts[0])


def _with_unit(number: str, unit: str) -> str:
    written = unit_text(unit)
    return number + (written if written == "°" else f" {written}" if written else "")


def ratio_text(ratio: float | None, verdict: str) -> str:
    """The share of the limit, never rounded to 1 where it is more or less.

    >>> ratio_text(0.894, "holds"), ratio_text(1.0004, "fails"), ratio_text(None, "fails")
    ('0.89', '1.0004', '> 99')
    """
    if verdict == Verdict.NOT_CHECKED:
        return "–"
    if ratio is None or ratio > 99:
        return "> 99"
    digits = 2
    while digits < 6 and ratio != 1 and round(ratio, digits) == 1:
        digits += 1
    return f"{ratio:.{digits}f}"


def worst_first(check: Mapping[str, Any]) -> tuple[int, float]:
    """Sort key: failing checks first, then by share of the limit; what was not checked stands last."""
    ratio = check["ratio"] if check["ratio"] is not None else float("inf")
    return (ORDER.index(Verdict(check["verdict"])), -ratio)


def place_words(place: str) -> str:
    """A place for a reader; "station" and nothing both mean the whole station."""
    return WHOLE_STATION if place in ("", "station") else place


def place_order(station: Mapping[str, Any], place: str) -> tuple[int, str]:
    """Sort key: passages and trenches as the station file has them, anything else behind, by name."""
    known = [*station.get("passages", {}), *station.get("trenches", {})]
    return (known.index(place), "") if place in known else (len(known), place)


def counted(number: int, one: str, many: str = "") -> str:
    """A number with its noun.

    >>> counted(1, "check"), counted(3, "check")
    ('1 check', '3 checks')
    """
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def verdict_sentence(checks: list[Mapping[str, Any]]) -> str:
    """One sentence that says how a set of checks stands.

    >>> verdict_sentence([])
    'Nothing is checked here.'
    """
    if not checks:
        return "Nothing is checked here."
    count = {verdict: sum(c["verdict"] == verdict for c in checks) for verdict in ORDER}
    said = {Verdict.FAILS: ("fails", "fail"), Verdict.CLOSE: ("is close", "are close"),
            Verdict.HOLDS: ("holds", "hold"), Verdict.NOT_CHECKED: ("is not checked", "are not checked")}  # fmt: skip
    parts = [f"{count[v]} {said[v][count[v] != 1]}" for v in ORDER if count[v]]
    listed = parts[0] if len(parts) == 1 else ", ".join(parts[:-1]) + " and " + parts[-1]
    return f"Of {counted(len(checks), 'check')} {listed}."


# One unit for a whole column, so that its numbers can be added up and compared: (metric, us).
_COLUMN = {"m": ("m", "ft"), "m2": ("m2", "ft2"), "m3": ("m3", "yd3"), "kg": ("kg", "lb"), "kg/m3": ("kg/m3", "lb/ft3"),
           "Pa": ("kPa", "psi"), "N": ("kN", "lbf"), "m/s": ("m/min", "ft/min"), "cargo m3": ("m3", "ft3"),
           "K": ("degC", "degF")}  # fmt: skip


def column_unit(unit: str, system: str) -> str:
    """The unit in which a column of SI `unit` is written; ``cargo m3`` is packed volume.

    >>> column_unit("kg", "us"), column_unit("blocks", "us")
    ('lb', 'blocks')
    """
    metric, us = _COLUMN.get(unit, (unit, unit))
    return us if system == "us" else metric


def in_column(value: float | None, unit: str, system: str) -> float | None:
    """An SI value in its column's unit.

    >>> in_column(1000.0, "m3", "metric"), round(in_column(1.0, "kg", "us"), 4)
    (1000.0, 2.2046)
    """
    return value if value is None or unit not in _COLUMN else convert(value, column_unit(unit, system))
