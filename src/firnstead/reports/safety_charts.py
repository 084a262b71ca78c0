"""Charts on ways out, smoke and air, as Vega-Lite descriptions; ink, dashes and tones, no colour."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from firnstead.reports.charts import DASHES, INK, RULE, SOFT, TONE, WORDS, Line, Spec

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def needed_chart(rows: Sequence[tuple[str, float, float]], unit: str, width: int) -> Spec:
    """For each place the time that smoke leaves (tone) and the time needed (tick); rows are (place, needed, left)."""
    values = [{"place": place, "needed": needed, "left": left} for place, needed, left in rows]
    late = [v for v, (_, needed, left) in zip(values, rows, strict=True) if needed > left]
    names = [place for place, _, _ in rows]
    y: Spec = {"field": "place", "type": "nominal", "sort": names, "title": None,
               "axis": {"labelLimit": 220, "labelFont": WORDS}}  # fmt: skip
    x: Spec = {"type": "quantitative", "title": unit, "scale": {"zero": True, "nice": True}}
    bar: Spec = {"mark": {"type": "bar", "height": 9, "color": TONE, "stroke": INK, "strokeWidth": 0.6},
                 "encoding": {"y": y, "x": {**x, "field": "left"}}}  # fmt: skip
    line: Spec = {"data": {"values": late}, "mark": {"type": "rule", "color": INK, "strokeWidth": 0.8},
                  "encoding": {"y": y, "x": {**x, "field": "left"}, "x2": {"field": "needed"}}}  # fmt: skip
    tick: Spec = {"mark": {"type": "tick", "thickness": 3, "size": 11, "color": INK},
                  "encoding": {"y": y, "x": {**x, "field": "needed"}}}  # fmt: skip
    return {"data": {"values": values}, "width": width, "height": {"step": 12}, "layer": [bar, line, tick]}


def along_chart(
    spots: Sequence[str], lines: Sequence[tuple[str, Sequence[float | None]]], unit: str, width: int, height: int
) -> Spec:  # fmt: skip
    """Times at the spots of one way, in walking order; a time that is not reached leaves a gap."""
    rows = [{"spot": f"{i + 1} {spot}", "at": i, "name": name, "y": value}
            for name, values in lines for i, (spot, value) in enumerate(zip(spots, values, strict=True))
            if value is not None]  # fmt: skip
    domain = [f"{i + 1} {spot}" for i, spot in enumerate(spots)]
    x: Spec = {"field": "spot", "type": "ordinal", "sort": None, "title": None, "scale": {"domain": domain},
               "axis": {"labelAngle": -38, "labelLimit": 170, "labelFont": WORDS}}  # fmt: skip
    y: Spec = {"field": "y", "type": "quantitative", "title": unit, "scale": {"zero": True, "nice": True}}
    names = [name for name, _ in lines]
    return {"data": {"values": rows}, "width": width, "height": height,
            "mark": {"type": "line", "color": INK, "strokeWidth": 1.6, "point": {"color": INK, "size": 18}},
            "encoding": {"x": x, "y": y, "strokeDash": _dash(names), "order": {"field": "at"}}}  # fmt: skip


def through_time(
    title: str, quantity: str, lines: Sequence[Line], limit: float | None, limit_words: str, width: int, height: int,
    time: str = "minutes after the start of the fire", log: bool = False,
) -> Spec:  # fmt: skip
    """A quantity against time, with its limit as a heavy line; points are (time, quantity)."""
    x: Spec = {"field": "x", "type": "quantitative", "title": time, "scale": {"nice": False}}
    scale: Spec = {"type": "log", "domainMin": 1} if log else {"zero": True, "nice": True}
    y: Spec = {"field": "y", "type": "quantitative", "title": quantity, "scale": scale}
    if log:
        y["axis"] = {"values": [10**n for n in range(7)], "format": ",d"}
    rows = [{"x": a, "y": b, "name": line.name, "at": i} for line in lines for i, (a, b) in enumerate(line.points)]
    layers: list[Spec] = [{
        "data": {"values": rows}, "mark": {"type": "line", "color": INK, "strokeWidth": 1.6},
        "encoding": {"x": x, "y": y, "strokeDash": _dash([line.name for line in lines]), "order": {"field": "at"}},
    }]  # fmt: skip
    if limit is not None:
        layers += _limit(limit, limit_words, width)
    return {"title": title, "width": width, "height": height, "layer": layers}


def month_chart(
    title: str, quantity: str, rows: Sequence[tuple[str, Sequence[float]]], limit: float | None, limit_words: str,
    width: int, height: int, zero: bool = True,
) -> Spec:  # fmt: skip
    """A quantity by month for several rooms, with its limit as a heavy line."""
    values = [{"month": MONTHS[m], "at": m, "y": value, "name": name}
              for name, row in rows for m, value in enumerate(row)]  # fmt: skip
    x: Spec = {"field": "month", "type": "ordinal", "sort": list(MONTHS), "title": None,
               "axis": {"labelAngle": 0, "labelFont": WORDS}}  # fmt: skip
    y: Spec = {"field": "y", "type": "quantitative", "title": quantity, "scale": {"zero": zero, "nice": True}}
    layers: list[Spec] = [{
        "data": {"values": values},
        "mark": {"type": "line", "color": INK, "strokeWidth": 1.6, "point": {"color": INK, "size": 14}},
        "encoding": {"x": x, "y": y, "strokeDash": _dash([name for name, _ in rows]), "order": {"field": "at"}},
    }]  # fmt: skip
    if limit is not None:
        layers += _limit(limit, limit_words, width)
    elif not zero or any(value < 0 for _, row in rows for value in row):
        layers.append({"data": {"values": [{"y": 0.0}]}, "mark": {"type": "rule", "color": SOFT, "strokeWidth": 0.8},
                       "encoding": {"y": {"field": "y", "type": "quantitative"}}})  # fmt: skip
    return {"title": title, "width": width, "height": height, "layer": layers}


def hours_chart(rows: Sequence[tuple[str, float, float]], quantity: str, width: int) -> Spec:
    """Hours until a limit in each room with its doors shut (tick) and open (end of the line), shortest first."""
    values = [{"room": room, "shut": shut, "open": late} for room, shut, late in rows]
    y: Spec = {"field": "room", "type": "nominal", "sort": [room for room, _, _ in rows], "title": None,
               "axis": {"labelLimit": 220, "labelFont": WORDS}}  # fmt: skip
    x: Spec = {"type": "quantitative", "title": quantity, "scale": {"type": "log", "nice": True}}
    line: Spec = {"mark": {"type": "rule", "color": RULE, "strokeWidth": 3},
                  "encoding": {"y": y, "x": {**x, "field": "shut"}, "x2": {"field": "open"}}}  # fmt: skip
    tick: Spec = {"mark": {"type": "tick", "thickness": 3, "size": 11, "color": INK},
                  "encoding": {"y": y, "x": {**x, "field": "shut"}}}  # fmt: skip
    return {"data": {"values": values}, "width": width, "height": {"step": 14}, "layer": [line, tick]}


def _dash(names: Sequence[str]) -> Spec:
    legend: Any = {"symbolType": "stroke", "columns": 1} if len(names) > 1 else None
    dashes = [list(DASHES[i % len(DASHES)]) for i in range(len(names))]
    return {"field": "name", "type": "nominal", "sort": None, "legend": legend,
            "scale": {"domain": list(names), "range": dashes}}  # fmt: skip


def _limit(value: float, words: str, width: int) -> list[Spec]:
    at: Spec = {"field": "y", "type": "quantitative"}
    text = {"type": "text", "align": "right", "baseline": "bottom", "dx": -4, "dy": -3, "font": WORDS, "fontSize": 11,
            "color": INK, "x": width}  # fmt: skip
    return [
        {"data": {"values": [{"y": value}]}, "mark": {"type": "rule", "color": INK, "strokeWidth": 2.2},
         "encoding": {"y": at}},
        {"data": {"values": [{"y": value, "words": words}]}, "mark": text,
         "encoding": {"y": at, "text": {"field": "words"}}},
    ]  # fmt: skip
