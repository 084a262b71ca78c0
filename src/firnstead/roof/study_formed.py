"""A roof of milled snow without steel: stress, span, shoulder, stripping, years."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from firnstead.core.results import Check, Verdict, check, not_checked
from firnstead.core.steps import Working
from firnstead.core.units import G0, YEAR, show
from firnstead.roof.cover import first_exceedance
from firnstead.roof.formed import foot_stress
from firnstead.roof.results import Life
from firnstead.roof.seat import bearing_edge, effective_setback, face_lean, undercut_steps
from firnstead.roof.study_arch_checks import AGE_WANTED, NAMES
from firnstead.roof.study_seat_checks import EDGE
from firnstead.roof.study_years import YEARS, cover_strength
from firnstead.snow import MilledStrength, SnowColumn
from firnstead.station.build import FormedRoof, Section
from firnstead.station.machines import Machine
from firnstead.station.site import Design

STRIP = (
    "No steel is left to catch this roof. Strip a form only by measured density and strength, never by the clock; "
    "nobody inside the length that is stripped, nor within two spans of it, until it has stood for a shift."
)


@dataclass(frozen=True)
class FormedInput:
    """Everything in the station file that the verdicts on a formed roof depend on, by value."""

    roof: FormedRoof
    section: Section
    design: Design
    drift_factor: float
    accumulation: float
    density: float
    vehicle: Machine | None
    pass_depth: float
    season: float


def formed_working(given: FormedInput, milled: MilledStrength) -> Working:
    """Loads and stresses, as placed and at the end of the design life."""
    w, roof, design = Working(), given.roof, given.design
    for symbol, value, unit in (
        ("L", roof.span, "m"),
        ("f", roof.rise, "m"),
        ("h_c", roof.cover, "m"),
        ("rho_p", given.density, "kg/m3"),
        ("g", G0, "m/s2"),
        ("n_s", design.snow_factor, "1"),
        ("C_v", design.arching_factor, "1"),
        ("c_d", given.drift_factor, "1"),
        ("a", given.accumulation, "kg/m2/s"),
        ("T", design.life, "s"),
    ):
        w.given(symbol, value, unit)
    w.put(
        "w_0",
        "C_v rho_p g (h_c + f/3)",
        "Pa",
        "statics",
        "load on plan as placed: cover, and haunches of a parabola filled level (a third of the rise on the mean)",
    )
    w.put("w_T", "w_0 + C_v g c_d a T", "Pa", "statics", "load on plan at the end of the design life")
    for tag in ("0", "T"):
        w.put(f"H_{tag}", f"w_{tag} L^2/(8 f)", "N/m", "statics", "crown thrust")
        w.put(
            f"sigma_{tag}",
            f"sqrt(H_{tag}^2 + (w_{tag} L/2)^2)/h_c",
            "Pa",
            "statics",
            "mean stress at the foot; the crown has less",
        )
    kind = (
        "measured, not above the low end for well-bonded snow"
        if milled.measured_strength is not None
        else ("low end of the band for well-bonded snow of its density, NOT measured")
    )
    w.look(
        "sigma_m",
        cover_strength(milled),
        "Pa",
        "mellor_1975, range of the compilation",
        f"strength of the hardened cover: {kind}",
        "rho_p",
    )
    w.put('sigma_"all"', "sigma_m/n_s", "Pa", "own_rule", "factor of safety taken off")
    w.put(
        'L_"max"',
        'pi sigma_"all"/(rho_p g)',
        "m",
        "statics",
        "span at which an arch of constant stress reaches it by its own weight",
    )
    return w


def formed_life(given: FormedInput, milled: MilledStrength) -> Life:
    """When the stress first passes its limit; there is no second bound."""
    roof, design = given.roof, given.design
    time = np.array(YEARS) * YEAR
    load = (
        design.arching_factor
        * G0
        * (given.density * (roof.cover + roof.rise / 3) + given.drift_factor * given.accumulation * time)
    )
    limit = cover_strength(milled) / design.snow_factor
    ratio = np.array([foot_stress(float(p), roof.span, roof.rise, roof.cover) for p in load]) / limit
    at = first_exceedance(time, ratio)
    return Life((("stress in the snow arch", at),), at, at, float(time[-1]))


def formed_checks(
    w: Working, given: FormedInput, column: SnowColumn, milled: MilledStrength, life: Life
) -> tuple[Check, ...]:
    """All checks of a formed roof."""
    note = "Short-term strength; the arch flattens by creep, so recheck its shape every year."
    rows = (
        ("stress_placed", "Stress in the snow arch as placed", "sigma_0"),
        ("stress_life", "Stress in the snow arch at the end of the design life", "sigma_T"),
    )
    found = [
        check(
            question=question,
            demand=w[symbol],
            limit=w['sigma_"all"'],
            unit="Pa",
            key=f"roof.formed_{key}",
            caution=STRIP,
            working=w.upto(symbol, 'sigma_"all"'),
            note=note,
            **NAMES,
        )
        for key, question, symbol in rows
    ]
    found.append(
        check(
            question="Span of the snow arch",
            demand=given.roof.span,
            limit=w['L_"max"'],
            unit="m",
            key="roof.formed_span",
            working=w.upto('L_"max"'),
            note="Own weight alone, at any rise.",
            **NAMES,
        )
    )
    strength = len(found)
    found += [_bearing(w, given, column), _stripping(w, given, milled)]
    if given.vehicle is not None:
        found.append(
            not_checked(
                question="Vehicle over the snow arch",
                key="roof.vehicle_wall",
                caution="Nothing crosses a roof of formed snow.",
                reason="no published rule was found for vehicles over a roof of formed snow",
                **NAMES,
            )
        )
    at = min(life.alone, life.horizon)
    if at < life.horizon:
        w.look(
            "t_f",
            at,
            "s",
            "statics",
            "stress first passes its limit (steps of a year or less, straight lines between)",
            "w_0",
            "C_v",
            "g",
            "c_d",
            "a",
            'sigma_"all"',
        )
    found.append(
        check(
            question="Years until the roof first fails",
            demand=at,
            limit=given.design.life,
            unit="s",
            key="roof.life",
            at_least=True,
            working=w.upto("t_f" if "t_f" in w else "w_T"),
            caution=STRIP,
            note=f"Looked {life.horizon / YEAR:.0f} years ahead. {note}",
            **NAMES,
        )
    )
    if milled.measured_strength is None:
        found = [_open(c) if i < strength or c.key == "roof.life" else c for i, c in enumerate(found)]
    return tuple(found)


def _open(made: Check) -> Check:
    """A verdict that would stand on a strength nobody has measured is none; no steel is left to catch the roof."""
    if made.verdict not in (Verdict.HOLDS, Verdict.CLOSE):
        return made
    reason = "the strength of the milled snow is not measured; limit shown by the low end for well-bonded snow"
    return replace(made, verdict=Verdict.NOT_CHECKED, ratio=None, reason=reason)


def _bearing(w: Working, given: FormedInput, column: SnowColumn) -> Check:
    """Bearing of the shoulder under the foot of the snow arch."""
    section = given.section
    foot = (given.roof.span - section.top_width) / 2
    start = section.bench_depth if section.undercut_from is None else section.undercut_from
    height = section.depth - start
    passes = max(1, int(np.ceil(height / given.pass_depth - 1e-9)))
    undercut = max(0.0, section.undercut)
    lean = face_lean(foot, undercut_steps(undercut, start - section.bench_depth, height, passes))
    setback = effective_setback(foot, undercut)
    depth = min(section.bench_depth, float(column.depth[-1]))
    w.look(
        "sigma_c",
        column.at("ucs_low", depth),
        "Pa",
        "mellor_1975, range of the compilation",
        "low end of the shoulder's compressive strength",
    )
    limit = bearing_edge(column.at("ucs_low", depth) / 2, given.roof.cover, setback, lean) / given.design.snow_factor
    w.look(
        'q_"b0"',
        limit,
        "Pa",
        "textbook_unchecked, Prandtl and slope term",
        f"strip of the cover's thickness, setback {setback:.3g} m from the widest part of the cut, lean {lean:.3g}; "
        "factor taken off",
        "sigma_c",
        "n_s",
        "h_c",
    )
    w.put("q_0", "w_0 L/2/h_c", "Pa", "statics", "pressure under the foot as placed")
    return check(
        question="Bearing of the shoulder as placed",
        demand=w["q_0"],
        limit=limit,
        unit="Pa",
        key="roof.seat_bearing",
        caution=EDGE,
        working=w.upto("q_0", 'q_"b0"'),
        note="Settlement by creep is not in it.",
        **NAMES,
    )


def _stripping(w: Working, given: FormedInput, milled: MilledStrength) -> Check:
    """When the form may be taken out."""
    w.put('sigma_"w"', "n_s sigma_0", "Pa", "own_rule", "strength wanted before the form is taken out")
    common = {
        "question": "Wait before the form is taken out",
        "key": "roof.hardening",
        "caution": STRIP,
        **NAMES,
    }
    wait, wanted = milled.waiting_time(w['sigma_"w"']), show(w['sigma_"w"'], "Pa")
    if wait is None or wait != wait:
        return not_checked(
            reason=f"{milled.unknown or 'the wait cannot be told'}; wanted {wanted}, low end for "
            f"well-bonded snow {show(milled.envelope, 'Pa')}, at age zero none",
            limit=given.season,
            unit="s",
            working=w.upto('sigma_"w"'),
            **common,
        )
    w.look("t_w", wait, "s", "own_rule", AGE_WANTED, 'sigma_"w"')
    return check(
        demand=wait,
        working=w.upto("t_w"),
        limit=given.season,
        unit="s",
        note="Limit: the season. Test the arch itself before stripping.",
        **common,
    )
