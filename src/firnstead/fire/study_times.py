"""Each fire with its working: how big, how soon the smoke is too much, whether the alarm comes before."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import inf, isfinite

import numpy as np

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import show
from firnstead.fire.enclosure import flashover_openness
from firnstead.fire.filling import SHAPES, filling_time_growing_nfpa, shape_factor
from firnstead.fire.plume import flame_height_heskestad, mass_flow_plume
from firnstead.fire.pressure import AIR_CONSTANT, GRAVITY, HEAT_CAPACITY, front_speed
from firnstead.fire.radiation import fire_diameter
from firnstead.fire.results import FireCase, SmokeCurve, WayOut, rows_of
from firnstead.fire.study_facts import Facts
from firnstead.fire.study_network import air_section
from firnstead.fire.study_scenarios import Case, Fired, detection_of
from firnstead.fire.tenability import LIMITS, along_way, head_factor
from firnstead.fire.visibility import soot_for_visibility
from firnstead.station.geometry import axis

EVERY = 3  # step of the curves for plots
Times = Mapping[tuple[str, str], Sequence[tuple[str, float]]]
VALID = (
    "one-dimensional network of cells in two halves: still air, level passages, no heat lost to the snow, no credit "
    "for clear air under the smoke, no smoke leaving the station; fans, wind and open hatches are not in it"
)


def place_time(f: Facts, fired: Fired) -> float:
    """Time of the first limit in the fire's own place, the burning building left out [s]."""
    return float(fired.available["first"][f.model.cells_in(fired.case.place)].min())


def case_result(f: Facts, fired: Fired) -> FireCase:
    """What one fire does, for tables."""
    case, run = fired.case, fired.run
    blaze, names = case.blaze, f.model.network.names
    passages = [i for i, place in enumerate(f.model.place) if place in f.station.passages]
    burning = blaze.cap / case.rate_per_area
    found, detector = detection_of(f.fire, f.model, fired, f.smoke.pressure)
    lost = float(np.abs(run.kept() - run.released).max() / max(1.0, run.released.max()))
    first = fired.available["first"]
    return FireCase(
        name=case.name, place=case.place, start=case.start, building=case.building, use=case.use,
        growth=case.growth, cap=blaze.cap,
        cap_by=case.cap_by, fuel=blaze.fuel, time_of_cap=blaze.peak, burnout=blaze.burnout,
        plume_flow=mass_flow_plume(blaze.convective * blaze.cap, f.smoke.head),
        flame_height=flame_height_heskestad(blaze.cap, fire_diameter(burning)),
        flashover=flashover_openness(case.door_area * case.door_height**0.5),
        front_speed=front_speed(blaze.convective * blaze.cap / 2, _width(f, case.place), f.smoke.pressure),
        released=float(run.released[:, -1].sum()), lost=lost, detected=found, detector=detector,
        place_time=place_time(f, fired),
        passage_time=float(first[passages].min()) if passages else inf,
        place_limits={k: float(fired.available[k][f.model.cells_in(case.place)].min()) for k in LIMITS},
        passage_limits={k: float(fired.available[k][passages].min()) for k in LIMITS if passages},
        available=dict(zip(names, rows_of(first), strict=True)))  # fmt: skip


def _width(f: Facts, name: str) -> float:
    place = f.station.places[name]
    section, roof = f.station.sections[place.section], f.station.roofs[place.roof]
    return air_section(f.station, place) / (section.depth - section.bench_depth + roof.rise)


def curves(f: Facts, fired: Fired) -> tuple[SmokeCurve, ...]:
    """Curves at the spot of the fire's place farthest from it and at the spot of a passage nearest to it."""
    distance = fired.run.directed
    names = f.model.network.names
    inside = np.nonzero(f.model.cells_in(fired.case.place))[0]
    first = fired.available["first"]
    spots = [int(inside[np.argmax(first[inside])])]
    passages = [i for i, place in enumerate(f.model.place) if place in f.station.passages and place != fired.case.place]
    reached = [i for i in passages if i in set(distance.far.tolist())]
    if reached:
        spots.append(min(reached, key=lambda i: float(first[i])))
    met = fired.met
    sight = f.smoke.sight_factor / (f.smoke.extinction * np.maximum(met.soot, 1e-12))
    return tuple(
        SmokeCurve(fired.case.name, names[i], rows_of(met.times[::EVERY]),
                   rows_of(np.minimum(100.0, sight[::EVERY, i])), rows_of(met.temperature[::EVERY, i]),
                   rows_of(met.co[::EVERY, i]), rows_of(met.dose[::EVERY, i]))
        for i in spots)  # fmt: skip


