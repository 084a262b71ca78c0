"""Checks of tanks: water in hand while the well is out of order, water for fire, warmth."""

from __future__ import annotations

from firnstead.core.results import WHOLE, Check, Step, check, not_checked
from firnstead.water.plan import Plan, Store
from firnstead.water.properties import WATER_DENSITY
from firnstead.water.study_well import CAUTION, Kwargs
from firnstead.water.supply import fire_volume, refill_time

N: Kwargs = {"subject": "Water tanks", "place": WHOLE, "discipline": "water", "caution": CAUTION}
TANK_LEAST = 273.15 + 35.0 / 9.0  # K: 39 degF, tm_5_852_5 p. 5-3 (read)
REFILL = 48 * 3600.0  # s to fill the water for fire again in normal use, ufc_3_600_01 (read)
LARGEST_SHARE = 2.0 / 3.0  # of the water for fire in one tank: about equal halves (own rule)


def store_checks(plan: Plan) -> tuple[Check, ...]:
    """All checks of the tanks."""
    return (_repair(plan), _day(plan), *_fire(plan), *(_warm(plan, store) for store in plan.stores))


def volume_of(plan: Plan, fire: bool) -> float:
    """Water in tanks for fire, or for use [m3]."""
    return sum(s.volume for s in plan.stores if s.fire == fire)


def _sum(plan: Plan, fire: bool) -> Step:
    stores = [s for s in plan.stores if s.fire == fire]
    inputs = tuple((f"V_{i + 1}", s.volume, "m3") for i, s in enumerate(stores))
    return Step("V_t", " + ".join(name for name, _, _ in inputs) or "0", inputs, volume_of(plan, fire), "m3", "statics",
                "tanks: " + (", ".join(s.name for s in stores) or "none"))  # fmt: skip


def _most(plan: Plan) -> float:
    return max(plan.pool.draw) / WATER_DENSITY


def _repair(plan: Plan) -> Check:
    time, people = max(plan.pump_repair, plan.heat_repair), max(plan.people)
    need = people * plan.emergency * time
    steps = (
        Step("t", "max(t_p, t_h)", (("t_p", plan.pump_repair, "s"), ("t_h", plan.heat_repair, "s")), time, "s",
             "own_rule", "longest repair of the file: pump, or heat and power"),
        Step("V", "N q_e t", (("N", people, "1"), ("q_e", plan.emergency, "m3/s"), ("t", time, "s")), need, "m3",
             "ufc_3_340_08", "at what one person is given while the well is out of order"),
        _sum(plan, fire=False),
    )  # fmt: skip
    return check(question="Water in hand through the longest repair of the well", key="water.storage", unit="m3",
                 demand=need, limit=steps[-1].value, working=steps,
                 note="hygiene first: chlorinate, draw from the tank that was filled longest ago", **N)  # fmt: skip


def _day(plan: Plan) -> Check:
    need = _most(plan) * 86400.0
    steps = (Step("V", "w d/rho", (("w", max(plan.pool.draw), "kg/s"), ("d", 86400.0, "s"),
                  ("rho", WATER_DENSITY, "kg/m3")), need, "m3", "ufc_3_600_01", "one day in the month of most draw"),
             _sum(plan, fire=False))  # fmt: skip
    return check(question="Water for one day of normal use in tanks", key="water.day", unit="m3", demand=need,
                 limit=steps[-1].value, working=steps, **N)  # fmt: skip


def _fire(plan: Plan) -> tuple[Check, ...]:
    question, key = "Water kept for fire", "water.fire"
    if plan.fire_flow is None:
        return (not_checked(question=question, key=key, reason="the file gives no flow for a fire (`fire_flow`)", **N),)
    need = fire_volume(plan.fire_flow, plan.fire_duration)
    whole = _sum(plan, fire=True)
    volume = Step("V", "q t", (("q", plan.fire_flow, "m3/s"), ("t", plan.fire_duration, "s")), need, "m3",
                  "ufc_3_600_01", "one fire; use comes on top, from tanks of its own")  # fmt: skip
    found = [check(question=question, key=key, unit="m3", demand=need, limit=whole.value, working=(volume, whole),
                   sources=("tm_5_813_7",),
                   note="the flow is the file's; that of military posts, 1,000 gal/min for two hours, asks for 454 m3, "
                        "which no station under snow can hold", **N)]  # fmt: skip
    stores = [s for s in plan.stores if s.fire]
    if stores:
        largest = max(s.volume for s in stores)
        share = Step("s", "V_m/V_t", (("V_m", largest, "m3"), ("V_t", whole.value, "m3")), largest / whole.value, "1",
                     "ufc_3_600_01", "largest tank over all; about half stays while one is cleaned")  # fmt: skip
        found.append(check(question="Water for fire in two tanks or more", key="water.fire_split", unit="1",
                           demand=share.value, limit=LARGEST_SHARE, working=(whole, share), **N))  # fmt: skip
    time = refill_time(need, plan.pump_flow, _most(plan))
    refill = Step("t_r", "V/(Q - w/rho)", (("V", need, "m3"), ("Q", plan.pump_flow, "m3/s"),
                  ("w", max(plan.pool.draw), "kg/s"), ("rho", WATER_DENSITY, "kg/m3")), time, "s", "statics",
                  "pump's flow less what is used meanwhile")  # fmt: skip
    if plan.pump_flow > _most(plan):
        found.append(check(question="Water for fire filled again", key="water.refill", unit="s", demand=time,
                           limit=REFILL, working=(volume, refill), sources=("ufc_3_600_01",),
                           note="within 48 hours in normal use", **N))  # fmt: skip
    else:
        found.append(not_checked(question="Water for fire filled again", key="water.refill", **N,
                                 reason="the pump gives no more than is used"))  # fmt: skip
    return tuple(found)


def _warm(plan: Plan, store: Store) -> Check:
    names = {**N, "subject": f'Tank "{store.name}"', "place": store.place}
    above, least = store.temperature - 273.15, TANK_LEAST - 273.15
    steps = (Step("t_c", "T - T_m", (("T", store.temperature, "K"), ("T_m", 273.15, "K")), above, "K", "statics",
                  "above melting"),
             Step("T_l", "T_m + (F - 32)/1.8", (("T_m", 273.15, "K"), ("F", 39.0, "1")), TANK_LEAST, "K", "tm_5_852_5",
                  "39 degrees Fahrenheit"))  # fmt: skip
    return check(question="Warmth of the water in the tank", key="water.tank_warmth", unit="K",
                 demand=store.temperature, limit=TANK_LEAST, at_least=True, working=steps,
                 ratio=least / above if above > 0 else 9.9,
                 note="kept going round; ice on the wall wrecks a tank; temperature at several levels, with an alarm",
                 **names)  # fmt: skip
