"""The packing list as tables: everything, by place, by kit."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firnstead.core.units import unit_text
from firnstead.reports.sheets import Cell, Column, Sheet
from firnstead.reports.words import column_unit, counted, in_column, place_order, shown

Plain = Mapping[str, Any]


def packing_sheets(document: Plain) -> list[Sheet]:
    """The three tables of the packing list; empty where the assessment holds no cargo."""
    cargo = document["results"].get("cargo")
    if not cargo:
        return []
    station = document["station"]
    return [_whole(cargo, station["units"]), _split(cargo, station, "places", "By place", "Place"),
            _split(cargo, station, "kits", "By kit", "Kit")]  # fmt: skip


def _whole(cargo: Plain, system: str) -> Sheet:
    kg, m3, m = (unit_text(column_unit(u, system)) for u in ("kg", "cargo m3", "m"))
    columns = (
        Column("No.", 6, "0"), Column("Part", 26), Column("What it is", 34), Column("Needed", 9, "#,##0"),
        Column("Spares", 9, "#,##0"), Column("To ship", 9, "#,##0", total=True),
        Column(f"Mass each [{kg}]", 12, "#,##0.0"), Column(f"Mass [{kg}]", 12, "#,##0", total=True),
        Column(f"Volume [{m3}]", 12, "#,##0.00", total=True), Column(f"Length [{m}]", 10, "0.00"),
        Column(f"Width [{m}]", 10, "0.00"), Column(f"Height [{m}]", 10, "0.00"),
        Column("Steps of work before it", 10, "0"), Column("Goes by", 22), Column("Remarks", 34), Column("Arrived", 10),
    )  # fmt: skip
    rows = tuple(_line(i, line, system) for i, line in enumerate(cargo["lines"], 1))
    return Sheet("Packing list", packing_sentence(cargo, system) + " In order of need.", columns, rows)


def _line(number: int, line: Plain, system: str) -> tuple[Cell, ...]:
    pieces = line["needed"] + line["spares"]
    size = line["size"] if line["size"] and line["listed"] else (None, None, None)
    remarks = [words for words, said in (("travels apart (hazardous)", line["hazardous"]),
                                         ("too large or heavy for some means of transport", line["outsize"]),
                                         ("size not in the station file", not line["listed"])) if said]  # fmt: skip
    return (number, line["part"], line["what"], line["needed"], line["spares"], pieces,
            in_column(line["mass_each"], "kg", system), in_column(pieces * line["mass_each"], "kg", system),
            in_column(pieces * line["volume_each"], "cargo m3", system), *(in_column(s, "m", system) for s in size),
            line["first_step"], ", ".join(line["carried_by"]) or "nothing", "; ".join(remarks), "")  # fmt: skip


def _split(cargo: Plain, station: Plain, key: str, name: str, head: str) -> Sheet:
    system = station["units"]
    kg, m3 = (unit_text(column_unit(u, system)) for u in ("kg", "cargo m3"))
    columns = (Column(head, 24), Column("Part", 26), Column("What it is", 34), Column("Pieces", 9, "#,##0", total=True),
               Column(f"Mass [{kg}]", 12, "#,##0", total=True), Column(f"Volume [{m3}]", 12, "#,##0.00", total=True),
               Column("Arrived", 10))  # fmt: skip
    rows = [
        (where, line["part"], line["what"], pieces, in_column(pieces * line["mass_each"], "kg", system),
         in_column(pieces * line["volume_each"], "cargo m3", system), "")
        for line in cargo["lines"] for where, pieces in line[key]
    ]  # fmt: skip
    return Sheet(name, f"Pieces for each {head.lower()}; filter the first column.", columns,
                 tuple(sorted(rows, key=lambda row: place_order(station, str(row[0])))))  # fmt: skip


def packing_sentence(cargo: Plain, system: str) -> str:
    """One sentence on what is shipped."""
    lines = counted(len(cargo["lines"]), "line")
    volume = f"{in_column(cargo['volume'], 'cargo m3', system):,.0f} {unit_text(column_unit('cargo m3', system))}"
    return f"{lines}, {counted(cargo['pieces'], 'piece')}, {shown(cargo['mass'], 'kg', system)}, {volume}."
