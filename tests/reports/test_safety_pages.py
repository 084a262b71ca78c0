"""Chapters on ways out, fire and air: order, what is missing, charts that can be drawn, and a page that can be set."""

import copy
import json
from typing import Any

import pytest

from firnstead import air
from firnstead.cli.escape_commands import escape_results
from firnstead.core.cautions import caution_for
from firnstead.pipeline import assess
from firnstead.pipeline.assess import Assessment
from firnstead.reports.air_pages import air_chapter
from firnstead.reports.charts import Line, svg
from firnstead.reports.escape_pages import escape_chapter, rounds
from firnstead.reports.fire_pages import fire_chapter, worst_ways
from firnstead.reports.safety_charts import along_chart, hours_chart, month_chart, needed_chart, through_time
from firnstead.reports.safety_pages import safety_chapters
from firnstead.station import StationFile


@pytest.fixture(scope="module")
def document(first: StationFile) -> dict[str, Any]:
    """The machine-readable form of the small example with all three disciplines, as it comes from a file."""
    made = assess(first)
    escape, fire = escape_results(made)
    studies = {**made.studies, "escape": escape, "air": air.study(first.station, made.results["snow"])}
    if fire is not None:
        studies["fire"] = fire
    return json.loads(json.dumps(Assessment(first, studies).document(), default=str))


def _kinds(chapter: dict[str, Any], kind: str) -> list[dict[str, Any]]:
    return [b for b in chapter["blocks"] if b["kind"] == kind]


def test_each_chapter_opens_with_a_sentence_and_its_caution(document: dict[str, Any]) -> None:
    """Three chapters in the order of need; the caution of the discipline stands before any number."""
    made = safety_chapters(document)
    assert len(made) == 3
    for chapter, discipline in zip(made, ("escape", "fire", "air"), strict=True):
        assert [b["kind"] for b in chapter["blocks"][:2]] == ["say", "caution"]
        assert chapter["blocks"][1]["text"] == caution_for(discipline)


def test_tables_are_whole(document: dict[str, Any]) -> None:
    """Every row has as many cells as the head has columns, and every cell is text."""
    for chapter in safety_chapters(document):
        for table in _kinds(chapter, "table"):
            for row in table["rows"]:
                assert len(row) == len(table["head"]) == len(table["widths"])
                assert all(isinstance(cell, str) for cell in row)
                assert not any("None" in cell or "nan" in cell.split() for cell in row)


def test_figures_are_drawings(document: dict[str, Any]) -> None:
    """Each chapter that has a chart holds a drawn one, with a reading."""
    found = [figure for chapter in safety_chapters(document) for figure in _kinds(chapter, "figure")]
    assert found
    assert all(figure["svg"].startswith("<svg") and figure["reading"] for figure in found)


def test_every_place_and_room_is_in_the_chapter(document: dict[str, Any]) -> None:
    """No place and no room is left out of the tables of the ways out."""
    cells = {cell for table in _kinds(escape_chapter(document), "table") for row in table["rows"] for cell in row}
    result = document["results"]["escape"]
    assert set(result["places"]) | set(result["buildings"]) | set(result["exits"]) <= cells


def test_someone_cut_off_stands_first(document: dict[str, Any]) -> None:
    """A room without a way left is at the head of its table and is called cut off."""
    changed = copy.deepcopy(document)
    name, room = list(changed["results"]["escape"]["buildings"].items())[-1]
    room["worst"], room["worst_distance"] = "the only door", None
    tables = _kinds(escape_chapter(changed), "table")
    rows = next(t["rows"] for t in tables if t["head"][0] == "Room")
    assert rows[0][0] == name
    assert any(cell.startswith("cut off") for cell in rows[0])


def test_missing_parts_give_no_chapter(document: dict[str, Any]) -> None:
    """Without results, with an empty fire study, or without an air part there is nothing to print."""
    bare = {**document, "results": {}}
    assert safety_chapters(bare) == []
    fire = {**document["results"]["fire"], "cases": {}}
    some = {**document, "results": {"fire": fire, "air": {"reason": "nothing"}, "escape": None}}
    assert safety_chapters(some) == []


