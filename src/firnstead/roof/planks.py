"""Planks under the feet of an arch, and the beams and timbers that go with them."""

from __future__ import annotations

from typing import NamedTuple


class BeamOnSnow(NamedTuple):
    """A long beam on springs under one load."""

    wave_number: float
    deflection: float
    moment: float


def cantilever_moment(pressure: float, overhang: float) -> float:
    """Give the bending of a plank beyond the channel that stands on it.

    M = q a^2/2

    Parameters
    ----------
    pressure : float [Pa]
        Snow pressure q under the plank.
    overhang : float [m]
        Length a beyond the channel.
    Returns
    -------
    float [N m/m]
        Bending moment per metre of trench.
    Validity: even pressure, which wants an overhang of at most 3 to 4 thicknesses.
    Source: statics.

    >>> cantilever_moment(100000.0, 0.5)
    12500.0
    """
    return pressure * overhang**2 / 2


def plank_bending_stress(moment: float, thickness: float) -> float:
    """Give the bending stress of a plank.

    sigma = 6 M/t^2

    Parameters
    ----------
    moment : float [N m/m]
        Bending moment M per metre of trench.
    thickness : float [m]
        Thickness t.
    Returns
    -------
    float [Pa]
        Bending stress.
    Validity: timber laid so that it bends along its grain; across the grain it has hardly any strength.
    Source: statics.

    >>> round(plank_bending_stress(2000.0, 0.075) / 1e6, 2)
    2.13
    """
    return 6 * moment / thickness**2


def plank_shear_stress(pressure: float, overhang: float, thickness: float) -> float:
    """Give the shear stress of a plank beside the channel.

    tau = 1.5 q a/t

    Parameters
    ----------
    pressure : float [Pa]
        Snow pressure q under the plank.
    overhang : float [m]
        Length a beyond the channel.
    thickness : float [m]
        Thickness t.
    Returns
    -------
    float [Pa]
        Greatest shear stress.
    Validity: rectangular section.
    Source: statics.

    >>> round(plank_shear_stress(100000.0, 0.2, 0.075) / 1e6, 2)
    0.4
    """
    return 1.5 * pressure * overhang / thickness


def beam_on_snow(force: float, modulus: float, width: float, thickness: float, bedding: float) -> BeamOnSnow:
    """Give deflection and moment of a long beam on springs under one load.

    lambda = (k b/(4 E I))^(1/4); w_0 = P lambda/(2 k b); M_0 = P/(4 lambda)

    Parameters
    ----------
    force : float [N]
        Load P.
    modulus : float [Pa]
        Modulus of elasticity E of the beam.
    width : float [m]
        Width b of the beam.
    thickness : float [m]
        Thickness of the beam.
    bedding : float [N/m3]
        Bedding modulus k of the snow.
    Returns
    -------
    BeamOnSnow [1/m, m, N m]
        Wave number, deflection and moment under the load.
    Validity: sudden load only; under a lasting load snow creeps and the pressure evens out. No k of snow was found.
    Source: textbook_unchecked, beam on springs (from memory, unchecked; computed).

    >>> round(beam_on_snow(1e4, 12e9, 0.25, 0.05, 20e6).wave_number, 3)
    2.515
    """
    inertia = width * thickness**3 / 12
    wave = (bedding * width / (4 * modulus * inertia)) ** 0.25
    return BeamOnSnow(wave, force * wave / (2 * bedding * width), force / (4 * wave))


def beam_moment_uniform(load: float, span: float) -> float:
    """Give the greatest moment of a simple beam under an even load.

    M = w L^2/8

    Parameters
    ----------
    load : float [N/m]
        Load w.
    span : float [m]
        Span L.
    Returns
    -------
    float [N m]
        Moment at midspan.
    Validity: simply supported.
    Source: statics.

    >>> beam_moment_uniform(8.0, 1.0)
    1.0
    """
    return load * span**2 / 8


def steel_moment_plastic(yield_strength: float, plastic_modulus: float) -> float:
    """Give the moment that a compact braced steel beam reaches.

    M_n = F_y Z

    Parameters
    ----------
    yield_strength : float [Pa]
        Yield strength F_y.
    plastic_modulus : float [m3]
        Plastic section modulus Z.
    Returns
    -------
    float [N m]
        Nominal moment; times 0.90 (load factors) or over 1.67 (allowable stress) for design.
    Validity: compact section, braced compression flange.
    Source: aisc_360, F2 (from memory, unchecked).

    >>> steel_moment_plastic(250e6, 0.001)
    250000.0
    """
    return yield_strength * plastic_modulus


def thickness_for_even_pressure(overhang: float, factor: float = 4.0) -> float:
    """Give the thickness from which a plank spreads its load nearly evenly.

    t = a/4

    Parameters
    ----------
    overhang : float [m]
        Length a beyond the channel.
    factor : float [1]
        Overhang over thickness that is still stiff.
    Returns
    -------
    float [m]
        Thickness.
    Validity: rule of thumb.
    Source: own_rule.

    >>> thickness_for_even_pressure(0.3)
    0.075
    """
    return overhang / factor
