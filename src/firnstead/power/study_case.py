"""From the station file to the numbers of the power study."""

from __future__ import annotations

from collections.abc import Mapping

from firnstead.core.units import number_text
from firnstead.power.case import (
    FLAT_DAY,
    FLAT_YEAR,
    BoardCase,
    CableCase,
    Case,
    ConstructionCase,
    EngineCase,
    FeederCase,
    FuelCase,
    LoadCase,
    MotorCase,
    Row,
    SetCase,
    SourceCase,
    TankCase,
)
from firnstead.power.conductors import (
    COLD,
    METALS,
    WARM,
    resistance_at,
    resistance_iec,
    resistance_nec,
    resistance_of_section,
    section_awg,
)
from firnstead.power.derating import (
    EXPONENTS,
    fuel_factor_iso_3046,
    indicated_ratio_iso_3046,
    power_factor_iso_3046,
    pressure_altitude,
    pressure_standard,
    site_factors,
)
from firnstead.power.sets import fuel_line
from firnstead.station import Station
from firnstead.station.power import (
    OUTSIDE,
    Cable,
    Construction,
    Feeder,
    FuelPoint,
    GeneratorSet,
    Load,
    PowerPlan,
    Size,
    Transformer,
)
from firnstead.station.ways_along import Joints, joints, spot_of, way


def case_of(station: Station, plan: PowerPlan, loads: Mapping[str, Row] | None, other_fuel: Row | None) -> Case:
    """The case of a station with a power part; `loads` [W] by month are worked out by other studies."""
    pressure = pressure_standard(station.site.elevation) if plan.pressure is None else plan.pressure
    cold = station.site.mean_temperature
    cables = {name: _cable(name, cable, plan.conductor_temperature, cold) for name, cable in plan.cables.items()}
    met = joints(station)
    fuel = plan.fuel
    return Case(
        voltage=plan.voltage, pressure=pressure, pressure_measured=plan.pressure is not None,
        elevation=station.site.elevation, inlet=plan.inlet_temperature, cold=cold, warm=plan.conductor_temperature,
        diversity=plan.diversity, growth=plan.growth, least=plan.running_at_least, longest_gap=plan.longest_gap,
        drop_limit=plan.drop_limit, start_drop_limit=plan.start_drop_limit,
        boards=tuple(BoardCase(name, _place(station, b.where), b.diversity, b.mass, _volume(b.size), b.part)
                     for name, b in plan.boards.items()),
        feeders=tuple(_feeder(station, plan, name, f, cables, met) for name, f in plan.feeders.items()),
        sets=tuple(_set(station, name, g, pressure, plan.inlet_temperature) for name, g in plan.sets.items()),
        sources=tuple(SourceCase(name, _place(station, s.where), s.board, s.electric, s.heat, s.heat_to_place,
                                 plan.years[s.year] if s.year else FLAT_YEAR, s.firm)
                      for name, s in plan.stated_sources.items()),
        loads=(*(_load(station, plan, name, load) for name, load in plan.loads.items()),
               *_others(station, plan, loads or {})),
        others_known=loads is not None, other_fuel=other_fuel or (0.0,) * 12,
        fuel=FuelCase(
            fuel.density, fuel.heating_value, fuel.resupply_interval, fuel.resupply_month, fuel.reserve,
            tuple(TankCase(name, t.count, _place(station, t.where) if t.where else OUTSIDE, t.volume, t.usable, t.mass,
                           _volume(t.size)) for name, t in fuel.tanks.items()),
            fuel.container, fuel.container_volume),
        construction=_construction(station, plan, plan.construction, pressure) if plan.construction else None,
    )  # fmt: skip


def _place(station: Station, where: str) -> str:
    return station.buildings[where].place if where in station.buildings else where


def _volume(size: Size) -> float:
    return size[0] * size[1] * size[2]


def _cable(name: str, cable: Cable, warm: float, cold: float) -> CableCase:
    resistivity, iec, nec = METALS[cable.metal]
    if cable.awg is not None:
        size = f"{cable.awg} AWG" if "/" in cable.awg or int(cable.awg) < 250 else f"{cable.awg} kcmil"
        found, found_at, coefficient, source = resistance_nec(cable.awg, cable.metal), WARM, nec, "nec_ch9, Table 8"
        how = f"resistance of {size} {cable.metal} at 75 degC, from the table"
    else:
        section = cable.section or 0.0
        size = f"{number_text(section * 1e6)} mm2"
        found, found_at, coefficient = resistance_iec(section, cable.metal, cable.kind), COLD, iec
        source, how = f"iec_60228, class {cable.kind}", f"resistance of {size} {cable.metal} at 20 degC, from the table"
        if found is None:
            found = resistance_of_section(section, resistivity)
            source, how = "iec_60364_5_52, Annex G", f"resistance of {size} {cable.metal} at 20 degC, by its section"
    if found is None:
        found, found_at, coefficient = resistance_of_section(section_awg(cable.awg or ""), resistivity), COLD, iec
        source, how = "iec_60364_5_52, Annex G", f"resistance of {size} {cable.metal} at 20 degC, by its section"
    return CableCase(
        name, cable.metal, size, found, found_at, coefficient, source, how,
        resistance_at(found, found_at, warm, coefficient, found_at),
        resistance_at(found, found_at, cold, coefficient, found_at),
        cable.reactance, cable.ampacity, cable.mass, cable.drum_length, cable.drum_mass, cable.drum_volume)  # fmt: skip


