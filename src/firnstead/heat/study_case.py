"""From the station file to the numbers of the heat study."""

from __future__ import annotations

from collections.abc import Mapping

from firnstead.core.memo import Memo
from firnstead.heat.airflow import air_pressure
from firnstead.heat.case import (
    BuildingCase,
    ClimateCase,
    GapCase,
    LinkCase,
    PlaceCase,
    Scenario,
    Snowfield,
    StationCase,
    VentCase,
    WellCase,
)
from firnstead.heat.envelope import INSIDE, film_radiation, film_still_air, resistance_layers, transmittance
from firnstead.snow import SnowResult
from firnstead.snow.ground_mesh import CutOutline, Outline
from firnstead.snow.ground_response import Response, Surroundings, response_of
from firnstead.snow.year import MONTH, surface_temperature_by_month, warmest_month
from firnstead.station import Station, geometry
from firnstead.station.build import Section
from firnstead.station.heat import AirWell, Envelope, Heat, Panel, Room, TrenchAir, Vent

FAR = 25.0  # m: half-way to the next trench where none lies beside it; snow looked at below a floor (own rule)
NO_GAINS = (0.0,) * 12
SUPPLY = {"closed": "none", "trench air": "trench", "outside air": "outside", "well air": "well"}
Groups = list[tuple[tuple[str, float, float], list[tuple[str, str]]]]
"""(place like it, half-width of the patch, half spacing) with the buildings (name, "") and the rests of places
("", name) that share it."""
Fields = Mapping[str, tuple[float, ...]]


def case_of(station: Station, heat: Heat, groups: Groups, gains: Fields | None = None) -> StationCase:
    """The station in numbers."""
    names = list(station.places)
    rows = [building for building in station.buildings if room_of(heat, building).temperature is not None
            and station.buildings[building].kit in heat.envelopes]  # fmt: skip
    numbers = {key: number for number, (_, keys) in enumerate(groups) for key in keys}
    places = tuple(_place(station, heat, name, numbers[("", name)]) for name in names)
    buildings = tuple(_building(station, heat, name, names) for name in rows)
    given = gains or {}
    return StationCase(
        climate=_climate(station), places=places, buildings=buildings,
        building_sections=tuple(numbers[(name, "")] for name in rows), links=links_of(station, heat, names),
        gains=tuple(tuple(given.get(name, NO_GAINS)) for name in names))  # fmt: skip


def room_of(heat: Heat, building: str) -> Room:
    """How a building is kept."""
    return heat.rooms.get(building, heat.room)


def air_of(heat: Heat, place: str) -> TrenchAir:
    """What warms and cools a place."""
    return heat.places.get(place, heat.place)


def _climate(station: Station) -> ClimateCase:
    site = station.site
    first = station.season.end.month % 12  # the month after the last one of the season, January 0
    surface = surface_temperature_by_month(site)
    radiation = film_radiation(site.mean_temperature, site.mean_temperature)
    return ClimateCase(
        mean=site.mean_temperature, surface=(*surface[first:], *surface[:first]), first_month=first,
        pressure=air_pressure(site.elevation), months=max(12, round(station.design.life / MONTH)),
        film=radiation + film_still_air(1.0, 4.0))  # fmt: skip


def _place(station: Station, heat: Heat, name: str, section: int) -> PlaceCase:
    air, place = air_of(heat, name), station.places[name]
    limit = heat.limit if air.limit is None else air.limit
    depth = station.sections[place.section].depth
    return PlaceCase(
        name=name, section=section, length=max(0.1, geometry.cut_length(station, name)),
        gains=air.lamps + air.equipment + air.people * heat.person_heat, outside_leak=air.outside_leak,
        vents=tuple(_vent(vent, depth) for vent in air.vents), wells=tuple(_well(well) for well in air.wells),
        limit=limit, cool_to=limit - 2.0 if heat.cool_to is None else heat.cool_to)  # fmt: skip


def _vent(vent: Vent, depth: float) -> VentCase:
    area = vent.area if vent.kind == "gravity" else 0.0
    return VentCase(area * vent.count, vent.height or depth, vent.flow, vent.fan_power, vent.count)


