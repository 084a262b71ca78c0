"""A doorway in a wall of snow blocks: the gap round its frame, the beam over it, the snow against it."""

from __future__ import annotations

from math import ceil

from firnstead.core.cautions import caution_for
from firnstead.core.results import Check, Exposure, Step, WorkItem, check, not_checked
from firnstead.core.units import G0, show
from firnstead.snow.strength import compressive_strength_band
from firnstead.station.build import EndWallOpening
from firnstead.walls.openings import bending_stress, drift_depth_to_push, lintel_moment, movement, snow_force_on_door
from firnstead.walls.results import BlockWall
from firnstead.walls.study_room import Common, Names, Room

PUSH = 300.0  # N that one person can bring to the edge of a door (own rule)
LEAF_MASS = 30.0  # kg/m2 of an insulated leaf with its frame (own rule)
LEAST_PLANKS = 2  # in a beam over an opening (own rule)
LEAST_BEARING = 0.15  # m of a beam on the snow at each end (own rule)
LEAF_THICKNESS = 0.15  # m, packed (own rule)
CAUTION = caution_for("walls")
TRAPPED = "A jammed frame traps people. Every room needs a second way out that opens inward or upward."


def opening_area(width: float, height: float, gap: float) -> float:
    """Area taken out of the wall: frame and the gap at both sides and above [m2]."""
    return (width + 2 * gap) * (height + gap)


def door_checks(common: Common, room: Room, wall: BlockWall, door: EndWallOpening, subject: str) -> tuple[Check, ...]:
    """Does the frame keep clear, does the beam over it hold, can it be opened."""
    names: Names = {"subject": subject, "discipline": "walls", "place": room.name}
    beam = lintel_check(common, room, wall, door.width, door.height, subject)
    return (gap_check(common, door.slip_gap, "Gap round the door frame", "walls.door_gap", names), beam,
            *_opens(common, door, names))  # fmt: skip


def gap_check(common: Common, gap: float, question: str, key: str, names: Names) -> Check:
    """Is a gap wide enough for what the snow moves over the design life."""
    rate, life = common.design.wall_movement, common.design.life
    if rate is None:
        return not_checked(question=question, key=key, caution=TRAPPED, unit="m", limit=gap, **names,
                           reason="the file gives no wall_movement for end walls (the closure forecast is for the "
                                  "middle of a trench)")  # fmt: skip
    moved = movement(rate, life)
    step = Step("u", "v t", (("v", rate, "m/s"), ("t", life, "s")), moved, "m", "statics",
                "movement of the wall over the design life, as allowed for in the file")  # fmt: skip
    left = f"used up after {show(gap / rate, 's')}" if rate > 0 else "never used up"
    return check(question=question, key=key, demand=moved, limit=gap, unit="m", working=(step,), caution=TRAPPED,
                 note=f"{left} at the rate in the file; look at it every season and cut it free", **names)  # fmt: skip


def lintel_check(common: Common, room: Room, wall: BlockWall, width: float, height: float, subject: str) -> Check:
    """How many of the roof's planks, on edge and side by side, carry the wall over an opening."""
    names: Names = {"subject": subject, "discipline": "walls", "place": room.name, "key": "walls.lintel"}
    names |= {"question": "Roof planks on edge needed over the opening, against those that fit",
              "caution": f"{CAUTION} Snow beams creep within days: no flat opening without timber or steel.",
              "sources": ("nds_supplement", "stearns_1957")}  # fmt: skip
    above, load, moment = _over(common, wall, width, height)
    steps: tuple[Step, ...] = (
        Step("h_a", "max(0, h - h_o)", (("h", wall.height, "m"), ("h_o", height, "m")), above, "m", "statics",
             "wall above the opening"),
        Step("w", "rho g t h_a", (("rho", common.blocks.density, "kg/m3"), ("g", G0, "m/s2"),
                                  ("t", wall.thickness, "m"), ("h_a", above, "m")), load, "N/m", "statics",
             "all of it counted, no arching"),
        Step("M", "(w b^2)/8", (("w", load, "N/m"), ("b", width, "m")), moment, "N m", "statics", "bending over it"),
    )  # fmt: skip
    plank = room.plank
    if plank is None:
        return not_checked(
            reason=f"the roof has no planks; a beam must carry {show(moment, 'N m')}", working=steps, **names
        )
    needed = _plank_length(common, wall, load, width)
    if needed > plank.length:
        return not_checked(
            reason=f"the roof's planks are too short, {show(plank.length, 'm')} against {show(needed, 'm')} with their "
                   "bearing; the file names no other beam", working=steps, **names)  # fmt: skip
    one, count = bending_stress(moment, plank.thickness, plank.width), beam_planks(common, room, wall, width, height)
    fit = int(wall.thickness / plank.thickness)
    timber = (("t_p", plank.thickness, "m"), ("d_p", plank.width, "m"))
    steps = (
        *steps,
        Step("sigma_1", "(6 M)/(t_p d_p^2)", (("M", moment, "N m"), *timber), one, "Pa", "statics",
             "bending stress if one plank on edge carried all"),
        Step("n", "", (("sigma_1", one, "Pa"), ("f", plank.bending_strength, "Pa")), float(count), "1", "statics",
             f"planks needed: sigma_1/f rounded up, at least {LEAST_PLANKS}"),
        Step("n_m", "", (("t", wall.thickness, "m"), timber[0]), float(fit), "1", "statics",
             "planks that fit side by side through the wall: t/t_p rounded down"),
    )  # fmt: skip
    note = "planks side by side, fastened together; boards across them spread the weight of the blocks"
    return check(demand=float(count), limit=float(fit), unit="1", working=steps, note=note, **names)


