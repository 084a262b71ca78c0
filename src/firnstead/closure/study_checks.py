"""Checks of one place: when the room beside and above what stands in it is lost, and the snow to the next cut."""

from __future__ import annotations

from dataclasses import dataclass
from math import isinf

from firnstead.closure.results import ClosureForecast, Loss, PlaceClosure, Range, Softness
from firnstead.closure.spec import Spec
from firnstead.closure.study_spec import Clear, Neighbour, clear_in, wall_to_wall
from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.steps import Working
from firnstead.core.units import YEAR, show
from firnstead.station import Station

QUESTIONS = (
    ("Years until the room beside it is lost", "closure.side"),
    ("Years until the room above it is lost", "closure.top"),
)
PILLAR = ("Sinking of the snow between it and the next cut, against far snow", "closure.pillar")
CAUTION = (
    "Snow creeps faster than any forecast where it is warm or badly known. Measure widths and heights every month in "
    "the first year; leave a room whose roof or wall moves faster than forecast."
)
LAW = "arrizabalaga_2025"
DAY = 86400.0


@dataclass(frozen=True)
class PlaceNumbers:
    """Everything that the checks of a place need."""

    station: Station
    name: str
    spec: Spec
    soft: Softness
    near: Neighbour | None
    clear: tuple[tuple[Clear, PlaceClosure], ...]

    @property
    def subject(self) -> str:
        """The place as a reader names it."""
        return subject_of(self.station, self.name)


def subject_of(station: Station, name: str) -> str:
    """Passage "Main" or Trench "North 1"."""
    return f'{"Passage" if name in station.passages else "Trench"} "{name}"'


def unanswered(station: Station, name: str, reason: str) -> tuple[Check, ...]:
    """The questions of a place without a forecast."""
    subjects = [each.subject for each in clear_in(station, name)] or [subject_of(station, name)]
    return tuple(
        not_checked(subject=subject, question=question, key=key, reason=reason, discipline="closure", place=name,
                    caution=CAUTION)
        for subject in subjects for question, key in QUESTIONS
    )  # fmt: skip


def place_checks(n: PlaceNumbers) -> tuple[Check, ...]:
    """Room beside and above everything that must stay clear, and the pillar to the next cut."""
    made = []
    for clear, own in n.clear:
        found = own.forecast
        made += [
            _room(n, clear, found, found.side, found.side_room, QUESTIONS[0]),
            _room(n, clear, found, found.top, found.top_room, QUESTIONS[1]),
        ]
    if not n.clear:
        reason = "no building stands in it and the file gives no clear_width and clear_height to keep"
        made += unanswered(n.station, n.name, reason)
    return (*made, *_pillar(n))


def _room(
    n: PlaceNumbers, clear: Clear, found: ClosureForecast, lost: Loss, room: Range, asked: tuple[str, str]
) -> Check:  # fmt: skip
    """When a room is lost, by its band: holds if the fast end keeps it, fails if the expected course does not."""
    wanted = n.station.design.trim_interval
    w = _marched(n)
    w.given("c_n", clear.needed, "m")
    horizon = found.dates[-1]
    w.look("c_0", room.expected[0], "m", "statics", "least room as cut, over the height of what stands there")
    fast = _date(w, "f", found.dates, room.greatest, clear.needed, "fast end of the band")
    expected = _date(w, "e", found.dates, room.expected, clear.needed, "as expected")
    symbols = [s for s in ('t_"e"', 't_"f"') if s in w]
    if fast >= wanted:
        ratio = 0.0 if isinf(fast) else wanted / fast
    else:
        ratio = 1.0 if expected >= wanted else wanted / max(expected, 1e-9 * wanted)
    note = f"{_words(lost, horizon)}{_calendar(n.station, lost)}. {_first_change(found)}"
    if fast < wanted <= expected:
        note = f"The fast end of the band is too early. {note}"
    notes = "".join(f" {text}." for text in found.notes)
    return check(
        subject=clear.subject, question=asked[0], key=asked[1], discipline="closure", place=n.name, unit="s",
        demand=min(expected, horizon), limit=wanted, at_least=True, ratio=ratio,
        working=w.upto(*symbols) if symbols else w.upto("c_0", *_fitted()), caution=CAUTION,
        sources=(LAW, "own_rule"), note=note + notes)  # fmt: skip


def _fitted() -> tuple[str, ...]:
    return ("k_1", "k_n", "k_3")


