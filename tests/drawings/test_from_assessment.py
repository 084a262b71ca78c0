"""Drawings of the example stations: every place is drawn, names are safe, two runs agree."""

import re
from functools import cache
from pathlib import Path

import pytest

from firnstead import cutting, snow, walls
from firnstead.core.memo import Memo
from firnstead.drawings.dxf import dxf
from firnstead.drawings.figure import Circle, Dimension, Polygon
from firnstead.drawings.from_assessment import Drawing, drawings
from firnstead.drawings.svg import svg
from firnstead.pipeline.assess import Assessment
from firnstead.station import parse_station, read_station
from firnstead.station.reader import StationFile

EXAMPLES = Path(__file__).resolve().parents[2] / "examples" / "stations"


def assessed(file: StationFile) -> Assessment:
    """The studies that the drawings need."""
    memo, column = Memo(), snow.study(file.station)
    studies = {"snow": column, "cutting": cutting.study(file.station, column.result, memo),
               "walls": walls.study(file.station, column.result, memo)}  # fmt: skip
    return Assessment(file, studies)


@cache
def full() -> tuple[Assessment, dict[str, Drawing]]:
    """The full example station with its drawings."""
    assessment = assessed(read_station(EXAMPLES / "full"))
    return assessment, drawings(assessment)


def test_every_place_has_its_sections() -> None:
    """Each place is on exactly one section and one long section, each end wall's place on an elevation."""
    assessment, made = full()
    for kind in ("Section", "Long section"):
        places = [p for d in made.values() if d.kind == kind for p in d.places]
        assert sorted(places) == sorted(assessment.station.places)
    walls_of = {w.place for w in assessment.station.end_walls.values()}
    assert {p for d in made.values() if d.kind == "End wall" for p in d.places} == walls_of


def test_every_drawing_fits_and_has_a_safe_name() -> None:
    """Each sheet holds its drawing; names are plain file names."""
    _, made = full()
    assert all(d.sheet.fits for d in made.values())
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name) for name in made)
    assert made["plan"].sheet.scale == 1000


def test_plan_has_every_building_and_hatch() -> None:
    """As many buildings and hatches on the plan as in the station file."""
    assessment, made = full()
    items = made["plan"].figure.items
    assert sum(isinstance(i, Polygon) and i.layer == "building" for i in items) == len(assessment.station.buildings)
    assert sum(isinstance(i, Circle) for i in items) == len(assessment.station.hatches)


def test_section_dimensions_are_the_station_file_s() -> None:
    """Span, rise, cover and depth on the section are what the file says."""
    assessment, made = full()
    station = assessment.station
    for drawing in (d for d in made.values() if d.kind == "Section"):
        place = station.places[drawing.places[0]]
        found = {i.words.split()[0]: i.value() for i in drawing.figure.items if isinstance(i, Dimension)}
        roof = station.roofs[place.roof]
        assert found["span"] == pytest.approx(roof.span)
        assert found["rise"] == pytest.approx(roof.rise)
        assert found["cover"] == pytest.approx(roof.cover)
        assert found["depth"] == pytest.approx(station.sections[place.section].depth)


def test_sheets_carry_version_and_date_of_the_file() -> None:
    """The corner block names the file's version and its own date."""
    assessment, made = full()
    text = svg(made["plan"].sheet)
    assert assessment.file.version in text
    assert assessment.station.dated.isoformat() in text


def test_two_runs_write_the_same_files() -> None:
    """Assessed twice, every drawing has the same bytes."""
    runs = [drawings(assessed(read_station(EXAMPLES / "first"))) for _ in range(2)]
    texts = [{name: (svg(d.sheet), svg(d.loose()), dxf(d.sheet)) for name, d in made.items()} for made in runs]
    assert texts[0] == texts[1]
    assert len(texts[0]) == 4


def test_odd_place_names_give_safe_file_names() -> None:
    """A place named like a path, or with no plain letter at all, still gets a file name of its own."""
    whole = (EXAMPLES / "first" / "station.yaml").read_text(encoding="utf-8")
    others = r"(?ms)^(power|water|heat|pipes|escape|fire|air):.*?(?=^[a-z_]+:|\Z)"  # name the place in many ways
    text = re.sub(others, "", whole)
    file = parse_station(text.replace("  North 1:", "  '../北 <1>':").replace("place: North 1", "place: '../北 <1>'"),
                         EXAMPLES / "first" / "station.yaml")  # fmt: skip
    made = drawings(assessed(file))
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name) for name in made)
    assert "../北 &lt;1&gt;" in svg(made["plan"].sheet)
