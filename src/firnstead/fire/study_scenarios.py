"""The fires of a station: those of the file, and one for every kind of building in every place."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

import numpy as np

from firnstead.core.memo import Memo
from firnstead.fire._arrays import Array
from firnstead.fire.extinguishers import table
from firnstead.fire.gas import MOLAR_CO, air_density, volume_share
from firnstead.fire.growth import growth_coefficient_nfpa, heat_release_limit_fuel, heat_release_limit_openings
from firnstead.fire.pressure import HEAT_CAPACITY
from firnstead.fire.study_network import Model
from firnstead.fire.tenability import Exposure, Smoke, available_times, exposure_of
from firnstead.fire.transport import Blaze, Run, march
from firnstead.station import Station
from firnstead.station.fire import Fire, FireScenario
from firnstead.station.geometry import axis

UNKNOWN_USE = {"words": "", "growth": "fast", "rate_per_area": "500", "fuel_per_area": "1200", "hazard": "ordinary",
               "liquids": "yes", "source": "own_rule"}  # fmt: skip


@dataclass(frozen=True)
class Case:
    """One fire, with the numbers that its cap and fuel come from."""

    name: str
    place: str
    start: str
    use: str
    source: str
    growth: str
    liquids: bool
    floor: float
    rate_per_area: float
    door_area: float
    door_height: float
    cap_fuel: float
    cap_air: float
    cap_by: str
    building: str
    blaze: Blaze


@dataclass(frozen=True, eq=False)
class Fired:
    """A fire that was followed: smoke, what people meet, times."""

    case: Case
    run: Run
    met: Exposure
    available: dict[str, Array]


def row_of_use(*words: str) -> dict[str, str]:
    """The row of the table of uses whose words occur first in these texts."""
    for text in words:
        for row in table("uses"):
            if any(word in text.lower() for word in row["words"].split()):
                return row
    return UNKNOWN_USE


def use_of_building(station: Station, name: str) -> dict[str, str]:
    """The row of a building: by its use, by its sleepers, by its kit, by its place's use."""
    building = station.buildings[name]
    asleep = "sleep" if building.people > 0 else ""
    kit = station.kits[building.kit]
    return row_of_use(building.use, asleep, building.kit, kit.what, station.places[building.place].use)


def smoke_of(fire: Fire, pressure: float) -> Smoke:
    """Yields and limits of the file."""
    s, limit = fire.smoke, fire.limits
    return Smoke(
        (s.soot, s.soot_short), (s.co, s.co_short), (s.co2, s.co2), s.heat_of_combustion, s.convective, s.extinction,
        s.sight_factor, pressure, limit.head, limit.effort, limit.visibility, limit.temperature,
        limit.dose)  # fmt: skip


def cases_of(station: Station, fire: Fire, model: Model) -> tuple[Case, ...]:
    """All fires, those of the file first."""
    made = [_case(station, fire, model, name, scenario) for name, scenario in fire.scenarios.items()]
    if fire.every_place:
        names = {case.name for case in made}
        given = {(case.place, case.building and _kind(station, case.building)) for case in made}
        for place in station.places:
            for start in _starts(station, fire, place):
                kind = (place, start and _kind(station, start))
                if kind in given or (start or place) in names:
                    continue
                given.add(kind)
                scenario = FireScenario.model_construct(building=start or None, place=None if start else place)
                made.append(_case(station, fire, model, start or place, scenario))
    return tuple(made)


def _kind(station: Station, building: str) -> tuple[str, str]:
    return station.buildings[building].kit, use_of_building(station, building)["words"]


def _starts(station: Station, fire: Fire, place: str) -> list[str]:
    """Buildings in which a fire is set, the one nearest the way in first of each kind; "" for the place itself."""
    inside = sorted((b.at, name) for name, b in station.buildings.items() if b.place == place)
    if inside:
        return [name for _, name in inside]
    burns = any(store.place == place and store.combustible for store in fire.stores.values())
    used = row_of_use(station.places[place].use) is not UNKNOWN_USE and place in station.trenches
    return [""] if burns or used else []