def _well(well: AirWell) -> WellCase:
    return WellCase(well.flow, well.supply_temperature, well.fan_power, well.count, well.casing, well.spacing)


def _building(station: Station, heat: Heat, name: str, places: list[str]) -> BuildingCase:
    building = station.buildings[name]
    kit, room, envelope = station.kits[building.kit], room_of(heat, name), heat.envelopes[building.kit]
    people = building.people * heat.presence if room.people is None else room.people
    walls = 2.0 * (kit.length + kit.width) * kit.height
    gap = envelope.gap
    return BuildingCase(
        name=name, place=places.index(building.place), length=kit.length, width=kit.width, height=kit.height,
        temperature=room.temperature or 0.0, humidity=room.humidity,
        wall_roof=panel_u(envelope.walls, "horizontal") * (walls - envelope.opening_area)
        + envelope.opening_u * envelope.opening_area + panel_u(envelope.roof, "up") * kit.length * kit.width,
        floor_resistance=floor_resistance(envelope), leak_area=envelope.leak_area or 0.0,
        leak_flow=(envelope.air_change or 0.0) * kit.length * kit.width * kit.height, ventilation=room.ventilation,
        from_outside=room.ventilation_from == "outside", recovery=room.recovery, fan_power=room.fan_power,
        gains=people * heat.person_heat + room.lamps + room.equipment,
        gap=GapCase(gap.height or kit.footing_height, SUPPLY[gap.kind], gap.flow, gap.supply_temperature or 0.0,
                    gap.fan_power))  # fmt: skip


def panel_u(panel: Panel, direction: str) -> float:
    """Transmittance of a wall or roof to the trench air [W/m2/K]."""
    return panel.u if panel.u is not None else transmittance(_solid(panel), INSIDE[direction])


def floor_resistance(envelope: Envelope) -> float:
    """Resistance from the room to the floor's underside [m2 K/W]."""
    panel = envelope.floor
    return 1.0 / panel.u if panel.u is not None else INSIDE["down"] + _solid(panel)


def _solid(panel: Panel) -> float:
    return resistance_layers([layer.thickness for layer in panel.layers], [each.conductivity for each in panel.layers])


def links_of(station: Station, heat: Heat, names: list[str]) -> tuple[LinkCase, ...]:
    """The ways between places: trench and passage, passage and passage."""
    found: list[LinkCase] = []
    for name, trench in station.trenches.items():
        if trench.opens_into is not None and geometry.junction(station, trench) is not None:
            section = station.sections[trench.section]
            width, height = (trench.link.width, trench.link.height) if trench.link else _opening(section)
            air = air_of(heat, name)
            found.append(LinkCase(names.index(trench.opens_into), names.index(name), width, height,
                                  air.door_leak if air.door == "closed" else 0.0))  # fmt: skip
    passages = list(station.passages)
    for i, one in enumerate(passages):
        for other in passages[i + 1 :]:
            a, b = station.passages[one], station.passages[other]
            sections = station.sections[a.section], station.sections[b.section]
            if geometry.shared_depth(geometry.footprint(a, sections[0]), geometry.footprint(b, sections[1])) > 0:
                width, height = min((_opening(each) for each in sections), key=lambda size: size[0] * size[1])
                found.append(LinkCase(names.index(one), names.index(other), width, height, 0.0))
    return tuple(found)


def _opening(section: Section) -> tuple[float, float]:
    return section.top_width, section.depth - section.bench_depth


