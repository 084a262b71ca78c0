"""What `firnstead years` prints: a progress bar while it works, then one line for each thing that must stay clear."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from math import isinf
from typing import TYPE_CHECKING

from firnstead.core.cautions import caution_for
from firnstead.core.results import Check, Verdict
from firnstead.core.units import YEAR, show

if TYPE_CHECKING:
    from rich.console import Console

    from firnstead.closure.results import ClosureForecast, PlaceClosure
    from firnstead.pipeline import Assessment


@contextmanager
def progress() -> Iterator[Callable[[int, int], None]]:
    """A bar with the time left, on the error stream, only where there is something to work out."""
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

    console = Console(file=sys.stderr)
    bar = Progress(TextColumn("Marching the sections through the years"), BarColumn(), MofNCompleteColumn(),
                   TextColumn("time left"), TimeRemainingColumn(), console=console, transient=True)  # fmt: skip
    task = None

    def told(done: int, total: int) -> None:
        nonlocal task
        if total and task is None:
            bar.start()
            task = bar.add_task("", total=total)
        if task is not None:
            bar.update(task, completed=done)

    try:
        yield told
    finally:
        if task is not None:
            bar.stop()


def print_years(made: Assessment) -> None:
    """A table of the places, worst first, what limits each, and the cautions."""
    from rich.console import Console
    from rich.table import Table

    console = Console(highlight=False, markup=False, emoji=False)
    result, system = made.results["closure"], made.station.units
    console.print(f"{made.station.name}   file {made.file.version}   closure through the years", style="bold")
    if result.softness is not None:
        fits = zip(result.softness.exponents, result.softness.k, result.softness.misfit, strict=True)
        words = "; ".join(f"creep exponent {n:g}: k {k:.0f}, misfit {show(off, 'kg/m3', system)}" for n, k, off in fits)
        console.print(f"Softness fitted to the site's own density profile. {words}.")
    table = Table(box=None, pad_edge=False)
    heads = ("place", "room lost", "band [yr]", "narrower", "floor up", "roof down", "trim")
    for index, head in enumerate(heads):
        table.add_column(head, justify="right" if index else "left", overflow="fold")
    for name, place in sorted(result.places.items(), key=lambda row: _first(row[1].forecast)):
        table.add_row(name, *_row(place, system))
    console.print(table)
    if result.places:
        ahead = show(next(iter(result.places.values())).forecast.dates[-1], "s", system)
        console.print("Room lost: years until the room beside or above what stands there is gone, as expected. "
                      f"Narrower: in the first year at half height. Floor and roof: against far snow after {ahead}, as "
                      "expected. Trim: the most in one year.")  # fmt: skip
    if result.waiting:
        console.print(f"Nothing known for: {', '.join(result.waiting)}.")
    _verdicts(console, made.studies["closure"].checks)
    console.print("More: firnstead explain STATION PLACE closure; firnstead report draws outlines and curves.")
    console.print(f"! {caution_for('closure')}")


def _row(place: PlaceClosure, system: str) -> tuple[str, ...]:
    found = place.forecast
    lost = found.side if found.side.expected <= found.top.expected else found.top
    rooms = ("not asked", "–")
    if place.what:
        rooms = (_when(lost.expected, found.dates),
                 f"{_when(lost.earliest, found.dates)} – {_when(lost.latest, found.dates)}")  # fmt: skip
    return (
        *rooms,
        show(place.first_year, "m", system),
        show(found.floor_heave.expected[-1], "m", system),
        show(found.roof_sag.expected[-1], "m", system),
        f"{show(max(found.trim, default=0.0) * place.length, 'm3', system)}" if place.what else "–",
    )


def _verdicts(console: Console, checks: tuple[Check, ...]) -> None:
    counts = {verdict: sum(c.verdict is verdict for c in checks) for verdict in Verdict}
    text = ", ".join(f"{n} {verdict}" for verdict, n in counts.items())
    console.print(f"Checks of closure: {text}.", style="bold")


def _first(found: ClosureForecast) -> float:
    return min(found.side.expected, found.top.expected)


def _when(at: float, dates: tuple[float, ...]) -> str:
    return f"over {dates[-1] / YEAR:g}" if isinf(at) else f"{at / YEAR:.1f}"