def beam_planks(common: Common, room: Room, wall: BlockWall, width: float, height: float) -> int:
    """Planks in the beam over an opening; 0 where the roof has none that reach."""
    _, load, moment = _over(common, wall, width, height)
    plank = room.plank
    if plank is None or _plank_length(common, wall, load, width) > plank.length:
        return 0
    one = bending_stress(moment, plank.thickness, plank.width)
    return max(LEAST_PLANKS, ceil(one / plank.bending_strength))


def beam_items(
    common: Common, room: Room, wall: BlockWall, width: float, height: float, name: str
) -> tuple[WorkItem, ...]:
    """The planks over an opening, taken from the kind that the roof stands on."""
    count, plank = beam_planks(common, room, wall, width, height), room.plank
    if plank is None or count == 0:
        return ()
    volume = count * plank.width * plank.thickness * plank.length
    return (
        WorkItem(
            id=f"{wall.place}.walls.beam.{wall.at}", place=wall.place, discipline="walls", quantity=float(count),
            what=f"Planks over the opening in {name}", unit="planks", mass=volume * plank.density, volume=volume,
            parts=((f"plank {room.roof}", float(count)),), after=(f"{wall.place}.walls.quarry.{wall.at}",),
            note="set while the wall is built"),
    )  # fmt: skip


def _over(common: Common, wall: BlockWall, width: float, height: float) -> tuple[float, float, float]:
    """Height of wall above an opening, its weight per metre of width, bending over it."""
    above = max(0.0, wall.height - height)
    load = common.blocks.density * G0 * wall.thickness * above
    return above, load, lintel_moment(load, width)


def _plank_length(common: Common, wall: BlockWall, load: float, width: float) -> float:
    """Opening and the bearing on the snow at both ends [m]."""
    crushing = compressive_strength_band(common.blocks.density).low / common.design.snow_factor
    return width + max(2 * LEAST_BEARING, load * width / (wall.thickness * crushing))


def door_item(wall: BlockWall, door: EndWallOpening, name: str, after: str) -> WorkItem:
    """Set the frame and hang the leaf."""
    area = door.width * door.height
    part = f"door {door.width:.2f} x {door.height:.2f} m"
    return WorkItem(
        id=f"{wall.place}.walls.door.{wall.at}", place=wall.place, discipline="walls", what=f"Set the door of {name}",
        quantity=1.0, unit="door", mass=LEAF_MASS * area, volume=LEAF_THICKNESS * area, after=(after,),
        exposure=Exposure.OUTDOOR, parts=((part, 1.0),),
        note=f"leaf {LEAF_MASS:.0f} kg/m2, {LEAF_THICKNESS:.2f} m packed: own rule, unless {part!r} is a part",
    )  # fmt: skip


def _opens(common: Common, door: EndWallOpening, names: Names) -> tuple[Check, ...]:
    """An outward leaf is held by drift; an inward one is not."""
    if door.opens == "none":
        return ()
    question, key = "Door opened from inside against drift", "walls.door_opens"
    density = common.surface_density
    deepest = drift_depth_to_push(PUSH, density, door.width)
    steps: tuple[Step, ...] = (
        Step("d", "sqrt((4 P)/(K rho g b))", (("P", PUSH, "N"), ("K", 1.0, "1"), ("rho", density, "kg/m3"),
                                              ("g", G0, "m/s2"), ("b", door.width, "m")), deepest, "m", "own_rule",
             "drift that one person still pushes away; pressure as of a liquid, K is not published"),
    )  # fmt: skip
    if door.opens == "inward":
        step = Step("d", "", (), 0.0, "m", "own_rule", "an inward leaf is not held by the drift outside")
        return (check(question=question, key=key, demand=0.0, limit=door.height, unit="m", working=(step,),
                      caution=TRAPPED, **names,
                      note="snow falls in when it opens; the leaf under the drift is not checked"),)  # fmt: skip
    force = snow_force_on_door(density, door.height, door.width)
    steps = (*steps, Step("F", "(K rho g h^2 b)/2", (("K", 1.0, "1"), ("rho", density, "kg/m3"), ("g", G0, "m/s2"),
                                                     ("h", door.height, "m"), ("b", door.width, "m")), force, "N",
                          "own_rule", "on the leaf when the drift reaches its head"))  # fmt: skip
    return (check(question=question, key=key, demand=door.height, limit=deepest, unit="m", working=steps,
                  caution=TRAPPED, **names,
                  note="a hollow fills to grade, so drift may reach the door's head; let it open inward"),)  # fmt: skip
