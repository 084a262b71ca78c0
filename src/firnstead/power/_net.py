"""Ways of feeding the net: in normal running, and with a place lost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firnstead.power.case import Case, FeederCase
from firnstead.power.network import Line, tree
from firnstead.power.sweep import Complex, Flow, loss_of_feeder, sweep

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
NORMAL = "normal running"


@dataclass(frozen=True, eq=False)
class Feeding:
    """One way of feeding: boards in order of the way out, how each is fed, and what flows in 288 hours of a year."""

    name: str
    root: str
    boards: tuple[str, ...]
    fed_by: tuple[FeederCase | None, ...]
    parents: tuple[int, ...]
    flow: Flow
    drop: Array
    """Voltage drop from the root as a share, by board and hour."""
    arriving: Complex
    """Power P + jQ arriving over the feeder into each board, by board and hour [W]."""
    loss: Array
    """Loss in the feeder into each board, by board and hour [W]."""
    kept: Mask
    """Loads that are served, by load and hour."""

    def of(self, board: str) -> int | None:
        """Index of a board; none where it is not reached."""
        return self.boards.index(board) if board in self.boards else None

    def path(self, board: str) -> tuple[int, ...]:
        """Indices of the boards on the way out to a board, root left out."""
        found: list[int] = []
        at = self.boards.index(board)
        while self.parents[at] >= 0:
            found.append(at)
            at = self.parents[at]
        return tuple(reversed(found))


def demand_table(case: Case) -> Array:
    """Demand of every load in the 288 hours, diversity of its board taken off [W]."""
    diversity = {board.name: board.diversity for board in case.boards}
    rows = [np.outer(load.year, load.day).ravel() * (load.demand / diversity[load.board]) for load in case.loads]
    return np.array(rows) if rows else np.zeros((0, 288))


def feed(case: Case, demand: Array, name: str, root: str, lost: Sequence[str], kept: Mask) -> Feeding:
    """Feed the net from one board, with boards and feeders lost, and only the kept loads on it."""
    lines: list[Line] = [(f.name, f.start, f.end, f.normally_open) for f in case.feeders]
    fed = tree(lines, root, lost)
    boards = tuple(fed)
    index = {board: i for i, board in enumerate(boards)}
    by_name = {f.name: f for f in case.feeders}
    fed_by = tuple(by_name.get(fed[board][1]) for board in boards)
    parents = tuple(index.get(fed[board][0], -1) for board in boards)
    power: Complex = np.zeros((len(boards), demand.shape[1]), dtype=complex)
    served = kept.copy()
    for i, load in enumerate(case.loads):
        if load.board not in index:
            served[i] = False
            continue
        tangent = np.sqrt(1.0 / load.power_factor**2 - 1.0)
        power[index[load.board]] += np.where(kept[i], demand[i], 0.0) * (1 + 1j * tangent)
    impedance = np.array([0.0 if f is None else f.impedance for f in fed_by], dtype=complex)
    flow = sweep(parents, impedance, power, case.voltage)
    return Feeding(
        name, root, boards, fed_by, parents, flow, 1.0 - np.abs(flow.voltage) / case.voltage,
        flow.voltage * np.conj(flow.current), loss_of_feeder(np.abs(flow.current), impedance.real[:, None]),
        served)  # fmt: skip


def reached(case: Case, root: str, lost: Sequence[str]) -> set[str]:
    """The boards that can be fed from a root with some lost."""
    return set(tree([(f.name, f.start, f.end, f.normally_open) for f in case.feeders], root, lost))
