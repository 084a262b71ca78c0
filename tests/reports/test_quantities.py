"""Quantities of a place on paper and on screen."""

from __future__ import annotations

import pytest

from firnstead.core.results import as_plain
from firnstead.pipeline import assess
from firnstead.reports.quantities import place_quantities, undercut_rows
from firnstead.station import StationFile


@pytest.fixture(scope="module")
def results(full: StationFile) -> dict[str, object]:
    """The results of the full station in their machine-readable form."""
    found: dict[str, object] = as_plain(assess(full).results)
    return found


def test_a_roof_of_formed_snow_has_no_sheets(results: dict[str, object]) -> None:
    """Steel stands only in the list of a place with a steel roof."""
    assert "Arch sheets" in dict(place_quantities(results, "North 1", "metric"))
    formed = dict(place_quantities(results, "South 6", "metric"))
    assert "Arch sheets" not in formed
    assert "Cover as placed" in formed


def test_only_an_undercut_is_set_beside_a_straight_cut(results: dict[str, object]) -> None:
    """The side-by-side list stands for undercut places, in the reader's units."""
    assert undercut_rows(results, "Main", "metric") == []
    rows = {what: saved for what, _, saved in undercut_rows(results, "North 1", "us")}
    assert rows["Sheet saved"].endswith("ft²")
