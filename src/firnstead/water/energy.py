"""Heat per kilogram of water, steam, circulation, fuel; the density at which firn seals itself."""

from __future__ import annotations

from firnstead.water.properties import ICE_DENSITY, LATENT, WATER_HEAT, sensible_heat_ice

STEAM_HEAT = 2675.5e3  # J/kg: saturated steam at 101 kPa to water at 0 degC (computed, IAPWS-97)


def least_heat(
    ice_temperature: float, outlet: float = 0.0, *, latent: float = LATENT, heat: float = WATER_HEAT
) -> float:
    """Give the least heat for a kilogram of water out of ice.

    e = L + s(T_i) + c t_o

    Parameters
    ----------
    ice_temperature : float [K]
        Temperature of the ice.
    outlet : float [K]
        Temperature of the water above melting.
    latent : float [J/kg]
        Latent heat L.
    heat : float [J/kg/K]
        Heat capacity of water c.
    Returns
    -------
    float [J/kg]
        Heat per kilogram.
    Validity: nothing lost to the ice, the air or the shaft.
    Source: hoffman_2020, energy of a melt well, worked out anew (computed).

    >>> round(least_heat(249.15) / 1e3, 1)
    381.7
    """
    return latent + sensible_heat_ice(ice_temperature) + heat * outlet


def self_sealing_density(ice_temperature: float, *, latent: float = LATENT, ice_density: float = ICE_DENSITY) -> float:
    """Give the density at which water that soaks into firn freezes all pores shut.

    rho_s = rho_i/(1 + s(T_i)/L)

    Parameters
    ----------
    ice_temperature : float [K]
        Temperature of the firn.
    latent : float [J/kg]
        Latent heat L.
    ice_density : float [kg/m3]
        Density of ice.
    Returns
    -------
    float [kg/m3]
        Density; in lighter firn the cold is used up before the pores are full, and water runs on.
    Validity: no cold from outside is counted: the real sealing lies somewhat higher up.
    Source: textbook_unchecked, heat balance; pore close-off is near 830 kg/m3.

    >>> round(self_sealing_density(245.15)), round(self_sealing_density(222.15))
    (785, 709)
    """
    return ice_density / (1.0 + sensible_heat_ice(ice_temperature) / latent)


def soaked_mass(density: float, ice_temperature: float, outlet: float = 0.0) -> float:
    """Give the water that a cubic metre of cold firn can freeze.

    w = min(rho s/(L + c t_o), rho_i - rho)

    Parameters
    ----------
    density : float [kg/m3]
        Density of the firn.
    ice_temperature : float [K]
        Its temperature.
    outlet : float [K]
        Temperature of the water above melting.
    Returns
    -------
    float [kg/m3]
        Mass taken up per volume.
    Validity: firn well cooled, no cold from outside counted: spread is not understated.
    Source: own_rule, heat balance of the pores.

    >>> round(soaked_mass(700.0, 245.15))
    117
    """
    cold = density * sensible_heat_ice(ice_temperature) / (LATENT + WATER_HEAT * outlet)
    return max(0.0, min(cold, ICE_DENSITY - density))


def melted_by_steam(ice_temperature: float, *, steam: float = STEAM_HEAT) -> float:
    """Give the ice that a kilogram of steam melts.

    m = h_s/(L + s(T_i))

    Parameters
    ----------
    ice_temperature : float [K]
        Temperature of the ice.
    steam : float [J/kg]
        Heat of the steam down to water at 0 degC.
    Returns
    -------
    float [kg/kg]
        Ice melted per steam.
    Validity: saturated steam at 101 kPa, all of its heat given to the ice.
    Source: iapws_97, heat of steam (computed).

    >>> round(melted_by_steam(249.15), 2)
    7.01
    """
    return steam / least_heat(ice_temperature)


def circulation_flow(power: float, supply: float, back: float, *, heat: float = WATER_HEAT) -> float:
    """Give the circulation that carries a heat flow.

    w = P/(c (T_s - T_r))

    Parameters
    ----------
    power : float [W]
        Heat flow.
    supply : float [K]
        Temperature going down.
    back : float [K]
        Temperature coming up.
    heat : float [J/kg/K]
        Heat capacity.
    Returns
    -------
    float [kg/s]
        Mass flow.
    Validity: water; half glycol needs 15 % more.
    Source: statics, heat balance.

    >>> round(circulation_flow(27.4e3, 305.37, 277.59), 3)
    0.235
    """
    return power / (heat * (supply - back))


def melted_by_sewage(warmth: float, ice_temperature: float, *, heat: float = WATER_HEAT) -> float:
    """Give the ice that a kilogram of sewage melts.

    m = c t/(L + s(T_i))

    Parameters
    ----------
    warmth : float [K]
        Temperature of the sewage above melting.
    ice_temperature : float [K]
        Temperature of the ice.
    heat : float [J/kg/K]
        Heat capacity.
    Returns
    -------
    float [kg/kg]
        Ice melted per sewage.
    Validity: nothing lost to far ice: the bulb is not understated.
    Source: statics, heat balance.

    >>> round(melted_by_sewage(20.0, 249.15), 2), round(melted_by_sewage(30.0, 222.15), 2)
    (0.22, 0.29)
    """
    return heat * max(warmth, 0.0) / least_heat(ice_temperature)


def fuel_mass(energy: float, efficiency: float, fuel_heat: float) -> float:
    """Give the fuel that a boiler burns for an amount of heat.

    m = Q/(eta H)

    Parameters
    ----------
    energy : float [J]
        Useful heat.
    efficiency : float [1]
        Share of the fuel's heat that is useful.
    fuel_heat : float [J/kg]
        Heat of the fuel.
    Returns
    -------
    float [kg]
        Fuel.
    Validity: a boiler in good order; thin air costs output, not efficiency.
    Source: statics, definition of efficiency.

    >>> round(fuel_mass(431.3e6, 0.8, 35e6 / 0.82) / 0.82, 1)
    15.4
    """
    return energy / (efficiency * fuel_heat)
