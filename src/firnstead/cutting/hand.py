"""Hand excavation of links and niches: volume, person-hours, carrying away."""

from __future__ import annotations

from math import ceil


def person_hours(volume: float, output: float) -> float:
    """Give the person-hours to cut out and carry away a volume by hand.

    h = V/o

    Parameters
    ----------
    volume : float [m3]
        Snow in place.
    output : float [m3/s]
        Snow cut out and carried away by one person.
    Returns
    -------
    float [h]
        Person-hours.
    Validity: output above 0, stated for the distance over which the snow is carried.
    Source: statics.

    >>> round(person_hours(12.0, 0.6 / 3600), 6)
    20.0
    """
    return volume / output / 3600.0


def people_at_face(width: float, height: float, per_person: float = 1.5) -> int:
    """Count the people who can cut at a face at once without being in each other's way.

    n = width height/per_person, rounded down, at least 2: nobody cuts alone

    Parameters
    ----------
    width : float [m]
        Width of the face.
    height : float [m]
        Height of the face.
    per_person : float [m2]
        Face for one person with a saw (own rule).
    Returns
    -------
    int [1]
        People, cutters and carriers together.
    Validity: small faces; two people at least.
    Source: own_rule.

    >>> people_at_face(1.8, 2.2), people_at_face(3.0, 2.5)
    (2, 5)
    """
    return max(2, int(width * height / per_person))


def sled_trips(mass: float, sled_load: float = 150.0) -> int:
    """Count the trips with a hand sled that carry the cut snow out.

    n = m/load, rounded up

    Parameters
    ----------
    mass : float [kg]
        Mass of snow.
    sled_load : float [kg]
        Load of a sled that two people pull on a level floor (own rule).
    Returns
    -------
    int [1]
        Trips.
    Validity: level floor.
    Source: own_rule.

    >>> sled_trips(5400.0)
    36
    """
    return ceil(mass / sled_load - 1e-9)
