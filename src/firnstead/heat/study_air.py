"""The warmest air of each place against its limit, with a working that leads to it by hand; air wells; the balance."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from firnstead.core.cautions import caution_for
from firnstead.core.results import WHOLE, Check, Step, check, not_checked
from firnstead.core.units import show
from firnstead.heat.airflow import AIR_HEAT, air_density, stack_flow, warmed_snow_radius
from firnstead.heat.case import WellCase
from firnstead.heat.closed_form import heat_cylinder
from firnstead.heat.march import DRAUGHT
from firnstead.heat.numbers import Numbers
from firnstead.heat.results import PlaceHeat
from firnstead.heat.study_change import remedies_for
from firnstead.snow import SnowResult
from firnstead.snow.heat_capacity import heat_capacity_ice
from firnstead.snow.year import MONTH, MONTHS

CAUTION = caution_for("heat")
SOURCES = ("hoffman_1970", "hoffman_1967", "hoffman_1973")  # the limit, why it matters, and ducts that hold it
CLOSES = 1e-6  # share by which the station's energy may be out
Names = dict[str, Any]


def names_of(subject: str, place: str) -> Names:
    """What every check of the heat study shares."""
    return {"subject": subject, "place": place, "discipline": "heat", "caution": CAUTION}


@dataclass(frozen=True)
class Moment:
    """The scenario and month in which a place is warmest."""

    scenario: int
    month: int


def warmest_moment(n: Numbers, place: int) -> Moment:
    """Where the air of a place is highest."""
    air = n.march.air[:, place]
    scenario, month = divmod(int(np.argmax(air)), air.shape[1])
    return Moment(scenario, month)


def place_result(n: Numbers, p: int) -> PlaceHeat:
    """Rows of one place."""
    m, case = n.march, n.case.places[p]
    at = warmest_moment(n, p)
    air, worst = m.air[0, p], m.air[at.scenario, p]
    year = n.warmest_year(air)
    decisive = min(at.month // 12, n.years - 1)
    surface = n.row(np.asarray(n.case.climate.surface))
    expected = n.row(air, year)
    balance = {name: n.row(values[0, p], year) for name, values in m.terms.items()}
    wells = [i for i, at_place in enumerate(_well_places(n)) if at_place == p]
    share = m.well_share[0, wells].mean(axis=0) if wells else np.zeros_like(air)
    return PlaceHeat(
        limit=case.limit, warmest=float(m.air[:, p].max()), scenario=n.snowfield.scenarios[at.scenario].name,
        months_above=tuple(name for name, t in zip(MONTHS, n.row(worst, decisive), strict=True) if t > case.limit),
        vents_shut=tuple(name for name, t, s in zip(MONTHS, expected, surface, strict=True) if s >= t),
        air=expected, air_high=n.extreme(m.air[:, p], True), air_low=n.extreme(m.air[:, p], False),
        air_years=n.yearly(air), wall_years=n.yearly(m.wall[0, p]),
        balance={**balance, "doorways": n.row(m.links[0, p], year)}, well_share=n.row(share, year))  # fmt: skip


def _well_places(n: Numbers) -> list[int]:
    return [i for i, each in enumerate(n.case.places) for _ in each.wells]


def limit_check(n: Numbers, p: int, snow: SnowResult, subject: str, result: PlaceHeat) -> Check:
    """The limit temperature of a place through all years."""
    case, at = n.case.places[p], warmest_moment(n, p)
    mean = n.case.climate.mean
    steps = air_steps(n, p, at, snow)
    demand = steps[-1].value
    room = Step("r", "(T - T_m)/(T_l - T_m)", (("T", demand, "K"), ("T_m", mean, "K"), ("T_l", case.limit, "K")),
                (demand - mean) / (case.limit - mean) if case.limit > mean else math.inf, "1", "own_rule",
                "share used of the rise above undisturbed snow that the limit leaves")  # fmt: skip
    if case.limit <= mean:
        room = Step("r", "", room.inputs, math.inf, "1", "own_rule", "the limit is not above the undisturbed snow")
    note = (f"{MONTHS[n.month(at.month)]} of year {at.month // 12 + 1}, {result.scenario}"
            + (f"; above the limit in {', '.join(result.months_above)}" if result.months_above else ""))  # fmt: skip
    remedies, change = remedies_for(n, p)
    if remedies:
        note += "; each alone would do: " + "; ".join(
            f"{r.change}: {show(r.amount, r.unit) if r.unit != '1' else f'{r.amount:.0%}'}" for r in remedies
        )
    return check(
        question="Warmest air in the design life", key="heat.limit", unit="K", demand=demand, limit=case.limit,
        ratio=room.value, working=(*steps, room, *change), sources=SOURCES, note=note,
        **names_of(subject, case.name))  # fmt: skip


def air_steps(n: Numbers, p: int, at: Moment, snow: SnowResult) -> tuple[Step, ...]:
    """The balance of the air in its warmest month, ending with its temperature."""
    m, c, case, k = n.march, n.case.climate, n.case.places[p], (at.scenario, at.month)
    rho_c = float(air_density(c.pressure, c.mean)) * AIR_HEAT
    here, surface = float(m.air[k[0], p, k[1]]), c.surface[at.month % 12]
    inside = [(i, b) for i, b in enumerate(n.case.buildings) if b.place == p]
    carried = [b.wall_roof + (0.0 if b.from_outside else b.ventilation * (1 - b.recovery) * rho_c)
               + rho_c * float(m.leak[k[0], i, k[1]]) for i, b in inside]  # fmt: skip
    vent = sum(float(m.vent_share[k[0], j, k[1]]) * rho_c * _vent_flow(n, v, here, surface)
               for j, (q, v) in enumerate(_vents(n)) if q == p)  # fmt: skip
    wells = [(float(m.well_share[k[0], j, k[1]]), w) for j, (q, w) in enumerate(_wells(n)) if q == p]
    well = [s * w.flow * w.count * rho_c for s, w in wells]
    colder = [g if w.temperature < here else 0.0 for g, (_, w) in zip(well, wells, strict=True)]
    doors = _doors(n, p, k, rho_c)
    fans = sum(s * w.fan_power * w.count for s, w in wells)
    surplus = sum(float(m.surplus[k[0], i, k[1]]) for i, _ in inside)
    gaps, gains = float(m.terms["gaps"][k[0], p, k[1]]), float(m.terms["gains"][k[0], p, k[1]])
    given = (("P_g", gains, "W"), ("P_s", surplus, "W"), ("P_a", gaps, "W"), ("P_f", fans, "W"))
    power = gains + surplus + gaps + fans
    into = -float(m.terms["snow"][k[0], p, k[1]])
    parts = (
        ("b", sum(carried), _mean(carried, [b.temperature for _, b in inside]), "walls, roofs, leaks and fresh air"),
        ("v", vent, surface, "vents to the surface, open while it is colder"),
        ("w", sum(colder), _mean(colder, [w.temperature for _, w in wells]), "air wells"),
        ("o", case.outside_leak * rho_c, surface, "portals and hatches, open to the surface in summer too"),
        ("d", sum(g for g, _ in doors), _mean([g for g, _ in doors], [t for _, t in doors]), "doorways between places"),
    )  # fmt: skip
    steps = [Step("P", "P_g + P_s + P_a + P_f", given, power, "W", "own_rule",
                  "things, people, pipes, engines; warmth let out of rooms; air of gaps; fans")]  # fmt: skip
    top, bottom, values = "P - Q_s", "", [("P", power, "W"), ("Q_s", into, "W")]
    for letter, g, t, what in parts:
        if g > 0:
            steps.append(Step(f"G_{letter}", "", (("T", here, "K"), (f"T_{letter}", t, "K")), g, "W/K",
                              "textbook_unchecked", f"conductance of {what}, at the air's warmth"))  # fmt: skip
            top += f" + G_{letter} T_{letter}"
            bottom += (" + " if bottom else "") + f"G_{letter}"
            values += [(f"G_{letter}", g, "W/K"), (f"T_{letter}", t, "K")]
    steps += [_snow_step(n, p, k, into), _hand_step(n, p, at, snow)]
    total = sum(g for _, g, _, _ in parts if g > 0)
    if total > 0:
        value = (power - into + sum(g * t for _, g, t, _ in parts if g > 0)) / total
        steps.append(Step("T", f"({top})/({bottom})", tuple(values), value, "K", "textbook_unchecked",
                          "what comes in goes out: the air's temperature"))  # fmt: skip
    else:
        steps.append(Step("T", "", tuple(values), here, "K", "textbook_unchecked",
                          "the temperature at which the snow takes what is given off"))  # fmt: skip
    return tuple(steps)


def _mean(weights: list[float], values: list[float]) -> float:
    total = sum(weights)
    return sum(w * v for w, v in zip(weights, values, strict=True)) / total if total > 0 else 0.0


def _vents(n: Numbers) -> list[tuple[int, Any]]:
    return [(i, v) for i, each in enumerate(n.case.places) for v in each.vents]


def _wells(n: Numbers) -> list[tuple[int, WellCase]]:
    return [(i, w) for i, each in enumerate(n.case.places) for w in each.wells]


def _vent_flow(n: Numbers, vent: Any, here: float, surface: float) -> float:
    if here <= surface:
        return 0.0
    if vent.area > 0:
        return float(stack_flow(vent.area, vent.height, n.case.climate.pressure, surface, here))
    return float(vent.flow * vent.count)


def _doors(n: Numbers, p: int, k: tuple[int, int], rho_c: float) -> list[tuple[float, float]]:
    """(conductance, temperature beyond) of each doorway, as the march reckons it."""
    from firnstead.heat.airflow import doorway_exchange

    air, mean = n.march.air[k[0], :, k[1]], n.case.climate.mean
    found = []
    for link in n.case.links:
        if p not in (link.a, link.b):
            continue
        other = float(air[link.b if p == link.a else link.a])
        flow = link.leak or float(doorway_exchange(link.width, link.height, float(air[p]) - other, mean, least=DRAUGHT))
        found.append((flow * rho_c, other))
    return found


def _snow_step(n: Numbers, p: int, k: tuple[int, int], into: float) -> Step:
    scenario = n.snowfield.scenarios[k[0]]
    cover = n.snowfield.surroundings[n.case.places[p].section][k[0]].cover
    return Step("Q_s", "", (("f", scenario.conductivity, "1"), ("c", cover, "m"), ("n", float(k[1] + 1), "1")), into,
                "W", "calonne_2019", "heat into walls, roof and free floor by conduction through the section, all "
                "months before counted (finite elements); f on the conductivity, cover c, month n")  # fmt: skip


def _hand_step(n: Numbers, p: int, at: Moment, snow: SnowResult) -> Step:
    """The same by the exact solution for a round hole that was held at this month's wall temperature all along."""
    case, around = n.case.places[p], n.snowfield.surroundings[n.case.places[p].section][at.scenario]
    response = n.snowfield.responses[case.section][at.scenario]
    radius = (response.wall_length + response.patch_width) / (2 * math.pi)
    depth = min(around.cover + around.outline.points[-1][1] / 2, float(snow.column.depth[-1]))
    k = snow.column.at("conductivity", depth) * around.conductivity_factor
    alpha = snow.column.at("diffusivity", depth) * around.conductivity_factor
    fourier = alpha * (at.month + 1) * MONTH / radius**2
    rise = float(n.march.air[at.scenario, p].mean()) - n.case.climate.mean
    g = heat_cylinder(fourier)
    return Step("Q_h", "2 pi k L D G", (("k", k, "W/m/K"), ("L", case.length, "m"), ("D", rise, "K"), ("G", g, "1")),
                2 * math.pi * k * case.length * rise * g, "W", "carslaw_jaeger",
                "to compare, by hand: an equivalent round hole far from the surface, held at the life's mean rise D; "
                "G from the exact solution")  # fmt: skip


