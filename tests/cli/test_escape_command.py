"""`firnstead escape`: order, blockings, siting, machine-readable form, exit codes, width of the screen."""

import json
import math
import re
from pathlib import Path

import pytest

from firnstead import escape
from firnstead.__main__ import main
from firnstead.core.cautions import caution_for
from firnstead.core.errors import NoSuchPlace
from firnstead.core.results import as_plain
from firnstead.reports import escape_rows
from firnstead.station import StationFile, read_station

EXAMPLES = Path(__file__).resolve().parents[2] / "examples" / "stations"
FULL, FIRST = str(EXAMPLES / "full"), str(EXAMPLES / "first")


@pytest.fixture(autouse=True)
def narrow(monkeypatch: pytest.MonkeyPatch) -> None:
    """A narrow screen, as on a laptop in a hut."""
    monkeypatch.setenv("COLUMNS", "80")


def test_every_place_and_exit_is_named_and_lines_are_short(
    capsys: pytest.CaptureFixture[str], full: StationFile
) -> None:
    """The screen names every place, every room and every used exit, ends with the cautions, and is 80 columns wide."""
    assert main(["escape", FULL]) in (0, 1)
    said = capsys.readouterr().out
    assert all(name in said for name in full.station.places)
    assert all(name in " ".join(said.split()) for name in full.station.buildings)
    assert caution_for("escape") in " ".join(said.split())
    table = said.split("Every single spot")[1]
    for row in escape_rows.room_rows(as_plain(escape.study(full.station).result)):
        line = next(line for line in table.splitlines() if line.startswith(f"{row['room']} "))
        assert line.split()[-2:] == [f"{row['left_length']:.1f}", row["needed"]]
    assert max(len(line.rstrip()) for line in said.splitlines()) <= 80


def test_exit_code_says_whether_something_fails(capsys: pytest.CaptureFixture[str]) -> None:
    """1 where a check of the ways out fails, else 0."""
    code = main(["escape", FIRST, "--json"])
    checks = json.loads(capsys.readouterr().out)["checks"]
    if any(c["verdict"] == "fails" for c in checks):
        assert code == 1


