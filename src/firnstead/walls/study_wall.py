"""A wall of snow blocks: quantities, stability in the storm wind, work."""

from __future__ import annotations

from typing import Any

import numpy as np

from firnstead.core.cautions import caution_for
from firnstead.core.results import Check, Exposure, Step, WorkItem, check, not_checked
from firnstead.core.units import G0
from firnstead.snow import SnowResult
from firnstead.snow.strength import compressive_strength_band, tensile_strength_band
from firnstead.walls.blocks import (
    block_count,
    blocks_mass,
    blocks_to_quarry,
    pieces_along,
    quarry_area,
    quarry_volume,
)
from firnstead.walls.face import course_widths, face_area
from firnstead.walls.results import BlockWall
from firnstead.walls.stability import (
    base_stress,
    base_tension_bonded,
    overturning_factor,
    overturning_moment,
    sliding_factor,
    thickness_no_tension,
    thickness_overturning,
    wall_weight,
)
from firnstead.walls.study_room import Common, Names, Room
from firnstead.walls.wind import AIR_GAS_CONSTANT, SEA_LEVEL_PRESSURE, air_density, air_pressure_standard, wind_pressure

JOINT = 0.01  # m between blocks, chinked with loose snow (own rule)
QUARRY_DEPTH = 1.2  # m: a pit out of which people still lift blocks (own rule)
WIND_COEFFICIENT = 1.3  # windward and lee side of a wall that stands free (own rule)
USUAL_TIME = 2.0 * 86400  # s: a snow-block end wall takes about two days (common practice, no source)
MOST_TIMES_OFF = 4.0  # from the usual before the stated output is doubted (own rule)
CAUTION = caution_for("walls")


def pressure_of(common: Common) -> float:
    """Storm wind on a wall at the height of the station [Pa]."""
    air = air_density(air_pressure_standard(common.site.elevation), common.site.mean_temperature)
    return wind_pressure(air, common.site.storm_wind_speed, WIND_COEFFICIENT)


def layers_needed(common: Common, height: float) -> int:
    """Fewest layers with which a free wall of this height stands, joints closed, no bond."""
    p, rho, design = pressure_of(common), common.blocks.density, common.design
    sliding = design.overturning_factor * p / (design.friction * rho * G0)
    tipping = thickness_overturning(p, height, rho, design.overturning_factor)
    return pieces_along(max(thickness_no_tension(p, height, rho), tipping, sliding), common.blocks.thickness, JOINT)


def block_wall(common: Common, room: Room, at: str, layers: int, opening_area: float) -> BlockWall:
    """Quantities and stability of one wall."""
    b, hand = common.blocks, common.hand_work
    height, thickness = room.height, layers * b.thickness + (layers - 1) * JOINT
    courses = course_widths(*room.shape, b.height + JOINT)
    blocks = block_count(courses, opening_area, b.length, b.height, layers, JOINT)
    cut = blocks_to_quarry(blocks, b.waste)
    volume = quarry_volume(cut, b.length, b.height, b.thickness, b.saw_cut, 0.0)
    person_hours = cut / hand.quarrying + blocks / hand.laying
    p = pressure_of(common)
    weight, moment = wall_weight(b.density, thickness, height), overturning_moment(p, height)
    return BlockWall(
        place=room.name, at=at, height=height, area=face_area(*room.shape), opening_area=opening_area, layers=layers,
        thickness=thickness, courses=len(courses), blocks=blocks, blocks_cut=cut,
        block_mass=blocks_mass(1, b.length, b.height, b.thickness, b.density),
        mass=blocks_mass(blocks, b.length, b.height, b.thickness, b.density), quarry_volume=volume,
        quarry_area=quarry_area(volume, QUARRY_DEPTH), person_hours=person_hours,
        build_time=86400 * person_hours / (common.people * common.season.shift_length * common.season.shifts_per_day),
        wind_pressure=p, overturning=overturning_factor(weight, thickness, moment),
        sliding=sliding_factor(common.design.friction, weight, p, height),
        no_tension=thickness_no_tension(p, height, b.density), base_pressure=base_stress(weight, thickness, moment),
        bonded_tension=base_tension_bonded(weight, thickness, moment))  # fmt: skip


