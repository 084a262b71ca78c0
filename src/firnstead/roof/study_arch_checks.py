"""The checks of an arch roof as placed: wall, buckling, erection, one side leading, vehicle, hardening, seams."""

from __future__ import annotations

from dataclasses import replace
from math import isinf
from typing import Any

from firnstead.core.results import Check, check, not_checked
from firnstead.core.steps import Working
from firnstead.core.units import show
from firnstead.roof._work_arch import put_one_sided, put_state
from firnstead.roof.live import machine_pressure
from firnstead.roof.seam import seam_strength_bolted
from firnstead.roof.study_arch import Arch
from firnstead.snow import MilledStrength

AGE_WANTED = "age at which the low end of the strength reaches what is wanted, no earlier than it was measured"
UNDER = "Nobody under an arch that is being covered; cover both sides together."
COLD = "Steel in deep cold can be brittle: no blows, no notches."
FREE = "The arch is taken as free: nothing holds its sides, its feet are hinges. "
NAMES: dict[str, Any] = {"subject": "", "place": "", "discipline": "roof"}


def named(found: Check, subject: str, place: str) -> Check:
    """A check worked out once for a kind of roof, as the check of one place."""
    return replace(found, subject=subject, place=place)


def wall_checks(w: Working, arch: Arch) -> tuple[Check, ...]:
    """Bare arch, one side leading, whole cover; factor against yield and against buckling."""
    w.given("p_e", arch.given.design.erection_load, "Pa")
    put_one_sided(w, arch)
    put_state(w, arch.erection(), "e", "bare arch")
    put_state(w, arch.one_sided(), "s", "one side covered")
    put_state(w, arch.worst_lasting(), "0", "whole cover")
    w.put(
        'H_"b"',
        'L (u_0 k_H + max(v_0, 0) k_"Hw")',
        "N/m",
        "statics",
        "horizontal thrust under the whole cover",
        ('k_"Hw"', arch.wedges.horizontal, "1"),
    )
    w.put('q_"eq"', 'H_"b"/(k_H L)', "Pa", "statics", "even load with the same thrust")
    w.put('q_"all"', 'q_"cr"/n_b', "Pa", "own_rule", "factor of safety against buckling taken off")
    limit = arch.given.design.steel_factor
    second = "A factor on the loads: bending that grows with thrust is counted at that factor. "
    fresh = "No arching factor: the snow has just been placed. "
    rows = (
        ("erection", "Bare arch under people and tools", "lambda_e", FREE + second, COLD),
        ("bending_one_sided", "Arch while one side is covered", "lambda_s", FREE + second + fresh, UNDER),
        ("wall_placed", "Arch under its cover as placed", "lambda_0", FREE + second, UNDER),
    )
    found = [
        check(
            question=question,
            demand=w[symbol],
            limit=limit,
            unit="1",
            key=f"roof.{key}",
            at_least=True,
            working=w.upto(symbol),
            caution=caution,
            note=note + _sheet_note(arch),
            **NAMES,
        )
        for key, question, symbol, note, caution in rows
    ]
    return (
        *found,
        check(
            question="Buckling under the cover as placed",
            demand=w['q_"eq"'],
            limit=w['q_"all"'],
            unit="Pa",
            key="roof.buckling_placed",
            working=w.upto('q_"eq"', 'q_"all"'),
            caution=UNDER,
            note=FREE + "Sheets that are only lapped, or bolted loosely, buckle earlier.",
            **NAMES,
        ),
    )


def _sheet_note(arch: Arch) -> str:
    if arch.roof.joint == "lapped":
        return "Lapped sheets are counted as one continuous sheet, which they are not: they slip. "
    return (
        "The table of this profile is remembered; the lower of table and geometry is used. "
        if (arch.sheet.mark == "memory")
        else ""
    )


def seam_check(w: Working, arch: Arch) -> Check:
    """Seams: a table that is not verified lets no check hold; laps have no rating."""
    strength = seam_strength_bolted(arch.roof.profile, arch.roof.gauge) if arch.roof.joint == "bolted" else None
    demand = max(w["N_0"], w['H_"b"'])
    if arch.roof.joint == "lapped":
        why = "overlapped sheets without a rated seam: thrust passes only by bearing at the fasteners; have them rated"
    elif strength is None:
        why = "no seam table for this profile is known here; ask the maker for a tested strength"
    else:
        why = "the seam table is remembered and could not be verified; ask the maker for a tested strength"
    return not_checked(
        question="Seams between the sheets",
        reason=f"{why} (thrust as placed {show(demand, 'N/m')})",
        key="roof.seam",
        caution=UNDER,
        demand=demand,
        limit=strength,
        unit="N/m",
        working=w.upto("N_0", 'H_"b"'),
        sources=("aisi_handbook",) if strength is not None else (),
        **NAMES,
    )


