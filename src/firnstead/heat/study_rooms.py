"""Checks of one heated building: snow under it, floor, envelope, heating."""

from __future__ import annotations

import math

import numpy as np

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.heat.airflow import AIR_HEAT, air_density
from firnstead.heat.envelope import HUT_MEASURED, INSIDE, floor_surface, resistance_air_layer
from firnstead.heat.numbers import Numbers, frost_by_month
from firnstead.heat.results import BuildingHeat
from firnstead.heat.study_air import Names, names_of
from firnstead.heat.vapour import dew_point
from firnstead.snow.year import MONTHS


def _rho_c(n: Numbers) -> float:
    return float(air_density(n.case.climate.pressure, n.case.climate.mean)) * AIR_HEAT


def _half_gap(n: Numbers, i: int, scenario: int, month: int) -> float:
    """Half of the gap's resistance, at its temperature of the month before, as the march has it [m2 K/W]."""
    before = float(n.march.gap[scenario, i, month - 1]) if month else n.case.climate.mean
    return 0.5 * float(resistance_air_layer(n.case.buildings[i].gap.height, "down", before))


def building_result(n: Numbers, i: int) -> BuildingHeat:
    """Rows of one building."""
    m, b = n.march, n.case.buildings[i]
    rho_c = _rho_c(n)
    first = slice(0, 12)
    colder = b.temperature - m.air[0, b.place, first]
    fresh = b.ventilation * (1 - b.recovery) * rho_c
    losses = {
        "walls, roof, openings": float((b.wall_roof * colder).mean()),
        "leaks": float((rho_c * m.leak[0, i, first] * colder).mean()),
        "fresh air": float(m.outside_loss[0, i, first].mean() if b.from_outside else (fresh * colder).mean()),
        "floor": float(m.floor_loss[0, i, first].mean()),
    }
    floor = m.snow_floor[0, i, : 12 * n.years].reshape(-1, 12)
    coldest = _coldest_floor(n, i)
    return BuildingHeat(
        place=n.case.places[b.place].name, temperature=b.temperature, transmittance=_transmittance(n, i)[-1].value,
        losses=losses, gains=b.gains, demand=tuple(float(v) for v in n.demand[i]), surplus=n.row(m.surplus[0, i]),
        peak=float(m.demand[:, i].max()), leak=n.row(m.leak[0, i]),
        gap=n.row(m.gap[0, i], n.warmest_year(m.gap[0, i])),
        snow_floor_years=tuple(float(v) for v in floor.max(axis=1)),
        snow_below_years=tuple(n.yearly(m.probe[0, i, d]) for d in range(3)),
        snow_floor=float(m.snow_floor[:, i].max()), floor_surface=coldest[-1].value,
        dew_point=dew_point(b.temperature, b.humidity), frost=frost_by_month(n, i))  # fmt: skip


def building_checks(n: Numbers, i: int, subject: str, floor_limit: float) -> tuple[Check, ...]:
    """All checks of one building."""
    names = names_of(subject, n.case.places[n.case.buildings[i].place].name)
    return (_snow(n, i, floor_limit, names), _dew(n, i, names), _hut(n, i, names), _heating(n, i, names))


