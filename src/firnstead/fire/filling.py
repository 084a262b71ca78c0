"""Plain filling of one room with smoke. A trench is outside these laws: they refuse it."""

from __future__ import annotations

from math import inf, log, nan

from firnstead.fire.plume import mass_flow_plume

SHAPES = (0.9, 14.0)  # range of A/H^2 that the steady and the growing law were made for (nfpa_92)
LOWEST = 0.2  # least z/H of the same laws
SEA_LEVEL = 101325.0  # Pa


def shape_factor(area: float, height: float) -> float:
    """Give the plan area over the square of the height.

    s = A/H^2

    Parameters
    ----------
    area : float [m2]
        Plan area A.
    height : float [m]
        Height H.
    Returns
    -------
    float [1]
        Shape.
    Validity: any room; the filling laws hold from 0.9 to 14.
    Source: nfpa_92, range of the filling laws (read second-hand).

    >>> round(shape_factor(500.0, 4.5), 1)
    24.7
    """
    return area / height**2


def layer_height_steady_nfpa(time: float, rate: float, area: float, height: float) -> float:
    """Give the height of the smoke layer above the floor, steady fire.

    z/H = 1.11 - 0.28 ln(t Q^(1/3) H^(-4/3)/(A/H^2)) (kW, m, s)

    Parameters
    ----------
    time : float [s]
        Time t.
    rate : float [W]
        Heat release rate Q.
    area : float [m2]
        Plan area A.
    height : float [m]
        Height H.
    Returns
    -------
    float [m]
        Height of the layer's underside; not a number outside the law's range.
    Validity: 0.9 <= A/H^2 <= 14, z/H >= 0.2, plume unobstructed, no exhaust.
    Source: nfpa_92, steady filling (read second-hand).

    >>> round(layer_height_steady_nfpa(90.0, 1000e3, 250.0, 4.5), 3)
    2.118
    """
    shape = shape_factor(area, height)
    if not SHAPES[0] <= shape <= SHAPES[1]:
        return nan
    if time <= 0 or rate <= 0:
        return height
    share = 1.11 - 0.28 * log(time * (rate / 1e3) ** (1 / 3) * height ** (-4 / 3) / shape)
    return nan if share < LOWEST else min(1.0, share) * height


def layer_height_growing_nfpa(time: float, growth_time: float, area: float, height: float) -> float:
    """Give the height of the smoke layer above the floor, growing fire.

    z/H = 0.91 (t tg^(-2/5) H^(-4/5) (A/H^2)^(-3/5))^(-1.45)

    Parameters
    ----------
    time : float [s]
        Time t.
    growth_time : float [s]
        Time tg at which the fire reaches 1055 kW.
    area : float [m2]
        Plan area A.
    height : float [m]
        Height H.
    Returns
    -------
    float [m]
        Height of the layer's underside; not a number outside the law's range.
    Validity: 0.9 <= A/H^2 <= 14, z/H >= 0.2, plume unobstructed, no exhaust; the formula passes H early
    and is cut there.
    Source: nfpa_92, growing filling (read second-hand; the exponent from memory, unchecked).

    >>> round(layer_height_growing_nfpa(200.0, 150.0, 250.0, 4.5), 3)
    1.759
    """
    shape = shape_factor(area, height)
    if not SHAPES[0] <= shape <= SHAPES[1]:
        return nan
    if time <= 0:
        return height
    share = 0.91 * (time * growth_time**-0.4 * height**-0.8 * shape**-0.6) ** -1.45
    return nan if share < LOWEST else min(1.0, share) * height


def filling_time_growing_nfpa(layer: float, growth_time: float, area: float, height: float) -> float:
    """Give the time at which the smoke layer of a growing fire comes down to a height.

    t = (z/(0.91 H))^(-1/1.45) tg^(2/5) H^(4/5) (A/H^2)^(3/5)

    Parameters
    ----------
    layer : float [m]
        Height z of the layer's underside.
    growth_time : float [s]
        Time tg at which the fire reaches 1055 kW.
    area : float [m2]
        Plan area A.
    height : float [m]
        Height H.
    Returns
    -------
    float [s]
        Time; not a number outside the law's range.
    Validity: 0.9 <= A/H^2 <= 14, 0.2 <= z/H <= 0.91, plume unobstructed, no exhaust.
    Source: nfpa_92, growing filling solved for time (read second-hand; the exponent from memory, unchecked).

    >>> round(filling_time_growing_nfpa(1.759, 150.0, 250.0, 4.5))
    200
    """
    shape = shape_factor(area, height)
    if not SHAPES[0] <= shape <= SHAPES[1] or not LOWEST <= layer / height <= 0.91:
        return nan
    return float((layer / (0.91 * height)) ** (-1 / 1.45) * growth_time**0.4 * height**0.8 * shape**0.6)


