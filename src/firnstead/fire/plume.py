"""The fire's plume: flames, rising smoke, the jet under a ceiling."""

from __future__ import annotations

HEAT_CAPACITY = 1005.0  # J/(kg K), dry air


def flame_height_heskestad(rate: float, diameter: float, *, factor: float = 0.235, width_factor: float = 1.02) -> float:
    """Give the mean flame height above a fire on the floor.

    L = 0.235 Q^0.4 - 1.02 D (kW, m)

    Parameters
    ----------
    rate : float [W]
        Heat release rate Q.
    diameter : float [m]
        Diameter D of the burning area.
    factor : float [m/kW0.4]
        First factor.
    width_factor : float [1]
        Second factor.
    Returns
    -------
    float [m]
        Flame height, at least 0.
    Validity: one round fire in the open, sea level; under a low roof flames run along it.
    Source: heskestad_1983, flame height (from memory, unchecked).

    >>> round(flame_height_heskestad(1000e3, 1.5), 3)
    2.194
    """
    return float(max(0.0, factor * (rate / 1e3) ** 0.4 - width_factor * diameter))


def flame_height_wall(rate_per_length: float, *, factor: float = 0.034) -> float:
    """Give the flame height of a line fire against a wall.

    L = 0.034 Q'^(2/3) (kW/m)

    Parameters
    ----------
    rate_per_length : float [W/m]
        Heat release rate of each metre of the line.
    factor : float [m/(kW/m)^(2/3)]
        Factor; 0.017 away from walls.
    Returns
    -------
    float [m]
        Flame height.
    Validity: a line fire, long against its width.
    Source: nureg_1805, chapter 4 (read).

    >>> round(flame_height_wall(100e3), 3)
    0.733
    """
    return float(factor * (rate_per_length / 1e3) ** (2 / 3))


def flame_height_corner(rate: float, *, factor: float = 0.075) -> float:
    """Give the flame height of a fire in a corner.

    L = 0.075 Q^(3/5) (kW)

    Parameters
    ----------
    rate : float [W]
        Heat release rate.
    factor : float [m/kW0.6]
        Factor.
    Returns
    -------
    float [m]
        Flame height.
    Validity: fire in a corner of two walls that do not burn.
    Source: nureg_1805, chapter 4 (read).

    >>> round(flame_height_corner(500e3), 3)
    3.122
    """
    return float(factor * (rate / 1e3) ** 0.6)


def virtual_origin(rate: float, diameter: float) -> float:
    """Give the height of the point that the plume seems to rise from.

    z_0/D = -1.02 + 0.083 Q^0.4/D (kW, m)

    Parameters
    ----------
    rate : float [W]
        Heat release rate Q.
    diameter : float [m]
        Diameter D of the burning area.
    Returns
    -------
    float [m]
        Height above the fire's base, mostly below it.
    Validity: one round fire in the open.
    Source: nureg_1805, eq. 9-3 (read).

    >>> round(virtual_origin(750e3, 2.2) / 2.2, 5)
    -0.48706
    """
    return float(-1.02 * diameter + 0.083 * (rate / 1e3) ** 0.4)


def temperature_rise_plume(
    convective: float, height: float, origin: float, ambient: float, density: float,
    *, factor: float = 9.1, gravity: float = 9.81, heat_capacity: float = 1.0,
) -> float:  # fmt: skip
    """Give how much hotter than the air the middle of the plume is.

    dT = 9.1 (T_a/(g c_p^2 rho^2))^(1/3) Q_c^(2/3) (z - z_0)^(-5/3) (kW, m, K, kJ)

    Parameters
    ----------
    convective : float [W]
        Convective part of the heat release rate.
    height : float [m]
        Height z above the fire's base.
    origin : float [m]
        Height z_0 of the virtual origin.
    ambient : float [K]
        Air temperature T_a.
    density : float [kg/m3]
        Air density.
    factor : float [1]
        Factor.
    gravity : float [m/s2]
        Gravity.
    heat_capacity : float [kJ/(kg K)]
        Heat capacity of air.
    Returns
    -------
    float [K]
        Temperature rise.
    Validity: above the flames, plume unobstructed.
    Source: nureg_1805, eq. 9-2 (read).

    >>> round(temperature_rise_plume(700e3, 2.0, -0.25, 288.0, 1.2, gravity=9.8), 2)
    507.46
    """
    first = (ambient / (gravity * heat_capacity**2 * density**2)) ** (1 / 3)
    return float(factor * first * (convective / 1e3) ** (2 / 3) * (height - origin) ** (-5 / 3))


