"""The commands and how their errors reach the reader."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import Annotated, Any

import typer

from firnstead import __version__
from firnstead.cli import escape_commands
from firnstead.core.errors import FirnsteadError, InputError

app = typer.Typer(
    name="firnstead",
    help="Plan, check and follow a station dug into the snow of an ice sheet.\n\n"
    "Exit codes: 0 nothing fails, 1 something fails, 2 the input is wrong.",
    no_args_is_help=True, add_completion=False, pretty_exceptions_enable=False, rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"]},
)  # fmt: skip

StationPath = Annotated[Path, typer.Argument(help="A station.yaml, or the folder that holds it.", metavar="STATION")]
Json = Annotated[bool, typer.Option("--json", help="Print the machine-readable form (SI units) instead.")]
Strict = Annotated[bool, typer.Option("--strict", help="Count what is not checked as failing.")]


def run(arguments: list[str]) -> int:
    """Run a command line; every error that the user can mend is printed without a traceback."""
    try:
        code = app(args=arguments, standalone_mode=False)
        sys.stdout.flush()
        return int(code or 0)
    except InputError as error:
        print(f"The input is wrong in {_count(len(error.problems), 'place')}; nothing was written.", file=sys.stderr)
        for problem in error.problems:
            print(f"  {problem}", file=sys.stderr)
        return error.exit_code
    except FirnsteadError as error:
        print(f"firnstead: {error}", file=sys.stderr)
        return error.exit_code
    except BrokenPipeError:  # the reader closed the pipe (`... | head`): not an error
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        print("\nStopped. Nothing half-made was left.", file=sys.stderr)
        return 130
    except (typer.Exit, typer.Abort) as stop:
        return int(getattr(stop, "exit_code", 1))
    except Exception as error:
        if error.__class__.__module__.split(".")[0] not in ("click", "typer") or not hasattr(error, "format_message"):
            raise
        print(f"firnstead: {error.format_message()}\nTry `firnstead --help`.", file=sys.stderr)
        return 2


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


@app.callback(invoke_without_command=True)
def _root(version: Annotated[bool, typer.Option("--version", help="Print the version and stop.")] = False) -> None:
    if version:
        print(f"firnstead {__version__}")
        raise typer.Exit(0)


@app.command()
def new(folder: Annotated[Path, typer.Argument(help="Folder to make; it must not exist or be empty.")]) -> int:
    """Write a first station, with remarks that teach the file."""
    from importlib.resources import files

    from firnstead.core.errors import OutputError

    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise OutputError(f"{folder} is there already and not empty. Choose another folder; nothing was written")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name in ("station.yaml", "density.csv"):
            text = files("firnstead.station").joinpath("template", name).read_text(encoding="utf-8")
            (folder / name).write_text(text, encoding="utf-8")
    except OSError as error:
        raise OutputError(f"{folder} cannot be written ({error.strerror}). Choose a folder you may write to") from None
    print(f"Wrote {folder / 'station.yaml'} and density.csv beside it.\nNow: firnstead check {folder}")
    return 0


@app.command()
def check(station: StationPath, as_json: Json = False, strict: Strict = False,
          place: Annotated[str, typer.Option("--place", help="Show this place only.")] = "",
          everything: Annotated[bool, typer.Option("--all", help="Show every check, not only the nearest.")] = False,
          ) -> int:  # fmt: skip
    """Check the whole station: a table by place, margins worst first, and a summary."""
    from firnstead.cli import tables
    from firnstead.core.results import Verdict

    made = _assess(station)
    if as_json:
        _print_json(made.document())
    else:
        tables.print_check(made, tables.place_named(made.station, place), everything)
    counts = made.counts()
    return 1 if counts[Verdict.FAILS] or (strict and counts[Verdict.NOT_CHECKED]) else 0


@app.command()
def explain(station: StationPath,
            place: Annotated[str, typer.Argument(help='A place of the station, such as "North 2", or `station`.')],
            discipline: Annotated[str, typer.Argument(
                help="A discipline, such as roof, closure or heat; left out: all.")] = "",
            as_json: Json = False) -> int:  # fmt: skip
    """Print the whole working of the checks of one place, with numbers put in and sources."""
    from firnstead.cli import tables
    from firnstead.core.results import as_plain

    made = _assess(station)
    checks = tables.select(made, place, discipline)
    if as_json:
        _print_json(
            {"station": {"name": made.station.name, "file_version": made.file.version}, "checks": as_plain(checks)}
        )
    else:
        tables.print_quantities(made, checks[0].place, discipline)
        tables.print_explain(made, checks)
    return 0


@app.command()
def years(station: StationPath, as_json: Json = False) -> int:
    """Work out how the trenches close through the years (a minute or so; kept beside the station file)."""
    from firnstead.cli import years_table
    from firnstead.core.results import Verdict, as_plain
    from firnstead.pipeline import assess
    from firnstead.station import read_station

    file = read_station(station)
    kept = _worked_out(station, file)
    made = assess(file, kept=kept)
    if as_json:
        _print_json(
            {"station": {"name": made.station.name, "file_version": made.file.version},
             "closure": as_plain(made.results["closure"])}
        )  # fmt: skip
    else:
        years_table.print_years(made)
    return 1 if any(c.verdict is Verdict.FAILS for c in made.studies["closure"].checks) else 0


@app.command()
def report(station: StationPath,
           out: Annotated[Path, typer.Option("--out", help="Folder to write; a former report is replaced whole.")],
           ) -> int:  # fmt: skip
    """Write the calculation file (PDF), drawings (SVG, DXF), packing list (XLSX, CSV) and JSON."""
    from firnstead.core.results import Verdict
    from firnstead.pipeline import assess
    from firnstead.reports.report import write_report
    from firnstead.station import read_station

    file = read_station(station)
    made = assess(file, kept=_worked_out(station, file))
    print("Typesetting the calculation file and drawing the sheets: some ten seconds.", file=sys.stderr)
    files = write_report(made, out)
    print(f"Wrote {len(files)} files to {out}")
    for name, what in files:
        print(f"  {name:<34} {what}")
    return 1 if made.counts()[Verdict.FAILS] else 0


def _assess(path: Path) -> Any:
    from firnstead.pipeline import assess
    from firnstead.pipeline.kept import beside
    from firnstead.station import read_station

    return assess(read_station(path), kept=beside(path))


def _worked_out(path: Path, file: Any) -> Any:
    """The kept years of a station, with what is missing worked out now under a progress bar."""
    from firnstead.cli import years_table
    from firnstead.pipeline.kept import beside
    from firnstead.pipeline.years import work_out_years

    kept = beside(path)
    with years_table.progress() as told:
        work_out_years(file, kept, progress=told)
    return kept


def _print_json(data: Any) -> None:
    json.dump(data, sys.stdout, ensure_ascii=False, indent=1, default=str)
    sys.stdout.write("\n")


escape_commands.register(app)
