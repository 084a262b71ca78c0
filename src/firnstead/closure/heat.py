"""Heat in the snow round a trench: linear triangles on the same points, stepped by an L-stable second-order rule.

Capacity is lumped, so the temperature stays between the air's and the snow's. The rule is the two-stage diagonally
implicit one with gamma = 1 - 1/sqrt(2): both stages share one factorisation, and a sudden change of the air leaves no
ringing behind.
"""

from __future__ import annotations

import math

import numpy as np

from firnstead.closure.mesh import Integers, areas
from firnstead.closure.solve import factorised
from firnstead.snow._arrays import Array
from firnstead.snow.conduction import conductivity_calonne_2019
from firnstead.snow.heat_capacity import heat_capacity_ice

GAMMA = 1.0 - 1.0 / math.sqrt(2.0)


def step_of_heat(
    points: Array, triangles: Integers, density: Array, temperature: Array, held: Integers, values: Array,
    duration: float,
) -> Array:  # fmt: skip
    """Step the temperature of snow, conductivity and capacity as at the start of the step.

    rho c dT/dt = div(K grad T); K after Calonne 2019 at the density and temperature of each triangle

    Parameters
    ----------
    points : array [m]
        Points of the mesh.
    triangles : array [1]
        Three points of each triangle.
    density : array [kg/m3]
        Density of each triangle.
    temperature : array [K]
        Temperature of each point.
    held : array [1]
        Points whose temperature is given during the step.
    values : array [K]
        Their temperatures.
    duration : float [s]
        Length of the step.
    Returns
    -------
    array [K]
        Temperature of each point at the end.
    Validity: dry snow below melting; no flow of air through the snow.
    Source: calonne_2019, eq. 5 (read).

    >>> p, t = np.array([[0, 0], [1, 0], [0, 1.0]]), np.array([[0, 1, 2]])
    >>> step_of_heat(p, t, np.array([400.0]), np.full(3, 250.0), np.array([0]), p[:1, 0] + 250.0, 1e6).round(6).tolist()
    [250.0, 250.0, 250.0]
    """
    middle = temperature[triangles].mean(axis=1)
    return step_of_diffusion(
        points, triangles, conductivity_calonne_2019(density, middle), density * heat_capacity_ice(middle),
        temperature, held, values, duration)  # fmt: skip


def step_of_diffusion(
    points: Array, triangles: Integers, conductivity: Array, capacity: Array, temperature: Array, held: Integers,
    values: Array, duration: float,
) -> Array:  # fmt: skip
    """Step a diffusing field.

    two stages with gamma = 1 - 1/sqrt(2): (M + gamma h K) T_i = M T + (1 - gamma) h F_1 [second stage]

    Parameters
    ----------
    points : array [m]
        Points of the mesh.
    triangles : array [1]
        Three points of each triangle.
    conductivity : array [W/m/K]
        Conductivity of each triangle.
    capacity : array [J/m3/K]
        Capacity of each triangle.
    temperature : array [K]
        Field at the points.
    held : array [1]
        Points whose value is given.
    values : array [K]
        Their values.
    duration : float [s]
        Length of the step.
    Returns
    -------
    array [K]
        Field at the end of the step.
    Validity: no flow through the rest of the boundary.
    Source: textbook_unchecked.

    >>> p, t = np.array([[0, 0], [1, 0], [0, 1.0]]), np.array([[0, 1, 2]])
    >>> one = np.ones(1)
    >>> step_of_diffusion(p, t, one, one, np.zeros(3), np.array([0]), np.ones(1), 1e9).round(6).tolist()
    [1.0, 1.0, 1.0]
    """
    from scipy.sparse import coo_matrix

    count, free = len(points), np.ones(len(points), dtype=bool)
    free[held] = False
    local, share = stiffness_of_triangles(points, triangles, conductivity), areas(points, triangles) * capacity / 3.0
    corners = triangles.ravel()

    def summed(values: Array) -> Array:
        return np.asarray(np.bincount(corners, weights=values.ravel(), minlength=count), dtype=np.float64)

    def inflow(field: Array) -> Array:
        return np.where(free, -summed((local @ field[triangles][:, :, None])[:, :, 0]), 0.0)

    mass = summed(np.repeat(share, 3))
    inner = local * (free[triangles][:, :, None] & free[triangles][:, None, :])  # given points: rows of the identity
    every = np.arange(count)
    data = np.concatenate((GAMMA * duration * inner.ravel(), np.where(free, mass, 1.0)))
    rows = np.concatenate((np.repeat(triangles, 3, axis=1).ravel(), every))
    columns = np.concatenate((np.tile(triangles, (1, 3)).ravel(), every))
    factor = factorised(coo_matrix((data, (rows, columns)), shape=(count, count)).tocsc())
    given = np.zeros(count)
    given[held] = values
    right = np.where(free, mass * temperature + GAMMA * duration * inflow(given), given)
    first = factor.solve(right)
    after: Array = factor.solve(right + (1.0 - GAMMA) * duration * inflow(first))
    return after


def stiffness_of_triangles(points: Array, triangles: Integers, conductivity: Array) -> Array:
    """Give the conduction matrix of each triangle.

    K_ij = K area grad(l_i) grad(l_j)

    Parameters
    ----------
    points : array [m]
        Points of the mesh.
    triangles : array [1]
        Three points of each triangle.
    conductivity : array [W/m/K]
        Conductivity of each triangle.
    Returns
    -------
    array [W/m/K]
        Matrices, three by three.
    Validity: any triangle with area.
    Source: textbook_unchecked.

    >>> p, t = np.array([[0, 0], [1, 0], [0, 1.0]]), np.array([[0, 1, 2]])
    >>> stiffness_of_triangles(p, t, np.ones(1))[0].tolist()
    [[1.0, -0.5, -0.5], [-0.5, 0.5, 0.0], [-0.5, 0.0, 0.5]]
    """
    corner = points[triangles]
    opposite = np.roll(corner, 1, axis=1) - np.roll(corner, -1, axis=1)  # side across from each corner
    area = areas(points, triangles)
    matrix: Array = np.einsum("eic,ejc->eij", opposite, opposite) * (conductivity / (4.0 * area))[:, None, None]
    return matrix
