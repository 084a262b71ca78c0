"""Heat of a station: buildings, gaps, snow floors and the air of every place through the years."""

from __future__ import annotations

from collections.abc import Mapping

from firnstead.core.memo import Memo
from firnstead.core.results import WHOLE, Check, Study, not_checked
from firnstead.heat.case import StationCase
from firnstead.heat.numbers import HeaterCase, Numbers, electric_by_month, flows_of, fuel_by_month, numbers_of
from firnstead.heat.results import HeatMonths, HeatYear, Row
from firnstead.heat.study_air import balance_check, limit_check, names_of, place_result, well_checks
from firnstead.heat.study_case import case_of, groups_of, room_of, snowfield
from firnstead.heat.study_change import remedies_for
from firnstead.heat.study_items import items_of
from firnstead.heat.study_rooms import building_checks, building_result
from firnstead.snow import SnowResult
from firnstead.snow.year import surface_temperature_by_month
from firnstead.station import Station
from firnstead.station.heat import Heat


def study(
    station: Station, snow: SnowResult, memo: Memo | None = None, *, gains: Mapping[str, Row] | None = None,
    waste: Row | None = None,
) -> Study:  # fmt: skip
    """Work out the heat; `gains` [W] by place from pipes and power, `waste` [W] heat of the sets, both by month."""
    memo = memo if memo is not None else Memo()
    heat = station.heat
    if heat is None:
        names = names_of("Station", WHOLE)
        reason = "No heat in the file: the air of trenches, the snow under buildings and heating are not reckoned"
        return Study(None, (not_checked(question="Heat of the station", key="heat.none", reason=reason, **names),))
    key, numbers = _numbers(station, heat, snow, memo, gains, waste)
    return memo.get(("heat.study", *key, heat.floor_limit, heat.fuel_heat, heat.fuel_density, _others(station, heat)),
                    lambda: _study(station, heat, snow, numbers))  # fmt: skip


def months(
    station: Station, snow: SnowResult, memo: Memo, *, gains: Mapping[str, Row] | None, waste: Row | None
) -> HeatMonths | None:
    """What other studies need of the heat, without checks and workings: for rounds of the balance; else None."""
    heat = station.heat
    if heat is None:
        return None
    key, n = _numbers(station, heat, snow, memo, gains, waste)

    def made() -> HeatMonths:
        air = {p.name: n.row(n.march.air[0, i], n.warmest_year(n.march.air[0, i])) for i, p in enumerate(n.case.places)}
        return HeatMonths(
            air, electric_by_month(n), fuel_by_month(n, heat.fuel_heat, heat.fuel_density), _waste_used(n)
        )

    return memo.get(("heat.months", *key, heat.fuel_heat, heat.fuel_density), made)


def _numbers(
    station: Station, heat: Heat, snow: SnowResult, memo: Memo, gains: Mapping[str, Row] | None, waste: Row | None
) -> tuple[tuple[object, ...], Numbers]:
    """The march of a station and the key under which it is remembered."""
    groups = groups_of(station, heat)
    case = case_of(station, heat, groups, gains)
    field = snowfield(station, snow, heat, groups, case.climate, memo)
    heaters = _heaters(heat, case)
    key = ("heat", case, heaters, waste, field.scenarios, field.surroundings, snow)
    return key, memo.get(key, lambda: numbers_of(case, field, heaters, waste))


def _waste_used(n: Numbers) -> Row:
    used = [n.given[i].sum(axis=0) for i, h in enumerate(n.heaters) if h.kind == "waste heat"]
    return tuple(float(sum(row[m] for row in used)) for m in range(12))


def _study(station: Station, heat: Heat, snow: SnowResult, n: Numbers) -> Study:
    case = n.case
    places = {p.name: place_result(n, i) for i, p in enumerate(case.places)}
    buildings = {b.name: building_result(n, i) for i, b in enumerate(case.buildings)}
    checks: list[Check] = []
    for i, p in enumerate(case.places):
        subject = f'{"Passage" if p.name in station.passages else "Trench"} "{p.name}"'
        checks.append(limit_check(n, i, snow, subject, places[p.name]))
        checks += well_checks(n, i, snow, subject)
    for i, b in enumerate(case.buildings):
        checks += building_checks(n, i, f'Building "{b.name}"', heat.floor_limit)
    checks += _unanswered(station, heat)
    checks.append(balance_check(n))
    fuel = fuel_by_month(n, heat.fuel_heat, heat.fuel_density)
    result = HeatYear(
        scenarios=tuple(s.name for s in n.snowfield.scenarios), surface=surface_temperature_by_month(station.site),
        air={name: p.air for name, p in places.items()}, air_high={name: p.air_high for name, p in places.items()},
        air_low={name: p.air_low for name, p in places.items()},
        air_years={name: p.air_years for name, p in places.items()},
        demand={name: b.demand for name, b in buildings.items()}, electric=electric_by_month(n), fuel=fuel,
        waste_used=_waste_used(n),
        short={b.name: tuple(float(v) for v in n.short[i]) for i, b in enumerate(case.buildings)
               if float(n.short[i].max()) > 1e-6},
        flows=flows_of(n), residual=n.residual, places=places, buildings=buildings,
        remedies=tuple(r for i in range(len(places)) for r in remedies_for(n, i)[0]))  # fmt: skip
    return Study(result, tuple(checks), items_of(station, heat, sum(fuel)))


def _heaters(heat: Heat, case: StationCase) -> tuple[HeaterCase, ...]:
    numbers = {b.name: i for i, b in enumerate(case.buildings)}
    return tuple(
        HeaterCase(name, h.kind, tuple(numbers[b] for b in h.serves if b in numbers) if h.serves
                   else tuple(numbers.values()), h.output * h.count, h.efficiency)
        for name, h in heat.heaters.items())  # fmt: skip


def _unanswered(station: Station, heat: Heat) -> list[Check]:
    """Buildings of which the file says too little."""
    found = []
    for name, building in station.buildings.items():
        names = names_of(f'Building "{name}"', building.place)
        if building.kit not in heat.envelopes:
            found.append(not_checked(question="Heat of the building", key="heat.building", **names,
                                     reason="its kit has no envelope: nothing is known of what it loses"))  # fmt: skip
        elif room_of(heat, name).temperature is None and building.people > 0:
            found.append(not_checked(question="Heat of the building", key="heat.building", **names,
                                     reason="people sleep in it and it is not heated"))  # fmt: skip
    return found


def _others(station: Station, heat: Heat) -> str:
    """What checks and work items read besides the numbers: names, parts, crews."""
    return repr((station.buildings, station.kits, station.crews, station.parts, heat, list(station.passages)))
