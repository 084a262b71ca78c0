"""What the power study depends on, in numbers: the same case has the same answers."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

Row = tuple[float, ...]
OUTSIDE = "outside"  # the word of the station file for what stands in no place
FLAT_DAY, FLAT_YEAR = (1.0,) * 24, (1.0,) * 12


@dataclass(frozen=True)
class BoardCase:
    """A board: where it stands, its diversity, what it weighs [kg, m3]."""

    name: str
    place: str
    diversity: float
    mass: float
    volume: float
    part: str | None


@dataclass(frozen=True)
class CableCase:
    """A cable: resistance as it was found [ohm/m] at a temperature [K], its change [1/K] and where that is from."""

    name: str
    metal: str
    size: str
    found: float
    found_at: float
    coefficient: float
    source: str
    how: str
    warm: float
    cold: float
    reactance: float
    ampacity: float | None
    mass: float
    drum_length: float
    drum_mass: float
    drum_volume: float


@dataclass(frozen=True)
class FeederCase:
    """A feeder with its length [m] in each place and, where it has transformers, their share of impedance."""

    name: str
    start: str
    end: str
    cable: CableCase
    parallel: int
    phases: int
    length: float
    legs: tuple[tuple[str, float], ...]
    slack: float
    stated: bool
    voltage: float
    system: float
    transformer: tuple[float, float, float, float, float] | None
    """Rating [VA], resistance and reactance as shares, mass [kg] and volume [m3] of one of the pair."""
    normally_open: bool

    def _pair(self, share: int) -> float:
        return 0.0 if self.transformer is None else 2 * self.transformer[share] * self.voltage**2 / self.transformer[0]

    @property
    def resistance(self) -> float:
        """Resistance of one warm conductor, transformers counted in [ohm]."""
        return self.cable.warm * self.length / self.parallel + self._pair(1)

    @property
    def reactance(self) -> float:
        """Reactance of one conductor, transformers counted in [ohm]."""
        return self.cable.reactance * self.length / self.parallel + self._pair(2)

    @property
    def impedance(self) -> complex:
        """Impedance referred to the station's voltage from line to line; one phase counts six times [ohm]."""
        factor = (self.system / self.voltage) ** 2 * (1.0 if self.phases == 3 else 6.0)
        return factor * complex(self.resistance, self.reactance)

    def line_current(self, current: float) -> float:
        """Current of one cable [A] from the current at the station's voltage times sqrt(3)."""
        line = current / sqrt(3.0) if self.phases == 3 else current * sqrt(3.0)
        return line * self.system / self.voltage / self.parallel


@dataclass(frozen=True)
class MotorCase:
    """A motor that starts on the line: shaft power [W], factors, starting current as a multiple."""

    power: float
    power_factor: float
    efficiency: float
    times: float
    start_factor: float


@dataclass(frozen=True)
class LoadCase:
    """A load: greatest demand [W] and its shares through day and year."""

    name: str
    board: str
    place: str
    connected: float
    demand: float
    power_factor: float
    day: Row
    year: Row
    essential: bool
    shed: int
    worked_out: bool
    motor: MotorCase | None


@dataclass(frozen=True)
class EngineCase:
    """What thin and warm air leave of a kind of set, and what it burns: fuel lines in m3/J."""

    rated: float
    engine: str
    stated: float | None
    rules: tuple[tuple[str, float, str], ...]
    factor: float
    """Share of rated power at the station."""
    fuel_factor: float
    idle: float
    slope: float
    worst_fit: float
    """Largest distance of the maker's table from the line, as a share."""

    @property
    def power(self) -> float:
        """Power of one set at the station [W]."""
        return self.rated * self.factor


@dataclass(frozen=True)
class SetCase:
    """Generator sets of one kind in one place."""

    name: str
    place: str
    board: str
    main: bool
    count: int
    engine: EngineCase
    lowest: float
    highest: float
    jacket: float
    exhaust: float
    radiated: float
    in_place: bool
    start_time: float | None
    starting_power: float | None
    mass: float
    volume: float
    part: str | None


@dataclass(frozen=True)
class SourceCase:
    """A source with stated output [W]."""

    name: str
    place: str
    board: str
    electric: float
    heat: float
    to_place: float
    year: Row
    firm: bool


@dataclass(frozen=True)
class TankCase:
    """Fuel tanks alike [m3, kg]."""

    name: str
    count: int
    place: str
    volume: float
    usable: float
    mass: float
    packed: float


@dataclass(frozen=True)
class FuelCase:
    """Fuel: density, heating value, resupply [s], tanks."""

    density: float
    heating_value: float
    interval: float
    month: int | None
    reserve: float
    tanks: tuple[TankCase, ...]
    container: str | None
    container_volume: float

    @property
    def usable(self) -> float:
        """What can be drawn from the tanks [kg]."""
        return sum(tank.count * tank.volume * tank.usable for tank in self.tanks) * self.density


@dataclass(frozen=True)
class ConstructionCase:
    """Power while the station is built."""

    count: int
    engine: EngineCase
    hours_per_day: float
    mean_share: float
    days: float
    loads: tuple[tuple[str, float, float], ...]
    """Name, connected [W], demand factor."""
    mass: float
    volume: float
    part: str | None


@dataclass(frozen=True)
class Case:
    """The whole power part, everything by value."""

    voltage: float
    pressure: float
    pressure_measured: bool
    elevation: float
    inlet: float
    cold: float
    warm: float
    diversity: float
    growth: float
    least: int
    longest_gap: float | None
    drop_limit: float
    start_drop_limit: float | None
    boards: tuple[BoardCase, ...]
    feeders: tuple[FeederCase, ...]
    sets: tuple[SetCase, ...]
    sources: tuple[SourceCase, ...]
    loads: tuple[LoadCase, ...]
    others_known: bool
    """Whether the loads that other studies work out were handed over."""
    other_fuel: Row
    """Fuel that heaters and boilers burn, by month [kg]."""
    fuel: FuelCase
    construction: ConstructionCase | None
