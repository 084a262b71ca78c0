"""One march written in numbers alone, so that it can be compared, named by its content and kept."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, fields, replace

import numpy as np

from firnstead.closure.freedoms import STIFF, YIELDING
from firnstead.closure.law import CreepLaw
from firnstead.closure.march import Case
from firnstead.closure.mesh import HalfSection, Points
from firnstead.closure.results import Softness
from firnstead.core.units import YEAR
from firnstead.snow._arrays import Array

EXPECTED = "as expected"
LINEAR, CUBIC = 1.0, 3.0
DENSITY_SHARE = 0.05  # doubt of the density profile (own rule)
QUARTER = 0.25 * YEAR  # dates at which a march is kept


@dataclass(frozen=True)
class Spec:
    """A trench to be marched; SI, depths below the top of the meshed snow.

    Snow thrown by the millers of `milled` density lies down to `milled_depth` within `milled_edge` of the axis, and of
    `slab` density straight above the void, where it stands for all that the roof carries. `raised` is the thickness
    of the mound above the surface; beyond the milled snow it is empty but for a filler that weighs next to nothing.
    """

    outline: Points
    roof: str
    seat: float
    side: float
    bottom: float
    size: float
    milled: float
    milled_edge: float
    milled_depth: float
    slab: float
    raised: float
    depths: tuple[float, ...]
    densities: tuple[float, ...]
    snow: float
    air: tuple[float, ...]
    growth: float
    seat_load: float
    k: float
    exponent: float
    years: float
    filler: float = 50.0

    def digest(self) -> str:
        """Name by content: any change of a number gives another."""
        text = ";".join(f"{field.name}={getattr(self, field.name)!r}" for field in fields(self))
        return hashlib.sha256(text.encode()).hexdigest()[:24]

    @property
    def dates(self) -> Array:
        """Dates [s] since the cut that are kept, from 0 to the end."""
        return np.arange(round(self.years / 0.25) + 1, dtype=np.float64) * QUARTER


def case_of(spec: Spec) -> Case:
    """Give the march that a spec describes.

    density, temperature, air, surcharge and seat load as functions of place and time

    Parameters
    ----------
    spec : Spec [text]
        The trench in numbers.
    Returns
    -------
    Case [text]
        What can be marched.
    Validity: the year's mean air in each year; snow at the mean temperature of the site at the start.
    Source: own_rule.

    >>> spec = Spec(((1.5, 1.0), (1.5, 4.0)), "yielding", 0.5, 10.0, 10.0, 1.0, 500.0, 2.0, 1.0, 300.0, 0.0,
    ...             (0.0, 20.0), (400.0, 600.0), 250.0, (255.0, 257.0), 1e-4, 5e3, 600.0, 3.0, 10.0)
    >>> case = case_of(spec)
    >>> case.density(np.array([0.0, 1.7, 5.0]), np.array([0.5, 0.5, 10.0])).tolist(), case.air(1.5 * YEAR)
    ([300.0, 500.0, 500.0], 257.0)
    """
    depths, densities = np.array(spec.depths), np.array(spec.densities)
    air, last = np.array(spec.air), len(spec.air) - 1
    inner = spec.outline[0][0]

    def density(x: Array, depth: Array) -> Array:
        natural = np.where(depth < spec.raised, spec.filler, np.interp(depth - spec.raised, depths, densities))
        thrown = np.where(x < inner, spec.slab, spec.milled)
        return np.where((depth < spec.milled_depth) & (x < spec.milled_edge), thrown, natural)

    section = HalfSection(
        spec.outline, side=spec.side, depth=spec.bottom, seat=spec.seat, lines=(spec.milled_edge,), size=spec.size
    )
    return Case(
        section, CreepLaw(spec.k, exponent=spec.exponent), density, lambda depth: np.full_like(depth, spec.snow),
        roof=spec.roof, surcharge=lambda time: spec.growth * time, seat_load=lambda time: spec.seat_load,
        air=lambda time: float(air[min(int(time / YEAR), last)]))  # fmt: skip


@dataclass(frozen=True)
class Doubted:
    """An input with its low and its high value, by the names of their marches; `bound` is no spread."""

    name: str
    low: str
    high: str
    bound: bool = False


DOUBTS = (
    Doubted("creep exponent", "linear creep", "cubic creep", bound=True),
    Doubted("site constant k", "k low", "k high"),
    Doubted("temperature", "colder", "warmer"),
    Doubted("density", "lighter", "denser"),
    Doubted("roof", "stiff roof", EXPECTED, bound=True),
)
CHANGES = (
    "0.2 m more undercut each side",
    "0.2 m wider each side, top to floor",
    "floor 0.5 m deeper",
    "air 5 K colder, not below the snow",
    "half the growth of the cover",
)


def family_of(
    spec: Spec, soft: Softness, *, k_share: float = 0.2, warmer: float = 2.0, density_share: float = DENSITY_SHARE
) -> dict[str, Spec]:
    """Give all marches of one section: as expected, each doubt low and high, and what a change of design would do.

    k by a fifth, 2 K, density by a twentieth either way with k fitted anew; exponents 1 and 3 with their own k; a
    stiff arch

    Parameters
    ----------
    spec : Spec [text]
        The trench as expected.
    soft : Softness [1]
        The site's k for every exponent and for a lighter and a denser profile.
    k_share : float [1]
        Doubt of k.
    warmer : float [K]
        Doubt of snow and air temperature.
    density_share : float [1]
        Doubt of density.
    Returns
    -------
    dict of str to Spec [text]
        Marches by name.
    Validity: the doubts are this project's own judgement, to be replaced by the site's own.
    Source: own_rule.

    >>> spec = Spec(((1.5, 1.0), (1.5, 4.0)), "yielding", 0.5, 10.0, 10.0, 1.0, 500.0, 2.0, 1.0, 300.0, 0.0,
    ...             (0.0, 20.0), (400.0, 600.0), 250.0, (255.0, 257.0), 1e-4, 5e3, 600.0, 2.0, 10.0)
    >>> soft = Softness((1.0, 2.0, 3.0), (400.0, 600.0, 800.0), (9.0, 4.0, 9.0), 500.0, 700.0, 2.5, 12.0)
    >>> family = family_of(spec, soft)
    >>> len(family), family["cubic creep"].k, family["air 5 K colder, not below the snow"].air
    (15, 800.0, (250.0, 252.0))
    """
    tied = spec.roof in (YIELDING, STIFF)
    heavier, lighter = 1.0 + density_share, 1.0 - density_share
    made = {
        EXPECTED: spec,
        "linear creep": replace(spec, k=soft.k[0], exponent=LINEAR),
        "cubic creep": replace(spec, k=soft.k[2], exponent=CUBIC),
        "k low": replace(spec, k=spec.k / (1.0 + k_share)),
        "k high": replace(spec, k=spec.k * (1.0 + k_share)),
        "colder": replace(spec, snow=spec.snow - warmer, air=tuple(t - warmer for t in spec.air)),
        "warmer": replace(spec, snow=spec.snow + warmer, air=tuple(t + warmer for t in spec.air)),
        "lighter": replace(spec, densities=tuple(lighter * rho for rho in spec.densities), k=soft.k_lighter),
        "denser": replace(spec, densities=tuple(heavier * rho for rho in spec.densities), k=soft.k_denser),
        CHANGES[0]: replace(spec, outline=_undercut(spec.outline, 0.2)),
        CHANGES[1]: replace(
            spec, outline=tuple((x + 0.2, y) for x, y in spec.outline), milled_edge=spec.milled_edge + 0.2),
        CHANGES[2]: replace(spec, outline=(*spec.outline[:-1], (spec.outline[-1][0], spec.outline[-1][1] + 0.5))),
        CHANGES[3]: replace(spec, air=tuple(max(t - 5.0, min(t, spec.snow)) for t in spec.air)),
        CHANGES[4]: replace(spec, growth=0.5 * spec.growth),
    }  # fmt: skip
    if tied:
        made["stiff roof"] = replace(spec, roof=STIFF)
    else:  # a vault of snow spreads when its floor does: widening the top is no small change of it
        del made[CHANGES[1]]
    return made


def _undercut(outline: Points, more: float) -> Points:
    """The floor set back by `more`, the wall between its top and the floor in proportion to depth."""
    top = next(i for i, (x, _) in enumerate(outline) if x == max(w for w, _ in outline[:-1]))
    start, end = outline[top][1], outline[-1][1]
    return tuple(
        (x + more * (max(0.0, y - start) / (end - start)), y) if i >= top else (x, y)
        for i, (x, y) in enumerate(outline)
    )
