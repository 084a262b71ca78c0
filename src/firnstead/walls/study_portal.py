"""A portal: does the vehicle get through, the ramp, the wind on it, the wall round it."""

from __future__ import annotations

from math import cos, radians, sin

from firnstead.core.cautions import caution_for
from firnstead.core.results import Check, Step, WorkItem, check, not_checked
from firnstead.core.units import show
from firnstead.snow.drift import drift_transport_tabler
from firnstead.station.machines import Machine, Miller
from firnstead.station.places import Portal
from firnstead.walls.drift import angle_to_wind, downwind, hours_to_fill, in_drift_shadow
from firnstead.walls.face import arch_width, cut_width
from firnstead.walls.ramp import grade, headroom_at_foot, ramp_length, ramp_volume, width_for_vehicle
from firnstead.walls.results import HatchShaft, Ramp
from firnstead.walls.study_door import lintel_check
from firnstead.walls.study_room import Common, Names, Room
from firnstead.walls.study_wall import block_wall, layers_needed

SIDE_MARGIN = 0.3  # m beside a vehicle (own rule)
TOP_MARGIN = 0.1  # m above a vehicle (own rule)
BEST_ANGLE = 45.0  # deg to the storm wind, published for buildings (stehle_1969)
MOST_OFF = 22.5  # deg from it: half way to straight along or straight across (own rule)
CAUTION = caution_for("walls")
BURIED = "A portal can drift shut in one storm. Never count on it as the only way out."


def ramp_of(common: Common, room: Room, portal: Portal) -> Ramp:
    """Quantities of the ramp, of the wall round the portal and of the drift."""
    line, sense = room.line, -1.0 if portal.at == "start" else 1.0
    foot = line.at(0.0 if portal.at == "start" else line.length)
    slope = grade(portal.slope)
    length = ramp_length(room.depth, slope)
    east, north = line.direction
    volume = ramp_volume(portal.width, room.depth, length)
    angle = angle_to_wind(line.bearing, common.site.storm_wind_from)
    transport = drift_transport_tabler(common.site.storm_wind_speed)
    return Ramp(
        place=room.name, at=portal.at, depth=room.depth, grade=slope, length=length, volume=volume, foot=foot,
        top=(foot[0] + sense * east * length, foot[1] + sense * north * length), wind_angle=angle, transport=transport,
        fill_time=hours_to_fill(volume, common.surface_density, transport, _across(portal.width, length, angle)),
        wall=block_wall(common, room, portal.at, layers_needed(common, room.height), portal.width * portal.height),
    )  # fmt: skip


def portal_checks(
    common: Common, room: Room, portal: Portal, ramp: Ramp, vehicle: Machine | None, subject: str
) -> tuple[Check, ...]:
    """Size, slope, wind and the beam over the portal."""
    names: Names = {"subject": subject, "discipline": "walls", "place": room.name}
    return (
        _fits(room, portal, names),
        *(_vehicle(portal, ramp, vehicle, names) if vehicle is not None else ()),
        lintel_check(common, room, ramp.wall, portal.width, portal.height, subject),
        _angle(common, room, ramp, names),
        _fill(common, portal, ramp, names),
    )


def shelter_check(
    common: Common, room: Room, portal: Portal, ramp: Ramp, hatches: dict[str, HatchShaft], subject: str
) -> Check:
    """Does the ramp lie in the belt that drifts in behind a hatch that stands above the snow."""
    middle = ((ramp.foot[0] + ramp.top[0]) / 2, (ramp.foot[1] + ramp.top[1]) / 2)
    half = portal.width / 2
    behind = []
    for name, hatch in hatches.items():
        places = (
            downwind(point, hatch.position, common.site.storm_wind_from) for point in (ramp.foot, middle, ramp.top)
        )
        if any(in_drift_shadow(along, beside, hatch.collar, half) for along, beside in places):
            behind.append(name)
    count = float(len(behind))
    step = Step("n", "", (), count, "1", "stehle_1969",
                f"hatches with the ramp 10 to 30 heights downwind: {', '.join(behind) or 'none'}")  # fmt: skip
    return check(
        subject=subject, question="Ramp clear of the drift behind hatches", demand=count, limit=0.0, unit="1",
        key="walls.drift_belt", discipline="walls", place=room.name, working=(step,), caution=BURIED,
        ratio=0.0 if not behind else 1.0 + count,
        note="the published rule is for buildings; taken over to hatches (own rule)")  # fmt: skip


def portal_item(common: Common, portal: Portal, ramp: Ramp, name: str, miller: tuple[str, Miller]) -> WorkItem:
    """Cut the ramp."""
    machine_name, machine = miller
    hours = ramp.volume / machine.output / 3600 / common.season.turning_share
    return WorkItem(
        id=f"{ramp.place}.walls.ramp.{ramp.at}", place=ramp.place, discipline="walls", what=f"Cut the ramp of {name}",
        quantity=ramp.volume, unit="m3", volume=ramp.volume, machine=machine_name, people=machine.operators,
        hours=hours,
        note=f"machine hours at the stated output; ramp {show(ramp.length, 'm')} long")  # fmt: skip


def _across(width: float, length: float, angle: float) -> float:
    """Width of a ramp across the wind [m]."""
    return length * sin(radians(angle)) + width * cos(radians(angle))


