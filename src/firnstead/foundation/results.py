"""Results of the foundation study."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity


@dataclass(frozen=True)
class RowSettlement:
    """Settling of the footings of one kind of row."""

    load: float = quantity("N", "load of one footing, live load in full")
    sustained: float = quantity("N", "load of one footing that stays and makes it settle")
    pressure: float = quantity("Pa", "mean pressure under one footing, live load in full")
    law: str = quantity("text", "law of viscosity by which it settles fastest")
    rate_low: float = quantity("m/s", "slowest settling rate at the start, over the laws and the activation energy")
    rate_high: float = quantity("m/s", "fastest settling rate at the start")
    settlement_low: float = quantity("m", "settlement in the design life, slowest law, layers growing denser")
    settlement_high: float = quantity("m", "settlement in the design life, fastest law, straight in time as measured")


@dataclass(frozen=True)
class BuildingFoundation:
    """What the footings of one building do."""

    place: str = quantity("text", "place that the building stands in")
    kit: str = quantity("text", "kit of the building")
    footings: int = quantity("1", "number of footings")
    spacing: float = quantity("m", "distance between rows")
    spacing_along: float = quantity("m", "distance between footings of a row")
    mass: float = quantity("kg", "mass of the building's parts")
    edge: RowSettlement = quantity("text", "outer rows")
    middle: RowSettlement | None = quantity("text", "inner rows; none with two rows")
    floor_temperature: float = quantity("K", "temperature of the snow under the building")
    warmth: float = quantity("1", "how much faster it settles than at the site's temperature, fastest law")
    rate_on_warm_ice: float = quantity("m/s", "settling of a strip of the same width on ice at 0 degC, to compare")
    distortion_rate: float = quantity("1/s", "fastest growth of slope between neighbouring footings")
    tilt_rate: float = quantity("1/s", "fastest growth of slope across the whole building")
    time_to_relevel: float = quantity("s", "time until the relevel limit is reached")
    relevel_times: tuple[float, ...] = quantity("s", "planned relevellings, after handing over")
    tolerance: float = quantity("m", "difference in level that may be left between neighbours at handing over")
    raise_in_life: float = quantity("m", "height that the lowest footing is raised in the design life")
    shims: int = quantity("1", "shims to carry for the design life")
    pad_volume: float = quantity("m3", "compacted snow under the footings")


@dataclass(frozen=True)
class FoundationResult:
    """Footings of the whole station."""

    buildings: dict[str, BuildingFoundation] = quantity("text", "by name of the building; only those with footings")
    shims: int = quantity("1", "shims to carry for the design life, all buildings")
    pad_volume: float = quantity("m3", "compacted snow under all footings")
