"""The cutting study: sections, volumes, hours, banks, checks and work of every passage and trench."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass
from functools import partial
from math import ceil

from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, WorkItem
from firnstead.cutting import checks_rooms, checks_stand, checks_station, checks_work
from firnstead.cutting.asking import Place as Where
from firnstead.cutting.hand import person_hours
from firnstead.cutting.items import HandCut, Planks, cut_items, hand_items
from firnstead.cutting.output import season_hours, working_hours_per_day
from firnstead.cutting.plan import Cutter, Plan, Setting, make_plan
from firnstead.cutting.results import (
    CuttingResult,
    MillerSeason,
    PlaceCut,
    SectionMade,
    Snow,
    SpoilBank,
    UndercutGain,
)  # fmt: skip
from firnstead.cutting.section import CutSection
from firnstead.cutting.spoil import LEAST_SET_BACK, bank_pressure
from firnstead.cutting.study_inputs import (
    Meeting,
    cover_section,
    crews,
    cutters,
    densities,
    depth_of,
    ground_at,
    helper_for,
    inner_line,
    kits_in,
    made,
    meeting,
    pass_lengths,
    passage_half,
    rooms,
)  # fmt: skip
from firnstead.cutting.undercut_gain import undercut_gain
from firnstead.cutting.volumes import snow_balance, swell_factor, volume_at
from firnstead.snow.results import SnowColumn, SnowResult
from firnstead.station import Station
from firnstead.station.build import ArchRoof, Section
from firnstead.station.geometry import cut_length
from firnstead.station.places import Passage, Trench


@dataclass(frozen=True)
class _Done:
    """One place: result, checks, work items."""

    result: PlaceCut
    checks: tuple[Check, ...]
    items: tuple[WorkItem, ...]


@dataclass(frozen=True)
class _Run:
    """What all places share in one run."""

    station: Station
    column: SnowColumn
    memo: Memo
    ground: Hashable
    millers: tuple[Cutter, ...]
    edge_pressure: float

    @property
    def count(self) -> int:
        """Millers on the site."""
        return sum(c.count for c in self.millers)


def study(
    station: Station, snow: SnowResult, memo: Memo | None = None, sheet_mass: Mapping[str, float] | None = None
) -> Study:
    """Study the cut of every place; `sheet_mass` [kg/m2] by roof gives the steel that undercuts save, where known."""
    memo = Memo() if memo is None else memo
    pressure = max(m.ground_pressure for m in station.machines.values())
    run = _Run(station, snow.column, memo, (station.site, station.snow), cutters(station), pressure)
    free, kits = rooms(station), kits_in(station)
    plans = _assign(run, {name: _plans(run, name, free[name]) for name in station.places})
    done = {}
    for name, (cutter, plan) in plans.items():
        place = station.places[name]
        met = meeting(station, place)
        niches = tuple((n, v) for n, v in sorted(station.niches.items()) if v.place == name)
        roof, section = station.roofs[place.roof], station.sections[place.section]
        key = ("cutting", name, place, cut_length(station, name), section, roof, station.hand_work,
               station.design.snow_factor, run.ground, cutter, run.millers, pressure, free[name], met, niches,
               kits.get(name, ()), tuple(crews(station).items()), (sheet_mass or {}).get(place.roof))  # fmt: skip
        done[name] = memo.get(key, partial(_place, run, name, cutter, plan, met, kits.get(name, ()), sheet_mass))
    return _together(run, done)


def _plans(run: _Run, name: str, free: tuple[float, float]) -> tuple[tuple[Cutter, Plan], ...]:
    """The plan of a place by every kind of miller that can make the section, or by all where none can."""
    place, station = run.station.places[name], run.station
    section, met, length = station.sections[place.section], meeting(station, place), cut_length(station, name)
    depth = depth_of(place, section)
    found = []
    for cutter in run.millers:
        second = helper_for(cutter, run.millers)
        key = ("cutting.plan", section, depth, cutter, second, met, length, free, run.ground)
        cut = _cut(run, section, depth, cutter)
        setting = _setting(run, cut, pass_lengths(cut, length, met, cutter), free)
        found.append((cutter, run.memo.get(key, partial(make_plan, cut, cutter, second, setting))))
    able = [f for f in found if f[1].section.undercut_made >= f[1].section.undercut_asked - 1e-9]
    narrow = [f for f in able if f[0].cut_width <= section.top_width]
    return tuple(narrow or able or found)


def _cut(run: _Run, section: Section, depth: float, cutter: Cutter, straight: bool = False) -> CutSection:
    key = ("cutting.section", section, depth, cutter, straight)
    return run.memo.get(key, partial(made, section, depth, cutter, straight))


def _setting(run: _Run, cut: CutSection, lengths: tuple[float, ...], free: tuple[float, float]) -> Setting:
    milled = run.station.snow.milled
    found = run.memo.get(("cutting.density", cut.passes, run.ground), lambda: densities(run.column, cut))
    return Setting(lengths, found, run.column.at("density", 0.5), free, milled.density_thrown, milled.repose_angle)


def _assign(run: _Run, plans: dict[str, tuple[tuple[Cutter, Plan], ...]]) -> dict[str, tuple[Cutter, Plan]]:
    """Give each place its miller: largest cuts first, each to the kind that is then done soonest."""
    load = dict.fromkeys((c.name for c in run.millers), 0.0)
    chosen = {}
    for name in sorted(plans, key=lambda n: (-plans[n][0][1].volume, n)):

        def busy(option: tuple[Cutter, Plan]) -> tuple[float, str]:
            cutter, plan = option
            return (load[cutter.name] + plan.cutting_hours) / cutter.count, cutter.name

        cutter, plan = min(plans[name], key=busy)
        load[cutter.name] += plan.cutting_hours + cutter.moving_time / 3600
        chosen[name] = (cutter, plan)
    return {name: chosen[name] for name in plans}


def _place(
    run: _Run, name: str, cutter: Cutter, plan: Plan, met: Meeting | None, kits: tuple[checks_rooms.Kit, ...],
    sheet_mass: Mapping[str, float] | None,
) -> _Done:  # fmt: skip
    station = run.station
    place = station.places[name]
    milled, second = station.snow.milled, helper_for(cutter, run.millers)
    snow = _snow(run, name, plan)
    hands = _hand_cuts(run, name, cutter, met)
    crew = crews(station)
    left = snow.left if snow.left > 0 else 0.0
    items = (
        *cut_items(name, plan, cutter, second, _planks(station, name), left, milled.density_thrown, crew),
        *hand_items(name, hands, station.hand_work.excavation, crew["hand"]),
    )
    hours = {cutter.name: plan.cutting_hours + cutter.moving_time / 3600}
    helping = plan.relief_hours + plan.second_hours
    if helping:
        helper = (second or cutter).name
        hours[helper] = hours.get(helper, 0.0) + helping
    volume = sum(h.volume for h in hands)
    cut, bank = plan.section, plan.bank
    result = PlaceCut(
        place=name,
        section=SectionMade(cut.polygon, cut.area, cut.perimeter, cut.asked_area, cut.top_width, cut.floor_width,
                            cut.undercut_made, cut.undercut_from, cut.step),
        plan=plan.rows, length=plan.rows[0].length, snow=snow,
        spoil=SpoilBank(bank.sides, bank.height, bank.base, bank.set_back, bank.room,
                        bank_pressure(bank.height, milled.density_thrown)),
        miller=cutter.name, hours=hours, keep_back=cut.passes[-1].bottom, relief_volume=plan.relief_volume,
        undercut=_gain(run, name, cutter, plan, (sheet_mass or {}).get(place.roof)), hand_volume=volume,
        hand_hours=person_hours(volume, station.hand_work.excavation),
    )  # fmt: skip
    return _Done(result, _checks(run, name, cutter, plan, snow, kits), items)


def _snow(run: _Run, name: str, plan: Plan) -> Snow:
    station, milled = run.station, run.station.snow.milled
    area = cover_section(station, station.places[name])
    wanted = area * plan.rows[0].length * milled.density_placed
    balance = snow_balance(plan.mass, wanted)
    density = plan.mass / plan.volume
    thrown, swell = volume_at(plan.mass, milled.density_thrown), swell_factor(density, milled.density_thrown)
    return Snow(plan.volume, density, plan.mass, thrown, swell, area, wanted, balance.bank, plan.thrown_twice)


def _planks(station: Station, name: str) -> Planks | None:
    """Planks on both benches over the length of the cut; none under a roof of formed snow."""
    roof = station.roofs[station.places[name].roof]
    if not isinstance(roof, ArchRoof):
        return None
    pieces = 2 * ceil(cut_length(station, name) / roof.plank.length - 1e-9)
    return Planks(pieces, station.hand_work.planks)


def _hand_cuts(run: _Run, name: str, cutter: Cutter, met: Meeting | None) -> tuple[HandCut, ...]:
    """The link to the passage and the niches of a place."""
    station, place = run.station, run.station.places[name]
    floor = depth_of(place, station.sections[place.section])
    found = []
    if isinstance(place, Trench) and met is not None and met.gap > 0 and place.link is not None:
        link, middle = place.link, met.depth - place.link.height / 2
        length = met.gap + (met.widest_half - passage_half(met, cutter, middle)) / met.sine
        found.append(HandCut(
            f"{name}.cutting.link", f"Cut the link from {name} to {met.passage}", link.width, link.height,
            link.width * link.height * length, run.column.at("density", max(0.0, middle)),
            (f"{name}.cutting.cut", f"{met.passage}.cutting.cut")))  # fmt: skip
    for niche, n in sorted(station.niches.items()):
        if n.place == name:
            found.append(HandCut(
                f"{name}.cutting.niche.{niche}", f"Cut the niche {niche}", n.width, n.height,
                n.width * n.height * n.depth, run.column.at("density", max(0.0, floor - n.height / 2)),
                (f"{name}.cutting.cut",)))  # fmt: skip
    return tuple(found)


def _gain(run: _Run, name: str, cutter: Cutter, plan: Plan, sheet_mass: float | None) -> UndercutGain | None:
    """The undercut beside a straight cut with the same floor."""
    station, place = run.station, run.station.places[name]
    section, roof = station.sections[place.section], station.roofs[place.roof]
    if plan.section.undercut_asked <= 0:
        return None
    length = plan.rows[0].length
    cut = _cut(run, section, depth_of(place, section), cutter, straight=True)
    straight = make_plan(cut, cutter, helper_for(cutter, run.millers),
                         _setting(run, cut, (length,) * len(cut.passes), (plan.bank.room, plan.bank.room)))  # fmt: skip
    gain = undercut_gain(
        span=roof.span, rise=roof.rise, top_width=section.top_width, floor_width=section.floor_width,
        area_undercut=plan.section.area, area_straight=cut.area, passes_undercut=len(plan.rows),
        passes_straight=len(straight.rows), hours_undercut=plan.cutting_hours / length,
        hours_straight=straight.cutting_hours / length, sheet_mass=sheet_mass)  # fmt: skip
    steel = None if gain.steel_saved is None else gain.steel_saved * length
    sheet = (gain.sheet_straight - gain.sheet_undercut) * length
    return UndercutGain(gain.span_undercut, gain.span_straight, sheet, steel,
                        gain.volume_saved * length, gain.passes_more, gain.hours_saved * length)  # fmt: skip


def _checks(
    run: _Run, name: str, cutter: Cutter, plan: Plan, snow: Snow, kits: tuple[checks_rooms.Kit, ...]
) -> tuple[Check, ...]:
    station, place, cut = run.station, run.station.places[name], plan.section
    where = Where(name, f'{"Passage" if isinstance(place, Passage) else "Trench"} "{name}"')
    factor, line = station.design.snow_factor, inner_line(station, place)
    key = ("cutting.grounds", cut.passes, run.ground)
    grounds = run.memo.get(key, lambda: tuple(
        ground_at(run.column, z) for z in (0.0, *(p.bottom for p in cut.passes))))  # fmt: skip
    bench = next((g for g in grounds if abs(g.depth - line.feet) < 1e-6), grounds[0])
    root = grounds[0] if cut.floor_width > cut.passes[0].width else bench
    found = (
        checks_stand.walls_stand(where, grounds, plan, run.edge_pressure, factor, station.snow.milled.density_thrown),
        checks_stand.ledge(where, cut, root, snow.density, factor),
        checks_stand.bench_bearing(where, bench, run.edge_pressure, factor),
        checks_work.reach(where, cut, cutter),
        checks_work.cast_height(where, plan, cutter, run.count),
        checks_work.spoil_fits(where, plan, LEAST_SET_BACK),
        checks_work.cover_snow(
            where, snow.mass, snow.cover, snow.cover_area, plan.rows[0].length, station.snow.milled.density_placed
        ),
        checks_station.at_once(where, plan, run.count),
        checks_station.wide_undercut(where, plan),
        *(checks_rooms.building_width(where, cut, kit, line.feet) for kit in kits),
        *(checks_rooms.headroom(where, cut, kit, line) for kit in kits),
    )
    return tuple(c for c in found if c is not None)


def _together(run: _Run, done: dict[str, _Done]) -> Study:
    season, elevation = run.station.season, run.station.site.elevation
    days = float((season.end - season.start).days + 1)
    day = working_hours_per_day(season.shift_length, season.shifts_per_day, season.turning_share)
    millers, found = {}, []
    for c in run.millers:
        needed = sum(d.result.hours.get(c.name, 0.0) for d in done.values())
        offered = season_hours(days, season.outdoor_share, day, c.count)
        millers[c.name] = MillerSeason(c.name, c.count, needed, offered, c.power_share, c.output * c.power_share)
        found += [
            checks_station.season_hours(c, needed, offered, days, season.outdoor_share, day),
            checks_station.altitude(c, elevation), checks_station.stated_output(c), checks_station.operators(c),
        ]  # fmt: skip
    found.append(checks_station.shift(season.shift_length))
    results = {name: d.result for name, d in done.items()}
    total = CuttingResult(
        results, millers, sum(r.snow.in_place + r.relief_volume + r.hand_volume for r in results.values()),
        sum(r.snow.mass for r in results.values()),
        sum(millers[c.name].hours * c.operators for c in run.millers),
    )  # fmt: skip
    checked = tuple(c for d in done.values() for c in d.checks)
    return Study(total, (*checked, *found), tuple(i for d in done.values() for i in d.items))
