"""Finished marches on disk, by content: long work is done once, and an interrupted run leaves whole files only."""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from collections.abc import Callable, Mapping
from dataclasses import asdict
from functools import cache
from importlib.resources import files
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np

from firnstead.closure.results import Softness
from firnstead.closure.spec import EXPECTED, Spec
from firnstead.closure.trace import Trace
from firnstead.core.errors import OutputError
from firnstead.snow import SnowResult
from firnstead.station import Station

FOLDER = ".firnstead"
READERS = ("study", "results", "forecast", "band", "readings")  # modules that only read what was marched
ROWS = ("dates", "lines", "heave", "sag", "shoulder", "inward")


class KeptYears:
    """The folder beside a station file that holds its marches. Nothing is written before something is kept."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._read: dict[str, dict[str, Trace] | None] = {}

    def softness(self, station: Station, snow: SnowResult) -> Softness | None:
        """The site's k, if it has been worked out for this site and snow."""
        try:
            found: dict[str, Any] = json.loads(self._softness_file(station).read_text(encoding="utf-8"))
            rows = (tuple(map(float, found[name])) for name in ("exponents", "k", "misfit"))
            numbers = (float(found[name]) for name in ("k_lighter", "k_denser", "top", "bottom"))
            return Softness(*rows, *numbers)  # type: ignore[arg-type]  # their order is that of the fields
        except (OSError, ValueError, TypeError, KeyError):
            return None

    def keep_softness(self, station: Station, found: Softness) -> None:
        """Keep the site's k."""
        self._write(self._softness_file(station), lambda file: file.write(json.dumps(asdict(found)).encode()))

    def family(self, specs: Mapping[str, Spec]) -> dict[str, Trace] | None:
        """All marches of a section, if they have been worked out; a damaged file counts as not there."""
        name = _digest(specs)
        if name not in self._read:
            self._read[name] = self._load(name, specs)
        return self._read[name]

    def keep_family(self, specs: Mapping[str, Spec], traces: Mapping[str, Trace]) -> None:
        """Keep all marches of a section in one file."""
        packed: dict[str, Any] = {}
        for index, name in enumerate(specs):
            trace = traces[name]
            packed |= {f"{index}.{row}": getattr(trace, row) for row in ROWS}
            packed[f"{index}.end"] = np.array(trace.end)
            packed[f"{index}.note"] = np.array(trace.note)
        name = _digest(specs)
        self._write(self._folder / f"{name}.npz", lambda file: np.savez_compressed(file, **packed))
        self._read[name] = dict(traces)

    def _load(self, name: str, specs: Mapping[str, Spec]) -> dict[str, Trace] | None:
        try:
            whole = BytesIO((self._folder / f"{name}.npz").read_bytes())
            with np.load(whole, allow_pickle=False) as packed:
                return {
                    march: Trace(**{row: packed[f"{i}.{row}"] for row in ROWS}, end=float(packed[f"{i}.end"]),
                                 note=str(packed[f"{i}.note"]))
                    for i, march in enumerate(specs)
                }  # fmt: skip
        except Exception:  # noqa: BLE001 - whatever is wrong with a kept file, it can be worked out again
            return None

    def _softness_file(self, station: Station) -> Path:
        text = f"{_code()}{station.site!r}{station.snow!r}{station.design.life!r}"
        return self._folder / f"k-{hashlib.sha256(text.encode()).hexdigest()[:24]}.json"

    def _write(self, target: Path, put: Callable[[Any], Any]) -> None:
        """Write beside the target and move: a stopped run leaves no half file."""
        try:
            if not self._folder.is_dir():
                self._folder.mkdir(parents=True)
                (self._folder / ".gitignore").write_text("*\n", encoding="utf-8")
            handle, temporary = tempfile.mkstemp(dir=self._folder, prefix=".part-")
            try:
                with os.fdopen(handle, "wb") as file:
                    put(file)
                os.replace(temporary, target)
            except BaseException:
                Path(temporary).unlink(missing_ok=True)
                raise
        except OSError as error:
            raise OutputError(
                f"{self._folder} cannot be written ({error.strerror}), so the years cannot be kept. "
                "Copy the station to a folder you may write to") from None  # fmt: skip


def beside(path: Path) -> KeptYears:
    """The kept years of a station file or folder."""
    folder = path if path.is_dir() else path.parent
    return KeptYears(folder / FOLDER)


def _digest(specs: Mapping[str, Spec]) -> str:
    text = _code() + ";".join(f"{name}:{spec.digest()}" for name, spec in specs.items()) + specs[EXPECTED].digest()
    return hashlib.sha256(text.encode()).hexdigest()[:24]


@cache
def _code() -> str:
    """Digest of the mechanics themselves: another version of the code works out its own marches."""
    found = hashlib.sha256()
    for package in ("firnstead.closure", "firnstead.snow"):
        for file in sorted(files(package).iterdir(), key=lambda each: each.name):
            if file.name.endswith(".py") and not file.name.startswith(READERS):
                found.update(file.read_bytes())
    return found.hexdigest()
