"""Water of the station: demand, the melt well through the years, tanks, sewage in the ice, work."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from firnstead.core.cautions import caution_for
from firnstead.core.memo import Memo
from firnstead.core.results import WHOLE, Check, Study, not_checked
from firnstead.core.units import show
from firnstead.snow import SnowResult
from firnstead.station import Station
from firnstead.station.water import Spot, Water
from firnstead.station.water_spots import head_depth, spot_place, spot_point
from firnstead.water.numbers import Well, well_of
from firnstead.water.plan import Plan
from firnstead.water.properties import WATER_DENSITY
from firnstead.water.results import BulbYear, Shaft, WaterYear, WellResult
from firnstead.water.study_items import water_items
from firnstead.water.study_life import life_checks
from firnstead.water.study_plan import plan_of
from firnstead.water.study_store import store_checks, volume_of
from firnstead.water.study_sump import no_sump, sump_checks
from firnstead.water.study_well import well_checks
from firnstead.water.sump import Bulb, bulb_through_the_years

NOTHING = (0.0,) * 12


def study(
    station: Station, snow: SnowResult, memo: Memo | None = None, *, waste: Sequence[float] | None = None
) -> Study:
    """Work out the water of a station; `waste` [W] is what the generators give off for the well, by month."""
    memo = memo if memo is not None else Memo()
    water = station.water
    if water is None:
        question, reason = "Water of the station", 'No "water" in the file'
        none = not_checked(subject="Water", question=question, reason=reason, key="water.part", discipline="water",
                           place=WHOLE, caution=caution_for("water"))  # fmt: skip
        return Study(WaterYear(NOTHING, NOTHING, {}, 0.0, {}, NOTHING, NOTHING, NOTHING, "", None, (), (), 0.0, 0.0,
                               (reason,)), (none,))  # fmt: skip
    plan = plan_of(station, water, waste)
    found: tuple[WaterYear, tuple[Check, ...], Well, WellResult] = memo.get(
        ("water", plan, spot_place(station, water.well), spot_place(station, water.sump or Spot())),
        lambda: _answers(station, water, plan, memo))  # fmt: skip
    year, checks, well, result = found
    shafts = _shafts(station, water, result, year.bulbs)
    return Study(replace(year, shafts=shafts), checks, water_items(station, water, well, result))


def _answers(
    station: Station, water: Water, plan: Plan, memo: Memo
) -> tuple[WaterYear, tuple[Check, ...], Well, WellResult]:  # fmt: skip
    well = well_of(plan, memo)
    result = well.result
    place = spot_place(station, water.well)
    checks = [*well_checks(well, place), *life_checks(well, place), *store_checks(plan)]
    bulbs: tuple[Bulb, ...] = ()
    if plan.sump is None or water.sump is None:
        checks.append(no_sump(place, well))
    else:
        case = plan.sump.case
        bulbs = memo.get(("water.sump", case), lambda: bulb_through_the_years(case))
        checks += sump_checks(well, plan.sump, bulbs, spot_place(station, water.sump))
    return _year(plan, well, result, bulbs), tuple(checks), well, result


def _year(plan: Plan, well: Well, result: WellResult, bulbs: tuple[Bulb, ...]) -> WaterYear:
    electric = {"well pump and circulation": well.row("pumping")}
    heaters = well.row("electric_heat")
    if any(heaters):
        electric["well heaters"] = heaters
    return WaterYear(
        people=plan.people, draw=plan.pool.draw,
        by_use={name: tuple(WATER_DENSITY * (n * head + steady) for n in plan.people)
                for name, head, steady in plan.uses},
        yearly=sum(plan.pool.draw) / 12 * 365.25 * 86400, electric=electric, heat=well.row("power"),
        waste_used=well.row("waste"), fuel=well.row("fuel"), year_of_rows=well.rows[0].month if well.rows else "",
        well=result, bulbs=tuple(_bulb_year(i // 12, b) for i, b in enumerate(bulbs) if i % 12 == 0 or b is bulbs[-1]),
        shafts=(), domestic=volume_of(plan, fire=False), fire=volume_of(plan, fire=True),
        notes=_notes(plan, result))  # fmt: skip


def _bulb_year(year: int, b: Bulb) -> BulbYear:
    return BulbYear(year, b.sewage, b.melted, b.liquid, b.radius, b.overflow, b.reach)


def _notes(plan: Plan, result: WellResult) -> tuple[str, ...]:
    told = "from the power study" if plan.waste_told else "as the file states it"
    low, high = show(result.end_age_low, "s"), show(result.end_age_high, "s")
    return (
        f"Waste heat {told}; it is used before any boiler.",
        f"The pool is half a spheroid, {plan.pool.shape:g} times as deep as its radius: sound it, then mend `shape`.",
        f"With the pool half again flatter or steeper the well lasts {low} to {high}.",
        "Until water may be drawn the station needs another source: melted snow.",
        "The creep of the empty part of the cavity is not computed.",
        "Very pure meltwater eats metals: harden it before it goes into pipes.",
    )  # fmt: skip


def _shafts(
    station: Station, water: Water, result: WellResult, bulbs: tuple[BulbYear, ...]
) -> tuple[Shaft, ...]:  # fmt: skip
    spots: list[tuple[str, str, Spot, float, float, float]] = [
        ("well", "WATER - melt well", water.well, water.well.shaft_diameter, water.well.start_depth, result.disturbed)
    ]
    spots += [(f"well {i + 2}", f"WATER - melt well {i + 2} (later)", spot, water.well.shaft_diameter,
               water.well.start_depth, result.disturbed) for i, spot in enumerate(water.next_wells)]  # fmt: skip
    if water.sump is not None:
        spots.append(("sump", "SEWAGE - never water", water.sump, water.sump.shaft_diameter, water.sump.depth,
                      bulbs[-1].reach if bulbs else 0.0))  # fmt: skip
    return tuple(
        Shaft(name, label, spot_place(station, spot), point[0], point[1], diameter, head_depth(station, spot), foot,
              reach)
        for name, label, spot, diameter, foot, reach in spots
        if (point := spot_point(station, spot)) is not None)  # fmt: skip
