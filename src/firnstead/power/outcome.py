"""The numbers of the year as a result: tables for chapters, plots and drawings."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from firnstead.power._net import Array, Feeding
from firnstead.power.case import OUTSIDE, Case, FeederCase
from firnstead.power.demand import (
    capacity_factor,
    coincident_demand,
    demand_factor,
    diversity_factor,
    load_factor,
    use_factor,
)
from firnstead.power.numbers import DAYS, NO_SHED, Numbers, by_month, in_year
from firnstead.power.results import (
    BoardRow,
    ConstructionPower,
    EnergyYear,
    FeederRow,
    LoadRow,
    LostPlace,
    PowerYear,
    Resupply,
    Row,
    SetRow,
    ShedStep,
    Table,
)
from firnstead.power.sets import fuel_flow
from firnstead.power.stock import burnt_in, drums_needed, time_of_stock


def result_of(n: Numbers, waste_used: Row | None = None) -> PowerYear:
    """The result; `waste_used` [W] by month is what others take of the waste heat."""
    case, peak = n.case, n.peak_hour
    waste = waste_by_month(n)
    connected = sum(load.connected for load in case.loads)
    together = float(n.load.max(initial=0.0))
    mean = in_year(n.need) / in_year(np.ones(288))
    ready = sum(in_year(s.of.engine.power * s.running.astype(float)) for s in n.sets)
    given = in_year(n.given)
    return PowerYear(
        pressure=case.pressure, load=_table(n.need), share=_table(n.share),
        running=tuple(tuple(int(x) for x in row) for row in n.running.reshape(12, 24)),
        jacket=_table(_sum(s.jacket for s in n.sets)), exhaust=_table(_sum(s.exhaust for s in n.sets)),
        waste=waste, gains=_gains(n, waste, waste_used), fuel=fuel_by_month(n), duration=_duration(n),
        peak=float(n.need_firm[peak]), peak_month=peak // 24 + 1, peak_hour=peak % 24, connected=connected,
        demand_factor=demand_factor(together, connected) if connected > 0 else 0.0,
        diversity=diversity_factor([load.demand for load in case.loads], together) if together > 0 else 1.0,
        load_factor=load_factor(mean, float(n.need.max())) if n.need.max() > 0 else 0.0,
        capacity_factor=capacity_factor(mean, n.all_power) if n.all_power > 0 else 0.0,
        use_factor=use_factor(given, ready) if ready > 0 else 0.0, loads=_loads(n), sets=_sets(n), boards=_boards(n),
        feeders=_feeders(n), shedding=_shedding(n),
        lost_places=tuple(LostPlace(x.place, x.power, x.need, x.cut_off, x.level) for x in n.lost),
        energy=_energy(n), resupply=resupply_of(n), drums=drums_of(case),
        construction=construction_of(case))  # fmt: skip


def _table(values: Array) -> Table:
    return tuple(tuple(float(x) for x in row) for row in values.reshape(12, 24))


def _sum(rows: Iterable[Array]) -> Array:
    total = np.zeros(288)
    for row in rows:
        total += row
    return total


def waste_by_month(n: Numbers) -> Row:
    """Mean heat for use in each month [W]."""
    heat = _sum(s.jacket + s.exhaust for s in n.sets)
    for source in n.case.sources:
        heat = heat + np.repeat(np.array(source.year) * source.heat, 24)
    return by_month(heat)


def fuel_by_month(n: Numbers) -> Row:
    """Fuel that the sets burn in each month [kg]."""
    flow = _sum(s.flow for s in n.sets)
    each = (flow * DAYS).reshape(12, 24).sum(axis=1) * 3600.0 * n.case.fuel.density
    return tuple(float(x) for x in each)


def _gains(n: Numbers, waste: Row, used: Row | None) -> dict[str, Row]:
    gains: dict[str, Array] = {}

    def add(place: str, row: Array) -> None:
        gains[place] = gains.get(place, np.zeros(12)) + row

    left = np.array([
        1.0 if used is None or w <= 0 else min(1.0, max(0.0, 1.0 - u / w))
        for w, u in zip(waste, used or waste, strict=True)])  # fmt: skip
    for s in n.sets:
        add(s.of.place, np.array(by_month(s.radiated)))
        if s.of.in_place:
            add(s.of.place, np.array(by_month(s.jacket)) * left)
    for source in n.case.sources:
        add(source.place, np.array(source.year) * source.to_place)
    places = {board.name: board.place for board in n.case.boards}
    for f, loss in zip(n.normal.fed_by, n.normal.loss, strict=True):
        if f is not None:
            whole = sum(length for _, length in f.legs)
            legs = f.legs if whole > 0 else ((places[f.start], 1.0),)
            for place, length in legs:
                add(place, np.array(by_month(loss)) * (length / (whole if whole > 0 else 1.0)))
    return {place: tuple(float(x) for x in row) for place, row in gains.items() if place != OUTSIDE}


def _duration(n: Numbers) -> tuple[tuple[float, float], ...]:
    order = np.argsort(-n.need, kind="stable")
    hours = np.cumsum(DAYS[order])
    return tuple((float(h), float(p)) for h, p in zip(hours, n.need[order], strict=True))


def _loads(n: Numbers) -> tuple[LoadRow, ...]:
    scale = 1.0 / n.case.diversity
    return tuple(
        LoadRow(load.name, load.board, load.place, load.connected, load.demand, float(row[n.peak_hour]) * scale,
                by_month(row * scale), in_year(row * scale), load.essential, 0 if load.essential else load.shed,
                load.worked_out)
        for load, row in zip(n.case.loads, n.demand, strict=True)
    )  # fmt: skip


def _sets(n: Numbers) -> tuple[SetRow, ...]:
    rows = []
    for s in n.sets:
        of, low = s.of, s.share < s.of.lowest * (1 - 1e-9)
        rows.append(SetRow(
            of.name, of.place, of.board, of.main, of.count, of.engine.rated, of.engine.factor, of.engine.power,
            in_year(s.electric), in_year(s.flow) * n.case.fuel.density, in_year(s.running.astype(float)) / 3600.0,
            float(s.share.min()) if s.running.any() else 0.0, float(DAYS[low].sum()),
            of.engine.fuel_factor))  # fmt: skip
    return tuple(rows)


def _boards(n: Numbers) -> tuple[BoardRow, ...]:
    rows = []
    for board in n.case.boards:
        own = [row for load, row in zip(n.case.loads, n.demand, strict=True) if load.board == board.name]
        case, drop, hour = worst_drop(n, board.name)
        at = n.normal.of(board.name)
        fed = n.normal.fed_by[at] if at is not None else None
        greatest = float(np.sum(own, axis=0).max()) if own else 0.0
        rows.append(BoardRow(
            board.name, board.place, fed.name if fed is not None else "", greatest, drop,
            float(n.normal.drop[at].max()) if at is not None else 0.0, case, hour // 24 + 1, hour % 24))  # fmt: skip
    return tuple(rows)


def worst_drop(n: Numbers, board: str) -> tuple[str, float, int]:
    """Way of feeding, drop as a share and hour in which a board has its lowest voltage."""
    found = []
    for feeding in n.feedings:
        at = feeding.of(board)
        if at is not None:
            hour = int(np.argmax(feeding.drop[at]))
            found.append((feeding.name, float(feeding.drop[at, hour]), hour))
    return max(found, key=lambda each: each[1], default=("", 0.0, 0))


def worst_current(n: Numbers, feeder: FeederCase) -> tuple[Feeding | None, float, int]:
    """Way of feeding, current of one cable [A] and hour in which a feeder carries most."""
    found: list[tuple[Feeding | None, float, int]] = [(None, 0.0, 0)]
    for feeding in n.feedings:
        for at, fed in enumerate(feeding.fed_by):
            if fed is feeder:
                current = np.abs(feeding.flow.current[at])
                hour = int(np.argmax(current))
                found.append((feeding, feeder.line_current(float(current[hour])), hour))
    return max(found, key=lambda each: each[1])


def _feeders(n: Numbers) -> tuple[FeederRow, ...]:
    rows = []
    for f in n.case.feeders:
        feeding, current, _ = worst_current(n, f)
        at = next((i for i, fed in enumerate(n.normal.fed_by) if fed is f), None)
        rows.append(FeederRow(
            f.name, f.start, f.end, f.cable.name, f.parallel, f.length, f.legs, f.resistance,
            f.cable.cold * f.length / f.parallel, f.reactance, current, feeding.name if feeding is not None else "",
            0.0 if at is None else float(n.normal.arriving[at].real.max()),
            0.0 if at is None else float(n.normal.loss[at].max()),
            0.0 if at is None else in_year(n.normal.loss[at]), f.normally_open))  # fmt: skip
    return tuple(rows)


def _shedding(n: Numbers) -> tuple[ShedStep, ...]:
    scale, peak, needed = 1.0 / n.case.diversity, n.peak_hour, n.level_one_fails
    steps = []
    for order in n.levels:
        off = [(load.name, float(row[peak]) * scale) for load, row in zip(n.case.loads, n.demand, strict=True)
               if not load.essential and load.shed == order]  # fmt: skip
        steps.append(ShedStep(
            order, tuple(name for name, _ in off), sum(power for _, power in off), float(n.kept_load(order)[peak]),
            bool(needed[peak] != NO_SHED and needed[peak] >= order), float(DAYS[needed >= order].sum())))  # fmt: skip
    return tuple(steps)


def _energy(n: Numbers) -> EnergyYear:
    def total(name: str) -> float:
        return sum(in_year(getattr(s, name)) for s in n.sets)

    return EnergyYear(
        fuel=total("fuel"), electric=total("electric"), jacket=total("jacket"), exhaust=total("exhaust"),
        radiated=total("radiated"), stack=total("stack"), sources=in_year(n.sources),
        curtailed=in_year(n.given_by_sources(firm=False) - n.sources), served=in_year(n.load), lost=in_year(n.loss),
        unserved=in_year(n.unserved))  # fmt: skip


def resupply_of(n: Numbers) -> Resupply:
    """Fuel from the stated month on, or from the month from which it lasts shortest."""
    fuel = n.case.fuel
    burnt = tuple(a + b for a, b in zip(fuel_by_month(n), n.case.other_fuel, strict=True))
    months = range(12) if fuel.month is None else (fuel.month - 1,)
    start = max(months, key=lambda month: burnt_in(fuel.interval, burnt, month))
    return Resupply(burnt, sum(burnt), start + 1, burnt_in(fuel.interval, burnt, start), fuel.usable,
                    time_of_stock(fuel.usable, burnt, start))  # fmt: skip


def drums_of(case: Case) -> tuple[tuple[str, float, int, float], ...]:
    """Cable, its whole length [m], drums, mass of the cable [kg]."""
    rows = []
    for cable in dict.fromkeys(f.cable for f in case.feeders):
        lengths = [f.length for f in case.feeders if f.cable is cable for _ in range(f.parallel)]
        rows.append((cable.name, sum(lengths), drums_needed(lengths, cable.drum_length), sum(lengths) * cable.mass))
    return tuple(rows)


def construction_of(case: Case) -> ConstructionPower | None:
    """Power while the station is built."""
    c = case.construction
    if c is None:
        return None
    demand = coincident_demand([power for _, power, _ in c.loads], [factor for _, _, factor in c.loads])
    running = max(1, int(np.ceil(demand / c.engine.power - 1e-9)))
    flow = fuel_flow(np.array(demand * c.mean_share), np.array(running * c.engine.rated), c.engine.idle,
                     c.engine.slope, c.engine.fuel_factor)  # fmt: skip
    burnt = float(flow) * c.hours_per_day * 3600.0 * c.days * case.fuel.density
    return ConstructionPower(demand, c.engine.power, c.count, burnt)
