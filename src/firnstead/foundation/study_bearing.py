"""Pressure under the footings and what pad and natural snow bear, with workings."""

from __future__ import annotations

from math import inf, isinf, pi
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import G0, show
from firnstead.foundation.bearing import FAR, bearing_beside_drop, pad_needed, pressure_below_pad
from firnstead.foundation.case import Layout
from firnstead.foundation.numbers import Numbers, Row
from firnstead.foundation.pressure import eccentric_pressure, mean_pressure

MEASURED_STATION = 2000 * 0.45359237 * G0 / 0.3048**2  # Pa: 2000 lb/ft2, ueda_1981 (abstract read)
LEAST_PAD = 0.5  # of a footing's smaller side: less is no pad but a loose bed (own rule)
CAUTION = caution_for("foundation")
SHORT_TERM = "short-term strength, low end of the band: it says nothing about settling, which governs almost always"
Names = dict[str, Any]
Inputs = tuple[tuple[str, float, str], ...]
NAMES: Names = {"subject": "", "place": "", "discipline": "foundation", "caution": CAUTION}  # filled in per building


def bearing_checks(n: Numbers) -> tuple[Check, ...]:
    """Plausible pressure, bearing, and the pad where there is one."""
    row = n.heaviest
    loads = (*load_steps(n, "full"), *row_steps(n, row, "full", ""))
    if n.layout.pad_thickness > 0:
        return (_plausible(n, row, loads), _pad_strength(n, row, loads), _punching(n, row, loads), _pad_thickness(n))
    return (_plausible(n, row, loads), _bearing(n, row, loads))


def load_steps(n: Numbers, kind: str) -> tuple[Step, ...]:
    """Load of the building, with the live load in full or with the share that stays."""
    b = n.layout
    shared = (("m", b.mass, "kg"), ("g", G0, "m/s2"), ("p", b.live_load, "Pa"), ("L", b.length, "m"),
              ("W", b.width, "m"))  # fmt: skip
    if kind == "full":
        return (Step("F", "m g + p L W", shared, n.full, "N", "statics", "weight of the kit's parts and live load"),)
    return (Step("F", "m g + c p L W", (*shared, ("c", b.sustained_share, "1")), n.sustained, "N", "own_rule",
                 "weight of the kit's parts and the share c of the live load that stays"),)  # fmt: skip


def row_steps(n: Numbers, row: Row, kind: str, mark: str) -> tuple[Step, ...]:
    """Share of a row, load of one footing and mean pressure; `mark` tells rows apart."""
    b, full = n.layout, kind == "full"
    load, total = (row.load, n.full) if full else (row.sustained, n.sustained)
    r, p, q = "r" + mark, "P" + mark, "q" + mark
    name = "an outer row" if row is n.edge else "an inner row"
    formula: str
    inputs: Inputs
    count = ("n", float(b.rows), "1")
    if b.rows == 2:
        formula, inputs = "1/n", (count,)
    elif b.edge_share is None:
        formula, inputs = ("1/(2 (n - 1))" if row is n.edge else "1/(n - 1)"), (count,)
    else:
        given = ("s", b.edge_share, "1")
        formula, inputs = ("s/2", (given,)) if row is n.edge else ("(1 - s)/(n - 2)", (given, count))
    return (
        Step(r, formula, inputs, row.share, "1", "statics", f"share of {name}"),
        Step(p, f"(F {r})/k", (("F", total, "N"), (r, row.share, "1"), ("k", float(b.per_row), "1")), load, "N",
             "statics", f"load of one footing of {name}"),
        Step(q, f"{p}/(b l)", ((p, load, "N"), ("b", b.footing_width, "m"), ("l", b.footing_length, "m")),
             mean_pressure(load, b.footing_width, b.footing_length), "Pa", "statics", "mean pressure"),
    )  # fmt: skip


def _plausible(n: Numbers, row: Row, loads: tuple[Step, ...]) -> Check:
    limit = Step('q_"m"', "2000 w_p g/f^2", (("w_p", 0.45359237, "kg"), ("g", G0, "m/s2"), ("f", 0.3048, "m")),
                 MEASURED_STATION, "Pa", "ueda_1981", "2000 lb/ft2, the greatest under a measured station")  # fmt: skip
    return check(
        question="Pressure under the footings beside a measured station", key="foundation.pressure", unit="Pa",
        demand=loads[-1].value, limit=MEASURED_STATION, working=(*loads, limit), **NAMES,
        note="a plausible bound, not a proof: that station stood on old firn, and it settled")  # fmt: skip


def _edge_pressure(b: Layout, mean: float) -> Step:
    side, e = b.short_side, b.eccentricity
    inputs = (("q", mean, "Pa"), ("b_s", side, "m"), ("e", e, "m"))
    if e >= side / 2:
        formula, how = "", "the post stands outside its footing: it tips"
    elif e <= side / 6:
        formula, how = "q (1 + (6 e)/b_s)", "edge pressure, whole footing pressed"
    else:
        formula, how = "(2 q b_s)/(3 (b_s/2 - e))", "edge pressure, part of the footing open"
    return Step('q_"max"', formula, inputs, eccentric_pressure(mean, side, e), "Pa", "statics", how)


def _bearing_steps(n: Numbers, width: float, distance: float | None, top: float) -> tuple[Step, ...]:
    """Allowable pressure on natural snow from `top` below the floor."""
    strength = n.ground.strength(top, width)
    ultimate = bearing_beside_drop(strength / 2, width, distance)
    return (
        Step('sigma_"c"', "", (("z", n.ground.floor + top, "m"), ("d", width, "m")), strength, "Pa", "mellor_1975",
             "least strength of the site's snow over a footing's width in depth, low end of the band"),
        _ultimate(strength, ultimate, near=distance is not None and distance < FAR * width),
        Step('q_"lim"', 'q_"u"/F_s', (('q_"u"', ultimate, "Pa"), ("F_s", n.ground.snow_factor, "1")),
             ultimate / n.ground.snow_factor, "Pa", "own_rule", "with the factor on the strength of snow"),
    )  # fmt: skip


