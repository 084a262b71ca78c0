"""Checks of the air for people: outdoor air, carbon dioxide, what happens when the ventilation stops."""

from __future__ import annotations

from math import inf, isfinite

from firnstead.air.limits import strictest
from firnstead.air.mixing import time_to_oxygen, time_to_share
from firnstead.air.needs import outdoor_air_ashrae, oxygen_of_co2
from firnstead.air.properties import GAS_CONSTANT
from firnstead.air.results import LimitReached
from firnstead.air.study_facts import NAMES, Facts, Hour, Names, Worst
from firnstead.core.results import Check, Step, check, not_checked

AIR_CAUTION = (
    "Measure the air with people in the rooms and doors shut before anybody sleeps there. "
    "Carbon monoxide kills without smell, and no figure here replaces an alarm."
)
STOP_CAUTION = "When the fans stop, stop the engines, wake everybody, open the doors and count heads."
THIN = "limits of parts in a million were set at sea level; in thin air people start short of oxygen"


def people_checks(f: Facts, name: str) -> tuple[Check, ...]:
    """Outdoor air and carbon dioxide of one building or place with people."""
    worst = f.worst[name]
    head = (*f.person_steps(worst), *f.network_step(worst), *_share_steps(f, worst))
    return (_fresh(f, worst, head), _co2(f, worst, head))


def _share_steps(f: Facts, w: Worst) -> tuple[Step, ...]:
    q, given = f.flow_in(w.month, w.room), f.person_steps(w)[1].value
    coming = f.network_step(w)[1].value
    if not isfinite(w.mean) or q <= 0:
        return (Step("C", "", (("q", q, "m3/s"), ("G", given, "m3/s")), inf, "1", "statics",
                     "no outside air reaches this room: the gas builds up without end"),)  # fmt: skip
    mixed = coming + given / q
    steps = [Step('C_"m"', 'C_"in" + G/q', (('C_"in"', coming, "1"), ("G", given, "m3/s"), ("q", q, "m3/s")), mixed,
                  "1", "statics", "in the mixed air of the room, in the long run")]  # fmt: skip
    steps.append(
        Step("C", 'C_o + K (C_"m" - C_o)',
             (("C_o", f.air.outdoor_co2, "1"), ("K", w.mixing, "1"), ('C_"m"', mixed, "1")),
             f.air.outdoor_co2 + w.mixing * (mixed - f.air.outdoor_co2), "1", "abulencia_theodore",
             "in its pockets" if w.mixing > 1 else "a building's air counts as mixed")
    )  # fmt: skip
    return tuple(steps)


def _fresh(f: Facts, w: Worst, head: tuple[Step, ...]) -> Check:
    building = f.station.buildings.get(w.name)
    count = round(dict(w.hour.people)[w.name])
    people = max(dict(h.people).get(w.name, 0) for h in f.hours)
    kit = f.station.kits[building.kit] if building is not None else None
    area = kit.length * kit.width if kit is not None else 0.0
    need = outdoor_air_ashrae(people, area, f.air.air_per_person, f.air.air_per_area, f.air.effectiveness)
    share, given = head[-1].value, head[1].value * (count / w.people if w.people else 1.0)
    had = given / (share - f.air.outdoor_co2) if isfinite(share) else 0.0
    steps = (
        *head,
        Step("Q", "G_a/(C - C_o)" if isfinite(share) else "",
             (("G_a", given, "m3/s"), ("C", share, "1"), ("C_o", f.air.outdoor_co2, "1")), had, "m3/s",
             "abulencia_theodore", "outdoor air that would hold the same share"),
        Step("V", '(R_"p" P_a + R_"a" A)/E',
             (('R_"p"', f.air.air_per_person, "m3/s"), ("P_a", float(people), "people"),
              ('R_"a"', f.air.air_per_area, "m/s"), ("A", area, "m2"), ("E", f.air.effectiveness, "1")), need, "m3/s",
             "ashrae_62_1", f"outdoor air asked for by: {f.air.rates}"),
    )  # fmt: skip
    return check(
        subject=f.subject(w.name), question="Fresh air for the people in it", key="air.fresh", discipline="air",
        place=f.place_of(w.name), demand=had, limit=need, unit="m3/s", at_least=True, working=steps,
        caution=AIR_CAUTION, note="rates of volume were written for sea level; which apply is the engineer's choice"
    )  # fmt: skip


def _co2(f: Facts, w: Worst, head: tuple[Step, ...]) -> Check:
    names: Names = {"subject": f.subject(w.name), "question": "Carbon dioxide with everybody in",
             "key": "air.co2", "discipline": "air", "place": f.place_of(w.name), "caution": AIR_CAUTION}  # fmt: skip
    found = strictest(f.limits, "co2")
    if found is None:
        return not_checked(reason="no limit of carbon dioxide is chosen in the file", working=head, **names)
    name, limit = found
    ppm = _ppm(head[-1].value)
    return check(
        demand=ppm.value, limit=1e6 * limit.value, unit="ppm", working=(*head, ppm, limit_step(limit.value, limit.key)),
        note=f"{f.limit_said(name, limit)}; {THIN}", **names)  # fmt: skip


def _ppm(share: float) -> Step:
    return Step('C_"ppm"', "1000000 C" if isfinite(share) else "", (("C", share, "1"),), 1e6 * share, "ppm", "statics",
                "in parts of a million")  # fmt: skip


def limit_step(value: float, key: str) -> Step:
    """The limit in ppm."""
    return Step('C_"lim"', "1000000 C_l", (("C_l", value, "1"),), 1e6 * value, "ppm", key, "limit")


