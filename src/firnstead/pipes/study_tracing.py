"""Tracing of a run: watts a metre, circuits, standby."""

from __future__ import annotations

from firnstead.core.results import Check, Step, check
from firnstead.pipes.results import TracingResult
from firnstead.pipes.study_numbers import CONTACT, Metre, Numbers
from firnstead.pipes.study_steps import NAMES, air_step, given, resistance_steps
from firnstead.pipes.tracing import circuit_current


def tracing_checks(n: Numbers) -> tuple[Check, ...]:
    """Output, circuits and standby; none for a run without tracing."""
    t = n.case.run.tracing
    if t is None or n.case.cable is None:
        return ()
    found = [_output(n)]
    if t.circuits is not None:
        found.append(_circuits(n))
    if n.case.carrier.ice:
        found.append(_standby(n))
    return tuple(found)


def tracing_result(n: Numbers) -> TracingResult | None:
    """The tracing of a run as a result."""
    t, cable = n.case.run.tracing, n.case.cable
    if t is None or cable is None:
        return None
    circuits = max(n.circuits, t.circuits or 0)
    return TracingResult(
        needed=n.tracing_needed, output=t.cables * cable.output, cable=n.cable, circuits=circuits, standby=t.standby,
        current=circuit_current(cable.output, n.cable, circuits, cable.voltage),
        power=t.cables * cable.output * n.cable, on=t.on, off=t.off, alarm=t.alarm)  # fmt: skip


def _output(n: Numbers) -> Check:
    t, cable = n.case.run.tracing, n.case.cable
    assert t is not None
    assert cable is not None
    leg, r = n.tracing_at
    air, contact, s = n.around(leg), CONTACT[cable.contact], n.case.run.supports
    parts = n.line(t.on, air)
    beyond = n.beyond(leg, parts)
    plain = Metre("plain line", leg.place, air, 1.0, 1.0, 0.0, parts, beyond, parts.below + beyond, 0.0, 0.0, 0.0)
    steps = [given("T_w", t.on, "K", "held by the thermostat, from the station file"), air_step(n, leg),
             *resistance_steps(n, plain, t.on, leg)]  # fmt: skip
    name = "R"
    if s.bridge:
        name = "R_b"
        steps.append(Step("R_b", "1/(1/R + C/e)", (("R", plain.resistance, "m K/W"), ("C", s.bridge, "W/K"),
                          ("e", s.spacing, "m")), r, "m K/W", "textbook_unchecked", "with its supports"))  # fmt: skip
    loss = (t.on - air) / r
    steps += [
        Step("q", f"(T_w - T_a)/{name}", (("T_w", t.on, "K"), ("T_a", air, "K"), (name, r, "m K/W")), loss, "W/m",
             "textbook_unchecked", "lost by one metre"),
        Step("q_t", "q S f_c", (("q", loss, "W/m"), ("S", t.safety, "1"), ("f_c", contact, "1")), n.tracing_needed,
             "W/m", "tm_5_852_5", f"safety, and contact of a cable that is {cable.contact}"),
        Step("q_o", "n P", (("n", float(t.cables), "1"), ("P", cable.output, "W/m")), t.cables * cable.output, "W/m",
             "statics", "cables that work together"),
    ]  # fmt: skip
    return check(
        question="Heat from the tracing", key="pipes.tracing", demand=n.tracing_needed, limit=t.cables * cable.output,
        unit="W/m", working=tuple(steps), place=leg.place, **NAMES,
        note="cable is wound more closely on valves, flanges and supports; it heats only with power")  # fmt: skip


def _circuits(n: Numbers) -> Check:
    t, cable, run = n.case.run.tracing, n.case.cable, n.case.run
    assert t is not None
    assert t.circuits is not None
    assert cable is not None
    extra = sum(f.count * f.length for f in run.fittings)
    steps = (
        given("L", n.case.length, "m", "length of the run, along its route", "statics"),
        Step("l", "(L + L_f) (1 + a)", (("L", n.case.length, "m"), ("L_f", extra, "m"), ("a", 0.05, "1")), n.cable, "m",
             "own_rule", "one cable, with fittings and ends"),
        Step("n", "", (("l", n.cable, "m"), ('l_"max"', cable.greatest_circuit, "m")), float(n.circuits), "1",
             "statics", "circuits, rounded up"),
        given("n_g", float(t.circuits), "1", "circuits laid out, from the station file"),
    )  # fmt: skip
    return check(
        question="Circuits of tracing cable", key="pipes.circuits", demand=float(n.circuits), limit=float(t.circuits),
        unit="1", working=steps, place=run.route[0].place, ratio=1.01 if n.circuits > t.circuits else 0.0, **NAMES,
        note="each on its own breaker with earth-fault protection")  # fmt: skip


def _standby(n: Numbers) -> Check:
    t = n.case.run.tracing
    assert t is not None
    steps = (
        given("n_s", float(t.standby), "1", "cables that stand by, from the station file"),
        given('n_"min"', 1.0, "1", "one cable laid beside, ready to be switched on"),
    )
    return check(
        question="Tracing cable that stands by", key="pipes.standby", demand=float(t.standby), limit=1.0, unit="1",
        at_least=True, working=steps, place=n.case.run.route[0].place, ratio=0.0 if t.standby else 2.0, **NAMES,
        note="a cable under insulation is not mended in a night: one stopped a drain for days")  # fmt: skip
