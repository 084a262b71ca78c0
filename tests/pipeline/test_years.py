"""The years on disk: worked out once, kept by content, whole or not at all."""

import shutil
from pathlib import Path

import pytest

from conftest import EXAMPLES
from firnstead.cli.app import run
from firnstead.closure import study_spec, trace
from firnstead.core.errors import OutputError
from firnstead.core.results import Verdict
from firnstead.pipeline import assess
from firnstead.pipeline.kept import FOLDER, beside
from firnstead.pipeline.years import work_out_years
from firnstead.station import read_station


@pytest.fixture
def station(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the first station, to be marched coarsely."""
    monkeypatch.setattr(study_spec, "SIZE", 1.0)
    monkeypatch.setattr(study_spec, "years_ahead", lambda station: 2.0)
    return Path(shutil.copytree(EXAMPLES / "first", tmp_path / "station", ignore=shutil.ignore_patterns(FOLDER)))


def test_worked_out_once_and_read_back(station: Path) -> None:
    """The first run marches and answers; the next finds everything there; another reader sees the same answers."""
    file, kept = read_station(station), beside(station)
    told: list[tuple[int, int]] = []
    done = work_out_years(file, kept, progress=lambda *counts: told.append(counts))
    assert done.sections == 1
    assert told[0] == (0, done.marched)
    assert told[-1] == (done.marched, done.marched)
    again = beside(station)
    assert work_out_years(file, again).marched == 0
    made, other = assess(file, kept=kept), assess(file, kept=again)
    assert made.checks == other.checks
    assert Verdict.NOT_CHECKED not in {c.verdict for c in made.studies["closure"].checks}
    assert made.results["roof"].places["North 1"].moving is not None
    answered = {c.verdict for c in made.checks if c.key == "foundation.floor_gap"}
    assert Verdict.NOT_CHECKED not in answered


def test_a_stopped_run_leaves_whole_files_only(station: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C in the middle of a section leaves nothing of it, and the next run finishes."""
    real, count = trace.trace_of, iter(range(100))

    def stopped(*given):
        if next(count) == 5:
            raise KeyboardInterrupt
        return real(*given)

    monkeypatch.setattr(trace, "trace_of", stopped)
    assert run(["years", str(station)]) == 130
    assert [f.name for f in (station / FOLDER).iterdir() if f.suffix == ".npz" or f.name.startswith(".part")] == []
    monkeypatch.setattr(trace, "trace_of", real)
    assert run(["years", str(station)]) == 0


def test_a_stopped_write_leaves_no_part(station: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Even while a file is being written nothing half remains."""
    import numpy as np

    def broken(file, **_):
        file.write(b"half")
        raise KeyboardInterrupt

    monkeypatch.setattr(np, "savez_compressed", broken)
    with pytest.raises(KeyboardInterrupt):
        work_out_years(read_station(station), beside(station))
    assert not [f for f in (station / FOLDER).iterdir() if f.name.startswith(".part") or f.suffix == ".npz"]


def test_damaged_files_are_worked_out_again(station: Path) -> None:
    """A kept file that cannot be read counts as not there."""
    file = read_station(station)
    work_out_years(file, beside(station))
    (kept,) = (station / FOLDER).glob("*.npz")
    kept.write_bytes(kept.read_bytes()[:100])
    (soft,) = (station / FOLDER).glob("k-*.json")
    soft.write_text("{}")
    assert beside(station).softness(file.station, None) is None  # type: ignore[arg-type]
    assert work_out_years(file, beside(station)).marched > 0


def test_an_edit_that_does_not_touch_the_snow_keeps_the_years(station: Path) -> None:
    """Another clearance is read off the same marches; another depth needs its own."""
    work_out_years(read_station(station), beside(station))
    text = (station / "station.yaml").read_text()
    (station / "station.yaml").write_text(text.replace("clearance: 0.3 m", "clearance: 0.25 m"))
    assert work_out_years(read_station(station), beside(station)).marched == 0
    assert "depth: 6.2 m" in text
    (station / "station.yaml").write_text(text.replace("depth: 6.2 m", "depth: 6.4 m"))
    made = assess(read_station(station), kept=beside(station))
    assert {c.verdict for c in made.studies["closure"].checks} == {Verdict.NOT_CHECKED}


def test_folder_that_cannot_be_written_says_so(station: Path) -> None:
    """A file where the folder should be gives one sentence, not a traceback."""
    (station / FOLDER).write_text("in the way")
    with pytest.raises(OutputError, match="cannot be written"):
        work_out_years(read_station(station), beside(station))


def test_command_prints_a_table_and_json(station: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """People get one line for each place, programs the results."""
    import json

    assert run(["years", str(station)]) == 0
    assert "North 1" in capsys.readouterr().out
    assert run(["years", str(station), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["closure"]["places"]["North 1"]["forecast"]["dates"][0] == 0.0
    assert run(["explain", str(station), "North 1", "closure"]) == 0
    assert "k_1" in capsys.readouterr().out
