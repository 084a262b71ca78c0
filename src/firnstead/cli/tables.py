"""What the commands print for people."""

from __future__ import annotations

import textwrap
from difflib import get_close_matches
from typing import TYPE_CHECKING

from firnstead.core.cautions import CAUTIONS, SHORT
from firnstead.core.errors import NoSuchPlace
from firnstead.core.results import WHOLE, Check, Verdict, as_plain
from firnstead.reports.quantities import place_quantities, undercut_rows
from firnstead.reports.words import pair, ratio_text, shown
from firnstead.station import Station

if TYPE_CHECKING:
    from rich.console import Console

    from firnstead.pipeline import Assessment

NEAREST = 4  # checks shown for each place unless all are asked for
_STYLE = {Verdict.HOLDS: "", Verdict.CLOSE: "italic", Verdict.FAILS: "bold reverse", Verdict.NOT_CHECKED: "dim"}
_RANK = {Verdict.FAILS: 0, Verdict.CLOSE: 1, Verdict.HOLDS: 2, Verdict.NOT_CHECKED: 3}


def worst_first(check: Check) -> tuple[int, float]:
    """Order of reading: fails, close, holds by falling share of the limit, then not checked."""
    return _RANK[check.verdict], -(float("inf") if check.ratio is None else check.ratio)


def place_named(station: Station, name: str) -> str:
    """The place a user means; NoSuchPlace with the nearest name if there is none."""
    known = [*station.places, *station.end_walls, *station.portals, *station.hatches, *station.buildings, WHOLE]
    if not name or name in known:
        return name
    folded = {k.casefold(): k for k in known}
    if name.casefold() in folded:
        return folded[name.casefold()]
    near = get_close_matches(name.casefold(), list(folded), n=1, cutoff=0.4)
    hint = f" Did you mean {folded[near[0]]!r}?" if near else f" Places: {', '.join(station.places)}."
    raise NoSuchPlace(f"There is no place {name!r}.{hint}")


def select(made: Assessment, place: str, discipline: str) -> list[Check]:
    """The checks of one place and discipline, worst first."""
    wanted = place_named(made.station, place)
    if discipline and discipline not in made.studies:
        raise NoSuchPlace(f"There is no discipline {discipline!r}. There are: {', '.join(made.studies)}.")
    found = [c for c in made.checks if c.place == wanted and discipline in ("", c.discipline)]
    if not found:
        raise NoSuchPlace(f"Nothing is checked for {wanted!r}{f' in {discipline}' if discipline else ''}.")
    return sorted(found, key=worst_first)


def print_check(made: Assessment, only: str, everything: bool) -> None:
    """A table for each place, then the summary and the cautions."""
    console = _console()
    system = made.station.units
    places = list(dict.fromkeys(c.place for c in made.checks))
    order = sorted(places, key=lambda p: min(worst_first(c) for c in made.checks if c.place == p))
    console.print(f"{made.station.name}   file {made.file.version}   dated {made.station.dated}", style="bold")
    if made.station.remark:
        console.print(made.station.remark)
    for place in order if not only else [only]:
        found = sorted((c for c in made.checks if c.place == place), key=worst_first)
        shown = found if everything or only else _nearest(found)
        _print_place(console, place, found, shown, system)
    _print_summary(console, made)


def _nearest(found: list[Check]) -> list[Check]:
    """What must be read: everything that fails or is close, then the nearest others."""
    urgent = [c for c in found if c.verdict in (Verdict.FAILS, Verdict.CLOSE)]
    return (
        urgent + [c for c in found if c not in urgent and c.verdict is Verdict.HOLDS][: max(0, NEAREST - len(urgent))]
    )


def _print_place(console: Console, place: str, found: list[Check], shown: list[Check], system: str) -> None:
    from rich.table import Table
    from rich.text import Text

    open_count = sum(c.verdict is Verdict.NOT_CHECKED for c in found)
    title = f"{place}: {len(found)} checks" + (f", {open_count} not checked" if open_count else "")
    wide = console.width >= 110
    table = Table(title=title, title_justify="left", title_style="bold", box=None, pad_edge=False, expand=False)
    table.add_column("verdict", no_wrap=True)
    table.add_column("share", justify="right", no_wrap=True)
    if wide:
        table.add_column("of the limit", no_wrap=True)
    table.add_column("question", min_width=26, overflow="fold")
    table.add_column("demand", justify="right", no_wrap=True)
    table.add_column("limit", justify="right", no_wrap=True)
    for c in shown:
        demand, limit = pair(c.demand, c.limit, c.unit, system)
        if c.verdict is not Verdict.NOT_CHECKED:
            limit = f"{'≤' if c.sense == 'at most' else '≥'} {limit}"
        share = ratio_text(c.ratio, c.verdict)
        bar = [_bar(c.ratio) if c.ratio is not None else ""] if wide else []
        verdict = Text(c.verdict, style=_STYLE[c.verdict])
        table.add_row(verdict, share, *bar, _asked(c, place), demand, limit)
    console.print()
    console.print(table)
    if len(shown) < len(found):
        console.print(f"  … {len(found) - len(shown)} more with --all or --place", style="dim")


