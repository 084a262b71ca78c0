"""Checks of the sewage in the ice: its reach against wells, floors and fuel to the end of life, with workings."""

from __future__ import annotations

import math

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import show
from firnstead.water.energy import melted_by_sewage, soaked_mass
from firnstead.water.numbers import Well
from firnstead.water.plan import SumpPlan
from firnstead.water.properties import LATENT, WATER_DENSITY, WATER_HEAT, sensible_heat_ice
from firnstead.water.study_well import Kwargs, names
from firnstead.water.sump import Bulb

APART = ("Sewage and water shafts are never mixed: different signs, keys, hose ends and colours, and no hose or pump "
         "goes from one to the other. ")  # fmt: skip


def no_sump(place: str, well: Well) -> Check:
    """The question that cannot be answered without a sump."""
    return not_checked(question="Distance of the sewage from the well", key="water.sump_well",
                       reason="the water part names no sump", **_names(well, place))  # fmt: skip


def _names(well: Well, place: str) -> Kwargs:
    n = names(well, place, "Sewage sump")
    return {**n, "caution": APART + n["caution"]}


def sump_checks(well: Well, sump: SumpPlan, bulbs: tuple[Bulb, ...], place: str) -> tuple[Check, ...]:
    """Distances at the end of life."""
    n, last = _names(well, place), bulbs[-1]
    steps = reach_steps(sump, last)
    return (_melting(sump, last, n), _from_well(well, sump, last, n, steps),
            _from_floor(sump, last, n, steps, f"floor of {sump.nearest_cut}", sump.to_cut, sump.cut_floor,
                        "sump_floor"),
            _fuel(sump, last, n, steps), _downflow(sump, n))  # fmt: skip


def reach_steps(sump: SumpPlan, last: Bulb) -> tuple[Step, ...]:
    """From the sewage of all years to the farthest that it may have come."""
    case = sump.case
    fouled = last.sewage + last.melted
    uptake = soaked_mass(case.sheet_density, case.ice_temperature, case.warmth)
    sheet = math.sqrt(last.overflow / (math.pi * uptake * case.sheet_thickness))
    own = (1.5 * case.cavity / math.pi) ** (1 / 3)
    return (
        Step("M_s", "", (("t", last.time, "s"),), last.sewage, "kg", "statics",
             "sewage of all months of the design life"),
        Step("M_m", "", (("t_s", case.warmth, "K"), ("M_s", last.sewage, "kg")), last.melted, "kg", "statics",
             "ice that its warmth melts, conduction into the ice counted once, from the march"),
        Step("R_b", "((3 (M_s + M_m))/(2 pi rho))^(1/3)", (("M_s", last.sewage, "kg"), ("M_m", last.melted, "kg"),
             ("rho", WATER_DENSITY, "kg/m3")), last.radius, "m", "own_rule",
             "half a sphere of all that is fouled, nothing that froze again taken off"),
        Step("M_o", "max(0, M_s + M_m - rho (V_0 + M_m/rho_f))", (("M_s", last.sewage, "kg"),
             ("M_m", last.melted, "kg"), ("rho", WATER_DENSITY, "kg/m3"), ("V_0", case.cavity, "m3"),
             ("rho_f", case.density, "kg/m3")), max(0.0, fouled - WATER_DENSITY * (case.cavity
             + last.melted / case.density)), "kg", "statics",
             "what finds no room in the cavity and in what was melted: it rises into the firn"),
        Step("w_f", "", (("rho_f", case.sheet_density, "kg/m3"), ("T", case.ice_temperature, "K"),
             ("t_s", case.warmth, "K")), uptake, "kg/m3", "own_rule",
             "water that a cubic metre of the firn there freezes or holds: the least of cold and pores"),
        Step("R_f", "sqrt(M_o/(pi w_f h))", (("M_o", last.overflow, "kg"), ("w_f", uptake, "kg/m3"),
             ("h", case.sheet_thickness, "m")), sheet, "m", "own_rule", "as a round sheet"),
        Step("R_s", "max(R_b, R_f, R_c)", (("R_b", last.radius, "m"), ("R_f", sheet, "m"), ("R_c", own, "m")),
             last.reach, "m", "own_rule", "farthest; R_c is the radius of the cavity at the start"),
    )  # fmt: skip


