"""Drifting snow, and how the cover over a roof grows through the years."""

from __future__ import annotations

from collections.abc import Sequence


def drift_transport_tabler(wind_speed: float, *, exponent: float = 3.8, divisor: float = 233847.0) -> float:
    """Give the snow carried by the wind in the lowest 5 m over a metre of front.

    Q = U^3.8/233847

    Parameters
    ----------
    wind_speed : float [m/s]
        Wind speed at 10 m height.
    exponent : float [1]
        Exponent.
    divisor : float [1]
        Divisor, for metres per second and kilograms.
    Returns
    -------
    float [kg/m/s]
        Transport.
    Validity: loose snow in unlimited supply; not for a verdict until the publication has been read.
    Source: tabler_drift, transport (from memory, unchecked).

    >>> round(drift_transport_tabler(15.0), 3)
    0.126
    """
    transport: float = wind_speed**exponent / divisor
    return transport


def cover_mass(placed_mass: float, accumulation: float, time: float, *, drift_factor: float = 1.0) -> float:
    """Give the mass of the cover after a time.

    M = M_0 + c_d a t

    Parameters
    ----------
    placed_mass : float [kg/m2]
        Mass of the cover as placed.
    accumulation : float [kg/m2/s]
        Accumulation of the site.
    time : float [s]
        Time since placing.
    drift_factor : float [1]
        Growth over the station as a multiple of the site's accumulation; 2 was used over a published trench.
    Returns
    -------
    float [kg/m2]
        Mass of the cover.
    Validity: even growth; a single storm can bring a year's cover.
    Source: statics, conservation of mass; arrizabalaga_2025, factor 2 (read).

    >>> round(cover_mass(700.0, 350.0 / 31557600, 5 * 31557600.0, drift_factor=2.0), 1)
    4200.0
    """
    return placed_mass + drift_factor * accumulation * time


def cover_thickness(masses: Sequence[float], densities: Sequence[float]) -> float:
    """Give the thickness of a cover made of layers.

    h = sum of m/rho

    Parameters
    ----------
    masses : sequence of float [kg/m2]
        Mass of each layer.
    densities : sequence of float [kg/m3]
        Density of each layer now.
    Returns
    -------
    float [m]
        Thickness.
    Validity: any layers.
    Source: statics, conservation of mass.

    >>> cover_thickness([350.0, 500.0], [350.0, 500.0])
    2.0
    """
    return sum(m / rho for m, rho in zip(masses, densities, strict=True))
