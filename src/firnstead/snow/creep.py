"""Compressible power-law creep of firn, and its closed forms for a confined column.

Two publications print the same numbers a and b but put b at different places. **The convention is in every name**:
`_gagliardini_meyssonnier` has e_D^2 = 2 e:e/a + e_m^2/b with B = 2A; `_arrizabalaga` has b three times as large for
the same material, takes A, and one free number k. Compression is negative. D = rho/rho_i is held between 0.4 and 1;
`note_relative_density` says so wherever that happens.
"""

from __future__ import annotations

import math

from firnstead.snow._arrays import FloatOrArray, below, clip, exp

LOOSEST = 0.4  # relative density below which the fits explode and are held
BORDER = 0.81  # relative density at which the fits meet the analytic form


def note_relative_density(relative_density: float) -> str:
    """Say what stands outside the validity of the creep law at a density.

    D < 0.4 or D > 1: held at the limit

    Parameters
    ----------
    relative_density : float [1]
        Density over density of ice.
    Returns
    -------
    str [text]
        The note; empty inside the validity.
    Validity: any.
    Source: zwinger_2007, range of the fit (read second-hand).

    >>> note_relative_density(0.6)
    ''
    """
    if relative_density < LOOSEST:
        return ("the snow is looser than the creep law was fitted for (relative density below 0.4); it is taken at 0.4 "
                "and really creeps faster")  # fmt: skip
    if relative_density > 1.0:
        return "the density is above that of ice; it is taken as ice"
    return ""


def coefficients_dense(relative_density: FloatOrArray, *, exponent: float = 3.0) -> tuple[FloatOrArray, FloatOrArray]:
    """Give a and b of dense firn with closed pores.

    a0 = [1 + 2(1 - D)/3] D^(-2n/(n+1)), b0 = (3/4) {(1 - D)^(1/n)/(n [1 - (1 - D)^(1/n)])}^(2n/(n+1))

    Parameters
    ----------
    relative_density : float or array [1]
        Density over density of ice.
    exponent : float [1]
        Exponent n of the flow law.
    Returns
    -------
    tuple of float or array [1, 1]
        a0 and b0.
    Validity: D from 0.81 to 1.
    Source: duva_crow_1994, as quoted in porous_solver_document, eqs 9-12 (read second-hand).

    >>> [round(x, 5) for x in coefficients_dense(0.81)]
    [1.5455, 0.22699]
    """
    d = clip(relative_density, LOOSEST, 1.0)
    power = 2.0 * exponent / (exponent + 1.0)
    root: FloatOrArray = (1.0 - d) ** (1.0 / exponent)
    a: FloatOrArray = (1.0 + 2.0 * (1.0 - d) / 3.0) * d**-power
    b: FloatOrArray = 0.75 * (root / (exponent * (1.0 - root))) ** power
    return a, b


def coefficients_gagliardini_meyssonnier(
    relative_density: FloatOrArray, *, a_constant: float = 13.22240, a_slope: float = 15.78652,
    b_constant: float = 15.09371, b_slope: float = 20.46489,
) -> tuple[FloatOrArray, FloatOrArray]:  # fmt: skip
    """Give a and b in the convention e_D^2 = 2 e:e/a + e_m^2/b (n = 3).

    a = exp(13.22240 - 15.78652 D), b = exp(15.09371 - 20.46489 D) up to D = 0.81, dense form above

    Parameters
    ----------
    relative_density : float or array [1]
        Density over density of ice; held between 0.4 and 1.
    a_constant : float [1]
        Constant of ln a.
    a_slope : float [1]
        Slope of ln a.
    b_constant : float [1]
        Constant of ln b.
    b_slope : float [1]
        Slope of ln b.
    Returns
    -------
    tuple of float or array [1, 1]
        a and b.
    Validity: D 0.4 to 1; fitted to one Greenland site; other authors changed the numbers at low D.
    Source: gagliardini_meyssonnier_1997, numbers of zwinger_2007 (read second-hand).

    >>> [round(x, 4) for x in coefficients_gagliardini_meyssonnier(0.5)]
    [206.2605, 129.1875]
    """
    d = clip(relative_density, LOOSEST, 1.0)
    a_dense, b_dense = coefficients_dense(d)
    past = BORDER + 1e-12  # the fit holds at the border itself
    return (
        below(d, past, exp(a_constant - a_slope * d), a_dense),
        below(d, past, exp(b_constant - b_slope * d), b_dense),
    )


