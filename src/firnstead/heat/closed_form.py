"""The exact solution for a long round hole in the snow: the hand check of every trench."""

from __future__ import annotations

import math


def flux_cylinder(fourier: float) -> float:
    """Give the heat into ground round a long round hole whose wall is suddenly held warmer, as a number.

    q R/(k dT) = 4/pi^2 integral of exp(-Fo u^2)/(u (J_0(u)^2 + Y_0(u)^2)) du from 0

    Parameters
    ----------
    fourier : float [1]
        Diffusivity times time over the square of the radius.
    Returns
    -------
    float [1]
        q R/(k dT).
    Validity: uniform ground without an edge; any time above 0.
    Source: carslaw_jaeger, chapter 13 (from memory, unchecked).

    >>> round(flux_cylinder(1.0), 5)
    0.98377
    """
    return _integral(fourier, mean=False)


def heat_cylinder(fourier: float) -> float:
    """Give the mean of flux_cylinder since the step.

    1/Fo integral of q R/(k dT) dFo from 0

    Parameters
    ----------
    fourier : float [1]
        Diffusivity times time over the square of the radius.
    Returns
    -------
    float [1]
        Mean of q R/(k dT).
    Validity: as flux_cylinder.
    Source: carslaw_jaeger, chapter 13 (from memory, unchecked).

    >>> round(heat_cylinder(1.0), 3)
    1.568
    """
    return _integral(fourier, mean=True)


def _integral(fourier: float, mean: bool) -> float:
    """4/pi^2 integral of w(u)/(J_0^2 + Y_0^2) d(ln u), w = exp(-Fo u^2) or its mean over time.

    Trapezes over ln u, where all is smooth; below the lowest u the integral is known: J_0 = 1, Y_0 = 2/pi (ln u/2 + g).
    """
    import numpy as np
    from scipy.special import j0, y0

    low, high = -40.0, (20.0 if mean else 0.5 * math.log(45.0 / fourier))
    steps = math.ceil((high - low) / 0.05)
    x = np.linspace(low, high, steps + 1)
    u = np.exp(x)
    z = fourier * u**2
    weight = -np.expm1(-z) / z if mean else np.exp(-z)
    values = weight / (j0(u) ** 2 + y0(u) ** 2)
    inner = float(np.sum(values[1:] + values[:-1])) * (x[1] - x[0]) / 2.0
    end = low - math.log(2.0) + 0.5772156649015329
    return float(4.0 / math.pi**2 * (inner + math.pi / 2.0 * (math.pi / 2.0 + math.atan(2.0 * end / math.pi))))
