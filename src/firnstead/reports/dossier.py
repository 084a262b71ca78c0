"""The whole calculation file as data: cover, summary, snow, places, drawings, work, packing, sources, input."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.core.units import unit_text
from firnstead.reports import blocks, content
from firnstead.reports.closure_pages import closure_years
from firnstead.reports.packing import packing_sentence
from firnstead.reports.pictures import Picture
from firnstead.reports.quantities import quantity_blocks
from firnstead.reports.safety_pages import safety_chapters
from firnstead.reports.snow_pages import snow_chapter
from firnstead.reports.utility_pages import utility_chapters
from firnstead.reports.words import WHOLE_STATION, column_unit, counted, in_column, place_order, shown
from firnstead.reports.work import person_hours, total_rows, work_rows
from firnstead.reports.years import roof_years

Plain = Mapping[str, Any]
LINE_WIDTH = 170.0  # width of a line of the page [mm]


def dossier(document: Plain, text: str, digest: str, pictures: Sequence[Picture]) -> dict[str, Any]:
    """Everything that the template prints."""
    dated = date.fromisoformat(str(document["station"]["dated"]))
    places = content.places(document)
    for chapter in places:
        chapter["blocks"] = [
            *_sections(chapter["name"], pictures, "Section"),
            *quantity_blocks(document, chapter["name"]),
        ]
        closing = _sections(chapter["name"], pictures, "Closing")
        chapter["years"] = [*roof_years(document, chapter["name"]), *closure_years(document, chapter["name"], closing)]
    chapters = [_drawings(pictures), snow_chapter(document)]
    after = (*utility_chapters(document), *safety_chapters(document), _work(document), _packing(document))
    return {
        "head": content.head(document, digest),
        "date": [dated.year, dated.month, dated.day],
        "summary": {**content.summary(document), "blocks": _totals(document)},
        "before": [c for c in chapters if c["blocks"]],
        "places": places,
        "after": [c for c in after if c["blocks"]],
        "sources": content.source_rows(document),
        "echo": [_kept_indent(line) for line in text.splitlines()],
    }


def _kept_indent(line: str) -> str:
    """A line whose leading blanks stay; an empty line keeps its height."""
    bare = line.lstrip(" ")
    return "\u00a0" * (len(line) - len(bare)) + bare or "\u00a0"


def _sections(place: str, pictures: Sequence[Picture], kind: str) -> list[blocks.Block]:
    """The cross-section of a place, at its own scale where the line is wide enough."""
    return [
        blocks.figure(p.title + ("" if place == p.places[0] else ", the same here"), p.reading, p.loose,
                      min(100.0, 100 * p.loose_width / LINE_WIDTH))
        for p in pictures if p.kind == kind and place in p.places
    ]  # fmt: skip


def _drawings(pictures: Sequence[Picture]) -> dict[str, Any]:
    if not pictures:
        return {"title": "Drawings", "blocks": []}
    rows = [[p.title, ", ".join(p.places) or WHOLE_STATION, p.reading] for p in pictures]
    return {"title": "Drawings", "blocks": [
        blocks.say(f"{counted(len(pictures), 'sheet')}, drawn to scale on paper of their own size; "
                   "each is also beside this file as SVG and DXF."),
        blocks.table([("Sheet", 1.1), ("Places", 1.1), ("What it shows", 2)], rows),
        *(blocks.whole_page(p.sheet, p.size) for p in pictures),
    ]}  # fmt: skip


def _totals(document: Plain) -> list[blocks.Block]:
    rows = total_rows(document)
    if not rows:
        return []
    head = [("Discipline", 0.8), ("Work", 2.4), ("Items", 0.5), ("Quantity", 1.1), ("Mass", 0.8), ("Person-hours", 0.9)]
    return [blocks.heading("Quantities of the whole station"), blocks.table(head, rows, right=(2, 3, 4, 5))]


def _work(document: Plain) -> dict[str, Any]:
    items = document["work_items"]
    if not items:
        return {"title": "Work items and hours", "blocks": []}
    hours = sum(map(person_hours, items))
    made = [blocks.say(f"{counted(len(items), 'work item')}, {hours:,.0f} person-hours at the stated outputs; "
                       "weather and waiting are not in them.")]  # fmt: skip
    head = [("Work", 3), ("Quantity", 1.1), ("Mass", 0.9), ("Hours", 0.7), ("People", 0.6), ("Where", 0.9)]
    for group in work_rows(document):
        made += [
            blocks.heading(f"{group['place']}: {group['sentence']}", 3),
            blocks.table(head, group["rows"], right=(1, 2, 3, 4)),
        ]
    return {"title": "Work items and hours", "blocks": made}


def _packing(document: Plain) -> dict[str, Any]:
    cargo, system = document["results"].get("cargo"), document["station"]["units"]
    if not cargo:
        return {"title": "Packing list", "blocks": []}
    kg, m3 = (unit_text(column_unit(u, system)) for u in ("kg", "cargo m3"))
    head = [
        ("Part", 1.7),
        ("What it is", 2.2),
        ("Needed", 0.7),
        ("Spares", 0.65),
        (f"Mass [{kg}]", 0.9),
        (f"Volume [{m3}]", 0.9),
    ]
    rows = []
    for line in cargo["lines"]:
        pieces = line["needed"] + line["spares"]
        mass = in_column(pieces * line["mass_each"], "kg", system)
        volume = in_column(pieces * line["volume_each"], "cargo m3", system)
        rows.append([line["part"], line["what"] + (" (hazardous)" if line["hazardous"] else ""), f"{line['needed']:,}",
                     f"{line['spares'] or '–'}", f"{mass:,.0f}", f"{volume:,.1f}"])  # fmt: skip
    mass, volume = in_column(cargo["mass"], "kg", system), in_column(cargo["volume"], "cargo m3", system)
    needed, spares = (sum(line[key] for line in cargo["lines"]) for key in ("needed", "spares"))
    rows.append(["All", "", f"{needed:,}", f"{spares:,}", f"{mass:,.0f}", f"{volume:,.0f}"])
    open_ends = [
        ("Needed, but no mass is given anywhere", cargo["missing"]),
        ("In the file, but nothing needs it", cargo["unneeded"]),
    ]
    by_place = sorted(cargo["mass_by_place"], key=lambda row: place_order(document["station"], row[0]))
    by = [("Mass by place", by_place, "Place"), ("Mass by kit", cargo["mass_by_kit"], "Kit")]
    return {"title": "Packing list", "blocks": [
        blocks.say(packing_sentence(cargo, system) + " Sizes, places and kits are in packing-list.xlsx."),
        blocks.caution(caution_for("cargo")),
        blocks.table(head, rows, right=(2, 3, 4, 5), last=True),
        *(blocks.note(f"{words}: {', '.join(names)}.") for words, names in open_ends if names),
        *(block for title, masses, first in by if masses for block in (
            blocks.heading(title),
            blocks.table([(first, 1), ("Mass", 0.5), ("", 1.5)],
                         [[n, shown(m, "kg", system, 4), ""] for n, m in masses], right=(1,)))),
    ]}  # fmt: skip
