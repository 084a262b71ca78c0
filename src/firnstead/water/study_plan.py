"""From the station file to the numbers of the water plan."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np

from firnstead.snow.study import density_profile
from firnstead.station import Station
from firnstead.station.geometry import Point
from firnstead.station.water import Sump, Water
from firnstead.station.water_spots import distance_to_cut, floor_depth, head_depth, spot_point
from firnstead.water.case import MONTH, PoolCase
from firnstead.water.energy import self_sealing_density
from firnstead.water.plan import Plan, Source, Store, SumpPlan
from firnstead.water.properties import MELTING
from firnstead.water.sump import SumpCase
from firnstead.water.supply import draw_by_month

DEEPEST = 250  # m: depth to which the density is tabled
LAW_SPREAD, CORE_SPREAD = 0.20, 0.15  # of depths, as in the snow column
SETTLE = 60 * 86400.0  # s in which the heat makes good a difference from the wanted pool (own rule)
TOP_FILM = 5.0  # W/m2/K between water and roof, half of it radiation (own rule)
START_WARMTH = 1.0  # K of the first water in the shaft's foot (own rule)
MOST_SPAN, MOST_YEARS = 1e3, 25


def plan_of(station: Station, water: Water, waste: Sequence[float] | None) -> Plan:
    """All numbers; `waste` [W] by month from the power study."""
    well, site = water.well, station.site
    sealing, spread, densities = _firn(station)
    head = head_depth(station, well)
    profile = density_profile(station)
    mass = profile.mass_above(np.array([head, well.start_depth]))
    per_head, steady = sum(u.per_head for u in water.uses.values()), sum(u.steady for u in water.uses.values())
    draw = draw_by_month(water.people, per_head, steady, water.losses)
    first = well.first_steam or station.season.start
    sources = _sources(water, waste)
    given = [min(well.heat_limit, sum(s.power[m] for s in sources)) for m in range(12)]
    months = min(math.ceil(station.design.life / MONTH - 1e-9), MOST_YEARS * 12)
    pool = PoolCase(
        ice_temperature=site.mean_temperature, densities=densities, shape=well.shape, film_constant=well.film_constant,
        zone=well.zone, top_film=TOP_FILM, start_depth=well.start_depth, start_radius=well.shaft_diameter / 2,
        start_warmth=START_WARMTH, target=well.pool * 1000.0, settle=SETTLE, draw=draw, heat_limit=tuple(given),
        circulation=well.circulation * 1000.0, supply=well.supply_temperature - MELTING, first_month=first.month - 1,
        lead=math.ceil(well.lead / MONTH - 1e-6), months=months, least_depth=well.pump.least_depth,
        level_limit=well.pump.lift - well.delivery, hose_limit=well.hose.length + head - well.pump.submergence,
        span_limit=well.roof_span or MOST_SPAN)  # fmt: skip
    spots = [p for p in (spot_point(station, s) for s in (well, *water.next_wells)) if p is not None]
    fuel = _nearest(station, water.fuel_places, spots)
    return Plan(
        pool=pool, sources=sources, waste_told=waste is not None, limit=well.heat_limit,
        start=(first.year, first.month), life=station.design.life, people=water.people,
        beds=sum(b.people for b in station.buildings.values()),
        uses=tuple((name, u.per_head, u.steady) for name, u in water.uses.items()), losses=water.losses,
        lead=well.lead, sealing_depth=sealing, sealing_spread=spread, head=head,
        shaft_mass=float(mass[1] - mass[0]), shaft_diameter=well.shaft_diameter, closing=well.shaft_closing,
        steam_power=well.steam.power, steam_useful=well.steam.useful, steam_efficiency=well.steam.efficiency,
        melting_head=well.steam.head, pump_flow=well.pump.flow, pump_lift=well.pump.lift,
        pump_efficiency=well.pump.efficiency, friction=well.pump.friction, pump_width=well.pump.width,
        submergence=well.pump.submergence, lowered_every=well.pump.lowered_every, spares=well.pump.spares,
        hose_bore=well.hose.bore, hose_insulation=well.hose.insulation, hose_conductivity=well.hose.conductivity,
        hose_drains=well.hose.drains, circulation_head=well.circulation_head, delivery=well.delivery,
        span=well.roof_span, ice_allowed=well.ice_allowed, pump_repair=well.pump_repair,
        heat_repair=well.heat_repair, emergency=water.emergency_per_head,
        stores=tuple(Store(n, t.place, t.volume, t.use == "fire", t.temperature) for n, t in water.tanks.items()),
        fire_flow=water.fire_flow, fire_duration=water.fire_duration, fuel_heat=water.fuel_heat / water.fuel_density,
        wells=1 + len(water.next_wells),
        well_spacing=min((math.dist(a, b) for a, b in itertools.combinations(spots, 2)), default=None),
        well_to_fuel=None if fuel is None else fuel[0], nearest_fuel="" if fuel is None else fuel[1],
        sump=_sump(station, water, water.sump, draw, sealing, densities, months) if water.sump is not None else None,
    )  # fmt: skip


def _firn(station: Station) -> tuple[float, float, tuple[float, ...]]:
    """Depth at which the firn seals itself, its spread as a share, density at every metre."""
    profile = density_profile(station)
    sealing = profile.depth_of(self_sealing_density(station.site.mean_temperature))
    spread = CORE_SPREAD if profile.measured_depth >= sealing else LAW_SPREAD
    return sealing, spread, tuple(profile.density(np.arange(DEEPEST + 1.0)).tolist())


def _sources(water: Water, waste: Sequence[float] | None) -> tuple[Source, ...]:
    """Heat in the order in which it is used: waste first, then as in the file."""
    found = []
    left = list(waste) if waste is not None else None
    for name, s in water.well.heat.items():
        power: tuple[float, ...] = (s.power,) * 12
        if s.kind == "waste" and left is not None:
            power = tuple(min(s.power, max(w, 0.0)) for w in left)
            left = [max(w, 0.0) - p for w, p in zip(left, power, strict=True)]
        found.append(Source(name, s.kind, power, s.efficiency))
    return tuple(sorted(found, key=lambda s: s.kind != "waste"))


def _nearest(station: Station, places: Sequence[str], points: Sequence[Point]) -> tuple[float, str] | None:
    """The place nearest to any of the points, and its distance."""
    known = [name for name in places if name in station.places]
    return min(((distance_to_cut(station, name, point), name) for name in known for point in points), default=None)


def _sump(
    station: Station, water: Water, sump: Sump, draw: Sequence[float], sealing: float, densities: Sequence[float],
    months: int,
) -> SumpPlan | None:  # fmt: skip
    here, well = spot_point(station, sump), spot_point(station, water.well)
    if here is None or well is None:
        return None
    site = station.site
    sheet = min(sump.depth, sealing)
    case = SumpCase(
        ice_temperature=site.mean_temperature, density=densities[min(round(sump.depth), DEEPEST)], cavity=sump.cavity,
        warmth=sump.temperature - MELTING, flow=tuple(sump.share * w for w in draw),
        first_month=station.season.start.month - 1, months=months, sheet_density=densities[min(round(sheet), DEEPEST)],
        sheet_thickness=sump.sheet_thickness, zone=water.well.zone)  # fmt: skip
    wells = [(math.dist(here, point), "the well" if i == 0 else f"well {i + 1}")
             for i, spot in enumerate((water.well, *water.next_wells))
             if (point := spot_point(station, spot)) is not None]  # fmt: skip
    cut = _nearest(station, tuple(station.places), [here]) or (math.inf, "")
    fuel = _nearest(station, water.fuel_places, [here])
    return SumpPlan(
        case=case, outfall=min(sump.depth, max(0.0, sealing - sump.sheet_thickness)), clearance=sump.clearance,
        to_well=min(wells)[0], nearest_well=min(wells)[1], to_cut=cut[0], nearest_cut=cut[1],
        cut_floor=floor_depth(station, cut[1]) if cut[1] else 0.0,
        to_fuel=None if fuel is None else fuel[0], nearest_fuel="" if fuel is None else fuel[1],
        fuel_floor=0.0 if fuel is None else floor_depth(station, fuel[1]),
        off_flow=_off(well, here, water.ice_flow))  # fmt: skip


def _off(well: Point, sump: Point, flow: float | None) -> float | None:
    """Angle between the way from the well to the sump and the ice's flow [deg]."""
    if flow is None:
        return None
    way = math.degrees(math.atan2(sump[0] - well[0], sump[1] - well[1]))
    return abs((way - flow + 180.0) % 360.0 - 180.0)
