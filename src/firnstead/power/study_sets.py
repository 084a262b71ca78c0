"""Checks of the generator sets: what they have left at the site, enough of them, none idling, heat that adds up."""

from __future__ import annotations

from math import inf, sqrt
from typing import Any

import numpy as np

from firnstead.core.cautions import BY_DISCIPLINE
from firnstead.core.results import Check, Step, check, not_checked
from firnstead.power.case import OUTSIDE, Case, EngineCase, SetCase
from firnstead.power.numbers import DAYS, Lost, Numbers

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")  # fmt: skip
CAUTION = BY_DISCIPLINE["power"]
EXHAUST = BY_DISCIPLINE["power.exhaust"]
Names = dict[str, Any]


def names(subject: str, place: str, key: str, question: str, caution: str = CAUTION) -> Names:
    """What every check of the discipline is called by."""
    place = "" if place == OUTSIDE else place
    return {"subject": subject, "place": place, "discipline": "power", "key": f"power.{key}", "question": question,
            "caution": caution}  # fmt: skip


def when(hour: int) -> str:
    """An hour of the year in words.

    >>> when(30)
    'February, 6 to 7 h'
    """
    return f"{MONTHS[hour // 24]}, {hour % 24} to {hour % 24 + 1} h"


def set_checks(n: Numbers) -> tuple[Check, ...]:
    """All checks of the sets."""
    found: list[Check] = []
    for s in n.case.sets:
        title = f'Generator sets "{s.name}"'
        found += [derating(n.case, s.engine, title, s.place), _heat(n, s)]
        if s.main:
            found.append(_least(n, s))
    if n.case.sets:
        found += [_peak(n), _one_more(n), _one_fails(n), *(_lost(n, each) for each in n.lost), _motor(n)]
    return tuple(found)


def derating(case: Case, e: EngineCase, subject: str, place: str) -> Check:
    """Whether the share of power that the maker states is believable beside published rules."""
    named = names(subject, place, "derating", "Power left in the thin and warm air of the site", EXHAUST)
    low, high = min(e.rules, key=lambda r: r[1]), max(e.rules, key=lambda r: r[1])
    steps = (
        _pressure(case),
        Step('s_"low"', "", (("p", case.pressure, "Pa"), ("T", case.inlet, "K")), low[1], "1", low[2],
             f"least that a published rule leaves ({low[0]})"),
        Step('s_"high"', "", (("p", case.pressure, "Pa"), ("T", case.inlet, "K")), high[1], "1", high[2],
             f"most that a published rule leaves ({high[0]})"),
        power_step(e),
    )  # fmt: skip
    standard = "" if case.pressure_measured else (
        "; the pressure is that of the standard atmosphere, on an ice sheet it is lower: measure it")  # fmt: skip
    if e.stated is None:
        return not_checked(reason=f"the maker's figure is not given; {e.factor:.2f}, the least that a published rule "
                                  f"leaves, is used{standard}", working=steps, **named)  # fmt: skip
    return check(demand=e.stated, limit=high[1], unit="1", working=steps, **named,
                 sources=(*dict.fromkeys(source for _, _, source in e.rules), "polar_plant_ratings"),
                 note=f"published rules leave {low[1]:.2f} to {high[1]:.2f}; the maker's curve decides"
                      + standard)  # fmt: skip


def _pressure(case: Case) -> Step:
    if case.pressure_measured:
        return Step("p", "", (), case.pressure, "Pa", "own_rule", "lowest pressure measured at the site, from the file")
    inputs = (("p_0", 101325.0, "Pa"), ("k", 2.25577e-5, "1/m"), ("h", case.elevation, "m"), ("m", 5.25588, "1"))
    return Step("p", "p_0 (1 - k h)^m", inputs, case.pressure, "Pa", "standard_atmosphere",
                "pressure of the standard atmosphere at the site's height")  # fmt: skip


def power_step(e: EngineCase, mark: str = "") -> Step:
    """Power of one set at the station."""
    return Step(f"P_{mark or '1'}", "s P_r", (("s", e.factor, "1"), ("P_r", e.rated, "W")), e.power, "W", "own_rule",
                "power of one set at the site" + ("" if e.stated is None else ", share s from the maker"))  # fmt: skip


