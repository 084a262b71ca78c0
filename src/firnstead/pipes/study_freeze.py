"""Freezing of a run: outage against repair, flow, still branches, what stays liquid, snow under it."""

from __future__ import annotations

from math import isinf, pi

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import show
from firnstead.pipes.freezing import dead_leg_limit
from firnstead.pipes.line import Wrapping, resistance_line
from firnstead.pipes.study_case import SNOW_BAND, Leg
from firnstead.pipes.study_numbers import Metre, Numbers
from firnstead.pipes.study_steps import (
    NAMES,
    air_step,
    alarm_steps,
    content_step,
    flow_steps,
    given,
    reserve_text,
    resistance_steps,
)
from firnstead.station.pipes import DeadLeg

WARM = 288.15  # K, from which the cold of fuel and glycol is counted (own rule, only to give a share)


def freeze_checks(n: Numbers) -> tuple[Check, ...]:
    """Everything about freezing of one run."""
    found: list[Check] = []
    if not n.case.carrier.ice:
        found.append(_liquid(n))
    elif n.freezes:
        found.append(_outage(n))
    run = n.case.run
    if run.carrier == "steam":
        found.append(_steam(n))
    elif n.case.carrier.ice and run.tracing is None and not n.batch and n.freezes:
        found.append(_flow(n))
    if n.freezes and n.case.carrier.ice:
        found += [_dead_leg(n, leg) for leg in run.dead_legs if not leg.traced]
    if n.jacket is not None:
        found.append(_thaw(n))
    return tuple(found)


def _leg(n: Numbers, m: Metre) -> Leg:
    return next(leg for leg in n.case.legs if leg.place == m.place)


def _outage(n: Numbers) -> Check:
    m, run, freezing = n.metres[0], n.case.run, n.case.carrier.freezing
    leg = _leg(n, m)
    inside = max(n.start, freezing)
    t = "T_i" if run.tracing is None else "T_b"
    r = "R_b" if m.bridge > 0 else "R"
    allowed, why = (run.repair, "time until heat or flow is back") if run.drain is None else (
        run.drain, "time in which it is drained")  # fmt: skip
    time = Step("t_0", f"C {r} ln(({t} - T_a)/(T_f - T_a))",
                (("C", n.content, "J/m/K"), (r, m.resistance, "m K/W"), (t, n.start, "K"), ("T_a", m.air, "K"),
                 ("T_f", freezing, "K")), m.to_zero, "s", "ashrae_pipe_2009",
                "time to the freezing point")  # fmt: skip
    if n.start <= freezing:
        time = given("t_0", m.to_zero, "s", "it is at its freezing point before anything fails")
    steps = (*flow_steps(n), *alarm_steps(n), air_step(n, leg),
             given("T_w", inside, "K", "temperature inside while it begins to cool", "statics"),
             *resistance_steps(n, m, inside, leg), content_step(n), time,
             given('t_"r"', allowed, "s", why + ", from the station file"))  # fmt: skip
    return check(
        question="Time to 0 °C without power", key="pipes.outage", demand=allowed, limit=m.to_zero, unit="s",
        working=steps, place=m.place, **NAMES,
        note=f"weakest metre: {m.what} in {m.place}; tracing and flow are taken to fail together; {reserve_text(m)}"
    )  # fmt: skip


def _flow(n: Numbers) -> Check:
    run = n.case.run
    steps = flow_steps(n)
    least = Step('m_"min"', "", (("T_0", run.supply, "K"), ("T_L", run.least, "K")), n.least_flow, "kg/s",
                 "textbook_unchecked", "flow that holds the far end at the lowest temperature wanted")  # fmt: skip
    names = {"question": "Flow that keeps the far end warm", "key": "pipes.flow", "place": n.coldest_leg.place, **NAMES}
    if isinf(n.least_flow):
        return not_checked(reason="no flow is enough: what enters is as cold as what is wanted", working=steps, **names)
    return check(
        demand=n.mass_flow, limit=n.least_flow, unit="kg/s", at_least=True, working=(*steps, least), **names,
        note=f"far end at {show(n.coldest, 'K')} in the coldest air; the pump runs on when nobody draws")  # fmt: skip


