"""The roof's share of its limits over the years, for each place: chart, one sentence, numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields
from functools import lru_cache
from typing import Any

from firnstead.core.units import YEAR, number_text
from firnstead.reports import blocks
from firnstead.reports.charts import Line, side_by_side, svg, years_chart
from firnstead.reports.snow_pages import interpolated
from firnstead.reports.words import shown
from firnstead.roof.results import YearRatios

Plain = Mapping[str, Any]
Curve = tuple[str, tuple[float, ...]]
TABLE_YEARS = (0.0, 1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0, 50.0)
COLUMNS = 8
TOP = 99.0  # stands for a share beyond all measure


def roof_years(document: Plain, place: str) -> list[blocks.Block]:
    """Chart and table of the years; nothing where the roof study gives none for this place."""
    roof = (document["results"].get("roof") or {}).get("places", {}).get(place)
    if not roof or not roof["ratios"]:
        return []
    until = 1.5 * document["station"]["design"]["life"] / YEAR
    years = tuple(roof["ratios"]["years"])
    alone, supported = _curves(roof["ratios"], "_alone"), _curves(roof["ratios"], "_supported")
    columns = [y for y in TABLE_YEARS if y <= min(until, years[-1])][:COLUMNS]
    head = [("Share of the limit in year", 2.6), *((f"{y:g}", 0.7) for y in columns)]
    curves = [*_titled(alone, "alone"), *_titled(supported, "with the snow's help")]
    rows = [[words, *(_share(interpolated(years, values, y)) for y in columns)] for words, values in curves]
    return [
        blocks.figure("Roof over the years", _reading(roof["life"]), _chart(years, alone, supported, until), 100.0),
        blocks.table(head, rows, right=range(1, len(head))),
        *_moving(roof["moving"], document["station"]["units"]),
    ]


def _moving(moving: Plain | None, system: str) -> list[blocks.Block]:
    """The arch on seats that come in, at the fast end of the closure forecast."""
    if not moving:
        return []
    years = tuple(moving["years"])
    columns = [y for y in TABLE_YEARS if y <= years[-1] + 1e-9][:COLUMNS]
    rows = []
    for words, key, unit in (
        ("span between the seats", "span", "m"),
        ("rise", "rise", "m"),
        ("ring compression", "ring", "Pa"),
        ("bending at the crown", "bending", "Pa"),
    ):
        values = (interpolated(years, moving[key], y) for y in columns)
        rows.append([words, *(shown(v, unit, system) for v in values)])
    rows.append(["share of the yield", *(_share(interpolated(years, moving["share"], y)) for y in columns)])
    head = [("Seats coming in, fast end: in year", 2.6), *((f"{y:g}", 0.9) for y in columns)]
    return [blocks.table(head, rows, right=range(1, len(head)))]


def _curves(ratios: Plain, ending: str) -> tuple[Curve, ...]:
    """Name and shares of each curve whose field ends so; a share without bound is drawn beyond the chart."""
    said = {f.name: str(f.metadata["help"]).partition(",")[0] for f in fields(YearRatios)}
    return tuple((said.get(name, name), tuple(TOP if v is None else v for v in values))
                 for name, values in ratios.items() if name.endswith(ending))  # fmt: skip


def _titled(curves: Sequence[Curve], words: str) -> list[Curve]:
    return [(f"{name} ({words})", values) for name, values in curves]


@lru_cache(maxsize=64)
def _chart(years: tuple[float, ...], alone: tuple[Curve, ...], supported: tuple[Curve, ...], until: float) -> str:
    def lines(curves: tuple[Curve, ...]) -> list[Line]:
        return [
            Line(name, tuple((y, v) for y, v in zip(years, values, strict=True) if y <= until))
            for name, values in curves
        ]

    left = years_chart(
        lines(alone), "year after placing", "share of the limit", "Steel, planks or cover alone", 255, 210
    )
    right = years_chart(lines(supported), "year after placing", "", "With the hardened snow's help", 255, 210)
    return svg(side_by_side(left, right))


def _share(value: float) -> str:
    return "> 99" if value >= TOP else number_text(value, 3)


def _reading(life: Plain | None) -> str:
    words = "Left what holds without help from hardened snow, right what holds with it; the truth lies between."
    if life is None:
        return words
    firsts = " ".join(
        f"{said}: {_when(life[key], life['horizon'])}."
        for said, key in (("First failing alone", "alone"), ("with help", "supported"))
    )
    return f"{words} {firsts}"


def _when(seconds: float | None, horizon: float) -> str:
    if seconds is None or seconds >= horizon:
        return f"not within {horizon / YEAR:.0f} years"
    return "at once" if seconds <= 0 else f"year {seconds / YEAR:.1f}"
