"""What stands round a drawing on its sheet: heading, legend, symbols, scale bar and corner block. All in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from firnstead.core.cautions import SHORT
from firnstead.drawings.figure import (
    FINE,
    MEDIUM,
    Circle,
    Figure,
    Fixed,
    LegendEntry,
    Polygon,
    Polyline,
    ScaleBar,
    Text,
    rectangle,
)  # fmt: skip
from firnstead.drawings.textsize import fit, wrap

BAND = 40.0  # height of the band at the foot of the sheet
BLOCK = 170.0  # width of the corner block
SYMBOL = 34.0  # width that a symbol and its words take


@dataclass(frozen=True)
class TitleBlock:
    """What the corner block says; the date is the station file's, never the clock's."""

    station: str
    drawing: str
    place: str
    file_version: str
    date: str
    units: str = "metres"
    status: str = "All results current"
    caution: str = SHORT


def heading(figure: Figure, left: float, right: float, top: float) -> tuple[list[Fixed], float]:
    """Title, the one-sentence reading and the notes; and the level below them."""
    words, height = fit(figure.title, right - left, 4.5, bold=True)
    items: list[Fixed] = [Text(words, (left, top - 7.5), height, bold=True, layer="frame")]
    y = top - 13.0
    for size, step, texts in ((2.8, 5.0, (figure.reading,)), (2.2, 4.0, figure.notes)):
        for line in (line for text in texts for line in wrap(text, right - left, size)):
            items.append(Text(line, (left, y), size, layer="frame"))
            y -= step
    return items, y + 2.5


def foot(figure: Figure, left: float, low: float, right: float, scale: int) -> list[Fixed]:
    """Legend, symbols and scale bar, from `left` to `right` above `low`."""
    metres, parts = bar_length(scale)
    items: list[Fixed] = [ScaleBar((left, low + 6.0), metres, metres * 1000.0 / scale, parts, f"Scale 1:{scale}")]
    at = right - SYMBOL / 2
    for symbol in reversed(figure.symbols):
        items.append(replace(symbol, at=(at, low + BAND / 2 + 3.0), size=16.0, layer="frame"))
        at -= SYMBOL
    return [*items, *legend(figure.legend, left, low + BAND - 2.0, at + SYMBOL / 2 - left, BAND - 14.0)]


def legend(entries: tuple[LegendEntry, ...], left: float, top: float, wide: float, tall: float) -> list[Fixed]:
    """Swatches with their words, in as many columns as needed."""
    step = 5.2
    rows = max(1, int(tall / step))
    columns = max(1, math.ceil(len(entries) / rows))
    column, items = wide / columns, list[Fixed]()
    for i, entry in enumerate(entries):
        x, y = left + column * (i // rows), top - step * (i % rows) - 4.0
        if entry.swatch == "area":
            items.append(
                Polygon(rectangle(x, y, x + 9, y + 3.8), "frame", entry.weight, entry.pattern, line=entry.line)
            )
        elif entry.swatch == "circle":
            items.append(Circle((x + 4.5, y + 2), 1.2, "frame", entry.weight))
        else:
            items.append(Polyline(((x, y + 2), (x + 9, y + 2)), "frame", entry.weight, entry.line))
        words, height = fit(entry.words, column - 13.0, 2.3)
        items.append(Text(words, (x + 11, y + 2), height, level="middle", layer="frame"))
    return items


def corner_block(block: TitleBlock, left: float, low: float, scale: int, paper: str) -> list[Fixed]:
    """The corner block: four rows of boxes, each with a small heading and its entry."""
    rows = (
        (11.0, ((0.62, "Station", block.station, True), (0.38, "Drawing", block.drawing, True))),
        (9.2, ((0.62, "Place", block.place, False), (0.20, "Scale", f"1:{scale}", True),
                (0.18, "Sheet", paper, False))),
        (9.2, ((0.22, "File version", block.file_version, False), (0.20, "Date of the file", block.date, False),
                (0.20, "Units", block.units, False), (0.38, "State", block.status, False))),
    )  # fmt: skip
    items: list[Fixed] = [Polygon(rectangle(left, low, left + BLOCK, low + BAND), "frame", MEDIUM)]
    y = low + BAND
    for tall, cells in rows:
        x = left
        for share, head, entry, bold in cells:
            wide = share * BLOCK
            mono = head in ("Scale", "File version", "Date of the file")
            words, height = fit(entry, wide - 4.0, 2.8, mono=mono, bold=bold)
            items += [Text(head, (x + 2, y - 3.1), 1.6, layer="frame"),
                      Text(words, (x + 2, y - tall + 1.9), height, bold=bold, mono=mono, layer="frame")]  # fmt: skip
            if x > left:
                items.append(Polyline(((x, y), (x, y - tall)), "frame", FINE))
            x += wide
        y -= tall
        items.append(Polyline(((left, y), (left + BLOCK, y)), "frame", FINE))
    for i, line in enumerate(wrap(block.caution, BLOCK - 4.0, 2.0)[:3]):
        items.append(Text(line, (left + 2, y - 3.8 - 3.2 * i), 2.0, layer="frame"))
    return items


def bar_length(scale: int) -> tuple[float, int]:
    """A round length [m] that is 40 to 50 mm long on paper or the next shorter one, and the number of its parts.

    >>> bar_length(100), bar_length(1000)
    ((5.0, 5), (50.0, 5))
    """
    longest = scale * 0.05
    decade = 10.0 ** math.floor(math.log10(longest))
    step = max(m for m in (1.0, 2.0, 5.0) if m * decade <= longest + 1e-9)
    return step * decade, 4 if step == 2.0 else 5
