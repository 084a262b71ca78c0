"""Write a report folder whole or not at all: made beside its place, then swapped in."""

from __future__ import annotations

import hashlib
import os
import secrets
import shutil
from collections.abc import Iterable
from pathlib import Path

from firnstead.core.errors import OutputError

CONTENTS = "CONTENTS.txt"
MARK = "Firnstead report"
_LITTER = {".DS_Store", "Thumbs.db", "desktop.ini"}  # what file managers leave behind

File = tuple[str, str, bytes]
"""Name within the folder (with /), what it is in one line, its bytes."""


def write_folder(target: Path | str, files: Iterable[File], about: str) -> list[tuple[str, str]]:
    """Write files into `target`, replacing a former report; give each name with its line.

    `files` may be made while they are written: whatever goes wrong, the former folder stays as it was.
    """
    target = Path(target).expanduser().resolve()
    _refuse_foreign(target)
    beside = target.parent / f".{target.name}.{secrets.token_hex(4)}.new"
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        beside.mkdir()
        written = _fill(beside, files, about)
        _swap(beside, target)
    except OSError as error:
        reason = error.strerror or type(error).__name__
        raise OutputError(f"{target.name} could not be written ({reason}). Nothing was changed; "
                          "choose a folder that you may write to, on a disk with room") from error  # fmt: skip
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    return written


def _fill(folder: Path, files: Iterable[File], about: str) -> list[tuple[str, str]]:
    written, lines = [], []
    for name, what, data in files:
        path = folder.joinpath(*name.split("/"))
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
        written.append((name, what))
        lines.append(f"{hashlib.sha256(data).hexdigest()}  {name}\n    {what}\n")
    head = f"{MARK}: {about}\nThis folder is replaced whole by the next report.\n\n"
    (folder / CONTENTS).write_text(head + "".join(lines), encoding="utf-8")
    return [*written, (CONTENTS, "list of these files with their SHA-256")]


def _refuse_foreign(target: Path) -> None:
    """Only an empty folder or a former report with nothing else in it may be replaced."""
    if not target.exists() and not target.is_symlink():
        return
    if not target.is_dir():
        raise OutputError(f"{target.name} is there already and is not a folder. Choose another; nothing was written")
    found = {p.relative_to(target).as_posix() for p in target.rglob("*") if not p.is_dir() or p.is_symlink()}
    found = {name for name in found if name.rpartition("/")[2] not in _LITTER}
    if not found:
        return
    listed = _listed(target / CONTENTS)
    if listed is None:
        raise OutputError(
            f"{target.name} is not empty and not a former report. Choose another folder; nothing was written"
        )
    if strange := sorted(found - listed - {CONTENTS}):
        raise OutputError(f"{target.name} holds files that no former report wrote ({', '.join(strange[:3])}). "
                          "Move them away or choose another folder; nothing was written")  # fmt: skip


def _listed(contents: Path) -> set[str] | None:
    """Names in a former report's list; None where there is no such list."""
    try:
        lines = contents.read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return None
    if not lines or not lines[0].startswith(f"{MARK}: "):
        return None
    return {line[66:] for line in lines[3:] if line[64:66] == "  " and not line.startswith(" ")}


def _swap(made: Path, target: Path) -> None:
    """Put `made` in the place of `target`; if that fails the former folder is put back."""
    if not target.exists():
        os.replace(made, target)
        return
    former = target.parent / f".{target.name}.{secrets.token_hex(4)}.old"
    os.replace(target, former)
    try:
        os.replace(made, target)
    except BaseException:
        os.replace(former, target)
        raise
    shutil.rmtree(former, ignore_errors=True)
