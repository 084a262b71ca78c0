"""Passes of a miller: how many, how wide, what width they leave at a depth.

x runs across the cut from its axis, depth runs down from the snow surface.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

WHOLE = 1e-9  # a count this close above a whole number is that whole number (rounding of lengths)


@dataclass(frozen=True)
class Pass:
    """One layer that the miller takes out in one or more runs side by side; passes are cut in order."""

    part: str
    top: float
    bottom: float
    left: float
    right: float
    runs: int

    @property
    def width(self) -> float:
        """Width of the layer [m]."""
        return self.right - self.left

    @property
    def area(self) -> float:
        """Area of the layer [m2]."""
        return self.width * (self.bottom - self.top)


def runs_needed(width: float, cut_width: float, overlap: float) -> int:
    """Count the runs side by side that clear a width, each overlapping the one beside it.

    n = 1 + (width - cut_width)/(cut_width - overlap), rounded up; 1 where one cut is wide enough

    Parameters
    ----------
    width : float [m]
        Width to be cleared.
    cut_width : float [m]
        Width of one cut.
    overlap : float [m]
        Least overlap of neighbouring cuts.
    Returns
    -------
    int [1]
        Runs, at least 1.
    Validity: overlap below cut_width.
    Source: statics.

    >>> runs_needed(2.4, 2.6, 0.13), runs_needed(5.0, 2.6, 0.13), runs_needed(12.2, 2.6, 0.13)
    (1, 2, 5)
    """
    if width <= cut_width:
        return 1
    return 1 + ceil((width - cut_width) / (cut_width - overlap) - WHOLE)


def passes_in(height: float, pass_depth: float) -> int:
    """Count the passes of equal depth that take out a height.

    n = height/pass_depth, rounded up

    Parameters
    ----------
    height : float [m]
        Height to be taken out.
    pass_depth : float [m]
        Greatest depth of one pass.
    Returns
    -------
    int [1]
        Passes; 0 for no height.
    Validity: pass_depth above 0.
    Source: statics.

    >>> passes_in(4.0, 1.2), passes_in(3.6, 1.2), passes_in(0.0, 1.2)
    (4, 3, 0)
    """
    return max(0, ceil(height / pass_depth - WHOLE))


def largest_undercut(height: float, reach: float, least_pass_depth: float) -> float:
    """Give the greatest undercut on each side that passes of a given reach can make within a height.

    u = reach floor(height/least_pass_depth)

    Parameters
    ----------
    height : float [m]
        Height over which the cut widens.
    reach : float [m]
        How far one pass can be set sideways under the wall above it.
    least_pass_depth : float [m]
        Thinnest pass that is still worth a run.
    Returns
    -------
    float [m]
        Undercut on each side.
    Validity: every lower pass steps outward by no more than the reach.
    Source: statics.

    >>> round(largest_undercut(4.0, 0.3, 0.4), 2)
    3.0
    """
    return reach * int(height / least_pass_depth + WHOLE)


def undercut_passes(height: float, undercut: float, pass_depth: float, reach: float, least_pass_depth: float) -> int:
    """Count the passes of an undercut: enough for the height and enough for the reach.

    n = max(height/pass_depth, undercut/reach), rounded up, at most floor(height/least_pass_depth)

    Parameters
    ----------
    height : float [m]
        Height over which the cut widens.
    undercut : float [m]
        Undercut wanted on each side.
    pass_depth : float [m]
        Greatest depth of one pass.
    reach : float [m]
        How far one pass can be set sideways under the wall above it.
    least_pass_depth : float [m]
        Thinnest pass that is still worth a run.
    Returns
    -------
    int [1]
        Passes; with too small a reach the greatest possible number.
    Validity: pass_depth and least_pass_depth above 0.
    Source: statics.

    >>> undercut_passes(4.0, 0.6, 1.2, 0.3, 0.4), undercut_passes(4.0, 1.8, 1.2, 0.3, 0.4)
    (4, 6)
    """
    by_depth = passes_in(height, pass_depth)
    most = int(height / least_pass_depth + WHOLE)
    by_reach = most if undercut >= reach * most else ceil(undercut / reach - WHOLE)
    return max(by_depth, by_reach)


def half_width_at(passes: tuple[Pass, ...], depth: float) -> float:
    """Give the clear half width of a stepped cut at a depth.

    b = width of the pass at that depth / 2; where two passes meet, the narrower

    Parameters
    ----------
    passes : tuple of Pass [text]
        Passes from the surface down, symmetric about the axis.
    depth : float [m]
        Depth below the snow surface.
    Returns
    -------
    float [m]
        Half width; below the floor that of the floor, above the cut that of the first pass.
    Validity: passes follow one another without a gap.
    Source: statics.

    >>> half_width_at((Pass("bench", 0.0, 1.0, -3.0, 3.0, 3), Pass("straight", 1.0, 2.0, -2.0, 2.0, 2)), 1.5)
    2.0
    """
    here = [p.width / 2 for p in passes if p.top - WHOLE <= depth <= p.bottom + WHOLE]
    if here:
        return min(here)
    return (passes[0] if depth < passes[0].top else passes[-1]).width / 2


def narrowest_between(passes: tuple[Pass, ...], top: float, bottom: float) -> float:
    """Give the smallest clear half width of a stepped cut between two depths.

    b = min over the passes between top and bottom of width/2

    Parameters
    ----------
    passes : tuple of Pass [text]
        Passes from the surface down, symmetric about the axis.
    top : float [m]
        Upper depth.
    bottom : float [m]
        Lower depth.
    Returns
    -------
    float [m]
        Half width.
    Validity: top above bottom; outside the cut the nearest pass counts.
    Source: statics.

    >>> narrowest_between((Pass("bench", 0.0, 1.0, -3.0, 3.0, 3), Pass("straight", 1.0, 2.0, -2.0, 2.0, 2)), 0.2, 0.8)
    3.0
    """
    touched = [p.width / 2 for p in passes if p.top < bottom - WHOLE and p.bottom > top + WHOLE]
    return min(touched) if touched else half_width_at(passes, (top + bottom) / 2)