def _feeder(
    station: Station, plan: PowerPlan, name: str, f: Feeder, cables: Mapping[str, CableCase], met: Joints
) -> FeederCase:
    ends = [plan.boards[board] for board in (f.start, f.end)]
    start, end = (spot_of(station, board.where, board.at) for board in ends)
    legs = way(met, start, end) or ()
    whole = sum(length for _, length in legs)
    length = f.length if f.length is not None else max(1.0, whole * (1 + f.slack))
    t: Transformer | None = f.transformer
    return FeederCase(
        name, f.start, f.end, cables[f.cable], f.parallel, f.phases, length, legs, f.slack, f.length is not None,
        f.voltage or plan.voltage, plan.voltage,
        None if t is None else (t.rating, t.resistance, t.reactance, t.mass, t.volume), f.normally_open)  # fmt: skip


def _engine(
    rated: float, engine: str, stated: float | None, fuel: tuple[FuelPoint, ...], pressure: float, inlet: float
) -> EngineCase:
    rules = site_factors(pressure_altitude(pressure), pressure, inlet, engine)
    ratio = indicated_ratio_iso_3046(pressure, inlet, inlet, *EXPONENTS[engine])
    idle, slope = fuel_line([p.load for p in fuel], [p.flow / rated for p in fuel])
    worst = max(abs(p.flow - rated * (idle + slope * p.load)) / p.flow for p in fuel)
    return EngineCase(
        rated, engine, stated, tuple((rule, share, source) for rule, (share, source) in rules.items()),
        min(share for share, _ in rules.values()) if stated is None else stated,
        fuel_factor_iso_3046(ratio, power_factor_iso_3046(ratio)), idle, slope, worst)  # fmt: skip


def _set(station: Station, name: str, g: GeneratorSet, pressure: float, inlet: float) -> SetCase:
    return SetCase(
        name, _place(station, g.where), g.board, g.duty == "main", g.count,
        _engine(g.rated, g.engine, g.site_factor, g.fuel, pressure, inlet), g.lowest, g.highest, g.jacket_heat,
        g.exhaust_heat, g.radiated, g.radiator == "in place", g.start_time, g.starting_power, g.mass,
        _volume(g.size), g.part)  # fmt: skip


def _load(station: Station, plan: PowerPlan, name: str, load: Load) -> LoadCase:
    m = load.motor
    return LoadCase(
        name, load.board, _place(station, load.where or plan.boards[load.board].where), load.power,
        load.power * load.demand_factor, load.power_factor, plan.days[load.day] if load.day else FLAT_DAY,
        plan.years[load.year] if load.year else FLAT_YEAR, load.essential, load.shed or 0, False,
        None if m is None else MotorCase(m.power, m.power_factor, m.efficiency, m.starting_current,
                                         m.starting_power_factor))  # fmt: skip


def _others(station: Station, plan: PowerPlan, loads: Mapping[str, Row]) -> list[LoadCase]:
    """Loads of other studies: the same at every hour of a month, as far as they are above 0."""
    found = []
    first = next(iter(item.board for group in (plan.sets, plan.stated_sources) for item in group.values()))
    for name, row in loads.items():
        greatest = max(row)
        if greatest <= 0:
            continue
        hung = plan.other_loads.get(name)
        board = hung.board if hung else first
        found.append(LoadCase(
            name, board, _place(station, plan.boards[board].where), greatest, greatest,
            hung.power_factor if hung else 0.95, FLAT_DAY, tuple(each / greatest for each in row),
            hung.essential if hung else True, (hung.shed or 0) if hung else 0, True, None))  # fmt: skip
    return found


def _construction(station: Station, plan: PowerPlan, c: Construction, pressure: float) -> ConstructionCase:
    season = station.season
    return ConstructionCase(
        c.count, _engine(c.rated, c.engine, c.site_factor, c.fuel, pressure, plan.inlet_temperature), c.hours_per_day,
        c.mean_share, float((season.end - season.start).days + 1),
        tuple((name, load.power, load.demand_factor) for name, load in c.loads.items()), c.mass, _volume(c.size),
        c.part)  # fmt: skip
