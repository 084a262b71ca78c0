"""The seat of an arch in numbers: plank, shoulder and undercut at the site's own snow."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import ceil

import numpy as np

from firnstead.core.units import G0
from firnstead.roof.seat import (
    Ledge,
    bearing_edge,
    eccentric_pressure,
    effective_setback,
    face_lean,
    ledge_bending,
    thrust_resistance,
    undercut_steps,
)
from firnstead.roof.study_arch import Arch
from firnstead.roof.thrust import Array
from firnstead.snow import SnowColumn


@dataclass(frozen=True)
class Strength:
    """Low ends of the strength of the shoulder's snow once accumulation has added a mass [kg/m2]."""

    added: float
    depth: float
    compressive: float
    tensile: float
    density: float

    @property
    def cohesion(self) -> float:
        """Half the compressive strength [Pa]."""
        return self.compressive / 2


@dataclass(frozen=True, eq=False)
class Seat:
    """Where the foot, the plank and the faces of the cut lie; distances are from the edge of the cut, away from it."""

    arch: Arch
    column: SnowColumn

    @property
    def foot(self) -> float:
        """Distance of the arch's foot from the edge [m]."""
        return (self.arch.roof.span - self.arch.given.section.top_width) / 2

    @property
    def offset(self) -> float:
        """Distance of the foot from the plank's middle, outward positive [m]."""
        plank = self.arch.roof.plank
        return self.foot - plank.setback - plank.width / 2

    @property
    def undercut(self) -> float:
        """How far the floor stands back behind the edge [m]."""
        return max(0.0, self.arch.given.section.undercut)

    @property
    def setback(self) -> float:
        """Setback counted from the widest part of the cut [m]."""
        return effective_setback(self.arch.roof.plank.setback, self.undercut)

    @property
    def passes(self) -> int:
        """Steps of the undercut at the thickest pass that a miller of the station makes."""
        section = self.arch.given.section
        height = section.depth - (section.undercut_from or section.bench_depth)
        return max(1, ceil(height / self.arch.given.pass_depth - 1e-9))

    @cached_property
    def steps(self) -> tuple[tuple[float, float], ...]:
        """Steps of the undercut: distance from the edge, thickness of snow above."""
        section = self.arch.given.section
        start = section.bench_depth if section.undercut_from is None else section.undercut_from
        return undercut_steps(self.undercut, start - section.bench_depth, section.depth - start, self.passes)

    @cached_property
    def lean(self) -> float:
        """Lean of the face over the cut, seen from the plank's near side [rad]."""
        return face_lean(self.arch.roof.plank.setback, self.steps)

    @property
    def bench(self) -> float:
        """Width on which the hardened cover stands: the bench behind the plank's near side [m]."""
        plank = self.arch.roof.plank
        return max(plank.width, self.arch.given.section.bench_width - plank.setback)

    @property
    def keeper(self) -> float:
        """Height that bears on the snow behind the plank [m]."""
        plank = self.arch.roof.plank
        return plank.thickness if plank.keeper is None else plank.keeper

    @property
    def overhang(self) -> float:
        """Longer part of the plank beyond the foot [m]."""
        return self.arch.roof.plank.width / 2 + abs(self.offset)

    def strengths(self, added: Array) -> tuple[Strength, ...]:
        """Low strength of the shoulder's snow, which grows denser as accumulation buries it under the mass `added`.

        Its depth is that at which today's profile carries the same mass (Sorge's law); weaker snow within a plank's
        width below counts too.
        """
        column, deepest = self.column, float(self.column.depth[-1])
        bench = column.at("overburden", min(self.arch.given.section.bench_depth, deepest))
        top = np.interp(bench + G0 * added, column.overburden, column.depth)
        base = np.minimum(top + self.arch.roof.plank.width, deepest)

        def low(values: Array) -> Array:
            return np.minimum(np.interp(top, column.depth, values), np.interp(base, column.depth, values))

        density = np.interp(top, column.depth, column.density)
        rows = zip(added, top, low(column.ucs_low), low(column.tensile_low), density, strict=True)
        return tuple(Strength(*map(float, row)) for row in rows)

    def eccentricity(self, reaction: float, thrust: float) -> float:
        """Worst distance of the load from the plank's middle: as set, or shifted outward by the thrust [m]."""
        shifted = self.offset + thrust * self.arch.roof.plank.thickness / reaction
        return max(abs(self.offset), abs(shifted))

    def pressure(self, reaction: float, thrust: float) -> float:
        """Greatest pressure under the plank [Pa]."""
        return eccentric_pressure(reaction, self.arch.roof.plank.width, self.eccentricity(reaction, thrust))

    def bearing_limit(self, width: float, strength: Strength) -> float:
        """Pressure that the shoulder may take on a width, factor of safety taken off [Pa]."""
        found = bearing_edge(strength.cohesion, width, self.setback, self.lean)
        return found / self.arch.given.design.snow_factor

    def thrust_limit(self, reaction: float, strength: Strength) -> float:
        """Outward thrust that friction and keeper resist [N/m]."""
        design = self.arch.given.design
        return thrust_resistance(
            reaction, design.friction, design.overturning_factor, self.keeper, strength.compressive / design.snow_factor
        )

    def ledges(self, width: float, reaction: float, thrust: float, strength: Strength) -> tuple[Ledge, ...]:
        """Stress at every step of the undercut; the thrust counts with the factor against sliding taken off."""
        given, plank = self.arch.given, self.arch.roof.plank
        cover = given.density * G0 * self.arch.side_top + G0 * given.drift_factor * strength.added
        return tuple(
            ledge_bending(
                s,
                t,
                strength.density * G0,
                plank.setback,
                width,
                reaction,
                thrust / given.design.overturning_factor,
                cover,
                self.foot,
            )
            for s, t in self.steps
        )

    def ledge_ratio(self, width: float, reaction: float, thrust: float, strength: Strength) -> float:
        """Largest share of tensile or shear strength used in the ledge."""
        found = self.ledges(width, reaction, thrust, strength)
        tension = max((ledge.tension for ledge in found), default=0.0)
        shear = max((ledge.shear for ledge in found), default=0.0)
        return self.arch.given.design.snow_factor * max(tension / strength.tensile, shear / strength.cohesion)
