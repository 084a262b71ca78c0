"""How high a vertical cut stands, and what an undercut wall or a ledge carries in bending.

Height is to be designed on the lower bound. Ledges fail before leaning walls; nobody below an edge that is being cut.
"""

from __future__ import annotations

from math import radians, tan

from firnstead.core.units import G0


def critical_height_lower_bound(
    compressive_strength: float, density: float, *, surcharge: float = 0.0, gravity: float = G0
) -> float:
    """Give the height of a vertical cut at which the toe reaches the compressive strength; design on this one.

    H = (UCS - q)/(rho g)

    Parameters
    ----------
    compressive_strength : float [Pa]
        Unconfined compressive strength (twice the cohesion where friction is left out).
    density : float [kg/m3]
        Mean density over the height.
    surcharge : float [Pa]
        Load on the edge: machine, spoil, roof seat.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [m]
        Height; zero where the surcharge alone is too much.
    Validity: vertical face, dry snow, short time; creep and thaw are not in it.
    Source: textbook_unchecked, lower bound of soil mechanics.

    >>> round(critical_height_lower_bound(20e3, 400.0), 1)
    5.1
    """
    return max(compressive_strength - surcharge, 0.0) / (density * gravity)


def critical_height_coulomb(
    cohesion: float, density: float, *, friction_angle: float = 0.0, gravity: float = G0
) -> float:
    """Give the height of a vertical cut at which a plane wedge slides; an upper bound.

    H = (4 c/(rho g)) tan(45 deg + phi/2)

    Parameters
    ----------
    cohesion : float [Pa]
        Cohesion.
    density : float [kg/m3]
        Mean density over the height.
    friction_angle : float [deg]
        Angle of friction.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [m]
        Height.
    Validity: upper bound, no tension crack, no surcharge; not for design.
    Source: textbook_unchecked, Coulomb wedge.

    >>> round(critical_height_coulomb(10e3, 400.0), 1)
    10.2
    """
    return 4.0 * cohesion / (density * gravity) * tan(radians(45.0 + friction_angle / 2.0))


def critical_height_circular(cohesion: float, density: float, *, factor: float = 3.83, gravity: float = G0) -> float:
    """Give the height of a vertical cut at which a circular slip starts; an upper bound without friction.

    H = 3.83 c/(rho g)

    Parameters
    ----------
    cohesion : float [Pa]
        Cohesion.
    density : float [kg/m3]
        Mean density over the height.
    factor : float [1]
        Stability number.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [m]
        Height.
    Validity: upper bound, no tension crack, no surcharge; not for design.
    Source: textbook_unchecked, slip circle.

    >>> round(critical_height_circular(10e3, 400.0), 1)
    9.8
    """
    return factor * cohesion / (density * gravity)


def critical_height_tension_crack(
    cohesion: float, density: float, *, factor: float = 2.67, gravity: float = G0
) -> float:
    """Give the height of a vertical cut that fails with a tension crack behind its edge.

    H = 2.67 c/(rho g)

    Parameters
    ----------
    cohesion : float [Pa]
        Cohesion.
    density : float [kg/m3]
        Mean density over the height.
    factor : float [1]
        Stability number.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [m]
        Height.
    Validity: no surcharge; above the lower bound, so not for design.
    Source: textbook_unchecked, wedge with a tension crack.

    >>> round(critical_height_tension_crack(10e3, 400.0), 1)
    6.8
    """
    return factor * cohesion / (density * gravity)


def bending_tension_leaning_wall(lean: float, height: float, density: float, *, gravity: float = G0) -> float:
    """Give the bending tension in a wall that leans over the trench, at the vertical plane through its toe.

    sigma = rho g b^2/h

    Parameters
    ----------
    lean : float [m]
        Overhang b at the top.
    height : float [m]
        Height h over which it leans.
    density : float [kg/m3]
        Density.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [Pa]
        Tension at the edge.
    Validity: plane face, simple beam; small leans.
    Source: statics, triangle hanging on a vertical plane.

    >>> round(bending_tension_leaning_wall(0.6, 6.0, 450.0))
    265
    """
    return density * gravity * lean**2 / height


def mean_shear_leaning_wall(lean: float, density: float, *, gravity: float = G0) -> float:
    """Give the mean shear at the vertical plane through the toe of a leaning wall.

    tau = rho g b/2

    Parameters
    ----------
    lean : float [m]
        Overhang b at the top.
    density : float [kg/m3]
        Density.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [Pa]
        Mean shear.
    Validity: plane face, simple beam.
    Source: statics, triangle hanging on a vertical plane.

    >>> round(mean_shear_leaning_wall(0.6, 450.0))
    1324
    """
    return density * gravity * lean / 2.0


def bending_tension_ledge(
    overhang: float, thickness: float, density: float, *, surcharge: float = 0.0, gravity: float = G0
) -> float:
    """Give the bending tension at the root of a square ledge.

    sigma = 3 (rho g t + q) b^2/t^2

    Parameters
    ----------
    overhang : float [m]
        Overhang b.
    thickness : float [m]
        Thickness t.
    density : float [kg/m3]
        Density.
    surcharge : float [Pa]
        Load on the ledge.
    gravity : float [m/s2]
        Acceleration of gravity.
    Returns
    -------
    float [Pa]
        Tension at the root.
    Validity: simple cantilever beam of constant thickness.
    Source: statics, cantilever under its own weight and an even load.

    >>> round(bending_tension_ledge(0.6, 0.5, 450.0))
    9532
    """
    return 3.0 * (density * gravity * thickness + surcharge) * (overhang / thickness) ** 2
