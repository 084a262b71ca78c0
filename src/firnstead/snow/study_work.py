"""What must be measured in the snow before and while the station is built."""

from __future__ import annotations

from firnstead.core.results import Exposure, WorkItem
from firnstead.station import Station

HOURS = "hours and people: own rule, to be set by the engineer"


def work_items_of(station: Station) -> tuple[WorkItem, ...]:
    """Density and temperature before cutting, strength of natural snow, strength of milled snow before any load."""
    snow = station.snow
    core = WorkItem(
        id="snow.density", place="", discipline="snow",
        what="Measure density and temperature against depth: pit to 2 m, core to 3 m below the deepest floor",
        quantity=1.0, unit="core", hours=16.0, people=2, exposure=Exposure.OUTDOOR,
        note=("confirms the layers in the station file; " if snow.layers else "the design stands on a law until then; ")
        + HOURS)  # fmt: skip
    natural = WorkItem(
        id="snow.strength", place="", discipline="snow",
        what="Test the compressive strength of natural snow at bench, shoulder and floor depth, three samples each",
        quantity=9.0, unit="test", hours=8.0, people=2, exposure=Exposure.OUTDOOR, note=HOURS)  # fmt: skip
    milled = WorkItem(
        id="snow.milled_strength", place="", discipline="snow",
        what="Make samples of milled snow at the first cut; test their strength at 1, 2, 4 and 8 days, three each, "
        "with temperature and density",
        quantity=12.0, unit="test", hours=10.0, people=2, exposure=Exposure.OUTDOOR,
        note="no load on a cover before this; " + HOURS)  # fmt: skip
    return (core, milled) if snow.strengths else (core, natural, milled)
