"""Milled snow gains strength with age. At age zero it has none and runs like sand.

The form follows from what was read (growth with a power of time between 0.18 and 0.4, faster when warm, an upper
envelope); its size must be measured at the site. No activation energy has been found in print, so it is an input.
"""

from __future__ import annotations

import math

from firnstead.snow.strength import arrhenius_factor

DAY = 86400.0


def strength_milled_snow(
    age: float, measured_strength: float, measured_age: float, envelope: float, *, exponent: float,
    temperature_factor: float = 1.0,
) -> float:  # fmt: skip
    """Give the strength of milled snow at an age from one measurement.

    sigma = min[sigma_max, sigma_1 (t/t_1)^m f_T]

    Parameters
    ----------
    age : float [s]
        Age since milling and placing; at or below zero there is no strength.
    measured_strength : float [Pa]
        Strength measured on the site's milled snow.
    measured_age : float [s]
        Age of that sample.
    envelope : float [Pa]
        Strength of well-bonded snow of that density, never passed.
    exponent : float [1]
        m, between 0.18 and 0.4.
    temperature_factor : float [1]
        Factor from the measured sample's temperature to the snow's; see temperature_factor_milled_snow.
    Returns
    -------
    float [Pa]
        Strength.
    Validity: dry snow, undisturbed since it was placed, same density as the measured sample.
    Source: own_rule, form from hobbs_1965 and van_herwijnen_miller_2013, zero at age zero from waterhouse_bunten_1969.

    >>> round(strength_milled_snow(4 * 86400.0, 50e3, 86400.0, 600e3, exponent=0.4))
    87055
    """
    if age <= 0.0:
        return 0.0
    if math.isnan(temperature_factor):
        return math.nan
    grown: float = measured_strength * (age / measured_age) ** exponent * temperature_factor
    return min(envelope, grown)


def temperature_factor_milled_snow(
    temperature: float, measured_temperature: float, activation_energy: float | None
) -> float:
    """Give the factor by which snow at another temperature has hardened more or less than the measured sample.

    f_T = exp[-(Q/R)(1/T - 1/T_1)]; without Q: 1 where the snow is as warm as the sample or warmer, else unknown

    Parameters
    ----------
    temperature : float [K]
        Temperature at which the snow hardens.
    measured_temperature : float [K]
        Temperature at which the sample hardened.
    activation_energy : float or None [J/mol]
        Q fitted on site, or none.
    Returns
    -------
    float [1]
        Factor; not a number where it is unknown.
    Validity: below melting; warm snow hardens faster but creeps faster too.
    Source: own_rule, Arrhenius form; no published activation energy was found.

    >>> temperature_factor_milled_snow(250.0, 245.0, None)
    1.0
    >>> temperature_factor_milled_snow(240.0, 245.0, None)
    nan
    """
    if activation_energy is None:
        return 1.0 if temperature >= measured_temperature else math.nan
    return arrhenius_factor(temperature, measured_temperature, activation_energy)


def strength_milled_snow_low(
    age: float, measured_strength: float, measured_age: float, envelope: float, *, exponent_low: float = 0.18,
    exponent_high: float = 0.40, temperature_factor: float = 1.0,
) -> float:  # fmt: skip
    """Give the low end of the strength of milled snow at an age: the weaker of slow and fast growth.

    sigma_low = min over m of sigma(m)

    Parameters
    ----------
    age : float [s]
        Age since milling and placing.
    measured_strength : float [Pa]
        Strength measured on the site's milled snow.
    measured_age : float [s]
        Age of that sample.
    envelope : float [Pa]
        Low end of the strength of well-bonded snow of that density.
    exponent_low : float [1]
        Slowest growth.
    exponent_high : float [1]
        Fastest growth; it gives the lower strength before the measured age.
    temperature_factor : float [1]
        Factor for temperature.
    Returns
    -------
    float [Pa]
        Low strength.
    Validity: as strength_milled_snow.
    Source: own_rule, exponents from van_herwijnen_miller_2013 (read) and hobbs_1965 (read second-hand).

    >>> round(strength_milled_snow_low(4 * 86400.0, 50e3, 86400.0, 600e3))
    64171
    """
    return min(
        strength_milled_snow(
            age, measured_strength, measured_age, envelope, exponent=m, temperature_factor=temperature_factor)
        for m in (exponent_low, exponent_high)
    )  # fmt: skip


def waiting_time_milled_snow(
    wanted_strength: float, measured_strength: float, measured_age: float, envelope: float, *,
    exponent_low: float = 0.18, exponent_high: float = 0.40, temperature_factor: float = 1.0,
) -> float:  # fmt: skip
    """Give the age at which the low end of the strength of milled snow reaches a wanted value.

    t = max{t_1, t_1 [sigma/(sigma_1 f_T)]^(1/m)}, the later of both exponents; infinite above the envelope

    Parameters
    ----------
    wanted_strength : float [Pa]
        Wanted strength; at or below zero there is no wait.
    measured_strength : float [Pa]
        Strength measured on the site's milled snow.
    measured_age : float [s]
        Age of that sample.
    envelope : float [Pa]
        Low end of the strength of well-bonded snow of that density.
    exponent_low : float [1]
        Slowest growth.
    exponent_high : float [1]
        Fastest growth.
    temperature_factor : float [1]
        Factor for temperature; where it is not a number, neither is the answer.
    Returns
    -------
    float [s]
        Waiting time; infinite where the strength is never reached.
    Validity: as strength_milled_snow; never shorter than the measured age, since fresh snow has no cohesion and nothing
        earlier was measured; a wait far beyond the measured age is a guess: test again.
    Source: own_rule, inverse of strength_milled_snow_low.

    >>> round(waiting_time_milled_snow(100e3, 50e3, 86400.0, 600e3) / 86400.0, 1)
    47.0
    """
    if wanted_strength <= 0.0:
        return 0.0
    ratio = wanted_strength / (measured_strength * temperature_factor)
    if math.isnan(ratio):
        return math.nan
    if wanted_strength > envelope:
        return math.inf
    return max(1.0, *(_later(ratio, m) for m in (exponent_low, exponent_high))) * measured_age


def waiting_time_text(waiting_time: float, within: float) -> str:
    """Say a waiting time in words.

    'N days', or 'not within N days' past the horizon

    Parameters
    ----------
    waiting_time : float [s]
        Waiting time; may be infinite or not a number.
    within : float [s]
        Horizon.
    Returns
    -------
    str [text]
        The words.
    Validity: any.
    Source: own_rule, wording.

    >>> waiting_time_text(4.06e6, 3.0e6), waiting_time_text(1.0e6, 3.0e6)
    ('not within 35 days', '12 days')
    """
    if math.isnan(waiting_time):
        return "not known"
    if waiting_time > within:
        return f"not within {math.ceil(within / DAY)} days"
    days = math.ceil(waiting_time / DAY)
    return f"{days} day" if days == 1 else f"{days} days"


def _later(ratio: float, exponent: float) -> float:
    try:
        later: float = ratio ** (1.0 / exponent)
    except OverflowError:
        return math.inf
    return later
