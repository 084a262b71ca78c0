"""Can a cut be made and its snow be thrown: reach, throw, room for the bank, snow for the cover."""

from __future__ import annotations

from firnstead.core.results import Check, Step
from firnstead.cutting.asking import Place, ask, bank_steps
from firnstead.cutting.casting import EDGE_CLEARANCE, available_lift
from firnstead.cutting.plan import Cutter, Plan
from firnstead.cutting.section import CutSection


def reach(place: Place, section: CutSection, cutter: Cutter) -> Check | None:
    """Whether the miller's sideways reach makes the undercut; None for a straight cut."""
    if section.undercut_asked <= 0:
        return None
    count = round(section.undercut_largest / cutter.reach) if cutter.reach > 0 else 0
    steps = (
        Step(
            "h",
            "",
            (("z", section.undercut_from, "m"),),
            section.passes[-1].bottom - section.undercut_from,
            "m",
            "statics",
            "height from where the widening starts down to the floor",
        ),
        Step(
            "n",
            "",
            (("d", cutter.pass_depth, "m"),),
            float(count),
            "1",
            "own_rule",
            "most passes within that height, none thinner than a quarter of a full pass d",
        ),
        Step(
            'u_"max"',
            "n r",
            (("n", float(count), "1"), ("r", cutter.reach, "m")),
            section.undercut_largest,
            "m",
            "statics",
            "every lower pass steps outward by no more than the reach r",
        ),
    )
    short = section.undercut_asked > section.undercut_largest
    cure = (
        (
            f"With this miller the floor can be {section.floor_width:.2f} m wide. Start the undercut higher, ask for a "
            "narrower floor, or take a miller with more reach"
        )
        if short
        else ""
    )
    return ask(
        place,
        "reach",
        "Undercut within the miller's sideways reach",
        section.undercut_asked,
        section.undercut_largest,
        "m",
        steps,
        note=cure,
    )


def cast_height(place: Place, plan: Plan, cutter: Cutter, millers: int) -> Check:
    """Whether the snow of the deepest pass comes on to the bank, with one throw or with a second miller's help."""
    last, throws = plan.rows[-1], max(row.throws for row in plan.rows)
    far = available_lift(plan.bank.distance, cutter.cast_height, cutter.cast_distance)
    helpers = 1 if throws > 1 and millers > 1 else 0
    limit = far + helpers * cutter.cast_height
    depth = plan.section.passes[-1].bottom
    steps = [
        *bank_steps(plan),
        Step(
            "x",
            "e + s + b/2",
            (
                ("e", plan.bank.distance - plan.bank.set_back - plan.bank.base / 2, "m"),
                ("s", plan.bank.set_back, "m"),
                ("b", plan.bank.base, "m"),
            ),
            plan.bank.distance,
            "m",
            "statics",
            "from the miller to the middle of the bank: e to the edge of the bench, set-back s (the cut's depth, less "
            "where ground or throw ask for it), half the bank's foot b",
        ),
        Step(
            "y",
            "d + max(h/3, c)",
            (("d", depth, "m"), ("h", plan.bank.height, "m"), ("c", EDGE_CLEARANCE, "m")),
            last.lift,
            "m",
            "own_rule",
            "to the mean height of a bank of height h, and clear over the edge by c",
        ),
        Step(
            "y_1",
            "H (1 - (x/R)^2)",
            (("H", cutter.cast_height, "m"), ("x", plan.bank.distance, "m"), ("R", cutter.cast_distance, "m")),
            far,
            "m",
            "own_rule",
            "height that one throw gains at the distance x; exact without drag where R = 2 H",
        )
        if plan.bank.distance < cutter.cast_distance
        else Step(
            "y_1",
            "",
            (("x", plan.bank.distance, "m"), ("R", cutter.cast_distance, "m")),
            0.0,
            "m",
            "own_rule",
            "the bank lies beyond the greatest distance R of a throw",
        ),
    ]
    if helpers:
        steps.append(
            Step(
                'y_"max"',
                "y_1 + H",
                (("y_1", far, "m"), ("H", cutter.cast_height, "m")),
                limit,
                "m",
                "own_rule",
                "a second miller throws again what the lower one throws up to it",
            )
        )
    note = ""
    if helpers:
        share = plan.thrown_twice / plan.mass if plan.mass else 0.0
        note = f"a second miller is needed: {share:.0%} of the snow is thrown twice, and its hours are counted"
    elif last.lift > limit:
        note = "A second miller, a shallower cut, or a bank nearer to the edge"
    return ask(
        place,
        "cast_height",
        "Throw from the deepest pass on to the bank",
        last.lift,
        limit,
        "m",
        steps,
        note=note,
        caution="Nobody within the throw of a miller.",
    )


def spoil_fits(place: Place, plan: Plan, keep_clear: float) -> Check:
    """Whether the bank of thrown snow fits between this cut and its neighbours."""
    bank = plan.bank
    least = bank.room_needed - bank.base
    steps = (
        *bank_steps(plan),
        Step(
            "w",
            "s + b",
            (("s", least, "m"), ("b", bank.base, "m")),
            bank.room_needed,
            "m",
            "own_rule",
            "least set-back s (a relief cut within it) and foot b of the bank",
        ),
        Step(
            "l",
            "",
            (("k", keep_clear, "m"),),
            bank.room,
            "m",
            "statics",
            "free ground from the bench to the nearest neighbour, less a strip k that stays clear there",
        ),
    )
    word = "both sides" if bank.sides == 2 else "one side only"
    return ask(
        place,
        "spoil_fits",
        "Room for the bank of thrown snow",
        bank.room_needed,
        bank.room,
        "m",
        steps,
        note=f"snow thrown to {word}; a neighbour's bank must be used up or spread before",
    )


def cover_snow(place: Place, thrown: float, wanted: float, area: float, length: float, placed: float) -> Check:
    """Whether the cut gives enough milled snow for the roof's cover."""
    steps = (
        Step(
            "A",
            "",
            (),
            area,
            "m2",
            "statics",
            "section of the cover as placed: from bench to bench up to its top line, less the segment under the arch",
        ),
        Step(
            "m",
            "A l rho",
            (("A", area, "m2"), ("l", length, "m"), ("rho", placed, "kg/m3")),
            wanted,
            "kg",
            "statics",
            "snow placed over the length l at the placed density",
        ),
    )
    note = "end walls and pads take more; what is left is spread or hauled away"
    return ask(place, "cover_snow", "Milled snow for the cover", wanted, thrown, "kg", steps, note=note)
