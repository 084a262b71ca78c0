"""Gravity lines: fall as laid, after the floor has risen, room for it, and whether the bore takes the flow."""

from __future__ import annotations

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import show
from firnstead.pipes.sewer import fall, fall_after_heave, heave_margin, wetted_share
from firnstead.pipes.study_case import Leg
from firnstead.pipes.study_numbers import Numbers
from firnstead.pipes.study_steps import NAMES, given

MANNING = 0.013
DRAIN_FALL = 0.005  # least fall of a line that must run empty (own rule)


def fall_checks(n: Numbers) -> tuple[Check, ...]:
    """Everything about the fall of a gravity line, and of a line that saves itself by draining."""
    if n.case.run.drain is not None and n.case.run.drive != "gravity":
        return (_drains(n),)
    if n.case.run.drive != "gravity" or not n.falls:
        return ()
    found = [_fall(n), _room(n), _years(n)]
    if n.case.run.peak_flow:
        found.append(_bore(n))
    return tuple(found)


def flattest(n: Numbers) -> tuple[Leg, float, float, float]:
    """The stretch with the least fall."""
    return min(n.falls, key=lambda each: fall(*each[1:]))


def margin(n: Numbers) -> float | None:
    """How much more than the upper floor the lower one may rise, over the flattest stretch."""
    if n.case.run.drive != "gravity" or not n.falls:
        return None
    return min(heave_margin(fall(u, w, length), n.case.run.fall, length) for _, u, w, length in n.falls)


def _fall_steps(n: Numbers, at: tuple[Leg, float, float, float]) -> tuple[Step, ...]:
    leg, upper, lower, length = at
    return (
        given("z_1", upper, "m", f"level at the beginning, in {leg.place}; the snow surface is 0", "statics"),
        given("z_2", lower, "m", "level at its end", "statics"),
        given("L", length, "m", "its length", "statics"),
        Step("i", "(z_1 - z_2)/L", (("z_1", upper, "m"), ("z_2", lower, "m"), ("L", length, "m")),
             fall(upper, lower, length), "1", "statics", "fall"),
    )  # fmt: skip


def _wanted(n: Numbers) -> Step:
    return given('i_"min"', n.case.run.fall, "1", "least fall, from the station file", "common_practice")


def _fall(n: Numbers) -> Check:
    at = flattest(n)
    return check(
        question="Fall of the gravity line", key="pipes.fall", demand=fall(*at[1:]), limit=n.case.run.fall, unit="1",
        at_least=True, working=(*_fall_steps(n, at), _wanted(n)), place=at[0].place, **NAMES,
        note="flattest stretch; solids stay where the fall is less")  # fmt: skip


def _drains(n: Numbers) -> Check:
    """Whether a pumped line falls one way all along, so that it runs empty."""
    names = {"question": "Fall towards its drain", "key": "pipes.drain", "place": n.case.run.route[0].place, **NAMES}
    whole = sum(piece.length for leg in n.case.legs for piece in leg.stretches if piece.direction != (0.0, 0.0))
    if not n.falls or sum(each[3] for each in n.falls) < whole - 1e-6:
        return not_checked(
            reason="its heights are not told all along: give `height` at both ends of the route", **names
        )
    sign = 1.0 if n.falls[0][1] >= n.falls[-1][2] else -1.0
    at = min(n.falls, key=lambda each: sign * fall(*each[1:]))
    least = sign * fall(*at[1:])
    towards = "its end" if sign > 0 else "its beginning"
    steps = (
        *_fall_steps(n, at),
        Step("i_d", "s i", (("s", sign, "1"), ("i", fall(*at[1:]), "1")), least, "1", "statics", f"towards {towards}"),
        given('i_"min"', DRAIN_FALL, "1", "least fall of a line that must run empty"),
    )
    return check(
        demand=least, limit=DRAIN_FALL, unit="1", at_least=True, working=steps, **{**names, "place": at[0].place},
        note=f"flattest stretch; it drains towards {towards}; water left in a sag freezes and splits the pipe"
    )  # fmt: skip


