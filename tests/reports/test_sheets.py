"""Tables as workbook and CSV: what was put in comes out again."""

from __future__ import annotations

import csv
import io
from datetime import date

import openpyxl

from firnstead.reports.sheets import TOP, Column, Sheet, csv_text, xlsx

COLUMNS = (
    Column("Part"),
    Column("Pieces", 9, "#,##0", total=True),
    Column("Mass [kg]", 9, "0.0", total=True),
    Column("Note"),
)
ROWS = (("arch", 96, 1234.5, "a"), ("=2+3", 2, 0.25, "http://x"), ("bolt", 1152, None, ""))
SHEET = Sheet("Parts", "What there is.", COLUMNS, ROWS)


def book(*sheets: Sheet) -> bytes:
    """A workbook of the given sheets."""
    return xlsx(sheets, "Test & Rise", date(2031, 2, 1))


def test_workbook_gives_back_the_rows() -> None:
    """Words stay words (even those that look like formulas), numbers stay numbers, totals add up."""
    page = openpyxl.load_workbook(io.BytesIO(book(SHEET)), data_only=True)["Parts"]
    rows = list(page.iter_rows(values_only=True))
    assert rows[TOP] == ("Part", "Pieces", "Mass [kg]", "Note")
    assert rows[TOP + 1 : TOP + 4] == [
        ("arch", 96, 1234.5, "a"), ("=2+3", 2, 0.25, "http://x"), ("bolt", 1152, None, "")]  # fmt: skip
    assert rows[TOP + 4][:3] == ("Total", 1250, 1234.75)
    assert page.cell(TOP + 3, 1).data_type == "s"


def test_workbook_is_ready_to_use() -> None:
    """The head is frozen and the filter covers all rows."""
    page = openpyxl.load_workbook(io.BytesIO(book(SHEET)))["Parts"]
    assert page.freeze_panes == f"B{TOP + 2}"
    assert page.auto_filter.ref == f"A{TOP + 1}:D{TOP + 4}"


def test_the_same_rows_give_the_same_bytes() -> None:
    """Two workbooks of one table can be compared byte by byte."""
    assert book(SHEET, SHEET) == book(SHEET, SHEET)


def test_tab_names_are_made_fit_and_unlike() -> None:
    """Long, odd and equal names become names that a workbook takes."""
    names = ["a/b:c" * 10, "A/B:C" * 10, "", "'quoted'", "Parts", "parts"]
    found = openpyxl.load_workbook(io.BytesIO(book(*(Sheet(n, "", COLUMNS, ROWS) for n in names)))).sheetnames
    assert len({n.casefold() for n in found}) == len(names)
    assert all(0 < len(n) <= 31 for n in found)


def test_csv_gives_back_the_rows() -> None:
    """One head row, then the rows; numbers without separators for thousands."""
    rows = list(csv.reader(io.StringIO(csv_text(SHEET))))
    assert rows[0] == ["Part", "Pieces", "Mass [kg]", "Note"]
    assert rows[1] == ["arch", "96", "1234.5", "a"]
    assert rows[3] == ["bolt", "1152", "", ""]


def test_a_sheet_without_rows_has_no_totals() -> None:
    """An empty table is still a table."""
    empty = Sheet("Parts", "", COLUMNS, ())
    page = openpyxl.load_workbook(io.BytesIO(book(empty)))["Parts"]
    assert page.max_row == TOP + 1
    assert empty.totals() == ()