def _snow(n: Numbers, i: int, limit: float, names: Names) -> Check:
    m, b, mean = n.march, n.case.buildings[i], n.case.climate.mean
    scenario, month = divmod(int(np.argmax(m.snow_floor[:, i])), n.case.climate.months)
    half, area = _half_gap(n, i, scenario, month), b.floor_area
    u = 1.0 / (b.floor_resistance + half)
    gap, floor = float(m.gap[scenario, i, month]), float(m.snow_floor[scenario, i, month])
    into = area * (gap - floor) / half
    sweep = b.gap.flow * _rho_c(n) if b.gap.supply != "none" else 0.0
    supply = {"trench": float(m.air[scenario, b.place, month]), "outside": n.case.climate.surface[month % 12],
              "well": b.gap.temperature, "none": 0.0}[b.gap.supply]  # fmt: skip
    head = "U A T_i - Q_s" if sweep == 0 else "U A T_i + C T_v - Q_s"
    under = "U A" if sweep == 0 else "U A + C"
    given = [("U", u, "W/m2/K"), ("A", area, "m2"), ("T_i", b.temperature, "K"), ("Q_s", into, "W")]
    given += [] if sweep == 0 else [("C", sweep, "W/K"), ("T_v", supply, "K")]
    gap_value = (u * area * b.temperature + (sweep * supply if sweep else 0.0) - into) / (u * area + sweep)
    value = gap_value - into * half / area
    steps = (
        Step("R_h", "", (("d", b.gap.height, "m"),), half, "m2 K/W", "iso_6946",
             "half of the air layer's resistance, heat downwards, at its own temperature"),
        Step("U", "1/(R_f + R_h)", (("R_f", b.floor_resistance, "m2 K/W"), ("R_h", half, "m2 K/W")), u, "W/m2/K",
             "iso_6946", "from the room to the middle of the gap"),
        Step("Q_s", "", (("n", float(month + 1), "1"), ("f", n.snowfield.scenarios[scenario].conductivity, "1")), into,
             "W", "calonne_2019", "heat that the snow under the building takes in month n by conduction through the "
             "section, all months before counted (finite elements); f on the conductivity"),
        Step("T_g", f"({head})/({under})", tuple(given), gap_value, "K", "own_rule",
             "air of the gap: what the floor lets through goes into the snow" + (" and the air" if sweep else "")),
        Step("T_s", "T_g - (Q_s R_h)/A", (("T_g", gap_value, "K"), ("Q_s", into, "W"), ("R_h", half, "m2 K/W"),
             ("A", area, "m2")), value, "K", "iso_6946", "snow right under it"),
        Step("r", "(T_s - T_m)/(T_l - T_m)" if limit > mean else "", (("T_s", value, "K"), ("T_m", mean, "K"),
             ("T_l", limit, "K")), (value - mean) / (limit - mean) if limit > mean else math.inf, "1", "own_rule",
             "share used of the rise above undisturbed snow that the limit leaves"),
    )  # fmt: skip
    note = f"{MONTHS[n.month(month)]} of year {month // 12 + 1}, {n.snowfield.scenarios[scenario].name}"
    if value >= 273.15:
        note += "; the snow melts: nothing stands on it"
    if steps[-1].value > 1:
        note += _gap_advice(
            n, i, limit, u, area, into, half, supply if sweep else float(m.air[scenario, b.place, month])
        )
    return check(question="Snow under the building", key="heat.snow_floor", unit="K", demand=value, limit=limit,
                 ratio=steps[-1].value, working=steps, note=note, **names)  # fmt: skip


def _gap_advice(
    n: Numbers, i: int, limit: float, u: float, area: float, into: float, half: float, supply: float
) -> str:
    """The sweep that would hold the snow at its limit with the present heat into the snow."""
    gap = limit + into * half / area
    if gap <= supply + 0.1:
        return "; the air that sweeps the gap is too warm for it: cool the trench first, or take colder air"
    heat = u * area * (n.case.buildings[i].temperature - gap) - into
    flow = heat / (_rho_c(n) * (gap - supply))
    return f"; about {max(flow, 0.0):.2g} m3/s of the same air through the gap would hold it" if flow > 0 else ""


def _coldest_floor(n: Numbers, i: int) -> tuple[Step, ...]:
    m, b = n.march, n.case.buildings[i]
    scenario, month = divmod(int(np.argmin(m.gap[:, i])), n.case.climate.months)
    u, gap = 1.0 / (b.floor_resistance + _half_gap(n, i, scenario, month)), float(m.gap[scenario, i, month])
    value = floor_surface(b.temperature, gap, u, surface_resistance=INSIDE["down"])
    return (
        Step("T_g", "", (("n", float(month + 1), "1"),), gap, "K", "own_rule", "coldest air of the gap in the life"),
        Step("T_f", "T_i - U (T_i - T_g) R_i", (("T_i", b.temperature, "K"), ("U", u, "W/m2/K"), ("T_g", gap, "K"),
             ("R_i", INSIDE["down"], "m2 K/W")), value, "K", "iso_6946", "upper surface of the floor"),
    )  # fmt: skip


def _dew(n: Numbers, i: int, names: Names) -> Check:
    b = n.case.buildings[i]
    surface = _coldest_floor(n, i)
    t, a, c = b.temperature - 273.15, 17.62, 243.12
    g = math.log(b.humidity) + a * t / (c + t)
    dew = dew_point(b.temperature, b.humidity)
    cold = surface[-1].value
    steps = (
        *surface,
        Step("g", "ln(phi) + (a t)/(b + t)", (("phi", b.humidity, "1"), ("a", a, "1"), ("b", c, "1"), ("t", t, "1")), g,
             "1", "textbook_unchecked", "t in degrees Celsius"),
        Step("T_d", "273.15 + (b g)/(a - g)", (("b", c, "1"), ("g", g, "1"), ("a", a, "1")), dew, "K",
             "textbook_unchecked", "dew point of the room"),
        Step("r", "(T_i - T_f)/(T_i - T_d)", (("T_i", b.temperature, "K"), ("T_f", cold, "K"), ("T_d", dew, "K")),
             (b.temperature - cold) / (b.temperature - dew), "1", "own_rule", "share used of what lies between"),
    )  # fmt: skip
    return check(question="Floor surface dry", key="heat.floor_dry", unit="K", demand=cold, limit=dew, at_least=True,
                 ratio=steps[-1].value, working=steps, sources=("tm_5_852_4",),
                 note="away from beams, edges and corners, which are colder", **names)  # fmt: skip


