"""Extinguishers, alarm points and detectors: how far to walk, how much floor, how cold."""

from __future__ import annotations

from math import inf, isfinite

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import show
from firnstead.fire.extinguishers import (
    coldest_agent,
    floor_per_extinguisher,
    floor_per_rating,
    least_rating_a,
    walk_class_a,
    walk_class_b,
)
from firnstead.fire.network import walk_to_nearest
from firnstead.fire.results import PlaceCover
from firnstead.fire.study_facts import Facts
from firnstead.station.fire import AlarmPoint, Detector, Extinguisher
from firnstead.station.geometry import axis

RATINGS_B = (5, 10, 20, 40, 80)  # ratings of the table for liquids
LISTED_SMOKE = 273.15  # K; spot smoke heads are commonly listed for about 0 to 38 degC only (textbook_unchecked)


def extinguisher_limit(item: Extinguisher) -> float | None:
    """Coldest air an extinguisher works in [K]."""
    return item.coldest if item.coldest is not None else coldest_agent(item.kind)


def detector_limit(item: Detector) -> float | None:
    """Coldest air a detector works in [K]."""
    return LISTED_SMOKE if item.coldest is None and item.kind == "smoke" else item.coldest


def works(f: Facts, item: Extinguisher) -> bool:
    """Whether an extinguisher works in the coldest air of its spot."""
    limit = extinguisher_limit(item)
    return item.heated or (limit is not None and limit <= f.coldest(item.place))


def farthest(f: Facts, place: str, hung: list[Extinguisher] | list[AlarmPoint]) -> float:
    """Farthest walk from any spot of a place and of its buildings to the nearest of some things [m].

    What hangs in a building counts for that building alone; there the walk is its length and width over their number
    (own rule).
    """
    rooms = f.model.building_ways
    outside = tuple(sorted({f.cell(item.place, item.at) for item in hung if item.place not in rooms}))
    walk = f.memo.get(("fire.walk", f.model, outside), lambda: walk_to_nearest(f.model.network, outside)).copy()
    for name in {item.place for item in hung if item.place in rooms}:
        kit, cell = f.station.kits[f.station.buildings[name].kit], f.model.cell_of[name]
        inside = (kit.length + kit.width) / sum(item.place == name for item in hung)
        walk[cell] = min(walk[cell], inside)
    return float(walk[f.model.here(place)].max())


def cover_of(f: Facts, place: str) -> PlaceCover:
    """Extinguishers and alarm points of one place."""
    hazard, fire = f.hazard(place), f.fire
    good = [e for e in fire.extinguishers.values() if works(f, e)]
    for_a = [e for e in good if e.rating_a >= least_rating_a(hazard)]
    for_b = [e for e in good if walk_class_b(e.rating_b, hazard) > 0]
    inside = {place, *(n for n, b in f.station.buildings.items() if b.place == place)}
    served = sum(floor_per_extinguisher(e.rating_a, hazard) for e in good if e.place in inside)
    points = list(fire.alarm_points.values())
    spot = f.station.places[place]
    floor = f.station.sections[spot.section].floor_width * axis(spot).length
    detectors = sum(d.place in inside for d in fire.detectors.values())
    return PlaceCover(place, hazard, floor, farthest(f, place, for_a), farthest(f, place, for_b), served,
                      farthest(f, place, points), detectors)  # fmt: skip


def cover_checks(f: Facts, place: str, cover: PlaceCover) -> tuple[Check, ...]:
    """Checks of one place."""
    cold = (_cold_extinguishers(f, place), _cold_detectors(f, place))
    known = [each for each in cold if each is not None]
    return (*_extinguisher_checks(f, place, cover), _alarm_points(f, place, cover), *known)


def _extinguisher_checks(f: Facts, place: str, cover: PlaceCover) -> list[Check]:
    walk = f.names("Walk to an extinguisher for solids", "walk_a", place)
    if not f.fire.extinguishers:
        return [not_checked(reason="there are no extinguishers in the file", **walk)]
    far = cover.walk_a
    step = Step("d", "", (("r", float(least_rating_a(cover.hazard)), "1"),), min(far, 1e6), "m", "nfpa_10",
                f"farthest walk in the place and its buildings to one rated at least r A ({cover.hazard} hazard) that "
                "works in its cold, along the ways people walk")  # fmt: skip
    checks = [_walk(walk, far, walk_class_a(), step)]
    floor = f.names("Floor that the extinguishers for solids may serve", "floor_a", place)
    served = Step('A_"e"', "", (("a", floor_per_rating(cover.hazard), "m2"),), cover.served, "m2", "nfpa_10",
                  f"floor of those in the place and its buildings: a for each A of rating, at most 11,250 ft2 each, "
                  f"{cover.hazard} hazard")  # fmt: skip
    spot = f.station.places[place]
    need = Step("A", "w L", (("w", f.station.sections[spot.section].floor_width, "m"), ("L", axis(spot).length, "m")),
                cover.floor, "m2", "statics", "floor of the place")  # fmt: skip
    checks.append(
        check(demand=cover.served, limit=cover.floor, unit="m2", at_least=True, working=(need, served), **floor)
    )
    if f.liquids(place):
        checks.append(_walk_b(f, place, cover))
    return checks


