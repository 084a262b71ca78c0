"""What is read off a march, and the band of a forecast."""

import numpy as np
import pytest

from closure.boxes import trench
from firnstead.closure.band import Doubt, band_of_losses
from firnstead.closure.march import March
from firnstead.closure.mesh import HalfSection
from firnstead.closure.outcome import Envelope, Outcome, Void, area_to_trim
from firnstead.core.units import YEAR

ROOM = Void(np.array([[0.0, 0.1], [1.0, 0.0], [1.4, 0.0], [1.1, 2.0], [0.9, 2.6], [0.0, 2.5]]), 0.1, 2.5)


@pytest.fixture(scope="module")
def outcome() -> Outcome:
    """Two years of a covered trench."""
    return Outcome(March(trench(0.6)).run(2 * YEAR))


def test_widths_and_room_of_a_void() -> None:
    """Widths are taken at heights above the floor, none where there is no void; the lowest point of the roof counts."""
    assert ROOM.half_width(0.9) == pytest.approx(1.25)
    assert ROOM.half_width(3.0) == 0.0
    assert ROOM.room_above(0.5) == pytest.approx(2.4)
    assert Envelope(0.8, 1.9).side_clearance(ROOM) == pytest.approx(1.1 - 0.8, abs=0.02)


def test_start_is_the_section(outcome: Outcome) -> None:
    """At time zero the outline is what was meshed, nothing has risen and nothing is to be trimmed."""
    void = outcome.void(0.0)
    assert void.height == pytest.approx(6.0)
    assert void.half_width(3.0) == pytest.approx(2.2)
    assert outcome.rise(0.0, "floor") == 0.0
    assert area_to_trim(void, 1.7, 5.9) == 0.0


def test_closure_takes_its_course(outcome: Outcome) -> None:
    """Width and height fall, the floor heaves and the roof sags against far snow, more snow is to be trimmed."""
    dates = (0.5, 1.0, 2.0)
    voids = [outcome.void(t * YEAR) for t in dates]
    assert np.all(np.diff([v.half_width(2.0) for v in voids]) < 0)
    assert np.all(np.diff([v.height for v in voids]) < 0)
    assert np.all(np.diff([outcome.rise(t * YEAR, "floor") for t in dates]) > 0)
    assert np.all(np.diff([outcome.rise(t * YEAR, "roof") for t in dates]) < 0)
    assert outcome.rise(YEAR, "roof", at_wall=True) > outcome.rise(YEAR, "roof")
    assert np.all(np.diff([area_to_trim(v, 2.2, 4.0) for v in voids]) > 0)


def test_time_lost_is_the_crossing(outcome: Outcome) -> None:
    """At the time given the clearance is what was needed; one that is never lost is lost at no time."""
    watched = Envelope(1.2, 3.0).side_clearance
    lost = outcome.time_lost(watched, 0.4)
    assert 0.0 < lost < 2 * YEAR
    assert watched(outcome.void(lost)) == pytest.approx(0.4, abs=2e-3)
    assert outcome.time_lost(watched, -5.0) == np.inf
    assert outcome.time_lost(watched, 5.0) == 0.0


def test_open_trench_and_seat_load() -> None:
    """A trench open to the sky closes too, and the load of an arch on its seats pushes the shoulders down."""
    section = HalfSection(((1.8, 0.0), (2.4, 6.0)), side=20.0, depth=25.0, seat=0.6, size=0.6, growth=1.35)
    plain = March(trench(section=section, roof="open", air=None)).run(0.5 * YEAR)
    loaded = March(trench(section=section, roof="open", air=None, seat_load=lambda time: 3e4)).run(0.5 * YEAR)
    seat = np.unique(plain.mesh.edges["seat"])
    assert loaded.points(0.5 * YEAR)[seat, 1].max() < plain.points(0.5 * YEAR)[seat, 1].min() - 0.05
    assert Outcome(plain).void(0.5 * YEAR).half_width(2.0) < Outcome(plain).void(0.0).half_width(2.0)


def test_band_holds_every_single_change() -> None:
    """Each run with one input changed lies in the band, a bound in full, and the largest effect comes first."""
    base = np.array([0.3, 0.6, 0.0])
    doubts = (
        Doubt("k", 0.8 * base, 1.3 * base), Doubt("temperature", 0.5 * base, 2.0 * base),
        Doubt("exponent", 0.7 * base, 1.1 * base, bound=True))  # fmt: skip
    band = band_of_losses(base, doubts)
    for doubt in doubts:
        assert np.all(band.least[:2] <= doubt.low[:2] + 1e-12)
        assert np.all(band.greatest[:2] >= doubt.high[:2] - 1e-12)
    assert band.greatest[0] > 1.1 * 2.0 * base[0]
    assert (
        band_of_losses(base[:2], tuple(Doubt(d.name, d.low[:2], d.high[:2]) for d in doubts)).effects[0][0]
        == "temperature"
    )
