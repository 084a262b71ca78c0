"""The months of the station's life: air of every place, gap and snow floor of every building, heat of every part.

In each month the snow's answer is a straight line in the present temperatures (what went before is known), so the wall,
the gap and the snow floor are put in terms of the trench air; the air of all places together is then solved by Newton's
method, because vents, cracks, doorways and thermostats are not straight lines. All scenarios go side by side.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from firnstead.core.units import G0
from firnstead.heat.airflow import AIR_HEAT, OPENING, air_density, share_running, stack_flow
from firnstead.heat.case import Snowfield, StationCase
from firnstead.heat.envelope import resistance_air_layer
from firnstead.snow._arrays import Array

TERMS = ("buildings", "gains", "vents", "wells", "outside", "gaps", "snow")
DRAUGHT = 0.1  # K, as in doorway_exchange
BAND = 1.0  # K from shut to open, as in share_running
NUDGE = 1e-6  # K, for slopes
SHORT = 3e-3  # K of a last step whose square no longer counts
MOST = 60


@dataclass(frozen=True, eq=False)
class March:
    """Scenario by place or building by month from the first month of use."""

    air: Array
    wall: Array
    gap: Array
    snow_floor: Array
    demand: Array
    surplus: Array
    leak: Array
    """Infiltration of each building [m3/s]."""
    floor_loss: Array
    """Heat through each floor [W]."""
    outside_loss: Array
    """Heat of each building that ventilation carries outside [W]."""
    gap_outside: Array
    """Heat that gap air carries out of the station [W]."""
    vent_share: Array
    well_share: Array
    terms: dict[str, Array]
    """Heat into the air of each place [W], by name; `links` are separate."""
    links: Array
    snow_heat: Array
    """Heat into the snow of each place, buildings' floors counted [W]."""
    probe: Array
    """Snow temperature 1, 2 and 5 m below each building [K]."""
    residual: float
    """Largest heat that any balance is out by [W]."""


_Solved = tuple[Array, dict[str, Array], Array, float]
"""Air of every place, heats by name, heat through doorways, largest imbalance [W]."""


