"""Results of the escape study."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity

Point = tuple[float, float]


@dataclass(frozen=True)
class LimitSet:
    """The limits that were applied, and where they come from."""

    preset: str = quantity("text", "name and edition of the set; chosen by the responsible engineer")
    clause: str = quantity("text", "clauses of the set")
    travel: float | None = quantity("m", "farthest walk to an exit")
    blocked_travel: float | None = quantity("m", "farthest walk to an exit while a spot is blocked")
    common_path: float | None = quantity("m", "longest walk before two separate ways are open")
    dead_end: float | None = quantity("m", "longest dead end")
    separation: float | None = quantity("1", "least distance between two ways out over the diagonal")
    width_per_person: float | None = quantity("m", "width of way for each person on it")
    surface_time: float | None = quantity("s", "longest time to the snow by either of two ways")
    refuge_time: float | None = quantity("s", "longest time to a refuge without a second way")
    margin: float = quantity("1", "factor on the time needed")
    changed: tuple[str, ...] = quantity("text", "limits that the file sets otherwise than the set")


@dataclass(frozen=True)
class Route:
    """A way out as it is walked."""

    blocked: str = quantity("text", "what is blocked; empty: nothing")
    exit: str = quantity("text", "hatch, portal or refuge that it leads to")
    nodes: tuple[str, ...] = quantity("text", "names of the nodes of the walking network")
    line: tuple[Point, ...] = quantity("m", "the same as east and north in the station's grid")
    length: float = quantity("m", "length of the walk, ladder and ramp included")
    climb: float = quantity("m", "height of the ladder; 0 by a ramp")
    walk_hydraulic: tuple[float, ...] = quantity("s", "walking time by hour, hydraulic model")
    queue_hydraulic: tuple[float, ...] = quantity("s", "longest queue on the way by hour, hydraulic model")
    walk_imo: tuple[float, ...] = quantity("s", "walking time by hour, simplified method of the circulars")
    queue_imo: tuple[float, ...] = quantity("s", "longest queue on the way by hour, simplified method")
    needed: tuple[float, ...] = quantity("s", "time to set against the time available by hour, the longer of both")
    passed: tuple[tuple[float, ...], ...] = quantity(
        "s", "by hour: time after the start of the fire at which the last passes each node, margin included"
    )


@dataclass(frozen=True)
class BuildingEscape:
    """The ways out of a building or niche."""

    place: str = quantity("text", "place that it stands in")
    people: tuple[int, ...] = quantity("1", "people in it by hour who walk")
    carried: tuple[int, ...] = quantity("1", "people in it by hour who must be carried")
    doors: int = quantity("1", "doors that the ways out use")
    common_path: float = quantity("m", "walk before two separate ways are open")
    routes: tuple[Route, ...] = quantity("text", "the shortest way, then every other that a blocked spot leads to")
    worst: str = quantity("text", "blocked spot that makes its walk longest; empty: none does")
    worst_distance: float = quantity("m", "walk to the exit with that spot blocked; infinite: cut off")


@dataclass(frozen=True)
class PlaceEscape:
    """The ways out of a passage or trench, from its worst spot."""

    travel: float = quantity("m", "farthest walk to an exit")
    travel_from: str = quantity("text", "where from")
    travel_exit: str = quantity("text", "to which exit")
    blocked: float = quantity("m", "farthest walk to an exit while one spot is blocked")
    blocked_from: str = quantity("text", "where from")
    blocked_by: str = quantity("text", "which spot")
    common_path: float = quantity("m", "longest walk from a room before two separate ways are open")
    common_path_from: str = quantity("text", "which room; empty: there is none")
    dead_end: float = quantity("m", "longest dead end")
    dead_end_at: str = quantity("text", "where")
    diagonal: float = quantity("m", "diagonal of the floor")
    separation: float = quantity("m", "straight distance between the two ways out that are farthest apart")
    ways_out: tuple[str, ...] = quantity("text", "ways out of it: junctions, hatches, portals")
    narrowest: float = quantity("m", "narrowest way along it")
    steepest: float = quantity("deg", "steepest way in it, ladders apart")


@dataclass(frozen=True)
class ExitUse:
    """A hatch or portal and those who leave by it."""

    place: str = quantity("text", "place that it opens from")
    kind: str = quantity("text", "hatch or portal")
    position: Point = quantity("m", "east and north of its outside end")
    length: float = quantity("m", "length of its ladder or ramp")
    interval: float | None = quantity("s", "time between persons, measured; None: not measured, or a ramp")
    people: tuple[int, ...] = quantity("1", "people who leave by it, by hour, nothing blocked")
    most: tuple[int, ...] = quantity("1", "most people who leave by it while one spot is blocked, by hour")
    most_blocked: tuple[str, ...] = quantity("text", "which spot, by hour")


@dataclass(frozen=True)
class HourTimes:
    """The slowest of an hour, with nothing blocked and with the worst spot blocked."""

    name: str = quantity("text", "hour")
    words: str = quantity("text", "when that is")
    people: int = quantity("1", "people in the station, those carried included")
    reaction: float = quantity("s", "from the start of the fire until people walk")
    factor: float = quantity("1", "share of the walking speed in light and clear air")
    open_from: str = quantity("text", "who is slowest with nothing blocked")
    open_hydraulic: float = quantity("s", "walk and queue of the slowest, hydraulic model")
    open_imo: float = quantity("s", "walk and queue of the slowest, simplified method, correction included")
    open_needed: float = quantity("s", "time needed, reaction and margin included")
    blocked_from: str = quantity("text", "who is slowest with the worst spot blocked")
    blocked_by: str = quantity("text", "which spot that is")
    blocked_hydraulic: float = quantity("s", "walk and queue, hydraulic model")
    blocked_imo: float = quantity("s", "walk and queue, simplified method, correction included")
    blocked_needed: float = quantity("s", "time needed, reaction and margin included")
    guided: float = quantity(
        "s", "no plan brings everybody out sooner, whoever goes where (walk and queue, hydraulic model)"
    )
    carried: int = quantity("1", "people who must be carried")
    carried_needed: float = quantity("s", "time needed until the last of them is out, worst spot blocked")
    carried_by: str = quantity("text", "which spot that is")


@dataclass(frozen=True)
class MusterPlan:
    """One page for one building: the two ways out."""

    building: str = quantity("text", "building")
    place: str = quantity("text", "place that it stands in")
    outline: tuple[Point, ...] = quantity("m", "corners of the building on the plan")
    people: tuple[int, ...] = quantity("1", "people in it by hour")
    first: Route | None = quantity("text", "the shortest way out; None: there is none")
    second: Route | None = quantity(
        "text", "the shortest way that shares nothing with the first, else one that shares least"
    )
    shared: float = quantity("m", "length that the second way shares with the first")
    refuge: str = quantity("text", "nearest refuge; empty: none")
    refuge_route: Route | None = quantity("text", "the way to it")
    note: str = quantity("text", "what the people in it must know")


@dataclass(frozen=True)
class WorstPlace:
    """A row of the list that begins with the worst place."""

    place: str = quantity("text", "place")
    what: str = quantity("text", "what is close to or beyond its limit")
    ratio: float = quantity("1", "share of the limit that is used")
    cure: str = quantity("text", "what to do about it")


@dataclass(frozen=True)
class CutOffRow:
    """Somebody who has no way out while a spot is blocked."""

    who: str = quantity("text", "room or spot")
    place: str = quantity("text", "place")
    blocked: str = quantity("text", "what is blocked")
    own_door: bool = quantity("text", "only its door is blocked, and the file does not say where other doors are")


@dataclass(frozen=True)
class PairsResult:
    """Every two spots blocked together."""

    pairs: int = quantity("1", "pairs looked at")
    cut_off: dict[str, int] = quantity("1", "by room or spot: pairs that leave it without a way out")
    rooms: dict[str, int] = quantity("1", "by room: pairs that leave it without a way out")
    farthest: float = quantity("m", "longest walk of those who still have a way out")
    farthest_from: str = quantity("text", "where from")
    farthest_by: str = quantity("text", "which pair")


@dataclass(frozen=True)
class EscapeResult:
    """Escape from the whole station."""

    limits: LimitSet = quantity("text", "limits that were applied")
    hours: tuple[HourTimes, ...] = quantity("text", "hours looked at; the order of all rows by hour")
    places: dict[str, PlaceEscape] = quantity("text", "by place")
    buildings: dict[str, BuildingEscape] = quantity("text", "by building and niche")
    exits: dict[str, ExitUse] = quantity("text", "by hatch and portal")
    cut_off: tuple[CutOffRow, ...] = quantity("text", "who is cut off by a single blocked spot")
    blockings: int = quantity("1", "single blockings looked at")
    muster: dict[str, MusterPlan] = quantity("text", "one page for each building")
    worst: tuple[WorstPlace, ...] = quantity("text", "worst places first, with what to do")
    pairs: PairsResult | None = quantity("text", "every pair blocked, if asked for")


@dataclass(frozen=True)
class HatchSpot:
    """Where a hatch may stand."""

    place: str = quantity("text", "place")
    at: float = quantity("m", "distance along its axis")
    position: Point = quantity("m", "east and north")
    climb: float = quantity("m", "height of the ladder at the end of the design life")
    present: str = quantity("text", "hatch of the file that stands there; empty: a new one")


@dataclass(frozen=True)
class SitingResult:
    """The fewest hatches that satisfy every case, and where."""

    candidates: int = quantity("1", "spots where a hatch may stand")
    refused: dict[str, int] = quantity("1", "spots refused, by reason")
    rows: int = quantity("1", "different needs: somebody, with something blocked")
    binding: int = quantity("1", "needs that no other implies")
    count: int = quantity("1", "fewest hatches found")
    chosen: tuple[HatchSpot, ...] = quantity("text", "where they stand")
    bound: int = quantity("1", "no fewer than this are possible (proven)")
    gap: float = quantity("1", "share by which the number may be above the least; 0: proven the fewest")
    proven: bool = quantity("text", "whether it is proven that fewer do not do")
    hopeless: tuple[str, ...] = quantity("text", "who cannot be served by any allowed spot")
    present: int = quantity("1", "hatches in the file")
    present_unserved: tuple[str, ...] = quantity("text", "whom the hatches of the file do not serve")
    present_refused: tuple[str, ...] = quantity("text", "hatches of the file that stand where the rules allow none")
    one_fewer: tuple[HatchSpot, ...] = quantity("text", "the best with one hatch fewer")
    one_fewer_unserved: tuple[str, ...] = quantity("text", "who is then without a way out within the limits")
    verified: str = quantity("text", "what the study still finds wrong with the chosen hatches; empty: nothing")
