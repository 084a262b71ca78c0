"""Plan geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from firnstead.station import StationFile
from firnstead.station.geometry import (
    Axis,
    axis,
    cut_length,
    junction,
    length_inside,
    link_length,
    rectangle,
    shared_depth,
)

_coordinate = st.floats(-50, 50)


def _rectangle(x: float, y: float, bearing: float, length: float, half: float) -> tuple[tuple[float, float], ...]:
    angle = math.radians(bearing)
    return rectangle(Axis((x, y), (math.sin(angle), math.cos(angle)), length), 0, length, half)


_rectangles = st.builds(_rectangle, _coordinate, _coordinate, st.floats(0, 360), st.floats(1, 60), st.floats(0.5, 8))


@given(_rectangles, _rectangles)
def test_overlap_of_rectangles_agrees_with_a_geometry_library(
    a: tuple[tuple[float, float], ...], b: tuple[tuple[float, float], ...]
) -> None:
    """Two rectangles share ground exactly when shapely finds a common area."""
    depth, area = shared_depth(a, b), Polygon(a).intersection(Polygon(b)).area
    if depth > 1e-6:
        assert area > 0
    if depth < -1e-6:
        assert area == 0


def test_bearings_run_clockwise_from_north(first: StationFile) -> None:
    """A bearing of 90 degrees leads east, and left of it is north."""
    place = first.station.trenches["North 1"].model_copy(update={"bearing": 90.0})
    line = axis(place)
    assert line.end == pytest.approx((36, 0))
    assert line.at(10, left=2) == pytest.approx((10, 2))
    assert line.bearing == pytest.approx(90)


def test_a_trench_is_cut_only_outside_its_passage(full: StationFile) -> None:
    """What lies inside the passage is the passage's; what is left between them is the link's."""
    station = full.station
    trench = station.trenches["North 1"]
    assert link_length(station, trench) == pytest.approx(3.0)
    assert cut_length(station, "North 1") == pytest.approx(40)
    inside = trench.model_copy(update={"start": (15.0, 0.0)})
    moved = station.model_copy(update={"trenches": {**station.trenches, "North 1": inside}})
    met = junction(moved, inside)
    assert met is not None
    assert met.gap == 0
    assert met.overlap == pytest.approx(3.8)
    assert cut_length(moved, "North 1") == pytest.approx(36.2)


_axes = st.builds(
    lambda x, y, bearing, length: Axis((x, y), (math.sin(bearing), math.cos(bearing)), length),
    _coordinate,
    _coordinate,
    st.floats(0, 2 * math.pi),
    st.floats(1, 60),
)


@given(_axes, _axes, st.floats(0.5, 8))
def test_length_inside_a_passage_agrees_with_a_geometry_library(line: Axis, other: Axis, half: float) -> None:
    """The part of an axis inside a passage is what shapely cuts out of it."""
    room = Polygon(rectangle(other, 0, other.length, half))
    assert length_inside(line, other, half) == pytest.approx(
        LineString([line.start, line.end]).intersection(room).length, abs=1e-6
    )


def test_the_crossing_of_two_passages_is_cut_once(full: StationFile) -> None:
    """A passage that crosses an earlier one is cut only outside it."""
    station = full.station
    across = station.passages["Main"].model_copy(update={"start": (100.0, -60.0), "end": (100.0, 60.0)})
    both = station.model_copy(update={"passages": {**station.passages, "Across": across}})
    assert cut_length(both, "Main") == pytest.approx(340)
    assert cut_length(both, "Across") == pytest.approx(120 - 7.6)


def test_a_trench_along_its_passage_does_not_open_into_it(full: StationFile) -> None:
    """A parallel axis or one that misses the passage has no junction."""
    trench = full.station.trenches["North 1"]
    assert junction(full.station, trench.model_copy(update={"bearing": 90.0})) is None
    assert junction(full.station, trench.model_copy(update={"start": (-80.0, 6.6)})) is None
    assert junction(full.station, trench.model_copy(update={"opens_into": None})) is None
