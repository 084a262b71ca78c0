"""Arches on seats that come in."""

import math

import numpy as np
import pytest
from scipy.integrate import quad

from firnstead import roof, snow
from firnstead.core.memo import Memo
from firnstead.core.results import Verdict
from firnstead.core.units import YEAR
from firnstead.roof.moving_seat import rise_after_closing, spread_flexibility
from firnstead.station import StationFile


@pytest.mark.parametrize("half_angle", [0.4, 1.0, math.pi / 2])
def test_flexibility_is_the_integral(half_angle: float) -> None:
    """The closed form is the integral of squared height along the arch."""
    whole = quad(lambda t: 8.0 * (math.cos(t) - math.cos(half_angle)) ** 2, -half_angle, half_angle)[0]
    assert spread_flexibility(2.0, half_angle) == pytest.approx(whole, rel=1e-9)


def test_arch_keeps_its_length() -> None:
    """With a smaller span the arch rises so that its length stays; an impossible span gives no rise."""
    for span in (2.2, 3.0, 3.9):
        rise = rise_after_closing(4.0, span)
        radius = (span**2 / 4 + rise**2) / (2 * rise)
        half_angle = math.asin(min(1.0, span / 2 / radius))
        half_angle = math.pi - half_angle if rise > radius else half_angle
        assert 2 * radius * half_angle == pytest.approx(4.0, rel=1e-6)
    assert math.isnan(rise_after_closing(4.0, 4.1))


def moved(first: StationFile, expected: float, greatest: float):
    """The first station's roof on seats that come in at steady rates [m/yr]."""
    station = first.station
    before = roof.study(station, snow.study(station).result)
    dates = np.arange(41) * 0.25 * YEAR
    rows = tuple(tuple(float(rate * t / YEAR) for t in dates) for rate in (expected, greatest))
    return roof.with_moving_seats(station, before, {"North 1": (tuple(map(float, dates)), *rows)}, Memo())


@pytest.mark.parametrize(
    "expected, greatest, verdict",
    [(0.0, 0.0, Verdict.HOLDS), (0.05, 0.4, Verdict.CLOSE), (0.4, 0.5, Verdict.FAILS)],
)
def test_verdict_by_both_ends(first: StationFile, expected: float, greatest: float, verdict: Verdict) -> None:
    """Still seats hold, seats that are only fast at the end of the band are close, fast seats fail."""
    made = moved(first, expected, greatest)
    (check,) = [c for c in made.checks if c.key == "roof.moving_seat"]
    assert check.verdict is verdict


def test_years_follow_seats_and_cover(first: StationFile) -> None:
    """The span shrinks and the rise grows with the seats; ring compression grows with the cover."""
    rows = moved(first, 0.02, 0.04).result.places["North 1"].moving
    assert rows.span[0] - rows.span[-1] == pytest.approx(2 * 0.04 * 10)
    assert rows.rise[-1] > rows.rise[0]
    assert np.all(np.diff(rows.ring) > 0)
    assert np.all(np.diff(rows.share) > 0)
