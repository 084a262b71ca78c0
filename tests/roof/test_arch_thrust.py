"""Shape of arches and forces of the two-hinged segment."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.roof import arch
from firnstead.roof.thrust import segment_haunch_load, segment_point_load, segment_uniform_load

RISE = st.floats(0.1, 0.5)


@given(st.floats(1, 20), RISE)
def test_arc_length_by_chords(span: float, share: float) -> None:
    """Both arc lengths are the limit of many chords."""
    rise = share * span
    for height, length in (
        (arch.segment_height, arch.segment_arc_length),
        (arch.parabola_height, arch.parabola_arc_length),
    ):
        angle = np.linspace(0, np.pi, 2001)
        x = span / 2 * (1 - np.cos(angle))  # close at the feet, where a half circle is steep
        y = np.array([height(span, rise, float(min(v, span))) for v in x])
        assert length(span, rise) == pytest.approx(np.hypot(np.diff(x), np.diff(y)).sum(), rel=1e-4)


@given(RISE, st.floats(0.05, 0.95))
def test_parts_add_up(rise: float, split: float) -> None:
    """Loads on two parts of the span add up to the load on the whole."""
    for load in (segment_uniform_load, segment_haunch_load):
        both, whole = load(rise, 0.0, split).plus(load(rise, split, 1.0)), load(rise)
        assert both.horizontal == pytest.approx(whole.horizontal, rel=1e-9)
        assert both.left == pytest.approx(whole.left, rel=1e-9)
        np.testing.assert_allclose(both.moment, whole.moment, atol=1e-9)


@given(RISE, st.floats(0.05, 0.95))
def test_mirror(rise: float, place: float) -> None:
    """A load mirrored about the crown gives mirrored forces and the same thrust."""
    one, other = segment_point_load(rise, place), segment_point_load(rise, 1 - place)
    assert one.horizontal == pytest.approx(other.horizontal, rel=1e-6)
    assert one.left == pytest.approx(other.right, rel=1e-9)
    np.testing.assert_allclose(one.moment, other.moment[::-1], atol=1e-9)


@given(RISE, st.floats(0.1, 0.9), st.floats(0.01, 0.1))
def test_narrow_load_is_a_point_load(rise: float, place: float, width: float) -> None:
    """A narrow even load has the thrust of a point load as it gets narrower."""
    width = min(width, 2 * place, 2 * (1 - place))
    narrow = segment_uniform_load(rise, place - width / 2, place + width / 2)
    assert narrow.horizontal / width == pytest.approx(segment_point_load(rise, place).horizontal, rel=0.02, abs=0.01)


@given(st.floats(0.1, 0.45))
def test_one_side_bends_at_least_as_much(rise: float) -> None:
    """The load on one half bends the arch at least as much as the same load on the whole."""
    assert segment_uniform_load(rise, 0.0, 0.5).bending >= segment_uniform_load(rise).bending


@given(RISE)
def test_feet_are_hinges_and_balance_holds(rise: float) -> None:
    """No moment at the feet; reactions carry the load; thrust at the feet is that of both reactions."""
    forces = segment_uniform_load(rise)
    assert abs(forces.moment[0]) < 1e-9
    assert abs(forces.moment[-1]) < 1e-9
    assert forces.left + forces.right == pytest.approx(1.0)
    alpha = arch.segment_half_angle(1.0, rise)
    assert forces.axial[0] == pytest.approx(forces.horizontal * np.cos(alpha) + forces.left * np.sin(alpha), rel=1e-6)


def test_flat_arch_carries_more_than_half_the_span() -> None:
    """8 kPa on 6 m by 1.5 m gives 33 kN/m, not the 24 kN/m of pressure times half the span."""
    assert segment_uniform_load(0.25).compression * 8000 * 6 == pytest.approx(33.0e3, rel=0.01)


def test_rise_and_radius() -> None:
    """A half circle has the radius of half its span and half a turn of arc."""
    assert arch.segment_radius(4.0, 2.0) == pytest.approx(2.0)
    assert arch.segment_arc_length(4.0, 2.0) == pytest.approx(2 * np.pi)
    assert arch.segment_height(4.0, 2.0, 0.0) == pytest.approx(0.0, abs=1e-9)
