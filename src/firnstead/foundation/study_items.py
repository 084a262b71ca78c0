"""The work of one building's footings: pads, footings, levelling, shims, relevelling."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import Exposure, WorkItem
from firnstead.core.units import YEAR, show
from firnstead.foundation.numbers import Numbers
from firnstead.foundation.relevel import relevel_count

SETTING = 0.5  # person-hours to set one footing to level (own rule)
LEVELLING = 0.25  # person-hours to read and turn one jack (own rule)


@dataclass(frozen=True)
class Work:
    """Who does it and with what: the station's crew, its output, the kit's parts that are jack and shim."""

    crew: str
    people: int
    excavation: float
    """Snow dug or placed by one person [m3/s]."""
    jack: str | None
    shim: str | None
    shim_mass: float
    shim_volume: float
    jack_mass: float
    jack_volume: float


def building_items(n: Numbers, work: Work, name: str, place: str, before: tuple[str, ...]) -> tuple[WorkItem, ...]:
    """Work items of one building, in order; `before` is what makes its place ready."""
    pads = _pads(n, work, name, place, before)
    ready = tuple(item.id for item in pads) or before
    return (*pads, _set(n, work, name, place, ready), _level(n, work, name, place), *_years(n, work, name, place))


def _item(work: Work, name: str, kind: str, place: str, what: str, quantity: float, unit: str, person_hours: float,
          after: tuple[str, ...], **more: object) -> WorkItem:  # fmt: skip
    return WorkItem(f"{name}.foundation.{kind}", place, "foundation", what, quantity, unit, crew=work.crew,
                    people=work.people, hours=person_hours / work.people, exposure=Exposure.UNDER_ROOF, after=after,
                    **more)  # type: ignore[arg-type]  # fmt: skip


def _pads(n: Numbers, work: Work, name: str, place: str, before: tuple[str, ...]) -> tuple[WorkItem, ...]:
    b = n.layout
    if b.pad_thickness <= 0:
        return ()
    hours = 2 * b.pad_volume / work.excavation / 3600  # once to dig, once to place and compact (own rule)
    return (_item(
        work, name, "pads", place, f"Dig out and compact the pads of {name}", b.pad_volume, "m3", hours, before,
        volume=b.pad_volume,
        note=f"{show(b.pad_thickness, 'm')} of milled snow in lifts to {show(b.pad_density, 'kg/m3')}, left to harden "
             f"{show(b.pad_age, 's')} or until its strength is measured"),)  # fmt: skip


def _set(n: Numbers, work: Work, name: str, place: str, after: tuple[str, ...]) -> WorkItem:
    b = n.layout
    missing = max(0, b.count - b.jacks) if b.jacks is not None and work.jack is not None else 0
    parts = ((work.jack, float(missing)),) if work.jack is not None and missing else ()
    return _item(work, name, "set", place, f"Set the footings of {name}", float(b.count), "footings",
                 SETTING * b.count, after, parts=parts, mass=missing * work.jack_mass,
                 volume=missing * work.jack_volume)  # fmt: skip


def _level(n: Numbers, work: Work, name: str, place: str) -> WorkItem:
    b, within = n.layout, show(n.tolerance, "m")
    return _item(work, name, "level", place, f"Level {name} and hand over", float(b.count), "footings",
                 LEVELLING * b.count, (f"{name}.cargo.put_up",),
                 note=f"neighbours within {within}, on the loaded floor; write every level down")  # fmt: skip


def _years(n: Numbers, work: Work, name: str, place: str) -> tuple[WorkItem, ...]:
    b, life = n.layout, n.ground.life
    count, shims = relevel_count(life, n.step), n.shims
    after = (f"{name}.foundation.level",)
    items: list[WorkItem] = []
    unlisted = "" if work.shim is not None else "; no part is named for them, so they are not on the packing list"
    if shims:
        items.append(_item(
            work, name, "shims", place, f"Shims for {name}", float(shims), "shims", 0.0, (),
            parts=((work.shim, float(shims)),) if work.shim is not None else (), mass=shims * work.shim_mass,
            volume=shims * work.shim_volume,
            note=f"{show(b.shim_thickness, 'm')} thick, for the whole design life{unlisted}"))  # fmt: skip
    if count:
        items.append(_item(
            work, name, "relevel", place, f"Relevel {name} in later years", float(count), "relevellings",
            count * LEVELLING * b.count, after,
            note=f"about every {show(n.step, 's')} after handing over, not in the first season; at the latest "
                 f"{show(min(n.time, 100 * YEAR), 's')} after the one before; survey every year"))  # fmt: skip
    return tuple(items)
