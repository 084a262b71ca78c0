"""Tables that people edit: one description, written as XLSX and as CSV, the same bytes each time."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime

Cell = str | float | int | None


@dataclass(frozen=True)
class Column:
    """A column: its head, its width in characters, and how its numbers are written ("" for words)."""

    head: str
    width: float = 14.0
    form: str = ""
    total: bool = False
    """Add the column up in a last row."""


@dataclass(frozen=True)
class Sheet:
    """One table: name of its tab, a sentence above it, columns and rows."""

    name: str
    sentence: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]

    def totals(self) -> tuple[Cell, ...]:
        """The last row: sums of the columns that are added up; empty where none is."""
        if not any(c.total for c in self.columns) or not self.rows:
            return ()
        sums = [sum(float(row[i] or 0) for row in self.rows) if c.total else None for i, c in enumerate(self.columns)]
        return ("Total", *sums[1:])


TOP = 3  # rows above the head: title, sentence, empty


def xlsx(sheets: Sequence[Sheet], title: str, dated: date) -> bytes:
    """The tables as one workbook: head frozen, filters on, totals as formulas with their values."""
    import xlsxwriter
    from xlsxwriter.utility import xl_range

    out = io.BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False})
    book.set_properties({"title": title, "created": datetime(dated.year, dated.month, dated.day, tzinfo=UTC)})
    bold, head = (
        book.add_format({"bold": True}),
        book.add_format({"bold": True, "bottom": 2, "text_wrap": True, "valign": "top"}),
    )
    words = book.add_format({"text_wrap": True, "valign": "top"})
    names = _tab_names([s.name for s in sheets])
    for sheet, name in zip(sheets, names, strict=True):
        page = book.add_worksheet(name)
        page.write_string(0, 0, title, bold)
        page.write_string(1, 0, sheet.sentence)
        last = TOP + len(sheet.rows)
        for c, column in enumerate(sheet.columns):
            cells = book.add_format({"num_format": column.form, "valign": "top"}) if column.form else words
            page.set_column(c, c, column.width)
            page.write_string(TOP, c, column.head, head)
            for r, row in enumerate(sheet.rows, TOP + 1):
                _write(page, r, c, row[c], cells)
        if totals := sheet.totals():
            page.write_string(last + 1, 0, "Total", bold)
            for c, (column, value) in enumerate(zip(sheet.columns, totals, strict=True)):
                if column.total:
                    where = xl_range(TOP + 1, c, last, c)
                    form = book.add_format({"bold": True, "top": 1, "num_format": column.form})
                    page.write_formula(last + 1, c, f"=SUBTOTAL(109,{where})", form, value)
        page.freeze_panes(TOP + 1, 1)
        page.autofilter(TOP, 0, max(last, TOP + 1), len(sheet.columns) - 1)
        page.set_landscape()
        page.set_paper(9)
        page.fit_to_pages(1, 0)
        page.repeat_rows(TOP)
        page.set_footer(f"&L{_footer(title)}&Rpage &P of &N")
    book.close()
    return out.getvalue()


def _write(page: object, row: int, column: int, value: Cell, form: object) -> None:
    if isinstance(value, str):
        page.write_string(row, column, value, form)  # type: ignore[attr-defined]
    elif value is not None:
        page.write_number(row, column, value, form)  # type: ignore[attr-defined]
    else:
        page.write_blank(row, column, None, form)  # type: ignore[attr-defined]


def _footer(title: str) -> str:
    return title.replace("&", "&&")[:200]


def _tab_names(names: Sequence[str]) -> list[str]:
    """Names that a workbook takes: at most 31 characters, none of []:*?/\\, no two alike."""
    done: list[str] = []
    for name in names:
        base = "".join("-" if c in "[]:*?/\\" else c for c in name).strip("' ")[:31] or "Sheet"
        fitted, n = base, 2
        while fitted.casefold() in {d.casefold() for d in done}:
            fitted, n = f"{base[:27]} {n}", n + 1
        done.append(fitted)
    return done


def csv_text(sheet: Sheet) -> str:
    """The table as CSV with one head row and no totals, lines ended as RFC 4180 wants them."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([c.head for c in sheet.columns])
    for row in sheet.rows:
        writer.writerow(["" if v is None else _number(v) if isinstance(v, (float, int)) else v for v in row])
    return out.getvalue()


def _number(value: float) -> str:
    """A number for a machine: no thousands separators, no more digits than mean anything."""
    return f"{value:.6g}" if abs(value) < 1e6 and value != int(value) else f"{value:.0f}"
