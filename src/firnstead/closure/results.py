"""What a closure forecast says, in SI; every row belongs to the date in the same place of `dates`."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity

Row = tuple[float, ...]


@dataclass(frozen=True)
class Range:
    """A quantity through the dates: as expected, and the ends of its band."""

    least: Row = quantity("m", "end of the band with the least movement")
    expected: Row = quantity("m", "with every input as expected")
    greatest: Row = quantity("m", "end of the band with the greatest movement")


@dataclass(frozen=True)
class Loss:
    """When a clearance is lost [s since the cut]; infinite: not within the time looked at."""

    earliest: float = quantity("s", "at the fast end of the band")
    expected: float = quantity("s", "with every input as expected")
    latest: float = quantity("s", "at the slow end of the band")


@dataclass(frozen=True)
class ClosureForecast:
    """How a trench closes and when its clearances are lost."""

    dates: Row = quantity("s", "dates since the cut")
    heights: Row = quantity("m", "heights above the floor at which widths are given")
    widths: tuple[Range, ...] = quantity("m", "clear width at each of the heights")
    height: Range = quantity("m", "clear height on the axis")
    floor_heave: Range = quantity("m", "rise of the floor against far snow")
    roof_sag: Range = quantity("m", "sinking of the roof or cover against far snow; zeros if open to the sky")
    shoulder_sag: Range = quantity("m", "sinking of the shoulder against far snow; zeros if open to the sky")
    side: Loss = quantity("s", "when the clearance beside building or passage is lost")
    top: Loss = quantity("s", "when the clearance above it is lost")
    trim: Row = quantity("m3/m", "snow to cut a year, both sides, to keep the clearance: one figure a full year")
    effects: tuple[tuple[str, float], ...] = quantity(
        "1", "ln(high/low)/2 of the loss of the lowest width when the first clearance goes"
    )
    outlines: tuple[tuple[tuple[float, float], ...], ...] = quantity("m", "half outline of the void at each date")
    notes: tuple[str, ...] = quantity("text", "what the reader must know about validity")
