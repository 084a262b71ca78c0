"""From the station file to one run in numbers: what its answers depend on, and nothing else."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import pi

import numpy as np

from firnstead.pipes import glycol, water
from firnstead.pipes.freezing import LATENT
from firnstead.pipes.line import Wrapping
from firnstead.pipes.results import Row
from firnstead.pipes.tables import rows
from firnstead.snow import SnowResult
from firnstead.station import Station
from firnstead.station.pipes import PipeKind, PipeRun, Pipes, TracingCable
from firnstead.station.routes import Stretch, floor_level, straights, stretches

ZERO = 273.15
SNOW_BAND = 0.3  # the conductivity of firn is known to about this share (own rule; laws differ by 1.7 at 500 kg/m3)


@dataclass(frozen=True)
class Material:
    """A pipe's material."""

    conductivity: float
    density: float
    heat_capacity: float
    expansion: float
    modulus: float
    stress: float
    roughness: float


@dataclass(frozen=True)
class Carrier:
    """What flows: at the lowest temperature wanted. `freezing`: where ice or wax begins; `source` of its properties."""

    density: float
    heat_capacity: float
    conductivity: float
    freezing: float
    viscosity: float | None
    ice: bool
    latent: float
    source: str


@dataclass(frozen=True)
class Leg:
    """A run in one place: `cold` is the coldest air without station heat, `usual` the air by month; `snow` and
    `snow_warm` are the coldest and warmest month of the snow at the floor."""

    place: str
    stretches: tuple[Stretch, ...]
    cold: float
    usual: Row
    heave: float | None
    snow: float
    snow_warm: float
    snow_conductivity: float

    @property
    def length(self) -> float:
        """Length in this place [m]."""
        return sum(piece.length for piece in self.stretches)


@dataclass(frozen=True)
class Case:
    """Everything that the answers of a run depend on."""

    run: PipeRun
    kind: PipeKind
    cable: TracingCable | None
    material: Material
    carrier: Carrier
    wrapping: Wrapping
    legs: tuple[Leg, ...]
    straights: tuple[float, ...]
    room: tuple[float, float] | None
    """For gravity lines: highest level at the beginning and lowest at the end that the cuts allow."""
    speed: float
    wet: float
    life: float
    wall_movement: float | None
    usual_known: bool

    @property
    def length(self) -> float:
        """Length of the run [m]."""
        return sum(leg.length for leg in self.legs)

    @property
    def buried(self) -> bool:
        """Whether snow is all round it."""
        return self.run.supports.kind == "in snow"

    @property
    def in_snow(self) -> bool:
        """Whether it touches snow all along: buried, or lying on it between snow and air."""
        return self.run.supports.kind in ("on snow", "in snow")

    @property
    def axis_depth(self) -> float:
        """Depth of the axis in snow; a line that lies on snow sinks in and is drifted over: one diameter (own rule)."""
        return self.run.supports.depth or self.kind.outside


def case_of(
    station: Station, pipes: Pipes, snow: SnowResult, run: PipeRun, air: Mapping[str, Row] | None,
    floor_heave: Mapping[str, float] | None,
) -> Case | str:  # fmt: skip
    """One run in numbers, or why its route cannot be followed."""
    pieces = stretches(station, run.route)
    if isinstance(pieces, str):
        return pieces
    kind = pipes.kinds[run.kind]
    material = material_of(kind)
    legs: list[Leg] = []
    for piece in pieces:
        if legs and legs[-1].place == piece.place:
            legs[-1] = replace(legs[-1], stretches=(*legs[-1].stretches, piece))
        else:
            legs.append(_leg(station, pipes, snow, piece, air, floor_heave))
    jacket = kind.jacket
    wrapping = Wrapping(
        kind.bore, kind.outer, material.conductivity,
        tuple((layer.thickness, layer.conductivity, layer.growth) for layer in kind.insulation),
        jacket.thickness if jacket is not None else 0.0,
        jacket.emissivity if jacket is not None else kind.bare_emissivity)  # fmt: skip
    return Case(
        run=run, kind=kind, cable=pipes.cables[run.tracing.cable] if run.tracing is not None else None,
        material=material, carrier=carrier_of(run, pipes), wrapping=wrapping, legs=tuple(legs),
        straights=straights(pieces), room=_room(station, run, kind), speed=pipes.air_speed, wet=pipes.wet_factor,
        life=station.design.life, wall_movement=station.design.wall_movement, usual_known=air is not None)  # fmt: skip


