"""The roof again, year by year, on seats that come in with the shoulders: how long until they must be cut free."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from math import isinf, isnan

import numpy as np

from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, check
from firnstead.core.steps import Working
from firnstead.core.units import YEAR, show
from firnstead.roof.cover import first_exceedance
from firnstead.roof.moving_seat import rise_after_closing, spread_flexibility, thrust_from_closing
from firnstead.roof.results import MovingSeat, RoofResult
from firnstead.roof.study_arch import Arch
from firnstead.roof.study_arch_checks import NAMES
from firnstead.roof.thrust import Array
from firnstead.station import Station

Row = tuple[float, ...]
Seats = Mapping[str, tuple[Row, Row, Row]]
QUESTION, KEY = "Years until seats that come in bend the arch past its limit", "roof.moving_seat"
CAUTION = (
    "A bent arch gives no warning by noise. Measure span and rise every season; cut the seats free before the sheet "
    "folds, with nobody under the arch."
)


def moving_seat_checks(
    station: Station, study: Study, seats: Seats, memo: Memo, arch_of: Callable[[str], Arch | None]
) -> Study:  # fmt: skip
    """The roof study with the years on moving seats added for every arch whose closure is known."""
    result: RoofResult = study.result
    places, checks = dict(result.places), list(study.checks)
    for name, (dates, *inward) in seats.items():
        arch = arch_of(name)
        if arch is None:
            continue
        key = ("roof.moving", arch.given, dates, *inward)
        rows, made = memo.get(key, partial(_one, arch, dates, *inward))
        places[name] = replace(places[name], moving=rows)
        kind = "Passage" if name in station.passages else "Trench"
        checks.append(replace(made, subject=f'{kind} "{name}"', place=name))
    return Study(replace(result, places=places), tuple(checks), study.work_items)


def _one(arch: Arch, dates: Row, expected: Row, greatest: Row) -> tuple[MovingSeat, Check]:
    """The years at the fast end of the band, and the verdict by both."""
    time = np.array(dates)
    rows, middle = _years(arch, time, 2.0 * np.array(greatest)), _years(arch, time, 2.0 * np.array(expected))
    fast, usual = (first_exceedance(time, np.array(each.share)) for each in (rows, middle))
    return rows, _check(arch, time, 2.0 * np.array(greatest), fast, usual)


def _years(arch: Arch, time: Array, closing: Array) -> MovingSeat:
    props, roof, span = arch.props, arch.roof, arch.roof.span - closing
    rise = np.array([rise_after_closing(arch.arc, float(s)) for s in span])
    integral = spread_flexibility(arch.radius, arch.half_angle)
    ring = _load(arch, time) * arch.radius / props.area
    bend = thrust_from_closing(arch.stiffness, integral, 1.0) * closing * roof.rise / props.modulus
    share = arch.given.design.steel_factor * (ring + bend) / roof.yield_strength
    return MovingSeat(
        years=tuple(float(t / YEAR) for t in time), span=tuple(map(float, span)),
        rise=tuple(0.0 if isnan(r) else float(r) for r in rise), ring=tuple(map(float, ring)),
        bending=tuple(map(float, bend)), share=tuple(map(float, share)))  # fmt: skip


def _load(arch: Arch, time: Array) -> Array:
    return np.asarray(arch.given.design.arching_factor * arch.cover + arch.steel + arch.growth(1.0) * time)


def _check(arch: Arch, time: Array, closing: Array, fast: float, usual: float) -> Check:
    """The working at the date at which the fast end passes the limit, or at the end of the years looked at.

    Holds if the fast end keeps the seats that long, close if only the expected course does, else it fails.
    """
    design, props, roof, horizon = arch.given.design, arch.props, arch.roof, float(time[-1])
    at = horizon if isinf(fast) else fast
    w = Working()
    for symbol, value, unit in (
        ("E", arch.stiffness / props.inertia, "Pa"), ("I", props.inertia, "m4/m"), ("A", props.area, "m2/m"),
        ("W", props.modulus, "m3/m"), ("R", arch.radius, "m"), ("a", arch.half_angle, "1"), ("f", roof.rise, "m"),
        ("F_y", roof.yield_strength, "Pa"), ("n", design.steel_factor, "1"), ("t", at, "s"),
    ):  # fmt: skip
        w.given(symbol, float(value), unit)
    w.look("d", float(np.interp(at, time, closing)), "m", "arrizabalaga_2025",
           "how much nearer the seats are at that date, fast end of the closure forecast", "t")  # fmt: skip
    w.look("w", float(_load(arch, np.array(at))), "Pa", "statics",
           "load on plan at that date: cover as placed and grown, arching factor counted, and steel", "t")  # fmt: skip
    w.put("S", "R^3 (a - 3/2 sin(2 a) + 2 a cos(a)^2)", "m3", "statics", "integral of squared height along the arch")
    w.put("H", "(E I d)/S", "N/m", "statics", "thrust of a two-hinged arch whose feet have come nearer")
    w.put('sigma_"b"', "(H f)/W", "Pa", "statics", "bending at the crown")
    w.put('sigma_"c"', "(w R)/A", "Pa", "statics", "ring compression")
    w.put("r", '(n (sigma_"b" + sigma_"c"))/F_y', "1", "own_rule", "share of the yield, both stresses added")
    wanted = design.trim_interval
    ratio = wanted / max(fast, 1e-9) if fast >= wanted else 1.0 if usual >= wanted else wanted / max(usual, 1e-9)
    when, middle = (
        f"not within {show(horizon, 's')}" if isinf(each) else f"after {show(each, 's', digits=2)}"
        for each in (fast, usual)
    )
    return check(
        question=QUESTION, key=KEY, demand=min(fast, horizon), limit=wanted, unit="s", at_least=True, ratio=ratio,
        working=w.upto("r"), caution=CAUTION,
        note=f"Fast end of the band: {when}; as expected: {middle}. Unless the seats slide or are cut free, the sheet "
             "then begins to bend for good; it does not fall at once", **NAMES)  # fmt: skip
