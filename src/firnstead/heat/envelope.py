"""Walls, roofs, floors and the air below them: resistances, losses, surface temperatures, film coefficients."""

from __future__ import annotations

from collections.abc import Sequence

from firnstead.snow._arrays import FloatOrArray

STEFAN_BOLTZMANN = 5.67e-8  # W/m2/K4
INSIDE = {"up": 0.10, "horizontal": 0.13, "down": 0.17}  # m2K/W, iso_6946 (read second-hand)
OUTSIDE = 0.04  # m2K/W, iso_6946 (read second-hand)
HUT_MEASURED = 0.158 * 5.678263  # W/m2/K, hoffman_1964 (read): infiltration in it
EMISSIVITY = 0.95  # snow, timber, paint (from memory, unchecked)


def resistance_layers(thickness: Sequence[float], conductivity: Sequence[float]) -> float:
    """Give the resistance of solid layers one behind the other.

    R = sum of d/lambda

    Parameters
    ----------
    thickness : sequence [m]
        Thickness of each layer.
    conductivity : sequence [W/m/K]
        Conductivity of each.
    Returns
    -------
    float [m2 K/W]
        Resistance.
    Validity: plane layers without bridges; dry insulation.
    Source: iso_6946, thermal resistance of layers (read second-hand).

    >>> round(resistance_layers([0.1, 0.012], [0.035, 0.13]), 3)
    2.949
    """
    return sum(d / k for d, k in zip(thickness, conductivity, strict=True))


def transmittance(resistance: float, inside: float, outside: float = OUTSIDE) -> float:
    """Give the heat that passes a building part per area and degree.

    U = 1/(R_si + R + R_se)

    Parameters
    ----------
    resistance : float [m2 K/W]
        Resistance of the layers.
    inside : float [m2 K/W]
        Surface resistance inside.
    outside : float [m2 K/W]
        Surface resistance outside.
    Returns
    -------
    float [W/m2/K]
        Transmittance.
    Validity: plane parts without bridges.
    Source: iso_6946, eq. for U (read second-hand).

    >>> round(transmittance(2.949, 0.13), 3)
    0.321
    """
    return 1.0 / (inside + resistance + outside)


def resistance_air_layer(
    thickness: float, direction: str, mean_temperature: FloatOrArray, *, emissivity_a: float = 0.9,
    emissivity_b: float = 0.9,
) -> FloatOrArray:  # fmt: skip
    """Give the resistance of an unventilated air layer at its own temperature.

    R = 1/(h_a + E h_r0); h_a = max(0.025/d, 1.25 | 1.95 | 0.12 d^-0.44) for horizontal | up | down;
    E = 1/(1/e_1 + 1/e_2 - 1); h_r0 = 4 sigma T_m^3

    Parameters
    ----------
    thickness : float [m]
        Thickness of the layer in the direction of the heat.
    direction : str [text]
        Where the heat goes: up, horizontal or down.
    mean_temperature : float or array [K]
        Mean temperature of its two faces.
    emissivity_a : float [1]
        Emissivity of one face.
    emissivity_b : float [1]
        Emissivity of the other.
    Returns
    -------
    float or array [m2 K/W]
        Resistance.
    Validity: up to 0.3 m in the standard; a higher gap is reckoned by the same law, which then is an extrapolation.
    Source: iso_6946, annex D (read second-hand).

    >>> round(resistance_air_layer(0.05, "down", 283.15), 2), round(resistance_air_layer(0.05, "down", 253.15), 3)
    (0.21, 0.285)
    """
    still = {"horizontal": 1.25, "up": 1.95, "down": 0.12 * thickness**-0.44}[direction]
    exchange = 1.0 / (1.0 / emissivity_a + 1.0 / emissivity_b - 1.0)
    found: FloatOrArray = 1.0 / (
        max(0.025 / thickness, still) + exchange * 4.0 * STEFAN_BOLTZMANN * mean_temperature**3
    )
    return found


def film_radiation(surface: float, surroundings: float, *, emissivity: float = EMISSIVITY) -> float:
    """Give the film coefficient of radiation.

    h_r = e sigma (T_s^4 - T_a^4)/(T_s - T_a)

    Parameters
    ----------
    surface : float [K]
        Temperature of the surface.
    surroundings : float [K]
        Temperature of what it sees.
    emissivity : float [1]
        Emissivity.
    Returns
    -------
    float [W/m2/K]
        Film coefficient.
    Validity: a surface wholly inside surroundings of one temperature.
    Source: iso_12241, radiative coefficient (read second-hand).

    >>> round(film_radiation(253.15, 253.15, emissivity=1.0), 2)
    3.68
    """
    return emissivity * STEFAN_BOLTZMANN * (surface**2 + surroundings**2) * (surface + surroundings)


def film_still_air(difference: float, height: float) -> float:
    """Give the film coefficient of still air at an upright wall.

    h = 1.32 (dT/H)^0.25 where H^3 dT is at most 10 m3 K, else 1.74 dT^(1/3)

    Parameters
    ----------
    difference : float [K]
        Between surface and air.
    height : float [m]
        Height of the wall.
    Returns
    -------
    float [W/m2/K]
        Film coefficient of convection.
    Validity: inside rooms, no fan; made for sea level: thin air at 3,000 m takes about a fifth less.
    Source: iso_12241, inside, vertical (read second-hand).

    >>> round(film_still_air(1.0, 4.0), 2)
    1.74
    """
    if height**3 * difference <= 10.0:
        return float(1.32 * (difference / height) ** 0.25)
    return float(1.74 * difference ** (1.0 / 3.0))


def floor_surface(inside: float, below: float, transmittance: float, *, surface_resistance: float = 0.17) -> float:
    """Give the temperature of the floor's upper surface.

    T_s = T_i - U (T_i - T_g) R_si

    Parameters
    ----------
    inside : float [K]
        Temperature of the room.
    below : float [K]
        Temperature at the other end of the transmittance.
    transmittance : float [W/m2/K]
        Transmittance between both.
    surface_resistance : float [m2 K/W]
        Surface resistance at the floor.
    Returns
    -------
    float [K]
        Surface temperature.
    Validity: away from beams and edges, where it is colder.
    Source: iso_6946, resistances in series (read second-hand).

    >>> round(floor_surface(293.15, 255.15, 0.25), 2)
    291.53
    """
    return inside - transmittance * (inside - below) * surface_resistance
