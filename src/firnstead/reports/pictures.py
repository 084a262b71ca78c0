"""Drawings of a station as the reports take them."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.pipeline import Assessment


@dataclass(frozen=True)
class Picture:
    """One drawing: a name for its files, whose it is, what it shows, and its texts."""

    name: str
    kind: str
    places: tuple[str, ...]
    title: str
    reading: str
    sheet: str
    """SVG on a sheet with its corner block."""
    size: tuple[float, float]
    """Width and height of the sheet [mm]."""
    loose: str
    """SVG without a frame, for a chapter."""
    loose_width: float
    """Width of that [mm]."""
    dxf: str


def pictures_of(assessment: Assessment) -> list[Picture]:
    """Plan, sections and end walls of the station."""
    from firnstead.drawings.dxf import dxf
    from firnstead.drawings.from_assessment import drawings
    from firnstead.drawings.svg import svg

    made = []
    for name, drawing in drawings(assessment).items():
        sheet, loose = drawing.sheet, drawing.loose()
        made.append(Picture(name, drawing.kind, drawing.places, drawing.figure.title, drawing.figure.reading,
                            svg(sheet), (sheet.width, sheet.height), svg(loose), loose.width, dxf(sheet)))  # fmt: skip
    return made
