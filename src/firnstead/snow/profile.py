"""Density profile of a site: measured layers, and below them (or without them) the published law.

In each measured layer the density is a straight line whose mean is the measured mean, so the mass of every layer is
kept exactly; its slope is limited so that no value lies beyond the neighbours' means (monotone data stay monotone).
The law is joined on at the middle of the deepest layer with that layer's density.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firnstead.core.units import G0
from firnstead.snow._arrays import Array, FloatOrArray
from firnstead.snow.density import (
    density_herron_langway,
    depth_of_density_herron_langway,
    mass_above_herron_langway,
)  # fmt: skip


@dataclass(frozen=True)
class DensityLaw:
    """Herron & Langway's law with the climate and the density from which it starts."""

    temperature: float
    accumulation: float
    surface_density: float
    ice_density: float = 917.0
    stage_1_share: float = 1.0
    stage_2_share: float = 1.0

    def _shares(self) -> dict[str, float]:
        return {"ice_density": self.ice_density, "stage_1_share": self.stage_1_share,
                "stage_2_share": self.stage_2_share}  # fmt: skip

    def density(self, depth: Array) -> Array:
        """Density [kg/m3] at depths [m]."""
        return density_herron_langway(
            depth, self.temperature, self.accumulation, self.surface_density, **self._shares())  # fmt: skip

    def mass_above(self, depth: Array) -> Array:
        """Mass [kg/m2] above depths [m]."""
        return mass_above_herron_langway(
            depth, self.temperature, self.accumulation, self.surface_density, **self._shares())  # fmt: skip

    def depth_of(self, density: float) -> float:
        """Depth [m] of a density [kg/m3]."""
        return depth_of_density_herron_langway(
            density, self.temperature, self.accumulation, self.surface_density, **self._shares())  # fmt: skip


@dataclass(frozen=True, eq=False)
class DensityProfile:
    """Layers with straight-line density, then the law. Without measured layers `edges` holds only the surface."""

    edges: Array
    upper: Array
    lower: Array
    law: DensityLaw
    law_offset: float

    @property
    def measured_depth(self) -> float:
        """Depth [m] below which only the law is known."""
        return float(self.edges[-1])

    def density(self, depth: Array) -> Array:
        """Density [kg/m3] at depths [m]."""
        found = self.law.density(np.maximum(depth - self.measured_depth, 0.0) + self.law_offset)
        if self.upper.size == 0:
            return found
        layer, share = self._place(depth)
        inside = self.upper[layer] + (self.lower[layer] - self.upper[layer]) * share
        return np.where(depth < self.measured_depth, inside, found)

    def mass_above(self, depth: Array) -> Array:
        """Mass [kg/m2] above depths [m]; the integral of the density, exactly."""
        thickness = np.diff(self.edges)
        sums = np.concatenate(([0.0], np.cumsum(thickness * (self.upper + self.lower) / 2)))
        offset = np.full_like(depth, self.law_offset)
        deep = np.maximum(depth - self.measured_depth, 0.0)
        below: Array = sums[-1] + self.law.mass_above(deep + offset) - self.law.mass_above(offset)
        if self.upper.size == 0:
            return below
        layer, share = self._place(depth)
        slope = self.lower[layer] - self.upper[layer]
        inside: Array = sums[layer] + thickness[layer] * share * (self.upper[layer] + slope * share / 2)
        return np.where(depth < self.measured_depth, inside, below)

    def depth_of(self, density: float) -> float:
        """Depth [m] at which the density [kg/m3] is first reached."""
        for top, bottom, upper, lower in zip(self.edges[:-1], self.edges[1:], self.upper, self.lower, strict=True):
            if upper >= density:
                return float(top)
            if lower >= density:
                return float(top + (bottom - top) * (density - upper) / (lower - upper))
        return self.measured_depth + max(self.law.depth_of(density) - self.law_offset, 0.0)

    def mean_density(self, top: float, bottom: float) -> float:
        """Mean density [kg/m3] between two depths [m], from the mass."""
        mass = self.mass_above(np.array([top, bottom]))
        return float(mass[1] - mass[0]) / (bottom - top)

    def _place(self, depth: Array) -> tuple[np.ndarray[tuple[int, ...], np.dtype[np.intp]], Array]:
        layer = np.clip(np.searchsorted(self.edges, depth, side="right") - 1, 0, self.upper.size - 1)
        return layer, (depth - self.edges[layer]) / (self.edges[layer + 1] - self.edges[layer])