class _Months:
    """The arrays of one march."""

    def __init__(self, case: StationCase, field: Snowfield) -> None:
        self.case, c, b = case, case.climate, case.buildings
        self.scenarios, self.places, self.count = len(field.scenarios), len(case.places), len(b)
        self.months = c.months
        self.rho_c = float(air_density(c.pressure, c.mean)) * AIR_HEAT
        self.at = np.array([each.place for each in b], dtype=np.int64)
        self.into = np.zeros((self.count, self.places))
        self.into[np.arange(self.count), self.at] = 1.0
        self._buildings()
        self._places()
        self._links()
        self._snow(field)

        per_building = ("demand", "surplus", "leak", "floor", "fresh_outside")
        self.seat = {**dict.fromkeys(per_building, self.at), "vent_share": self.vent_at, "well_share": self.well_at}

    def _buildings(self) -> None:
        b = self.case.buildings

        def row(name: str) -> Array:
            return np.array([float(getattr(each, name)) for each in b])

        self.length, self.width = row("length"), row("width")
        self.inside, self.wall_roof, self.own = row("temperature"), row("wall_roof"), row("gains")
        self.leak_area, self.tall, self.leak_flow = row("leak_area"), row("height"), row("leak_flow")
        fresh = row("ventilation") * (1.0 - row("recovery")) * self.rho_c
        outside = row("from_outside")
        self.fresh_trench, self.fresh_outside = fresh * (1.0 - outside), fresh * outside
        self.floor_resistance = row("floor_resistance")
        still = [1.0 / resistance_air_layer(each.gap.height, "down", 0.0) for each in b]  # at 0 K nothing radiates
        shine = [1.0 / resistance_air_layer(each.gap.height, "down", 1.0) for each in b]
        self.gap_still, self.gap_shine = np.array(still), np.array(shine) - np.array(still)
        sweep = np.array([each.gap.flow for each in b]) * self.rho_c
        kind = np.array([each.gap.supply for each in b], dtype=object)
        self.sweep, self.sweep_trench = sweep, sweep * (kind == "trench")
        self.sweep_outside, self.sweep_well = sweep * (kind == "outside"), sweep * (kind == "well")
        self.well_air = np.array([each.gap.temperature for each in b])

    def _places(self) -> None:
        p = self.case.places
        self.gain = np.array([each.gains for each in p])[:, None] + np.array(self.case.gains).reshape(self.places, 12)
        self.leak_outside = np.array([each.outside_leak for each in p]) * self.rho_c
        self.cool_to = np.array([each.cool_to for each in p])
        vents = [(i, v) for i, each in enumerate(p) for v in each.vents]
        wells = [(i, w) for i, each in enumerate(p) for w in each.wells]
        self.vent_at = np.array([i for i, _ in vents], dtype=np.int64)
        self.vent_area = np.array([v.area * v.count for _, v in vents])
        self.vent_height = np.array([v.height for _, v in vents])
        self.vent_flow = np.array([v.flow * v.count for _, v in vents])
        self.vent_into = np.eye(self.places)[self.vent_at].reshape(len(vents), self.places)
        self.vent_power = np.array([v.fan_power * v.count for _, v in vents])
        self.well_at = np.array([i for i, _ in wells], dtype=np.int64)
        self.well_flow = np.array([w.flow * w.count for _, w in wells]) * self.rho_c
        self.well_air_in = np.array([w.temperature for _, w in wells])
        self.well_power = np.array([w.fan_power * w.count for _, w in wells])
        # a fan warms its air: below this a well would heat the trench
        gain = self.well_power / np.maximum(self.well_flow, 1e-9)
        self.well_set = np.maximum(self.cool_to[self.well_at], self.well_air_in + gain)
        sets = [[self.cool_to[i], *self.well_set[self.well_at == i]] for i in range(self.places)]
        most = max((len(each) for each in sets), default=1)
        low = np.array([each + each[:1] * (most - len(each)) for each in sets])
        self.bends = np.concatenate((low, low + BAND), axis=1)  # place by thermostat
        self.well_into = np.eye(self.places)[self.well_at].reshape(len(wells), self.places)

    def _links(self) -> None:
        k = self.case.links
        self.link_a = np.array([each.a for each in k], dtype=np.int64)
        self.link_b = np.array([each.b for each in k], dtype=np.int64)
        self.link_leak = np.array([each.leak for each in k]) * self.rho_c
        size = np.array([each.width * each.height**1.5 if each.leak == 0 else 0.0 for each in k])
        self.link_open = OPENING / 3.0 * size * (G0 / self.case.climate.mean) ** 0.5 * self.rho_c
        self.incidence = np.zeros((len(k), self.places))
        self.incidence[np.arange(len(k)), self.link_a] = -1.0
        self.incidence[np.arange(len(k)), self.link_b] = 1.0

    def _snow(self, field: Snowfield) -> None:
        """Answers along each building and along the rest of each place; reversed in time for the sums over the past."""
        sections = [self.case.building_sections, [each.section for each in self.case.places]]
        rest = np.array([each.length for each in self.case.places]) - self.length @ self.into
        self.rest = np.maximum(rest, 0.0)
        shape = (self.scenarios, self.count)
        self.pulse = np.array([[field.responses[i][s].pulse for i in sections[0]] for s in range(self.scenarios)])
        self.pulse = self.pulse.reshape(*shape, 2, 2, self.months)
        self.weather = np.array([[field.responses[i][s].weather for i in sections[0]] for s in range(self.scenarios)])
        self.weather = self.weather.reshape(*shape, 2, self.months)
        self.open_pulse = np.array([[field.responses[i][s].pulse.sum(axis=(0, 1)) for i in sections[1]]
                                    for s in range(self.scenarios)])  # fmt: skip
        self.open_weather = np.array([[field.responses[i][s].weather.sum(axis=0) for i in sections[1]]
                                      for s in range(self.scenarios)])  # fmt: skip
        film = self.case.climate.film
        self.film = film * np.array([field.responses[i][0].wall_length for i in sections[0]])
        self.open_film = film * np.array([field.responses[i][0].wall_length + field.responses[i][0].patch_width
                                          for i in sections[1]])  # fmt: skip
        self.past, self.open_past = self.pulse[..., ::-1].copy(), self.open_pulse[..., ::-1].copy()
        self.probes = np.array([[field.responses[i][s].probe for i in sections[0]] for s in range(self.scenarios)])
        self.probe_weather = np.array([[field.responses[i][s].probe_weather for i in sections[0]]
                                       for s in range(self.scenarios)])  # fmt: skip

    def run(self) -> March:
        """All months."""
        s, p, b, months, mean = self.scenarios, self.places, self.count, self.months, self.case.climate.mean
        out = {name: np.zeros((s, p, months)) for name in TERMS}
        air, wall, links, snow_heat = (np.zeros((s, p, months)) for _ in range(4))
        gap, leak, floor_loss, outside_loss, gap_outside = (np.zeros((s, b, months)) for _ in range(5))
        demand, surplus = np.zeros((s, b, months)), np.zeros((s, b, months))
        held, held_open = np.zeros((s, b, 2, months)), np.zeros((s, p, months))  # departures of wall and floor
        shares = np.zeros((s, len(self.vent_at), months)), np.zeros((s, len(self.well_at), months))
        now, below = np.full((s, p), mean), np.full((s, b), mean)
        worst = 0.0
        for n in range(months):
            surface = self.case.climate.surface[n % 12]
            history = self.weather[..., n] + np.einsum(
                "sbijm,sbjm->sbi", self.past[..., months - 1 - n : months - 1], held[..., :n]
            )
            history_open = self.open_weather[..., n] + np.einsum(
                "spm,spm->sp", self.open_past[..., months - 1 - n : months - 1], held_open[..., :n]
            )
            line = _Line(self, history, history_open, below, surface)
            fixed = self.gain[:, (n + self.case.climate.first_month) % 12]
            if n > 12:  # last year's change from month to month is a good first guess
                now = now + air[..., n - 12] - air[..., n - 13]
            now, local, doors, off = self._solve(line, fixed, surface, now)
            worst = max(worst, off)
            rise = (now - mean)[:, self.at]
            held[..., 0, n], held[..., 1, n] = line.wall[0] + line.wall[1] * rise, line.floor[0] + line.floor[1] * rise
            held_open[..., n] = line.open[0] + line.open[1] * (now - mean)
            below = mean + line.gap[0] + line.gap[1] * rise
            air[..., n], gap[..., n] = now, below
            for name in TERMS:
                out[name][..., n] = local[name]
            links[..., n] = doors
            demand[..., n], surplus[..., n], leak[..., n] = local["demand"], local["surplus"], local["leak"]
            floor_loss[..., n], outside_loss[..., n] = local["floor"], local["fresh_outside"]
            gap_outside[..., n] = self.sweep_outside * (below - surface)
            shares[0][..., n], shares[1][..., n] = local["vent_share"], local["well_share"]
            snow_heat[..., n] = (
                -local["snow"] + (line.down * (below - mean - held[..., 1, n]) * self.length) @ self.into
            )
        wall = mean + held_open
        return March(
            air=air, wall=wall, gap=gap, snow_floor=mean + held[:, :, 1], demand=demand, surplus=surplus, leak=leak,
            floor_loss=floor_loss, outside_loss=outside_loss, gap_outside=gap_outside, vent_share=shares[0],
            well_share=shares[1], terms=out, links=links, snow_heat=snow_heat, probe=self._probed(held),
            residual=worst)  # fmt: skip

    def _solve(self, line: _Line, fixed: Array, surface: float, start: Array) -> _Solved:
        """Newton's method; the last short step is put into every heat by its slope, so that the heats balance."""
        now, eye = start, np.eye(self.places)
        for _ in range(MOST):
            both = self.local(line, fixed, surface, np.stack((now, now + NUDGE)))
            exchange, carry = self._linked(now)
            slope = (both["sum"][1] - both["sum"][0]) / NUDGE
            doors = (self.incidence.T * carry[:, None, :]) @ self.incidence
            step = np.linalg.solve(eye * slope[:, None, :] + doors, -(both["sum"][0] + exchange)[..., None])[..., 0]
            if np.abs(step).max() < SHORT:
                found = {name: v[0] + (v[1] - v[0]) / NUDGE * step[:, self.seat.get(name, slice(None))]
                         for name, v in both.items()}  # fmt: skip
                links = exchange + (doors @ step[..., None])[..., 0]
                return now + step, found, links, float(np.abs(found["sum"] + links).max())
            now = self._within(now, now + np.clip(step, -15.0, 15.0))
        raise ArithmeticError("the air of the trenches did not settle")

    def _within(self, old: Array, new: Array) -> Array:
        """A step goes no further than just past the next bend of a thermostat: beyond it the slope is another."""
        above = np.where(self.bends > old[..., None], self.bends, np.inf).min(axis=-1)
        below = np.where(self.bends <= old[..., None], self.bends, -np.inf).max(axis=-1) - 2.0 * NUDGE
        found: Array = np.where(new > old, np.minimum(new, above), np.maximum(new, below))
        return found

    def _linked(self, air: Array) -> tuple[Array, Array]:
        """Heat into each place through its doorways, and minus the slope of each doorway's heat."""
        apart = air[..., self.link_a] - air[..., self.link_b]
        root = (apart**2 + DRAUGHT**2) ** 0.25
        carry = self.link_leak + self.link_open * root
        slope = carry + self.link_open * apart**2 / (2.0 * root**3)
        return (carry * apart) @ self.incidence, -slope

    def local(self, line: _Line, fixed: Array, surface: float, air: Array) -> dict[str, Array]:
        """Heat into the air of each place by name, all ways but the doorways; and what the buildings do."""
        c, here = self.case.climate, air[..., self.at]
        driven: Array = stack_flow(self.leak_area, self.tall, c.pressure, here, self.inside)
        leak = np.where(self.leak_area > 0, driven, self.leak_flow)
        across = (self.wall_roof + self.fresh_trench + self.rho_c * leak) * (self.inside - here)
        below = c.mean + line.gap[0] + line.gap[1] * (here - c.mean)
        floor = line.floor_conductance * (self.inside - below)
        fresh = self.fresh_outside * (self.inside - surface)
        need = across + floor + fresh - self.own
        surplus = np.maximum(-need, 0.0)
        found = {
            "buildings": (across + surplus) @ self.into, "gains": fixed + 0.0 * air,
            "outside": self.leak_outside * (surface - air),
            "gaps": ((self.sweep_trench + self.sweep_well) * (below - here)) @ self.into,
            "snow": -line.into_walls(air),
        }  # fmt: skip
        found["vents"], vent_share = self._vents(surface, air)
        found["wells"], well_share = self._wells(air)
        total = sum(found.values())
        return {**found, "sum": total, "demand": np.maximum(need, 0.0), "surplus": surplus, "leak": leak + 0.0 * here,
                "floor": floor, "fresh_outside": fresh + 0.0 * here, "vent_share": vent_share,
                "well_share": well_share}  # fmt: skip

    def _vents(self, surface: float, air: Array) -> tuple[Array, Array]:
        here = air[..., self.vent_at]
        share = share_running(here, self.cool_to[self.vent_at], band=BAND) * (here > surface)
        outside, pressure = np.full_like(here, surface), self.case.climate.pressure
        driven: Array = stack_flow(self.vent_area, self.vent_height, pressure, outside, here)
        flow = np.where(self.vent_area > 0, driven, self.vent_flow)
        return (share * self.rho_c * flow * (surface - here)) @ self.vent_into, share

    def _wells(self, air: Array) -> tuple[Array, Array]:
        here = air[..., self.well_at]
        share = share_running(here, self.well_set, band=BAND)
        heat = self.well_flow * (self.well_air_in - here) + self.well_power
        return (share * heat) @ self.well_into, share

    def _probed(self, held: Array) -> Array:
        """Snow temperature below each building, from the same histories."""
        months = self.months
        found = np.empty((self.scenarios, self.count, 3, months))
        size = 2 * months
        one = np.fft.rfft(self.probes.reshape(self.scenarios, self.count, 3, 2, months), size)
        two = np.fft.rfft(held, size)
        rise = np.fft.irfft(np.einsum("sbpjf,sbjf->sbpf", one, two), size)[..., :months]
        found[:] = self.case.climate.mean + rise + self.probe_weather.reshape(self.scenarios, self.count, 3, months)
        return found


