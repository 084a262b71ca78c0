"""YAML with line numbers: plain data for the schema, and the line of every part of it for messages."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from firnstead.core.errors import InputError, Problem

Path = tuple[str | int, ...]


@dataclass(frozen=True)
class Lines:
    """A loaded YAML tree that knows the file and line of each of its parts."""

    file: str
    tree: Any

    def plain(self) -> Any:
        """The data as plain maps, lists and scalars."""
        return _plain(self.tree)

    def line(self, path: Path) -> int:
        """Line (from 1) of the part at `path`; the nearest parent's line where the part is missing."""
        node, line = self.tree, 1
        for step in path:
            if isinstance(node, Mapping) and step in node:
                line = _key_line(node, step, line)
                node = node[step]
            elif (
                isinstance(node, Sequence) and not isinstance(node, str) and isinstance(step, int) and step < len(node)
            ):
                line = _item_line(node, step, line)
                node = node[step]
            else:
                continue  # a tag that the schema puts into the path, or a missing key
        return line

    def problem(self, path: Path, what: str, cure: str) -> Problem:
        """A problem at that place."""
        return Problem(self.file, self.line(path), show_path(self._written(path)), what, cure)

    def written(self, path: Path, default: object) -> object:
        """What the file says at `path`, or `default` where it says nothing plain there."""
        node = self.tree
        for step in self._written(path):
            try:
                node = node[step]
            except (KeyError, IndexError, TypeError):
                return default
        return str(node) if isinstance(node, (str, int, float)) and not isinstance(node, bool) else default

    def _written(self, path: Path) -> Path:
        """The path without the tags that the schema puts in: what the writer of the file can find."""
        node, kept = self.tree, []
        for i, step in enumerate(path):
            here = isinstance(node, Mapping) and step in node
            item = (
                isinstance(node, Sequence) and not isinstance(node, str) and isinstance(step, int) and step < len(node)
            )
            if here or item:
                node = node[step]
            elif i < len(path) - 1:
                continue
            kept.append(step)
        return tuple(kept)


def show_path(path: Path) -> str:
    """Write a path for a reader: ``trenches.N2.start[1]``."""
    text = ""
    for step in path:
        text += f"[{step}]" if isinstance(step, int) else f".{step}" if text else str(step)
    return text


def load_yaml(text: str, file: str) -> Lines:
    """Load YAML 1.2 text; any fault of form is an InputError with its line."""
    from ruamel.yaml import YAML
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    yaml = YAML(typ="rt")
    yaml.version = None
    try:
        tree = yaml.load(text)
    except MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line = mark.line + 1 if mark else 1
        what = " ".join(str(error.problem or error.context or "the text is not YAML").split())
        raise InputError([Problem(file, min(line, text.count("\n") + 1), "", what[:200],
                                  "Check indentation, colons and quotes there")]) from None  # fmt: skip
    except (
        YAMLError,
        ValueError,
        RecursionError,
        OverflowError,
        AttributeError,
        TypeError,
        KeyError,
        IndexError,
        AssertionError,
    ) as error:
        what = " ".join(str(error).split())[:200] or type(error).__name__
        raise InputError(
            [Problem(file, _line_in(error), "", f"the text is not YAML ({what})", "Check the file's form")]
        ) from None
    if not isinstance(tree, Mapping):
        raise InputError([Problem(file, 1, "", "the file is not a station (it holds no names with values)",
                                  "Run `firnstead new DIR` for one to start from")])  # fmt: skip
    return Lines(file, tree)


def _line_in(error: BaseException) -> int:
    mark = getattr(error, "problem_mark", None)
    return mark.line + 1 if mark is not None else 1


def _key_line(node: Any, key: Any, default: int) -> int:
    try:
        return int(node.lc.key(key)[0]) + 1
    except (AttributeError, KeyError, TypeError):
        return default


def _item_line(node: Any, index: int, default: int) -> int:
    try:
        return int(node.lc.item(index)[0]) + 1
    except (AttributeError, KeyError, TypeError, IndexError):
        return default


def _plain(node: Any) -> Any:
    if isinstance(node, Mapping):
        return {
            (str(k) if isinstance(k, (str, int, float)) and not isinstance(k, bool) else k): _plain(v)
            for k, v in node.items()
        }
    if isinstance(node, str):
        return str(node)
    if isinstance(node, Sequence):
        return [_plain(v) for v in node]
    if isinstance(node, bool) or node is None:
        return node
    if isinstance(node, int):
        return int(node)
    if isinstance(node, float):
        return float(node)
    return node
