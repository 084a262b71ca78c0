"""Input of the drawing of a closing section, taken from an assessed station."""

from __future__ import annotations

from firnstead.drawings.closing import ClosingInput
from firnstead.pipeline.assess import Assessment


def closing_places(assessment: Assessment) -> tuple[str, ...]:
    """Places whose closure has been worked out."""
    found = assessment.results.get("closure")
    return tuple(found.places) if found is not None else ()


def closing_input(assessment: Assessment, place: str) -> ClosingInput:
    """The outlines of a place and what must stay clear in it."""
    found = assessment.results["closure"].places[place]
    clear = (found.half_width + found.needed, found.height + found.needed) if found.what else None
    outlines = tuple((outline.year, outline.line) for outline in found.forecast.outlines)
    return ClosingInput(place, outlines, clear, found.what, assessment.station.units)
