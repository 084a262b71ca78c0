"""A forecast with its band, read off the marches of one section: as expected, and each doubtful input low and high.

A march that ends early because the void is nearly closed counts as closed from then on, and the notes say so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from firnstead.closure.band import Band, Doubt, band_of_losses
from firnstead.closure.outcome import Envelope, area_to_trim
from firnstead.closure.results import Change, ClosureForecast, Loss, Outline, Range
from firnstead.closure.spec import CHANGES, DOUBTS, EXPECTED, Doubted
from firnstead.closure.trace import Trace
from firnstead.core.units import YEAR
from firnstead.snow._arrays import Array

MOVES = 4  # heave, sag, shoulder, inward: the columns between the rooms and the two clearances
SMALL_GAIN = 0.02 * YEAR


@dataclass(frozen=True, eq=False)
class _Read:
    """One march at its dates: columns are widths, height, heave, sag, shoulder, inward, side and top clearance."""

    table: Array


def forecast(
    traces: Mapping[str, Trace], envelope: Envelope, needed: float, heights: tuple[float, ...],
    doubts: tuple[Doubted, ...] = DOUBTS, outline_years: tuple[float, ...] = (0.0, 1.0, 2.0, 5.0, 10.0),
    raised: float = 0.0,
) -> ClosureForecast:  # fmt: skip
    """Draw the band of every quantity from the marches of one section (names as in spec.family_of).

    `needed` [m] is the clearance that must stay beside and above the envelope, `heights` are the shares of the height
    on the day at which widths are given; outlines are given from the snow surface, `raised` [m] below the meshed top.
    """
    base_trace = traces[EXPECTED]
    dates = base_trace.dates
    runs = {name: _read(trace, envelope, heights) for name, trace in traces.items()}
    base = runs[EXPECTED]
    kept = [d for d in doubts if d.low in runs and d.high in runs]
    tables = [Doubt(d.name, _moved(runs[d.low]), _moved(runs[d.high]), d.bound) for d in kept]
    band = band_of_losses(_moved(base), tuple(tables))
    count = len(heights)
    ranges = [_range(base, band, column, column > count) for column in range(count + 1 + MOVES)]
    side, top = (_loss(base, band, dates, count + 1 + MOVES + extra, needed) for extra in (0, 1))
    first = int(np.clip(np.searchsorted(dates, min(side.expected, top.expected)), 1, len(dates) - 1)) + 1
    effects = band_of_losses(  # of the lowest width when the first clearance goes; a closed void tells nothing
        _moved(base)[:first, 0], tuple(Doubt(t.name, t.low[:first, 0], t.high[:first, 0], t.bound) for t in tables)
    ).effects
    ends = (band.least, band.expected, band.greatest)
    gone = _moved(base) > 0.0
    room = [
        Range(*(
            tuple(float(x) for x in base.table[0, at] - np.maximum.accumulate(np.where(gone, end, 0.0)[:, at]))
            for end in ends))
        for at in (-2, -1)
    ]  # fmt: skip
    return ClosureForecast(
        dates=tuple(map(float, dates)), heights=heights, widths=tuple(ranges[:count]), height=ranges[count],
        floor_heave=ranges[count + 1], roof_sag=ranges[count + 2], shoulder_sag=ranges[count + 3],
        shoulder_in=ranges[count + 4], side_room=room[0], top_room=room[1], side=side, top=top,
        trim=_yearly(dates, _trimmed(base_trace, envelope, needed)), effects=effects,
        changes=_changes(runs, dates, needed, min(side.expected, top.expected)),
        outlines=_outlines(base_trace, outline_years, raised),
        notes=tuple(sorted({trace.note for trace in traces.values() if trace.note})))  # fmt: skip


def _read(trace: Trace, envelope: Envelope, heights: tuple[float, ...]) -> _Read:
    rows = []
    for index, date in enumerate(trace.dates):
        void = trace.void(index)
        moves = [trace.heave[index], trace.sag[index], trace.shoulder[index], trace.inward[index]]
        if date > trace.end:
            seen, clear = [0.0] * (len(heights) + 1), [-envelope.half_width, -envelope.height]
        else:
            seen = [*(2.0 * void.half_widths(np.array(heights) * void.height)), void.height]
            clear = [envelope.side_clearance(void), envelope.top_clearance(void)]
        rows.append([*seen, *moves, *clear])
    return _Read(np.array(rows, dtype=np.float64))


def _trimmed(trace: Trace, envelope: Envelope, needed: float) -> Array:
    """Snow that stands where nothing may stand, at each date [m3/m]."""
    wide, high = envelope.half_width + needed, envelope.height + needed
    return np.array([area_to_trim(trace.void(index), wide, high, strips=80) for index in range(len(trace.dates))])


def _moved(run: _Read) -> Array:
    """Most movement so far, positive: losses of room, and heave, sag and inward movement."""
    change = run.table - run.table[0]
    closing = -np.ones(run.table.shape[1])
    closing[-2 - MOVES : -2] = 1.0
    moved: Array = np.maximum.accumulate(np.maximum(change * closing, 0.0), axis=0)
    return moved


def _range(base: _Read, band: Band, column: int, moves: bool) -> Range:
    """The band of a movement itself, or of the room that it leaves."""
    start, moved = base.table[0, column], _moved(base)[:, column] > 0.0
    rows = []
    for side in (band.least, band.expected, band.greatest):
        end = np.maximum.accumulate(np.where(moved, side[:, column], 0.0))
        rows.append(tuple(map(float, end if moves else np.maximum(start - end, 0.0))))
    return Range(*rows)


def _loss(base: _Read, band: Band, dates: Array, column: int, needed: float) -> Loss:
    start = base.table[0, column]
    fast, middle, slow = (
        crossing(dates, start - np.maximum.accumulate(side[:, column]), needed)
        for side in (band.greatest, band.expected, band.least)
    )
    return Loss(fast, middle, slow)


def crossing(dates: Array, clearance: Array, needed: float) -> float:
    """Date [s] at which a clearance falls below what is needed, by straight lines between dates; infinite if never."""
    below = np.flatnonzero(clearance < needed)
    if not below.size:
        return float("inf")
    at = int(below[0])
    if at == 0:
        return float(dates[0])
    share = (clearance[at - 1] - needed) / (clearance[at - 1] - clearance[at])
    return float(dates[at - 1] + share * (dates[at] - dates[at - 1]))


def _changes(runs: Mapping[str, _Read], dates: Array, needed: float, before: float) -> tuple[Change, ...]:
    """What each change of design would do to the date at which the first clearance goes, the greatest gain first."""
    made = []
    for name in CHANGES:
        if name in runs and before < float("inf"):
            then = min(crossing(dates, runs[name].table[:, column], needed) for column in (-2, -1))
            made.append(Change(name, then, then - before))
    return tuple(sorted(made, key=lambda change: -change.gained))


def _outlines(trace: Trace, years: tuple[float, ...], raised: float) -> tuple[Outline, ...]:
    made = []
    for year in years:
        index = int(np.searchsorted(trace.dates, year * YEAR - 1.0))
        if index < len(trace.dates) and trace.dates[index] <= trace.end:
            made.append(Outline(year, tuple((float(x), float(y) + raised) for x, y in trace.lines[index])))
    return tuple(made)


def _yearly(dates: Array, trimmed: Array) -> tuple[float, ...]:
    years = np.arange(int(dates[-1] / YEAR + 1e-9) + 1) * YEAR
    return tuple(float(x) for x in np.maximum(np.diff(np.interp(years, dates, trimmed)), 0.0))