def _marched(n: PlaceNumbers) -> Working:
    """What the march stands on: exponents and softness fitted to the site's own profile, loads, temperatures."""
    w, soft, spec = Working(), n.soft, n.spec
    fitted = (f"from the density profile between {show(soft.top, 'm')} and {show(soft.bottom, 'm')}: steady column, "
              "least squares")  # fmt: skip
    for symbol, k, off, exponent in zip(_fitted(), soft.k, soft.misfit, soft.exponents, strict=True):
        w.look(symbol, k, "1", LAW, f"softness for creep exponent {exponent:g}, {fitted}, misfit {show(off, 'kg/m3')}")
    w.given("T_s", spec.snow, "K")
    w.given('T_"a"', spec.air[0], "K")
    w.given("p_t", spec.growth, "Pa/s")
    return w


def _date(w: Working, tag: str, dates: tuple[float, ...], room: tuple[float, ...], needed: float, what: str) -> float:
    """The date at which a room passes what is needed, between the two dates that hold it; infinite if it does not."""
    after = next((i for i, value in enumerate(room) if value < needed), None)
    if after is None:
        return float("inf")
    how = (f"room {what}, plane-strain march of the section through the years with its own density, temperature, "
           "cover growth and roof")  # fmt: skip
    inputs = (*_fitted(), "T_s", 'T_"a"', "p_t", "c_0")
    if after == 0:
        w.look(f't_"{tag}"', 0.0, "s", "statics", "the room is too small as cut", "c_0", "c_n")
        return 0.0
    w.given(f't_"{tag}1"', dates[after - 1], "s")
    w.given(f't_"{tag}2"', dates[after], "s")
    w.look(f'c_"{tag}1"', room[after - 1], "m", LAW, f"{how}: at the date before", *inputs)
    w.look(f'c_"{tag}2"', room[after], "m", LAW, f"{how}: at the date after", *inputs)
    return w.put(
        f't_"{tag}"',
        f't_"{tag}1" + (t_"{tag}2" - t_"{tag}1") (c_"{tag}1" - c_n)/(c_"{tag}1" - c_"{tag}2")',
        "s", "statics", f"when the room is lost, {what}")  # fmt: skip


def _words(lost: Loss, horizon: float) -> str:
    def text(at: float) -> str:
        return f"not within {show(horizon, 's')}" if isinf(at) else show(at, "s", digits=2)

    return f"Lost after {text(lost.expected)} as expected; band {text(lost.earliest)} to {text(lost.latest)}"


def _calendar(station: Station, lost: Loss) -> str:
    if isinf(lost.expected):
        return ""
    start = station.season.start
    day = start.fromordinal(start.toordinal() + int(lost.expected / DAY))
    return f" (about {day:%B %Y} if cut at the start of the season)"


def _first_change(found: ClosureForecast) -> str:
    """The doubt that matters most, and the change that gains most."""
    words = []
    if found.changes and found.changes[0].gained > 0.02 * YEAR:
        best = found.changes[0]
        gain = (
            "keeps it beyond the years looked at" if isinf(best.gained) else f"gains {show(best.gained, 's', digits=2)}"
        )
        words.append(f"First to change: {best.what} {gain}.")
    named = [name for name, _ in found.effects if name not in ("creep exponent", "roof")]
    if named:
        words.append(f"First to measure: {named[0]}.")
    return " ".join(words)


def _pillar(n: PlaceNumbers) -> tuple[Check, ...]:
    """Snow between two cuts carries what stood over both: its mean stress, and how much faster it sinks."""
    if n.near is None:
        return ()
    station = n.station
    mine, other = wall_to_wall(station, n.name), wall_to_wall(station, n.near.name)
    exponent, limit = n.soft.exponents[1], station.design.pillar_factor
    width = (mine + other) / 2
    stress = (width + n.near.pillar) / n.near.pillar
    faster = stress**exponent
    least = width / (limit ** (1 / exponent) - 1)
    steps = (
        Step("m", "(w + p)/p", (("w", width, "m"), ("p", n.near.pillar, "m")), stress, "1", "statics",
             f"mean stress in the snow to {n.near.name} against far snow: it carries half of both cuts"),
        Step("f", "m^n", (("m", stress, "1"), ("n", exponent, "1")), faster, "1", "own_rule",
             "how much faster it sinks, by the creep exponent to expect"),
        Step('p_"min"', "w/(F^(1/n) - 1)", (("w", width, "m"), ("F", limit, "1"), ("n", exponent, "1")), least, "m",
             "own_rule", "least width of the snow between the two cuts"),
    )  # fmt: skip
    question, key = PILLAR
    return (check(
        subject=n.subject, question=question, key=key, discipline="closure", place=n.name, unit="1", demand=faster,
        limit=limit, working=steps, caution=CAUTION,
        note=f"{show(n.near.pillar, 'm')} of snow to {n.near.name}; least by this rule {show(least, 'm')}. A mean over "
             "the pillar: its walls sink more"),)  # fmt: skip
