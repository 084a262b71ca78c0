"""Checks of the feeders: voltage at every board, current in every cable, the start of a motor, faults and earth."""

from __future__ import annotations

from math import inf, sqrt

import numpy as np

from firnstead.core.cautions import BY_DISCIPLINE
from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import show
from firnstead.power._net import Feeding
from firnstead.power.case import BoardCase, FeederCase
from firnstead.power.drop import voltage_drop
from firnstead.power.numbers import Numbers
from firnstead.power.outcome import worst_current, worst_drop
from firnstead.power.study_sets import names, when

EARTHING = BY_DISCIPLINE["power.earthing"]


def feeder_checks(n: Numbers) -> tuple[Check, ...]:
    """All checks of the net."""
    found = [_drop(n, board) for board in n.case.boards if board.name not in {f.root for f in n.feedings}]
    found += [_current(n, feeder) for feeder in n.case.feeders]
    return (*found, *_motor(n), *_open_questions(n))


def _feeder_steps(f: FeederCase, mark: str, cold: bool = False) -> tuple[Step, ...]:
    """Resistance and reactance of one feeder."""
    c = f.cable
    steps: list[Step] = []
    if not f.stated:
        formula = "max(1, " + (" + ".join(f"l_{i}" for i, _ in enumerate(f.legs, 1)) or "0") + ") (1 + s)"
        whole = sum(length for _, length in f.legs) * (1 + f.slack)
        if whole >= 1.0:
            formula = "(" + " + ".join(f"l_{i}" for i, _ in enumerate(f.legs, 1)) + ") (1 + s)"
        else:
            formula = ""
        inputs = (*((f"l_{i}", length, "m") for i, (_, length) in enumerate(f.legs, 1)), ("s", f.slack, "1"))
        steps.append(Step(f"L_{mark}", formula, inputs, f.length, "m", "own_rule",
                          f"length of {f.name} along {', '.join(dict.fromkeys(p for p, _ in f.legs)) or 'one spot'}, "
                          "with slack"))  # fmt: skip
    steps += [
        Step("r_t", "", (), c.found, "ohm/m", c.source, c.how),
        Step("r", "r_t (1 + a (T - T_t))", (("r_t", c.found, "ohm/m"), ("a", c.coefficient, "1/K"), ("T", _warm(f),
             "K"),
             ("T_t", c.found_at, "K")), c.warm, "ohm/m", "iec_60228" if "nec" not in c.source else "nec_ch9",
             "as warm as it runs"),
    ]  # fmt: skip
    shared = (("r", c.warm, "ohm/m"), (f"L_{mark}", f.length, "m"), ("n", float(f.parallel), "1"))
    if f.transformer is None:
        steps += [
            Step(f"R_{mark}", f"(r L_{mark})/n", shared, f.resistance, "ohm", "statics", f"resistance of {f.name}"),
            Step(f"X_{mark}", f"(x L_{mark})/n", (("x", c.reactance, "ohm/m"), *shared[1:]), f.reactance, "ohm",
                 "iec_60364_5_52, Annex G", "its reactance"),
        ]  # fmt: skip
    else:
        rating, resistance, reactance, _, _ = f.transformer
        more = (("V_f", f.voltage, "V"), ("S_t", rating, "VA"))
        steps += [
            Step(f"R_{mark}", f"(r L_{mark})/n + (2 r_u V_f^2)/S_t", (*shared, ("r_u", resistance, "1"), *more),
                 f.resistance, "ohm", "statics", f"resistance of {f.name} and its two transformers"),
            Step(f"X_{mark}", f"(x L_{mark})/n + (2 x_u V_f^2)/S_t", (("x", c.reactance, "ohm/m"), *shared[1:],
                 ("x_u", reactance, "1"), *more), f.reactance, "ohm", "iec_60364_5_52, Annex G", "their reactance"),
        ]  # fmt: skip
    return tuple(steps)


def _warm(f: FeederCase) -> float:
    """Temperature at which the warm resistance was reckoned [K]."""
    c = f.cable
    return c.found_at + (c.warm / c.found - 1) / c.coefficient


