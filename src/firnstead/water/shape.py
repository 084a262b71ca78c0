"""The pool as half a spheroid below its water level: volume, wetted wall, conduction to the ice."""

from __future__ import annotations

import math


def radius_of_volume(volume: float, shape: float) -> float:
    """Give the radius of the water surface of a pool.

    R = (3 V/(2 pi n))^(1/3)

    Parameters
    ----------
    volume : float [m3]
        Volume of the water.
    shape : float [1]
        Depth of the water over the radius of its surface, n.
    Returns
    -------
    float [m]
        Radius.
    Validity: half a spheroid, flat side up; measured floors are less even.
    Source: statics, geometry.

    >>> round(radius_of_volume(2.0 / 3.0 * math.pi * 125.0, 1.0), 9)
    5.0
    """
    return float((1.5 * volume / (math.pi * shape)) ** (1.0 / 3.0))


def wall_factor(shape: float) -> float:
    """Give the wetted wall of a half spheroid over the square of its radius.

    A/R^2 = pi (1 + (n/e) asin e), e = sqrt(1 - 1/n^2) for n > 1; pi (1 + ((1 - e^2)/e) atanh e), e = sqrt(1 - n^2)

    Parameters
    ----------
    shape : float [1]
        Depth over radius.
    Returns
    -------
    float [1]
        Wall over radius squared; 2 pi for half a sphere.
    Validity: any shape above 0.
    Source: textbook_unchecked, surface of a spheroid.

    >>> round(wall_factor(1.0) / math.pi, 9), round(wall_factor(1e-9) / math.pi, 6)
    (2.0, 1.0)
    """
    if abs(shape - 1.0) < 1e-6:
        return 2.0 * math.pi
    if shape > 1.0:
        e = math.sqrt(1.0 - shape**-2)
        return math.pi * (1.0 + shape / e * math.asin(e))
    e = math.sqrt(1.0 - shape**2)
    if e > 1.0 - 1e-12:
        return math.pi
    return math.pi * (1.0 + shape**2 / e * math.atanh(e))


def conduction_factor(shape: float) -> float:
    """Give the conduction of a half spheroid in endless ice over its radius.

    S/R = 2 pi sqrt(n^2 - 1)/acosh(n) for n > 1; 2 pi sqrt(1 - n^2)/acos(n) below

    Parameters
    ----------
    shape : float [1]
        Depth over radius.
    Returns
    -------
    float [1]
        Shape factor over radius; 2 pi for half a sphere, 4 for a disc.
    Validity: steady, ice without end, no flow through the plane of the water level.
    Source: textbook_unchecked, capacity of a spheroid.

    >>> round(conduction_factor(1.0) / math.pi, 9), round(conduction_factor(1e-9), 6)
    (2.0, 4.0)
    """
    if abs(shape - 1.0) < 1e-6:
        return 2.0 * math.pi
    if shape > 1.0:
        return 2.0 * math.pi * math.sqrt(shape**2 - 1.0) / math.acosh(shape)
    return 2.0 * math.pi * math.sqrt(1.0 - shape**2) / math.acos(shape)


def zone_factor(zone: float) -> float:
    """Give how much faster a sphere loses heat when the disturbed ice ends at so many radii.

    f = 1/(1 - 1/z)

    Parameters
    ----------
    zone : float [1]
        Radius of the disturbed zone over that of the pool.
    Returns
    -------
    float [1]
        Factor on the loss into endless ice.
    Validity: sphere; above 1.
    Source: lunardini_rand_1995, disturbed zone of about 4.5 radii (read second-hand).

    >>> round(zone_factor(4.5), 3)
    1.286
    """
    return 1.0 / (1.0 - 1.0 / zone)


def zone_reached(age: float, radius: float, diffusivity: float, *, largest: float = 4.5) -> float:
    """Give the radii to which the ice round a pool is disturbed so far.

    z = min(4.5, 1 + sqrt(pi a t)/R), which gives the sphere's exact loss k dT/R (1 + R/sqrt(pi a t)) until then

    Parameters
    ----------
    age : float [s]
        Age of the pool.
    radius : float [m]
        Radius of the pool.
    diffusivity : float [m2/s]
        Diffusivity of the ice.
    largest : float [1]
        Zone that is never passed.
    Returns
    -------
    float [1]
        Zone over radius.
    Validity: pool of constant radius; a growing pool carries its own term for the moving wall.
    Source: carslaw_jaeger, sphere (from memory, unchecked); lunardini_rand_1995, 4.5 radii (read second-hand).

    >>> round(zone_factor(zone_reached(86400.0 * 100, 5.0, 2.22 / (917 * 2000))), 2)
    1.87
    """
    return min(largest, 1.0 + math.sqrt(math.pi * diffusivity * age) / radius)