def profile_from_law(law: DensityLaw) -> DensityProfile:
    """Give the profile of the law alone.

    rho(z) = law

    Parameters
    ----------
    law : DensityLaw [law]
        Climate and surface density.
    Returns
    -------
    DensityProfile [profile]
        The profile.
    Validity: as the law.
    Source: herron_langway_1980, closed form (read second-hand).

    >>> law = DensityLaw(248.55, 350.0 / 31557600, 362.0)
    >>> round(profile_from_law(law).mean_density(8.0, 10.0))
    513
    """
    nothing = np.empty(0)
    return DensityProfile(np.zeros(1), nothing, nothing, law, 0.0)


def profile_from_layers(
    layers: Sequence[tuple[float, float, float]], law: DensityLaw,
) -> DensityProfile:  # fmt: skip
    """Give the profile of measured layers, continued by the law below the deepest one.

    rho = rho_m + s (z - z_m) in each layer; s from the neighbours, |s| h at most the smaller step to a neighbour

    Parameters
    ----------
    layers : sequence of tuple [m, m, kg/m3]
        Top, bottom and mean density, not overlapping. A gap takes the mean of its neighbours; above the first layer
        the law's surface density stands.
    law : DensityLaw [law]
        Climate and surface density; its surface density is replaced by the deepest layer's.
    Returns
    -------
    DensityProfile [profile]
        The profile.
    Validity: layers thick against the true layering are smoothed; the law below as the law.
    Source: textbook_unchecked, slope-limited piecewise straight lines; own_rule, joining and gaps.

    >>> law = DensityLaw(248.55, 350.0 / 31557600, 362.0)
    >>> round(profile_from_layers([(0.0, 2.0, 380.0), (2.0, 5.0, 435.0)], law).mean_density(0.0, 5.0))
    413
    """
    filled = _without_gaps(sorted(layers), law.surface_density)
    edges = np.array([row[0] for row in filled] + [filled[-1][1]])
    mean = np.array([row[2] for row in filled])
    last = DensityLaw(law.temperature, law.accumulation, min(mean[-1], 0.99 * law.ice_density), law.ice_density,
                      law.stage_1_share, law.stage_2_share)  # fmt: skip
    offset = float(edges[-1] - edges[-2]) / 2
    joined = float(last.density(np.array([offset]))[0])
    half_rise = _half_rises(edges, mean, max(joined - mean[-1], 0.0))
    return DensityProfile(edges, mean - half_rise, mean + half_rise, last, offset)


def _without_gaps(layers: list[tuple[float, float, float]], surface_density: float) -> list[tuple[float, float, float]]:
    filled: list[tuple[float, float, float]] = []
    bottom, above = 0.0, surface_density
    for top, layer_bottom, density in layers:
        if top < bottom - 1e-6:
            raise ValueError(f"the layers overlap at {top:g} m")
        if layer_bottom - bottom <= 1e-6:
            continue  # nothing of it is left below the layer above
        if top > bottom + 1e-6:
            filled.append((bottom, top, (above + density) / 2 if filled else surface_density))
        filled.append((bottom if abs(top - bottom) <= 1e-6 else top, layer_bottom, density))
        bottom, above = layer_bottom, density
    return filled


def _half_rises(edges: Array, mean: Array, last_limit: float) -> Array:
    """Half of the density growth within each layer."""
    if mean.size == 1:
        return np.zeros(1)
    middle = (edges[:-1] + edges[1:]) / 2
    step = np.diff(mean)
    slope = np.gradient(mean, middle) if mean.size > 2 else np.full(2, step[0] / (middle[1] - middle[0]))
    left, right = np.concatenate((step[:1], step)), np.concatenate((step, step[-1:]))
    limit = np.where(left * right > 0, np.minimum(abs(left), abs(right)) / 2, 0.0)
    limit[-1] = min(limit[-1], last_limit)
    rise = slope * np.diff(edges) / 2
    return np.clip(rise, -limit, limit)


def overburden(mass_above: FloatOrArray, *, gravity: float = G0) -> FloatOrArray:
    """Give the vertical stress of the snow above.

    p = M g

    Parameters
    ----------
    mass_above : float or array [kg/m2]
        Mass above, per area.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float or array [Pa]
        Overburden pressure.
    Validity: level surface, nothing on it.
    Source: statics, weight of a column.

    >>> round(overburden(350.0), 1)
    3432.3
    """
    return gravity * mass_above


def porosity(density: FloatOrArray, *, ice_density: float = 917.0) -> FloatOrArray:
    """Give the share of air in the volume.

    n = 1 - rho/rho_i

    Parameters
    ----------
    density : float or array [kg/m3]
        Density of the snow.
    ice_density : float [kg/m3]
        Density of ice.
    Returns
    -------
    float or array [1]
        Porosity.
    Validity: dry snow.
    Source: statics, volumes.

    >>> round(porosity(550.0), 3)
    0.4
    """
    return 1.0 - density / ice_density
