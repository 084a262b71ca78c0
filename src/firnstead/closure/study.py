"""Closure of every place: what was marched for it, read as dates, rooms, trimming and what to change."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Protocol

from firnstead.closure.forecast import forecast
from firnstead.closure.outcome import Envelope
from firnstead.closure.results import ClosureResult, PlaceClosure, Softness
from firnstead.closure.spec import EXPECTED, Spec
from firnstead.closure.study_checks import PlaceNumbers, place_checks, unanswered
from firnstead.closure.study_items import place_items
from firnstead.closure.study_spec import Clear, clear_in, families, neighbour, softness, unfit
from firnstead.closure.trace import Trace
from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, WorkItem
from firnstead.core.units import YEAR
from firnstead.snow import SnowResult
from firnstead.station import Station
from firnstead.station.geometry import axis

WAITING = "not worked out yet for this version of the file; run `firnstead years` on it (a minute or so)"
UNFIT = "no softness makes the creep law fit the site's density profile, so nothing can be said about closure"
HEIGHTS = (0.25, 0.5, 0.75)  # shares of the height at which widths are given
NOTHING = Clear("", "", Envelope(0.05, 0.5), 0.0, 0.0)


class Kept(Protocol):
    """Where finished marches are kept, by content."""

    def softness(self, station: Station, snow: SnowResult) -> Softness | None:
        """The site's k, if it has been worked out."""

    def family(self, specs: Mapping[str, Spec]) -> dict[str, Trace] | None:
        """All marches of a section, if they have been worked out."""


def study(
    station: Station, snow: SnowResult, loads: Mapping[str, float], memo: Memo | None = None,
    kept: Kept | None = None, air: Mapping[str, tuple[float, ...]] | None = None,
) -> Study:  # fmt: skip
    """Read the kept marches; `loads` [Pa] lie on the roofs as placed, `air` [K] is each year's mean, by place."""
    memo = memo if memo is not None else Memo()
    soft = kept.softness(station, snow) if kept is not None else None
    all_specs = families(station, snow, soft, loads, air) if soft is not None and not unfit(soft) else {}
    places: dict[str, PlaceClosure] = {}
    checks: list[Check] = []
    items: list[WorkItem] = []
    waiting = []
    for name in station.places:
        specs = all_specs.get(name)
        found = kept.family(specs) if specs is not None and kept is not None else None
        if specs is None or found is None or soft is None:
            reason = UNFIT if soft is not None and unfit(soft) else WAITING
            checks += unanswered(station, name, reason)
            waiting.append(name)
            continue
        read = _read(station, name, specs, found, soft, memo)
        places[name] = read[0]
        checks += read[1]
        items += read[2]
    return Study(ClosureResult(soft, places, tuple(waiting)), tuple(checks), tuple(items))


def wanted(
    station: Station, snow: SnowResult, soft: Softness, loads: Mapping[str, float],
    air: Mapping[str, tuple[float, ...]] | None = None,
) -> tuple[dict[str, Spec], ...]:  # fmt: skip
    """The distinct families of marches that a station needs, each once, in the order of its places."""
    if unfit(soft):
        return ()
    found: dict[str, dict[str, Spec]] = {}
    for specs in families(station, snow, soft, loads, air).values():
        found.setdefault(specs[EXPECTED].digest(), specs)
    return tuple(found.values())


def fit(station: Station, snow: SnowResult) -> Softness:
    """The site's k, worked out now."""
    return softness(station, snow)


def _read(
    station: Station, name: str, specs: Mapping[str, Spec], traces: dict[str, Trace], soft: Softness, memo: Memo
) -> tuple[PlaceClosure, tuple[Check, ...], tuple[WorkItem, ...]]:  # fmt: skip
    """Forecast, checks and work of one place; what must stay clear decides what is read."""
    spec = specs[EXPECTED]
    digest, clear, near = spec.digest(), clear_in(station, name), neighbour(station, name)
    crews, line = tuple(sorted(station.crews.items())), axis(station.places[name])
    inputs = (digest, name, clear, near, station.design, station.season, station.hand_work, crews, line)

    def make() -> tuple[PlaceClosure, tuple[Check, ...], tuple[WorkItem, ...]]:
        read = []
        for each in clear or (NOTHING,):
            key = ("closure.forecast", digest, each.envelope, each.needed)
            found = memo.get(key, partial(forecast, traces, each.envelope, each.needed, HEIGHTS, raised=spec.raised))
            read.append((each, found))
        own = [
            PlaceClosure(
                family=digest, what=each.what, needed=each.needed, half_width=each.envelope.half_width,
                height=each.envelope.height, length=each.length, pillar=near.pillar if near else float("inf"),
                first_year=found.widths[1].expected[0] - found.widths[1].expected[4], forecast=found)
            for each, found in read
        ]  # fmt: skip
        worst = min(own, key=lambda one: min(one.forecast.side.expected, one.forecast.top.expected))
        numbers = PlaceNumbers(station, name, spec, soft, near, tuple(zip(clear, own, strict=False)))
        return worst, place_checks(numbers), place_items(station, name, own if clear else [])

    made: tuple[PlaceClosure, tuple[Check, ...], tuple[WorkItem, ...]] = memo.get(("closure", inputs), make)
    return made


def floor_heave(result: ClosureResult) -> dict[str, float]:
    """Rise of the floor [m/yr] by place: the greatest of the band, as a mean over the years looked at."""
    return {
        name: place.forecast.floor_heave.greatest[-1] / (place.forecast.dates[-1] / YEAR)
        for name, place in result.places.items()
    }


def seats(result: ClosureResult) -> dict[str, tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...]]]:
    """Dates [s] and how far each shoulder has come in [m] by then, as expected and at most, by place."""
    return {
        name: (place.forecast.dates, place.forecast.shoulder_in.expected, place.forecast.shoulder_in.greatest)
        for name, place in result.places.items()
    }
