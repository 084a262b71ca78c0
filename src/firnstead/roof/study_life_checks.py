"""The checks of an arch roof over the years, between two bounds.

Lower bound, safe: steel and planks alone carry the whole cover, as a free arch. Upper bound: hardened snow holds the
arch all round, so that only ring compression acts, and the whole bench carries. Between the bounds a roof stands only
because of its hardened snow: no verdict without a measured strength.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isinf

from firnstead.core.results import Check, check, not_checked
from firnstead.core.steps import Working
from firnstead.roof._work_arch import FORCES, put_reactions, put_state, years_text
from firnstead.roof._work_seat import put_bearing, put_pressure, put_strength
from firnstead.roof.earth import load_coefficient_incomplete
from firnstead.roof.results import Life
from firnstead.roof.ring import wall_strength_aisi
from firnstead.roof.study_arch import Arch
from firnstead.roof.study_arch_checks import NAMES
from firnstead.roof.study_seat import Seat, Strength
from firnstead.roof.study_years import ALONE, SUPPORTED, WORDS, cover_strength, share
from firnstead.snow import MilledStrength

RELIES = (
    "no longer carries this cover; whether its hardened snow does depends on a strength that has not been measured "
    "here. Measure the strength, and the arch's shape every year"
)
RELIES_MEASURED = (
    "no longer carries this cover, and by the measured strength, with its factor, the hardened cover does not carry it "
    "as an arch of its own; together they may. Measure the arch's shape every year"
)
STANDS = (
    "Beyond what steel alone carries; stands on hardened snow of measured strength. Creep flattening is not in it: "
    "measure the shape every year. "
)
FREE_NOTE = "Safe bound: the free arch of steel alone carries all; the share used is the worse of yield and buckling. "
HELD_NOTE = "Upper bound: hardened snow holds the arch all round, so that only ring compression acts. "
COVER_NOTE = "Stress and strength are those of the hardened cover as an arch of its own, which decides here. "
CREEP = "Settlement by creep is not in it."
CAUTION = (
    "The load never falls. Clear the cover, or leave the place, before the year in which the first question fails."
)


@dataclass(frozen=True)
class Side:
    """One bound of a question: symbols of demand and limit, unit, share of the limit used."""

    demand: str
    limit: str
    unit: str
    ratio: float
    note: str
    at_least: bool = False
    more: tuple[str, ...] = ()


def life_checks(
    w: Working, arch: Arch, seat: Seat, milled: MilledStrength, strength: Strength, life: Life
) -> tuple[Check, ...]:
    """Wall and shoulder at the end of the design life, and the years until the roof first fails."""
    put_state(w, arch.worst_lasting(arch.given.design.life), "T", "cover at the end of the design life")
    reaction, thrust = put_reactions(w, arch, "T")
    _put_ring(w, arch)
    w.put(
        "N_a",
        'sqrt((V_"fT" L/(4 f))^2 + V_"fT"^2)',
        "N/m",
        "statics",
        "thrust at the foot if the cover were an arch alone",
    )
    proven = _cover_carries(w, arch, milled)
    buckling = w.put(
        'r_"bu"', 'n_b H_"fT"/H_"cr"', "1", "own_rule", "share of the buckling load, factor of safety counted"
    )
    wall = _between(
        w,
        "Arch at the end of the design life",
        "roof.wall_life",
        proven,
        "the steel",
        Side("lambda_T", "n", "1", max(w["n"] / w["lambda_T"], buckling), FREE_NOTE, True, ('r_"bu"',)),
        Side('sigma_"C"', "F_c", "Pa", w['sigma_"C"'] / w["F_c"], HELD_NOTE),
    )
    return (wall, *_shoulder(w, arch, seat, strength, reaction, thrust, proven), _years(w, arch, life, proven))


def _put_ring(w: Working, arch: Arch) -> None:
    """Ring compression at the end of the design life and the wall stress that it may have."""
    state = max(arch.lasting(arch.given.design.life), key=lambda s: float(s.axial.max()))
    at = int(state.axial.argmax())
    known = tuple((f'k_"N{i}"', float(term.forces.axial[at]), "1") for i, term in enumerate(state.terms, 1))
    parts = " + ".join(f"{term.symbol} {k[0]}" for term, k in zip(state.terms, known, strict=True))
    w.put("N_m", f"L ({parts})", "N/m", "statics", f"greatest thrust of the free arch; {FORCES}", *known)
    w.put(
        "C_T",
        "max(u_T R, N_m)",
        "N/m",
        "hicks_2010, p. 287",
        "ring thrust: pressure times radius, not half the span; no less than the arch's",
    )
    w.put('sigma_"C"', "C_T/A", "Pa", "hicks_2010, Eq 11.37", "wall stress")
    w.put("r_g", "sqrt(I/A)", "m", "statics", "radius of gyration")
    w.put("D_r", "2 R/r_g", "1", "statics", "diameter over radius of gyration")
    w.look(
        "f_b",
        wall_strength_aisi(w["D_r"], arch.roof.yield_strength),
        "Pa",
        "aisi_handbook, ring compression",
        "ultimate wall stress of a ring held all round, three branches, not above the yield strength (from memory, "
        "unchecked); soil at 85 % density, so an upper bound under snow",
        "D_r",
        "F_y",
    )
    w.put("F_c", "f_b/n", "Pa", "hicks_2010, Eq 11.36", "factor of safety taken off")


def _cover_carries(w: Working, arch: Arch, milled: MilledStrength) -> bool:
    """Whether the cover as placed could carry the load at the end as an arch of its own, by a measured strength."""
    if milled.measured_strength is None or milled.unknown or arch.roof.cover <= 0:
        return False
    w.look(
        'sigma_"m"',
        cover_strength(milled),
        "Pa",
        "own_rule",
        "measured strength of the milled snow, not above the low end for well-bonded snow",
    )
    w.put('sigma_"a"', "N_a/h_c", "Pa", "statics", "stress in the cover as an arch of its own")
    w.put('sigma_"lim"', 'sigma_"m"/n_s', "Pa", "own_rule", "factor of safety on the strength of snow taken off")
    return (
        w.put('r_"co"', 'n_s sigma_"a"/sigma_"m"', "1", "own_rule", "share of its strength, factor of safety counted")
        <= 1
    )


def _relies(w: Working) -> str:
    """What an open verdict rests on: a strength not yet measured, or one that is not enough alone."""
    return RELIES_MEASURED if 'r_"co"' in w else RELIES


def _between(w: Working, question: str, key: str, proven: bool, lone: str, alone: Side, held: Side) -> Check:
    """The verdict between the two bounds; `lone` is what carries alone at the lower one."""
    symbols = (alone.demand, alone.limit, *alone.more, held.demand, held.limit)
    if alone.ratio <= 1 or held.ratio > 1:
        side = alone if alone.ratio <= 1 else held
        return check(
            question=question,
            demand=w[side.demand],
            limit=w[side.limit],
            unit=side.unit,
            key=key,
            ratio=side.ratio,
            at_least=side.at_least,
            working=w.upto(side.demand, side.limit, *side.more),
            caution=CAUTION,
            note=side.note,
            **NAMES,
        )
    if proven:
        cover = w['r_"co"'] > held.ratio
        return check(
            question=question,
            demand=w['sigma_"a"' if cover else held.demand],
            limit=w['sigma_"lim"' if cover else held.limit],
            unit="Pa" if cover else held.unit,
            key=key,
            ratio=max(held.ratio, w['r_"co"']),
            working=w.upto(*symbols, 'r_"co"', 'sigma_"lim"'),
            caution=CAUTION,
            note=STANDS + (COVER_NOTE if cover else held.note),
            **NAMES,
        )
    return not_checked(
        question=question,
        reason=f"{lone} alone {_relies(w)}",
        key=key,
        demand=w[held.demand],
        limit=w[held.limit],
        unit=held.unit,
        working=w.upto(*symbols),
        caution=CAUTION,
        **NAMES,
    )


def _shoulder(
    w: Working, arch: Arch, seat: Seat, strength: Strength, reaction: float, thrust: float, proven: bool
) -> tuple[Check, ...]:
    """Bearing at the end of the design life: on the plank, or on the whole bench once the cover has hardened."""
    width = arch.roof.plank.width
    eccentricity = seat.eccentricity(reaction, thrust)
    question, key = "Bearing of the shoulder at the end of the design life", "roof.bearing_life"
    if eccentricity >= width / 2:
        why = "the arch's load falls outside its plank"
        return (not_checked(question=question, reason=why, key=key, caution=CAUTION, **NAMES),)
    put_strength(w, seat, strength, "T")
    pressure = put_pressure(w, "T", eccentricity, width)
    limit = put_bearing(w, seat, "T", width, 'q_"bT"')
    w.put(
        "B_b",
        "max(B, b_b - b)",
        "m",
        "own_rule",
        "bench behind the plank's near side, on which the hardened cover stands",
    )
    spread = w.put('q_"sT"', 'V_"fT"/B_b', "Pa", "statics", "pressure on the whole bench")
    wide = put_bearing(w, seat, "T", seat.bench, 'q_"BT"')
    return (
        _between(
            w,
            question,
            key,
            proven,
            "the plank",
            Side('q_"pT"', 'q_"bT"', "Pa", share(pressure, limit), f"Safe bound: the plank alone carries all. {CREEP}"),
            Side(
                'q_"sT"',
                'q_"BT"',
                "Pa",
                share(spread, wide),
                f"Upper bound: the hardened cover stands on the whole bench. {CREEP}",
            ),
        ),
    )


def _years(w: Working, arch: Arch, life: Life, proven: bool) -> Check:
    """The year in which the first question fails, against the design life."""
    asked, design = "Years until the roof first fails", arch.given.design.life
    first = dict(life.first_failing)
    symbols: dict[str, str] = {}
    for i, name in enumerate((*ALONE, *SUPPORTED), 1):
        at = first[WORDS[name]]
        if not isinf(at):
            symbols[name] = f"t_{i}"
            w.look(
                f"t_{i}",
                at,
                "s",
                "statics",
                f"{WORDS[name]}: first passes its limit (steps of a year or less, straight "
                "lines between; laws as in the checks above)",
                "u_0",
                "v_0",
                "C_v",
                "g",
                "c_d",
                "a",
            )
    wanted = []
    for tag, names in (("t_a", ALONE), ("t_b", SUPPORTED)):
        own = [symbols[name] for name in names if name in symbols]
        if own:
            text = "lower bound: steel and planks alone" if tag == "t_a" else "upper bound: held by hardened snow"
            w.put(tag, f"min({', '.join(own)})" if len(own) > 1 else own[0], "s", "own_rule", text)
            wanted.append(tag)
    alone, held = min(life.alone, life.horizon), min(life.supported, life.horizon)
    span_text = f"Steel alone: {years_text(alone)}. With hardened snow at most {years_text(max(alone, held))}. "
    depth = (
        arch.roof.cover + arch.given.drift_factor * arch.given.accumulation * design / arch.given.density
    ) / arch.roof.span
    soil = load_coefficient_incomplete(depth, 0.19, 0.7) / depth if depth > 0 else 1.0
    note = span_text + (
        f"Looked {years_text(life.horizon)} ahead. The file's arching factor is {arch.given.design.arching_factor:g}; "
        f"the rule for soil beside a stiff conduit gives up to {soil:.2f} at this cover. Creep of walls and shoulders "
        "is not in it."
    )
    common = {"question": asked, "key": "roof.life", "caution": CAUTION, "working": w.upto(*wanted), **NAMES}
    sources = ("moser_buried_pipe",)
    if alone >= design or max(alone, held) < design:
        return check(
            demand=alone if alone >= design else max(alone, held),
            limit=design,
            unit="s",
            at_least=True,
            note=note,
            sources=sources,
            **common,
        )
    if proven:
        stands = max(alone, min(held, first[WORDS["cover_alone"]]))
        text = "until the cover as an arch of its own, or the upper bound, first passes its limit; no less than steel"
        w.look("t_s", stands, "s", "own_rule", text, "u_0", "v_0", "C_v", "g", "c_d", "a")
        common["working"] = w.upto(*wanted, "t_s")
        return check(
            demand=stands, limit=design, unit="s", at_least=True, note=STANDS + note, sources=sources, **common
        )
    lone = f"after {years_text(alone)}"
    return not_checked(
        reason=f"{lone}: steel {_relies(w)}. {span_text.strip()}",
        demand=alone,
        limit=design,
        unit="s",
        sources=sources,
        **common,
    )
