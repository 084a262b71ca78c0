"""The work of a roof as work items: planks, sheets, fasteners, cover, the wait, tests; forms for a roof of snow."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from firnstead.core.results import Exposure, WorkItem
from firnstead.roof.arch import segment_arc_length
from firnstead.roof.sheet import SheetProperties, sheet
from firnstead.roof.stress import STEEL_DENSITY
from firnstead.station.build import ArchRoof, FormedRoof, Section

WHOLE = 1e-9  # a count this close above a whole number is that whole number
ARCH_PEOPLE = 6  # people who put up arches where the file names no such crew (own rule)
NESTED = 3.0  # nested sheets take this many times their base thickness in a stack (own rule)
FASTENER_MASS, FASTENER_VOLUME = 0.2, 1.0e-4  # one bolt with nut and washers, packed (own rule)
TEST_SPACING = 15.0  # length of cover for one strength test (own rule)


@dataclass(frozen=True)
class Output:
    """Crew and machine that roof a place: names, people, sheets an hour each, cover [kg/s]."""

    crew: str
    people: int
    sheets: float
    machine: str
    cover: float


@dataclass(frozen=True)
class Pieces:
    """What an arch roof of a length is made of."""

    sheets: int
    fasteners: int
    planks: int
    sheet_mass: float
    sheet_volume: float
    plank_mass: float
    plank_volume: float
    cover: float
    """Volume of the cover as placed [m3]."""


def cover_volume(roof: ArchRoof | FormedRoof, section: Section, length: float) -> float:
    """Milled snow over a roof out to the sides of the cut, as placed [m3]."""
    width = max(section.top_width + 2 * section.bench_width, roof.span)
    side = roof.rise + roof.cover
    if isinstance(roof, ArchRoof) and roof.haunch_cover is not None:
        side = roof.haunch_cover
    # the thickness changes between crown and feet with the fall of the arch, as in the loads
    mean = _mean_fall(roof)
    over = roof.span * (roof.cover + (side - roof.cover) * mean)
    return length * (over + (width - roof.span) * side)


def _mean_fall(roof: ArchRoof | FormedRoof) -> float:
    """Mean of 1 - y/f over the span: of a circular segment, or of a parabola for a formed roof."""
    if isinstance(roof, FormedRoof):
        return 1 / 3
    arc, radius = segment_arc_length(roof.span, roof.rise), (roof.span**2 / 4 + roof.rise**2) / (2 * roof.rise)
    area = (radius * arc - roof.span * (radius - roof.rise)) / 2
    return 1 - area / (roof.span * roof.rise)


def pieces_of(roof: ArchRoof, section: Section, length: float, props: SheetProperties | None) -> Pieces:
    """Sheets, fasteners and planks of a roof; without a known sheet their mass is not known."""
    arc = segment_arc_length(roof.span, roof.rise)
    round_arch = (
        max(1, ceil((arc - roof.lap) / (roof.sheet_length - roof.lap) - WHOLE)) if (roof.sheet_length > roof.lap) else 1
    )
    sheets = round_arch * ceil(length / roof.sheet_width - WHOLE)
    width = roof.sheet_width + roof.lap
    plank = roof.plank
    planks = 2 * ceil(length / plank.length - WHOLE)
    volume = plank.width * plank.thickness * plank.length
    mass = props.area * STEEL_DENSITY * width * roof.sheet_length if props else 0.0
    packed = width * roof.sheet_length * NESTED * sheet(roof.profile, roof.gauge).base if props else 0.0
    return Pieces(
        sheets,
        sheets * roof.fasteners,
        planks,
        mass,
        packed,
        volume * plank.density,
        volume,
        cover_volume(roof, section, length),
    )


def arch_items(
    place: str,
    name: str,
    roof: ArchRoof,
    pieces: Pieces,
    density: float,
    output: Output,
    wait: float | None,
    length: float,
) -> tuple[WorkItem, ...]:
    """Everything that is bought and done for an arch roof, in order."""
    head = f"{place}.roof"
    crew, hours = output.crew, pieces.sheets / (output.sheets * output.people)
    items = [
        WorkItem(
            f"{head}.planks",
            place,
            "roof",
            "Planks for both shoulders",
            float(pieces.planks),
            "planks",
            mass=pieces.planks * pieces.plank_mass,
            volume=pieces.planks * pieces.plank_volume,
            after=(f"{place}.cutting.bench",),
            parts=((f"plank {name}", float(pieces.planks)),),
            note="laid during the cut; keepers, where the file asks for them, are extra",
        ),
        WorkItem(
            f"{head}.arches",
            place,
            "roof",
            "Put up arch sheets",
            float(pieces.sheets),
            "sheets",
            mass=pieces.sheets * pieces.sheet_mass,
            volume=pieces.sheets * pieces.sheet_volume,
            crew=crew,
            people=output.people,
            hours=hours,
            after=(f"{place}.cutting.planks", f"{head}.planks", f"{place}.cutting.cut"),
            parts=((f"arch sheet {name}", float(pieces.sheets)),),
            note="packed volume: nested, own rule"
            if pieces.sheet_mass
            else "the sheet is not in the table: mass not known",
        ),
    ]
    if pieces.fasteners:
        items.append(
            WorkItem(
                f"{head}.fasteners",
                place,
                "roof",
                "Fasten arch sheets",
                float(pieces.fasteners),
                "bolt sets",
                mass=pieces.fasteners * FASTENER_MASS,
                volume=pieces.fasteners * FASTENER_VOLUME,
                crew=crew,
                after=(f"{head}.planks",),
                parts=(("bolt set", float(pieces.fasteners)),),
                note="hours are in the putting up; mass of a set: own rule",
            )
        )
    return (*items, *_cover_items(head, place, pieces.cover, density, output, wait, length, f"{head}.arches"))


def formed_items(
    place: str, roof: FormedRoof, section: Section, density: float, output: Output, wait: float | None, length: float
) -> tuple[WorkItem, ...]:
    """Setting the form, covering it, waiting, stripping, length after length."""
    head, volume = f"{place}.roof", cover_volume(roof, section, length)
    moves = max(1, ceil(length / roof.form_length - WHOLE))
    form = WorkItem(
        f"{head}.forms",
        place,
        "roof",
        "Set the form",
        float(moves),
        "settings",
        crew=output.crew,
        people=output.people,
        after=(f"{place}.cutting.cut",),
        note="no output for setting a form is in the file; each length hardens before the form moves on",
    )
    covered = _cover_items(head, place, volume, density, output, wait, length, form.id)
    strip = WorkItem(
        f"{head}.strip",
        place,
        "roof",
        "Take out the form",
        float(moves),
        "settings",
        crew=output.crew,
        people=output.people,
        exposure=Exposure.UNDER_ROOF,
        after=(covered[-1].id,),
        note="only by measured strength; nobody inside the length that is stripped",
    )
    return (form, *covered, strip)


def _cover_items(
    head: str, place: str, volume: float, density: float, output: Output, wait: float | None, length: float, before: str
) -> tuple[WorkItem, ...]:
    hours = volume * density / output.cover / 3600 if output.cover > 0 else 0.0
    known = wait is not None and wait < float("inf")
    return (
        WorkItem(
            f"{head}.cover",
            place,
            "roof",
            "Cover with milled snow, both sides together",
            volume,
            "m3",
            machine=output.machine,
            crew=output.crew,
            hours=hours,
            after=(before,),
            note="volume as placed; nobody under the arch meanwhile",
        ),
        WorkItem(
            f"{head}.harden",
            place,
            "roof",
            "Let the cover harden",
            volume,
            "m3",
            after=(f"{head}.cover",),
            hours=wait / 3600 if wait is not None and known else 0.0,
            note="from the measured strength" if known else "the wait is not known until the strength is measured",
        ),
        WorkItem(
            f"{head}.test",
            place,
            "roof",
            "Test the strength of the cover",
            float(max(3, ceil(length / TEST_SPACING))),
            "tests",
            people=2,
            crew=output.crew,
            after=(f"{head}.harden",),
            note="before any load; number: own rule",
        ),
    )
