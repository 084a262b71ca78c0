"""Roofs of a station: checks as placed and through the years, pieces, work."""

from __future__ import annotations

from dataclasses import astuple, dataclass
from functools import partial

import numpy as np

from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, WorkItem, not_checked
from firnstead.core.steps import Working
from firnstead.roof._work_arch import arch_working
from firnstead.roof.deflection import deflection_coefficient, flexibility_factor
from firnstead.roof.results import Life, PlaceRoof, RoofResult, SheetUsed, YearRatios
from firnstead.roof.sheet import cross_check
from firnstead.roof.study_arch import Arch, ArchInput, arch_of
from firnstead.roof.study_arch_checks import (
    NAMES,
    hardening_check,
    named,
    seam_check,
    vehicle_checks,
    wall_checks,
)
from firnstead.roof.study_formed import FormedInput, formed_checks, formed_life, formed_working
from firnstead.roof.study_items import Output, Pieces, arch_items, formed_items, pieces_of
from firnstead.roof.study_life_checks import life_checks
from firnstead.roof.study_moving import Seats, moving_seat_checks
from firnstead.roof.study_seat import Seat
from firnstead.roof.study_seat_checks import seat_checks
from firnstead.roof.study_years import life_of, year_ratios
from firnstead.snow import MilledStrength, SnowResult
from firnstead.station import Station
from firnstead.station.build import ArchRoof, FormedRoof
from firnstead.station.geometry import cut_length

CREWS = ("arches", "roof", "building")  # crews that put up arches, by the name they have in the file (own rule)
PEOPLE = 6  # people who do it where the file names no such crew (own rule)
DAY = 86400.0


@dataclass(frozen=True)
class _Found:
    """What is worked out once for all places that have the same roof on the same section."""

    checks: tuple[Check, ...]
    wait: float | None
    arch: Arch | None = None
    ratios: YearRatios | None = None
    life: Life | None = None
    load_placed: float = 0.0
    load_at_life: float = 0.0
    deflection: float = 0.0


def study(station: Station, snow_result: SnowResult, memo: Memo | None = None) -> Study:
    """Work out the roof of every place; with a `memo` only what changed is worked out again."""
    if memo is None:
        memo = Memo()
    places: dict[str, PlaceRoof] = {}
    checks: list[Check] = []
    items: list[WorkItem] = []
    steel = volume = 0.0
    output = _output(station)
    for name, place in station.places.items():
        given = _input(station, name)
        length = cut_length(station, name)
        key = ("roof", given, station.site, station.snow)
        found = memo.get(key, partial(_found, given, snow_result))
        whole = ("roof.place", name, place, length, output, key)
        kind = "Passage" if name in station.passages else "Trench"
        own, done, work = memo.get(
            whole, partial(_place, found, given, name, place.roof, f'{kind} "{name}"', length, output)
        )
        places[name] = own
        checks += done
        items += work
        steel += own.steel_per_metre * length
        volume += own.cover_volume
    return Study(RoofResult(places, steel, volume), tuple(checks), tuple(items))


def with_moving_seats(station: Station, study: Study, seats: Seats, memo: Memo) -> Study:
    """The same study with the roof looked at again on seats that come in (dates [s], inward movement [m] by place)."""

    def arch_at(name: str) -> Arch | None:
        given = _input(station, name)
        made = arch_of(given) if isinstance(given, ArchInput) else ""
        return None if isinstance(made, str) else made

    return moving_seat_checks(station, study, seats, memo, arch_at)


def _input(station: Station, name: str) -> ArchInput | FormedInput:
    """What the verdicts on a place's roof depend on, by value."""
    place, design = station.places[name], station.design
    roof, section = station.roofs[place.roof], station.sections[place.section]
    drift = design.drift_factor if place.drift_factor is None else place.drift_factor
    vehicle = station.machines[place.vehicle_over] if place.vehicle_over is not None else None
    season = (station.season.end - station.season.start).days * DAY
    step = max(miller.pass_depth for miller in station.millers.values())
    rest = (
        section,
        design,
        drift,
        station.site.accumulation_mass,
        station.snow.milled.density_placed,
        vehicle,
        step,
        season,
    )
    return ArchInput(roof, *rest) if isinstance(roof, ArchRoof) else FormedInput(roof, *rest)