def size_steps(f: Facts, case: Case) -> tuple[Step, ...]:
    """How big the fire gets and when."""
    blaze = case.blaze
    start = Step("alpha", "", (), blaze.coefficient, "W/s2", "nfpa_92", f"growth class {case.growth}")
    peak = Step("t_c", 'sqrt(Q_"m"/alpha)', (('Q_"m"', blaze.cap, "W"), ("alpha", blaze.coefficient, "W/s2")),
                blaze.peak, "s", "nfpa_92", "time at which it is as big as it gets")  # fmt: skip
    if case.cap_by == "the file":
        return (start, Step('Q_"m"', "", (), blaze.cap, "W", "own_rule", "most heat, from the file"), peak)
    return (
        start,
        Step('Q_"f"', "q A", (("q", case.rate_per_area, "W/m2"), ("A", case.floor, "m2")), case.cap_fuel, "W",
             case.source, f"whole floor burning, use: {case.use}"),
        Step('Q_"a"', "", (("A_v", case.door_area, "m2"), ("H_v", case.door_height, "m")), case.cap_air, "W",
             "pd_7974", "1500 kW times area times root of height of each opening, added up: what its air allows"),
        Step('Q_"m"', 'min(Q_"f", Q_"a")', (('Q_"f"', case.cap_fuel, "W"), ('Q_"a"', case.cap_air, "W")), blaze.cap,
             "W", "own_rule", "most heat"),
        peak,
    )  # fmt: skip


def time_steps(f: Facts, fired: Fired) -> tuple[Step, ...]:
    """From the limit of sight to the time at which it is reached in the fire's place."""
    case, smoke = fired.case, f.smoke
    cells = np.nonzero(f.model.cells_in(case.place))[0]
    worst = int(cells[np.argmin(fired.available["first"][cells])])
    height = float(f.model.network.height[worst])
    factor = float(head_factor(np.array([height]), smoke.head)[0])
    soot = soot_for_visibility(smoke.visibility, smoke.extinction, smoke.sight_factor)
    energy = soot * smoke.heat_of_combustion / (smoke.soot[0] * factor)
    width, half = _width(f, case.place), case.blaze.convective * case.blaze.cap / 2
    speed = front_speed(half, width, smoke.pressure)
    volume = float(f.model.network.volume[cells].sum())
    at = place_time(f, fired)
    return (
        Step("u", "((g R Q_c)/(w c_p P))^(1/3)",
             (("g", GRAVITY, "m/s2"), ("R", AIR_CONSTANT, "J/(kg K)"), ("Q_c", half, "W"), ("w", width, "m"),
              ("c_p", HEAT_CAPACITY, "J/(kg K)"), ("P", smoke.pressure, "Pa")), speed, "m/s", "cibse_guide_e",
             "speed of the smoke's front at the greatest heat, half of it each way"),
        Step("m_s", "K/(sigma_m S)", (("K", smoke.sight_factor, "1"), ("sigma_m", smoke.extinction, "m2/kg"),
             ("S", smoke.visibility, "m")), soot, "kg/m3", "nureg_1805", "soot at which sight is at its limit"),
        Step("k", "H/max(H - z_h, H/2)", (("H", height, "m"), ("z_h", smoke.head, "m")), factor, "1", "own_rule",
             "smoke at head height over the mean of the section"),
        Step("e", "(m_s Delta_H)/(y_s k)", (("m_s", soot, "kg/m3"), ("Delta_H", smoke.heat_of_combustion, "J/kg"),
             ("y_s", smoke.soot[0], "1"), ("k", factor, "1")), energy, "J/m3", "cvm2_yields",
             "heat released for each cubic metre at which that soot is there"),
        Step("E_V", "e V", (("e", energy, "J/m3"), ("V", volume, "m3")), energy * volume, "J", "statics",
             "in the whole air of the place, if all smoke stays in it"),
        Step("t_a", "", (("e", energy, "J/m3"), ("E_V", energy * volume, "J"),
                         ("T_m", smoke.temperature, "K"), ("F_m", smoke.dose, "1")), min(at, f.fire.duration), "s",
             "own_rule", "first time at which sight, heat or dose is past its limit in the place: growth above, smoke "
             "kept in the place or moved through the network by implicit steps, the worse of both"
             + ("" if isfinite(at) else "; not reached in the time followed")),
    )  # fmt: skip


