"""What the schema cannot see: names that lead nowhere, things that do not fit in one another.

One small function per kind of mistake; each names the item and the cure.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from firnstead.core.errors import Problem
from firnstead.core.units import show
from firnstead.station import consistent_escape, consistent_places, geometry
from firnstead.station.build import ArchRoof
from firnstead.station.consistent_air import air_problems
from firnstead.station.consistent_fire import fire_problems
from firnstead.station.consistent_heat import heat_problems
from firnstead.station.consistent_pipes import pipe_problems
from firnstead.station.consistent_power import power_problems
from firnstead.station.consistent_water import water_problems
from firnstead.station.lines import Lines
from firnstead.station.model import Station
from firnstead.station.places import Place

Found = Iterator[tuple[tuple[str | int, ...], str, str]]
MAX_LINK = 15.0  # m; a longer hand-cut way is a passage of its own (own rule)
_FREEZING = 273.15


def problems(station: Station, lines: Lines, left_out: frozenset[str] = frozenset()) -> list[Problem]:
    """All inconsistencies of a station; `left_out` are top-level fields that could not be read."""
    found = [*_names(station, left_out), *_references(station, lines.tree), *_sections(station), *_axes(station)]
    if not left_out & {"site", "snow", "season"}:
        found += _site(station)
    found += air_problems(station, lines.tree)
    found += fire_problems(station, lines.tree)
    found += heat_problems(station)
    sound = _sound(station, {path[:2] for path, _, _ in found})
    found += [
        *_roofs_fit(sound),
        *_junctions(sound),
        *_overlaps(sound),
        *_along(sound),
        *_footings(sound),
        *_buildings(sound),
        *consistent_places.ends(sound),
        *consistent_places.clear_ways(sound),
        *power_problems(station, sound, lines.tree),
        *pipe_problems(sound, lines.tree),
        *water_problems(station, sound, lines.tree),
    ]
    found += consistent_escape.problems(sound, sound=not found and not left_out)
    return [lines.problem(path, what, cure) for path, what, cure in found]


def _sound(station: Station, wrong: set[tuple[str | int, ...]]) -> Station:
    """The entries whose own fields are sound and whose references lead to sound entries: geometry works on these."""

    def keep(group: str, **needs: Mapping[str, object]) -> dict[str, object]:
        return {
            name: item for name, item in getattr(station, group).items()
            if (group, name) not in wrong
            and all(getattr(item, field) in known or getattr(item, field) is None for field, known in needs.items())
        }  # fmt: skip

    sections, roofs, kits = keep("sections"), keep("roofs"), keep("kits")
    passages = keep("passages", section=sections, roof=roofs)
    trenches = keep("trenches", section=sections, roof=roofs, opens_into=passages)
    places = passages | trenches
    groups = {g: keep(g, place=places) for g in ("end_walls", "portals", "niches")}
    groups["hatches"] = keep("hatches", place=places, kind=keep("hatchways"))
    buildings = keep("buildings", place=places, kit=kits)
    return station.model_copy(update={**groups, "sections": sections, "roofs": roofs, "kits": kits,
                                      "passages": passages, "trenches": trenches, "buildings": buildings})  # fmt: skip


def _m(value: float) -> str:
    return show(value, "m")


def _names(station: Station, left_out: frozenset[str]) -> Found:
    for name in station.trenches.keys() & station.passages.keys():
        yield ("trenches", name), f"the name {name!r} is used for a passage and for a trench", "Rename one of them"
    for group in (
        "passages",
        "trenches",
        "buildings",
        "hatches",
        "sections",
        "roofs",
        "kits",
        "parts",
        "end_walls",
        "portals",
    ):
        for name in getattr(station, group):
            if not name.strip() or "\n" in name or len(name) > 60:
                yield (group, name), "the name is empty, too long or broken over lines", "Use a short name on one line"
    if not station.passages and not station.trenches and not left_out & {"passages", "trenches"}:
        yield ("passages",), "there is no passage and no trench", "Add at least one"
    if not station.millers and "machines" not in left_out:
        yield ("machines",), "there is no miller among the machines", "Add a machine of kind miller"


def _references(station: Station, written: Any) -> Found:
    def lead(path: tuple[str | int, ...], name: str, group: str, what: str) -> Found:
        # an entry that is there but wrong has a message of its own: a reference to it is not to nothing
        groups = ("passages", "trenches") if group == "places" else (group,)
        names = [str(n) for g in groups for n in (written.get(g) if isinstance(written.get(g), Mapping) else ())]
        if name not in names:
            near = get_close_matches(name, names, n=1, cutoff=0.5)
            cure = f"Did you mean {near[0]!r}?" if near else f"Known: {', '.join(map(str, names[:12])) or 'none yet'}"
            yield path, f"there is no {what} {name!r}", cure

    for group, places in (("passages", station.passages), ("trenches", station.trenches)):
        for name, place in places.items():
            yield from lead((group, name, "section"), place.section, "sections", "section")
            yield from lead((group, name, "roof"), place.roof, "roofs", "roof")
            if place.vehicle_over is not None:
                yield from lead((group, name, "vehicle_over"), place.vehicle_over, "machines", "machine")
    for name, trench in station.trenches.items():
        if trench.opens_into is not None:
            yield from lead(("trenches", name, "opens_into"), trench.opens_into, "passages", "passage")
    for group in ("end_walls", "portals", "hatches", "buildings", "niches"):
        for name, item in getattr(station, group).items():
            yield from lead((group, name, "place"), item.place, "places", "place")
    for name, portal in station.portals.items():
        if portal.vehicle is not None:
            yield from lead(("portals", name, "vehicle"), portal.vehicle, "machines", "machine")
    for name, hatch in station.hatches.items():
        yield from lead(("hatches", name, "kind"), hatch.kind, "hatchways", "kind of hatch")
    for name, building in station.buildings.items():
        yield from lead(("buildings", name, "kit"), building.kit, "kits", "kit")
    for group, holders in (("kits", station.kits), ("hatchways", station.hatchways)):
        for name, holder in holders.items():
            for part in holder.parts:
                yield from lead((group, name, "parts", part), part, "parts", "part")
            if hasattr(holder, "extension_part"):
                yield from lead((group, name, "extension_part"), holder.extension_part, "parts", "part")
    for name, kit in station.kits.items():
        for field in ("jack_part", "shim_part"):
            named = getattr(kit.footings, field, None)
            if named is not None:
                yield from lead(("kits", name, "footings", field), named, "parts", "part")
    for part in station.stores:
        yield from lead(("stores", part), part, "parts", "part")


def _site(station: Station) -> Found:
    if station.site.mean_temperature >= _FREEZING:
        yield (
            ("site", "mean_temperature"),
            "the mean temperature is not below freezing",
            "Snow stations need cold snow; check the sign",
        )
    if station.snow.milled.temperature >= _FREEZING:
        yield (
            ("snow", "milled", "temperature"),
            "milled snow at the melting point does not harden",
            "Give the temperature below 0 degC",
        )
    for group, places in (("passages", station.passages), ("trenches", station.trenches)):
        for name, place in places.items():
            if place.air >= _FREEZING:
                yield (group, name, "air"), "the air is not below freezing", "A trench in snow must stay below 0 degC"
    if station.season.end <= station.season.start:
        yield ("season", "end"), "the season ends before it starts", "Give an end after the start"
    milled = station.snow.milled
    if milled.age_exponent_low > milled.age_exponent_high:
        yield ("snow", "milled", "age_exponent_low"), "the low exponent is above the high one", "Swap them"
    if (milled.measured_strength is None) != (milled.measured_age is None):
        yield (
            ("snow", "milled", "measured_strength"),
            "a measured strength needs its age, and an age its strength",
            "Give both or neither",
        )
    if station.season.shift_length * station.season.shifts_per_day > 24:
        yield ("season", "shifts_per_day"), "the shifts add up to more than 24 hours", "Shorten them or take fewer"
    last = 0.0
    for i, layer in enumerate(station.snow.layers):
        if layer.bottom <= layer.top or layer.top < last - 1e-6:
            yield (
                ("snow", "layers", i),
                "the layers are not in order from the surface down",
                "Sort them; each bottom below its top",
            )
        last = layer.bottom


def _sections(station: Station) -> Found:
    for name, s in station.sections.items():
        at = ("sections", name)
        if s.kind == "straight" and abs(s.floor_width - s.top_width) > 1e-6:
            yield (
                (*at, "floor_width"),
                "a straight section is as wide at the floor as at the top",
                "Make them equal or write `kind: undercut`",
            )
        if s.kind == "undercut":
            if s.floor_width <= s.top_width:
                yield (
                    (*at, "floor_width"),
                    "an undercut section is wider at the floor than at the top",
                    "Widen the floor or write `kind: straight`",
                )
            if s.undercut_from is None:
                yield at, "an undercut section needs `undercut_from`", "Give the depth at which the widening starts"
            elif not s.bench_depth <= s.undercut_from < s.depth:
                yield (
                    (*at, "undercut_from"),
                    "the widening does not start between the bench and the floor",
                    f"Choose between {_m(s.bench_depth)} and {_m(s.depth)}",
                )
        elif s.undercut_from is not None:
            yield (
                (*at, "undercut_from"),
                "a straight section has no undercut",
                "Remove the line or write `kind: undercut`",
            )
        if s.bench_depth >= s.depth:
            yield (*at, "bench_depth"), "the bench lies below the floor", f"Make it less than the depth, {_m(s.depth)}"


def _axes(station: Station) -> Found:
    for group, places in (("passages", station.passages), ("trenches", station.trenches)):
        for name, place in places.items():
            by_end, by_bearing = place.end is not None, place.bearing is not None or place.length is not None
            if by_end == by_bearing or (by_bearing and (place.bearing is None or place.length is None)):
                yield (group, name), "the axis is not given in one way", "Give either `end`, or `bearing` and `length`"
            elif geometry.axis(place).length < 0.5:
                yield (group, name), "the axis is shorter than 0.5 m", "Check start and end"
            if max(abs(v) for v in place.start + (place.end or (0.0, 0.0))) > 20_000:
                yield (
                    (group, name, "start"),
                    "the place lies more than 20 km from the grid's origin",
                    "Check the coordinates",
                )


def _level(station: Station, place: Place) -> float:
    return -station.sections[place.section].depth if place.floor_level is None else place.floor_level


def _roofs_fit(station: Station) -> Found:
    for group, places in (("passages", station.passages), ("trenches", station.trenches)):
        for name, place in places.items():
            section, roof = station.sections[place.section], station.roofs[place.roof]
            widest = section.top_width + 2 * section.bench_width
            if roof.span < section.top_width - 1e-6:
                yield (
                    (group, name, "roof"),
                    f"the roof's span {_m(roof.span)} is less than the cut's top width {_m(section.top_width)}",
                    "Choose a wider roof or a narrower section",
                )
            if isinstance(roof, ArchRoof):
                foot = roof.span + 2 * (roof.plank.width / 2)
                if foot > widest + 1e-6 and section.bench_width > 0:
                    yield (
                        (group, name, "roof"),
                        f"the arch with its planks, {_m(foot)}, is wider than its section's seat, {_m(widest)}",
                        "Widen the bench or choose a narrower arch",
                    )
                if roof.rise > roof.span / 2 + 1e-6:
                    yield (
                        ("roofs", place.roof, "rise"),
                        "the rise is more than half the span",
                        "A circular arch cannot stand higher than that",
                    )
            if abs(_level(station, place) + section.depth) > 0.3:
                yield (
                    (group, name, "floor_level"),
                    f"the floor level does not fit the section's depth {_m(section.depth)}",
                    "Make the level minus the depth, or change the section (0.3 m of unevenness is allowed)",
                )


def _junctions(station: Station) -> Found:
    for name, trench in station.trenches.items():
        if trench.opens_into is None:
            continue
        met = geometry.junction(station, trench)
        if met is None:
            yield (
                ("trenches", name, "opens_into"),
                f"the axis does not lead to the side of {trench.opens_into!r}",
                "Start the trench at the passage, and let it run away from it",
            )
        elif met.gap > MAX_LINK:
            yield (
                ("trenches", name, "start"),
                f"the trench starts {_m(met.gap)} from the wall of {trench.opens_into!r}",
                f"Start it within {_m(MAX_LINK)}, or add a passage",
            )
        elif met.overlap >= geometry.axis(trench).length:
            yield (
                ("trenches", name),
                f"the trench lies wholly inside {trench.opens_into!r}",
                "Make it longer, or turn it round",
            )
        elif met.gap > 0.05 and trench.link is None:
            yield (
                ("trenches", name),
                f"{_m(met.gap)} of snow is left to {trench.opens_into!r} and no way through is given",
                "Add `link:` with width and height, or start the trench at the passage's wall",
            )


def _overlaps(station: Station) -> Found:
    names = list(station.places)
    prints = {n: geometry.footprint(p, station.sections[p.section]) for n, p in station.places.items()}
    for i, a in enumerate(names):
        for b in names[i + 1 :]:
            if _joined(station, a, b):
                continue
            depth = geometry.shared_depth(prints[a], prints[b])
            if depth > 0.01:
                group = "trenches" if b in station.trenches else "passages"
                yield (group, b), f"it overlaps {a!r} by {_m(depth)}", "Move or shorten one of them"


def _joined(station: Station, a: str, b: str) -> bool:
    """Whether two places are meant to meet: a trench and its passage, or two passages."""
    if a in station.passages and b in station.passages:
        return True
    return any(t in station.trenches and station.trenches[t].opens_into == p for t, p in ((a, b), (b, a)))


def _along(station: Station) -> Found:
    for group in ("hatches", "niches"):
        for name, item in getattr(station, group).items():
            length = geometry.axis(station.places[item.place]).length
            if item.at > length:
                yield (
                    (group, name, "at"),
                    f"it lies outside {item.place!r}, which is {_m(length)} long",
                    "Give a distance from the start of the axis",
                )


def _footings(station: Station) -> Found:
    for name, kit in station.kits.items():
        if kit.footings is None:
            continue
        for field, count, size, room in (
            ("width", kit.footings.rows, kit.footings.width, kit.width),
            ("length", kit.footings.per_row, kit.footings.length, kit.length),
        ):
            if count * size > room + 1e-6:
                yield (
                    ("kits", name, "footings", field),
                    f"{count} footings of {_m(size)} do not fit in the building's {field}, {_m(room)}",
                    "Take fewer or smaller footings",
                )


def _buildings(station: Station) -> Found:
    taken: dict[str, list[tuple[float, float, str]]] = {}
    for name, building in station.buildings.items():
        place, kit = station.places[building.place], station.kits[building.kit]
        section, length = station.sections[place.section], geometry.axis(place).length
        near, far = building.at, building.at + kit.length
        if far > length + 1e-6:
            yield (
                ("buildings", name, "at"),
                f"it ends at {_m(far)}, outside {building.place!r}, which is {_m(length)} long",
                "Move it",
            )
        if kit.width > section.floor_width:
            yield (
                ("buildings", name, "kit"),
                f"the building is {_m(kit.width)} wide and the floor only {_m(section.floor_width)}",
                "Choose a wider section or another kit",
            )
        for other_near, other_far, other in taken.setdefault(building.place, []):
            if near < other_far - 1e-6 and other_near < far - 1e-6:
                yield (
                    ("buildings", name, "at"),
                    f"it stands in the same spot as {other!r}",
                    "Move one of them along the axis",
                )
        taken[building.place].append((near, far, name))
