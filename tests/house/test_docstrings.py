"""The docstring of every equation: parameters as in the signature, units, validity, source and an example.

An equation module is a public module of snow or of a discipline, except those that know the station file or write
workings and rows: `study`, `results`, `tables`, and modules that import the station or a `results` module. That only
studies may know the station is a test of its own (test_imports.py).
"""

import ast
import re

from firnstead.core.sources import OBTAINED, sources
from house.project import Module, equation_packages, modules, report

NOT_EQUATIONS = {"__init__", "study", "results", "tables"}
WRITES_WORKINGS = re.compile(r"firnstead\.(station\b|\w+\.results\b)")
ENTRY = re.compile(r"(?P<names>\*{0,2}\w+(?:, \*{0,2}\w+)*) : (?P<type>.+) \[(?P<unit>[^\[\]]+)\]")
RETURNED = re.compile(r"(?P<type>.+) \[(?P<unit>[^\[\]]+)\]")
GENERAL = {"common_practice", "own_rule", "statics", "textbook_unchecked"}  # their mark is in sources.toml
NOT_SI = {"ft", "in", "psi", "psf", "ksi", "lb", "lbf", "kip", "gal", "degC", "degF", "mm", "cm", "km", "kPa", "MPa",
          "GPa", "kN", "MN", "kW", "MW", "g", "t"}  # fmt: skip


def is_equation_module(module: Module) -> bool:
    """Whether the docstring rule holds for this module."""
    parts = {module.path.stem, *module.path.parts}
    if module.package not in equation_packages() or module.path.stem.startswith("_") or NOT_EQUATIONS & parts:
        return False
    return not any(WRITES_WORKINGS.match(name) for _, name, _ in module.imports())


def equations() -> list[tuple[Module, ast.FunctionDef]]:
    """Every public function of every equation module."""
    return [
        (module, node)
        for module in modules()
        if is_equation_module(module)
        for node in module.tree.body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
    ]


def parameters(node: ast.FunctionDef) -> list[str]:
    """The names in the signature, in order."""
    spec = node.args
    return [argument.arg for argument in (*spec.posonlyargs, *spec.args, *spec.kwonlyargs)] + [
        argument.arg for argument in (spec.vararg, spec.kwarg) if argument
    ]


def coefficients(node: ast.FunctionDef) -> set[str]:
    """Keyword-only parameters with a default: published coefficients, which may keep the units of the publication."""
    spec = node.args
    return {argument.arg for argument, default in zip(spec.kwonlyargs, spec.kw_defaults, strict=True) if default}


def section(lines: list[str], title: str) -> list[str]:
    """The unindented lines of a numpydoc section: its entries without their explanations."""
    for index in range(len(lines) - 1):
        if lines[index] == title and set(lines[index + 1]) == {"-"}:
            rest = lines[index + 2 :]
            end = next((i for i, line in enumerate(rest) if _ends_section(rest, i)), len(rest))
            return [line for line in rest[:end] if line and not line.startswith(" ")]
    return []


def _ends_section(lines: list[str], i: int) -> bool:
    underlined = i + 1 < len(lines) and bool(lines[i + 1]) and set(lines[i + 1]) == {"-"}
    return underlined or bool(re.match(r"(Validity|Source|Notes?|Raises):?", lines[i])) or lines[i].startswith(">>>")


def paragraph(lines: list[str], word: str) -> str:
    """The text behind `word:`, up to the next empty line, example or other such word."""
    for index, line in enumerate(lines):
        if line.startswith(f"{word}:"):
            rest = [line.removeprefix(f"{word}:")]
            for more in lines[index + 1 :]:
                if not more.strip() or more.startswith(">>>") or re.match(r"[A-Z]\w+:", more):
                    break
                rest.append(more)
            return " ".join(part.strip() for part in rest).strip()
    return ""


def faults(node: ast.FunctionDef) -> list[str]:
    """What the docstring of an equation lacks."""
    lines = (ast.get_docstring(node) or "").splitlines()
    if not lines:
        return ["has no docstring"]
    wrong: list[str] = []
    described: list[str] = []
    unread = []
    for entry in section(lines, "Parameters"):
        if match := ENTRY.fullmatch(entry):
            described += [name.strip().lstrip("*") for name in match["names"].split(",")]
            wrong += [] if described[-1] in coefficients(node) else unit_faults(match["names"], match["unit"])
        else:
            unread.append(f"has the parameter line {entry!r}, which is not of the form `name : type [unit]`")
    wrong += unread
    if not unread and described != parameters(node):
        wrong.append(f"tells of the parameters {described}, the signature has {parameters(node)}")
    returned = section(lines, "Returns")
    if not returned:
        wrong.append("has no Returns")
    for entry in returned:
        match = RETURNED.fullmatch(entry)
        wrong += unit_faults("the result", match["unit"]) if match else [f"the return line {entry!r} has no [unit]"]
    if not paragraph(lines, "Validity"):
        wrong.append("has no line `Validity:`")
    if not any(line.lstrip().startswith(">>>") for line in lines):
        wrong.append("has no example (>>>)")
    return wrong + source_faults(paragraph(lines, "Source"))


def unit_faults(what: str, unit: str) -> list[str]:
    """Units that are not SI: inside there is nothing else."""
    odd = NOT_SI & set(re.findall(r"[A-Za-z]+", unit))
    return [f"{what} is in [{unit}]; equations take and give SI"] if odd else []


def source_faults(text: str) -> list[str]:
    """What is wrong with `key, place (mark); key, place (mark).`"""
    if not text:
        return ["has no line `Source:`"]
    first, *later = (re.split(r"[\s,.(]", item.strip(), maxsplit=1)[0] for item in text.split(";"))
    keys = [first, *(word for word in later if re.fullmatch(r"[a-z]{2,}(_[a-z0-9]+)+", word))]
    wrong = [f"gives the source {key!r}, which is not in core/sources.toml" for key in keys if key not in sources()]
    if not GENERAL.issuperset(keys) and not any(mark in text for mark in OBTAINED):
        wrong.append("gives a source without a mark, such as (read) or (from memory, unchecked)")
    return wrong


def test_equations_are_documented() -> None:
    """Every public equation has parameters as its signature, units, validity, a known source and an example."""
    wrong = [f"{m.shown}:{node.lineno}: {node.name} {fault}" for m, node in equations() for fault in faults(node)]
    assert not wrong, report(wrong)


def test_there_are_equations() -> None:
    """The rule above finds something in every package that it holds for."""
    found = {module.package for module, _ in equations()}
    missing = [f"src/firnstead/{name}:1: no equation found" for name in equation_packages() if name not in found]
    assert not missing, report(missing)


def test_the_rule_bites() -> None:
    """A docstring with a wrong parameter, no unit, no mark and an unknown source is refused on each count."""
    code = '''
def f(load, span):
    """Say.

    Parameters
    ----------
    load : float [N]
        Load.
    width : float [ft]
        Width.
    Returns
    -------
    float
        Nothing.
    Source: nobody_1900, eq. 1.
    """
'''
    node = ast.parse(code).body[0]
    assert isinstance(node, ast.FunctionDef)
    assert len(faults(node)) == 7
