"""What the packing list holds."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity


@dataclass(frozen=True)
class PackingLine:
    """One part on the packing list."""

    part: str = quantity("text", "Part, as named in the station file or by the study that needs it")
    what: str = quantity("text", "What it is")
    needed: int = quantity("1", "Pieces that work items, kits, stores and machines take")
    spares: int = quantity("1", "Spare pieces on top")
    mass_each: float = quantity("kg", "Mass of one piece, packed")
    volume_each: float = quantity("m3", "Volume of one piece, packed")
    size: tuple[float, float, float] | None = quantity("m", "Length, width, height of one piece; none where not known")
    places: tuple[tuple[str, int], ...] = quantity("1", "Pieces by place; spares, stores and machines are places here")
    kits: tuple[tuple[str, int], ...] = quantity("1", "Pieces by kit")
    items: tuple[str, ...] = quantity("text", "Work items that take it")
    first_step: int = quantity("1", "Steps of work before the first item that takes it; 0: needed at once")
    carried_by: tuple[str, ...] = quantity("text", "Means of transport that can take one piece")
    hazardous: bool = quantity("1", "Travels apart")
    outsize: bool = quantity("1", "Some means of transport cannot take it")
    listed: bool = quantity("1", "Mass and size come from the station file's parts or machines")

    @property
    def pieces(self) -> int:
        """Pieces to ship, spares included."""
        return self.needed + self.spares

    @property
    def mass(self) -> float:
        """Mass of all pieces [kg]."""
        return self.pieces * self.mass_each

    @property
    def volume(self) -> float:
        """Volume of all pieces [m3]."""
        return self.pieces * self.volume_each

    @property
    def longest(self) -> float | None:
        """Largest dimension of one piece [m]; none where not known."""
        return max(self.size) if self.size is not None else None


@dataclass(frozen=True)
class CargoResult:
    """The packing list with its totals."""

    lines: tuple[PackingLine, ...] = quantity("1", "Lines in order of need")
    pieces: int = quantity("1", "Pieces to ship")
    mass: float = quantity("kg", "Mass to ship")
    volume: float = quantity("m3", "Volume to ship")
    mass_by_place: tuple[tuple[str, float], ...] = quantity("kg", "Mass by place")
    mass_by_kit: tuple[tuple[str, float], ...] = quantity("kg", "Mass by kit, spares not counted")
    hazardous_mass: float = quantity("kg", "Mass of what travels apart")
    missing: tuple[str, ...] = quantity("text", "Parts that are needed and have no mass anywhere")
    unneeded: tuple[str, ...] = quantity("text", "Parts and kits of the station file that nothing needs")
    capacity_mass: float = quantity("kg", "Payload of all planned trips")
    capacity_volume: float = quantity("m3", "Loading space of all planned trips")
    trips_alone: tuple[tuple[str, int], ...] = quantity("1", "Fewest trips if one means carried everything")
    fewest_trips: int | None = quantity(
        "1", "Fewest trips of all means together; none where the planned trips are too few"
    )
