"""What must be hung, built and looked at again: extinguishers, detectors, alarm points, doors, rounds."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firnstead.core.results import Exposure, WorkItem
from firnstead.fire.study_facts import Facts
from firnstead.station.build import FormedRoof

HANGING = 0.5  # person-hours to hang and mark one (own rule)
WIRING = 2.0  # person-hours to hang, wire and try one detector or alarm point (own rule)
DOOR = 8.0  # person-hours to set one door with its wall and closer (own rule)
LOOKING = 0.1  # person-hours to look at one thing on a round (own rule)
PEOPLE = 2
GROUPS = (("extinguishers", "extinguishers", "Hang extinguishers in", HANGING),
          ("detectors", "detectors", "Hang, wire and try detectors in", WIRING),
          ("alarm_points", "alarm points", "Hang, wire and try alarm points in", WIRING),
          ("doors", "doors", "Set fire doors of", DOOR))  # fmt: skip


def items_of(f: Facts) -> tuple[WorkItem, ...]:
    """Work items by place, then the rounds of the whole station."""
    found = []
    for group, unit, what, hours in GROUPS:
        for place in f.station.places:
            here = {n: i for n, i in getattr(f.fire, group).items() if _place(f, i.place) == place}
            if here:
                found.append(_item(f, place, group, f"{what} {place}", unit, here, hours))
    return (*found, *_rounds(f))


def _place(f: Facts, name: str) -> str:
    return f.station.buildings[name].place if name in f.station.buildings else name


def _item(f: Facts, place: str, group: str, what: str, unit: str, here: Mapping[str, Any], hours: float) -> WorkItem:
    parts: dict[str, float] = {}
    for item in here.values():
        if item.part is not None:
            parts[item.part] = parts.get(item.part, 0.0) + 1.0
    volume = sum(f.station.parts[part].volume * count for part, count in parts.items())
    listed = "" if sum(parts.values()) == len(here) else "; those without a part are not on the packing list"
    formed = isinstance(f.station.roofs[f.station.places[place].roof], FormedRoof)
    return WorkItem(
        f"{place}.fire.{group}", place, "fire", what, float(len(here)), unit, mass=sum(i.mass for i in here.values()),
        volume=volume, crew="building" if "building" in f.station.crews else "", people=PEOPLE,
        hours=hours * len(here) / PEOPLE, exposure=Exposure.UNDER_ROOF,
        after=(f"{place}.cutting.cut", f"{place}.roof.{'strip' if formed else 'arches'}"),
        parts=tuple(parts.items()), note=f"{', '.join(here)}{listed}")  # fmt: skip


def _rounds(f: Facts) -> tuple[WorkItem, ...]:
    """Rounds once the station stands; not work of the building season."""
    fire = f.fire
    things = len(fire.extinguishers) + len(fire.detectors) + len(fire.alarm_points) + len(fire.doors)
    rounds: list[WorkItem] = []
    if things:
        rounds.append(WorkItem(
            "station.fire.round", "", "fire", "Monthly fire round", float(things), "things", people=PEOPLE,
            hours=LOOKING * things / PEOPLE, exposure=Exposure.UNDER_ROOF,
            note="every month: extinguishers in place, pressed and free; detectors tried with test smoke or heat, cold "
                 "as they hang; alarm heard in every bed; doors shut by themselves and latch, frames free of ice; "
                 "nothing that burns in the passages"))  # fmt: skip
    if fire.water is not None and fire.water.tanks:
        rounds.append(WorkItem(
            "station.fire.water", "", "fire", "Weekly look at the fire water", float(len(fire.water.tanks)), "tanks",
            people=1, hours=0.25 * len(fire.water.tanks), exposure=Exposure.UNDER_ROOF,
            note="every week: level, temperature, alarm; run the pump; lines dry or moving"))  # fmt: skip
    return tuple(rounds)
