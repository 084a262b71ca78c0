"""The workings of an arch: shape, sheet, loads, critical load, and the forces of a load pattern at its worst place."""

from __future__ import annotations

from firnstead.core.steps import Working
from firnstead.core.units import G0, YEAR
from firnstead.roof.buckling import effective_length_factor, parabola_factor, segment_factor
from firnstead.roof.sheet import cross_check
from firnstead.roof.stress import STEEL_DENSITY, STEEL_MODULUS
from firnstead.roof.study_arch import Arch, State
from firnstead.roof.thrust import ArchForces

FORCES = "two-hinged circular arch of constant stiffness: numbers k from the force method for span 1 and load 1"


def arch_working(arch: Arch) -> Working:
    """Shape, sheet, loads as placed and critical load."""
    w, roof, given = Working(), arch.roof, arch.given
    for symbol, value, unit in (
        ("L", roof.span, "m"),
        ("f", arch.ratio * roof.span, "m"),
        ("h_c", roof.cover, "m"),
        ("rho_p", given.density, "kg/m3"),
        ("g", G0, "m/s2"),
        ("E", STEEL_MODULUS, "Pa"),
        ("rho_s", STEEL_DENSITY, "kg/m3"),
        ("F_y", roof.yield_strength, "Pa"),
        ("n", given.design.steel_factor, "1"),
        ("n_b", given.design.buckling_factor, "1"),
        ("n_s", given.design.snow_factor, "1"),
        ("C_v", given.design.arching_factor, "1"),
        ("c_d", given.drift_factor, "1"),
        ("a", given.accumulation, "kg/m2/s"),
        ("T", given.design.life, "s"),
        ("l", roof.lap, "m"),
        ("b_s", roof.sheet_width, "m"),
        ("d", arch.sheet.depth, "m"),
        ("t", arch.sheet.base, "m"),
    ):
        w.given(symbol, value, unit)
    w.put("R", "(L^2/4 + f^2)/(2 f)", "m", "statics", "radius of the arch")
    w.look("alpha", arch.half_angle, "1", "statics", "half the central angle, alpha = 2 atan(2 f/L)", "f", "L")
    w.put("s", "2 alpha R", "m", "statics", "length round the arch")
    _sheet(w, arch)
    w.put("w_s", "A rho_s g s/L (1 + l/b_s)", "Pa", "statics", "weight of the sheets on plan")
    if roof.haunch_cover is None:
        w.put("h_s", "f + h_c", "m", "statics", "cover at the feet, levelled to the crown's cover")
    else:
        w.given("h_s", roof.haunch_cover, "m")
    w.put("q_c", "rho_p g h_c", "Pa", "statics", "even part of the cover")
    w.put("q_h", "rho_p g (h_s - h_c)", "Pa", "statics", "wedges of cover over the haunches, at the feet")
    w.put("u_0", "C_v q_c + w_s", "Pa", "statics", "even load once the cover lies, arching factor counted")
    w.put("v_0", "C_v q_h", "Pa", "statics", "wedges at the feet, arching factor counted")
    w.put("u_T", "u_0 + C_v g c_d a T", "Pa", "statics", "even load at the end of the design life")
    _critical(w, arch)
    return w


def _sheet(w: Working, arch: Arch) -> None:
    roof, of = arch.roof, arch.sheet
    found = cross_check(roof.profile, roof.gauge)
    differ = (
        ""
        if found.agrees
        else (
            f"; geometry differs from the table by {100 * found.area_difference:.1f} % in area and "
            f"{100 * found.inertia_difference:.1f} % in inertia"
        )
    )
    name = f"{roof.profile}, {roof.gauge} gauge: the lower of table and geometry of the corrugation{differ}"
    w.look("A", found.used.area, "m2/m", "aisi_handbook, section property tables", f"area of steel, {name} ({of.mark})")
    w.look("I", found.used.inertia, "m4/m", "aisi_handbook, section property tables", f"moment of inertia, {name}")
    w.put("S", "2 I/(d + t)", "m3/m", "statics", "section modulus; base metal t, not the specified thickness")


