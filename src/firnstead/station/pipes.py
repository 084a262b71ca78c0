"""Pipes: kinds of pipe and cable, and the runs that are made of them."""

from __future__ import annotations

from typing import Literal

from firnstead.station.fields import (
    Conductance,
    Conductivity,
    Density,
    FlowRate,
    Length,
    LinearMass,
    LinearPower,
    Part,
    Share,
    SpecificHeat,
    Speed,
    Stress,
    Temperature,
    Time,
    Voltage,
    say,
)

FIXED_ENDS = ("well", "tank", "sump", "pump", "boiler", "heat exchanger", "tap", "closed end")
SAFETY = 1.25  # on the loss when tracing is chosen (from memory, unchecked: trade practice of 1.1 to 1.25)


class InsulationLayer(Part):
    """One layer of insulation."""

    what: str = say("What it is", default="insulation")
    thickness: Length = say("Thickness", above=0, high=0.5)
    conductivity: Conductivity = say("Conductivity at a mean temperature of 10 degC", low=0.005, high=1)
    growth: Share = say(
        "Growth of the conductivity for each kelvin of mean temperature, as a share (0.004: 4 % for 10 K); matters for "
        "hot lines; 0 is safe for cold ones",
        low=0,
        high=0.05,
        default=0.0,
    )
    density: Density = say("Density", low=5, high=500)


class Jacket(Part):
    """The outer skin."""

    thickness: Length = say("Thickness", above=0, high=0.02)
    density: Density = say("Density", low=500, high=9000)
    emissivity: Share = say("Emissivity (bright metal 0.1, painted or plastic 0.9)", low=0.02, high=1)
    tight: bool = say("Tight against water vapour: the insulation under it stays dry")


class PipeKind(Part):
    """A kind of pipe with its insulation and jacket."""

    material: Literal["steel", "stainless steel", "copper", "polyethylene"] = say("What the pipe is made of")
    bore: Length = say("Inner diameter", low=0.005, high=1)
    wall: Length = say("Thickness of the wall", low=0.0003, high=0.1)
    insulation: tuple[InsulationLayer, ...] = say("Layers from the pipe outwards", default=())
    jacket: Jacket | None = say("Jacket; left out: the insulation lies bare and may get wet", default=None)
    bare_emissivity: Share = say(
        "Emissivity of the surface where there is no jacket", low=0.02, high=1, default=0.9, mark="textbook_unchecked"
    )
    stick: Length = say("Length of one piece as delivered", low=0.5, high=500)
    part: str | None = say("Part that is one piece; left out: it is not put on the packing list", default=None)

    @property
    def outer(self) -> float:
        """Outer diameter of the bare pipe [m]."""
        return self.bore + 2 * self.wall

    @property
    def outside(self) -> float:
        """Outer diameter over insulation and jacket [m]."""
        jacket = self.jacket.thickness if self.jacket is not None else 0.0
        return self.outer + 2 * (sum(layer.thickness for layer in self.insulation) + jacket)


class TracingCable(Part):
    """A kind of tracing cable."""

    what: str = say("What it is", default="tracing cable")
    output: LinearPower = say("Output at the temperature it holds", above=0, high=200)
    contact: Literal["strapped round", "flat", "cemented"] = say(
        "How it lies on the pipe: a round cable only strapped on must give 1.5 times as much"
    )
    greatest_circuit: Length = say("Greatest length of one circuit at the coldest start-up", above=0, high=2000)
    voltage: Voltage = say("Voltage", low=12, high=1000)
    mass: LinearMass = say("Mass of one metre", above=0, high=5)
    drum: Length = say("Cable on one drum", above=0, high=5000)
    part: str | None = say("Part that is one drum; left out: it is not put on the packing list", default=None)


class Tracing(Part):
    """Tracing of a run."""

    cable: str = say("Name of the cable")
    cables: int = say("Cables side by side that work together", low=1, high=6, default=1)
    standby: int = say("Further cables that stand by", low=0, high=6, default=0)
    on: Temperature = say("Thermostat switches on at", low=253.15, high=373.15)
    off: Temperature = say("Thermostat switches off at", low=253.15, high=373.15)
    alarm: Temperature = say("Alarm below", low=253.15, high=373.15)
    safety: Share = say("Safety factor on the loss", low=1, high=3, default=SAFETY, mark="iec_60079_30")
    circuits: int | None = say(
        "Circuits laid out for one cable; left out: as many as its greatest length asks for", low=1, high=500,
        default=None
    )  # fmt: skip


class Supports(Part):
    """What a run lies on or hangs from."""

    kind: Literal["hung", "on blocks", "in a niche", "on snow", "in snow"] = say(
        "How it is held; in a niche: in a recess cut along the wall; on snow, in snow: it touches the snow all along"
    )
    spacing: Length = say("Distance between supports", low=0.3, high=20, default=2.5, mark="common_practice")
    bridge: Conductance = say(
        "Heat that one support lets through for each kelvin; 0: saddles outside the insulation", low=0, high=5,
        default=0.0
    )  # fmt: skip
    depth: Length | None = say(
        "Depth of the axis below the snow floor, for lines in snow", low=0.02, high=10, default=None
    )
    niche_width: Length | None = say("How far the niche goes into the wall", low=0.05, high=3, default=None)
    niche_height: Length | None = say("Height of the niche", low=0.05, high=3, default=None)


class RoutePoint(Part):
    """A point of a run's route, on the axis of a place."""

    place: str = say("Name of the place")
    at: Length | None = say(
        "Distance along its axis from its start; left out: the run only passes through", low=0, high=2000, default=None
    )
    height: Length | None = say(
        "Height of the pipe above the place's floor; a gravity line needs it at both ends", low=-5, high=20,
        default=None
    )  # fmt: skip


