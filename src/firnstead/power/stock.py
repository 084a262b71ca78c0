"""How long fuel lasts, and how many drums of cable it takes."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, inf

MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
DAY = 86400.0


def time_of_stock(stock: float, burnt: Sequence[float], start: int) -> float:
    """Give the time until a stock is burnt, month after month from the first day of a month on.

    whole months are taken off; the last one in proportion

    Parameters
    ----------
    stock : float [kg]
        Stock at the start.
    burnt : sequence of 12 float [kg]
        Burnt in each month of the year, January first.
    start : int [1]
        Month in which it starts, January 0.
    Returns
    -------
    float [s]
        Time; infinite where nothing is burnt.
    Validity: every year alike.
    Source: statics, sum of months.

    >>> time_of_stock(150.0, [100.0] * 12, 0) / 86400
    45.0
    """
    year = sum(burnt)
    if year <= 0:
        return inf
    years = floor(stock / year * (1 - 1e-12))
    left, days = stock - years * year, 365.0 * years
    for i in range(12):
        month = (start + i) % 12
        if left < burnt[month]:
            return (days + MONTH_DAYS[month] * left / burnt[month]) * DAY
        left, days = left - burnt[month], days + MONTH_DAYS[month]
    return days * DAY


def burnt_in(time: float, burnt: Sequence[float], start: int) -> float:
    """Give what is burnt in a time from the first day of a month on.

    whole months are added; the last one in proportion

    Parameters
    ----------
    time : float [s]
        Time.
    burnt : sequence of 12 float [kg]
        Burnt in each month of the year, January first.
    start : int [1]
        Month in which it starts, January 0.
    Returns
    -------
    float [kg]
        Burnt.
    Validity: every year alike.
    Source: statics, sum of months.

    >>> burnt_in(45 * 86400.0, [100.0] * 12, 0)
    150.0
    """
    days = time / DAY
    years = floor(days / 365.0)
    total, left, month = years * sum(burnt), days - 365.0 * years, start
    while left > 0:
        here = min(left, MONTH_DAYS[month])
        total, left, month = total + burnt[month] * here / MONTH_DAYS[month], left - here, (month + 1) % 12
    return total


def drums_needed(lengths: Sequence[float], drum: float) -> int:
    """Give the drums from which all lengths are cut, the longest first, each from the first drum that still holds it.

    a length above a drum takes whole drums and a joint for each, then its rest

    Parameters
    ----------
    lengths : sequence of float [m]
        Lengths to cut.
    drum : float [m]
        Length on a drum, above 0.
    Returns
    -------
    int [1]
        Drums.
    Validity: at most a fifth or so above the fewest possible.
    Source: own_rule.

    >>> drums_needed([60.0, 60.0, 40.0, 40.0, 250.0], 100.0)
    5
    """
    whole = sum(floor(length / drum) for length in lengths)
    free: list[float] = []
    for length in sorted((length % drum for length in lengths), reverse=True):
        if length <= 1e-9:
            continue
        at = next((i for i, left in enumerate(free) if left >= length - 1e-9), None)
        if at is None:
            free.append(drum - length)
        else:
            free[at] -= length
    return whole + len(free)


def containers_needed(volume: float, each: float) -> int:
    """Give the containers that hold a volume.

    n = V/v, rounded up

    Parameters
    ----------
    volume : float [m3]
        Volume V.
    each : float [m3]
        What one holds, v.
    Returns
    -------
    int [1]
        Containers.
    Validity: filled to what one holds.
    Source: statics.

    >>> containers_needed(10.0, 0.2)
    50
    """
    return ceil(volume / each - 1e-9)
