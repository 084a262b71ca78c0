"""Closed forms of the cutting equations against independent numerical work."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp
from shapely.geometry import Polygon
from shapely.geometry import box as rectangle

from firnstead.core.units import G0
from firnstead.cutting.casting import available_lift, throw_speed
from firnstead.cutting.checks_rooms import arch_height_at
from firnstead.cutting.passes import Pass
from firnstead.cutting.rooms import free_ground
from firnstead.cutting.stability import overhang_shear, overhang_strips, overhang_tension
from firnstead.cutting.undercut_gain import arc_length
from firnstead.cutting.volumes import circular_segment_area, cover_area, parabola_segment_area
from firnstead.snow.walls_stability import bending_tension_leaning_wall, mean_shear_leaning_wall


def arch_points(span: float, rise: float, count: int = 4001) -> np.ndarray:
    """Points of a circular arch from foot to foot, by its centre and radius."""
    radius = (span**2 / 4 + rise**2) / (2 * rise)
    half = np.arctan2(span / 2, radius - rise)
    angle = np.linspace(-half, half, count)
    return np.column_stack((radius * np.sin(angle), radius * np.cos(angle) - (radius - rise)))


def test_envelope_of_throws():
    """With a reach of twice the height the lift is the highest point of all throws of one speed at that distance."""
    height, x = 9.0, 8.0
    speed = np.sqrt(2 * G0 * height)
    angle = np.linspace(0.01, np.pi / 2 - 0.01, 20001)
    thrown = x * np.tan(angle) - G0 * x**2 / (2 * (speed * np.cos(angle)) ** 2)
    assert available_lift(x, height, 2 * height) == pytest.approx(thrown.max(), rel=1e-6)


@pytest.mark.parametrize(("lift", "distance"), [(0.0, 25.0), (7.2, 9.4), (3.0, 30.0)])
def test_least_speed_of_a_throw(lift, distance):
    """Integrating the flight with that speed at the best angle meets the landing; a hundredth less never gets there."""

    def height_there(speed: float, angle: float) -> float:
        start = [0.0, 0.0, speed * np.cos(angle), speed * np.sin(angle)]
        flight = solve_ivp(lambda _, y: [y[2], y[3], 0.0, -G0], (0.0, distance / start[2]), start, rtol=1e-9)
        return float(flight.y[1, -1])

    speed = throw_speed(lift, distance)
    best = np.pi / 4 + np.arctan2(lift, distance) / 2
    assert height_there(speed, best) == pytest.approx(lift, abs=1e-5)
    assert max(height_there(0.99 * speed, a) for a in np.linspace(0.2, 1.5, 60)) < lift


def test_many_thin_steps_become_a_leaning_wall():
    """The stepped overhang tends to the wall that leans evenly, to first order in the steps."""
    lean, height, density = 0.8, 5.0, 450.0
    errors = []
    for n in (20, 40, 80):
        passes = tuple(Pass("undercut", height * i / n, height * (i + 1) / n, -1 - lean * i / n, 1 + lean * i / n, 1)
                       for i in range(n + 1))  # fmt: skip
        strips = overhang_strips(passes, n)
        tension, shear = overhang_tension(strips, density * G0), overhang_shear(strips, density * G0)
        errors.append((tension / bending_tension_leaning_wall(lean, height, density) - 1,
                       shear / mean_shear_leaning_wall(lean, density) - 1))  # fmt: skip
    for a, b in zip(errors, errors[1:], strict=False):
        assert np.abs(b) == pytest.approx(np.abs(a) / 2, rel=0.1)
    assert np.abs(errors[-1]).max() < 0.03


def test_moment_of_a_stepped_overhang_by_integration():
    """The moment behind the tension is the integral of weight times arm over the hanging snow."""
    passes = (Pass("straight", 0.0, 1.4, -2.0, 2.0, 1), Pass("undercut", 1.4, 2.4, -2.2, 2.2, 1),
              Pass("undercut", 2.4, 3.4, -2.6, 2.6, 1))  # fmt: skip
    strips = overhang_strips(passes, 2)
    moment = sum(quad(lambda z, p=p: 4400.0 * (2.6 - p.right) ** 2 / 2, p.top, p.bottom)[0] for p in passes[:2])
    assert overhang_tension(strips, 4400.0) == pytest.approx(6 * moment / 2.4**2)


@given(span=st.floats(1.0, 14.0), share=st.floats(0.05, 0.5))
def test_arch_area_and_length(span, share):
    """Segment and arc agree with a fine polygon of the arch."""
    arch = arch_points(span, share * span)
    assert circular_segment_area(span, share * span) == pytest.approx(Polygon(arch).area, rel=1e-5)
    steps = np.diff(arch, axis=0)
    assert arc_length(span, share * span) == pytest.approx(np.hypot(steps[:, 0], steps[:, 1]).sum(), rel=1e-5)


@given(span=st.floats(1.0, 14.0), share=st.floats(0.05, 0.5), at=st.floats(0.0, 0.999))
def test_arch_height(span, share, at):
    """The height at a distance lies on the arch."""
    arch = arch_points(span, share * span, 20001)
    expected = np.interp(at * span / 2, arch[:, 0], arch[:, 1])
    assert arch_height_at(span, share * span, at * span / 2) == pytest.approx(expected, abs=2e-3 * span)


@given(
    span=st.floats(2.0, 12.0), share=st.floats(0.1, 0.5), cover=st.floats(0.2, 3.0), bench=st.floats(0.2, 1.5),
    drop=st.floats(0.0, 1.0), round_arch=st.booleans(),
)  # fmt: skip
def test_cover_against_shapely(span, share, cover, bench, drop, round_arch):
    """The cover is the polygon between roof and top line; a level top is the rectangle less the arch."""
    rise, width = share * span, span + 2 * bench
    arch = arch_points(span, rise)
    if not round_arch:
        arch[:, 1] = rise * (1 - (2 * arch[:, 0] / span) ** 2)
    side = cover + rise * drop  # 0: as thick at the feet as over the crown, 1: level
    top = np.column_stack((arch[:, 0], arch[:, 1] + cover + (side - cover) * (1 - arch[:, 1] / rise)))
    snow = Polygon(np.vstack((arch, top[::-1]))).area + 2 * bench * side
    under = circular_segment_area(span, rise) if round_arch else parabola_segment_area(span, rise)
    assert cover_area(width, span, rise, cover, side, under) == pytest.approx(snow, rel=1e-4)
    if drop == 1.0:
        whole = rectangle(-width / 2, 0.0, width / 2, rise + cover).difference(Polygon(arch))
        assert snow == pytest.approx(whole.area, rel=1e-9)


@given(x=st.floats(6.0, 60.0), y=st.floats(-40.0, 60.0), angle=st.floats(-80.0, 80.0), length=st.floats(5.0, 60.0))
def test_free_ground_against_shapely(x, y, angle, length):
    """The free ground is the distance across from the cut to what of the neighbour lies beside it."""
    from shapely.affinity import rotate

    other = rotate(rectangle(x, y, x + 4.0, y + length), angle, origin=(x, y))
    beside = other.intersection(rectangle(-200.0, 0.0, 200.0, 40.0))
    left, right = free_ground((0.0, 0.0), (0.0, 1.0), 40.0, 3.0, [tuple(other.exterior.coords)[:-1]], far=300.0)
    if beside.area < 1e-6:
        return
    low, _, high, _ = beside.bounds
    if low > 1e-6:
        assert (left, right) == pytest.approx((297.0, low - 3.0), abs=1e-6)
    elif high < -1e-6:
        assert (left, right) == pytest.approx((-high - 3.0, 297.0), abs=1e-6)
    else:
        assert (left, right) == (297.0, 297.0)
