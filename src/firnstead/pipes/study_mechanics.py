"""Expansion and its loops, room in a niche, friction against the pump."""

from __future__ import annotations

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import show
from firnstead.pipes.study_numbers import Numbers
from firnstead.pipes.study_steps import NAMES, given


def mechanics_checks(n: Numbers) -> tuple[Check, ...]:
    """Everything about length, room and pressure of one run."""
    found = [_expansion(n)]
    if n.case.run.supports.kind == "in a niche":
        found.append(_niche(n))
    if n.case.run.pump_pressure is not None:
        found.append(_pressure(n))
    return tuple(found)


def _expansion(n: Numbers) -> Check:
    case, run, (cold, hot) = n.case, n.case.run, n.swing
    steps = (
        given("L", n.straight, "m", "between the bends that take it: from the station file, or the longest straight of "
              "the route", "statics"),
        given("T_c", cold, "K", "coldest that the pipe gets"),
        given("T_h", hot, "K", "warmest that the pipe gets"),
        Step("d", "a L (T_h - T_c)", (("a", case.material.expansion, "1/K"), ("L", n.straight, "m"), ("T_h", hot, "K"),
             ("T_c", cold, "K")), n.change, "m", "textbook_unchecked", f"change of length of {case.kind.material}"),
        Step("l", "sqrt((3 E D d)/s)", (("E", case.material.modulus, "Pa"), ("D", case.kind.outer, "m"),
             ("d", n.change, "m"), ("s", case.material.stress, "Pa")), n.leg_needed, "m", "statics",
             "leg of a bend that takes it, guided at both ends"),
    )  # fmt: skip
    names = {"question": "Leg of the bends that take expansion", "key": "pipes.expansion",
             "place": run.route[0].place, **NAMES}  # fmt: skip
    if run.expansion_leg is None:
        return not_checked(
            reason=f"no `expansion_leg` is told; it must be at least {show(n.leg_needed, 'm')}, for "
                   f"{show(n.change, 'm')} of change", working=steps, **names)  # fmt: skip
    return check(
        demand=run.expansion_leg, limit=n.leg_needed, unit="m", at_least=True, **names,
        working=(*steps, given("l_g", run.expansion_leg, "m", "leg as laid, from the station file")),
        note="moduli and stresses of pipe materials are rounded figures; the maker's go before them")  # fmt: skip


def _niche(n: Numbers) -> Check:
    case, s = n.case, n.case.run.supports
    size = min(s.niche_width or 0.0, s.niche_height or 0.0)
    names = {"question": "Room in the niche while its walls close", "key": "pipes.niche",
             "place": case.run.route[0].place, **NAMES}  # fmt: skip
    if case.wall_movement is None:
        return not_checked(reason="how fast walls close is not told (`wall_movement` of the design)", **names)
    need = case.kind.outside + 2 * case.wall_movement * case.life
    steps = (
        given("D_s", case.kind.outside, "m", "outside of the line", "statics"),
        given("v", case.wall_movement, "m/s", "closing of one wall, from the station file"),
        Step("b", "D_s + 2 v t", (("D_s", case.kind.outside, "m"), ("v", case.wall_movement, "m/s"),
             ("t", case.life, "s")), need, "m", "own_rule", "a niche closes from both sides through the design life"),
        given("b_g", size, "m", "smaller side of the niche, from the station file"),
    )  # fmt: skip
    return check(demand=need, limit=size, unit="m", working=steps, **names,
                 note="or trim the niche before it touches the jacket")  # fmt: skip


def _pressure(n: Numbers) -> Check:
    from firnstead.pipes.flowing import friction_factor, reynolds

    case, run, c = n.case, n.case.run, n.case.carrier
    names = {"question": "Pressure that friction takes", "key": "pipes.pressure", "place": run.route[0].place, **NAMES}
    if n.pressure is None or c.viscosity is None or run.pump_pressure is None:
        return not_checked(reason="no greatest flow is told, or its viscosity is not known", **names)
    flow = max(run.flow, run.peak_flow or 0.0)
    number = reynolds(flow * c.density, case.kind.bore, c.viscosity)
    rough = case.material.roughness / case.kind.bore
    factor, d = friction_factor(number, rough), case.kind.bore
    speed = 4 * flow / (3.141592653589793 * d**2)
    steps = (
        Step("v", "(4 Q)/(pi D^2)", (("Q", flow, "m3/s"), ("D", d, "m")), speed, "m/s", "statics", "greatest flow"),
        Step('R_"e"', "(rho v D)/mu", (("rho", c.density, "kg/m3"), ("v", speed, "m/s"), ("D", d, "m"),
             ("mu", c.viscosity, "Pa s")), number, "1", "textbook_unchecked", "Reynolds number"),
        Step("f", "", (('R_"e"', number, "1"), ("e", rough, "1")), factor, "1", "haaland_1983", "friction factor"),
        Step("p", "f (L/D) (rho v^2)/2", (("f", factor, "1"), ("L", case.length, "m"), ("D", d, "m"),
             ("rho", c.density, "kg/m3"), ("v", speed, "m/s")), n.pressure, "Pa", "textbook_unchecked", "friction"),
        given('p_"max"', run.pump_pressure, "Pa", "what the pump can spend, from the station file"),
    )  # fmt: skip
    return check(demand=n.pressure, limit=run.pump_pressure, unit="Pa", working=steps, **names,
                 note="straight pipe; bends and valves come on top")  # fmt: skip
