"""What `firnstead escape` prints: the worst places and what to do, times, blockings, siting."""

from __future__ import annotations

import sys
import textwrap
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from firnstead.core.cautions import CAUTIONS, caution_for
from firnstead.core.results import Study, as_plain
from firnstead.core.units import convert, number_text, shown_unit, unit_text
from firnstead.reports import escape_rows as rows
from firnstead.reports.fire_pages import fire_words, worst_ways
from firnstead.reports.words import counted, ratio_text, shown, verdict_sentence

if TYPE_CHECKING:
    from rich.console import Console

    from firnstead.escape import BlockedSpot, HatchSpot, SitingResult
    from firnstead.pipeline import Assessment

LISTED = 12  # names in one line; more are only counted
WHOLE_NAME = 18  # characters of a name that are never broken


@contextmanager
def progress() -> Iterator[Callable[[str, float], None]]:
    """A bar on the error stream while hatches are sited."""
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TaskProgressColumn, TextColumn, TimeElapsedColumn

    words = {"cases": "Looking at every blocked spot", "fewest": "Looking for the fewest hatches"}
    bar = Progress(TextColumn("{task.description}"), BarColumn(), TaskProgressColumn(), TimeElapsedColumn(),
                   console=Console(file=sys.stderr), transient=True)  # fmt: skip
    with bar:
        task = bar.add_task("Looking at the station", total=1.0)

        def told(what: str, share: float) -> None:
            bar.update(task, description=words.get(what, what), completed=share)

        yield told


def print_escape(made: Assessment, escape: Study, fire: Study | None) -> None:
    """Worst places, what to do, times, one spot blocked, what is not checked."""
    console, system = _console(), made.station.units
    checks = as_plain(escape.checks)
    console.print(f"{made.station.name}   file {made.file.version}   ways out", style="bold")
    if escape.result is None:
        _unchecked(console, checks)
        return
    result = as_plain(escape.result)
    console.print(verdict_sentence(checks), style="bold")
    console.print(rows.limits_sentence(result, system))
    found = rows.place_rows(result, checks)
    _places(console, found, system)
    _to_do(console, rows.to_do(result, checks, system))
    _times(console, found)
    _hours(console, result)
    if fire is not None:
        _smoke(console, as_plain(fire), result)
    _rooms(console, result, system)
    _exits(console, result)
    if pairs := rows.pairs_sentence(result, system):
        console.print("\nEvery two spots blocked", style="bold")
        console.print(pairs)
    _unchecked(console, [*checks, *(c for c in as_plain(fire.checks if fire else ()) if of_ways(c))])


def _places(console: Console, found: Sequence[rows.PlaceRow], system: str) -> None:
    m = _metre(system)
    table = _table(f"Places, worst first (lengths in {m})", "place", "verdict", "share", "walk", "one spot blocked",
                   "to a choice", "dead end", "ways apart")  # fmt: skip
    for row in found:
        p = row.place
        verdict, share = ("not checked", "–") if row.check is None else (
            row.check["verdict"], ratio_text(row.check["ratio"], row.check["verdict"]))  # fmt: skip
        table.add_row(row.name, verdict, share, _length(p["travel"], system),
                      "cut off" if p["blocked"] is None else _length(p["blocked"], system),
                      _length(p["common_path"], system), _length(p["dead_end"], system),
                      f"{_length(p['separation'], system)} of {_length(p['diagonal'], system)}")  # fmt: skip
    _show(console, table)
    console.print("Walk: from the farthest spot to the nearest exit. One spot blocked: the same with the worst spot "
                  "blocked. To a choice: before two separate ways are open. Ways apart: between the two ways out "
                  "farthest apart, of the diagonal of the floor.")  # fmt: skip


def _to_do(console: Console, found: Sequence[tuple[str, str, str]]) -> None:
    console.print("\nWhat to do, worst first", style="bold")
    for what, places, cure in found:
        _bullet(console, "-", f"{what}: {places}.")
        _bullet(console, " ", f"To do: {cure}.")
    if not found:
        console.print("  Nothing fails and nothing is close to a limit.")


def _times(console: Console, found: Sequence[rows.PlaceRow]) -> None:
    timed = [row for row in found if row.times is not None]
    if not timed:
        return
    table = _table("Time to get out, slowest person of each place (minutes)", "place", "hydraulic", "simplified",
                   "needed", "smoke leaves", "margin", "who, hour, blocked", left=(0, 6))  # fmt: skip
    for row in timed:
        t = row.times
        assert t is not None
        table.add_row(row.name, rows.minutes(t.hydraulic), rows.minutes(t.imo), rows.minutes(t.needed),
                      rows.minutes(row.available), rows.minutes(row.margin), t.words())  # fmt: skip
    _show(console, table)
    console.print(
        "Hydraulic and simplified: walk and queue by the two models, the second with its correction and "
        "counterflow. Needed: the longer, with the time to react and the margin. Smoke leaves, and "
        "margin: at the spot and hour where both are closest, on the best way, worst fire; – is not known."
    )


