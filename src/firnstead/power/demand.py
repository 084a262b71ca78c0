"""Load factors: from what is connected to what runs at once, and what a year makes of it."""

from __future__ import annotations

from collections.abc import Sequence


def demand_factor(maximum: float, connected: float) -> float:
    """Give the demand factor of a group of loads.

    DF = P_max/P_connected

    Parameters
    ----------
    maximum : float [W]
        Greatest demand.
    connected : float [W]
        Sum of what is connected, above 0.
    Returns
    -------
    float [1]
        Demand factor.
    Validity: any group.
    Source: mehta_mehta, ch. 3 (read second-hand).

    >>> round(demand_factor(20e6, 43e6), 3)
    0.465
    """
    return maximum / connected


def diversity_factor(maxima: Sequence[float], together: float) -> float:
    """Give the diversity factor of loads that do not peak at the same time.

    FD = sum of the single maxima/greatest demand together

    Parameters
    ----------
    maxima : sequence of float [W]
        Greatest demand of each load.
    together : float [W]
        Greatest demand of all at once, above 0.
    Returns
    -------
    float [1]
        Diversity factor, at least 1; its inverse is the coincidence factor.
    Validity: any group.
    Source: mehta_mehta, ch. 3 (read second-hand).

    >>> diversity_factor([1500.0, 750.0, 100.0, 450.0], 2500.0)
    1.12
    """
    return sum(maxima) / together


def load_factor(mean: float, maximum: float) -> float:
    """Give the load factor.

    LF = P_mean/P_max

    Parameters
    ----------
    mean : float [W]
        Mean load over a time.
    maximum : float [W]
        Greatest load in it, above 0.
    Returns
    -------
    float [1]
        Load factor.
    Validity: mean and maximum over the same time.
    Source: mehta_mehta, ch. 3 (read second-hand).

    >>> load_factor(15e6, 25e6)
    0.6
    """
    return mean / maximum


def capacity_factor(mean: float, installed: float) -> float:
    """Give the capacity factor of a plant.

    CF = P_mean/P_installed

    Parameters
    ----------
    mean : float [W]
        Mean load.
    installed : float [W]
        Power of the plant, above 0.
    Returns
    -------
    float [1]
        Capacity factor.
    Validity: power as it is at the site.
    Source: mehta_mehta, ch. 3 (read second-hand).

    >>> capacity_factor(15e6, 30e6)
    0.5
    """
    return mean / installed


def use_factor(energy: float, ready: float) -> float:
    """Give the use factor of a plant: what it gave of what the running sets could have given.

    UF = E/(sum of P_installed t_running)

    Parameters
    ----------
    energy : float [J]
        Energy given.
    ready : float [J]
        Power of each running set times the time it ran, summed, above 0.
    Returns
    -------
    float [1]
        Use factor.
    Validity: power as it is at the site.
    Source: mehta_mehta, ch. 3 (read second-hand).

    >>> use_factor(360.0, 500.0)
    0.72
    """
    return energy / ready


def coincident_demand(connected: Sequence[float], demand_factors: Sequence[float], diversity: float = 1.0) -> float:
    """Give the demand of several loads at once.

    P = sum(P_i DF_i)/FD

    Parameters
    ----------
    connected : sequence of float [W]
        What is connected, load by load.
    demand_factors : sequence of float [1]
        Demand factor of each.
    diversity : float [1]
        Diversity factor between them, at least 1.
    Returns
    -------
    float [W]
        Demand.
    Validity: level by level from the smallest feeder back to the source.
    Source: mehta_mehta, ch. 3; gonen_distribution, ch. 2 (read second-hand).

    >>> round(coincident_demand([9e3] * 6, [0.65] * 6, 1.1))
    31909
    """
    return sum(p * f for p, f in zip(connected, demand_factors, strict=True)) / diversity
