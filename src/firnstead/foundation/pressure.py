"""From the mass of a building and what stands in it to the pressure under its footings."""

from __future__ import annotations

from firnstead.core.units import G0


def building_load(
    mass: float, live_load: float, length: float, width: float, share: float = 1.0, gravity: float = G0
) -> float:
    """Give the load of a building on all its footings.

    F = m g + c p L W

    Parameters
    ----------
    mass : float [kg]
        Mass m of its parts.
    live_load : float [Pa]
        Live load p on the floor.
    length : float [m]
        Length L of the floor.
    width : float [m]
        Width W of the floor.
    share : float [1]
        Share c of the live load that counts.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [N]
        Load.
    Validity: nothing of the building hangs on the walls of the cut, and no snow lies on its roof.
    Source: statics.

    >>> round(building_load(3000.0, 2000.0, 10.0, 3.6))
    101420
    """
    return mass * gravity + share * live_load * length * width


def row_shares(rows: int, edge_share: float | None = None) -> tuple[float, float]:
    """Give the share of the load on one outer row and on one inner row.

    outer r_e = s/2, inner r_i = (1 - s)/(n - 2); s = 1/(n - 1) where it is not given, all of it with two rows

    Parameters
    ----------
    rows : int [1]
        Rows n of footings, at least 2.
    edge_share : float or None [1]
        Share s of the load on the two outer rows together; none: by the floor area that each row carries.
    Returns
    -------
    tuple of two [1]
        Share of one outer row; share of one inner row (0 where there is none).
    Validity: the load is the same on both sides of the building's axis.
    Source: statics, floor simply supported from row to row.

    >>> row_shares(3)
    (0.25, 0.5)
    """
    if rows == 2:
        return 0.5, 0.0
    share = 1 / (rows - 1) if edge_share is None else edge_share
    return share / 2, (1 - share) / (rows - 2)


def footing_load(load: float, row_share: float, per_row: int, spread: float = 0.0) -> float:
    """Give the load of one footing.

    P = F r (1 + a)/n

    Parameters
    ----------
    load : float [N]
        Load F of the building.
    row_share : float [1]
        Share r of its row.
    per_row : int [1]
        Footings n in the row.
    spread : float [1]
        How much more than the mean of its row it carries, a.
    Returns
    -------
    float [N]
        Load.
    Validity: floor beams stiff enough to share the load along the row, but for the spread.
    Source: statics.

    >>> footing_load(96000.0, 0.25, 4)
    6000.0
    """
    return load * row_share * (1 + spread) / per_row


def mean_pressure(load: float, width: float, length: float) -> float:
    """Give the mean pressure under a footing.

    q = P/(B L)

    Parameters
    ----------
    load : float [N]
        Load P.
    width : float [m]
        Width B.
    length : float [m]
        Length L.
    Returns
    -------
    float [Pa]
        Pressure.
    Validity: stiff footing, load in its middle.
    Source: statics.

    >>> mean_pressure(6000.0, 0.5, 0.6)
    20000.0
    """
    return load / (width * length)


def eccentric_pressure(mean: float, width: float, eccentricity: float) -> float:
    """Give the greatest pressure under a footing whose load is not in its middle.

    e <= B/6: q (1 + 6 e/B); else 2 q B/(3 (B/2 - e)); infinite from e = B/2

    Parameters
    ----------
    mean : float [Pa]
        Mean pressure q.
    width : float [m]
        Smaller side B of the footing.
    eccentricity : float [m]
        Distance e of the load from the middle.
    Returns
    -------
    float [Pa]
        Greatest pressure.
    Validity: stiff footing, no tension under it, load off the middle in one direction.
    Source: statics.

    >>> eccentric_pressure(20000.0, 0.6, 0.05)
    30000.0
    """
    e = abs(eccentricity)
    if e <= width / 6:
        return mean * (1 + 6 * e / width)
    return 2 * mean * width / (3 * (width / 2 - e)) if e < width / 2 else float("inf")
