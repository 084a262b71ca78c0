"""Out alive: air, fire and escape together; the times that smoke leaves against the times that people need."""

from __future__ import annotations

from firnstead.core.memo import Memo
from firnstead.core.results import Study
from firnstead.snow import SnowResult
from firnstead.station import Station

Way = list[tuple[str, float]]


def safety(
    station: Station, snow: SnowResult, memo: Memo, air: dict[str, tuple[float, ...]] | None = None
) -> dict[str, Study]:
    """Studies of air, fire and escape; `air` [K] is the air of places by month, where the heat is worked out.

    Escape says which way each building takes and when it passes each spot; fire says what is met on it and when each
    spot is lost; escape is then judged against that.
    """
    from firnstead import air as fresh
    from firnstead import escape, fire

    found = {"air": fresh.study(station, snow, memo, temperatures=air)}
    alone = escape.study(station, memo)
    found["fire"] = burning = fire.study(station, snow, memo, escape_times=_ways(alone))
    known = burning.result.by_fire() if burning.result is not None else None
    found["escape"] = escape.study(station, memo, available=known)
    return found


def _ways(escape: Study) -> dict[tuple[str, str], Way]:
    """Spots and moments [s] at which the last passes them in the slowest hour, by building and way."""
    if escape.result is None:
        return {}
    ways: dict[tuple[str, str], Way] = {}
    for name, building in escape.result.buildings.items():
        for number, route in enumerate(building.routes, 1):
            hours = [row for row in route.passed if len(row) == len(route.nodes)]
            if hours and all(time == time for row in hours for time in row):  # a ladder never tried leaves no time
                slowest = (max(times) for times in zip(*hours, strict=True))
                ways[name, f"way {number}"] = list(zip(route.nodes, slowest, strict=True))
    return ways
