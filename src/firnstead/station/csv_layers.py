"""Measured density layers from a CSV beside the station file."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from firnstead.core.errors import Problem, UnitError
from firnstead.core.units import parse
from firnstead.station.lines import Lines
from firnstead.station.site import DensityLayer

_COLUMNS = (("top", "m"), ("bottom", "m"), ("density", "kg/m3"))
_HEAD = "top [m],bottom [m],density [kg/m3]"


def put_in(data: Any, station_path: Path, lines: Lines) -> tuple[Any, list[Problem], str]:
    """Put the layers of `snow.density_file` into the data; gives data, problems and the CSV's text."""
    snow = data.get("snow")
    name = snow.get("density_file") if isinstance(snow, dict) else None
    if not isinstance(name, str):
        return data, [], ""
    where = ("snow", "density_file")
    if snow.get("layers"):
        return data, [lines.problem(where, "layers are given both here and in `layers`", "Keep one of the two")], ""
    if Path(name).name != name or not name.lower().endswith(".csv"):
        return (
            data,
            [
                lines.problem(
                    where,
                    f"{name!r} is not the name of a CSV beside the station file",
                    "Give a plain file name such as density.csv",
                )
            ],
            "",
        )
    file = station_path.parent / name
    try:
        text = file.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError, ValueError):
        return (
            data,
            [lines.problem(where, f"{name!r} cannot be read", "Put the file beside the station file, as UTF-8 text")],
            "",
        )
    layers, problems = read_layers(text, name)
    return {**data, "snow": {**snow, "layers": layers}}, problems, text


def read_layers(text: str, name: str) -> tuple[list[dict[str, str]], list[Problem]]:
    """Read layers from CSV text with a head such as ``top [m],bottom [m],density [kg/m3]``; # starts a remark."""
    layers: list[dict[str, str]] = []
    problems: list[Problem] = []
    units: list[str] | None = None
    last = 0.0
    for number, row in enumerate(csv.reader(io.StringIO(text)), start=1):
        if not row or row[0].lstrip().startswith("#") or not any(cell.strip() for cell in row):
            continue
        if units is None:
            units = _units(row)
            if units is None:
                return [], [
                    Problem(
                        name,
                        number,
                        "",
                        "the head of the table is not as expected",
                        f"Write `{_HEAD}` (other units may stand in the brackets)",
                    )
                ]
            continue
        if len(row) != len(_COLUMNS):
            problems.append(
                Problem(name, number, "", f"the line has {len(row)} values", "Write top, bottom and density")
            )
            continue
        texts = [f"{cell.strip()} {unit}" for cell, unit in zip(row, units, strict=True)]
        try:
            top, bottom, _ = (parse(t, kind) for t, (_, kind) in zip(texts, _COLUMNS, strict=True))
        except UnitError as error:
            problems.append(Problem(name, number, "", error.what, error.cure))
            continue
        if bottom <= top or top < last - 1e-6:
            problems.append(
                Problem(
                    name,
                    number,
                    "",
                    "the layers are not in order from the surface down",
                    "Sort them; each bottom below its top",
                )
            )
        last = max(last, bottom)
        layer = dict(zip(("top", "bottom", "density"), texts, strict=True))
        try:
            DensityLayer.model_validate(layer)
        except ValidationError as error:
            wrong = str(error.errors(include_url=False)[0]["loc"][0])
            problems.append(Problem(name, number, "", f"the {wrong} {layer[wrong]!r} is out of range",
                                    "Check the number and the unit in the head"))  # fmt: skip
            continue
        layers.append(layer)
    if units is None:
        problems.append(Problem(name, 1, "", "the table is empty", f"Write `{_HEAD}` and the layers below it"))
    return layers, problems


def _units(head: list[str]) -> list[str] | None:
    if len(head) != len(_COLUMNS):
        return None
    units = []
    for cell, (title, _) in zip(head, _COLUMNS, strict=True):
        match = re.fullmatch(rf"\s*{title}\s*\[\s*([^\]]+?)\s*\]\s*", cell)
        if match is None:
            return None
        units.append(match[1])
    return units
