"""A forecast with its band."""

import numpy as np
import pytest

from closure.boxes import trench
from firnstead.closure.calibrate import softness_from_depth
from firnstead.closure.forecast import forecast, variants
from firnstead.closure.outcome import Envelope
from firnstead.closure.results import ClosureForecast
from firnstead.core.units import YEAR


@pytest.fixture(scope="module")
def found() -> ClosureForecast:
    """Two years of a covered trench round a building 2.4 m wide and 2.5 m high."""
    k_linear = softness_from_depth(12.35, 550.0, 362.0, 248.55, 350.0 / YEAR, exponent=1.0)
    case = trench(0.75)
    shares: list[float] = []
    done = forecast(
        case, Envelope(1.2, 2.5), 0.4, np.linspace(0, 2, 21) * YEAR, (0.8, 1.6, 2.4), variants(case, k_linear),
        progress=shares.append)  # fmt: skip
    assert shares[-1] == 1.0
    return done


def test_band_is_in_order_and_starts_at_the_cut(found: ClosureForecast) -> None:
    """Widths and height start as cut; least movement leaves most room, greatest least; heave and sag grow."""
    assert found.height.expected[0] == pytest.approx(6.0)
    for room in (*found.widths, found.height):
        assert room.least[0] == room.expected[0] == room.greatest[0]
        assert np.all(np.array(room.least) >= np.array(room.expected) - 1e-12)
        assert np.all(np.array(room.expected) >= np.array(room.greatest) - 1e-12)
        assert np.all(np.diff(room.expected) < 0)
    for move in (found.floor_heave, found.roof_sag, found.shoulder_sag):
        assert move.least[-1] < move.expected[-1] < move.greatest[-1]
        assert move.expected[0] == 0.0


def test_losses_and_trimming(found: ClosureForecast) -> None:
    """The clearance at the side is lost first at the fast end of the band; trimming needs snow cut every year."""
    assert 0.0 < found.side.earliest < found.side.expected < found.side.latest
    assert found.side.expected < 2 * YEAR
    at = np.interp(found.side.expected, found.dates, [w - 2 * 1.2 for w in found.widths[2].expected]) / 2
    assert at == pytest.approx(0.4, abs=0.15)
    assert len(found.trim) == 2
    assert found.trim[1] > 0.0
    assert len(found.outlines) == len(found.dates)


def test_effects_have_their_signs(found: ClosureForecast) -> None:
    """Softer and warmer snow closes faster; all four doubts are told, the largest first."""
    effects = dict(found.effects)
    assert set(effects) == {"creep exponent", "site constant k", "temperature", "density"}
    assert 0.1 < effects["site constant k"] < 0.25  # a rate goes about as k, and ln 1.2 = 0.18
    assert 0.1 < effects["temperature"] < 0.3  # exp(Q/(R T^2) 2 K) = 1.25
    assert effects["density"] < 0.0
    assert [abs(e) for _, e in found.effects] == sorted((abs(e) for e in effects.values()), reverse=True)
