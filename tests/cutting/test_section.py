"""The section made of passes: areas add up, never narrower than asked, never beyond the reach."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.cutting.passes import half_width_at, largest_undercut, narrowest_between, runs_needed, undercut_passes
from firnstead.cutting.section import build_section, outline, shoelace


@st.composite
def asked(draw: st.DrawFn) -> dict[str, float]:
    """A section and a miller, each within what a station file allows."""
    top = draw(st.floats(1.0, 14.0))
    depth = draw(st.floats(2.0, 14.0))
    bench_depth = draw(st.floats(0.0, 0.4)) * depth
    return {
        "top_width": top,
        "floor_width": top + 2 * draw(st.one_of(st.just(0.0), st.floats(0.0, 3.0))),
        "depth": depth,
        "bench_width": draw(st.floats(0.0, 2.0)),
        "bench_depth": bench_depth,
        "undercut_from": bench_depth + draw(st.floats(0.0, 0.95)) * (depth - bench_depth),
        "cut_width": draw(st.floats(0.5, 4.0)),
        "pass_depth": draw(st.floats(0.3, 3.0)),
        "reach": draw(st.floats(0.0, 1.0)),
    }


@given(asked())
def test_area_is_the_sum_of_its_passes(section):
    """The polygon's area is the sum of the areas of the passes."""
    made = build_section(**section)
    assert made.area == pytest.approx(sum(p.area for p in made.passes), rel=1e-12)


@given(asked())
def test_passes_follow_one_another_down_to_the_floor(section):
    """Passes start at the surface, leave no gap, are no deeper than the miller cuts and end at the floor."""
    passes = build_section(**section).passes
    assert passes[0].top == 0.0
    assert passes[-1].bottom == pytest.approx(section["depth"], rel=1e-12)
    for above, below in zip(passes, passes[1:], strict=False):
        assert below.top == pytest.approx(above.bottom, abs=1e-9)
    assert all(0 < p.bottom - p.top <= section["pass_depth"] * (1 + 1e-9) for p in passes)


@given(asked())
def test_steps_never_exceed_the_reach(section):
    """No pass below the bench is set outward of the one above it by more than the reach."""
    passes = [p for p in build_section(**section).passes if p.part != "bench"]
    for above, below in zip(passes, passes[1:], strict=False):
        assert -1e-9 <= below.right - above.right <= section["reach"] + 1e-9


@given(asked())
def test_never_narrower_than_asked(section):
    """Top, bench and, where the reach suffices, floor and every level of the wall are at least as wide as asked."""
    made = build_section(**section)
    assert made.top_width >= section["top_width"] - 1e-9
    undercut = (section["floor_width"] - section["top_width"]) / 2
    if made.passes[0].part == "bench":
        assert made.passes[0].width >= made.top_width + 2 * section["bench_width"] - 1e-9
    if made.undercut_largest >= undercut:
        assert made.undercut_made == pytest.approx(undercut, abs=1e-9)
        assert made.floor_width >= section["floor_width"] - 1e-9
        assert made.area >= made.asked_area - 1e-6
        height = section["depth"] - made.undercut_from
        for p in made.passes:
            if p.part == "undercut":
                line = section["top_width"] / 2 + undercut * (p.bottom - made.undercut_from) / height
                assert p.right >= line - 1e-9
    else:
        assert made.undercut_made <= made.undercut_largest + 1e-9


@given(asked())
def test_symmetric_and_runs_cover_the_width(section):
    """Both sides are alike, and the runs of every pass reach across it."""
    made = build_section(**section)
    assert {(-x, z) for x, z in made.polygon} == set(made.polygon)
    for p in made.passes:
        assert p.left == -p.right
        assert p.runs * section["cut_width"] >= p.width - 1e-9


@given(asked())
def test_the_shoulder_is_left_as_asked(section):
    """The first pass below the bench is not undercut, so planks get the edge that was asked for."""
    made = build_section(**section)
    first = next(p for p in made.passes if p.part != "bench")
    assert first.part == "straight"
    assert first.width == pytest.approx(max(section["top_width"], section["cut_width"]))


