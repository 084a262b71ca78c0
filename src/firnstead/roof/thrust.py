"""Two-hinged circular arch of constant stiffness: thrust, shear and bending under loads on plan.

Everything is worked out once for an arch of span 1 under a load of intensity 1 and scaled afterwards: with a load
w [Pa] on a span L, forces are w L and moments w L^2 times the numbers here (with a single load P: P and P L).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from math import cos, sin

import numpy as np
from numpy.typing import NDArray

from firnstead.core.results import quantity
from firnstead.roof.arch import segment_half_angle, segment_radius

Array = NDArray[np.float64]
POINTS = 180  # even: the crown is one of the points
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)


@dataclass(frozen=True)
class ArchForces:
    """Forces in an arch of span 1 under a load of intensity 1; compression and sagging are positive."""

    horizontal: float = quantity("1", "Horizontal thrust H/(w L)")
    left: float = quantity("1", "Vertical reaction of the left foot over w L")
    right: float = quantity("1", "Vertical reaction of the right foot over w L")
    position: Array = quantity("1", "Places along the span, x/L")
    moment: Array = quantity("1", "Bending moment M/(w L^2) at these places")
    axial: Array = quantity("1", "Axial thrust N/(w L) at these places")

    def plus(self, other: ArchForces, share: float = 1.0) -> ArchForces:
        """These forces with `share` of another load's on the same arch and the same places."""
        return ArchForces(
            self.horizontal + share * other.horizontal,
            self.left + share * other.left,
            self.right + share * other.right,
            self.position,
            self.moment + share * other.moment,
            self.axial + share * other.axial,
        )

    def times(self, factor: float) -> ArchForces:
        """These forces for a load of another intensity."""
        return ArchForces(
            self.horizontal * factor,
            self.left * factor,
            self.right * factor,
            self.position,
            self.moment * factor,
            self.axial * factor,
        )

    @property
    def bending(self) -> float:
        """Greatest bending moment, without sign."""
        return float(np.abs(self.moment).max())

    @property
    def compression(self) -> float:
        """Greatest axial thrust."""
        return float(self.axial.max())


def segment_uniform_load(rise: float, start: float = 0.0, end: float = 1.0) -> ArchForces:
    """Work out the forces under an even load per plan length over a part of the span.

    H = int M_0 y ds/int y^2 ds; M = M_0 - H y; N = H cos(phi) + V sin(phi); phi slope, V shear of the plain beam

    Parameters
    ----------
    rise : float [1]
        Rise over span f/L, at most 1/2.
    start : float [1]
        Start of the loaded part as a share of the span from the left foot.
    end : float [1]
        End of the loaded part.
    Returns
    -------
    ArchForces [1]
        Forces for span 1 and load 1 per plan length.
    Validity: two hinges, constant stiffness, no change of length, small deflections, nothing holds the sides.
    Source: statics, force method (computed; agrees with a plane frame within 0.05 %).

    >>> round(segment_uniform_load(0.25).horizontal * 8 * 0.25, 4)
    0.9636
    """
    return _segment_uniform(rise, start, end)


def segment_haunch_load(rise: float, start: float = 0.0, end: float = 1.0) -> ArchForces:
    """Work out the forces under the wedges of snow that fill the haunches: none at the crown, full at the feet.

    w(x) = w_s (1 - y(x)/f), w_s at the feet; H, M, N as for the even load

    Parameters
    ----------
    rise : float [1]
        Rise over span f/L, at most 1/2.
    start : float [1]
        Start of the loaded part as a share of the span from the left foot.
    end : float [1]
        End of the loaded part.
    Returns
    -------
    ArchForces [1]
        Forces for span 1 and load 1 per plan length at the feet.
    Validity: two hinges, constant stiffness, no change of length, small deflections, nothing holds the sides.
    Source: statics, force method (computed).

    >>> forces = segment_haunch_load(0.25)
    >>> round(forces.left + forces.right, 4)
    0.3011
    """
    return _segment_haunch(rise, start, end)


