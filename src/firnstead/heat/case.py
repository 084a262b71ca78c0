"""What the heat of a station depends on, in numbers; two stations with the same case have the same answers."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.snow.ground_response import Response, Surroundings


@dataclass(frozen=True)
class GapCase:
    """The air below one building: where it comes from, how much."""

    height: float
    supply: str
    """`none`, `trench`, `outside` or `well`."""
    flow: float
    temperature: float
    """Of well air [K]; else 0."""
    fan_power: float


@dataclass(frozen=True)
class BuildingCase:
    """One heated building; SI throughout, conductances in W/K."""

    name: str
    place: int
    length: float
    width: float
    height: float
    temperature: float
    humidity: float
    wall_roof: float
    """Conductance of walls, roof, doors and windows to the trench air [W/K]."""
    floor_resistance: float
    """Of the solid floor with its inner film [m2 K/W]."""
    leak_area: float
    """Area of cracks [m2]; 0 where the leak is given as a flow."""
    leak_flow: float
    ventilation: float
    from_outside: bool
    recovery: float
    fan_power: float
    gains: float
    """People, lamps and things [W]."""
    gap: GapCase

    @property
    def floor_area(self) -> float:
        """Floor area [m2]."""
        return self.length * self.width

    @property
    def envelope_area(self) -> float:
        """Walls, roof and floor [m2]."""
        return 2.0 * (self.length + self.width) * self.height + 2.0 * self.floor_area


@dataclass(frozen=True)
class VentCase:
    """Vents of one kind in one place."""

    area: float
    height: float
    flow: float
    fan_power: float
    count: int


@dataclass(frozen=True)
class WellCase:
    """Air wells of one kind in one place."""

    flow: float
    temperature: float
    fan_power: float
    count: int
    casing: float
    spacing: float | None


@dataclass(frozen=True)
class PlaceCase:
    """One place: its own warmth, ducts and leaks. `section` is the number of its snow in the list of sections."""

    name: str
    section: int
    length: float
    gains: float
    outside_leak: float
    vents: tuple[VentCase, ...]
    wells: tuple[WellCase, ...]
    limit: float
    cool_to: float


@dataclass(frozen=True)
class LinkCase:
    """The way between two places: an opening that stands open, or a door with its leak."""

    a: int
    b: int
    width: float
    height: float
    leak: float
    """Flow past a closed door [m3/s]; the opening counts where it is 0."""


@dataclass(frozen=True)
class ClimateCase:
    """Surface and air, months counted from the first month of use."""

    mean: float
    surface: tuple[float, ...]
    """Twelve monthly surface temperatures from the first month of use [K]."""
    first_month: int
    """Number of the first month of use, January 0."""
    pressure: float
    months: int
    film: float
    """Film coefficient between trench air and snow [W/m2/K]."""


@dataclass(frozen=True)
class StationCase:
    """The whole station. `gains` are watts by place and month (January first) from pipes and power."""

    climate: ClimateCase
    places: tuple[PlaceCase, ...]
    buildings: tuple[BuildingCase, ...]
    building_sections: tuple[int, ...]
    links: tuple[LinkCase, ...]
    gains: tuple[tuple[float, ...], ...]


@dataclass(frozen=True)
class Scenario:
    """A way to reckon with the doubt about the snow: factor on conductivity, share of the life's snowfall on top."""

    name: str
    conductivity: float
    snowfall: float


@dataclass(frozen=True, eq=False)
class Snowfield:
    """The answers of every section in every scenario."""

    scenarios: tuple[Scenario, ...]
    surroundings: tuple[tuple[Surroundings, ...], ...]
    """By section, then scenario."""
    responses: tuple[tuple[Response, ...], ...]
