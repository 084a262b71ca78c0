"""Cross-sections, long sections and end walls: geometry, dimensions and words."""

from dataclasses import replace

import pytest
from shapely import Polygon as Area
from shapely import unary_union

from drawings.samples import lateral, plant, shallow
from firnstead.drawings.end_wall import Doorway, EndWallInput, end_wall
from firnstead.drawings.figure import Arc, Dimension, Figure, Polygon, Polyline, Text, rectangle
from firnstead.drawings.long_section import long_section
from firnstead.drawings.long_section_input import EndSide, HouseSide, LongSectionInput, ShaftSide
from firnstead.drawings.section import section
from firnstead.drawings.shapes import ArchShape, CoverShape, cover_area


def lengths(figure: Figure) -> dict[str, float]:
    """Measured length of each dimension by its words."""
    return {i.words: i.value() for i in figure.items if isinstance(i, Dimension)}


def area_of(figure: Figure, layer: str, pattern: str) -> object:
    """All that is filled with a pattern on a layer."""
    return unary_union([Area(i.points, i.holes) for i in figure.items
                        if isinstance(i, Polygon) and (i.layer, i.pattern) == (layer, pattern)])  # fmt: skip


def test_words_of_dimensions_are_their_lengths() -> None:
    """What a dimension says is what it measures, to the centimetre."""
    for given in (lateral(), plant(), shallow()):
        for words, value in lengths(section(given)).items():
            assert float(words.split()[-2]) == pytest.approx(value, abs=0.005), words


def test_lateral_has_every_dimension() -> None:
    """Span, rise, cover, bench, depth, top, floor and undercut are all there."""
    found = lengths(section(lateral()))
    wanted = {"span 4.90 m": 4.9, "rise 1.35 m": 1.35, "cover 0.90 m": 0.9, "0.60 m": 0.6, "5.40 m": 5.4,
              "depth 6.00 m": 6.0, "top 4.40 m": 4.4, "floor 6.00 m": 6.0, "0.80 m": 0.8}  # fmt: skip
    assert found == {k: pytest.approx(v) for k, v in wanted.items()}


def test_us_units_in_words_only() -> None:
    """With US units the words are in feet and the lengths stay metres."""
    found = lengths(section(lateral(units="us")))
    assert found["span 16.08 ft"] == pytest.approx(4.9)


def test_snow_is_not_drawn_in_the_cut() -> None:
    """The dots fill the ground round the cut and nothing inside it."""
    given = lateral()
    snow = area_of(section(given), "snow", "snow")
    assert snow.intersection(Area(given.outline)).area == pytest.approx(0.0, abs=1e-9)
    assert snow.union(Area(given.outline)).area == pytest.approx(snow.area + Area(given.outline).area)


def test_passes_fill_the_cut_and_are_numbered() -> None:
    """Each pass has its number, from 1 at the surface down."""
    given = lateral()
    assert sum(Area(p).area for p in given.passes) == pytest.approx(Area(given.outline).area)
    numbers = [i for i in section(given).items if isinstance(i, Text) and i.layer == "passes"]
    assert [i.words for i in numbers] == [str(n) for n in range(1, 8)]
    assert [i.at[1] for i in numbers] == sorted((i.at[1] for i in numbers), reverse=True)


def test_arch_line_is_a_circle_through_feet_and_crown() -> None:
    """The heavy line runs from foot to foot over the crown, every point at the same distance from the centre."""
    shape = ArchShape(4.9, 1.35, -0.525)
    points = shape.arc().points()
    assert points[0] == pytest.approx((2.45, -0.525))
    assert points[-1] == pytest.approx((-2.45, -0.525))
    assert max(z for _, z in points) == pytest.approx(shape.crown)


def test_level_cover_has_the_area_of_statics() -> None:
    """A levelled cover on level ground: trapezium over the span with sides at 45 degrees, less the arch's segment."""
    shape, cover = ArchShape(8.0, 2.0, 0.0), CoverShape(1.0, repose=45.0)
    found = sum(Area(ring, holes).area for ring, holes in cover_area(shape, cover, 4.0, 0.0))
    import math

    angle = 2 * math.asin(4.0 / 5.0)  # the segment's arc: radius 5 for span 8 and rise 2
    segment = 25.0 / 2 * (angle - math.sin(angle))
    assert found == pytest.approx(8.0 * 3.0 + 3.0 * 3.0 - segment, rel=1e-3)


