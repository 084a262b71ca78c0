"""Lines of the workings: resistances of a metre, heat content, falls; so that a check can be followed by hand."""

from __future__ import annotations

from math import isinf
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.core.results import Step
from firnstead.pipes.line import REFERENCE
from firnstead.pipes.resistance import STEFAN_BOLTZMANN, resistance_shape_pipe
from firnstead.pipes.study_case import SNOW_BAND, Leg
from firnstead.pipes.study_numbers import Metre, Numbers

Inputs = tuple[tuple[str, float, str], ...]
Names = dict[str, Any]
NAMES: Names = {"subject": "", "discipline": "pipes", "caution": caution_for("pipes")}  # subject: filled in per run


def given(symbol: str, value: float, unit: str, text: str, source: str = "own_rule") -> Step:
    """A number that is taken as it is."""
    return Step(symbol, "", (), value, unit, source, text)


def air_step(n: Numbers, leg: Leg, symbol: str = "T_a") -> Step:
    """The temperature round a leg."""
    value = n.around(leg)
    if n.case.in_snow and value == leg.snow:
        return given(symbol, value, "K", f"coldest month of the snow at the floor of {leg.place}", "textbook_unchecked")
    if value == leg.cold and min(leg.usual) <= leg.cold:
        return given(symbol, value, "K", f"coldest air of {leg.place}")
    return given(symbol, value, "K", f"coldest air of {leg.place} without station heat: as told in the file, or the "
                 "coldest month of the snow at the feet of its roof")  # fmt: skip


def resistance_steps(n: Numbers, m: Metre, inside: float, leg: Leg) -> tuple[Step, ...]:
    """From diameters and conductivities to the resistance of one metre."""
    case, parts = n.case, m.parts
    kind, steps = case.kind, []
    outer = parts.diameters[0]
    steps.append(Step("D_0", "D_i + 2 w", (("D_i", kind.bore, "m"), ("w", kind.wall, "m")), outer, "m", "statics",
                      "pipe outside"))  # fmt: skip
    steps.append(Step("R_w", "ln(D_0/D_i)/(2 pi k_w)",
                      (("D_0", outer, "m"), ("D_i", kind.bore, "m"), ("k_w", case.material.conductivity, "W/m/K")),
                      parts.wall, "m K/W", "textbook_unchecked", "wall"))  # fmt: skip
    if any(g for _, _, g in case.wrapping.layers):
        steps.append(Step("T_m", "(T_w + T_s)/2", (("T_w", inside, "K"), ("T_s", parts.surface, "K")),
                          (inside + parts.surface) / 2, "K", "iso_12241", "middle of the insulation"))  # fmt: skip
    for j, (low, high, k, r) in enumerate(
        zip(parts.diameters, parts.diameters[1:], parts.conductivities, parts.layers, strict=False), 1
    ):
        steps += _layer_steps(n, m, inside, j, low, high, k, r)
    steps += _outer_steps(n, m, inside, leg)
    names = ["R_w", *(f"R_{j}" for j in range(1, len(parts.layers) + 1)), "R_f"]
    values = [parts.wall, *parts.layers, m.outer]
    steps.append(Step("R", " + ".join(names), tuple((a, v, "m K/W") for a, v in zip(names, values, strict=True)),
                      parts.below + m.outer, "m K/W", "textbook_unchecked", "one metre"))  # fmt: skip
    if m.bridge > 0:
        steps.append(Step("R_b", "1/(1/R + C_b)", (("R", parts.below + m.outer, "m K/W"), ("C_b", m.bridge, "W/m/K")),
                          m.resistance, "m K/W", "textbook_unchecked", "with the support that bridges it"))  # fmt: skip
    return tuple(steps)


