"""The whole report of the one-trench example station."""

from __future__ import annotations

import csv
import io
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import openpyxl
import pypdf
import pytest

from firnstead.core.units import LB
from firnstead.pipeline import Assessment, assess
from firnstead.pipeline.kept import beside
from firnstead.reports.lists import cut_sheet, work_sheet
from firnstead.reports.packing import packing_sheets
from firnstead.reports.report import write_report
from firnstead.reports.work import person_hours
from firnstead.station import read_station


@pytest.fixture(scope="module")
def assessment(first_years: Path) -> Assessment:
    """The example station, assessed with its years."""
    return assess(read_station(first_years), kept=beside(first_years))


@pytest.fixture(scope="module")
def report(assessment: Assessment, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Its report."""
    folder = tmp_path_factory.mktemp("report") / "out"
    told = write_report(assessment, folder)
    assert {name for name, _ in told} == {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()}
    assert all(what and "\n" not in what for _, what in told)
    return folder


@pytest.fixture(scope="module")
def document(assessment: Assessment) -> dict[str, Any]:
    """The contract of the example station."""
    return assessment.document()


def test_a_second_run_gives_the_same_files(first_years: Path, report: Path, tmp_path: Path) -> None:
    """Two reports are identical byte by byte, though another process with other hashes made the second."""
    words = [sys.executable, "-m", "firnstead", "report", str(first_years), "--out", str(tmp_path / "again")]
    seed = "1" if os.environ.get("PYTHONHASHSEED") != "1" else "2"
    subprocess.run(words, check=True, capture_output=True, env={**os.environ, "PYTHONHASHSEED": seed})
    assert len(list(report.rglob("*"))) == len(list((tmp_path / "again").rglob("*")))
    for path in report.rglob("*"):
        if path.is_file():
            assert (tmp_path / "again" / path.relative_to(report)).read_bytes() == path.read_bytes(), path.name


def test_calculation_file_holds_every_question_and_every_reason(report: Path, document: dict[str, Any]) -> None:
    """No check of the station is missing from the paper; what is not checked says why."""
    found = pypdf.PdfReader(report / "calculation.pdf")
    words = "".join("".join(page.extract_text().split()) for page in found.pages)
    for c in document["checks"]:
        assert "".join(c["question"].split()) in words, c["question"]
        if c["verdict"] == "not checked":
            assert "".join(c["reason"].split()) in words, c["reason"]
    assert len(document["checks"]) / 10 < len(found.pages) < 2 * len(document["checks"])


def test_drawings_are_pages_of_their_own_size(report: Path) -> None:
    """Each sheet is in the file at its paper's size, and beside it as SVG and DXF."""
    sheets = [p for p in pypdf.PdfReader(report / "calculation.pdf").pages if p.mediabox.width > p.mediabox.height]
    assert (
        len(sheets) == len(list((report / "drawings").glob("*.svg"))) == len(list((report / "drawings").glob("*.dxf")))
    )
    assert len(sheets) >= 2


def test_json_is_the_whole_contract(report: Path, document: dict[str, Any]) -> None:
    """The machine-readable file holds what the papers were made from."""
    found = json.loads((report / "assessment.json").read_text(encoding="utf-8"))
    assert set(found) == {"station", "checks", "results", "work_items"}
    assert len(found["checks"]) == len(document["checks"])


def test_packing_list_adds_up_to_the_cargo(report: Path, document: dict[str, Any]) -> None:
    """The workbook's masses and pieces are those of the assessment, whole and by place."""
    book = openpyxl.load_workbook(report / "packing-list.xlsx", data_only=True)
    cargo = document["results"]["cargo"]
    for tab, pieces, mass in (("Packing list", "To ship", "Mass [kg]"), ("By place", "Pieces", "Mass [kg]")):
        rows = list(book[tab].iter_rows(min_row=4, values_only=True))
        head, body = rows[0], rows[1:-1]
        assert sum(row[head.index(pieces)] for row in body) == cargo["pieces"]
        assert sum(row[head.index(mass)] for row in body) == pytest.approx(cargo["mass"])
    plain = list(csv.DictReader(io.StringIO((report / "packing-list.csv").read_text(encoding="utf-8-sig"))))
    assert [row["Part"] for row in plain] == [line["part"] for line in cargo["lines"]]


def test_lists_follow_the_station_s_units(document: dict[str, Any]) -> None:
    """A station with US units has pounds, feet and cubic yards in its lists, and the same amounts."""
    us = {**document, "station": {**document["station"], "units": "us"}}
    metric_mass, us_mass = (
        next(t for c, t in zip(s.columns, s.totals(), strict=True) if c.head.startswith("Mass ["))
        for s in (packing_sheets(document)[0], packing_sheets(us)[0])
    )
    assert us_mass == pytest.approx(metric_mass / LB)
    sheet = cut_sheet(us)
    assert sheet is not None
    assert {"From depth [ft]", "Snow in place [yd³]", "Density [lb/ft³]"} <= {c.head for c in sheet.columns}


def test_work_sheet_has_every_item(document: dict[str, Any]) -> None:
    """No work item is left out and the person-hours add up."""
    sheet = work_sheet(document)
    assert [row[0] for row in sheet.rows] == [item["id"] for item in document["work_items"]]
    at = [c.head for c in sheet.columns].index("Person-hours")
    assert sheet.totals()[at] == pytest.approx(sum(map(person_hours, document["work_items"])))


def test_cut_plan_has_every_pass(document: dict[str, Any]) -> None:
    """Each pass of each place is a row, with the volumes of the assessment."""
    sheet = cut_sheet(document)
    assert sheet is not None
    places = document["results"]["cutting"]["places"]
    assert len(sheet.rows) == sum(len(place["plan"]) for place in places.values())
    at = next(i for i, c in enumerate(sheet.columns) if c.head.startswith("Snow in place"))
    assert sheet.totals()[at] == pytest.approx(sum(p["volume"] for place in places.values() for p in place["plan"]))
