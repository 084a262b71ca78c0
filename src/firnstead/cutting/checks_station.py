"""The questions about millers and season, and what the trade would find plausible."""

from __future__ import annotations

from firnstead.core.results import Check, Step
from firnstead.core.units import FT
from firnstead.cutting.altitude import RULES, steepest_and_flattest
from firnstead.cutting.asking import Place, ask
from firnstead.cutting.casting import WIDE_CUT
from firnstead.cutting.plan import Cutter, Plan

LARGEST_OUTPUT = 1200 * 27 * FT**3 / 3600  # 1,200 cubic yards an hour, quoted for the largest millers [m3/s]
LONGEST_SHIFT = 14.0  # shifts run 12, at times 14 hours [h/day]
ORDER = "common practice (no source): an order of magnitude, not a limit"


def season_hours(cutter: Cutter, needed: float, available: float, days: float, share: float, hours: float) -> Check:
    """Miller hours wanted against the hours of the season."""
    steps = (
        Step(
            "t",
            "",
            (),
            needed,
            "h",
            "own_rule",
            "cutting, turning, moving, relief cuts and throwing again, summed over the places",
        ),
        Step(
            "a",
            "D w h n",
            (("D", days, "day"), ("w", share, "1"), ("h", hours, "h/day"), ("n", float(cutter.count), "1")),
            available,
            "h",
            "statics",
            "days of the season, share fit for work, hours a day that a machine really cuts, machines of the kind",
        ),
    )
    return ask(
        Place("", f'Miller "{cutter.name}"'),
        "season_hours",
        "Miller hours in the season",
        needed,
        available,
        "h",
        steps,
        note="cuts only; the order of work and the weather decide whether it is finished in time",
    )


def altitude(cutter: Cutter, height: float) -> Check:
    """Whether the power loss of the file is not rosier than every published rule."""
    low, high = steepest_and_flattest(height)
    steps = (
        Step(
            "s",
            "1 - k h",
            (("k", (1 - cutter.power_share) / height if height else 0.0, "1/m"), ("h", height, "m")),
            cutter.power_share,
            "1",
            "own_rule",
            "share of the engine's power that is left, by the loss stated in the file",
        ),
        Step(
            's_"low"',
            "",
            (("h", height, "m"),),
            low,
            "1",
            "farm_engines_altitude",
            "least that a published rule leaves",
        ),
        Step(
            's_"high"', "", (("h", height, "m"),), high, "1", "portable_set_manual", "most that a published rule leaves"
        ),
    )
    return ask(
        Place("", f'Miller "{cutter.name}"'),
        "altitude",
        "Engine power left at this altitude",
        cutter.power_share,
        high,
        "1",
        steps,
        note=f"published rules leave {low:.0%} to {high:.0%}; use the maker's curve. Height over the sea, not pressure "
        "altitude: on an ice sheet the air is thinner still",
        sources=tuple(source for _, _, source in RULES.values()),
    )


def stated_output(cutter: Cutter) -> Check:
    """The stated output beside what the trade quotes."""
    limit = 2 * LARGEST_OUTPUT
    step = Step(
        'Q_"max"',
        "2 Q",
        (("Q", LARGEST_OUTPUT, "m3/s"),),
        limit,
        "m3/s",
        "common_practice",
        "twice what is quoted for the largest millers, 1,200 cubic yards an hour",
    )
    return ask(
        Place("", f'Miller "{cutter.name}"'),
        "stated_output",
        "Stated output is plausible",
        cutter.output,
        limit,
        "m3/s",
        (step,),
        note=ORDER,
    )


def operators(cutter: Cutter) -> Check:
    """People on a miller beside what the trade puts there."""
    step = Step(
        "n",
        "",
        (),
        1.0,
        "1",
        "common_practice",
        "the trade puts two on the largest millers, one for height and speed, one for direction; one at the least",
    )
    return ask(
        Place("", f'Miller "{cutter.name}"'),
        "operators",
        "People who run it",
        float(cutter.operators),
        1.0,
        "1",
        (step,),
        note=ORDER,
        at_least=True,
    )


def shift(length: float) -> Check:
    """Length of the shifts beside what the trade works."""
    step = Step("l", "", (), LONGEST_SHIFT, "h/day", "common_practice", "shifts run 12, at times 14 hours")
    return ask(
        Place("", "Season"),
        "shift",
        "Length of a shift",
        length,
        LONGEST_SHIFT,
        "h/day",
        (step,),
        note=ORDER,
        caution="Tired people get hurt: long shifts and short rests between them raise the rate of injuries.",
    )


def at_once(place: Place, plan: Plan, millers: int) -> Check | None:
    """Millers on one of the widest cuts beside what the trade puts there; None for other cuts."""
    if plan.at_once <= 1:
        return None
    steps = (
        Step(
            "n",
            "",
            (("w", max(plan.section.top_width, plan.section.floor_width), "m"), ("l", WIDE_CUT, "m")),
            float(plan.at_once),
            "1",
            "common_practice",
            "cuts wider than l (some 40 ft) take three at once, one of them on a relief cut at the surface so that "
            "loose snow does not slide back",
        ),
    )
    return ask(
        place,
        "at_once",
        "Millers for one of the widest cuts",
        float(plan.at_once),
        float(millers),
        "1",
        steps,
        note=ORDER,
        ratio=0.9 if plan.at_once == millers else None,
    )


def wide_undercut(place: Place, plan: Plan) -> Check | None:
    """An undercut on one of the widest cuts: the trade leaves those straight; None for other cuts."""
    if plan.at_once <= 1 or plan.section.undercut_made <= 0:
        return None
    step = Step("u", "", (), 0.0, "m", "common_practice", "the widest cuts, some 40 ft, are left straight")
    return ask(
        place,
        "wide_undercut",
        "Undercut on one of the widest cuts",
        plan.section.undercut_made,
        0.0,
        "m",
        (step,),
        note=f"have the shoulders examined; {ORDER}",
        ratio=1.0,
    )
