"""Relevelling: tolerance at handing over, dates, height to raise, shims to carry."""

from __future__ import annotations

from math import ceil, floor, inf

from firnstead.core.units import YEAR

TOLERANCE_SHARE = 0.4  # of the relevel limit that handing over may use up (own rule)


def levelling_tolerance(limit: float, distance: float, share: float = TOLERANCE_SHARE) -> float:
    """Give the difference in level that may be left between neighbouring footings at handing over.

    d_0 = c b s

    Parameters
    ----------
    limit : float [1]
        Angular distortion b at which the building is relevelled.
    distance : float [m]
        Distance s between their middles.
    share : float [1]
        Share c of the limit that may be used up on the first day.
    Returns
    -------
    float [m]
        Tolerance.
    Validity: measured between all neighbours, on the loaded floor.
    Source: own_rule.

    >>> round(levelling_tolerance(1 / 300, 1.5), 5)
    0.002
    """
    return share * limit * distance


def relevel_step(time_to_limit: float) -> float:
    """Give the time between planned relevellings.

    whole years, rounded down, where the limit comes after a year or more; else the time itself

    Parameters
    ----------
    time_to_limit : float [s]
        Time until the limit is reached.
    Returns
    -------
    float [s]
        Step; infinite where the limit is never reached.
    Validity: work is done in the yearly season.
    Source: own_rule.

    >>> relevel_step(2.7 * YEAR) / YEAR, relevel_step(0.4 * YEAR) / YEAR
    (2.0, 0.4)
    """
    if time_to_limit == inf or time_to_limit < YEAR:
        return time_to_limit
    return floor(time_to_limit / YEAR + 1e-9) * YEAR


def relevel_count(life: float, step: float) -> int:
    """Give the number of relevellings within the design life.

    n = life/step, rounded up, less one

    Parameters
    ----------
    life : float [s]
        Design life.
    step : float [s]
        Time between relevellings.
    Returns
    -------
    int [1]
        Relevellings; none where the step is no shorter than the life.
    Validity: step above 0.
    Source: statics.

    >>> relevel_count(10 * YEAR, 2 * YEAR), relevel_count(10 * YEAR, 20 * YEAR)
    (4, 0)
    """
    return 0 if step >= life else ceil(life / step - 1e-9) - 1


def raise_needed(rate: float, slowest: float, spread: float, time: float) -> float:
    """Give how far a footing must be raised to come level with the one that settles slowest.

    u = (s' (1 + a) - s'_min) t, at least 0

    Parameters
    ----------
    rate : float [m/s]
        Rate s' of the footing's row.
    slowest : float [m/s]
        Rate s'_min of the slowest row.
    spread : float [1]
        How much faster than its row it may settle, a.
    time : float [s]
        Time t.
    Returns
    -------
    float [m]
        Height.
    Validity: nothing is lowered again.
    Source: statics.

    >>> round(raise_needed(3e-10, 2e-10, 0.5, 1e8), 4)
    0.025
    """
    return max(0.0, (rate * (1 + spread) - slowest) * time)


def shims_needed(height: float, thickness: float) -> int:
    """Give the shims under one post.

    n = u/t, rounded up

    Parameters
    ----------
    height : float [m]
        Height u to raise over the design life.
    thickness : float [m]
        Thickness t of a shim.
    Returns
    -------
    int [1]
        Whole shims.
    Validity: one thickness of shim.
    Source: statics.

    >>> shims_needed(0.047, 0.01)
    5
    """
    return ceil(height / thickness - 1e-9)
