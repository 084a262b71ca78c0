"""Checks of fans and vents through the year: thin air, draught, the summer in which it turns; a fan that stands."""

from __future__ import annotations

from math import inf

import numpy as np

from firnstead.air.case import OUTSIDE
from firnstead.air.draught import draught_pressure
from firnstead.air.limits import strictest
from firnstead.air.properties import AIR_MOLAR_MASS
from firnstead.air.results import MONTHS, FanYear, VentYear
from firnstead.air.study_facts import MONTH_NAMES, Facts, Names
from firnstead.air.study_people import limit_step
from firnstead.air.transport import carried
from firnstead.air.year import solve_month
from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import G0, show
from firnstead.station.ways import floor_depth

SUMMER = (
    "In the warm season the trench is colder than the surface: draught turns, and cold foul air lies at the floor. "
    "Look at every vent with smoke in winter and again in summer."
)
STAND = "A fan stands without a sound that anybody hears through a wall. Give it an alarm, and a spare on the shelf."

STILL = 1e-3  # m3/s; less than this through a vent is neither in nor out (own rule)


def fan_years(f: Facts) -> dict[str, FanYear]:
    """Flow and help of the draught for every fan."""
    found = {}
    base = np.append(np.array([r.floor for r in f.case.rooms]), 0.0)  # the last is the outside, which -1 points to
    columns = [(np.append(m.density, f.pressure / (287.05 * m.outside)), np.append(m.pressure, 0.0)) for m in f.months]
    for i, blower in enumerate(f.case.blowers):
        fan, a, b, level = f.air.fans[blower.name], blower.a, blower.b, blower.level
        flow = tuple(float(m.fans[i] / rho[a]) for m, (rho, _) in zip(f.months, columns, strict=True))
        helped = tuple(float(p[a] - p[b] + G0 * (rho[b] * (level - base[b]) - rho[a] * (level - base[a])))
                       for rho, p in columns)  # fmt: skip
        found[blower.name] = FanYear(fan.draws_from, fan.blows_into, flow, fan.flow, helped)
    return found


def vent_years(f: Facts) -> dict[str, VentYear]:
    """Flow and draught of every vent."""
    found = {}
    for i, hole in enumerate(f.case.holes):
        if hole.kind != "vent":
            continue
        vent = f.air.vents[hole.name]
        height = vent.top + floor_depth(f.station, f.station.places[vent.place])
        inside = f.places[vent.place]
        draught = tuple(draught_pressure(f.pressure, height, f.surface[m], inside[m]) for m in range(MONTHS))
        shut = tuple(vent.shut_when_warmer and f.surface[m] > inside[m] for m in range(MONTHS))
        flow = tuple(float(month.holes[i] / month.density[hole.a]) for month in f.months)
        found[hole.name] = VentYear(vent.place, flow, draught, shut)
    return found


def fan_check(f: Facts, name: str, year: FanYear) -> Check:
    """Least flow of the year against what the file wants from the fan."""
    fan = f.air.fans[name]
    names: Names = {"subject": f'Fan "{name}"', "question": "Air it moves in the worst month", "key": "air.fan",
             "discipline": "air", "place": _place(f, fan.blows_into, fan.draws_from), "caution": SUMMER}  # fmt: skip
    worst = int(np.argmin(year.flow))
    month = f.months[worst]
    blower = next(b for b in f.case.blowers if b.name == name)
    rho = float(month.density[blower.a] if blower.a != OUTSIDE else f.pressure / (287.05 * month.outside))
    made = fan.pressure or fan.curve[0][1]
    steps = (
        Step("rho", "p/(R T)", (("p", f.pressure, "Pa"), ("R", 287.05, "J/(kg K)"),
             ("T", f.pressure / (287.05 * rho), "K")), rho, "kg/m3", "textbook_unchecked",
             f"air that it draws in {MONTH_NAMES[worst]}"),
        Step("p_f", "p_1 rho/rho_s", (("p_1", made, "Pa"), ("rho", rho, "kg/m3"), ("rho_s", fan.stated_at, "kg/m3")),
             made * rho / fan.stated_at, "Pa", "textbook_unchecked", "its pressure in that air"),
        Step("p_d", "", (("p", f.pressure, "Pa"),), year.against[worst], "Pa", "statics",
             "what rooms and draught help it (below 0: hold it back), from the balance of all rooms"),
        Step("Q", "", (("p_f", made * rho / fan.stated_at, "Pa"), ("p_d", year.against[worst], "Pa")),
             year.flow[worst], "m3/s", "statics", "where its curve meets its duct and the rooms"),
    )  # fmt: skip
    if fan.flow is None:
        return not_checked(
            reason="the file gives a curve but no flow that is wanted", working=steps, **names)  # fmt: skip
    return check(
        demand=year.flow[worst], limit=fan.flow, unit="m3/s", at_least=True, working=steps,
        note="" if fan.reversible else "it cannot be turned round from outside, as the tunnel rule asks of main fans",
        sources=() if fan.reversible else ("osha_1926_800",), **names)  # fmt: skip


