"""Results of the roof study."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity


@dataclass(frozen=True)
class SheetUsed:
    """The corrugated sheet of an arch."""

    area: float = quantity("m2/m", "area of steel, the lower of geometry and table")
    inertia: float = quantity("m4/m", "moment of inertia, the lower of geometry and table")
    modulus: float = quantity("m3/m", "section modulus")
    gyration: float = quantity("m", "radius of gyration")
    base_thickness: float = quantity("m", "thickness of the base metal")
    agrees: bool = quantity("text", "whether geometry and published table agree within 1 %")


@dataclass(frozen=True)
class YearRatios:
    """Share of the limit that is used, by year after placing; above 1 the question fails."""

    years: tuple[float, ...] = quantity("yr", "years after placing")
    wall_alone: tuple[float, ...] = quantity("1", "yield of the sheet, steel alone carries all")
    buckling_alone: tuple[float, ...] = quantity("1", "buckling of the free arch, steel alone carries all")
    wall_supported: tuple[float, ...] = quantity("1", "ring compression, hardened snow holds the arch all round")
    cover_alone: tuple[float, ...] = quantity("1", "the cover as placed, as an arch of its own, no steel")
    bearing_alone: tuple[float, ...] = quantity("1", "bearing under the plank")
    bearing_supported: tuple[float, ...] = quantity("1", "bearing under the whole bench, once the cover has hardened")
    thrust_alone: tuple[float, ...] = quantity("1", "outward thrust against friction and keeper")
    ledge_alone: tuple[float, ...] = quantity("1", "ledge over the undercut, load on the plank")
    ledge_supported: tuple[float, ...] = quantity("1", "ledge over the undercut, load on the whole bench")
    plank_alone: tuple[float, ...] = quantity("1", "plank in bending and shear")


@dataclass(frozen=True)
class Life:
    """When each question first fails, in seconds after placing; none within the horizon is infinite."""

    first_failing: tuple[tuple[str, float], ...] = quantity("s", "question and time at which it first fails")
    alone: float = quantity("s", "time until steel and planks alone first fail (lower bound)")
    supported: float = quantity("s", "time until the supported arch first fails (upper bound)")
    horizon: float = quantity("s", "how far was looked")


@dataclass(frozen=True)
class MovingSeat:
    """An arch on seats that come in with the shoulders, year by year, at the fast end of the closure forecast."""

    years: tuple[float, ...] = quantity("yr", "years after placing")
    span: tuple[float, ...] = quantity("m", "span between the seats")
    rise: tuple[float, ...] = quantity("m", "rise, the arch as long as before; 0 where it cannot follow")
    ring: tuple[float, ...] = quantity("Pa", "ring compression under the grown cover")
    bending: tuple[float, ...] = quantity("Pa", "bending at the crown by the seats")
    share: tuple[float, ...] = quantity("1", "share of the yield, factor of safety counted")


@dataclass(frozen=True)
class PlaceRoof:
    """The roof of one place."""

    roof: str = quantity("text", "name of the roof in the station file")
    kind: str = quantity("text", "arch or formed")
    length: float = quantity("m", "length that is roofed")
    radius: float = quantity("m", "radius of the arch; 0 for a formed roof")
    arc_length: float = quantity("m", "length round the arch; 0 for a formed roof")
    sheets: int = quantity("1", "arch sheets")
    fasteners: int = quantity("1", "sets of fasteners")
    planks: int = quantity("1", "planks, both shoulders")
    steel_per_metre: float = quantity("kg/m", "mass of steel per metre of trench")
    cover_volume: float = quantity("m3", "milled snow as placed")
    load_placed: float = quantity("Pa", "mean load on plan once the cover lies, arching factor counted")
    load_at_life: float = quantity("Pa", "mean load on plan at the end of the design life")
    deflection_one_sided: float = quantity("m", "sinking of the covered quarter while one side leads; steel alone")
    flexibility: float = quantity("m/N", "flexibility factor of the sheet for handling")
    sheet: SheetUsed | None = quantity("1", "the sheet; none for a formed roof or an unknown sheet")
    ratios: YearRatios | None = quantity("1", "shares of the limits by year; none where they cannot be worked out")
    life: Life | None = quantity("1", "when each question first fails")
    moving: MovingSeat | None = quantity(
        "1", "the years on moving seats; none before the closure forecast", default=None
    )


@dataclass(frozen=True)
class RoofResult:
    """All roofs of the station."""

    places: dict[str, PlaceRoof] = quantity("1", "roof by place")
    steel_mass: float = quantity("kg", "steel of all arches")
    cover_volume: float = quantity("m3", "milled snow of all covers as placed")
