"""Charts as Vega-Lite descriptions: the same dict serves the page and the paper. Ink, dashes and tones, no colour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from importlib.resources import as_file, files
from typing import Any

PAPER, INK, SOFT, RULE, TONE = "#FFFEFB", "#1A2025", "#4A545B", "#CFD4D4", "#DDE2E3"
WORDS, FIGURES = "Atkinson Hyperlegible Next", "Atkinson Hyperlegible Mono"
DASHES: tuple[tuple[int, ...], ...] = ((1, 0), (6, 3), (2, 2), (9, 3, 2, 3), (12, 4), (4, 1, 1, 1), (1, 3))
Spec = dict[str, Any]


@dataclass(frozen=True)
class Line:
    """A named line through points (x, y); without a name it is an edge of a band."""

    name: str
    points: tuple[tuple[float, float], ...]
    dash: int = 0


@dataclass(frozen=True)
class Band:
    """A named band: for each y its least and greatest x."""

    name: str
    rows: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True)
class TimeBand:
    """A quantity through the years: lower end, line in the middle, upper end."""

    name: str
    years: tuple[float, ...]
    low: tuple[float, ...]
    middle: tuple[float, ...]
    high: tuple[float, ...]


def config() -> Spec:
    """The look of every chart."""
    axis = {"labelFont": FIGURES, "titleFont": WORDS, "labelColor": INK, "titleColor": INK, "titleFontWeight": "normal",
            "domainColor": INK, "tickColor": INK, "gridColor": RULE, "gridWidth": 0.6, "labelFontSize": 10,
            "titleFontSize": 11}  # fmt: skip
    legend = {"labelFont": WORDS, "titleFont": WORDS, "labelColor": INK, "labelFontSize": 11, "symbolSize": 300,
              "symbolStrokeWidth": 1.6, "orient": "bottom", "title": None, "columns": 2, "labelLimit": 400}  # fmt: skip
    title = {"font": WORDS, "fontSize": 12, "color": INK, "anchor": "start"}
    return {"background": "transparent", "font": WORDS, "axis": axis, "legend": legend, "title": title,
            "view": {"stroke": INK, "strokeWidth": 0.6}}  # fmt: skip


def depth_chart(
    title: str, quantity: str, depth: str, lines: Sequence[Line], band: Band | None, deepest: float, width: int,
    height: int = 330,
) -> Spec:  # fmt: skip
    """A quantity to the right, depth downwards; points are (quantity, depth)."""
    x: Spec = {"field": "x", "type": "quantitative", "title": quantity, "scale": {"zero": False, "nice": True},
               "axis": {"orient": "top"}}  # fmt: skip
    y: Spec = {"field": "y", "type": "quantitative", "title": depth,
               "scale": {"reverse": True, "nice": False, "domain": [0, deepest]}}  # fmt: skip
    layers: list[Spec] = []
    if band is not None and band.rows:
        rows = [{"x": low, "x2": high, "y": at, "name": band.name} for at, low, high in band.rows]
        layers.append({
            "data": {"values": rows},
            "mark": {"type": "area", "orient": "horizontal", "color": TONE, "line": {"color": INK, "strokeWidth": 0.6}},
            "encoding": {"x": x, "x2": {"field": "x2"}, "y": y},
        })  # fmt: skip
        layers.append(_edge([(high, at) for at, _, high in band.rows], x, y))
    layers += _lines(lines, x, y)
    return {"title": title, "width": width, "height": height, "layer": layers}


def years_chart(lines: Sequence[Line], year: str, quantity: str, title: str, width: int, height: int) -> Spec:
    """Share of the limit over the years, with the limit as a heavy line at 1; points are (year, share)."""
    x: Spec = {"field": "x", "type": "quantitative", "title": year, "scale": {"nice": False},
               "axis": {"tickMinStep": 1, "format": "d"}}  # fmt: skip
    top = max([1.2, *(share * 1.05 for line in lines for _, share in line.points)])
    y: Spec = {"field": "y", "type": "quantitative", "title": quantity,
               "scale": {"domain": [0, min(top, 3.0)], "clamp": True}}  # fmt: skip
    limit: Spec = {"data": {"values": [{"y": 1.0}]}, "mark": {"type": "rule", "color": INK, "strokeWidth": 2.2},
                   "encoding": {"y": {"field": "y", "type": "quantitative"}}}  # fmt: skip
    said: Spec = {"data": {"values": [{"y": 1.0, "words": "the limit"}]},
                  "mark": {"type": "text", "align": "left", "baseline": "bottom", "dx": 5, "dy": -3, "font": WORDS,
                           "fontSize": 11, "color": INK, "x": 0},
                  "encoding": {"y": {"field": "y", "type": "quantitative"}, "text": {"field": "words"}}}  # fmt: skip
    return {"title": title, "width": width, "height": height, "layer": [*_lines(lines, x, y, 1), limit, said]}


def time_chart(
    bands: Sequence[TimeBand], year: str, quantity: str, title: str, width: int, height: int, limit: float | None,
    limit_words: str,
) -> Spec:  # fmt: skip
    """Quantities against years: an expected line in a toned band each, and what must stay as a heavy line."""
    x: Spec = {"field": "x", "type": "quantitative", "title": year, "scale": {"nice": False},
               "axis": {"tickMinStep": 1, "format": "d"}}  # fmt: skip
    y: Spec = {"field": "y", "type": "quantitative", "title": quantity, "scale": {"zero": True, "nice": True}}
    layers: list[Spec] = []
    for band in bands:
        rows = [{"x": t, "y": low, "y2": high} for t, low, high in zip(band.years, band.low, band.high, strict=True)]
        mark = {"type": "area", "color": TONE, "opacity": 0.7, "line": {"color": SOFT, "strokeWidth": 0.5}}
        layers.append({"data": {"values": rows}, "mark": mark, "encoding": {"x": x, "y": y, "y2": {"field": "y2"}}})
        layers.append(_edge(list(zip(band.years, band.high, strict=True)), x, y))
    lines = [Line(band.name, tuple(zip(band.years, band.middle, strict=True))) for band in bands]
    layers += _lines(lines, x, y, 1)
    if limit is not None:
        at: Spec = {"field": "y", "type": "quantitative"}
        layers.append({"data": {"values": [{"y": limit}]}, "mark": {"type": "rule", "color": INK, "strokeWidth": 2.2},
                       "encoding": {"y": at}})  # fmt: skip
        words = {"type": "text", "align": "right", "baseline": "bottom", "dx": -5, "dy": -3, "font": WORDS,
                 "fontSize": 11, "color": INK, "x": width}  # fmt: skip
        layers.append({"data": {"values": [{"y": limit, "words": limit_words}]}, "mark": words,
                       "encoding": {"y": at, "text": {"field": "words"}}})  # fmt: skip
    return {"title": title, "width": width, "height": height, "layer": layers}


def side_by_side(*charts: Spec) -> Spec:
    """Charts in a row."""
    return {"hconcat": list(charts), "spacing": 22, "resolve": {"scale": {"strokeDash": "independent"}}}


def svg(spec: Spec) -> str:
    """Draw a chart; the same text for the same chart, on every machine."""
    import vl_convert

    with as_file(files("firnstead") / "fonts") as fonts:
        vl_convert.register_font_directory(str(fonts))
        whole = {"$schema": "https://vega.github.io/schema/vega-lite/v6.json", "config": config(), **spec}
        return str(vl_convert.vegalite_to_svg(whole, vl_version="6.4"))


def _edge(points: Sequence[tuple[float, float]], x: Spec, y: Spec) -> Spec:
    rows = [{"x": a, "y": b, "at": i} for i, (a, b) in enumerate(points)]
    return {"data": {"values": rows}, "mark": {"type": "line", "color": INK, "strokeWidth": 0.6},
            "encoding": {"x": x, "y": y, "order": {"field": "at"}}}  # fmt: skip


def _lines(lines: Sequence[Line], x: Spec, y: Spec, columns: int = 2) -> list[Spec]:
    """All lines as one layer, told apart by their dashes."""
    if not lines:
        return []
    rows = [{"x": a, "y": b, "name": line.name, "at": i} for line in lines for i, (a, b) in enumerate(line.points)]
    dashes = [list(DASHES[(line.dash or i) % len(DASHES)]) for i, line in enumerate(lines)]
    legend = {"symbolType": "stroke", "columns": columns} if len(lines) > 1 else None
    dash = {"field": "name", "type": "nominal", "sort": None, "legend": legend,
            "scale": {"domain": [line.name for line in lines], "range": dashes}}  # fmt: skip
    return [{"data": {"values": rows}, "mark": {"type": "line", "color": INK, "strokeWidth": 1.5},
             "encoding": {"x": x, "y": y, "strokeDash": dash, "order": {"field": "at"}}}]  # fmt: skip
