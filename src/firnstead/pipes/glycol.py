"""Properties of glycol in water, from one published table of coefficients for each glycol."""

from __future__ import annotations

import math
from functools import cache

from firnstead.pipes.tables import rows

_BASE = {"propylene": (30.7031, 32.7083), "ethylene": (30.8462, 31.728)}  # per cent by mass, degC
_ZERO = 273.15


def freezing_point_glycol(kind: str, share: float) -> float:
    """Give the temperature at which the first ice forms.

    T_f = sum of C_i (x - x_m)^i

    Parameters
    ----------
    kind : str [text]
        "propylene" or "ethylene".
    share : float [1]
        Glycol by mass.
    Returns
    -------
    float [K]
        Freezing point.
    Validity: shares up to 0.6; below it there is slush, which blocks a pump before it bursts a pipe.
    Source: melinder_2010, table of coefficients (read second-hand).

    >>> round(freezing_point_glycol("propylene", 0.5) - 273.15, 1)
    -32.2
    """
    x = 100 * share - _BASE[kind][0]
    return _ZERO + sum(c[0] * x**i for i, j, c in _coefficients(kind) if j == 0)


def density_glycol(kind: str, share: float, temperature: float) -> float:
    """Give the density of glycol in water.

    rho = sum of C_ij (x - x_m)^i (T - T_m)^j

    Parameters
    ----------
    kind : str [text]
        "propylene" or "ethylene".
    share : float [1]
        Glycol by mass.
    temperature : float [K]
        Temperature.
    Returns
    -------
    float [kg/m3]
        Density.
    Validity: from the freezing point to 313 K, shares up to 0.6.
    Source: melinder_2010, table of coefficients (read second-hand).

    >>> round(density_glycol("propylene", 0.5, 283.15), 1)
    1045.3
    """
    return _sum(kind, share, temperature, 1)


def heat_capacity_glycol(kind: str, share: float, temperature: float) -> float:
    """Give the heat capacity of glycol in water.

    c = sum of C_ij (x - x_m)^i (T - T_m)^j

    Parameters
    ----------
    kind : str [text]
        "propylene" or "ethylene".
    share : float [1]
        Glycol by mass.
    temperature : float [K]
        Temperature.
    Returns
    -------
    float [J/kg/K]
        Heat capacity.
    Validity: from the freezing point to 313 K, shares up to 0.6.
    Source: melinder_2010, table of coefficients (read second-hand).

    >>> round(heat_capacity_glycol("propylene", 0.5, 283.15))
    3492
    """
    return _sum(kind, share, temperature, 2)


def conductivity_glycol(kind: str, share: float, temperature: float) -> float:
    """Give the thermal conductivity of glycol in water.

    k = sum of C_ij (x - x_m)^i (T - T_m)^j

    Parameters
    ----------
    kind : str [text]
        "propylene" or "ethylene".
    share : float [1]
        Glycol by mass.
    temperature : float [K]
        Temperature.
    Returns
    -------
    float [W/m/K]
        Conductivity.
    Validity: from the freezing point to 313 K, shares up to 0.6.
    Source: melinder_2010, table of coefficients (read second-hand).

    >>> round(conductivity_glycol("propylene", 0.5, 283.15), 3)
    0.355
    """
    return _sum(kind, share, temperature, 3)


def viscosity_glycol(kind: str, share: float, temperature: float) -> float:
    """Give the dynamic viscosity of glycol in water.

    ln(1000 mu) = sum of C_ij (x - x_m)^i (T - T_m)^j

    Parameters
    ----------
    kind : str [text]
        "propylene" or "ethylene".
    share : float [1]
        Glycol by mass.
    temperature : float [K]
        Temperature.
    Returns
    -------
    float [Pa s]
        Viscosity.
    Validity: from the freezing point to 313 K, shares up to 0.6.
    Source: melinder_2010, table of coefficients (read second-hand).

    >>> round(viscosity_glycol("propylene", 0.5, 283.15) * 1e3, 1)
    10.6
    """
    return 1e-3 * math.exp(_sum(kind, share, temperature, 4))


def flow_share_glycol(kind: str, share: float, temperature: float, water_capacity: float) -> float:
    """Give how much more glycol than water, by mass, must flow for the same heat.

    n = c_w/c_g

    Parameters
    ----------
    kind : str [text]
        "propylene" or "ethylene".
    share : float [1]
        Glycol by mass.
    temperature : float [K]
        Mean temperature.
    water_capacity : float [J/kg/K]
        Heat capacity of water.
    Returns
    -------
    float [1]
        Ratio of the flows.
    Validity: the same drop of temperature.
    Source: statics, heat carried; tm_5_852_5, p. 12-4: 15 % more at 50 % (read).

    >>> round(flow_share_glycol("propylene", 0.5, 303.15, 4180.0), 2)
    1.17
    """
    return water_capacity / heat_capacity_glycol(kind, share, temperature)


def _sum(kind: str, share: float, temperature: float, which: int) -> float:
    x0, t0 = _BASE[kind]
    x, t = 100 * share - x0, temperature - _ZERO - t0
    return sum(float(c[which] * x**i * t**j) for i, j, c in _coefficients(kind))


@cache
def _coefficients(kind: str) -> tuple[tuple[int, int, tuple[float, ...]], ...]:
    names = ("freezing", "density", "heat_capacity", "conductivity", "log_viscosity")
    return tuple(
        (int(row["power_share"]), int(row["power_temperature"]), tuple(float(row[name]) for name in names))
        for row in rows(f"glycol_{kind}")
    )