def _hours(console: Console, result: dict[str, Any]) -> None:
    table = _table(
        "The station by the hour (minutes)",
        "hour",
        "people",
        "react",
        "speed",
        "hydraulic",
        "simplified",
        "needed",
        "blocked",
        left=(0,),
    )
    for row in rows.hour_rows(result):
        table.add_row(*row[:8])
    _show(console, table)
    for h, row in zip(result["hours"], rows.hour_rows(result), strict=True):
        carried = f" The carried need {row[10]} min." if h["carried"] else ""
        console.print(f"{h['name']} ({h['words']}): slowest {row[8]}. No plan brings everybody out sooner than "
                      f"{row[9]} min after they start to walk.{carried}")  # fmt: skip


def _smoke(console: Console, fire: dict[str, Any], result: dict[str, Any]) -> None:
    mine: list[rows.Plain] = [c for c in fire["checks"] if of_ways(c)]
    if not mine:
        return
    bad = {c["subject"] for c in mine if c["verdict"] in rows.URGENT}
    console.print("\nAlarms in time, and smoke breathed on the way out, worst fire", style="bold")
    console.print(f"{verdict_sentence(mine)} A dose of 1 fells half of all people.")
    worst: dict[str, rows.Plain] = {}
    for row in worst_ways(fire["result"]):
        worst.setdefault(row["origin"], row)
    lines = [
        f"{origin}, {fire_words(row['fire'])}, {rows.way_words(result, origin, row['way'])}: dose "
        f"{number_text(row['dose'], 2)}, margin to the smoke {rows.minutes(row['margin'])} min at {row['worst']}."
        for origin, row in worst.items()
        if f'People of "{origin}"' in bad and row["dose"] is not None
    ]
    lines += [f"{c['subject']}: {c['question'].casefold()} {c['verdict']}." for c in mine
              if c["subject"] in bad and c["key"] == "fire.alarm"]  # fmt: skip
    for line in lines[:LISTED]:
        _bullet(console, "-", line)
    if len(lines) > LISTED:
        console.print(f"  … {len(lines) - LISTED} more: firnstead explain STATION PLACE fire")


def _rooms(console: Console, result: dict[str, Any], system: str) -> None:
    table = _table(f"Every single spot blocked in turn (lengths in {_metre(system)}, times in minutes)", "room",
                   "people", "nearest exit", "walk", "worst spot blocked", "way left", "walk", "needed",
                   left=(0, 2, 4, 5))  # fmt: skip
    for row in rows.room_rows(result):
        table.add_row(row["room"], str(row["people"]), row["exit"], _length(row["length"], system),
                      row["blocked"] or "none", row["left"], _length(row["left_length"], system),
                      row["needed"])  # fmt: skip
    _show(console, table)
    console.print(rows.cut_off_sentence(result))


def _exits(console: Console, result: dict[str, Any]) -> None:
    hours = " / ".join(h["name"] for h in result["hours"])
    table = _table("Exits, fullest first", "exit", "people", "most", "while this is blocked", "ladder", left=(0, 3, 4))
    for name, _, people, most, spot, rate in rows.exit_rows(result):
        if most != "0":
            table.add_row(name, people, most, spot, rate)
    _show(console, table)
    unused = [row[0] for row in rows.exit_rows(result) if row[3] == "0"]
    console.print(f"People at the hours {hours}." + (f" Nobody leaves by: {_listed(unused)}." if unused else ""))


def print_blocked(made: Assessment, found: BlockedSpot) -> None:
    """One spot blocked: who goes where."""
    console, system = _console(), made.station.units
    console.print(f"{made.station.name}   file {made.file.version}   {found.name} blocked", style="bold")
    console.print(f"Lost with it: {', '.join(found.exits) or 'no exit'}."
                  + (f" At it, so not counted: {', '.join(found.at_it)}." if found.at_it else ""))  # fmt: skip
    table = _table(f"Whose way it changes (lengths in {_metre(system)}, times in minutes)", "room", "people",
                   "exit before", "walk", "exit now", "walk", "hydraulic", "simplified", "needed",
                   left=(0, 2, 4))  # fmt: skip
    for name, r in sorted(found.rooms.items(), key=lambda row: -row[1].length):
        plain = as_plain(r)
        unknown = plain["needed"] is None and r.exit and r.hour
        needed = "not known" if unknown else rows.minutes(plain["needed"])
        table.add_row(name, str(r.people), r.open_exit or "none", _length(plain["open_length"], system),
                      r.exit or "cut off", _length(plain["length"], system), rows.minutes(plain["hydraulic"]),
                      rows.minutes(plain["imo"]), needed)  # fmt: skip
    if found.rooms:
        _show(console, table)
    console.print(f"{counted(found.unchanged, 'building or niche leaves', 'buildings and niches leave')} as before.")


