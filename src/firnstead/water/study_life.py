"""Checks of the well's life, its pump, its shaft, and of the hours without heat or power, with workings."""

from __future__ import annotations

import math
from dataclasses import replace

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import show
from firnstead.water.cut import STILL_CONDUCTIVITY
from firnstead.water.numbers import CLOSED, Well
from firnstead.water.properties import ICE_DENSITY, LATENT, MELTING, WATER_DENSITY, WATER_HEAT
from firnstead.water.study_well import Kwargs, draw_steps, names

OPEN_SHAFT = "Cover the shaft; nobody near it without a line. "


def life_checks(well: Well, place: str) -> tuple[Check, ...]:
    """How long the well lasts and what can stop it sooner."""
    n = names(well, place)
    open_shaft = {**n, "caution": OPEN_SHAFT + n["caution"]}
    return (_life(well, n), _fall(well, n), _pump(well, n), _spare(well, n), _span(well, n), _narrow(well, open_shaft),
            _shaft_freezes(well, open_shaft), _lens(well, n), _hose(well, n), *_spacing(well, n))  # fmt: skip


def _life(well: Well, n: Kwargs) -> Check:
    p, (age, why) = well.plan, well.end
    most = well.horizon
    reached = age + (p.wells - 1) * max(age - p.lead, 0.0) if why else most
    lift = well.states[-1].level + p.delivery
    said = f"{why}, level {show(well.states[-1].level, 'm')} down" if why else "it outlasts the years looked at"
    steps = [Step("t_1", "", (("z_1", p.pool.start_depth, "m"), ('H_"max"', p.pump_lift, "m")), age, "s", "statics",
                  f"age of one well, from the march through the years: {said}; lift {show(lift, 'm')}")]  # fmt: skip
    if why:
        steps.append(Step("t", "t_1 + (n - 1) (t_1 - t_l)", (("t_1", age, "s"), ("n", float(p.wells), "1"),
                          ("t_l", p.lead, "s")), age + (p.wells - 1) * (age - p.lead), "s", "statics",
                          "with the later wells of the file, each alike and heated in time"))  # fmt: skip
        reached = steps[-1].value
    r = well.result
    more = " or more" if r.end_age_high >= most else ""
    note = (f"{show(r.end_age_low, 's')} to {show(r.end_age_high, 's')}{more} with a flatter or steeper pool; wells "
            "have lasted about 7 years in practice, one account says ten, to a lift of some 150 m")  # fmt: skip
    if r.next_start:
        note = f"start the next well by {r.next_start}: {show(p.lead, 's')} of heating and the steaming. {note}"
    return check(question="Years of water from the wells of the file", key="water.life", unit="s", demand=reached,
                 limit=most, at_least=True, ratio=None if why else 0.0, working=tuple(steps),
                 sources=("well_field_accounts",), note=note, **n)  # fmt: skip


def _fall(well: Well, n: Kwargs) -> Check:
    p = well.plan
    rate = well.fastest_fall
    steps = (Step("v", "", (("n", float(len(well.service)), "1"),), rate, "m/s", "statics",
                  "fastest fall of the level in a month of use, from the march"),
             Step("h", "v t", (("v", rate, "m/s"), ("t", p.lowered_every, "s")), rate * p.lowered_every, "m", "statics",
                  "fall between two lowerings of the pump"))  # fmt: skip
    return check(question="Fall of the level between two lowerings of the pump", key="water.submergence", unit="m",
                 demand=rate * p.lowered_every, limit=p.submergence - p.pool.least_depth, working=(*steps, Step(
                     "h_s", "d - d_m", (("d", p.submergence, "m"), ("d_m", p.pool.least_depth, "m")),
                     p.submergence - p.pool.least_depth, "m", "own_rule", "water over the pump less what it needs")),
                 note="read the level every day and sound the floor every week", **n)  # fmt: skip


def _pump(well: Well, n: Kwargs) -> Check:
    p = well.plan
    month = max(range(12), key=lambda m: p.pool.draw[m])
    flow = p.pool.draw[month] / WATER_DENSITY
    steps = (*draw_steps(well, month), Step("Q", "w/rho", (("w", p.pool.draw[month], "kg/s"),
             ("rho", WATER_DENSITY, "kg/m3")), flow, "m3/s", "statics", "volume"))  # fmt: skip
    return check(question="Flow of the pump", key="water.pump", unit="m3/s", demand=flow, limit=p.pump_flow,
                 working=steps, note=f"it runs {24 * flow / p.pump_flow:.1f} hours a day then", **n)  # fmt: skip


