"""Chapters on heat, pipes, water and power: everything of the station appears, in the reader's units."""

from __future__ import annotations

import copy
import re
from pathlib import Path
from typing import Any

import pytest

from firnstead import heat, pipes, power, snow, water
from firnstead.core.memo import Memo
from firnstead.core.results import as_plain
from firnstead.core.units import convert
from firnstead.reports.charts import Line
from firnstead.reports.columns import Columns
from firnstead.reports.utility_charts import drawn, month_chart, stacked_months, xy_chart
from firnstead.reports.utility_pages import utility_chapters
from firnstead.station import read_station

PARTS = ("Heat", "Pipes", "Water", "Power")


def _document(folder: Path) -> dict[str, Any]:
    """The four studies called one after another, as the machine-readable form has them."""
    station = read_station(folder / "station.yaml").station
    memo, ground = Memo(), snow.study(station).result
    warm, runs, well = (
        heat.study(station, ground, memo),
        pipes.study(station, ground, memo),
        water.study(station, ground),
    )
    loads = {**warm.result.electric, **runs.result.tracing, **well.result.electric}
    fuel = tuple(a + b for a, b in zip(warm.result.fuel, well.result.fuel, strict=True))
    plant = power.study(station, memo, loads=loads, waste_used=well.result.waste_used, other_fuel=fuel)
    results = {"heat": warm.result, "pipes": runs.result, "water": well.result, "power": plant.result}
    return {"station": station.model_dump(mode="json"), "results": as_plain(results)}


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    """The full example."""
    return _document(Path(__file__).parents[2] / "examples" / "stations" / "full")


@pytest.fixture(scope="module")
def chapters(document: dict[str, Any]) -> dict[str, list[dict[str, Any]]]:
    """Blocks of each chapter of the full example."""
    return {c["title"]: c["blocks"] for c in utility_chapters(document)}


def _cells(blocks: list[dict[str, Any]]) -> list[str]:
    """All cells of all tables."""
    return [cell for b in blocks if b["kind"] == "table" for row in b["rows"] for cell in row]


def test_the_four_chapters_open_with_a_sentence_and_a_caution(chapters: dict[str, list[dict[str, Any]]]) -> None:
    """The reader meets what matters first, then what can hurt."""
    assert tuple(chapters) == PARTS
    for blocks in chapters.values():
        assert [b["kind"] for b in blocks[:2]] == ["say", "caution"]
        assert any(b["kind"] == "figure" for b in blocks)


def test_every_run_board_set_feeder_and_tank_appears(
    document: dict[str, Any], chapters: dict[str, list[dict[str, Any]]]
) -> None:
    """Nothing of the station is left out of the tables."""
    results = document["results"]
    assert set(results["pipes"]["runs"]) <= set(_cells(chapters["Pipes"]))
    in_power = set(_cells(chapters["Power"]))
    assert {b["name"] for key in ("boards", "sets") for b in results["power"][key]} <= in_power
    assert {f["name"] for f in results["power"]["feeders"]} <= {c.removesuffix(" (stands open)") for c in in_power}
    assert set(document["station"]["water"]["tanks"]) <= set(_cells(chapters["Water"]))


@pytest.mark.parametrize("what", ["places", "buildings"])
def test_every_place_and_building_appears(
    document: dict[str, Any], chapters: dict[str, list[dict[str, Any]]], what: str
) -> None:
    """Also those that share a line with others."""
    known = document["results"]["heat"][what]
    said = " ; ".join(_cells(chapters["Heat"]))
    for name in known:
        stem, _, number = name.rpartition(" ")
        pattern = rf"{re.escape(stem)} (\d+, )*{number}\b" if stem and number.isdigit() else re.escape(name)
        assert re.search(pattern, said), name


def test_the_weakest_metre_of_each_line_stands_first(
    document: dict[str, Any], chapters: dict[str, list[dict[str, Any]]]
) -> None:
    """Lines in the order in which they freeze, in each its weakest metre on top."""
    table = next(b for b in chapters["Pipes"] if b["kind"] == "table" and "Metre" in b["head"])
    order = [row[0] for row in table["rows"] if row[0]]
    runs = document["results"]["pipes"]["runs"]
    times = [runs[name]["spots"][0]["to_zero"] for name in order]
    assert times == sorted(times)
    assert set(order) == {n for n, r in runs.items() if r["spots"]}
    for name in order:
        row = next(row for row in table["rows"] if row[0] == name)
        assert row[1] == min(runs[name]["spots"], key=lambda s: s["to_zero"])["what"]


