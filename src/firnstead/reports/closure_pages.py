"""How a place closes, for the calculation file: outlines, room against time with its band, numbers, what to change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from firnstead.closure.band import effect_in_words
from firnstead.core.cautions import caution_for
from firnstead.core.units import FT, YEAR, convert, shown_unit
from firnstead.reports import blocks
from firnstead.reports.charts import TimeBand, side_by_side, svg, time_chart
from firnstead.reports.snow_pages import interpolated
from firnstead.reports.words import shown

Plain = Mapping[str, Any]
TABLE_YEARS = (0.0, 1.0, 2.0, 5.0, 10.0, 20.0)
Row = tuple[float, ...]


def closure_years(document: Plain, place: str, outlines: Sequence[blocks.Block]) -> list[blocks.Block]:
    """The closure of one place; one line where it has not been worked out."""
    closure = document["results"].get("closure") or {}
    found = closure.get("places", {}).get(place)
    if not found:
        if place not in closure.get("waiting", ()):
            return []
        return [
            blocks.heading("Closing through the years"),
            blocks.note("Not worked out for this version of the file."),
        ]
    system, forecast = document["station"]["units"], found["forecast"]
    return [
        blocks.heading("Closing through the years"),
        blocks.caution(caution_for("closure")),
        *outlines,
        blocks.figure("Room against time", _reading(found, system), _chart(*_curves(found, system)), 100.0),
        *_numbers(forecast, system),
        *_trim(found, system),
        *_sensitivity(forecast, system),
        *(blocks.note(f"{text[0].upper()}{text[1:]}.") for text in forecast["notes"]),
    ]


def _curves(found: Plain, system: str) -> tuple[Row, tuple[tuple[str, Row, Row, Row], ...], str, float, bool]:
    """Dates [yr], (name, least, expected, greatest) in the reader's unit, the unit, what must stay, whether it must."""
    forecast = found["forecast"]
    unit = "ft" if system == "us" else "m"
    dates = tuple(t / YEAR for t in forecast["dates"])
    rooms = (("beside", "side_room"), ("above", "top_room")) if found["what"] else ()
    rows = [(name, *_rows(forecast[key], unit, least=0.0)) for name, key in rooms]
    rows.append(("width at half height", *_rows(forecast["widths"][1], unit)))
    rows.append(("height", *_rows(forecast["height"], unit)))
    return dates, tuple(rows), unit, convert(found["needed"], unit), bool(found["what"])


def _rows(band: Plain, unit: str, least: float | None = None) -> tuple[Row, Row, Row]:
    low, middle, high = (
        tuple(convert(v if least is None else max(v, least), unit) for v in band[key])
        for key in ("greatest", "expected", "least")
    )
    return low, middle, high


@lru_cache(maxsize=64)
def _chart(
    dates: Row, rows: tuple[tuple[str, Row, Row, Row], ...], unit: str, needed: float, stated: bool
) -> str:  # fmt: skip
    def chart(title: str, chosen: Sequence[tuple[str, Row, Row, Row]], limit: float | None) -> dict[str, Any]:
        bands = [TimeBand(name, dates, low, middle, high) for name, low, middle, high in chosen]
        return time_chart(bands, "years since the cut", f"{title} [{unit}]", title, 255, 210, limit, "must stay")

    wide = chart("Width and height", rows[-2:], None)
    if not stated:
        return svg(wide)
    return svg(side_by_side(chart("Room", rows[:2], needed), wide))


def _reading(found: Plain, system: str) -> str:
    forecast = found["forecast"]
    narrower = shown(found["first_year"], "m", system)
    words = f"Lines as expected, bands from the slow to the fast end. In the first year it narrows by {narrower}."
    if not found["what"]:
        return f"{words} Nothing is stated that must stay clear here."
    lost = min((forecast["side"], forecast["top"]), key=lambda each: _late(each["expected"]))
    return (f"{words} The first room is lost after {_when(lost['expected'])} as expected, "
            f"{_when(lost['earliest'])} to {_when(lost['latest'])} by the band.")  # fmt: skip


def _late(seconds: float | None) -> float:
    return float("inf") if seconds is None else seconds


def _when(seconds: float | None) -> str:
    at = _late(seconds)
    return "more years than were looked at" if at == float("inf") else f"{at / YEAR:.1f} years"


def _numbers(forecast: Plain, system: str) -> list[blocks.Block]:
    dates = tuple(t / YEAR for t in forecast["dates"])
    years = [y for y in TABLE_YEARS if y <= dates[-1] + 1e-9]
    unit = shown_unit(1.0, "m", system)
    rows = []
    widths = zip(forecast["heights"], forecast["widths"], strict=True)
    named = [
        *((f"width at {100 * h:.0f} % height", w) for h, w in widths),
        ("height on the axis", forecast["height"]),
        ("floor up", forecast["floor_heave"]),
        ("roof down", forecast["roof_sag"]),
        ("shoulder down", forecast["shoulder_sag"]),
        ("each shoulder in", forecast["shoulder_in"]),
    ]  # fmt: skip
    for name, band in named:
        cells = []
        for year in years:
            low, middle, high = (
                convert(interpolated(dates, band[key], year), unit) for key in ("least", "expected", "greatest")
            )
            ends = sorted((low, high))
            cells.append(f"{middle:.2f}" if year == 0 else f"{middle:.2f} ({ends[0]:.2f}–{ends[1]:.2f})")
        rows.append([name, *cells])
    head = [(f"[{unit}] after years", 1.25), *((f"{y:g}", 0.5 if y == 0 else 1.35) for y in years)]
    return [blocks.table(head, rows, right=range(1, len(head)))]


def _trim(found: Plain, system: str) -> list[blocks.Block]:
    trim = found["forecast"]["trim"]
    if not found["what"] or not any(trim):
        return []
    factor, unit = (1 / FT**2, "ft³/ft") if system == "us" else (1.0, "m³/m")
    head = [("Snow to trim in year", 1.6), *((str(i + 1), 0.7) for i in range(min(len(trim), 10)))]
    row = [f"{unit} of trench", *(f"{factor * v:.2f}" if v else "–" for v in trim[:10])]
    return [blocks.table(head, [row], right=range(1, len(head)))]


def _sensitivity(forecast: Plain, system: str) -> list[blocks.Block]:
    made: list[blocks.Block] = []
    if forecast["effects"]:
        rows = [[name, effect_in_words(effect)] for name, effect in forecast["effects"]]
        made.append(
            blocks.table([("Doubt", 1), ("What it does to the narrowing until the first room is lost", 2)], rows)
        )
    if forecast["changes"]:
        rows = [[c["what"], _when(c["lost"]), _gain(c["gained"])] for c in forecast["changes"]]
        made.append(blocks.table([("Change of the design", 1.6), ("First room lost after", 1.2), ("Gain", 1)], rows))
    return made


def _gain(seconds: float | None) -> str:
    at = _late(seconds)
    return "beyond the years looked at" if at == float("inf") else f"{at / YEAR:+.1f} years"
