"""Hot layer and flashover of one room with openings."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt


def temperature_rise_mqh(
    rate: float, openings: Sequence[Sequence[float]], heat_transfer: float, surface: float, *, factor: float = 6.85
) -> float:
    """Give how much hotter than the air the smoke layer of a room with openings is.

    dT = 6.85 (Q^2/(sum(A_v sqrt(H_v)) h_k A_t))^(1/3) (kW, m, K)

    Parameters
    ----------
    rate : float [W]
        Heat release rate Q.
    openings : Sequence[Sequence[float]] [m2 and m]
        Area and height of each opening.
    heat_transfer : float [W/(m2 K)]
        Heat transfer h_k to walls, floor and ceiling.
    surface : float [m2]
        Area A_t of walls, floor and ceiling.
    factor : float [1]
        Factor.
    Returns
    -------
    float [K]
        Temperature rise.
    Validity: rise at most 600 K; one room, fire small against it.
    Source: nureg_1805, chapter 2 (read).

    >>> round(temperature_rise_mqh(1000e3, [(2.5, 2.0), (1.5, 1.0)], 35.0, 75.0), 3)
    289.711
    """
    openness = sum(area * sqrt(height) for area, height in openings)
    return float(factor * ((rate / 1e3) ** 2 / (openness * heat_transfer / 1e3 * surface)) ** (1 / 3))


def flashover_mqh(openness: float, heat_transfer: float, surface: float, *, factor: float = 610.0) -> float:
    """Give the heat release rate at which a room flashes over, McCaffrey, Quintiere and Harkleroad.

    Q = 610 sqrt(h_k A_t A_v sqrt(H_v)) (kW, m)

    Parameters
    ----------
    openness : float [m2.5]
        A_v sqrt(H_v) of the openings.
    heat_transfer : float [W/(m2 K)]
        Heat transfer h_k to walls, floor and ceiling.
    surface : float [m2]
        Area A_t of walls, floor and ceiling.
    factor : float [kW1/2 K1/2/m5/4]
        Factor.
    Returns
    -------
    float [W]
        Heat release rate.
    Validity: one room with openings.
    Source: nureg_1805, chapter 18 (read).

    >>> round(flashover_mqh(2.26, 35.0, 75.0) / 1e3)
    1486
    """
    return factor * sqrt(heat_transfer / 1e3 * surface * openness) * 1e3


def flashover_thomas(openness: float, surface: float) -> float:
    """Give the heat release rate at which a room flashes over, Thomas.

    Q = 7.8 A_t + 378 A_v sqrt(H_v) (kW, m)

    Parameters
    ----------
    openness : float [m2.5]
        A_v sqrt(H_v) of the openings.
    surface : float [m2]
        Area A_t of walls, floor and ceiling.
    Returns
    -------
    float [W]
        Heat release rate.
    Validity: one room with openings.
    Source: nureg_1805, chapter 18 (read).

    >>> round(flashover_thomas(2.26, 75.0) / 1e3)
    1439
    """
    return (7.8 * surface + 378.0 * openness) * 1e3


def flashover_openness(openness: float, *, factor: float = 600.0) -> float:
    """Give the heat release rate at which a room flashes over from its openings alone.

    Q = 600 A_v sqrt(H_v) (kW, m); Babrauskas has 750

    Parameters
    ----------
    openness : float [m2.5]
        A_v sqrt(H_v) of the openings.
    factor : float [kW/m2.5]
        Factor; the lower one is on the safe side.
    Returns
    -------
    float [W]
        Heat release rate.
    Validity: one room with openings.
    Source: cibse_guide_e, flashover (read second-hand).

    >>> round(flashover_openness(2.26) / 1e3)
    1356
    """
    return factor * openness * 1e3