def _transmittance(n: Numbers, i: int) -> tuple[Step, ...]:
    b, m = n.case.buildings[i], n.march
    leak = float(m.leak[0, i, :12].max()) * _rho_c(n)
    floor = b.floor_area / (b.floor_resistance + float(resistance_air_layer(b.gap.height, "down", n.case.climate.mean)))
    return (
        Step("G_l", "", (("A_l", b.leak_area, "m2"), ("H", b.height, "m")), leak, "W/K", "ashrae_fundamentals",
             "leaks at their most in the first year"),
        Step('U_"all"', "(G_w + G_l + G_f)/A", (("G_w", b.wall_roof, "W/K"), ("G_l", leak, "W/K"),
             ("G_f", floor, "W/K"), ("A", b.envelope_area, "m2")),
             (b.wall_roof + leak + floor) / b.envelope_area, "W/m2/K", "iso_6946",
             "loss per area of walls, roof and floor; fresh air apart"),
    )  # fmt: skip


def _hut(n: Numbers, i: int, names: Names) -> Check:
    steps = _transmittance(n, i)
    return check(question="Loss per area beside a measured hut", key="heat.envelope", unit="W/m2/K",
                 demand=steps[-1].value, limit=HUT_MEASURED, working=steps, sources=("hoffman_1964",),
                 note="a plausible bound: barracks of its day in a climate chamber lost 0.158 Btu/(h ft2 degF), "
                      "infiltration counted", **names)  # fmt: skip


def _heating(n: Numbers, i: int, names: Names) -> Check:
    b, m = n.case.buildings[i], n.march
    question, key = "Heating power in the coldest month", "heat.heating"
    serving = [(h, heater) for h, heater in enumerate(n.heaters) if i in heater.serves]
    scenario, month = divmod(int(np.argmax(m.demand[:, i])), n.case.climate.months)
    here, calendar = float(m.air[scenario, b.place, month]), n.month(month)
    across = (b.temperature - here) * (b.wall_roof + _rho_c(n) * (float(m.leak[scenario, i, month])
              + (0.0 if b.from_outside else b.ventilation * (1 - b.recovery))))  # fmt: skip
    floor, fresh = float(m.floor_loss[scenario, i, month]), float(m.outside_loss[scenario, i, month])
    need = across + floor + fresh - b.gains
    value = max(need, 0.0)
    steps: tuple[Step, ...] = (
        Step("Q_a", "(T_i - T) G", (("T_i", b.temperature, "K"), ("T", here, "K"),
             ("G", across / (b.temperature - here) if b.temperature != here else 0.0, "W/K")), across, "W", "iso_6946",
             "to the trench: walls, roof, openings, leaks, fresh air from the trench"),
        Step("Q", "max(0, Q_a + Q_f + Q_o - P)", (("Q_a", across, "W"), ("Q_f", floor, "W"), ("Q_o", fresh, "W"),
             ("P", b.gains, "W")), value, "W", "own_rule",
             "with floor Q_f and fresh air from outside Q_o, less people, lamps and things P"),
    )  # fmt: skip
    if not serving:
        if value == 0.0:
            return check(question=question, key=key, unit="W", demand=0.0, limit=b.gains, working=steps,
                         note="it needs no heater: what is in it keeps it warm", **names)  # fmt: skip
        return not_checked(question=question, key=key, unit="W", demand=value, working=steps,
                           reason="no heater in the file serves it", **names)  # fmt: skip
    output = sum(float(n.output[h, calendar]) for h, _ in serving)
    others = sum(float(n.given[h, :, calendar].sum() - n.given[h, i, calendar]) for h, _ in serving)
    limit = output - others
    steps = (*steps, Step('Q_"lim"', "S - O", (("S", output, "W"), ("O", others, "W")), limit, "W", "own_rule",
             "output of its heaters less what they give to other buildings in that month"))  # fmt: skip
    return check(question=question, key=key, unit="W", demand=value, limit=limit, working=steps,
                 note=f"{MONTHS[calendar]}; mean of the month; waste heat counts only as far as the plant gives it",
                 **names)  # fmt: skip
