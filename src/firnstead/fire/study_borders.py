"""What holds a fire and what is lost: compartments, sleepers apart from plant, stores, radiation, doors, snow."""

from __future__ import annotations

from math import inf, isfinite

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import show
from firnstead.fire.pressure import door_force, pressure_stack
from firnstead.fire.radiation import distance_point_source, fire_diameter
from firnstead.fire.results import PlaceLoss
from firnstead.fire.study_facts import Facts
from firnstead.station import geometry

SNOW = ("no law was found for walls and roofs of snow in a fire: they drip, cool the smoke and bring it down sooner; "
        "steel arches lose their strength long before the snow above them melts, and cover then falls")  # fmt: skip


def losses(f: Facts) -> dict[str, PlaceLoss]:
    """What is lost with each place."""
    parts = {place: f.parts_of(place) for place in f.station.places}
    numbers = {part: i + 1 for i, part in enumerate(sorted({p for found in parts.values() for p in found}))}
    survival = [(room, f.part_of_room(room)) for room in f.fire.survival]
    found = {}
    for place, own in parts.items():
        found[place] = PlaceLoss(
            place, numbers[min(own)], tuple(other for other, part in parts.items() if other != place and part & own),
            tuple(n for n, b in f.station.buildings.items() if b.place == place), f.sleepers(place), f.sleepers_in(own),
            tuple(s.what for s in f.fire.stores.values() if s.place == place),
            tuple(s.what for s in f.fire.services.values() if place in s.places and not s.spare),
            any(part & own for _, part in survival))  # fmt: skip
    return found


def border_checks(f: Facts, loss: dict[str, PlaceLoss]) -> tuple[Check, ...]:
    """All checks of borders and losses."""
    return (
        *_apart(f, loss), *_stores(f), *_beds(f, loss), _survival(f), *_neighbours(f), _separation(f), *_doors(f),
        not_checked(reason=SNOW, **f.names("Walls and roof of a burning trench", "snow_walls")),
    )  # fmt: skip


def _count(text: str, value: float) -> Step:
    return Step("n", "", (), value, "1", "own_rule", text)


def _apart(f: Facts, loss: dict[str, PlaceLoss]) -> list[Check]:
    """People who sleep in one compartment with plant or fuel."""
    checks = []
    for place in f.station.places:
        if f.hazard(place) != "extra":
            continue
        names = f.names("People asleep in one compartment with plant or fuel", "sleepers_apart", place)
        asleep = float(loss[place].sleepers_with_it)
        others = ", ".join(loss[place].with_it[:4]) or "no other place"
        checks.append(check(
            demand=asleep, limit=0.0, unit="1", ratio=0.0 if asleep == 0 else inf,
            working=(_count(f"people asleep where no shut fire door parts them from it; with it: {others}", asleep),),
            note="a door counts only while it is shut: closers tried in the cold, never wedged", **names))  # fmt: skip
    return checks


def _stores(f: Facts) -> list[Check]:
    """Stores that burn in the ways out."""
    checks = []
    for place in f.station.passages:
        names = f.names("Stores that burn in the way out", "stores_in_way", place)
        lying = [s.what for s in f.fire.stores.values() if s.place == place and s.combustible]
        known = ", ".join(lying) or "none in the file"
        checks.append(check(
            demand=float(len(lying)), limit=0.0, unit="1", ratio=inf if lying else 0.0,
            working=(_count(f"stores that burn in the passage: {known}", float(len(lying))),),
            note="counts what the file names; walk the passage and look", sources=("own_rule",), **names))  # fmt: skip
    return checks


def _beds(f: Facts, loss: dict[str, PlaceLoss]) -> list[Check]:
    """Beds lost with a compartment against beds kept free elsewhere: the worst compartment."""
    names = f.names("Beds for those who lose theirs", "beds")
    sleeping = {place: row for place, row in loss.items() if row.sleepers_with_it}
    if not sleeping:
        return []
    if not f.fire.spare_beds:
        return [not_checked(reason="no spare beds are named in the file", **names)]

    def spare(place: str) -> int:
        own = f.parts_of(place)
        return sum(n for b, n in f.fire.spare_beds.items() if not f.part_of_room(b) & own)

    worst = max(sleeping, key=lambda place: sleeping[place].sleepers_with_it - spare(place))
    lost, kept = float(sleeping[worst].sleepers_with_it), float(spare(worst))
    steps = (_count(f"people who sleep in the compartment of {worst}", lost),
             Step("m", "", (), kept, "1", "own_rule", "beds kept free outside it"))  # fmt: skip
    return [check(demand=lost, limit=kept, unit="1", working=steps, note=f"worst: {worst}", **names)]


def _survival(f: Facts) -> Check:
    names = f.names("People whose survival store burns with their beds", "survival")
    if not f.fire.survival:
        return not_checked(reason="no survival store is named in the file", **names)
    stores = [f.part_of_room(room) for room in f.fire.survival]
    left = 0.0
    for name, building in f.station.buildings.items():
        own = f.part_of_room(name)
        if building.people and all(part & own for part in stores):
            left += building.people
    return check(
        demand=left, limit=0.0, unit="1", ratio=0.0 if left == 0 else inf, sources=("aad_fire",),
        working=(_count("people who sleep in the only compartment with clothing, shelter, food and a radio", left),),
        **names)  # fmt: skip


