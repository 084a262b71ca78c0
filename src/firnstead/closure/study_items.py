"""The work of keeping a place clear: trimming its walls in later years."""

from __future__ import annotations

from collections.abc import Sequence

from firnstead.closure.results import PlaceClosure
from firnstead.core.results import Exposure, WorkItem
from firnstead.core.units import YEAR, show
from firnstead.station import Station

CREW = "hand"  # the crew that cuts by hand, if the file names one (own rule)
PEOPLE = 4  # people who trim where it names none (own rule)


def place_items(station: Station, name: str, clear: Sequence[PlaceClosure]) -> tuple[WorkItem, ...]:
    """Snow to trim over the design life, along everything that must stay clear; none where nothing need be cut."""
    life = station.design.life / YEAR
    yearly = [
        sum(one.forecast.trim[year] * one.length for one in clear if year < len(one.forecast.trim))
        for year in range(int(min(life, max((len(one.forecast.trim) for one in clear), default=0))))
    ]
    volume = sum(yearly)
    if volume < 0.01:
        return ()
    crew = station.crews.get(CREW)
    people = crew.people if crew else PEOPLE
    hours = volume / station.hand_work.excavation / 3600
    first = next(year for year, cut in enumerate(yearly) if cut > 0)
    return (WorkItem(
        f"{name}.closure.trim", name, "closure", f"Trim the walls of {name} in later years", volume, "m3",
        crew=CREW if crew else "", people=people, hours=hours / people, exposure=Exposure.UNDER_ROOF,
        note=f"first in year {first + 1}; at most {show(max(yearly), 'm3')} in one year; cut and carried out by hand, "
             "not in the first season; as expected, the band is in the calculation file"),)  # fmt: skip
