"""A forecast with its band: the expected march, one march for each doubtful input low and high, and what they say.

A march that ends early because the void is nearly closed counts as closed from then on, and the notes say so.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from firnstead.closure.band import Band, Doubt, band_of_losses
from firnstead.closure.march import Case, March, Settings
from firnstead.closure.outcome import Envelope, Outcome, area_to_trim
from firnstead.closure.results import ClosureForecast, Loss, Range
from firnstead.core.units import YEAR
from firnstead.snow._arrays import Array


@dataclass(frozen=True)
class Variant:
    """The case with one input at its low and at its high value; a `bound` is no spread: both ends may be right."""

    name: str
    low: Case
    high: Case
    bound: bool = False


@dataclass(frozen=True, eq=False)
class _Read:
    """One march, read at the dates: columns are widths, height, heave, sag, shoulder, side and top clearance."""

    table: Array
    trimmed: Array
    outlines: tuple[tuple[tuple[float, float], ...], ...]
    note: str


def variants(
    case: Case, k_linear: float, *, k_share: float = 0.2, warmer: float = 2.0, density_share: float = 0.05
) -> tuple[Variant, ...]:
    """The usual doubts (own rule: k by a fifth, 2 K, density by a twentieth; the exponent 1 with its own k)."""
    law = case.law

    def with_k(k: float, exponent: float) -> Case:
        return replace(case, law=replace(law, k=k, exponent=exponent))

    def with_temperature(change: float) -> Case:
        air = case.air
        warm = None if air is None else (lambda time: air(time) + change)
        return replace(case, temperature=lambda depth: case.temperature(depth) + change, air=warm)

    def with_density(share: float) -> Case:
        return replace(case, density=lambda x, depth: share * case.density(x, depth))

    return (
        Variant("creep exponent", with_k(k_linear, 1.0), case, bound=True),
        Variant(
            "site constant k",
            with_k(law.k / (1.0 + k_share), law.exponent),
            with_k(law.k * (1.0 + k_share), law.exponent),
        ),
        Variant("temperature", with_temperature(-warmer), with_temperature(warmer)),
        Variant("density", with_density(1.0 - density_share), with_density(1.0 + density_share)),
    )


def forecast(
    case: Case, envelope: Envelope, needed: float, dates: Array, heights: tuple[float, ...],
    doubts: tuple[Variant, ...], *, settings: Settings | None = None, progress: Callable[[float], None] | None = None,
) -> ClosureForecast:  # fmt: skip
    """March all cases to the last of the `dates` [s, rising from 0] and draw the band of every quantity.

    `needed` [m] is the clearance that must stay beside and above the envelope; `progress` is told the share done.
    """
    runs: dict[int, _Read] = {}
    cases = [case, *(one for doubt in doubts for one in (doubt.low, doubt.high))]
    for index, one in enumerate(cases):
        if id(one) not in runs:
            runs[id(one)] = _read(one, envelope, needed, dates, heights, settings)
        if progress:
            progress((index + 1) / len(cases))
    base = runs[id(case)]
    tables = [Doubt(d.name, _moved(runs[id(d.low)]), _moved(runs[id(d.high)]), d.bound) for d in doubts]
    band = band_of_losses(_moved(base), tuple(tables))
    ranges = [_range(base, band, column, column >= len(heights) + 1) for column in range(base.table.shape[1])]
    count = len(heights)
    side, top = (_loss(base, band, dates, count + extra, needed) for extra in (4, 5))
    first = int(np.clip(np.searchsorted(dates, min(side.expected, top.expected)), 1, len(dates) - 1)) + 1
    effects = band_of_losses(  # of the lowest width when the first clearance goes; a closed void tells nothing
        _moved(base)[:first, 0], tuple(Doubt(t.name, t.low[:first, 0], t.high[:first, 0], t.bound) for t in tables)
    ).effects
    notes = tuple(sorted({run.note for run in runs.values() if run.note}))
    return ClosureForecast(
        dates=tuple(map(float, dates)), heights=heights, widths=tuple(ranges[:count]), height=ranges[count],
        floor_heave=ranges[count + 1], roof_sag=ranges[count + 2], shoulder_sag=ranges[count + 3],
        side=side, top=top, trim=_yearly(dates, base.trimmed), effects=effects, outlines=base.outlines,
        notes=notes)  # fmt: skip


def _read(
    case: Case, envelope: Envelope, needed: float, dates: Array, heights: tuple[float, ...], settings: Settings | None
) -> _Read:
    history = March(case, settings).run(float(dates[-1]))
    outcome, end = Outcome(history), history.frames[-1].time * (1.0 + 1e-9)
    roofed = len(history.mesh.edges["roof"]) > 0
    rows, trimmed, outlines = [], [], []
    for date in dates:
        held = min(float(date), end)
        void = outcome.void(held)
        sag = [-outcome.rise(held, "roof", at_wall=edge) for edge in (False, True)] if roofed else [0.0, 0.0]
        gone = float(date) > end
        seen = [2.0 * void.half_width(h) for h in heights] + [void.height]
        clear = [envelope.side_clearance(void), envelope.top_clearance(void)]
        closed = [-envelope.half_width, -envelope.height]
        rows.append([0.0 if gone else value for value in seen] + [outcome.rise(held, "floor"), *sag])
        rows[-1] += closed if gone else clear
        trimmed.append(area_to_trim(void, envelope.half_width + needed, envelope.height + needed))
        outlines.append(tuple((float(x), float(y)) for x, y in void.line))
    note = f"after {end / YEAR:.1f} years taken as closed: {history.note}" if history.note else ""
    return _Read(np.array(rows), np.array(trimmed), tuple(outlines), note)


def _moved(run: _Read) -> Array:
    """Movement since the start, positive: losses of room, and heave and sag."""
    change = run.table - run.table[0]
    closing = np.ones(run.table.shape[1])
    closing[:-5], closing[-2:] = -1.0, -1.0
    moved: Array = np.maximum(change * closing, 0.0)
    return moved


def _range(base: _Read, band: Band, column: int, moves: bool) -> Range:
    """The band of a movement itself, or of the room that it leaves."""
    start, moved = base.table[0, column], _moved(base)[:, column] > 0.0
    rows = []
    for side in (band.least, band.expected, band.greatest):
        end = np.where(moved, side[:, column], 0.0)
        rows.append(tuple(map(float, end if moves else np.maximum(start - end, 0.0))))
    return Range(*rows)


def _loss(base: _Read, band: Band, dates: Array, column: int, needed: float) -> Loss:
    start = base.table[0, column]
    fast, middle, slow = (
        _crossing(dates, start - side[:, column], needed) for side in (band.greatest, band.expected, band.least)
    )
    return Loss(fast, middle, slow)


def _crossing(dates: Array, clearance: Array, needed: float) -> float:
    below = np.flatnonzero(clearance < needed)
    if not below.size:
        return float("inf")
    at = int(below[0])
    if at == 0:
        return float(dates[0])
    share = (clearance[at - 1] - needed) / (clearance[at - 1] - clearance[at])
    return float(dates[at - 1] + share * (dates[at] - dates[at - 1]))


def _yearly(dates: Array, trimmed: Array) -> tuple[float, ...]:
    years = np.arange(int(dates[-1] / YEAR + 1e-9) + 1) * YEAR
    return tuple(float(x) for x in np.maximum(np.diff(np.interp(years, dates, trimmed)), 0.0))
