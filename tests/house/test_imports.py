"""What may be imported where. The floors are held by lint-imports; here are third-party packages and start-up time."""

import subprocess
import sys

from house.project import equation_packages, modules, report

HEAVY = {"scipy", "skfem", "shapely", "ezdxf", "typst", "xlsxwriter", "vl_convert"}
DISCIPLINE = {"numpy", "scipy", "shapely"}
MAY_IMPORT = {
    "core": {"numpy"},
    "station": {"numpy", "pydantic", "pydantic_core", "annotated_types", "ruamel", "shapely"},
    **dict.fromkeys(equation_packages(), DISCIPLINE),
    "closure": DISCIPLINE | {"skfem"},
    "pipeline": {"numpy"},
    "drawings": {"numpy", "shapely", "ezdxf", "vl_convert"},
    "reports": {"numpy", "typst", "xlsxwriter", "vl_convert"},
    "cli": {"typer", "click", "rich"},
    "docs": {"typer", "click", "pydantic"},
    "": set(),
}


def outside(name: str) -> str:
    """The third-party package that an import brings in; empty for our own and the standard library's."""
    top = name.partition(".")[0]
    return "" if top == "firnstead" or top in sys.stdlib_module_names else top


def test_third_party_packages() -> None:
    """Every package of ours imports only the third-party packages that the house allows it."""
    wrong = [
        f"{module.shown}:{line}: {module.package or 'the top of the package'} may not import {outside(name)}"
        for module in modules()
        for line, name, _ in module.imports()
        if outside(name) and outside(name) not in MAY_IMPORT.get(module.package, set())
    ]
    assert not wrong, report(wrong)


def test_heavy_packages_are_imported_where_they_are_used() -> None:
    """Below the drawings no module imports a heavy package before the function that needs it runs."""
    wrong = [
        f"{module.shown}:{line}: import {outside(name)} inside the function that uses it"
        for module in modules()
        for line, name, at_once in module.imports()
        if at_once and outside(name) in HEAVY and module.package not in ("drawings", "reports")
    ]
    assert not wrong, report(wrong)


def test_start_loads_nothing_heavy() -> None:
    """A fresh interpreter that imports every module below the drawings, and the commands, has loaded nothing heavy."""
    names = [module.name for module in modules() if module.package not in ("drawings", "reports", "docs", "")]
    code = (
        f"import sys; from importlib import import_module; [import_module(n) for n in {names!r}]; print(*sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    loaded = HEAVY & {name.partition(".")[0] for name in done.stdout.split()}
    assert not loaded, f"loaded at start: {', '.join(sorted(loaded))}; find it with python -X importtime"


def test_only_studies_know_the_station() -> None:
    """In snow and the disciplines only study modules import the station file."""
    wrong = [
        f"{module.shown}:{line}: only study.py may know the station; hand numbers over"
        for module in modules()
        for line, name, _ in module.imports()
        if module.package in equation_packages()
        and name.startswith("firnstead.station")
        and not module.path.stem.startswith("study")
    ]
    assert not wrong, report(wrong)


def test_equations_have_no_surroundings() -> None:
    """Snow and the disciplines read no clock, environment, network, database or random number."""
    banned = {"time", "datetime", "random", "os", "sqlite3", "socket", "urllib", "http", "subprocess", "locale"}
    wrong = [
        f"{module.shown}:{line}: {name.partition('.')[0]} has no place in a discipline"
        for module in modules()
        for line, name, _ in module.imports()
        if module.package in equation_packages() and name.partition(".")[0] in banned
    ]
    assert not wrong, report(wrong)
