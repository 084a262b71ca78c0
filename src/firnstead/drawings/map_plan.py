"""The plan's input taken from an assessed station."""

from __future__ import annotations

from firnstead.core.results import Verdict
from firnstead.drawings.plan_input import HatchMark, Outline, PlanInput, Ramp, Strip
from firnstead.pipeline.assess import Assessment
from firnstead.station import Station
from firnstead.station.geometry import Axis, axis, junction, rectangle, widest

WORST_FIRST = (Verdict.FAILS, Verdict.CLOSE, Verdict.NOT_CHECKED, Verdict.HOLDS)
"""A place with an open question does not simply hold."""


def plan_input(assessment: Assessment) -> PlanInput:
    """All that the plan shows."""
    station = assessment.station
    lines = {name: axis(place) for name, place in station.places.items()}
    met = {(c.place, c.verdict) for c in assessment.checks}
    return PlanInput(
        station=station.name,
        strips=tuple(
            Strip(name, line.start, line.end, _width(station, name), name in station.passages,
                  next((v for v in WORST_FIRST if (name, v) in met), None))
            for name, line in lines.items()
        ),
        buildings=tuple(
            Outline(name, rectangle(lines[b.place], b.at, b.at + kit.length, kit.width / 2))
            for name, b in station.buildings.items() if (kit := station.kits.get(b.kit))
        ),
        links=tuple(_links(station, lines)),
        niches=tuple(_niches(station, lines)),
        hatches=tuple(HatchMark(name, lines[h.place].at(h.at), station.hatchways[h.kind].diameter)
                      for name, h in station.hatches.items()),
        ramps=tuple(Ramp(name, ramp.foot, ramp.top, station.portals[name].width)
                    for name, ramp in assessment.results["walls"].portals.items()),
        storm_wind_from=station.site.storm_wind_from,
        units=station.units,
    )  # fmt: skip


def _width(station: Station, place: str) -> float:
    return widest(station.sections[station.places[place].section])


def _links(station: Station, lines: dict[str, Axis]) -> list[Outline]:
    """The hand-cut ways between trenches and passages."""
    found = []
    for name, trench in station.trenches.items():
        met = junction(station, trench)
        if trench.link and met and met.gap > 0:
            found.append(Outline(name, rectangle(lines[name], -met.gap, 0.0, trench.link.width / 2)))
    return found


def _niches(station: Station, lines: dict[str, Axis]) -> list[Outline]:
    """Niches beside their places."""
    found = []
    for name, niche in station.niches.items():
        side = 1.0 if niche.side == "left" else -1.0
        beside = side * (_width(station, niche.place) + niche.depth) / 2
        near, far = niche.at - niche.width / 2, niche.at + niche.width / 2
        found.append(Outline(name, rectangle(lines[niche.place], near, far, niche.depth / 2, beside)))
    return found
