"""One list of publications: every key used anywhere is in it, every entry is complete and used."""

import ast
import json
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator

import pytest

from firnstead.core.sources import OBTAINED, sources
from house.project import ROOT, SRC, Module, files, line_of, modules, python_files, report

LIST = SRC / "firnstead" / "core" / "sources.toml"
SHOWN_LIST = LIST.relative_to(ROOT).as_posix()
KEY = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)+")
WITH_YEAR = re.compile(r"(?<![\w.:])[a-z]+(?:_[a-z]+)*_(?:19|20)\d\d[a-z]?(?![\w(])")
FIELDS = {"authors": str, "year": int, "title": str, "publisher": str, "obtained": str}
STEP_SOURCE = 5  # the position of `source` among the fields of core.results.Step
STATIONS = sorted(ROOT.glob("examples/stations/*/station.yaml"))


def key_of(reference: str) -> str:
    """The key in a reference such as `herron_langway_1980, eq. 7`."""
    return reference.split(",")[0].strip()


def texts(node: ast.AST | None) -> Iterator[ast.Constant]:
    """The string constants that an expression gives: itself, or those of a tuple, list, set or choice."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value:
        yield node
    elif isinstance(node, (ast.Tuple, ast.List, ast.Set)):
        for part in node.elts:
            yield from texts(part)
    elif isinstance(node, ast.IfExp):
        yield from texts(node.body)
        yield from texts(node.orelse)


def is_source_name(name: str | None) -> bool:
    """Whether a parameter, key or variable of this name holds source keys."""
    return bool(name) and name.lower().rpartition("_")[2] in ("source", "sources")


def references(tree: ast.Module) -> Iterator[ast.Constant]:
    """Every string that stands where a source key is expected."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            for keyword in node.keywords:
                yield from texts(keyword.value) if is_source_name(keyword.arg) else ()
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if called == "source" and node.args:
                yield from texts(node.args[0])
            if called == "Step" and len(node.args) > STEP_SOURCE:
                yield from texts(node.args[STEP_SOURCE])
        elif isinstance(node, ast.Dict):
            for key, value in zip(node.keys, node.values, strict=True):
                yield from texts(value) if isinstance(key, ast.Constant) and is_source_name(str(key.value)) else ()
        elif isinstance(node, (ast.Assign, ast.AnnAssign)):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            if any(isinstance(target, ast.Name) and is_source_name(target.id) for target in targets):
                yield from texts(node.value)
        elif isinstance(node, (ast.FunctionDef, ast.Lambda)):
            spec = node.args
            plain = [*spec.posonlyargs, *spec.args]
            pairs = [*zip(reversed(plain), reversed(spec.defaults), strict=False)]
            pairs += [*zip(spec.kwonlyargs, spec.kw_defaults, strict=True)]
            for argument, default in pairs:
                yield from texts(default) if is_source_name(argument.arg) else ()


def test_code_uses_known_keys() -> None:
    """Every key that the code gives as a source is in the list."""
    wrong = [
        f"{module.shown}:{text.lineno}: the source {key_of(text.value)!r} is not in {SHOWN_LIST}"
        for module in modules()
        for text in references(module.tree)
        if key_of(text.value) not in sources()
    ]
    assert not wrong, report(wrong)