def _ultimate(strength: float, ultimate: float, near: bool) -> Step:
    inputs = (('sigma_"c"', strength, "Pa"),)
    if near:
        return Step('q_"u"', '2 sigma_"c"/2', inputs, ultimate, "Pa", "own_rule", "beside a drop: safe bound")
    return Step('q_"u"', '(2 + pi) sigma_"c"/2', inputs, ultimate, "Pa", "textbook_unchecked", "level floor, Prandtl")


def _bearing(n: Numbers, row: Row, loads: tuple[Step, ...]) -> Check:
    b = n.layout
    edge = _edge_pressure(b, loads[-1].value)
    limit = _bearing_steps(n, b.long_side, b.drop_distance, 0.0)
    return check(
        question="Bearing of the natural snow under a footing", key="foundation.bearing", unit="Pa",
        demand=edge.value, limit=limit[-1].value, working=(*loads, edge, *limit), note=SHORT_TERM, **NAMES)  # fmt: skip


def _punching(n: Numbers, row: Row, loads: tuple[Step, ...]) -> Check:
    b, t = n.layout, n.layout.pad_thickness
    below = pressure_below_pad(row.load, b.footing_width, b.footing_length, t)
    limit = _bearing_steps(n, b.long_side + t, _beyond_pad(b), t)
    spread = Step('q_"n"', "P/((b + t)(l + t))", (("P", row.load, "N"), ("b", b.footing_width, "m"),
                  ("l", b.footing_length, "m"), ("t", t, "m")), below, "Pa", "textbook_unchecked",
                  "what reaches the natural snow, spread two to one")  # fmt: skip
    return check(
        question="Punching through the pad into natural snow", key="foundation.punching", unit="Pa",
        demand=below, limit=limit[-1].value, working=(*loads[:-1], spread, *limit),
        note=SHORT_TERM, **NAMES)  # fmt: skip


def _beyond_pad(b: Layout) -> float | None:
    """Distance from the pad, which reaches half its thickness beyond the footing, to a drop [m]."""
    return None if b.drop_distance is None else max(0.0, b.drop_distance - b.pad_thickness / 2)


def _pad_strength(n: Numbers, row: Row, loads: tuple[Step, ...]) -> Check:
    """How old the pad must be before it bears the footing: its strength grows with age."""
    b, milled = n.layout, n.ground.snow.milled
    edge = _edge_pressure(b, loads[-1].value)
    near = b.drop_distance is not None and b.drop_distance < FAR * b.long_side
    factor = n.ground.snow_factor
    needed = factor * edge.value / (1.0 if near else (2 + pi) / 2)
    inputs = (('q_"max"', edge.value, "Pa"), ("F_s", factor, "1"))
    formula = "" if isinf(needed) else 'F_s q_"max"' if near else '(2 F_s q_"max")/(2 + pi)'
    steps = (*loads, edge,
             Step('sigma_"c"', formula, inputs, needed, "Pa", "textbook_unchecked",
                  "strength that the pad must have, " + ("beside a drop" if near else "level floor")))  # fmt: skip
    names: Names = {"question": "Age of the pad before it is loaded", "key": "foundation.pad_strength", **NAMES}
    wait = milled.waiting_time(needed)
    if wait is None:
        return not_checked(
            reason=f"{milled.unknown}; measure at least {show(needed, 'Pa')} in the pad before it is loaded",
            working=steps, **names)  # fmt: skip
    age = Step("t_w", "", (('sigma_"c"', needed, "Pa"),), wait, "s", "van_herwijnen_miller_2013",
               "age at which the low end of the milled snow's strength reaches it")  # fmt: skip
    return check(demand=wait, limit=b.pad_age, unit="s", working=(*steps, age), **names,
                 note="the strength of a bond grows slowly in the cold: measure it before loading"
                      + ("; milled snow of this density never reaches it" if wait == inf else ""))  # fmt: skip


def _pad_thickness(n: Numbers) -> Check:
    b, t, row = n.layout, n.layout.pad_thickness, n.heaviest
    natural = _bearing_steps(n, b.long_side + t, _beyond_pad(b), t)
    for_bearing = pad_needed(row.load, b.footing_width, b.footing_length, natural[-1].value)
    least = max(for_bearing, LEAST_PAD * b.short_side)
    steps = (
        *load_steps(n, "full"), *row_steps(n, row, "full", "")[:-1], *natural,
        Step("t_b", 'max(0, sqrt((b - l)^2/4 + P/q_"lim") - (b + l)/2)',
             (("b", b.footing_width, "m"), ("l", b.footing_length, "m"), ("P", row.load, "N"),
              ('q_"lim"', natural[-1].value, "Pa")), for_bearing, "m", "statics",
             "thickness at which the natural snow bears what comes through"),
        Step('t_"min"', "max(t_b, k b_s)", (("t_b", for_bearing, "m"), ("k", LEAST_PAD, "1"),
             ("b_s", b.short_side, "m")), least, "m", "own_rule", "and no less than half a footing's smaller side"),
    )  # fmt: skip
    return check(
        question="Thickness of the compacted pad", key="foundation.pad_thickness", unit="m", at_least=True,
        demand=t, limit=least, working=steps, sources=("brier_paige_1972",), **NAMES,
        note="natural snow was found to settle several times faster than compacted snow")  # fmt: skip