@pytest.mark.parametrize("words", [["escape", "nowhere"], ["escape", FIRST, "--blocked", "no such hatch"], ["escape"]])
def test_wrong_input_is_exit_code_2(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """A missing station and an unknown spot are wrong input and leave standard output empty."""
    assert main(words) == 2
    said = capsys.readouterr()
    assert said.err
    assert not said.out


def test_a_station_without_the_part_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Without people, ladders and limits nothing is checked, and the screen says why."""
    text = (EXAMPLES / "first" / "station.yaml").read_text(encoding="utf-8")
    kept, skip = [], False
    for line in text.splitlines():
        if line and not line[0].isspace() and not line.startswith("#"):
            skip = line.startswith(("escape:", "fire:", "air:"))
        if not skip:
            kept.append(line)
    (tmp_path / "station.yaml").write_text("\n".join(kept) + "\n", encoding="utf-8")
    (tmp_path / "density.csv").write_bytes((EXAMPLES / "first" / "density.csv").read_bytes())
    assert main(["escape", str(tmp_path)]) == 0
    assert "Not checked" in capsys.readouterr().out


def test_machine_readable_form_holds_siting_and_blocking(capsys: pytest.CaptureFixture[str]) -> None:
    """`--json` gives checks, result and what else was asked for."""
    main(["escape", FIRST, "--json", "--siting", "--pairs", "--blocked", "North 1 hatch"])
    found = json.loads(capsys.readouterr().out)
    assert set(found["results"]) == {"escape", "blocked", "siting"}
    assert found["results"]["escape"]["pairs"]["pairs"] > 0
    assert found["results"]["siting"]["count"] <= found["results"]["siting"]["present"]
    assert found["results"]["blocked"]["exits"] == ["North 1 hatch"]


def test_siting_prints_what_one_hatch_fewer_costs(capsys: pytest.CaptureFixture[str]) -> None:
    """The fewest hatches are printed beside those of the file."""
    main(["escape", FIRST, "--siting"])
    said = " ".join(capsys.readouterr().out.split())
    assert "Fewest hatches" in said
    assert "One hatch fewer" in said


def test_a_blocked_exit_is_used_by_nobody_and_shortens_no_walk(full: StationFile) -> None:
    """Nobody leaves by the blocked exit, and no way becomes shorter."""
    for name in ("Main hatch 2", "West portal", "North 7 at 34.4 m"):
        found = escape.blocked(full.station, name.upper())
        assert found.rooms
        assert all(room.exit not in found.exits for room in found.rooms.values())
        assert all(room.length >= room.open_length - 1e-9 for room in found.rooms.values())


def test_a_blocked_spot_agrees_with_the_study(full: StationFile) -> None:
    """Each building's worst spot, blocked by name, gives the walk that the study found."""
    result = escape.study(full.station).result
    for name in ("Hut 4", "Mess", "Workshop"):
        row = result.buildings[name]
        found = escape.blocked(full.station, row.worst).rooms[name]
        assert math.isclose(found.length, row.worst_distance)


def test_an_unknown_spot_names_the_nearest(full: StationFile) -> None:
    """The error offers a name that is meant."""
    with pytest.raises(NoSuchPlace, match="North 7 hatch"):
        escape.blocked(full.station, "Nroth 7 hatch")


def test_a_way_of_the_fire_study_is_told_by_its_exit(full: StationFile) -> None:
    """The fire study numbers the ways of a building; readers are told where they lead."""
    result = as_plain(escape.study(full.station).result)
    for name, room in result["buildings"].items():
        for number, route in enumerate(room["routes"], 1):
            assert escape_rows.route_of_way(result, name, f"way {number}") == route
            assert route["exit"] in escape_rows.way_words(result, name, f"way {number}")
    assert escape_rows.way_words(result, "Mess", "way 99") == "way 99"
    assert escape_rows.way_words(None, "Mess", "over the top") == "over the top"


def _changed(tmp_path: Path, cut: str) -> StationFile:
    """The small example without one part of its file."""
    text = (EXAMPLES / "first" / "station.yaml").read_text(encoding="utf-8")
    left, found = re.subn(cut, "", text)
    assert found == 1
    (tmp_path / "station.yaml").write_text(left, encoding="utf-8")
    (tmp_path / "density.csv").write_bytes((EXAMPLES / "first" / "density.csv").read_bytes())
    return read_station(tmp_path)


def test_a_ladder_without_a_trial_gives_no_time(tmp_path: Path) -> None:
    """Where a way leads up a ladder that was never measured no time of another way stands in for it."""
    study = escape.study(_changed(tmp_path, r"\n  ladders:.*(\n    .*)*").station)
    plain = as_plain(study.result)
    slow = escape_rows.slowest(plain, "North 1")
    assert slow is not None
    assert slow.needed is None
    assert slow.why_not
    assert all(row["needed"] == "not known" for row in escape_rows.room_rows(plain) if row["people"])


def test_who_is_cut_off_is_worse_than_any_time(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Without the hatch the one way out decides: cut off, no time, and exit code 1."""
    file = _changed(tmp_path, r"\nhatches:.*(\n  .*)*")
    plain = as_plain(escape.study(file.station).result)
    slow = escape_rows.slowest(plain, "North 1")
    assert slow is not None
    assert slow.needed is None
    assert "cut off" in slow.words()
    assert all(row["left"] == "cut off" for row in escape_rows.room_rows(plain) if row["people"])
    assert {row[7] for row in escape_rows.hour_rows(plain)} == {"cut off"}
    assert main(["escape", str(tmp_path)]) == 1
    assert "cut off" in capsys.readouterr().out


def test_worst_places_come_first(full: StationFile) -> None:
    """Places are sorted by the share of the limit that they use; what fails stands before what holds."""
    study = escape.study(full.station)
    found = escape_rows.place_rows(as_plain(study.result), as_plain(study.checks))
    shares = [row.check["ratio"] for row in found if row.check is not None]
    assert shares == sorted(shares, reverse=True)
    rooms = escape_rows.room_rows(as_plain(study.result))
    lengths = [row["left_length"] for row in rooms if not row["cut_off"]]
    assert lengths == sorted(lengths, reverse=True)
    assert {row["room"] for row in rooms} == set(study.result.buildings)
