"""The work of the air: fans, ducts, vents, detectors, and the rounds on which they are looked at."""

from __future__ import annotations

from firnstead.air.study_facts import Facts
from firnstead.core.results import WHOLE, Exposure, WorkItem

CREW = "building"  # the crew that sets fans, if the file names one (own rule)
FAN_HOURS, DUCT_HOURS, VENT_HOURS, DETECTOR_HOURS = 8.0, 1.0, 12.0, 0.5  # person-hours each or by metre (own rule)
KIT_HOURS = 4.0  # person-hours for the ventilation of one building (own rule)
ROUND = 0.1  # person-hours to look at one fan, vent, door or detector (own rule)


def air_items(f: Facts) -> tuple[WorkItem, ...]:
    """Everything to be set and, later, to be looked at."""
    air, items = f.air, []
    for name, fan in air.fans.items():
        duct = fan.duct
        length = duct.length if duct is not None else 0.0
        mass = fan.mass + (duct.length * duct.mass_per_metre if duct is not None else 0.0)
        place = f.place_of(fan.blows_into if fan.blows_into != "outside" else fan.draws_from)
        items.append(_item(f, f"{name}.air.fan", place, f"Set fan {name} with duct and damper", 1.0, "fans",
                           FAN_HOURS + DUCT_HOURS * length, mass,
                           f"{length:.0f} m of duct" if duct is not None else ""))  # fmt: skip
    for name, vent in air.vents.items():
        items.append(_item(f, f"{name}.air.vent", vent.place, f"Set vent {name}", 1.0, "vents", VENT_HOURS, vent.mass,
                           "with a damper that people can reach"))  # fmt: skip
    for name, building in f.station.buildings.items():
        own = air.kits.get(building.kit)
        if own is not None and own.supply > 0:
            items.append(_item(f, f"{name}.air.own", building.place, f"Set the ventilation of {name}", 1.0, "buildings",
                               KIT_HOURS, own.mass, after=(f"{name}.cargo.put_up",)))  # fmt: skip
    for name, alarm in air.alarms.items():
        items.append(_item(f, f"{name}.air.detector", f.place_of(alarm.where), f"Hang and test detector {name}", 1.0,
                           "detectors", DETECTOR_HOURS, alarm.mass, "test with gas at the temperature it hangs in")
    )  # fmt: skip
    points = len(air.fans) + len(air.vents) + len(air.doors) + len(air.alarms) + len(air.exhausts)
    if points:
        items.append(_item(f, "station.air.round", WHOLE, "Weekly round: fans, dampers, vents, doors, detectors",
                           float(points), "points", ROUND * points, 0.0,
                           "after every storm too: dig intakes and exhausts free, and read carbon monoxide in every "
                           "sleeping room"))  # fmt: skip
        items.append(_item(f, "station.air.turn", WHOLE, "Twice a year: smoke test of every vent",
                           float(len(air.vents)), "vents",
                           2 * ROUND * max(1, len(air.vents)), 0.0,
                           "in the coldest and in the warmest month; set dampers for the season"))  # fmt: skip
    return tuple(items)


def _item(f: Facts, id: str, place: str, what: str, quantity: float, unit: str, hours: float, mass: float,
          note: str = "", after: tuple[str, ...] = ()) -> WorkItem:  # fmt: skip
    crew = f.station.crews.get(CREW)
    people = min(crew.people, 4) if crew is not None else 2
    return WorkItem(id, place, "air", what, quantity, unit, mass=mass, crew=CREW if crew else "", people=people,
                    hours=hours / people, exposure=Exposure.UNDER_ROOF, after=after, note=note)  # fmt: skip
