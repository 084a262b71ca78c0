"""Radiation from a fire and the distance it asks for."""

from __future__ import annotations

from math import pi, sqrt


def radiation_point_source(rate: float, distance: float, share: float) -> float:
    """Give the radiation that reaches a target.

    q = chi Q/(4 pi R^2)

    Parameters
    ----------
    rate : float [W]
        Heat release rate Q.
    distance : float [m]
        Distance R from the fire's middle.
    share : float [1]
        Share chi of the heat that is radiated.
    Returns
    -------
    float [W/m2]
        Radiation on a surface that faces the fire.
    Validity: in the open, farther than about two fire diameters; under a roof the hot smoke radiates too.
    Source: nureg_1805, eq. 5-1 (read).

    >>> round(radiation_point_source(750e3, 2.5, 0.3) / 1e3, 4)
    2.8648
    """
    return share * rate / (4 * pi * distance**2)


def distance_point_source(rate: float, radiation: float, share: float) -> float:
    """Give the distance at which radiation has fallen to a limit.

    R = sqrt(chi Q/(4 pi q))

    Parameters
    ----------
    rate : float [W]
        Heat release rate Q.
    radiation : float [W/m2]
        Limit q.
    share : float [1]
        Share chi of the heat that is radiated.
    Returns
    -------
    float [m]
        Distance from the fire's middle.
    Validity: as radiation_point_source.
    Source: nureg_1805, eq. 5-1 solved for R (read).

    >>> round(distance_point_source(750e3, 2.8648e3, 0.3), 3)
    2.5
    """
    return sqrt(share * rate / (4 * pi * radiation))


def fire_diameter(area: float) -> float:
    """Give the diameter of a round fire of an area.

    D = sqrt(4 A/pi)

    Parameters
    ----------
    area : float [m2]
        Burning area.
    Returns
    -------
    float [m]
        Diameter.
    Validity: any area.
    Source: statics.

    >>> round(fire_diameter(3.1416), 3)
    2.0
    """
    return sqrt(4 * area / pi)
