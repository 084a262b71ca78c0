"""What the schema cannot see in the heat part: names that lead nowhere, parts that contradict one another."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from difflib import get_close_matches

from firnstead.core.units import show
from firnstead.station.heat import Envelope, Gap, Heat
from firnstead.station.model import Station

Found = Iterator[tuple[tuple[str | int, ...], str, str]]
FREEZING = 273.15


def heat_problems(station: Station) -> Found:
    """All inconsistencies of the heat part."""
    heat = station.heat
    if heat is None:
        return
    yield from _names(station, heat)
    for name, envelope in heat.envelopes.items():
        yield from _envelope(station, ("heat", "envelopes", name), envelope, name)
    yield from _air(station, heat)
    yield from _limits(station, heat)


def _lead(path: tuple[str | int, ...], name: str, known: Iterable[str], what: str) -> Found:
    names = list(known)
    if name not in names:
        near = get_close_matches(name, names, n=1, cutoff=0.5)
        cure = f"Did you mean {near[0]!r}?" if near else f"Known: {', '.join(names[:12]) or 'none yet'}"
        yield path, f"there is no {what} {name!r}", cure


def _names(station: Station, heat: Heat) -> Found:
    for name in heat.envelopes:
        yield from _lead(("heat", "envelopes", name), name, station.kits, "kit")
    for name in heat.rooms:
        yield from _lead(("heat", "rooms", name), name, station.buildings, "building")
    for name in heat.places:
        yield from _lead(("heat", "places", name), name, station.places, "passage or trench")
    for name, heater in heat.heaters.items():
        for i, served in enumerate(heater.serves):
            yield from _lead(("heat", "heaters", name, "serves", i), served, station.buildings, "building")
        if heater.part is not None:
            yield from _lead(("heat", "heaters", name, "part"), heater.part, station.parts, "part")
        if heater.kind == "waste heat" and heater.efficiency < 1:
            yield (
                ("heat", "heaters", name, "efficiency"),
                "waste heat has no efficiency: it burns nothing of its own",
                "Remove the line; give as output what reaches the rooms",
            )
    for name, envelope in heat.envelopes.items():
        if envelope.gap.part is not None:
            yield from _lead(("heat", "envelopes", name, "gap", "part"), envelope.gap.part, station.parts, "part")
    for name, air in (("", heat.place), *heat.places.items()):
        at = ("heat", "places", name) if name else ("heat", "place")
        for group in ("vents", "wells"):
            for i, item in enumerate(getattr(air, group)):
                if item.part is not None:
                    yield from _lead((*at, group, i, "part"), item.part, station.parts, "part")


def _envelope(station: Station, at: tuple[str, ...], envelope: Envelope, kit: str) -> Found:
    for field in ("walls", "roof", "floor"):
        panel = getattr(envelope, field)
        if bool(panel.layers) == (panel.u is not None):
            yield (
                (*at, field),
                "neither layers nor a transmittance is given" if panel.u is None else "both are given",
                "Give either `layers` or `u`",
            )
        for i, layer in enumerate(panel.layers):
            if layer.on_site and layer.density is None:
                yield (
                    (*at, field, "layers", i),
                    "what is put on at the site has no density, so it cannot be weighed",
                    "Add `density`",
                )
    if (envelope.air_change is None) == (envelope.leak_area is None):
        yield at, "the leak of air is not given in one way", "Give either `air_change` or `leak_area`"
    yield from _gap((*at, "gap"), envelope.gap)
    found = station.kits.get(kit)
    if found is not None:
        if envelope.gap.height is None and found.footing_height <= 0:
            yield (*at, "gap"), "the kit has no footing height, so the gap has none", "Give `height`"
        if envelope.gap.height is not None and envelope.gap.height > found.footing_height + 1e-6:
            yield (
                (*at, "gap", "height"),
                f"the gap is higher than the kit's footing height, {show(found.footing_height, 'm')}",
                "Lower it, or raise the kit's footing height",
            )
        walls = 2 * (found.length + found.width) * found.height
        if envelope.opening_area > walls:
            yield (
                (*at, "opening_area"),
                f"doors and windows are larger than the walls, {show(walls, 'm2')}",
                "Check the area",
            )


def _gap(at: tuple[str, ...], gap: Gap) -> Found:
    if (gap.kind == "closed") != (gap.flow == 0):
        yield (
            (*at, "flow"),
            "a closed gap has no flow" if gap.kind == "closed" else f"a gap swept by {gap.kind} needs its flow",
            "Remove the flow or change the kind" if gap.kind == "closed" else "Give `flow`, or write `kind: closed`",
        )
    if (gap.kind == "well air") != (gap.supply_temperature is not None):
        yield (
            (*at, "supply_temperature"),
            "only well air has a supply temperature, and it must have one",
            "Give it with `kind: well air`, and only then",
        )


def _air(station: Station, heat: Heat) -> Found:
    coldest = getattr(getattr(station, "site", None), "mean_temperature", None)
    supplies = [(("heat", "envelopes", name, "gap", "supply_temperature"), envelope.gap.supply_temperature)
                for name, envelope in heat.envelopes.items()]  # fmt: skip
    for name, air in (("", heat.place), *heat.places.items()):
        at: tuple[str, ...] = ("heat", "places", name) if name else ("heat", "place")
        for i, vent in enumerate(air.vents):
            needed = "area" if vent.kind == "gravity" else "flow"
            if getattr(vent, needed) <= 0:
                yield (*at, "vents", i, needed), f"a {vent.kind} vent needs its {needed}", f"Give `{needed}`"
            if vent.kind == "gravity" and (vent.flow > 0 or vent.fan_power > 0):
                yield (
                    (*at, "vents", i),
                    "a gravity vent has no fan",
                    "Remove `flow` and `fan_power`, or write `kind: fan`",
                )
        supplies += [((*at, "wells", i, "supply_temperature"), w.supply_temperature)  # type: ignore[misc]
                     for i, w in enumerate(air.wells)]  # fmt: skip
    for path, supply in supplies:
        if supply is not None and coldest is not None and supply < coldest - 1e-6:
            yield (
                path,
                f"air drawn through the snow is no colder than the snow, {show(coldest, 'K')} here",
                "Give the temperature that was measured",
            )


def _limits(station: Station, heat: Heat) -> Found:
    limits = [(("heat", "limit"), heat.limit), (("heat", "floor_limit"), heat.floor_limit)]
    limits += [(("heat", "places", n, "limit"), a.limit) for n, a in heat.places.items() if a.limit]  # type: ignore[misc]
    for path, value in limits:
        if value >= FREEZING:
            yield path, "the limit is not below freezing", "Snow at the melting point carries nothing"
    for name, room in heat.rooms.items():
        if room.temperature is None and (room.ventilation > 0 or room.people or room.equipment > 0 or room.lamps > 0):
            yield (
                ("heat", "rooms", name),
                "the building is not heated, but it has people, fresh air or things that give off heat",
                "Give its temperature, or put those into the place",
            )
    if heat.room.temperature is None and not any(room.temperature for room in heat.rooms.values()):
        yield ("heat", "room"), "no building is heated", "Give a temperature, or leave the heat part out"