def _spare(well: Well, n: Kwargs) -> Check:
    have = float(well.plan.spares)
    steps = (Step("n_s", "", (("n", have, "1"),), have, "1", "own_rule", "spare pumps in the file"),)
    return check(question="Spare pump at the station", key="water.spare_pump", unit="1", demand=have, limit=1.0,
                 at_least=True, ratio=0.0 if have >= 1 else 2.0, working=steps, sources=("well_field_accounts",),
                 note="a pump frozen in is lost more often than it is saved", **n)  # fmt: skip


def _span(well: Well, n: Kwargs) -> Check:
    p, question, key = well.plan, "Span of the roof over the pool", "water.span"
    width = 2 * well.widest
    steps = (Step("D", "2 R", (("R", well.widest, "m"),), width, "m", "statics",
                  "greatest diameter of the water surface, from the march"),)  # fmt: skip
    if p.span is None:
        return not_checked(question=question, key=key, unit="m", demand=width, working=steps,
                           reason="no width that stands over a pool was found; the file gives none (`roof_span`)",
                           **n)  # fmt: skip
    return check(question=question, key=key, unit="m", demand=width, limit=p.span, working=steps,
                 note="the limit is the file's; what stands was not found", **n)  # fmt: skip


def _narrow(well: Well, n: Kwargs) -> Check:
    p, question, key = well.plan, "Shaft wide enough for pump and hoses", "water.shaft_width"
    if p.closing is None:
        return not_checked(question=question, key=key, unit="m", limit=p.pump_width,
                           reason="how fast the shaft narrows in this firn is not measured (`shaft_closing`); the law "
                                  "for holes in ice does not hold in firn", **n)  # fmt: skip
    age = well.end[0]
    width = p.shaft_diameter - p.closing * age
    steps = (Step("D_t", "D - v t", (("D", p.shaft_diameter, "m"), ("v", p.closing, "m/s"), ("t", age, "s")), width,
                  "m", "statics", "width at the well's end, closing steadily as measured"),)  # fmt: skip
    ratio = 1.0 + 1e-9 if well.end[1] == CLOSED else p.pump_width / max(width, 1e-9)
    return check(question=question, key=key, unit="m", demand=width, limit=p.pump_width, at_least=True, ratio=ratio,
                 working=steps, note="read the width every year; steam it wider before it binds", **n)  # fmt: skip


def _shaft_freezes(well: Well, n: Kwargs) -> Check:
    p = well.plan
    density = p.pool.density(p.pool.start_depth)
    time = well.shaft_freeze_time
    steps = (Step("t", "", (("D", p.shaft_diameter, "m"), ("d", p.melting_head, "m"), ("K", p.pool.integral, "W/m"),
                            ("rho", density, "kg/m3"), ("s", p.pool.sensible, "J/kg")), time, "s", "carslaw_jaeger",
                  "rho_w L (D^2 - d^2)/8 = K (R^2/a) H(a t/R^2): heat of a cylinder at 0 degC to ice"),)  # fmt: skip
    return check(question="Hours until water standing in the shaft freezes the melting head in", unit="s",
                 key="water.shaft_freeze", demand=time, limit=p.heat_repair, at_least=True, working=steps,
                 note="while the shaft is melted below the firn that drains; the longest time without heat or power is "
                      "the file's. Draw the head up at once when the steam fails", **n)  # fmt: skip


