"""Work items as rows: by place, and added up for the whole station."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firnstead.reports.words import counted, place_words, shown

Plain = Mapping[str, Any]


def work_rows(document: Plain) -> list[dict[str, Any]]:
    """Work items by place, with totals for each."""
    system = document["station"]["units"]
    by_place: dict[str, list[Plain]] = {}
    for item in document["work_items"]:
        by_place.setdefault(place_words(item["place"]), []).append(item)
    return [
        {"place": place,
         "sentence": f"{counted(len(items), 'work item')}, {sum(map(person_hours, items)):,.0f} person-hours",
         "rows": [[i["what"], shown(i["quantity"], i["unit"], system, 4), shown(i["mass"] or None, "kg", system),
                   f"{i['hours']:,.1f}" if i["hours"] else "–", str(i["people"] or "–"), i["exposure"]] for i in items]}
        for place, items in by_place.items()
    ]  # fmt: skip


def total_rows(document: Plain) -> list[list[str]]:
    """Quantities of the whole station: items of the same kind in the same unit added up."""
    system = document["station"]["units"]
    groups: dict[tuple[str, str, str], list[Plain]] = {}
    for item in document["work_items"]:
        groups.setdefault((item["discipline"], _kind(item), item["unit"]), []).append(item)
    rows = []
    for (discipline, kind, unit), items in groups.items():
        mass, hours = sum(i["mass"] for i in items), sum(map(person_hours, items))
        rows.append([
            discipline.capitalize(), items[0]["what"] if len(items) == 1 else kind, f"{len(items)}",
            shown(sum(i["quantity"] for i in items), unit, system, 4), shown(mass or None, "kg", system),
            f"{hours:,.0f}" if hours else "–",
        ])  # fmt: skip
    return rows


def _kind(item: Plain) -> str:
    """The kind of work from the item's id (place.discipline.kind.which): "put_up" becomes "Put up"."""
    kind = f".{item['id']}".partition(f".{item['discipline']}.")[2].partition(".")[0]
    return kind.replace("_", " ").capitalize() or str(item["what"])


def person_hours(item: Plain) -> float:
    """Hours of work times people; the hours of an item without people are a wait."""
    return float(item["hours"] * item["people"])