def _layer_steps(
    n: Numbers, m: Metre, inside: float, j: int, low: float, high: float, k: float, r: float
) -> tuple[Step, ...]:
    thickness, k10, growth = n.case.wrapping.layers[j - 1]
    before, here, kj = f"D_{j - 1}", f"D_{j}", f"k_{j}"
    inputs: Inputs = ((before, low, "m"), (f"d_{j}", thickness, "m"))
    formula = f"{before} + 2 d_{j}"
    if m.share != 1:
        formula, inputs = f"{before} + 2 f_d d_{j}", (*inputs, ("f_d", m.share, "1"))
    steps = [Step(here, formula, inputs, high, "m", "statics", "over the insulation")]
    if m.wet != 1 or growth:
        formula, inputs = f"f_w K_{j}", (("f_w", m.wet, "1"), (f"K_{j}", k10, "W/m/K"))
        if growth:
            mean = (inside + m.parts.surface) / 2
            factor = max(0.1, 1 + growth * (mean - REFERENCE))
            formula += " max(0.1, 1 + g (T_m - T_r))"
            inputs = (*inputs, ("g", growth, "1/K"), ("T_m", mean, "K"), ("T_r", REFERENCE, "K"))
            k = m.wet * k10 * factor
        steps.append(Step(kj, formula, inputs, k, "W/m/K", "own_rule", "conductivity as it lies"))
    steps.append(Step(f"R_{j}", f"ln({here}/{before})/(2 pi {kj})",
                      ((here, high, "m"), (before, low, "m"), (kj, k, "W/m/K")), r, "m K/W", "textbook_unchecked",
                      "insulation"))  # fmt: skip
    return tuple(steps)


def _outer_steps(n: Numbers, m: Metre, inside: float, leg: Leg) -> tuple[Step, ...]:
    case, parts = n.case, m.parts
    last = f"D_{len(parts.layers)}"
    skin = Step("D_s", f"{last} + 2 j", ((last, parts.diameters[-1], "m"), ("j", case.wrapping.jacket, "m")),
                parts.outside, "m", "statics", "outside")  # fmt: skip
    if not case.in_snow:
        return (skin, *_film_steps(n, m, inside, "R_f"))
    depth = max(case.axis_depth, 0.51 * parts.outside)
    k = leg.snow_conductivity * (1 + SNOW_BAND)
    x = 2 * depth / parts.outside
    snow = resistance_shape_pipe(parts.outside, depth, k)
    name = "R_f" if case.buried else "R_g"
    steps = (
        skin,
        Step("k_s", "k_n (1 + b)", (("k_n", leg.snow_conductivity, "W/m/K"), ("b", SNOW_BAND, "1")), k, "W/m/K",
             "calonne_2019", "snow, high end of its band"),
        Step("x", "(2 z)/D_s", (("z", depth, "m"), ("D_s", parts.outside, "m")), x, "1", "statics",
             "depth of the axis over the radius"),
        Step(name, "ln(x + sqrt(x^2 - 1))/(2 pi k_s)", (("x", x, "1"), ("k_s", k, "W/m/K")), snow, "m K/W",
             "incropera_4", "snow round it"),
    )  # fmt: skip
    if case.buried:
        return steps
    both: Inputs = (("R_a", parts.film, "m K/W"), ("R_g", snow, "m K/W"))
    least = Step("R_f", "min(R_a, R_g)", both, m.outer, "m K/W", "own_rule", "between air and snow: the worse of both")
    return (*steps, *_film_steps(n, m, inside, "R_a"), least)


def _film_steps(n: Numbers, m: Metre, inside: float, name: str) -> tuple[Step, ...]:
    case, parts = n.case, m.parts
    speed = case.speed
    still = "1.25 ((T_s - T_a)/D_s)^0.25, 1.21 (T_s - T_a)^(1/3)"
    films: Inputs = (("T_s", parts.surface, "K"), ("T_a", m.air, "K"), ("D_s", parts.outside, "m"))
    if speed > 0:
        still += ", 0.0081/D_s + 3.14 sqrt(v/D_s), (8.9 v^0.9)/D_s^0.1"
        films = (*films, ("v", speed, "m/s"))
    return (
        Step("T_s", "", (("T_w", inside, "K"), ("T_a", m.air, "K"), ("epsilon", case.wrapping.emissivity, "1")),
             parts.surface, "K", "iso_12241", "surface at which what comes through leaves again, by false position"),
        Step("h_r", "epsilon sigma (T_s^2 + T_a^2) (T_s + T_a)",
             (("epsilon", case.wrapping.emissivity, "1"), ("sigma", STEFAN_BOLTZMANN, "W/m2/K4"),
              ("T_s", parts.surface, "K"), ("T_a", m.air, "K")), parts.radiation, "W/m2/K", "iso_12241", "radiation"),
        Step("h_c", f"max({still})", films, parts.convection, "W/m2/K", "iso_12241",
             "convection, the larger branch: no jump, safe for losses"),
        Step(name, "1/(pi D_s (h_r + h_c))",
             (("D_s", parts.outside, "m"), ("h_r", parts.radiation, "W/m2/K"), ("h_c", parts.convection, "W/m2/K")),
             parts.film, "m K/W", "textbook_unchecked", "film"),
    )  # fmt: skip


