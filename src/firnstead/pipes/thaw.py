"""The cylinder of thawed snow round a warm line that lies in it."""

from __future__ import annotations

import math


def shifted_ground(freezing: float, ground: float, frozen: float, thawed: float) -> float:
    """Give the ground temperature that makes frozen and thawed snow one medium.

    T' = T_0 - (k_f/k_t)(T_0 - T_G)

    Parameters
    ----------
    freezing : float [K]
        Melting point T_0.
    ground : float [K]
        Temperature of the undisturbed snow T_G.
    frozen : float [W/m/K]
        Conductivity of the frozen snow k_f.
    thawed : float [W/m/K]
        Conductivity of the thawed snow k_t.
    Returns
    -------
    float [K]
        Shifted temperature.
    Validity: steady conduction.
    Source: statics, bipolar solution derived anew (computed); tm_5_852_5, p. 12-20 in worked form (read).

    >>> round(shifted_ground(273.15, 253.15, 0.6, 0.5), 2)
    249.15
    """
    return freezing - frozen / thawed * (freezing - ground)


def jacket_in_snow(
    inside: float, resistance: float, depth: float, radius: float, freezing: float, ground: float, frozen: float,
    thawed: float,
) -> float:  # fmt: skip
    """Give the temperature of a pipe's surface in snow.

    (T_w - T_p)/R = 2 pi k_t (T_p - T')/arccosh(H/r); all frozen where T_p stays below T_0

    Parameters
    ----------
    inside : float [K]
        Temperature of the carrier.
    resistance : float [m K/W]
        Resistance of wall and insulation.
    depth : float [m]
        Depth H of the axis below the snow's surface.
    radius : float [m]
        Outer radius r.
    freezing : float [K]
        Melting point.
    ground : float [K]
        Temperature of the undisturbed snow.
    frozen : float [W/m/K]
        Conductivity of the frozen snow.
    thawed : float [W/m/K]
        Conductivity of the thawed snow.
    Returns
    -------
    float [K]
        Temperature of the surface.
    Validity: steady, which takes months; H > r; snow's surface as cold as the undisturbed snow.
    Source: statics, resistances in series with the bipolar solution (computed).

    >>> round(jacket_in_snow(283.15, 5.8, 0.5, 0.08, 273.15, 248.15, 0.5, 0.5) - 273.15, 2)
    -20.75
    """
    spread = math.acosh(depth / radius) / (2 * math.pi)

    def surface(cold: float, conductivity: float) -> float:
        snow = spread / conductivity
        return cold + (inside - cold) * snow / (snow + resistance)

    at = surface(ground, frozen)
    return at if at <= freezing else surface(shifted_ground(freezing, ground, frozen, thawed), thawed)


def thaw_cylinder(
    surface: float, depth: float, radius: float, freezing: float, ground: float, frozen: float, thawed: float
) -> tuple[float, float]:
    """Give the depth of the axis and the radius of the thawed cylinder.

    a = ((T_0 - T')/(T_p - T')) arccosh(H/r), c = (H^2 - r^2)^0.5, H_2 = c coth(a), r_2 = c/sinh(a)

    Parameters
    ----------
    surface : float [K]
        Temperature of the pipe's surface T_p.
    depth : float [m]
        Depth H of the pipe's axis.
    radius : float [m]
        Outer radius r.
    freezing : float [K]
        Melting point T_0.
    ground : float [K]
        Temperature of the undisturbed snow.
    frozen : float [W/m/K]
        Conductivity of the frozen snow.
    thawed : float [W/m/K]
        Conductivity of the thawed snow.
    Returns
    -------
    tuple [m]
        Depth of the cylinder's axis and its radius; the pipe's own where nothing thaws.
    Validity: steady, H > r. Water that runs away leaves a cavity, in which nothing of this holds.
    Source: statics, bipolar solution derived anew (computed); tm_5_852_5, p. 12-20 in worked form (read).

    >>> [round(v, 3) for v in thaw_cylinder(293.15, 1.0, 0.1, 273.15, 263.15, 0.5, 0.5)]
    [1.308, 0.849]
    """
    if surface <= freezing:
        return depth, radius
    shifted = shifted_ground(freezing, ground, frozen, thawed)
    a = (freezing - shifted) / (surface - shifted) * math.acosh(depth / radius)
    c = math.sqrt(depth**2 - radius**2)
    return c / math.tanh(a), c / math.sinh(a)
