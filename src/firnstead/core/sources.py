"""The one list of publications (`sources.toml`): every key used anywhere is looked up here."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from firnstead.core.errors import UnknownSource

OBTAINED = (
    "read",
    "abstract read",
    "read second-hand",
    "from memory, unchecked",
    "from memory, reproduced by computation",
    "computed",
    "common practice (no source)",
    "own rule",
)


@dataclass(frozen=True)
class Source:
    """One publication: key, authors, year, title or report number, publisher, how it was obtained."""

    key: str
    authors: str
    year: int | None
    title: str
    publisher: str
    obtained: str

    def citation(self) -> str:
        """One line for a list of sources."""
        year = f" {self.year}" if self.year else ""
        publisher = f". {self.publisher}" if self.publisher else ""
        return f"{self.authors}{year}: {self.title}{publisher} [{self.obtained}]"


@cache
def sources() -> dict[str, Source]:
    """All sources by key."""
    text = files("firnstead.core").joinpath("sources.toml").read_text(encoding="utf-8")
    return {
        key: Source(key, row["authors"], row.get("year"), row["title"], row.get("publisher", ""), row["obtained"])
        for key, row in tomllib.loads(text).items()
    }


def source(reference: str) -> Source:
    """Look up a reference such as ``herron_langway_1980, eq. 7`` (key, then the place in it)."""
    key = reference.split(",")[0].strip()
    try:
        return sources()[key]
    except KeyError:
        raise UnknownSource(f"the source {key!r} is not in core/sources.toml") from None
