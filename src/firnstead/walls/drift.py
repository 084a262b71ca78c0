"""Drift by the storm wind at what stands above the snow, as far as a published rule goes."""

from __future__ import annotations

from math import cos, radians, sin


def angle_to_wind(bearing: float, wind_from: float) -> float:
    """Give the angle between an axis and the wind, whichever way either points.

    a = difference of the two bearings, folded into 0 to 90 degrees

    Parameters
    ----------
    bearing : float [deg]
        Bearing of the axis.
    wind_from : float [deg]
        Bearing that the storm wind blows from.
    Returns
    -------
    float [deg]
        0 along the wind, 90 across it.
    Validity: any bearings.
    Source: statics, geometry.

    >>> angle_to_wind(10.0, 145.0), angle_to_wind(350.0, 10.0), angle_to_wind(90.0, 0.0)
    (45.0, 20.0, 90.0)
    """
    turn = (bearing - wind_from) % 180.0
    return min(turn, 180.0 - turn)


def downwind(place: tuple[float, float], other: tuple[float, float], wind_from: float) -> tuple[float, float]:
    """Give how far one place lies downwind of and beside another.

    along = (x - x_o) e, beside = |(x - x_o) n|, e pointing the way the wind blows

    Parameters
    ----------
    place : tuple of float [m]
        East and north of the place.
    other : tuple of float [m]
        East and north of the other.
    wind_from : float [deg]
        Bearing that the storm wind blows from.
    Returns
    -------
    tuple of float [m]
        Distance downwind (negative: upwind) and distance to the side.
    Validity: plan geometry.
    Source: statics, geometry.

    >>> along, beside = downwind((0.0, -30.0), (0.0, 0.0), 0.0)
    >>> round(along, 6), round(beside, 6)
    (30.0, 0.0)
    """
    east, north = place[0] - other[0], place[1] - other[1]
    blow_east, blow_north = -sin(radians(wind_from)), -cos(radians(wind_from))
    return east * blow_east + north * blow_north, abs(east * blow_north - north * blow_east)


def in_drift_shadow(
    along: float, beside: float, height: float, half_width: float, near: float = 10.0, far: float = 30.0
) -> bool:
    """Tell whether a place lies in the belt behind an obstacle that is to be kept free.

    near H <= along <= far H and beside <= half_width

    Parameters
    ----------
    along : float [m]
        Distance downwind of the obstacle.
    beside : float [m]
        Distance to the side of the line downwind through the obstacle's middle.
    height : float [m]
        Height of the obstacle above the snow.
    half_width : float [m]
        Half the widths of obstacle and place across the wind, together.
    near : float [1]
        Start of the belt in heights of the obstacle.
    far : float [1]
        End of the belt in heights of the obstacle.
    Returns
    -------
    bool [1]
        True where the place lies in the belt.
    Validity: one prevailing storm wind; rule for buildings on open snow. Sideways extent is plan geometry, own rule.
    Source: stehle_1969, nothing 10 to 30 heights downwind of an obstruction (abstract read).

    >>> in_drift_shadow(40.0, 1.0, 2.0, 3.0), in_drift_shadow(100.0, 1.0, 2.0, 3.0)
    (True, False)
    """
    return near * height <= along <= far * height and beside <= half_width


def hours_to_fill(volume: float, density: float, transport: float, width: float) -> float:
    """Give the time in which a storm could fill a hollow, if it kept all that blows over its edge.

    t = rho V/(Q w)

    Parameters
    ----------
    volume : float [m3]
        Volume of the hollow.
    density : float [kg/m3]
        Density of the drift.
    transport : float [kg/m/s]
        Snow carried by the wind per metre across it.
    width : float [m]
        Width of the hollow across the wind.
    Returns
    -------
    float [s]
        Shortest time; infinite where nothing blows.
    Validity: everything is caught: the shortest time. Fetch and snow to be had are not limited.
    Source: statics, conservation of mass.

    >>> round(hours_to_fill(250.0, 400.0, 0.376, 10.0) / 3600, 1)
    7.4
    """
    return float("inf") if transport * width <= 0 else density * volume / (transport * width)
