"""One room whose air is well mixed: how a gas builds up, how much air holds it down, how long until a limit."""

from __future__ import annotations

from math import exp, inf, log


def share_mixed(time: float, volume: float, flow: float, given_off: float, supplied: float, start: float) -> float:
    """Give the share of a gas in a well-mixed room after a time.

    C = Co + G/Q + (Ci - Co - G/Q) exp(-Q t/V); without fresh air C = Ci + G t/V

    Parameters
    ----------
    time : float [s]
        Time t.
    volume : float [m3]
        Air V in the room.
    flow : float [m3/s]
        Fresh air Q.
    given_off : float [m3/s]
        Gas G given off, as volume at the room's pressure and temperature.
    supplied : float [1]
        Share Co in the fresh air.
    start : float [1]
        Share Ci at the start.
    Returns
    -------
    float [1]
        Share C of the gas.
    Validity: mixed air, gas given off is little against the fresh air, all volumes at one pressure and temperature.
    Source: statics, balance of the gas.

    >>> round(share_mixed(5580.0, 3.0, 0.0, 0.31e-3 / 60, 4e-4, 4e-4), 4)
    0.01
    """
    if flow == 0:
        return start + given_off * time / volume
    end = supplied + given_off / flow
    return end + (start - end) * exp(-flow * time / volume)


def share_steady(flow: float, given_off: float, supplied: float, mixing: float = 1.0) -> float:
    """Give the share of a gas that a room comes to in the long run.

    C = Co + K G/Q

    Parameters
    ----------
    flow : float [m3/s]
        Fresh air Q.
    given_off : float [m3/s]
        Gas G given off.
    supplied : float [1]
        Share Co in the fresh air.
    mixing : float [1]
        Factor K for poor mixing: 1 where the air is mixed, 3 to 10 in pockets.
    Returns
    -------
    float [1]
        Share C of the gas; infinite without fresh air.
    Validity: steady; as share_mixed.
    Source: abulencia_theodore, ex. 20.2 (read second-hand).

    >>> share_steady(0.01, 5e-6, 4e-4)
    0.0009
    """
    if given_off == 0:
        return supplied
    return supplied + mixing * given_off / flow if flow > 0 else inf


def flow_needed(given_off: float, limit: float, supplied: float, mixing: float = 1.0) -> float:
    """Give the fresh air that keeps a gas at its limit.

    Q = K G/(C - Co)

    Parameters
    ----------
    given_off : float [m3/s]
        Gas G given off.
    limit : float [1]
        Share C that is allowed.
    supplied : float [1]
        Share Co in the fresh air.
    mixing : float [1]
        Factor K for poor mixing: 1 where the air is mixed, 3 to 10 in pockets.
    Returns
    -------
    float [m3/s]
        Fresh air; infinite where it holds the limit itself.
    Validity: steady; as share_mixed.
    Source: abulencia_theodore, ex. 20.2 (read second-hand).

    >>> round(1000 * flow_needed(0.31e-3 / 60, 7e-4, 0.0), 2)
    7.38
    """
    if given_off <= 0:
        return 0.0
    return mixing * given_off / (limit - supplied) if limit > supplied else inf


def time_to_share(volume: float, flow: float, given_off: float, supplied: float, start: float, limit: float) -> float:
    """Give the time until a gas that builds up in a well-mixed room reaches a limit.

    t = V/Q ln((G - Q C1)/(G - Q C2)), C1 and C2 above Co; without fresh air t = V (C2 - C1)/G

    Parameters
    ----------
    volume : float [m3]
        Air V in the room.
    flow : float [m3/s]
        Fresh air Q.
    given_off : float [m3/s]
        Gas G given off.
    supplied : float [1]
        Share Co in the fresh air.
    start : float [1]
        Share at the start.
    limit : float [1]
        Share that is waited for.
    Returns
    -------
    float [s]
        Time; 0 where it is passed at the start, infinite where it is never reached.
    Validity: as share_mixed.
    Source: statics, balance of the gas.

    >>> round(time_to_share(3.0, 0.0, 0.31e-3 / 60, 4e-4, 4e-4, 0.01) / 3600, 2)
    1.55
    """
    if start >= limit:
        return 0.0
    if given_off <= 0 and (flow == 0 or supplied < limit):
        return inf
    if flow == 0:
        return volume * (limit - start) / given_off
    first, last = given_off - flow * (start - supplied), given_off - flow * (limit - supplied)
    return volume / flow * log(first / last) if last > 0 else inf


def time_to_oxygen(volume: float, oxygen_used: float, limit: float, *, fresh: float = 0.2095) -> float:
    """Give the time until the oxygen of a closed room has fallen to a limit.

    t = V (0.2095 - s)/G

    Parameters
    ----------
    volume : float [m3]
        Air V in the room.
    oxygen_used : float [m3/s]
        Oxygen G that the people in it use.
    limit : float [1]
        Share s of oxygen that is waited for.
    fresh : float [1]
        Share of oxygen at the start.
    Returns
    -------
    float [s]
        Time; infinite with nobody in it.
    Validity: closed room, mixed air; the loss of volume is neglected.
    Source: statics, balance of the gas.

    >>> round(time_to_oxygen(3.0, 0.31e-3 / 60 / 0.85, 0.195) / 3600, 1)
    2.0
    """
    return volume * (fresh - limit) / oxygen_used if oxygen_used > 0 else inf


def vapour_volume(
    liquid: float, density: float, molar_mass: float, temperature: float, pressure: float = 101325.0,
    *, gas_constant: float = 8.314462618,
) -> float:  # fmt: skip
    """Give the volume of vapour that a liquid makes as it evaporates.

    G = q rho R T/(M p)

    Parameters
    ----------
    liquid : float [m3/s]
        Liquid q that evaporates.
    density : float [kg/m3]
        Density rho of the liquid.
    molar_mass : float [kg/mol]
        Molar mass M.
    temperature : float [K]
        Air temperature T.
    pressure : float [Pa]
        Air pressure p.
    gas_constant : float [J/(mol K)]
        Gas constant R.
    Returns
    -------
    float [m3/s]
        Vapour.
    Validity: ideal gas; all of the liquid evaporates.
    Source: abulencia_theodore, ex. 20.2 (read second-hand).

    >>> round(60e3 * vapour_volume(0.4 * 0.375 * 3.785412e-3 / 3600, 870.0, 0.092, 293.0), 3)
    2.152
    """
    return liquid * density * gas_constant * temperature / (molar_mass * pressure)
