"""What the settling of one building depends on, in numbers: two buildings with the same case have the same answers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from firnstead.foundation.settlement import hardening_table
from firnstead.foundation.viscosity import curve_crocus, curve_sorge, viscosity_at
from firnstead.snow._arrays import Array
from firnstead.snow.results import SnowResult

Curve = tuple[Array, Array]


@dataclass(frozen=True)
class Layout:
    """A building with its footings; lengths in m, loads in Pa, shares as numbers, temperatures in K."""

    mass: float
    length: float
    width: float
    footing_height: float
    rows: int
    per_row: int
    footing_width: float
    footing_length: float
    live_load: float
    sustained_share: float
    edge_share: float | None
    eccentricity: float
    drop_distance: float | None
    pad_thickness: float
    pad_density: float
    pad_age: float
    floor_temperature: float
    warm_depth: float
    warm_side: float
    load_spread: float
    snow_spread: float
    settlement_limit: float
    relevel_limit: float
    relevel_interval: float
    jack_stroke: float
    shim_thickness: float
    shim_limit: float
    jacks: int | None

    @property
    def spacing(self) -> float:
        """Distance between the middles of rows [m]."""
        return (self.width - self.footing_width) / (self.rows - 1)

    @property
    def spacing_along(self) -> float:
        """Distance between the middles of footings in a row [m]."""
        return (self.length - self.footing_length) / (self.per_row - 1)

    @property
    def short_side(self) -> float:
        """Smaller side of a footing [m]."""
        return min(self.footing_width, self.footing_length)

    @property
    def long_side(self) -> float:
        """Larger side of a footing [m]."""
        return max(self.footing_width, self.footing_length)

    @property
    def count(self) -> int:
        """Footings."""
        return self.rows * self.per_row

    @property
    def pad_volume(self) -> float:
        """Compacted snow, spread two to one beyond the footings, never more than under the whole building [m3]."""
        t = self.pad_thickness
        each = (self.footing_width + t) * (self.footing_length + t)
        return t * min(self.count * each, (self.width + t) * (self.length + t))


@dataclass(frozen=True, eq=False)
class Law:
    """A law of viscosity at the site's temperature: curve against density, and the table of its hardening."""

    name: str
    source: str
    curve: Curve
    table: Curve


@dataclass(frozen=True, eq=False)
class Ground:
    """The snow below a floor: layers with thickness, middle below the floor and density; the laws that hold in it."""

    floor: float
    thickness: Array
    middle: Array
    density: Array
    laws: tuple[Law, ...]
    temperature: float
    accumulation: float
    life: float
    snow_factor: float
    snow: SnowResult

    def strength(self, top: float, depth: float) -> float:
        """Least low end of the compressive strength from `top` below the floor over a depth [Pa]."""
        column = self.snow.column
        first = min(self.floor + top, float(column.depth[-1]))
        return column.least("ucs_low", first, min(first + depth, float(column.depth[-1])))

    def viscosities(self, law: Law, density: Array) -> Array:
        """Viscosity of layers by a law at the site's temperature [Pa s]."""
        densities, viscosities = law.curve
        found: Array = np.exp(np.interp(density, densities, np.log(viscosities)))
        if density.min() < densities[0]:
            found = np.array([viscosity_at(float(each), law.curve) for each in density])
        return found


def ground_below(
    snow: SnowResult, floor: float, temperature: float, accumulation: float, life: float, snow_factor: float,
    *, reach: float = 25.0, layers: int = 48,
) -> Ground:  # fmt: skip
    """The ground below a floor; layers are thin under the footing and grow downwards, to `reach` below the floor.

    Below the column the density is that of its lowest point: a little less than there, so settling is not understated.
    """
    column = snow.column
    edges = reach * np.linspace(0.0, 1.0, layers + 1) ** 2
    middle = (edges[1:] + edges[:-1]) / 2
    density = np.interp(floor + middle, column.depth, column.density)
    sorge = curve_sorge(column.depth, column.density, column.overburden, accumulation)
    crocus = curve_crocus(temperature)
    laws = (Law("Sorge's law on the site's own profile", "bader_1954", sorge, hardening_table(*sorge)),
            Law("Crocus", "vionnet_2012", crocus, hardening_table(*crocus)))  # fmt: skip
    return Ground(floor, np.diff(edges), middle, density, laws, temperature, accumulation, life, snow_factor, snow)