def coefficients_arrizabalaga(relative_density: FloatOrArray, k: float) -> tuple[FloatOrArray, FloatOrArray]:
    """Give a and b in the convention eE^2 = (1/a)(E:E - J^2/3) + (3/2)(1/b) J^2 (n = 3), from one site number k.

    x = x0 + mu k exp(-g (D - 0.4)), g = [ln k - ln x0(0.81)]/0.41, mu = 1/(1 + exp(-20 (0.81 - D)))

    Parameters
    ----------
    relative_density : float or array [1]
        Density over density of ice; held between 0.4 and 1.
    k : float [1]
        Softness of the site: a(0.4) and b(0.4). To be calibrated on the site's own profile; 1000 is not general.
    Returns
    -------
    tuple of float or array [1, 1]
        a and b.
    Validity: D 0.4 to 1; near D = 0.81 the blend adds instead of switching and a is 1.5 times the dense form.
    Source: arrizabalaga_2025, authors' code (read).

    >>> [round(x, 3) for x in coefficients_arrizabalaga(0.5, 200.0)]
    [64.73, 39.27]
    """
    d = clip(relative_density, LOOSEST, 1.0)
    share = 1.0 / (1.0 + exp(-20.0 * (BORDER - d)))
    a_dense, b_dense = coefficients_dense(d)
    a_border, b_border = coefficients_dense(BORDER)
    a_slope = math.log(k / a_border) / (BORDER - LOOSEST)
    b_slope = math.log(k / b_border) / (BORDER - LOOSEST)
    return (
        a_dense + share * k * exp(-a_slope * (d - LOOSEST)),
        b_dense + share * k * exp(-b_slope * (d - LOOSEST)),
    )


def strain_rates_gagliardini_meyssonnier(
    stress_x: float, stress_y: float, stress_z: float, a: float, b: float, fluidity: float, *, exponent: float = 3.0,
) -> tuple[float, float, float]:  # fmt: skip
    """Give the principal strain rates under principal stresses.

    s_D^2 = a tau:tau/2 + b p^2, e = (a/2) B s_D^(n-1) tau - (1/3) b B s_D^(n-1) p

    Parameters
    ----------
    stress_x : float [Pa]
        First principal stress, compression negative.
    stress_y : float [Pa]
        Second principal stress.
    stress_z : float [Pa]
        Third principal stress.
    a : float [1]
        Coefficient a of this convention.
    b : float [1]
        Coefficient b of this convention.
    fluidity : float [Pa^-n s^-1]
        B = 2A.
    exponent : float [1]
        Exponent n.
    Returns
    -------
    tuple of float [1/s, 1/s, 1/s]
        Strain rates in x, y, z.
    Validity: as the coefficients.
    Source: porous_solver_document, eqs 1-8 (read).

    >>> [round(e, 4) for e in strain_rates_gagliardini_meyssonnier(0.0, 0.0, -0.01, 206.2605, 129.1875, 20.0)]
    [0.0333, 0.0333, -0.1381]
    """
    pressure = -(stress_x + stress_y + stress_z) / 3.0
    deviators = [s + pressure for s in (stress_x, stress_y, stress_z)]
    squared = a * sum(t * t for t in deviators) / 2.0 + b * pressure * pressure
    factor = fluidity * squared ** ((exponent - 1.0) / 2.0)
    x, y, z = (factor * (a / 2.0 * t - b * pressure / 3.0) for t in deviators)
    return x, y, z


def strain_rates_arrizabalaga(
    stress_x: float, stress_y: float, stress_z: float, a: float, b: float, rate_factor: float, *, exponent: float = 3.0,
) -> tuple[float, float, float]:  # fmt: skip
    """Give the principal strain rates under principal stresses in the other convention.

    the same law with b/3 for b and 2A for B

    Parameters
    ----------
    stress_x : float [Pa]
        First principal stress, compression negative.
    stress_y : float [Pa]
        Second principal stress.
    stress_z : float [Pa]
        Third principal stress.
    a : float [1]
        Coefficient a of this convention.
    b : float [1]
        Coefficient b of this convention.
    rate_factor : float [Pa^-n s^-1]
        Glen's A.
    exponent : float [1]
        Exponent n.
    Returns
    -------
    tuple of float [1/s, 1/s, 1/s]
        Strain rates in x, y, z.
    Validity: as the coefficients.
    Source: arrizabalaga_2025, inverted (computed).

    >>> [round(e, 4) for e in strain_rates_arrizabalaga(0.0, 0.0, -0.01, 206.2605, 3 * 129.1875, 10.0)]
    [0.0333, 0.0333, -0.1381]
    """
    return strain_rates_gagliardini_meyssonnier(
        stress_x, stress_y, stress_z, a, b / 3.0, 2.0 * rate_factor, exponent=exponent)  # fmt: skip