def _leg(n: Numbers, feeding: Feeding, at: int, hour: int, mark: str) -> tuple[tuple[Step, ...], float]:
    """Current and drop of the feeder into one board, by hand; the drop as a share of the voltage."""
    f = feeding.fed_by[at]
    assert f is not None
    arriving = complex(feeding.arriving[at, hour])
    far = float(abs(feeding.flow.voltage[at, hour])) * f.voltage / n.case.voltage
    apparent = abs(arriving)
    cosine = min(1.0, arriving.real / apparent) if apparent > 0 else 1.0
    three = f.phases == 3
    current = apparent / (sqrt(3.0) * far) if three else apparent * sqrt(3.0) / far
    drop = voltage_drop(current, 1.0, f.resistance, cosine, f.reactance, f.phases)
    share = drop / f.voltage if three else drop * sqrt(3.0) / f.voltage
    steps = (
        *_feeder_steps(f, mark),
        Step(f"S_{mark}", "", (), apparent, "VA", "statics", f"arrives over {f.name}: loads behind it and losses, "
             f"{when(hour)}"),
        Step(f"I_{mark}", f"S_{mark}/(sqrt(3) V_{mark})" if three else f"(sqrt(3) S_{mark})/V_{mark}",
             ((f"S_{mark}", apparent, "VA"), (f"V_{mark}", far, "V")), current, "A", "textbook_unchecked",
             "current at the voltage of the far end"),
        Step(f"u_{mark}", f"{'sqrt(3)' if three else '2'} (R_{mark} c_{mark} + X_{mark} sqrt(max(0, 1 - c_{mark}^2))) "
             f"I_{mark}", ((f"R_{mark}", f.resistance, "ohm"), (f"X_{mark}", f.reactance, "ohm"), (f"c_{mark}",
                 cosine, "1"),
             (f"I_{mark}", current, "A")), drop, "V", "iec_60364_5_52, Annex G",
             "drop " + ("from line to line" if three else "from line to neutral") + "; c is the power factor there"),
    )  # fmt: skip
    return steps, share


def _drop(n: Numbers, board: BoardCase) -> Check:
    subject = f'Board "{board.name}"'
    named = names(subject, board.place, "voltage_drop", "Voltage drop from the sets to this board")
    case, exact, hour = worst_drop(n, board.name)
    feeding = next((f for f in n.feedings if f.name == case), None)
    if feeding is None:
        return not_checked(reason="no feeder that is closed leads from the sets to this board", **named)
    broken = [f.name for f in n.feedings if not f.flow.converged and board.name in f.boards]
    if broken:
        lost = Step("d", "", (), 1.0, "1", "statics", "no voltage was found at which all loads are served")
        return check(demand=1.0, limit=n.case.drop_limit, unit="1", working=(lost,), ratio=inf, **named,
                     note=f"the net cannot carry its loads ({', '.join(broken)}): thicker cables, less load",
                     )  # fmt: skip
    steps: list[Step] = []
    shares: list[tuple[str, float, str]] = []
    for k, at in enumerate(feeding.path(board.name), 1):
        made, share = _leg(n, feeding, at, hour, str(k))
        steps += made
        shares.append((f"d_{k}", share, "1"))
        f = feeding.fed_by[at]
        assert f is not None
        drop, three = made[-1].value, f.phases == 3
        steps.append(Step(f"d_{k}", f"u_{k}/V_f" if three else f"(sqrt(3) u_{k})/V_f",
                          ((f"u_{k}", drop, "V"), ("V_f", f.voltage, "V")), share, "1", "statics",
                          "as a share"))  # fmt: skip
    steps += [
        Step("d", " + ".join(name for name, _, _ in shares), tuple(shares), sum(share for _, share, _ in shares), "1",
             "iec_60364_5_52, Annex G", "by hand"),
        Step('d_"e"', "", (), exact, "1", "statics", f"exact, by phasors and constant power, {case}"),
    ]  # fmt: skip
    return check(demand=exact, limit=n.case.drop_limit, unit="1", working=tuple(steps), **named,
                 note=f"{case}, {when(hour)}; lines evenly loaded, conductors at {show(n.case.warm, 'K')}; the drop "
                      "from the board to the last lamp comes on top")  # fmt: skip


