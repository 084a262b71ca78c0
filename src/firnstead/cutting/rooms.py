"""Free ground beside a cut: how far away its neighbours are, on the left and on the right."""

from __future__ import annotations

from collections.abc import Iterable

FAR = 100.0  # no farther than this is looked [m]
Corners = tuple[tuple[float, float], ...]


def free_ground(
    start: tuple[float, float], direction: tuple[float, float], length: float, half_width: float,
    neighbours: Iterable[Corners], far: float = FAR,
) -> tuple[float, float]:  # fmt: skip
    """Give the free ground beside a cut, from its edge to the nearest neighbour on each side.

    least distance across the axis of any neighbour's outline between start and end of the cut, less half_width

    Parameters
    ----------
    start : tuple of float [m]
        Start of the axis.
    direction : tuple of float [1]
        Unit vector along the axis.
    length : float [m]
        Length of the cut.
    half_width : float [m]
        From the axis to the outer edge of the cut.
    neighbours : iterable of corners [m]
        Outlines of other cuts, in order round each; those that meet this cut are left out by the caller or, where they
        cross its axis, here.
    far : float [m]
        Distance beyond which nothing is looked for.
    Returns
    -------
    tuple of float [m]
        Free ground on the left and on the right, seen along the axis.
    Validity: level ground, convex outlines; what lies beyond the ends of the cut does not count.
    Source: statics, plane geometry.

    >>> free_ground((0.0, 0.0), (0.0, 1.0), 40.0, 3.0, [((20.0, 0.0), (26.0, 0.0), (26.0, 40.0), (20.0, 40.0))])
    (97.0, 17.0)
    """
    left = right = far
    (x0, y0), (dx, dy) = start, direction
    for corners in neighbours:
        seen = [((x - x0) * dx + (y - y0) * dy, -(x - x0) * dy + (y - y0) * dx) for x, y in corners]
        if max(s for s, _ in seen) <= 0.0 or min(s for s, _ in seen) >= length:
            continue
        across = _between(seen, length)
        if not across or min(across) <= 0.0 <= max(across):
            continue
        if across[0] > 0:
            left = min(left, min(across))
        else:
            right = min(right, -max(across))
    return left - half_width, right - half_width


def _between(seen: list[tuple[float, float]], length: float) -> list[float]:
    """Distances across the axis of the corners between 0 and `length` along it, and of the edges where they cross."""
    found = [c for s, c in seen if 0.0 <= s <= length]
    for (s1, c1), (s2, c2) in zip(seen, [*seen[1:], seen[0]], strict=True):
        for line in (0.0, length):
            if (s1 - line) * (s2 - line) < 0:
                found.append(c1 + (c2 - c1) * (line - s1) / (s2 - s1))
    return found
