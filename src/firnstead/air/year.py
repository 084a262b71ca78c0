"""Flows of every month and what they do to the gases in the rooms."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from firnstead.air.case import OUTSIDE, AirCase, Blower
from firnstead.air.draught import wind_pressure
from firnstead.air.fans import FanCurve, fan_branch
from firnstead.air.network import Array, Indices, Openings, fresh_reach, solve_network
from firnstead.air.properties import air_density, head_of_air
from firnstead.air.results import MONTHS
from firnstead.air.transport import exchange_matrix, steady_shares

Row = tuple[float, ...]


@dataclass(frozen=True, eq=False)
class Month:
    """The air of one month: densities [kg/m3], pressures [Pa], flows [kg/s] of holes, fans and exchanges."""

    outside: float
    density: Array
    temperature: Array
    pressure: Array
    holes: Array
    fans: Array
    a: Indices
    b: Indices
    flow: Array
    """All branches, exchanges both ways."""
    mass: Array
    branches: tuple[FanCurve, ...]
    """The fans as they were solved."""
    left_over: float

    @cached_property
    def balance(self) -> tuple[Array, Array]:
        """Matrix and outside vector of the balance of a gas [1/s]."""
        return exchange_matrix(len(self.mass), self.a, self.b, self.flow, self.mass)

    @cached_property
    def reached(self) -> np.ndarray:
        """Which rooms outside air reaches."""
        return fresh_reach(len(self.mass), self.a, self.b, self.flow)

    @cached_property
    def inflow(self) -> Array:
        """Air that comes into each room [kg/s]."""
        total = np.zeros(len(self.mass) + 1)
        np.add.at(total, np.where(self.flow > 0, self.b, self.a), np.abs(self.flow))
        return total[:-1]

    def steady(self, given_off: Array, shares_outside: Array) -> Array:
        """Shares in the long run; gas given off as mol/s times the molar mass of air [kg/s], rooms by gases."""
        matrix, outside = self.balance
        return steady_shares(matrix, outside, shares_outside, given_off / self.mass[:, None], self.reached)

    def share_coming_in(self, shares: Array, room: int, outside: float) -> float:
        """Mean share of a gas in the air that comes into a room."""
        whole = np.append(shares, outside)
        source, target = np.where(self.flow > 0, self.a, self.b), np.where(self.flow > 0, self.b, self.a)
        into = target == room
        size = np.abs(self.flow[into])
        total = float(size.sum())
        return float(size @ whole[source[into]]) / total if total > 0 else outside


def solve_year(case: AirCase, surface: Row, places: dict[str, Row]) -> tuple[Month, ...]:
    """The twelve months; months with equal temperatures are solved once."""
    known: dict[tuple[float, ...], Month] = {}
    months: list[Month] = []
    for i in range(MONTHS):
        key = (round(surface[i], 6), *(round(row[i], 6) for row in places.values()))
        if key not in known:
            before = months[-1] if months else None
            known[key] = solve_month(case, surface[i], {name: row[i] for name, row in places.items()}, before)
        months.append(known[key])
    return tuple(months)


def solve_month(
    case: AirCase, outside: float, places: dict[str, float], before: Month | None = None, standing: str = ""
) -> Month:
    """The flows at one set of temperatures, started from those of another month.

    `standing` is the name of a fan that stands; `before` must then be the same month with all fans running.
    """
    rooms = case.rooms
    warmth = np.array([places[r.place] if r.temperature is None else r.temperature for r in rooms])
    floor = np.array([r.floor for r in rooms])
    density = case.pressure / (287.05 * warmth)
    rho = np.append(density, air_density(case.pressure, outside))  # the last is the outside, which -1 points to
    base = np.append(floor, 0.0)
    holes = [h for h in case.holes if not (h.shut_when_warmer and outside > places[rooms[h.a].place])]
    a, b = (np.array([getattr(h, end) for h in holes], dtype=np.intp) for end in ("a", "b"))
    level = np.array([h.level for h in holes])
    gust = np.array([wind_pressure(case.wind_speed, rho[-1], h.wind) for h in holes])
    drive = head(level - base[b], rho[b]) - head(level - base[a], rho[a]) - np.where(b == OUTSIDE, gust, 0.0)
    openings = Openings(a, b, np.array([h.area for h in holes]), drive, rho[a], rho[b])
    fans = tuple(
        before.branches[i] if standing and before is not None and blower.name != standing
        else _branch(case, blower, rho, base, standing) for i, blower in enumerate(case.blowers)
    )  # fmt: skip
    drawn = np.zeros(len(rooms))
    for room, flow in case.drawn:
        drawn[room] += flow
    made = solve_network(len(rooms), openings, fans, drawn, None if before is None else before.pressure)
    swaps = [(e.room, e.other, e.flow * rho[e.other]) for e in case.exchanges]
    ends = [(f.a, f.b, m) for f, m in zip(fans, made.fans, strict=True)]
    ends += [(room, OUTSIDE, flow) for room, flow in case.drawn]
    ends += [one for i, j, m in swaps for one in ((i, j, m), (j, i, m))]
    all_a = np.concatenate([a, np.array([e[0] for e in ends], dtype=np.intp)])
    all_b = np.concatenate([b, np.array([e[1] for e in ends], dtype=np.intp)])
    flows = np.concatenate([made.openings, np.array([e[2] for e in ends])])
    by_name = dict(zip(((h.name, h.a, h.b, h.level) for h in holes), made.openings, strict=True))
    listed = np.array([by_name.get((h.name, h.a, h.b, h.level), 0.0) for h in case.holes])
    mass = density * np.array([r.volume for r in rooms])
    return Month(outside, density, warmth, made.pressure, listed, made.fans, all_a, all_b, flows, mass, fans,
                 made.left_over)  # fmt: skip


def head(height: Array, density: Array) -> Array:
    """Pressure of columns of air [Pa]."""
    found: Array = head_of_air(1.0, 1.0) * height * density
    return found


def _branch(case: AirCase, f: Blower, rho: Array, base: Array, standing: str) -> FanCurve:
    gust = wind_pressure(case.wind_speed, rho[-1], f.wind)
    drive = float(rho[f.b] * (f.level - base[f.b]) - rho[f.a] * (f.level - base[f.a])) * head_of_air(1.0, 1.0)
    drive += (gust if f.a == OUTSIDE else 0.0) - (gust if f.b == OUTSIDE else 0.0)
    return fan_branch(f.a, f.b, drive, f.curve, float(rho[f.a]), f.stated_at, f.duct, f.name != standing, f.damper)
