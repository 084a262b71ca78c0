"""Calibration on tape readings: how much faster or slower the snow of this trench creeps than its site column says.

The fluidity factor f multiplies every creep rate. Before any reading ln f is normal about zero. The march is run for
a few f; readings and forecasts between them are interpolated over ln f. The posterior is worked out on a grid, so it
is as skew as it is. Where the best fit misses the readings by more than their stated accuracy allows, the accuracy
is widened until it does not, and the result says so.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from firnstead.snow._arrays import Array


@dataclass(frozen=True, eq=False)
class Posterior:
    """Weights of ln f on a grid, the factor by which accuracies were widened, and the number of readings."""

    logarithm: Array
    weight: Array
    widened: float
    readings: int

    def factor(self, share: float) -> float:
        """The fluidity factor below which `share` of the belief lies."""
        return math.exp(quantile(self.logarithm, self.weight, share))

    def band(self, logarithm: Array, table: Array, shares: tuple[float, ...] = (0.05, 0.5, 0.95)) -> Array:
        """Forecast quantities (rows: shares) from runs (rows: ln f, columns: quantities)."""
        values = interpolated(logarithm, table, self.logarithm)
        return np.array([[quantile(column, self.weight, share) for column in values.T] for share in shares])


def posterior_of_fluidity(
    readings: Array, accuracy: Array, logarithm: Array, table: Array, *, spread: float = 0.5, points: int = 801
) -> Posterior:
    """Give what dated tape readings say about the fluidity factor.

    ln p(ln f | readings) = -(ln f)^2/(2 s^2) - sum of [(reading - run(f))/accuracy]^2/2 + constant

    Parameters
    ----------
    readings : array [m]
        Widths and heights as measured.
    accuracy : array [m]
        Standard error of each.
    logarithm : array [1]
        ln f of the runs, rising.
    table : array [m]
        The same widths and heights from the runs: one row for each f.
    spread : float [1]
        Standard deviation of ln f before any reading (own rule: cores at one site differ by 5 to 15 % in depth to 550,
        which is the fourth power of that in k, and forecasts from k alone are not better than this).
    points : int [1]
        Points of the grid.
    Returns
    -------
    Posterior [text]
        The belief about ln f.
    Validity: errors of the readings independent of each other; f within the runs or little beyond.
    Source: textbook_unchecked.

    >>> runs = np.array([[2.0, 1.8], [1.9, 1.6], [1.8, 1.3]])
    >>> found = posterior_of_fluidity(np.array([1.9, 1.6]), np.array([0.01, 0.01]), np.array([-0.7, 0.0, 0.7]), runs)
    >>> round(found.factor(0.5), 2)
    1.0
    """
    reach = max(4.0 * spread, float(logarithm.max()), -float(logarithm.min()))
    grid = np.linspace(-reach, reach, points)
    misses = (readings[None, :] - interpolated(logarithm, table, grid)) / accuracy[None, :]
    squares = np.sum(misses**2, axis=1)
    widened = _widened(float(squares.min()), readings.size)
    belief = -0.5 * (grid / spread) ** 2 - 0.5 * squares / widened**2
    centre = float(grid[np.argmax(belief)])
    sharp = grid[belief > belief.max() - 15.0]
    if sharp.size < 40:  # precise readings: look closer
        half = max(float(sharp.max() - sharp.min()), float(grid[1] - grid[0]))
        grid = np.linspace(centre - half, centre + half, points)
        misses = (readings[None, :] - interpolated(logarithm, table, grid)) / accuracy[None, :]
        belief = -0.5 * (grid / spread) ** 2 - 0.5 * np.sum(misses**2, axis=1) / widened**2
    weight = np.exp(belief - belief.max())
    return Posterior(grid, weight / weight.sum(), widened, readings.size)


def interpolated(logarithm: Array, table: Array, at: Array) -> Array:
    """Give rows of a table between its runs, monotone where the runs are; straight lines beyond them.

    monotone piecewise cubic in ln f

    Parameters
    ----------
    logarithm : array [1]
        ln f of the runs, rising.
    table : array [m]
        One row for each run.
    at : array [1]
        ln f wanted.
    Returns
    -------
    array [m]
        One row for each wanted ln f.
    Validity: at least two runs; beyond the runs only a guess.
    Source: textbook_unchecked.

    >>> interpolated(np.array([0.0, 1.0]), np.array([[2.0], [4.0]]), np.array([0.5, 2.0])).ravel().tolist()
    [3.0, 6.0]
    """
    from scipy.interpolate import PchipInterpolator

    curve = PchipInterpolator(logarithm, table, axis=0)
    inside = np.clip(at, logarithm[0], logarithm[-1])
    slope = curve.derivative()(inside)
    value: Array = curve(inside) + slope * (at - inside)[:, None]
    return value


def quantile(values: Array, weights: Array, share: float) -> float:
    """Give the value below which a share of the weight lies.

    straight line through the middles of the sorted weights

    Parameters
    ----------
    values : array [1]
        Values in any order.
    weights : array [1]
        Their weights, of sum one.
    share : float [1]
        Share.
    Returns
    -------
    float [1]
        Value, in the unit of the values.
    Validity: many points.
    Source: textbook_unchecked.

    >>> quantile(np.array([3.0, 1.0, 2.0]), np.full(3, 1 / 3), 0.5)
    2.0
    """
    order = np.argsort(values)
    sums = np.cumsum(weights[order]) - weights[order] / 2.0
    return float(np.interp(share, sums, values[order]))


def _widened(squares: float, count: int) -> float:
    """Widening of the accuracies: none while the misfit is one of 95 in 100 that honest readings give."""
    free = count - 1
    if free < 1:
        return 1.0
    usual = free * (1.0 - 2.0 / (9.0 * free) + 1.645 * math.sqrt(2.0 / (9.0 * free))) ** 3  # Wilson and Hilferty
    return math.sqrt(squares / free) if squares > usual else 1.0