def wall_checks(common: Common, room: Room, wall: BlockWall, subject: str, layers: str) -> tuple[Check, ...]:
    """Does it stand before and after bonding, and is it built in about the usual time; `layers` says who chose them."""
    rho, design = common.blocks.density, common.design
    size, load = _size(common, room, wall, layers), _load(common, wall)
    weight, moment = _weight(common, wall), _moment(wall)
    free = (*size, *load, weight, moment)
    names: Names = {"subject": subject, "discipline": "walls", "place": room.name, "caution": CAUTION}
    wind_note = (
        "the file's storm wind on the whole height, though part is sheltered in the cut; gusts are not added to it"
    )
    crushing = compressive_strength_band(rho).low
    return (
        check(question="Overturning in the storm wind, before bonding", key="walls.overturning", unit="1",
              demand=wall.overturning, limit=design.overturning_factor, at_least=True, note=wind_note, **names,
              working=(*free, Step("F", "(W t)/(2 M)", (_w(weight), _t(wall), _m(moment)), wall.overturning, "1",
                                   "statics", "factor about the lee edge"))),
        check(question="Joints pressed together in the storm wind, before bonding", key="walls.open_joints", unit="m",
              demand=wall.no_tension, limit=wall.thickness, note=wind_note, **names,
              working=(*size, *load, Step("t_0", "sqrt((3 p h)/(rho g))", (_p(wall), _h(wall), *_rho_g(common)),
                                          wall.no_tension, "m", "statics", "thickness at which no joint opens"))),
        check(question="Sliding in the storm wind, before bonding", key="walls.sliding", unit="1",
              demand=wall.sliding, limit=design.overturning_factor, at_least=True, note=wind_note, **names,
              working=(*size, *load, weight,
                       Step("F", "(mu W)/(p h)", (("mu", design.friction, "1"), _w(weight), _p(wall), _h(wall)),
                            wall.sliding, "1", "statics", "factor on the base and on every joint"))),
        check(question="Pressure under the wall, before bonding", key="walls.base_pressure", unit="Pa",
              demand=wall.base_pressure, limit=crushing / design.snow_factor, **names,
              note="short-term strength of well-bonded snow; the wall goes on settling",
              working=(*free, _pressure_step(wall, weight, moment),
                       *_strength(common, 'sigma_"c"', 3000e3, 3.0, crushing, "mellor_1975"))),
        _bonded(common, wall, names,
                (*free, Step("sigma", "max(0, (6 M)/t^2 - W/t)", (_m(moment), _t(wall), _w(weight)),
                             wall.bonded_tension, "Pa", "statics", "edge stress of a bonded joint"))),
        _time(common, wall, names),
        not_checked(question="Snow closing in on the wall from the trench and from outside", key="walls.closing",
                    reason="no sideways pressure of snow on such a wall is published",
                    **names),
    )  # fmt: skip


def _bonded(common: Common, wall: BlockWall, names: Names, free: tuple[Step, ...]) -> Check:
    """Tension at the foot after bonding: fails beyond the snow's own strength, holds only where there is none."""
    tension = tensile_strength_band(common.blocks.density).low
    limit = tension / common.design.snow_factor
    shared: dict[str, Any] = {
        "question": "Tension at the foot, after bonding", "key": "walls.bonded_tension", "unit": "Pa",
        "demand": wall.bonded_tension, "limit": limit, **names,
        "working": (*free, *_strength(common, 'sigma_"t"', 58.3e3, 2.65, tension, "jamieson_johnston_1990")),
    }  # fmt: skip
    if 0.0 < wall.bonded_tension <= limit:
        return not_checked(
            reason="how much of the snow's strength a joint reaches, and when, is not published", **shared
        )
    return check(note="limit: strength of the snow itself, low end; no joint is stronger", **shared)


