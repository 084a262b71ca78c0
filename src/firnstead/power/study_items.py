"""What must be bought and done for power: sets, boards, cable, transformers, tanks, fuel."""

from __future__ import annotations

from typing import Any

from firnstead.core.results import Exposure, WorkItem
from firnstead.core.units import show
from firnstead.power.case import Case
from firnstead.power.numbers import Numbers
from firnstead.power.outcome import construction_of, drums_of, resupply_of
from firnstead.power.stock import containers_needed

PEOPLE = 2  # nobody works alone on power (own rule)
SET_HOURS, BOARD_HOURS, TANK_HOURS = 24.0, 8.0, 6.0  # person-hours each (own rule)
LAY_RATE = 10.0  # metres of cable laid and fastened by one person in an hour (own rule)
CONSTRUCTION = "station.power.construction"


def power_items(n: Numbers, places: frozenset[str]) -> tuple[WorkItem, ...]:
    """Work items in order; `places` are those that are cut."""
    case = n.case
    return (*_construction(case), *_boards(case, places), *_cables(case), *_sets(case, places), *_tanks(case, places),
            *_fuel(n))  # fmt: skip


def _ready(place: str, places: frozenset[str]) -> tuple[str, ...]:
    return (f"{place}.cutting.cut",) if place in places else ()


def _item(id: str, place: str, what: str, quantity: float, unit: str, hours: float, after: tuple[str, ...],
          exposure: Exposure = Exposure.UNDER_ROOF, **more: Any) -> WorkItem:  # fmt: skip
    return WorkItem(id, place, "power", what, quantity, unit, people=PEOPLE, hours=hours / PEOPLE, exposure=exposure,
                    after=after, **more)  # fmt: skip


def _construction(case: Case) -> tuple[WorkItem, ...]:
    c, found = case.construction, construction_of(case)
    if c is None or found is None:
        return ()
    part = c.part or "generator set for building"
    return (
        _item(CONSTRUCTION, "station", "Set up power for building", float(c.count), "sets", 8.0 * c.count, (),
              Exposure.OUTDOOR, mass=c.count * c.mass, volume=c.count * c.volume, parts=((part, float(c.count)),),
              note="first of all work; it goes on until the station's own plant runs"),
        _item("station.power.construction_fuel", "station", "Fuel for building", found.fuel, "kg", 0.0, (),
              Exposure.OUTDOOR, mass=found.fuel, volume=found.fuel / case.fuel.density,
              note="for the sets alone; tractors and millers take their own"),
    )  # fmt: skip


def _boards(case: Case, places: frozenset[str]) -> tuple[WorkItem, ...]:
    return tuple(
        _item(f"{b.name}.power.board", b.place, f"Set board {b.name}", 1.0, "board", BOARD_HOURS, _ready(b.place,
              places),
              mass=b.mass, volume=b.volume, parts=((b.part or f"board {b.name}", 1.0),))
        for b in case.boards
    )  # fmt: skip


def _cables(case: Case) -> tuple[WorkItem, ...]:
    items: list[WorkItem] = []
    cables = {f.cable.name: f.cable for f in case.feeders}
    for name, length, drums, mass in drums_of(case):
        c = cables[name]
        joints = sum(int(f.length // c.drum_length) * f.parallel for f in case.feeders if f.cable.name == name)
        items.append(_item(
            f"{name}.power.drums", "station", f"Cable {name}, {c.size} {c.metal}", float(drums), "drums", 0.0, (),
            Exposure.OUTDOOR, mass=mass + drums * c.drum_mass, volume=drums * c.drum_volume,
            parts=((f"drum of {name}", float(drums)),),
            note=f"{show(length, 'm')} in lengths, {show(c.drum_length, 'm')} on a drum"
                 + (f", {joints} joints" if joints else "")))  # fmt: skip
    for f in case.feeders:
        after = (f"{f.start}.power.board", f"{f.end}.power.board")
        place = f.legs[0][0] if f.legs else "station"
        items.append(_item(
            f"{f.name}.power.lay", place, f"Lay feeder {f.name}", f.length * f.parallel, "m",
            f.length * f.parallel / LAY_RATE, after,
            note="switched off and locked; slack for moving snow; clear of walking lines; tested before it is "
                 "live"))  # fmt: skip
        if f.transformer is not None:
            items.append(_item(
                f"{f.name}.power.transformers", place, f"Transformers of feeder {f.name}", 2.0, "transformers", 16.0,
                after,
                mass=2 * f.transformer[3], volume=2 * f.transformer[4],
                parts=((f"transformer of {f.name}", 2.0),)))  # fmt: skip
    return tuple(items)


def _sets(case: Case, places: frozenset[str]) -> tuple[WorkItem, ...]:
    return tuple(
        _item(f"{s.name}.power.sets", s.place if s.place in places else "station",
              f"Set up and test generator sets {s.name}", float(s.count), "sets",
              SET_HOURS * s.count, (*_ready(s.place, places), f"{s.board}.power.board"), mass=s.count * s.mass,
              volume=s.count * s.volume, parts=((s.part or f"generator set {s.name}", float(s.count)),),
              exposure=Exposure.UNDER_ROOF if s.place in places else Exposure.OUTDOOR,
              note=f"{show(s.engine.rated, 'W')} each, {show(s.engine.power, 'W')} at the site; exhaust, intake, "
                   "alarms for carbon monoxide and fire first")
        for s in case.sets
    )  # fmt: skip


def _tanks(case: Case, places: frozenset[str]) -> tuple[WorkItem, ...]:
    return tuple(
        _item(f"{t.name}.power.tank", t.place if t.place in places else "station", f"Set fuel tanks {t.name}",
              float(t.count), "tanks", TANK_HOURS * t.count, _ready(t.place, places), mass=t.count * t.mass,
              volume=t.count * t.packed, parts=((f"fuel tank {t.name}", float(t.count)),),
              exposure=Exposure.UNDER_ROOF if t.place in places else Exposure.OUTDOOR,
              note=f"{show(t.volume, 'm3')} each; bonded, bunded, clear of doors and hatches")
        for t in case.fuel.tanks
    )  # fmt: skip


def _fuel(n: Numbers) -> tuple[WorkItem, ...]:
    fuel, found = n.case.fuel, resupply_of(n)
    if found.needed <= 0:
        return ()
    mass = found.needed * (1 + fuel.reserve)
    volume = mass / fuel.density
    parts: tuple[tuple[str, float], ...] = ()
    note = "in bulk: it is not on the packing list"
    if fuel.container is not None:
        parts = ((fuel.container, float(containers_needed(volume, fuel.container_volume))),)
        note = f"in containers of {show(fuel.container_volume, 'm3')}"
    return (_item("station.power.fuel", "station", "Fuel until the next resupply, with the reserve", mass, "kg", 0.0,
                  (),
                  Exposure.OUTDOOR, mass=mass, volume=volume, parts=parts, note=note),)  # fmt: skip
