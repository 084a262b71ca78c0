"""Work items of the heat study: insulation put on at the site, fans and ducts, air wells, heaters, fuel."""

from __future__ import annotations

from firnstead.core.results import WHOLE, Exposure, WorkItem
from firnstead.heat.study_case import air_of, room_of
from firnstead.station import Station
from firnstead.station.build import FormedRoof
from firnstead.station.heat import Heat, HeatLayer

CREW = "building"  # the crew that does it, if the file names one (own rule)
PEOPLE = 4  # people where it names none (own rule)
LAYING = 4.0  # m2 of board put on by one person in an hour (own rule)
DUCT_HOURS = 16.0  # person-hours for one vent or gap fan with its duct (own rule)
WELL_HOURS = 60.0  # person-hours for one air well: hole, casing, fan (own rule)
HEATER_HOURS = 12.0  # person-hours for one heater (own rule)


def items_of(station: Station, heat: Heat, fuel: float) -> tuple[WorkItem, ...]:
    """All items; `fuel` is a year's heating fuel [kg]."""
    return (*_insulation(station, heat), *_gaps(station, heat), *_ducts(station, heat), *_heaters(station, heat),
            *_fuel(heat, fuel))  # fmt: skip


def _item(station: Station, name: str, place: str, what: str, count: float, unit: str, hours: float,
          after: tuple[str, ...], part: str | None = None, exposure: Exposure = Exposure.UNDER_ROOF,
          **more: object) -> WorkItem:  # fmt: skip
    crew = station.crews.get(CREW)
    people = crew.people if crew else PEOPLE
    found = station.parts.get(part) if part is not None else None
    if found is not None and part is not None:
        more |= {"parts": ((part, count),), "mass": found.mass * count, "volume": found.volume * count}
    elif "mass" not in more:
        more["note"] = "no part is named for it, so it is not on the packing list"
    return WorkItem(name, place, "heat", what, count, unit, crew=CREW if crew else "", people=people,
                    hours=hours / people, exposure=exposure, after=after, **more)  # type: ignore[arg-type]  # fmt: skip


def _ready(station: Station, name: str) -> tuple[str, ...]:
    formed = isinstance(station.roofs[station.places[name].roof], FormedRoof)
    return (f"{name}.roof.{'strip' if formed else 'arches'}",)


def _insulation(station: Station, heat: Heat) -> list[WorkItem]:
    found = []
    for name, building in station.buildings.items():
        envelope, kit = heat.envelopes.get(building.kit), station.kits[building.kit]
        if envelope is None or room_of(heat, name).temperature is None:
            continue
        floor = kit.length * kit.width
        walls = 2 * (kit.length + kit.width) * kit.height - envelope.opening_area
        for side, panel, area in (("walls", envelope.walls, walls), ("roof", envelope.roof, floor),
                                  ("floor", envelope.floor, floor)):  # fmt: skip
            for i, layer in enumerate(panel.layers):
                if layer.on_site and layer.density is not None:
                    found.append(_board(station, name, building.place, side, i, layer, area))
    return found


def _board(station: Station, name: str, place: str, side: str, i: int, layer: HeatLayer, area: float) -> WorkItem:
    volume = area * layer.thickness
    return _item(station, f"{name}.heat.{side}_{i + 1}", place, f"{layer.what}, {side} of {name}", area, "m2",
                 area / LAYING, (f"{name}.cargo.put_up",), mass=volume * (layer.density or 0.0),
                 volume=volume)  # fmt: skip


def _gaps(station: Station, heat: Heat) -> list[WorkItem]:
    found = []
    for name, building in station.buildings.items():
        envelope = heat.envelopes.get(building.kit)
        if envelope is None or envelope.gap.fan_power <= 0 or room_of(heat, name).temperature is None:
            continue
        found.append(_item(station, f"{name}.heat.gap_fan", building.place, f"Fan and duct below {name}", 1.0, "fans",
                           DUCT_HOURS, (f"{name}.cargo.put_up",), envelope.gap.part))  # fmt: skip
    return found


def _ducts(station: Station, heat: Heat) -> list[WorkItem]:
    found = []
    for name in station.places:
        air = air_of(heat, name)
        for i, vent in enumerate(air.vents):
            found.append(_item(
                station, f"{name}.heat.vent_{i + 1}", name, f"{vent.kind.capitalize()} vents of {name}",
                float(vent.count), "vents", DUCT_HOURS * vent.count, _ready(station, name), vent.part,
                Exposure.OUTDOOR))  # fmt: skip
        for i, well in enumerate(air.wells):
            found.append(_item(
                station, f"{name}.heat.air_well_{i + 1}", name, f"Air wells of {name}", float(well.count), "air wells",
                WELL_HOURS * well.count, _ready(station, name), well.part, Exposure.OUTDOOR))  # fmt: skip
    return found


def _heaters(station: Station, heat: Heat) -> list[WorkItem]:
    found = []
    for name, heater in heat.heaters.items():
        first = station.buildings[heater.serves[0]].place if heater.serves else WHOLE
        found.append(_item(station, f"{name}.heat.heater", first, f"Heaters: {name}", float(heater.count), "heaters",
                           HEATER_HOURS * heater.count, (), heater.part, Exposure.INDOOR))  # fmt: skip
    return found


def _fuel(heat: Heat, fuel: float) -> list[WorkItem]:
    if fuel <= 0:
        return []
    return [WorkItem("heat.fuel", WHOLE, "heat", "Fuel for heating, one year", fuel, "kg", mass=fuel,
                     volume=fuel / heat.fuel_density, exposure=Exposure.OUTDOOR,
                     note="without waste heat where none was handed over; reserve apart")]  # fmt: skip
