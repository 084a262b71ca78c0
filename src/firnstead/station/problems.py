"""Turn what the schema says into a message that a tired person can act on."""

from __future__ import annotations

import typing
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel

from firnstead.core.errors import Problem, UnitError
from firnstead.core.units import show
from firnstead.station.fields import Quantity
from firnstead.station.lines import Lines
from firnstead.station.model import Station

_WORDS = {
    "int_type": ("is not a whole number", "Write a whole number without a unit"),
    "int_parsing": ("is not a whole number", "Write a whole number without a unit"),
    "int_from_float": ("is not a whole number", "Write a whole number without a unit"),
    "string_type": ("is not a text", "Write a text; put it in quotes if it looks like a number"),
    "finite_number": ("is not a whole number", "Write a whole number without a unit"),
    "bool_parsing": ("is neither true nor false", "Write true or false"),
    "bool_type": ("is neither true nor false", "Write true or false"),
    "dict_type": ("is not a list of names with values", "Write `name: value` lines, indented, below it"),
    "model_type": ("is not a group of fields", "Write `field: value` lines, indented, below it"),
    "model_attributes_type": ("is not a group of fields", "Write `field: value` lines, indented, below it"),
    "tuple_type": ("is not a list", "Write it as a list, such as [0 m, 12 m]"),
    "too_short": ("has too few entries", "See the field table for what belongs there"),
    "too_long": ("has too many entries", "See the field table for what belongs there"),
    "missing": ("is missing", "Add it"),
}


def problem_of(error: Any, lines: Lines) -> Problem:
    """One pydantic error as a problem with line and cure."""
    kind, loc = error["type"], tuple(error["loc"])
    given = lines.written(loc, error.get("input"))
    shown = repr(given) if len(repr(given)) <= 50 else repr(given)[:47] + "..."
    ctx = error.get("ctx", {})
    if kind == "extra_forbidden":
        return lines.problem(loc, f"the key {str(loc[-1])!r} is not known here", _nearest(loc))
    if kind == "missing":
        help = _help(loc)
        return lines.problem(loc, "this is missing", f"Add `{loc[-1]}:` ({help})" if help else f"Add `{loc[-1]}:`")
    if isinstance(ctx.get("error"), UnitError):
        return lines.problem(loc, ctx["error"].what, ctx["error"].cure)
    if kind in ("greater_than_equal", "less_than_equal", "greater_than", "less_than"):
        bound = ctx.get("ge", ctx.get("le", ctx.get("gt", ctx.get("lt"))))
        word = {"greater_than_equal": "at least", "less_than_equal": "at most",
                "greater_than": "more than", "less_than": "less than"}[kind]  # fmt: skip
        return lines.problem(loc, f"{shown} is out of range", f"It must be {word} {_in_unit(loc, bound)}")
    if kind in ("literal_error", "enum"):
        return lines.problem(loc, f"{shown} is not one of the choices", f"Choose {ctx.get('expected', '')}")
    if kind in ("union_tag_invalid", "union_tag_not_found"):
        expected = str(ctx.get("expected_tags", "")) or _tags(loc)
        return lines.problem((*loc, "kind"), "`kind` is missing or not known", f"Write `kind:` with one of {expected}")
    if kind.startswith("date"):
        return lines.problem(loc, f"{shown} is not a date", "Write it as year-month-day, such as 2031-05-20")
    what, cure = _WORDS.get(kind, ("cannot be used here", str(error.get("msg", ""))[:160]))
    return lines.problem(loc, f"{shown} {what}", cure)


def _field(loc: tuple[str | int, ...]) -> Any:
    """The declaration of the field at a path, as far as it can be followed."""
    kinds, found = [Station], None
    for step in loc:
        found, following = None, []
        for model in kinds:
            if isinstance(model, type) and issubclass(model, BaseModel):
                if step in model.model_fields:
                    found = model.model_fields[str(step)]
                    following += _inside(found.annotation)
                elif not found:
                    following.append(model)  # a name in a map, an index or a union's tag: stay
        kinds = following or kinds
    return found


def _inside(annotation: Any) -> list[Any]:
    """All models inside an annotation (maps, tuples, unions)."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [m for part in typing.get_args(annotation) for m in _inside(part)]


def _models(loc: tuple[str | int, ...]) -> list[type[BaseModel]]:
    kinds: list[Any] = [Station]
    for step in loc:
        following = []
        for model in kinds:
            if step in model.model_fields:
                following += _inside(model.model_fields[str(step)].annotation)
            else:
                following.append(model)
        kinds = following
    return kinds


def _nearest(loc: tuple[str | int, ...]) -> str:
    known = sorted({name for model in _models(loc[:-1]) for name in model.model_fields})
    near = get_close_matches(str(loc[-1]), known, n=1, cutoff=0.6)
    if near:
        return f"Did you mean {near[0]!r}?"
    return "Known here: " + ", ".join(known[:30]) if known else "Remove it"


def _help(loc: tuple[str | int, ...]) -> str:
    found = _field(loc)
    return (found.description or "") if found is not None else ""


def unit_of_field(info: Any) -> str:
    """The SI unit of a pydantic field; empty for a text or a count."""
    for part in (*info.metadata, *_metadata(info.annotation)):
        if isinstance(part, Quantity):
            return part.unit
    return ""


def _metadata(annotation: Any) -> list[Any]:
    inner = [m for part in typing.get_args(annotation) for m in _metadata(part)]
    return [*getattr(annotation, "__metadata__", ()), *inner]


def _in_unit(loc: tuple[str | int, ...], bound: Any) -> str:
    found = _field(loc)
    unit = unit_of_field(found) if found is not None else ""
    return show(float(bound), unit) if unit else str(bound)


def _tags(loc: tuple[str | int, ...]) -> str:
    tags = []
    for model in _models(loc):
        kind = model.model_fields.get("kind")
        tags += [repr(t) for t in typing.get_args(kind.annotation)] if kind else []
    return ", ".join(tags)
