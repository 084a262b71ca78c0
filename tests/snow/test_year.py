"""The months at the snow surface."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.snow.year import monthly_surface_temperature, surface_temperature_by_month, warmest_month
from firnstead.station.reader import read_station
from house.project import ROOT


def test_the_warmest_month_is_in_local_summer():
    """July in the north, January in the south; the file's own site takes part in it."""
    site = read_station(ROOT / "examples" / "stations" / "first").station.site
    north = surface_temperature_by_month(site)
    south = surface_temperature_by_month(site.model_copy(update={"latitude": -site.latitude}))
    assert max(range(12), key=north.__getitem__) == 6
    assert max(range(12), key=south.__getitem__) == 0
    assert warmest_month(0.0) == 6


@given(st.floats(200.0, 265.0), st.floats(0.0, 40.0), st.sampled_from([0, 6]))
def test_mean_and_swing_are_kept(mean, swing, warmest):
    """The twelve months have the site's mean and half-range."""
    row = monthly_surface_temperature(mean, swing, warmest)
    assert sum(row) / 12 == pytest.approx(mean)
    assert (max(row) - min(row)) / 2 == pytest.approx(swing, abs=1e-9)