def _melting(sump: SumpPlan, last: Bulb, n: Kwargs) -> Check:
    """The closed bound of what sewage can melt."""
    case = sump.case
    most = melted_by_sewage(case.warmth, case.ice_temperature)
    got = last.melted / max(last.sewage, 1e-9)
    steps = (Step("m", "M_m/M_s", (("M_m", last.melted, "kg"), ("M_s", max(last.sewage, 1e-9), "kg")), got, "1",
                  "statics", "melted for each kilogram of sewage, from the march"),
             Step("m_l", "(c t_s)/(L + s)", (("c", WATER_HEAT, "J/kg/K"), ("t_s", case.warmth, "K"),
                  ("L", LATENT, "J/kg"), ("s", sensible_heat_ice(case.ice_temperature), "J/kg")), most, "1", "statics",
                  "were nothing lost to the ice"))  # fmt: skip
    return check(question="Ice melted by sewage beside the most possible", key="water.sump_melting", unit="1",
                 demand=got, limit=most, ratio=0.0 if got <= most * (1 + 1e-9) else 2.0, working=steps,
                 note=f"{show(last.liquid, 'kg')} are liquid at the end of life", **n)  # fmt: skip


def _from_well(well: Well, sump: SumpPlan, last: Bulb, n: Kwargs, steps: tuple[Step, ...]) -> Check:
    zone = well.plan.pool.zone
    need = last.reach + zone * well.widest
    distance = Step("a", "R_s + z R", (("R_s", last.reach, "m"), ("z", zone, "1"), ("R", well.widest, "m")), need, "m",
                    "lunardini_rand_1995",
                    "with the ice that the pool disturbs, at its widest")  # fmt: skip
    return check(question=f"Distance of the sewage from {sump.nearest_well} at the end of life", key="water.sump_well",
                 unit="m", demand=need, limit=sump.to_well, working=(*steps, distance), sources=("own_rule",),
                 note="no published safe distance was found; layers in firn can lead sewage farther: test the water",
                 **n)  # fmt: skip


def _from_floor(
    sump: SumpPlan, last: Bulb, n: Kwargs, steps: tuple[Step, ...], what: str, apart: float, floor: float, key: str,
) -> Check:  # fmt: skip
    aside, below = max(0.0, apart - last.reach), sump.outfall - floor
    clear = math.hypot(aside, max(0.0, below))
    last_step = Step("a", "sqrt(max(0, x - R_s)^2 + max(0, z_s - z_f)^2)", (("x", apart, "m"),
                     ("R_s", last.reach, "m"), ("z_s", sump.outfall, "m"), ("z_f", floor, "m")), clear, "m", "statics",
                     "clear snow aside and above; z_s: the outfall, or the sheet's top if higher")  # fmt: skip
    return check(question=f"Snow between the sewage and the {what} at the end of life", key=f"water.{key}", unit="m",
                 demand=clear, limit=sump.clearance, at_least=True, working=(*steps, last_step),
                 sources=("well_field_accounts",),
                 note="sumps that were too shallow or changed too late have flooded tunnels and let floors down",
                 **n)  # fmt: skip


def _fuel(sump: SumpPlan, last: Bulb, n: Kwargs, steps: tuple[Step, ...]) -> Check:
    if sump.to_fuel is None:
        return not_checked(question="Snow between the sewage and fuel at the end of life", key="water.sump_fuel",
                           reason="the file does not say where fuel is kept (`fuel_places`)", **n)  # fmt: skip
    return _from_floor(sump, last, n, steps, f"fuel in {sump.nearest_fuel}", sump.to_fuel, sump.fuel_floor, "sump_fuel")


def _downflow(sump: SumpPlan, n: Kwargs) -> Check:
    question, key = "Sump on the down-flow side of the well", "water.sump_downflow"
    if sump.off_flow is None:
        reason = "the file does not say which way ice and meltwater move (`ice_flow`)"
        return not_checked(question=question, key=key, reason=reason, **n)
    steps = (Step("theta", "", (("theta", sump.off_flow, "deg"),), sump.off_flow, "deg", "statics",
                  "angle between the way from the well to the sump and the flow of the ice"),)  # fmt: skip
    return check(question=question, key=key, unit="deg", demand=sump.off_flow, limit=90.0, working=steps, **n)
