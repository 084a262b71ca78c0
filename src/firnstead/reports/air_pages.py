"""The chapter on air: rooms by month, fans and vents, engines, hours after the ventilation stops, detectors."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.reports import blocks
from firnstead.reports.charts import Line, side_by_side, svg
from firnstead.reports.escape_pages import rounds
from firnstead.reports.safety_charts import MONTHS, hours_chart, month_chart, through_time
from firnstead.reports.words import shown, verdict_sentence

Plain = Mapping[str, Any]
TITLE = "Air"
PPM = 1e6
DRAWN = 5  # rooms, vents or vehicles in one chart
LISTED = 8  # names in one cell
GASES = {"co2": "carbon dioxide", "co": "carbon monoxide", "no2": "nitrogen dioxide", "oxygen": "oxygen"}


def air_chapter(document: Plain) -> dict[str, Any]:
    """Title and blocks; no blocks where the file has no air part."""
    result = document["results"].get("air")
    if not result or "rooms" not in result:
        return {"title": TITLE, "blocks": []}
    checks = [c for c in document["checks"] if c["discipline"] == "air"]
    system = document["station"]["units"]
    how = "measured" if result["measured"] else "by the standard atmosphere, not measured"
    said = (
        f"{verdict_sentence(checks)} Air pressure {shown(result['pressure'], 'Pa', system)} ({how}): a breath holds "
        f"as much oxygen as one of {100 * result['oxygen_felt']:.1f} % at sea level."
    )
    return {"title": TITLE, "blocks": [
        blocks.say(said),
        blocks.caution(caution_for("air")),
        blocks.heading("Rooms, foulest first"),
        _rooms(result, system),
        *_by_month(result),
        *_stop(result),
        *_fans(result, system),
        *_engines(result, system),
        blocks.heading("Limits, detectors and their set points"),
        _limits(result, system),
        *_alarms(document, system),
        *rounds(document, "air"),
    ]}  # fmt: skip


def _foulest(result: Plain) -> list[tuple[str, Plain]]:
    return sorted(result["rooms"].items(), key=lambda row: -max(row[1]["co2"], default=0.0))


def _rooms(result: Plain, system: str) -> blocks.Block:
    head = [("Room", 1.1), ("Place", 1), ("People", 0.6), ("Hour", 0.9), ("Air in it", 0.8), ("Fresh air, least", 0.9),
            ("for each person", 0.9), ("CO2, worst month [ppm]", 0.9), ("CO, worst month [ppm]", 0.9)]  # fmt: skip
    made = []
    for name, r in _foulest(result):
        each = _flow(r["fresh"] / r["people"], system) if r["people"] and r["fresh"] is not None else "–"
        made.append([name, r["place"], str(r["people"]), r["hour"], shown(r["volume"], "m3", system),
                     _flow(r["fresh"], system), each, f"{PPM * max(r['co2']):,.0f}",
                     f"{PPM * max(0.0, *r['co']):.1f}"])  # fmt: skip
    return blocks.table(head, made, right=(2, 4, 5, 6, 7, 8))


def _flow(value: float | None, system: str) -> str:
    """A flow of air in the unit of the trade."""
    if value is None:
        return "–"
    return f"{value * 2118.88:,.0f} cfm" if system == "us" else f"{value * 1000:,.0f} L/s"


def _alike(rows: Sequence[tuple[str, Sequence[float]]], digits: int) -> list[tuple[str, Sequence[float]]]:
    """Rows that cannot be told apart on paper, as one."""
    groups: dict[tuple[str, ...], list[tuple[str, Sequence[float]]]] = {}
    for name, row in rows:
        groups.setdefault(tuple(f"{v:.{digits}f}" for v in row), []).append((name, row))
    return [(same[0][0] if len(same) == 1 else f"{same[0][0]} and {len(same) - 1} alike", same[0][1])
            for same in groups.values()]  # fmt: skip


def _by_month(result: Plain) -> list[blocks.Block]:
    limit = next((x for x in result["limits"].values() if x["gas"] == "co2" and x["over"]), None)
    co2 = _alike([(name, [PPM * v for v in r["co2"]]) for name, r in _foulest(result)], 0)[:DRAWN]
    charts = [month_chart("Carbon dioxide in the foulest rooms", "ppm", co2, PPM * limit["value"] if limit else None,
                          "limit of a shift", 235, 180)]  # fmt: skip
    vents = _alike([(name, v["draught"]) for name, v in result["vents"].items()], 1)[:DRAWN]
    if vents:
        charts.append(month_chart("Draught of the vents by temperature", "Pa", vents, None, "", 235, 180))
    reading = ("With everybody in at the hour that makes most. A draught below 0 turns round: the vent brings cold air "
               "in, and exhaust with it if there is some.")  # fmt: skip
    head = [("CO2 [ppm]", 1.9), *((month, 0.7) for month in MONTHS)]
    rows = [[name, *(f"{v:,.0f}" for v in row)] for name, row in co2]
    return [
        blocks.heading("Air by month"),
        blocks.figure("Air by month", reading, svg(side_by_side(*charts))),
        blocks.table(head, rows, right=range(1, 13)),
        *_through(result),
    ]


def _through(result: Plain) -> list[blocks.Block]:
    if not result["through"]:
        return []
    head = [("Air from outside the place [m³/s]", 1.9), *((month, 0.7) for month in MONTHS)]
    rows = [[name, *(f"{v:.2f}" for v in row)] for name, row in _alike(list(result["through"].items()), 2)]
    return [blocks.table(head, rows, right=range(1, 13))]


def _stop(result: Plain) -> list[blocks.Block]:
    """Hours to each limit after loss of ventilation, worst room first."""
    rows = [r for r in result["stopped"] if r["time"] is not None]
    if not rows:
        return [blocks.note("Hours to a limit after the ventilation stops: none is reached, or nobody is in a room.")]
    names = list(dict.fromkeys(r["limit"] for r in result["stopped"]))
    rooms: dict[str, dict[str, Plain]] = {}
    for r in result["stopped"]:
        rooms.setdefault(r["room"], {})[r["limit"]] = r
    order = sorted(rooms, key=lambda room: min(_late(r["time"]) for r in rooms[room].values()))
    head = [("Room", 1.3), ("People", 0.6), *((name, 1.3) for name in names)]
    made = []
    for room in order:
        cells = [rooms[room].get(name) for name in names]
        people = next(r["people"] for r in rooms[room].values())
        made.append(
            [room, str(people), *(f"{_hours(c['time'])} / {_hours(c['time_open'])}" if c else "–" for c in cells)]
        )
    first = min(rows, key=lambda r: r["time"])["limit"]
    drawn = [(name, row[0], row[1]) for name, row in _alike(
        [(room, (r["time"] / 3600, min(_late(r["time_open"]), 1e7) / 3600)) for room in order
         for r in [rooms[room].get(first)] if r and r["time"]], 1)]  # fmt: skip
    return [
        blocks.heading("After the ventilation stops: hours to each limit"),
        blocks.figure(f"Hours to the limit “{first}”", "Tick: doors shut. The line ends where it is with the doors of "
                      "all rooms of the place open.", svg(hours_chart(drawn, "hours after the stop", 400)), 88.0),
        blocks.note("Doors shut / doors of all rooms of the place open. When fans stop: stop engines, wake everybody."),
        blocks.table(head, made, right=range(1, 2 + len(names))),
    ]  # fmt: skip


def _late(seconds: float | None) -> float:
    return float("inf") if seconds is None else seconds


def _hours(seconds: float | None) -> str:
    return "not reached" if seconds is None else f"{seconds / 3600:,.1f}"


def _fans(result: Plain, system: str) -> list[blocks.Block]:
    made: list[blocks.Block] = []
    if result["fans"]:
        head = [("Fan", 1.2), ("From", 1), ("To", 1), ("Least flow", 0.8), ("Month", 0.6), ("Wanted", 0.8),
                ("Draught, worst [Pa]", 0.9)]  # fmt: skip
        rows = []
        for name, f in sorted(result["fans"].items(), key=lambda row: _spare(row[1])):
            least = min(f["flow"])
            rows.append([name, f["draws_from"], f["blows_into"], _flow(least, system), MONTHS[f["flow"].index(least)],
                         _flow(f["wanted"], system), f"{min(f['against']):.0f}"])  # fmt: skip
        made += [blocks.heading("Fans and vents"), blocks.table(head, rows, right=(3, 5, 6))]
    if result["vents"]:
        head = [
            ("Vent", 1.2),
            ("Opens into", 1),
            ("Most out", 0.8),
            ("Most in", 0.8),
            ("Months with the draught reversed", 1.6),
            ("Shut", 1),
        ]
        rows = []
        for name, v in result["vents"].items():
            turned = [MONTHS[m] for m, d in enumerate(v["draught"]) if d < 0]
            shut = [MONTHS[m] for m, s in enumerate(v["shut"]) if s]
            rows.append(
                [
                    name,
                    v["place"],
                    _flow(max(0.0, *v["flow"]), system),
                    _flow(max(0.0, *(-x for x in v["flow"])), system),
                    ", ".join(turned) or "none",
                    ", ".join(shut) or "never",
                ]
            )
        made.append(blocks.table(head, rows, right=(2, 3)))
    return made


def _spare(fan: Plain) -> float:
    return min(fan["flow"]) / fan["wanted"] if fan["wanted"] else float("inf")


def _engines(result: Plain, system: str) -> list[blocks.Block]:
    made: list[blocks.Block] = []
    if result["engines"]:
        head = [
            ("Engine", 1.2),
            ("In", 1.2),
            ("Air it burns", 0.9),
            ("Air that cools it", 0.9),
            ("Air coming in, least", 1),
        ]
        rows = [[name, e["where"], *(f"{e[key]:.2f} kg/s" for key in ("combustion", "cooling", "coming_in"))]
                for name, e in result["engines"].items()]  # fmt: skip
        made += [blocks.heading("Engines and vehicles"), blocks.table(head, rows, right=(2, 3, 4))]
    vehicles = sorted(result["vehicles"].items(), key=lambda row: -row[1]["peak"])
    if vehicles:
        head = [("Vehicle", 1.2), ("Runs in", 1.2), ("CO, peak [ppm]", 0.9), ("CO, 8 h mean [ppm]", 0.9),
                ("In the blood after 8 h [%]", 1), ("To 30 % in the blood at the peak", 1)]  # fmt: skip
        rows = [
            [
                name,
                v["place"],
                f"{PPM * v['peak']:.1f}",
                f"{PPM * v['mean']:.1f}",
                f"{100 * v['cohb']:.2f}",
                "never" if v["time_to_harm"] is None else shown(v["time_to_harm"], "s", system),
            ]
            for name, v in vehicles
        ]
        lines = [Line(name, tuple((i * v["step"] / 3600, PPM * y) for i, y in enumerate(v["curve"])))
                 for name, v in vehicles[:DRAWN]]  # fmt: skip
        chart = through_time("Carbon monoxide of vehicles in the foulest stretch", "ppm", lines, None, "", 400, 150,
                             "hours")  # fmt: skip
        made += [
            blocks.table(head, rows, right=range(2, 6)),
            blocks.figure("Carbon monoxide while vehicles run", "By the hours of the day's runs.", svg(chart), 88.0),
        ]
    if result["exhausts"]:
        head = [("Exhaust", 1.2), ("Nearest intake", 1.2), ("Apart", 0.8), ("Higher", 0.8), ("Off the storm wind", 1)]
        rows = [[e["exhaust"], e["intake"], shown(e["distance"], "m", system), shown(e["higher"], "m", system),
                 f"{e['off_wind']:.0f}°"] for e in sorted(result["exhausts"], key=lambda e: e["distance"])]  # fmt: skip
        made.append(blocks.table(head, rows, right=(2, 3, 4)))
    return made


def _limits(result: Plain, system: str) -> blocks.Block:
    head = [("Limit", 1.3), ("Gas", 1), ("Value", 0.8), ("Mean over", 0.8), ("From", 2)]
    made = [[name, GASES.get(x["gas"], x["gas"]), _share(x["gas"], x["value"]),
             shown(x["over"], "s", system) if x["over"] else "never passed", x["source"]]
            for name, x in result["limits"].items()]  # fmt: skip
    return blocks.table(head, made, right=(2,))


def _share(gas: str, value: float) -> str:
    """A share of a gas as people read it off a detector."""
    return f"{100 * value:.1f} %" if gas == "oxygen" else f"{PPM * value:,.0f} ppm"


def _alarms(document: Plain, system: str) -> list[blocks.Block]:
    found: dict[tuple[str, str, str, str], list[str]] = {}
    for a in ((document["station"].get("air") or {}).get("alarms") or {}).values():
        coldest = "not stated" if a["coldest"] is None else shown(a["coldest"], "K", system)
        key = (GASES.get(a["gas"], a["gas"]), _share(a["gas"], a["set_point"]), a["action"], coldest)
        found.setdefault(key, []).append(a["where"])
    if not found:
        return [blocks.note("There are no gas detectors in the file.")]
    head = [
        ("Detector for", 1),
        ("Sounds at", 0.8),
        ("People then", 0.8),
        ("Works down to", 0.8),
        ("How many", 0.5),
        ("Where", 2.6),
    ]
    return [
        blocks.table(head, [[*key, str(len(where)), _listed(where)] for key, where in found.items()], right=(1, 3, 4))
    ]


def _listed(names: Sequence[str]) -> str:
    more = f" and {len(names) - LISTED} more" if len(names) > LISTED else ""
    return ", ".join(names[:LISTED]) + more
