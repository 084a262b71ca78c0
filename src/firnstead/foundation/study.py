"""Footings of a station's buildings: pressure, bearing, settling, relevelling, work."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, WorkItem, not_checked
from firnstead.foundation.case import Ground, Layout, ground_below
from firnstead.foundation.numbers import Numbers, numbers_of, result_of
from firnstead.foundation.results import BuildingFoundation, FoundationResult
from firnstead.foundation.study_bearing import NAMES, bearing_checks
from firnstead.foundation.study_items import Work, building_items
from firnstead.foundation.study_settling import floor_check, settling_checks
from firnstead.snow import SnowResult
from firnstead.station import Station
from firnstead.station.build import CatalogPart, FormedRoof, Kit
from firnstead.station.places import Place

CREW = "building"  # the crew that sets footings, if the file names one (own rule)
PEOPLE = 4  # people at a building's footings where it names none (own rule)
Found = tuple[Numbers, BuildingFoundation, tuple[Check, ...]]
UNANSWERED = (
    ("Pressure under the footings beside a measured station", "foundation.pressure"),
    ("Bearing of the natural snow under a footing", "foundation.bearing"),
    ("Settling in the design life", "foundation.settlement"),
    ("Years until relevelling", "foundation.relevel"),
)


def study(
    station: Station, snow: SnowResult, memo: Memo | None = None, floor_heave: Mapping[str, float] | None = None,
    floors: Mapping[str, float] | None = None,
) -> Study:  # fmt: skip
    """Work out the footings of every building.

    `floor_heave` [m/yr] by place comes from the closure forecast; `floors` [K] by building from the heat, the mean of
    the warmest year of the snow 1 m under it. Where the file states a kit's floor, the warmer of both counts.
    """
    memo = memo if memo is not None else Memo()
    results: dict[str, BuildingFoundation] = {}
    checks: list[Check] = []
    items: list[WorkItem] = []
    for name, building in station.buildings.items():
        place, kit = station.places[building.place], station.kits[building.kit]
        subject = f'Building "{name}"'
        layout = layout_of(station, kit, place, None if floors is None else floors.get(name))
        if isinstance(layout, str):
            checks += [not_checked(question=question, key=key, reason=layout,
                                   **{**NAMES, "subject": subject, "place": building.place})
                       for question, key in UNANSWERED]  # fmt: skip
            continue
        numbers, made, answers = _answers(station, snow, memo, layout, _depth(station, place))
        results[name] = replace(made, place=building.place, kit=building.kit)
        heave = None if floor_heave is None else floor_heave.get(building.place)
        checks += [replace(each, subject=subject, place=building.place)
                   for each in (*answers, floor_check(numbers, heave, station.design.trim_interval))]  # fmt: skip
        items += building_items(numbers, work_of(station, kit), name, building.place, _before(station, building.place))
    result = FoundationResult(
        buildings=results, shims=sum(each.shims for each in results.values()),
        pad_volume=sum(each.pad_volume for each in results.values()))  # fmt: skip
    return Study(result, tuple(checks), tuple(items))


def _answers(station: Station, snow: SnowResult, memo: Memo, layout: Layout, depth: float) -> Found:
    """Numbers and checks of one layout on one floor: the same for every building alike."""
    life, factor = station.design.life, station.design.snow_factor
    # the snow result is the same object as long as site and snow are the same
    ground: Ground = memo.get(
        ("foundation.ground", snow, depth, life, factor),
        lambda: ground_below(
            snow, depth, station.site.mean_temperature, station.site.accumulation_mass, life, factor),
    )  # fmt: skip

    def make() -> Found:
        numbers = numbers_of(layout, ground)
        return numbers, result_of(numbers), (*bearing_checks(numbers), *settling_checks(numbers))

    return memo.get(("foundation", layout, ground), make)


def layout_of(station: Station, kit: Kit, place: Place, found: float | None = None) -> Layout | str:
    """The building and its footings in numbers, or why they cannot be told; `found` [K] is its floor by the heat."""
    f = kit.footings
    if f is None:
        return "the kit gives no footings"
    mass = sum(station.parts[part].mass * count for part, count in kit.parts.items())
    if mass + f.sustained_share * f.live_load <= 0:
        return "the kit has neither parts nor a live load that stays, so there is no load"
    stated = f.floor_temperature
    if stated is None:
        stated = place.air if found is None else found
    floor = max(stated, station.site.mean_temperature, stated if found is None else found)
    return Layout(
        mass=mass, length=kit.length, width=kit.width, footing_height=kit.footing_height, rows=f.rows,
        per_row=f.per_row, footing_width=f.width, footing_length=f.length, live_load=f.live_load,
        sustained_share=f.sustained_share, edge_share=f.edge_share, eccentricity=f.eccentricity,
        drop_distance=f.drop_distance, pad_thickness=f.pad_thickness,
        pad_density=station.snow.milled.density_placed if f.pad_density is None else f.pad_density,
        pad_age=f.pad_age, floor_temperature=floor, warm_depth=f.warm_depth, warm_side=f.warm_side,
        load_spread=f.load_spread, snow_spread=f.snow_spread, settlement_limit=f.settlement_limit,
        relevel_limit=f.relevel_limit, relevel_interval=f.relevel_interval, jack_stroke=f.jack_stroke,
        shim_thickness=f.shim_thickness, shim_limit=f.shim_limit,
        jacks=None if f.jack_part is None else kit.parts.get(f.jack_part, 0))  # fmt: skip


def work_of(station: Station, kit: Kit) -> Work:
    """Who sets the footings of a kit, and what its jacks and shims weigh."""
    crew, f = station.crews.get(CREW), kit.footings
    jack, shim = (None, None) if f is None else (f.jack_part, f.shim_part)
    return Work(
        crew=CREW if crew else "", people=crew.people if crew else PEOPLE, excavation=station.hand_work.excavation,
        jack=jack, shim=shim, shim_mass=_of(station, shim)[0], shim_volume=_of(station, shim)[1],
        jack_mass=_of(station, jack)[0], jack_volume=_of(station, jack)[1])  # fmt: skip


def _of(station: Station, part: str | None) -> tuple[float, float]:
    found: CatalogPart | None = station.parts.get(part) if part is not None else None
    return (found.mass, found.volume) if found is not None else (0.0, 0.0)


def _depth(station: Station, place: Place) -> float:
    return station.sections[place.section].depth if place.floor_level is None else -place.floor_level


def _before(station: Station, name: str) -> tuple[str, ...]:
    """What comes before footings are set: the place is cut, its arches stand or its form is out."""
    formed = isinstance(station.roofs[station.places[name].roof], FormedRoof)
    return (f"{name}.cutting.cut", f"{name}.roof.{'strip' if formed else 'arches'}")
