"""An escape hatch: its shaft now and through the years, the gap round it, the lid."""

from __future__ import annotations

from math import inf, pi

from firnstead.core.cautions import CAUTIONS
from firnstead.core.results import Check, Exposure, Step, WorkItem, check, not_checked
from firnstead.core.units import G0, YEAR, show
from firnstead.station.build import CatalogPart, Hatchway
from firnstead.station.places import Hatch
from firnstead.walls.hatch import ladder_length, rings, shaft_length, surface_rise_rate, time_to_buried
from firnstead.walls.openings import lid_depth_to_lift
from firnstead.walls.results import HatchShaft
from firnstead.walls.study_door import gap_check
from firnstead.walls.study_room import Common, Names, Room

COLLAR = 0.5  # m that a lid must stand above the snow at the end of a year (own rule)
UNTIL_VISIT = YEAR  # a shaft is lengthened every season (own rule)
PUSH = 400.0  # N that one person on a ladder can bring to the edge of a lid (own rule)
CAUTION = next(text for text in CAUTIONS if "hatch" in text)


def shaft_of(common: Common, room: Room, hatch: Hatch, kind: Hatchway) -> HatchShaft:
    """Shaft as set: what the kind's parts give, or more where the cover asks for it."""
    rate = surface_rise_rate(common.site.accumulation_mass, room.drift_factor, common.surface_density)
    needed = rings(shaft_length(room.cover, COLLAR, rate * UNTIL_VISIT), kind.extension)
    count = max(needed, kind.parts.get(kind.extension_part, 0))
    shaft = count * kind.extension
    at_end = rings(shaft_length(room.cover, COLLAR, rate * common.design.life), kind.extension)
    later = max(0, at_end - count)
    buried = time_to_buried(shaft - room.cover, rate)
    return HatchShaft(
        place=room.name, kind=hatch.kind, position=room.line.at(hatch.at), cover=room.cover, rise_rate=rate,
        shaft=shaft, rings=count, collar=shaft - room.cover, time_to_buried=None if buried == inf else buried,
        ladder=ladder_length(room.height, shaft), rings_later=later,
        ladder_later=ladder_length(room.height, shaft + later * kind.extension))  # fmt: skip


def hatch_checks(common: Common, room: Room, hatch: HatchShaft, kind: Hatchway, subject: str) -> tuple[Check, ...]:
    """Is the shaft as listed long enough until the next season, and does the gap round it stay open."""
    names: Names = {"subject": subject, "discipline": "walls", "place": room.name}
    return (_length(common, room, hatch, kind, names),
            gap_check(common, kind.slip_gap, "Gap round the hatch shaft", "walls.hatch_gap", names))  # fmt: skip


def lid_check(common: Common, name: str, kind: Hatchway) -> Check:
    """What snow on the lid one person lifts cannot be told without the lid's weight and hinge."""
    area = pi * kind.diameter**2 / 4
    deepest = lid_depth_to_lift(PUSH, common.surface_density, area, 0.0)
    steps = (
        Step("A", "(pi D^2)/4", (("D", kind.diameter, "m"),), area, "m2", "statics", "area of the lid"),
        Step("d", "(2 P)/(rho g A)", (("P", PUSH, "N"), ("rho", common.surface_density, "kg/m3"), ("g", G0, "m/s2"),
                                      ("A", area, "m2")), deepest, "m", "own_rule",
             "snow on a lid without weight, hinged at its edge, that one person still lifts"),
    )  # fmt: skip
    return not_checked(
        subject=f'Kind of hatch "{name}"', question="Lid lifted from inside with snow on it", key="walls.hatch_lid",
        discipline="walls", place="", working=steps, caution=CAUTION,
        reason="the file does not say which way the lid opens nor what it weighs; at best one person lifts "
               f"{show(deepest, 'm')} of snow")  # fmt: skip


def hatch_item(
    hatch: HatchShaft, kind: Hatchway, name: str, parts: dict[str, CatalogPart], after: tuple[str, ...]
) -> WorkItem:
    """Set the hatch with all its parts."""
    taken = {**kind.parts, kind.extension_part: hatch.rings}
    known = [(parts[part], count) for part, count in taken.items() if part in parts]
    return WorkItem(
        id=f"{hatch.place}.walls.hatch.{name}", place=hatch.place, discipline="walls", what=f"Set {name}: {kind.what}",
        quantity=1.0, unit="hatch", mass=sum(part.mass * count for part, count in known),
        volume=sum(part.volume * count for part, count in known), exposure=Exposure.OUTDOOR, after=after,
        parts=tuple((part, float(count)) for part, count in taken.items()),
        note=f"climb of {show(hatch.ladder, 'm')}, {show(hatch.ladder_later, 'm')} at the end of the design life with "
             f"{hatch.rings_later} more rings; ladder for it must be among the parts")  # fmt: skip


def _length(common: Common, room: Room, hatch: HatchShaft, kind: Hatchway, names: Names) -> Check:
    question, key = "Hatch above the snow until the next season", "walls.hatch_length"
    rise = hatch.rise_rate * UNTIL_VISIT
    needed = shaft_length(room.cover, COLLAR, rise)
    listed = kind.parts.get(kind.extension_part, 0)
    time = hatch.time_to_buried
    buried = "never buried" if time is None else f"under the snow after {show(time, 's')}"
    steps = (
        Step("r", "(c a)/rho", (("c", room.drift_factor, "1"), ("a", common.site.accumulation_mass, "kg/m2/s"),
                                ("rho", common.surface_density, "kg/m3")), hatch.rise_rate, "m/s", "statics",
             "rise of the snow over the roof, settling not taken off"),
        Step("l_n", "h + r t + h_c", (("h", room.cover, "m"), ("r", hatch.rise_rate, "m/s"), ("t", UNTIL_VISIT, "s"),
                                      ("h_c", COLLAR, "m")), needed, "m", "own_rule",
             "cover, a year's rise and our own margin for the lid"),
        Step("l", "n e", (("n", float(listed), "1"), ("e", kind.extension, "m")), listed * kind.extension, "m",
             "statics", f"rings ({kind.extension_part}) among the parts of this kind"),
    )  # fmt: skip
    if listed == 0:
        return not_checked(question=question, key=key, working=steps[:2], caution=CAUTION, **names,
                           reason=f"the parts of this kind hold no {kind.extension_part}, so its height is not known; "
                                  f"{hatch.rings} are put on the packing list")  # fmt: skip
    return check(
        question=question, key=key, demand=listed * kind.extension, limit=needed, unit="m", at_least=True,
        working=steps,
        caution=f"{CAUTION} A climb of {show(hatch.ladder, 'm')} needs a resting place and a guard against falling.",
        note=f"{buried}; {hatch.rings_later} more rings over the design life", **names)  # fmt: skip
