"""A forecast with its band, read off a family of marches."""

from dataclasses import replace

import numpy as np
import pytest

from closure.specs import SOFT, spec
from firnstead.closure.forecast import crossing, forecast
from firnstead.closure.outcome import Envelope
from firnstead.closure.results import ClosureForecast
from firnstead.closure.spec import CHANGES, EXPECTED, family_of
from firnstead.closure.trace import Trace, trace_of
from firnstead.core.units import YEAR

ROOM, NEEDED = Envelope(1.8, 3.0), 0.3


@pytest.fixture(scope="module")
def traces() -> dict[str, Trace]:
    """Two years of a covered trench, all doubts and changes."""
    return {name: trace_of(one) for name, one in family_of(spec(), SOFT).items()}


@pytest.fixture(scope="module")
def found(traces: dict[str, Trace]) -> ClosureForecast:
    """What a building 3.6 m wide and 3 m high has left."""
    return forecast(traces, ROOM, NEEDED, (0.25, 0.5, 0.75))


def test_band_is_in_order_and_starts_at_the_cut(found: ClosureForecast) -> None:
    """Widths and height start as cut; least movement leaves most room, greatest least; heave and sag grow."""
    assert found.height.expected[0] == pytest.approx(5.0)
    for room in (*found.widths, found.height, found.side_room, found.top_room):
        assert room.least[0] == pytest.approx(room.greatest[0])
        assert np.all(np.array(room.least) >= np.array(room.expected) - 1e-12)
        assert np.all(np.array(room.expected) >= np.array(room.greatest) - 1e-12)
        assert np.all(np.diff(room.expected) <= 0)
    for move in (found.floor_heave, found.roof_sag, found.shoulder_sag, found.shoulder_in):
        assert move.least[-1] < move.expected[-1] < move.greatest[-1]
        assert move.expected[0] == 0.0


def test_linear_and_cubic_creep_lie_in_the_band(found: ClosureForecast, traces: dict[str, Trace]) -> None:
    """Both ends of the exponent are inside: neither is ruled out."""
    for name in ("linear creep", "cubic creep"):
        width = 2.0 * traces[name].void(4).half_widths(np.array([0.5 * traces[name].void(4).height]))[0]
        assert found.widths[1].greatest[4] - 1e-6 <= width <= found.widths[1].least[4] + 1e-6


def test_losses_and_trimming(found: ClosureForecast) -> None:
    """The clearance at the side is lost first at the fast end of the band; then snow is to be cut every year."""
    assert 0.0 < found.side.earliest < found.side.expected < found.side.latest
    room = np.interp(found.side.expected, found.dates, found.side_room.expected)
    assert room == pytest.approx(NEEDED, abs=1e-9)
    assert len(found.trim) == 2
    assert found.trim[1] > 0.0


def test_effects_have_their_signs(found: ClosureForecast) -> None:
    """Softer and warmer snow closes faster; all doubts are told, the largest first."""
    effects = dict(found.effects)
    assert set(effects) == {"creep exponent", "site constant k", "temperature", "density", "roof"}
    assert 0.1 < effects["site constant k"] < 0.25  # a rate goes about as k, and ln 1.2 = 0.18
    assert 0.1 < effects["temperature"] < 0.35  # exp(Q/(R T^2) 2 K) = 1.27 at -29 degC
    assert [abs(e) for _, e in found.effects] == sorted((abs(e) for e in effects.values()), reverse=True)


def test_changes_tell_what_to_change_first(found: ClosureForecast) -> None:
    """A wider cut and less cover gain time; every change is told, the greatest gain first."""
    gains = {change.what: change.gained for change in found.changes}
    assert set(gains) == set(CHANGES)
    assert gains[CHANGES[1]] > gains[CHANGES[0]] > 0.0
    assert gains[CHANGES[4]] > 0.0
    assert list(gains.values()) == sorted(gains.values(), reverse=True)


def test_a_march_that_ended_is_closed(traces: dict[str, Trace]) -> None:
    """After the end of a march nothing is left beside or above, and the note is passed on."""
    early = {**traces, EXPECTED: replace(traces[EXPECTED], end=0.6 * YEAR, note="after 0.6 years taken as closed: x")}
    found = forecast(early, ROOM, -5.0, (0.5,))
    assert found.side_room.expected[3] == -ROOM.half_width
    assert found.widths[0].expected[3] == 0.0
    assert any("taken as closed" in note for note in found.notes)
    assert [outline.year for outline in found.outlines] == [0.0]


@pytest.mark.parametrize("needed, at", [(0.5, 1.25), (2.0, 0.0), (-1.0, np.inf)])
def test_crossing(needed: float, at: float) -> None:
    """The crossing lies on the straight line between dates; at once where it is too small; never where it is not."""
    assert crossing(np.array([0.0, 1.0, 2.0]), np.array([1.0, 0.6, 0.2]), needed) == pytest.approx(at)
