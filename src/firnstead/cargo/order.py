"""Order of need: how many steps of work lie before each work item."""

from __future__ import annotations

from collections.abc import Mapping


def steps_before(after: Mapping[str, tuple[str, ...]]) -> dict[str, int]:
    """Count the longest chain of work that must be done before each item.

    s = 0 without predecessors, else 1 + max over predecessors of s

    Parameters
    ----------
    after : Mapping [text to text]
        Item and the items that it must come after; unknown names are passed over.
    Returns
    -------
    dict [text to 1]
        Steps before each item. Items on a closed ring get the number of all items (they can never start).
    Validity: finish-to-start links.
    Source: statics, longest path in a network.

    >>> steps_before({"cut": (), "roof": ("cut",), "hut": ("roof", "cut"), "x": ("nowhere",)})
    {'cut': 0, 'roof': 1, 'hut': 2, 'x': 0}
    """
    waits = {name: {p for p in before if p in after} for name, before in after.items()}
    followers: dict[str, list[str]] = {name: [] for name in after}
    for name, before in waits.items():
        for p in before:
            followers[p].append(name)
    steps = {name: 0 for name, before in waits.items() if not before}
    ready = list(steps)
    open_links = {name: len(before) for name, before in waits.items()}
    while ready:
        done = ready.pop()
        for name in followers[done]:
            steps[name] = max(steps.get(name, 0), steps[done] + 1)
            open_links[name] -= 1
            if open_links[name] == 0:
                ready.append(name)
    return {name: steps[name] if open_links[name] == 0 else len(after) for name in after}