def well_checks(n: Numbers, p: int, snow: SnowResult, subject: str) -> tuple[Check, ...]:
    """How far the snow warms about each air well in a warm season, against the distance to the next."""
    c, found = n.case.climate, []
    rho_c = float(air_density(c.pressure, c.mean)) * AIR_HEAT
    for j, (q, well) in enumerate(_wells(n)):
        if q != p or sum(w.count for _, w in _wells(n)) == 1:
            continue
        names = {
            "question": "Air wells far enough apart",
            "key": "heat.wells",
            **names_of(subject, n.case.places[p].name),
        }
        if well.spacing is None:
            found.append(not_checked(reason="the distance to the next air well is not given", **names))
            continue
        found.append(_well_check(n, j, well, snow, rho_c, names))
    return tuple(found)


def _well_check(n: Numbers, j: int, well: WellCase, snow: SnowResult, rho_c: float, names: Names) -> Check:
    c, share = n.case.climate, n.march.well_share[0, j]
    year = np.asarray(c.surface)
    running = share[: 12 * n.years].reshape(-1, 12).max(axis=0)
    heat = float(np.sum(np.maximum(year - well.temperature, 0.0) * running)) * rho_c * well.flow * MONTH
    density = snow.column.mean("density", 0.0, max(well.casing, 1.0))
    capacity, rise = heat_capacity_ice(c.mean), well.temperature - c.mean
    assert well.spacing is not None
    if rise <= 0:
        return not_checked(reason="the supply is given as cold as the undisturbed snow: test the well at the end of a "
                           "warm season", **names)  # fmt: skip
    radius = warmed_snow_radius(heat, rise, density, capacity)
    steps = (
        Step("Q", "", (("V", well.flow, "m3/s"), ("T_w", well.temperature, "K")), heat, "J", "own_rule",
             "heat that surface air warmer than the supply leaves in the snow in a year, running as needed"),
        Step("r", "((3 Q)/(2 pi rho c D))^(1/3)", (("Q", heat, "J"), ("rho", density, "kg/m3"), ("c", capacity,
             "J/kg/K"), ("D", rise, "K")), radius, "m", "own_rule", "half-ball of snow that takes it up"),
        Step("d", "2 r", (("r", radius, "m"),), 2 * radius, "m", "own_rule", "two that only touch"),
    )  # fmt: skip
    return check(unit="m", demand=2 * radius, limit=well.spacing, working=steps, sources=("yen_bender_1962",),
                 note="the warm front is not sharp; measure the supply every summer", **names)  # fmt: skip


def balance_check(n: Numbers) -> Check:
    """The energy of the whole station."""
    names = names_of("Station", WHOLE)
    step = Step("e", "", (("n", float(n.case.climate.months), "1"),), n.residual, "1", "own_rule",
                "sum of all ways in and out, over the heat that moves, all months and scenarios")  # fmt: skip
    return check(question="Heat in and heat out agree", key="heat.balance", unit="1", demand=n.residual, limit=CLOSES,
                 working=(step,), **names)  # fmt: skip
