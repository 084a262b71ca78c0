"""From the station file to the numbers of a march, and what must stay clear in each place."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from firnstead.closure.calibrate import SOFTEST, STIFFEST, softness_from_profile
from firnstead.closure.freedoms import UNLINED, YIELDING
from firnstead.closure.outcome import Envelope
from firnstead.closure.results import Softness
from firnstead.closure.spec import CUBIC, DENSITY_SHARE, LINEAR, Spec, family_of
from firnstead.core.units import G0, YEAR
from firnstead.snow import SnowResult
from firnstead.station import Station
from firnstead.station.build import ArchRoof, Section
from firnstead.station.geometry import Axis, axis
from firnstead.station.places import Place

SKIP = 2.5  # m; the top is left out of the fit: storms, crusts and traffic (as arrizabalaga_2025)
LEAST_DEPTH, MOST_DEPTH = 6.0, 25.0  # m; the fit reaches at least and at most this deep (own rule)
THINNEST = 0.3  # m of snow over a void that would else be open to the sky (own rule)
SIZE = 0.4  # m, elements beside the void
SIDE = 25.0  # m, far boundary where no neighbour is near
NEAR = 4.0  # times the half-width: a plane of symmetry farther off changes closure by less than 2 % (computed)
LONGEST = 20.0  # yr
PARALLEL = 0.35  # sine of the angle up to which two cuts count as side by side (own rule)


def softness(station: Station, snow: SnowResult) -> Softness:
    """The site's k for linear, expected and cubic creep, fitted to its own density profile; some seconds of work."""
    column = snow.column
    bottom = min(max(snow.depth_of_550, LEAST_DEPTH), MOST_DEPTH, float(column.depth[-1]))
    depths = np.arange(SKIP, bottom + 1e-9, 0.25)
    densities = np.interp(depths, column.depth, column.density)
    exponents = (LINEAR, station.snow.creep_exponent, CUBIC)

    def fitted(exponent: float, share: float = 1.0) -> tuple[float, float]:
        return softness_from_profile(
            depths, share * densities, share * float(column.density[0]), station.site.mean_temperature,
            station.site.accumulation_mass, exponent=exponent, skip=0.0)  # fmt: skip

    fits = [fitted(n) for n in exponents]
    lighter, denser = (fitted(exponents[1], 1.0 + sign * DENSITY_SHARE)[0] for sign in (-1.0, 1.0))
    return Softness(exponents, tuple(k for k, _ in fits), tuple(off for _, off in fits), lighter, denser, SKIP, bottom)


def unfit(found: Softness) -> bool:
    """Whether the law cannot be made to fit: a k at the end of its range fits nothing."""
    return any(not STIFFEST * 1.02 < k < SOFTEST / 1.02 for k in found.k)


def families(
    station: Station, snow: SnowResult, found: Softness, loads: Mapping[str, float],
    air: Mapping[str, tuple[float, ...]] | None = None,
) -> dict[str, dict[str, Spec]]:  # fmt: skip
    """All marches of every place; `loads` [Pa] is what lies on each roof on plan, `air` [K] the mean of each year."""
    made = {}
    for name, place in station.places.items():
        spec = spec_of(station, snow, found, name, loads.get(name, 0.0), (air or {}).get(name) or (place.air,))
        made[name] = family_of(spec, found)
    return made


def spec_of(
    station: Station, snow: SnowResult, found: Softness, name: str, load: float, air: tuple[float, ...]
) -> Spec:  # fmt: skip
    """The march of one place with everything as expected."""
    place = station.places[name]
    section, roof = station.sections[place.section], station.roofs[place.roof]
    half, floor = section.top_width / 2, floor_depth(station, place)
    drift = station.design.drift_factor if place.drift_factor is None else place.drift_factor
    milled = station.snow.milled.density_placed
    if isinstance(roof, ArchRoof):
        raised = max(0.0, THINNEST - section.bench_depth)
        top = section.bench_depth + raised
        ceiling: tuple[tuple[float, float], ...] = ((half, top),)
        seat = min(roof.plank.width, section.bench_width) or roof.plank.width
        edge = half + max(section.bench_width, seat)
        carried = load * roof.span / 2
        slab = min(milled, max(50.0, carried / (G0 * top * half)))
        kind, seat_load = YIELDING, max(0.0, carried - G0 * slab * top * half)
    else:
        raised = max(0.0, roof.rise + roof.cover - section.bench_depth)
        top = section.bench_depth + raised
        ceiling = _vault(half, roof.rise, top)
        seat, seat_load, slab, kind = 0.0, 0.0, milled, UNLINED
        edge = half + section.bench_width + raised
    column = snow.column
    depths = np.arange(0.0, float(column.depth[-1]) + 1e-9, 0.5)
    return Spec(
        outline=(*ceiling, *_wall(section, top, floor + raised, raised)), roof=kind, seat=seat,
        side=_side(station, name), bottom=max(30.0, floor + 20.0) + raised, size=SIZE, milled=milled,
        milled_edge=edge, milled_depth=top, slab=slab, raised=raised, depths=tuple(map(float, depths)),
        densities=tuple(round(float(rho), 3) for rho in np.interp(depths, column.depth, column.density)),
        snow=station.site.mean_temperature, air=tuple(min(t, 273.15) for t in air),
        growth=G0 * drift * station.site.accumulation_mass, seat_load=seat_load, k=found.k[1],
        exponent=found.exponents[1], years=years_ahead(station))  # fmt: skip


