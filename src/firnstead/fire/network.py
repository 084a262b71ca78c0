"""The station as cells of air joined by openings, and which way smoke takes from a fire.

Every cell has an upper and a lower half. Smoke runs outward from the fire in the upper halves; the same volume of air
comes back in the lower halves. What arrives above and does not go on turns down; what is missing above comes up.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from firnstead.fire._arrays import Array, Flags, Whole
from firnstead.fire.pressure import expansion_flow, front_speed

LEAST_VOLUME = 0.1  # m3; doors and other spots without a volume of their own get this much
LEAST_LENGTH = 0.01  # m; so that spots in one place still come one after the other


@dataclass(frozen=True, eq=False)
class Network:
    """Cells (name, volume, height) and the openings between them.

    `width` is that of the space behind the opening, `opening` its area when open, `leak` what passes now.
    `outlets` are the cells at the portals, from which air that fire drives out leaves the station.
    """

    names: tuple[str, ...]
    volume: Array
    height: Array
    a: Whole
    b: Whole
    length: Array
    width: Array
    opening: Array
    leak: Array
    outlets: tuple[int, ...]

    @property
    def cells(self) -> int:
        """Number of cells."""
        return len(self.names)

    def index(self, name: str) -> int:
        """The number of a cell."""
        return self.names.index(name)


@dataclass(frozen=True, eq=False)
class Directed:
    """The openings seen from one fire: from the near cell to the far one, with the share of heat that goes that way.

    `way_out` are the cells from the fire to the nearest outlet, along which expanding air is driven.
    """

    near: Whole
    far: Whole
    share: Array
    which: Whole
    way_out: tuple[int, ...]


def distances_from(network: Network, cell: int) -> tuple[Array, Whole]:
    """Give the way to every cell from one of them, and the cell before each on it.

    shortest path

    Parameters
    ----------
    network : Network [1]
        Cells and openings.
    cell : int [1]
        Cell to start from.
    Returns
    -------
    tuple[Array, Whole] [m and 1]
        Length of the way, infinite where there is none; the cell before, negative where there is none.
    Validity: lengths along the ways people walk.
    Source: statics, shortest path.

    >>> line = line_network(length=30.0, cells=3)
    >>> [round(float(d), 2) for d in distances_from(line, 0)[0]]
    [0.0, 10.01, 20.02]
    """
    from scipy.sparse.csgraph import dijkstra

    found, before = dijkstra(_graph(network), directed=False, indices=cell, return_predecessors=True)
    return np.asarray(found), np.asarray(before, dtype=np.int64)


def line_network(
    length: float, cells: int, width: float = 5.0, height: float = 4.0, leak: float | None = None
) -> Network:
    """Give a straight passage cut into equal cells, for tests and comparisons.

    cells in a row

    Parameters
    ----------
    length : float [m]
        Length of the passage.
    cells : int [1]
        Number of cells.
    width : float [m]
        Width.
    height : float [m]
        Height.
    leak : float | None [m2]
        Leakage of a shut door in the middle; none: no door.
    Returns
    -------
    Network [1]
        Cells and openings.
    Validity: one straight passage.
    Source: statics.

    >>> line_network(40.0, 4).cells
    4
    """
    step = length / cells
    through = np.full(cells - 1, width * height)
    if leak is not None:
        through[(cells - 1) // 2] = leak
    return Network(
        tuple(f"cell {i}" for i in range(cells)), np.full(cells, step * width * height), np.full(cells, height),
        np.arange(cells - 1), np.arange(1, cells), np.full(cells - 1, step), np.full(cells - 1, width),
        np.full(cells - 1, width * height), through, (cells - 1,))  # fmt: skip


def directed_from(network: Network, fire: int) -> Directed:
    """Give the openings as smoke meets them on its way from a fire.

    at every cell the heat splits in proportion to the openings that lead on, doors counted as open

    Parameters
    ----------
    network : Network [1]
        Cells and openings.
    fire : int [1]
        Cell of the fire.
    Returns
    -------
    Directed [1]
        Openings with their direction and share of the heat.
    Validity: doors change what passes through them, not which way smoke takes nor how fast.
    Source: own_rule, split by area of opening (own rule).

    >>> line = line_network(40.0, 4)
    >>> found = directed_from(line, 1)
    >>> [(int(n), int(f), float(s)) for n, f, s in zip(found.near, found.far, found.share)]
    [(1, 0, 0.5), (1, 2, 0.5), (2, 3, 0.5)]
    """
    distance, before = distances_from(network, fire)
    reached = np.isfinite(distance[network.a]) & np.isfinite(distance[network.b])
    which = np.nonzero(reached & (network.a != network.b))[0]
    swap = distance[network.a[which]] > distance[network.b[which]]
    near = np.where(swap, network.b[which], network.a[which])
    far = np.where(swap, network.a[which], network.b[which])
    order = np.lexsort((far, distance[near]))
    which, near, far = which[order], near[order], far[order]
    area = network.opening[which]
    onward = np.bincount(near, weights=area, minlength=network.cells)
    arriving = np.zeros(network.cells)
    arriving[fire] = 1.0
    part = area / onward[near]
    share = np.zeros(len(which))
    for edge, (i, j) in enumerate(zip(near.tolist(), far.tolist(), strict=True)):
        share[edge] = arriving[i] * part[edge]
        arriving[j] += share[edge]
    return Directed(near, far, share, which, _way_out(network, fire, distance, before))


def _way_out(network: Network, fire: int, distance: Array, before: Whole) -> tuple[int, ...]:
    reachable = [cell for cell in network.outlets if np.isfinite(distance[cell])]
    if not reachable:
        return (fire,)
    way = [min(reachable, key=lambda cell: float(distance[cell]))]
    while way[-1] != fire:
        way.append(int(before[way[-1]]))
    return tuple(reversed(way))


@dataclass(frozen=True, eq=False)
class Flows:
    """Volume flows as a matrix on the concentrations of upper (0..n-1) and lower (n..2n-1) halves, in rows of
    (row, column, value): `exchange` for each W^(1/3) of convective heat, `expansion` for each W."""

    exchange: tuple[Whole, Whole, Array]
    expansion: tuple[Whole, Whole, Array]


def flows_of(network: Network, directed: Directed, pressure: float, leak: Array) -> Flows:
    """Give the flows that one watt of convective heat sets going.

    q = u A/2 in each half, u = K (g R s Q_c/(w c_p P))^(1/3); e = R Q_c/(c_p P) along the way out

    Parameters
    ----------
    network : Network [1]
        Cells and openings.
    directed : Directed [1]
        Openings as the smoke meets them.
    pressure : float [Pa]
        Air pressure P.
    leak : Array [m2]
        Area A of each opening that passes now.
    Returns
    -------
    Flows [1]
        Matrices.
    Validity: still air; each half takes half of the opening; smoke that leaves at the outlet is kept in its last cell.
    Source: cibse_guide_e, eq. 10.12 (read second-hand); own_rule, two halves.

    >>> line = line_network(40.0, 4)
    >>> made = flows_of(line, directed_from(line, 0), 101325.0, line.leak)
    >>> round(float(made.exchange[2].max()), 2)
    0.18
    """
    n = network.cells
    near, far, which = directed.near, directed.far, directed.which
    unit = front_speed(1.0, 1.0, pressure)
    q = unit * (directed.share / network.width[which]) ** (1 / 3) * leak[which] / 2
    turning = np.bincount(far, weights=q, minlength=n) - np.bincount(near, weights=q, minlength=n)
    cell = np.arange(n)
    down, up = np.maximum(turning, 0.0), np.maximum(-turning, 0.0)
    exchange = _moves([(near, far, q), (n + far, n + near, q), (cell, n + cell, down), (n + cell, cell, up)])
    out = np.array(directed.way_out, dtype=np.int64)
    expansion = _moves([(out[:-1], out[1:], np.full(len(out) - 1, expansion_flow(1.0, pressure)))])
    return Flows(exchange, expansion)


def _moves(moves: list[tuple[Whole, Whole, Array]]) -> tuple[Whole, Whole, Array]:
    """Rows of a matrix that takes from one half and gives to another, so that nothing is lost or made."""
    source = np.concatenate([move[0] for move in moves])
    target = np.concatenate([move[1] for move in moves])
    flow = np.concatenate([move[2] for move in moves])
    return (np.concatenate((target, source)), np.concatenate((source, source)), np.concatenate((flow, -flow)))


def cells_beyond(network: Network, fire: int, opening: int) -> Flags:
    """Give the cells that smoke can only reach through one opening.

    connected parts without that opening

    Parameters
    ----------
    network : Network [1]
        Cells and openings.
    fire : int [1]
        Cell of the fire.
    opening : int [1]
        Number of the opening.
    Returns
    -------
    Flags [1]
        True for cells beyond it.
    Validity: any network.
    Source: statics, connected parts.

    >>> line = line_network(40.0, 4)
    >>> [bool(x) for x in cells_beyond(line, 0, 1)]
    [False, False, True, True]
    """
    keep = np.arange(len(network.a)) != opening
    part = parts_joined(network, keep)
    all_parts = parts_joined(network, np.ones(len(network.a), dtype=np.bool_))
    return np.asarray((part != part[fire]) & (all_parts == all_parts[fire]))


def walk_to_nearest(network: Network, targets: tuple[int, ...]) -> Array:
    """Give the walk from every cell to the nearest of some of them.

    shortest path

    Parameters
    ----------
    network : Network [1]
        Cells and openings.
    targets : tuple[int, ...] [1]
        Cells to walk to.
    Returns
    -------
    Array [m]
        Walk; infinite where none can be reached.
    Validity: lengths along the ways people walk.
    Source: statics, shortest path.

    >>> [round(float(d), 1) for d in walk_to_nearest(line_network(40.0, 4), (0, 3))]
    [0.0, 10.0, 10.0, 0.0]
    """
    from scipy.sparse.csgraph import dijkstra

    if not targets:
        return np.full(network.cells, np.inf)
    return np.asarray(dijkstra(_graph(network), directed=False, indices=list(targets), min_only=True))


def _graph(network: Network) -> Any:
    """Lengths between cells; of parallel openings the shortest, for a sparse matrix would add them up."""
    from scipy.sparse import coo_matrix

    low, high = np.minimum(network.a, network.b), np.maximum(network.a, network.b)
    order = np.lexsort((network.length, high, low))
    low, high, length = low[order], high[order], network.length[order]
    first = np.ones(len(low), dtype=bool)
    first[1:] = (low[1:] != low[:-1]) | (high[1:] != high[:-1])
    n = network.cells
    return coo_matrix((length[first] + LEAST_LENGTH, (low[first], high[first])), shape=(n, n)).tocsr()


def parts_joined(network: Network, through: Flags) -> Whole:
    """Give the parts that the station falls into when only some openings let through.

    connected parts

    Parameters
    ----------
    network : Network [1]
        Cells and openings.
    through : Flags [1]
        Whether each opening lets through.
    Returns
    -------
    Whole [1]
        Number of the part that each cell belongs to.
    Validity: any network.
    Source: statics, connected parts.

    >>> line = line_network(40.0, 4)
    >>> [int(p) for p in parts_joined(line, np.array([True, False, True]))]
    [0, 0, 1, 1]
    """
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components

    n = network.cells
    a, b = network.a[through], network.b[through]
    graph = coo_matrix((np.ones(len(a)), (a, b)), shape=(n, n)).tocsr()
    return np.asarray(connected_components(graph, directed=False)[1], dtype=np.int64)
