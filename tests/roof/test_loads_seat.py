"""Cover, live load, load transfer, formed-snow arches, seats."""

from math import cosh, inf, pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.roof import cover, earth, formed, live, seat

WIDTH = st.floats(0.1, 2.0)


def test_arching_relief_is_refused() -> None:
    """An arching factor below 1 is no lasting relief."""
    with pytest.raises(ValueError):
        cover.cover_pressure(1000.0, 0.9)


@given(st.floats(0, 1000), st.floats(1, 600), st.floats(0.5, 3), st.floats(1, 50))
def test_cover_only_grows(placed: float, accumulation: float, drift: float, years: float) -> None:
    """The mass on a roof never falls with time, and rises with accumulation and drift."""
    now = cover.cover_mass(placed, accumulation, drift, years)
    assert now >= cover.cover_mass(placed, accumulation, drift, years / 2)
    assert cover.cover_mass(placed, accumulation * 1.1, drift, years) > now
    assert cover.cover_mass(placed, accumulation, drift * 1.1, years) > now


@given(st.lists(st.floats(0, 3), min_size=3, max_size=20))
def test_first_exceedance_brackets(steps: list[float]) -> None:
    """The time found lies between the last step that holds and the first that fails."""
    ratio = np.maximum.accumulate(np.array(steps))
    time = np.arange(len(steps), dtype=float)
    at = cover.first_exceedance(time, ratio)
    holding = time[ratio <= 1]
    if at == inf:
        assert (ratio <= 1).all()
    else:
        assert at >= (holding.max() if holding.size else 0.0) - 1e-12
        assert at <= time[ratio > 1].min()


@given(st.floats(0.3, 5), st.floats(0.1, 3))
def test_patch_load_spreads_with_depth(depth: float, more: float) -> None:
    """Every way of spreading gives less pressure deeper down, and never more than the patch itself."""
    for law in (
        lambda z: live.pressure_spread(1e5, 0.5, 2.0, z),
        lambda z: live.load_coefficient_patch(0.25 / z, 1.0 / z) * 1e5,
        lambda z: live.pressure_wheels_aashto(1e5, z, 1.8),
        lambda z: live.stress_boussinesq(1e5, z, 0.0),
        lambda z: live.machine_pressure(1e5, 0.6, 2.5, 2.6, z)[0],
    ):
        assert law(depth + more) < law(depth)
    assert live.load_coefficient_patch(100.0, 100.0) == pytest.approx(1.0, abs=1e-3)


def test_boussinesq_carries_the_load() -> None:
    """The vertical stress over a level plane adds up to the load."""
    r = np.linspace(0, 400, 400_001)
    stress = 3 / (2 * pi) * (1 + r**2) ** -2.5
    assert live.stress_boussinesq(1.0, 1.0, 2.0) == pytest.approx(float(3 / (2 * pi) * 5**-2.5))
    assert np.trapezoid(stress * 2 * pi * r, r) == pytest.approx(1.0, abs=1e-4)


def test_impact_and_least_cover() -> None:
    """Impact fades with cover; the least cover is an eighth of the span or 0.3 m."""
    assert live.impact_lrfd(0.0) == pytest.approx(1.33)
    assert live.impact_lrfd(3.0) == 1.0
    assert live.minimum_cover(12.0) == 1.5


@given(st.floats(0.5, 10), st.floats(0.1, 2.0))
def test_arching_bounds(depth: float, settlement: float) -> None:
    """Projecting conduits carry more than the prism of fill, ditch conduits less; no settlement, just the prism."""
    assert earth.load_coefficient_incomplete(depth, 0.19, settlement) >= depth
    assert earth.load_coefficient_incomplete(depth, 0.13, -settlement) <= depth
    assert earth.load_coefficient_incomplete(depth, 0.19, 0.0) == depth
    assert earth.load_coefficient_ditch(depth, 0.13) < depth


@pytest.mark.parametrize("settlement", [0.1, 0.3, 0.5, 0.7, 1.0, 2.0, -0.1, -0.3, -0.5, -0.7, -1.0])
def test_straight_line_fits(settlement: float) -> None:
    """The published straight lines lie within 2 % of the equation above the plane of equal settlement."""
    friction = 0.19 if settlement > 0 else 0.13
    for depth in (6.0, 9.0):
        line = earth.load_coefficient_fit(depth, settlement)
        assert earth.load_coefficient_incomplete(depth, friction, settlement) == pytest.approx(line, rel=0.02)


def test_trapdoor_without_friction_is_the_prism() -> None:
    """As friction goes to nothing the strip carries the fill above it."""
    assert earth.pressure_trapdoor_terzaghi(5000.0, 3.0, 0.0, 1e-9, 2.0, 1000.0) == pytest.approx(11000.0, rel=1e-6)


