"""Checks of demand, start depth, heat and balance of the well, with workings."""

from __future__ import annotations

from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.core.results import WHOLE, Check, Step, check, not_checked
from firnstead.core.units import GALLON, show
from firnstead.water.case import MONTH
from firnstead.water.energy import self_sealing_density
from firnstead.water.numbers import FAILURES, NAMES, Well
from firnstead.water.properties import ICE_DENSITY, LATENT, MELTING, WATER_DENSITY, WATER_HEAT
from firnstead.water.shape import conduction_factor, radius_of_volume, zone_reached
from firnstead.water.wall import film_free

CAUTION = caution_for("water")
TRADE_YIELD = 10_000 * GALLON / 86400.0  # m3/s: ten thousand gallons a day from one shaft (common practice, no source)
TRADE_DEPTH = 120 * 0.3048  # m to its pool (common practice, no source)
KEPT = 0.5  # share of the wanted pool that must always be there (own rule)
BALANCE = 1e-6
Kwargs = dict[str, Any]
Inputs = tuple[tuple[str, float, str], ...]


def names(well: Well, place: str, subject: str = "Melt well") -> Kwargs:
    """What all checks of one shaft share."""
    return {"subject": subject, "place": place or WHOLE, "discipline": "water", "caution": CAUTION}


def well_checks(well: Well, place: str) -> tuple[Check, ...]:
    """Demand, depth, heat, pool."""
    n = names(well, place)
    return (_people(well, n), _yield(well, n), _sealing(well, n), _heat(well, n), _standby(well, n),
            _circulation(well, n), _least(well, n), _kept(well, n), _balance(well, n))  # fmt: skip


def draw_steps(well: Well, month: int) -> tuple[Step, ...]:
    """From people and uses to the draw of a month."""
    p = well.plan
    per_head, steady = sum(u[1] for u in p.uses), sum(u[2] for u in p.uses)
    said = ", ".join(f"{name} {show(head * 86400, 'm3')} a head and {show(fixed * 86400, 'm3')} in all a day"
                     for name, head, fixed in p.uses)  # fmt: skip
    return (
        Step("q", "", (("n_u", float(len(p.uses)), "1"),), per_head, "m3/s", "statics", f"sum of the uses: {said}"),
        Step("w", "rho (N q + q_0) (1 + l)",
             (("rho", WATER_DENSITY, "kg/m3"), ("N", float(p.people[month]), "1"), ("q", per_head, "m3/s"),
              ("q_0", steady, "m3/s"), ("l", p.losses, "1")), p.pool.draw[month], "kg/s", "statics",
             f"draw in {NAMES[month]}, with the share l for leaks and spills"),
    )  # fmt: skip


def _people(well: Well, n: Kwargs) -> Check:
    p = well.plan
    most = max(p.people)
    steps = (Step("N", "", (("n", 12.0, "1"),), most, "1", "own_rule", "greatest number of people in a month"),
             Step("B", "", (("B", float(p.beds), "1"),), float(p.beds), "1", "own_rule",
                  "people who sleep in the buildings"))  # fmt: skip
    return check(question="People who are given water", key="water.people", unit="1", demand=most, limit=float(p.beds),
                 at_least=True, ratio=0.0 if most >= p.beds else p.beds / max(most, 0.5), working=steps,
                 **n)  # fmt: skip


def _yield(well: Well, n: Kwargs) -> Check:
    p = well.plan
    month = max(range(12), key=lambda m: p.pool.draw[m])
    flow = p.pool.draw[month] / WATER_DENSITY
    steps = (*draw_steps(well, month),
             Step("Q", "w/rho", (("w", p.pool.draw[month], "kg/s"), ("rho", WATER_DENSITY, "kg/m3")), flow, "m3/s",
                  "statics", "volume"),
             Step("Q_t", "10000 g/d", (("g", GALLON, "m3"), ("d", 86400.0, "s")), TRADE_YIELD, "m3/s",
                  "common_practice", "ten thousand gallons a day from one shaft"))  # fmt: skip
    return check(question="Draw beside what one shaft gives by trade practice", key="water.yield", unit="m3/s",
                 demand=flow, limit=TRADE_YIELD, working=steps, note="an order of magnitude, not a limit",
                 **n)  # fmt: skip


