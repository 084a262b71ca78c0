"""Mistakes in the water part of a station file that the schema cannot see."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from firnstead.core.units import show
from firnstead.station.model import Station
from firnstead.station.water import Spot, Water, Well
from firnstead.station.water_spots import distance_to_cut, head_depth, spot_place, spot_point

Where = tuple[str | int, ...]
Found = Iterator[tuple[Where, str, str]]
AT = ("water",)
Shaft = tuple[Where, str, Spot, float]


def water_problems(station: Station, sound: Station, written: Any) -> Found:
    """All inconsistencies of the water part; `sound` holds the places that geometry can work on."""
    water = station.water
    if water is None:
        return
    yield from _references(water, written)
    yield from _demand(water)
    yield from _machinery(water.well)
    for shaft in _shafts(water):
        yield from _spot(sound, shaft)
    yield from _apart(sound, water)


def _lead(path: Where, name: str | None, written: Any, groups: tuple[str, ...], what: str) -> Found:
    entries = [written.get(group) for group in groups] if isinstance(written, Mapping) else []
    names = [str(key) for entry in entries if isinstance(entry, Mapping) for key in entry]
    if name is None or name in names:
        return
    near = get_close_matches(name, names, n=1, cutoff=0.5)
    cure = f"Did you mean {near[0]!r}?" if near else f"Known: {', '.join(names[:12]) or 'none yet'}"
    yield path, f"there is no {what} {name!r}", cure


def _references(water: Water, written: Any) -> Found:
    places = ("passages", "trenches")
    well = water.well
    for path, _, spot, _ in _shafts(water):
        yield from _lead((*path, "niche"), spot.niche, written, ("niches",), "niche")
    for name, tank in water.tanks.items():
        yield from _lead((*AT, "tanks", name, "place"), tank.place, written, places, "place")
        yield from _lead((*AT, "tanks", name, "part"), tank.part, written, ("parts",), "part")
    for i, name in enumerate(water.fuel_places):
        yield from _lead((*AT, "fuel_places", i), name, written, places, "place")
    for name, source in well.heat.items():
        yield from _lead((*AT, "well", "heat", name, "part"), source.part, written, ("parts",), "part")
    for field, holder in (("pump", well.pump), ("hose", well.hose), ("steam", well.steam)):
        yield from _lead((*AT, "well", field, "part"), holder.part, written, ("parts",), "part")
    if water.sump is not None:
        yield from _lead((*AT, "sump", "hose_part"), water.sump.hose_part, written, ("parts",), "part")


def _demand(water: Water) -> Found:
    for i, people in enumerate(water.people):
        if not 0 <= people <= 5000:
            yield (*AT, "people", i), "the number of people is not between 0 and 5,000", "Give people in each month"
    if not any(use.per_head * max(water.people, default=0.0) + use.steady > 0 for use in water.uses.values()):
        yield (*AT, "uses"), "nobody uses water", "Give at least one use above 0"


def _machinery(well: Well) -> Found:
    at = (*AT, "well")
    shaft = well.shaft_diameter
    if well.pump.width >= shaft:
        yield (*at, "pump", "width"), "pump and hoses do not fit into the shaft", f"Less than {show(shaft, 'm')}"
    if well.steam.head > shaft:
        yield (*at, "steam", "head"), "the melting head is wider than the shaft", f"At most {show(shaft, 'm')}"
    if well.delivery + well.start_depth > well.pump.lift:
        yield (
            (*at, "pump", "lift"),
            "the pump does not lift from the pool's first level",
            f"At least {show(well.delivery + well.start_depth, 'm')}, and more for the years",
        )
    if well.pump.submergence < well.pump.least_depth:
        yield (
            (*at, "pump", "submergence"),
            "the pump hangs in less water than it needs",
            f"At least {show(well.pump.least_depth, 'm')}",
        )


def _shafts(water: Water) -> tuple[Shaft, ...]:
    """Path, name, spot and diameter of every shaft."""
    wells = [((*AT, "next_wells", i), f"well {i + 2}", spot, water.well.shaft_diameter)
             for i, spot in enumerate(water.next_wells)]  # fmt: skip
    sump = [((*AT, "sump"), "sump", water.sump, water.sump.shaft_diameter)] if water.sump is not None else []
    return (((*AT, "well"), "well", water.well, water.well.shaft_diameter), *wells, *sump)


def _spot(station: Station, shaft: Shaft) -> Found:
    path, name, spot, diameter = shaft
    if (spot.niche is None) == (spot.at is None):
        yield path, f"the {name} has no place of its own", "Give either `niche` or `at`"
        return
    if spot.niche is not None and spot.niche in station.niches:
        niche = station.niches[spot.niche]
        room = min(niche.width, niche.depth)
        if room < diameter:
            yield (
                (*path, "niche"),
                f"the shaft is {show(diameter, 'm')} wide and the niche only {show(room, 'm')}",
                "Make the niche larger",
            )
    depth = spot.start_depth if isinstance(spot, Well) else getattr(spot, "depth", None)
    head = head_depth(station, spot)
    if depth is not None and depth <= head:
        field = "start_depth" if isinstance(spot, Well) else "depth"
        yield (*path, field), f"the foot of the {name}'s shaft lies above its head", f"More than {show(head, 'm')}"
    if isinstance(spot, Well) and spot.hose.length + head < spot.start_depth:
        yield (
            (*path, "hose", "length"),
            "the hose does not reach the pool",
            f"At least {show(spot.start_depth - head, 'm')}, and more for the years",
        )
    point, own = spot_point(station, spot), spot_place(station, spot)
    if point is None:
        return
    for cut in station.places:
        if cut != own and distance_to_cut(station, cut, point) < diameter / 2:
            yield (
                (*path, "at") if spot.at is not None else (*path, "niche"),
                f"the {name}'s shaft goes through the floor of {cut!r}",
                "Put it into a niche of its own beside the place, or clear of every cut",
            )


def _apart(station: Station, water: Water) -> Found:
    """Sump and wells never share a shaft, and the sump is no nearer than its own radius."""
    sump = water.sump
    if sump is None:
        return
    here = spot_point(station, sump)
    radius = (1.5 * sump.cavity / math.pi) ** (1 / 3) + sump.shaft_diameter / 2
    for _, name, spot, diameter in _shafts(water):
        there = spot_point(station, spot)
        if spot is sump or here is None or there is None:
            continue
        if spot.niche is not None and spot.niche == sump.niche:
            yield (*AT, "sump", "niche"), f"sump and {name} share a niche", "Never mix the two: give each its own"
        elif math.dist(here, there) < radius + diameter / 2:
            yield (
                (*AT, "sump"),
                f"the sump is {show(math.dist(here, there), 'm')} from the {name}, nearer than its own radius",
                "Move it far away; the check of distance says how far",
            )
