"""The workings of the seat: plank, bearing, outward thrust, ledge over the undercut."""

from __future__ import annotations

from firnstead.core.steps import Working
from firnstead.core.units import G0
from firnstead.roof.seat import FAR_FROM_EDGE, Ledge
from firnstead.roof.study_seat import Seat, Strength


def put_seat(w: Working, seat: Seat, strength: Strength) -> None:
    """Where foot and plank lie, and the strength of the shoulder as placed."""
    given, plank = seat.arch.given, seat.arch.roof.plank
    for symbol, value, unit in (
        ("b_t", given.section.top_width, "m"),
        ("b", plank.setback, "m"),
        ("B", plank.width, "m"),
        ("u", seat.undercut, "m"),
        ("t_p", plank.thickness, "m"),
        ("t_k", seat.keeper, "m"),
        ("mu", given.design.friction, "1"),
        ("F_s", given.design.overturning_factor, "1"),
        ("d_b", given.section.bench_depth, "m"),
        ("b_b", given.section.bench_width, "m"),
    ):
        w.given(symbol, value, unit)
    w.put("x_f", "(L - b_t)/2", "m", "statics", "foot of the arch from the edge of the cut")
    w.put("e_0", "x_f - b - B/2", "m", "statics", "foot from the middle of the plank, outward positive")
    put_strength(w, seat, strength, "0")
    w.put("b_e", "b - u", "m", "own_rule", "setback counted from the widest part of the cut")
    w.look(
        "psi",
        seat.lean,
        "1",
        "statics",
        "lean of the undercut face seen from the plank, the largest atan((s - b)/t) of its steps",
        "b",
        "u",
    )


def put_strength(w: Working, seat: Seat, strength: Strength, tag: str) -> None:
    """Compressive strength and cohesion of the shoulder's snow, as placed (0) or at the end of the design life (T)."""
    how = (
        ""
        if tag == "0"
        else (
            f"; buried by the site's accumulation it has become what lies at {strength.depth:.3g} m today (Sorge's law)"
        )
    )
    w.look(
        f'sigma_"c{tag}"',
        strength.compressive,
        "Pa",
        "mellor_1975, range of the compilation",
        f"low end of the strength of the shoulder's snow within a plank's width below the bench{how}",
        "d_b",
    )
    w.put(f"c_{tag}", f'sigma_"c{tag}"/2', "Pa", "textbook_unchecked", "cohesion")


def put_pressure(w: Working, tag: str, eccentricity: float, width: float) -> float:
    """Greatest pressure under the plank: symbol ``q_"ptag"``."""
    v, h, e = f'V_"f{tag}"', f'H_"f{tag}"', f'e_"p{tag}"'
    w.put(
        e,
        f"max(abs(e_0), abs(e_0 + {h} t_p/{v}))",
        "m",
        "statics",
        "load from the plank's middle: as set, or shifted by the thrust",
    )
    inside = eccentricity <= width / 6
    formula = f"{v}/B (1 + 6 {e}/B)" if inside else f"2 {v}/(3 (B/2 - {e}))"
    text = "greatest pressure under the plank" + ("" if inside else ", which gapes")
    return w.put(f'q_"p{tag}"', formula, "Pa", "statics", text)


def put_bearing(w: Working, seat: Seat, tag: str, width: float, name: str) -> float:
    """Pressure that the shoulder may take."""
    if seat.setback >= FAR_FROM_EDGE * width:
        formula, text = f"(2 + pi) c_{tag}/n_s", "strip on level snow: the setback is more than 1.57 widths"
    elif seat.setback >= 0:
        formula, text = f"2 c_{tag}/n_s", "strip near an upright face (safe bound for less than 1.57 widths of setback)"
    else:
        formula, text = f"2 c_{tag} max(1 - psi, 0)/n_s", "strip over a face that leans over the cut"
    return w.put(
        name, formula, "Pa", "textbook_unchecked, Prandtl and slope term", f"{text}; judged by b_e = {w['b_e']:.3g} m"
    )


def put_thrust_limit(w: Working) -> float:
    """Outward thrust that the seat resists, as placed."""
    return w.put(
        "R_h",
        'mu V_"f0"/F_s + t_k sigma_"c0"/n_s',
        "N/m",
        "own_rule",
        "friction under the plank and bearing of its keeper or edge on the snow behind",
    )


def put_ledge(w: Working, seat: Seat, ledge: Ledge, strength: Strength, tag: str) -> None:
    """Tension and shear at one step of the undercut: symbols ``sigma_tag`` and ``tau_tag``."""
    s, t = f'x_"{tag}"', f't_"{tag}"'
    w.given("gamma", strength.density * G0, "N/m3")
    w.look(s, ledge.position, "m", "statics", "worst step of the undercut: its distance from the edge", "u")
    w.look(t, ledge.thickness, "m", "statics", "thickness of snow above that step, bench to roof of the step", "d_b")
    w.put(f'w_"{tag}"', f"min(max({s} - b, 0), B)", "m", "statics", "part of the plank in front of the plane")
    w.put(f'V_"{tag}"', f'V_"f0" w_"{tag}"/B', "N/m", "statics", "reaction on that part")
    w.put(
        f'H_"{tag}"',
        f'H_"f0" w_"{tag}"/(B F_s)',
        "N/m",
        "own_rule",
        "thrust on it, which presses the ledge back; factor taken off",
    )
    w.put(f'p_"{tag}"', "rho_p g h_s", "Pa", "statics", "cover on the shoulder outside the foot")
    w.put(
        f'M_"{tag}"',
        f'gamma {t} {s}^2/2 + V_"{tag}" ({s} - b - w_"{tag}"/2) + p_"{tag}" max({s} - x_f, 0)^2/2',
        "N m/m",
        "statics",
        "bending at the upright plane",
    )
    w.put(
        f'sigma_"{tag}"',
        f'max(6 M_"{tag}"/{t}^2 - 4 H_"{tag}"/{t}, 0)',
        "Pa",
        "statics",
        "tension at the top of the plane",
    )
    w.put(
        f'tau_"{tag}"',
        f'(gamma {t} {s} + V_"{tag}" + p_"{tag}" max({s} - x_f, 0))/{t}',
        "Pa",
        "statics",
        "mean shear at the plane",
    )


def put_plank(w: Working) -> None:
    """Bending and shear of the plank beyond the foot."""
    w.put("a_p", "B/2 + abs(e_0)", "m", "statics", "longer part of the plank beyond the foot")
    w.put("M_p", 'q_"p0" a_p^2/2', "N m/m", "statics", "bending under the greatest pressure, taken as even")
    w.put("sigma_p", "6 M_p/t_p^2", "Pa", "statics", "bending stress of the plank")
    w.put("tau_p", '1.5 q_"p0" a_p/t_p', "Pa", "statics", "shear stress of the plank")
