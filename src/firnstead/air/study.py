"""The air of a station: rooms, fans and doors through the year, and what the people in them breathe."""

from __future__ import annotations

from collections.abc import Mapping

from firnstead.air.limits import published_limits
from firnstead.air.properties import air_density, altitude_of_pressure, oxygen_pressure, oxygen_share_felt
from firnstead.air.properties import pressure_standard as standard
from firnstead.air.results import MONTHS, AirResult, ChosenLimit, NoAir, RoomAir
from firnstead.air.study_alarms import ALARM_CAUTION, alarm_checks, pressure_check
from firnstead.air.study_facts import Facts, Hour
from firnstead.air.study_fans import fan_check, fan_years, standing_check, vent_check, vent_years
from firnstead.air.study_items import air_items
from firnstead.air.study_people import people_checks, stop_check, stopped
from firnstead.air.study_plant import (
    engine_airs,
    engine_check,
    exhaust_checks,
    exhaust_pairs,
    fume_checks,
    fumes_where_people_are,
    vehicle_airs,
    vehicle_checks,
    vehicle_series,
)
from firnstead.air.study_rooms import air_case
from firnstead.air.year import solve_year
from firnstead.core.memo import Memo
from firnstead.core.results import WHOLE, Check, Study, not_checked
from firnstead.snow import SnowResult
from firnstead.snow.year import surface_temperature_by_month
from firnstead.station import Station
from firnstead.station.air import Air

Row = tuple[float, ...]


def study(
    station: Station, snow: SnowResult, memo: Memo | None = None, *, temperatures: Mapping[str, Row] | None = None
) -> Study:
    """Work out the air of a station; `temperatures` [K] of the air in places by month come from the heat study."""
    memo = memo if memo is not None else Memo()
    air = station.air
    if air is None:
        nothing = not_checked(
            subject="Station", question="Air for people and engines", key="air.none", discipline="air", place=WHOLE,
            reason="there is no air part in the file", caution=ALARM_CAUTION)  # fmt: skip
        return Study(NoAir("there is no air part in the file"), (nothing,), ())
    f = facts(station, air, memo, temperatures)
    fans, vents = fan_years(f), vent_years(f)
    engines, series, pairs = engine_airs(f), vehicle_series(f), exhaust_pairs(f)
    checks: list[Check] = [pressure_check(f)]
    for name in f.names:
        checks += [*people_checks(f, name), stop_check(f, name)]
    key = _key(f)
    for name, year in fans.items():
        stands = memo.get(("air.stands", name, key), lambda name=name: standing_check(f, name))  # type: ignore[misc]
        checks += [fan_check(f, name, year), *((stands,) if stands is not None else ())]
    checks += [vent_check(f, name, year) for name, year in vents.items()]
    for name, found in engines.items():
        checks += [engine_check(f, name, found), *fume_checks(f, name)]
    checks += fumes_where_people_are(f)
    for name in air.vehicles:
        checks += vehicle_checks(f, name, series)
    checks += [c for pair in pairs for c in exhaust_checks(f, pair)]
    checks += alarm_checks(f)
    result = AirResult(
        pressure=f.pressure, measured=air.station_pressure is not None, altitude=altitude_of_pressure(f.pressure),
        oxygen=oxygen_pressure(f.pressure), oxygen_felt=oxygen_share_felt(f.pressure), surface=f.surface,
        density=tuple(air_density(f.pressure, t) for t in f.surface), rooms={n: _room(f, n) for n in f.names},
        fans=fans, vents=vents, engines=engines, vehicles=vehicle_airs(f, series[0]) if series is not None else {},
        stopped=stopped(f), exhausts=pairs, limits=f.limits, through=f.through,
        left_over=max(m.left_over for m in f.months))  # fmt: skip
    return Study(result, tuple(checks), air_items(f))


def facts(station: Station, air: Air, memo: Memo | None = None, temperatures: Mapping[str, Row] | None = None) -> Facts:
    """Solve the year and gather what the checks look at."""
    memo = memo if memo is not None else Memo()
    pressure = air.station_pressure if air.station_pressure is not None else standard(station.site.elevation)
    case = air_case(station, air, pressure)
    surface = surface_temperature_by_month(station.site)
    rows = {
        name: tuple((temperatures or {}).get(name, (place.air,) * MONTHS)) for name, place in station.places.items()
    }
    months = memo.get(
        ("air.year", case, surface, tuple(rows.items())), lambda: solve_year(case, surface, rows)
    )  # fmt: skip
    limits = {name: ChosenLimit(x.gas, x.value, x.over, f"{x.source}, {x.edition}", "own_rule")
              for name, x in air.limits.items()}  # fmt: skip
    return Facts(station, air, case, months, surface, rows, pressure, hours_of(station, air),
                 limits or published_limits(), bool(limits))  # fmt: skip


def hours_of(station: Station, air: Air) -> tuple[Hour, ...]:
    """Hours to look at: the night in the buildings, the busiest hour, and those of the escape part."""
    night = tuple((name, b.people) for name, b in station.buildings.items() if b.people)
    found = [Hour("night", night, air.effort_night, True)] if night else []
    if air.day:
        found.append(Hour("busiest hour", tuple(air.day.items()), air.effort_day))
    if station.escape is not None:
        for name, scenario in station.escape.scenarios.items():
            people = tuple((who, count) for who, count in scenario.people.items() if count)
            if people:
                found.append(Hour(name, people, air.effort_night if scenario.asleep else air.effort_day,
                                  scenario.asleep))  # fmt: skip
    return tuple(found)


def _key(f: Facts) -> tuple[object, ...]:
    """What a standing fan's check depends on; the months are the same objects as long as rooms and warmth are."""
    limits = tuple((name, x.gas, x.value, x.over, x.source) for name, x in f.limits.items())
    air = f.air
    return (f.months, f.hours, limits, air.co2_per_person, air.outdoor_co2, air.mixing, air.repair_time,
            tuple((name, fan.draws_from, fan.blows_into) for name, fan in air.fans.items()))  # fmt: skip


def _room(f: Facts, name: str) -> RoomAir:
    worst, rooms = f.worst[name], f.rooms_of(name)
    h = f.hours.index(worst.hour)
    k, fresh = worst.mixing, f.air.outdoor_co2
    co2 = tuple(fresh + k * (float(x) - fresh) for x in f.co2[:, rooms, h].max(axis=1))
    given = f.person_steps(worst)[1].value * len(rooms)
    return RoomAir(
        place=f.place_of(name), volume=sum(f.case.rooms[i].volume for i in rooms),
        people=max(dict(hour.people).get(name, 0) for hour in f.hours), hour=worst.hour.name,
        fresh=f.least_inflow(rooms), fresh_equivalent=given / (worst.share - fresh) if worst.share > fresh else 0.0,
        co2=co2, co=tuple(k * float(x) for x in f.fumes["co"][:, rooms].max(axis=1)))  # fmt: skip