def stopped(f: Facts) -> tuple[LimitReached, ...]:
    """Hours to each limit of carbon dioxide and oxygen after the ventilation stops, by room with people."""
    rows = []
    for name in f.names:
        w = f.worst[name]
        people, effort = _most(f, name)
        place = f.place_of(name)
        volume, given = _volume(f, name), _given(f, people * effort, w)
        inside = [other for other in f.names if f.place_of(other) == place]
        all_given = sum(_given(f, _most(f, o)[0] * _most(f, o)[1], f.worst[o]) for o in inside)
        all_volume = sum(room.volume for room in f.case.rooms if room.place == place)
        start = w.share if isfinite(w.share) else f.air.outdoor_co2
        for label, limit in f.limits.items():
            if limit.gas == "co2":
                shut = time_to_share(volume, 0.0, given, 0.0, start, limit.value)
                wide = time_to_share(all_volume, 0.0, all_given, 0.0, start, limit.value)
            elif limit.gas == "oxygen":
                shut = time_to_oxygen(volume, oxygen_of_co2(given), limit.value)
                wide = time_to_oxygen(all_volume, oxygen_of_co2(all_given), limit.value)
            else:
                continue
            rows.append(LimitReached(name, people, label, limit.gas, limit.value, shut, wide))
    return tuple(rows)


def _most(f: Facts, name: str) -> tuple[int, float]:
    """People and effort of the hour that makes most gas in a room."""
    hour = max(f.hours, key=lambda h: dict(h.people).get(name, 0) * h.effort)
    return dict(hour.people).get(name, 0), hour.effort


def _allowed(f: Facts, hour: Hour) -> float:
    """Time that people may have to stay: sleepers until somebody wakes them."""
    return f.air.repair_time if hour.asleep else f.air.leave_time


def _volume(f: Facts, name: str) -> float:
    return sum(f.case.rooms[i].volume for i in f.rooms_of(name))


def _given(f: Facts, efforts: float, w: Worst) -> float:
    temperature = float(f.months[w.month].temperature[w.room])
    return efforts * f.moles * GAS_CONSTANT * temperature / f.pressure


def stop_check(f: Facts, name: str) -> Check:
    """Time to the first limit in a closed room against the time until the ventilation runs again."""
    names: Names = {"subject": f.subject(name), "question": "Time to bad air after the ventilation stops",
             "key": "air.stopped", "discipline": "air", "place": f.place_of(name), "caution": STOP_CAUTION}  # fmt: skip
    w, volume = f.worst[name], _volume(f, name)
    hour = max((h for h in f.hours if dict(h.people).get(name)),
               key=lambda h: dict(h.people)[name] * h.effort * _allowed(f, h))  # fmt: skip
    people, effort = dict(hour.people)[name], hour.effort
    given = _given(f, people * effort, w)
    temperature = float(f.months[w.month].temperature[w.room])
    start = w.share if isfinite(w.share) else f.air.outdoor_co2
    found = [one for one in (strictest(f.limits, "co2", short=True), strictest(f.limits, "oxygen")) if one is not None]
    if not found:
        return not_checked(reason="no limit of carbon dioxide or oxygen is chosen in the file", **names)
    first = f.person_steps(w)[0]
    steps = [
        first,
        Step("G", "e P n_1 R T/p",
             (("e", effort, "1"), ("P", float(people), "people"), ("n_1", f.moles, "mol/s"),
              ("R", GAS_CONSTANT, "J/(mol K)"), ("T", temperature, "K"), ("p", f.pressure, "Pa")), given, "m3/s",
             "textbook_unchecked", f"carbon dioxide given off in the room, hour: {hour.name}"),
        Step("V", "", (), volume, "m3", "statics", "air in it: outer volume less what fills it"),
        Step("C_1", "", (), start, "1", "statics", "carbon dioxide before the stop, in the long run"),
    ]  # fmt: skip
    times: list[tuple[float, str]] = []
    for label, limit in found:
        if limit.gas == "oxygen":
            used = oxygen_of_co2(given)
            steps.append(Step("U", "G/r", (("G", given, "m3/s"), ("r", 0.85, "1")), used, "m3/s",
                              "persily_de_jonge_2017", "oxygen used"))  # fmt: skip
            time = time_to_oxygen(volume, used, limit.value)
            steps.append(Step('t_"ox"', "V (O_1 - O_2)/U",
                              (("V", volume, "m3"), ("O_1", 0.2095, "1"), ("O_2", limit.value, "1"),
                               ("U", used, "m3/s")), time, "s", limit.key, f"oxygen down to {label}"))  # fmt: skip
        else:
            time = time_to_share(volume, 0.0, given, 0.0, start, limit.value)
            formula = "V (C_2 - C_1)/G" if time > 0 else ""
            steps.append(Step("t_c", formula,
                              (("V", volume, "m3"), ("C_2", limit.value, "1"), ("C_1", start, "1"),
                               ("G", given, "m3/s")), time, "s", limit.key,
                              f"{NAMES['co2']} up to {label}" + ("" if formula else ", passed before the stop"))
    )  # fmt: skip
        times.append((time, label))
    time, label = min(times)
    return check(
        demand=time, limit=_allowed(f, hour), unit="s", at_least=True, working=tuple(steps),
        note=f"doors shut, nothing leaks; first limit reached: {label}. Time allowed: until "
             + ("the ventilation runs again or every sleeper is out" if hour.asleep else "those awake have left"),
        **names
    )  # fmt: skip