def years_ahead(station: Station) -> float:
    """How many years are marched: the design life, but 10 at least and 20 at most."""
    return float(min(max(round(station.design.life / YEAR), 10), LONGEST))


def floor_depth(station: Station, place: Place) -> float:
    """Depth of the floor below the surface [m]."""
    return station.sections[place.section].depth if place.floor_level is None else -place.floor_level


def _vault(half: float, rise: float, feet: float, pieces: int = 6) -> tuple[tuple[float, float], ...]:
    """Half an elliptic vault from beside its crown to its feet, which stand at the edge of the cut."""
    turns = [i / pieces * math.pi / 2 for i in range(1, pieces + 1)]
    return tuple((half * math.sin(t), feet - rise * math.cos(t)) for t in turns)


def _wall(section: Section, top: float, floor: float, raised: float) -> tuple[tuple[float, float], ...]:
    """The wall below the top of the void: straight to where it widens, then in one line to the floor."""
    widening = max(section.bench_depth if section.undercut_from is None else section.undercut_from, 0.0) + raised
    turn = ((section.top_width / 2, widening),) if top < widening < floor and section.undercut != 0.0 else ()
    return (*turn, (section.floor_width / 2, floor))


@dataclass(frozen=True)
class Neighbour:
    """The nearest cut side by side with a place: its name, from axis to axis, and snow between both [m]."""

    name: str
    spacing: float
    pillar: float


def neighbour(station: Station, name: str) -> Neighbour | None:
    """The cut beside a place with the least snow between them; None where there is none."""
    mine = axis(station.places[name])
    half = wall_to_wall(station, name) / 2
    found = []
    for other, place in station.places.items():
        line = axis(place)
        if other == name or abs(_cross(mine, line)) > PARALLEL or not _side_by_side(mine, line):
            continue
        spacing = abs(_across(mine, line.at(line.length / 2)))
        found.append(Neighbour(other, spacing, spacing - half - wall_to_wall(station, other) / 2))
    beside = [each for each in found if each.pillar > 0.0]
    return min(beside, key=lambda each: (each.pillar, each.name)) if beside else None


def wall_to_wall(station: Station, name: str) -> float:
    """Greatest width of a cut below its benches [m]."""
    section = station.sections[station.places[name].section]
    return max(section.top_width, section.floor_width)


def _side(station: Station, name: str) -> float:
    near, half = neighbour(station, name), wall_to_wall(station, name) / 2
    if near is not None and near.spacing / 2 < NEAR * half:
        return near.spacing / 2
    return max(SIDE, 5.0 * half)


def _cross(a: Axis, b: Axis) -> float:
    return a.direction[0] * b.direction[1] - a.direction[1] * b.direction[0]


def _across(a: Axis, point: tuple[float, float]) -> float:
    x, y = point[0] - a.start[0], point[1] - a.start[1]
    return a.direction[0] * y - a.direction[1] * x


def _side_by_side(a: Axis, b: Axis) -> bool:
    """Whether the other's projection on this axis overlaps it."""
    ends = sorted((p[0] - a.start[0]) * a.direction[0] + (p[1] - a.start[1]) * a.direction[1] for p in (b.start, b.end))
    return ends[0] < a.length and ends[1] > 0.0


@dataclass(frozen=True)
class Clear:
    """What must stay clear in a place: a building or the way through it, with the clearance round it [m]."""

    what: str
    subject: str
    envelope: Envelope
    needed: float
    length: float


def clear_in(station: Station, name: str) -> tuple[Clear, ...]:
    """Everything that must stay clear in a place, buildings first."""
    place = station.places[name]
    roof = station.roofs[place.roof]
    found = []
    for building, own in station.buildings.items():
        if own.place == name:
            kit = station.kits[own.kit]
            half, height = kit.width / 2, kit.footing_height + kit.height
            found.append(Clear(own.kit, f'Building "{building}"', Envelope(half, height, lift=_lift(roof, half)),
                               kit.clearance, kit.length))  # fmt: skip
    if place.clear_width is not None and place.clear_height is not None:
        half, kind = place.clear_width / 2, "Passage" if name in station.passages else "Trench"
        found.append(Clear("the way through", f'{kind} "{name}"',
                           Envelope(half, place.clear_height, lift=_lift(roof, half)), 0.0,
                           axis(place).length))  # fmt: skip
    return tuple(found)


def _lift(roof: object, half: float) -> float:
    """Height of an arch above its feet over `half` from the axis; a vault of snow is in the outline itself."""
    if not isinstance(roof, ArchRoof) or half >= roof.span / 2:
        return 0.0
    radius = (roof.span**2 / 4 + roof.rise**2) / (2 * roof.rise)
    return max(0.0, math.sqrt(max(0.0, radius**2 - half**2)) - (radius - roof.rise))
