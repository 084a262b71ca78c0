"""From heat demand to what each heater gives, and to fuel."""

from __future__ import annotations

import numpy as np

from firnstead.snow._arrays import Array


def share_out(demand: Array, serves: Array, output: Array) -> Array:
    """Give what each heater gives to each building, in the order of the heaters; a short one shares in proportion.

    g_h = w min(1, output/sum of w), w = what the buildings it serves still want

    Parameters
    ----------
    demand : array [W]
        Demand: building, month.
    serves : array [1]
        1 where a heater serves a building: heater, building.
    output : array [W]
        Greatest output: heater, month.
    Returns
    -------
    array [W]
        Heat given: heater, building, month.
    Validity: monthly means; no storage.
    Source: own_rule.

    >>> share_out(np.array([[30.0], [10.0]]), np.ones((2, 2)), np.array([[20.0], [50.0]]))[:, :, 0].tolist()
    [[15.0, 5.0], [15.0, 5.0]]
    """
    left = demand.copy()
    given = np.zeros((len(output), *demand.shape))
    for h in range(len(output)):
        want = left * serves[h][:, None]
        total = want.sum(axis=0)
        given[h] = want * np.where(total > 0, np.minimum(1.0, output[h] / np.maximum(total, 1e-300)), 0.0)
        left = left - given[h]
    return given


def fuel_mass(heat: float, efficiency: float, fuel_heat: float, fuel_density: float) -> float:
    """Give the mass of fuel burnt for a heat.

    m = Q rho/(eta H)

    Parameters
    ----------
    heat : float [J]
        Heat given to the rooms.
    efficiency : float [1]
        Heat given for the heat of the fuel.
    fuel_heat : float [J/m3]
        Heat of the fuel.
    fuel_density : float [kg/m3]
        Its density.
    Returns
    -------
    float [kg]
        Mass.
    Validity: the heater's efficiency over the month, not at its best.
    Source: textbook_unchecked, energy balance.

    >>> round(fuel_mass(3.512e10 * 0.8, 0.8, 3.512e10, 820.0), 1)
    820.0
    """
    return heat * fuel_density / (efficiency * fuel_heat)