def strings(module: Module) -> Iterator[tuple[int, str]]:
    """(line, text) of every string constant; the line is the one on which the string begins."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.lineno, node.value


def test_what_looks_like_a_key_is_one() -> None:
    """Whatever has the form author_year, in strings, docstrings, tables, cases, stations or pages, is in the list."""
    found = [
        (module.shown, line + text.count("\n", 0, match.start()), match[0])
        for module in python_files("src")
        for line, text in strings(module)
        for match in WITH_YEAR.finditer(text)
    ]
    for path in files():
        if path.suffix in (".csv", ".toml", ".yaml", ".typ") and path != LIST:
            text = path.read_text(encoding="utf-8")
            shown = path.relative_to(ROOT).as_posix()
            found += [(shown, line_of(text, m.start()), m[0]) for m in WITH_YEAR.finditer(text)]
    wrong = [f"{shown}:{line}: {key!r} is not in {SHOWN_LIST}" for shown, line, key in found if key not in sources()]
    assert not wrong, report(wrong)


def test_tables_say_where_they_are_from() -> None:
    """Every table opens with its source key, what it is, its units and how it was obtained."""
    wrong = []
    for path in files():
        if path.suffix != ".csv" or "tables" not in path.parts:
            continue
        shown = path.relative_to(ROOT).as_posix()
        head = dict(re.findall(r"^# (\w+): *(.+)$", path.read_text(encoding="utf-8"), re.MULTILINE))
        wrong += [
            f"{shown}:1: no line `# {word}: ...`" for word in ("source", "table", "unit", "mark") if word not in head
        ]
        if "source" in head and key_of(head["source"]) not in sources():
            wrong.append(f"{shown}:1: the source {key_of(head['source'])!r} is not in {SHOWN_LIST}")
        if "mark" in head and not any(mark in head["mark"] for mark in OBTAINED):
            wrong.append(f"{shown}:1: the mark {head['mark']!r} is none of {', '.join(OBTAINED)}")
    assert not wrong, report(wrong)


def test_entries_are_complete() -> None:
    """Every publication has a key of the agreed form, authors, title and an honest word on how it was obtained."""
    text = LIST.read_text(encoding="utf-8")
    wrong = []
    for key, row in tomllib.loads(text).items():
        where = f"{SHOWN_LIST}:{line_of(text, text.index(f'[{key}]'))}: {key}"
        if not KEY.fullmatch(key) and key != "statics":
            wrong.append(f"{where} is not of the form author_year or author_subject")
        wrong += [f"{where} has no {field}" for field in ("authors", "title", "obtained") if not row.get(field)]
        wrong += [f"{where} has the unknown field {field!r}" for field in row.keys() - FIELDS.keys()]
        wrong += [
            f"{where}: {field} must be of type {kind.__name__}"
            for field, kind in FIELDS.items()
            if field in row and type(row[field]) is not kind
        ]
        if row.get("obtained") not in OBTAINED:
            wrong.append(f"{where}: obtained must be one of {', '.join(OBTAINED)}")
        year = re.search(r"_((?:19|20)\d\d)[a-z]?$", key)
        if year and row.get("year") != int(year[1]):
            wrong.append(f"{where}: the year in the key is {year[1]}, in the entry {row.get('year')}")
    assert not wrong, report(wrong)


def test_entries_are_used() -> None:
    """No publication is in the list that nothing refers to."""
    places = [path for path in files() if path.is_relative_to(SRC) or path.is_relative_to(ROOT / "tests")]
    words = set()
    for path in places:
        if path != LIST and path.suffix in (".py", ".toml", ".csv", ".yaml", ".typ"):
            words |= set(re.findall(r"\w+", path.read_text(encoding="utf-8")))
    text = LIST.read_text(encoding="utf-8")
    wrong = [
        f"{SHOWN_LIST}:{line_of(text, text.index(f'[{key}]'))}: nothing refers to {key}"
        for key in sources()
        if key not in words
    ]
    assert not wrong, report(wrong)


@pytest.mark.parametrize("station", STATIONS, ids=lambda path: path.parent.name)
def test_answers_cite_known_sources(station) -> None:
    """Whatever the checks of an example station and their workings cite is in the list, and every step cites."""
    words = [sys.executable, "-m", "firnstead", "check", str(station), "--json"]
    answer = json.loads(subprocess.run(words, capture_output=True, text=True, check=False).stdout)
    assert answer["checks"], f"{station}: no checks"
    wrong = []
    for check in answer["checks"]:
        where = f"{check['subject']}: {check['question']}"
        wrong += [f"{where}: unknown source {ref!r}" for ref in check["sources"] if key_of(ref) not in sources()]
        for step in check["working"]:
            if step["source"] and key_of(step["source"]) not in sources():
                wrong.append(f"{where}: step {step['symbol']} has the unknown source {step['source']!r}")
    assert not wrong, report(sorted(set(wrong)))