def need_steps(n: Numbers, hour: int, firm: bool) -> tuple[Step, ...]:
    """From the loads to what the sets must give in an hour."""
    total = float(n.demand[:, hour].sum())
    sources = float((n.given_by_sources(firm=True) if firm else n.sources)[hour])
    loss = float(n.loss[hour])
    need = float((n.need_firm if firm else n.need)[hour])
    inputs = (('P_"d"', total, "W"), ("D", n.case.diversity, "1"), ("L", loss, "W"), ('P_"s"', sources, "W"))
    return (
        Step('P_"d"', "", (("n", float(len(n.case.loads)), "1"),), total, "W", "mehta_mehta, ch. 3",
             f"connected power times demand factor times patterns over the diversity of the board, all loads, "
             f"{when(hour)}: see the table of loads"),
        Step('P_"n"', 'max(0, P_"d"/D + L - P_"s")', inputs, need, "W", "statics",
             f"with the loss in feeders and less what {'firm ' if firm else ''}stated sources give"),
    )  # fmt: skip


def _group_steps(n: Numbers, main_only: bool) -> tuple[Step, ...]:
    return tuple(power_step(s.engine, str(i)) for i, s in enumerate(n.case.sets, 1) if s.main or not main_only)


def _peak(n: Numbers) -> Check:
    hour = int(np.argmax(n.need))
    groups = [(i, s) for i, s in enumerate(n.case.sets, 1) if s.main]
    planned = sum(s.highest * s.count * s.engine.power for _, s in groups)
    formula = " + ".join(f"h_{i} n_{i} P_{i}" for i, _ in groups)
    inputs = tuple(
        row
        for i, s in groups
        for row in ((f"h_{i}", s.highest, "1"), (f"n_{i}", float(s.count), "1"), (f"P_{i}", s.engine.power, "W"))
    )
    steps = (*need_steps(n, hour, firm=False), *_group_steps(n, main_only=True),
             Step('P_"pl"', formula, inputs, planned, "W", "textbook_unchecked",
                  "all main sets, each up to the load that is planned"))  # fmt: skip
    return check(demand=float(n.need[hour]), limit=planned, unit="W", working=steps,
                 **names("Power plant", "", "peak", "Greatest load on the main sets"),
                 note=f"{when(hour)}; growth and a set that fails are another question")  # fmt: skip


def _one_more(n: Numbers) -> Check:
    hour, case = n.peak_hour, n.case
    need = float(n.need_firm[hour])
    steps = [*need_steps(n, hour, firm=True)]
    start = 0.0
    if n.start is not None:
        name, _, m, current, start = n.start
        steps += [
            Step("I_s", "(k P_m)/(sqrt(3) V c eta)", (("k", m.times, "1"), ("P_m", m.power, "W"), ("V", case.voltage,
                 "V"),
                 ("c", m.power_factor, "1"), ("eta", m.efficiency, "1")), current, "A", "textbook_unchecked",
                 f"starting current of the largest motor, in {name}"),
            Step('P_"st"', "sqrt(3) V I_s c_s", (("V", case.voltage, "V"), ("I_s", current, "A"),
                 ("c_s", m.start_factor, "1")), start, "W", "textbook_unchecked",
                 "power that it takes while it starts"),
        ]  # fmt: skip
    demand = need * (1 + case.growth) + start
    steps.append(Step('P_"need"', 'P_"n" (1 + g) + P_"st"', (('P_"n"', need, "W"), ("g", case.growth, "1"),
                      ('P_"st"', start, "W")), demand, "W", "ufc_3_520_01",
                      "with growth and the motor's start"))  # fmt: skip
    groups = list(enumerate(case.sets, 1))
    inputs = tuple(row for i, s in groups for row in ((f"n_{i}", float(s.count), "1"), (f"P_{i}", s.engine.power, "W")))
    left = n.all_power - n.largest
    formula = " + ".join(f"n_{i} P_{i}" for i, _ in groups) + " - max(" + ", ".join(f"P_{i}" for i, _ in groups) + ")"
    if len(groups) == 1:
        formula = "n_1 P_1 - P_1"
    steps += [*_group_steps(n, main_only=False),
              Step('P_"left"', formula, inputs, left, "W", "statics",
                   "all sets, standby sets too, without the largest")]  # fmt: skip
    return check(demand=demand, limit=left, unit="W", working=tuple(steps),
                 **names("Power plant", "", "n_plus_one", "Greatest load with the largest set out of order"),
                 note=f"{when(hour)}. Sets in one room are lost together: see the question of a lost place"
                      + ("" if n.start else "; no motor that starts on the line is told"))  # fmt: skip


