"""The one place where a discipline's result meets another: the studies in readable order."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, Verdict, WorkItem, as_plain
from firnstead.core.units import YEAR
from firnstead.pipeline.safety import safety
from firnstead.pipeline.utilities import Utilities, utilities
from firnstead.station import Station, StationFile

if TYPE_CHECKING:
    from firnstead.pipeline.kept import KeptYears
    from firnstead.roof.results import PlaceRoof


AIR_STEP = 1.0  # K to which the air is rounded up for the closure (own rule)


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
    from firnstead import cargo, closure, cutting, foundation, pipes, roof, walls
    from firnstead.roof.stress import STEEL_DENSITY

    station = file.station
    memo = memo if memo is not None else Memo()
    ground = ground_of(station, memo)
    snow = ground.snow.result
    studies: dict[str, Study] = {"snow": ground.snow}
    studies["cutting"] = cutting.study(
        station, snow, memo, _sheet_mass(station, ground.roof.result.places, STEEL_DENSITY)
    )
    years = closure.study(station, snow, ground.loads, memo, kept, ground.air)
    heave = closure.floor_heave(years.result)
    studies["roof"] = roof.with_moving_seats(station, ground.roof, closure.seats(years.result), memo)
    studies["walls"] = walls.study(station, snow, memo)
    studies["closure"] = years
    studies["foundation"] = foundation.study(station, snow, memo, heave, ground.around.floors)
    studies |= ground.around.studies
    studies["pipes"] = pipes.study(
        station, snow, memo, air=ground.around.air, floor_heave={name: rise / YEAR for name, rise in heave.items()}
    )
    studies |= safety(station, snow, memo, ground.around.air)
    items = tuple(item for study in studies.values() for item in study.work_items)
    studies["cargo"] = cargo.study(station, items)
    return Assessment(file, studies)


@dataclass(frozen=True)
class Ground:
    """What the years stand on: snow, roofs, and heat, pipes, water and power as one balance."""

    snow: Study
    roof: Study
    around: Utilities

    @property
    def loads(self) -> dict[str, float]:
        """What lies on each roof as placed [Pa]."""
        return {name: place.load_placed for name, place in self.roof.result.places.items()}

    @property
    def air(self) -> dict[str, tuple[float, ...]]:
        """Air [K] of each place for the closure: mean of its warmest year, rounded up so that places alike share."""
        found = self.around.air_years
        return {name: (math.ceil(max(years) / AIR_STEP) * AIR_STEP,) for name, years in found.items()}


def ground_of(station: Station, memo: Memo) -> Ground:
    """Everything that does not need the years themselves."""
    from firnstead import roof, snow

    found = memo.get(_ground_key(station), lambda: snow.study(station))
    return Ground(found, roof.study(station, found.result, memo), utilities(station, found.result, memo))


def _ground_key(station: Station) -> tuple[object, ...]:
    return ("snow", station.site, station.snow, station.design)


def _sheet_mass(station: Station, roofs: Mapping[str, PlaceRoof], density: float) -> dict[str, float]:
    """Steel per area of sheet [kg/m2] by roof, from which the cutting study works out what an undercut saves."""
    return {
        station.places[place].roof: found.sheet.area * density
        for place, found in roofs.items()
        if found.sheet is not None
    }
