"""Hatch shafts: how long now, how much longer each year, when the snow gets over the lid."""

from __future__ import annotations

from math import ceil, inf

WHOLE = 1e-9


def surface_rise_rate(accumulation: float, drift_factor: float, density: float) -> float:
    """Give how fast the snow surface over a roof rises.

    r = c_d a/rho

    Parameters
    ----------
    accumulation : float [kg/m2/s]
        Accumulation of the site.
    drift_factor : float [1]
        Growth over the station as a multiple of the site's accumulation.
    density : float [kg/m3]
        Density of the new snow at the surface.
    Returns
    -------
    float [m/s]
        Rise of the surface.
    Validity: settling of the snow below is not taken off, which makes shafts longer: safe side.
    Source: statics, conservation of mass.

    >>> round(surface_rise_rate(350.0 / 31557600, 2.0, 350.0) * 31557600, 3)
    2.0
    """
    return drift_factor * accumulation / density


def shaft_length(cover: float, collar: float, rise: float) -> float:
    """Give the length of a hatch shaft from the roof's crown to its lid.

    l = cover + rise + collar

    Parameters
    ----------
    cover : float [m]
        Snow over the crown now.
    collar : float [m]
        Height that the lid is to stand above the snow.
    rise : float [m]
        Rise of the snow surface until the shaft is next lengthened.
    Returns
    -------
    float [m]
        Length.
    Validity: vertical shaft.
    Source: statics, geometry.

    >>> shaft_length(1.2, 0.5, 0.8)
    2.5
    """
    return cover + rise + collar


def rings(length: float, ring: float) -> int:
    """Count the rings that make a shaft of at least a length.

    n = length/ring, rounded up

    Parameters
    ----------
    length : float [m]
        Length wanted.
    ring : float [m]
        Length of one ring.
    Returns
    -------
    int [1]
        Whole rings, at least 0.
    Validity: ring above 0.
    Source: statics, geometry.

    >>> rings(2.5, 1.0), rings(2.0, 1.0)
    (3, 2)
    """
    return max(0, ceil(length / ring - WHOLE))


def time_to_buried(collar: float, rise_rate: float) -> float:
    """Give the time after which the snow reaches the lid.

    t = collar/r

    Parameters
    ----------
    collar : float [m]
        Height of the lid above the snow now.
    rise_rate : float [m/s]
        Rise of the snow surface.
    Returns
    -------
    float [s]
        Time; infinite where the surface does not rise, 0 where the lid is under the snow.
    Validity: even growth; one storm can leave a season's drift at once.
    Source: statics.

    >>> round(time_to_buried(1.0, 0.5 / 31557600) / 31557600, 3)
    2.0
    """
    if collar <= 0:
        return 0.0
    return collar / rise_rate if rise_rate > 0 else inf


def ladder_length(room_height: float, shaft: float) -> float:
    """Give the climb from the floor to the lid.

    l = room_height + shaft

    Parameters
    ----------
    room_height : float [m]
        Height from the floor to the crown of the roof.
    shaft : float [m]
        Length of the shaft.
    Returns
    -------
    float [m]
        Length of ladder.
    Validity: straight ladder, no landing.
    Source: statics, geometry.

    >>> ladder_length(3.5, 2.5)
    6.0
    """
    return room_height + shaft