def density_check(common: Common, snow: SnowResult, deepest: float) -> Check:
    """Does snow as dense as the blocks lie within reach of the cuts."""
    wanted, column = common.blocks.density, snow.column
    names: Names = {"subject": "Snow blocks", "question": "Depth of snow as dense as the blocks",
                    "key": "walls.block_density", "discipline": "walls", "place": "", "caution": CAUTION}  # fmt: skip
    reached = column.density >= wanted
    if not reached.any():
        return not_checked(reason=f"the snow column holds no snow of {wanted:.0f} kg/m3", **names)
    below = int(reached.argmax())
    depth = float(column.depth[0])
    if below > 0:
        depth = float(np.interp(wanted, column.density[below - 1 : below + 1], column.depth[below - 1 : below + 1]))
    steps = (
        Step("z", "", (("rho", wanted, "kg/m3"),), depth, "m", "statics", "read off the site's density against depth"),
        Step("d", "", (), deepest, "m", "statics", "deepest floor of the station, where blocks can still be quarried"),
    )
    return check(demand=depth, limit=deepest, unit="m", working=steps, **names,
                 note="blocks from nearer the surface are lighter, and a wall of them stands less firmly")  # fmt: skip


def wall_items(common: Common, wall: BlockWall, what: str, after: tuple[str, ...]) -> tuple[WorkItem, ...]:
    """Quarry the blocks, then build the wall."""
    hand, b = common.hand_work, common.blocks
    quarry = f"{wall.place}.walls.quarry.{wall.at}"
    shared: dict[str, Any] = {
        "place": wall.place,
        "discipline": "walls",
        "unit": "blocks",
        "crew": common.crew,
        "people": common.people,
    }
    lift = "" if wall.block_mass <= 25 else f"one block is {wall.block_mass:.0f} kg: two people lift, or a machine"
    return (
        WorkItem(id=quarry, what=f"Quarry blocks for {what}", quantity=wall.blocks_cut, volume=wall.quarry_volume,
                 hours=wall.blocks_cut / hand.quarrying / common.people, note=lift, **shared),
        WorkItem(id=f"{wall.place}.walls.build.{wall.at}", what=f"Build {what}, {wall.layers} layers",
                 quantity=wall.blocks, hours=wall.blocks / hand.laying / common.people, after=(quarry, *after),
                 exposure=Exposure.OUTDOOR, note=f"bonded after {b.bonding_time / 3600:.0f} h", **shared),
    )  # fmt: skip


def _time(common: Common, wall: BlockWall, names: Names) -> Check:
    b, season = common.blocks, common.season
    steps = (
        Step("A", "", (("h", wall.height, "m"),), wall.area, "m2", "statics", "face of the cut and under the roof"),
        Step("n", "", (("A", wall.area, "m2"), ("A_o", wall.opening_area, "m2"), ("l", b.length, "m"),
                       ("h_b", b.height, "m"), ("j", JOINT, "m"), ("k", float(wall.layers), "1")),
             float(wall.blocks), "1", "statics", f"{wall.courses} courses, whole blocks, opening taken off"),
        Step("n_c", "", (("n", float(wall.blocks), "1"), ("w", b.waste, "1")), float(wall.blocks_cut), "1", "statics",
             "n/(1 - w), rounded up"),
        Step("P", "n_c/q + n/l", (("n_c", float(wall.blocks_cut), "1"), ("q", common.hand_work.quarrying, "1/h"),
                                  ("n", float(wall.blocks), "1"), ("l", common.hand_work.laying, "1/h")),
             wall.person_hours, "h", "statics", "person-hours at the stated output"),
        Step("D", "86400 P/(k s_h s_n)", (("P", wall.person_hours, "h"), ("k", float(common.people), "1"),
                                    ("s_h", season.shift_length, "h/day"), ("s_n", float(season.shifts_per_day), "1")),
             wall.build_time, "s", "statics", f"one crew of {common.people} on every shift"),
    )  # fmt: skip
    quick = "; quicker than usual, doubt the stated output" if wall.build_time < USUAL_TIME / MOST_TIMES_OFF else ""
    return check(
        question="Days to build, against the usual two", key="walls.build_time", unit="s",
        demand=wall.build_time, limit=USUAL_TIME * MOST_TIMES_OFF, working=steps,
        sources=("common_practice", "own_rule"),
        note=f"the trade says about two days; the limit is {MOST_TIMES_OFF:.0f} times that{quick}",
        **names)  # fmt: skip


