"""DXF (R2010) of a sheet: model space in metres, a layer per trade word, real dimensions; the same bytes every time."""

from __future__ import annotations

import math
from collections.abc import Callable
from io import StringIO
from typing import Any

from firnstead.drawings.figure import (
    Arc,
    Basic,
    Dimension,
    Fixed,
    Pattern,
    Point,
    Polygon,
    Polyline,
    Text,
    printable,
)  # fmt: skip
from firnstead.drawings.lower import dimension, dimension_line, plain
from firnstead.drawings.sheet import Sheet

DASHED = "FIRN_DASHED"
PATTERNS: dict[Pattern, list[tuple[float, Point, Point, list[float]]]] = {
    "snow": [(0.0, (0.0, 0.0), (1.5, 1.5), [0.0, -3.0])],
    "dots": [(0.0, (0.0, 0.0), (0.0, 1.5), [0.0, -1.5])],
    "hatch": [(45.0, (0.0, 0.0), (-math.sqrt(2), math.sqrt(2)), [])],
    "cross": [(45.0, (0.0, 0.0), (-1.0, 1.0), []), (135.0, (0.0, 0.0), (-1.0, -1.0), [])],
}
"""Hatch lines: angle, base, offset, dashes (0 is a dot); in millimetres on paper."""
LAYERS = {"arch": 70, "cut": 50, "hatches": 50, "snow": 18, "passes": 18, "blocks": 18, "grid": 18, "dimensions": 18,
          "text": 18}  # fmt: skip
"""Line weight of a layer [0.01 mm], for what is drawn on it later; a layer not named here gets 35."""
_SEE_THROUGH: dict[Pattern, float] = {"tone": 0.88, "solid": 0.0}
_ALIGN = {"left": "LEFT", "middle": "CENTER", "right": "RIGHT"}

Place = Callable[[Point], Point]


def dxf(sheet: Sheet) -> str:
    """The whole sheet as the text of a DXF file (write it as UTF-8)."""
    from ezdxf._options import options

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True  # no clock and no random identity in the file
    try:
        stream = StringIO()
        document = _document(sheet)
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)  # in one order; left to itself ezdxf takes that of a set
        document.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return stream.getvalue()


def _document(sheet: Sheet) -> Any:
    from ezdxf import units
    from ezdxf.filemanagement import new

    doc = new("R2010", units=units.M)
    for style, font in (("words", "Next-Regular"), ("words bold", "Next-Bold"), ("numbers", "Mono-Regular"),
                        ("numbers bold", "Mono-Bold")):  # fmt: skip
        doc.styles.add(style, font=f"AtkinsonHyperlegible{font}.ttf")
    (ox, oy), k = sheet.origin, sheet.mm_per_m
    doc.linetypes.add(DASHED, [3.2 / k, 2.0 / k, -1.2 / k], description="Dashed __ __ __")
    draw = _Draw(doc, k)
    for item in sheet.items:
        draw.item(item, doc.modelspace(), k, lambda p: p)
    for item in sheet.furniture:
        draw.item(item, doc.modelspace(), 1.0, lambda p: ((p[0] - ox) / k, (p[1] - oy) / k))
    return doc


