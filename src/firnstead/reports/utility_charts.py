"""Charts of heat, pipes, water and power as Vega-Lite descriptions, in the look of `charts`."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import lru_cache

from firnstead.reports.charts import INK, PAPER, TONE, WORDS, Line, Spec, svg
from firnstead.reports.columns import MONTHS

Row = tuple[float, ...]
Limit = tuple[float, str]
"""Height of a heavy line and what stands on it."""
TONES = ("#3A444B", "#78828A", "#A9B1B4", "#CFD4D4", "#EBEEEE", "#FFFEFB")
# Dashes that are told apart even in a short legend and where lines cross.
DASHES: tuple[tuple[float, ...], ...] = (
    (1, 0), (8, 4), (1.5, 3), (9, 3, 1.5, 3), (3.5, 2), (16, 4), (9, 3, 1.5, 3, 1.5, 3),
)  # fmt: skip
SHORT = 12  # characters of names of which two stand beside one another in the legend of a half chart
HALF, WHOLE, HIGH = 255, 560, 200  # width of a chart beside another and alone, height [px]


def month_chart(
    title: str, quantity: str, lines: Sequence[tuple[str, Row]], limits: Sequence[Limit] = (),
    band: tuple[Row, Row] | None = None, width: int = HALF, height: int = HIGH, span: Sequence[float] = (),
) -> Spec:  # fmt: skip
    """Quantities by month as lines, all else in a toned band, what must not be passed as heavy lines.

    `span` holds values that the scale reaches to besides, so that charts side by side have the same one.
    """
    seen = [*span, *(v for _, row in lines for v in row), *(v for row in band or () for v in row)]
    x, y = _month(), _up(quantity, seen, limits, zero=False)
    layers: list[Spec] = []
    if band is not None:
        rows = [{"x": m, "y": low, "y2": high} for m, low, high in zip(MONTHS, *band, strict=True)]
        layers.append({"data": {"values": rows}, "mark": {"type": "area", "color": TONE},
                       "encoding": {"x": x, "y": y, "y2": {"field": "y2"}}})  # fmt: skip
    rows = [{"x": m, "y": v, "name": name} for name, row in lines for m, v in zip(MONTHS, row, strict=True)]
    layers.append(_line_layer(rows, [name for name, _ in lines], x, y, 1 if width == HALF else 2))
    return _chart(title, width, height, [*layers, *_limits(limits, y)])


def stacked_months(
    title: str, quantity: str, parts: Sequence[tuple[str, Row]], line: tuple[str, Row] | None = None,
    width: int = HALF, height: int = HIGH,
) -> Spec:  # fmt: skip
    """Parts of a whole by month, one on the other, the first at the foot; a line for what they are compared with."""
    x, y = _month(), _up(quantity, (), (), zero=True)
    names = [name for name, _ in parts]
    rows = [{"x": m, "y": v, "name": name, "at": i}
            for i, (name, row) in enumerate(parts) for m, v in zip(MONTHS, row, strict=True)]  # fmt: skip
    tones = [TONES[i] if len(parts) > 1 else TONE for i in range(len(parts))]
    legend = {"symbolType": "square", "symbolStrokeColor": INK, "columns": 1 if width == HALF else 3}
    told = legend if len(parts) > 1 or line is not None else None
    fill = {"field": "name", "type": "nominal", "sort": None, "legend": told,
            "scale": {"domain": names, "range": tones}}  # fmt: skip
    bars: Spec = {"data": {"values": rows}, "mark": {"type": "bar", "stroke": INK, "strokeWidth": 0.6},
                  "encoding": {"x": x, "y": y, "fill": fill, "order": {"field": "at"}}}  # fmt: skip
    layers = [bars]
    if line is not None:
        points = [{"x": m, "y": v, "name": line[0]} for m, v in zip(MONTHS, line[1], strict=True)]
        layers.append(_line_layer(points, [line[0]], x, y, 1, named=True))
    return _chart(title, width, height, layers)


def xy_chart(
    title: str, across: str, quantity: str, lines: Sequence[Line], limits: Sequence[Limit] = (), *,
    zero: bool = False, down: bool = False, end: float | None = None, width: int = HALF, height: int = HIGH,
    named: bool = False,
) -> Spec:  # fmt: skip
    """Lines through points (x, y) from 0 to `end`; with `down` y grows downwards; `named`: even one has its legend."""
    domain = {} if end is None else {"domain": [0, end]}
    x: Spec = {"field": "x", "type": "quantitative", "title": across, "scale": {"nice": False, **domain}}
    y = _up(quantity, [v for line in lines for _, v in line.points], limits, zero=zero)
    if down:
        y["scale"]["reverse"] = True
    rows = [{"x": a, "y": b, "name": line.name, "at": i} for line in lines for i, (a, b) in enumerate(line.points)]
    layer = _line_layer(rows, [line.name for line in lines], x, y, 1 if width == HALF else 2, named)
    layer["encoding"]["order"] = {"field": "at"}
    return _chart(title, width, height, [layer, *_limits(limits, y)])


def drawn(*rows: Sequence[Spec]) -> str:
    """Charts in rows as SVG text; a chart that was drawn before is not drawn again."""
    apart = {"strokeDash": "independent", "fill": "independent", "x": "independent", "y": "independent"}
    lines = [{"hconcat": list(row), "spacing": 22, "resolve": {"scale": apart}} for row in rows]
    whole = lines[0] if len(lines) == 1 else {"vconcat": lines, "spacing": 16, "resolve": {"scale": apart}}
    return _drawn(json.dumps(whole))


@lru_cache(maxsize=128)
def _drawn(spec: str) -> str:
    return svg(json.loads(spec))


def _month() -> Spec:
    return {"field": "x", "type": "ordinal", "sort": list(MONTHS), "title": None, "axis": {"labelAngle": 0}}


def _up(quantity: str, values: Sequence[float], limits: Sequence[Limit], zero: bool) -> Spec:
    """The upright axis; above the highest limit there is room for its words."""
    scale: Spec = {"zero": zero, "nice": True}
    if limits:
        seen = [*values, *(at for at, _ in limits), *([0.0] if zero else [])]
        low, high = min(seen), max(seen)
        whole = (high - low) or 1.0
        room = max(max(at for at, _ in limits) + 0.12 * whole, high + 0.05 * whole)
        scale = {"domain": [low, room], "nice": True}
    return {"field": "y", "type": "quantitative", "title": quantity, "scale": scale}


def _chart(title: str, width: int, height: int, layers: Sequence[Spec]) -> Spec:
    return {"title": title, "width": width, "height": height, "layer": list(layers)}


def _line_layer(
    rows: Sequence[Spec], names: Sequence[str], x: Spec, y: Spec, columns: int, named: bool = False
) -> Spec:  # fmt: skip
    """All lines as one layer, told apart by their dashes."""
    columns = 2 if columns == 1 and max(map(len, names), default=0) <= SHORT else columns
    legend = {"symbolType": "stroke", "columns": columns, "symbolSize": 900} if named or len(names) > 1 else None
    dashes = [list(DASHES[i % len(DASHES)]) for i in range(len(names))]
    dash = {"field": "name", "type": "nominal", "sort": None, "legend": legend,
            "scale": {"domain": list(names), "range": dashes}}  # fmt: skip
    return {"data": {"values": list(rows)}, "mark": {"type": "line", "color": INK, "strokeWidth": 1.5},
            "encoding": {"x": x, "y": y, "strokeDash": dash}}  # fmt: skip


def _limits(limits: Sequence[Limit], y: Spec) -> list[Spec]:
    """Heavy lines with words on them, at the left end."""
    layers: list[Spec] = []
    at: Spec = {"field": "y", "type": "quantitative", "scale": y["scale"]}
    for value, words in limits:
        layers.append({"data": {"values": [{"y": value}]}, "mark": {"type": "rule", "color": INK, "strokeWidth": 2.2},
                       "encoding": {"y": at}})  # fmt: skip
        text = {"type": "text", "align": "left", "baseline": "bottom", "dx": 5, "dy": -3, "font": WORDS,
                "fontSize": 11, "color": INK, "x": 0}  # fmt: skip
        behind = {**text, "stroke": PAPER, "strokeWidth": 3}  # keeps lines of the grid out of the words
        layers += [{"data": {"values": [{"y": value, "words": words}]}, "mark": mark,
                    "encoding": {"y": at, "text": {"field": "words"}}} for mark in (behind, text)]  # fmt: skip
    return layers
