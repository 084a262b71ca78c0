"""Read a station file: text in, a whole `Station` or every problem of the file out."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path

from pydantic import ValidationError

from firnstead.core.errors import InputError, Problem
from firnstead.station import consistency, csv_layers
from firnstead.station.lines import load_yaml
from firnstead.station.model import Station
from firnstead.station.partial import sound_part
from firnstead.station.problems import problem_of

MAX_BYTES = 4_000_000


@dataclass(frozen=True)
class StationFile:
    """A station that was read, with the text it came from."""

    path: Path
    text: str
    station: Station
    digest: str
    """SHA-256 over the station file and the data files it names."""

    @property
    def version(self) -> str:
        """The first twelve digits of the digest, as printed on every sheet."""
        return self.digest[:12]


def read_station(path: Path | str) -> StationFile:
    """Read a station file, or a folder that holds `station.yaml`.

    Raises InputError with every problem found.
    """
    path = Path(path)
    if path.is_dir():
        path = path / "station.yaml"
    return parse_station(_text(path), path)


def parse_station(text: str, path: Path | str = "station.yaml") -> StationFile:
    """Read a station from its text; `path` is used for messages and to find the data files beside it."""
    path = Path(path)
    lines = load_yaml(text, path.name)
    data, found, data_text = csv_layers.put_in(lines.plain(), path, lines)
    problems: list[Problem] = list(found)
    station: Station | None = None
    try:
        station = Station.model_validate(data)
    except ValidationError as error:
        errors = error.errors(include_url=False)
        problems += [problem_of(e, lines) for e in errors]
        sound, left_out = sound_part(data, [e["loc"] for e in errors])
        problems += consistency.problems(sound, lines, left_out)
    else:
        problems += consistency.problems(station, lines)
    if problems or station is None:
        raise InputError(problems)
    digest = hashlib.sha256((text + "\0" + data_text).encode()).hexdigest()
    return StationFile(path, text, station, digest)


def _text(path: Path) -> str:
    name = path.name
    try:
        if path.stat().st_size > MAX_BYTES:
            raise InputError(
                [Problem(name, 1, "", "the file is larger than 4 MB", "A station file is a few thousand lines of text")]
            )
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = path.read_bytes()[: error.start].count(b"\n") + 1
        raise InputError([Problem(name, line, "", "the file is not UTF-8 text", "Save it as UTF-8")]) from None
    except OSError as error:
        reason = error.strerror or "unknown reason"
        cure = "Give the path of a station.yaml, or run `firnstead new DIR` to make one"
        raise InputError([Problem(str(path), 1, "", f"the file cannot be read ({reason})", cure)]) from None
