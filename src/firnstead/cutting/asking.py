"""What every check of this discipline shares: the place, the snow at a depth, how a question is put."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import radians

from firnstead.core.results import Check, Step, check
from firnstead.cutting.plan import Plan


@dataclass(frozen=True)
class Place:
    """Which place the checks belong to; empty name for the whole station."""

    name: str
    subject: str


@dataclass(frozen=True)
class Ground:
    """The snow at one depth: depth [m], weight above it [Pa], low ends of density [kg/m3] and strengths [Pa]."""

    depth: float
    overburden: float
    density: float
    compressive_low: float
    tensile_low: float


def ask(
    place: Place, key: str, question: str, demand: float, limit: float, unit: str, steps: Sequence[Step], *,
    note: str = "", caution: str = "", at_least: bool = False, ratio: float | None = None,
    sources: tuple[str, ...] = (),
) -> Check:  # fmt: skip
    """Put one question of this discipline."""
    return check(
        subject=place.subject, place=place.name, key=f"cutting.{key}", question=question, demand=demand, limit=limit,
        unit=unit, discipline="cutting", working=tuple(steps), note=note, caution=caution, at_least=at_least,
        ratio=ratio, sources=sources,
    )  # fmt: skip


def bank_steps(plan: Plan) -> tuple[Step, Step, Step]:
    """Cross-section A, height h and foot b of the bigger bank."""
    bank, phi = plan.bank, ("phi", radians(plan.repose), "rad")
    inputs = (("m", plan.mass, "kg"), ("m_r", plan.relief_mass, "kg"), ("l", plan.longest, "m"),
              ("rho", plan.thrown_density, "kg/m3"))  # fmt: skip
    even = abs(bank.area - (plan.mass + plan.relief_mass) / (2 * plan.longest * plan.thrown_density)) < 1e-9 * bank.area
    text = "snow of the cut m (cut plan) and of relief cuts m_r over its length l, lying at the density rho, "
    side = "half on each side" if even else "the bigger share: the narrow side takes what fits there"
    return (
        Step("A", "(m + m_r)/(2 l rho)" if even else "", inputs, bank.area, "m2", "statics", text + side),
        Step("h", "sqrt(A tan(phi))", (("A", bank.area, "m2"), phi), bank.height, "m", "statics",
             "height of a triangular bank at the angle of repose"),
        Step("b", "2 sqrt(A/tan(phi))", (("A", bank.area, "m2"), phi), bank.base, "m", "statics", "width of its foot"),
    )  # fmt: skip
