"""Voltages in a radial network that carries loads of constant power."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Complex = NDArray[np.complex128]


@dataclass(frozen=True, eq=False)
class Flow:
    """Voltages of the boards [V] and currents of the feeders into them [A sqrt(3)], by board and case; rounds made."""

    voltage: Complex
    current: Complex
    rounds: int
    converged: bool


def _ladder(parents: Sequence[int], impedance: Complex, currents: Complex) -> tuple[Complex, Complex]:
    """Drop to every board and current of the feeder into it; plain sums, so that threads of a library cost nothing."""
    carried: Complex = currents.astype(complex)
    drop: Complex = np.zeros_like(carried)
    for board in range(len(parents) - 1, 0, -1):
        carried[parents[board]] += carried[board]
    for board in range(1, len(parents)):
        drop[board] = drop[parents[board]] + impedance[board] * carried[board]
    return drop, carried


def drop_of_currents(parents: Sequence[int], impedance: Complex, currents: Complex) -> Complex:
    """Give the exact voltage drop to every board for given currents, all referred to one phase angle.

    u_i = sum over the way of z_j J_j, J_j = sum of the currents behind feeder j

    Parameters
    ----------
    parents : sequence of int [1]
        Board that feeds each board, listed before it; -1 for the root, which is board 0.
    impedance : array of complex [ohm]
        Impedance z of the feeder into each board; 0 for the root.
    currents : array of complex [A]
        Current drawn at each board, by board and, where there is a second axis, by case.
    Returns
    -------
    array of complex [V]
        Drop from the root.
    Validity: currents given at the phase angle of one common voltage.
    Source: mehta_mehta, ch. 14 (read second-hand).

    >>> z = np.array([0, 0.04 + 0.02j, 0.02 + 0.01j])
    >>> i = np.array([0, 100 * (0.707 - 0.707j), 200 * (0.8 - 0.6j)])
    >>> round(float(abs(drop_of_currents([-1, 0, 1], z, i)[-1])), 2)
    17.85
    """
    return _ladder(parents, impedance, currents)[0]


def sweep(
    parents: Sequence[int], impedance: Complex, power: Complex, source: float, *, tolerance: float = 1e-12,
    most: int = 100,
) -> Flow:  # fmt: skip
    """Give the voltages of a radial network whose loads draw constant power, by turns of currents and drops.

    J = conj(S/V), V = V_0 - u(J), again until V stays

    Parameters
    ----------
    parents : sequence of int [1]
        Board that feeds each board, listed before it; -1 for the root, which is board 0.
    impedance : array of complex [ohm]
        Impedance of the feeder into each board, referred to the voltage of the source; 0 for the root.
    power : array of complex [W]
        Power P + jQ drawn at each board, all three phases, by board and case.
    source : float [V]
        Voltage at the root, line to line.
    tolerance : float [1]
        Change of voltage, as a share of the source's, below which it stops.
    most : int [1]
        Most rounds; reached, the load is more than the network can carry.
    Returns
    -------
    Flow [V]
        Voltages, currents (times sqrt(3)) and whether it came to rest; if not, figures at the source's voltage.
    Validity: lines evenly loaded, frequency constant, charging of cables left out.
    Source: statics, radial network.

    >>> flow = sweep([-1, 0], np.array([0, 0.1 + 0j]), np.array([[0], [10e3 + 0j]]), 400.0)
    >>> round(float(abs(flow.voltage[1, 0])), 3), flow.converged
    (397.484, True)
    """
    voltage: Complex = np.full(power.shape, source, dtype=complex)
    for rounds in range(1, most + 1):
        drop, current = _ladder(parents, impedance, np.conj(power / voltage))
        new = source - drop
        change, voltage = float(np.max(np.abs(new - voltage), initial=0.0)), new
        if change <= tolerance * source:
            return Flow(voltage, current, rounds, True)
        if not np.all(np.abs(voltage) > 0.1 * source):
            break
    drop, current = _ladder(parents, impedance, np.conj(power / source))
    return Flow(source - drop, current, rounds, False)  # finite figures, marked as not found


def loss_of_feeder(current: NDArray[np.float64], resistance: NDArray[np.float64]) -> NDArray[np.float64]:
    """Give the power lost in feeders.

    P = R J^2, J the line current times sqrt(3)

    Parameters
    ----------
    current : array [A]
        Line current times sqrt(3).
    resistance : array [ohm]
        Resistance of one conductor of the feeder, referred to the voltage of the source.
    Returns
    -------
    array [W]
        Loss in all conductors.
    Validity: three lines alike; for one phase the resistance counts six times.
    Source: statics.

    >>> float(loss_of_feeder(np.array(10.0), np.array(0.5)))
    50.0
    """
    lost: NDArray[np.float64] = resistance * current**2
    return lost
