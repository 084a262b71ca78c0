"""Results of the pipe study."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import quantity

Row = tuple[float, ...]


@dataclass(frozen=True)
class Spot:
    """One metre of a line while nothing flows and nothing heats, in the coldest air without station heat."""

    what: str = quantity("text", "what this metre is: plain line, support, wet insulation, a kind of fitting")
    place: str = quantity("text", "place it is in")
    air: float = quantity("K", "coldest air without station heat")
    resistance: float = quantity("m K/W", "resistance of this metre from the carrier to the air")
    loss: float = quantity("W/m", "heat it loses when the power fails")
    to_zero: float = quantity("s", "time to the freezing point: the only time that may be counted on")
    blocked: float = quantity("s", "further time to a ring of ice over a quarter of the bore: hidden reserve")
    solid: float = quantity("s", "further time to solid ice: hidden reserve")


@dataclass(frozen=True)
class LegResult:
    """A run in one place."""

    place: str = quantity("text", "place")
    length: float = quantity("m", "length in it")
    air_cold: float = quantity("K", "coldest air without station heat, or snow where it lies in snow")
    resistance: float = quantity("m K/W", "resistance of one metre, supports and fittings shared out")
    temperature: float = quantity("K", "temperature of the carrier at its end, in the coldest air")
    fall: float | None = quantity("1", "fall of its flattest stretch; none where no levels are told")


@dataclass(frozen=True)
class TracingResult:
    """Tracing of a run."""

    needed: float = quantity("W/m", "output needed at the coldest, safety and contact counted")
    output: float = quantity("W/m", "output of the cables that work together")
    cable: float = quantity("m", "length of one cable")
    circuits: int = quantity("1", "circuits of one cable")
    standby: int = quantity("1", "cables that stand by")
    current: float = quantity("A", "current of one circuit when warm")
    power: float = quantity("W", "greatest power of the working cables together")
    on: float = quantity("K", "thermostat switches on")
    off: float = quantity("K", "thermostat switches off")
    alarm: float = quantity("K", "alarm below")


@dataclass(frozen=True)
class RunResult:
    """One run of pipe."""

    kind: str = quantity("text", "kind of pipe")
    carrier: str = quantity("text", "what flows in it")
    begins: str = quantity("text", "what is at its beginning")
    ends: str = quantity("text", "what is at its end")
    length: float = quantity("m", "length along its route")
    outside: float = quantity("m", "outer diameter over the insulation")
    legs: tuple[LegResult, ...] = quantity("text", "place by place in order of flow")
    flow: float = quantity("kg/s", "least flow while the power is on")
    least_flow: float | None = quantity("kg/s", "flow that keeps the far end warm in the coldest air; none if traced")
    start: float = quantity("K", "temperature that enters")
    coldest: float = quantity("K", "lowest temperature of the carrier in service, coldest air")
    along: tuple[tuple[float, float], ...] = quantity("m, K", "temperature along the line, coldest air")
    loss_cold: float = quantity("W", "heat lost by the whole run in the coldest air")
    spots: tuple[Spot, ...] = quantity("text", "metres of different kind, the weakest first; empty: nothing can freeze")
    outage_usual: float = quantity("s", "time to the freezing point in the coldest usual air of the station")
    allowed: float = quantity("s", "time until heat or flow is back, or the line is drained")
    tracing: TracingResult | None = quantity("text", "electric tracing")
    fall: float | None = quantity("1", "least fall of a gravity line")
    fall_margin: float | None = quantity("m", "rise of the lower floor over the upper one that the fall can lose")
    expansion: float = quantity("m", "change of length of its longest straight between cold and hot")
    expansion_leg: float = quantity("m", "leg of a bend or loop that takes it")
    jacket: float | None = quantity("K", "surface of a line in or on snow")
    thaw_radius: float | None = quantity("m", "radius of the thawed cylinder; none where nothing thaws")
    pressure: float | None = quantity("Pa", "friction at the greatest flow")
    condensate: float = quantity("kg/s", "steam that condenses on the way in the coldest air")
    electric: Row = quantity("W", "electricity for tracing by month")
    loss: Row = quantity("W", "heat given off by month")
    notes: tuple[str, ...] = quantity("text", "what the reader must know")


@dataclass(frozen=True)
class PipesResult:
    """Pipes of the whole station."""

    runs: dict[str, RunResult] = quantity("text", "by name of the run; only those whose route can be followed")
    tracing: dict[str, Row] = quantity("W", "electricity for tracing by run and month")
    losses: dict[str, Row] = quantity("W", "heat given to the air of places by month")
    floor_losses: dict[str, Row] = quantity("W", "heat given to the snow of places by month, lines in snow")
    first_to_freeze: tuple[str, ...] = quantity("text", "runs in the order in which they reach 0 degC without power")
    length: float = quantity("m", "length of all runs")
    cable: float = quantity("m", "length of all tracing cable, standby counted")
    mass: float = quantity("kg", "pipe, insulation, jackets and cable")
