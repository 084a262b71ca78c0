"""The way from a source board to every other: which feeder feeds what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

Line = tuple[str, str, str, bool]  # feeder, two boards, whether it stands open in normal running


def tree(lines: Sequence[Line], root: str, lost: Sequence[str] = ()) -> dict[str, tuple[str, str]]:
    """Give the board and the feeder that feed every board that can be reached; closed feeders go before open ones.

    breadth first from the root; an open feeder is closed only where no closed one leads on

    Parameters
    ----------
    lines : sequence of Line [text]
        Feeders: name, two boards, whether it stands open in normal running.
    root : str [text]
        Board that supplies.
    lost : sequence of str [text]
        Boards and feeders that are out.
    Returns
    -------
    dict of tuple [text]
        By board, in the order of the way out: board before it and feeder between; two empty texts for the root.
    Validity: a net without rings among its closed feeders.
    Source: statics, radial network.

    >>> tree([("f", "a", "b", False), ("g", "b", "c", True)], "a")
    {'a': ('', ''), 'b': ('a', 'f'), 'c': ('b', 'g')}
    """
    found: dict[str, tuple[str, str]] = {root: ("", "")}
    while True:
        step = _next(lines, found, lost, still_open=False) or _next(lines, found, lost, still_open=True)
        if step is None:
            return found
        name, before, board = step
        found[board] = (before, name)


def _next(
    lines: Sequence[Line], found: Mapping[str, object], lost: Sequence[str], still_open: bool
) -> tuple[str, str, str] | None:
    for name, a, b, is_open in lines:
        if is_open != still_open or name in lost or a in lost or b in lost:
            continue
        if (a in found) != (b in found):
            return (name, a, b) if a in found else (name, b, a)
    return None
