"""The snow column: every property against depth, from one density profile, so that all of it belongs together."""

from __future__ import annotations

import numpy as np

from firnstead.snow.conduction import conductivity_calonne_2019
from firnstead.snow.heat_capacity import diffusivity, heat_capacity_ice
from firnstead.snow.profile import DensityProfile, overburden, porosity
from firnstead.snow.results import SnowColumn
from firnstead.snow.strength import (
    compressive_strength_mellor,
    shear_strength_jamieson,
    tensile_strength_jamieson,
)
from firnstead.snow.temperature import coldest_temperature, penetration_depth, swing_share, warmest_temperature

LAW_SPREAD = 0.20  # computed: the law's depth of 550 lies within 20 % of six measured cores
CORE_SPREAD = 0.15  # read: cores at one site differ by 5 to 15 % in the depth of 550


def snow_column(
    profile: DensityProfile, mean_temperature: float, swing: float, *, depth: float = 40.0, step: float = 0.1,
) -> SnowColumn:  # fmt: skip
    """Give the column down to `depth` at steps of about `step` [m].

    The density band comes from stretching and squeezing the profile's depths by the spread of cores or of the law;
    the low strengths take the low density and the weakest law of the sources, the high strengths the opposite.
    """
    z = np.linspace(0.0, depth, round(depth / step) + 1)
    density = profile.density(z)
    spread = CORE_SPREAD if profile.measured_depth > 0.0 else LAW_SPREAD
    low = np.minimum(density, profile.density(z / (1.0 + spread)))
    high = np.maximum(density, profile.density(z / (1.0 - spread)))
    mean = np.full_like(z, mean_temperature)
    conductivity = conductivity_calonne_2019(density, mean)
    kappa = diffusivity(conductivity, density, heat_capacity_ice(mean))
    share = swing_share(z, penetration_depth(kappa))
    return SnowColumn(
        depth=z,
        density=density,
        density_low=low,
        density_high=high,
        overburden=overburden(profile.mass_above(z)),
        porosity=porosity(density),
        mean_temperature=mean,
        coldest=coldest_temperature(mean_temperature, swing, share),
        warmest=warmest_temperature(mean_temperature, swing, share),
        ucs_low=compressive_strength_mellor(low, scale=3000e3, exponent=3.0),
        ucs_middle=compressive_strength_mellor(density),
        ucs_high=compressive_strength_mellor(high, scale=10000e3, exponent=2.0),
        tensile_low=tensile_strength_jamieson(low, scale=58.3e3, exponent=2.65),
        tensile_middle=tensile_strength_jamieson(density),
        shear_low=shear_strength_jamieson(low),
        conductivity=conductivity,
        diffusivity=kappa,
    )