def _sealing(well: Well, n: Kwargs) -> Check:
    p = well.plan
    s, density = p.pool.sensible, self_sealing_density(p.pool.ice_temperature)
    safe = p.sealing_depth * (1 + p.sealing_spread)
    steps = (
        _sensible(well),
        Step("rho_s", "rho_i/(1 + s/L)", (("rho_i", ICE_DENSITY, "kg/m3"), ("s", s, "J/kg"), ("L", LATENT, "J/kg")),
             density, "kg/m3", "textbook_unchecked", "density at which soaking water freezes all pores shut"),
        Step("z_s", "", (("rho_s", density, "kg/m3"),), p.sealing_depth, "m", "herron_langway_1980",
             "depth of that density by the site's profile"),
        Step("z", "z_s (1 + f)", (("z_s", p.sealing_depth, "m"), ("f", p.sealing_spread, "1")), safe, "m",
             "arrizabalaga_2025", "deeper by the spread between cores, or of the law where no core goes so deep"),
    )  # fmt: skip
    trade = "deeper" if p.pool.start_depth > TRADE_DEPTH else "no deeper"
    note = (f"the pool starts {show(p.pool.start_depth, 'm')} down, {trade} than the 120 ft of trade practice, where "
            f"this firn has {show(p.pool.density(TRADE_DEPTH), 'kg/m3')}; in lighter firn water runs off sideways, "
            "which is not computed")  # fmt: skip
    return check(question="Depth of the pool's start below firn that lets water through", key="water.sealing", unit="m",
                 demand=p.pool.start_depth, limit=safe, at_least=True, working=steps, note=note, **n)  # fmt: skip


def _sensible(well: Well) -> Step:
    t = well.plan.pool.ice_temperature
    return Step("s", "a (T_m - T) + b/2 (T_m^2 - T^2)", (("a", 152.5, "J/kg/K"), ("b", 7.122, "J/kg/K2"),
                ("T_m", MELTING, "K"), ("T", t, "K")), well.plan.pool.sensible, "J/kg", "cuffey_paterson_2010",
                "heat that warms the ice to melting")  # fmt: skip


