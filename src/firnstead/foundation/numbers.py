"""From a layout and its ground to loads, settling of every row, distortion and relevelling."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from firnstead.foundation.case import Ground, Law, Layout
from firnstead.foundation.differential import difference_rate, distortion_rate, time_to_limit, warm_side_rate
from firnstead.foundation.pressure import building_load, footing_load, mean_pressure, row_shares
from firnstead.foundation.relevel import levelling_tolerance, raise_needed, relevel_count, relevel_step, shims_needed
from firnstead.foundation.results import BuildingFoundation, RowSettlement
from firnstead.foundation.settlement import rate_layers, rate_warm_ice, settlement_updated, stress_spread
from firnstead.foundation.viscosity import warmth_arrhenius, warmth_crocus
from firnstead.snow._arrays import Array

MOST_TIMES = 100  # relevellings that are listed one by one
ENERGIES = (42e3, 67e3)  # J/mol: the literature's range of activation energies (from memory, unchecked)


@dataclass(frozen=True)
class Variant:
    """One way to reckon: a law with one activation energy (0: the law's own growth with warmth)."""

    law: Law
    energy: float

    def warmth(self, temperature: float, reference: float) -> float:
        """Factor on the rate at a temperature."""
        if self.energy == 0.0:
            return warmth_crocus(temperature, reference)
        return warmth_arrhenius(temperature, reference, self.energy)


@dataclass(frozen=True)
class Settling:
    """One row by one variant: rate at the start and settlement with layers growing denser."""

    variant: Variant
    rate: float
    updated: float


@dataclass(frozen=True, eq=False)
class Row:
    """One kind of row: its share, loads, and settling by every variant, the fastest last."""

    share: float
    load: float
    sustained: float
    settling: tuple[Settling, ...]

    @property
    def fastest(self) -> Settling:
        """The variant with the highest rate."""
        return self.settling[-1]


@dataclass(frozen=True, eq=False)
class Numbers:
    """Everything that checks and results of one building need."""

    layout: Layout
    ground: Ground
    full: float
    sustained: float
    edge: Row
    middle: Row | None
    warm_factor: float
    """How much faster the warm side settles than the cold one."""

    @cached_property
    def worst(self) -> Row:
        """The row that settles fastest."""
        return max(self.rows, key=lambda row: row.fastest.rate)

    @cached_property
    def heaviest(self) -> Row:
        """The row with the greatest load on a footing."""
        return max(self.rows, key=lambda row: row.load)

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """Edge rows, then inner rows."""
        return (self.edge,) if self.middle is None else (self.edge, self.middle)

    @cached_property
    def slowest_rate(self) -> float:
        """Lowest of the rows' fastest rates [m/s]."""
        return min(row.fastest.rate for row in self.rows)

    @cached_property
    def spread(self) -> float:
        """Difference between neighbours of a row, as a share."""
        return self.layout.load_spread + self.layout.snow_spread

    @cached_property
    def along(self) -> float:
        """Distortion rate along the worst row [1/s]."""
        return distortion_rate(difference_rate(self.worst.fastest.rate, self.worst.fastest.rate, self.spread),
                               self.layout.spacing_along)  # fmt: skip

    @cached_property
    def across(self) -> float:
        """Distortion rate between rows [1/s]; with two rows the spread alone."""
        other = self.edge if self.middle is None else self.middle
        return distortion_rate(difference_rate(self.edge.fastest.rate, other.fastest.rate, self.spread),
                               self.layout.spacing)  # fmt: skip

    @cached_property
    def tilt(self) -> float:
        """Slope rate across the whole building from a warm side and the snow's spread [1/s]."""
        return distortion_rate(warm_side_rate(self.edge.fastest.rate, self.warm_factor, self.layout.snow_spread),
                               self.layout.width - self.layout.footing_width)  # fmt: skip

    @cached_property
    def slope(self) -> float:
        """The fastest of the three [1/s]."""
        return max(self.along, self.across, self.tilt)

    @cached_property
    def distance(self) -> float:
        """Smallest distance between neighbouring footings [m]."""
        return min(self.layout.spacing, self.layout.spacing_along)

    @cached_property
    def tolerance(self) -> float:
        """Difference in level that may be left between the nearest neighbours [m]."""
        return levelling_tolerance(self.layout.relevel_limit, self.distance)

    @cached_property
    def time(self) -> float:
        """Time until the relevel limit [s]."""
        return time_to_limit(self.layout.relevel_limit, self.tolerance / self.distance, self.slope)

    @cached_property
    def step(self) -> float:
        """Time between planned relevellings [s]."""
        return relevel_step(self.time)

    def sinking(self, row: Row) -> float:
        """Settling rate of a row's footings, on the warm side where it is an outer row [m/s]."""
        return row.fastest.rate * (self.warm_factor if row is self.edge else 1.0)

    @cached_property
    def deepest(self) -> Row:
        """The row that sinks fastest, warm side counted."""
        return max(self.rows, key=self.sinking)

    def lift(self, row: Row, time: float) -> float:
        """Height to raise a footing of a row by after a time, on the warm side too [m]."""
        return raise_needed(self.sinking(row), self.slowest_rate, self.spread, time)

    def greatest_lift(self, time: float) -> float:
        """Height to raise the lowest footing by after a time [m]."""
        return max(self.lift(row, time) for row in self.rows)

    @cached_property
    def shims(self) -> int:
        """Shims for the design life, every footing as the lowest of its row."""
        counts = [shims_needed(self.lift(row, self.ground.life), self.layout.shim_thickness) for row in self.rows]
        inner = (self.layout.rows - 2) * counts[-1] if self.middle is not None else 0
        return self.layout.per_row * (2 * counts[0] + inner)


def numbers_of(layout: Layout, ground: Ground) -> Numbers:
    """Reckon one building."""
    b, c = layout, ground
    full = building_load(b.mass, b.live_load, b.length, b.width)
    sustained = building_load(b.mass, b.live_load, b.length, b.width, b.sustained_share)
    outer, inner = row_shares(b.rows, b.edge_share)
    variants = tuple(Variant(c.laws[0], energy) for energy in ENERGIES) + (Variant(c.laws[1], 0.0),)
    ways = tuple(_way(variant, b, c) for variant in variants)

    def row(share: float) -> Row:
        load = footing_load(sustained, share, b.per_row)
        stress = stress_spread(load, b.footing_width, b.footing_length, c.middle, b.rows, b.per_row, b.spacing,
                               b.spacing_along)  # fmt: skip
        found = [_settling(c, variant, stress, *way) for variant, way in zip(variants, ways, strict=True)]
        settling = tuple(sorted(found, key=lambda each: each.rate))
        return Row(share, footing_load(full, share, b.per_row), load, settling)

    edge = row(outer)
    factor = edge.fastest.variant.warmth(b.floor_temperature + b.warm_side, b.floor_temperature)
    return Numbers(b, c, full, sustained, edge, row(inner) if b.rows > 2 else None, factor)


def pad_share(layout: Layout, ground: Ground) -> Array:
    """Share of each layer that is pad."""
    top = ground.middle - ground.thickness / 2
    share: Array = np.clip((layout.pad_thickness - top) / ground.thickness, 0.0, 1.0)
    return share


def _way(variant: Variant, b: Layout, c: Ground) -> tuple[Array, Array, Array]:
    """Thickness, density and fluidity (1/viscosity) of all layers at their temperature, pad pieces first."""
    pad = pad_share(b, c)
    thickness = np.concatenate((c.thickness * pad, c.thickness * (1 - pad)))
    density = np.concatenate((np.full_like(pad, b.pad_density), c.density))
    warm = variant.warmth(b.floor_temperature, c.temperature)
    factor = np.where(np.concatenate((c.middle, c.middle)) <= b.warm_depth, warm, 1.0)
    return thickness, density, factor


def _settling(c: Ground, variant: Variant, stress: Array, thickness: Array, density: Array, factor: Array) -> Settling:
    stresses = np.concatenate((stress, stress)) * factor
    rate = rate_layers(thickness, stresses, c.viscosities(variant.law, density))
    return Settling(variant, rate, settlement_updated(thickness, density, stresses * c.life, variant.law.table))


def result_of(n: Numbers) -> BuildingFoundation:
    """The numbers as a result; place and kit are filled in per building."""
    b, c = n.layout, n.ground
    count = relevel_count(c.life, n.step)
    return BuildingFoundation(
        place="", kit="", footings=b.count, spacing=b.spacing, spacing_along=b.spacing_along, mass=b.mass,
        edge=_row_result(n, n.edge), middle=None if n.middle is None else _row_result(n, n.middle),
        floor_temperature=b.floor_temperature,
        warmth=n.worst.fastest.variant.warmth(b.floor_temperature, c.temperature),
        rate_on_warm_ice=rate_warm_ice(mean_pressure(n.worst.sustained, b.footing_width, b.footing_length),
                                       b.short_side),
        distortion_rate=max(n.along, n.across), tilt_rate=n.tilt, time_to_relevel=n.time,
        relevel_times=tuple(n.step * (i + 1) for i in range(min(count, MOST_TIMES))), tolerance=n.tolerance,
        raise_in_life=n.greatest_lift(c.life), shims=n.shims, pad_volume=b.pad_volume)  # fmt: skip


def _row_result(n: Numbers, row: Row) -> RowSettlement:
    b, life = n.layout, n.ground.life
    return RowSettlement(
        load=row.load, sustained=row.sustained, pressure=mean_pressure(row.load, b.footing_width, b.footing_length),
        law=row.fastest.variant.law.name, rate_low=row.settling[0].rate, rate_high=row.fastest.rate,
        settlement_low=min(each.updated for each in row.settling), settlement_high=row.fastest.rate * life)  # fmt: skip
