"""`firnstead escape STATION`: the worst places first and what to do about each."""

from __future__ import annotations

import json
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

if TYPE_CHECKING:
    from firnstead.core.results import Study
    from firnstead.pipeline import Assessment

StationPath = Annotated[Path, typer.Argument(help="A station.yaml, or the folder that holds it.", metavar="STATION")]
Json = Annotated[bool, typer.Option("--json", help="Print the machine-readable form (SI units) instead.")]
Blocked = Annotated[str, typer.Option("--blocked", help="Show what happens with this exit or spot blocked.")]
Pairs = Annotated[bool, typer.Option("--pairs", help="Block every two spots together as well (seconds to a minute).")]
Siting = Annotated[bool, typer.Option("--siting", help="Find the fewest hatches, and compare with the file.")]


def register(app: typer.Typer) -> None:
    """Add the command to the others."""
    app.command()(escape)


def escape(
    station: StationPath, blocked: Blocked = "", pairs: Pairs = False, siting: Siting = False, as_json: Json = False
) -> int:
    """Check the ways out: worst places first and what to do, times, every spot blocked in turn."""
    from firnstead import escape as ways_out
    from firnstead.cli import escape_tables as tables
    from firnstead.core.results import Verdict, as_plain
    from firnstead.pipeline import assess
    from firnstead.station import read_station

    made = assess(read_station(station))
    spot = ways_out.blocked(made.station, blocked) if blocked else None
    found, fire = escape_results(made, pairs)
    sited = _sited(made) if siting and found.result is not None else None
    if as_json:
        document = {
            "station": {"name": made.station.name, "file_version": made.file.version},
            "checks": as_plain(found.checks), "results": {"escape": as_plain(found.result)},
            "work_items": as_plain(found.work_items),
        }  # fmt: skip
        document["results"] |= {key: as_plain(value) for key, value in (("blocked", spot), ("siting", sited)) if value}
        json.dump(document, sys.stdout, ensure_ascii=False, indent=1, default=str)
        sys.stdout.write("\n")
    else:
        if spot is not None:
            tables.print_blocked(made, spot)
        else:
            tables.print_escape(made, found, fire)
        if sited is not None:
            tables.print_siting(made, sited)
        tables.print_cautions()
    asked = [*found.checks, *(c for c in (fire.checks if fire else ()) if tables.of_ways({"key": c.key}))]
    return 1 if any(c.verdict is Verdict.FAILS for c in asked) else 0


def _sited(made: Assessment) -> Any:
    from firnstead.cli import escape_tables as tables
    from firnstead.escape import siting

    with tables.progress() as told:
        return siting(made.station, told)


def escape_results(made: Assessment, pairs: bool = False) -> tuple[Study, Study | None]:
    """The studies of escape and fire; with `pairs` every two spots blocked as well."""
    from firnstead import escape as ways_out

    studies = made.studies
    found, fire = studies["escape"], studies.get("fire")
    if pairs and found.result is not None:
        looked = ways_out.study(made.station, pairs=True).result.pairs
        found = replace(found, result=replace(found.result, pairs=looked))
    return found, fire