def segment_point_load(rise: float, position: float) -> ArchForces:
    """Work out the forces under one load.

    H = int M_0 y ds/int y^2 ds; M = M_0 - H y; N = H cos(phi) + V sin(phi); phi slope, V shear of the plain beam

    Parameters
    ----------
    rise : float [1]
        Rise over span f/L, at most 1/2.
    position : float [1]
        Place of the load as a share of the span from the left foot.
    Returns
    -------
    ArchForces [1]
        Forces for span 1 and load 1.
    Validity: two hinges, constant stiffness, no change of length, small deflections, nothing holds the sides.
    Source: statics, force method (computed).

    >>> round(segment_point_load(0.5, 0.5).horizontal, 6)
    0.31831
    """

    def shear(x: Array) -> Array:
        return (x > position).astype(float)

    def moment(x: Array) -> Array:
        return np.maximum(x - position, 0.0)

    return _forces(rise, shear, moment, (position,))


@cache
def _segment_uniform(rise: float, start: float, end: float) -> ArchForces:
    def shear(x: Array) -> Array:
        return np.clip(x, start, end) - start

    def moment(x: Array) -> Array:
        return np.asarray(np.maximum(x - start, 0.0) ** 2 / 2 - np.maximum(x - end, 0.0) ** 2 / 2)

    return _forces(rise, shear, moment, (start, end))


@cache
def _segment_haunch(rise: float, start: float, end: float) -> ArchForces:
    radius, alpha = segment_radius(1.0, rise), segment_half_angle(1.0, rise)
    scale = radius / (1 - cos(alpha))

    def one(phi: Array) -> Array:  # first integral of the load over x
        return np.asarray(scale * (np.sin(phi) - phi / 2 - np.sin(2 * phi) / 4))

    def two(phi: Array) -> Array:  # second integral
        inner = np.sin(phi) ** 2 / 2 - (phi * np.sin(phi) + np.cos(phi)) / 2 + np.cos(phi) ** 3 / 6
        return np.asarray(scale * radius * inner)

    def angle(x: Array) -> Array:
        return np.asarray(np.arcsin(np.clip((x - 0.5) / radius, -sin(alpha), sin(alpha))))

    def shear(x: Array) -> Array:
        return one(angle(np.clip(x, start, end))) - one(angle(np.asarray(start)))

    def moment(x: Array) -> Array:
        inside = np.clip(x, start, end)
        first, at = one(angle(np.asarray(start))), angle(inside)
        return np.asarray(
            two(at) - two(angle(np.asarray(start))) - first * (inside - start) + shear(x) * np.maximum(x - end, 0.0)
        )

    return _forces(rise, shear, moment, (start, end))


def _forces(
    rise: float, shear: Callable[[Array], Array], moment: Callable[[Array], Array], breaks: tuple[float, ...]
) -> ArchForces:
    """Forces from the load gathered left of x (`shear`) and its moment about x (`moment`)."""
    radius, alpha = segment_radius(1.0, rise), segment_half_angle(1.0, rise)
    left = float(moment(np.asarray(1.0)))
    total = float(shear(np.asarray(1.0)))

    def beam(phi: Array) -> Array:
        x = 0.5 + radius * np.sin(phi)
        return np.asarray(left * x - moment(x))

    edges = [-alpha, *(np.arcsin(np.clip((b - 0.5) / radius, -1, 1)) for b in sorted(breaks)), alpha]
    work = 0.0
    for low, high in zip(edges[:-1], edges[1:], strict=True):  # the integrand is smooth between the breaks
        phi = low + (high - low) * (_NODES + 1) / 2
        work += float((_WEIGHTS * beam(phi) * (np.cos(phi) - cos(alpha))).sum()) * (high - low) / 2
    # int y^2 ds in closed form, both integrals without the factor R^2 of y and ds
    own = alpha * (1 + 2 * cos(alpha) ** 2) - 3 * sin(alpha) * cos(alpha)
    horizontal = float(work / (radius * own))
    phi = np.linspace(-alpha, alpha, POINTS + 1)
    x = 0.5 + radius * np.sin(phi)
    x[0], x[-1] = 0.0, 1.0
    y = radius * (np.cos(phi) - cos(alpha))
    vertical = left - shear(x)
    return ArchForces(
        horizontal, left, total - left, x, beam(phi) - horizontal * y, horizontal * np.cos(phi) - vertical * np.sin(phi)
    )
