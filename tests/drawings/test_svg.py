"""SVG: well formed, to scale on paper, accessible, the same bytes every time."""

import re
import xml.etree.ElementTree as ET

import pytest

from drawings.samples import BLOCK, ODD, big_plan, lateral
from firnstead.drawings.figure import Arc, Dimension, Figure, Leader, Polygon, Polyline, Text, rectangle
from firnstead.drawings.plan import plan
from firnstead.drawings.plan_input import Outline, PlanInput, Strip
from firnstead.drawings.section import section
from firnstead.drawings.sheet import lay_out, loose
from firnstead.drawings.svg import PATTERNS, svg

NS = {"s": "http://www.w3.org/2000/svg"}


def parsed(text: str) -> ET.Element:
    """The document, read by an XML parser."""
    return ET.fromstring(text.encode())


def test_ten_metres_are_a_hundred_millimetres() -> None:
    """A line of 10 m at 1:100 is 100 mm long in a document whose unit is the millimetre."""
    figure = Figure("L", "L.", (Polyline(((0.0, 0.0), (10.0, 0.0)), "cut"),
                                Dimension((0.0, 0.0), (10.0, 0.0), -6.0, "10.00 m")))  # fmt: skip
    sheet = lay_out(figure, BLOCK, "A4")
    assert sheet.scale == 50
    sheet = lay_out(Figure("L", "L.", (*figure.items, Polyline(((0.0, 0.0), (0.0, 12.0)), "cut"))), BLOCK, "A4")
    assert sheet.scale == 100
    root = parsed(svg(sheet))
    assert root.get("width") == "297mm"
    assert root.get("viewBox") == "0 0 297 210"
    lengths = []
    for path in root.iterfind(".//s:g[@class='cut']/s:path", NS):
        x0, y0, x1, y1 = map(float, re.findall(r"[-\d.]+", path.get("d", "")))
        lengths.append(max(abs(x1 - x0), abs(y1 - y0)))
    assert lengths == pytest.approx([100.0, 120.0], abs=1e-3)
    ticks = root.findall(".//s:g[@class='dimensions']/s:path", NS)
    spans = [abs(float(n[2]) - float(n[0])) for p in ticks if (n := re.findall(r"[-\d.]+", p.get("d", "")))]
    assert max(spans) == pytest.approx(100.0, abs=1e-3)


def test_title_and_reading_are_in_the_document() -> None:
    """A screen reader finds what the drawing is and what it shows."""
    figure = section(lateral())
    root = parsed(svg(lay_out(figure, BLOCK, "A4")))
    assert root.findtext("s:title", namespaces=NS) == figure.title
    assert root.findtext("s:desc", namespaces=NS) == figure.reading
    assert root.get("role") == "img"


def test_odd_names_are_escaped() -> None:
    """Names with markup, quotes and control characters stay words."""
    given = PlanInput(ODD, (Strip(ODD, (0.0, 0.0), (0.0, 40.0), 6.0),), (Outline(ODD, rectangle(-1.0, 5.0, 1.0, 9.0)),))
    root = parsed(svg(lay_out(plan(given), BLOCK)))
    words = [t.text for t in root.iterfind(".//s:text", NS)]
    assert 'Hut <b>&"ø"</b> 50%%d ‘é’ ]]>' in words
    assert root.find(".//s:b", NS) is None


def test_same_bytes_twice() -> None:
    """Two runs write the same document."""
    assert svg(lay_out(plan(big_plan()), BLOCK)) == svg(lay_out(plan(big_plan()), BLOCK))


def test_patterns_are_defined_once_and_all_of_them() -> None:
    """Each pattern that is used is defined once; none is defined that is not used."""
    shapes = tuple(Polygon(rectangle(i, 0.0, i + 1.0, 1.0), "cut", 0.18, p) for i, p in enumerate([*PATTERNS, "hatch"]))
    text = svg(loose(Figure("P", "P.", shapes)))
    assert sorted(re.findall(r'<pattern id="(\w+)"', text)) == sorted(PATTERNS)
    assert set(re.findall(r"url\(#(\w+)\)", text)) == set(PATTERNS)
    assert "<pattern" not in svg(loose(Figure("P", "P.", (Polyline(((0.0, 0.0), (1.0, 1.0)), "cut"),))))


def test_only_the_four_line_weights() -> None:
    """Lines of drawings have one of the four weights; pattern lines apart."""
    for figure in (section(lateral()), plan(big_plan())):
        body = svg(lay_out(figure, BLOCK)).split("</defs>")[1]
        assert set(re.findall(r'stroke-width="([\d.]+)"', body)) <= {"0.18", "0.35", "0.5", "0.7"}


def test_words_in_the_drawing_have_white_behind_them() -> None:
    """Words over snow dots stand on a white ground that is at least as wide as their letters."""
    text = svg(loose(Figure("T", "T.", (Text("365 kg/m³", (0.0, 0.0), mono=True),))))
    root = parsed(text)
    ground, words = root.find(".//s:g/s:rect", NS), root.find(".//s:g/s:text", NS)
    assert ground is not None
    assert words is not None
    assert float(ground.get("width", "0")) > 9 * 0.632 * float(words.get("font-size", "0"))


def test_arc_ends_where_it_should() -> None:
    """A half circle goes from right to left over the top; a leader ends beside its words."""
    figure = Figure("A", "A.", (Arc((0.0, 0.0), 1.0, 0.0, 180.0, "arch", 0.7), Leader("steel", (0.0, 1.0), (8.0, 6.0))))
    sheet = loose(figure, 100.0, 100.0)
    root = parsed(svg(sheet))
    path = root.find(".//s:g[@class='arch']/s:path", NS)
    assert path is not None
    x0, y0, radius, _, _, large, sweep, x1, y1 = map(float, re.findall(r"[-\d.]+", path.get("d", "")))
    assert (x0 - x1, y0 - y1, radius) == pytest.approx((2 * sheet.mm_per_m, 0.0, sheet.mm_per_m), abs=1e-3)
    assert sweep == 0.0  # counter-clockwise as seen, since y runs down the paper: over the top
    assert large == 0.0
    words = root.find(".//s:text", NS)
    assert words is not None
    assert float(words.get("x", "0")) == pytest.approx((x0 + x1) / 2 + 9.0, abs=1e-3)
