"""What can still be checked of a file that does not fit the schema, so that one run shows every problem."""

from __future__ import annotations

import typing
from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import TypeAdapter, ValidationError

from firnstead.station.model import Station


def sound_part(data: Mapping[str, Any], wrong: Iterable[tuple[str | int, ...]]) -> tuple[Station, frozenset[str]]:
    """Build a station from the entries that are sound; `wrong` are the paths that the schema refused.

    Gives the station and the names of the top-level fields that had to be left out.
    """
    wrong = list(wrong)
    good: dict[str, Any] = {}
    left_out: set[str] = set()
    for name, info in Station.model_fields.items():
        value = data.get(name, None if info.is_required() else info.default)
        bad = [path for path in wrong if path[:1] == (name,)]
        if bad and typing.get_origin(info.annotation) is dict and isinstance(value, Mapping):
            value = {k: v for k, v in value.items() if k not in {path[1] for path in bad if len(path) > 1}}
        elif bad or value is None:
            left_out.add(name)
            continue
        try:
            good[name] = TypeAdapter[Any](info.annotation or Any).validate_python(value)
        except ValidationError:
            left_out.add(name)
    for name, info in Station.model_fields.items():
        if name in left_out and typing.get_origin(info.annotation) is dict:
            good[name] = {}
    return Station.model_construct(**good), frozenset(left_out)
