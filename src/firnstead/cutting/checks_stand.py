"""Does a cut stand while it is made: walls, overhang, bench under machines."""

from __future__ import annotations

from collections.abc import Sequence

from firnstead.core.results import Check, Step
from firnstead.core.units import G0
from firnstead.cutting.asking import Ground, Place, ask, bank_steps
from firnstead.cutting.plan import Plan
from firnstead.cutting.section import CutSection
from firnstead.cutting.spoil import bank_pressure, set_back_wanted
from firnstead.cutting.stability import overhang_strips, overhang_tension

EDGE = "Keep machines off the edge, and off an overhang altogether. Nobody below an edge that is being cut."
PEOPLE_AT_EDGE = 1000.0  # people and planks on the edge of a bench [N/m] (own rule)


def walls_stand(
    place: Place, grounds: Sequence[Ground], plan: Plan, edge_pressure: float, factor: float, thrown_density: float
) -> Check:
    """The upright wall while it is cut, a machine at its edge: stress against strength at the worst depth."""
    depth = plan.section.passes[-1].bottom
    near = plan.bank.set_back < set_back_wanted(depth) - 1e-6
    bank = bank_pressure(plan.bank.height, thrown_density) if near else 0.0
    worst = max(grounds, key=lambda g: (g.overburden + edge_pressure + bank) / g.compressive_low)
    stress, limit = worst.overburden + edge_pressure + bank, worst.compressive_low / factor
    if near:
        text = "the bank stands nearer to the edge than the cut is deep: its whole pressure is counted"
        q = Step(
            'q_"b"',
            "rho g h",
            (("rho", thrown_density, "kg/m3"), ("g", G0, "m/s2"), ("h", plan.bank.height, "m")),
            bank,
            "Pa",
            "statics",
            text,
        )
    else:
        q = Step(
            'q_"b"',
            "",
            (("s", plan.bank.set_back, "m"), ("d", depth, "m")),
            0.0,
            "Pa",
            "own_rule",
            "the bank's set-back s is the depth d or more: it does not load the wall",
        )
    steps = (
        Step(
            "p",
            "",
            (("z", worst.depth, "m"),),
            worst.overburden,
            "Pa",
            "statics",
            "weight of the snow above the depth z at which the wall is used most, from the snow column",
        ),
        *((bank_steps(plan)[0], bank_steps(plan)[1]) if near else ()),
        q,
        Step(
            "sigma",
            'p + q_"m" + q_"b"',
            (("p", worst.overburden, "Pa"), ('q_"m"', edge_pressure, "Pa"), ('q_"b"', bank, "Pa")),
            stress,
            "Pa",
            "textbook_unchecked",
            "upright stress in the wall with a machine's ground pressure at the edge, not spread (lower bound)",
        ),
        Step(
            "sigma_c",
            "",
            (("rho", worst.density, "kg/m3"),),
            worst.compressive_low,
            "Pa",
            "mellor_1975",
            "low end of the compressive strength at that depth, from the snow column",
        ),
        Step(
            "sigma_a",
            "sigma_c/F",
            (("sigma_c", worst.compressive_low, "Pa"), ("F", factor, "1")),
            limit,
            "Pa",
            "own_rule",
            "allowable stress with the design's factor for snow",
        ),
    )
    return ask(
        place,
        "wall_stands",
        "Wall while it is cut, machine at the edge",
        stress,
        limit,
        "Pa",
        steps,
        caution=EDGE,
        note="short time, dry snow; sun-warmed faces are weaker: cut at night, hang dark sheets over them",
    )


def ledge(place: Place, section: CutSection, top: Ground, mean_density: float, factor: float) -> Check | None:
    """The overhang at the stage of the undercut at which it is used most; None for a straight cut."""
    gamma = mean_density * G0
    stages = [i for i, p in enumerate(section.passes) if p.part == "undercut"]
    hung = [(overhang_strips(section.passes, i), i) for i in stages]
    hung = [(strips, i) for strips, i in hung if strips]
    if not hung:
        return None
    strips, stage = max(hung, key=lambda h: overhang_tension(h[0], gamma, PEOPLE_AT_EDGE))
    tension = overhang_tension(strips, gamma, PEOPLE_AT_EDGE)
    reach, height = max(o for o, _ in strips), sum(t for _, t in strips)
    inputs = [("gamma", gamma, "N/m3"), ("P", PEOPLE_AT_EDGE, "N/m"), ("u", reach, "m")]
    for n, (o, t) in enumerate(strips, 1):
        inputs += [(f"o_{n}", o, "m"), (f"t_{n}", t, "m")]
    sums = " + ".join(f"o_{n}^2 t_{n}" for n in range(1, len(strips) + 1))
    moment = gamma * sum(o * o * t for o, t in strips) / 2 + PEOPLE_AT_EDGE * reach
    limit = top.tensile_low / factor
    steps = (
        Step(
            "gamma",
            "rho g",
            (("rho", mean_density, "kg/m3"), ("g", G0, "m/s2")),
            gamma,
            "N/m3",
            "statics",
            "weight of the snow, mean over the cut",
        ),
        Step(
            "M",
            f"gamma ({sums})/2 + P u",
            tuple(inputs),
            moment,
            "N m/m",
            "statics",
            f"moment at the root after pass {stage + 1}: layers of thickness t hang out by o; people and planks P at "
            "the tip (own rule)",
        ),
        Step(
            "sigma",
            "6 M/h^2",
            (("M", moment, "N m/m"), ("h", height, "m")),
            tension,
            "Pa",
            "statics",
            "bending tension over the height h of the root, simple beam",
        ),
        Step(
            "sigma_t",
            "",
            (("rho", top.density, "kg/m3"),),
            top.tensile_low,
            "Pa",
            "jamieson_johnston_1990",
            "low end of the tensile strength at the top of the root, from the snow column",
        ),
        Step(
            "sigma_a",
            "sigma_t/F",
            (("sigma_t", top.tensile_low, "Pa"), ("F", factor, "1")),
            limit,
            "Pa",
            "own_rule",
            "allowable tension with the design's factor for snow",
        ),
    )
    return ask(
        place,
        "ledge",
        "Overhang over the undercut while it is cut",
        tension,
        limit,
        "Pa",
        steps,
        caution=EDGE,
        note="no machine on the overhang; no crack from above; short time; strength is that of seasonal snow, "
        "a lower bound for polar firn",
    )


def bench_bearing(place: Place, bench: Ground, pressure: float, factor: float) -> Check:
    """The bench under a machine's tracks at the very edge, before the cut below it is widened."""
    limit = bench.compressive_low / factor
    steps = (
        Step(
            "sigma_c",
            "",
            (("rho", bench.density, "kg/m3"),),
            bench.compressive_low,
            "Pa",
            "mellor_1975",
            "low end of the compressive strength at the bench, from the snow column",
        ),
        Step(
            "q_u",
            "2 c",
            (("c", bench.compressive_low / 2, "Pa"),),
            bench.compressive_low,
            "Pa",
            "textbook_unchecked",
            "bearing at the edge of an upright face: twice the cohesion c, which is half the compressive strength",
        ),
        Step(
            "q_a",
            "q_u/F",
            (("q_u", bench.compressive_low, "Pa"), ("F", factor, "1")),
            limit,
            "Pa",
            "own_rule",
            "allowable pressure with the design's factor for snow",
        ),
    )
    return ask(
        place,
        "bench_bearing",
        "Bench under a machine's tracks at the edge",
        pressure,
        limit,
        "Pa",
        steps,
        caution=EDGE,
        note="mean pressure under tracks; the front of a working machine presses harder",
    )
