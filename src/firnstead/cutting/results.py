"""Results of the cutting study."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity


@dataclass(frozen=True)
class CutRow:
    """One pass of the cut plan."""

    number: int = quantity("1", "number of the pass, from the surface down")
    part: str = quantity("text", "bench, straight or undercut")
    machine: str = quantity("text", "miller that cuts it")
    top: float = quantity("m", "depth at which the pass starts")
    bottom: float = quantity("m", "depth of the floor that it leaves")
    width: float = quantity("m", "width that it clears")
    runs: int = quantity("1", "runs side by side")
    length: float = quantity("m", "length of the pass")
    volume: float = quantity("m3", "snow in place that it takes out")
    density: float = quantity("kg/m3", "mean density of that snow")
    speed: float = quantity("m/s", "speed of travel at full output")
    lift: float = quantity("m", "height to which its snow must be thrown")
    throws: int = quantity("1", "throws that bring its snow on to the bank")
    hours: float = quantity("h", "hours of the cutting miller, turning included")


@dataclass(frozen=True)
class SectionMade:
    """The section that the passes leave."""

    polygon: tuple[tuple[float, float], ...] = quantity("m", "corners, across and down, in order round it")
    area: float = quantity("m2", "area of the section")
    perimeter: float = quantity("m", "length of its outline")
    asked_area: float = quantity("m2", "area of the section as asked, with smooth walls")
    top_width: float = quantity("m", "clear width below the bench")
    floor_width: float = quantity("m", "width at the floor")
    undercut: float = quantity("m", "undercut made on each side")
    undercut_from: float = quantity("m", "depth at which the widening really starts")
    step: float = quantity("m", "step outward of each lower pass")


@dataclass(frozen=True)
class SpoilBank:
    """Where the thrown snow lies."""

    sides: int = quantity("1", "sides of the cut that have a bank")
    height: float = quantity("m", "height of the bigger bank")
    base: float = quantity("m", "width of its foot")
    set_back: float = quantity("m", "from the edge of the bench to its foot")
    room: float = quantity("m", "free ground beside the bench on its side")
    pressure: float = quantity("Pa", "pressure under the crest of the bank")


@dataclass(frozen=True)
class Snow:
    """The snow of one cut."""

    in_place: float = quantity("m3", "volume in place")
    density: float = quantity("kg/m3", "mean density in place")
    mass: float = quantity("kg", "mass")
    thrown: float = quantity("m3", "volume as it lies in the bank")
    swell: float = quantity("1", "volume in the bank over volume in place")
    cover_area: float = quantity("m2", "section of the roof's cover as placed")
    cover: float = quantity("kg", "mass that the roof's cover takes")
    left: float = quantity("kg", "mass left in the bank when the roof is covered")
    thrown_twice: float = quantity("kg", "mass that a second miller throws again")


@dataclass(frozen=True)
class UndercutGain:
    """What the undercut saves and costs against a straight cut with the same floor, for the whole place."""

    span: float = quantity("m", "span of the arch")
    span_straight: float = quantity("m", "span that a straight cut would need")
    sheet_saved: float = quantity("m2", "sheet saved, on the line of the arch, laps not counted")
    steel_saved: float | None = quantity("kg", "steel saved; empty where the mass of the sheet is not known")
    volume_saved: float = quantity("m3", "snow in place that need not be cut")
    passes_more: int = quantity("1", "passes more than the straight cut takes")
    hours_saved: float = quantity("h", "miller hours saved (less than 0: the undercut takes longer)")


@dataclass(frozen=True)
class PlaceCut:
    """Everything about the cut of one passage or trench."""

    place: str = quantity("text", "name of the place")
    section: SectionMade = quantity("text", "the section that the passes leave")
    plan: tuple[CutRow, ...] = quantity("text", "pass by pass")
    length: float = quantity("m", "length that is cut for this place")
    snow: Snow = quantity("text", "volumes and masses")
    spoil: SpoilBank = quantity("text", "the bank of thrown snow")
    miller: str = quantity("text", "miller that cuts it")
    hours: dict[str, float] = quantity("h", "hours by miller: cutting, turning, moving, throwing again")
    keep_back: float = quantity("m", "distance that machines keep from the edge once it is undercut")
    relief_volume: float = quantity("m3", "snow in place of the relief cut at the surface")
    undercut: UndercutGain | None = quantity("text", "what the undercut saves and costs; empty for a straight cut")
    hand_volume: float = quantity("m3", "snow cut out by hand: link to the passage and niches")
    hand_hours: float = quantity("h", "person-hours for it")


@dataclass(frozen=True)
class MillerSeason:
    """One kind of miller over the season."""

    machine: str = quantity("text", "name of the machine")
    count: int = quantity("1", "how many of them")
    hours: float = quantity("h", "machine hours needed")
    available: float = quantity("h", "machine hours that the season offers")
    power_share: float = quantity("1", "share of the engine's power left at this altitude")
    output: float = quantity("m3/s", "output at the stated density, with the power that is left")


@dataclass(frozen=True)
class CuttingResult:
    """The cut of the whole station."""

    places: dict[str, PlaceCut] = quantity("text", "by place")
    millers: dict[str, MillerSeason] = quantity("text", "by machine")
    volume: float = quantity("m3", "snow in place, all places, machine and hand work")
    mass: float = quantity("kg", "mass of it")
    crew_hours: float = quantity("h", "person-hours on the millers")
