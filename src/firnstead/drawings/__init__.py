"""Drawings of a station to scale: one description of a figure, written as SVG and as DXF.

`drawings(assessment)` gives every drawing of a station by name; `svg.svg(drawing.sheet)` and `dxf.dxf(drawing.sheet)`
write it on its paper sheet, `svg.svg(drawing.loose())` without frame.
"""

from firnstead.drawings.from_assessment import Drawing, drawings

__all__ = ["Drawing", "drawings"]
