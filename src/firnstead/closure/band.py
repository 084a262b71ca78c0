"""The band of a forecast: the same trench with each doubtful input at its low and its high value.

Exponent: linear and cubic are both right somewhere in the range of trench stress, so the band holds both in full. k,
temperature and density are independent doubts: their effects on the logarithm of the loss add in the square. Between
the runs nothing else is solved. The effects are the sensitivities: which input to measure, or to change, first.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from firnstead.snow._arrays import Array

SMALLEST = 1e-6  # m; a loss below this is no loss


@dataclass(frozen=True, eq=False)
class Doubt:
    """Losses [m] with one input at its low and its high value; `bound`: both are equally possible, not a spread."""

    name: str
    low: Array
    high: Array
    bound: bool = False


@dataclass(frozen=True, eq=False)
class Band:
    """Least, expected and greatest loss [m] of each quantity, and effects ln(high/low)/2 of the last, largest first."""

    least: Array
    expected: Array
    greatest: Array
    effects: tuple[tuple[str, float], ...]


def band_of_losses(base: Array, doubts: tuple[Doubt, ...]) -> Band:
    """Give the band of losses of width or height from runs with one input changed at a time.

    ln greatest = ln base + bounds above + sqrt(sum of [ln(high/base)]^2), and the same below

    Parameters
    ----------
    base : array [m]
        Losses with every input as expected, one for each quantity and date.
    doubts : tuple of Doubt [text]
        The runs.
    Returns
    -------
    Band [m]
        The band.
    Validity: effects that multiply; a void that is not yet nearly closed.
    Source: own_rule.

    >>> one = Doubt("k", np.array([0.8]), np.array([1.25]))
    >>> two = Doubt("exponent", np.array([1.0]), np.array([2.0]), bound=True)
    >>> band = band_of_losses(np.ones(1), (one, two))
    >>> [round(float(x[0]), 2) for x in (band.least, band.expected, band.greatest)]
    [0.8, 1.0, 2.5]
    """
    middle = _logarithm(base)
    up, down = np.zeros_like(base), np.zeros_like(base)
    bound_up, bound_down = np.zeros_like(base), np.zeros_like(base)
    effects = []
    for doubt in doubts:
        ends = np.array([_logarithm(doubt.low), _logarithm(doubt.high)]) - middle
        rise, fall = np.maximum(ends.max(axis=0), 0.0), np.maximum(-ends.min(axis=0), 0.0)
        if doubt.bound:
            bound_up, bound_down = bound_up + rise, bound_down + fall
        else:
            up, down = up + rise**2, down + fall**2
        effects.append((doubt.name, float((ends[1] - ends[0]).flat[-1]) / 2.0))
    greatest, least = np.exp(middle + bound_up + np.sqrt(up)), np.exp(middle - bound_down - np.sqrt(down))
    ordered = tuple(sorted(effects, key=lambda pair: -abs(pair[1])))
    return Band(least, np.asarray(base, dtype=np.float64), greatest, ordered)


def effect_in_words(effect: float) -> str:
    """Give what a doubt does to the loss, for a reader.

    half of ln(high/low) as a share of the loss either way

    Parameters
    ----------
    effect : float [1]
        Effect from a Band.
    Returns
    -------
    str [text]
        Words.
    Validity: any.
    Source: own_rule.

    >>> effect_in_words(0.2), effect_in_words(-0.7)
    ('22 % either way', '101 % either way (the other way round)')
    """
    share = f"{100.0 * (math.exp(abs(effect)) - 1.0):.0f} % either way"
    return share if effect >= 0.0 else share + " (the other way round)"


def _logarithm(loss: Array) -> Array:
    return np.asarray(np.log(np.maximum(loss, SMALLEST)), dtype=np.float64)