def _size(common: Common, room: Room, wall: BlockWall, layers: str) -> tuple[Step, ...]:
    return (
        Step("h", "d - d_b + f", (("d", room.depth, "m"), ("d_b", room.bench_depth, "m"), ("f", room.rise, "m")),
             wall.height, "m", "statics", "height from the floor to the crown"),
        Step("t", "k b + (k - 1) j", (("k", float(wall.layers), "1"), ("b", common.blocks.thickness, "m"),
                                      ("j", JOINT, "m")), wall.thickness, "m", "statics",
             f"thickness with joints, {layers}"),
    )  # fmt: skip


def _load(common: Common, wall: BlockWall) -> tuple[Step, ...]:
    site = common.site
    pressure = air_pressure_standard(site.elevation)
    density = air_density(pressure, site.mean_temperature)
    return (
        Step("p_a", "p_0 (1 - (L z)/T_0)^(g/(R L))",
             (("p_0", SEA_LEVEL_PRESSURE, "Pa"), ("L", 0.0065, "K/m"), ("z", site.elevation, "m"),
              ("T_0", 288.15, "K"), ("g", G0, "m/s2"), ("R", AIR_GAS_CONSTANT, "J/kg/K")),
             pressure, "Pa", "standard_atmosphere", "air pressure"),
        Step("rho_a", "p_a/(R T)", (("p_a", pressure, "Pa"), ("R", AIR_GAS_CONSTANT, "J/kg/K"),
                                    ("T", site.mean_temperature, "K")), density, "kg/m3", "textbook_unchecked",
             "density of the air"),
        Step("p", "1/2 c rho_a v^2", (("c", WIND_COEFFICIENT, "1"), ("rho_a", density, "kg/m3"),
                                      ("v", site.storm_wind_speed, "m/s")), wall.wind_pressure, "Pa", "own_rule",
             "storm wind, with our own pressure coefficient c"),
    )  # fmt: skip


def _weight(common: Common, wall: BlockWall) -> Step:
    value = wall_weight(common.blocks.density, wall.thickness, wall.height)
    return Step("W", "rho g t h", (*_rho_g(common), _t(wall), _h(wall)), value, "N/m", "statics", "weight of the wall")


def _moment(wall: BlockWall) -> Step:
    value = overturning_moment(wall.wind_pressure, wall.height)
    return Step("M", "(p h^2)/2", (_p(wall), _h(wall)), value, "N", "statics", "moment about the foot, per metre")


def _pressure_step(wall: BlockWall, weight: Step, moment: Step) -> Step:
    eccentricity = moment.value / weight.value
    inputs = (_w(weight), _t(wall), _m(moment))
    if eccentricity >= wall.thickness / 2:
        formula, how = "", "the resultant leaves the base: the wall tips"
    elif eccentricity <= wall.thickness / 6:
        formula, how = "W/t (1 + (6 M)/(W t))", "edge pressure, whole base pressed"
    else:
        formula, how = "(2 W)/(3 (t/2 - M/W))", "edge pressure, part of the base open"
    return Step("sigma", formula, inputs, wall.base_pressure, "Pa", "statics", how)


def _strength(common: Common, symbol: str, scale: float, power: float, value: float, source: str) -> tuple[Step, ...]:
    factor = common.design.snow_factor
    return (
        Step(symbol, 'C (rho/rho_"i")^n', (("C", scale, "Pa"), ("rho", common.blocks.density, "kg/m3"),
                                           ('rho_"i"', 917.0, "kg/m3"), ("n", power, "1")), value, "Pa", source,
             "low end of the strength band"),
        Step('sigma_"lim"', f"{symbol}/F_s", ((symbol, value, "Pa"), ("F_s", factor, "1")), value / factor, "Pa",
             "statics", "with the factor on the strength of snow"),
    )  # fmt: skip


def _rho_g(common: Common) -> tuple[tuple[str, float, str], tuple[str, float, str]]:
    return ("rho", common.blocks.density, "kg/m3"), ("g", G0, "m/s2")


def _w(step: Step) -> tuple[str, float, str]:
    return "W", step.value, "N/m"


def _m(step: Step) -> tuple[str, float, str]:
    return "M", step.value, "N"


def _t(wall: BlockWall) -> tuple[str, float, str]:
    return "t", wall.thickness, "m"


def _h(wall: BlockWall) -> tuple[str, float, str]:
    return "h", wall.height, "m"


def _p(wall: BlockWall) -> tuple[str, float, str]:
    return "p", wall.wind_pressure, "Pa"