def _least(n: Numbers, s: SetCase) -> Check:
    year = next(each for each in n.sets if each.of is s)
    named = names(f'Generator sets "{s.name}"', s.place, "least_load", "Least load while running")
    if not year.running.any():
        return not_checked(reason="these sets never run in a normal year: others before them carry the load", **named)
    hour = int(np.argmin(year.share))
    share, electric, running = float(year.share[hour]), float(year.electric[hour]), float(year.running[hour])
    on_line, given = float(n.on_line[hour]), float(n.given[hour])
    below = float(DAYS[year.share < s.lowest * (1 - 1e-9)].sum())
    steps = (
        *need_steps(n, hour, firm=False), power_step(s.engine),
        Step('P_"e"', '(P_"g" n P_1)/P_"on"', (('P_"g"', given, "W"), ("n", running, "1"), ("P_1", s.engine.power, "W"),
             ('P_"on"', on_line, "W")), electric, "W", "own_rule",
             "part of these sets: running sets share the load by their power"),
        Step("x", 'P_"e"/(n P_r)', (('P_"e"', electric, "W"), ("n", running, "1"), ("P_r", s.engine.rated, "W")), share,
             "1", "statics", "load of one as a share of its rated power"),
    )  # fmt: skip
    idle = (
        "never below the limit in a year of mean hours"
        if not below
        else (f"below the limit for {below:.0f} h a year: a smaller set then, a load bank, or loads moved there")
    )
    return check(demand=share, limit=s.lowest, unit="1", at_least=True, working=steps, **named,
                 note=f"{when(hour)}; {idle}")  # fmt: skip


def _heat(n: Numbers, s: SetCase) -> Check:
    e, power, value = s.engine, s.engine.power, n.case.fuel.heating_value
    flow = e.fuel_factor * (e.idle * e.rated + e.slope * power)
    fuel = value * flow
    parts = (1 + s.jacket + s.exhaust) * power + s.radiated * fuel
    steps = (
        power_step(e),
        Step("F", "beta (F_0 P_r + F_1 P_1)", (("beta", e.fuel_factor, "1"), ("F_0", e.idle, "m3/J"),
             ("P_r", e.rated, "W"), ("F_1", e.slope, "m3/J"), ("P_1", power, "W")), flow, "m3/s", "iso_3046_1",
             "fuel at full power: line through the maker's table, more in thin air"),
        Step("Q", "H F", (("H", value, "J/m3"), ("F", flow, "m3/s")), fuel, "W",
             "joel_thermodynamics, ex. 17.3", "heat of the fuel"),
        Step("Q_o", "(1 + j + a) P_1 + r Q", (("j", s.jacket, "1"), ("a", s.exhaust, "1"), ("P_1", power, "W"),
             ("r", s.radiated, "1"), ("Q", fuel, "W")), parts, "W", "statics",
             "power, heat from jacket and exhaust, heat given off in the room"),
    )  # fmt: skip
    return check(demand=parts, limit=fuel, unit="W", working=steps,
                 **names(f'Generator sets "{s.name}"', s.place, "heat_balance",
                 "Power and heat beside the fuel's heat"),
                 note=f"what is left leaves with the exhaust gas; the maker's fuel table lies within {e.worst_fit:.1%} "
                      "of the line. Waste heat counts only for the hours in which the sets give it")  # fmt: skip


