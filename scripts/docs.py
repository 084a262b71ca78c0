"""Write the generated pages of docs/, or with --check say which are out of date (exit code 1)."""

from __future__ import annotations

import os
import subprocess
import sys
import typing
from collections.abc import Iterable
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT / "src"), str(ROOT / "tests")]

from pydantic import BaseModel  # noqa: E402

from firnstead.core.sources import OBTAINED, sources  # noqa: E402
from firnstead.core.units import UNITS, number_text, show  # noqa: E402
from firnstead.station.model import Station  # noqa: E402
from firnstead.station.problems import unit_of_field  # noqa: E402

MADE = "<!-- made by scripts/docs.py; do not edit -->\n\n"
COMMANDS = ("", "new", "check", "explain", "years", "escape", "report")


def models_in(annotation: Any) -> list[type[BaseModel]]:
    """All parts of the station file inside an annotation."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [m for part in typing.get_args(annotation) for m in models_in(part)]


def _row(cells: Iterable[str]) -> str:
    return "| " + " | ".join(cells) + " |"


def _default(info: Any, unit: str) -> str:
    if info.is_required():
        return "needed"
    if info.default is None or info.default in ((), {}, ""):
        return "may be left out"
    text = show(info.default, unit, digits=4) if unit and isinstance(info.default, (int, float)) else str(info.default)
    mark = (info.json_schema_extra or {}).get("mark", "")
    return f"{text} ({mark})" if mark else text


def _limits(info: Any, unit: str) -> str:
    found = []
    for part in info.metadata:
        for name, word in (("ge", "at least"), ("gt", "more than"), ("le", "at most"), ("lt", "less than")):
            bound = getattr(part, name, None)
            if bound is not None:
                found.append(f"{word} {show(float(bound), unit) if unit else number_text(float(bound))}")
    return ", ".join(found)


def _kind(info: Any, unit: str) -> str:
    if unit:
        units = [name for name, u in UNITS.items() if u.kind == ("K" if unit == "dK" else unit)]
        return "share (0.15 or 15 %)" if unit == "1" else ", ".join(units[:6])
    words = [repr(v) for v in typing.get_args(info.annotation) if isinstance(v, (str, int)) and not isinstance(v, bool)]
    if words:
        return "one of " + ", ".join(words)
    inner = models_in(info.annotation)
    if inner:
        many = typing.get_origin(info.annotation) is dict
        return ("names, each a " if many else "") + " or ".join(m.__name__ for m in inner)
    text = str(info.annotation)
    return "number" if "int" in text else "true or false" if "bool" in text else "date" if "date" in text else "text"


def field_table() -> str:
    """The field table of the station file."""
    pages, seen, waiting = [], set(), [Station]
    while waiting:
        model = waiting.pop(0)
        if model in seen:
            continue
        seen.add(model)
        rows = []
        for name, info in model.model_fields.items():
            unit = unit_of_field(info)
            cells = (f"`{name}`", info.description or "", _kind(info, unit), _limits(info, unit), _default(info, unit))
            rows.append(_row(cells))
            waiting += [m for m in models_in(info.annotation) if m not in seen]
        title = "The file" if model is Station else model.__name__
        pages.append(f"## {title}\n{(model.__doc__ or '').strip()}\n\n"
                     "| field | what it is | written as | limits | default (source key) |\n|---|---|---|---|---|\n"
                     + "\n".join(rows) + "\n")  # fmt: skip
    return f"# Fields of the station file\n\n{MADE}" + "\n".join(pages)


def command_help() -> str:
    """The help of every command, as printed."""
    text = f"# Commands\n\n{MADE}"
    environment = {**os.environ, "COLUMNS": "100", "NO_COLOR": "1", "TERM": "dumb", "PYTHONPATH": str(ROOT / "src")}
    for command in COMMANDS:
        words = [*command.split(), "--help"]
        shown = subprocess.run(
            [sys.executable, "-m", "firnstead", *words], capture_output=True, text=True, env=environment, check=True
        )
        lines = "\n".join(line.rstrip() for line in shown.stdout.strip().splitlines())
        text += f"## firnstead {command}\n```text\n{lines.replace('python -m firnstead', 'firnstead')}\n```\n\n"
    return text.rstrip() + "\n"


def source_page() -> str:
    """Every source, and how its figures came to us."""
    text = f"# Sources\n\n{MADE}"
    for obtained in OBTAINED:
        rows = [s for s in sources().values() if s.obtained == obtained]
        if rows:
            text += f"## {obtained}\n\n| key | source |\n|---|---|\n"
            for s in sorted(rows, key=lambda s: s.key):
                text += _row((f"`{s.key}`", s.citation().removesuffix(f" [{obtained}]"))) + "\n"
            text += "\n"
    return text.rstrip() + "\n"


def validation_table() -> str:
    """Every published value: theirs, ours, the difference and the tolerance."""
    from published.cases import cases

    found = cases()
    text = f"# Validation\n\n{MADE}{len(found)} published values are compared on every test run.\n\n"
    titles = ("case", "source", "place", "obtained", "theirs (SI)", "ours (SI)", "difference", "allowed", "why")
    head = _row(titles) + "\n" + "|---" * len(titles) + "|\n"
    for file in dict.fromkeys(c.file for c in found):
        text += f"## {file.removesuffix('.toml')}\n\n{head}"
        for case in (c for c in found if c.file == file):
            row, theirs, ours = case.row, case.expected, case.ours()
            cells = (row["name"], f"`{row['source']}`", row["place"], row["obtained"], _values(theirs), _values(ours),
                     _difference(theirs, ours), _allowed(case), row["why"])  # fmt: skip
            text += _row(cells) + "\n"
        text += "\n"
    return text.rstrip() + "\n"


def _values(value: Any) -> str:
    if isinstance(value, (str, bool)):
        return str(value)
    import numpy as np

    return ", ".join(f"{v:.5g}" for v in np.atleast_1d(np.asarray(value, dtype=float)).ravel()[:6])


def _difference(theirs: Any, ours: Any) -> str:
    if isinstance(theirs, (str, bool)):
        return "same" if theirs == ours else "differs"
    import numpy as np

    t, o = np.asarray(theirs, dtype=float), np.asarray(ours, dtype=float)
    worst = float(np.max(np.abs(o - t) / np.where(t == 0, 1.0, np.abs(t))))
    return (
        "below 0.0001 %" if worst < 1e-6 else f"{100 * worst:.1g} %"
    )  # rounded so that it is the same on every machine


def _allowed(case: Any) -> str:
    row = case.row
    return (
        f"± {row['tolerance_abs']:g}"
        if "tolerance_abs" in row
        else f"{100 * row['tolerance']:g} %"
        if "tolerance" in row
        else "same"
    )


PAGES = {
    "fields.md": field_table,
    "commands.md": command_help,
    "sources.md": source_page,
    "validation.md": validation_table,
}


def main(words: list[str]) -> int:
    """Write the pages, or compare them."""
    stale = []
    for name, make in PAGES.items():
        path, text = ROOT / "docs" / name, make()
        if path.exists() and path.read_text(encoding="utf-8") == text:
            continue
        stale.append(name)
        if "--check" not in words:
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
    if stale:
        print(("out of date: " if "--check" in words else "written: ") + ", ".join(stale))
    return 1 if stale and "--check" in words else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
