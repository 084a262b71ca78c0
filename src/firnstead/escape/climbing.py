"""Ladders: what one climb takes and what a queue takes, from trials on the spot."""

from __future__ import annotations


def ladder_queue(people: float, interval: float) -> float:
    """Give the time in which all come out of one hatch, one after the other.

    t_q = P t_i

    Parameters
    ----------
    people : float [1]
        Persons P.
    interval : float [s]
        Time between one person and the next, measured, t_i.
    Returns
    -------
    float [s]
        Time.
    Validity: as the trial: the same clothes, ladder, height and altitude. No flow for ladders was found in print.
    Source: statics.

    >>> ladder_queue(10, 15.0)
    150.0
    """
    return people * interval


def ladder_climb(height: float, speed: float) -> float:
    """Give the time that one person climbs.

    t_c = h/v

    Parameters
    ----------
    height : float [m]
        Height of the climb h.
    speed : float [m/s]
        Measured speed v.
    Returns
    -------
    float [s]
        Time.
    Validity: as the trial; a longer ladder than the trial's tires people and needs a landing.
    Source: statics.

    >>> ladder_climb(9.0, 0.3)
    30.0
    """
    return height / speed


def climbing_rate_halder(
    uptake: float, share: float, *, base: float = -21.7727, per_uptake: float = 0.4024, per_share: float = 0.2658
) -> float:
    """Give the greatest rate of climb on long stairs that fitness allows.

    h = -21.7727 + 0.4024 VO2max + 0.2658 %VO2max, in m/min

    Parameters
    ----------
    uptake : float [mL/kg/min]
        Greatest oxygen uptake of the person.
    share : float [%]
        Share of it that is kept up, per cent.
    base : float [m/min]
        Constant.
    per_uptake : float [m/min]
        Coefficient of the uptake.
    per_share : float [m/min]
        Coefficient of the share.
    Returns
    -------
    float [m/s]
        Rate of climb.
    Validity: stairs at sea level, 25 persons; not ladders, not thin air, not cold-weather clothes.
    Source: halder_kuklane_2016, regression of the maximum vertical rate (read).

    >>> round(climbing_rate_halder(45.0, 80.0), 3)
    0.293
    """
    return max(0.0, base + per_uptake * uptake + per_share * share) / 60.0