def _critical(w: Working, arch: Arch) -> None:
    """Critical load by four laws, the lowest, and its thrust."""
    full = arch.full
    w.look(
        "gamma_2",
        parabola_factor(arch.ratio),
        "1",
        "timoshenko_gere_1961, ch. 7",
        "parabola, even load on plan, two hinges; lower of two columns",
        "f",
        "L",
    )
    w.look(
        "gamma_3",
        segment_factor(arch.ratio),
        "1",
        "statics",
        "circular segment, even load on plan, two hinges; frame eigenvalue",
        "f",
        "L",
    )
    w.look(
        "k_L", effective_length_factor(arch.ratio), "1", "aashto_lrfd, 4.5.3.2.2c", "effective length factor", "f", "L"
    )
    w.look(
        "k_q",
        float(full.axial[full.axial.size // 4]),
        "1",
        "statics",
        f"thrust at the quarter point; {FORCES}",
        "f",
        "L",
    )
    w.look("k_H", full.horizontal, "1", "statics", f"horizontal thrust under an even load; {FORCES}", "f", "L")
    w.put("q_1", "E I/R^3 (pi^2/alpha^2 - 1)", "Pa", "timoshenko_gere_1961, ch. 7", "critical load, normal pressure")
    w.put("q_2", "gamma_2 E I/L^3", "Pa", "timoshenko_gere_1961, ch. 7", "critical load, parabola")
    w.put("q_3", "gamma_3 E I/L^3", "Pa", "statics", "critical load, circular segment")
    w.put(
        "q_4",
        "pi^2 E I/(k_L alpha R)^2/(k_q L)",
        "Pa",
        "aashto_lrfd, 4.5.3.2.2c",
        "critical load, strut of effective length",
    )
    w.put('q_"cr"', "min(q_1, q_2, q_3, q_4)", "Pa", "own_rule", "the lowest: no support from the sides")
    w.put('H_"cr"', 'k_H q_"cr" L', "N/m", "statics", "horizontal thrust at the critical load")


def put_state(w: Working, state: State, tag: str, what: str) -> float:
    """Forces, stresses and factor against yield at the worst place; gives the factor, symbol ``lambda_tag``."""
    at = state.worst
    terms = [term for term in state.terms if term.pressure != 0] or [state.terms[0]]
    place = f"{what}, at {terms[0].forces.position[at]:.3g} of the span"
    loads = "; ".join(f"{term.symbol}: {term.what}" for term in terms)

    def sum_of(force: str, pick: object, unit: str, scale: str, text: str) -> None:
        known, parts = [], []
        for i, term in enumerate(terms, 1):
            name = f'k_"{force}{tag}{i}"'
            known.append((name, _value(term.forces, str(pick), at), "1"))
            parts.append(f"{term.symbol} {name}")
        w.put(f"{force}_{tag}", f"{scale} ({' + '.join(parts)})", unit, "statics", text, *known)

    sum_of("H", "horizontal", "N/m", "L", f"horizontal thrust, {what} ({loads}); {FORCES}")
    sum_of("N", "axial", "N/m", "L", f"thrust, {place}")
    sum_of("M", "moment", "N m/m", "L^2", f"bending, {place}")
    w.put(f'sigma_"N{tag}"', f"max(N_{tag}, 0)/A", "Pa", "statics", "stress of the thrust")
    w.put(f'sigma_"M{tag}"', f"abs(M_{tag})/S", "Pa", "statics", "first-order bending stress")
    w.put(f"r_{tag}", f'max(H_{tag}, 0)/H_"cr"', "1", "statics", "share of the critical thrust")
    w.put(f"B_{tag}", f'sigma_"N{tag}" + sigma_"M{tag}" + F_y r_{tag}', "Pa", "statics", "")
    return w.put(
        f"lambda_{tag}",
        f'2 F_y/(B_{tag} + sqrt(max(B_{tag}^2 - 4 sigma_"N{tag}" r_{tag} F_y, 0)))',
        "1",
        "textbook_unchecked, second-order amplifier",
        "factor on the loads at which the sheet yields: lambda sigma_N + lambda sigma_M/(1 - lambda r) = F_y",
    )


def _value(forces: ArchForces, pick: str, at: int) -> float:
    found = getattr(forces, pick)
    return float(found if pick == "horizontal" else found[at])


def put_one_sided(w: Working, arch: Arch) -> None:
    """Loads of the moment of covering at which one side leads."""
    if arch.roof.one_side_cover is None:
        w.put("h_l", "h_s", "m", "statics", "one side leads by the whole cover")
    else:
        w.given("h_l", arch.roof.one_side_cover, "m")
    w.put("u_1", "rho_p g min(h_l, h_c)", "Pa", "statics", "even part of what one side leads by")
    w.put("v_1", "rho_p g (min(h_l, h_s) - min(h_l, h_c))", "Pa", "statics", "its wedge at the foot")
    w.put("u_2", "rho_p g (h_c - min(h_l, h_c))", "Pa", "statics", "even part that lies on both sides")
    w.put("v_2", "rho_p g (h_s - h_c - min(h_l, h_s) + min(h_l, h_c))", "Pa", "statics", "its wedges at the feet")


def put_reactions(w: Working, arch: Arch, tag: str) -> tuple[float, float]:
    """Vertical reaction and outward thrust at one foot under the whole cover, as placed (0) or at the end (T)."""
    full, wedges = arch.full, arch.wedges
    w.put(
        f'V_"f{tag}"',
        f'L (u_{tag} k_"Vu" + v_0 k_"Vw")',
        "N/m",
        "statics",
        f"vertical reaction of one foot; {FORCES}",
        ('k_"Vu"', full.left, "1"),
        ('k_"Vw"', wedges.left, "1"),
    )
    w.put(
        f'H_"f{tag}"',
        f'L (u_{tag} k_H + v_0 k_"Hw")',
        "N/m",
        "statics",
        f"outward thrust at the foot; {FORCES}",
        ('k_"Hw"', wedges.horizontal, "1"),
    )
    return w[f'V_"f{tag}"'], w[f'H_"f{tag}"']


def years_text(time: float) -> str:
    """A time in years, for texts."""
    return f"{time / YEAR:.1f} years"
