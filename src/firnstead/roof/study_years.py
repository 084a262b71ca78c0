"""The years after placing: shares of the limits as the cover grows, and when each first passes 1."""

from __future__ import annotations

import numpy as np

from firnstead.core.units import G0, YEAR
from firnstead.roof.cover import first_exceedance
from firnstead.roof.formed import foot_stress
from firnstead.roof.planks import cantilever_moment, plank_bending_stress, plank_shear_stress
from firnstead.roof.results import Life, YearRatios
from firnstead.roof.ring import wall_strength_aisi
from firnstead.roof.stress import yield_factor
from firnstead.roof.study_arch import Arch
from firnstead.roof.study_seat import Seat, Strength
from firnstead.roof.thrust import Array
from firnstead.snow import MilledStrength

YEARS = (*(i / 2 for i in range(10)), *(float(i) for i in range(5, 61)))  # years that are looked ahead, closer at first
NO_LIMIT = 1e6  # share that stands for a limit of nothing, so that lines can be drawn to it
MASSES = 60e3 * np.linspace(0.0, 1.0, 80) ** 2  # accumulated masses at which the shoulder is judged [kg/m2]
ALONE = ("wall_alone", "buckling_alone", "bearing_alone", "thrust_alone", "ledge_alone", "plank_alone")
SUPPORTED = ("wall_supported", "bearing_supported", "ledge_supported")
WORDS = {
    "wall_alone": "yield of the sheet, steel alone",
    "buckling_alone": "buckling, steel alone",
    "bearing_alone": "bearing under the plank",
    "thrust_alone": "outward thrust at the seat",
    "ledge_alone": "ledge over the undercut",
    "plank_alone": "plank in bending or shear",
    "wall_supported": "ring compression, held by hardened snow",
    "bearing_supported": "bearing under the whole bench",
    "ledge_supported": "ledge, load on the whole bench",
    "cover_alone": "cover as an arch of its own",
}


def share(demand: float, limit: float) -> float:
    """Share of a limit that is used; infinite where there is no limit left."""
    return demand / limit if limit > 0 else float("inf")


def cover_strength(milled: MilledStrength) -> float:
    """Strength of the hardened cover: as measured, else the low end for well-bonded snow of its density [Pa]."""
    measured = milled.measured_strength
    return milled.envelope if measured is None else min(measured, milled.envelope)


def allowed_ring_stress(arch: Arch) -> float:
    """Wall stress that a ring held all round may take, factor of safety taken off [Pa]."""
    curve = wall_strength_aisi(2 * arch.radius / arch.props.gyration, arch.roof.yield_strength)
    return curve / arch.given.design.steel_factor


def year_ratios(arch: Arch, seat: Seat, milled: MilledStrength) -> YearRatios:
    """Shares of the limits by year; above the first year in which one fails it stays failed.

    The shoulder is followed over the mass that accumulates, not over time, and never recovers: so a site with more
    accumulation never comes out better.
    """
    years = np.array(YEARS)
    time = years * YEAR
    design, roof, span = arch.given.design, arch.roof, arch.roof.span
    wedge = design.arching_factor * arch.haunch
    placed = design.arching_factor * arch.cover + arch.steel
    even = placed + arch.growth(1.0) * time
    wall, thrust, axial = (
        np.maximum(*pair) for pair in zip(_wall(arch, even, wedge), _wall(arch, even, 0.0), strict=True)
    )
    grown = placed + design.arching_factor * G0 * arch.given.drift_factor * MASSES
    reaction = span * (grown * arch.full.left + wedge * arch.wedges.left)
    outward = span * (grown * arch.full.horizontal + wedge * arch.wedges.horizontal)
    strengths = seat.strengths(MASSES)
    rows = [_seat(seat, *row) for row in zip(reaction.tolist(), outward.tolist(), strengths, strict=True)]
    added = arch.given.accumulation * time
    seats = [np.interp(added, MASSES, np.maximum.accumulate(row)) for row in np.minimum(rows, NO_LIMIT).T]
    own = even + 2 * wedge * arch.wedges.left
    alone = np.array(
        [foot_stress(p, span, roof.rise, roof.cover) if roof.cover > 0 else NO_LIMIT for p in own.tolist()]
    )
    ring = np.maximum(even * arch.radius, axial) / arch.props.area / allowed_ring_stress(arch)
    found = (
        wall,
        design.buckling_factor * thrust / arch.critical_thrust,
        ring,
        alone * design.snow_factor / cover_strength(milled),
        *seats,
    )
    return YearRatios(YEARS, *(tuple(row.tolist()) for row in found))


def _wall(arch: Arch, even: Array, wedge: float) -> tuple[Array, Array, Array]:
    """Share of the yield used, horizontal thrust and greatest compression, by year."""
    span, props = arch.roof.span, arch.props
    axial = span * (np.outer(even, arch.full.axial[::2]) + wedge * arch.wedges.axial[::2])
    moment = span**2 * (np.outer(even, arch.full.moment[::2]) + wedge * arch.wedges.moment[::2])
    thrust = span * (even * arch.full.horizontal + wedge * arch.wedges.horizontal)
    factor = yield_factor(
        axial / props.area,
        np.abs(moment) / props.modulus,
        (thrust / arch.critical_thrust)[:, None],
        arch.roof.yield_strength,
    )
    return arch.given.design.steel_factor / np.asarray(factor).min(axis=1), thrust, axial.max(axis=1)


def _seat(seat: Seat, reaction: float, thrust: float, strength: Strength) -> tuple[float, ...]:
    """Shares in the order of YearRatios: bearing (plank, bench), thrust, ledge (plank, bench), plank."""
    plank = seat.arch.roof.plank
    pressure = seat.pressure(reaction, thrust)
    bending = plank_bending_stress(cantilever_moment(pressure, seat.overhang), plank.thickness)
    shear = plank_shear_stress(pressure, seat.overhang, plank.thickness)
    return (
        share(pressure, seat.bearing_limit(plank.width, strength)),
        share(reaction / seat.bench, seat.bearing_limit(seat.bench, strength)),
        share(thrust, seat.thrust_limit(reaction, strength)),
        seat.ledge_ratio(plank.width, reaction, thrust, strength),
        seat.ledge_ratio(seat.bench, reaction, thrust, strength),
        max(bending / plank.bending_strength, shear / plank.shear_strength),
    )


def life_of(ratios: YearRatios, alone: tuple[str, ...] = ALONE, supported: tuple[str, ...] = SUPPORTED) -> Life:
    """When each question first fails."""
    time = np.array(ratios.years) * YEAR
    asked = (*alone, *supported, "cover_alone")
    first = {name: first_exceedance(time, np.array(getattr(ratios, name))) for name in asked}
    return Life(
        tuple((WORDS[name], at) for name, at in first.items()),
        min(first[name] for name in alone),
        min(first[name] for name in supported),
        float(time[-1]),
    )