class _Line:
    """Wall, snow floor, gap and open wall of a month: constant and slope in the rise of the trench air."""

    def __init__(self, m: _Months, history: Array, history_open: Array, below: Array, surface: float) -> None:
        mean = m.case.climate.mean
        half = 0.5 / (m.gap_still + m.gap_shine * below**3)  # the air layer at its temperature of the month before
        self.floor_conductance = m.length * m.width / (m.floor_resistance + half)
        down = m.width / half  # W/m/K from the gap to the snow
        room = self.floor_conductance / m.length
        sweep = m.sweep / m.length
        held = room + sweep
        # temperature that the gap would take without the snow, as constant and slope of the trench air's rise
        rest = (room * (m.inside - mean) + (m.sweep_outside * (surface - mean) + m.sweep_well * (m.well_air - mean))
                / m.length) / held  # fmt: skip
        follow = (m.sweep_trench / m.length) / held
        through = 1.0 / (1.0 / down + 1.0 / held)
        now = m.pulse[..., 0]
        a11, a12, a21, a22 = m.film + now[..., 0, 0], now[..., 0, 1], now[..., 1, 0], through + now[..., 1, 1]
        determinant = a11 * a22 - a12 * a21
        r1 = (-history[..., 0], m.film)
        r2 = (through * rest - history[..., 1], through * follow)
        self.wall = tuple((x * a22 - y * a12) / determinant for x, y in zip(r1, r2, strict=True))
        self.floor = tuple((y * a11 - x * a21) / determinant for x, y in zip(r1, r2, strict=True))
        self.gap = tuple((held * g + down * f) / (held + down) for g, f in zip((rest, follow), self.floor, strict=True))
        open_total = m.open_film + m.open_pulse[..., 0]
        self.open = (-history_open / open_total, m.open_film / open_total)
        self._m, self.down = m, down

    def into_walls(self, air: Array) -> Array:
        """Heat that the trench air gives to the snow of each place [W], building by building and along the rest."""
        m = self._m
        rise = air - m.case.climate.mean
        here = rise[..., m.at]
        beside = m.length * m.film * (here - self.wall[0] - self.wall[1] * here)
        along = m.rest * m.open_film * (rise - self.open[0] - self.open[1] * rise)
        total: Array = beside @ m.into + along
        return total


