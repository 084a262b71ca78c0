"""Generator sets: how many run, how they share, what they burn and what heat they give."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
JACKET = 0.85  # heat from the jacket per electric power, chevak_1991: lower end of 0.85 to 0.88


def sets_running(load: Array, planned: Array, least: int = 1) -> NDArray[np.int_]:
    """Give how many sets run: the fewest, in their order, that carry the load without going above what is planned.

    smallest n with P <= s_1 P_1 + ... + s_n P_n, at least n_0 while there is load; all where that is not enough

    Parameters
    ----------
    load : array [W]
        Load P on the sets.
    planned : array [W]
        Planned greatest power s_i P_i of each set at the site, in the order in which they are started.
    least : int [1]
        Sets n_0 kept running.
    Returns
    -------
    array of int [1]
        Sets running.
    Validity: mean load of the hour; nobody starts or stops a set within it.
    Source: own_rule.

    >>> sets_running(np.array([0.0, 70.0, 90.0, 500.0]), np.array([80.0, 80.0, 80.0])).tolist()
    [0, 1, 2, 3]
    """
    count = np.minimum(np.searchsorted(np.cumsum(planned) * (1 + 1e-12), load) + 1, len(planned))
    running: NDArray[np.int_] = np.where(load > 0, np.maximum(count, min(least, len(planned))), 0)
    return running


def fuel_line(loads: Sequence[float], flows: Sequence[float]) -> tuple[float, float]:
    """Give the straight line through a maker's fuel table by least squares.

    F = F_0 P_r + F_1 P, with loads as shares x of P_r: F/P_r = F_0 + F_1 x

    Parameters
    ----------
    loads : sequence of float [1]
        Load as a share of rated power, at least two of them different.
    flows : sequence of float [m3/J]
        Fuel per rated power at each load.
    Returns
    -------
    tuple of two [m3/J]
        F_0 and F_1.
    Validity: 25 to 100 % load; published charts lie within 5 % of the line.
    Source: diesel_fuel_chart (read); the fit is ours.

    >>> [round(3.6e9 * f, 3) for f in fuel_line([0.25, 0.5, 0.75, 1.0], [f / 1.8e12 for f in (41.6, 70, 99.9, 135.1)])]
    [0.018, 0.248]
    """
    x, y = np.asarray(loads), np.asarray(flows)
    slope = float(np.sum((x - x.mean()) * (y - y.mean())) / np.sum((x - x.mean()) ** 2))
    return float(y.mean() - slope * x.mean()), slope


def fuel_flow(load: Array, rated: Array, idle: float, slope: float, factor: float = 1.0) -> Array:
    """Give the fuel that running sets burn.

    F = beta (F_0 P_r + F_1 P)

    Parameters
    ----------
    load : array [W]
        Electric power P of the running sets together.
    rated : array [W]
        Rated power P_r of the running sets together.
    idle : float [m3/J]
        F_0.
    slope : float [m3/J]
        F_1.
    factor : float [1]
        Factor beta for thin and warm air.
    Returns
    -------
    array [m3/s]
        Fuel by volume.
    Validity: 25 to 100 % load.
    Source: diesel_fuel_chart (read); iso_3046_1 (from memory, unchecked) for beta.

    >>> round(3.6e6 * float(fuel_flow(np.array(250e3), np.array(500e3), 0.018e-3 / 3.6e6, 0.25e-3 / 3.6e6)), 1)
    71.5
    """
    flow: Array = factor * (idle * rated + slope * load)
    return flow


def heat_of_fuel(flow: Array, heating_value: float) -> Array:
    """Give the heat of the fuel that is burnt.

    Q = H F

    Parameters
    ----------
    flow : array [m3/s]
        Fuel F by volume.
    heating_value : float [J/m3]
        Heating value H.
    Returns
    -------
    array [W]
        Heat.
    Validity: lower heating value, fuel burnt completely.
    Source: joel_thermodynamics, ex. 17.3 (read second-hand).

    >>> float(heat_of_fuel(np.array(2e-6), 35e9))
    70000.0
    """
    heat: Array = heating_value * flow
    return heat


def stack_heat(fuel: Array, electric: Array, jacket: Array, exhaust: Array, radiated: Array) -> Array:
    """Give the heat that is left to leave with the exhaust gas.

    Q_s = Q - P - Q_j - Q_e - Q_r; below 0 the figures of the set cannot all be true

    Parameters
    ----------
    fuel : array [W]
        Heat Q of the fuel.
    electric : array [W]
        Electric power P.
    jacket : array [W]
        Heat Q_j taken from the jacket.
    exhaust : array [W]
        Heat Q_e taken from the exhaust.
    radiated : array [W]
        Heat Q_r given off by the set where it stands.
    Returns
    -------
    array [W]
        Heat that leaves with the exhaust gas.
    Validity: steady running.
    Source: joel_thermodynamics, ex. 17.3 (read second-hand), heat balance.

    >>> float(stack_heat(*(np.array(x) for x in (100.0, 35.0, 30.0, 0.0, 6.0))))
    29.0
    """
    left: Array = fuel - electric - jacket - exhaust - radiated
    return left