def need_steps(well: Well) -> tuple[Step, ...]:
    """Heat that the worst month of use needs."""
    pool = well.plan.pool
    need, month, loss, warmth = well.need
    states = well.service or well.states[-1:]
    mass = max(pool.target, max(s.mass for s in states))
    radius = radius_of_volume(mass / WATER_DENSITY, pool.shape)
    age = (pool.lead + 1) * MONTH
    core = pool.factors[1] * radius
    zone = zone_reached(age, core, pool.integral / (pool.density(pool.start_depth) * pool.sensible), largest=pool.zone)
    cold, reach = MELTING - pool.ice_temperature, 1 - 1 / zone
    shape = conduction_factor(pool.shape)
    roof = 1 / (1 / pool.top_film + radius * reach * cold / pool.integral)
    into_ice = shape * radius * pool.integral / reach
    return (
        *draw_steps(well, month),
        _sensible(well),
        Step("t_w", "", (("n", float(len(states)), "1"),), warmth, "K", "own_rule",
             "warmest the pool is while water is drawn, above melting, from the march"),
        Step("M", "", (("M_t", pool.target, "kg"),), mass, "kg", "own_rule",
             "wanted pool, or the greatest of the march where that is more"),
        Step("R", "((3 M)/(2 pi n rho))^(1/3)",
             (("M", mass, "kg"), ("n", pool.shape, "1"), ("rho", WATER_DENSITY, "kg/m3")), radius, "m", "statics",
             "radius of the water surface"),
        Step("K", "k_0/b (exp(-b T) - exp(-b T_m))", (("k_0", 9.828, "W/m/K"), ("b", 0.0057, "1/K"),
             ("T", pool.ice_temperature, "K"), ("T_m", MELTING, "K")), pool.integral, "W/m", "yen_1981",
             "conductivity of the ice, integrated up to melting"),
        Step("z", "", (("t", age, "s"), ("R", radius, "m"), ("n", pool.zone, "1")), zone, "1", "lunardini_rand_1995",
             "disturbed ice over the pool's radius: as heat has spread so far, at most the zone of the file"),
        Step("f_s", "", (("n", pool.shape, "1"),), shape, "1", "textbook_unchecked",
             "conduction of half a spheroid over its radius (2 pi for half a sphere)"),
        Step("Q_i", "(f_s R K)/(1 - 1/z)", (("f_s", shape, "1"), ("R", radius, "m"), ("K", pool.integral, "W/m"),
             ("z", zone, "1")), into_ice, "W", "lunardini_rand_1995", "loss into the ice of a wall that stands still"),
        Step("U", "1/(1/h + (R (1 - 1/z) D)/K)", (("h", pool.top_film, "W/m2/K"), ("R", radius, "m"), ("z", zone, "1"),
             ("D", cold, "K"), ("K", pool.integral, "W/m")), roof, "W/m2/K", "own_rule",
             "from the water to the roof and into its ice"),
        Step("Q_a", "U (t_w + D) pi R^2", (("U", roof, "W/m2/K"), ("t_w", warmth, "K"), ("D", cold, "K"),
             ("R", radius, "m")), loss - into_ice, "W", "own_rule", "loss from the water surface"),
        Step("P_n", "w (L + s + c t_w) + Q_i + Q_a", (("w", pool.draw[month], "kg/s"), ("L", LATENT, "J/kg"),
             ("s", pool.sensible, "J/kg"), ("c", WATER_HEAT, "J/kg/K"), ("t_w", warmth, "K"), ("Q_i", into_ice, "W"),
             ("Q_a", loss - into_ice, "W")), need, "W", "statics",
             f"heat needed in {NAMES[month]}; the loss is counted in full although a melting wall loses less"),
    )  # fmt: skip


def _heat(well: Well, n: Kwargs) -> Check:
    p = well.plan
    need, month, _, _ = well.need
    limit = p.pool.heat_limit[month]
    steps = (*need_steps(well), _limit(well, month, without="", symbol="P"))
    told = "" if p.waste_told else "; waste heat as the file states it, not yet from the power study"
    return check(question="Heat for draw and losses in the worst month", key="water.heat", unit="W", demand=need,
                 limit=limit, working=steps,
                 note="with less the pool shrinks and an ice lens forms on it: raise the alarm when the water comes "
                      f"back colder than {show(well.result.alarm_temperature, 'K')}" + told, **n)  # fmt: skip


def _limit(well: Well, month: int, without: str, symbol: str) -> Step:
    p = well.plan
    left = [s for s in p.sources if s.name != without]
    inputs = (("P_e", p.limit, "W"), *((f"P_{i + 1}", s.power[month], "W") for i, s in enumerate(left)))
    total = " + ".join(f"P_{i + 1}" for i in range(len(left))) or "0"
    said = ", ".join(s.name for s in left) or "nothing"
    return Step(symbol, f"min(P_e, {total})", inputs, min(p.limit, sum(s.power[month] for s in left)), "W", "own_rule",
                f"what the exchanger passes, or what the sources give together: {said}")  # fmt: skip


def _standby(well: Well, n: Kwargs) -> Check:
    p = well.plan
    need, month, _, _ = well.need
    largest = max(p.sources, key=lambda s: s.power[month])
    steps = (*need_steps(well), _limit(well, month, without=largest.name, symbol="P_s"))
    return check(question="The same with the largest source of heat out of order", key="water.standby", unit="W",
                 demand=need, limit=steps[-1].value, working=steps, sources=("well_field_accounts",),
                 note=f"without {largest.name}; one boiler of two stands by in practice", **n)  # fmt: skip


