"""Order of the conductivity laws."""

import numpy as np

from firnstead.snow.conduction import (
    conductivity_anderson,
    conductivity_calonne_2011,
    conductivity_calonne_2019,
    conductivity_ice_yen,
    conductivity_oster_albert,
    conductivity_schwerdtfeger,
    conductivity_sturm_logarithmic,
    conductivity_sturm_quadratic,
    conductivity_van_dusen,
    conductivity_yen_power,
    conductivity_yen_temperature,
)
from firnstead.snow.heat_capacity import heat_capacity_ice, heat_capacity_ice_cuffey_paterson


def test_laws_lie_between_the_bounds() -> None:
    """At trench densities every law lies between the lower and the upper bound."""
    cold = 248.15
    for density in (400.0, 450.0, 500.0, 550.0):
        low, high = conductivity_van_dusen(density), conductivity_schwerdtfeger(density, cold)
        laws = [conductivity_calonne_2019(density, cold), conductivity_calonne_2011(density),
                conductivity_anderson(density), conductivity_yen_power(density), conductivity_oster_albert(density),
                conductivity_yen_temperature(density, cold)]  # fmt: skip
        assert all(low < law < high for law in laws)


def test_seasonal_law_is_low_for_firn() -> None:
    """The law for seasonal snow gives about a third less than the default choice."""
    for law in (conductivity_sturm_quadratic, conductivity_sturm_logarithmic):
        assert 0.25 < 1 - law(500.0) / conductivity_calonne_2019(500.0, 248.15) < 0.45


def test_default_law_reaches_ice() -> None:
    """The default choice grows with density up to the conductivity of ice."""
    density = np.linspace(100.0, 917.0, 200)
    values = conductivity_calonne_2019(density, np.full(200, 248.15))
    assert np.all(np.diff(values) > 0)
    assert abs(values[-1] / conductivity_ice_yen(248.15) - 1) < 1e-3


def test_heat_capacities_agree() -> None:
    """Both authors give the heat capacity of cold ice within 2 %."""
    assert abs(heat_capacity_ice(250.0) / heat_capacity_ice_cuffey_paterson(250.0) - 1) < 0.02
