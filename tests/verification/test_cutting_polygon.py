"""The cut's polygon against an independent geometry library."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from firnstead.cutting.passes import half_width_at
from firnstead.cutting.section import build_section


@given(
    top=st.floats(1.0, 14.0), undercut=st.floats(0.0, 2.0), depth=st.floats(2.0, 14.0), bench_width=st.floats(0.0, 2.0),
    bench_share=st.floats(0.0, 0.3), start_share=st.floats(0.0, 0.9), cut=st.floats(0.5, 4.0),
    thick=st.floats(0.3, 3.0), reach=st.floats(0.05, 1.0),
)  # fmt: skip
def test_polygon_against_shapely(top, undercut, depth, bench_width, bench_share, start_share, cut, thick, reach):
    """The outline is valid and has the area, length and centroid of the union of the passes."""
    bench = bench_share * depth
    made = build_section(
        top_width=top, floor_width=top + 2 * undercut, depth=depth, bench_width=bench_width, bench_depth=bench,
        undercut_from=bench + start_share * (depth - bench), cut_width=cut, pass_depth=thick, reach=reach,
    )  # fmt: skip
    ours = Polygon(made.polygon)
    assert ours.is_valid
    assert made.area == pytest.approx(ours.area, rel=1e-12)
    assert made.perimeter == pytest.approx(ours.length, rel=1e-12)
    union = unary_union([box(p.left, p.top, p.right, p.bottom) for p in made.passes])
    assert ours.symmetric_difference(union).area == pytest.approx(0.0, abs=1e-6)
    down = sum(p.area * (p.top + p.bottom) / 2 for p in made.passes) / made.area
    assert (ours.centroid.x, ours.centroid.y) == pytest.approx((0.0, down), abs=1e-9)


@given(share=st.floats(0.01, 0.99))
def test_half_width_against_a_line_across(share):
    """The half width at a depth is half the chord that shapely cuts there."""
    from shapely.geometry import LineString

    made = build_section(top_width=4.0, floor_width=5.2, depth=6.0, bench_width=0.8, bench_depth=0.6,
                         undercut_from=2.4, cut_width=2.6, pass_depth=1.2, reach=0.3)  # fmt: skip
    depth = 6.0 * share
    if min(abs(depth - z) for p in made.passes for z in (p.top, p.bottom)) < 1e-6:
        depth += 1e-3
    chord = Polygon(made.polygon).intersection(LineString([(-20.0, depth), (20.0, depth)]))
    assert half_width_at(made.passes, depth) == pytest.approx(chord.length / 2)
