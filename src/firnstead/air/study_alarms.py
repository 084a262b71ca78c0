"""Checks of detectors: where they hang, at what they sound, in what cold they work; and of the air pressure."""

from __future__ import annotations

from firnstead.air.properties import altitude_of_pressure, oxygen_pressure, oxygen_share_felt, pressure_standard
from firnstead.air.study_facts import NAMES, Facts, Names
from firnstead.core.results import WHOLE, Check, Step, check, not_checked
from firnstead.core.units import show

ALARM_CAUTION = (
    "Carbon monoxide kills without smell, and the sleeping do not wake from it. Test every detector with gas, at the "
    "temperature it hangs in; a green lamp only says that it has power."
)
GASES_OF_ENGINES = "co"


def alarm_checks(f: Facts) -> tuple[Check, ...]:
    """Set points, cold and cover of the detectors."""
    found = [c for name in f.air.alarms for c in (_set_point(f, name), _cold(f, name)) if c is not None]
    return (*_cover(f), *found)


def _set_point(f: Facts, name: str) -> Check:
    a = f.air.alarms[name]
    names: Names = {"subject": f'Detector "{name}"', "question": "Set point against the limits", "key": "air.alarm",
             "discipline": "air", "place": f.place_of(a.where), "caution": ALARM_CAUTION}  # fmt: skip
    limits = {label: limit for label, limit in f.limits.items() if limit.gas == a.gas}
    if not limits:
        return not_checked(reason=f"no limit of {NAMES[a.gas]} is chosen in the file", **names)
    low = a.gas == "oxygen"
    order = sorted(limits.items(), key=lambda one: one[1].value, reverse=low)
    if a.action == "leave":  # at the latest where the limit that is never to be passed lies
        never = [one for one in order if one[1].over < 3600]
        order = never or order
    label, limit = order[0]
    scale, unit = (100.0, "%") if low else (1e6, "ppm")
    steps = (
        Step("S", f"{scale:.0f} s", (("s", a.set_point, "1"),), scale * a.set_point, unit, "statics", "set point"),
        Step("L", f"{scale:.0f} l", (("l", limit.value, "1"),), scale * limit.value, unit, limit.key, label),
    )  # fmt: skip
    then = "leave" if a.action == "leave" else "look for the cause"
    return check(demand=scale * a.set_point, limit=scale * limit.value, unit=unit, at_least=low, working=steps,
                 ratio=_share(limit.value, a.set_point) if low else _share(a.set_point, limit.value),
                 note=f"when it sounds people {then}; {f.limit_said(label, limit)}", **names)  # fmt: skip


def _share(part: float, whole: float) -> float:
    """A set point at the limit itself is as it should be: it counts as holding, not as close."""
    if whole <= 0:
        return float("inf")
    return 0.9 * part / whole if part <= whole * (1 + 1e-9) else part / whole


def _cold(f: Facts, name: str) -> Check | None:
    a = f.air.alarms[name]
    if a.where in f.station.buildings:
        return None
    names: Names = {"subject": f'Detector "{name}"', "question": "Cold that it hangs in", "key": "air.alarm_cold",
             "discipline": "air", "place": f.place_of(a.where), "caution": ALARM_CAUTION}  # fmt: skip
    coldest = min(*f.places[a.where], f.station.site.mean_temperature)
    steps = (Step("T", "", (("T_m", f.station.site.mean_temperature, "K"),), coldest, "K", "own_rule",
                  "coldest air of the place: the coldest month, and no warmer than the snow of the site"),)  # fmt: skip
    if a.coldest is None:
        return not_checked(
            reason="the file does not say in what cold it works; many detectors are listed for rooms above 0 degC only",
            working=steps, **names)  # fmt: skip
    return check(demand=coldest, limit=a.coldest, unit="K", at_least=True, working=steps,
                 ratio=0.0 if coldest >= a.coldest else 2.0, **names)  # fmt: skip


def _cover(f: Facts) -> tuple[Check, ...]:
    """Every room with an engine or vehicle and every building people sleep in needs a carbon monoxide detector."""
    needing = {e.where for e in f.air.engines.values()} | {v.place for v in f.air.vehicles.values()}
    needing |= {name for name, b in f.station.buildings.items() if b.people} if f.air.engines else set()
    if not needing:
        return ()
    have = {a.where for a in f.air.alarms.values() if a.gas == GASES_OF_ENGINES}
    bare = sorted(needing - have)
    names: Names = {"subject": "Station", "question": "Rooms with a carbon monoxide detector", "key": "air.alarm_cover",
             "discipline": "air", "place": WHOLE, "caution": ALARM_CAUTION}  # fmt: skip
    covered = float(len(needing) - len(bare))
    steps = (
        Step("n", "", (), covered, "rooms", "own_rule", "of the rooms that need one, those that have one"),
        Step("N", "", (), float(len(needing)), "rooms", "own_rule",
             "rooms with an engine or vehicle, and buildings in which people sleep"),
    )  # fmt: skip
    missing = ", ".join(bare[:8]) + (" and others" if len(bare) > 8 else "")
    return (check(demand=covered, limit=float(len(needing)), unit="rooms", at_least=True, working=steps,
                  ratio=0.0 if not bare else len(needing) / covered if covered else float("inf"),
                  note=f"without one: {missing}" if bare else "", **names),)  # fmt: skip


def pressure_check(f: Facts) -> Check:
    """What the thin air means; a verdict is the physician's."""
    site = f.station.site
    standard = pressure_standard(site.elevation)
    steps = [
        Step("p_0", "101325 (1 - 0.0000225577 h)^5.25588", (("h", site.elevation, "m"),), standard, "Pa",
             "standard_atmosphere", "standard atmosphere at the height of the site"),
        Step("p", "", (("p_0", standard, "Pa"),), f.pressure, "Pa", "statics",
             "measured at the station" if f.air.station_pressure is not None else "the same, as none was measured"),
        Step("h_p", "(1 - (p/101325)^(1/5.25588))/0.0000225577", (("p", f.pressure, "Pa"),),
             altitude_of_pressure(f.pressure), "m", "standard_atmosphere", "pressure altitude"),
        Step('p_"O"', "0.2095 p", (("p", f.pressure, "Pa"),), oxygen_pressure(f.pressure), "Pa", "textbook_unchecked",
             "partial pressure of oxygen"),
        Step("s", "0.2095 p/101325", (("p", f.pressure, "Pa"),), oxygen_share_felt(f.pressure), "1",
             "textbook_unchecked", "share of oxygen at sea level with the same pressure"),
    ]  # fmt: skip
    reason = f"{show(f.pressure, 'Pa')}: how well people stand it, and how long they take to, is the physician's to say"
    if f.air.station_pressure is None:
        reason = ("no station pressure was measured; on an ice sheet the pressure altitude lies several hundred metres "
                  "above the height, and the standard atmosphere used here says too much air")  # fmt: skip
    return not_checked(subject="Station", question="Oxygen in the thin air", key="air.oxygen", discipline="air",
                       place=WHOLE, reason=reason, working=tuple(steps), unit="Pa",
                       demand=oxygen_pressure(f.pressure), caution=ALARM_CAUTION, sources=("ice_sheet_pressures",)
    )  # fmt: skip
