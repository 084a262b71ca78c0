"""An arch roof in numbers: shape, sheet, loads and the forces of every load pattern."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from firnstead.core.units import G0
from firnstead.roof.arch import segment_arc_length, segment_half_angle, segment_radius
from firnstead.roof.buckling import critical_loads_segment
from firnstead.roof.cover import haunch_thickness
from firnstead.roof.sheet import Sheet, SheetProperties, cross_check, sheet
from firnstead.roof.stress import STEEL_DENSITY, STEEL_MODULUS, yield_factor
from firnstead.roof.thrust import ArchForces, Array, segment_haunch_load, segment_uniform_load
from firnstead.station.build import ArchRoof, Section
from firnstead.station.machines import Machine
from firnstead.station.site import Design

ADVANCE = (0.7, 0.8, 0.9, 1.0)  # shares of the one-sided length that are tried: the worst is near 0.8 (own rule)
LEAST_RISE, MOST_RISE = 0.1, 0.5  # rise over span for which buckling factors are known


@dataclass(frozen=True)
class ArchInput:
    """Everything in the station file that the verdicts on an arch roof depend on, by value."""

    roof: ArchRoof
    section: Section
    design: Design
    drift_factor: float
    accumulation: float
    density: float
    vehicle: Machine | None
    pass_depth: float
    season: float


@dataclass(frozen=True)
class Term:
    """A load of one kind: symbol, intensity [Pa], forces for intensity 1 on span 1, words."""

    symbol: str
    pressure: float
    forces: ArchForces
    what: str


@dataclass(frozen=True, eq=False)
class State:
    """Forces under a load pattern on the real arch, per metre of trench."""

    terms: tuple[Term, ...]
    horizontal: float
    left: float
    right: float
    axial: Array
    moment: Array
    factor: Array
    """Factor on all loads at which the sheet yields, at each place along the arch."""

    @property
    def worst(self) -> int:
        """Where along the arch the sheet yields first."""
        return int(np.argmin(self.factor))

    @property
    def least_factor(self) -> float:
        """Factor on all loads at which the sheet yields."""
        return float(self.factor.min())


@dataclass(frozen=True, eq=False)
class Arch:
    """The arch with its sheet; everything else is worked out when it is asked for."""

    given: ArchInput
    sheet: Sheet
    props: SheetProperties

    @property
    def roof(self) -> ArchRoof:
        """The roof in the station file."""
        return self.given.roof

    @property
    def ratio(self) -> float:
        """Rise over span; a half circle at most."""
        return min(self.roof.rise / self.roof.span, MOST_RISE)

    @property
    def radius(self) -> float:
        """Radius [m]."""
        return segment_radius(self.roof.span, self.roof.rise)

    @property
    def half_angle(self) -> float:
        """Half the central angle [rad]."""
        return segment_half_angle(self.roof.span, self.roof.rise)

    @property
    def arc(self) -> float:
        """Length round the arch [m]."""
        return segment_arc_length(self.roof.span, self.roof.rise)

    @property
    def stiffness(self) -> float:
        """Bending stiffness E I [N m2/m]."""
        return STEEL_MODULUS * self.props.inertia

    @property
    def steel(self) -> float:
        """Weight of the sheets per plan area, laps along the trench counted [Pa]."""
        lap = 1 + self.roof.lap / self.roof.sheet_width
        return self.props.area * STEEL_DENSITY * G0 * self.arc / self.roof.span * lap

    @property
    def side_top(self) -> float:
        """Thickness of the cover at the feet [m]."""
        return self.roof.cover + haunch_thickness(self.roof.rise, self.roof.cover, self.roof.haunch_cover)

    @property
    def cover(self) -> float:
        """Pressure of the even part of the cover, as placed [Pa]."""
        return self.given.density * G0 * self.roof.cover

    @property
    def haunch(self) -> float:
        """Additional pressure of the cover at the feet, as placed [Pa]."""
        return self.given.density * G0 * (self.side_top - self.roof.cover)

    @cached_property
    def full(self) -> ArchForces:
        """Forces under an even load 1."""
        return segment_uniform_load(self.ratio)

    @cached_property
    def wedges(self) -> ArchForces:
        """Forces under haunch wedges of 1 at the feet."""
        return segment_haunch_load(self.ratio)

    @cached_property
    def critical(self) -> dict[str, float]:
        """Critical load per plan area by each law [Pa]."""
        quarter = self.full.axial.size // 4
        return critical_loads_segment(
            self.stiffness, self.roof.span, self.ratio * self.roof.span, float(self.full.axial[quarter])
        )

    @property
    def critical_thrust(self) -> float:
        """Horizontal thrust at the lowest critical load [N/m]."""
        return min(self.critical.values()) * self.roof.span * self.full.horizontal

    def growth(self, time: float) -> float:
        """Pressure that accumulation has added after a time, arching factor counted [Pa]."""
        given = self.given
        return given.design.arching_factor * G0 * given.drift_factor * given.accumulation * time

    def state(self, *terms: Term) -> State:
        """Forces under loads that act together."""
        span = self.roof.span
        forces = terms[0].forces.times(terms[0].pressure)
        for term in terms[1:]:
            forces = forces.plus(term.forces, term.pressure)
        axial, moment = forces.axial * span, forces.moment * span**2
        factor = yield_factor(
            np.maximum(axial, 0.0) / self.props.area,
            np.abs(moment) / self.props.modulus,
            max(forces.horizontal * span / self.critical_thrust, 0.0),
            self.roof.yield_strength,
        )
        return State(
            terms, forces.horizontal * span, forces.left * span, forces.right * span, axial, moment, np.asarray(factor)
        )

    def lasting(self, time: float = 0.0) -> tuple[State, State]:
        """The whole cover after a time, with the haunch wedges and without them."""
        even = self.given.design.arching_factor * self.cover + self.steel + self.growth(time)
        wedge = self.given.design.arching_factor * self.haunch
        tag = "T" if time else "0"
        u = Term(f"u_{tag}", even, self.full, "even part of cover, growth and steel")
        return self.state(u, Term("v_0", wedge, self.wedges, "wedges over the haunches")), self.state(u)

    def worst_lasting(self, time: float = 0.0) -> State:
        """The worse of cover with and without wedges (they can make the bending smaller)."""
        return min(self.lasting(time), key=lambda state: state.least_factor)

    def one_sided(self) -> State:
        """The worst moment of covering: one side leads over a part of its half span."""
        roof, unit = self.roof, self.given.density * G0
        lead = self.side_top if roof.one_side_cover is None else roof.one_side_cover
        even, side = min(lead, roof.cover), min(lead, self.side_top)
        own = Term("w_s", self.steel, self.full, "steel")
        found = []
        for share in ADVANCE:
            end = share * roof.one_side_share / 2
            ahead = (
                Term(
                    "u_1", unit * even, segment_uniform_load(self.ratio, 0.0, end), f"lead over {end:.3g} of the span"
                ),
                Term("v_1", unit * (side - even), segment_haunch_load(self.ratio, 0.0, end), "its wedge at the foot"),
            )
            rest = (
                Term("u_2", unit * (roof.cover - even), self.full, "cover on both sides"),
                Term("v_2", unit * (self.side_top - roof.cover - side + even), self.wedges, "its wedges at the feet"),
            )
            found += [self.state(own, *ahead), self.state(own, *ahead, *rest)]
        return min(found, key=lambda state: state.least_factor)

    def erection(self) -> State:
        """The worst standing place of people and tools on the bare arch."""
        own = Term("w_s", self.steel, self.full, "steel")
        parts = ((0.0, 1.0), *((0.0, share / 2) for share in ADVANCE), (0.3, 0.7))
        return min(
            (
                self.state(
                    own,
                    Term(
                        "p_e",
                        self.given.design.erection_load,
                        segment_uniform_load(self.ratio, a, b),
                        f"people and tools on the span from {a:.3g} to {b:.3g}",
                    ),
                )
                for a, b in parts
            ),
            key=lambda state: state.least_factor,
        )

    def crossing(self, pressure: float, widths: tuple[float, float]) -> State:
        """The worst place of a vehicle's spread load on the arch under its cover as placed."""
        whole = self.lasting()
        found = []
        for width in widths:
            for middle in (0.25, 0.5):
                half = width / self.roof.span / 2
                patch = segment_uniform_load(self.ratio, max(0.0, middle - half), min(1.0, middle + half))
                live = Term("p_v", pressure, patch, f"vehicle over {middle:.3g} of the span, {width:.3g} m wide")
                found += [self.state(*state.terms, live) for state in whole]
        return min(found, key=lambda state: state.least_factor)


def arch_of(given: ArchInput) -> Arch | str:
    """The arch, or why nothing can be said about it."""
    roof = given.roof
    try:
        props = cross_check(roof.profile, roof.gauge).used
    except KeyError:
        return f"there is no sheet {roof.profile} of {roof.gauge} gauge in the table"
    if roof.rise / roof.span < LEAST_RISE:
        return f"the rise is less than {LEAST_RISE:g} of the span: no buckling factor is known for so flat an arch"
    return Arch(given, sheet(roof.profile, roof.gauge), props)
