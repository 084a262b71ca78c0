"""Glen's rate factor A of ice against temperature: strain rate = A tau^3.

A softness k fitted with one author's A must be used with that A: they differ by 1.4 below -10 degC and by 2.1 at 0.
"""

from __future__ import annotations

from firnstead.snow._arrays import FloatOrArray, below, exp


def rate_factor_cuffey_paterson(
    temperature: FloatOrArray, *, reference: float = 3.5e-25, reference_temperature: float = 263.15,
    energy_cold: float = 60e3, energy_warm: float = 115e3, gas_constant: float = 8.314,
) -> FloatOrArray:  # fmt: skip
    """Give the rate factor of ice for n = 3.

    A = 3.5e-25 exp[-(Q/R)(1/T - 1/263.15)], Q = 60 kJ/mol below -10 degC, 115 kJ/mol above

    Parameters
    ----------
    temperature : float or array [K]
        Temperature.
    reference : float [Pa^-3 s^-1]
        Rate factor at the reference temperature.
    reference_temperature : float [K]
        Temperature at which the activation energy changes.
    energy_cold : float [J/mol]
        Activation energy below it.
    energy_warm : float [J/mol]
        Activation energy above it.
    gas_constant : float [J/mol/K]
        Gas constant.
    Returns
    -------
    float or array [Pa^-3 s^-1]
        Rate factor.
    Validity: ice from -50 to 0 degC; the shift of the melting point with pressure is neglected.
    Source: cuffey_paterson_2010, p. 72-73 (read).

    >>> round(rate_factor_cuffey_paterson(248.15) * 1e26, 2)
    6.67
    """
    energy = below(temperature, reference_temperature, temperature * 0.0 + energy_cold, temperature * 0.0 + energy_warm)
    return reference * exp(-energy / gas_constant * (1.0 / temperature - 1.0 / reference_temperature))


def rate_factor_paterson_budd(
    temperature: FloatOrArray, *, factor_cold: float = 3.985e-13, energy_cold: float = 60e3,
    factor_warm: float = 1.916e3, energy_warm: float = 139e3, change: float = 263.15, gas_constant: float = 8.314,
) -> FloatOrArray:  # fmt: skip
    """Give the rate factor of ice for n = 3 by the older fit.

    A = 3.985e-13 exp(-60000/(R T)) up to 263.15 K, 1.916e3 exp(-139000/(R T)) above

    Parameters
    ----------
    temperature : float or array [K]
        Temperature.
    factor_cold : float [Pa^-3 s^-1]
        Factor of the cold branch.
    energy_cold : float [J/mol]
        Activation energy of the cold branch.
    factor_warm : float [Pa^-3 s^-1]
        Factor of the warm branch.
    energy_warm : float [J/mol]
        Activation energy of the warm branch.
    change : float [K]
        Temperature at which the branches meet.
    gas_constant : float [J/mol/K]
        Gas constant.
    Returns
    -------
    float or array [Pa^-3 s^-1]
        Rate factor.
    Validity: ice below melting.
    Source: paterson_budd_1982, fit as quoted in public codes (read second-hand).

    >>> round(rate_factor_paterson_budd(253.15) * 1e25, 2)
    1.66
    """
    cold = factor_cold * exp(-energy_cold / gas_constant / temperature)
    warm = factor_warm * exp(-energy_warm / gas_constant / temperature)
    return below(temperature, change, cold, warm)


def rate_factor_ratio_cuffey_paterson(temperature: float, reference_temperature: float) -> float:
    """Give how many times faster ice creeps at a temperature than at another one.

    ratio = A(T)/A(T_1)

    Parameters
    ----------
    temperature : float [K]
        Temperature.
    reference_temperature : float [K]
        Temperature of comparison.
    Returns
    -------
    float [1]
        Ratio of the creep rates under the same stress.
    Validity: as rate_factor_cuffey_paterson.
    Source: cuffey_paterson_2010, p. 72-73 (read).

    >>> round(rate_factor_ratio_cuffey_paterson(263.15, 248.15), 2)
    5.25
    """
    return rate_factor_cuffey_paterson(temperature) / rate_factor_cuffey_paterson(reference_temperature)