def alarm_check(f: Facts, fired: Fired, found: FireCase) -> Check:
    """Whether the alarm comes before the smoke is too much in the fire's place."""
    names = f.names("Alarm before the smoke is too much", "alarm", fired.case.place, f'Fire "{fired.case.name}"')
    steps = (*size_steps(f, fired.case), *time_steps(f, fired))
    limit = steps[-1].value
    if not isfinite(found.detected):
        reason = "no detector with a stated coldest temperature that works there senses this fire in time"
        if not f.fire.detectors:
            reason = "there are no detectors in the file"
        return not_checked(reason=f"{reason}; the smoke is too much after {show(limit, 's')}",
                           working=steps, unit="s", limit=limit, **names)  # fmt: skip
    detector = f.fire.detectors[found.detector]
    sounded = Step("t_d", "", (("t_l", detector.delay, "s"),), found.detected, "s", "own_rule",
                   f"{found.detector} sounds: its cell reaches its set point, and its delay t_l")  # fmt: skip
    return check(demand=found.detected, limit=limit, unit="s", working=(*steps, sounded), note=VALID, **names)


def filling_check(f: Facts, place: str, growth: str) -> Check:
    """The plain filling law, where it may be used at all."""
    names = f.names("Filling with smoke by the plain law", "filling", place)
    spot = f.station.places[place]
    section, roof = f.station.sections[spot.section], f.station.roofs[spot.roof]
    area, height = section.floor_width * axis(spot).length, section.depth - section.bench_depth + roof.rise
    shape = shape_factor(area, height)
    step = Step(
        "s", "A/H^2", (("A", area, "m2"), ("H", height, "m")), shape, "1", "nfpa_92", "plan over height squared"
    )
    if not SHAPES[0] <= shape <= SHAPES[1]:
        return not_checked(
            reason=f"plan area over height squared is {shape:.1f}; the filling laws hold from {SHAPES[0]} to "
                   f"{SHAPES[1]:g}, not for a long trench: see the times of the network", working=(step,), unit="1",
            demand=shape, limit=SHAPES[1], **names)  # fmt: skip
    growth_time = {"slow": 600.0, "medium": 300.0, "fast": 150.0, "ultrafast": 75.0}[growth]
    at = filling_time_growing_nfpa(f.smoke.head, growth_time, area, height)
    why = ("heads are below a fifth of the height, where the law ends" if not isfinite(at) else
           f"it gives {show(at, 's')}, for an empty room with an unobstructed plume; what stands in it spoils the law, "
           "and the times of the network are shorter")  # fmt: skip
    return not_checked(reason=why, working=(step,), unit="1", demand=shape, limit=SHAPES[1], **names)


def ways_out(f: Facts, times: Times) -> tuple[WayOut, ...]:
    """Every fire against every way out that was given."""
    found = []
    for fired in f.fired:
        first = fired.available["first"]
        for (origin, way), stops in times.items():
            walked = along_way(fired.met, f.smoke, f.model.cell_of, stops, first)
            if walked is not None:
                found.append(WayOut(
                    origin, way, fired.case.name, walked.margin, walked.worst, walked.passed, walked.available,
                    walked.dose, walked.cohb, walked.hottest, walked.least_visibility))  # fmt: skip
    return tuple(found)


def way_checks(f: Facts, times: Times | None, walked: tuple[WayOut, ...]) -> tuple[Check, ...]:
    """Dose on the best way out, worst fire, for everybody who starts in the same building."""
    if not times:
        names = f.names("Smoke breathed on the ways out", "way_dose")
        return (not_checked(reason="the times at which people pass each spot come from the escape study", **names),)
    started = {fired.case.name: fired.case.building for fired in f.fired}
    checks = []
    for origin in dict.fromkeys(name for name, _ in times):
        best: dict[str, WayOut] = {}
        for row in walked:
            # who is in the burning room itself sees it and leaves at once: it has no time of this kind (own rule)
            if row.origin == origin and started[row.fire] != origin:
                known = best.get(row.fire)
                best[row.fire] = row if known is None or row.dose < known.dose else known
        names = f.names("Smoke breathed on the best way out, worst fire", "way_dose", "", f'People of "{origin}"')
        if origin in f.station.buildings:
            names["place"] = f.station.buildings[origin].place
        if not best:
            checks.append(not_checked(reason="no way out of it was followed", **names))
            continue
        worst = max(best.values(), key=lambda row: row.dose)
        step = Step("F", "", (("t", worst.passed, "s"), ("C_b", worst.cohb, "1"), ("T_h", worst.hottest, "K")),
                    worst.dose, "1", "purser_fed",
                    f"fire {worst.fire}, way {worst.way}: dose while waiting and spot by spot on the way; t is the "
                    f"passing of {worst.worst}, C_b percent of carbon monoxide in the blood")  # fmt: skip
        checks.append(check(demand=worst.dose, limit=f.smoke.dose, unit="1", working=(step,), note=VALID, **names))
    return tuple(checks)
