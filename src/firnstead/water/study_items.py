"""Work and goods of well, tanks and sump."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from firnstead.core.results import WHOLE, Exposure, WorkItem
from firnstead.core.units import show
from firnstead.station import Station
from firnstead.station.water import Sump, Water
from firnstead.station.water_spots import head_depth, spot_place
from firnstead.water.numbers import Well
from firnstead.water.results import WellResult

CREW, PEOPLE = "water", 2  # crew of the well if the file names one, and people where it does not (own rule)
SETTING_UP = 24.0  # hours of two people to set up the steam plant, hoses or a tank (own rule)
RIGGING = 12.0  # hours of two people to hang pump and hose (own rule)
BORING = 0.5  # hours for a metre of the sump's shaft (own rule)
SOUNDING = 1.0  # hours of two people to sound level, floor and width (own rule)


@dataclass(frozen=True)
class _Maker:
    station: Station
    crew: str
    people: int

    def item(
        self, kind: str, place: str, what: str, quantity: float, unit: str, hours: float, after: tuple[str, ...],
        parts: Mapping[str, float] | None = None, exposure: Exposure = Exposure.UNDER_ROOF, note: str = "",
        mass: float = 0.0,
    ) -> WorkItem:  # fmt: skip
        taken = {name: n for name, n in (parts or {}).items() if name and n > 0}
        known = [(self.station.parts[name], n) for name, n in taken.items() if name in self.station.parts]
        return WorkItem(
            f"{place}.water.{kind}", place, "water", what, quantity, unit, crew=self.crew, people=self.people,
            mass=mass + sum(part.mass * n for part, n in known), volume=sum(part.volume * n for part, n in known),
            hours=hours, exposure=exposure, after=after, parts=tuple(taken.items()), note=note)  # fmt: skip


def water_items(station: Station, water: Water, well: Well, result: WellResult) -> tuple[WorkItem, ...]:
    """All work, in order."""
    crew = station.crews.get(CREW)
    maker = _Maker(station, CREW if crew else "", crew.people if crew else PEOPLE)
    sump = () if water.sump is None else _sump_items(station, maker, water.sump)
    return (*_well_items(station, water, well, result, maker), *_tank_items(station, water, maker), *sump)


def _before(station: Station, place: str) -> tuple[str, ...]:
    return (f"{place}.cutting.cut",) if place in station.places else ()


def _well_items(
    station: Station, water: Water, well: Well, result: WellResult, maker: _Maker
) -> tuple[WorkItem, ...]:  # fmt: skip
    w, p = water.well, well.plan
    own = spot_place(station, w)
    place, where = own or WHOLE, Exposure.UNDER_ROOF if own else Exposure.OUTDOOR
    lengths = math.ceil(w.hose.length / w.hose.part_length - 1e-9)
    after = _before(station, own)
    ids = {kind: f"{place}.water.{kind}" for kind in ("steam_plant", "drill", "heat", "pump", "grow")}
    lead_fuel = sum(m.fuel for m in result.months[: p.pool.lead])
    heaters: dict[str, float] = {}
    for source in w.heat.values():
        if source.part is not None:
            heaters[source.part] = heaters.get(source.part, 0.0) + 1.0
    items = [
        maker.item("steam_plant", place, "Set up the plant that melts the shaft", 1.0, "plant", SETTING_UP, after,
                   {w.steam.part or "": 1.0}, where, f"{show(w.steam.power, 'W')} of heat"),
        maker.item("drill", place, "Melt the shaft of the well", w.start_depth - p.head, "m",
                   result.shaft_time / 3600.0, (ids["steam_plant"],), None, where,
                   f"{show(w.shaft_diameter, 'm')} wide; {show(result.shaft_fuel, 'kg')} of fuel; steam scalds; draw "
                   "the head up at once when the steam fails; cover the open shaft", mass=result.shaft_fuel),
        maker.item("heat", place, "Set up boilers, exchanger and circulation of the well", float(len(w.heat)),
                   "sources", SETTING_UP * len(w.heat), after, heaters, where,
                   "burners need air and a flue of their own: carbon monoxide"),
        maker.item("pump", place, "Hang pump, hose and cable in the well", 1.0, "pump", RIGGING,
                   (ids["drill"], ids["heat"]), _parts((w.pump.part, 1.0 + w.pump.spares),
                                                       (w.hose.part, float(lengths))), where,
                   f"{w.pump.spares} spare; {show(w.hose.length, 'm')} of hose in {lengths} lengths"
                   + _unlisted(w.pump.part, w.hose.part)),
        maker.item("grow", place, "Heat the pool until water may be drawn", p.pool.lead * 30.4375, "days", 0.0,
                   (ids["pump"],), None, where,
                   f"{show(lead_fuel, 'kg')} of fuel in boilers; the heating goes on after the season; water comes "
                   "from elsewhere meanwhile", mass=lead_fuel),
        maker.item("sound", place, "Sound level, floor and width of the pool, and lower the pump", 52.0,
                   "rounds a year", 52.0 * SOUNDING, (ids["grow"],), None, where,
                   "level every day, floor every week, in later years too; compare with the forecast"),
    ]  # fmt: skip
    if result.next_start_age is not None:
        items.append(maker.item(
            "next", place, "Start the next well", 1.0, "well", 0.0, (ids["grow"],), None, Exposure.OUTDOOR,
            f"by {result.next_start}, not in the first season: the well ends in {result.end_month} ({result.end})",
        ))  # fmt: skip
    return tuple(items)


def _parts(*rows: tuple[str | None, float]) -> dict[str, float]:
    found: dict[str, float] = {}
    for name, pieces in rows:
        if name is not None:
            found[name] = found.get(name, 0.0) + pieces
    return found


def _unlisted(*parts: str | None) -> str:
    return "" if all(part is not None for part in parts) else "; what has no part is not on the packing list"


def _tank_items(station: Station, water: Water, maker: _Maker) -> tuple[WorkItem, ...]:
    places: dict[str, list[str]] = {}
    for name, tank in water.tanks.items():
        places.setdefault(tank.place, []).append(name)
    items = []
    for place, tanks in places.items():
        held = [water.tanks[name] for name in tanks]
        items.append(maker.item(
            "tanks", place, f"Set up the water tanks of {place}", float(len(tanks)), "tanks", SETTING_UP * len(tanks),
            _before(station, place), _parts(*((t.part, 1.0) for t in held)),
            note=f"{', '.join(tanks)}: {show(sum(t.volume for t in held), 'm3')}; overflow inside, sensors at several "
                 "levels, drained whole" + _unlisted(*(t.part for t in held))))  # fmt: skip
    return tuple(items)


def _sump_items(station: Station, maker: _Maker, sump: Sump) -> tuple[WorkItem, ...]:
    own = spot_place(station, sump)
    place, where = own or WHOLE, Exposure.UNDER_ROOF if own else Exposure.OUTDOOR
    depth = sump.depth - head_depth(station, sump)
    lengths = float(math.ceil(depth / sump.hose_length - 1e-9))
    return (maker.item(
        "sump", place, "Bore the sewage sump and hang its outfall", depth, "m", BORING * depth, _before(station, own),
        _parts((sump.hose_part, lengths)), where,
        "sign, key and colour of its own; insulated and traced outfall and vent; a second outfall with valves ready to "
        "take over" + _unlisted(sump.hose_part)),)  # fmt: skip
