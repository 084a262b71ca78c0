"""The chapter on fire and smoke: fires, the worst way out through time, what is lost, what guards against it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.core.units import number_text
from firnstead.reports import blocks
from firnstead.reports.charts import Line, side_by_side, svg
from firnstead.reports.escape_pages import rounds
from firnstead.reports.escape_rows import minutes, route_of_way, way_words
from firnstead.reports.safety_charts import along_chart, through_time
from firnstead.reports.words import shown, verdict_sentence

Plain = Mapping[str, Any]
TITLE = "Fire and smoke"
WAYS = 16  # rows of the table of people and fires
LISTED = 8  # names in one cell
PPM = 1e6


def fire_chapter(document: Plain) -> dict[str, Any]:
    """Title and blocks; no blocks where no fire was followed."""
    result = document["results"].get("fire")
    if not result or not result["cases"]:
        return {"title": TITLE, "blocks": []}
    checks = [c for c in document["checks"] if c["discipline"] == "fire"]
    system = document["station"]["units"]
    return {"title": TITLE, "blocks": [
        blocks.say(f"{verdict_sentence(checks)} Each fire is followed for {shown(result['duration'], 's', system)} at "
                   f"{shown(result['pressure'], 'Pa', system)} of air pressure."),
        blocks.caution(caution_for("fire")),
        blocks.heading("Fires, soonest too much in their own place first"),
        _fires(result, system),
        *_ways(document, result, system),
        blocks.heading("What is lost if a place burns"),
        _losses(result),
        blocks.heading("Extinguishers, alarm points and detectors"),
        _cover(result, system),
        *_detectors(document, system),
        blocks.note(_water(result, system)),
        *rounds(document, "fire"),
    ]}  # fmt: skip


def _fires(result: Plain, system: str) -> blocks.Block:
    head = [
        ("Fire", 1),
        ("Burns in", 0.9),
        ("Growth", 0.8),
        ("Most heat", 0.8),
        ("held by", 0.6),
        ("Alarm [min]", 0.7),
        ("In its place: sight / heat / dose [min]", 1.4),
        ("In a passage, first [min]", 0.8),
    ]
    late = float("inf")
    cases = sorted(result["cases"].values(), key=lambda c: c["place_time"] if c["place_time"] is not None else late)
    made = [[c["name"], c["place"], c["growth"], shown(c["cap"], "W", system), c["cap_by"],
             "none" if c["detected"] is None else minutes(c["detected"]),
             " / ".join(minutes(c["place_limits"].get(key)) for key in ("visibility", "temperature", "dose")),
             "not reached" if c["passage_time"] is None else minutes(c["passage_time"])] for c in cases]  # fmt: skip
    return blocks.table(head, made, right=(3, 5, 6, 7))


def worst_ways(result: Plain) -> list[Plain]:
    """For everybody and every fire the best way out, worst first; who is in the burning room itself left out.

    The best way is one that no limit closes before the last person has passed, of several the one with least dose.
    """
    best: dict[tuple[str, str], Plain] = {}
    for row in result["ways_out"]:
        key = (row["origin"], row["fire"])
        burning = result["cases"][row["fire"]]["building"] == row["origin"]
        if not burning and (key not in best or _badness(row) < _badness(best[key])):
            best[key] = row
    return sorted(best.values(), key=_badness, reverse=True)


def _badness(row: Plain) -> tuple[bool, float]:
    """Too late somewhere on the way, then the dose."""
    late = row["margin"] is not None and row["margin"] < 0
    return late, float("inf") if row["dose"] is None else float(row["dose"])


def fire_words(name: str) -> str:
    """A fire's name in the middle of a sentence.

    >>> fire_words("Hut 1"), fire_words("fire in Hut 1")
    ('fire Hut 1', 'fire in Hut 1')
    """
    return name if name.casefold().startswith("fire") else f"fire {name}"


def _ways(document: Plain, result: Plain, system: str) -> list[blocks.Block]:
    found, escape = worst_ways(result), document["results"].get("escape")
    if not found:
        return [blocks.note("The ways out are not set against the smoke: the escape study gives no times.")]
    head = [("People of", 1), ("Fire", 0.9), ("Best way", 1.6), ("Margin [min]", 0.7), ("Tightest spot", 1.2),
            ("Dose", 0.6), ("CO in the blood [%]", 0.7), ("Hottest air", 0.8), ("Least sight", 0.8)]  # fmt: skip
    made = [
        [
            row["origin"],
            row["fire"],
            way_words(escape, row["origin"], row["way"]),
            minutes(row["margin"]),
            row["worst"],
            number_text(row["dose"], 2) if row["dose"] is not None else "–",
            "over 99" if row["cohb"] is None or row["cohb"] > 99 else f"{row['cohb']:.0f}",
            shown(row["hottest"], "K", system),
            shown(row["visibility"], "m", system, 2) if row["visibility"] is not None else "clear",
        ]
        for row in found[:WAYS]
    ]
    more = (
        [blocks.note(f"{len(found) - WAYS:,} more pairs of people and fire are less bad.")] if len(found) > WAYS else []
    )
    return [
        blocks.heading("People and fires, worst first"),
        blocks.note("Dose 1 fells half of all people; the dose counts from the start of the fire, reaction and queue "
                    "included. Margin below 0: the smoke is at the tightest spot before the last person. Air is taken "
                    "without loss of heat to the snow."),
        blocks.table(head, made, right=(3, 5, 6, 7, 8)),
        *more,
        *_worst_way(document, result, found[0], system),
    ]  # fmt: skip


def _worst_way(document: Plain, result: Plain, row: Plain, system: str) -> list[blocks.Block]:
    """The worst of the best ways: when people pass and when each limit is reached; smoke through time."""
    case, escape = result["cases"][row["fire"]], document["results"].get("escape")
    way = way_words(escape, row["origin"], row["way"])
    made: list[blocks.Block] = [blocks.heading(f"Worst way out: {row['origin']}, {fire_words(row['fire'])}, {way}", 3)]
    route = route_of_way(escape, row["origin"], row["way"])
    if route is not None:
        spots, passed = _walked(route)
        inside = [i for i, name in enumerate(spots) if name in case["available"]]
        names = [spots[i] for i in inside]
        lines = [
            ("last person passes", [_min(passed[i]) for i in inside]),
            ("first limit reached: sight, heat or dose", [_min(case["available"][name]) for name in names]),
        ]
        reading = ("Spots in walking order. People are too late wherever their line lies above the other; where that "
                   "one is missing no limit is reached in the time followed.")  # fmt: skip
        made.append(
            blocks.figure(
                "Along the way: people and limits",
                reading,
                svg(along_chart(names, lines, "minutes after the start", 520, 150)),
                100.0,
            )
        )
    curves = [c for c in result["curves"] if c["fire"] == row["fire"]]
    if curves:
        made.append(_through_time(document, curves))
    return made


def _through_time(document: Plain, curves: list[Plain]) -> blocks.Block:
    limits = (document["station"].get("fire") or {}).get("limits") or {}

    def lines(key: str, factor: float = 1.0) -> list[Line]:
        return [Line(c["spot"], tuple((t / 60, v * factor) for t, v in zip(c["times"], c[key], strict=True)
                                      if v is not None)) for c in curves]  # fmt: skip

    sight = through_time("Sight", "m", lines("visibility"), limits.get("visibility"), "least sight", 225, 170)
    traces = [Line(line.name, tuple((t, max(1.0, v)) for t, v in line.points)) for line in lines("co", PPM)]
    co = through_time("Carbon monoxide", "ppm, tenfold steps", traces, None, "", 225, 170, log=True)
    reading = ("In the fire's place, farthest from it, and in the passage, nearest to it; at head height. Less than "
               "1 ppm of carbon monoxide is drawn as 1.")  # fmt: skip
    return blocks.figure("Smoke through time", reading, svg(side_by_side(sight, co)))


def _walked(route: Plain) -> tuple[list[str], list[float | None]]:
    """Spots of a route and when the last passes them, at its slowest hour."""
    hours = [times for times in route["passed"] if times and times[-1] is not None]
    passed = max(hours, key=lambda times: times[-1], default=[None] * len(route["nodes"]))
    return list(route["nodes"]), list(passed)


def _min(seconds: float | None) -> float | None:
    return None if seconds is None else seconds / 60


def _losses(result: Plain) -> blocks.Block:
    head = [
        ("Place", 0.9),
        ("Goes with it", 1.2),
        ("Sleepers lost their beds", 0.8),
        ("Buildings", 1.4),
        ("Stores", 1.2),
        ("Services without a second way", 1.4),
        ("Survival store", 0.7),
    ]
    rows = sorted(result["losses"].values(), key=lambda r: (-r["sleepers_with_it"], -len(r["services"])))
    made = [
        [
            r["place"],
            _listed(r["with_it"]) or "nothing else",
            str(r["sleepers_with_it"]),
            _listed(r["buildings"]) or "–",
            _listed(r["stores"]) or "–",
            _listed(r["services"]) or "–",
            "lost" if r["survival"] else "safe",
        ]
        for r in rows
    ]
    return blocks.table(head, made, right=(2,))


def _cover(result: Plain, system: str) -> blocks.Block:
    head = [("Place", 1), ("Hazard", 0.8), ("Floor", 0.8), ("Walk to one for solids", 1), ("for liquids", 0.8),
            ("Walk to an alarm point", 1), ("Detectors", 0.7)]  # fmt: skip
    late = float("inf")
    rows = sorted(result["cover"].values(), key=lambda r: -(r["walk_alarm"] if r["walk_alarm"] is not None else late))
    made = [[r["place"], r["hazard"], shown(r["floor"], "m2", system),
             *("none" if r[key] is None else shown(r[key], "m", system) for key in ("walk_a", "walk_b", "walk_alarm")),
             str(r["detectors"])] for r in rows]  # fmt: skip
    return blocks.table(head, made, right=(2, 3, 4, 5, 6))


def _detectors(document: Plain, system: str) -> list[blocks.Block]:
    """Fire detectors with their set points; those that are alike in one row."""
    found: dict[tuple[str, str, str, str], list[str]] = {}
    for name, d in ((document["station"].get("fire") or {}).get("detectors") or {}).items():
        point = {"heat": ("temperature", "K"), "linear heat": ("temperature", "K")}.get(d["kind"], ("visibility", "m"))
        at = f"{d['co'] * PPM:.0f} ppm" if d["kind"] == "carbon monoxide" else shown(d[point[0]], point[1], system)
        at = f"sight {at}" if point[0] == "visibility" and "smoke" in d["kind"] else at
        coldest = "not stated" if d["coldest"] is None else shown(d["coldest"], "K", system)
        found.setdefault((d["kind"], at, shown(d["delay"], "s", system), coldest), []).append(name)
    if not found:
        return []
    head = [
        ("Detector", 0.9),
        ("Sounds at", 0.7),
        ("Delay", 0.6),
        ("Works down to", 0.8),
        ("How many", 0.5),
        ("Which", 3),
    ]
    made = [[*key, str(len(names)), _listed(names)] for key, names in found.items()]
    return [blocks.table(head, made, right=(1, 2, 3, 4))]


def _water(result: Plain, system: str) -> str:
    if not result["water_needed"]:
        return "No water for fire is asked for."
    kept, needed = (shown(result[key], "m3", system) for key in ("water", "water_needed"))
    return f"Water kept for fire: {kept}; one fire takes {needed}."


def _listed(names: list[str]) -> str:
    more = f" and {len(names) - LISTED} more" if len(names) > LISTED else ""
    return ", ".join(names[:LISTED]) + more
