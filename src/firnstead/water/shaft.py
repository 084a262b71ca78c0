"""The shaft of a well: heat and time to melt it, water freezing in it, its narrowing."""

from __future__ import annotations

import math

from firnstead.water.energy import least_heat
from firnstead.water.properties import LATENT, WATER_DENSITY, sensible_heat_ice

# Heat that a cylinder held at one temperature has given to endless ice, over k dT R^2/a and per 2 pi of its
# circumference, at Fo = a t/R^2 of 10^(-3), 10^(-2.5) ... 10^4 (computed by quadrature; a test repeats it).
_GIVEN = (0.0361796, 0.0650184, 0.11775, 0.215994, 0.404339, 0.780124, 1.56829, 3.31516, 7.40153, 17.4285, 43.0252,
          110.463, 292.612, 794.362, 2198.35)  # fmt: skip
_FIRST = -3.0


def shaft_heat(mass: float, diameter: float, ice_temperature: float, outlet: float = 0.0) -> float:
    """Give the heat that melts a shaft.

    Q = M (pi D^2/4) (L + s(T_i) + c t_o)

    Parameters
    ----------
    mass : float [kg/m2]
        Mass of firn between the top and the foot of the shaft, per area.
    diameter : float [m]
        Diameter.
    ice_temperature : float [K]
        Temperature of the firn.
    outlet : float [K]
        Temperature of the water that drains away, above melting.
    Returns
    -------
    float [J]
        Heat.
    Validity: without what goes into the wall; divide by the share of the heat that does the work.
    Source: statics, heat balance.

    >>> round(shaft_heat(36.6 * 560.0, 1.067, 245.15) / 1e9, 2)
    7.14
    """
    return mass * math.pi * diameter**2 / 4.0 * least_heat(ice_temperature, outlet)


def heat_given_cylinder(number: float) -> float:
    """Give the heat that a warm cylinder has given to endless ice, per radian round it.

    H = integral of G from 0 to Fo, from a table in steps of half a decade, straight in logarithms

    Parameters
    ----------
    number : float [1]
        Fourier number Fo = a t/R^2.
    Returns
    -------
    float [1]
        Heat over k dT R^2/a.
    Validity: 0.001 to 10,000, within 0.7 % and never too small; below, that of a plane wall.
    Source: carslaw_jaeger, ch. 13 (from memory, reproduced by computation).

    >>> round(heat_given_cylinder(1.0), 3)
    1.568
    """
    if number <= 0.0:
        return 0.0
    at = (math.log10(number) - _FIRST) * 2.0
    if at < 0.0:
        return _GIVEN[0] * math.sqrt(number / 10.0**_FIRST)
    i = min(int(at), len(_GIVEN) - 2)
    low, high = math.log(_GIVEN[i]), math.log(_GIVEN[i + 1])
    return math.exp(low + (high - low) * (at - i))


def number_of_heat_cylinder(given: float) -> float:
    """Give the Fourier number at which a warm cylinder has given off so much heat.

    H(Fo) = given, solved by halving

    Parameters
    ----------
    given : float [1]
        Heat over k dT R^2/a, per radian.
    Returns
    -------
    float [1]
        Fourier number.
    Validity: as heat_given_cylinder.
    Source: carslaw_jaeger, ch. 13 (from memory, reproduced by computation).

    >>> round(number_of_heat_cylinder(1.56829), 4)
    1.0
    """
    low, high = 1e-12, 1e6
    for _ in range(80):
        middle = math.sqrt(low * high)
        if heat_given_cylinder(middle) < given:
            low = middle
        else:
            high = middle
    return high


def time_to_freeze_shaft(
    diameter: float, clear: float, integral: float, density: float, ice_temperature: float
) -> float:
    """Give the time in which water that stands in a shaft freezes from the wall inwards to a clear width.

    rho_w L (D^2 - d^2)/8 = K (R^2/a) H(Fo), a = K/(rho s), R = D/2

    Parameters
    ----------
    diameter : float [m]
        Diameter of the shaft D.
    clear : float [m]
        Width that stays clear d; 0: all frozen.
    integral : float [W/m]
        Conductivity of the ice integrated up to melting, K.
    density : float [kg/m3]
        Density of the firn.
    ice_temperature : float [K]
        Its temperature.
    Returns
    -------
    float [s]
        Time.
    Validity: wall at 0 degC from the start and no resistance of the new ice counted: shorter than in truth; the wall
    taken as cold at the start.
    Source: carslaw_jaeger, ch. 13 (from memory, reproduced by computation); own_rule, no credit for the new ice.

    >>> round(time_to_freeze_shaft(1.067, 0.0, 60.0, 700.0, 245.15) / 3600)
    234
    """
    sensible = sensible_heat_ice(ice_temperature)
    diffusivity, radius = integral / (density * sensible), diameter / 2.0
    latent = WATER_DENSITY * LATENT * (diameter**2 - clear**2) / 8.0
    number = number_of_heat_cylinder(latent * diffusivity / (integral * radius**2))
    return number * radius**2 / diffusivity


def time_until_narrow(diameter: float, clear: float, closing: float) -> float:
    """Give the time until a shaft is too narrow.

    t = (D - d)/v

    Parameters
    ----------
    diameter : float [m]
        Diameter as melted.
    clear : float [m]
        Width that pump and hoses need.
    closing : float [m/s]
        Narrowing of the diameter.
    Returns
    -------
    float [s]
        Time; without end where nothing closes.
    Validity: steady closing; measure it.
    Source: statics.

    >>> round(time_until_narrow(1.1, 0.6, 0.05), 9)
    10.0
    """
    return (diameter - clear) / closing if closing > 0.0 else math.inf