def _liquid(n: Numbers) -> Check:
    leg, c, run = n.coldest_leg, n.case.carrier, n.case.run
    air = n.around(leg)
    freezing = given("T_f", c.freezing, "K", "cloud point of the fuel, from the station file"
                     if run.carrier == "fuel" else f"freezing point at {100 * (run.glycol_share or 0):.0f} % by mass",
                     c.source)  # fmt: skip
    steps = (
        air_step(n, leg), freezing, given("T_r", WARM, "K", "from which cold is counted"),
        Step("d", "T_r - T_a", (("T_r", WARM, "K"), ("T_a", air, "K")), WARM - air, "K", "statics", "cold it meets"),
        Step('d_"max"', "T_r - T_f", (("T_r", WARM, "K"), ("T_f", c.freezing, "K")), WARM - c.freezing, "K", "statics",
             "cold it stands"),
    )  # fmt: skip
    what = "wax blocks filters below its cloud point" if run.carrier == "fuel" else (
        "glycol attacks zinc and creeps through joints and pump seals; test its strength every year")  # fmt: skip
    return check(
        question="Liquid in the coldest air", key="pipes.liquid", demand=WARM - air, limit=WARM - c.freezing, unit="dK",
        working=steps, place=leg.place, note=what, sources=("tm_5_852_5",) if run.carrier == "glycol" else (),
        **NAMES)  # fmt: skip


def _steam(n: Numbers) -> Check:
    run, flow = n.case.run, max(n.case.run.flow, n.case.run.peak_flow or 0.0) * n.case.carrier.density
    lost = sum(each.lost for each in n.design)
    names = {"question": "Steam that condenses on the way", "key": "pipes.steam", "place": n.coldest_leg.place, **NAMES}
    if flow <= 0:
        return not_checked(reason="no flow is told", **names)
    latent = lost / n.condensate
    steps = (
        *(given(f"r_{j}", r, "m K/W", f"one metre in {n.case.legs[j - 1].place}", "iso_12241")
          for j, (_, _, r) in enumerate(n.flow_legs, 1)),
        Step("Q_l", " + ".join(f"(T_0 - A_{j}) x_{j}/r_{j}" for j in range(1, len(n.flow_legs) + 1)),
             tuple(row for j, (x, a, r) in enumerate(n.flow_legs, 1) for row in
                   (("T_0", run.supply, "K"), (f"A_{j}", a, "K"), (f"x_{j}", x, "m"), (f"r_{j}", r, "m K/W"))),
             lost, "W", "textbook_unchecked", "heat lost"),
        given("L", latent, "J/kg", "heat of condensation at that temperature", "iapws_95"),
        Step("m_c", "Q_l/L", (("Q_l", lost, "W"), ("L", latent, "J/kg")), n.condensate, "kg/s", "statics",
             "condensate: traps and a fall to them"),
        Step("s", "m_c/(Q rho)", (("m_c", n.condensate, "kg/s"), ("Q", max(run.flow, run.peak_flow or 0.0), "m3/s"),
             ("rho", n.case.carrier.density, "kg/m3")), n.condensate / flow, "1", "statics", "of the steam, by mass"),
        given('s_"max"', run.steam_loss, "1", "share allowed"),
    )  # fmt: skip
    return check(
        demand=n.condensate / flow,
        limit=run.steam_loss,
        unit="1",
        working=steps,
        **names,
        note="flow is told as water of the same mass; steam scalds: guard hot surfaces and open valves slowly",
    )