def _room(n: Numbers) -> Check:
    assert n.case.room is not None
    high, low = n.case.room
    run = n.case.run
    need = run.fall * n.case.length
    steps = (
        given('z_"h"', high, "m", f"highest the line can begin: under the feet of the roof of {run.route[0].place}",
              "statics"),
        given('z_"l"', low, "m", f"lowest it can end: the floor of {run.route[-1].place}, or as deep below it as laid",
              "statics"),
        given("L", n.case.length, "m", "length of the run", "statics"),
        _wanted(n),
        Step("h", 'i_"min" L', (('i_"min"', run.fall, "1"), ("L", n.case.length, "m")), need, "m", "statics",
             "height that the fall takes"),
        Step('h_"max"', 'z_"h" - z_"l"', (('z_"h"', high, "m"), ('z_"l"', low, "m")), high - low, "m", "statics",
             "height there is"),
    )  # fmt: skip
    return check(question="Height for the fall", key="pipes.fall_room", demand=need, limit=high - low, unit="m",
                 working=steps, place=run.route[0].place, **NAMES)  # fmt: skip


def _years(n: Numbers) -> Check:
    """Over every stretch, the one that ends flattest; supports follow the floor of their own place."""
    run, found = n.case.run, []
    heaves = [leg.heave for leg in n.case.legs]
    at = flattest(n)
    spare = margin(n)
    assert spare is not None
    names = {"question": "Fall at the end of the design life", "key": "pipes.fall_years", "place": at[0].place, **NAMES}
    if any(heave is None for heave in heaves):
        return not_checked(
            reason="how fast floors rise is not forecast; the floor at the lower end of a stretch may rise "
                   f"{show(spare, 'm')} more than at its upper end", working=(*_fall_steps(n, at), _wanted(n)),
            **names)  # fmt: skip
    legs = list(n.case.legs)
    for leg, u, w, length in n.falls:
        i = legs.index(leg)
        upper = legs[i - 1].heave if i > 0 and w == leg.stretches[0].lower else leg.heave
        found.append((fall_after_heave(fall(u, w, length), length, upper or 0.0, leg.heave or 0.0, n.case.life),
                      (leg, u, w, length), upper or 0.0, leg.heave or 0.0))  # fmt: skip
    left, at, h1, h2 = min(found, key=lambda each: each[0])
    steps = (
        *_fall_steps(n, at), given("h_1", h1, "m/s", "rise of the floor at its beginning, from the forecast"),
        given("h_2", h2, "m/s", "rise of the floor at its end, from the forecast"),
        Step("i_e", "i + (h_1 - h_2) t/L", (("i", fall(*at[1:]), "1"), ("h_1", h1, "m/s"), ("h_2", h2, "m/s"),
             ("t", n.case.life, "s"), ("L", at[3], "m")), left, "1", "statics", "fall left"), _wanted(n),
    )  # fmt: skip
    return check(demand=left, limit=run.fall, unit="1", at_least=True, working=steps, **{**names, "place": at[0].place},
                 note="supports follow the floor; relevel the line before this fails")  # fmt: skip


def _bore(n: Numbers) -> Check:
    run, at, bore = n.case.run, flattest(n), n.case.kind.bore
    slope, peak = fall(*at[1:]), run.peak_flow or 0.0
    full = peak / wetted_share(peak, bore, slope) if slope > 0 else 0.0
    steps = (
        *_fall_steps(n, at), given("Q", peak, "m3/s", "greatest flow, from the station file"),
        Step('Q_"f"', "(pi D^2)/4 (D/4)^(2/3) sqrt(i)/n" if slope > 0 else "",
             (("D", bore, "m"), ("i", slope, "1"), ("n", MANNING, "s/m^(1/3)")), full, "m3/s", "textbook_unchecked",
             "what the full bore carries"),
        given("f", 0.5, "1", "at most half full, so that air passes"),
        Step('Q_"lim"', 'f Q_"f"', (("f", 0.5, "1"), ('Q_"f"', full, "m3/s")), 0.5 * full, "m3/s", "own_rule"),
    )  # fmt: skip
    return check(question="Bore for the greatest flow", key="pipes.bore", demand=peak, limit=0.5 * full, unit="m3/s",
                 working=steps, place=at[0].place, **NAMES)  # fmt: skip