def _asked(check: Check, place: str) -> str:
    """The question, with the subject where it is more than the place itself."""
    return check.question if check.subject.endswith(f'"{place}"') else f"{check.subject}: {check.question}"


def _bar(ratio: float, width: int = 12) -> str:
    """A bar with its tick at 1: `#####-----|--`."""
    tick = int(width * 0.75)
    filled = min(width, round(ratio * tick))
    cells = ["#" if i < filled else "." for i in range(width)]
    cells.insert(tick, "|")
    return "".join(cells)


def _print_summary(console: Console, made: Assessment) -> None:
    counts = made.counts()
    console.print()
    console.print("Summary: " + ", ".join(f"{n} {verdict}" for verdict, n in counts.items()) + ".", style="bold")
    console.print(_totals(made))
    unchecked = [c for c in made.checks if c.verdict is Verdict.NOT_CHECKED]
    if unchecked:
        console.print("Not checked, and why (a reason may differ from place to place; see --json or the report):")
    for question in dict.fromkeys(c.question for c in unchecked):
        mine = [c for c in unchecked if c.question == question]
        times = f" ({len(mine)} times)" if len(mine) > 1 else ""
        _bullet(console, "-", f"{question}{times}: {mine[0].reason}")
    console.print("Cautions:")
    for caution in CAUTIONS:
        _bullet(console, "!", caution)


def print_explain(made: Assessment, checks: list[Check]) -> None:
    """The working of each check, one line a step."""
    from firnstead.core.sources import source
    from firnstead.core.working import plain

    console = _console()
    system = made.station.units
    for c in checks:
        console.print()
        console.print(f"{c.subject}: {c.question}", style="bold")
        for step in c.working:
            console.print(f"  {plain(step, system)}", soft_wrap=True)
        if c.limit is not None:
            demand, limit = pair(c.demand, c.limit, c.unit, system)
            sense = "limit" if c.verdict is Verdict.NOT_CHECKED else c.sense
            console.print(f"  Demand {demand} against {sense} {limit}: share {ratio_text(c.ratio, c.verdict)}")
        console.print(f"  Verdict: {c.verdict}" + (f" ({c.reason})" if c.reason else ""), style=_STYLE[c.verdict])
        if c.caution:
            _bullet(console, "!", c.caution)
    cited = sorted({key for c in checks for key in c.sources})
    if cited:
        console.print("\nSources:")
        for reference in cited:
            console.print(f"  {reference}: {source(reference).citation()}")
    console.print(f"\n! {SHORT}")


def print_quantities(made: Assessment, place: str, discipline: str) -> None:
    """What a place takes, and what its undercut saves."""
    console = _console()
    results = as_plain({d: r for d, r in made.results.items() if d != "snow" and discipline in ("", d)})
    rows = place_quantities(results, place, made.station.units)
    if rows:
        console.print(f"\nQuantities of {place}", style="bold")
        for what, value in rows:
            console.print(f"  {what}: {value}")
    gain = undercut_rows(results, place, made.station.units)
    if gain:
        console.print("\nUndercut against a straight cut with the same floor", style="bold")
        for what, here, saved in gain:
            console.print(f"  {what}: {saved if here == '–' else f'{here}; {saved}'}")


def _bullet(console: Console, mark: str, text: str) -> None:
    """A line that hangs under its mark when it is broken."""
    width = max(40, console.width - 1)
    console.print(textwrap.fill(text, width, initial_indent=f"  {mark} ", subsequent_indent="    "), soft_wrap=True)


def _totals(made: Assessment) -> str:
    """One line of what the whole station takes."""
    cut, roof, items = made.results["cutting"], made.results["roof"], made.work_items
    hours = sum(m.hours for m in cut.millers.values())
    system = made.station.units
    people = sum(i.hours * i.people for i in items)
    return (f"Quantities: {shown(cut.volume, 'm3', system, 4)} of snow cut in {hours:,.0f} miller hours, "
            f"{shown(roof.steel_mass, 'kg', system)} of arch steel, {shown(roof.cover_volume, 'm3', system)} of cover, "
            f"{people:,.0f} person-hours at the stated outputs.")  # fmt: skip


def _console() -> Console:
    from rich.console import Console

    return Console(highlight=False, markup=False, emoji=False, width=None)
