"""Everything that `firnstead report` writes for one assessment."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

from firnstead.pipeline import Assessment
from firnstead.reports.calculation import typeset
from firnstead.reports.dossier import dossier
from firnstead.reports.lists import cut_sheet, work_sheet
from firnstead.reports.packing import packing_sheets
from firnstead.reports.pictures import pictures_of
from firnstead.reports.sheets import Sheet, csv_text, xlsx
from firnstead.reports.write import File, write_folder


def write_report(assessment: Assessment, out_dir: Path | str) -> list[tuple[str, str]]:
    """Write the whole report into `out_dir`, or nothing; give the files, each with one line on what it is."""
    document = assessment.document()
    station = document["station"]
    about = f"{station['name']}, dated {station['dated']}, file version {assessment.file.digest[:12]}"
    return write_folder(out_dir, _files(assessment, document, about), about)


def _files(assessment: Assessment, document: dict[str, Any], about: str) -> Iterator[File]:
    pictures = pictures_of(assessment)
    data = dossier(document, assessment.file.text, assessment.file.digest, pictures)
    yield "calculation.pdf", "calculation file: every check with its whole working, to be signed", typeset(data)
    dated = date.fromisoformat(str(document["station"]["dated"]))
    yield from _tables(
        "packing-list", "packing list: all parts, by place, by kit", packing_sheets(document), about, dated
    )
    yield from _tables("work-items", "work items with quantities and hours", [work_sheet(document)], about, dated)
    cut = cut_sheet(document)
    yield from _tables("cut-plan", "cut plan, pass by pass", [cut] if cut else [], about, dated)
    for picture in pictures:
        for ending, text in (("svg", picture.sheet), ("dxf", picture.dxf)):
            yield f"drawings/{picture.name}.{ending}", picture.title, text.encode()
    text = json.dumps(document, ensure_ascii=False, indent=1, default=str)
    yield "assessment.json", "all results for other programs (SI units)", text.encode()


def _tables(name: str, what: str, sheets: list[Sheet], about: str, dated: date) -> Iterator[File]:
    if sheets:
        yield f"{name}.xlsx", what, xlsx(sheets, about, dated)
        yield f"{name}.csv", f"{what.split(':')[0]}, plain", csv_text(sheets[0]).encode("utf-8-sig")