@given(st.floats(1, 8), st.floats(0.1, 0.9))
def test_catenary(span: float, share: float) -> None:
    """The catenary found passes through its feet; a constant-stress arch of the same stress falls further."""
    a = formed.catenary_parameter(span, share * span)
    assert a * (cosh(span / (2 * a)) - 1) == pytest.approx(share * span, rel=1e-6)
    stress = formed.crown_stress_catenary(a, 500.0)
    if span < 0.9 * formed.span_limit(stress, 500.0):
        assert formed.constant_stress_drop(span / 2, stress, 500.0) > share * span


def test_foot_carries_more_than_crown() -> None:
    """The stress at the feet of a snow arch is above that at its crown."""
    assert formed.foot_stress(8000.0, 2.4, 0.8, 0.6) > formed.crown_stress(8000.0, 2.4, 0.8, 0.6)


@given(
    st.floats(0, 1),
    WIDTH,
    st.floats(0, 1.5),
    st.floats(0, 1.5),
    st.floats(0.3, 3),
    st.floats(0.5, 6),
    st.integers(1, 6),
)
def test_bearing_never_rises_with_the_undercut(
    setback: float, width: float, undercut: float, more: float, start: float, height: float, passes: int
) -> None:
    """A wider undercut never raises the bearing pressure of a plank on the shoulder."""

    def limit(u: float) -> float:
        lean = seat.face_lean(setback, seat.undercut_steps(u, start, height, passes))
        return seat.bearing_edge(1.0, width, seat.effective_setback(setback, u), lean)

    assert limit(undercut + more) <= limit(undercut) + 1e-12


@given(WIDTH, st.floats(0, 4))
def test_safe_bearing_is_below_the_wedge(width: float, setback: float) -> None:
    """The safe bound never lies above the wedge's upper bound, nor above level ground."""
    safe = seat.bearing_edge(1.0, width, setback)
    assert safe <= seat.bearing_setback_wedge(1.0, width, setback) + 0.01
    assert safe <= seat.bearing_level(1.0)


def test_overhanging_wedge_agrees_with_the_lean() -> None:
    """For a small lean the slope term is that of a wedge sliding out under an overhanging face, 2 c/(tan + sec)."""
    lean = 0.1
    wedge = 2 / (np.tan(lean) + 1 / np.cos(lean))
    assert seat.bearing_edge(1.0, 0.5, -0.1, lean) == pytest.approx(wedge, rel=0.01)
    assert seat.bearing_slope(1.0, pi / 2 + lean) == pytest.approx(2 * (1 - lean))


@given(st.floats(1e3, 1e5), WIDTH, st.floats(0, 0.49))
def test_eccentric_pressure(reaction: float, width: float, share: float) -> None:
    """Eccentric load presses harder; both formulas meet at a sixth of the width; beyond half it tips."""
    middle = seat.eccentric_pressure(reaction, width, 0.0)
    assert seat.eccentric_pressure(reaction, width, share * width) >= middle * (1 - 1e-12)
    inside, outside = (seat.eccentric_pressure(1.0, 6.0, e) for e in (1.0, 1.000001))
    assert inside == pytest.approx(outside, rel=1e-5)
    assert seat.eccentric_pressure(reaction, width, width / 2) == inf


@given(st.floats(0.1, 1.0), st.floats(0.5, 4.0))
def test_ledge_without_load_is_a_cantilever(overhang: float, thickness: float) -> None:
    """A bare square ledge has tension 3 gamma b^2/t and mean shear gamma b at its root; thrust takes tension off."""
    bare = seat.ledge_bending(overhang, thickness, 4000.0, 0.0, overhang, 0.0)
    assert bare.tension == pytest.approx(3 * 4000 * overhang**2 / thickness)
    assert bare.shear == pytest.approx(4000 * overhang)
    loaded = seat.ledge_bending(overhang, thickness, 4000.0, 0.0, overhang, 1e4)
    pressed = seat.ledge_bending(overhang, thickness, 4000.0, 0.0, overhang, 1e4, thrust=5e3)
    assert pressed.tension < loaded.tension
    assert loaded.tension > bare.tension


def test_no_ledge_left() -> None:
    """An undercut that starts at the bench leaves a ledge of no strength."""
    assert seat.ledge_bending(0.3, 0.0, 4000.0, 0.0, 0.3, 1e4).tension == inf
    assert seat.face_lean(0.1, seat.undercut_steps(0.6, 0.0, 4.0, 4)) == pytest.approx(pi / 2)
