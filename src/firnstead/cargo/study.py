"""The packing list of a station: what every study, kit, store and machine takes, and whether it can be carried."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firnstead.cargo.checks import checks_of
from firnstead.cargo.loads import Means, fewest_trips, takes, trips_lower_bound
from firnstead.cargo.needs import Need, kit_needs, spare_pieces, split_by, whole_pieces
from firnstead.cargo.order import steps_before
from firnstead.cargo.results import CargoResult, PackingLine
from firnstead.core.results import Exposure, Study, WorkItem
from firnstead.station import Station
from firnstead.station.build import ArchRoof

BUILDING_CREW = "building"  # the crew that puts buildings up, if the file names one (own rule)
BUILDING_PEOPLE = 4  # people at a building where it names none (own rule)
MACHINES, STORES, SPARES = "machines", "stores", "spares"  # places of the list that are not places of the station


@dataclass(frozen=True)
class _Known:
    """What is known of a part: text, mass and size of one piece."""

    what: str
    mass: float
    volume: float
    size: tuple[float, float, float] | None
    hazardous: bool = False
    spare: float = 0.0
    upright: bool = False
    listed: bool = True


def study(station: Station, work_items: Sequence[WorkItem]) -> Study:
    """Give the packing list, its checks, and the work items that put up the buildings."""
    own = building_items(station, work_items)
    items = [*work_items, *own]
    needs = _needs(station, items)
    known = _known(station, work_items)
    steps = steps_before({item.id: item.after for item in items})
    means = [
        Means(name, t.payload, t.volume, t.longest, t.widest, t.highest, t.heaviest, t.trips)
        for name, t in sorted(station.transport.items())
    ]
    result = _result(station, needs, known, steps, means)
    return Study(result, checks_of(result, means), own)


def building_items(station: Station, work_items: Sequence[WorkItem]) -> tuple[WorkItem, ...]:
    """One work item for each building: put it up from its kit, after its place is cut and roofed."""
    before: dict[str, tuple[str, ...]] = {}
    for item in work_items:
        if item.discipline in ("cutting", "roof"):
            before[item.place] = (*before.get(item.place, ()), item.id)
    known = {item.id for item in work_items}
    crew = station.crews.get(BUILDING_CREW)
    people = crew.people if crew else BUILDING_PEOPLE
    items = []
    for name, building in sorted(station.buildings.items()):
        kit = station.kits[building.kit]
        parts = [(station.parts[part], count) for part, count in kit.parts.items() if part in station.parts]
        items.append(
            WorkItem(
                id=f"{name}.cargo.put_up", place=building.place, discipline="cargo",
                what=f"Put up {name}: {kit.what}", quantity=1.0, unit="building",
                mass=sum(part.mass * count for part, count in parts),
                volume=sum(part.volume * count for part, count in parts),
                crew=BUILDING_CREW if crew else "", people=people, hours=kit.crew_hours / people,
                exposure=Exposure.UNDER_ROOF,
                after=(*before.get(building.place, ()), *({f"{name}.foundation.set"} & known)),
                parts=tuple((part, float(count)) for part, count in kit.parts.items()))
        )  # fmt: skip
    return tuple(items)


def _needs(station: Station, items: Sequence[WorkItem]) -> list[Need]:
    kit_of = {f"{name}.cargo.put_up": building.kit for name, building in station.buildings.items()}
    needs: list[Need] = []
    for item in items:
        if item.id in kit_of:
            kit = kit_of[item.id]
            needs += kit_needs(kit, station.kits[kit].parts, item.place, item.id)
            continue
        taken = [Need(part, whole_pieces(pieces), item.place, item.id) for part, pieces in item.parts]
        needs += [need for need in taken if need.pieces > 0]
    needs += [Need(part, count, STORES, "") for part, count in station.stores.items() if count > 0]
    needs += [Need(_machine_key(station, name), m.count, MACHINES, "") for name, m in station.machines.items()]
    return needs


def _machine_key(station: Station, name: str) -> str:
    """A machine's own line, even where a part has the same name."""
    return f"{name} (machine)" if name in station.parts else name


def _known(station: Station, work_items: Sequence[WorkItem]) -> dict[str, _Known]:
    """Everything with a mass: worked out by a study, overruled by the file's parts, and machines."""
    known = _worked_out(station, work_items)
    for name, part in station.parts.items():
        known[name] = _Known(part.what, part.mass, part.volume, part.size, part.hazardous, part.spare)
    for name, machine in station.machines.items():
        size = (machine.length, machine.width, machine.height)
        volume = size[0] * size[1] * size[2]
        known[_machine_key(station, name)] = _Known(machine.kind, machine.mass, volume, size, upright=True)
    return known


