"""Stress in the sheet of a free arch: thrust and bending with second-order growth."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Real = float | NDArray[np.float64]
STEEL_MODULUS = 200e9  # Pa, textbook_unchecked
STEEL_DENSITY = 7850.0  # kg/m3, textbook_unchecked


def amplifier(load: Real, critical_load: Real) -> Real:
    """Give the growth of bending because the arch moves out of its line under thrust.

    delta = 1/(1 - N/N_cr); infinite at or above the buckling load

    Parameters
    ----------
    load : float or array [any]
        Thrust N, or load in the same proportion to its critical value.
    critical_load : float or array [any]
        Thrust N_cr (or load) at which the free arch buckles.
    Returns
    -------
    float or array [1]
        Factor on the bending moment.
    Validity: elastic, load below the critical value; an estimate of second-order bending, not an exact solution.
    Source: textbook_unchecked, standard second-order amplifier (from memory, unchecked).

    >>> amplifier(1.0, 4.0)
    1.3333333333333333
    """
    left = 1.0 - np.asarray(load, dtype=float) / np.asarray(critical_load, dtype=float)
    grown = np.where(left > 0, 1.0 / np.where(left > 0, left, 1.0), np.inf)
    return float(grown) if grown.ndim == 0 else grown


def combined_stress(axial: Real, moment: Real, area: float, modulus: float, growth: Real = 1.0) -> Real:
    """Give the greatest compression in the sheet under thrust and bending.

    sigma = N/A + |M| delta/S

    Parameters
    ----------
    axial : float or array [N/m]
        Thrust N per metre of trench, compression positive.
    moment : float or array [N m/m]
        Bending moment M per metre of trench.
    area : float [m2/m]
        Area A of the sheet.
    modulus : float [m3/m]
        Section modulus S of the sheet.
    growth : float or array [1]
        Second-order amplifier delta.
    Returns
    -------
    float or array [Pa]
        Stress at the outer fibre.
    Validity: elastic, sheets act as one (bolted or tightly lapped), no local buckling of the corrugation.
    Source: statics, with the amplifier of textbook_unchecked.

    >>> round(combined_stress(17000.0, 4830.0, 0.003294, 3.7e-5) / 1e6, 1)
    135.7
    """
    stress = axial / area + np.abs(moment) * growth / modulus
    return float(stress) if np.ndim(stress) == 0 else stress


def required_area(thrust: Real, allowable: float) -> Real:
    """Give the area of sheet that a thrust needs.

    A = C/F_c

    Parameters
    ----------
    thrust : float or array [N/m]
        Thrust C per metre of trench.
    allowable : float [Pa]
        Allowable wall stress F_c.
    Returns
    -------
    float or array [m2/m]
        Area of steel per metre of trench.
    Validity: thrust without bending.
    Source: hicks_2010, Eq. 11.37 (read).

    >>> round(required_area(33000.0, 113.8e6) * 1e6, 0)
    290.0
    """
    return thrust / allowable


def yield_factor(axial_stress: Real, bending_stress: Real, load_share: Real, yield_strength: float) -> Real:
    """Give the factor on all loads at which the sheet yields, second-order bending counted at that factor.

    lambda sigma_N + lambda sigma_M/(1 - lambda r) = F_y, solved:
    lambda = 2 F_y/(B + sqrt(B^2 - 4 sigma_N r F_y)), B = sigma_N + sigma_M + F_y r

    Parameters
    ----------
    axial_stress : float or array [Pa]
        Stress sigma_N of the thrust.
    bending_stress : float or array [Pa]
        First-order bending stress sigma_M.
    load_share : float or array [1]
        Thrust over its value at buckling, r.
    yield_strength : float [Pa]
        Yield strength F_y.
    Returns
    -------
    float or array [1]
        Factor on the loads; never above 1/r.
    Validity: as `amplifier` and `combined_stress`; stress without thrust and bending has no finite factor.
    Source: statics, with the amplifier of textbook_unchecked.

    >>> round(yield_factor(5e6, 60e6, 0.2, 227.5e6), 3)
    2.099
    """
    own = np.asarray(axial_stress) + np.asarray(bending_stress) + yield_strength * np.asarray(load_share)
    root = np.sqrt(np.maximum(own**2 - 4 * np.asarray(axial_stress) * np.asarray(load_share) * yield_strength, 0.0))
    found = 2 * yield_strength / (own + root)
    return float(found) if np.ndim(found) == 0 else found
