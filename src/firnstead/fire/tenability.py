"""From smoke in every cell to what people meet: sight, heat, dose, the time until each limit, the way out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from firnstead.fire._arrays import Array
from firnstead.fire.dose import (
    EFFORT,
    cohb_stewart,
    dose_rate_carbon_dioxide,
    dose_rate_co_purser,
    dose_rate_oxygen,
    uptake_factor_purser,
)
from firnstead.fire.gas import MOLAR_CO, MOLAR_CO2, OXYGEN_SHARE, oxygen_equivalent, volume_share
from firnstead.fire.pressure import HEAT_CAPACITY
from firnstead.fire.visibility import soot_for_visibility

OXYGEN_HEAT = 13.1e6  # J/kg of oxygen used (textbook_unchecked)
MOLAR_OXYGEN = 0.0320  # kg/mol
HOTTEST = 1473.0  # K; smoke is not hotter than flames (own rule)
LIMITS = ("visibility", "temperature", "dose")


@dataclass(frozen=True)
class Smoke:
    """What the smoke is made of and when it is too much. Yields are kg for each kg of fuel: with air, short of air."""

    soot: tuple[float, float]
    co: tuple[float, float]
    co2: tuple[float, float]
    heat_of_combustion: float
    convective: float
    extinction: float
    sight_factor: float
    pressure: float
    head: float
    effort: str
    visibility: float
    temperature: float
    dose: float


@dataclass(frozen=True, eq=False)
class Exposure:
    """What a person meets at each time (rows) in each cell (columns)."""

    times: Array
    soot: Array
    temperature: Array
    co: Array
    dose_rate: Array
    dose: Array

    def ratio(self, smoke: Smoke, limit: str) -> Array:
        """Share of a limit that is used up; above 1 it is passed."""
        if limit == "visibility":
            seen: Array = self.soot / soot_for_visibility(smoke.visibility, smoke.extinction, smoke.sight_factor)
            return seen
        if limit == "temperature":
            start = self.temperature[0]
            risen: Array = (self.temperature - start) / np.maximum(1e-9, smoke.temperature - start)
            return risen
        return self.dose / smoke.dose


def head_factor(height: Array, head: float) -> Array:
    """Give how much thicker smoke is at head height than the mean of its cell, at worst.

    k = H/max(H - z_h, H/2)

    Parameters
    ----------
    height : Array [m]
        Height H of the cell.
    head : float [m]
        Height z_h of people's heads.
    Returns
    -------
    Array [1]
        Factor from 1 to 2.
    Validity: all smoke of the cell evenly in its part above the heads, whatever hangs lower is thinner; no credit is
    taken for clear air under the smoke, because cold wet walls bring it down.
    Source: own_rule, no credit for a clear layer.

    >>> [round(float(k), 2) for k in head_factor(np.array([6.8, 2.4]), 1.8)]
    [1.36, 2.0]
    """
    found: Array = height / np.maximum(height - head, height / 2)
    return found


def exposure_of(times: Array, mean: Array, height: Array, ambient: Array, smoke: Smoke) -> Exposure:
    """Give what people meet in every cell.

    soot, gases and heat in proportion to the energy whose smoke is there; dose added up over time

    Parameters
    ----------
    times : Array [s]
        Times.
    mean : Array [J/m3]
        Energy whose smoke is in each cubic metre, with air and short of air, by time and cell.
    height : Array [m]
        Height of each cell.
    ambient : Array [K]
        Air temperature in each cell before the fire.
    smoke : Smoke [1]
        Yields and limits.
    Returns
    -------
    Exposure [1]
        By time and cell.
    Validity: no heat is lost to the snow and no soot settles; gases by volume at the air's temperature before the fire;
    want of oxygen counts only as far as it is worse than before the fire; the dose laws were never tried at height.
    Source: own_rule, yields times energy; purser_fed, dose (read second-hand).

    >>> smoke = Smoke((0.07, 0.14), (0.04, 0.4), (1.5, 1.5), 20e6, 0.7, 8700.0, 3.0, 101325.0, 1.8, "light",
    ...               10.0, 333.15, 0.3)
    >>> met = exposure_of(np.array([0.0, 60.0]), np.array([[[0.0], [9852.0]], [[0.0], [0.0]]]), np.array([2.4]),
    ...                   np.array([250.0]), smoke)
    >>> round(float(met.soot[1, 0] * 1e6), 2)
    68.96
    """
    factor = head_factor(height, smoke.head)
    with_air, short = mean[0] * factor, mean[1] * factor
    both = with_air + short

    def made(yields: tuple[float, float]) -> Array:
        found: Array = (yields[0] * with_air + yields[1] * short) / smoke.heat_of_combustion
        return found

    soot = made(smoke.soot)
    co = np.asarray(volume_share(made(smoke.co), MOLAR_CO, smoke.pressure, ambient))
    co2 = np.asarray(volume_share(made(smoke.co2), MOLAR_CO2, smoke.pressure, ambient))
    used = np.asarray(volume_share(both / OXYGEN_HEAT, MOLAR_OXYGEN, smoke.pressure, ambient))
    oxygen = np.asarray(oxygen_equivalent(np.maximum(0.0, OXYGEN_SHARE - used), smoke.pressure))
    clean = oxygen_equivalent(OXYGEN_SHARE, smoke.pressure)
    capped = np.minimum(co2, 0.1)  # beyond a tenth the uptake law is not meant; the dose of carbon dioxide rules
    narcotic = dose_rate_co_purser(co, smoke.effort) * uptake_factor_purser(capped)
    narcotic = narcotic + dose_rate_oxygen(oxygen) - dose_rate_oxygen(clean)
    rate = np.maximum(narcotic, np.where(co2 > 0.02, dose_rate_carbon_dioxide(np.minimum(co2, 0.2)), 0.0))
    density = np.asarray(smoke.pressure / (287.05 * ambient))
    temperature = np.minimum(HOTTEST, ambient + smoke.convective * both / (density * HEAT_CAPACITY))
    return Exposure(times, soot, temperature, co, rate, _added_up(times, rate))


def _added_up(times: Array, rate: Array) -> Array:
    steps = np.diff(times)[:, None] * (rate[1:] + rate[:-1]) / 2
    return np.concatenate((np.zeros((1, rate.shape[1])), np.cumsum(steps, axis=0)))


def first_time(times: Array, ratio: Array) -> Array:
    """Give the time at which each cell first passes a limit.

    straight between the steps

    Parameters
    ----------
    times : Array [s]
        Times.
    ratio : Array [1]
        Share of the limit used up, by time and cell.
    Returns
    -------
    Array [s]
        Time for each cell; infinite where the limit is not reached.
    Validity: steps short against the time wanted.
    Source: statics, straight line between two steps.

    >>> [float(t) for t in first_time(np.array([0.0, 10.0]), np.array([[0.0, 0.0], [2.0, 0.5]]))]
    [5.0, inf]
    """
    over = ratio >= 1.0
    k = np.argmax(over, axis=0)
    cell = np.arange(ratio.shape[1])
    low, high = ratio[np.maximum(k - 1, 0), cell], ratio[k, cell]
    share = np.where(high > low, (1.0 - low) / np.where(high > low, high - low, 1.0), 1.0)
    before = times[np.maximum(k - 1, 0)]
    found: Array = np.where(over.any(axis=0), before + (times[k] - before) * np.clip(share, 0.0, 1.0), inf)
    return found


def available_times(met: Exposure, smoke: Smoke) -> dict[str, Array]:
    """Give the time at which each limit is reached in every cell, and the first of them.

    first time with visibility below its limit, temperature or dose above theirs

    Parameters
    ----------
    met : Exposure [1]
        What people meet.
    smoke : Smoke [1]
        Limits.
    Returns
    -------
    dict[str, Array] [s]
        By limit, and "first"; infinite where not reached within the time that the fire is followed.
    Validity: a person who stays in the cell from the start; see along_way for one who walks.
    Source: own_rule, the first of the limits counts.

    >>> smoke = Smoke((0.07, 0.14), (0.04, 0.4), (1.5, 1.5), 20e6, 0.7, 8700.0, 3.0, 101325.0, 1.8, "light",
    ...               10.0, 333.15, 0.3)
    >>> met = exposure_of(np.array([0.0, 60.0]), np.array([[[0.0], [9852.0]], [[0.0], [0.0]]]), np.array([2.4]),
    ...                   np.array([250.0]), smoke)
    >>> round(float(available_times(met, smoke)["first"][0]))
    30
    """
    found = {limit: first_time(met.times, met.ratio(smoke, limit)) for limit in LIMITS}
    found["first"] = np.minimum.reduce([found[limit] for limit in LIMITS])
    return found


@dataclass(frozen=True)
class Walked:
    """What one who walks a given way meets: the least margin, where, and what he has taken up at the end."""

    margin: float
    worst: str
    passed: float
    available: float
    dose: float
    cohb: float
    hottest: float
    least_visibility: float


def along_way(
    met: Exposure, smoke: Smoke, cells: Mapping[str, int], way: Sequence[tuple[str, float]], first: Array
) -> Walked | None:
    """Give what a walker meets.

    at each spot on time, dose added up on the way and while waiting at its start

    Parameters
    ----------
    met : Exposure [1]
        What people meet.
    smoke : Smoke [1]
        Limits.
    cells : Mapping[str, int] [1]
        Number of the cell by name.
    way : Sequence[tuple[str, float]] [s]
        Spot and time at which it is passed; spots outside the station are left out.
    first : Array [s]
        Time at which the first limit is reached in every cell.
    Returns
    -------
    Walked | None [1]
        Least margin and what was taken up; none where no spot is in the station.
    Validity: times within the time that the fire is followed; later ones are taken at its end.
    Source: own_rule, margin is time available less time of passing.

    >>> smoke = Smoke((0.07, 0.14), (0.04, 0.4), (1.5, 1.5), 20e6, 0.7, 8700.0, 3.0, 101325.0, 1.8, "light",
    ...               10.0, 333.15, 0.3)
    >>> met = exposure_of(np.array([0.0, 60.0]), np.array([[[0.0], [9852.0]], [[0.0], [0.0]]]), np.array([2.4]),
    ...                   np.array([250.0]), smoke)
    >>> along_way(met, smoke, {"a": 0}, [("a", 20.0)], available_times(met, smoke)["first"]).worst
    'a'
    """
    stops = [(name, cells[name], time) for name, time in way if name in cells]
    if not stops:
        return None
    name, cell, passed = min(stops, key=lambda stop: float(first[stop[1]]) - stop[2])

    def at(values: Array, i: int, time: float) -> float:
        return float(np.interp(time, met.times, values[:, i]))

    waiting, start = stops[0][1], stops[0][2]
    litres = EFFORT[smoke.effort][0] / 60e3
    uptake = np.asarray(cohb_stewart(met.co, 1.0, litres))
    dose = at(met.dose, waiting, start)
    before = met.times[met.times < start]
    waited = np.array([*before, start])
    cohb = float(np.trapezoid(np.interp(waited, met.times, uptake[:, waiting]), waited))
    for (_, i, t), (_, j, later) in zip(stops, stops[1:], strict=False):
        dose += (later - t) * (at(met.dose_rate, i, t) + at(met.dose_rate, j, later)) / 2
        cohb += (later - t) * (at(uptake, i, t) + at(uptake, j, later)) / 2
    thickest = max(at(met.soot, i, t) for _, i, t in stops)
    sight = inf if thickest <= 0 else smoke.sight_factor / (smoke.extinction * thickest)
    return Walked(float(first[cell]) - passed, name, passed, float(first[cell]), dose, cohb,
                  max(at(met.temperature, i, t) for _, i, t in stops), sight)  # fmt: skip
