"""Inspection rounds and drills as work items."""

from __future__ import annotations

from firnstead.core.results import Exposure, WorkItem
from firnstead.core.units import YEAR
from firnstead.station import Station

MONTH = YEAR / 12
HATCH = 0.5  # person-hours to test one hatch from inside, look over its ladder and dig its lid free (own rule)
ROUND = 0.1  # person-hours for one door, alarm point or way (own rule)
DRILL = 0.75  # hours of everybody for one drill (own rule)
PAIR = 2  # people: nobody goes up a hatch or out in the cold alone (own rule)


def inspection_items(station: Station) -> tuple[WorkItem, ...]:
    """What is done every month, after every storm and before people move in."""
    items: list[WorkItem] = []
    people = max(sum(b.people for b in station.buildings.values()), 1)
    for name, hatch in station.hatches.items():
        after = (f"{hatch.place}.walls.hatch.{name}",)
        items.append(
            _item(
                f"{name}.escape.hatch",
                hatch.place,
                f"Inspect {name}",
                1.0,
                "round",
                HATCH,
                Exposure.OUTDOOR,
                after,
                "every month and after every storm: open it from inside with the snow of the season on it; ladder "
                "whole and clear, digging tool inside and outside, lamp, pole above the drift; dig the drift off; "
                "extend it when the collar is short",
            )
        )
    for name, portal in station.portals.items():
        items.append(_item(
            f"{name}.escape.portal", portal.place, f"Inspect {name}", 1.0, "round", HATCH, Exposure.OUTDOOR, (),
            "every month and after every storm: doors open fully, ramp clear of drift, way marked"))  # fmt: skip
    doors = sum(2 if station.kits[b.kit].doors == "both" else 1 for b in station.buildings.values())
    doors += sum(wall.door is not None for wall in station.end_walls.values())
    if doors:
        items.append(_item(
            "station.escape.doors", "", "Try all doors and walk all ways", float(doors), "doors", ROUND * doors,
            Exposure.UNDER_ROOF, (),
            "every month: each door opens against no ice and shuts by itself, lamps and signs burn, nothing stands in "
            "a way out, detectors and alarms answer, stretcher and breathing sets in place"))  # fmt: skip
    items.append(
        WorkItem(
            "station.escape.drill",
            "",
            "escape",
            "Drill: everybody out, by the second way",
            1.0,
            "drill",
            hours=DRILL,
            people=people,
            exposure=Exposure.OUTDOOR,
            note="in the first week and every month, once at night and once in the dark: count at the muster point; "
            "measure the time at each ladder and write it into the file (escape.ladders)",
        )
    )
    return tuple(items)


def _item(
    name: str,
    place: str,
    what: str,
    quantity: float,
    unit: str,
    hours: float,
    where: Exposure,
    after: tuple[str, ...],
    note: str,
) -> WorkItem:
    return WorkItem(
        name,
        place,
        "escape",
        what,
        quantity,
        unit,
        hours=hours / PAIR,
        people=PAIR,
        exposure=where,
        after=after,
        note=note,
    )