class PipeFitting(Part):
    """Valves, flanges, pumps and the like on a run."""

    kind: Literal["valve", "flange", "pump", "meter", "strainer", "elbow", "tee"] = say("What it is")
    count: int = say("How many", low=1, high=500, default=1)
    place: str | None = say("Place they are in; left out: the coldest that the run passes", default=None)
    insulated: Share = say("Thickness of its insulation as a share of the pipe's; 0: bare", low=0, high=1)
    length: Length = say(
        "Length of pipe that loses as much as one of them", low=0, high=10, default=1.0, mark="own_rule"
    )


class DeadLeg(Part):
    """A branch in which nothing flows."""

    place: str = say("Place it is in")
    length: Length = say("Length from the main to its closed end", above=0, high=100)
    bore: Length = say("Bore", low=0.005, high=0.5)
    wall: Length = say("Thickness of its wall", low=0.0003, high=0.05)
    traced: bool = say("Traced like its main", default=False)


class PipeRun(Part):
    """A run of pipe."""

    kind: str = say("Name of the kind of pipe")
    carrier: Literal["water", "waste water", "glycol", "fuel", "steam", "condensate"] = say("What flows in it")
    glycol_share: Share | None = say("Glycol by mass, for glycol", low=0.05, high=0.6, default=None)
    begins: str = say(
        "What is at its beginning: a building, a run, a place, or well, tank, sump, pump, boiler, heat exchanger, tap, "
        "closed end"
    )
    ends: str = say("What is at its end: as for its beginning")
    route: tuple[RoutePoint, ...] = say("Points in the order of flow, along the axes of places")
    drive: Literal["pumped", "gravity"] = say("What moves it", default="pumped")
    flow: FlowRate = say(
        "Least flow that goes on day and night while the power is on; 0: it may stand still", low=0, high=1
    )
    peak_flow: FlowRate | None = say("Greatest flow, for sewers and pumps", low=0, high=1, default=None)
    supply: Temperature = say("Temperature of what enters it", low=223.15, high=473.15)
    least: Temperature = say(
        "Lowest temperature wanted anywhere in it", low=223.15, high=473.15, default=278.15, mark="tracing_article_2023"
    )
    fill: Share = say("Share of the bore that stays filled when it stands still", low=0.05, high=1, default=1.0)
    repair: Time = say("Time until heat or flow is back after a failure, by day or night", low=0, high=30 * 86400.0)
    drain: Time | None = say(
        "Time in which it is drained when power fails, pipe laid to fall to its drain; left out: it stays full",
        low=60,
        high=7 * 86400.0,
        default=None,
    )
    supports: Supports = say("What it lies on or hangs from")
    tracing: Tracing | None = say("Electric tracing; left out: none", default=None)
    fittings: tuple[PipeFitting, ...] = say("Valves, flanges, pumps and the like", default=())
    dead_legs: tuple[DeadLeg, ...] = say("Branches in which nothing flows", default=())
    fall: Share = say(
        "Least fall of a gravity line (1 in 100 is 0.01)", low=0.001, high=0.5, default=0.01, mark="common_practice"
    )
    expansion_every: Length | None = say(
        "Distance between loops or bends that take expansion; left out: the longest straight of the route", low=1,
        high=500, default=None
    )  # fmt: skip
    expansion_leg: Length | None = say(
        "Length of the leg, in a loop or bend, that takes it by bending", low=0.05, high=20, default=None
    )
    laid_at: Temperature | None = say(
        "Temperature at which it is put together; left out: the air of its coldest place", low=203.15, high=313.15,
        default=None
    )  # fmt: skip
    pump_pressure: Stress | None = say("Pressure its pump can spend on friction", above=0, high=5e6, default=None)
    steam_loss: Share = say(
        "Share of the steam that may condense on the way", low=0.001, high=0.5, default=0.1, mark="own_rule"
    )


class Fuel(Part):
    """The fuel that lies in fuel lines."""

    density: Density = say("Density", low=600, high=1000)
    heat_capacity: SpecificHeat = say("Heat capacity", low=1000, high=3000)
    cloud_point: Temperature = say("Temperature at which wax begins to show", low=193.15, high=283.15)


class Pipes(Part):
    """All pipes of the station."""

    kinds: dict[str, PipeKind] = say("Kinds of pipe by name", default={})
    cables: dict[str, TracingCable] = say("Kinds of tracing cable by name", default={})
    runs: dict[str, PipeRun] = say("Runs by name", default={})
    glycol: Literal["propylene", "ethylene"] = say("Kind of glycol; propylene is the one that is not poisonous",
                                                   default="propylene")  # fmt: skip
    fuel: Fuel | None = say("The fuel in fuel lines", default=None)
    air_speed: Speed = say("Speed of the air along pipes; 0: still, no fans", low=0, high=20, default=0.0)
    air_without_heat: Temperature | None = say(
        "Coldest air in places without any station heat; left out: the coldest that the snow gets at the feet of the "
        "place's roof",
        low=193.15,
        high=273.15,
        default=None,
    )
    wet_factor: Share = say(
        "How many times better wet insulation conducts, where no tight jacket keeps it dry", low=1, high=20,
        default=3.0, mark="own_rule"
    )  # fmt: skip
    joining: Share = say(
        "Pipe put in place by one person in an hour, insulation and supports included, in metres", above=0, high=100,
        default=1.5, mark="own_rule"
    )  # fmt: skip
