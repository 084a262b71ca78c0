"""The fewest hatches that satisfy every blocked spot, and where: its own command, for it takes its time."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import ceil, cos, hypot, inf, radians, sin

from firnstead.escape._answers import Answers
from firnstead.escape._siting_model import Candidate, Model, Need
from firnstead.escape.cover import Cover, Solver
from firnstead.escape.results import HatchSpot, SitingResult
from firnstead.escape.study_case import case_of
from firnstead.escape.study_tables import place_rows
from firnstead.station import Station
from firnstead.station.escape import Escape
from firnstead.station.geometry import axis
from firnstead.station.places import Hatch
from firnstead.station.ways import Ways, climb, walking_network

Progress = Callable[[str, float], None]
PREFERENCE = 1e-3  # by which a spot where a hatch stands already is cheaper: it breaks ties, no more
LEE_SPREAD = 0.25  # half width of a drift in the lee for each metre of its length (own rule)
HATCH_RADIUS = 0.5  # m, where the file names no kind of hatch (own rule)


def siting(station: Station, progress: Progress | None = None, *, time_limit: float = 50.0) -> SitingResult:
    """Find the fewest hatches; `progress` is told what is being done and the share that is done of it."""
    part = station.escape
    if part is None:
        raise ValueError("the station file has no escape part")
    bare = station.model_copy(update={"hatches": {}})
    made = walking_network(bare, spacing=part.siting.spacing, age=station.design.life, extra=_present_points(station))
    case = case_of(bare, part, made)
    spots, refused = _candidates(station, part, made)
    model = Model(case, tuple(spots), case.limits.travel, case.blocked_travel)
    rows = model.build(progress)
    cost = [1.0 - PREFERENCE if c.present else 1.0 for c in spots]
    if progress is not None:
        progress("fewest", 0.0)
    solver = Solver(len(spots), rows, cost)
    found = solver.fewest(time_limit)
    fewer, short = _one_fewer(solver, found, model, time_limit)
    chosen = tuple(_spot(spots[j]) for j in found.chosen)
    return SitingResult(
        candidates=len(spots), refused=refused, rows=len(rows), binding=len(solver.rows), count=found.count,
        chosen=chosen, bound=ceil(max(0.0, found.bound) - 1e-6), gap=found.gap, proven=found.proven,
        hopeless=tuple(_words(model.needs[row]) for row in solver.hopeless),
        present=len(station.hatches), present_unserved=_present_unserved(station, spots, model),
        present_refused=_present_refused(station, spots), one_fewer=fewer, one_fewer_unserved=short,
        verified=_verify(station, part, chosen))  # fmt: skip


def _present_points(station: Station) -> dict[str, tuple[float, ...]]:
    found: dict[str, list[float]] = {}
    for hatch in station.hatches.values():
        found.setdefault(hatch.place, []).append(hatch.at)
    return {place: tuple(at) for place, at in found.items()}


def _candidates(station: Station, part: Escape, made: Ways) -> tuple[list[Candidate], dict[str, int]]:
    """Points of the walking lines where a hatch may come down and up; how many were refused, by reason."""
    refused: dict[str, int] = {}
    found: list[Candidate] = []
    present = {(h.place, round(h.at, 6)): name for name, h in station.hatches.items()}
    for i, node in enumerate(made.nodes):
        if node.kind not in ("point", "junction") or not 0 <= node.at <= axis(station.places[node.place]).length:
            continue
        x, y = axis(station.places[node.place]).at(node.at)
        reason = _refusal(station, part, made, node.place, node.at, x, y)
        if reason:
            refused[reason] = refused.get(reason, 0) + 1
            continue
        up = climb(station, station.places[node.place], station.design.life)
        aside = hypot(node.x - x, node.y - y)
        found.append(
            Candidate(i, node.place, node.at, x, y, up + aside, present.get((node.place, round(node.at, 6)), ""))
        )
    return found, refused


def _refusal(station: Station, part: Escape, made: Ways, place: str, at: float, x: float, y: float) -> str:
    rule, length = part.siting, axis(station.places[place]).length
    radius = max((k.diameter for k in station.hatchways.values()), default=2 * HATCH_RADIUS) / 2
    if min(at, length - at) < rule.from_ends:
        return "too near an end of the place"
    for building in station.buildings.values():
        if building.place == place:
            near, far = building.at, building.at + station.kits[building.kit].length
            if near - radius - rule.from_buildings < at < far + radius + rule.from_buildings:
                return "above a building"
    if any(hypot(x - thing.centre[0], y - thing.centre[1]) < thing.radius + radius for thing in part.above.values()):
        return "under something that stands on the snow"
    if any(_to_fuel(station, made, name, place, x, y) < rule.from_fuel for name in part.fuel):
        return "too near fuel"
    for name, portal in station.portals.items():
        foot = made.nodes[made.inside[name]]
        if hypot(x - foot.x, y - foot.y) < rule.from_portals:
            return "too near a portal"
        top = made.nodes[made.exits[name]]
        if _in_lee(station, (top.x, top.y), portal.width, rule.drift_length, x, y):
            return "in the drift behind a ramp"
    return ""


def _to_fuel(station: Station, made: Ways, name: str, place: str, x: float, y: float) -> float:
    """Distance on the plan from a spot to what holds fuel: a building's nearest wall, a niche, or a whole place."""
    if name in station.buildings:
        b = station.buildings[name]
        line, kit = axis(station.places[b.place]), station.kits[b.kit]
        return _to_segment(line.at(b.at), line.at(b.at + kit.length), x, y) - kit.width / 2
    if name in station.niches:
        node = made.nodes[made.inside[name]]
        return hypot(node.x - x, node.y - y)
    line = axis(station.places[name])
    return _to_segment(line.start, line.end, x, y)


