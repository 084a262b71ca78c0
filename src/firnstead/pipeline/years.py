"""Work out the years: every distinct section of a station once, with progress, kept as each one is done."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from firnstead.core.memo import Memo
from firnstead.pipeline.kept import KeptYears
from firnstead.station import StationFile

Progress = Callable[[int, int], None]


@dataclass(frozen=True)
class Years:
    """What a run did: distinct sections, marches worked out now, marches that were there."""

    sections: int
    marched: int
    there: int


def work_out_years(
    file: StationFile, kept: KeptYears, memo: Memo | None = None, progress: Progress | None = None
) -> Years:  # fmt: skip
    """March every distinct section that is not kept yet; `progress` is told the marches done and those to do."""
    from firnstead import closure
    from firnstead.closure.trace import trace_of
    from firnstead.pipeline.assess import ground_of

    station = file.station
    ground = ground_of(station, memo if memo is not None else Memo())
    snow = ground.snow.result
    soft = kept.softness(station, snow)
    if soft is None:
        soft = closure.fit(station, snow)
        kept.keep_softness(station, soft)
    families = closure.wanted(station, snow, soft, ground.loads, ground.air)
    todo = [specs for specs in families if kept.family(specs) is None]
    total, done = sum(map(len, todo)), 0
    if progress:
        progress(0, total)
    for specs in todo:
        traces = {}
        for name, spec in specs.items():
            traces[name] = trace_of(spec)
            done += 1
            if progress:
                progress(done, total)
        kept.keep_family(specs, traces)
    return Years(len(families), total, sum(map(len, families)) - total)
