"""Fire and smoke of a station: what burns, where the smoke goes, what people meet, what holds it, what is lost."""

from __future__ import annotations

import numpy as np

from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, not_checked
from firnstead.fire.gas import pressure_standard_atmosphere
from firnstead.fire.reserve import fire_reserve
from firnstead.fire.results import FireResult, Spot
from firnstead.fire.study_borders import border_checks, losses
from firnstead.fire.study_cover import cover_checks, cover_of
from firnstead.fire.study_facts import CAUTION, Facts, compartments
from firnstead.fire.study_items import items_of
from firnstead.fire.study_network import model_of, network_key
from firnstead.fire.study_scenarios import cases_of, followed, smoke_of
from firnstead.fire.study_times import Times, alarm_check, case_result, curves, filling_check, way_checks, ways_out
from firnstead.fire.study_water import water_checks
from firnstead.snow import SnowResult
from firnstead.station import Station

NOTHING = "No fire part in the file"


def study(
    station: Station, snow: SnowResult | None = None, memo: Memo | None = None, *, escape_times: Times | None = None
) -> Study:
    """Follow every fire through the station and check what guards against it.

    `escape_times`: seconds from the start of the fire at which each spot is passed, as (spot, time) in order, by
    (where people start, name of the way). The snow takes no part: no law for walls of snow in a fire was found.
    """
    memo = memo if memo is not None else Memo()
    fire = station.fire
    if fire is None:
        empty = FireResult(0.0, 0.0, {}, (), (), (), {}, {}, 0.0, 0.0)
        return Study(empty, (not_checked(
            subject="Station", question="Fire and smoke", reason=NOTHING, key="fire.part", discipline="fire", place="",
            caution=CAUTION),))  # fmt: skip
    model = memo.get(("fire.network", network_key(station, fire)), lambda: model_of(station, fire))
    measured = fire.station_pressure or (station.air.station_pressure if station.air is not None else None)
    pressure = measured or pressure_standard_atmosphere(station.site.elevation)
    smoke = smoke_of(fire, pressure)
    fired = tuple(followed(fire, model, case, smoke, memo) for case in cases_of(station, fire, model))
    f = Facts(station, fire, model, smoke, fired, compartments(fire, model), memo)
    found = {each.case.name: case_result(f, each) for each in fired}
    walked = ways_out(f, escape_times or {})
    loss = losses(f)
    cover = {place: cover_of(f, place) for place in station.places}
    growth = {each.case.place: each.case.growth for each in fired}
    checks: list[Check] = [alarm_check(f, each, found[each.case.name]) for each in fired]
    checks += way_checks(f, escape_times, walked)
    checks += [filling_check(f, place, growth[place]) for place in station.places if place in growth]
    for place in station.places:
        checks += cover_checks(f, place, cover[place])
    checks += [*border_checks(f, loss), *water_checks(f)]
    water = fire.water
    result = FireResult(
        pressure=pressure, duration=fire.duration, cases=found, spots=_spots(f),
        curves=tuple(curve for each in fired for curve in curves(f, each)), ways_out=walked, losses=loss, cover=cover,
        water=sum(tank.volume for tank in water.tanks.values()) if water else 0.0,
        water_needed=fire_reserve(water.flow, water.duration) if water else 0.0)  # fmt: skip
    return Study(result, tuple(checks), items_of(f))


def _spots(f: Facts) -> tuple[Spot, ...]:
    """Every spot with the fire that leaves it the least time."""
    nodes = [node for node in f.model.ways.nodes if node.kind != "outside"]
    if not f.fired:
        return tuple(Spot(n.name, n.place, n.x, n.y, float("inf"), "") for n in nodes)
    first = np.array([each.available["first"] for each in f.fired])
    worst = first.argmin(axis=0)
    return tuple(
        Spot(n.name, n.place, n.x, n.y, float(first[worst[i], i]), f.fired[worst[i]].case.name)
        for i, n in enumerate(nodes))  # fmt: skip
