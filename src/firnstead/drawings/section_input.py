"""What a cross-section is drawn from: plain numbers in metres."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.drawings.figure import Point
from firnstead.drawings.shapes import ArchShape, CoverShape


@dataclass(frozen=True)
class PlankShape:
    """The timber on each shoulder: distance of its near side from the axis, width, thickness [m]."""

    near: float
    width: float
    thickness: float


@dataclass(frozen=True)
class BuildingShape:
    """A building seen from its end, on footings, in the middle of the cut [m]."""

    name: str
    width: float
    height: float
    footing: float


@dataclass(frozen=True)
class SectionInput:
    """All that a cross-section shows; x across from the axis, z up from the snow surface [m]."""

    place: str
    kind: str
    """"straight" or "undercut"."""
    top_width: float
    floor_width: float
    depth: float
    bench_width: float
    bench_depth: float
    outline: tuple[Point, ...]
    """The cut as it is made, a closed ring up to the surface."""
    passes: tuple[tuple[Point, ...], ...] = ()
    """Outlines of the passes in the order of cutting."""
    arch: ArchShape | None = None
    plank: PlankShape | None = None
    cover: CoverShape | None = None
    building: BuildingShape | None = None
    densities: tuple[tuple[float, float], ...] = ()
    """Depth [m] and density [kg/m3] to write beside the cut."""
    notes: tuple[str, ...] = ()
    units: str = "metric"

    @property
    def bench_half(self) -> float:
        """Half of the width between the outer walls of the bench [m]."""
        return self.top_width / 2 + self.bench_width
