"""Gases carried by air through rooms: exact steps of the linear balance, all rooms and gases at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Indices = NDArray[np.intp]
Flags = NDArray[np.bool_]


def exchange_matrix(rooms: int, a: Indices, b: Indices, flow: Array, mass: Array) -> tuple[Array, Array]:
    """Give the balance of a gas in rooms that exchange air.

    m_i dx_i/dt = sum over flows into i of m (x_from - x_i)

    Parameters
    ----------
    rooms : int [1]
        Number of rooms.
    a : array [1]
        Room at one end of each branch, -1 for the outside.
    b : array [1]
        Room at the other end.
    flow : array [kg/s]
        Mass flow from a to b.
    mass : array [kg]
        Air in each room.
    Returns
    -------
    array [1/s]
        Matrix K of x' = K x + k x_outside + g.
    array [1/s]
        Vector k for the outside.
    Validity: mixed air in each room; a room's air does not change in mass, so what leaves it is what came in.
    Source: statics, balance of the gas.

    >>> one = np.array([0])
    >>> exchange_matrix(1, np.array([-1]), one, np.array([0.5]), np.array([100.0]))[0].tolist()
    [[-0.005]]
    """
    source, target = np.where(flow > 0, a, b), np.where(flow > 0, b, a)
    size = np.abs(flow)
    full = np.zeros((rooms, rooms + 1))  # the last column is the outside, which -1 points to
    into = target >= 0
    rate = size[into] / mass[target[into]]
    np.add.at(full, (target[into], source[into]), rate)
    np.add.at(full, (target[into], target[into]), -rate)
    return full[:, :rooms], full[:, rooms]


def steady_shares(matrix: Array, outside: Array, shares_outside: Array, given_off: Array, reached: Flags) -> Array:
    """Give the shares that the rooms come to in the long run.

    K x = -(k x_outside + g); infinite in rooms that no outside air reaches and where gas is given off

    Parameters
    ----------
    matrix : array [1/s]
        Matrix K.
    outside : array [1/s]
        Vector k.
    shares_outside : array [1]
        Share of each gas outside.
    given_off : array [1/s]
        Gas g given off in each room for each amount of air in it, one column for each gas.
    reached : array [1]
        Which rooms outside air reaches.
    Returns
    -------
    array [1]
        Share in each room, one column for each gas.
    Validity: as exchange_matrix.
    Source: statics, balance of the gas.

    >>> one = np.ones(1)
    >>> steady_shares(-0.005 * np.ones((1, 1)), 0.005 * one, 4e-4 * one, np.array([[5e-6]]), one > 0).round(6).tolist()
    [[0.0014]]
    """
    from scipy.sparse import csc_matrix
    from scipy.sparse.linalg import splu

    shares = np.full(given_off.shape, np.inf)
    if not given_off[~reached].any():
        shares[~reached] = shares_outside
    else:
        quiet = ~(given_off[~reached].any(axis=0))
        shares[np.ix_(~reached, quiet)] = shares_outside[quiet]
    inside = np.flatnonzero(reached)
    if inside.size:
        right = -(outside[inside, None] * shares_outside + given_off[inside])
        shares[inside] = splu(csc_matrix(matrix[np.ix_(inside, inside)])).solve(right)
    return shares


def carried(matrix: Array, start: Array, source: Array, time: float, *, part: float = 200.0,
            least: float = 1e-13) -> tuple[Array, Array]:  # fmt: skip
    """Give what a time makes of shares in rooms, and what it makes of a steady source, by sums of non-negative terms.

    exp(K t) X = sum over k of exp(-l t) (l t)^k/k! P^k X, P = 1 + K/l, l the fastest room's rate

    Parameters
    ----------
    matrix : array [1/s]
        Matrix K of exchange_matrix.
    start : array [1]
        Shares X at the start, any number of columns.
    source : array [1/s]
        Sources S, any number of columns.
    time : float [s]
        Time t.
    part : float [1]
        Longest time that is done at once, as l t.
    least : float [1]
        Share of the sum that may be left off.
    Returns
    -------
    array [1]
        exp(K t) X.
    array [1]
        Integral over the time of exp(K s) S.
    Validity: as exchange_matrix; nothing in it can fall below 0.
    Source: textbook_unchecked, uniformisation of a linear balance; compared with an integrator in the tests.

    >>> left, made = carried(np.array([[-0.01]]), np.ones((1, 1)), np.ones((1, 1)), 100.0)
    >>> round(float(left[0, 0]), 4), round(float(made[0, 0]), 2)
    (0.3679, 63.21)
    """
    from scipy.sparse import csr_matrix, identity

    rooms = len(matrix)
    rate = float(-np.diag(matrix).min(initial=0.0))
    if rate <= 0:
        return start, source * time
    parts = max(1, int(np.ceil(rate * time / part)))
    mean = rate * time / parts
    turn = identity(rooms, format="csr") + csr_matrix(matrix) / rate
    wide = start.shape[1]
    shares, made = start, np.zeros_like(source)
    for _ in range(parts):
        power = np.hstack([shares, made, source])
        weight = float(np.exp(-mean))
        tail = 1.0 - weight
        kept = weight * power[:, : -source.shape[1]]
        added = tail / rate * power[:, -source.shape[1] :]
        k = 0
        while tail > least and k < 10_000:
            k += 1
            power = turn @ power
            weight *= mean / k
            tail = max(0.0, tail - weight)
            kept = kept + weight * power[:, : -source.shape[1]]
            added = added + tail / rate * power[:, -source.shape[1] :]
            if k > mean and weight < least * 1e-3:
                break
        shares, made = kept[:, :wide], kept[:, wide:] + added
    return shares, made


def shares_in_time(
    matrix: Array, outside: Array, shares_outside: Array, start: Array, given_off: Array, running: Array, step: float
) -> Array:
    """Give the shares of gases in rooms at equal steps of time; exact while sources stay the same within a step.

    x(t + h) = exp(K h) x(t) + integral of exp(K s) ds (k x_outside + g)

    Parameters
    ----------
    matrix : array [1/s]
        Matrix K.
    outside : array [1/s]
        Vector k.
    shares_outside : array [1]
        Share of each gas outside.
    start : array [1]
        Share in each room at the start, one column for each gas.
    given_off : array [1/s]
        Gas g given off, for each source a slice of rooms by gases.
    running : array [1]
        For each step and each source the share of the step that it runs.
    step : float [s]
        Length h of a step.
    Returns
    -------
    array [1]
        Shares by step (the start is the first), room and gas.
    Validity: flows do not change; as exchange_matrix.
    Source: statics, exact solution of the linear balance.

    >>> k, none = np.array([[-0.01]]), np.zeros(1)
    >>> made = shares_in_time(k, none, none, np.ones((1, 1)), np.zeros((0, 1, 1)), np.zeros((2, 0)), 100.0)
    >>> made[:, 0, 0].round(4).tolist()
    [1.0, 0.3679, 0.1353]
    """
    rooms, gases = start.shape
    columns = np.concatenate([outside[:, None] * shares_outside, *given_off], axis=1)
    carry, brought = carried(matrix, np.eye(rooms), columns, step)
    base, parts = brought[:, :gases], brought[:, gases:].reshape(rooms, len(given_off), gases)
    shares = np.empty((len(running) + 1, rooms, gases))
    shares[0] = start
    for i, now in enumerate(running):
        shares[i + 1] = carry @ shares[i] + base + np.einsum("rsg,s->rg", parts, now)
    return shares


def highest_mean(series: Array, step: float, over: float) -> Array:
    """Give the highest mean over a time of values that are taken at equal steps.

    max of the running mean by the trapezoidal rule; over the whole series where it is shorter

    Parameters
    ----------
    series : array [1]
        Values by step, the first axis is time.
    step : float [s]
        Length of a step.
    over : float [s]
        Time of the mean; 0 for the highest value.
    Returns
    -------
    array [1]
        Highest mean.
    Validity: steps much shorter than the time.
    Source: statics.

    >>> highest_mean(np.array([0.0, 2.0, 4.0]), 1.0, 1.0).tolist()
    3.0
    """
    window = min(round(over / step), len(series) - 1)
    if window <= 0:
        return np.asarray(series.max(axis=0))
    cumulative = np.concatenate([np.zeros_like(series[:1]), np.cumsum((series[1:] + series[:-1]) / 2, axis=0)])
    return np.asarray(((cumulative[window:] - cumulative[:-window]) / window).max(axis=0))
