"""From one run in numbers to its losses, times, flow, tracing and falls."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import hypot, inf, isinf

from firnstead.pipes.expansion import length_change, loop_leg
from firnstead.pipes.flowing import (
    distance_to_temperature,
    friction_factor,
    friction_gradient,
    least_flow_legs,
    reynolds,
    temperature_along,
)
from firnstead.pipes.freezing import LATENT, heat_content, time_to_freeze_share, time_to_temperature
from firnstead.pipes.line import LineResistance, resistance_line
from firnstead.pipes.resistance import resistance_shape_pipe, resistance_side_by_side
from firnstead.pipes.results import Row
from firnstead.pipes.sewer import fall
from firnstead.pipes.study_case import SNOW_BAND, Case, Leg, metre_mass
from firnstead.pipes.thaw import jacket_in_snow, thaw_cylinder
from firnstead.pipes.tracing import cable_length, circuits_needed, tracing_needed
from firnstead.pipes.water import latent_heat_steam
from firnstead.snow.conduction import conductivity_ice_yen

CONTACT = {"strapped round": 1.5, "flat": 1.0, "cemented": 1.0}  # tm_5_852_5, p. 12-4 (read)
BLOCKED = 0.25  # share of the bore at which a line counts as blocked (own rule; the standard advises small shares)


@dataclass(frozen=True)
class Metre:
    """One kind of metre of a line and how it cools while it stands still."""

    what: str
    place: str
    air: float
    share: float
    wet: float
    bridge: float
    parts: LineResistance
    outer: float
    """Resistance beyond the insulation: film, or the snow round it."""
    resistance: float
    to_zero: float
    blocked: float
    solid: float


@dataclass(frozen=True)
class Flow:
    """A leg while the line is in service: temperature at its end, heat lost, heat from tracing [W]."""

    end: float
    lost: float
    heated: float


@dataclass(frozen=True, eq=False)
class Numbers:
    """Everything that checks and results of one run need."""

    case: Case

    @cached_property
    def mass_flow(self) -> float:
        """Least flow [kg/s]."""
        return self.case.run.flow * self.case.carrier.density

    @cached_property
    def held(self) -> float | None:
        """Temperature that tracing holds; none without tracing."""
        return self.case.run.tracing.on if self.case.run.tracing is not None else None

    @cached_property
    def coldest_leg(self) -> Leg:
        """The leg in the coldest air or snow."""
        return min(self.case.legs, key=self.around)

    def around(self, leg: Leg) -> float:
        """Coldest temperature round a leg: air without station heat, or snow."""
        if self.case.buried:
            return leg.snow
        return min(leg.cold, leg.snow) if self.case.in_snow else leg.cold

    @cached_property
    def _lines(self) -> dict[tuple[float, float, float, float], LineResistance]:
        return {}

    def line(self, inside: float, air: float, share: float = 1.0, wet: float = 1.0) -> LineResistance:
        """Resistances of one metre; worked out once for each question."""
        key = (inside, air, share, wet)
        found = self._lines.get(key)
        if found is None:
            found = resistance_line(self.case.wrapping, inside, air, self.case.speed, share, wet)
            self._lines[key] = found
        return found

    def beyond(self, leg: Leg, parts: LineResistance) -> float:
        """Resistance beyond the insulation."""
        if not self.case.in_snow:
            return parts.film
        snow = resistance_shape_pipe(parts.outside, max(self.case.axis_depth, 0.51 * parts.outside),
                                     leg.snow_conductivity * (1 + SNOW_BAND))  # fmt: skip
        return snow if self.case.buried else min(snow, parts.film)

    def resistance(self, leg: Leg, inside: float, air: float) -> float:
        """Resistance of one metre of a leg, supports and fittings shared out."""
        parts = self.line(inside, air)
        own = parts.below + self.beyond(leg, parts)
        s = self.case.run.supports
        own = resistance_side_by_side(own, s.bridge, s.spacing) if s.bridge else own
        extra = self.fittings(leg, inside, air)
        return resistance_side_by_side(own, extra, leg.length) if extra else own

    def fittings(self, leg: Leg, inside: float, air: float) -> float:
        """Conductance of the fittings of a leg [W/K]."""
        total = 0.0
        for fitting in self.case.run.fittings:
            if self._leg_of(fitting.place) is leg:
                parts = self.line(inside, air, fitting.insulated)
                total += fitting.count * fitting.length / (parts.below + self.beyond(leg, parts))
        return total

    def _leg_of(self, place: str | None) -> Leg:
        if place is None:
            return self.coldest_leg
        return max((leg for leg in self.case.legs if leg.place == place), key=lambda leg: leg.length)

    # In service

    def service(self, airs: tuple[float, ...]) -> tuple[Flow, ...]:
        """Leg by leg in these airs, with tracing where there is any."""
        run, at, made = self.case.run, self.case.run.supply, []
        capacity = self.mass_flow * self.case.carrier.heat_capacity
        for leg, air in zip(self.case.legs, airs, strict=True):
            r = self.resistance(leg, run.supply, air)
            if run.carrier == "steam":
                made.append(Flow(run.supply, (run.supply - air) / r * leg.length, 0.0))
                continue
            free = temperature_along(at, air, leg.length, self.mass_flow, self.case.carrier.heat_capacity, r)
            heated, end = 0.0, free
            if self.held is not None and free < self.held:
                reach = distance_to_temperature(at, self.held, air, self.mass_flow, self.case.carrier.heat_capacity, r)
                if at < self.held:  # what enters is warmed first
                    heated = capacity * (self.held - at)
                heated += (self.held - air) / r * (leg.length - min(reach, leg.length))
                end = self.held
            made.append(Flow(end, capacity * (at - end) + heated, heated))
            at = end
        return tuple(made)

    @cached_property
    def design(self) -> tuple[Flow, ...]:
        """In service in the coldest air."""
        return self.service(tuple(self.around(leg) for leg in self.case.legs))

    @property
    def batch(self) -> bool:
        """Whether it is filled only when used and drained after."""
        run = self.case.run
        return run.flow == 0 and run.tracing is None and run.drain is not None

    @cached_property
    def coldest(self) -> float:
        """Lowest temperature in service [K]; a line drained after each use has that of what enters."""
        if self.batch:
            return self.case.run.supply
        return min(self.case.run.supply, *(flow.end for flow in self.design))

    @cached_property
    def start(self) -> float:
        """Temperature from which it cools when all fails: a cable that failed is known only when the alarm sounds."""
        tracing = self.case.run.tracing
        return self.coldest if tracing is None else min(self.coldest, tracing.alarm)

    @cached_property
    def along(self) -> tuple[tuple[float, float], ...]:
        """Temperature along the line in the coldest air: distance and temperature, some points a leg."""
        if self.batch:
            return ()
        run, at, start, made = self.case.run, 0.0, self.case.run.supply, [(0.0, self.case.run.supply)]
        for leg, flow in zip(self.case.legs, self.design, strict=True):
            air = self.around(leg)
            r = self.resistance(leg, run.supply, air)
            for share in (0.25, 0.5, 0.75, 1.0):
                here = flow.end if run.carrier == "steam" else temperature_along(
                    start, air, share * leg.length, self.mass_flow, self.case.carrier.heat_capacity, r)  # fmt: skip
                made.append((at + share * leg.length, here if self.held is None else max(here, self.held)))
            at, start = at + leg.length, flow.end
        return tuple(made)

    @cached_property
    def flow_legs(self) -> tuple[tuple[float, float, float], ...]:
        """Length, air and resistance of each leg in the coldest air."""
        supply = self.case.run.supply
        return tuple(
            (leg.length, self.around(leg), self.resistance(leg, supply, self.around(leg))) for leg in self.case.legs
        )

    @cached_property
    def least_flow(self) -> float:
        """Flow that keeps the far end at the lowest temperature wanted [kg/s]."""
        return least_flow_legs(self.case.run.supply, self.case.run.least, self.flow_legs,
                               self.case.carrier.heat_capacity)  # fmt: skip

    def months(self) -> tuple[Row, dict[str, Row]]:
        """Electricity for tracing, and heat lost by place, by month [W]."""
        by_air: dict[tuple[float, ...], tuple[Flow, ...]] = {}
        electric: list[float] = []
        losses: dict[str, list[float]] = {leg.place: [0.0] * 12 for leg in self.case.legs}
        contact = CONTACT[self.case.cable.contact] if self.case.cable is not None else 1.0
        for month in range(12):
            airs = tuple(leg.snow if self.case.buried else leg.usual[month] for leg in self.case.legs)
            flows = by_air.get(airs)
            if flows is None:
                flows = by_air[airs] = self.service(airs)
            electric.append(contact * sum(flow.heated for flow in flows))
            for leg, flow in zip(self.case.legs, flows, strict=True):
                losses[leg.place][month] += flow.lost + (contact - 1) * flow.heated
        return tuple(electric), {place: tuple(row) for place, row in losses.items()}

    # Standing still

    @cached_property
    def content(self) -> float:
        """Heat that one metre gives off for each kelvin [J/m/K]."""
        c = self.case.carrier
        return heat_content(self.case.kind.bore, c.density, c.heat_capacity, self.case.run.fill)

    @cached_property
    def metres(self) -> tuple[Metre, ...]:
        """All kinds of metre of the run, the weakest first; empty where nothing can freeze."""
        run, found = self.case.run, []
        for leg in {leg.place: leg for leg in self.case.legs}.values():
            found.append(self.metre("plain line", leg))
            if run.supports.bridge > 0:
                found.append(self.metre("support", leg, bridge=run.supports.bridge))
            tight = self.case.kind.jacket is not None and self.case.kind.jacket.tight
            if self.case.kind.insulation and not tight:
                found.append(self.metre("wet insulation", leg, wet=self.case.wet))
        for fitting in run.fittings:
            found.append(self.metre(fitting.kind, self._leg_of(fitting.place), share=fitting.insulated))
        return tuple(sorted(found, key=lambda each: each.to_zero))

    def metre(
        self, what: str, leg: Leg, air: float | None = None, *, share: float = 1.0, wet: float = 1.0,
        bridge: float = 0.0,
    ) -> Metre:  # fmt: skip
        """One kind of metre, cooling in the coldest air (or a given one) from the lowest temperature in service."""
        air = self.around(leg) if air is None else air
        start, c = self.start, self.case.carrier
        parts = self.line(max(start, c.freezing), air, share, wet)
        beyond = self.beyond(leg, parts)
        r = resistance_side_by_side(parts.below + beyond, bridge) if bridge else parts.below + beyond
        to_zero = time_to_temperature(start, c.freezing, air, self.content, r) if start > c.freezing else (
            inf if air >= c.freezing else 0.0)  # fmt: skip
        bore = (
            self.case.kind.bore * self.case.run.fill**0.5
        )  # a part-filled bore freezes no later than a full smaller one
        ice = float(conductivity_ice_yen(min(air, 273.15)))
        blocked, solid = (
            time_to_freeze_share(part, c.freezing, air, c.latent or LATENT, bore, r, ice) for part in (BLOCKED, 1.0)
        )
        return Metre(what, leg.place, air, share, wet, bridge, parts, beyond, r, to_zero, blocked, solid)

    @cached_property
    def outage_usual(self) -> float:
        """Time to the freezing point of the weakest metre in the coldest usual air [s]."""
        usual = {leg.place: leg.snow if self.case.buried else min(leg.usual) for leg in self.case.legs}
        if self.case.in_snow:
            usual = {leg.place: min(usual[leg.place], leg.snow) for leg in self.case.legs}
        legs = {leg.place: leg for leg in self.case.legs}
        return min((self.metre(m.what, legs[m.place], usual[m.place], share=m.share, wet=m.wet, bridge=m.bridge).to_zero
                    for m in self.metres), default=inf)  # fmt: skip

    @cached_property
    def freezes(self) -> bool:
        """Whether the carrier can freeze in the coldest air."""
        return any(not isinf(m.to_zero) for m in self.metres)

    # Tracing

    @cached_property
    def tracing_at(self) -> tuple[Leg, float]:
        """The leg where tracing must give most, and the resistance of its plain metre with supports."""
        held, s = self.held or self.case.run.least, self.case.run.supports

        def plain(leg: Leg) -> float:
            parts = self.line(held, self.around(leg))
            own = parts.below + self.beyond(leg, parts)
            return resistance_side_by_side(own, s.bridge, s.spacing) if s.bridge else own

        found = [(leg, plain(leg)) for leg in self.case.legs]
        return max(found, key=lambda each: (held - self.around(each[0])) / each[1])

    @cached_property
    def tracing_needed(self) -> float:
        """Output that tracing needs [W/m]."""
        t, cable = self.case.run.tracing, self.case.cable
        if t is None or cable is None:
            return 0.0
        leg, r = self.tracing_at
        return tracing_needed((t.on - self.around(leg)) / r, t.safety, CONTACT[cable.contact])

    @cached_property
    def cable(self) -> float:
        """Length of one cable [m]."""
        return cable_length(self.case.length, sum(f.count * f.length for f in self.case.run.fittings))

    @cached_property
    def circuits(self) -> int:
        """Circuits of one cable."""
        cable = self.case.cable
        return circuits_needed(self.cable, cable.greatest_circuit) if cable is not None else 0

    # Gravity

    @cached_property
    def falls(self) -> tuple[tuple[Leg, float, float, float], ...]:
        """Leg, upper and lower level, length, of each stretch with levels."""
        return tuple(
            (leg, piece.upper, piece.lower, piece.length) for leg in self.case.legs for piece in leg.stretches
            if piece.upper is not None and piece.lower is not None and hypot(*piece.direction) > 0
        )  # fmt: skip

    def least_fall(self, leg: Leg | None = None) -> float | None:
        """Least fall of a leg, or of the whole run."""
        found = [fall(u, w, n) for at, u, w, n in self.falls if leg is None or at is leg]
        return min(found, default=None)

    # Expansion, snow, friction

    @cached_property
    def straight(self) -> float:
        """Length between bends that take expansion [m]."""
        return self.case.run.expansion_every or max(self.case.straights)

    @cached_property
    def swing(self) -> tuple[float, float]:
        """Coldest and warmest that the pipe gets [K], the temperature at which it is laid counted."""
        laid = self.case.run.laid_at
        cold = self.around(self.coldest_leg)
        laid = cold if laid is None else laid
        return min(cold, laid), max(self.case.run.supply, laid)

    @cached_property
    def change(self) -> float:
        """Change of length of that straight [m]."""
        return length_change(self.straight, self.case.material.expansion, self.swing[1] - self.swing[0])

    @cached_property
    def leg_needed(self) -> float:
        """Leg of a bend that takes it [m]."""
        return loop_leg(self.change, self.case.kind.outer, self.case.material.modulus, self.case.material.stress)

    @cached_property
    def jacket(self) -> tuple[Leg, float, float] | None:
        """For lines in snow: the leg with the warmest jacket, its temperature, the radius thawed. Low conductivity,
        warmest month."""
        if not self.case.in_snow:
            return None
        r, h, found = self.case.kind.outside / 2, self.case.axis_depth, []
        for leg in self.case.legs:
            k = leg.snow_conductivity * (1 - SNOW_BAND)
            below = self.line(self.case.run.supply, leg.snow_warm).below
            surface = jacket_in_snow(self.case.run.supply, below, h, r, 273.15, leg.snow_warm, k, k)
            found.append((leg, surface, thaw_cylinder(surface, h, r, 273.15, leg.snow_warm, k, k)[1]))
        return max(found, key=lambda each: each[1])

    @cached_property
    def pressure(self) -> float | None:
        """Friction along the run at its greatest flow [Pa]."""
        c, run = self.case.carrier, self.case.run
        flow = max(run.flow, run.peak_flow or 0.0) * c.density
        if c.viscosity is None or flow <= 0 or run.drive == "gravity" or run.carrier == "steam":
            return None
        factor = friction_factor(reynolds(flow, self.case.kind.bore, c.viscosity),
                                 self.case.material.roughness / self.case.kind.bore)  # fmt: skip
        return friction_gradient(flow, self.case.kind.bore, c.density, factor) * self.case.length

    @cached_property
    def condensate(self) -> float:
        """Steam that condenses on the way in the coldest air [kg/s]."""
        if self.case.run.carrier != "steam":
            return 0.0
        return sum(flow.lost for flow in self.design) / latent_heat_steam(self.case.run.supply)

    @cached_property
    def mass(self) -> float:
        """Pipe, insulation and jacket [kg]."""
        return self.case.length * metre_mass(self.case)
