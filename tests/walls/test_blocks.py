"""Blocks of an end wall: never too few, whatever their size."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.walls.blocks import (
    block_count,
    blocks_to_quarry,
    pieces_along,
    quarry_area,
    quarry_volume,
)  # fmt: skip
from firnstead.walls.face import course_widths, face_area

SIZES = st.floats(0.1, 1.0)
WIDTHS = st.floats(0.6, 12.0)
HEIGHTS = st.floats(0.5, 8.0)


@given(length=st.floats(0.0, 20.0), piece=SIZES, joint=st.floats(0.0, 0.05))
def test_pieces_cover_the_length_and_one_less_would_not(length, piece, joint):
    """The pieces with their joints reach the length, and one piece fewer does not."""
    n = pieces_along(length, piece, joint)
    assert n * piece + max(0, n - 1) * joint >= length - 1e-6
    assert n == 0 or (n - 1) * piece + max(0, n - 2) * joint < length


@given(
    floor=WIDTHS, narrowing=st.floats(0.4, 1.0), wall=HEIGHTS, undercut=st.floats(0.0, 1.0),
    span_more=st.floats(1.0, 1.4),
    rise_share=st.floats(0.05, 0.9), door=st.floats(0.0, 1.0), block_length=SIZES, block_height=SIZES, thickness=SIZES,
    layers=st.integers(1, 4), joint=st.floats(0.0, 0.03),
)  # fmt: skip
def test_blocks_with_joints_fill_the_wall(
    floor, narrowing, wall, undercut, span_more, rise_share, door, block_length, block_height, thickness, layers, joint
):
    """The count times the volume of a block with its joints is at least the wall's volume net of openings."""
    top = floor * narrowing
    shape = (floor, top, wall, undercut * wall, top * span_more, top * span_more * rise_share)
    area = face_area(*shape)
    courses = course_widths(*shape, block_height + joint)
    count = block_count(courses, door * area, block_length, block_height, layers, joint)
    cell = (block_length + joint) * (block_height + joint) * thickness
    assert count * cell >= (1 - door) * area * thickness * layers * (1 - 1e-4) - 1e-6  # the area is a sum of slices


@given(count=st.integers(0, 5000), breakage=st.floats(0.0, 0.8))
def test_enough_blocks_arrive_whole(count, breakage):
    """After the breakage at least the blocks of the wall are left."""
    assert blocks_to_quarry(count, breakage) * (1 - breakage) >= count - 1e-5


def test_quarry_counts_saw_cut_and_waste():
    """The quarry is larger than the blocks by the saw cuts and the waste, and its area follows from its depth."""
    tight = quarry_volume(100, 0.6, 0.3, 0.3, 0.0, 0.0)
    assert tight == pytest.approx(100 * 0.6 * 0.3 * 0.3)
    assert quarry_volume(100, 0.6, 0.3, 0.3, 0.01, 0.2) == pytest.approx(100 * 0.61 * 0.31 * 0.31 / 0.8)
    assert quarry_area(12.0, 1.5) == pytest.approx(8.0)