def _to_segment(a: tuple[float, float], b: tuple[float, float], x: float, y: float) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    t = ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy) if (dx or dy) else 0.0
    t = min(max(t, 0.0), 1.0)
    return hypot(a[0] + t * dx - x, a[1] + t * dy - y)


def _in_lee(station: Station, top: tuple[float, float], width: float, length: float, x: float, y: float) -> bool:
    """Whether a spot lies in the drift that the storm wind lays behind a ramp's upper end."""
    toward = radians(station.site.storm_wind_from + 180.0)
    ux, uy = sin(toward), cos(toward)
    along, across = (x - top[0]) * ux + (y - top[1]) * uy, abs((x - top[0]) * uy - (y - top[1]) * ux)
    return 0 <= along <= length and across <= width / 2 + LEE_SPREAD * along


def _spot(c: Candidate) -> HatchSpot:
    return HatchSpot(c.place, c.at, (c.x, c.y), c.climb, c.present)


def _words(need: Need) -> str:
    return f"{need.who}{f' with {need.blocked} blocked' if need.blocked else ''}"


def _one_fewer(
    solver: Solver, found: Cover, model: Model, limit: float
) -> tuple[tuple[HatchSpot, ...], tuple[str, ...]]:
    """The best with one hatch fewer, and who is then not served."""
    if found.count < 1:
        return (), ()
    best = solver.at_most(found.count - 1, limit)
    return tuple(_spot(model.candidates[j]) for j in best.chosen), _unserved(model, best.chosen)


def _unserved(model: Model, chosen: Iterable[int]) -> tuple[str, ...]:
    """Whom these spots do not serve."""
    taken = sum(1 << j for j in chosen)
    bad = [row for row in model.rows if not row.mask & taken and (row.given < 0 or taken >> row.given & 1)]
    return tuple(dict.fromkeys(_words(model.needs[row]) for row in bad))


def _present_unserved(station: Station, spots: list[Candidate], model: Model) -> tuple[str, ...]:
    """Whom the hatches of the file do not serve; where some stand that the rules refuse, the study itself says it."""
    names = {c.present: j for j, c in enumerate(spots) if c.present}
    return _unserved(model, names.values()) if set(names) == set(station.hatches) else ()


def _present_refused(station: Station, spots: list[Candidate]) -> tuple[str, ...]:
    allowed = {c.present for c in spots}
    return tuple(name for name in station.hatches if name not in allowed)


def _verify(station: Station, part: Escape, chosen: tuple[HatchSpot, ...]) -> str:
    """Put the chosen hatches into the station and look at every place again, as the study does."""
    kind = next(iter(station.hatchways), None)
    if kind is None:
        return "the file names no kind of hatch"
    hatches = {f"hatch {i}": Hatch(place=c.place, at=f"{c.at} m", kind=kind) for i, c in enumerate(chosen, 1)}
    case = case_of(station.model_copy(update={"hatches": hatches}), part)
    answers, limits, wrong = Answers(case), case.limits, []
    for name, row in place_rows(answers).items():
        for what, value, most in (
            ("walk", row.travel, limits.travel),
            ("walk with a spot blocked", row.blocked, case.blocked_travel),
            ("common path", row.common_path, limits.common_path),
            ("dead end", row.dead_end, limits.dead_end),
        ):
            if value > (inf if most is None else most) + 1e-6 or value == inf:
                wrong.append(f"{what} of {name}")
        if limits.separation is not None and row.separation < limits.separation * row.diagonal:
            wrong.append(f"separation in {name}")
    return f"also to be mended: {', '.join(wrong)}" if wrong else ""
