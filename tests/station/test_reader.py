"""Reading a station file: what is wrong, where, and how to mend it."""

from __future__ import annotations

from pathlib import Path

import pytest

from firnstead.core.errors import InputError, Problem
from firnstead.station import StationFile, parse_station, read_station


def problems_of(text: str, beside: Path) -> list[Problem]:
    """The problems of a station text."""
    with pytest.raises(InputError) as caught:
        parse_station(text, beside)
    assert all(p.line >= 1 and p.what and p.cure for p in caught.value.problems)
    return caught.value.problems


def line_of(text: str, part: str) -> int:
    """The line on which a piece of text first stands."""
    return text[: text.index(part)].count("\n") + 1


@pytest.mark.parametrize(
    ("written", "wrong", "line_with", "said"),
    [
        ("life: 10 yr", "life: 10", "life: 10", "no unit"),
        ("life: 10 yr", "life: 10 kg", "life: 10 kg", "another kind"),
        ("life: 10 yr", "life: 10 yaer", "life: 10 yaer", "yr"),
        ("life: 10 yr", "life: 900 yr", "life: 900 yr", "50 yr"),
        ("    top_width: 4.6 m", "    top_widht: 4.6 m", "top_widht", "top_width"),
        ("roof: lateral arch", "roof: latral arch", "roof: latral arch", "lateral arch"),
        ("section: lateral", "section: nothing like it", "section: nothing", "lateral"),
        ("mean_temperature: -27 degC", "mean_temperature: 4 degC", "mean_temperature: 4", "0 degC"),
        ("at: 31 m", "at: 41 m", "at: 41 m", "outside"),
        ("at: 19 m", "at: 9 m", "at: 9 m", "same spot"),
        ("at: 19 m", "at: 33 m", "at: 33 m", "outside"),
        ("    span: 5.4 m", "    span: 3.9 m", "    roof: lateral arch", "span"),
        ("    span: 5.4 m", "    span: 6.6 m", "    roof: lateral arch", "wider than its section's seat"),
        ("floor_width: 6.2 m", "floor_width: 4.0 m", "floor_width: 4.0 m", "wider at the floor"),
        ("gauge: 5", "gauge: 13", "gauge: 13", "5"),
        ("kind: miller", "kind: milller", "kind: milller", "miller"),
        ("start: 2031-05-25", "start: soon", "start: soon", "year-month-day"),
        ("end: 2031-08-31", "end: 2030-08-31", "end: 2030-08-31", "before"),
        ("people: 10}", "people: ten}", "people: ten}", "whole number"),
        ("start: [0 m, 0 m]", "start: [0 m]", "start: [0 m]", ""),
        ("density_file: density.csv", "density_file: ../density.csv", "density_file: ..", "beside"),
        ("density_file: density.csv", "density_file: other.csv", "density_file: other", "cannot be read"),
        ("hatch lid: 1,", "hatch lit: 1,", "hatch lit", "hatch lid"),
        ("firnstead: 1", "firnstead: 2", "firnstead: 2", "1"),
    ],
)  # fmt: skip
def test_one_mistake_gives_its_line_and_its_cure(
    first: StationFile, written: str, wrong: str, line_with: str, said: str
) -> None:
    """A single mistake in a sound file is found on its own line, and the message names the way out."""
    text = first.text.replace(written, wrong, 1)
    assert text != first.text
    found = problems_of(text, first.path)
    hits = [p for p in found if p.line == line_of(text, line_with)]
    assert hits, [str(p) for p in found]
    assert any(said in f"{p.what} {p.cure}" for p in hits), [str(p) for p in hits]


def test_all_mistakes_of_a_file_come_in_one_run(first: StationFile) -> None:
    """Faults of the schema, of references and of geometry are reported together, each once, in file order."""
    text = first.text
    mistakes = {
        "life: 10 yr": "life: 10",
        "gauge: 5": "gauge: 13",
        "at: 31 m": "at: 131 m",
        "at: 19 m": "at: 9 m",
        "kit: sleeping hut, people": "kit: sleping hut, people",
    }
    for written, wrong in mistakes.items():
        text = text.replace(written, wrong, 1)
    # the roof is wrong, so the trench cannot be laid out: the things in it are judged once it can be
    assert len(problems_of(text, first.path)) >= 3
    text = text.replace("gauge: 13", "gauge: 5")
    found = problems_of(text, first.path)
    assert [p.line for p in found] == sorted(p.line for p in found)
    assert {line_of(text, s) for s in ("life: 10", "at: 131 m", "sleping hut")} <= {p.line for p in found}