def test_us_readers_get_feet_fahrenheit_and_gallons(document: dict[str, Any]) -> None:
    """Every head with a unit is in the units of the reader; numbers follow."""
    ours = copy.deepcopy(document)
    ours["station"]["units"] = "us"
    heads = [h for c in utility_chapters(ours) for b in c["blocks"] if b["kind"] == "table" for h in b["head"]]
    units = {unit for h in heads for unit in re.findall(r"\[([^\]]*)\]", h)}
    assert {"°F", "ft", "gal/day", "gal", "lb", "W/ft"} <= units
    assert not units & {"°C", "m", "m³", "m³/day", "kg", "t", "W/m"}
    run = next(iter(ours["results"]["pipes"]["runs"].values()))
    assert Columns("us").value(run["length"], "m") == pytest.approx(convert(run["length"], "ft"))


@pytest.mark.parametrize("part", PARTS)
def test_a_part_that_the_station_lacks_gives_no_chapter(document: dict[str, Any], part: str) -> None:
    """The other chapters stay, whether the result is empty or not there at all."""
    rest = tuple(p for p in PARTS if p != part)
    without = {**document, "station": {**document["station"], part.lower(): None},
               "results": {**document["results"], part.lower(): None}}  # fmt: skip
    assert tuple(c["title"] for c in utility_chapters(without)) == rest
    del without["results"][part.lower()]
    assert tuple(c["title"] for c in utility_chapters(without)) == rest


def test_what_the_studies_give_for_empty_parts_gives_no_chapter(document: dict[str, Any]) -> None:
    """Studies of a station without these parts answer with empty results."""
    bare = {**document["station"], **{p.lower(): None for p in PARTS}}
    assert utility_chapters({"station": bare, "results": document["results"] | {"pipes": {"runs": {}}}}) == []


def test_empty_corners_say_so(document: dict[str, Any]) -> None:
    """No heated building, no sump, no waste heat, no shedding, no tracing, no second well: a line, not a blank."""
    bare = copy.deepcopy(document)
    results = bare["results"]
    results["heat"] |= {"buildings": {}, "demand": {}, "remedies": [], "short": {}}
    results["water"] |= {"bulbs": [], "shafts": []}
    results["water"]["well"] |= {"end": "", "next_start": "", "cut": None, "hose_time": None, "shaft_too_narrow": None}
    results["power"] |= {"waste": [0.0] * 12, "shedding": [], "lost_places": [], "feeders": [], "drums": [],
                         "construction": None}  # fmt: skip
    for run in results["pipes"]["runs"].values():
        run |= {"spots": [], "tracing": None}
    bare["station"]["water"]["tanks"] = {}
    made = utility_chapters(bare)
    assert tuple(c["title"] for c in made) == PARTS
    for chapter in made:
        assert all(b["rows"] for b in chapter["blocks"] if b["kind"] == "table"), chapter["title"]


def test_a_place_above_its_limit_is_named_with_what_to_change(document: dict[str, Any]) -> None:
    """The remedy stands with its amount; without one the page says that none was found."""
    bare = copy.deepcopy(document)
    heat_year = bare["results"]["heat"]
    name = next(iter(heat_year["places"]))
    heat_year["places"][name] |= {"limit": heat_year["places"][name]["warmest"] - 1.0}
    notes = [b["text"] for b in utility_chapters(bare)[0]["blocks"] if b["kind"] == "text"]
    assert any(name in text and "No single change" in text for text in notes)
    heat_year["remedies"] = [{"place": name, "change": "heat of things less", "amount": 0.25, "unit": "1"}]
    assert [name, "heat of things less", "25 %"] in [
        row for b in utility_chapters(bare)[0]["blocks"] if b["kind"] == "table" for row in b["rows"]
    ]


def test_charts_are_ink_and_greys() -> None:
    """A photocopy tells lines and bars apart."""
    year = tuple(float(m) for m in range(12))
    lines = [(f"place {n}", tuple(v + n for v in year)) for n in range(7)]
    charts = [month_chart("Air", "°C", lines, [(9.0, "limit")], (year, year)),
              stacked_months("Load", "kW", [(f"part {n}", year) for n in range(6)], ("had", year)),
              xy_chart("Along", "m", "°C", [Line("run", ((0.0, 1.0), (5.0, 2.0)))], [(0.0, "freezing")],
                       down=True)]  # fmt: skip
    text = drawn(charts[:2], charts[2:])
    assert len(set(re.findall(r'stroke-dasharray="([^"]+)"', text))) >= 6
    assert "limit" in text
    assert "freezing" in text
    for tone in set(re.findall(r"#[0-9a-fA-F]{6}\b", text)):
        parts = [int(tone[i : i + 2], 16) for i in (1, 3, 5)]
        assert max(parts) - min(parts) <= 20, tone


def test_the_template_knows_every_block(chapters: dict[str, list[dict[str, Any]]]) -> None:
    """Tables are square, and no figure is empty."""
    kinds = {"say", "caution", "text", "heading", "table", "figure"}
    for blocks in chapters.values():
        assert {b["kind"] for b in blocks} <= kinds
        assert all(b["svg"].startswith("<svg") and b["reading"] for b in blocks if b["kind"] == "figure")
        assert all(len(row) == len(b["head"]) for b in blocks if b["kind"] == "table" for row in b["rows"])