def _circulation(well: Well, n: Kwargs) -> Check:
    p = well.plan
    need, _, _, warmth = well.need
    carried = p.pool.circulation * WATER_HEAT * (p.pool.supply - warmth)
    steps = (*need_steps(well),
             Step("P_c", "w_c c (t_s - t_w)", (("w_c", p.pool.circulation, "kg/s"), ("c", WATER_HEAT, "J/kg/K"),
                  ("t_s", p.pool.supply, "K"), ("t_w", warmth, "K")), carried, "W", "statics",
                  "what the round carries, water going down at t_s above melting"))  # fmt: skip
    return check(question="Heat that the circulation carries", key="water.circulation", unit="W", demand=need,
                 limit=carried, working=steps, note="half glycol needs 15 % more flow; hot water scalds",
                 **n)  # fmt: skip


def _least(well: Well, n: Kwargs) -> Check:
    p, last = well.plan, well.states[-1]
    question, key = "Heat for a kilogram beside the least possible", "water.least_heat"
    if last.melted <= 0.0:
        return not_checked(question=question, key=key, reason="more froze on than was melted", **n)
    least, used = LATENT + p.pool.sensible, last.heat_in / last.melted
    steps = (_sensible(well),
             Step("e", "L + s", (("L", LATENT, "J/kg"), ("s", p.pool.sensible, "J/kg")), least, "J/kg",
                  "hoffman_2020", "least heat for a kilogram out of this ice"),
             Step('e_"in"', "Q/M", (("Q", last.heat_in, "J"), ("M", last.melted, "kg")), used, "J/kg", "statics",
                  "heat put in over ice melted, from the march through the years"))  # fmt: skip
    return check(question=question, key=key, unit="J/kg", demand=used, limit=least, at_least=True, working=steps,
                 ratio=0.0 if used >= least * (1 - 1e-9) else 2.0,
                 note=f"{used / least:.2f} times the least: the rest goes into ice, air, warm water", **n)  # fmt: skip


def _kept(well: Well, n: Kwargs) -> Check:
    p, (age, why) = well.plan, well.end
    question, key = "Pool kept while water is drawn", "water.pool_kept"
    if not well.service and why not in FAILURES:
        return not_checked(question=question, key=key, reason="the years looked at end before water is drawn", **n)
    least = 0.0 if why in FAILURES else min(s.mass for s in well.service)
    said = f"{why} after {show(age, 's')}" if why in FAILURES else "from the march through the years"
    steps = (Step("M_m", "", (("M_t", p.pool.target, "kg"),), least, "kg", "own_rule", f"least pool in use: {said}"),
             Step("M_l", "a M_t", (("a", KEPT, "1"), ("M_t", p.pool.target, "kg")), KEPT * p.pool.target, "kg",
                  "own_rule", "share of the wanted pool that must always be there"))  # fmt: skip
    return check(question=question, key=key, unit="kg", demand=least, limit=KEPT * p.pool.target, at_least=True,
                 working=steps, note=f"film at 4 K: {film_free(4.0, constant=p.pool.film_constant):.0f} W/m2/K, to be "
                                     "calibrated on soundings", **n)  # fmt: skip


def _balance(well: Well, n: Kwargs) -> Check:
    r = well.result
    worst = max(r.mass_error, r.heat_error)
    steps = (Step("f", "max(f_m, f_h)", (("f_m", r.mass_error, "1"), ("f_h", r.heat_error, "1")), worst, "1", "statics",
                  "what the balances of mass and of heat miss over the well's life, as shares"),)  # fmt: skip
    return check(question="Balance of mass and heat through the years", key="water.balance", unit="1", demand=worst,
                 limit=BALANCE, working=steps, **n)  # fmt: skip
