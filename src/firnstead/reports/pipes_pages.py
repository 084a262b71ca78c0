"""Pipes on paper: every run, its weakest metre first, temperatures along the worst lines, tracing."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.core.units import unit_text
from firnstead.reports import blocks
from firnstead.reports.charts import Line
from firnstead.reports.columns import BY_MONTH, Columns, month_head
from firnstead.reports.utility_charts import WHOLE, drawn, xy_chart
from firnstead.reports.words import counted, shown

Plain = Mapping[str, Any]
LINES = 6  # runs whose temperature is drawn
ZERO = 273.15  # K
HOT = 313.15  # K: warmer lines have no part in a picture of freezing


def pipes_chapter(document: Plain) -> dict[str, Any]:
    """Title and blocks; no blocks where the file has no pipes."""
    pipes, station = document["results"].get("pipes"), document["station"]
    if not pipes or not pipes["runs"]:
        return {"title": "Pipes", "blocks": []}
    c = Columns(station["units"])
    return {"title": "Pipes", "blocks": [
        blocks.say(_sentence(pipes, c)),
        blocks.caution(caution_for("pipes")),
        *_runs(pipes, c),
        *_freezing(pipes, c),
        *_along(pipes, c),
        *_tracing(pipes, c),
        *_flow(pipes, c),
        *_legs(pipes, c),
        *_notes(pipes),
    ]}  # fmt: skip


def _order(pipes: Plain) -> list[str]:
    """Runs, the first to freeze first, what cannot freeze behind."""
    first = [n for n in pipes["first_to_freeze"] if n in pipes["runs"]]
    return [*first, *(n for n in pipes["runs"] if n not in first)]


def _sentence(pipes: Plain, c: Columns) -> str:
    words = f"{counted(len(pipes['runs']), 'run')}, {shown(pipes['length'], 'm', c.system)} in all"
    first = next((pipes["runs"][n] for n in pipes["first_to_freeze"] if pipes["runs"][n]["spots"]), None)
    if first is None:
        return f"{words}. Nothing in them can freeze."
    name, spot = pipes["first_to_freeze"][0], first["spots"][0]
    after = shown(spot["to_zero"], "s", c.system)
    return (f"{words}. Without power {name} reaches {c.say(ZERO, 'K')} first, after {after} "
            f"({spot['what']} in {spot['place']}).")  # fmt: skip


def _runs(pipes: Plain, c: Columns) -> list[blocks.Block]:
    rows = []
    for name, run in pipes["runs"].items():
        spot = run["spots"][0] if run["spots"] else None
        tracing = run["tracing"]
        rows.append([
            name, run["carrier"], f"{run['begins']} to {run['ends']}", c.cell(run["length"], "m"),
            f"{run['loss_cold']:,.0f}", c.cell(run["coldest"], "K"),
            shown(spot["to_zero"], "s", c.system) if spot else "never", shown(run["allowed"], "s", c.system),
            f"{tracing['power']:,.0f}" if tracing else "–", _percent(run["fall"]),
        ])  # fmt: skip
    head = [("Run", 1.4), ("Carries", 0.85), ("From, to", 1.5), (c.head("Length", "m"), 0.75),
            ("Loss at the coldest [W]", 0.85), (c.head("Coldest in service", "K"), 0.8),
            (f"To {c.say(ZERO, 'K')}", 1.1), ("Allowed outage", 0.95), ("Tracing, most [W]", 0.9),
            ("Least fall [%]", 0.6)]  # fmt: skip
    return [blocks.heading("Runs"), blocks.table(head, rows, right=range(3, 10))]


def _freezing(pipes: Plain, c: Columns) -> list[blocks.Block]:
    rows = []
    for name in _order(pipes):
        run = pipes["runs"][name]
        for i, spot in enumerate(run["spots"]):
            first = [name if i == 0 else "", spot["what"], spot["place"], c.cell(spot["air"], "K"),
                     c.cell(spot["loss"], "W/m"), shown(spot["to_zero"], "s", c.system)]  # fmt: skip
            allowed = shown(run["allowed"], "s", c.system) if i == 0 else ""
            rows.append([*first, allowed, *(shown(spot[k], "s", c.system) for k in ("blocked", "solid"))])
    if not rows:
        return []
    head = [("Run", 1.4), ("Metre", 1.1), ("Place", 0.9), (c.head("Air", "K"), 0.75), (c.head("Loss", "W/m"), 0.8),
            (f"To {c.say(ZERO, 'K')}", 0.9), ("Allowed outage", 0.9), ("Then to a ring of ice", 0.95),
            ("to solid ice", 0.9)]  # fmt: skip
    return [
        blocks.heading("Without flow and without power: the weakest metre first"),
        blocks.note("In the coldest air, without heat of the station. Only the time to freezing may be counted on; a "
                    "ring of ice over a quarter of the bore and solid ice are hidden reserve."),
        blocks.table(head, rows, right=range(3, 9)),
    ]  # fmt: skip


def _share(run: Plain) -> float:
    """Allowed outage as a share of the time to 0 °C."""
    if not run["spots"] or not run["spots"][0]["to_zero"]:
        return inf if run["spots"] else 0.0
    return float(run["allowed"]) / float(run["spots"][0]["to_zero"])


def _along(pipes: Plain, c: Columns) -> list[blocks.Block]:
    runs = pipes["runs"]
    cold = [n for n in runs if runs[n]["spots"] and len(runs[n]["along"]) > 1 and runs[n]["start"] < HOT]
    if not cold:
        return []
    chosen = sorted(cold, key=lambda n: -_share(runs[n]))[:LINES]
    curves = {n: _points(runs[n]) for n in chosen}
    lines = [Line(_named(names), tuple((c.value(x, "m"), c.value(t, "K")) for x, t in curves[names[-1]]))
             for names in _overlaid(curves)]  # fmt: skip
    coldest = min(chosen, key=lambda n: float(runs[n]["coldest"]))
    reading = (f"In service, coldest air: {coldest} comes down to {shown(runs[coldest]['coldest'], 'K', c.system)}. "
               "A traced line that may stand still is drawn at what its thermostat holds.")  # fmt: skip
    degree, metre = unit_text(c.unit("K")), unit_text(c.unit("m"))
    chart = xy_chart("The lines with the least time in hand", f"along the line [{metre}]", f"temperature [{degree}]",
                     lines, [(c.value(ZERO, "K"), "freezing")], width=WHOLE, height=230, named=True)  # fmt: skip
    return [blocks.figure("Temperature along the lines", reading, drawn([chart]))]


def _points(run: Plain) -> list[tuple[float, float]]:
    """Temperature along a run; what enters cools at once where nothing flows on."""
    points = [(float(x), float(t)) for x, t in run["along"]]
    return [(points[0][0], points[1][1]), *points[1:]] if run["tracing"] and not run["flow"] else points


def _overlaid(curves: Mapping[str, list[tuple[float, float]]]) -> list[list[str]]:
    """Names of lines that would lie on one another, the longest last: level ones at the same temperature."""
    found: dict[object, list[str]] = {}
    for name, points in sorted(curves.items(), key=lambda each: each[1][-1][0]):
        level = {round(t, 2) for _, t in points}
        found.setdefault(level.pop() if len(level) == 1 else name, []).append(name)
    return list(found.values())


def _named(names: list[str]) -> str:
    return " / ".join(names) if len(names) < 4 else f"{' / '.join(names[-2:])} and {len(names) - 2} more"


def _tracing(pipes: Plain, c: Columns) -> list[blocks.Block]:
    traced = {n: r["tracing"] for n, r in pipes["runs"].items() if r["tracing"]}
    if not traced:
        return [blocks.heading("Tracing"), blocks.note("No run is traced.")]
    rows = [[n, c.cell(t["needed"], "W/m"), c.cell(t["output"], "W/m"), c.cell(t["cable"], "m"), str(t["circuits"]),
             str(t["standby"]), f"{t['current']:.1f}", f"{t['power']:,.0f}",
             *c.cells([t["on"], t["off"], t["alarm"]], "K")]
            for n, t in traced.items()]  # fmt: skip
    head = [("Run", 1.5), (c.head("Needed", "W/m"), 0.9), (c.head("Output", "W/m"), 0.9),
            (c.head("One cable", "m"), 0.8), ("Circuits", 0.85), ("Stand by", 0.75), ("Current [A]", 0.85),
            ("Power [W]", 0.75), *((c.head(words, "K"), 0.75) for words in ("On", "Off", "Alarm"))]  # fmt: skip
    months = [[n, *(f"{w:,.0f}" for w in row)] for n, row in pipes["tracing"].items()]
    return [
        blocks.heading("Tracing"),
        blocks.table(head, rows, right=range(1, 11)),
        blocks.table(month_head("Electricity [W]"), months, right=BY_MONTH),
    ]


def _flow(pipes: Plain, c: Columns) -> list[blocks.Block]:
    runs = pipes["runs"]
    rows = [[n, _number(r["flow"]), _number(r["least_flow"]), shown(r["pressure"], "Pa", c.system),
             _number(r["condensate"] or None), shown(r["expansion"], "m", c.system),
             shown(r["expansion_leg"], "m", c.system), c.cell(r["jacket"], "K"),
             shown(r["thaw_radius"], "m", c.system)] for n, r in runs.items()]  # fmt: skip
    head = [("Run", 1.5), ("Flow [kg/s]", 0.85), ("Least flow [kg/s]", 0.95), ("Friction", 0.95),
            ("Con\u00addensate [kg/s]", 1), ("Change of length", 0.95), ("Leg of a bend", 0.9),
            (c.head("Jacket on snow", "K"), 0.9),
            ("Thawed round it", 0.9)]  # fmt: skip
    heat = [[n, *(f"{w:,.0f}" for w in row)] for n, row in pipes["losses"].items() if any(row)]
    heat += [
        [f"{n}, into the floor", *(f"{w:,.0f}" for w in row)] for n, row in pipes["floor_losses"].items() if any(row)
    ]
    return [
        blocks.heading("Flow, expansion and heat given off"),
        blocks.table(head, rows, right=range(1, 9)),
        *([blocks.table(month_head("Heat to places [W]"), heat, right=BY_MONTH)] if heat else []),
    ]


def _legs(pipes: Plain, c: Columns) -> list[blocks.Block]:
    rows = [[n if i == 0 else "", leg["place"], c.cell(leg["length"], "m"), c.cell(leg["air_cold"], "K"),
             f"{leg['resistance']:.2f}", c.cell(leg["temperature"], "K"), _percent(leg["fall"])]
            for n, r in pipes["runs"].items() for i, leg in enumerate(r["legs"])]  # fmt: skip
    head = [("Run", 1.5), ("Place, in order of flow", 1.3), (c.head("Length", "m"), 0.8),
            (c.head("Coldest around", "K"), 1), ("Resistance [m K/W]", 1), (c.head("Carrier at its end", "K"), 1),
            ("Fall of the flattest stretch [%]", 1.2)]  # fmt: skip
    return [blocks.heading("Place by place"), blocks.table(head, rows, right=range(2, 7))]


def _notes(pipes: Plain) -> list[blocks.Block]:
    said: dict[str, list[str]] = {}
    for name, run in pipes["runs"].items():
        for text in run["notes"]:
            said.setdefault(text, []).append(name)
    rows = [[text[0].upper() + text[1:], "every run" if len(names) == len(pipes["runs"]) else ", ".join(names)]
            for text, names in said.items()]  # fmt: skip
    return [blocks.heading("What to know"), blocks.table([("Note", 1.5), ("Runs", 1)], rows)] if rows else []


def _number(value: float | None) -> str:
    return "–" if value is None else f"{value:.3g}"


def _percent(value: float | None) -> str:
    return "–" if value is None else f"{100 * value + 0.0:.1f}"