def groups_of(station: Station, heat: Heat) -> Groups:
    """The kinds of snow section of the station."""
    kinds: dict[tuple[str, str, float, float], list[tuple[str, str]]] = {}
    patches: dict[str, float] = {}
    first: dict[tuple[str, str, float], str] = {}
    for name, building in station.buildings.items():
        if building.kit in heat.envelopes and room_of(heat, name).temperature is not None:
            patches.setdefault(building.place, station.kits[building.kit].width / 2)
    sides = half_spacings(station)
    jobs = [(("", name), name, patches.get(name, 0.0)) for name in station.places]
    jobs += [((name, ""), b.place, station.kits[b.kit].width / 2) for name, b in station.buildings.items()
             if b.kit in heat.envelopes and room_of(heat, name).temperature is not None]  # fmt: skip
    for key, name, patch in jobs:
        place, side = station.places[name], sides[name]
        first.setdefault((place.section, place.roof, side), name)
        # a place without a building takes any patch: it is summed with the rest
        other = next((k for k in kinds if k[:2] == (place.section, place.roof) and k[3] == side), None)
        kind = (place.section, place.roof, patch, side)
        kinds.setdefault(other if patch == 0.0 and other else kind, []).append(key)
    return [((first[(s, r, side)], patch, side), keys) for (s, r, patch, side), keys in kinds.items()]


def half_spacings(station: Station) -> dict[str, float]:
    """Half the distance from axis to axis of the nearest trench that lies beside each place [m]."""
    axes = {name: geometry.axis(place) for name, place in station.places.items()}
    found = {}
    for name, line in axes.items():
        (x, y), (dx, dy) = line.at(line.length / 2), line.direction
        nearest = 2 * FAR
        for other, beside in axes.items():
            if other == name or abs(dx * beside.direction[1] - dy * beside.direction[0]) > 0.2:
                continue
            ox, oy = beside.start
            along = sorted(dx * (px - x) + dy * (py - y) for px, py in (beside.start, beside.end))
            if along[0] < line.length / 2 and along[1] > -line.length / 2:
                nearest = min(nearest, abs(-dy * (ox - x) + dx * (oy - y)))
        widest = geometry.widest(station.sections[station.places[name].section])
        found[name] = round(max(nearest / 2, widest / 2 + 0.5), 3)
    return found


def outline_of(section: Section, rise: float) -> Outline:
    """Half of the void with the crown at depth 0: roof, wall, floor; the seat's ledge is left out."""
    half = section.top_width / 2
    arch = [(half * i / 4, rise * (1 - (1 - (i / 4) ** 2) ** 0.5)) for i in range(5)]
    lift = rise - section.bench_depth
    start = section.bench_depth if section.undercut_from is None else max(section.undercut_from, section.bench_depth)
    points = [*arch]
    if start > section.bench_depth:
        points.append((half, start + lift))
    return (*points, (section.floor_width / 2, section.depth + lift), (0.0, section.depth + lift))


def snowfield(
    station: Station, snow: SnowResult, heat: Heat, groups: Groups, climate: ClimateCase, memo: Memo
) -> Snowfield:
    """The answers of every section, each run once."""
    band, life = heat.conductivity_band, station.design.life
    scenarios = (Scenario("expected", 1.0, 0.5), Scenario("poor sink", 1.0 - band, 1.0),
                 Scenario("thin cover", 1.0 + band, 0.0))  # fmt: skip
    fallen = station.site.accumulation_mass * life / station.snow.surface_density
    rows: list[tuple[Surroundings, ...]] = []
    for (name, patch, side), _ in groups:
        place = station.places[name]
        section, roof = station.sections[place.section], station.roofs[place.roof]
        growth = (station.design.drift_factor if place.drift_factor is None else place.drift_factor) * fallen
        outline = CutOutline(outline_of(section, roof.rise), patch=min(patch, section.floor_width / 2), side=side,
                             below=FAR)  # fmt: skip
        rows.append(tuple(
            Surroundings(
                outline, cover=roof.cover + s.snowfall * growth, placed_density=station.snow.milled.density_placed,
                placed_half=roof.span / 2 + 1.0, mean_temperature=climate.mean, swing=station.site.annual_swing,
                month=(climate.first_month - warmest_month(station.site.latitude)) % 12, months=climate.months,
                conductivity_factor=s.conductivity)
            for s in scenarios))  # fmt: skip

    def run(around: Surroundings) -> Response:
        # the snow result is the same object as long as site and snow are the same
        return memo.get(("heat.response", around, snow), lambda: response_of(around, snow.column))

    return Snowfield(scenarios, tuple(rows), tuple(tuple(run(each) for each in row) for row in rows))
