"""Tables of the power chapter: sets, boards, feeders, cable drums, loads."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firnstead.reports import blocks
from firnstead.reports.columns import MONTHS, Columns, rows_alike, together

Plain = Mapping[str, Any]
NORMAL = "normal running"


def hour(at: int) -> str:
    """An hour of the day.

    >>> hour(7)
    '7 to 8 h'
    """
    return f"{at} to {at + 1} h"


def sets(power: Plain, c: Columns) -> list[blocks.Block]:
    """What the sets are, how they run through a year, and a place with sets lost."""
    what = [[s["name"], s["place"], s["board"], "main, by turns" if s["main"] else "standby", str(s["count"]),
             c.cell(s["rated"], "W"), f"{s['factor']:.2f}", c.cell(s["power"], "W")]
            for s in power["sets"]]  # fmt: skip
    head = [("Sets", 1.3), ("Place", 1), ("Board", 1.2), ("Duty", 1.1), ("Number", 0.7), ("Rated, one [kW]", 0.9),
            ("Left at the station", 0.9), ("Power, one [kW]", 0.9)]  # fmt: skip
    run = [[s["name"], f"{s['set_hours']:,.0f}", f"{100 * s['least_share']:.0f}" if s["set_hours"] else "–",
            f"{s['hours_below']:,.0f}", c.cell(s["energy"], "J"), c.cell(s["fuel"], "kg"), f"{s['fuel_factor']:.2f}"]
           for s in power["sets"]]  # fmt: skip
    year = [("In a year", 1.3), ("Hours run, all together", 1), ("Least load [% of rated]", 1),
            ("Hours below the least allowed", 1), ("Energy [kWh]", 1), (c.head("Fuel", "kg"), 1),
            ("Fuel for thin and warm air, factor", 1.2)]  # fmt: skip
    lost = [[p["place"], *c.cells([p["power"], p["essential"]], "W"),
             "nothing" if p["shed"] < 0 else f"up to order {p['shed']}", together(p["cut_off"]) or "–"]
            for p in power["lost_places"]]  # fmt: skip
    beside = [("Lost", 0.9), ("Power of the sets elsewhere [kW]", 1), ("Essential load elsewhere [kW]", 1),
              ("To be switched off", 0.9), ("Essential loads that nothing reaches", 2)]  # fmt: skip
    return [
        blocks.heading("Sets"),
        blocks.table(head, what, right=range(4, 8)),
        blocks.table(year, run, right=range(1, 7)),
        *([blocks.heading("A place with sets is lost", 3), blocks.table(beside, lost, right=(1, 2))] if lost else []),
    ]


def boards_and_feeders(power: Plain, limit: float, c: Columns) -> list[blocks.Block]:
    """Boards with their voltage drop against the limit, feeders with current and loss, cable drums."""
    boards = [[b["name"], b["place"], b["fed_by"] or "the sets", c.cell(b["demand"], "W"),
               f"{100 * b['drop_normal']:.1f}", f"{100 * b['drop']:.1f}",
               f"{_case(b['drop_case'])}, {MONTHS[b['month'] - 1]}, {hour(b['hour'])}" if b["drop"] else "–"]
              for b in power["boards"]]  # fmt: skip
    head = [("Board", 1.3), ("Place", 0.9), ("Fed by", 1.1), ("Its loads [kW]", 0.8), ("Drop, normal [%]", 0.8),
            ("Drop, worst [%]", 0.8), ("When it is worst", 1.9)]  # fmt: skip
    feeders = [[f["name"] + (" (stands open)" if f["normally_open"] else ""), f"{f['start']} to {f['end']}",
                f["cable"] + (f"\u00a0×\u00a0{f['parallel']}" if f["parallel"] > 1 else ""), c.cell(f["length"], "m"),
                f"{f['current']:,.0f}", _case(f["current_case"]), c.cell(f["carried"], "W"), f"{f['loss']:,.0f}",
                c.cell(f["energy_lost"], "J")] for f in power["feeders"]]  # fmt: skip
    cables = [("Feeder", 1.15), ("From, to", 2.4), ("Cable", 1.1), (c.head("Length", "m"), 0.6), ("Current [A]", 0.68),
              ("When", 1), ("Carries [kW]", 0.7), ("Most lost [W]", 0.65), ("Lost in a year [kWh]", 0.75)]  # fmt: skip
    drums = [[name, c.cell(length, "m"), str(count), c.cell(mass, "kg"), ""]
             for name, length, count, mass in power["drums"]]  # fmt: skip
    reels = [("Cable", 1.5), (c.head("Length", "m"), 0.8), ("Drums", 0.6), (c.head("Mass", "kg"), 0.8), ("", 1.5)]
    none = blocks.note("The file has no feeders.")
    worst = max(power["boards"], key=lambda b: float(b["drop"]), default=None)
    say = f"Greatest drop {100 * worst['drop']:.1f} %, at {worst['name']}; limit {100 * limit:.1f} %." if worst else ""
    return [
        blocks.heading("Boards and feeders"),
        *([blocks.note(say), blocks.table(head, boards, right=(3, 4, 5))] if worst else []),
        *([blocks.table(cables, feeders, right=(3, 4, 6, 7, 8))] if feeders else [none]),
        *([blocks.table(reels, drums, right=(1, 2, 3))] if drums else []),
    ]


def _case(name: str) -> str:
    return "normal" if name == NORMAL else name


def loads(power: Plain, c: Columns) -> list[blocks.Block]:
    """Every load; loads that read the same share a line, with the numbers of one of them."""
    facts = {load["name"]: [load["board"], *c.cells([load["connected"], load["demand"], load["at_peak"]], "W"),
                            c.cell(load["energy"], "J"),
                            "essential" if load["essential"] else f"{load['shed'] or 'at once'}",
                            "study" if load["worked_out"] else "file"] for load in power["loads"]}  # fmt: skip
    head = [("Load", 2), ("Board", 1.2), ("Connected [kW]", 0.9), ("Demand [kW]", 0.8), ("At the peak [kW]", 0.8),
            ("In a year [kWh]", 0.9), ("Switched off", 0.85), ("From", 0.6)]  # fmt: skip
    return [
        blocks.heading("Loads"),
        blocks.note("Loads that read the same share a line; the numbers are those of one of them."),
        blocks.table(head, rows_alike(facts), right=(2, 3, 4, 5)),
    ]
