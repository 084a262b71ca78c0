"""How far one sees in smoke."""

from __future__ import annotations

from math import log


def visibility(soot: float, extinction: float, factor: float) -> float:
    """Give how far one sees.

    S = K/(alpha_m m)

    Parameters
    ----------
    soot : float [kg/m3]
        Soot in each cubic metre m.
    extinction : float [m2/kg]
        Specific extinction alpha_m.
    factor : float [1]
        Factor K: 3 for what is lit from outside, 8 for a lit sign.
    Returns
    -------
    float [m]
        Distance.
    Validity: smoke of even density, eyes not hurt by it.
    Source: nureg_1805, eq. 18-1 (read).

    >>> round(visibility(9.611e-5, 7578.1, 8.0) / 0.3048, 2)
    36.04
    """
    return factor / (extinction * soot) if soot > 0 else float("inf")


def soot_for_visibility(distance: float, extinction: float, factor: float) -> float:
    """Give the soot at which one sees just so far.

    m = K/(alpha_m S)

    Parameters
    ----------
    distance : float [m]
        Distance S.
    extinction : float [m2/kg]
        Specific extinction alpha_m.
    factor : float [1]
        Factor K.
    Returns
    -------
    float [kg/m3]
        Soot in each cubic metre.
    Validity: as visibility.
    Source: nureg_1805, eq. 18-1 solved for the soot (read).

    >>> round(soot_for_visibility(10.0, 8700.0, 3.0) * 1e6, 2)
    34.48
    """
    return factor / (extinction * distance)


def visibility_obscuration(obscuration: float, path: float, factor: float) -> float:
    """Give how far one sees from the share of light lost over a path.

    S = -K L/ln(1 - lambda)

    Parameters
    ----------
    obscuration : float [1]
        Share lambda of the light that is lost.
    path : float [m]
        Length L of the path.
    factor : float [1]
        Factor K.
    Returns
    -------
    float [m]
        Distance.
    Validity: smoke of even density.
    Source: sfpe_handbook_5, chapter 50 (read second-hand).

    >>> round(visibility_obscuration(0.95, 10.0, 8.0), 3)
    26.705
    """
    return -factor * path / log(1 - obscuration)


def visibility_optical_density(density: float, factor: float) -> float:
    """Give how far one sees from the optical density.

    S = K/(2.303 D)

    Parameters
    ----------
    density : float [1/m]
        Optical density D (to base ten) of each metre.
    factor : float [1]
        Factor K.
    Returns
    -------
    float [m]
        Distance.
    Validity: smoke of even density.
    Source: cibse_guide_e, chapter 10 (read second-hand).

    >>> round(visibility_optical_density(0.1, 3.0), 2)
    13.03
    """
    return factor / (2.303 * density)
