"""The report folder: whole or not at all, and never over somebody else's files."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from firnstead.core.errors import OutputError
from firnstead.reports.write import CONTENTS, File, write_folder


def files(*names: str, text: str = "x") -> list[File]:
    """Files with the given names."""
    return [(name, f"about {name}", text.encode()) for name in names]


def tree(folder: Path) -> dict[str, bytes]:
    """Name and bytes of everything below a folder."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def broken(error: BaseException) -> Iterator[File]:
    """Files of which the second cannot be made."""
    yield from files("one.txt", text="new")
    raise error


def test_a_new_folder_holds_the_files_and_their_list(tmp_path: Path) -> None:
    """Every file is listed with its hash, and nothing is left beside the folder."""
    told = write_folder(tmp_path / "deep" / "out", files("a.txt", "drawings/plan.svg"), "Test")
    assert [name for name, _ in told] == ["a.txt", "drawings/plan.svg", CONTENTS]
    assert set(tree(tmp_path / "deep" / "out")) == {"a.txt", "drawings/plan.svg", CONTENTS}
    assert os.listdir(tmp_path / "deep") == ["out"]


def test_a_former_report_is_replaced_whole(tmp_path: Path) -> None:
    """Files that the new report does not have are gone."""
    write_folder(tmp_path / "out", files("a.txt", "drawings/old.svg"), "First")
    write_folder(tmp_path / "out", files("a.txt", text="new"), "Second")
    assert set(tree(tmp_path / "out")) == {"a.txt", CONTENTS}
    assert (tmp_path / "out" / "a.txt").read_text() == "new"
    assert os.listdir(tmp_path) == ["out"]


@pytest.mark.parametrize("error", [RuntimeError("typesetting"), OSError(28, "No space left"), KeyboardInterrupt()])
def test_a_failure_in_the_middle_leaves_the_former_folder_untouched(tmp_path: Path, error: BaseException) -> None:
    """Whatever breaks while files are made, the old report is still there and nothing else is."""
    write_folder(tmp_path / "out", files("one.txt", "two.txt", text="old"), "First")
    before = tree(tmp_path / "out")
    with pytest.raises(OutputError if isinstance(error, OSError) else type(error)):
        write_folder(tmp_path / "out", broken(error), "Second")
    assert tree(tmp_path / "out") == before
    assert os.listdir(tmp_path) == ["out"]


def test_a_failure_before_anything_was_there_leaves_nothing(tmp_path: Path) -> None:
    """No partial folder appears."""
    with pytest.raises(RuntimeError):
        write_folder(tmp_path / "out", broken(RuntimeError()), "First")
    assert os.listdir(tmp_path) == []


def test_a_failing_swap_puts_the_former_folder_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the new folder cannot be moved in, the old one returns to its place."""
    write_folder(tmp_path / "out", files("a.txt", text="old"), "First")
    real, calls = os.replace, []

    def replace(old: Path, new: Path) -> None:
        calls.append(new)
        if len(calls) == 2:
            raise OSError(5, "Input/output error")
        real(old, new)

    monkeypatch.setattr(os, "replace", replace)
    with pytest.raises(OutputError, match="Input/output error"):
        write_folder(tmp_path / "out", files("a.txt", text="new"), "Second")
    assert (tmp_path / "out" / "a.txt").read_text() == "old"
    assert os.listdir(tmp_path) == ["out"]


def test_a_folder_of_somebody_else_is_refused(tmp_path: Path) -> None:
    """A folder with files but without our list is not touched."""
    (tmp_path / "thesis.txt").write_text("mine")
    with pytest.raises(OutputError, match="not a former report"):
        write_folder(tmp_path, files("a.txt"), "Test")
    assert tree(tmp_path) == {"thesis.txt": b"mine"}


def test_a_former_report_with_other_files_in_it_is_refused(tmp_path: Path) -> None:
    """Notes that somebody laid into the folder are not thrown away."""
    write_folder(tmp_path / "out", files("a.txt"), "First")
    (tmp_path / "out" / "notes.txt").write_text("mine")
    with pytest.raises(OutputError, match=r"notes\.txt"):
        write_folder(tmp_path / "out", files("a.txt"), "Second")
    assert (tmp_path / "out" / "notes.txt").read_text() == "mine"


def test_a_file_in_the_place_of_the_folder_is_refused(tmp_path: Path) -> None:
    """A file is never replaced by a folder."""
    (tmp_path / "out").write_text("mine")
    with pytest.raises(OutputError, match="not a folder"):
        write_folder(tmp_path / "out", files("a.txt"), "Test")
    assert (tmp_path / "out").read_text() == "mine"


def test_an_empty_folder_may_be_used(tmp_path: Path) -> None:
    """An empty folder, even with a file manager's litter in it, is free."""
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / ".DS_Store").write_text("")
    write_folder(tmp_path / "out", files("a.txt"), "Test")
    assert set(tree(tmp_path / "out")) == {"a.txt", CONTENTS}


def test_a_link_to_a_folder_stays_a_link(tmp_path: Path) -> None:
    """The folder behind the link is written, the link itself stays."""
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    write_folder(tmp_path / "link", files("a.txt"), "Test")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real" / "a.txt").exists()
