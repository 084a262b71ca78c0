"""The commands: exit codes, what is printed, what is written."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from firnstead.cli import main
from firnstead.core.cautions import CAUTIONS
from firnstead.station import StationFile, parse_station

EXAMPLES = Path(__file__).resolve().parents[2] / "examples" / "stations"


def test_new_writes_a_station_that_can_be_checked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What `new` writes is read without a problem, and `check` answers it."""
    assert main(["new", str(tmp_path / "a" / "b")]) == 0
    assert main(["check", str(tmp_path / "a" / "b")]) in (0, 1)
    said = capsys.readouterr().out
    assert "North 1" in said
    assert all(caution in " ".join(said.split()) for caution in CAUTIONS)


def test_new_never_overwrites(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder with something in it is left as it is, with exit code 2."""
    (tmp_path / "station.yaml").write_text("mine", encoding="utf-8")
    assert main(["new", str(tmp_path)]) == 2
    assert (tmp_path / "station.yaml").read_text(encoding="utf-8") == "mine"
    assert str(tmp_path) in capsys.readouterr().err


def test_nothing_fails_in_the_full_example(capsys: pytest.CaptureFixture[str]) -> None:
    """The full example is a sound design: exit code 0; with --strict what is not checked counts as failing."""
    assert main(["check", str(EXAMPLES / "full")]) == 0
    assert main(["check", str(EXAMPLES / "full"), "--strict"]) == 1
    assert "fails" in capsys.readouterr().out


def test_json_of_check_is_the_contract(capsys: pytest.CaptureFixture[str]) -> None:
    """`check --json` gives station, checks, results and work items, and each check its ten fields."""
    main(["check", str(EXAMPLES / "full"), "--json"])
    document = json.loads(capsys.readouterr().out)
    assert set(document) == {"station", "checks", "results", "work_items"}
    wanted = {"subject", "question", "demand", "limit", "unit", "ratio", "verdict", "working", "sources", "caution"}
    assert all(wanted <= set(check) for check in document["checks"])
    assert {c["verdict"] for c in document["checks"]} <= {"holds", "close", "fails", "not checked"}
    assert all(c["sources"] for c in document["checks"] if c["verdict"] != "not checked")


def test_explain_shows_every_step_and_its_source(capsys: pytest.CaptureFixture[str]) -> None:
    """The working on screen has the checks that --json has, with formulas, numbers and sources."""
    assert main(["explain", str(EXAMPLES / "full"), "north 2", "roof", "--json"]) == 0
    checks = json.loads(capsys.readouterr().out)["checks"]
    assert main(["explain", str(EXAMPLES / "full"), "North 2", "roof"]) == 0
    said = capsys.readouterr().out
    assert checks
    assert all(c["question"] in said for c in checks)
    for c in checks:
        assert all(s.split(",")[0] in said for s in c["sources"])


@pytest.mark.parametrize(
    "words",
    [
        ["explain", "full", "North 99"],
        ["explain", "full", "North 2", "cooking"],
        ["check", "full", "--place", "nowhere"],
        ["check", "missing"],
        ["check"],
        ["frobnicate"],
        ["check", "full", "--frob"],
        ["report", "full"],
    ],
)
def test_wrong_words_give_code_2_and_one_clear_line(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """A place, discipline, command or option that is not there is said in words."""
    command, *rest = words
    given = [command, *(str(EXAMPLES / w) if w in ("full", "missing") else w for w in rest)]
    assert main(given) == 2
    said = capsys.readouterr()
    assert said.err.strip()
    assert "Traceback" not in said.err + said.out


def test_wrong_input_writes_nothing(first: StationFile, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A report of a file with mistakes gives code 2, every line, and no folder."""
    (tmp_path / "station.yaml").write_text(first.text.replace("life: 10 yr", "life: 10"), encoding="utf-8")
    (tmp_path / "density.csv").write_text(
        (first.path.parent / "density.csv").read_text(encoding="utf-8"), encoding="utf-8"
    )
    assert main(["report", str(tmp_path), "--out", str(tmp_path / "out")]) == 2
    assert "station.yaml:" in capsys.readouterr().err
    assert sorted(p.name for p in tmp_path.iterdir()) == ["density.csv", "station.yaml"]


def test_something_that_fails_gives_code_1(first: StationFile, tmp_path: Path) -> None:
    """Three metres of cover on a thin arch is found."""
    heavy = (
        first.text.replace("    cover: 0.75 m", "    cover: 5 m")
        .replace("gauge: 5", "gauge: 18")
        .replace("profile: 6x2", "profile: 2.67x0.5")
    )
    assert parse_station(heavy, first.path)
    (tmp_path / "station.yaml").write_text(heavy, encoding="utf-8")
    (tmp_path / "density.csv").write_text(
        (first.path.parent / "density.csv").read_text(encoding="utf-8"), encoding="utf-8"
    )
    assert main(["check", str(tmp_path)]) == 1


def test_a_closed_pipe_is_no_error() -> None:
    """`firnstead check ... --json | head` ends quietly."""
    command = f"'{sys.executable}' -m firnstead check '{EXAMPLES / 'first'}' --json | head -2"
    done = subprocess.run(["sh", "-c", command], capture_output=True, text=True, check=False)
    assert done.returncode == 0
    assert "Traceback" not in done.stderr
