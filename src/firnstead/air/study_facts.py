"""What the checks of the air study look at: the solved year, who is where, the gases in every room."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TypedDict

import numpy as np

from firnstead.air.case import AirCase
from firnstead.air.network import Array
from firnstead.air.properties import AIR_MOLAR_MASS, GAS_CONSTANT, SEA_LEVEL, moles_of_flow
from firnstead.air.results import MONTHS, ChosenLimit
from firnstead.air.year import Month
from firnstead.core.results import Step
from firnstead.station import Station
from firnstead.station.air import Air
from firnstead.station.geometry import axis

Row = tuple[float, ...]
STATED = 293.15  # K at which the gas that a person gives off is counted in the file
MOLAR_MASS = {"co": 0.02801, "no2": 0.04601}  # kg/mol
NAMES = {"co2": "carbon dioxide", "co": "carbon monoxide", "no2": "nitrogen dioxide", "oxygen": "oxygen"}
MONTH_NAMES = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
               "November", "December")  # fmt: skip


class Names(TypedDict):
    """What a check is about."""

    subject: str
    question: str
    key: str
    discipline: str
    place: str
    caution: str


@dataclass(frozen=True)
class Hour:
    """An hour of the station's life: who is where, and how hard they work against light work."""

    name: str
    people: tuple[tuple[str, int], ...]
    effort: float
    asleep: bool = False


@dataclass(frozen=True)
class Worst:
    """The foulest hour and month of a place or building, and what it follows from."""

    name: str
    room: int
    people: float
    """People in the room; a place's people are spread over its stretches."""
    hour: Hour
    month: int
    share: float
    """Share of carbon dioxide in the long run, pockets counted in."""
    mean: float
    """Share in the mixed air of the room."""
    mixing: float