def _lens(well: Well, n: Kwargs) -> Check:
    p, cut = well.plan, well.cut
    question, key = "Hours without heat until the pool wears too much ice", "water.ice_lens"
    if cut is None:
        return not_checked(question=question, key=key, reason="no month with draw in the years looked at", **n)
    warmth = cut.temperature - MELTING
    steps = (
        Step("t_w", "", (("T_m", MELTING, "K"),), warmth, "K", "statics",
             f"pool above melting at the end of {cut.month}, the worst of all months of use, from the march"),
        Step("q", "", (("t_w", warmth, "K"), ("h", p.pool.top_film, "W/m2/K")), cut.flux, "W/m2", "own_rule",
             "heat flux from the surface to the roof then"),
        Step("t_1", "pi/4 k rho c (t_w/q)^2", (("k", STILL_CONDUCTIVITY, "W/m/K"), ("rho", WATER_DENSITY, "kg/m3"),
             ("c", WATER_HEAT, "J/kg/K"), ("t_w", warmth, "K"), ("q", cut.flux, "W/m2")), cut.first_ice, "s",
             "carslaw_jaeger", "until the surface of still water is at 0 degC: below 4 degC the coldest lies on top"),
        Step("t_2", "t_1 + (rho_i L x)/q", (("t_1", cut.first_ice, "s"), ("rho_i", ICE_DENSITY, "kg/m3"),
             ("L", LATENT, "J/kg"), ("x", p.ice_allowed, "m"), ("q", cut.flux, "W/m2")), cut.ice_allowed, "s",
             "statics", "and until the ice is as thick as allowed, no heat from below counted"),
    )  # fmt: skip
    note = (f"{show(cut.ice_at_repair, 'm')} of ice when heat comes back; the whole pool is cold after "
            f"{show(cut.all_cold, 's')} if it is stirred; the loss is made good in "
            f"{show(cut.restart, 's') if math.isfinite(cut.restart) else 'no time: there is no heat to spare'}. "
            "A well frozen down has been started again at about the cost of the first start")  # fmt: skip
    return check(question=question, key=key, unit="s", demand=cut.ice_allowed, limit=p.heat_repair, at_least=True,
                 working=steps, sources=("hoffman_2020", "well_field_accounts"), note=note, **n)  # fmt: skip


def _hose(well: Well, n: Kwargs) -> Check:
    p, question, key = well.plan, "Hours until the hose in the shaft freezes", "water.hose"
    if well.hose_time is None:
        reason = "the hose empties into the pool when the pump stops; see that it does"
        return not_checked(question=question, key=key, reason=reason, **n)
    warmth = min((s.warmth for s in well.service), default=well.states[-1].warmth)
    outer, cold = p.hose_bore + 2 * p.hose_insulation, MELTING - p.pool.ice_temperature
    wall = math.log(outer / p.hose_bore) / (2 * math.pi * p.hose_conductivity)
    whole = wall + 1 / (math.pi * outer * 8.0)
    steps = (
        Step("D", "d + 2 b", (("d", p.hose_bore, "m"), ("b", p.hose_insulation, "m")), outer, "m", "statics",
             "outside"),
        Step("R", "ln(D/d)/(2 pi k) + 1/(pi D h)", (("D", outer, "m"), ("d", p.hose_bore, "m"),
             ("k", p.hose_conductivity, "W/m/K"), ("h", 8.0, "W/m2/K")), whole, "m K/W", "textbook_unchecked",
             "resistance of wall, insulation and still air"),
        Step("t", "rho c pi d^2/4 R ln((t_w + D_a)/D_a)", (("rho", WATER_DENSITY, "kg/m3"), ("c", WATER_HEAT, "J/kg/K"),
             ("d", p.hose_bore, "m"), ("R", whole, "m K/W"), ("t_w", warmth, "K"), ("D_a", cold, "K")), well.hose_time,
             "s", "textbook_unchecked", "until standing water is at 0 degC; shaft air as cold as the firn"),
    )  # fmt: skip
    return check(question=question, key=key, unit="s", demand=well.hose_time, limit=p.pump_repair, at_least=True,
                 working=steps, note="a hose that empties itself when the pump stops is better", **n)  # fmt: skip


def _spacing(well: Well, n: Kwargs) -> tuple[Check, ...]:
    p = well.plan
    reach = p.pool.zone * well.widest
    zone = Step("r", "z R", (("z", p.pool.zone, "1"), ("R", well.widest, "m")), reach, "m", "lunardini_rand_1995",
                "radius of the ice that the pool disturbs")  # fmt: skip
    found = []
    if p.well_spacing is not None:
        both = replace(zone, symbol="a", formula="2 z R", value=2 * reach, text="disturbed ice of two wells together")
        found.append(check(question="Distance between two wells", key="water.well_spacing", unit="m", demand=2 * reach,
                           limit=p.well_spacing, working=(both,), **n))  # fmt: skip
    if p.well_to_fuel is None:
        found.append(not_checked(question="Distance of the well from fuel", key="water.well_fuel", unit="m",
                                 demand=reach, working=(zone,), **n,
                                 reason="the file does not say where fuel is kept (`fuel_places`)"))  # fmt: skip
    else:
        found.append(check(question=f"Distance of the well from fuel in {p.nearest_fuel}", key="water.well_fuel",
                           unit="m", demand=reach, limit=p.well_to_fuel, working=(zone,), sources=("own_rule",),
                           note="spilt fuel runs down through firn; no published distance was found", **n))  # fmt: skip
    return tuple(found)