def _worked_out(station: Station, work_items: Sequence[WorkItem]) -> dict[str, _Known]:
    """Parts that only a study knows: mass and volume stand on its work items, less what the file's parts weigh."""
    sums: dict[str, list[float]] = {}
    what: dict[str, str] = {}
    for item in work_items:
        unlisted = [(part, whole_pieces(pieces)) for part, pieces in item.parts if part not in station.parts]
        pieces = sum(count for _, count in unlisted)
        if pieces == 0:
            continue
        listed = [(station.parts[part], whole_pieces(n)) for part, n in item.parts if part in station.parts]
        mass = item.mass - sum(part.mass * count for part, count in listed)
        volume = item.volume - sum(part.volume * count for part, count in listed)
        for part, count in unlisted:
            row = sums.setdefault(part, [0.0, 0.0, 0.0])
            row[0] += count
            row[1] += max(0.0, mass) * count / pieces
            row[2] += max(0.0, volume) * count / pieces
            what.setdefault(part, f"worked out: {item.discipline}")
    sizes = _roof_sizes(station)
    known = {}
    for part, (pieces_in_all, total_mass, total_volume) in sums.items():
        if total_mass > 0:
            each = total_volume / pieces_in_all
            length, width = sizes.get(part, (0.0, 0.0))
            size = (length, width, each / (length * width)) if length * width > 0 else None
            known[part] = _Known(what[part], total_mass / pieces_in_all, each, size, listed=False)
    return known


def _roof_sizes(station: Station) -> dict[str, tuple[float, float]]:
    """Length and width of what the roof study puts on the list, under the names that it uses."""
    sizes = {}
    for name, roof in station.roofs.items():
        if isinstance(roof, ArchRoof):
            sizes[f"plank {name}"] = (roof.plank.length, roof.plank.width)
            sizes[f"arch sheet {name}"] = (roof.sheet_length, roof.sheet_width + roof.lap)
    return sizes


def _result(
    station: Station, needs: list[Need], known: dict[str, _Known], steps: dict[str, int], means: list[Means]
) -> CargoResult:
    by_part: dict[str, list[Need]] = {}
    for need in needs:
        by_part.setdefault(need.part, []).append(need)
    found = [_line(part, rows, known[part], steps, means) for part, rows in sorted(by_part.items()) if part in known]
    lines = tuple(sorted(found, key=lambda line: (line.first_step, line.part)))
    mass, volume = sum(line.mass for line in lines), sum(line.volume for line in lines)
    used_kits = {building.kit for building in station.buildings.values()}
    return CargoResult(
        lines=lines,
        pieces=sum(line.pieces for line in lines),
        mass=mass,
        volume=volume,
        mass_by_place=_masses([(place, n * line.mass_each) for line in lines for place, n in line.places]),
        mass_by_kit=_masses([(kit, n * line.mass_each) for line in lines for kit, n in line.kits]),
        hazardous_mass=sum(line.mass for line in lines if line.hazardous),
        missing=tuple(sorted(set(by_part) - set(known))),
        unneeded=(*(part for part in sorted(station.parts) if part not in by_part),
                  *(f"kit {kit}" for kit in sorted(station.kits) if kit not in used_kits)),
        capacity_mass=sum(m.payload * m.trips for m in means),
        capacity_volume=sum(m.volume * m.trips for m in means),
        trips_alone=tuple((m.name, trips_lower_bound(mass, volume, m.payload, m.volume)) for m in means),
        fewest_trips=fewest_trips(mass, volume, means),
    )  # fmt: skip


def _line(part: str, needs: list[Need], known: _Known, steps: dict[str, int], means: list[Means]) -> PackingLine:
    needed = sum(need.pieces for need in needs)
    spares = spare_pieces(needed, known.spare)
    side = known.volume ** (1 / 3)
    size = known.size if known.size is not None else (side, side, side)  # only mass and volume count then
    carried_by = tuple(m.name for m in means if takes(m, known.mass, size, known.upright))
    return PackingLine(
        part=part, what=known.what, needed=needed, spares=spares, mass_each=known.mass, volume_each=known.volume,
        size=known.size, places=(*split_by(needs, "place"), *(((SPARES, spares),) if spares else ())),
        kits=split_by(needs, "kit"), items=tuple(sorted({need.item for need in needs if need.item})),
        first_step=min(steps.get(need.item, 0) for need in needs), carried_by=carried_by,
        hazardous=known.hazardous, outsize=len(carried_by) < len(means), listed=known.listed)  # fmt: skip


def _masses(rows: list[tuple[str, float]]) -> tuple[tuple[str, float], ...]:
    totals: dict[str, float] = {}
    for name, mass in rows:
        totals[name] = totals.get(name, 0.0) + mass
    return tuple(sorted(totals.items()))
