"""What a long section is drawn from: places along the axis, levels from the snow surface, in metres."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class HouseSide:
    """A building seen from its side: near and far end along the axis, height, height of its footings [m]."""

    name: str
    near: float
    far: float
    height: float
    footing: float


@dataclass(frozen=True)
class ShaftSide:
    """An escape hatch: place along the axis and width of the shaft [m]."""

    name: str
    at: float
    width: float


@dataclass(frozen=True)
class EndSide:
    """What is at one end: a wall of blocks, a ramp to the surface, a link to the passage, or plain snow."""

    wall: float = 0.0
    """Thickness of the block wall [m]; 0 for none."""
    ramp_slope: float = 0.0
    """Slope of the ramp [degrees]; 0 for none."""
    link: float | None = None
    """Length of the hand-cut link to the passage [m]; 0 where the cuts touch; None for no passage."""
    opening: float = 0.0
    """Clear height of the link, the portal or the doorway [m]."""
    leads_to: str = ""
    """Words beside a link: the passage that it leads to."""


@dataclass(frozen=True)
class LongSectionInput:
    """All that a long section shows; x along the axis from its start, z up from the snow surface [m]."""

    place: str
    length: float
    depth: float
    crown: float
    """Level of the roof's crown."""
    cover: float
    """Thickness of milled snow over the crown."""
    steel: bool = True
    buildings: tuple[HouseSide, ...] = ()
    hatches: tuple[ShaftSide, ...] = ()
    start: EndSide = EndSide()
    end: EndSide = EndSide()
    notes: tuple[str, ...] = ()
    units: str = "metric"