def test_escape_without_fire_is_told(document: dict[str, Any]) -> None:
    """The chapter stands without a fire study and says that the time available is not known."""
    checks = [{**c, "verdict": "not checked", "demand": None, "limit": None, "ratio": None}
              if c["key"] == "escape.time" else c for c in document["checks"]]  # fmt: skip
    chapter = escape_chapter({**document, "checks": checks})
    assert not _kinds(chapter, "figure")
    assert any("not known" in b["text"] for b in _kinds(chapter, "text"))


def test_fire_without_ways_is_told(document: dict[str, Any]) -> None:
    """Without times of the escape study the fire chapter says so and draws no way."""
    fire = {**document["results"]["fire"], "ways_out": []}
    chapter = fire_chapter({**document, "results": {**document["results"], "fire": fire}})
    assert not _kinds(chapter, "figure")


def test_the_best_way_is_set_against_the_worst_fire() -> None:
    """For each fire the way that is still open with the least dose counts; the burning room itself is left out."""

    def way(origin: str, fire: str, name: str, margin: float | None, dose: float) -> dict[str, Any]:
        return {"origin": origin, "fire": fire, "way": name, "margin": margin, "dose": dose}

    result = {
        "cases": {"f": {"building": "A"}, "g": {"building": ""}},
        "ways_out": [
            way("A", "f", "x", -9.0, 9.0),
            way("A", "g", "x", 5.0, 3.0),
            way("A", "g", "y", None, 1.0),
            way("A", "g", "z", -1.0, 0.0),
            way("B", "f", "x", -2.0, 0.5),
        ],
    }
    assert [(r["origin"], r["fire"], r["way"]) for r in worst_ways(result)] == [("B", "f", "x"), ("A", "g", "y")]


def test_rounds_are_told_from_work_done_once(document: dict[str, Any]) -> None:
    """Only work that repeats is in the list of rounds, and drills are."""
    for discipline in ("escape", "fire", "air"):
        table = next(b for b in rounds(document, discipline) if b["kind"] == "table")
        assert not any(row[0].startswith(("Set ", "Hang ")) for row in table["rows"])
    drills = rounds(document, "escape")[-1]["rows"]
    assert any("Drill" in row[0] for row in drills)


def test_hours_after_the_stop_begin_with_the_worst_room(document: dict[str, Any]) -> None:
    """The first row of the table holds the shortest time of all."""
    result = document["results"]["air"]
    shortest = min((r for r in result["stopped"] if r["time"] is not None), key=lambda r: r["time"])
    limits = {r["limit"] for r in result["stopped"]}
    table = next(t for t in _kinds(air_chapter(document), "table") if limits <= set(t["head"]))
    assert table["rows"][0][0] == shortest["room"]


def test_charts_use_dashes_not_colour() -> None:
    """Each chart draws, and its lines differ by their dashes; nothing but greys is in them."""
    lines = [Line("a", ((0.0, 1.0), (1.0, 2.0))), Line("b", ((0.0, 2.0), (1.0, 30.0)))]
    specs = [
        needed_chart([("A", 3.0, 2.0), ("B", 1.0, 4.0)], "min", 200),
        along_chart(["x", "y", "z"], [("people", [1.0, 2.0, 3.0]), ("limit", [2.0, None, 1.0])], "min", 300, 120),
        through_time("T", "ppm", lines, 5.0, "limit", 200, 120, log=True),
        month_chart("M", "Pa", [("v", [(-1.0) ** m for m in range(12)]), ("w", [0.5] * 12)], None, "", 200, 120),
        hours_chart([("A", 1.0, 10.0)], "hours", 200),
    ]
    drawn = [svg(spec) for spec in specs]
    assert all(text.startswith("<svg") for text in drawn)
    assert all("stroke-dasharray" in text for text in drawn[1:4])
