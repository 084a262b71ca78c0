"""Creep settling of a footing: stress spread over depth, divided by the compactive viscosity of every layer.

It comes on top of the natural compaction of the site. Measured settling of footings stayed straight in time with no
slowing (crrel_98_3, read): the straight line is the high end, layers that grow denser are the low end.
"""

from __future__ import annotations

from math import log

import numpy as np

from firnstead.core.units import YEAR
from firnstead.snow._arrays import Array

ICE = 917.0  # kg/m3


def stress_spread(
    load: float, width: float, length: float, depth: Array, rows: int = 1, per_row: int = 1, spacing: float = 0.0,
    spacing_along: float = 0.0,
) -> Array:  # fmt: skip
    """Give the vertical stress below one footing of a group.

    sigma = P/(b l), b = min(B + z, (S + z)/n), S = (n - 1) s + B, and l in the same way along the row

    Parameters
    ----------
    load : float [N]
        Load P of the footing.
    width : float [m]
        Width B.
    length : float [m]
        Length.
    depth : array [m]
        Depths z below the footing.
    rows : int [1]
        Rows n.
    per_row : int [1]
        Footings in a row.
    spacing : float [m]
        Distance s between the middles of rows.
    spacing_along : float [m]
        Distance between the middles of footings in a row.
    Returns
    -------
    array [Pa]
        Added stress; where the spreads of neighbours meet, the group spreads as one.
    Validity: two to one; neighbours carry about the same load.
    Source: textbook_unchecked, spread of two to one (from memory, unchecked); own_rule for the group.

    >>> stress_spread(1000.0, 1.0, 1.0, np.array([0.0, 1.0])).tolist()
    [1000.0, 250.0]
    """
    across = np.minimum(width + depth, ((rows - 1) * spacing + width + depth) / rows)
    along = np.minimum(length + depth, ((per_row - 1) * spacing_along + length + depth) / per_row)
    found: Array = load / (across * along)
    return found


def rate_strip(pressure: float, width: float, viscosity: float, depth: float) -> float:
    """Give the settling rate of a strip on snow of one viscosity.

    s' = (q B/eta) ln((B + H)/B)

    Parameters
    ----------
    pressure : float [Pa]
        Pressure q.
    width : float [m]
        Width B.
    viscosity : float [Pa s]
        Compactive viscosity eta.
    depth : float [m]
        Depth H to which the snow is counted.
    Returns
    -------
    float [m/s]
        Rate.
    Validity: spread of two to one; closed form for tests and estimates by hand.
    Source: statics, integral of the spread stress (computed).

    >>> round(rate_strip(50e3, 1.0, 1e13, 5.0) * YEAR, 4)
    0.2827
    """
    return pressure * width / viscosity * log((width + depth) / width)


def rate_square(pressure: float, width: float, viscosity: float, depth: float) -> float:
    """Give the settling rate of a square footing on snow of one viscosity.

    s' = (q B/eta)(1 - B/(B + H))

    Parameters
    ----------
    pressure : float [Pa]
        Pressure q.
    width : float [m]
        Side B.
    viscosity : float [Pa s]
        Compactive viscosity eta.
    depth : float [m]
        Depth H to which the snow is counted.
    Returns
    -------
    float [m/s]
        Rate.
    Validity: spread of two to one; closed form for tests and estimates by hand.
    Source: statics, integral of the spread stress (computed).

    >>> round(rate_square(50e3, 1.0, 1e13, 5.0) * YEAR, 4)
    0.1315
    """
    return pressure * width / viscosity * (1 - width / (width + depth))


def rate_warm_ice(
    pressure: float, width: float, *, factor: float = 8.6e-5, width_power: float = 0.92, pressure_power: float = 1.74
) -> float:
    """Give the settling rate of a strip on ice at 0 degC, for comparison.

    u' = b1 B^b2 (q/1000)^b3 metres a year

    Parameters
    ----------
    pressure : float [Pa]
        Pressure q.
    width : float [m]
        Width B.
    factor : float [m kPa^-b3 m^-b2 / year]
        b1.
    width_power : float [1]
        b2.
    pressure_power : float [1]
        b3.
    Returns
    -------
    float [m/s]
        Rate.
    Validity: solid ice at the melting point, tested to 250 kPa: a bound on warmth, not on porosity.
    Source: fellin_lackinger_2007, creep law of a strip (abstract read).

    >>> round(rate_warm_ice(100e3, 1.0) * YEAR, 3)
    0.26
    """
    return float(factor * width**width_power * (pressure / 1000) ** pressure_power / YEAR)