def vehicle_checks(w: Working, arch: Arch) -> tuple[Check, ...]:
    """A vehicle that the file allows to cross: least cover, and the wall under it."""
    machine, roof = arch.given.vehicle, arch.roof
    if machine is None:
        return ()
    for symbol, value, unit in (
        ("m", machine.mass, "kg"),
        ("p_g", machine.ground_pressure, "Pa"),
        ("a_v", machine.track_width, "m"),
        ("b_v", machine.track_length, "m"),
        ("w_v", machine.width, "m"),
    ):
        w.given(symbol, value, unit)
    w.put("h_m", "max(L/8, 0.3)", "m", "aashto_lrfd_12, Table 12.6.6.3-1", "least cover under a vehicle")
    w.put("i_v", "1 + 0.33 max(0, 1 - 0.41 h_c)", "1", "aashto_lrfd, 3.6.2.2", "growth by movement")
    w.put(
        "W_v",
        "i_v max(m g, 2 p_g a_v b_v)",
        "N",
        "own_rule",
        "weight, by mass or by ground pressure, whichever is more",
    )
    pressure, width, length = machine_pressure(
        w["W_v"], machine.track_width, machine.track_length, machine.width, roof.cover
    )
    merged = width > machine.track_width + roof.cover + 1e-12
    formula = "W_v/((w_v + h_c)(b_v + h_c))" if merged else "W_v/2/((a_v + h_c)(b_v + h_c))"
    w.put(
        "p_v",
        formula,
        "Pa",
        "aashto_lrfd, 3.6.1.2.6",
        "pressure on the arch, spread two down to one out" + (", tracks merged" if merged else ", one track"),
    )
    put_state(w, arch.crossing(pressure, (width, length)), "v", "vehicle over the cover as placed")
    note = "The load is spread through hardened snow only; before that nothing crosses. "
    caution = "Nothing crosses before the cover's strength has been measured. Mark the crossing; keep off elsewhere."
    return (
        check(
            question="Least cover under a vehicle",
            demand=roof.cover,
            limit=w["h_m"],
            unit="m",
            at_least=True,
            key="roof.vehicle_cover",
            working=w.upto("h_m"),
            note=note + "The rule is for compacted soil.",
            caution=caution,
            **NAMES,
        ),
        check(
            question="Arch under a crossing vehicle",
            demand=w["lambda_v"],
            limit=arch.given.design.steel_factor,
            unit="1",
            at_least=True,
            key="roof.vehicle_wall",
            working=w.upto("lambda_v"),
            note=FREE + note,
            caution=caution,
            **NAMES,
        ),
    )


def hardening_check(w: Working, arch: Arch, milled: MilledStrength) -> Check:
    """The wait until the cover carries itself (and a vehicle): only a measured strength can tell it."""
    question, key = "Wait before the cover may be loaded", "roof.hardening"
    caution = "No person, vehicle or snow goes onto a cover before its strength has been measured."
    if arch.roof.cover <= 0:
        return not_checked(
            question=question, reason="there is no cover over the crown", key=key, caution=caution, **NAMES
        )
    w.put(
        "N_c",
        'sqrt((V_"f0" L/(4 f))^2 + V_"f0"^2)',
        "N/m",
        "statics",
        "thrust at the foot of the cover as an arch of its own",
    )
    w.put('sigma_"h"', "N_c/h_c", "Pa", "statics", "stress in it")
    carried = 'max(sigma_"h", p_v)' if "p_v" in w else 'sigma_"h"'
    w.put('sigma_"w"', f"n_s {carried}", "Pa", "own_rule", "strength wanted")
    w.given('sigma_"max"', milled.envelope, "Pa")
    wait = milled.waiting_time(w['sigma_"w"'])
    wanted = show(w['sigma_"w"'], "Pa")
    if wait is None:
        return not_checked(
            question=question,
            key=key,
            caution=caution,
            working=w.upto('sigma_"w"'),
            unit="s",
            limit=arch.given.season,
            reason=f"{milled.unknown}; wanted {wanted}, low end for well-bonded snow of this density "
            f"{show(milled.envelope, 'Pa')}, at age zero none",
            **NAMES,
        )
    if wait != wait:
        return not_checked(
            question=question,
            reason="the wait cannot be told at this temperature",
            key=key,
            caution=caution,
            working=w.upto('sigma_"w"'),
            **NAMES,
        )
    if not isinf(wait):
        w.look(
            "t_w",
            wait,
            "s",
            "own_rule",
            AGE_WANTED,
            'sigma_"w"',
            'sigma_"max"',
        )
    return check(
        question=question,
        demand=wait,
        limit=arch.given.season,
        unit="s",
        key=key,
        caution=caution,
        working=w.upto("t_w" if "t_w" in w else 'sigma_"w"'),
        note="Limit: the season. A wait far beyond the measured age is a guess: test the cover itself.",
        **NAMES,
    )