def _fits(room: Room, portal: Portal, names: Names) -> Check:
    under_feet = min(portal.height, room.wall_height)
    clear = cut_width(under_feet, room.floor_width, room.top_width, room.wall_height, room.undercut_height)
    if portal.height > room.wall_height:
        clear = min(clear, arch_width(portal.height - room.wall_height, room.span, room.rise))
    step = Step("b", "", (("h_o", portal.height, "m"), ("b_f", room.floor_width, "m"), ("b_t", room.top_width, "m"),
                          ("h", room.wall_height, "m"), ("L", room.span, "m"), ("f", room.rise, "m")), clear, "m",
                "statics", "width of the cut, or of the roof's inner line, at the portal's head")  # fmt: skip
    return check(question="Portal within the cut and under the roof", key="walls.portal_fits", demand=portal.width,
                 limit=clear, unit="m", working=(step,), caution=CAUTION, **names)  # fmt: skip


def _vehicle(portal: Portal, ramp: Ramp, vehicle: Machine, names: Names) -> tuple[Check, ...]:
    wide = width_for_vehicle(vehicle.width, SIDE_MARGIN)
    high = headroom_at_foot(vehicle.height, vehicle.track_length, ramp.grade, TOP_MARGIN)
    slope = Step(
        "s", "tan(alpha pi/180)", (("alpha", portal.slope, "deg"),), ramp.grade, "1", "statics", "grade of the ramp"
    )
    return (
        check(question=f"Clear width for {portal.vehicle}", key="walls.portal_width", demand=wide, limit=portal.width,
              unit="m", caution=CAUTION, **names,
              working=(Step("w", "b + 2 c", (("b", vehicle.width, "m"), ("c", SIDE_MARGIN, "m")), wide, "m", "own_rule",
                            "vehicle and our own margin c on each side"),)),
        check(question=f"Headroom for {portal.vehicle} where the ramp ends", key="walls.portal_height", demand=high,
              limit=portal.height, unit="m", caution=CAUTION, note="sleds and loads higher than the vehicle need more",
              working=(slope, Step("H", "h + (l s)/4 + c", (
                  ("h", vehicle.height, "m"), ("l", vehicle.track_length, "m"), ("s", ramp.grade, "1"),
                  ("c", TOP_MARGIN, "m")), high, "m", "own_rule",
                  "the kink lifts the vehicle's middle; c is our own margin")), **names),
        not_checked(question=f"Slope of the ramp for {portal.vehicle}", key="walls.ramp_grade", unit="1",
                    demand=ramp.grade, working=(slope,), caution=CAUTION, **names,
                    reason="the file gives no climbing limit for this machine on snow, loaded or towing"),
    )  # fmt: skip


def _angle(common: Common, room: Room, ramp: Ramp, names: Names) -> Check:
    off = abs(ramp.wind_angle - BEST_ANGLE)
    steps = (
        Step("a", "", (("beta", room.line.bearing, "deg"), ("w", common.site.storm_wind_from, "deg")), ramp.wind_angle,
             "deg", "statics", "angle between the axis and the storm wind, folded into 0 to 90 degrees"),
        Step("delta", "abs(a - a_0)", (("a", ramp.wind_angle, "deg"), ("a_0", BEST_ANGLE, "deg")), off, "deg",
             "stehle_1969", "off the angle that the published rule wants for buildings"),
    )  # fmt: skip
    return check(
        question="Ramp's angle to the storm wind, off 45 degrees", key="walls.wind_angle", demand=off, limit=MOST_OFF,
        unit="deg", working=steps, sources=("own_rule",), caution=BURIED, **names,
        note="rule for buildings taken over to ramps, and its tolerance, are our own")  # fmt: skip


def _fill(common: Common, portal: Portal, ramp: Ramp, names: Names) -> Check:
    speed, density = common.site.storm_wind_speed, common.surface_density
    across = _across(portal.width, ramp.length, ramp.wind_angle)
    steps = (
        Step("l", "d/s", (("d", ramp.depth, "m"), ("s", ramp.grade, "1")), ramp.length, "m", "statics",
             "length on plan"),
        Step("V", "(b d l)/2", (("b", portal.width, "m"), ("d", ramp.depth, "m"), ("l", ramp.length, "m")), ramp.volume,
             "m3", "statics", "hollow of the ramp"),
        Step("Q", "U^3.8/233847", (("U", speed, "m/s"),), ramp.transport, "kg/m/s", "tabler_drift",
             "snow in the lowest 5 m over a metre across the wind"),
        Step("c", "l sin(a pi/180) + b cos(a pi/180)", (("l", ramp.length, "m"), ("a", ramp.wind_angle, "deg"),
                                                        ("b", portal.width, "m")), across, "m", "statics",
             "width of the ramp across the wind"),
        Step("t", "(rho V)/(Q c)", (("rho", density, "kg/m3"), ("V", ramp.volume, "m3"),
                                    ("Q", ramp.transport, "kg/m/s"), ("c", across, "m")), ramp.fill_time, "s",
             "statics", "shortest time, if the ramp caught all that blows over it"),
    )  # fmt: skip
    return not_checked(
        question="Ramp drifting full in a storm", key="walls.ramp_drift", working=steps, caution=BURIED, **names,
        reason="hollows fill to grade and no published rule says how fast; if all blowing snow were caught, after "
               f"{show(ramp.fill_time, 's')} of this wind")  # fmt: skip