def _one_fails(n: Numbers) -> Check:
    named = names("Power plant", "", "one_fails", "Essential loads while the largest running set fails")
    need = np.maximum(n.essential * (1 + n.loss_share) - n.sources, 0.0)
    if not need.any():
        return not_checked(reason="no load is called essential" if not n.essential.any() else
                           "stated sources alone carry the essential loads", **named)  # fmt: skip
    ratio = np.where(need > 0, need / np.maximum(n.left_running, 1e-9), 0.0)
    hour = int(np.argmax(ratio))
    essential, left = float(n.essential[hour]), float(n.left_running[hour])
    steps = (
        Step('P_"v"', "", (("D", n.case.diversity, "1"),), essential, "W", "mehta_mehta, ch. 3",
             f"essential loads together, {when(hour)}"),
        Step('P_"n"', 'max(0, P_"v" (1 + l) - P_"s")', (('P_"v"', essential, "W"), ("l", n.loss_share, "1"),
             ('P_"s"', float(n.sources[hour]), "W")), float(need[hour]), "W", "statics",
             "with the greatest share of loss, less stated sources"),
        Step('P_"left"', "", (("n", float(n.running[hour]), "1"),), left, "W", "statics",
             "power of the running sets without the largest of them"),
    )  # fmt: skip
    if need[hour] <= left:
        return check(demand=float(need[hour]), limit=left, unit="W", working=steps, **named,
                     note="loads that are not essential are switched off at once, in the order of the "
                          "table")  # fmt: skip
    times = [s.start_time for s in n.case.sets]
    gap = n.case.longest_gap
    known = [time for time in times if time is not None]
    if not known or gap is None or n.all_power - n.largest < float(need.max()):
        return not_checked(
            demand=float(need[hour]), limit=left, unit="W", working=steps, **named,
            reason="essential loads stand without power until another set runs; state `start_time` of the sets and the "
                   "`longest_gap` that batteries bridge, or keep more sets running")  # fmt: skip
    wait = Step("t_s", "", (), max(known), "s", "own_rule", "time until the slowest set takes load, from the file")
    return check(demand=max(known), limit=gap, unit="s", working=(*steps, wait), **named,
                 note="everything is dark until another set runs; batteries must bridge it, and they fade in the "
                      "cold")  # fmt: skip


def _lost(n: Numbers, each: Lost) -> Check:
    named = names(f'Place "{each.place}"', each.place, "place_lost",
                  "Essential loads elsewhere when this place is lost",
                  EXHAUST)  # fmt: skip
    if not n.essential.any():
        return not_checked(reason="no load is called essential", **named)
    steps = (
        Step('P_"v"', "", (("D", n.case.diversity, "1"),), each.load, "W", "mehta_mehta, ch. 3",
             f"essential loads that stand elsewhere, {when(each.hour)}"),
        Step('P_"n"', 'max(0, P_"v" (1 + l) - P_"s")', (('P_"v"', each.load, "W"), ("l", n.loss_share, "1"),
             ('P_"s"', each.firm, "W")), each.need, "W", "statics",
             "with the loss in feeders, less firm sources elsewhere"),
        Step('P_"left"', "", (), each.power, "W", "statics",
             "power of all sets elsewhere whose boards can feed the net"),
    )  # fmt: skip
    cut = f"no feeder reaches these any more: {', '.join(each.cut_off)}. " if each.cut_off else ""
    return check(demand=each.need, limit=each.power, unit="W", working=steps, **named,
                 ratio=inf if each.cut_off else None,
                 note=cut + "a fire or a fallen roof takes sets, boards and loads of the place with it; feeders that "
                            "pass through it are not followed")  # fmt: skip


def _motor(n: Numbers) -> Check:
    named = names("Power plant", "", "motor_start", "Start of the largest motor on the fewest running sets")
    if n.start is None:
        return not_checked(reason="no motor that starts on the line is told", **named)
    name, _, m, current, _ = n.start
    apparent = sqrt(3.0) * n.case.voltage * current
    steps = (
        Step("I_s", "(k P_m)/(sqrt(3) V c eta)", (("k", m.times, "1"), ("P_m", m.power, "W"), ("V", n.case.voltage,
             "V"),
             ("c", m.power_factor, "1"), ("eta", m.efficiency, "1")), current, "A", "textbook_unchecked",
             f"starting current of the motor in {name}"),
        Step("S_s", "sqrt(3) V I_s", (("V", n.case.voltage, "V"), ("I_s", current, "A")), apparent, "VA",
             "textbook_unchecked", "apparent power that it takes while it starts"),
    )  # fmt: skip
    fewest = int(n.running[n.running > 0].min()) if n.running.any() else 0
    allowed = [unit.starting_power for unit in n.units[:fewest]]
    known = [each for each in allowed if each is not None]
    if not known or len(known) < len(allowed):
        return not_checked(demand=apparent, unit="VA", working=steps, **named,
                           reason="the maker's greatest starting power of the sets is not given (`starting_power`); "
                                  "the dip of voltage and speed, not power, is usually first to limit")  # fmt: skip
    limit = Step("S_a", "", (("n", float(fewest), "1"),), sum(known), "VA", "own_rule",
                 "what the maker allows the fewest running sets together, from the file")  # fmt: skip
    return check(demand=apparent, limit=sum(known), unit="VA", working=(*steps, limit), **named,
                 note="one motor at a time; what runs already takes a part of it")  # fmt: skip
