"""Results of the snow study: the column against depth, milled snow, and what is known of both."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import cast

import numpy as np

from firnstead.core.results import quantity
from firnstead.core.units import G0
from firnstead.snow._arrays import Array
from firnstead.snow.hardening import strength_milled_snow_low, waiting_time_milled_snow


@dataclass(frozen=True, eq=False)
class SnowColumn:
    """Undisturbed snow against depth; all arrays belong to `depth` and are never changed."""

    depth: Array = quantity("m", "depth below the surface")
    density: Array = quantity("kg/m3", "density")
    density_low: Array = quantity("kg/m3", "low end of the density")
    density_high: Array = quantity("kg/m3", "high end of the density")
    overburden: Array = quantity("Pa", "weight of the snow above, from the mass")
    porosity: Array = quantity("1", "share of air in the volume")
    mean_temperature: Array = quantity("K", "mean annual temperature")
    coldest: Array = quantity("K", "coldest temperature of the year")
    warmest: Array = quantity("K", "warmest temperature of the year")
    ucs_low: Array = quantity("Pa", "unconfined compressive strength, low end; natural bonded snow, fast load")
    ucs_middle: Array = quantity("Pa", "unconfined compressive strength, middle")
    ucs_high: Array = quantity("Pa", "unconfined compressive strength, high end")
    tensile_low: Array = quantity("Pa", "tensile strength, low end")
    tensile_middle: Array = quantity("Pa", "tensile strength, middle")
    shear_low: Array = quantity("Pa", "shear strength, low end")
    conductivity: Array = quantity("W/m/K", "thermal conductivity at the mean temperature (Calonne 2019)")
    diffusivity: Array = quantity("m2/s", "thermal diffusivity at the mean temperature")

    def __post_init__(self) -> None:
        for each in fields(self):
            getattr(self, each.name).setflags(write=False)

    def at(self, name: str, depth: float) -> float:
        """The value of a field at a depth; ValueError outside the column."""
        self._inside(depth)
        return float(np.interp(depth, self.depth, self._values(name)))

    def mass(self, top: float, bottom: float) -> float:
        """Mass [kg/m2] between two depths."""
        return (self.at("overburden", bottom) - self.at("overburden", top)) / G0

    def mean(self, name: str, top: float, bottom: float) -> float:
        """The mean of a field between two depths; of the density it is mass over thickness, so mass is kept."""
        if bottom <= top:
            return self.at(name, top)
        if name == "density":
            return self.mass(top, bottom) / (bottom - top)
        depth, values = self._between(name, top, bottom)
        return float(np.sum(np.diff(depth) * (values[:-1] + values[1:]) / 2)) / (bottom - top)

    def least(self, name: str, top: float, bottom: float) -> float:
        """The smallest value of a field between two depths."""
        return float(self._between(name, top, bottom)[1].min())

    def _between(self, name: str, top: float, bottom: float) -> tuple[Array, Array]:
        self._inside(top)
        self._inside(bottom)
        nodes = self.depth[(self.depth > top) & (self.depth < bottom)]
        depth = np.concatenate(([top], nodes, [bottom]))
        return depth, np.interp(depth, self.depth, self._values(name))

    def _values(self, name: str) -> Array:
        return cast(Array, getattr(self, name))

    def _inside(self, depth: float) -> None:
        if not 0.0 <= depth <= self.depth[-1]:
            raise ValueError(f"the snow column reaches from 0 to {self.depth[-1]:g} m, not to {depth:g} m")


@dataclass(frozen=True)
class MilledStrength:
    """Strength of the station's milled snow against age, as far as it was measured."""

    density: float = quantity("kg/m3", "density as placed")
    envelope: float = quantity("Pa", "low end of the strength of well-bonded snow of that density; never passed")
    measured_strength: float | None = quantity("Pa", "measured strength; none before it is measured")
    measured_age: float | None = quantity("s", "age of the measured sample")
    temperature_factor: float = quantity("1", "hardening at the cover's temperature over that of the sample")
    exponent_low: float = quantity("1", "slowest growth with age")
    exponent_high: float = quantity("1", "fastest growth with age")
    unknown: str = quantity("text", "why the strength cannot be told; empty where it can")

    def strength_low(self, age: float) -> float | None:
        """Low end of the strength [Pa] at an age [s]; zero at age zero; none where it is not known."""
        if age <= 0.0:
            return 0.0
        if self.unknown or self.measured_strength is None or self.measured_age is None:
            return None
        return strength_milled_snow_low(
            age, self.measured_strength, self.measured_age, self.envelope, exponent_low=self.exponent_low,
            exponent_high=self.exponent_high, temperature_factor=self.temperature_factor)  # fmt: skip

    def waiting_time(self, strength: float) -> float | None:
        """Age [s] at which the low end reaches a strength [Pa]; infinite if never; none where it is not known."""
        if strength <= 0.0:
            return 0.0
        if strength > self.envelope:
            return float("inf")
        if self.unknown or self.measured_strength is None or self.measured_age is None:
            return None
        return waiting_time_milled_snow(
            strength, self.measured_strength, self.measured_age, self.envelope, exponent_low=self.exponent_low,
            exponent_high=self.exponent_high, temperature_factor=self.temperature_factor)  # fmt: skip


@dataclass(frozen=True, eq=False)
class SnowResult:
    """What is known of the snow of the site."""

    column: SnowColumn = quantity("1", "undisturbed snow against depth")
    milled: MilledStrength = quantity("1", "milled snow against age")
    density_from: str = quantity("text", "where the density comes from")
    measured_depth: float = quantity("m", "depth to which the density was measured; 0 where nothing was")
    depth_of_550: float = quantity("m", "depth at which 550 kg/m3 is first reached")
    depth_of_830: float = quantity("m", "depth at which 830 kg/m3 is first reached")
    law_depth_of_550: float = quantity("m", "depth of 550 kg/m3 by the law alone")
    penetration_depth: float = quantity("m", "depth over which the yearly swing falls to 1/e, from the surface")
    notes: tuple[str, ...] = quantity("text", "what the reader must know about these numbers")
