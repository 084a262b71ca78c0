"""The shape of the code: size of modules, units and help of results, docstrings of tests, doctests."""

import ast
import dataclasses
import doctest
from importlib import import_module

import pytest

from house.project import ROOT, Module, modules, python_files, report

LONGEST = 400


def test_module_size() -> None:
    """No Python file is longer than the house allows; tables are exempt."""
    wrong = [
        f"{module.shown}:{LONGEST + 1}: {lines} lines, {LONGEST} allowed; one concept, one module"
        for module in python_files()
        if (lines := module.text.count("\n")) > LONGEST and "tables" not in module.path.parts
    ]
    assert not wrong, report(wrong)


def test_every_module_says_what_it_is() -> None:
    """Every Python file with code in it opens with a docstring."""
    wrong = [f"{m.shown}:1: no docstring" for m in python_files() if m.tree.body and not ast.get_docstring(m.tree)]
    assert not wrong, report(wrong)


def test_every_package_says_what_it_is() -> None:
    """Every folder with modules is a package, so that the import contract sees it."""
    folders = {module.path.parent for module in modules()}
    wrong = [
        f"{(folder / '__init__.py').relative_to(ROOT)}:1: missing; one line says what the package is"
        for folder in sorted(folders)
        if not (folder / "__init__.py").is_file()
    ]
    assert not wrong, report(wrong)


def test_results_have_unit_and_help() -> None:
    """Every field of every result tells its unit and its meaning."""
    wrong = []
    for module in modules():
        if module.path.name != "results.py" or module.package == "core":
            continue
        loaded = import_module(module.name)
        for node in module.tree.body:
            kind = getattr(loaded, node.name) if isinstance(node, ast.ClassDef) else None
            if not dataclasses.is_dataclass(kind):
                continue
            lines = {n.target.id: n.lineno for n in node.body if isinstance(n, ast.AnnAssign)}
            for field in dataclasses.fields(kind):
                missing = [word for word in ("unit", "help") if not field.metadata.get(word)]
                if missing and field.name in lines:
                    where = f"{module.shown}:{lines[field.name]}: {node.name}.{field.name}"
                    wrong.append(f"{where} has no {' and no '.join(missing)}; write it with quantity(unit, help)")
    assert not wrong, report(wrong)


def test_tests_have_docstrings() -> None:
    """Every test says in one sentence what it holds."""
    wrong = [
        f"{module.shown}:{node.lineno}: {node.name} has no docstring"
        for module in python_files("tests")
        for node in ast.walk(module.tree)
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_") and not ast.get_docstring(node)
    ]
    assert not wrong, report(wrong)


@pytest.mark.parametrize("module", [m for m in modules() if ">>> " in m.text], ids=lambda module: module.name)
def test_doctests(module: Module) -> None:
    """The examples in the docstrings give what they say."""
    said: list[str] = []
    runner = doctest.DocTestRunner(verbose=False)
    tests = doctest.DocTestFinder().find(import_module(module.name), module.name)
    failed = sum(runner.run(test, out=said.append).failed for test in tests)
    assert not failed, "".join(said)
