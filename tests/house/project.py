"""What the house tests look at: the project's files, modules and layers."""

from __future__ import annotations

import ast
import re
import subprocess
import tomllib
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SRC = ROOT / "src"
PYPROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
MADE = {"out", "__pycache__", "build", "dist"}
OURS_WITH_DOT = {".ci", ".gitignore"}


@dataclass(frozen=True)
class Module:
    """One Python file and, below src, its name for import."""

    path: Path

    @property
    def shown(self) -> str:
        """The path as messages show it."""
        return self.path.relative_to(ROOT).as_posix()

    @cached_property
    def text(self) -> str:
        """The code."""
        return self.path.read_text(encoding="utf-8")

    @cached_property
    def tree(self) -> ast.Module:
        """The code, parsed."""
        return ast.parse(self.text)

    @property
    def name(self) -> str:
        """The dotted name, such as firnstead.roof.thrust."""
        parts = self.path.relative_to(SRC).with_suffix("").parts
        return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)

    @property
    def package(self) -> str:
        """The layer it lives in, such as roof; empty for the top of the package."""
        parts = self.path.relative_to(SRC / "firnstead").parts
        return parts[0] if len(parts) > 1 else ""

    def imports(self) -> list[tuple[int, str, bool]]:
        """(line, dotted name, whether it is imported as soon as the module is) of every import."""
        lazy = {
            id(inner)
            for outer in ast.walk(self.tree)
            if isinstance(outer, (ast.FunctionDef, ast.AsyncFunctionDef)) or _is_type_checking(outer)
            for inner in ast.walk(outer)
        }
        found = []
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Import):
                found += [(node.lineno, alias.name, id(node) not in lazy) for alias in node.names]
            elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                found += [(node.lineno, f"{node.module}.{a.name}", id(node) not in lazy) for a in node.names]
        return found


def _is_type_checking(node: ast.AST) -> bool:
    return isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING")


@cache
def files() -> tuple[Path, ...]:
    """Every file of the project: what git knows or would add; without git, all but what is made by tools."""
    try:
        words = ["git", "-C", str(ROOT), "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
        listed = subprocess.run(words, capture_output=True, check=True).stdout.decode()
        found = [ROOT / name for name in listed.split("\0") if name]
    except (OSError, subprocess.CalledProcessError):
        found = list(ROOT.rglob("*"))
    return tuple(sorted(path for path in found if path.is_file() and not is_made(path)))


def is_made(path: Path) -> bool:
    """Whether a path is made by tools: environment, caches, output."""
    return any(part in MADE or (part[0] == "." and part not in OURS_WITH_DOT) for part in path.relative_to(ROOT).parts)


@cache
def python_files(below: str = "") -> tuple[Module, ...]:
    """Every Python file of the project below a folder."""
    return tuple(Module(path) for path in files() if path.suffix == ".py" and path.is_relative_to(ROOT / below))


@cache
def modules() -> tuple[Module, ...]:
    """Every module of the package."""
    return python_files("src/firnstead")


@cache
def layers() -> tuple[str, ...]:
    """The layers of the import contract from the highest down, brackets taken off."""
    contract = next(c for c in PYPROJECT["tool"]["importlinter"]["contracts"] if c["type"] == "layers")
    return tuple(re.sub(r"[()]", "", layer) for layer in contract["layers"])


@cache
def equation_packages() -> tuple[str, ...]:
    """Snow and every discipline there is: what the contract puts between the pipeline and the station file."""
    between = layers()[layers().index("pipeline") + 1 : layers().index("station")]
    names = [name.strip() for layer in between for name in layer.split("|")]
    return tuple(name for name in names if (SRC / "firnstead" / name).is_dir())


def line_of(text: str, position: int) -> int:
    """The line number of a position in a text."""
    return text.count("\n", 0, position) + 1


def report(wrong: list[str]) -> str:
    """What is wrong, one a line, for the message of an assertion."""
    return f"{len(wrong)} to mend:\n" + "\n".join(wrong)