def filling_constant(layer_density: float, ambient: float, *, density: float = 1.2, heat_capacity: float = 1000.0,
                     gravity: float = 9.81) -> float:  # fmt: skip
    """Give the constant of the Yamana-Tanaka filling law.

    k = (0.21/rho_g) (rho_a^2 g/(c_p T_a))^(1/3)

    Parameters
    ----------
    layer_density : float [kg/m3]
        Density rho_g of the smoke.
    ambient : float [K]
        Air temperature T_a.
    density : float [kg/m3]
        Air density rho_a.
    heat_capacity : float [J/(kg K)]
        Heat capacity of air.
    gravity : float [m/s2]
        Gravity.
    Returns
    -------
    float [m4/3/(s W1/3)]
        Constant k.
    Validity: one room with leaks at the floor, steady fire.
    Source: nureg_1805, eq. 2-11 (read).

    >>> round(filling_constant(0.5, 293.15), 6)
    0.015284
    """
    return float(0.21 / layer_density * (density**2 * gravity / (heat_capacity * ambient)) ** (1 / 3))


def layer_height_yamana_tanaka(time: float, rate: float, area: float, height: float, constant: float) -> float:
    """Give the height of the smoke layer above the floor, steady fire, Yamana and Tanaka.

    z = (2 k Q^(1/3) t/(3 A) + H^(-2/3))^(-3/2)

    Parameters
    ----------
    time : float [s]
        Time t.
    rate : float [W]
        Heat release rate Q.
    area : float [m2]
        Plan area A.
    height : float [m]
        Height H.
    constant : float [m4/3/(s W1/3)]
        Constant k.
    Returns
    -------
    float [m]
        Height of the layer's underside.
    Validity: one room with leaks at the floor, steady fire; not a long passage.
    Source: nureg_1805, eq. 2-10 (read).

    >>> round(layer_height_yamana_tanaka(90.0, 1000e3, 250.0, 4.5, 0.012), 4)
    1.8869
    """
    return float((2 * constant * rate ** (1 / 3) * time / (3 * area) + height ** (-2 / 3)) ** -1.5)


def filling_time_by_steps(
    layer: float, coefficient: float, area: float, height: float, *, convective: float = 0.7,
    density: float = 1.2, pressure: float = SEA_LEVEL, step: float = 0.1, longest: float = 7200.0,
) -> float:  # fmt: skip
    """Give the time at which smoke of a growing fire fills a long narrow space down to a height, by hand reckoning.

    dz/dt = -(m(z)/rho + Q_c/(353 c_p))/A, rho and 353 scaled by P/101.325 kPa

    Parameters
    ----------
    layer : float [m]
        Height z of the layer's underside.
    coefficient : float [W/s2]
        Growth coefficient alpha.
    area : float [m2]
        Plan area A.
    height : float [m]
        Height H.
    convective : float [1]
        Convective share of the heat.
    density : float [kg/m3]
        Density of air at sea level.
    pressure : float [Pa]
        Air pressure P.
    step : float [s]
        Time step.
    longest : float [s]
        Time after which it is given up.
    Returns
    -------
    float [s]
        Time; infinite beyond `longest`.
    Validity: a first estimate only: one layer of even height, which a long passage does not have; the far end is worse.
    Source: own_rule, plume of nfpa_92 filling a box by steps (computed).

    >>> round(filling_time_by_steps(2.0, 46.9, 500.0, 4.5))
    226
    """
    scale = pressure / SEA_LEVEL
    time, z = 0.0, height
    while time < longest:
        power = convective * coefficient * (time + step / 2) ** 2
        flow = mass_flow_plume(power, z) / density + power / (353.0 * 1000.0 * scale)
        z -= step * flow / area
        time += step
        if z <= layer:
            return time
    return inf