def limiting_height(convective: float, *, factor: float = 0.166) -> float:
    """Give the height below which the plume is flame.

    z_l = 0.166 Q_c^0.4 (kW, m)

    Parameters
    ----------
    convective : float [W]
        Convective part of the heat release rate.
    factor : float [m/kW0.4]
        Factor.
    Returns
    -------
    float [m]
        Height.
    Validity: one round fire in the open, sea level.
    Source: nfpa_92, axisymmetric plume (from memory, unchecked).

    >>> round(limiting_height(700e3), 3)
    2.281
    """
    return float(factor * (convective / 1e3) ** 0.4)


def mass_flow_plume(convective: float, height: float) -> float:
    """Give the mass of smoke that the plume carries up through a height.

    m = 0.071 Q_c^(1/3) z^(5/3) + 0.0018 Q_c above z_l, m = 0.032 Q_c^(3/5) z below (kW, m, kg/s)

    Parameters
    ----------
    convective : float [W]
        Convective part of the heat release rate.
    height : float [m]
        Height z above the fire's base.
    Returns
    -------
    float [kg/s]
        Mass flow.
    Validity: one fire away from walls, air at sea level; thin air is drawn in by volume, so mass falls with density.
    Source: nfpa_92, axisymmetric plume (from memory, unchecked).

    >>> round(mass_flow_plume(700e3, 3.0), 3)
    5.194
    """
    power = convective / 1e3
    if height > limiting_height(convective):
        return float(0.071 * power ** (1 / 3) * height ** (5 / 3) + 0.0018 * power)
    return float(0.032 * power**0.6 * height)


def temperature_rise_jet_alpert(rate: float, height: float, radius: float) -> float:
    """Give the temperature rise of the jet under a ceiling.

    dT = 16.9 Q^(2/3) H^(-5/3) for r/H <= 0.18, else 5.38 (Q/r)^(2/3)/H (kW, m)

    Parameters
    ----------
    rate : float [W]
        Heat release rate Q.
    height : float [m]
        Height H of the ceiling above the fire.
    radius : float [m]
        Distance r from the plume's middle.
    Returns
    -------
    float [K]
        Temperature rise.
    Validity: smooth flat ceiling without walls; a cold corrugated arch robs the jet, so this is too hopeful.
    Source: alpert_1972, ceiling jet (read second-hand).

    >>> round(temperature_rise_jet_alpert(12874e3, 10.0, 0.0), 1)
    200.0
    """
    power = rate / 1e3
    if radius <= 0.18 * height:
        return float(16.9 * power ** (2 / 3) * height ** (-5 / 3))
    return float(5.38 * (power / radius) ** (2 / 3) / height)


def heat_release_jet_alpert(rise: float, height: float) -> float:
    """Give the heat release rate that heats the jet above the fire by a given amount.

    Q = (dT H^(5/3)/16.9)^(3/2) (kW, m)

    Parameters
    ----------
    rise : float [K]
        Temperature rise.
    height : float [m]
        Height H of the ceiling above the fire.
    Returns
    -------
    float [W]
        Heat release rate.
    Validity: straight above the fire (r/H <= 0.18); too hopeful under a cold arch.
    Source: alpert_1972, ceiling jet solved for Q (read second-hand).

    >>> round(heat_release_jet_alpert(200.0, 10.0) / 1e3)
    12874
    """
    return float((rise * height ** (5 / 3) / 16.9) ** 1.5) * 1e3


def jet_velocity_alpert(rate: float, height: float, radius: float) -> float:
    """Give the speed of the jet under a ceiling.

    u = 0.96 (Q/H)^(1/3) for r/H <= 0.15, else 0.195 Q^(1/3) H^(1/2) r^(-5/6) (kW, m)

    Parameters
    ----------
    rate : float [W]
        Heat release rate Q.
    height : float [m]
        Height H of the ceiling above the fire.
    radius : float [m]
        Distance r from the plume's middle.
    Returns
    -------
    float [m/s]
        Speed.
    Validity: smooth flat ceiling without walls.
    Source: alpert_1972, ceiling jet (from memory, unchecked).

    >>> round(jet_velocity_alpert(1000e3, 4.0, 0.0), 2)
    6.05
    """
    power = rate / 1e3
    if radius <= 0.15 * height:
        return float(0.96 * (power / height) ** (1 / 3))
    return float(0.195 * power ** (1 / 3) * height**0.5 * radius ** (-5 / 6))
