"""The checks of the seat of an arch as placed: foot on the plank, bearing, outward thrust, ledge, plank."""

from __future__ import annotations

from math import isinf

from firnstead.core.results import Check, check, not_checked
from firnstead.core.steps import Working
from firnstead.roof._work_arch import put_reactions
from firnstead.roof._work_seat import (
    put_bearing,
    put_ledge,
    put_plank,
    put_pressure,
    put_seat,
    put_thrust_limit,
)
from firnstead.roof.study_arch import Arch
from firnstead.roof.study_arch_checks import NAMES
from firnstead.roof.study_seat import Seat, Strength

EDGE = "Nobody on or below the shoulder while it is loaded for the first time."


def seat_checks(w: Working, arch: Arch, seat: Seat, strength: Strength) -> tuple[Check, ...]:
    """Foot on the plank, bearing, thrust, ledge and plank, all under the cover as placed."""
    roof, names = arch.roof, NAMES
    reaction, thrust = put_reactions(w, arch, "0")
    put_seat(w, seat, strength)
    eccentricity = seat.eccentricity(reaction, thrust)
    half = w.put("e_1", "B/2", "m", "statics", "edge of the plank from its middle")
    found = [
        check(
            question="Foot of the arch on its plank",
            demand=abs(w["e_0"]),
            limit=half,
            unit="m",
            key="roof.seat_position",
            working=w.upto("e_0", "e_1"),
            **names,
        )
    ]
    found.append(
        check(
            question="Outward thrust at the seat as placed",
            demand=thrust,
            limit=put_thrust_limit(w),
            unit="N/m",
            key="roof.seat_thrust",
            working=w.upto('H_"f0"', "R_h"),
            caution=EDGE,
            note="The arch pushes its feet away from the trench. Keeper or plank edge must bear on firm snow along its "
            "whole length. Friction on snow and bearing are added by own rule.",
            **names,
        )
    )
    if eccentricity >= roof.plank.width / 2:
        why = "the arch's load falls outside its plank"
        return (
            *found,
            *(
                not_checked(question=question, reason=why, key=f"roof.{key}", caution=EDGE, **names)
                for key, question in (
                    ("seat_bearing", "Bearing of the shoulder as placed"),
                    ("plank_bending", "Plank in bending"),
                )
            ),
        )
    pressure = put_pressure(w, "0", eccentricity, roof.plank.width)
    limit = put_bearing(w, seat, "0", roof.plank.width, 'q_"b0"')
    found.append(
        check(
            question="Bearing of the shoulder as placed",
            demand=pressure,
            limit=limit,
            unit="Pa",
            key="roof.seat_bearing",
            working=w.upto('q_"p0"', 'q_"b0"'),
            caution=EDGE,
            note="Short-term strength, low end of its band. Settlement by creep, which usually governs, is not in it.",
            **names,
        )
    )
    return (*found, *_ledge_checks(w, arch, seat, strength, reaction, thrust), *_plank_checks(w, arch, seat))


def _ledge_checks(
    w: Working, arch: Arch, seat: Seat, strength: Strength, reaction: float, thrust: float
) -> tuple[Check, ...]:
    ledges = seat.ledges(arch.roof.plank.width, reaction, thrust, strength)
    if not ledges:
        return ()
    w.look(
        'sigma_"ten"',
        strength.tensile,
        "Pa",
        "jamieson_johnston_1990, faceted grains",
        "low end of the tensile strength at the shoulder; seasonal snow, a lower bound for polar firn",
        "d_b",
    )
    w.put('sigma_"lim"', 'sigma_"ten"/n_s', "Pa", "own_rule", "factor of safety taken off")
    w.put('tau_"lim"', "c_0/n_s", "Pa", "own_rule", "cohesion, factor of safety taken off")
    rows = (
        (
            "ledge_tension",
            "Tension in the shoulder over the undercut",
            "lt",
            'sigma_"lt"',
            'sigma_"lim"',
            max(ledges, key=lambda ledge: ledge.tension),
        ),
        (
            "ledge_shear",
            "Shear in the shoulder over the undercut",
            "ls",
            'tau_"ls"',
            'tau_"lim"',
            max(ledges, key=lambda ledge: ledge.shear),
        ),
    )
    found = []
    for key, question, tag, demand, limit, ledge in rows:
        if isinf(ledge.tension):
            found.append(
                not_checked(
                    question=question,
                    reason="the undercut starts at the bench and leaves no ledge",
                    key=f"roof.{key}",
                    caution=EDGE,
                    **NAMES,
                )
            )
            continue
        put_ledge(w, seat, ledge, strength, tag)
        found.append(
            check(
                question=question,
                demand=w[demand],
                limit=w[limit],
                unit="Pa",
                key=f"roof.{key}",
                caution=EDGE,
                working=w.upto(demand, limit),
                note="Simple beam with the miller's thickest pass as step; a crack from above "
                "is not in it. The arch's thrust presses the ledge back: until the arch stands see the cutting checks.",
                **NAMES,
            )
        )
    return tuple(found)


def _plank_checks(w: Working, arch: Arch, seat: Seat) -> tuple[Check, ...]:
    plank = arch.roof.plank
    put_plank(w)
    thin = (
        ""
        if seat.overhang <= 4 * plank.thickness
        else ("The plank reaches more than four thicknesses beyond the foot: it will not spread the load evenly. ")
    )
    note = thin + "Timber must span away from the edge; a board along the trench bends across its grain and splits."
    return (
        check(
            question="Plank in bending",
            demand=w["sigma_p"],
            limit=plank.bending_strength,
            unit="Pa",
            key="roof.plank_bending",
            caution=EDGE,
            working=w.upto("sigma_p"),
            sources=("nds_supplement",),
            note=note,
            **NAMES,
        ),
        check(
            question="Plank in shear",
            demand=w["tau_p"],
            limit=plank.shear_strength,
            unit="Pa",
            key="roof.plank_shear",
            caution=EDGE,
            working=w.upto("tau_p"),
            sources=("nds_supplement",),
            note=note,
            **NAMES,
        ),
    )
