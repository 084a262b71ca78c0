"""Results of the power study."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity

Row = tuple[float, ...]
Table = tuple[Row, ...]


@dataclass(frozen=True)
class LoadRow:
    """One load."""

    name: str = quantity("text", "load")
    board: str = quantity("text", "board that feeds it")
    place: str = quantity("text", "place it is in")
    connected: float = quantity("W", "what is connected")
    demand: float = quantity("W", "its own greatest demand")
    at_peak: float = quantity("W", "its part of the station's greatest load")
    month: Row = quantity("W", "mean by month, January first")
    energy: float = quantity("J", "in a year")
    essential: bool = quantity("text", "whether it is never switched off")
    shed: int = quantity("1", "order in which it is switched off; 0 for the first or for an essential load")
    worked_out: bool = quantity("text", "whether another study works it out")


@dataclass(frozen=True)
class SetRow:
    """Generator sets of one kind in one place."""

    name: str = quantity("text", "sets")
    place: str = quantity("text", "place they stand in")
    board: str = quantity("text", "board they feed")
    main: bool = quantity("text", "whether they run by turns (main) or only when others are lost")
    count: int = quantity("1", "how many")
    rated: float = quantity("W", "rated power of one")
    factor: float = quantity("1", "share of it that is left at the station")
    power: float = quantity("W", "power of one at the station")
    energy: float = quantity("J", "given in a year")
    fuel: float = quantity("kg", "burnt in a year")
    set_hours: float = quantity("h", "hours run in a year, all sets together")
    least_share: float = quantity("1", "smallest load while running, as a share of rated power")
    hours_below: float = quantity("h", "hours a year in which sets run below the least load")
    fuel_factor: float = quantity("1", "factor on fuel for thin and warm air")


@dataclass(frozen=True)
class FeederRow:
    """One feeder."""

    name: str = quantity("text", "feeder")
    start: str = quantity("text", "board it comes from")
    end: str = quantity("text", "board it goes to")
    cable: str = quantity("text", "kind of cable")
    parallel: int = quantity("1", "cables side by side")
    length: float = quantity("m", "length one way")
    legs: tuple[tuple[str, float], ...] = quantity("m", "length in each place; empty where it is stated as a whole")
    resistance: float = quantity("ohm", "of one warm conductor, transformers counted in")
    resistance_cold: float = quantity("ohm", "of one conductor at the site's mean temperature, for fault currents")
    reactance: float = quantity("ohm", "of one conductor, transformers counted in")
    current: float = quantity("A", "greatest current of one cable, over all hours and ways of feeding")
    current_case: str = quantity("text", "way of feeding in which it flows")
    carried: float = quantity("W", "greatest power arriving at its end in normal running")
    loss: float = quantity("W", "greatest loss in normal running")
    energy_lost: float = quantity("J", "lost in a year")
    normally_open: bool = quantity("text", "whether it stands open")


@dataclass(frozen=True)
class BoardRow:
    """One board."""

    name: str = quantity("text", "board")
    place: str = quantity("text", "place it stands in")
    fed_by: str = quantity("text", "feeder that feeds it in normal running; empty for the board of the sets")
    demand: float = quantity("W", "greatest demand of its own loads")
    drop: float = quantity("1", "greatest voltage drop from the sets, as a share, over all hours and ways of feeding")
    drop_normal: float = quantity("1", "the same in normal running")
    drop_case: str = quantity("text", "way of feeding in which it is greatest")
    month: int = quantity("1", "month of it, January 1")
    hour: int = quantity("h", "hour of it")


@dataclass(frozen=True)
class ShedStep:
    """One step of switching off loads."""

    order: int = quantity("1", "order in the file; 0 for loads without one")
    loads: tuple[str, ...] = quantity("text", "what is switched off")
    power: float = quantity("W", "what that takes off at the hour of the greatest load")
    left: float = quantity("W", "what is left to carry then")
    needed: bool = quantity("text", "whether it must go when the largest set fails at that hour and no other starts")
    hours: float = quantity("h", "hours a year in which it would have to go when a set fails, until the next one runs")


@dataclass(frozen=True)
class LostPlace:
    """What is left when a place with sets is lost with everything in it."""

    place: str = quantity("text", "place that is lost")
    power: float = quantity("W", "power of the sets elsewhere")
    essential: float = quantity("W", "greatest essential load that stands elsewhere")
    cut_off: tuple[str, ...] = quantity("text", "essential loads elsewhere that no feeder can reach any more")
    shed: int = quantity("1", "greatest order up to which loads must be switched off; -1 none")


@dataclass(frozen=True)
class EnergyYear:
    """Where the energy of a year comes from and goes to."""

    fuel: float = quantity("J", "heat of the fuel")
    electric: float = quantity("J", "given by the sets")
    jacket: float = quantity("J", "heat that can be taken from jackets")
    exhaust: float = quantity("J", "heat that can be taken from exhaust")
    radiated: float = quantity("J", "heat given off where the sets stand")
    stack: float = quantity("J", "heat that leaves with the exhaust gas")
    sources: float = quantity("J", "given by sources with stated output")
    curtailed: float = quantity("J", "of that, what nobody could use")
    served: float = quantity("J", "taken by loads")
    lost: float = quantity("J", "lost in feeders")
    unserved: float = quantity("J", "wanted, and beyond the power of the sets")


@dataclass(frozen=True)
class Resupply:
    """Fuel against the time between two resupplies."""

    burnt: Row = quantity("kg", "by month, January first: sets, and heaters and boilers where they are known")
    year: float = quantity("kg", "in a year")
    start: int = quantity("1", "month from which the stock must last, January 1")
    needed: float = quantity("kg", "burnt from then on in the interval")
    usable: float = quantity("kg", "what can be drawn from full tanks")
    lasts: float = quantity("s", "how long that lasts from then on")


@dataclass(frozen=True)
class ConstructionPower:
    """Power while the station is built."""

    demand: float = quantity("W", "greatest demand")
    power: float = quantity("W", "power of one set at the site")
    count: int = quantity("1", "sets")
    fuel: float = quantity("kg", "burnt in the season")


@dataclass(frozen=True)
class PowerYear:
    """Electric power of the station through a year."""

    pressure: float = quantity("Pa", "air pressure that was reckoned with")
    load: Table = quantity("W", "power wanted from the sets, loss counted in: by month, 24 hours each")
    running: tuple[tuple[int, ...], ...] = quantity("1", "sets running: by month, 24 hours each")
    share: Table = quantity("1", "load of the running sets as a share of their power at the station, by month and hour")
    jacket: Table = quantity("W", "heat that can be taken from jackets, by month and hour")
    exhaust: Table = quantity("W", "heat that can be taken from exhaust, by month and hour")
    waste: Row = quantity("W", "mean heat for use, by month: jackets, exhaust, stated sources")
    gains: dict[str, Row] = quantity("W", "mean heat given off in places by sets and feeders, by month")
    fuel: Row = quantity("kg", "burnt by the sets, by month")
    duration: tuple[tuple[float, float], ...] = quantity(
        "h, W", "hours a year for which the load is at least so high, falling"
    )
    peak: float = quantity("W", "greatest load on the sets")
    peak_month: int = quantity("1", "its month, January 1")
    peak_hour: int = quantity("h", "its hour")
    connected: float = quantity("W", "everything that is connected")
    demand_factor: float = quantity("1", "greatest load together over what is connected")
    diversity: float = quantity("1", "sum of the loads' greatest demands over their greatest demand together")
    load_factor: float = quantity("1", "mean over greatest load")
    capacity_factor: float = quantity("1", "mean load over the power of all sets")
    use_factor: float = quantity("1", "energy given over what the running sets could have given")
    loads: tuple[LoadRow, ...] = quantity("text", "loads")
    sets: tuple[SetRow, ...] = quantity("text", "generator sets")
    boards: tuple[BoardRow, ...] = quantity("text", "boards")
    feeders: tuple[FeederRow, ...] = quantity("text", "feeders")
    shedding: tuple[ShedStep, ...] = quantity("text", "what is switched off, in order")
    lost_places: tuple[LostPlace, ...] = quantity("text", "places with sets, each lost in turn")
    energy: EnergyYear = quantity("text", "where the energy of a year comes from and goes to")
    resupply: Resupply = quantity("text", "fuel against the time between two resupplies")
    drums: tuple[tuple[str, float, int, float], ...] = quantity("text, m, 1, kg", "cable, length, drums, mass of cable")
    construction: ConstructionPower | None = quantity("text", "power while the station is built, if it is stated")