@dataclass(frozen=True, eq=False)
class Facts:
    """Everything the checks need."""

    station: Station
    air: Air
    case: AirCase
    months: tuple[Month, ...]
    surface: Row
    places: dict[str, Row]
    pressure: float
    hours: tuple[Hour, ...]
    limits: dict[str, ChosenLimit]
    chosen: bool
    """Whether the file chose the limits."""

    @cached_property
    def moles(self) -> float:
        """Carbon dioxide of one person at light work [mol/s]."""
        return moles_of_flow(self.air.co2_per_person, SEA_LEVEL, STATED)

    def rooms_of(self, name: str) -> tuple[int, ...]:
        """Rooms of a place, building or niche."""
        if name in self.station.niches:
            niche = self.station.niches[name]
            cells = self.case.of(niche.place)
            along = niche.at / axis(self.station.places[niche.place]).length
            return (cells[min(int(along * len(cells)), len(cells) - 1)],)
        return self.case.of(name)

    @cached_property
    def people_by_room(self) -> Array:
        """People in each room at each hour, weighted with their effort."""
        found = np.zeros((len(self.case.rooms), len(self.hours)))
        for h, hour in enumerate(self.hours):
            for name, count in hour.people:
                rooms = self.rooms_of(name)
                for i in rooms:
                    found[i, h] += hour.effort * count / len(rooms)
        return found

    @cached_property
    def co2(self) -> Array:
        """Share of carbon dioxide in the long run, by month, room and hour."""
        given = self.people_by_room * self.moles * AIR_MOLAR_MASS
        fresh = np.full(len(self.hours), self.air.outdoor_co2)
        return _by_month(self.months, given, fresh)

    @cached_property
    def fumes(self) -> dict[str, Array]:
        """Share of each engine gas in the long run, by month and room."""
        gases = list(MOLAR_MASS)
        given = np.zeros((len(self.case.rooms), len(gases)))
        for engine in self.air.engines.values():
            rooms = self.rooms_of(engine.where)
            for g, gas in enumerate(gases):
                for i in rooms:
                    given[i, g] += engine.leak * (getattr(engine, gas) or 0.0) / MOLAR_MASS[gas] / len(rooms)
        found = _by_month(self.months, given * AIR_MOLAR_MASS, np.zeros(len(gases)))
        return {gas: found[:, :, g] for g, gas in enumerate(gases)}

    @cached_property
    def names(self) -> tuple[str, ...]:
        """Places, buildings and niches with people at some hour."""
        return tuple(dict.fromkeys(name for hour in self.hours for name, count in hour.people if count))

    def mixing_of(self, name: str) -> float:
        """Factor for pockets: in places, not in buildings."""
        return 1.0 if name in self.station.buildings else self.air.mixing

    @cached_property
    def worst(self) -> dict[str, Worst]:
        """By name, the foulest hour (of those with people there) and month."""
        return {name: self._worst(name) for name in self.names}

    def _worst(self, name: str) -> Worst:
        rooms, k = self.rooms_of(name), self.mixing_of(name)
        found: list[Worst] = []
        for h, hour in enumerate(self.hours):
            count = dict(hour.people).get(name, 0)
            if not count:
                continue
            shares = self.co2[:, rooms, h]
            m, i = np.unravel_index(int(np.argmax(shares)), shares.shape)
            mean = float(shares[m, i])
            share = self.air.outdoor_co2 + k * (mean - self.air.outdoor_co2)
            found.append(Worst(name, rooms[int(i)], count / len(rooms), hour, int(m), share, mean, k))
        return max(found, key=lambda each: (each.share, each.people * each.hour.effort))

    def flow_in(self, month: int, room: int) -> float:
        """Air that comes into a room as volume at its own density [m3/s]."""
        m = self.months[month]
        return float(m.inflow[room] / m.density[room])

    def least_inflow(self, rooms: tuple[int, ...]) -> float:
        """Least air that comes into any of the rooms in the year [m3/s]."""
        return min(self.flow_in(m, i) for m in range(MONTHS) for i in rooms)

    @cached_property
    def through(self) -> dict[str, Row]:
        """Air that comes into each place from other places and from outside, by month [m3/s]."""
        return {name: tuple(self._through(month, name) for month in self.months) for name in self.station.places}

    def _through(self, month: Month, name: str) -> float:
        own = np.array([room.place == name for room in self.case.rooms] + [False])
        source, target = np.where(month.flow > 0, month.a, month.b), np.where(month.flow > 0, month.b, month.a)
        crossing = own[target] & ~own[source]
        cells = self.case.of(name)
        return float(np.abs(month.flow[crossing]).sum() / month.density[cells[0]])

    def limit_said(self, name: str, limit: ChosenLimit) -> str:
        """A limit in words, and whether it was chosen."""
        said = f"limit: {name}, {limit.source}"
        return said if self.chosen else f"{said} (from the published list: the file chooses none)"

    def subject(self, name: str) -> str:
        """How a check calls a place, building or niche."""
        for word, group in (("Building", self.station.buildings), ("Trench", self.station.trenches),
                            ("Passage", self.station.passages), ("Niche", self.station.niches)):  # fmt: skip
            if name in group:
                return f'{word} "{name}"'
        return f'"{name}"'

    def place_of(self, name: str) -> str:
        """The place of a building or niche; the name itself for a place."""
        for group in (self.station.buildings, self.station.niches):
            if name in group:
                return str(getattr(group[name], "place"))  # noqa: B009
        return name

    def person_steps(self, worst: Worst) -> tuple[Step, ...]:
        """From the file's figure for a person to the gas given off in a room."""
        temperature = float(self.months[worst.month].temperature[worst.room])
        given = worst.people * worst.hour.effort * self.moles * GAS_CONSTANT * temperature / self.pressure
        return (
            Step("n_1", "V_1 p_0/(R T_0)",
                 (("V_1", self.air.co2_per_person, "m3/s"), ("p_0", SEA_LEVEL, "Pa"),
                  ("R", GAS_CONSTANT, "J/(mol K)"), ("T_0", STATED, "K")), self.moles, "mol/s", "ashrae_62_appendix",
                 "carbon dioxide of one person at light work, whatever the altitude"),
            Step("G", "e P n_1 R T/p",
                 (("e", worst.hour.effort, "1"), ("P", worst.people, "people"), ("n_1", self.moles, "mol/s"),
                  ("R", GAS_CONSTANT, "J/(mol K)"), ("T", temperature, "K"), ("p", self.pressure, "Pa")),
                 given, "m3/s", "textbook_unchecked",
                 f"given off by those in it, hour: {worst.hour.name}"),
        )  # fmt: skip

    def network_step(self, worst: Worst) -> tuple[Step, ...]:
        """Air that comes into the room and what is in it already, from the solved network."""
        month = self.months[worst.month]
        h = self.hours.index(worst.hour)
        coming = month.share_coming_in(self.co2[worst.month, :, h], worst.room, self.air.outdoor_co2)
        where = f"{MONTH_NAMES[worst.month]}, the month with most of it; from the balance of all rooms"
        return (
            Step("q", "", (("p", self.pressure, "Pa"),), self.flow_in(worst.month, worst.room), "m3/s", "statics",
                 f"air that comes in by fans, doors and draught in {where}"),
            Step('C_"in"', "", (("C_o", self.air.outdoor_co2, "1"),), coming, "1", "statics",
                 "mean share of carbon dioxide in that air, which has been through other rooms"),
        )  # fmt: skip


def _by_month(months: tuple[Month, ...], given: Array, fresh: Array) -> Array:
    known: dict[int, Array] = {}
    found = []
    for month in months:
        if id(month) not in known:
            known[id(month)] = month.steady(given, fresh)
        found.append(known[id(month)])
    return np.array(found)
