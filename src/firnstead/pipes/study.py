"""Pipes of a station: run by run through its places; freezing, tracing, falls, heat given to the places, work."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import inf

from firnstead.core.memo import Memo
from firnstead.core.results import WHOLE, Check, Study, WorkItem, not_checked
from firnstead.pipes.resistance import critical_radius
from firnstead.pipes.results import LegResult, PipesResult, Row, RunResult, Spot
from firnstead.pipes.study_case import Case, case_of
from firnstead.pipes.study_fall import fall_checks, margin
from firnstead.pipes.study_freeze import freeze_checks
from firnstead.pipes.study_items import PipeWork, run_items
from firnstead.pipes.study_mechanics import mechanics_checks
from firnstead.pipes.study_numbers import Numbers
from firnstead.pipes.study_steps import NAMES
from firnstead.pipes.study_tracing import tracing_checks, tracing_result
from firnstead.pipes.water import heat_capacity_water
from firnstead.snow import SnowResult
from firnstead.station import Station
from firnstead.station.build import FormedRoof
from firnstead.station.pipes import PipeRun

CREW = "building"  # the crew that lays pipes, if the file names one (own rule)
PEOPLE = 3  # people who lay a run where it names none (own rule)
Found = tuple[Numbers, RunResult, dict[str, Row], tuple[Check, ...]]


def study(
    station: Station, snow: SnowResult, memo: Memo | None = None, *, air: Mapping[str, Row] | None = None,
    floor_heave: Mapping[str, float] | None = None,
) -> Study:  # fmt: skip
    """Work out every run; `air` [K] is the air of places by month, `floor_heave` [m/s] the rise of their floors.

    Without `air` the air told in the file is taken for every month.
    """
    if memo is None:
        memo = Memo()
    pipes = station.pipes
    if pipes is None:
        missing = not_checked(question="No pipes in the file", key="pipes.missing", place=WHOLE,
                              reason="the station file has no `pipes`", **{**NAMES, "subject": "Station"})  # fmt: skip
        return Study(PipesResult({}, {}, {}, {}, (), 0.0, 0.0, 0.0), (missing,))
    results: dict[str, RunResult] = {}
    checks: list[Check] = []
    items: list[WorkItem] = []
    losses: dict[str, Row] = {}
    floor_losses: dict[str, Row] = {}
    cable = mass = 0.0
    for name, run in pipes.runs.items():
        subject = f'Pipe "{name}"'
        case = case_of(station, pipes, snow, run, air, floor_heave)
        if isinstance(case, str):
            checks.append(not_checked(question="Route", key="pipes.route", place=WHOLE, reason=case,
                                      **{**NAMES, "subject": subject}))  # fmt: skip
            continue
        numbers, made, given, answers = memo.get(("pipes", case), lambda case=case: _answers(case))  # type: ignore[misc]
        results[name] = made
        checks += [replace(each, subject=subject) for each in answers]
        _add(floor_losses if run.supports.kind == "in snow" else losses, given)
        items += run_items(numbers, _work(station, pipes.joining, run), name)
        cable += numbers.cable * (run.tracing.cables + run.tracing.standby) if run.tracing is not None else 0.0
        mass += numbers.mass
    mass += sum(item.mass for item in items if item.id.endswith(".pipes.tracing"))
    order = sorted((r.spots[0].to_zero, name) for name, r in results.items() if r.spots and r.spots[0].to_zero < inf)
    result = PipesResult(
        runs=results, tracing={name: r.electric for name, r in results.items() if r.tracing is not None},
        losses=losses, floor_losses=floor_losses, first_to_freeze=tuple(name for _, name in order),
        length=sum(r.length for r in results.values()), cable=cable, mass=mass)  # fmt: skip
    return Study(result, tuple(checks), tuple(items))


def _answers(case: Case) -> Found:
    numbers = Numbers(case)
    result, given = _result(numbers)
    checks = (*freeze_checks(numbers), *tracing_checks(numbers), *fall_checks(numbers), *mechanics_checks(numbers))
    return numbers, result, given, checks


def _result(n: Numbers) -> tuple[RunResult, dict[str, Row]]:
    case, run = n.case, n.case.run
    electric, given = n.months()
    freezes = n.freezes and case.carrier.ice
    spots = tuple(
        Spot(m.what, m.place, m.air, m.resistance, (n.start - m.air) / m.resistance, m.to_zero, m.blocked, m.solid)
        for m in n.metres
    ) if freezes else ()  # fmt: skip
    legs = tuple(
        LegResult(leg.place, leg.length, n.around(leg), r, flow.end, n.least_fall(leg))
        for leg, flow, (_, _, r) in zip(case.legs, n.design, n.flow_legs, strict=True)
    )
    wants_flow = case.carrier.ice and run.tracing is None and run.carrier != "steam" and not n.batch
    jacket = n.jacket
    result = RunResult(
        kind=run.kind, carrier=run.carrier, begins=run.begins, ends=run.ends, length=case.length,
        outside=case.kind.outside, legs=legs, flow=n.mass_flow, least_flow=n.least_flow if wants_flow else None,
        start=run.supply, coldest=n.coldest, along=n.along, loss_cold=sum(flow.lost for flow in n.design), spots=spots,
        outage_usual=n.outage_usual if freezes else inf, allowed=run.repair if run.drain is None else run.drain,
        tracing=tracing_result(n), fall=n.least_fall() if run.drive == "gravity" else None, fall_margin=margin(n),
        expansion=n.change, expansion_leg=n.leg_needed, jacket=None if jacket is None else jacket[1],
        thaw_radius=jacket[2] if jacket is not None and jacket[1] > 273.15 else None, pressure=n.pressure,
        condensate=n.condensate, electric=electric, loss=tuple(map(sum, zip(*given.values(), strict=True))),
        notes=_notes(n))  # fmt: skip
    return result, given


def _notes(n: Numbers) -> tuple[str, ...]:
    case, run, found = n.case, n.case.run, []
    if n.batch:
        found.append("filled only when used and drained after; it must fall to its drain everywhere")
    if run.tracing is not None and run.flow == 0:
        found.append("it may stand still: tracing alone keeps it from freezing")
    if not case.usual_known and not case.buried:
        found.append("air by month is not worked out yet: the air told in the file stands for every month")
    if not case.kind.insulation:
        found.append("not insulated")
    if run.carrier == "glycol":
        more = heat_capacity_water(min(max(run.least, 273.15), 373.15)) / case.carrier.heat_capacity - 1
        found.append(f"{100 * more:.0f} % more flow by mass than water for the same heat")
        found.append("glycol attacks zinc and creeps through joints and pump seals")
    if case.kind.insulation:
        parts = n.line(n.coldest, n.around(n.coldest_leg))
        radius = critical_radius(max(parts.conductivities), parts.radiation + parts.convection)
        if case.kind.outer / 2 < radius:
            found.append("so thin a pipe may lose more with a thin insulation than bare: compare thicknesses")
    return tuple(found)


def _add(total: dict[str, Row], given: Mapping[str, Row]) -> None:
    for place, row in given.items():
        total[place] = tuple(a + b for a, b in zip(total.get(place, (0.0,) * 12), row, strict=True))


def _work(station: Station, joining: float, run: PipeRun) -> PipeWork:
    crew = station.crews.get(CREW)
    before: list[str] = []
    for name in dict.fromkeys(point.place for point in run.route):
        formed = isinstance(station.roofs[station.places[name].roof], FormedRoof)
        before += [f"{name}.cutting.cut", f"{name}.roof.{'strip' if formed else 'arches'}"]
    return PipeWork(CREW if crew else "", crew.people if crew else PEOPLE, joining, station.hand_work.excavation,
                    tuple(before))  # fmt: skip