def march(case: StationCase, field: Snowfield) -> March:
    """March the station through its life.

    each month, for every place: rooms + gains + vents + wells + portals + gaps + doorways - snow = 0, with the snow's
    answer to all months before

    Parameters
    ----------
    case : StationCase [text]
        The station in numbers.
    field : Snowfield [text]
        The answers of the snow round each of its sections.
    Returns
    -------
    March [text]
        Temperatures and heats of every month.
    Validity: monthly means; air of a place is one temperature, and so is the wall of its snow; flows of air at the
        density of the site's mean temperature. Daily waves die out in the cover and are left out. Beside a general
        solver in continuous time the monthly air is within 0.25 K, in the first month within 1 K.
    Source: own_rule, energy balance; the law of the snow in snow/ground_heat.py.

    >>> from firnstead.heat.case import ClimateCase, PlaceCase, Scenario
    >>> from firnstead.snow.ground_response import Response
    >>> none, now = np.zeros((2, 12)), np.zeros((2, 2, 12))
    >>> now[:, :, 0] = 0.5  # 2 W/m/K at once, so 20 W/K along 10 m
    >>> snow = Response(now, none, np.zeros((3, 2, 12)), np.zeros((3, 12)), 10.0, 2.0)
    >>> places = (PlaceCase("store", 0, 10.0, 100.0, 0.0, (), (), 255.0, 253.0),)
    >>> climate = ClimateCase(240.0, (240.0,) * 12, 0, 7e4, 12, 5.0)  # and 600 W/K between air and wall
    >>> case = StationCase(climate, places, (), (), (), ((0.0,) * 12,))
    >>> round(float(march(case, Snowfield((Scenario("expected", 1.0, 0.5),), (), ((snow,),))).air[0, 0, 3]), 6)
    245.166667
    """
    return _Months(case, field).run()