def material_of(kind: PipeKind) -> Material:
    """The material of a kind of pipe."""
    row = next(row for row in rows("materials") if row["material"] == kind.material)
    return Material(**{name: float(value) for name, value in row.items() if name != "material"})


def carrier_of(run: PipeRun, pipes: Pipes) -> Carrier:
    """The carrier of a run, at the lowest temperature wanted in it."""
    if run.carrier == "fuel" and pipes.fuel is not None:
        f = pipes.fuel
        return Carrier(f.density, f.heat_capacity, 0.13, f.cloud_point, None, False, 0.0, "common_practice")
    if run.carrier == "glycol" and run.glycol_share is not None:
        kind, share = pipes.glycol, run.glycol_share
        freezing = glycol.freezing_point_glycol(kind, share)
        at = min(max(run.least, freezing), 313.15)
        return Carrier(
            glycol.density_glycol(kind, share, at), glycol.heat_capacity_glycol(kind, share, at),
            glycol.conductivity_glycol(kind, share, at), freezing, glycol.viscosity_glycol(kind, share, at), False,
            glycol.density_glycol(kind, share, at) * LATENT * (1 - share), "melinder_2010")  # fmt: skip
    at = min(max(run.least, ZERO), 373.15)
    return Carrier(water.density_water_kell(at), water.heat_capacity_water(at), water.conductivity_water(at), ZERO,
                   water.viscosity_water(at), True, water.density_water_kell(at) * LATENT, "kell_1975")  # fmt: skip


def _leg(
    station: Station, pipes: Pipes, snow: SnowResult, piece: Stretch, air: Mapping[str, Row] | None,
    floor_heave: Mapping[str, float] | None,
) -> Leg:  # fmt: skip
    place = station.places[piece.place]
    column = snow.column
    feet = station.sections[place.section].bench_depth
    floor = -floor_level(station, place)
    cold = pipes.air_without_heat
    if cold is None:
        cold = float(np.interp(feet, column.depth, column.coldest))
    usual = (place.air,) * 12 if air is None or piece.place not in air else tuple(air[piece.place])
    return Leg(
        piece.place, (piece,), min(cold, *usual), usual,
        None if floor_heave is None else floor_heave.get(piece.place),
        float(np.interp(floor, column.depth, column.coldest)), float(np.interp(floor, column.depth, column.warmest)),
        float(np.interp(floor, column.depth, column.conductivity)))  # fmt: skip


def _room(station: Station, run: PipeRun, kind: PipeKind) -> tuple[float, float] | None:
    """Levels between which a gravity line can be laid: under the roof's feet at its beginning, on the floor at its end,
    or as deep in the floor as it is laid."""
    if run.drive != "gravity":
        return None
    first, last = run.route[0], run.route[-1]
    high = -station.sections[station.places[first.place].section].bench_depth - kind.outside
    low = floor_level(station, station.places[last.place]) + min(0.0, last.height or 0.0)
    return high, low


def metre_mass(case: Case) -> float:
    """Pipe, insulation and jacket of one metre [kg/m]."""
    kind = case.kind

    def ring(inner: float, thickness: float, density: float) -> float:
        return pi * thickness * (inner + thickness) * density

    total, at = ring(kind.bore, kind.wall, case.material.density), kind.outer
    for layer in kind.insulation:
        total += ring(at, layer.thickness, layer.density)
        at += 2 * layer.thickness
    return total + (ring(at, kind.jacket.thickness, kind.jacket.density) if kind.jacket is not None else 0.0)
