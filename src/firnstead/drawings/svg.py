"""SVG of a sheet in real millimetres, so that it prints to scale; own writer, the same bytes every time."""

from __future__ import annotations

import math
from collections.abc import Callable
from xml.sax.saxutils import escape, quoteattr

from firnstead.drawings.figure import Arc, Basic, Circle, Pattern, Point, Polygon, Polyline, Text, printable
from firnstead.drawings.lower import lower
from firnstead.drawings.sheet import Sheet
from firnstead.drawings.textsize import CAP_HEIGHT, text_width

WORDS = "Atkinson Hyperlegible Next, Atkinson Hyperlegible, DejaVu Sans, Verdana, sans-serif"
NUMBERS = "Atkinson Hyperlegible Mono, DejaVu Sans Mono, Consolas, monospace"
JOINS = 'stroke-linejoin="round" stroke-linecap="round"'
_INK = 'stroke="#000" fill="none"'
PATTERNS: dict[Pattern, str] = {
    "snow": '<pattern id="snow" width="3" height="3" patternUnits="userSpaceOnUse">'
    '<circle cx="0.75" cy="0.75" r="0.13"/><circle cx="2.25" cy="2.25" r="0.13"/></pattern>',
    "dots": '<pattern id="dots" width="1.5" height="1.5" patternUnits="userSpaceOnUse">'
    '<circle cx="0.75" cy="0.75" r="0.25"/></pattern>',
    "hatch": '<pattern id="hatch" width="2" height="2" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    f'<path d="M1 0V2" stroke-width="0.18" {_INK}/></pattern>',
    "cross": '<pattern id="cross" width="1.4" height="1.4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    f'<path d="M0.7 0V1.4M0 0.7H1.4" stroke-width="0.25" {_INK}/></pattern>',
}
"""Inside of a polygon [mm]."""
FILLS: dict[Pattern, str] = {"none": "none", "solid": "#000", "tone": "#e2e8ea"}

Place = Callable[[Point], Point]


def svg(sheet: Sheet) -> str:
    """The whole sheet as an SVG document of the paper's size."""
    (ox, oy), k, height = sheet.origin, sheet.mm_per_m, sheet.height

    def world(p: Point) -> Point:
        return (ox + p[0] * k, height - oy - p[1] * k)

    def paper(p: Point) -> Point:
        return (p[0], height - p[1])

    shapes, furniture = lower(sheet.items, k), lower(sheet.furniture, 1.0)
    used = {s.pattern for s in (*shapes, *furniture) if isinstance(s, Polygon)}
    box = f'viewBox="0 0 {_n(sheet.width)} {_n(height)}" role="img" font-family="{WORDS}"'
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(sheet.width)}mm" height="{_n(height)}mm" {box}>',
        f"<title>{escape(printable(sheet.title))}</title>",
        f"<desc>{escape(printable(sheet.reading))}</desc>",
        "<defs>",
        *(text for name, text in PATTERNS.items() if name in used),
        "</defs>",
        '<rect width="100%" height="100%" fill="#fff"/>',
        *_layers(shapes, world, k),
        *_layers(furniture, paper, 1.0),
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def _layers(shapes: list[Basic], place: Place, k: float) -> list[str]:
    """Shapes in drawing order, neighbours of one layer in one group."""
    lines: list[str] = []
    layer = ""
    for shape in shapes:
        if shape.layer != layer:
            lines += ["</g>"] if layer else []
            layer = shape.layer
            lines.append(f"<g class={quoteattr(layer.replace(' ', '-'))} {JOINS}>")
        lines.append(_shape(shape, place, k))
    return [*lines, "</g>"] if layer else lines


def _shape(shape: Basic, place: Place, k: float) -> str:
    if isinstance(shape, Text):
        return _text(shape, place)
    if isinstance(shape, Circle):
        x, y = place(shape.centre)
        return f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(shape.radius * k)}" stroke-width="{shape.weight}" {_INK}/>'
    if isinstance(shape, Arc):
        return _arc(shape, place, k)
    dash = ' stroke-dasharray="2 1.2"' if shape.line == "dashed" else ""
    if isinstance(shape, Polyline):
        return f'<path d="{_path(shape.points, place)}" stroke-width="{shape.weight}"{dash} {_INK}/>'
    path = "".join(_path(ring, place) + "Z" for ring in (shape.points, *shape.holes))
    fill = FILLS.get(shape.pattern, f"url(#{shape.pattern})")
    stroke = f'stroke="#000" stroke-width="{shape.weight}"{dash}' if shape.weight else 'stroke="none"'
    return f'<path d="{path}" fill="{fill}" fill-rule="evenodd" {stroke}/>'


def _arc(shape: Arc, place: Place, k: float) -> str:
    x0, y0 = place(shape.points()[0])
    x1, y1 = place(shape.points()[-1])
    large = int((shape.end - shape.start) % 360.0 > 180.0)
    r = _n(shape.radius * k)
    return f'<path d="M{_n(x0)} {_n(y0)}A{r} {r} 0 {large} 0 {_n(x1)} {_n(y1)}" stroke-width="{shape.weight}" {_INK}/>'


def _text(text: Text, place: Place) -> str:
    """Words with a white ground behind them (not a white outline: some programs paint it over the letter before)."""
    x, y = place(text.at)
    x, y = x + text.shift[0], y - text.shift[1]
    drop = {"base": 0.0, "middle": text.height / 2, "top": text.height}[text.level]
    turn = math.radians(text.rotation)
    x, y = x + drop * math.sin(turn), y + drop * math.cos(turn)
    anchor = {"left": "start", "middle": "middle", "right": "end"}[text.anchor]
    rotate = f' transform="rotate({_n(-text.rotation)} {_n(x)} {_n(y)})"' if text.rotation else ""
    style = (f' font-family="{NUMBERS}"' if text.mono else "") + (' font-weight="700"' if text.bold else "")
    ground = "" if text.layer == "frame" else _ground(text, x, y, rotate)
    return (f'{ground}<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(text.height / CAP_HEIGHT)}" '
            f'text-anchor="{anchor}"{style}{rotate}>{escape(printable(text.words))}</text>')  # fmt: skip


def _ground(text: Text, x: float, y: float, rotate: str) -> str:
    """A white box behind words: 0.3 mm beyond the capitals, and down to the descenders."""
    wide = text_width(text.words, text.height, text.mono, text.bold)
    left = x - {"left": 0.0, "middle": wide / 2, "right": wide}[text.anchor] - 0.3
    tall = 1.3 * text.height + 0.6
    return (f'<rect x="{_n(left)}" y="{_n(y - text.height - 0.3)}" width="{_n(wide + 0.6)}" height="{_n(tall)}" '
            f'fill="#fff"{rotate}/>')  # fmt: skip


def _path(points: tuple[Point, ...], place: Place) -> str:
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in map(place, points))


def _n(value: float) -> str:
    """A length with a thousandth of a millimetre, without useless zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
