"""What the cutting study takes from the station file, as plain numbers."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.cutting.altitude import power_share
from firnstead.cutting.asking import Ground
from firnstead.cutting.checks_rooms import InnerLine, Kit
from firnstead.cutting.passes import half_width_at
from firnstead.cutting.plan import Cutter
from firnstead.cutting.rooms import free_ground
from firnstead.cutting.section import CutSection, build_section
from firnstead.cutting.spoil import LEAST_SET_BACK
from firnstead.cutting.volumes import circular_segment_area, cover_area, length_beyond_wall, parabola_segment_area
from firnstead.snow.results import SnowColumn
from firnstead.station import Station
from firnstead.station.build import ArchRoof, FormedRoof, Section
from firnstead.station.geometry import axis, footprint, junction, widest
from firnstead.station.places import Passage, Place, Trench


@dataclass(frozen=True)
class Meeting:
    """How a trench meets its passage: gap of snow left, the passage's section, sine between the axes."""

    passage: str
    gap: float
    section: Section
    depth: float
    widest_half: float
    sine: float


def cutters(station: Station) -> tuple[Cutter, ...]:
    """The kinds of miller, by name."""
    height = station.site.elevation
    return tuple(
        Cutter(name, m.count, m.operators, m.cut_width, m.pass_depth, m.sideways_reach, m.output, m.output_density,
               power_share(height, m.altitude_loss / 1000.0), m.cast_height, m.cast_distance, m.turning_time,
               m.moving_time, m.ground_pressure)
        for name, m in sorted(station.millers.items())
    )  # fmt: skip


def helper_for(cutter: Cutter, all_cutters: tuple[Cutter, ...]) -> Cutter | None:
    """The miller that throws again or makes the relief cut: one more of the kind, else the strongest other."""
    if cutter.count > 1:
        return cutter
    others = [c for c in all_cutters if c is not cutter]
    return max(others, key=lambda c: (c.output * c.output_density * c.power_share, c.name)) if others else None


def depth_of(place: Place, section: Section) -> float:
    """Depth of the floor below the surface [m]."""
    return section.depth if place.floor_level is None else -place.floor_level


def made(section: Section, depth: float, cutter: Cutter, straight: bool = False) -> CutSection:
    """The section as this miller cuts it; `straight` for the same floor without an undercut."""
    return build_section(
        top_width=section.floor_width if straight else section.top_width, floor_width=section.floor_width, depth=depth,
        bench_width=section.bench_width, bench_depth=section.bench_depth,
        undercut_from=depth if section.undercut_from is None else section.undercut_from, cut_width=cutter.cut_width,
        pass_depth=cutter.pass_depth, reach=cutter.reach)  # fmt: skip


def densities(column: SnowColumn, section: CutSection) -> tuple[float, ...]:
    """Mean density of the snow that each pass takes out."""
    return tuple(column.mean("density", p.top, p.bottom) for p in section.passes)


def ground_at(column: SnowColumn, depth: float) -> Ground:
    """The snow at a depth; densities and strengths are the low end of the band."""
    return Ground(depth, column.at("overburden", depth), column.at("density_low", depth), column.at("ucs_low", depth),
                  column.at("tensile_low", depth))  # fmt: skip


def meeting(station: Station, place: Place) -> Meeting | None:
    """How a trench meets the passage it opens into; none for a passage and for a trench that stands alone."""
    if not isinstance(place, Trench) or place.opens_into is None:
        return None
    met = junction(station, place)
    if met is None:
        return None
    passage = station.passages[place.opens_into]
    section = station.sections[passage.section]
    (ux, uy), (dx, dy) = axis(passage).direction, axis(place).direction
    return Meeting(place.opens_into, met.gap, section, depth_of(passage, section), widest(section) / 2,
                   abs(ux * dy - uy * dx))  # fmt: skip


def passage_half(met: Meeting, cutter: Cutter, depth: float) -> float:
    """Half width of the passage at a depth; below its floor that of the floor."""
    return half_width_at(made(met.section, met.depth, cutter).passes, depth)


def pass_lengths(section: CutSection, length: float, met: Meeting | None, cutter: Cutter) -> tuple[float, ...]:
    """Length of each pass: from the passage's wall at that depth where the trench opens straight into it."""
    if met is None or met.gap > 0:
        return (length,) * len(section.passes)
    passes = made(met.section, met.depth, cutter).passes
    return tuple(
        length_beyond_wall(length, met.widest_half, half_width_at(passes, (p.top + p.bottom) / 2), met.sine)
        for p in section.passes
    )


def rooms(station: Station) -> dict[str, tuple[float, float]]:
    """Free ground beside each place, less the strip that stays clear of the neighbour."""
    prints = {name: footprint(p, station.sections[p.section]) for name, p in station.places.items()}
    found = {}
    for name, place in station.places.items():
        others = (prints[o] for o, p in station.places.items() if o != name and not _meet(name, place, o, p))
        line = axis(place)
        left, right = free_ground(
            line.start, line.direction, line.length, widest(station.sections[place.section]) / 2, others
        )
        found[name] = (left - LEAST_SET_BACK, right - LEAST_SET_BACK)
    return found


def _meet(a: str, place_a: Place, b: str, place_b: Place) -> bool:
    """Whether two places open into one another, or are both passages."""
    if isinstance(place_a, Passage) and isinstance(place_b, Passage):
        return True
    return (isinstance(place_a, Trench) and place_a.opens_into == b) or (
        isinstance(place_b, Trench) and place_b.opens_into == a
    )


def kits_in(station: Station) -> dict[str, tuple[Kit, ...]]:
    """The kinds of building in each place, each once."""
    found: dict[str, dict[str, Kit]] = {}
    for building in station.buildings.values():
        kit = station.kits[building.kit]
        found.setdefault(building.place, {})[building.kit] = Kit(
            building.kit, kit.width, kit.height, kit.footing_height, kit.clearance
        )
    return {place: tuple(kits[name] for name in sorted(kits)) for place, kits in found.items()}


def inner_line(station: Station, place: Place) -> InnerLine:
    """The inner line of the place's roof."""
    roof, section = station.roofs[place.roof], station.sections[place.section]
    feet = section.bench_depth if section.bench_width > 0 else 0.0
    return InnerLine(roof.span, roof.rise, feet, isinstance(roof, FormedRoof))


def cover_section(station: Station, place: Place) -> float:
    """Section of the snow that the place's roof takes as placed [m2]."""
    roof, section = station.roofs[place.roof], station.sections[place.section]
    width, side = section.top_width + 2 * section.bench_width, roof.rise + roof.cover
    if isinstance(roof, ArchRoof) and roof.haunch_cover is not None:
        side = roof.haunch_cover
    under = parabola_segment_area if isinstance(roof, FormedRoof) else circular_segment_area
    return cover_area(max(width, roof.span), roof.span, roof.rise, roof.cover, side, under(roof.span, roof.rise))


def crews(station: Station) -> dict[str, str]:
    """Which crew of the file does what, where its name says so."""
    wanted = {"cutting": ("cutting",), "planks": ("arches", "roof", "building"), "hand": ("hand", "building")}
    return {work: next((n for n in names if n in station.crews), "") for work, names in wanted.items()}
