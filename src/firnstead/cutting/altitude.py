"""Engine power left at altitude: what published rules of thumb say. The maker's own curve goes before any of them."""

from __future__ import annotations

from types import MappingProxyType

# rule: (altitude at which the loss starts [m], share lost per metre above it, source)
RULES = MappingProxyType({
    "mine engines, not turbocharged": (305.0, 1e-4, "msha_altitude"),
    "mine engines, turbocharged": (1000.0, 1e-4, "msha_altitude"),
    "small army generator set": (1219.0, 1.3e-4, "tm_9_6115_673"),
    "a portable set's manual": (1000.0, 3e-2 / 500.0, "portable_set_manual"),
    "farm engines": (500.0 * 0.3048, 3e-2 / 304.8, "farm_engines_altitude"),
})  # fmt: skip


def pressure_altitude(pressure: float, sea_level: float = 101325.0) -> float:
    """Give the altitude in the standard atmosphere that has this air pressure.

    h = (1 - (p/p0)^(1/5.25588))/2.25577e-5

    Parameters
    ----------
    pressure : float [Pa]
        Air pressure at the station.
    sea_level : float [Pa]
        Pressure of the standard atmosphere at sea level.
    Returns
    -------
    float [m]
        Pressure altitude.
    Validity: below 11 km; on an ice sheet it lies several hundred metres above the height over the sea.
    Source: standard_atmosphere (from memory, unchecked; reproduces logged pairs).

    >>> round(pressure_altitude(68600.0))
    3171
    """
    return float((1.0 - (pressure / sea_level) ** (1.0 / 5.25588)) / 2.25577e-5)


def power_share(altitude: float, loss_per_metre: float, start: float = 0.0) -> float:
    """Give the share of an engine's power that is left at an altitude by a straight-line rule.

    s = 1 - loss_per_metre (altitude - start), at most 1

    Parameters
    ----------
    altitude : float [m]
        Altitude, best the pressure altitude.
    loss_per_metre : float [1/m]
        Share of the power lost per metre.
    start : float [m]
        Altitude at which the loss starts.
    Returns
    -------
    float [1]
        Share left, between 0 and 1.
    Validity: published rules differ by a fifth at 3,000 m; use the maker's curve.
    Source: farm_engines_altitude (read) for 3 % per 1,000 ft above 500 ft.

    >>> round(225 * power_share(4500 * 0.3048, 0.03 / 304.8, 500 * 0.3048))
    198
    """
    return min(1.0, max(0.0, 1.0 - loss_per_metre * (altitude - start)))


def power_shares_by_rule(altitude: float) -> dict[str, float]:
    """Give the share of power left by each of the published rules.

    s = 1 - loss (h - start) with each rule's figures

    Parameters
    ----------
    altitude : float [m]
        Altitude, best the pressure altitude.
    Returns
    -------
    dict of float [1]
        Share left by the name of the rule.
    Validity: the spread between the rules is the message.
    Source: msha_altitude; tm_9_6115_673; portable_set_manual; farm_engines_altitude (read).

    >>> {name: round(share, 2) for name, share in power_shares_by_rule(3200.0).items()}["farm engines"]
    0.7
    """
    return {name: power_share(altitude, loss, start) for name, (start, loss, _) in RULES.items()}


def steepest_and_flattest(altitude: float) -> tuple[float, float]:
    """Give the lowest and the highest share of power that the published rules leave.

    (min, max) of power_shares_by_rule

    Parameters
    ----------
    altitude : float [m]
        Altitude, best the pressure altitude.
    Returns
    -------
    tuple of float [1]
        Lowest and highest share.
    Validity: as the rules.
    Source: msha_altitude; tm_9_6115_673; portable_set_manual; farm_engines_altitude (read).

    >>> [round(share, 2) for share in steepest_and_flattest(3200.0)]
    [0.7, 0.87]
    """
    shares = power_shares_by_rule(altitude).values()
    return min(shares), max(shares)