class _Draw:
    """Adds shapes to a layout; `mm` is a millimetre on paper in metres of the model."""

    def __init__(self, doc: Any, mm_per_m: float) -> None:
        self.doc, self.mm = doc, 1.0 / mm_per_m

    def item(self, item: Fixed, space: Any, k: float, place: Place) -> None:
        """One item: a dimension stays a dimension, all else becomes plain shapes."""
        if isinstance(item, Dimension):
            self.dimension(item, space, k)
        else:
            for shape in plain(item, k):
                self.shape(shape, space, place)

    def dimension(self, item: Dimension, space: Any, k: float) -> None:
        """A linear dimension whose picture is drawn here, so that it looks the same in every program."""
        picture = self.doc.blocks.new_anonymous_block(type_char="D")
        for shape in dimension(item, k):
            self.shape(shape, picture, lambda p: p)
        start, end = dimension_line(item, k)
        ux, uy = item.direction()
        space.new_entity("DIMENSION", {
            **self.look(item.layer, 0.18), "dimtype": 32, "dimstyle": "Standard", "geometry": picture.name,
            "defpoint": (*end, 0.0), "defpoint2": (*item.start, 0.0), "defpoint3": (*item.end, 0.0),
            "angle": math.degrees(math.atan2(uy, ux)), "text": printable(item.words),
            "text_midpoint": ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2, 0.0)})  # fmt: skip

    def shape(self, shape: Basic, space: Any, place: Place) -> None:
        """One plain shape."""
        if isinstance(shape, Text):
            self.text(shape, space, place)
        elif isinstance(shape, Polyline):
            space.add_lwpolyline([place(p) for p in shape.points],
                                 dxfattribs=self.look(shape.layer, shape.weight, shape.line))  # fmt: skip
        elif isinstance(shape, Polygon):
            self.polygon(shape, space, place)
        else:
            (x, y), (ex, ey) = place(shape.centre), place((shape.centre[0] + shape.radius, shape.centre[1]))
            radius, look = math.hypot(ex - x, ey - y), self.look(shape.layer, shape.weight)
            if isinstance(shape, Arc):
                space.add_arc((x, y), radius, shape.start, shape.end, dxfattribs=look)
            else:
                space.add_circle((x, y), radius, dxfattribs=look)

    def polygon(self, shape: Polygon, space: Any, place: Place) -> None:
        """The pattern, then the outlines."""
        rings = [[place(p) for p in ring] for ring in (shape.points, *shape.holes)]
        if shape.pattern != "none":
            hatch = space.add_hatch(dxfattribs={"layer": self.layer(shape.layer)})
            if shape.pattern in _SEE_THROUGH:
                hatch.set_solid_fill()
                hatch.transparency = _SEE_THROUGH[shape.pattern]
            else:
                hatch.set_pattern_fill(shape.pattern.upper(), definition=self.pattern(shape.pattern))
            for i, ring in enumerate(rings):
                hatch.paths.add_polyline_path(ring, is_closed=True, flags=1 if i == 0 else 16)
        if shape.weight:
            for ring in rings:
                space.add_lwpolyline(ring, close=True, dxfattribs=self.look(shape.layer, shape.weight, shape.line))

    def pattern(self, name: Pattern) -> list[Any]:
        """Hatch lines in metres of the model."""
        mm = self.mm
        return [[angle, (x * mm, y * mm), (dx * mm, dy * mm), [d * mm for d in dashes]]
                for angle, (x, y), (dx, dy), dashes in PATTERNS[name]]  # fmt: skip

    def text(self, text: Text, space: Any, place: Place) -> None:
        """Words on one line; their level is worked out here, since programs differ in what they call the middle."""
        from ezdxf.enums import TextEntityAlignment

        drop = {"base": 0.0, "middle": text.height / 2, "top": text.height}[text.level]
        turn = math.radians(text.rotation)
        x, y = place(text.at)
        right, up = text.shift[0] + drop * math.sin(turn), text.shift[1] - drop * math.cos(turn)
        look = {
            "layer": self.layer(text.layer),
            "style": ("numbers" if text.mono else "words") + (" bold" if text.bold else ""),
            "rotation": text.rotation,
        }
        words = printable(text.words).replace("%%", "% %")  # two of them would start a control code
        entity = space.add_text(words, height=text.height * self.mm, dxfattribs=look)
        entity.set_placement((x + right * self.mm, y + up * self.mm), align=TextEntityAlignment[_ALIGN[text.anchor]])

    def look(self, layer: str, weight: float, line: str = "solid") -> dict[str, Any]:
        """Layer, line weight and line type of an entity."""
        found: dict[str, Any] = {"layer": self.layer(layer), "lineweight": round(weight * 100)}
        return {**found, "linetype": DASHED} if line == "dashed" else found

    def layer(self, name: str) -> str:
        """The layer of that name, made when first met."""
        if name not in self.doc.layers:
            self.doc.layers.add(name, color=7, lineweight=LAYERS.get(name, 35))
        return name