def print_siting(made: Assessment, found: SitingResult) -> None:
    """The fewest hatches beside those of the file, and what one fewer costs."""
    console, system = _console(), made.station.units
    console.print("\nFewest hatches", style="bold")
    proof = "proven: fewer do not do" if found.proven else (
        f"not proven: at least {found.bound} are needed, so up to {found.gap:.0%} too many")  # fmt: skip
    console.print(f"{counted(found.count, 'hatch', 'hatches')} needed, {found.present} in the file ({proof}). "
                  f"{found.candidates:,} spots tried, {found.rows:,} different needs.")  # fmt: skip
    if found.refused:
        said = ", ".join(f"{n} {why}" for why, n in sorted(found.refused.items(), key=lambda row: -row[1]))
        _bullet(console, "-", f"Spots refused: {said}.")
    kept = [c.present for c in found.chosen if c.present]
    new = [c for c in found.chosen if not c.present]
    spare = [name for name in made.station.hatches if name not in kept]
    _bullet(console, "-", f"Stay where they are: {_listed(kept) or 'none'}.")
    _bullet(console, "-", f"New: {_spots(new, system) or 'none'}.")
    _bullet(console, "-", f"Of the file, not needed: {_listed(spare) or 'none'}.")
    for words, names in (("The hatches of the file do not serve", found.present_unserved),
                         ("Stand where the rules allow none", found.present_refused),
                         ("No allowed spot serves", found.hopeless)):  # fmt: skip
        if names:
            _bullet(console, "!", f"{words}: {_listed(names, ';')}.")
    if found.verified:
        _bullet(console, "!", f"With the chosen hatches the study finds {found.verified}.")
    if found.one_fewer_unserved:
        _bullet(console, "-", f"One hatch fewer leaves {counted(len(found.one_fewer_unserved), 'need')} unserved: "
                f"{_listed(found.one_fewer_unserved, ';')}.")  # fmt: skip


def print_cautions() -> None:
    """At the end of every answer."""
    console = _console()
    console.print("\nCautions:")
    for caution in dict.fromkeys((caution_for("escape"), caution_for("fire"), *CAUTIONS)):
        _bullet(console, "!", caution)


def _unchecked(console: Console, checks: Sequence[dict[str, Any]]) -> None:
    found = [c for c in checks if c["verdict"] == "not checked"]
    if found:
        console.print("\nNot checked, and why", style="bold")
    for question, reason in dict.fromkeys((c["question"], c["reason"]) for c in found):
        places = [c["place"] for c in found if (c["question"], c["reason"]) == (question, reason)]
        where = f" ({_listed(list(dict.fromkeys(places)))})" if places != ["station"] else ""
        _bullet(console, "-", f"{question}{where}: {reason}")


def of_ways(check: rows.Plain) -> bool:
    """Whether a check of the fire study is about people getting out."""
    return check["key"] in ("fire.way_dose", "fire.alarm")


def _table(title: str, *heads: str, left: Sequence[int] = (0, 1)) -> Any:
    from rich.table import Table

    table = Table(title=title, title_justify="left", title_style="bold", box=None, pad_edge=False, padding=(0, 1, 0, 0))
    for index, head in enumerate(heads):
        table.add_column(head, justify="left" if index in left else "right", overflow="fold")
    return table


def _show(console: Console, table: Any) -> None:
    """Print a table after an empty line; names in its first column stay whole unless they are very long."""
    table.columns[0].no_wrap = all(len(cell) <= WHOLE_NAME for cell in table.columns[0].cells)
    console.print()
    console.print(table)


def _metre(system: str) -> str:
    return unit_text(shown_unit(10.0, "m", system))


def _length(value: float | None, system: str) -> str:
    """A length in whole-column units; nothing known is written in words."""
    return "none" if value is None else f"{convert(value, shown_unit(10.0, 'm', system)):.1f}"


def _listed(names: Sequence[str], mark: str = ",") -> str:
    more = f"{mark} and {len(names) - LISTED} more" if len(names) > LISTED else ""
    return f"{mark} ".join(names[:LISTED]) + more


def _spots(spots: Sequence[HatchSpot], system: str) -> str:
    return "; ".join(f"{s.place} at {shown(s.at, 'm', system)} (ladder {shown(s.climb, 'm', system)})" for s in spots)


def _bullet(console: Console, mark: str, text: str) -> None:
    """A line that hangs under its mark when it is broken."""
    width = max(40, console.width - 1)
    console.print(textwrap.fill(text, width, initial_indent=f"  {mark} ", subsequent_indent="    "), soft_wrap=True)


def _console() -> Console:
    from rich.console import Console

    return Console(highlight=False, markup=False, emoji=False, width=None)
