"""The work of one run: niche, pipe, fittings, tracing, trial."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, pi

from firnstead.core.results import Exposure, WorkItem
from firnstead.core.units import show
from firnstead.pipes.study_numbers import Numbers

FITTING_HOURS = 1.5  # person-hours for one fitting with its insulation (own rule)
FITTING_MASS = 3.0  # of a metre of bare pipe, the mass of one fitting (own rule)
CABLE_SPEED = 15.0  # m of cable fixed and tested by one person in an hour (own rule)
TRIAL = 4.0  # person-hours to fill, test under pressure and drain one run (own rule)


@dataclass(frozen=True)
class PipeWork:
    """Who does it: crew, people, metres of pipe an hour and snow dug [m3/s] by one person, what comes before."""

    crew: str
    people: int
    joining: float
    excavation: float
    before: tuple[str, ...]


def run_items(n: Numbers, work: PipeWork, name: str) -> tuple[WorkItem, ...]:
    """Work items of one run, in order."""
    niche = _niche(n, work, name)
    ready = (*work.before, *(item.id for item in niche))
    lay = _lay(n, work, name, ready)
    fittings, tracing = _fittings(n, work, name, lay.id), _tracing(n, work, name, lay.id)
    done = (lay.id, *(item.id for item in (*fittings, *tracing)))
    trial = _item(n, work, name, "trial", f"Fill and test {name}, then drain it or keep it warm", 1.0, "trial", TRIAL,
                  done, note="under pressure, with flow and every thermostat and alarm tried")  # fmt: skip
    return (*niche, lay, *fittings, *tracing, trial)


def _item(n: Numbers, work: PipeWork, name: str, kind: str, what: str, quantity: float, unit: str, person_hours: float,
          after: tuple[str, ...], **more: object) -> WorkItem:  # fmt: skip
    return WorkItem(
        f"{name}.pipes.{kind}", n.case.run.route[0].place, "pipes", what, quantity, unit, crew=work.crew,
        people=work.people, hours=person_hours / work.people, exposure=Exposure.UNDER_ROOF, after=after,
        **more)  # type: ignore[arg-type]  # fmt: skip


def _niche(n: Numbers, work: PipeWork, name: str) -> tuple[WorkItem, ...]:
    s = n.case.run.supports
    volume = (s.niche_width or 0.0) * (s.niche_height or 0.0) * n.case.length if s.kind == "in a niche" else 0.0
    if s.kind == "in snow":
        side = n.case.kind.outside + 0.3
        volume = side * (n.case.axis_depth + n.case.kind.outside / 2) * n.case.length
    if volume <= 0:
        return ()
    what = "Cut the niche for" if s.kind == "in a niche" else "Dig the channel for"
    hours = volume / work.excavation / 3600
    return (_item(n, work, name, "niche", f"{what} {name}", volume, "m3", hours, work.before, volume=volume),)


def _lay(n: Numbers, work: PipeWork, name: str, after: tuple[str, ...]) -> WorkItem:
    kind, length = n.case.kind, n.case.length
    pieces = ceil(length / kind.stick - 1e-9)
    parts = ((kind.part, float(pieces)),) if kind.part is not None else ()
    unlisted = "" if parts else "; no part is named for it, so it is not on the packing list"
    supports = ceil(length / n.case.run.supports.spacing) + 1
    return _item(
        n, work, name, "lay", f"Lay {name}: {n.case.run.kind}", length, "m", length / work.joining, after,
        mass=n.mass, volume=length * pi * kind.outside**2 / 4, parts=parts,
        note=f"{pieces} pieces of {show(kind.stick, 'm')}, insulated to {show(kind.outside, 'm')} across, on "
             f"{supports} supports{unlisted}")  # fmt: skip


def _fittings(n: Numbers, work: PipeWork, name: str, lay: str) -> tuple[WorkItem, ...]:
    run = n.case.run
    count = sum(f.count for f in run.fittings) + len(run.dead_legs)
    if not count:
        return ()
    bare = pi * n.case.kind.wall * (n.case.kind.bore + n.case.kind.wall) * n.case.material.density
    told = ", ".join(f"{f.count} {f.kind}{'s' if f.count > 1 else ''}" for f in run.fittings)
    branches = f"{len(run.dead_legs)} still branches" if run.dead_legs else ""
    return (_item(n, work, name, "fittings", f"Fittings of {name}", float(count), "fittings", FITTING_HOURS * count,
                  (lay,), mass=count * FITTING_MASS * bare,
                  note=", ".join(filter(None, (told, branches))) + "; mass by an own rule"),)  # fmt: skip


def _tracing(n: Numbers, work: PipeWork, name: str, lay: str) -> tuple[WorkItem, ...]:
    t, cable = n.case.run.tracing, n.case.cable
    if t is None or cable is None:
        return ()
    length = n.cable * (t.cables + t.standby)
    drums = ceil(length / cable.drum - 1e-9)
    parts = ((cable.part, float(drums)),) if cable.part is not None else ()
    circuits = max(n.circuits, t.circuits or 0) * (t.cables + t.standby)
    return (_item(
        n, work, name, "tracing", f"Tracing of {name}: {t.cable}", length, "m", length / CABLE_SPEED, (lay,),
        mass=length * cable.mass, parts=parts,
        note=f"{drums} drums; {circuits} circuits, standby counted; on at {show(t.on, 'K')}, off at "
             f"{show(t.off, 'K')}, alarm below {show(t.alarm, 'K')}; measure the insulation of the cable before and "
             "after it is covered"),)  # fmt: skip
