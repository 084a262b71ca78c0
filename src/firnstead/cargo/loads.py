"""What a means of transport takes, and how many trips are needed at least."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil

WHOLE = 1e-9


@dataclass(frozen=True)
class Means:
    """One means of transport: limits of one trip, and trips planned."""

    name: str
    payload: float
    volume: float
    longest: float
    widest: float
    highest: float
    heaviest: float
    trips: int


def takes(means: Means, mass: float, size: tuple[float, float, float], upright: bool = False) -> bool:
    """Tell whether one piece fits a means of transport.

    mass <= min(heaviest, payload); length, width, height within the limits, in any position unless upright

    Parameters
    ----------
    means : Means [Means]
        Means of transport.
    mass : float [kg]
        Mass of the piece.
    size : tuple of float [m]
        Length, width, height.
    upright : bool [1]
        True for a piece that must not be laid on its side, such as a machine.
    Returns
    -------
    bool [1]
        True where it fits.
    Validity: each limit alone; doors, floor loads and lashing are not looked at.
    Source: statics, geometry.

    >>> sled = Means("sled", 40e3, 160.0, 12.0, 3.0, 2.5, 15e3, 2)
    >>> takes(sled, 100.0, (5.0, 2.4, 2.9)), takes(sled, 100.0, (5.0, 2.4, 2.9), True)
    (True, False)
    """
    if mass > min(means.heaviest, means.payload) or size[0] * size[1] * size[2] > means.volume:
        return False
    if upright:
        return size[0] <= means.longest and size[1] <= means.widest and size[2] <= means.highest
    longest, middle, least = sorted(size, reverse=True)
    across = sorted((means.widest, means.highest), reverse=True)
    return longest <= means.longest and middle <= across[0] and least <= across[1]


def trips_lower_bound(mass: float, volume: float, payload: float, space: float) -> int:
    """Give the fewest trips of one means that mass and volume allow.

    L_1 = max(m/P rounded up, v/S rounded up)

    Parameters
    ----------
    mass : float [kg]
        All cargo.
    volume : float [m3]
        All cargo.
    payload : float [kg]
        Payload of one trip.
    space : float [m3]
        Loading space of one trip.
    Returns
    -------
    int [1]
        Lower bound; whole pieces may need more.
    Validity: pieces are taken as if they could be divided.
    Source: statics, bound L1 of vector bin packing.

    >>> trips_lower_bound(100e3, 500.0, 40e3, 160.0), trips_lower_bound(0.0, 0.0, 40e3, 160.0)
    (4, 0)
    """
    return max(ceil(mass / payload - WHOLE), ceil(volume / space - WHOLE), 0)


def fewest_trips(mass: float, volume: float, means: Iterable[Means]) -> int | None:
    """Give the fewest trips of several means together, within the trips planned of each.

    largest trips first until mass is carried, and until volume is carried; the greater number

    Parameters
    ----------
    mass : float [kg]
        All cargo.
    volume : float [m3]
        All cargo.
    means : Iterable [Means]
        Means of transport with their planned trips.
    Returns
    -------
    int or None [1]
        Lower bound; None where all planned trips together are too few.
    Validity: pieces are taken as if they could be divided.
    Source: statics, bound L1 of vector bin packing.

    >>> sled, plane = Means("s", 40e3, 160.0, 12.0, 3.0, 3.0, 15e3, 2), Means("p", 9e3, 50.0, 10.0, 3.0, 3.0, 6e3, 2)
    >>> fewest_trips(85e3, 300.0, [plane, sled]), fewest_trips(200e3, 300.0, [plane, sled])
    (3, None)
    """
    known = list(means)
    by_mass = _trips([(m.payload, m.trips) for m in known], mass)
    by_volume = _trips([(m.volume, m.trips) for m in known], volume)
    return None if by_mass is None or by_volume is None else max(by_mass, by_volume)


def _trips(sizes: list[tuple[float, int]], amount: float) -> int | None:
    trips, left = 0, amount
    for size, planned in sorted(sizes, reverse=True):
        taken = min(planned, max(0, ceil(left / size - WHOLE)))
        trips, left = trips + taken, left - taken * size
    return trips if left <= WHOLE * max((size for size, _ in sizes), default=0.0) else None
