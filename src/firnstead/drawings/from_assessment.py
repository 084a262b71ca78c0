"""All drawings of an assessed station: the plan, and each distinct section, long section and end wall once."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Any

from firnstead.drawings.closing import closing
from firnstead.drawings.corner import TitleBlock
from firnstead.drawings.end_wall import end_wall
from firnstead.drawings.escape_plan import escape_plan
from firnstead.drawings.figure import Figure
from firnstead.drawings.long_section import long_section
from firnstead.drawings.map_closing import closing_input, closing_places
from firnstead.drawings.map_escape import escape_plan_input, muster_inputs
from firnstead.drawings.map_long_section import long_section_input
from firnstead.drawings.map_plan import plan_input
from firnstead.drawings.map_section import end_wall_input, section_input
from firnstead.drawings.muster_plan import muster_figure, muster_sheet
from firnstead.drawings.plan import plan
from firnstead.drawings.section import section
from firnstead.drawings.sheet import Sheet, lay_out, loose
from firnstead.pipeline.assess import Assessment

PLAN_SMALLEST, LONG_SMALLEST, SECTION_SMALLEST = 1000, 1000, 100
"""Smallest scale of each kind; a larger paper is taken before the scale falls below it."""
MANY = 4  # places named in the corner block; the heading names all

_Kind = tuple[str, Iterable[str], Callable[[Assessment, str], Any], Callable[[Any], Figure], str, int]


@dataclass(frozen=True)
class Drawing:
    """One drawing: its kind, the places it is for (empty: the whole station), the figure and its sheet."""

    kind: str
    places: tuple[str, ...]
    figure: Figure
    sheet: Sheet

    def loose(self) -> Sheet:
        """The figure without frame or corner block."""
        return loose(self.figure)


def drawings(assessment: Assessment) -> dict[str, Drawing]:
    """Drawing name (fit for a file name) and drawing, in the order of the station file."""
    station = assessment.station
    block = TitleBlock(station.name, "Plan", "Whole station", assessment.file.version, station.dated.isoformat(),
                       "feet" if station.units == "us" else "metres")  # fmt: skip
    figure = plan(plan_input(assessment))
    made = {"plan": Drawing("Plan", (), figure, lay_out(figure, block, "A3", PLAN_SMALLEST))}
    walls = {name: wall.place for name, wall in station.end_walls.items()}
    kinds: tuple[_Kind, ...] = (
        ("Section", station.places, section_input, section, "A4", SECTION_SMALLEST),
        ("Long section", station.places, long_section_input, long_section, "A3", LONG_SMALLEST),
        ("Closing", closing_places(assessment), closing_input, closing, "A4", SECTION_SMALLEST),
        ("End wall", walls, end_wall_input, end_wall, "A4", SECTION_SMALLEST),
    )
    for kind, names, take, draw, paper, smallest in kinds:
        for alike in _alike({name: take(assessment, name) for name in names}):
            first, given = next(iter(alike.items()))
            figure = draw(given)
            if len(alike) > 1:
                others = f"The same for {', '.join(list(alike)[1:])}."
                figure = replace(figure, notes=(*figure.notes, others))
            places = tuple(dict.fromkeys(walls.get(name, name) if kind == "End wall" else name for name in alike))
            sheet = lay_out(figure, replace(block, drawing=kind, place=_named(places)), paper, smallest)
            made[_free_name(f"{kind} {first}", made)] = Drawing(kind, places, figure, sheet)
    _add_ways_out(made, assessment, block)
    return made


def _add_ways_out(made: dict[str, Drawing], assessment: Assessment, block: TitleBlock) -> None:
    """The plan of the ways out and a muster plan for each building; nothing where escape is not worked out."""
    result = assessment.results.get("escape")
    if result is None:
        return
    station, ground = assessment.station, plan_input(assessment)
    figure = escape_plan(escape_plan_input(station, result, ground))
    made["ways-out"] = Drawing(
        "Ways out", (), figure, lay_out(figure, replace(block, drawing="Ways out"), "A3", PLAN_SMALLEST)
    )
    for building, given in muster_inputs(station, result, ground, assessment.file.version).items():
        place = station.buildings[building].place
        made[_free_name(f"Muster {building}", made)] = Drawing(
            "Muster plan", (place,), muster_figure(given), muster_sheet(given)
        )


def _named(places: tuple[str, ...]) -> str:
    return ", ".join(places) if len(places) <= MANY else f"{places[0]} and {len(places) - 1} others"


def _alike(inputs: dict[str, Any]) -> list[dict[str, Any]]:
    """Inputs that differ in nothing but their names, together."""
    groups: dict[Any, dict[str, Any]] = {}
    for name, given in inputs.items():
        groups.setdefault(_nameless(given), {})[name] = given
    return list(groups.values())


def _nameless(given: Any) -> Any:
    """The input without the names of its place, its buildings and its hatches."""
    bare = replace(given, place="")
    if hasattr(given, "buildings"):
        bare = replace(bare, buildings=tuple(replace(b, name="") for b in given.buildings),
                       hatches=tuple(replace(h, name="") for h in given.hatches))  # fmt: skip
    return replace(bare, name="") if hasattr(given, "name") else bare


def _free_name(words: str, taken: dict[str, Drawing]) -> str:
    """Words as a file name that is not taken yet."""
    base = re.sub(r"[^a-z0-9]+", "-", words.casefold()).strip("-")[:60].strip("-") or "drawing"
    name, n = base, 2
    while name in taken:
        name, n = f"{base}-{n}", n + 1
    return name
