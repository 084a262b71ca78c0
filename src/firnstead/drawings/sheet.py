"""A figure set on a paper sheet: standard scale, frame, heading, legend, scale bar and corner block."""

from __future__ import annotations

from dataclasses import dataclass, replace

from firnstead.drawings.corner import BAND, BLOCK, TitleBlock, corner_block, foot, heading
from firnstead.drawings.figure import FINE, STRONG, Figure, Fixed, Point, Polygon, Polyline, rectangle
from firnstead.drawings.labels import settle
from firnstead.drawings.lower import bounds, lower

PAPERS = {"A4": (297.0, 210.0), "A3": (420.0, 297.0), "A2": (594.0, 420.0), "A1": (841.0, 594.0)}
"""Landscape sheets, width by height [mm] (ISO 216)."""
SCALES = (20, 50, 100, 200, 500, 1000, 2000)
LEFT, MARGIN = 20.0, 10.0  # filing edge and the other margins [mm]
AIR = 3.0  # free paper round the drawing [mm]


@dataclass(frozen=True)
class Sheet:
    """A figure at a scale on paper: `items` in world metres, `furniture` in millimetres from the lower left."""

    title: str
    reading: str
    paper: str
    width: float
    height: float
    scale: int
    origin: Point
    """Where the world's zero point lies on the paper [mm]."""
    items: tuple[Fixed, ...]
    furniture: tuple[Fixed, ...] = ()
    fits: bool = True
    """False where the drawing is larger than the largest paper at the smallest scale."""

    @property
    def mm_per_m(self) -> float:
        """Millimetres on paper for one metre."""
        return 1000.0 / self.scale


def lay_out(figure: Figure, block: TitleBlock, paper: str = "A3", smallest: int = SCALES[-1]) -> Sheet:
    """Set a figure on a sheet at the largest standard scale that fits.

    A larger paper is taken where the scale would fall below 1:`smallest`.
    """
    sizes, scales = list(PAPERS), [s for s in SCALES if s <= smallest]
    for size in sizes[sizes.index(paper) :]:
        sheet = _on_paper(figure, block, size, scales)
        if sheet.fits:
            return sheet
    return _on_paper(figure, block, sizes[-1], list(SCALES))


def loose(figure: Figure, wide: float = 245.0, tall: float = 170.0) -> Sheet:
    """A figure without frame or corner block on paper of its own size: within `wide` by `tall` mm if a scale allows.

    Set 165 mm wide on an upright page its words are still 1.7 mm high.
    """
    scale = _largest(figure, wide - 2 * AIR, tall - 2 * AIR, list(SCALES))
    items, (left, low, across, up) = _at_scale(figure, scale)
    width, height, origin = across + 2 * AIR, up + 2 * AIR, (AIR - left, AIR - low)
    return Sheet(figure.title, figure.reading, "own size", width, height, scale, origin, tuple(items))


def _on_paper(figure: Figure, block: TitleBlock, paper: str, scales: list[int]) -> Sheet:
    width, height = PAPERS[paper]
    right, top = width - MARGIN, height - MARGIN
    head, below = heading(figure, LEFT + AIR, right - AIR, top)
    x0, y0, x1, y1 = LEFT + AIR, MARGIN + BAND + AIR, right - AIR, below - AIR
    scale = _largest(figure, x1 - x0, y1 - y0, scales)
    items, (left, low, wide, tall) = _at_scale(figure, scale)
    fits = wide <= x1 - x0 and tall <= y1 - y0
    origin = ((x0 + x1 - wide) / 2 - left, (y0 + y1 - tall) / 2 - low)
    said = block if fits else replace(block, status="incomplete: larger than the sheet")
    furniture: list[Fixed] = [
        Polygon(rectangle(LEFT, MARGIN, right, top), "frame", STRONG),
        Polyline(((LEFT, MARGIN + BAND), (right, MARGIN + BAND)), "frame", FINE),
        *head,
        *foot(figure, LEFT + AIR, MARGIN, right - BLOCK, scale),
        *corner_block(said, right - BLOCK, MARGIN, scale, paper),
    ]
    return Sheet(
        figure.title, figure.reading, paper, width, height, scale, origin, tuple(items), tuple(furniture), fits
    )


def _largest(figure: Figure, wide: float, tall: float, scales: list[int]) -> int:
    """The largest scale at which the figure fits, else the last; bare lines are tried first, they are quick."""
    lines = [i for i in figure.items if isinstance(i, (Polyline, Polygon))]
    for scale in scales:
        x0, y0, x1, y1 = bounds(lines, 1000.0 / scale)
        if x1 - x0 <= wide and y1 - y0 <= tall:
            _, (_, _, w, h) = _at_scale(figure, scale)
            if w <= wide and h <= tall:
                return scale
    return scales[-1]


def _at_scale(figure: Figure, scale: int) -> tuple[list[Fixed], tuple[float, float, float, float]]:
    """The settled items, and left, low, width and height on paper [mm]."""
    k = 1000.0 / scale
    items = settle(figure.items, k)
    x0, y0, x1, y1 = bounds(lower(items, k), k)
    return items, (x0, y0, x1 - x0, y1 - y0)
