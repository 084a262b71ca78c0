"""From a case to the year: demand, sets that run, fuel, heat, what is left when something fails."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from firnstead.power._net import NORMAL, Array, Feeding, Mask, demand_table, feed, reached
from firnstead.power.case import Case, MotorCase, SetCase
from firnstead.power.drop import motor_start_current
from firnstead.power.results import Row
from firnstead.power.sets import fuel_flow, heat_of_fuel, sets_running, stack_heat
from firnstead.power.stock import MONTH_DAYS

LOSS_AT_FIRST = 0.06  # of the load, where the net has no feeders: ufc_3_520_01
NO_SHED, FIRST = -1, 0
DAYS = np.repeat(np.array(MONTH_DAYS, dtype=float), 24)  # how often each of the 288 hours comes in a year
Counts = NDArray[np.int_]


@dataclass(frozen=True, eq=False)
class SetYear:
    """What the sets of one kind do in the 288 hours."""

    of: SetCase
    running: Counts
    electric: Array
    flow: Array
    """Fuel [m3/s]."""
    fuel: Array
    jacket: Array
    exhaust: Array
    radiated: Array
    stack: Array

    @cached_property
    def share(self) -> Array:
        """Load of one running set as a share of rated power; infinite while none runs."""
        rated = self.running * self.of.engine.rated
        return np.where(self.running > 0, self.electric / np.maximum(rated, 1e-9), np.inf)


@dataclass(frozen=True, eq=False)
class Lost:
    """What is left when a place with sets is lost."""

    place: str
    power: float
    """Sets elsewhere, all that can feed the net [W]."""
    need: float
    """Greatest essential need elsewhere, losses in, firm sources taken off [W]."""
    hour: int
    load: float
    """Essential load in that hour [W]."""
    firm: float
    cut_off: tuple[str, ...]
    level: int
    feeding: Feeding | None


@dataclass(frozen=True, eq=False)
class Numbers:
    """Everything that checks and results need."""

    case: Case
    demand: Array
    """Every load in every hour [W]."""
    normal: Feeding

    @cached_property
    def loss(self) -> Array:
        """Loss in feeders in normal running [W]; a share of the load where there are none."""
        if not self.case.feeders:
            return LOSS_AT_FIRST * self.load
        lost: Array = self.normal.loss.sum(axis=0)
        return lost

    @cached_property
    def load(self) -> Array:
        """All loads together, diversity between boards taken off [W]."""
        total: Array = self.demand.sum(axis=0) / self.case.diversity
        return total

    @cached_property
    def loss_share(self) -> float:
        """Greatest loss as a share of the load."""
        return float(np.max(np.where(self.load > 0, self.loss / np.maximum(self.load, 1e-9), 0.0), initial=0.0))

    def given_by_sources(self, firm: bool, without: str = "") -> Array:
        """Electric power of stated sources in every hour, all or only the firm ones [W]."""
        total = np.zeros(288)
        for s in self.case.sources:
            if (s.firm or not firm) and s.place != without:
                total += np.repeat(np.array(s.year) * s.electric, 24)
        return total

    @cached_property
    def sources(self) -> Array:
        """What stated sources give and can be used [W]."""
        return np.minimum(self.given_by_sources(firm=False), self.load + self.loss)

    @cached_property
    def need(self) -> Array:
        """What the sets must give [W]."""
        return np.maximum(self.load + self.loss - self.sources, 0.0)

    @cached_property
    def need_firm(self) -> Array:
        """What the sets must be able to give when only firm sources are counted on [W]."""
        return np.maximum(self.load + self.loss - self.given_by_sources(firm=True), 0.0)

    @cached_property
    def peak_hour(self) -> int:
        """The hour of the greatest need with firm sources alone."""
        return int(np.argmax(self.need_firm))

    @cached_property
    def units(self) -> tuple[SetCase, ...]:
        """Main sets one by one, in the order in which they are started."""
        return tuple(s for s in self.case.sets if s.main for _ in range(s.count))

    @cached_property
    def powers(self) -> Array:
        """Power of each main set at the station [W]."""
        return np.array([unit.engine.power for unit in self.units])

    @cached_property
    def running(self) -> Counts:
        """Main sets running in every hour."""
        if not self.units:
            return np.zeros(288, dtype=int)
        planned = self.powers * np.array([unit.highest for unit in self.units])
        return sets_running(self.need, planned, self.case.least)

    @cached_property
    def on_line(self) -> Array:
        """Power of the running sets [W]."""
        total: Array = np.concatenate(([0.0], np.cumsum(self.powers)))[self.running]
        return total

    @cached_property
    def given(self) -> Array:
        """What the sets give [W]: all that is wanted, up to their power."""
        return np.minimum(self.need, self.on_line)

    @cached_property
    def unserved(self) -> Array:
        """What is wanted beyond the power of all main sets [W]."""
        return self.need - self.given

    @cached_property
    def share(self) -> Array:
        """Load of the running sets as a share of their power at the station."""
        return np.where(self.on_line > 0, self.need / np.maximum(self.on_line, 1e-9), 0.0)

    @cached_property
    def sets(self) -> tuple[SetYear, ...]:
        """What each kind of set does."""
        return tuple(self._set_year(s) for s in self.case.sets)

    def _set_year(self, s: SetCase) -> SetYear:
        mine = np.array([unit is s for unit in self.units], dtype=int)
        running = np.concatenate(([0], np.cumsum(mine)))[self.running] if len(mine) else np.zeros(288, dtype=int)
        carried = self.given / np.maximum(self.on_line, 1e-9)
        electric = running * s.engine.power * carried
        flow = fuel_flow(electric, running * s.engine.rated, s.engine.idle, s.engine.slope, s.engine.fuel_factor)
        fuel = heat_of_fuel(flow, self.case.fuel.heating_value)
        jacket, exhaust, radiated = s.jacket * electric, s.exhaust * electric, s.radiated * fuel
        return SetYear(s, running, electric, flow, fuel, jacket, exhaust, radiated,
                       stack_heat(fuel, electric, jacket, exhaust, radiated))  # fmt: skip

    @cached_property
    def all_power(self) -> float:
        """Power of all sets at the station, standby sets too [W]."""
        return sum(s.count * s.engine.power for s in self.case.sets)

    @cached_property
    def largest(self) -> float:
        """Power of the largest set at the station [W]."""
        return max((s.engine.power for s in self.case.sets), default=0.0)

    @cached_property
    def essential(self) -> Array:
        """All essential loads together [W]."""
        mask = np.array([load.essential for load in self.case.loads], dtype=bool)
        total: Array = self.demand[mask].sum(axis=0) / self.case.diversity
        return total

    @cached_property
    def levels(self) -> tuple[int, ...]:
        """Orders of switching off, the first first."""
        return tuple(sorted({load.shed for load in self.case.loads if not load.essential}))

    def kept_load(self, level: int) -> Array:
        """Loads that are left once everything up to an order is off [W]."""
        mask = np.array([load.essential or load.shed > level for load in self.case.loads], dtype=bool)
        total: Array = self.demand[mask].sum(axis=0) / self.case.diversity
        return total

    def level_needed(self, available: Array) -> Counts:
        """Least order up to which loads must be off so that the rest is carried, in every hour."""
        level = np.full(288, self.levels[-1] if self.levels else NO_SHED)
        for order in reversed((NO_SHED, *self.levels)):
            fits = self.kept_load(order) * (1 + self.loss_share) <= available * (1 + 1e-12)
            level = np.where(fits, order, level)
        return level

    @cached_property
    def left_running(self) -> Array:
        """Power of the running sets without the largest of them [W]."""
        if not len(self.powers):
            return np.zeros(288)
        largest = np.concatenate(([0.0], np.maximum.accumulate(self.powers)))
        return self.on_line - largest[self.running]

    @cached_property
    def level_one_fails(self) -> Counts:
        """Order up to which loads must be off when the largest running set fails, until the next one runs."""
        level = self.level_needed(self.left_running + self.sources)
        return np.where(self.load > 0, level, NO_SHED)

    @cached_property
    def lost(self) -> tuple[Lost, ...]:
        """Every place with sets lost in turn."""
        return tuple(self._lost(place) for place in dict.fromkeys(s.place for s in self.case.sets))

    def _lost(self, place: str) -> Lost:
        case = self.case
        gone = [board.name for board in case.boards if board.place == place]
        rest = [s for s in case.sets if s.place != place and s.board not in gone]
        roots: dict[str, float] = {}
        for s in rest:
            roots[s.board] = roots.get(s.board, 0.0) + s.count * s.engine.power
        root = max(roots, key=lambda board: roots[board]) if roots else ""
        fed = reached(case, root, gone) if root else set()
        power = sum(value for board, value in roots.items() if board in fed)
        elsewhere = np.array([load.place != place and load.board not in gone for load in case.loads], dtype=bool)
        vital = np.array([load.essential and load.place != place for load in case.loads], dtype=bool)
        cut_off = tuple(load.name for load, v in zip(case.loads, vital, strict=True) if v and load.board not in fed)
        firm = self.given_by_sources(firm=True, without=place)
        wanted = self.demand[vital].sum(axis=0) / case.diversity
        need = np.maximum(wanted * (1 + self.loss_share) - firm, 0.0)
        hour = int(np.argmax(need))
        level = self.level_needed(np.full(288, power) + firm)
        feeding = None
        if root:
            order = np.array([np.inf if load.essential else load.shed for load in case.loads])
            kept: Mask = elsewhere[:, None] & (order[:, None] > level[None, :])
            feeding = feed(case, self.demand, f"{place} lost", root, gone, kept)
        return Lost(place, power, float(need[hour]), hour, float(wanted[hour]), float(firm[hour]), cut_off,
                    int(level.max()), feeding)  # fmt: skip

    @cached_property
    def feedings(self) -> tuple[Feeding, ...]:
        """Normal running, then every place lost that leaves a source."""
        return (self.normal, *(each.feeding for each in self.lost if each.feeding is not None))

    @cached_property
    def start(self) -> tuple[str, str, MotorCase, float, float] | None:
        """The motor whose start takes most: load, board, motor, current [A], power [W]; none where no motor is told."""
        found = []
        for load in self.case.loads:
            if (m := load.motor) is not None:
                current = motor_start_current(m.power, self.case.voltage, m.power_factor, m.efficiency, m.times)
                found.append((load.name, load.board, m, current,
                              3**0.5 * self.case.voltage * current * m.start_factor))  # fmt: skip
        return max(found, key=lambda each: each[4], default=None)


def numbers_of(case: Case) -> Numbers:
    """Reckon the case."""
    demand = demand_table(case)
    roots: dict[str, float] = {}
    for s in case.sets:
        if s.main:
            roots[s.board] = roots.get(s.board, 0.0) + s.count * s.engine.power
    root = max(roots, key=lambda board: roots[board]) if roots else case.sources[0].board
    return Numbers(case, demand, feed(case, demand, NORMAL, root, (), np.ones(demand.shape, dtype=bool)))


def by_month(values: Array) -> Row:
    """Mean of each month of hourly values."""
    return tuple(float(each) for each in values.reshape(12, 24).mean(axis=1))


def in_year(values: Array) -> float:
    """Sum over the seconds of a year."""
    return float(np.dot(values, DAYS) * 3600.0)
