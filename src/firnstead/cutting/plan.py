"""The cut plan of one place: pass by pass, with one miller, from numbers alone."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.cutting.casting import available_lift, landing_lift, machines_at_once, throws_needed
from firnstead.cutting.output import output_at_density, pass_time, rethrow_time, travel_speed
from firnstead.cutting.results import CutRow
from firnstead.cutting.section import CutSection
from firnstead.cutting.spoil import LEAST_SET_BACK, Bank, place_bank

SOME_FEET = 1.2  # depth below the bench at which planks are laid: "some feet" in the trade, four here [m]


@dataclass(frozen=True)
class Cutter:
    """What the plan needs to know of a kind of miller; outputs as stated, `power_share` for the altitude."""

    name: str
    count: int
    operators: int
    cut_width: float
    pass_depth: float
    reach: float
    output: float
    output_density: float
    power_share: float
    cast_height: float
    cast_distance: float
    turning_time: float
    moving_time: float
    ground_pressure: float


@dataclass(frozen=True)
class Setting:
    """Where one place is cut: lengths and densities of its passes, free ground, thrown snow."""

    lengths: tuple[float, ...]
    densities: tuple[float, ...]
    surface_density: float
    rooms: tuple[float, float]
    thrown_density: float
    repose: float


@dataclass(frozen=True)
class Plan:
    """A cut with its bank, its rows and the time it takes."""

    section: CutSection
    rows: tuple[CutRow, ...]
    bank: Bank
    at_once: int
    relief_volume: float
    relief_mass: float
    thrown_density: float
    repose: float
    mass: float
    thrown_twice: float
    cutting_hours: float
    relief_hours: float
    second_hours: float

    @property
    def volume(self) -> float:
        """Snow in place [m3]."""
        return sum(row.volume for row in self.rows)

    @property
    def longest(self) -> float:
        """Length of the longest pass [m]."""
        return max(row.length for row in self.rows)


def make_plan(section: CutSection, cutter: Cutter, second: Cutter | None, setting: Setting) -> Plan:
    """Plan the cut: what every pass gives, where its snow lands, how often it is thrown, how long it takes."""
    masses = [p.area * n * d for p, n, d in zip(section.passes, setting.lengths, setting.densities, strict=True)]
    longest = max(setting.lengths)
    at_once = machines_at_once(max(section.top_width, section.floor_width))
    edge = max(p.right for p in section.passes)
    least, relief_area = LEAST_SET_BACK, 0.0
    if at_once > 1:  # the relief cut lies between the bench and the bank, one run wide and one pass deep
        least, relief_area = LEAST_SET_BACK + cutter.cut_width, cutter.cut_width * cutter.pass_depth

    thrown = (sum(masses) / longest + 2 * relief_area * setting.surface_density) / setting.thrown_density
    bank = place_bank(thrown, setting.repose, section.passes[-1].bottom, edge, setting.rooms, cutter.cast_height,
                      cutter.cast_distance, max(0.0, (section.floor_width - cutter.cut_width) / 2), least)  # fmt: skip
    far = available_lift(bank.distance, cutter.cast_height, cutter.cast_distance)
    rows = []
    for number, (p, length, density) in enumerate(
        zip(section.passes, setting.lengths, setting.densities, strict=True), 1
    ):
        output = output_at_density(cutter.output, cutter.output_density, density, cutter.power_share)
        lift = landing_lift(p.bottom, bank.height)
        rows.append(CutRow(
            number=number, part=p.part, machine=cutter.name, top=p.top, bottom=p.bottom, width=p.width, runs=p.runs,
            length=length, volume=p.area * length, density=density,
            speed=travel_speed(output, p.width / p.runs, p.bottom - p.top), lift=lift,
            throws=throws_needed(lift, far, cutter.cast_height),
            hours=pass_time(p.area * length, output, p.runs, cutter.turning_time) / 3600))  # fmt: skip
    twice = sum(m * (row.throws - 1) for m, row in zip(masses, rows, strict=True))
    helper = second or cutter
    surface_output = output_at_density(
        helper.output, helper.output_density, setting.surface_density, helper.power_share)  # fmt: skip
    relief_volume = bank.sides * relief_area * longest
    relief = pass_time(relief_volume, surface_output, bank.sides, helper.turning_time) if relief_area else 0.0
    again = rethrow_time(twice, helper.output, helper.output_density, helper.power_share)
    return Plan(
        section=section, rows=tuple(rows), bank=bank, at_once=at_once, relief_volume=relief_volume,
        relief_mass=2 * relief_area * setting.surface_density * longest, thrown_density=setting.thrown_density,
        repose=setting.repose, mass=sum(masses), thrown_twice=twice, cutting_hours=sum(row.hours for row in rows),
        relief_hours=relief / 3600, second_hours=again / 3600,
    )  # fmt: skip


def passes_before_planks(plan: Plan) -> int:
    """How many passes are cut before planks go down on the benches: some feet below them, not the last of several."""
    bench = max((row.bottom for row in plan.rows if row.part == "bench"), default=0.0)
    deep = sum(row.bottom < bench + SOME_FEET - 1e-9 for row in plan.rows) + 1
    return min(deep, max(1, len(plan.rows) - 1))
