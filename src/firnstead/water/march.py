"""A stiff ordinary differential equation of two unknowns, stepped with error control: no package to load for it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

Vector = list[float]
Slopes = tuple[Vector, Vector, Vector]
Rates = Callable[[float, Sequence[float]], Vector]
Event = Callable[[float, Sequence[float]], float]


@dataclass(frozen=True)
class Reached:
    """Where a march ended: time, state, the event that ended it (none: the end of the time), next step to try."""

    time: float
    state: tuple[float, ...]
    event: int | None
    step: float
    steps: int


def march(
    rates: Rates, start: float, state: Sequence[float], end: float, *, tolerance: float, floors: tuple[float, float],
    step: float, events: Sequence[Event] = (), drifts: bool = True, third: float = 0.0,
    most: int = 20000,
) -> Reached:  # fmt: skip
    """March a stiff system of two unknowns over a time, or until an event function rises through zero.

    Rosenbrock method of order 3(2), four stages, stiffly accurate (Rodas3); slopes by differences

    Parameters
    ----------
    rates : callable [unit of the state per s]
        Right-hand side f(t, y).
    start : float [s]
        Start time.
    state : sequence of float [unit of the state]
        Start state: the two unknowns that act back, then sums that hardly do or do not.
    end : float [s]
        End time.
    tolerance : float [1]
        Relative tolerance of a step.
    floors : tuple of float [unit of the state]
        Absolute tolerance of the two unknowns.
    step : float [s]
        First step to try.
    events : sequence of callable [1]
        Functions g(t, y) that are negative to start with.
    drifts : bool [1]
        Whether the right-hand side changes with time by itself.
    third : float [1/s]
        Slope of the third rate in the third unknown, on which the first two do not depend.
    most : int [1]
        Greatest number of steps.
    Returns
    -------
    Reached [Reached]
        Time, state, event.
    Validity: right-hand side smooth between start and end, or with kinks only; order measured in the tests.
    Source: sandu_1997, Rodas3 (from memory, reproduced by computation).

    >>> gone = march(lambda t, y: [-1000.0 * (y[0] - 1.0), -y[1]], 0.0, [0.0, 1.0], 1.0, tolerance=1e-6,
    ...              floors=(1e-9, 1e-9), step=1e-3)
    >>> round(gone.state[0], 6), round(gone.state[1], 4), gone.event
    (1.0, 0.3679, None)
    """
    time, y, count = start, list(state), 0
    f = rates(time, y)
    before = [event(time, y) for event in events]
    slopes: Slopes | None = None
    while time < end - 1e-9 * max(abs(end), 1.0):
        count += 1
        if count > most:
            raise ArithmeticError("the march does not get on: the step shrinks to nothing")
        last = time + step * (1.0 + 1e-9) >= end
        h = end - time if last else step
        if slopes is None:
            slopes = _slopes(rates, time, y, f, floors, h, drifts)
        fresh, error = _step(rates, time, y, f, h, slopes, tolerance, floors, third)
        factor = min(5.0, max(0.2, 0.9 * error ** (-1.0 / 3.0))) if error > 0.0 else 5.0
        if error > 1.0:
            step = h * factor
            continue
        f_new = rates(time + h, fresh)
        after = [event(time + h, fresh) for event in events]
        crossed = [i for i, (a, b) in enumerate(zip(before, after, strict=True)) if a < 0.0 <= b]
        if crossed:
            share, first = min((_crossing(events[i], time, h, y, f, fresh, f_new), i) for i in crossed)
            at = _between(share, h, y, f, fresh, f_new)
            return Reached(time + share * h, tuple(at), first, h * factor, count)
        time, y, f, before, slopes = time + h, fresh, f_new, after, None
        step = max(step, h * factor) if last else h * factor
    return Reached(time, tuple(y), None, step, count)


def _slopes(
    rates: Rates, time: float, y: Vector, f: Vector, floors: tuple[float, float], h: float, drifts: bool
) -> Slopes:  # fmt: skip
    """Slopes of all rates in the first unknown, in the second, and in time."""
    columns = []
    for j in (0, 1):
        change = 1e-7 * max(abs(y[j]), 10.0 * floors[j])
        moved = list(y)
        moved[j] += change
        columns.append([(b - a) / change for a, b in zip(f, rates(time, moved), strict=True)])
    if not drifts:
        return columns[0], columns[1], [0.0] * len(y)
    ahead = 1e-4 * h
    return columns[0], columns[1], [(b - a) / ahead for a, b in zip(f, rates(time + ahead, y), strict=True)]


def _step(
    rates: Rates, time: float, y: Vector, f: Vector, h: float, slopes: Slopes, tolerance: float,
    floors: tuple[float, float], third: float = 0.0,
) -> tuple[Vector, float]:  # fmt: skip
    first, second, drift = slopes
    d = 2.0 / h  # 1/(h gamma), gamma = 1/2
    a, b, c, e = d - first[0], -second[0], -first[1], d - second[1]
    whole = a * e - b * c
    g1, g2, per_h = 0.5 * h, 1.5 * h, 1.0 / h

    def solve(r: Vector) -> Vector:
        """(1/(h gamma) - J) k = r: two unknowns by Cramer's rule, then the sums."""
        k0, k1 = (r[0] * e - b * r[1]) / whole, (a * r[1] - c * r[0]) / whole
        k = [(v + p * k0 + q * k1) / d for v, p, q in zip(r, first, second, strict=True)]
        k[:2] = k0, k1
        k[2:3] = [each * d / (d - third) for each in k[2:3]]
        return k

    k1 = solve([u + g1 * v for u, v in zip(f, drift, strict=True)])
    k2 = solve([u + 4.0 * per_h * p + g2 * v for u, p, v in zip(f, k1, drift, strict=True)])
    g = rates(time + h, [u + 2.0 * p for u, p in zip(y, k1, strict=True)])
    k3 = solve([u + per_h * (p - q) for u, p, q in zip(g, k1, k2, strict=True)])
    near = [u + 2.0 * p + q for u, p, q in zip(y, k1, k3, strict=True)]
    g = rates(time + h, near)
    share = 8.0 / 3.0
    k4 = solve([u + per_h * (p - q - share * v) for u, p, q, v in zip(g, k1, k2, k3, strict=True)])
    fresh = [u + p for u, p in zip(near, k4, strict=True)]
    # the fourth stage is the difference from the embedded second order
    error = max(abs(k4[i]) / (floors[i] + tolerance * max(abs(y[i]), abs(fresh[i]))) for i in (0, 1))
    return fresh, error if error == error else float("inf")


def _between(share: float, h: float, y: Vector, f: Vector, fresh: Vector, f_new: Vector) -> Vector:
    """The state at a share of a step, by the cubic through both ends."""
    s, r = share, 1.0 - share
    return [r * r * (1 + 2 * s) * a + s * s * (3 - 2 * s) * b + h * s * r * (r * fa - s * fb)
            for a, b, fa, fb in zip(y, fresh, f, f_new, strict=True)]  # fmt: skip


def _crossing(event: Event, time: float, h: float, y: Vector, f: Vector, fresh: Vector, f_new: Vector) -> float:
    """The share of the step at which an event function rises through zero."""
    low, high = 0.0, 1.0
    for _ in range(40):
        middle = 0.5 * (low + high)
        if event(time + middle * h, _between(middle, h, y, f, fresh, f_new)) < 0.0:
            low = middle
        else:
            high = middle
    return high