def test_cover_fills_the_bench_and_keeps_out_of_snow_and_room() -> None:
    """Milled snow lies over the arch and in the bench, not in natural snow and not under the arch."""
    for given in (
        lateral(),
        plant(),
        lateral(cover=CoverShape(0.3, 0.6)),
        lateral(arch=ArchShape(4.9, 0.3, -0.525), cover=CoverShape(0.1)),
    ):
        figure = section(given)
        cover, snow = area_of(figure, "cover", "tone"), area_of(figure, "snow", "snow")
        assert cover.area > 0.0
        assert cover.intersection(snow).area == pytest.approx(0.0, abs=1e-9)
        assert given.arch is not None
        assert cover.intersection(Area(given.arch.inside(given.arch.seat))).area == pytest.approx(0.0, abs=1e-9)


def test_formed_roof_has_no_steel() -> None:
    """A roof of formed snow is drawn without the heavy line, and the sentence says what it is."""
    figure = section(lateral(arch=ArchShape(4.9, 1.35, -0.6, steel=False), plank=None))
    assert not [i for i in figure.items if isinstance(i, Arc)]
    assert "formed-snow roof" in figure.reading


def test_cut_is_open_to_the_sky() -> None:
    """The cut's outline is one open line from edge to edge of the bench."""
    lines = [i for i in section(lateral()).items if isinstance(i, Polyline) and i.layer == "cut"]
    assert len(lines) == 1
    ends = {lines[0].points[0], lines[0].points[-1]}
    assert ends == {(3.1, 0.0), (-3.1, 0.0)}


def long_input() -> LongSectionInput:
    """A trench of 52.5 m with three huts, a hatch, a link and an end wall."""
    huts = tuple(HouseSide(f"Hut {i + 1}", 6.0 + 14 * i, 15.6 + 14 * i, 2.6, 0.6) for i in range(3))
    return LongSectionInput("North 6", 52.5, 6.0, 0.825, 0.9, True, huts, (ShaftSide("Hatch", 49.0, 0.9),),
                            EndSide(0.0, 0.0, 1.75, 2.4, "Main"), EndSide(1.2))  # fmt: skip


def test_long_section_has_length_depth_and_parts() -> None:
    """Length and depth measure right; every building, the hatch and the passage are named."""
    figure = long_section(long_input())
    assert lengths(figure) == {"52.50 m": pytest.approx(52.5), "depth 6.00 m": pytest.approx(6.0)}
    named = str(figure.items)
    assert all(word in named for word in ("Hut 1", "Hut 2", "Hut 3", "Hatch, at 49.00 m", "Main"))
    assert "3 buildings, 1 escape hatch" in figure.reading


def test_ramp_is_cut_out_of_the_snow() -> None:
    """A ramp is an open wedge of its slope beside the end."""
    import math

    flat = replace(long_input(), start=EndSide())
    ramp = replace(flat, start=EndSide(1.2, 8.0, None, 3.0))
    reach = 6.0 / math.tan(math.radians(8.0))
    snow = area_of(long_section(ramp), "snow", "snow")
    assert snow.intersection(Area([(0.0, -6.0), (-reach, 0.0), (0.0, 0.0)])).area == pytest.approx(0.0, abs=1e-9)


def test_blocks_of_an_end_wall_fill_it() -> None:
    """The blocks cover the wall but for the doorway with its gap; none is larger than a block."""
    outline = (*ArchShape(4.9, 1.35, -0.6).arc().points(), (-2.2, -0.6), (-3.0, -6.0), (3.0, -6.0), (2.2, -0.6))
    door = Doorway(1.2, 2.1, 0.15)
    figure = end_wall(EndWallInput("Far wall", "North 6", outline, 0.6, 0.3, 0.6, 2, door))
    blocks = [Area(i.points, i.holes).area for i in figure.items if isinstance(i, Polygon) and i.layer == "blocks"]
    assert sum(blocks) == pytest.approx(Area(outline).area - 1.5 * 2.25)
    assert max(blocks) <= 0.6 * 0.3 + 1e-9
    assert lengths(figure)["door 1.20 m"] == pytest.approx(1.2)
    assert "slip gap of 0.15 m" in figure.reading


def test_plain_end_wall() -> None:
    """A wall without doorway has whole courses from side to side."""
    figure = end_wall(EndWallInput("W", "P", rectangle(-3.0, -3.0, 3.0, 0.0), 0.6, 0.3, 0.6, 1))
    assert figure.reading.startswith("10 courses")
    assert "1 block thick" in figure.reading
