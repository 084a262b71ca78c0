"""Published values as data: reading the cases, working them out, comparing. The format is told in CONTRIBUTING.md."""

from __future__ import annotations

import inspect
import tomllib
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any

import numpy as np

FOLDER = Path(__file__).parent
NEEDED = {"name", "call", "args", "expected", "why", "source", "place", "obtained"}
ALLOWED = NEEDED | {"pick", "scale", "tolerance", "tolerance_abs"}


@dataclass(frozen=True)
class Case:
    """One published value: what is called with what, what the publication says, and how near we must come."""

    file: str
    line: int
    row: dict[str, Any]

    @property
    def name(self) -> str:
        """The unique name."""
        return str(self.row.get("name", "(no name)"))

    @property
    def where(self) -> str:
        """File and line, for messages."""
        return f"tests/published/{self.file}:{self.line} ({self.name})"

    @property
    def expected(self) -> Any:
        """The published value in SI."""
        value = self.row["expected"]
        return value if isinstance(value, (str, bool)) else np.asarray(value, dtype=float) * self.row.get("scale", 1.0)

    def ours(self) -> Any:
        """The value that our code gives."""
        module, _, function = self.row["call"].partition(":")
        called = getattr(import_module(module), function)
        result = called(**_arguments(called, self.row["args"]))
        for step in filter(None, str(self.row.get("pick", "")).split(".")):
            result = _picked(result, step)
        return result

    def allowed_difference(self) -> Any:
        """The largest difference (SI) that the case allows."""
        if "tolerance_abs" in self.row:
            return self.row["tolerance_abs"] * self.row.get("scale", 1.0)
        return self.row["tolerance"] * np.abs(self.expected)

    def agrees(self, ours: Any) -> bool:
        """Whether our value is as near as the case asks."""
        if isinstance(self.expected, (str, bool)):
            return bool(ours == self.expected)
        return bool(np.all(np.abs(np.asarray(ours, dtype=float) - self.expected) <= self.allowed_difference()))


def _arguments(called: Any, args: dict[str, Any]) -> dict[str, Any]:
    """Lists become arrays where the parameter's annotation says array; TOML has no arrays of its own."""
    hints = {name: str(parameter.annotation) for name, parameter in inspect.signature(called).parameters.items()}
    return {
        name: np.asarray(value, dtype=float) if isinstance(value, list) and "rray" in hints.get(name, "") else value
        for name, value in args.items()
    }


def _picked(result: Any, step: str) -> Any:
    """One step of `pick`: a number is an index, a word an attribute or a key."""
    if step.lstrip("-").isdigit():
        return result[int(step)]
    return result[step] if isinstance(result, dict) else getattr(result, step)


def cases() -> list[Case]:
    """All cases of all files, in the order of the files."""
    found = []
    for file in sorted(FOLDER.glob("*.toml")):
        text = file.read_text(encoding="utf-8")
        lines = [number for number, line in enumerate(text.splitlines(), 1) if line.strip() == "[[case]]"]
        rows = tomllib.loads(text).get("case", [])
        found += [Case(file.name, line, row) for line, row in zip(lines, rows, strict=True)]
    return found
