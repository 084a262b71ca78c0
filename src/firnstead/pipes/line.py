"""One metre of an insulated line: all its resistances together."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.pipes.resistance import (
    film_radiation,
    film_still_air_iso_12241,
    film_wind_iso_12241,
    resistance_film,
    resistance_layer,
    surface_temperature,
)

REFERENCE = 283.15  # K, mean temperature at which insulation is declared


@dataclass(frozen=True)
class Wrapping:
    """Pipe, insulation and surface. `layers`: (thickness [m], conductivity [W/m/K], growth of it [1/K]), inside out."""

    bore: float
    outer: float
    wall_conductivity: float
    layers: tuple[tuple[float, float, float], ...]
    jacket: float
    emissivity: float


@dataclass(frozen=True)
class LineResistance:
    """Resistances of one metre [m K/W], conductivities used [W/m/K], surface [K] and film [W/m2/K]."""

    wall: float
    layers: tuple[float, ...]
    diameters: tuple[float, ...]
    conductivities: tuple[float, ...]
    outside: float
    surface: float
    radiation: float
    convection: float
    film: float

    @property
    def below(self) -> float:
        """Wall and insulation."""
        return self.wall + sum(self.layers)

    @property
    def total(self) -> float:
        """From the carrier to the air."""
        return self.below + self.film


def resistance_line(
    wrapping: Wrapping, inside: float, air: float, speed: float = 0.0, share: float = 1.0, wet: float = 1.0
) -> LineResistance:
    """Give the resistances of one metre of a line in air.

    R = R_w + sum of R_j + R_f; k_j = w k_10 (1 + g (T_m - 283.15)), T_m halfway between carrier and surface

    Parameters
    ----------
    wrapping : Wrapping [m, W/m/K]
        Pipe, insulation and surface.
    inside : float [K]
        Temperature of the carrier.
    air : float [K]
        Temperature of the air.
    speed : float [m/s]
        Speed of the air; 0: still.
    share : float [1]
        Thickness of the insulation as a share of the whole.
    wet : float [1]
        Factor on the conductivity of wet insulation.
    Returns
    -------
    LineResistance [m K/W]
        All resistances, the surface and the films.
    Validity: steady; one mean temperature for all layers; the jacket and the film inside the pipe are left out (safe).
    Source: iso_12241, series of resistances (read second-hand).

    >>> pur = Wrapping(0.0525, 0.0603, 50.0, ((0.05, 0.027, 0.0),), 0.0, 0.9)
    >>> round(resistance_line(pur, 278.15, 222.15).total, 2)
    6.16
    """
    wall = resistance_layer(wrapping.bore, wrapping.outer, wrapping.wall_conductivity)
    diameters = [wrapping.outer]
    for thickness, _, _ in wrapping.layers if share > 0 else ():
        diameters.append(diameters[-1] + 2 * share * thickness)
    outside = diameters[-1] + 2 * wrapping.jacket
    surface = air
    conductivities: tuple[float, ...] = ()
    layers: tuple[float, ...] = ()
    for _ in range(60):
        warmth = (inside + surface) / 2 - REFERENCE
        conductivities = tuple(wet * k * max(0.1, 1 + g * warmth) for _, k, g in wrapping.layers[: len(diameters) - 1])
        layers = tuple(
            resistance_layer(a, b, k) for a, b, k in zip(diameters, diameters[1:], conductivities, strict=False)
        )
        before, surface = surface, surface_temperature(inside, air, wall + sum(layers), outside, wrapping.emissivity,
                                                       speed)  # fmt: skip
        if not any(g for _, _, g in wrapping.layers) or abs(surface - before) < 1e-10:
            break
    radiation = film_radiation(wrapping.emissivity, surface, air)
    convection = film_still_air_iso_12241(outside, abs(surface - air))
    if speed > 0:
        convection = max(convection, film_wind_iso_12241(outside, speed))
    film = resistance_film(outside, radiation + convection)
    return LineResistance(wall, layers, tuple(diameters), conductivities, outside, surface, radiation, convection, film)
