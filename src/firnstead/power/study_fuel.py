"""Checks of fuel, power for building, stated sources, and what other studies have to say."""

from __future__ import annotations

from firnstead.core.cautions import BY_DISCIPLINE
from firnstead.core.results import Check, Step, check, not_checked
from firnstead.power.case import Case
from firnstead.power.numbers import Numbers
from firnstead.power.outcome import construction_of, resupply_of
from firnstead.power.study_sets import MONTHS, derating, names, power_step

REFUELLING = BY_DISCIPLINE["power.refuelling"]
EXHAUST = BY_DISCIPLINE["power.exhaust"]


def fuel_checks(n: Numbers) -> tuple[Check, ...]:
    """Fuel until the next resupply, power for building, stated sources, loads of other studies."""
    return (_storage(n), *_construction(n.case), *_sources(n.case), *_others(n.case))


def _storage(n: Numbers) -> Check:
    named = names("Fuel", "", "storage", "Fuel until the next resupply", REFUELLING)
    fuel, found = n.case.fuel, resupply_of(n)
    month = MONTHS[found.start - 1]
    inputs = tuple(row for i, t in enumerate(fuel.tanks, 1)
                   for row in ((f"n_{i}", float(t.count), "1"), (f"v_{i}", t.volume, "m3"), (f"c_{i}", t.usable,
                       "1")))  # fmt: skip
    formula = " + ".join(f"n_{i} v_{i} c_{i}" for i, _ in enumerate(fuel.tanks, 1))
    burnt = Step('m_"b"', "", (("t", fuel.interval, "s"),), found.needed, "kg", "statics",
                 f"burnt from the first of {month} until the next resupply: see the table of months")  # fmt: skip
    if not fuel.tanks:
        return not_checked(reason="no tank is in the file", working=(burnt,), demand=found.needed, unit="kg", **named)
    lasts = min(found.lasts, 100 * 365 * 86400.0)
    steps = (
        burnt,
        Step('m_"s"', f"rho ({formula})", (("rho", fuel.density, "kg/m3"), *inputs), found.usable, "kg", "statics",
             "what can be drawn from full tanks"),
        Step('t_"s"', "", (('m_"s"', found.usable, "kg"),), lasts, "s", "statics",
             f"how long it lasts from the first of {month} on, month by month"),
        Step('t_"r"', "t (1 + e)", (("t", fuel.interval, "s"), ("e", fuel.reserve, "1")),
             fuel.interval * (1 + fuel.reserve),
             "s", "own_rule", "interval of resupply and reserve"),
    )  # fmt: skip
    other = "" if any(n.case.other_fuel) else "; heaters and boilers are not in it"
    return check(demand=lasts, limit=fuel.interval * (1 + fuel.reserve), unit="s", at_least=True, working=steps,
                 note=f"from full tanks in {month}" + other, **named)  # fmt: skip


def _construction(case: Case) -> tuple[Check, ...]:
    named = names("Power for building", "", "construction", "Power for building with one set out of order", EXHAUST)
    c, found = case.construction, construction_of(case)
    if c is None or found is None:
        return (not_checked(reason="no power for building is in the file: the station's own comes too late for it",
                            **named),)  # fmt: skip
    inputs = tuple(row for i, (_, power, factor) in enumerate(c.loads, 1)
                   for row in ((f"p_{i}", power, "W"), (f"d_{i}", factor, "1")))  # fmt: skip
    formula = " + ".join(f"p_{i} d_{i}" for i, _ in enumerate(c.loads, 1))
    left = (c.count - 1) * c.engine.power
    steps = (
        Step("P", formula, inputs, found.demand, "W", "mehta_mehta, ch. 3", "demand, load by load"),
        power_step(c.engine),
        Step('P_"left"', "(n - 1) P_1", (("n", float(c.count), "1"), ("P_1", c.engine.power, "W")), left, "W",
             "statics",
             "all sets but one"),
    )  # fmt: skip
    return (check(demand=found.demand, limit=left, unit="W", working=steps, **named,
                  note="it must run before the station's own plant and stands outside, exhaust away from the work"),
            derating(case, c.engine, "Power for building", ""))  # fmt: skip


def _sources(case: Case) -> tuple[Check, ...]:
    return tuple(
        not_checked(reason="its output is taken as the file states it; its own design is outside this tool",
                    **names(f'Source "{s.name}"', s.place, "stated_source", "Design of a source with stated output"))
        for s in case.sources
    )  # fmt: skip


def _others(case: Case) -> tuple[Check, ...]:
    if case.others_known:
        return ()
    return (not_checked(reason="tracing, fans, pumps and electric heat of the other studies were not handed over: load "
                               "and fuel are too low by them",
                        **names("Power plant", "", "other_loads", "Loads that other studies work out")),)  # fmt: skip
