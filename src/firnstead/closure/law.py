"""The creep law at the points of a mesh: potential, stress and tangent of the `_arrizabalaga` convention.

q = (1/a)(E:E - J^2/3) + (3/2)(1/b) J^2, stress = eta [(1/a)(E - J I/3) + (3/2)(1/b) J I],
eta = 2^(-(1-n)/(2n)) A^(-1/n) q^((1-n)/(2n)); potential n/(n+1) eta q, which is convex. The tangent
eta [C + ((1-n)/(n q)) (C e)(C e)^T] is symmetric and positive. Strains are (e_xx, e_yy, 2 e_xy), plane strain.
With b_here = 3 b and A = B/2 it is the `_gagliardini_meyssonnier` law to the last digit.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from firnstead.core.units import YEAR
from firnstead.snow._arrays import Array
from firnstead.snow.creep import coefficients_arrizabalaga
from firnstead.snow.rate_factor import rate_factor_paterson_budd

LOOSEST, DENSEST = 0.4, 0.98  # relative density at which the law is held; denser, velocity elements lock
AT_REST = (1e-6 / YEAR) ** 2  # added to q [1/s2]; a strain rate of a millionth a year is rest


@dataclass(frozen=True)
class CreepLaw:
    """What makes snow creep: the site's k with the rate factor it was fitted with, and the exponent.

    `reference_stress` is the vertical stress [Pa] at which, at every density, a confined column creeps at the same
    rate for every exponent. `fluidity` multiplies all rates: it is what tape readings correct.
    """

    k: float
    exponent: float = 3.0
    reference_stress: float = 30e3
    ice_density: float = 910.0
    fluidity: float = 1.0
    rate_factor: Callable[[Array], Array] = rate_factor_paterson_budd
    at_rest: float = AT_REST

    def points(self, density: Array, temperature: Array) -> Points:
        """Coefficients at points of this density [kg/m3] and temperature [K]."""
        held = np.clip(density / self.ice_density, LOOSEST, DENSEST)
        a, b = coefficients_arrizabalaga(held, self.k)
        rate = rate_factor_at_exponent(
            a, b, self.rate_factor(temperature), self.exponent, reference_stress=self.reference_stress)  # fmt: skip
        return points_of_law(a, b, self.fluidity * rate, self.exponent, at_rest=self.at_rest)


@dataclass(frozen=True, eq=False)
class Points:
    """The law at quadrature points: 1/a, 1.5/b, the constant of eta, the exponent and q at rest."""

    shear: Array
    bulk: Array
    constant: Array
    exponent: float
    at_rest: float

    def energy(self, strain: Array) -> tuple[Array, Array]:
        """Potential and stress at strain rates (..., 3)."""
        c, q, eta = self._state(strain)
        n = self.exponent
        return n / (n + 1.0) * eta * q, eta[..., None] * c

    def tangent(self, strain: Array) -> tuple[Array, Array, Array]:
        """Potential, stress and its derivative (..., 3, 3) at strain rates (..., 3)."""
        c, q, eta = self._state(strain)
        n = self.exponent
        matrix = ((1.0 - n) / n * eta / q)[..., None, None] * c[..., :, None] * c[..., None, :]
        level, cross = eta * (self.bulk + 2.0 / 3.0 * self.shear), eta * (self.bulk - self.shear / 3.0)
        matrix[..., 0, 0] += level
        matrix[..., 1, 1] += level
        matrix[..., 0, 1] += cross
        matrix[..., 1, 0] += cross
        matrix[..., 2, 2] += 0.5 * eta * self.shear
        return n / (n + 1.0) * eta * q, eta[..., None] * c, matrix

    def _state(self, strain: Array) -> tuple[Array, Array, Array]:
        volume = (self.bulk - self.shear / 3.0) * (strain[..., 0] + strain[..., 1])
        c = np.empty_like(strain)
        c[..., 0] = volume + self.shear * strain[..., 0]
        c[..., 1] = volume + self.shear * strain[..., 1]
        c[..., 2] = 0.5 * self.shear * strain[..., 2]
        q = np.einsum("...i,...i->...", c, strain) + self.at_rest
        n = self.exponent
        eta = self.constant * (q ** (-1.0 / 3.0) if n == 3.0 else q ** ((1.0 - n) / (2.0 * n)))
        return c, q, eta


def points_of_law(a: Array, b: Array, rate_factor: Array, exponent: float, *, at_rest: float = AT_REST) -> Points:
    """Give the law at points of stated a, b and A.

    constant of eta = 2^((n-1)/(2n)) A^(-1/n)

    Parameters
    ----------
    a : array [1]
        Coefficient a.
    b : array [1]
        Coefficient b, in the convention with 3/(2b).
    rate_factor : array [Pa^-n s^-1]
        Rate factor A of exponent n.
    exponent : float [1]
        Exponent n.
    at_rest : float [1/s2]
        Added to q, so that snow at rest has a finite stiffness.
    Returns
    -------
    Points [text]
        The law at the points.
    Validity: positive a and b.
    Source: arrizabalaga_2025, authors' code (read).

    >>> law = points_of_law(np.array([1.0]), np.array([2.0]), np.array([0.5]), 1.0, at_rest=0.0)
    >>> law.energy(np.array([[0.0, 0.0, 2.0]]))[1].tolist()
    [[0.0, 0.0, 2.0]]
    """
    constant: Array = 2.0 ** ((exponent - 1.0) / (2.0 * exponent)) * rate_factor ** (-1.0 / exponent)
    return Points(1.0 / a, 1.5 / b, constant, exponent, at_rest)


def rate_factor_at_exponent(
    a: Array, b: Array, rate_factor: Array, exponent: float, *, reference_stress: float = 30e3
) -> Array:
    """Give the rate factor with which a confined column creeps as the cubic law does at one stress.

    A_n = A_3 [s^2/(2 Y)]^((3-n)/2), Y = 2/(3a) + 3/(2b)

    Parameters
    ----------
    a : array [1]
        Coefficient a.
    b : array [1]
        Coefficient b, in the convention with 3/(2b).
    rate_factor : array [Pa^-3 s^-1]
        Rate factor A of the cubic law.
    exponent : float [1]
        Exponent n, 1 to 3.
    reference_stress : float [Pa]
        Vertical stress s at which both laws agree, at every density.
    Returns
    -------
    array [Pa^-n s^-1]
        Rate factor of exponent n.
    Validity: laboratory creep is linear up to 10 kPa and cubic from 100 kPa; between, both are bounds.
    Source: own_rule, from the confined form of arrizabalaga_2025 (computed).

    >>> float(rate_factor_at_exponent(np.array([2.0]), np.array([3.0]), np.array([5.0]), 3.0)[0])
    5.0
    """
    confined = 2.0 / 3.0 / a + 1.5 / b
    value: Array = rate_factor * (reference_stress**2 / (2.0 * confined)) ** ((3.0 - exponent) / 2.0)
    return value