def _neighbours(f: Facts) -> list[Check]:
    """Radiation from a burning building onto the next one in the same place."""
    checks = []
    cases = {fired.case.building: fired.case for fired in f.fired if fired.case.building}
    kinds = {(c.place, f.station.buildings[b].kit): c for b, c in cases.items()}
    for place in f.station.places:
        row = sorted((b.at, n) for n, b in f.station.buildings.items() if b.place == place)
        gaps = [(bt - at - f.station.kits[f.station.buildings[a].kit].length, a, b)
                for (at, a), (bt, b) in zip(row, row[1:], strict=False)]  # fmt: skip
        if not gaps:
            continue
        gap, a, b = min(gaps)
        case = cases.get(a) or kinds.get((place, f.station.buildings[a].kit))
        names = f.names("Radiation from a burning building onto its neighbour", "radiation", place)
        if case is None:
            checks.append(not_checked(reason=f"no fire is set in {a}", **names))
            continue
        chi, limit, power = f.fire.smoke.radiated, f.fire.limits.radiation, case.blaze.cap
        need = distance_point_source(power, limit, chi)
        size = fire_diameter(power / case.rate_per_area)
        steps = (
            Step("r", 'sqrt((chi Q_"m")/(4 pi q))', (("chi", chi, "1"), ('Q_"m"', power, "W"), ("q", limit, "W/m2")),
                 need, "m", "nureg_1805", f"distance from the middle of the fire in {a} at which {b} takes fire"),
            Step("D", 'sqrt((4 Q_"m")/(pi q_f))', (('Q_"m"', power, "W"), ("q_f", case.rate_per_area, "W/m2")), size,
                 "m", "statics", "diameter of that much burning floor"),
        )  # fmt: skip
        if gap < 2 * size:
            checks.append(not_checked(
                reason=f"{show(gap, 'm')} between {a} and {b} is less than two fire diameters, where the law does not "
                       "hold, and hot smoke under the roof radiates too: take both as lost together",
                working=steps, unit="m", demand=need, limit=gap, sources=("br_187",), **names))  # fmt: skip
            continue
        checks.append(check(demand=need, limit=gap, unit="m", working=steps, sources=("br_187",),
                            note="in the open; hot smoke under the roof radiates too and is not in it",
                            **names))  # fmt: skip
    return checks


def _separation(f: Facts) -> Check:
    """Least snow between two places that no opening joins."""
    names = f.names("Snow between two places", "separation")
    prints = {n: geometry.footprint(p, f.station.sections[p.section]) for n, p in f.station.places.items()}
    order, best = list(prints), (inf, "", "")
    for i, a in enumerate(order):
        for b in order[i + 1 :]:
            apart = -geometry.shared_depth(prints[a], prints[b])
            if apart > 0 and not _joined(f, a, b):
                best = min(best, (apart, a, b))
    apart, a, b = best
    if not isfinite(apart):
        return not_checked(reason="there are no two places with snow between them", **names)
    step = Step("d", "", (), apart, "m", "statics", f"least thickness of snow, between {a} and {b}")
    if f.fire.separation is None:
        return not_checked(
            reason=f"no published distance between snow trenches was found; the least here is {show(apart, 'm')}, "
                   f"between {a} and {b}", working=(step,), unit="m", **names)  # fmt: skip
    return check(demand=apart, limit=f.fire.separation, unit="m", at_least=True, working=(step,), **names,
                 note="limit: the engineer's own")  # fmt: skip


def _joined(f: Facts, a: str, b: str) -> bool:
    trenches = f.station.trenches
    return any(t in trenches and trenches[t].opens_into == p for t, p in ((a, b), (b, a)))


def _doors(f: Facts) -> list[Check]:
    """Force to open each door against warm smoke at the hottest that people bear: the worst door of the station."""
    names = f.names("Force that opens a fire door against smoke", "door_force")
    if not f.fire.doors:
        return [not_checked(reason="there are no fire doors in the file",
                            **f.names("Doors that keep smoke back", "doors"))]  # fmt: skip
    worst: tuple[float, str, float, float] = (-inf, "", 0.0, 0.0)
    for name, door in f.fire.doors.items():
        cold = f.station.places[door.place].air
        difference = pressure_stack(door.height, cold, f.smoke.temperature, f.smoke.pressure)
        worst = max(worst, (door_force(door.closer, door.width, door.height, difference), name, difference, cold))
    force, name, difference, cold = worst
    door = f.fire.doors[name]
    steps = (
        Step("p_d", "c P h (1/T_o - 1/T_i)", (("c", 0.034163, "K/m"), ("P", f.smoke.pressure, "Pa"),
             ("h", door.height, "m"), ("T_o", cold, "K"), ("T_i", f.smoke.temperature, "K")), difference, "Pa",
             "sfpe_handbook_5", f"{name}: cold air on one side, the hottest that people bear on the other"),
        Step("F", "F_c + (w (w h) p_d)/(2 (w - d))", (("F_c", door.closer, "N"), ("w", door.width, "m"),
             ("h", door.height, "m"), ("p_d", difference, "Pa"), ("d", 0.076, "m")), force, "N", "sfpe_handbook_5",
             "closer and pressure"),
    )  # fmt: skip
    return [check(
        demand=force, limit=f.fire.limits.door_force, unit="N", working=steps,
        note=f"worst: {name}; ice on the frame, a settled frame and wind through an open portal are not in it",
        **names)]  # fmt: skip