def _case(station: Station, fire: Fire, model: Model, name: str, scenario: FireScenario) -> Case:
    network, building = model.network, scenario.building
    if building is not None:
        place = station.buildings[building].place
        row, kit = use_of_building(station, building), station.kits[station.buildings[building].kit]
        floor, cell, start = kit.length * kit.width, network.index(building), building
        doors = list(model.building_ways[building])
    else:
        place = scenario.place or ""
        spot, length = station.places[place], axis(station.places[place]).length
        lying = [store.what for store in fire.stores.values() if store.place == place and store.combustible]
        row = row_of_use(*lying, spot.use)
        floor = station.sections[spot.section].floor_width * length
        cell = model.nearest(place, length / 2 if scenario.at is None else scenario.at)
        start = network.names[cell]
        own = model.cells_in(place)
        rooms = np.isin(np.arange(network.cells), [network.index(name) for name in model.building_ways])
        doors = np.nonzero((own[network.a] != own[network.b]) & ~rooms[network.a] & ~rooms[network.b])[0].tolist()
        doors = doors or [int(np.argmax(network.opening * ((network.a == cell) | (network.b == cell))))]
    areas, heights = network.opening[doors], model.tall[doors]
    cap_fuel = heat_release_limit_fuel(floor, float(row["rate_per_area"]) * 1e3)
    cap_air = sum(heat_release_limit_openings(float(a), float(h)) for a, h in zip(areas, heights, strict=True))
    cap = min(cap_fuel, cap_air) if scenario.heat_release is None else scenario.heat_release
    by_air = cap_air < cap_fuel if scenario.heat_release is None else scenario.short_of_air
    growth = scenario.growth or row["growth"]
    fuel = float(row["fuel_per_area"]) * 1e6 * floor if scenario.fuel is None else scenario.fuel
    blaze = Blaze(cell, growth_coefficient_nfpa(growth), cap, fuel, fire.smoke.convective, by_air)
    return Case(
        name, place, start, row["words"].split()[0] if row["words"] else "unknown", row["source"], growth,
        row["liquids"] == "yes", floor, float(row["rate_per_area"]) * 1e3, float(areas.sum()), float(heights.max()),
        cap_fuel, cap_air, "the file" if scenario.heat_release is not None else "air" if by_air else "fuel",
        building or "", blaze)  # fmt: skip


def leak_of(fire: Fire, model: Model, case: Case) -> Array:
    """What each opening lets through in this fire: the burning building stands open unless it has closers."""
    leak = model.network.leak.copy()
    if case.building and not fire.closers:
        doors = list(model.building_ways[case.building])
        leak[doors] = model.network.opening[doors]
    return leak


def followed(fire: Fire, model: Model, case: Case, smoke: Smoke, memo: Memo) -> Fired:
    """Follow one fire through the station."""
    inside = (case.blaze.cell,) if case.building else ()

    def make() -> Fired:
        leak = leak_of(fire, model, case)
        run = march(model.network, case.blaze, smoke.pressure, fire.duration, leak)
        mean = run.with_all_kept(model.cells_in(case.place), inside)
        met = exposure_of(run.times, mean, model.network.height, model.ambient, smoke)
        return Fired(case, run, met, available_times(met, smoke))

    return memo.get(("fire.run", model, case, smoke, fire.duration, fire.closers), make)


def detection_of(fire: Fire, model: Model, fired: Fired, pressure: float) -> tuple[float, str]:
    """Time at which the first detector that works in its cold sounds, and its name; infinite where none does.

    By the mean of its cell: smoke is thicker under the roof, so the detector is rather earlier than later.
    """
    best = (inf, "")
    mean = fired.run.mean
    for name, detector in fire.detectors.items():
        cell = model.spot(detector.place, detector.at)
        ambient = float(model.ambient[cell])
        if detector.coldest is None or detector.coldest > ambient:
            continue
        energy = mean[0, :, cell] + mean[1, :, cell]
        if detector.kind in ("smoke", "aspirating smoke"):
            soot = fire.smoke.soot * energy / fire.smoke.heat_of_combustion
            share = soot * fire.smoke.extinction * detector.visibility / fire.smoke.sight_factor
        elif detector.kind in ("heat", "linear heat"):
            rise = fire.smoke.convective * energy / (HEAT_CAPACITY * air_density(pressure, ambient))
            share = rise / max(1e-9, detector.temperature - ambient)
        else:
            co = fire.smoke.co * energy / fire.smoke.heat_of_combustion
            share = np.asarray(volume_share(co, MOLAR_CO, pressure, ambient)) / detector.co
        over = np.nonzero(share >= 1.0)[0]
        if len(over):
            best = min(best, (float(fired.run.times[over[0]]) + detector.delay, name))
    return best
