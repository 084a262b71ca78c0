"""Charts: the same drawing each time, told apart without colour."""

from __future__ import annotations

import re

import pytest

from firnstead.reports.charts import DASHES, Band, Line, depth_chart, svg, years_chart
from firnstead.reports.snow_pages import interpolated

LINES = [Line(f"question {n}", ((0.0, 0.1 * n), (10.0, 0.3 * n))) for n in range(5)]


@pytest.fixture(scope="module")
def drawn() -> str:
    """A chart of years as SVG."""
    return svg(years_chart(LINES, "year", "share", "Title", 300, 200))


def test_the_same_chart_gives_the_same_text(drawn: str) -> None:
    """Charts can be compared byte by byte."""
    assert svg(years_chart(LINES, "year", "share", "Title", 300, 200)) == drawn


def test_every_line_is_named_and_has_its_own_dashes(drawn: str) -> None:
    """A photocopy still tells the lines apart."""
    assert all(line.name in drawn for line in LINES)
    assert len(set(re.findall(r'stroke-dasharray="([^"]+)"', drawn))) >= len(LINES) - 1
    assert len(set(DASHES)) == len(DASHES)


def test_charts_are_ink_and_greys_only(drawn: str) -> None:
    """No colour carries a meaning: red, green and blue of every tone lie close together."""
    chart = svg(
        depth_chart(
            "Density", "kg/m³", "depth [m]", LINES, Band("spread", ((0.0, 1.0, 2.0), (9.0, 2.0, 4.0))), 9.0, 200
        )
    )
    for tone in set(re.findall(r"#[0-9a-fA-F]{6}\b", drawn + chart)):
        parts = [int(tone[i : i + 2], 16) for i in (1, 3, 5)]
        assert max(parts) - min(parts) <= 20, tone


def test_the_line_between_points_is_straight_and_ends_hold() -> None:
    """Values between nodes are linear; beyond the last node the last value stands."""
    assert interpolated([0.0, 2.0], [1.0, 3.0], 0.5) == 1.5
    assert interpolated([0.0, 2.0], [1.0, 3.0], 5.0) == 3.0
