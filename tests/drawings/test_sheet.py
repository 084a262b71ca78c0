"""Paper sheets: scale, paper, frame and what stands in the corner."""

import pytest

from drawings.samples import BLOCK, big_plan, lateral, plant, shallow
from firnstead.drawings.figure import Dimension, Figure, Polygon, Text, rectangle
from firnstead.drawings.lower import bounds, lower
from firnstead.drawings.plan import plan
from firnstead.drawings.section import section
from firnstead.drawings.sheet import PAPERS, SCALES, Sheet, lay_out, loose


def box(wide: float, tall: float) -> Figure:
    """A bare rectangle."""
    return Figure("Box", "A box.", (Polygon(rectangle(0.0, 0.0, wide, tall), "cut"),))


def inside(sheet: Sheet) -> bool:
    """Does everything drawn lie between the heading and the foot of the sheet?"""
    x0, y0, x1, y1 = bounds(lower(sheet.items, sheet.mm_per_m), sheet.mm_per_m)
    (ox, oy), (wide, tall) = sheet.origin, PAPERS[sheet.paper]
    return ox + x0 > 20.0 and ox + x1 < wide - 10.0 and oy + y0 > 50.0 and oy + y1 < tall - 20.0


@pytest.mark.parametrize(("wide", "scale"), [(5.0, 20), (15.0, 50), (30.0, 100), (60.0, 200), (340.0, 1000)])
def test_largest_scale_that_fits(wide: float, scale: int) -> None:
    """The chosen standard scale fits and the next larger one would not."""
    sheet = lay_out(box(wide, 2.0), BLOCK, "A3")
    assert sheet.scale == scale
    assert sheet.paper == "A3"
    larger = [s for s in SCALES if s < scale]
    assert not larger or wide * 1000.0 / larger[-1] > 420.0 - 30.0 - 6.0


def test_larger_paper_before_a_smaller_scale() -> None:
    """Where the scale would fall below the smallest wanted, the next paper is taken."""
    assert (lay_out(box(450.0, 10.0), BLOCK, "A3").paper, lay_out(box(450.0, 10.0), BLOCK, "A3").scale) == ("A3", 2000)
    sheet = lay_out(box(450.0, 10.0), BLOCK, "A3", smallest=1000)
    assert (sheet.paper, sheet.scale) == ("A2", 1000)


def test_too_large_for_any_sheet_says_so() -> None:
    """A drawing larger than A1 at the smallest scale is marked as incomplete, in the corner block too."""
    sheet = lay_out(box(9000.0, 10.0), BLOCK)
    assert not sheet.fits
    assert sheet.paper == "A1"
    assert any(isinstance(s, Text) and "incomplete" in s.words for s in lower(sheet.furniture, 1.0))


@pytest.mark.parametrize("figure", [section(lateral()), section(plant()), section(shallow()), plan(big_plan())])
def test_drawing_lies_inside_its_frame(figure: Figure) -> None:
    """Words and dimensions included, nothing runs into the frame, the heading or the corner block."""
    sheet = lay_out(figure, BLOCK, "A4", 1000)
    assert sheet.fits
    assert inside(sheet)


def test_corner_block_says_what_every_print_needs() -> None:
    """Station, place, scale, version, date, units, state, caution and a scale bar are on the sheet."""
    sheet = lay_out(section(lateral()), BLOCK, "A4")
    said = " ".join(s.words for s in lower(sheet.furniture, 1.0) if isinstance(s, Text))
    for words in (BLOCK.station, BLOCK.place, "1:100", BLOCK.file_version, BLOCK.date, "metres", BLOCK.status,
                  "Nobody below an edge", "5 m"):  # fmt: skip
        assert words in said


def test_corner_block_words_stay_in_their_boxes() -> None:
    """Absurdly long names are shortened, not written over the frame."""
    from dataclasses import replace

    block = replace(BLOCK, station="S" * 300, place="P" * 300, drawing="D" * 300, status="W" * 300)
    sheet = lay_out(section(lateral(place="Q" * 300)), block, "A4")
    _, _, right, _ = bounds([s for s in lower(sheet.furniture, 1.0) if isinstance(s, Text)], 1.0)
    assert right <= 297.0 - 10.0 + 0.5


def test_loose_figure_has_its_own_paper() -> None:
    """Without a frame the paper is just as large as the drawing and within the room that is given."""
    sheet = loose(section(lateral()), 245.0, 170.0)
    x0, y0, x1, y1 = bounds(lower(sheet.items, sheet.mm_per_m), sheet.mm_per_m)
    assert sheet.width - (x1 - x0) == pytest.approx(6.0)
    assert sheet.height - (y1 - y0) == pytest.approx(6.0)
    assert sheet.width <= 245.0
    assert sheet.furniture == ()


def test_offsets_do_not_change_what_is_measured() -> None:
    """At every scale a dimension measures the same metres."""
    figure = Figure("D", "D.", (Dimension((0.0, 0.0), (10.0, 0.0), 6.0, "10.00 m"),))
    for paper in PAPERS:
        sheet = lay_out(figure, BLOCK, paper)
        assert [i.value() for i in sheet.items if isinstance(i, Dimension)] == [pytest.approx(10.0)]
