"""What the water of a station depends on, in numbers: two stations with the same plan have the same answers."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.water.case import PoolCase
from firnstead.water.sump import SumpCase

Row = tuple[float, ...]


@dataclass(frozen=True)
class Source:
    """A source of heat; `power` [W] by month."""

    name: str
    kind: str
    power: Row
    efficiency: float


@dataclass(frozen=True)
class Store:
    """A tank."""

    name: str
    place: str
    volume: float
    fire: bool
    temperature: float


@dataclass(frozen=True)
class SumpPlan:
    """The sump and its distances in plan [m]; names beside them."""

    case: SumpCase
    outfall: float
    clearance: float
    to_well: float
    nearest_well: str
    to_cut: float
    nearest_cut: str
    cut_floor: float
    to_fuel: float | None
    nearest_fuel: str
    fuel_floor: float
    off_flow: float | None
    """Angle between the way from well to sump and the flow of the ice [deg]."""


@dataclass(frozen=True)
class Plan:
    """Everything in SI. Rows are twelve months, January first."""

    pool: PoolCase
    sources: tuple[Source, ...]
    waste_told: bool
    """Whether the waste heat comes from the power study (else: from the file alone)."""
    limit: float
    start: tuple[int, int]
    """Year and month of the first steam."""
    life: float
    people: Row
    beds: int
    uses: tuple[tuple[str, float, float], ...]
    losses: float
    lead: float
    sealing_depth: float
    sealing_spread: float
    head: float
    shaft_mass: float
    shaft_diameter: float
    closing: float | None
    steam_power: float
    steam_useful: float
    steam_efficiency: float
    melting_head: float
    pump_flow: float
    pump_lift: float
    pump_efficiency: float
    friction: float
    pump_width: float
    submergence: float
    lowered_every: float
    spares: int
    hose_bore: float
    hose_insulation: float
    hose_conductivity: float
    hose_drains: bool
    circulation_head: float
    delivery: float
    span: float | None
    ice_allowed: float
    pump_repair: float
    heat_repair: float
    emergency: float
    stores: tuple[Store, ...]
    fire_flow: float | None
    fire_duration: float
    fuel_heat: float
    """[J/kg]"""
    wells: int
    well_spacing: float | None
    """Smallest distance between two wells [m]."""
    well_to_fuel: float | None
    nearest_fuel: str
    sump: SumpPlan | None
