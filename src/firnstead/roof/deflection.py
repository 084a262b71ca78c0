"""How far an arch moves, and how floppy its sheets are to handle."""

from __future__ import annotations

import numpy as np

from firnstead.roof.arch import segment_half_angle, segment_radius
from firnstead.roof.thrust import ArchForces, segment_point_load


def deflection_coefficient(rise: float, forces: ArchForces, position: float) -> float:
    """Give how far a two-hinged circular arch sinks at a place under a load.

    d E I/(w L^4) = int m M ds, m of a unit load at the place

    Parameters
    ----------
    rise : float [1]
        Rise over span f/L.
    forces : ArchForces [1]
        Forces under the load on span 1.
    position : float [1]
        Place as a share of the span from the left foot.
    Returns
    -------
    float [1]
        Deflection times E I over w L^4, downward positive.
    Validity: elastic, small, bending only; growth by thrust comes on top.
    Source: statics, virtual work (computed; agrees with a plane frame within 0.5 %).

    >>> from firnstead.roof.thrust import segment_uniform_load
    >>> round(deflection_coefficient(0.25, segment_uniform_load(0.25, 0.0, 0.5), 0.25), 6)
    0.000452
    """
    radius, alpha = segment_radius(1.0, rise), segment_half_angle(1.0, rise)
    unit = segment_point_load(rise, position)
    phi = np.linspace(-alpha, alpha, unit.position.size)
    return float(np.trapezoid(unit.moment * forces.moment, phi) * radius)


def flexibility_factor(diameter: float, modulus: float, inertia: float) -> float:
    """Give the flexibility of a sheet for handling and placing.

    FF = D^2/(E I)

    Parameters
    ----------
    diameter : float [m]
        Diameter D, twice the radius of an arch.
    modulus : float [Pa]
        Modulus of elasticity E.
    inertia : float [m4/m]
        Moment of inertia I of the sheet.
    Returns
    -------
    float [m/N]
        Flexibility factor.
    Validity: a rule for soil: at most 0.0433 in/lb (factory pipe), 0.0200 (field-bolted), 0.030 (6x2 arch).
    Source: hicks_2010, Eq. 11.38 (read); the value for arches from memory, unchecked.

    >>> round(flexibility_factor(7.5, 200e9, 9.9e-7) * 1e4, 2)
    2.84
    """
    return diameter**2 / (modulus * inertia)
