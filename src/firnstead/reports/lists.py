"""Lists for the hut: work items and the cut plan, as tables."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firnstead.core.units import unit_text
from firnstead.reports.sheets import Column, Sheet
from firnstead.reports.words import column_unit, counted, in_column
from firnstead.reports.work import person_hours

Plain = Mapping[str, Any]
# Field of a pass, head of its column, SI unit ("" for counts, words and hours), width, form.
_CUT = (
    ("number", "Pass", "", 7, "0"), ("part", "Part", "", 11, ""), ("machine", "Machine", "", 14, ""),
    ("top", "From depth", "m", 10, "0.00"),
    ("bottom", "To depth", "m", 10, "0.00"), ("width", "Width", "m", 10, "0.00"),
    ("runs", "Runs", "", 7, "0"), ("length", "Length", "m", 10, "#,##0.0"),
    ("volume", "Snow in place", "m3", 12, "#,##0"), ("density", "Density", "kg/m3", 10, "0.0"),
    ("speed", "Speed", "m/s", 10, "0.00"), ("lift", "Lift", "m", 9, "0.0"), ("throws", "Throws", "", 8, "0"),
    ("hours", "Miller hours", "", 9, "0.0"),
)  # fmt: skip


def work_sheet(document: Plain) -> Sheet:
    """Every work item: what, how much, who, how long, after what."""
    system, items = document["station"]["units"], document["work_items"]
    kg, m3 = (unit_text(column_unit(u, system)) for u in ("kg", "cargo m3"))
    columns = (
        Column("Item", 30), Column("Place", 18), Column("Discipline", 12), Column("What", 38),
        Column("Quantity", 11, "#,##0.0"), Column("Unit", 9), Column(f"Mass [{kg}]", 11, "#,##0", total=True),
        Column(f"Volume [{m3}]", 11, "#,##0.00", total=True), Column("Crew", 16), Column("Machine", 14),
        Column("Hours", 9, "#,##0.0"), Column("People", 8, "0"), Column("Person-hours", 10, "#,##0", total=True),
        Column("Where", 11), Column("After", 30), Column("Note", 34),
    )  # fmt: skip
    rows = tuple(
        (i["id"], i["place"], i["discipline"], i["what"], in_column(i["quantity"], i["unit"], system),
         unit_text(column_unit(i["unit"], system)), in_column(i["mass"], "kg", system),
         in_column(i["volume"], "cargo m3", system), i["crew"], i["machine"], i["hours"], i["people"],
         person_hours(i), i["exposure"], ", ".join(i["after"]), i["note"])
        for i in items
    )  # fmt: skip
    hours = sum(map(person_hours, items))
    return Sheet(
        "Work items",
        f"{counted(len(items), 'work item')}, {hours:,.0f} person-hours at the stated outputs.",
        columns,
        rows,
    )


def cut_sheet(document: Plain) -> Sheet | None:
    """The cut plan, place by place and pass by pass, from the surface down; None where nothing is cut."""
    cutting = document["results"].get("cutting")
    if not cutting:
        return None
    system = document["station"]["units"]
    columns = [Column("Place", 18)]
    for key, head, unit, width, form in _CUT:
        shown = unit_text(column_unit(unit, system))
        columns.append(Column(f"{head} [{shown}]" if shown else head, width, form, total=key in ("volume", "hours")))
    rows = tuple(
        (name, *(in_column(p[key], unit, system) if unit else p[key] for key, _, unit, _, _ in _CUT))
        for name, place in cutting["places"].items() for p in place["plan"]
    )  # fmt: skip
    return Sheet(
        "Cut plan", "Pass by pass from the surface down; nobody below an edge that is being cut.", tuple(columns), rows
    )