def vent_check(f: Facts, name: str, year: VentYear) -> Check:
    """Months in which a vent runs against its duty."""
    vent = f.air.vents[name]
    names: Names = {"subject": f'Vent "{name}"', "question": "Months in which its draught turns round",
             "key": "air.draught", "discipline": "air", "place": vent.place, "caution": SUMMER}  # fmt: skip
    sign = {"out": 1, "in": -1, "either": 0}[vent.duty]
    worst = min(range(MONTHS), key=lambda m: (sign or 1) * year.draught[m])
    turned = [m for m in range(MONTHS) if not year.shut[m] and sign * year.flow[m] < -STILL]
    height = vent.top + floor_depth(f.station, f.station.places[vent.place])
    steps = (
        Step("p_d", "0.034163 p H (1/T_o - 1/T_i)",
             (("p", f.pressure, "Pa"), ("H", height, "m"), ("T_o", f.surface[worst], "K"),
              ("T_i", f.places[vent.place][worst], "K")), year.draught[worst], "Pa", "sfpe_handbook_5",
             f"draught of its column of air in {MONTH_NAMES[worst]}; above 0 it rises out"),
        Step("Q", "", (("p_d", year.draught[worst], "Pa"),), year.flow[worst], "m3/s", "statics",
             "air that goes out through it then (below 0: in), from the balance of all rooms"),
        Step("n", "", (), float(len(turned)), "months", "statics",
             "months against its duty: " + (", ".join(MONTH_NAMES[m] for m in turned) or "none")),
    )  # fmt: skip
    if not sign:
        return not_checked(
            reason="the file says that air may go either way; give it a duty if people or engines depend on it",
            working=steps, **names)  # fmt: skip
    shut = sum(year.shut)
    return check(
        demand=float(len(turned)), limit=0.0, unit="months", ratio=inf if turned else 0.0, working=steps,
        note=f"its damper shuts it in {shut} months" if shut else "", **names)  # fmt: skip


def standing_check(f: Facts, name: str) -> Check | None:
    """Carbon dioxide where people are while one fan stands, against the limit for a short time."""
    found = strictest(f.limits, "co2", short=True)
    if found is None or not f.names:
        return None
    label, limit = found
    fan = f.air.fans[name]
    worst = max(f.worst.values(), key=lambda w: w.share)
    m = worst.month
    month = solve_month(f.case, f.surface[m], {p: row[m] for p, row in f.places.items()}, f.months[m], name)
    given = f.people_by_room * f.moles * AIR_MOLAR_MASS
    matrix, outside = month.balance
    source = outside[:, None] * f.air.outdoor_co2 + given / month.mass[:, None]
    start = np.where(np.isfinite(f.co2[m]), f.co2[m], f.air.outdoor_co2)
    left, brought = carried(matrix, start, source, f.air.repair_time)
    shares = left + brought
    highest, where, hour = 0.0, "", f.hours[0]
    for h, each in enumerate(f.hours):
        for who, count in each.people:
            if count:
                raw = max(float(shares[i, h]) for i in f.rooms_of(who))
                share = f.air.outdoor_co2 + f.mixing_of(who) * (raw - f.air.outdoor_co2)
                if share > highest:
                    highest, where, hour = share, who, each
    steps = (
        Step("C", "", (("p", f.pressure, "Pa"),), highest, "1", "statics",
             f"highest share where people are: {where}, hour {hour.name}, {MONTH_NAMES[m]}; from the balance of all "
             f"rooms {show(f.air.repair_time, 's')} after this fan stopped"),
        Step('C_"ppm"', "1000000 C" if highest < inf else "", (("C", highest, "1"),), 1e6 * highest, "ppm", "statics",
             "in parts of a million"),
        limit_step(limit.value, limit.key),
    )  # fmt: skip
    return check(
        subject=f'Fan "{name}"', question="Carbon dioxide while this fan stands unnoticed", key="air.fan_stands",
        discipline="air", place=_place(f, fan.blows_into, fan.draws_from), demand=1e6 * highest,
        limit=1e6 * limit.value, unit="ppm", working=steps, caution=STAND,
        note=f"{f.limit_said(label, limit)}; worst in {f.subject(where)}. Air that moves both ways through one "
             "opening is not counted, so dead ends are fouler here than they are")  # fmt: skip


def _place(f: Facts, *names: str) -> str:
    return next((f.place_of(name) for name in names if name != "outside"), "")
