"""Machines, hand work and means of transport."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from firnstead.station.fields import (
    Density,
    FlowRate,
    Length,
    Mass,
    Part,
    Share,
    Stress,
    Time,
    Volume,
    say,
)


class _Machine(Part):
    count: int = say("How many of them", low=1, high=20, default=1)
    mass: Mass = say("Mass ready for work", above=0, high=200000)
    length: Length = say("Length for shipping", above=0, high=30)
    width: Length = say("Width for shipping", above=0, high=10)
    height: Length = say("Height for shipping", above=0, high=10)
    ground_pressure: Stress = say("Mean pressure under tracks or wheels", above=0, high=500000)
    track_length: Length = say("Length of a track (or of the contact patch) on the snow", above=0, high=10)
    track_width: Length = say("Width of one track (or of the contact patch)", above=0, high=3)
    operators: int = say("People who run it", low=0, high=10, default=1)


class Miller(_Machine):
    """A rotary snow miller that cuts, disaggregates and throws snow."""

    kind: Literal["miller"] = "miller"
    cut_width: Length = say("Width of one cut", above=0.2, high=6)
    pass_depth: Length = say("Depth of one pass", above=0.1, high=4)
    sideways_reach: Length = say("How far one pass can be set sideways under the wall above it", low=0, high=2)
    output: FlowRate = say("Snow cut per hour, measured in place", above=0, high=1.0)
    output_density: Density = say("Density of the snow at which that output is stated", low=200, high=700)
    cast_height: Length = say("Greatest height from the cut's floor to which it throws over the edge", above=0, high=30)
    cast_distance: Length = say("Greatest distance to which it throws", above=0, high=100)
    altitude_loss: Share = say(
        "Share of engine power lost per 1,000 m of altitude (maker's figure)",
        low=0,
        high=0.3,
        default=0.1,
        mark="own_rule",
    )
    turning_time: Time = say("Time to turn or back up for the next run", low=0, high=7200)
    moving_time: Time = say("Time to move to the next trench and set out", low=0, high=86400)


class Carrier(_Machine):
    """A tractor, bulldozer, lift or any machine that does not cut."""

    kind: Literal["tractor", "dozer", "lift", "loader"]
    note: str = say("What it is for", default="")


Machine = Annotated[Miller | Carrier, Field(discriminator="kind")]


class HandWork(Part):
    """Output of people with saws and shovels."""

    excavation: FlowRate = say("Snow cut out and carried away by one person in an hour", above=0, high=5 / 3600)
    quarrying: Share = say("Snow blocks quarried by one person in an hour", above=0, high=100)
    laying: Share = say("Snow blocks laid by one person in an hour", above=0, high=100)
    planks: Share = say("Planks laid and levelled by one person in an hour", above=0, high=100)
    arches: Share = say("Arch sheets put up and fastened by one person in an hour", above=0, high=100)


class Blocks(Part):
    """Snow blocks for end walls."""

    length: Length = say("Length of a block", low=0.1, high=2)
    height: Length = say("Height of a block", low=0.05, high=1)
    thickness: Length = say("Thickness of a block, which is that of a one-block wall", low=0.1, high=1.5)
    density: Density = say("Density of the snow they are cut from", low=300, high=700)
    waste: Share = say("Share of quarried blocks that break or do not fit", low=0, high=0.8)
    saw_cut: Length = say("Width of the saw cut between blocks", low=0, high=0.1, default=0.01, mark="own_rule")
    bonding_time: Time = say("Time before joints count as bonded", low=0, high=30 * 86400)


class Transport(Part):
    """A way to bring cargo: one trip's limits."""

    kind: Literal["sled train", "aircraft"]
    payload: Mass = say("Payload of one trip", above=0, high=1e6)
    volume: Volume = say("Loading space of one trip", above=0, high=5000)
    longest: Length = say("Longest piece it takes", above=0, high=40)
    widest: Length = say("Widest piece it takes", above=0, high=10, default=3.0, mark="own_rule")
    highest: Length = say("Highest piece it takes", above=0, high=10, default=3.0, mark="own_rule")
    heaviest: Mass = say("Heaviest piece it takes", above=0, high=200000)
    trips: int = say("Trips planned in the season", low=0, high=500)
    note: str = say("Remark", default="")
