"""The months of a year at the snow surface."""

from __future__ import annotations

import math
from typing import Protocol

from firnstead.core.units import YEAR

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
          "November", "December")  # fmt: skip
MONTH = YEAR / 12.0  # [s]
Row = tuple[float, ...]
"""Twelve monthly values, January first."""


class SiteYear(Protocol):
    """What the year depends on; the station's site has it."""

    @property
    def latitude(self) -> float:
        """Latitude [deg], south negative."""

    @property
    def mean_temperature(self) -> float:
        """Mean annual temperature [K]."""

    @property
    def annual_swing(self) -> float:
        """Half the difference between the warmest and the coldest month [K]."""


def surface_temperature_by_month(site: SiteYear) -> Row:
    """Give the mean temperature of the snow surface in each month of a site's year.

    T_i = T_m + S cos(2 pi (i - i_warm)/12)

    Parameters
    ----------
    site : SiteYear [text]
        Latitude, mean temperature and swing.
    Returns
    -------
    tuple [K]
        Twelve temperatures, January first.
    Validity: as monthly_surface_temperature.
    Source: textbook_unchecked, harmonic wave.

    >>> from types import SimpleNamespace
    >>> site = SimpleNamespace(latitude=-80.0, mean_temperature=250.0, annual_swing=20.0)
    >>> round(surface_temperature_by_month(site)[0], 2)
    270.0
    """
    return monthly_surface_temperature(site.mean_temperature, site.annual_swing, warmest_month(site.latitude))


def warmest_month(latitude: float) -> int:
    """Give the number of the warmest month, counted from January as 0.

    July north of the equator, January south of it

    Parameters
    ----------
    latitude : float [deg]
        Latitude, south negative.
    Returns
    -------
    int [1]
        6 or 0.
    Validity: high latitudes; the yearly wave is taken to be highest in the middle of that month.
    Source: own_rule.

    >>> warmest_month(76.5), warmest_month(-80.0)
    (6, 0)
    """
    return 6 if latitude >= 0 else 0


def monthly_surface_temperature(mean_temperature: float, swing: float, warmest: int) -> Row:
    """Give the surface temperature of each month.

    T_i = T_m + S cos(2 pi (i - i_warm)/12)

    Parameters
    ----------
    mean_temperature : float [K]
        Mean annual temperature.
    swing : float [K]
        Half the difference between the warmest and the coldest month.
    warmest : int [1]
        Number of the warmest month, January being 0.
    Returns
    -------
    tuple [K]
        Twelve temperatures, January first.
    Validity: a single yearly wave; the long flat winter of high plateaus and single warm days are not in it.
    Source: textbook_unchecked, harmonic wave.

    >>> [round(t, 2) for t in monthly_surface_temperature(250.0, 20.0, 6)[:7:3]]
    [230.0, 250.0, 270.0]
    """
    return tuple(mean_temperature + swing * math.cos(2 * math.pi * (i - warmest) / 12) for i in range(12))