def rate_layers(thickness: Array, stress: Array, viscosity: Array) -> float:
    """Give the settling rate of a stack of layers.

    s' = sum of h sigma/eta

    Parameters
    ----------
    thickness : array [m]
        Thickness h of each layer.
    stress : array [Pa]
        Added stress sigma in its middle.
    viscosity : array [Pa s]
        Compactive viscosity eta.
    Returns
    -------
    float [m/s]
        Rate, added to the natural compaction.
    Validity: no sideways flow of the snow; linear creep, so stresses far above the site's own settle faster.
    Source: doerr_jessberger_1983, method (abstract read).

    >>> rate_layers(np.array([1.0]), np.array([1e4]), np.array([1e13]))
    1e-09
    """
    return float(np.sum(thickness * stress / viscosity))


def hardening_table(densities: Array, viscosities: Array, step: float = 2.0) -> tuple[Array, Array]:
    """Give the stress times time that brings snow from a low density to each density.

    G(rho) = integral of eta/rho from the first density; ln eta straight between points, level beyond the last

    Parameters
    ----------
    densities : array [kg/m3]
        Rising densities of the curve.
    viscosities : array [Pa s]
        Viscosities eta.
    step : float [kg/m3]
        Step of the table, about.
    Returns
    -------
    tuple of two arrays [kg/m3 and Pa s]
        Densities and G.
    Validity: from 200 kg/m3 below the curve (falling as in vionnet_2012) to ice.
    Source: statics, from d rho/dt = rho sigma/eta.

    >>> rho, G = hardening_table(np.array([400.0, 401.0]), np.array([1e13, 1e13]))
    >>> round(float((G[-1] - np.interp(500.0, rho, G)) / 1e13), 3)
    0.607
    """
    low = max(50.0, float(densities[0]) - 200.0)
    rho = np.linspace(low, ICE, int((ICE - low) / step) + 1)
    eta = np.exp(np.interp(rho, densities, np.log(viscosities)))
    eta *= np.exp(0.023 * np.minimum(0.0, rho - densities[0]))
    pieces = (eta[1:] + eta[:-1]) / 2 * np.log(rho[1:] / rho[:-1])
    return rho, np.concatenate(([0.0], np.cumsum(pieces)))


def settlement_updated(thickness: Array, density: Array, impulse: Array, table: tuple[Array, Array]) -> float:
    """Give the settlement when every layer grows denser, and so stiffer, as it is pressed.

    G(rho) = G(rho_0) + sigma t f; S = sum of h (1 - rho_0/rho)

    Parameters
    ----------
    thickness : array [m]
        Thickness h of each layer at the start.
    density : array [kg/m3]
        Density rho_0 at the start.
    impulse : array [Pa s]
        Added stress times time times the factor of warmth, sigma t f.
    table : tuple of two arrays [kg/m3 and Pa s]
        Density and G as from `hardening_table`.
    Returns
    -------
    float [m]
        Settlement, added to the natural compaction.
    Validity: as for `rate_layers`; only the footing's stress makes the layers denser, burial is left out.
    Source: doerr_jessberger_1983, layer densities updated (abstract read).

    >>> table = hardening_table(np.array([400.0, 401.0]), np.array([1e13, 1e13]))
    >>> f"{settlement_updated(np.array([1.0]), np.array([450.0]), np.array([1e12]), table):.4f}"
    '0.0952'
    """
    rho, made = table
    after = np.interp(np.interp(density, rho, made) + impulse, made, rho)
    return float(np.sum(thickness * (1 - density / after)))


def equivalent_depth(rate: float, pressure: float, viscosity: float) -> float:
    """Give the thickness of uniform snow under the full pressure that settles as fast.

    H_e = s' eta/q

    Parameters
    ----------
    rate : float [m/s]
        Rate s'.
    pressure : float [Pa]
        Pressure q under the footing.
    viscosity : float [Pa s]
        Viscosity eta right under the footing.
    Returns
    -------
    float [m]
        Thickness; near the footing's width for a square one by itself.
    Validity: any.
    Source: statics.

    >>> equivalent_depth(1e-9, 1e4, 1e13)
    1.0
    """
    return rate * viscosity / pressure
