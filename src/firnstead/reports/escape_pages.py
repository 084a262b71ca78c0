"""The chapter on the ways out: worst places first, time needed against time left, every spot blocked in turn."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.reports import blocks
from firnstead.reports import escape_rows as rows
from firnstead.reports.charts import svg
from firnstead.reports.escape_rows import minutes
from firnstead.reports.safety_charts import needed_chart
from firnstead.reports.words import ratio_text, shown, verdict_sentence

Plain = Mapping[str, Any]
TITLE = "Ways out"
REPEATED = re.compile(r"every|weekly|monthly|twice a year|drill", re.IGNORECASE)
"""Words by which work that is done again and again is told from work done once."""


def escape_chapter(document: Plain) -> dict[str, Any]:
    """Title and blocks; no blocks where the file has no escape part."""
    result = document["results"].get("escape")
    if not result:
        return {"title": TITLE, "blocks": []}
    checks = [c for c in document["checks"] if c["discipline"] == "escape"]
    system = document["station"]["units"]
    found = rows.place_rows(result, checks)
    return {"title": TITLE, "blocks": [
        blocks.say(f"{verdict_sentence(checks)} {rows.cut_off_sentence(result)}"),
        blocks.caution(caution_for("escape")),
        blocks.note(rows.limits_sentence(result, system)),
        blocks.heading("Places, worst first"),
        _places(found, system),
        *_to_do(result, checks, system),
        *_times(found, system),
        *_hours(result),
        blocks.heading("Every single spot blocked in turn"),
        _rooms(result, system),
        *(blocks.note(said) for said in [rows.pairs_sentence(result, system)] if said),
        blocks.heading("Exits and those who leave by them"),
        _exits(result),
        blocks.heading("The two ways of each building"),
        _muster(result, system),
        *rounds(document, "escape"),
    ]}  # fmt: skip


def _places(found: list[rows.PlaceRow], system: str) -> blocks.Block:
    head = [("Place", 1.1), ("Verdict", 0.9), ("Share", 0.6), ("Walk to an exit", 0.9), ("One spot blocked", 0.9),
            ("To a choice of ways", 0.9), ("Dead end", 0.8), ("Ways apart", 0.9), ("Diagonal", 0.9)]  # fmt: skip
    made = []
    for row in found:
        p, c = row.place, row.check
        cut = "cut off" if p["blocked"] is None else shown(p["blocked"], "m", system)
        made.append(
            [
                row.name,
                c["verdict"] if c else "not checked",
                ratio_text(c["ratio"], c["verdict"]) if c else "–",
                shown(p["travel"], "m", system),
                cut,
                *(shown(p[k], "m", system) for k in ("common_path", "dead_end", "separation", "diagonal")),
            ]
        )
    return blocks.table(head, made, right=range(2, 9))


def _to_do(result: Plain, checks: list[Plain], system: str) -> list[blocks.Block]:
    found = rows.to_do(result, checks, system)
    if not found:
        return [blocks.note("Nothing fails and nothing is close to a limit.")]
    head = [("What", 1.1), ("Where", 2), ("What to do", 1.2)]
    return [blocks.heading("What to do, worst first"), blocks.table(head, found)]


def _times(found: list[rows.PlaceRow], system: str) -> list[blocks.Block]:
    timed = [(row, row.times) for row in found if row.times is not None]
    if not timed:
        return []
    head = [("Place", 1), ("Hydraulic model", 0.9), ("Simplified method", 0.9), ("Needed", 0.8), ("Smoke leaves", 0.8),
            ("Margin", 0.8), ("Who, when, what is blocked", 2)]  # fmt: skip
    made = [[row.name, minutes(t.hydraulic), minutes(t.imo), minutes(t.needed), minutes(row.available),
             minutes(row.margin), t.words()]
            for row, t in timed]  # fmt: skip
    bars = [(row.name, (row.available - row.margin) / 60, row.available / 60) for row, _ in timed
            if row.available is not None and row.margin is not None]  # fmt: skip
    reading = ("Bar: minutes until smoke, heat or dose close the tightest spot of the best way, worst fire. Tick: when "
               "the last person passes it, with reaction and margin. A tick beyond its bar is too late.")  # fmt: skip
    chart = [blocks.figure("Time needed against time that smoke leaves", reading,
                           svg(needed_chart(bars, "minutes after the start of the fire", 400)), 88.0)]  # fmt: skip
    return [
        blocks.heading("Time needed against time available (minutes)"),
        blocks.note("Models: walk and queue of the slowest person, the simplified method with its correction and "
                    "counterflow. Needed: the longer of both with reaction and margin. Smoke leaves, and margin: at "
                    "the spot and hour where both are closest; a dash is not known."),
        blocks.table(head, made, right=range(1, 6)),
        *(chart if bars else [blocks.note("The time that smoke leaves is not known: there is no fire study.")]),
    ]  # fmt: skip


def _hours(result: Plain) -> list[blocks.Block]:
    head = [("Hour", 1.1), ("People", 0.6), ("Reaction", 0.75), ("Speed", 0.55), ("Hydraulic", 0.8),
            ("Simplified", 0.85), ("Needed", 0.8), ("Worst spot blocked", 0.9), ("Slowest then", 1.9),
            ("No plan beats", 0.75), ("Carried", 0.75)]  # fmt: skip
    return [blocks.heading("The station by the hour (minutes)"),
            blocks.table(head, rows.hour_rows(result), right=(1, 2, 3, 4, 5, 6, 7, 9, 10))]  # fmt: skip


def _rooms(result: Plain, system: str) -> blocks.Block:
    head = [("Room", 1.1), ("People", 0.6), ("Nearest exit", 1.1), ("Walk", 0.7), ("Worst spot blocked", 1.3),
            ("Way left", 1.1), ("Walk", 0.7), ("Needed [min]", 0.8)]  # fmt: skip
    made = [[r["room"], str(r["people"]), r["exit"], shown(r["length"], "m", system), r["blocked"] or "none", r["left"],
             shown(r["left_length"], "m", system), r["needed"]] for r in rows.room_rows(result)]  # fmt: skip
    return blocks.table(head, made, right=(1, 3, 6, 7))


def _exits(result: Plain) -> blocks.Block:
    hours = ", ".join(h["name"] for h in result["hours"])
    head = [
        ("Exit", 1.1),
        ("Opens from", 0.9),
        (f"People ({hours})", 1.1),
        ("Most", 0.5),
        ("While this is blocked", 1.3),
        ("Ladder", 0.9),
    ]
    return blocks.table(head, rows.exit_rows(result), right=(3,))


def _muster(result: Plain, system: str) -> blocks.Block:
    head = [("Building", 1), ("First way", 1.5), ("Second way", 1.5), ("Shared", 0.7), ("Refuge", 1.6), ("Note", 1.1)]

    def way(route: Plain | None) -> str:
        if not route:
            return "none"
        end = f", ladder {shown(route['climb'], 'm', system)}" if route["climb"] else ""
        return f"{route['exit']}, {shown(route['length'], 'm', system)}{end}"

    made = []
    for name, m in result["muster"].items():
        here = "this building" if m["refuge"] == name else m["refuge"] or "none"
        far = f", {shown(m['refuge_route']['length'], 'm', system)}" if m["refuge_route"] else ""
        shared = shown(m["shared"], "m", system) if m["shared"] else "nothing"
        made.append([name, way(m["first"]), way(m["second"]), shared if m["second"] else "–", f"{here}{far}",
                     m["note"] or "–"])  # fmt: skip
    return blocks.table(head, made)


def rounds(document: Plain, discipline: str) -> list[blocks.Block]:
    """Inspection rounds and drills of a discipline: work items that repeat, alike ones together."""
    found: dict[tuple[str, str], list[Plain]] = {}
    for item in document["work_items"]:
        if item["discipline"] == discipline and REPEATED.search(f"{item['what']} {item['note']}"):
            found.setdefault((item["note"], item["unit"]), []).append(item)
    if not found:
        return []
    head = [("What", 1.2), ("How often, and how", 3), ("Person-hours a round", 0.8)]
    made = []
    for (note, _), items in found.items():
        first = items[0]["what"]
        what = first if len(items) == 1 else f"{first} and {len(items) - 1} more alike"
        made.append([what, note, f"{sum(i['hours'] * i['people'] for i in items):,.1f}"])
    return [blocks.heading("Inspection rounds"), blocks.table(head, made, right=(2,))]