def _walk(names: dict[str, object], far: float, limit: float, step: Step, note: str = "") -> Check:
    note = note or ("" if isfinite(far) else "none can be reached")
    return check(demand=min(far, 1e6), limit=limit, unit="m", working=(step,), note=note, **names)  # type: ignore[arg-type]


def _walk_b(f: Facts, place: str, cover: PlaceCover) -> Check:
    """The better of the two pairs of rating and walk that the table offers."""
    names = f.names("Walk to an extinguisher for liquids", "walk_b", place)
    best = (inf, inf, 1.0, 0)
    for rating in RATINGS_B:
        limit = walk_class_b(rating, cover.hazard)
        if limit == 0:
            continue
        hung = [e for e in f.fire.extinguishers.values() if works(f, e) and e.rating_b >= rating]
        far = farthest(f, place, hung)
        best = min(best, (far / limit, far, limit, rating))
    _, far, limit, rating = best
    step = Step("d", "", (("r", float(rating), "1"),), min(far, 1e6), "m", "nfpa_10",
                f"farthest walk in the place and its buildings to one rated at least r B ({cover.hazard} hazard) that "
                "works in its cold")  # fmt: skip
    return _walk(names, far, limit, step)


def _alarm_points(f: Facts, place: str, cover: PlaceCover) -> Check:
    names = f.names("Walk to an alarm point", "alarm_point", place)
    if not f.fire.alarm_points:
        return not_checked(reason="there are no alarm points in the file", **names)
    step = Step("d", "", (), min(cover.walk_alarm, 1e6), "m", "statics",
                "farthest walk in the place and its buildings, along the ways people walk")  # fmt: skip
    return _walk(names, cover.walk_alarm, f.fire.limits.alarm_walk, step)


def _inside(f: Facts, place: str) -> set[str]:
    return {place, *(n for n, b in f.station.buildings.items() if b.place == place)}


def _cold_extinguishers(f: Facts, place: str) -> Check | None:
    inside = _inside(f, place)
    hung = {n: e for n, e in f.fire.extinguishers.items() if e.place in inside and not e.heated}
    if not hung:
        return None
    names = f.names("Extinguishers in the cold", "extinguisher_cold", place)
    unknown = [n for n, e in hung.items() if extinguisher_limit(e) is None]
    if unknown:
        return not_checked(reason=f"the maker's coldest temperature of {unknown[0]} is not in the file", **names)
    return _cold(f, names, {n: (e.place, extinguisher_limit(e) or 0.0) for n, e in hung.items()}, "tm_5_852_5")


def _cold_detectors(f: Facts, place: str) -> Check | None:
    inside = _inside(f, place)
    hung = {n: d for n, d in f.fire.detectors.items() if d.place in inside}
    if not hung:
        return None
    names = f.names("Detectors in the cold", "detector_cold", place)
    unknown = [n for n, d in hung.items() if detector_limit(d) is None]
    if unknown:
        return not_checked(reason=f"the maker's coldest temperature of {unknown[0]} is not in the file", **names)
    return _cold(f, names, {n: (d.place, detector_limit(d) or 0.0) for n, d in hung.items()}, "own_rule")


def _cold(f: Facts, names: dict[str, object], hung: dict[str, tuple[str, float]], source: str) -> Check:
    """The one with the least to spare."""
    worst = min(hung, key=lambda n: f.coldest(hung[n][0]) - hung[n][1])
    where, limit = hung[worst]
    air = f.coldest(where)
    spare = Step("d", "T_a - T_l", (("T_a", air, "K"), ("T_l", limit, "K")), air - limit, "K", source,
                 f"{worst}: coldest air there less the coldest air it works in")  # fmt: skip
    return check(demand=limit, limit=air, unit="K", ratio=0.0 if air >= limit else inf,
                 working=(Step("T_a", "", (), air, "K", "own_rule", "coldest air: the place's, and no warmer than the "
                               "snow's yearly mean"), spare),
                 note=f"least to spare: {worst}, by {show(air - limit, 'dK')}; try one of each kind in that cold",
                 **names)  # type: ignore[arg-type]  # fmt: skip
