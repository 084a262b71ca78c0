"""The cross-section that a miller's passes leave: widths, steps of an undercut, polygon, area.

x runs across the cut from its axis, depth runs down from the snow surface.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from firnstead.cutting.passes import Pass, largest_undercut, passes_in, runs_needed, undercut_passes

THIN = 1e-3  # a bench thinner or narrower than this is none [m]
Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class CutSection:
    """What the passes give, beside what was asked for."""

    passes: tuple[Pass, ...]
    polygon: Points
    area: float
    perimeter: float
    asked_area: float
    top_width: float
    floor_width: float
    undercut_asked: float
    undercut_made: float
    undercut_largest: float
    undercut_from: float
    step: float


def shoelace(points: Points) -> float:
    """Give the area of a polygon.

    A = abs(sum(x_i y_(i+1) - x_(i+1) y_i))/2

    Parameters
    ----------
    points : tuple of pairs [m]
        Corners in order round the polygon.
    Returns
    -------
    float [m2]
        Area.
    Validity: the outline does not cross itself.
    Source: statics.

    >>> shoelace(((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)))
    12.0
    """
    turned = zip(points, (*points[1:], points[0]), strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in turned)) / 2


def outline(points: Points) -> float:
    """Give the length of the outline of a polygon.

    P = sum(sqrt((x_(i+1) - x_i)^2 + (y_(i+1) - y_i)^2))

    Parameters
    ----------
    points : tuple of pairs [m]
        Corners in order round the polygon.
    Returns
    -------
    float [m]
        Length of the outline.
    Validity: any polygon.
    Source: statics.

    >>> outline(((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)))
    14.0
    """
    turned = zip(points, (*points[1:], points[0]), strict=True)
    return sum(hypot(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in turned)


def section_polygon(passes: tuple[Pass, ...]) -> Points:
    """Give the outline of a stepped cut, clockwise seen with depth downward, from its upper left corner.

    down the right side of every pass, back up the left side; corners in line are left out

    Parameters
    ----------
    passes : tuple of Pass [text]
        Passes from the surface down.
    Returns
    -------
    tuple of pairs [m]
        Corners (x, depth).
    Validity: passes follow one another without a gap.
    Source: statics.

    >>> section_polygon((Pass("straight", 0.0, 1.0, -2.0, 2.0, 1), Pass("straight", 1.0, 2.0, -2.0, 2.0, 1)))
    ((-2.0, 0.0), (2.0, 0.0), (2.0, 2.0), (-2.0, 2.0))
    """
    right = [(p.right, z) for p in passes for z in (p.top, p.bottom)]
    left = [(p.left, z) for p in reversed(passes) for z in (p.bottom, p.top)]
    ring: list[tuple[float, float]] = []
    for point in (*right, *left):
        if ring and point == ring[-1]:
            continue
        if len(ring) > 1 and ring[-2][0] == ring[-1][0] == point[0]:
            ring.pop()
        ring.append(point)
    return (ring[-1], *ring[:-1])


def build_section(
    *, top_width: float, floor_width: float, depth: float, bench_width: float, bench_depth: float,
    undercut_from: float, cut_width: float, pass_depth: float, reach: float,
    overlap_share: float = 0.05, least_pass_share: float = 0.25,
) -> CutSection:  # fmt: skip
    """Build a section from the passes of one miller: bench, straight part, stepped undercut.

    Every part is cut in equal passes no deeper than pass_depth; pass i of n of the undercut is as wide as the asked
    line at the pass's bottom, so the cut is never narrower than asked: b_i = b_top + u i/n, u/n <= reach.

    Parameters
    ----------
    top_width : float [m]
        Clear width wanted below the bench.
    floor_width : float [m]
        Width wanted at the floor.
    depth : float [m]
        Depth of the floor below the snow surface.
    bench_width : float [m]
        Width of the bench on each side.
    bench_depth : float [m]
        Depth of the bench below the snow surface.
    undercut_from : float [m]
        Depth at which the widening starts.
    cut_width : float [m]
        Width of one cut of the miller.
    pass_depth : float [m]
        Greatest depth of one pass.
    reach : float [m]
        How far one pass can be set sideways under the wall above it.
    overlap_share : float [1]
        Overlap of neighbouring runs as a share of the cut width (own rule).
    least_pass_share : float [1]
        Thinnest pass as a share of the full pass depth (own rule).
    Returns
    -------
    CutSection [text]
        Passes in cutting order, outline, areas, widths asked and made.
    Validity: symmetric; the first pass below the bench is always straight, so that the shoulder is left as asked;
    where the reach does not suffice, the widest cut that it allows.
    Source: statics; own_rule for overlap and thinnest pass.

    >>> s = build_section(top_width=4.0, floor_width=5.2, depth=6.0, bench_width=0.8, bench_depth=0.6,
    ...                   undercut_from=2.4, cut_width=2.6, pass_depth=1.2, reach=0.3)
    >>> len(s.passes), round(s.area, 3), round(s.asked_area, 3), round(s.floor_width, 3), round(s.step, 3)
    (6, 27.84, 27.12, 5.2, 0.2)
    """
    half = max(top_width, cut_width) / 2
    passes: list[Pass] = []

    def cut(part: str, top: float, bottom: float, count: int, halves: list[float]) -> None:
        thick = (bottom - top) / count if count else 0.0
        for i, b in enumerate(halves):
            low = bottom if i == count - 1 else top + thick * (i + 1)
            runs = runs_needed(2 * b, cut_width, overlap_share * cut_width)
            passes.append(Pass(part, top + thick * i, low, -b, b, runs))

    bench = min(bench_depth, depth) if min(bench_width, bench_depth) > THIN else 0.0
    count = passes_in(bench, pass_depth)
    cut("bench", 0.0, bench, count, [half + bench_width] * count)
    undercut = max(0.0, (floor_width - top_width) / 2)
    start = depth
    if undercut > 0:
        first = min(pass_depth, (depth - bench) / 2)
        start = min(depth, max(undercut_from, bench + first))
    count = passes_in(start - bench, pass_depth)
    cut("straight", bench, start, count, [half] * count)
    height, thinnest = depth - start, least_pass_share * pass_depth
    count = undercut_passes(height, undercut, pass_depth, reach, thinnest) if undercut > 0 else 0
    largest = largest_undercut(height, reach, min(thinnest, height) or thinnest)
    step = min(undercut / count, reach) if count else 0.0
    # half - top_width/2: where one cut is wider than the asked top, that much of the undercut is there already
    halves = [max(half, top_width / 2 + step * (i + 1)) for i in range(count)]
    cut("undercut", start, depth, count, halves)
    points = section_polygon(tuple(passes))
    asked = (
        (top_width + 2 * bench_width) * bench
        + top_width * (start - bench)
        + (top_width + max(top_width, floor_width)) / 2 * height
    )
    made = halves[-1] if halves else half
    return CutSection(
        tuple(passes), points, shoelace(points), outline(points), asked, 2 * half, 2 * made, undercut,
        step * count, largest, start, step)  # fmt: skip
