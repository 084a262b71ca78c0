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
class Change:
    """What one change of the design would do to the date at which the first clearance is lost."""

    what: str = quantity("text", "the change")
    lost: float = quantity("s", "when the first clearance is lost then; infinite: not within the time looked at")
    gained: float = quantity("s", "time gained; negative: lost")


@dataclass(frozen=True)
class Outline:
    """Half the outline of the void after some years, as expected."""

    year: float = quantity("yr", "years since the cut")
    line: tuple[tuple[float, float], ...] = quantity("m", "half-width and level, from the floor on the axis round")


@dataclass(frozen=True)
class ClosureForecast:
    """How a trench closes and when its clearances are lost."""

    dates: Row = quantity("s", "dates since the cut")
    heights: Row = quantity("1", "shares of the height on the day at which widths are given")
    widths: tuple[Range, ...] = quantity("m", "clear width at each of the heights")
    height: Range = quantity("m", "clear height on the axis, to the feet of an arch or the crown of a vault")
    floor_heave: Range = quantity("m", "rise of the floor against far snow")
    roof_sag: Range = quantity("m", "sinking of the roof against far snow")
    shoulder_sag: Range = quantity("m", "sinking of the shoulder against far snow")
    shoulder_in: Range = quantity("m", "how far each shoulder has come in")
    side_room: Range = quantity("m", "least room beside building or passage")
    top_room: Range = quantity("m", "least room above it")
    side: Loss = quantity("s", "when the clearance beside building or passage is lost")
    top: Loss = quantity("s", "when the clearance above it is lost")
    trim: Row = quantity("m3/m", "snow to cut a year, both sides, to keep the clearance: one figure a full year")
    effects: tuple[tuple[str, float], ...] = quantity(
        "1", "ln(high/low)/2 of the loss of the lowest width when the first clearance goes"
    )
    changes: tuple[Change, ...] = quantity("1", "what to change first")
    outlines: tuple[Outline, ...] = quantity("1", "outlines of the void through the years")
    notes: tuple[str, ...] = quantity("text", "what the reader must know about validity")


@dataclass(frozen=True)
class Softness:
    """The site's k for each exponent, fitted to the site's own density profile."""

    exponents: Row = quantity("1", "creep exponents: linear, as expected, cubic")
    k: Row = quantity("1", "softness of the site for each")
    misfit: Row = quantity("kg/m3", "root of the mean squared difference from the profile")
    k_lighter: float = quantity("1", "as expected, with the profile lighter by the doubt of density")
    k_denser: float = quantity("1", "as expected, with the profile denser by the doubt of density")
    top: float = quantity("m", "depth from which the profile was used")
    bottom: float = quantity("m", "depth to which the profile was used")


@dataclass(frozen=True)
class PlaceClosure:
    """How one place closes."""

    family: str = quantity("text", "name of the marches it was read from, by content")
    what: str = quantity("text", "what must stay clear: a kit, a way; empty where nothing is stated")
    needed: float = quantity("m", "clearance that must stay beside and above it")
    half_width: float = quantity("m", "its half-width")
    height: float = quantity("m", "its height above the floor")
    length: float = quantity("m", "length of the place over which it must stay clear")
    pillar: float = quantity("m", "snow to the nearest cut beside it; infinite where there is none")
    first_year: float = quantity("m", "loss of width in the first year at the middle height, as expected")
    forecast: ClosureForecast = quantity("1", "the forecast")


@dataclass(frozen=True)
class ClosureResult:
    """Closure of the whole station."""

    softness: Softness | None = quantity("1", "the site's k; none where it is not worked out yet or cannot be")
    places: dict[str, PlaceClosure] = quantity("1", "forecast by place")
    waiting: tuple[str, ...] = quantity("text", "places whose forecast has not been worked out yet")