def _dead_leg(n: Numbers, branch: DeadLeg) -> Check:
    """How long a still branch its main keeps above freezing; it is wrapped like its main."""
    leg = next(each for each in n.case.legs if each.place == branch.place)
    air, case, margin = n.around(leg), n.case, 1.0
    outer = branch.bore + 2 * branch.wall
    w = case.wrapping
    parts = resistance_line(Wrapping(branch.bore, outer, w.wall_conductivity, w.layers, w.jacket, w.emissivity),
                            n.coldest, air, case.speed)  # fmt: skip
    m = Metre("still branch", leg.place, air, 1.0, 1.0, 0.0, parts, n.beyond(leg, parts), parts.below
              + n.beyond(leg, parts), 0.0, 0.0, 0.0)  # fmt: skip
    water, wall = pi * branch.bore**2 / 4, pi * branch.wall * (branch.bore + branch.wall)
    axial = case.carrier.conductivity * water + case.material.conductivity * wall
    end = case.carrier.freezing + margin
    limit = dead_leg_limit(n.coldest, end, air, m.resistance, axial)
    steps = [
        *flow_steps(n), air_step(n, leg),
        Step("R", "", (("D_i", branch.bore, "m"), ("w", branch.wall, "m"), ("T_w", n.coldest, "K"), ("T_a", air, "K")),
             m.resistance, "m K/W", "iso_12241", "one metre of the branch, wrapped as its main"),
        Step("K", "k (pi D_i^2)/4 + k_w pi w (D_i + w)",
             (("k", case.carrier.conductivity, "W/m/K"), ("D_i", branch.bore, "m"),
              ("k_w", case.material.conductivity, "W/m/K"), ("w", branch.wall, "m")), axial, "W m/K", "statics",
             "conduction along it"),
        given("T_e", end, "K", "its closed end stays 1 K above freezing"),
    ]  # fmt: skip
    if n.coldest > end > air:
        x = (n.coldest - air) / (end - air)
        steps += [
            Step("x", "(T_i - T_a)/(T_e - T_a)", (("T_i", n.coldest, "K"), ("T_a", air, "K"), ("T_e", end, "K")), x,
                 "1", "statics"),
            Step('l_"max"', "ln(x + sqrt(x^2 - 1)) sqrt(R K)",
                 (("x", x, "1"), ("R", m.resistance, "m K/W"), ("K", axial, "W m/K")), limit, "m",
                 "textbook_unchecked", "fin with a closed end"),
        ]  # fmt: skip
    else:
        steps.append(given('l_"max"', limit, "m", "its main is as cold as its end may be"))
    steps.append(given("l", branch.length, "m", "length of the branch, from the station file"))
    return check(
        question=f"Still branch of {show(branch.length, 'm')}", key="pipes.dead_leg", demand=branch.length, limit=limit,
        unit="m", working=tuple(steps), place=leg.place, **NAMES,
        note="warmth reaches a closed end only over a hand's breadth or two: trace it, or move its valve to the main"
    )  # fmt: skip


def _thaw(n: Numbers) -> Check:
    assert n.jacket is not None
    leg, surface, radius = n.jacket
    case, supply = n.case, n.case.run.supply
    k, h, r = leg.snow_conductivity * (1 - SNOW_BAND), case.axis_depth, case.kind.outside / 2
    below, ground, x = n.line(supply, leg.snow_warm).below, leg.snow_warm, h / r
    spread = Step("S", "ln(x + sqrt(x^2 - 1))/(2 pi k_s)", (("x", x, "1"), ("k_s", k, "W/m/K")),
                  _spread(x, k), "m K/W", "incropera_4", "snow round it")  # fmt: skip
    frozen = ground + (supply - ground) * spread.value / (spread.value + below)
    steps = (
        given("T_G", ground, "K", f"warmest month of the snow at the floor of {leg.place}",
              "textbook_unchecked"),
        Step("k_s", "k_n (1 - b)", (("k_n", leg.snow_conductivity, "W/m/K"), ("b", SNOW_BAND, "1")), k, "W/m/K",
             "calonne_2019", "snow, low end of its band: it carries the heat away worst"),
        given("R_i", below, "m K/W", "wall and insulation", "textbook_unchecked"),
        Step("x", "H/r", (("H", h, "m"), ("r", r, "m")), x, "1", "statics", "depth of the axis over the radius"),
        spread,
        Step("T_p", "T_G + (T_0 - T_G) S/(S + R_i)", (("T_G", ground, "K"), ("T_0", supply, "K"),
             ("S", spread.value, "m K/W"), ("R_i", below, "m K/W")), frozen, "K", "statics",
             "jacket, all snow frozen"),
        Step("d", "T_p - T_G", (("T_p", surface, "K"), ("T_G", ground, "K")), surface - ground, "K", "statics",
             "warming of the snow at the jacket"),
        Step('d_"max"', "T_M - T_G", (("T_M", 273.15, "K"), ("T_G", ground, "K")), 273.15 - ground, "K", "statics",
             "warming at which it melts"),
    )  # fmt: skip
    thawed = surface > 273.15
    return check(
        question="Snow kept frozen round the line", key="pipes.thaw", demand=surface - ground,
        limit=273.15 - ground, unit="dK", working=steps, place=leg.place, **NAMES,
        note=(f"a cylinder of {show(2 * radius, 'm')} across melts in the long run; the line sags into it" if thawed
              else "in the long run, in the warmest month; a leak melts a cavity at any insulation"))  # fmt: skip


def _spread(x: float, k: float) -> float:
    from math import acosh

    return acosh(x) / (2 * pi * k)
