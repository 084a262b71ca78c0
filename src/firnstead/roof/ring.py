"""Ring compression of a sheet that dense fill holds all round: culvert practice, an upper bound under snow."""

from __future__ import annotations

from math import sqrt

import numpy as np
from numpy.typing import NDArray

from firnstead.core.units import UNITS

Real = float | NDArray[np.float64]
KSI = UNITS["ksi"].factor


def thrust_ring(pressure: Real, radius: float) -> Real:
    """Give the thrust of an arch held all round.

    C = P_v R

    Parameters
    ----------
    pressure : float or array [Pa]
        Vertical pressure P_v at the crown.
    radius : float [m]
        Radius R of the top of the arch (not half the span, unless it is a half circle).
    Returns
    -------
    float or array [N/m]
        Thrust per metre of trench.
    Validity: dense support all round; a flat arch carries more than this at its feet.
    Source: hicks_2010, p. 287 (read).

    >>> thrust_ring(8000.0, 3.75)
    30000.0
    """
    return pressure * radius


def wall_strength_aisi(
    slenderness: float, yield_strength: float = 33 * KSI, *, elastic_limit: float = 294.0, plastic_limit: float = 500.0,
    top: float = 40.0, slope: float = 0.000081, buckling: float = 4.93e6,
) -> float:  # fmt: skip
    """Give the ultimate wall stress of a supported ring.

    D/r <= 294: 33 ksi; up to 500: 40 - 0.000081 (D/r)^2 ksi; above: 4.93e6/(D/r)^2 ksi; never above the yield strength

    Parameters
    ----------
    slenderness : float [1]
        Diameter 2 R over radius of gyration of the sheet, D/r.
    yield_strength : float [Pa]
        Yield strength of the steel; the curve itself belongs to 33 ksi.
    elastic_limit : float [1]
        End of the yield branch.
    plastic_limit : float [1]
        End of the middle branch.
    top : float [ksi]
        Constant of the middle branch.
    slope : float [ksi]
        Factor of (D/r)^2 in the middle branch.
    buckling : float [ksi]
        Factor of the buckling branch.
    Returns
    -------
    float [Pa]
        Ultimate wall stress f_b.
    Validity: soil at 85 % of standard density or better all round. Fresh snow gives no such support; hardened snow
        may, but creep takes it away again: an upper bound.
    Source: aisi_handbook, ring compression (from memory, unchecked; the joins computed).

    >>> round(wall_strength_aisi(400.0) / 6894757.3, 2)
    27.04
    """
    if slenderness <= elastic_limit:
        curve = 33 * KSI
    elif slenderness <= plastic_limit:
        curve = (top - slope * slenderness**2) * KSI
    else:
        curve = buckling / slenderness**2 * KSI
    return min(curve, yield_strength)


def wall_strength_lrfd(
    span: float, gyration: float, soil_factor: float = 0.22, modulus: float = 29000 * KSI, ultimate: float = 45 * KSI
) -> float:
    """Give the critical wall stress of a supported ring by the load-factor rules.

    S < (r/k) sqrt(24 E/F_u): f_cr = F_u - (F_u k S/r)^2/(48 E); else f_cr = 12 E/(k S/r)^2

    Parameters
    ----------
    span : float [m]
        Span S (diameter).
    gyration : float [m]
        Radius of gyration r of the sheet.
    soil_factor : float [1]
        Soil stiffness factor k.
    modulus : float [Pa]
        Modulus of elasticity E_m.
    ultimate : float [Pa]
        Tensile strength F_u.
    Returns
    -------
    float [Pa]
        Critical stress f_cr (to be held below the yield strength).
    Validity: compacted granular soil all round; not fresh snow.
    Source: aashto_lrfd_12, 12.7 (from memory, unchecked; the joins computed).

    >>> round(wall_strength_lrfd(565.3, 1.0) / 6894757.3, 1)
    22.5
    """
    slenderness = span / gyration
    if slenderness < sqrt(24 * modulus / ultimate) / soil_factor:
        return ultimate - (ultimate * soil_factor * slenderness) ** 2 / (48 * modulus)
    return 12 * modulus / (soil_factor * slenderness) ** 2