def _output(station: Station) -> Output:
    """Crew and machine that roof the station's places."""
    crew = next((name for name in CREWS if name in station.crews), "")
    name, miller = next(iter(station.millers.items()))
    return Output(
        crew,
        station.crews[crew].people if crew else PEOPLE,
        station.hand_work.arches,
        name,
        miller.output * miller.output_density * station.season.turning_share,
    )


def _found(given: ArchInput | FormedInput, snow: SnowResult) -> _Found:
    """Checks and numbers of a roof on a section, without a place's name."""
    if isinstance(given, FormedInput):
        w, life = formed_working(given, snow.milled), formed_life(given, snow.milled)
        checks = formed_checks(w, given, snow.column, snow.milled, life)
        return _Found(checks, _wait(snow.milled, w, "sigma_0"), None, None, life, w["w_0"], w["w_T"])
    arch = arch_of(given)
    if isinstance(arch, str):
        return _Found((not_checked(question="Arch and seat", reason=arch, key="roof.wall_placed", **NAMES),), None)
    seat, w = Seat(arch, snow.column), arch_working(arch)
    now, then = seat.strengths(np.array([0.0, given.accumulation * given.design.life]))
    ratios = year_ratios(arch, seat, snow.milled)
    life = life_of(ratios)
    checks = (
        *wall_checks(w, arch),
        *seat_checks(w, arch, seat, now),
        seam_check(w, arch),
        *vehicle_checks(w, arch),
        hardening_check(w, arch, snow.milled),
        *life_checks(w, arch, seat, snow.milled, then, life),
    )
    state = arch.one_sided()
    forces = [term.forces.times(term.pressure) for term in state.terms]
    sunk = sum(deflection_coefficient(arch.ratio, force, 0.25) for force in forces) * arch.roof.span**4 / arch.stiffness
    return _Found(
        checks,
        _wait(snow.milled, w, 'sigma_"h"') if 'sigma_"h"' in w else None,
        arch,
        ratios,
        life,
        2 * w['V_"f0"'] / arch.roof.span,
        2 * w['V_"fT"'] / arch.roof.span,
        sunk,
    )


def _wait(milled: MilledStrength, w: Working, symbol: str) -> float | None:
    """Wait until the cover has the strength that the checks ask for [s]."""
    wait = milled.waiting_time(w["n_s"] * w[symbol])
    return None if wait is None or wait != wait else wait


def _place(
    found: _Found,
    given: ArchInput | FormedInput,
    name: str,
    roof_name: str,
    subject: str,
    length: float,
    output: Output,
) -> tuple[PlaceRoof, tuple[Check, ...], tuple[WorkItem, ...]]:
    """The roof of one place."""
    checks = tuple(named(check, subject, name) for check in found.checks)
    arch, roof = found.arch, given.roof
    if isinstance(roof, FormedRoof):
        items = formed_items(name, roof, given.section, given.density, output, found.wait, length)
        pieces = Pieces(0, 0, 0, 0.0, 0.0, 0.0, 0.0, next(i.quantity for i in items if i.id.endswith(".cover")))
    else:
        pieces = pieces_of(roof, given.section, length, arch.props if arch is not None else None)
        items = arch_items(name, roof_name, roof, pieces, given.density, output, found.wait, length)
    own = PlaceRoof(
        roof=roof_name,
        kind=roof.kind,
        length=length,
        radius=arch.radius if arch else 0.0,
        arc_length=arch.arc if arch else 0.0,
        sheets=pieces.sheets,
        fasteners=pieces.fasteners,
        planks=pieces.planks,
        steel_per_metre=pieces.sheets * pieces.sheet_mass / length if length > 0 else 0.0,
        cover_volume=pieces.cover,
        load_placed=found.load_placed,
        load_at_life=found.load_at_life,
        deflection_one_sided=found.deflection,
        flexibility=flexibility_factor(2 * arch.radius, arch.stiffness / arch.props.inertia, arch.props.inertia)
        if arch
        else 0.0,
        sheet=_sheet_used(arch) if arch else None,
        ratios=found.ratios,
        life=found.life,
    )
    return own, checks, items


def _sheet_used(arch: Arch) -> SheetUsed:
    found = cross_check(arch.roof.profile, arch.roof.gauge)
    area, inertia, gyration, modulus = astuple(found.used)
    return SheetUsed(area, inertia, modulus, gyration, arch.sheet.base, found.agrees)
