"""The one place where a discipline's result meets another: the studies in readable order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, Verdict, WorkItem, as_plain
from firnstead.station import Station, StationFile

if TYPE_CHECKING:
    from firnstead.pipeline.kept import KeptYears
    from firnstead.roof.results import PlaceRoof
    from firnstead.snow import SnowResult


@dataclass(frozen=True)
class Assessment:
    """Everything that was found out about one version of a station file."""

    file: StationFile
    studies: dict[str, Study]
    """By discipline, in the order in which they were made."""

    @property
    def station(self) -> Station:
        """The station."""
        return self.file.station

    @property
    def results(self) -> dict[str, Any]:
        """The result of each discipline."""
        return {name: study.result for name, study in self.studies.items()}

    @property
    def checks(self) -> tuple[Check, ...]:
        """All checks, discipline after discipline."""
        return tuple(check for study in self.studies.values() for check in study.checks)

    @property
    def work_items(self) -> tuple[WorkItem, ...]:
        """All work items, discipline after discipline."""
        return tuple(item for study in self.studies.values() for item in study.work_items)

    def counts(self) -> dict[Verdict, int]:
        """How many checks have each verdict."""
        return {verdict: sum(c.verdict == verdict for c in self.checks) for verdict in Verdict}

    def document(self) -> dict[str, Any]:
        """The machine-readable form: station, checks, results, work_items; SI units, named."""
        head = {"file_version": self.file.version, "digest": self.file.digest}
        return {
            "station": {**head, **self.station.model_dump(mode="json")},
            "checks": as_plain(self.checks),
            "results": as_plain(self.results),
            "work_items": as_plain(self.work_items),
        }


def assess(file: StationFile, memo: Memo | None = None, kept: KeptYears | None = None) -> Assessment:
    """Run every study; with a `memo` kept between calls only what an edit touches is computed again.

    The years (closure) are read from `kept`; what is not there is not checked, for it takes a minute to work out.
    """
    from firnstead import cargo, closure, cutting, foundation, roof, snow, walls
    from firnstead.roof.stress import STEEL_DENSITY

    station = file.station
    memo = memo if memo is not None else Memo()
    studies: dict[str, Study] = {}
    studies["snow"] = found = memo.get(_ground_key(station), lambda: snow.study(station))
    over = roof.study(station, found.result, memo)
    studies["cutting"] = cutting.study(
        station, found.result, memo, _sheet_mass(station, over.result.places, STEEL_DENSITY)
    )
    years = closure.study(station, found.result, _loads(over.result.places), memo, kept)
    studies["roof"] = roof.with_moving_seats(station, over, closure.seats(years.result), memo)
    studies["walls"] = walls.study(station, found.result, memo)
    studies["closure"] = years
    studies["foundation"] = foundation.study(station, found.result, memo, closure.floor_heave(years.result))
    items = tuple(item for study in studies.values() for item in study.work_items)
    studies["cargo"] = cargo.study(station, items)
    return Assessment(file, studies)


def ground_of(station: Station, memo: Memo | None = None) -> tuple[SnowResult, dict[str, float]]:
    """The snow, and what lies on each roof as placed [Pa]: all that the years need from the other studies."""
    from firnstead import roof, snow

    memo = memo if memo is not None else Memo()
    found: SnowResult = memo.get(_ground_key(station), lambda: snow.study(station)).result
    return found, _loads(roof.study(station, found, memo).result.places)


def _ground_key(station: Station) -> tuple[object, ...]:
    return ("snow", station.site, station.snow, station.design)


def _loads(roofs: Mapping[str, PlaceRoof]) -> dict[str, float]:
    return {name: place.load_placed for name, place in roofs.items()}


def _sheet_mass(station: Station, roofs: Mapping[str, PlaceRoof], density: float) -> dict[str, float]:
    """Steel per area of sheet [kg/m2] by roof, from which the cutting study works out what an undercut saves."""
    return {
        station.places[place].roof: found.sheet.area * density
        for place, found in roofs.items()
        if found.sheet is not None
    }