def test_stepped_section_by_hand():
    """A worked section: bench 5.6 x 0.6, straight 4.0 x 1.8, three steps 4.4, 4.8, 5.2 of 1.2 m each."""
    made = build_section(top_width=4.0, floor_width=5.2, depth=6.0, bench_width=0.8, bench_depth=0.6,
                         undercut_from=2.4, cut_width=2.6, pass_depth=1.2, reach=0.3)  # fmt: skip
    assert [(p.part, round(p.top, 9), round(p.width, 9), p.runs) for p in made.passes] == [
        ("bench", 0.0, 5.6, 3),
        ("straight", 0.6, 4.0, 2),
        ("straight", 1.5, 4.0, 2),
        ("undercut", 2.4, 4.4, 2),
        ("undercut", 3.6, 4.8, 2),
        ("undercut", 4.8, 5.2, 3),
    ]
    assert made.area == pytest.approx(5.6 * 0.6 + 4.0 * 1.8 + (4.4 + 4.8 + 5.2) * 1.2)
    assert made.asked_area == pytest.approx(5.6 * 0.6 + 4.0 * 1.8 + 4.6 * 3.6)
    # across: surface 5.6, ledges of the benches 1.6 and of the steps 3 x 0.4, floor 5.2; down: 6.0 on each side
    assert made.perimeter == pytest.approx(5.6 + 1.6 + 3 * 0.4 + 5.2 + 2 * 6.0)


def test_straight_section_by_hand():
    """A straight cut without a bench is a rectangle with four corners."""
    made = build_section(top_width=3.0, floor_width=3.0, depth=5.0, bench_width=0.0, bench_depth=0.0,
                         undercut_from=5.0, cut_width=2.5, pass_depth=1.0, reach=0.0)  # fmt: skip
    assert len(made.polygon) == 4
    assert made.area == pytest.approx(15.0)
    assert made.perimeter == pytest.approx(16.0)
    assert made.undercut_made == made.undercut_asked == 0.0


def test_more_reach_makes_the_undercut_that_less_cannot():
    """Too small a reach leaves the floor narrower than asked and says how much could be made."""
    wall = {"top_width": 4.0, "floor_width": 8.0, "depth": 5.0, "bench_width": 0.8, "bench_depth": 0.6,
            "undercut_from": 3.0, "cut_width": 2.6, "pass_depth": 1.0}  # fmt: skip
    short, long = build_section(**wall, reach=0.1), build_section(**wall, reach=0.3)
    assert short.undercut_made < short.undercut_asked
    assert short.undercut_largest == pytest.approx(0.1 * 8)
    assert long.undercut_made == pytest.approx(2.0)
    assert len(long.passes) > len(build_section(**{**wall, "floor_width": 4.4}, reach=0.3).passes)


@given(width=st.floats(0.5, 20.0), cut=st.floats(0.5, 4.0), share=st.floats(0.0, 0.5))
def test_one_run_fewer_would_not_reach_across(width, cut, share):
    """The runs with their overlaps cover the width, and one fewer would not."""
    n = runs_needed(width, cut, share * cut)
    assert cut + (n - 1) * (cut - share * cut) >= width - 1e-6
    assert n == 1 or cut + (n - 2) * (cut - share * cut) < width


@given(
    height=st.floats(0.5, 10.0), undercut=st.floats(0.01, 4.0), depth=st.floats(0.3, 2.0), reach=st.floats(0.05, 1.0)
)
def test_undercut_passes_are_enough_where_that_is_possible(height, undercut, depth, reach):
    """The number of passes makes the undercut, unless even the thinnest passes could not."""
    n = undercut_passes(height, undercut, depth, reach, 0.25 * depth)
    possible = largest_undercut(height, reach, min(0.25 * depth, height)) >= undercut
    assert height / n <= depth * (1 + 1e-9)
    assert (n * reach >= undercut - 1e-6) == possible or n * reach >= undercut - 1e-6


def test_width_at_a_depth():
    """The clear width between two depths is the narrowest pass that they touch."""
    passes = build_section(top_width=4.0, floor_width=5.2, depth=6.0, bench_width=0.8, bench_depth=0.6,
                           undercut_from=2.4, cut_width=2.6, pass_depth=1.2, reach=0.3).passes  # fmt: skip
    assert half_width_at(passes, 0.3) == pytest.approx(2.8)
    assert half_width_at(passes, 5.9) == half_width_at(passes, 9.0) == pytest.approx(2.6)
    assert half_width_at(passes, -1.0) == pytest.approx(2.8)
    assert narrowest_between(passes, 3.0, 6.0) == pytest.approx(2.2)
    assert narrowest_between(passes, 0.1, 6.0) == pytest.approx(2.0)
    assert narrowest_between(passes, 6.5, 7.0) == pytest.approx(2.6)


def test_shoelace_and_outline_of_a_triangle():
    """A 3-4-5 triangle has area 6 and outline 12, whichever way round it is given."""
    triangle = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0))
    assert shoelace(triangle) == shoelace(triangle[::-1]) == 6.0
    assert outline(triangle) == 12.0