def content_step(n: Numbers) -> Step:
    """Heat content of one metre."""
    c = n.case.carrier
    return Step('C', "f rho c pi D_i^2/4",
                (("f", n.case.run.fill, "1"), ("rho", c.density, "kg/m3"), ("c", c.heat_capacity, "J/kg/K"),
                 ("D_i", n.case.kind.bore, "m")), n.content, "J/m/K", "statics",
                "heat in one metre; the pipe's own is left out, which is safe")  # fmt: skip


def flow_steps(n: Numbers) -> tuple[Step, ...]:
    """From what enters, leg by leg, to the lowest temperature in service."""
    run, c = n.case.run, n.case.carrier
    if run.carrier == "steam":
        return (given("T_i", n.coldest, "K", "saturated all along the line"),)
    if n.batch:
        return (given("T_i", n.coldest, "K", "as it enters: the line is filled only when used, and drained"),)
    mass = Step("m", "Q rho", (("Q", run.flow, "m3/s"), ("rho", c.density, "kg/m3")), n.mass_flow, "kg/s", "statics",
                "least flow")  # fmt: skip
    steps, at, name = [mass], run.supply, "T_0"
    for j, (length, air, r) in enumerate(n.flow_legs, 1):
        leg, flow = n.case.legs[j - 1], n.design[j - 1]
        steps.append(air_step(n, leg, f"A_{j}"))
        steps.append(given(f"r_{j}", r, "m K/W", f"one metre in {leg.place}, supports and fittings shared out",
                           "iso_12241"))  # fmt: skip
        free: Inputs = ((f"A_{j}", air, "K"), (name, at, "K"), (f"x_{j}", length, "m"), ("m", n.mass_flow, "kg/s"),
                        ("c", c.heat_capacity, "J/kg/K"), (f"r_{j}", r, "m K/W"))  # fmt: skip
        if n.mass_flow > 0:
            formula = f"A_{j} + ({name} - A_{j}) exp(-x_{j}/(m c r_{j}))"
        else:
            formula, free = f"A_{j}", ((f"A_{j}", air, "K"),)
        if n.held is not None:
            formula, free = f"max(T_h, {formula})", (("T_h", n.held, "K"), *free)
        steps.append(
            Step(
                f"T_{j}",
                formula,
                free,
                flow.end,
                "K",
                "textbook_unchecked",
                f"at the end of {leg.place}" + (", tracing at its lowest" if n.held is not None else ""),
            )
        )
        at, name = flow.end, f"T_{j}"
    ends = tuple((f"T_{j}", v, "K") for j, v in enumerate([run.supply, *(flow.end for flow in n.design)]))
    steps.append(Step("T_i", "min(" + ", ".join(e[0] for e in ends) + ")", ends, n.coldest, "K", "statics",
                      "lowest temperature in service"))  # fmt: skip
    return tuple(steps)


def alarm_steps(n: Numbers) -> tuple[Step, ...]:
    """From the lowest temperature in service to that at which a failed cable is noticed; none without tracing."""
    tracing = n.case.run.tracing
    if tracing is None:
        return ()
    inputs: Inputs = (("T_i", n.coldest, "K"), ("T_q", tracing.alarm, "K"))
    return (given("T_q", tracing.alarm, "K", "alarm, from the station file"),
            Step("T_b", "min(T_i, T_q)", inputs, n.start, "K", "own_rule",
                 "nobody knows of a failed cable before the alarm sounds"))  # fmt: skip


def reserve_text(m: Metre) -> str:
    """The hidden reserve in words; never counted."""
    if isinf(m.blocked):
        return ""
    return (f"not counted: {m.blocked / 3600:.1f} h more to a ring of ice over a quarter of the bore, "
            f"{m.solid / 3600:.1f} h to solid ice")  # fmt: skip