def test_trenches_that_overlap_or_lead_nowhere_are_refused(full: StationFile) -> None:
    """A trench moved onto its neighbour, or turned away from its passage, is found."""
    moved = full.text.replace("start: [46 m,", "start: [19 m,", 1)
    assert any("overlaps" in p.what for p in problems_of(moved, full.path))
    turned = full.text.replace("bearing: 0 deg", "bearing: 90 deg", 1)
    assert any("does not lead" in p.what or "overlaps" in p.what for p in problems_of(turned, full.path))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "just words",
        "- a\n- b",
        "a: [1,",
        "a: b: c",
        "\tx: 1",
        "name: &a [*a]",
        "{",
        "? ",
        "42",
        "a: !!python/object:os.system x",
    ],
)
def test_what_is_not_a_station_is_refused_politely(text: str, tmp_path: Path) -> None:
    """Empty files, lists and broken YAML give a line and a cure, never a traceback."""
    assert problems_of(text, tmp_path / "station.yaml")


def test_a_key_written_twice_is_refused(first: StationFile) -> None:
    """The second of two equal keys would silently win: it is an error with its line."""
    text = first.text.replace("  life: 10 yr\n", "  life: 10 yr\n  life: 20 yr\n", 1)
    found = problems_of(text, first.path)
    assert any(abs(p.line - line_of(text, "life: 20 yr")) <= 1 for p in found)


def test_files_that_cannot_be_read_are_refused(tmp_path: Path) -> None:
    """A missing file, a folder without one and bytes that are no text each give one clear problem."""
    (tmp_path / "bytes.yaml").write_bytes(b"name: x\n\xff\xfe\n")
    for path in (tmp_path / "none.yaml", tmp_path, tmp_path / "bytes.yaml"):
        with pytest.raises(InputError) as caught:
            read_station(path)
        assert len(caught.value.problems) == 1
    assert caught.value.problems[0].line == 2


@pytest.mark.parametrize(
    ("table", "line"),
    [
        ("top,bottom,density\n0,1,350\n", 1),
        ("top [m],bottom [m],density [kg/m3]\n0,1,350\n1,2\n", 3),
        ("top [m],bottom [m],density [kg/m3]\n0,1,350\n3,2,400\n", 3),
        ("top [m],bottom [m],density [g/cm3]\n0,1,350\n", 2),
        ("", 1),
        ("# only a remark\n", 1),
        ("top [m],bottom [m],density [kg/m3]\n0,one,350\n", 2),
    ],
)
def test_a_wrong_density_table_gives_its_own_line(first: StationFile, tmp_path: Path, table: str, line: int) -> None:
    """Mistakes in the CSV are reported with the CSV's name and line."""
    (tmp_path / "density.csv").write_text(table, encoding="utf-8")
    found = problems_of(first.text, tmp_path / "station.yaml")
    assert any((p.file, p.line) == ("density.csv", line) for p in found), [str(p) for p in found]


def test_the_version_follows_the_station_and_its_data(first: StationFile, tmp_path: Path) -> None:
    """The printed version changes with the station file and with the table beside it, and with nothing else."""
    table = (first.path.parent / "density.csv").read_text(encoding="utf-8")
    (tmp_path / "density.csv").write_text(table, encoding="utf-8")
    assert parse_station(first.text, tmp_path / "station.yaml").digest == first.digest
    assert parse_station(first.text + "# remark\n", tmp_path / "station.yaml").digest != first.digest
    (tmp_path / "density.csv").write_text(table.replace("362", "363"), encoding="utf-8")
    assert parse_station(first.text, tmp_path / "station.yaml").digest != first.digest


def test_feet_and_metres_give_the_same_station(first: StationFile) -> None:
    """The same quantity in another unit is the same station to the last digits."""
    other = parse_station(first.text.replace("depth: 6.2 m", "depth: 244.0944881889764 in"), first.path).station
    assert other.sections["lateral"].depth == pytest.approx(first.station.sections["lateral"].depth, rel=1e-12)