def _current(n: Numbers, f: FeederCase) -> Check:
    named = names(f'Feeder "{f.name}"', _place(n, f), "current", "Current in the cable", EARTHING)
    feeding, current, hour = worst_current(n, f)
    if feeding is None:
        return not_checked(reason="it stands open in every way of feeding that was looked at", **named)
    at = feeding.fed_by.index(f)
    total = float(np.abs(feeding.flow.current[at, hour]))
    k = "1/sqrt(3)" if f.phases == 3 else "sqrt(3)"
    steps = (
        Step("J", "", (), total, "A", "statics", f"from the loads behind it and the voltage of its end, times sqrt(3), "
             f"{feeding.name}, {when(hour)}"),
        Step("I", f"(J {k} V)/(V_f n)" if f.phases == 1 else "(J V)/(sqrt(3) V_f n)", (("J", total, "A"),
             ("V", n.case.voltage, "V"), ("V_f", f.voltage, "V"), ("n", float(f.parallel), "1")), current, "A",
             "statics",
             "in each cable"),
    )  # fmt: skip
    if f.cable.ampacity is None:
        return not_checked(demand=current, unit="A", working=steps, **named,
                           reason="the current that the maker allows is not given (`ampacity`)")  # fmt: skip
    more = "" if feeding.flow.converged else ", at full voltage: really more"
    limit = Step("I_z", "", (), f.cable.ampacity, "A", "own_rule", "allowed by the maker as it is laid, from the file")
    return check(demand=current, limit=f.cable.ampacity, unit="A", working=(*steps, limit), **named,
                 note=f"{feeding.name}{more}; a cable buried in snow or under insulation cools worse or better than "
                      "the maker's figure says, and warms the snow")  # fmt: skip


def _place(n: Numbers, f: FeederCase) -> str:
    return f.legs[0][0] if f.legs else next(b.place for b in n.case.boards if b.name == f.start)


def _motor(n: Numbers) -> tuple[Check, ...]:
    if n.start is None or (at := n.normal.of(n.start[1])) is None:
        return ()
    name, board, m, current, _ = n.start
    place = next(b.place for b in n.case.boards if b.name == board)
    named = names(f'Load "{name}"', place, "start_drop", "Voltage drop in the feeders while the motor starts")
    before = float(n.normal.drop[at].max())
    steps: list[Step] = []
    terms: list[tuple[str, float, str]] = [("d_0", before, "1")]
    for k, i in enumerate(n.normal.path(board), 1):
        f = n.normal.fed_by[i]
        assert f is not None
        own = current * n.case.voltage / f.voltage
        drop = voltage_drop(own, 1.0, f.resistance, m.start_factor, f.reactance)
        terms.append((f"d_{k}", drop / f.voltage, "1"))
        steps += [
            *_feeder_steps(f, str(k)),
            Step(f"d_{k}", f"(sqrt(3) (R_{k} c_s + X_{k} sqrt(1 - c_s^2)) I_{k})/V_f", ((f"R_{k}", f.resistance, "ohm"),
                 (f"X_{k}", f.reactance, "ohm"), ("c_s", m.start_factor, "1"), (f"I_{k}", own, "A"),
                 ("V_f", f.voltage, "V")), drop / f.voltage, "1", "iec_60364_5_52, Annex G",
                 f"from the starting current in {f.name}"),
        ]  # fmt: skip
        if f.phases == 1:
            return (not_checked(reason="a three-phase motor hangs on a feeder of one phase", **named),)
    demand = sum(value for _, value, _ in terms)
    steps = [Step("d_0", "", (), before, "1", "statics", "greatest drop at the board in normal running"), *steps,
             Step("d", " + ".join(t for t, _, _ in terms), tuple(terms), demand, "1", "iec_60364_5_52, Annex G",
                  "both together")]  # fmt: skip
    if n.case.start_drop_limit is None:
        return (not_checked(demand=demand, unit="1", working=tuple(steps), **named,
                            reason="no limit is given (`start_drop_limit`)"),)  # fmt: skip
    return (check(demand=demand, limit=n.case.start_drop_limit, unit="1", working=tuple(steps), **named,
                  note="the dip of the sets comes on top: see their own question"),)  # fmt: skip


def _open_questions(n: Numbers) -> tuple[Check, ...]:
    found = [
        not_checked(reason="no source for what generator sets feed into a fault; the resistance of every feeder when "
                           "cold, at which breakers must be chosen, stands in the table of feeders",
                    **names("Power plant", "", "fault", "Fault current and breakers", EARTHING)),
        not_checked(reason="no source gives touch voltages on ice; frozen ground conducts worse by orders of magnitude "
                           "and rods in ice give no earth", sources=("henry_1987",),
                    **names("Power plant", "", "earthing", "Earth fault and touch voltage on ice", EARTHING)),
        not_checked(reason="no source for exhaust that comes back in; the way of the wind, hatches and intakes decide",
                    **names("Power plant", "", "exhaust", "Exhaust coming back in", BY_DISCIPLINE["power.exhaust"])),
    ]  # fmt: skip
    return tuple(found)
