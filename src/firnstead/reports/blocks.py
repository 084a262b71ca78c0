"""Parts of a chapter as the template wants them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

Block = dict[str, Any]


def say(text: str) -> Block:
    """The one sentence that opens a chapter."""
    return {"kind": "say", "text": text}


def note(text: str) -> Block:
    """A plain paragraph."""
    return {"kind": "text", "text": text}


def heading(text: str, level: int = 2) -> Block:
    """A sub-chapter; level 3 is not in the list of contents."""
    return {"kind": "heading", "text": text, "level": level}


def caution(text: str) -> Block:
    """A caution with its bar."""
    return {"kind": "caution", "text": text}


def table(
    head: Sequence[tuple[str, float]], rows: Sequence[Sequence[str]], *, right: Sequence[int] = (), last: bool = False
) -> Block:
    """A table; `head` gives title and relative width of each column, `right` the columns of numbers."""
    align = ["right" if i in right else "left" for i in range(len(head))]
    return {"kind": "table", "head": [h for h, _ in head], "widths": [w for _, w in head], "align": align,
            "rows": [list(row) for row in rows], "last": last}  # fmt: skip


def figure(title: str, reading: str, svg: str, width: float = 100.0) -> Block:
    """A picture with its title and its one-sentence reading; width in per cent of the line."""
    return {"kind": "figure", "title": title, "reading": reading, "svg": svg, "width": width}


def whole_page(svg: str, size: tuple[float, float]) -> Block:
    """A drawing sheet as a page of its own size [mm]."""
    return {"kind": "sheet", "svg": svg, "width": size[0], "height": size[1]}
