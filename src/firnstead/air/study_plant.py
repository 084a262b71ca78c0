"""Checks of engines: air for generator rooms, fumes, vehicles in passages, exhausts near intakes."""

from __future__ import annotations

from math import atan2, degrees, hypot, isfinite

import numpy as np

from firnstead.air.cohb import cohb_coburn, time_to_cohb_stewart
from firnstead.air.limits import strictest
from firnstead.air.needs import combustion_air, cooling_air, tunnel_air
from firnstead.air.network import Array
from firnstead.air.properties import AIR_MOLAR_MASS, GAS_CONSTANT
from firnstead.air.results import MONTHS, EngineAir, ExhaustPair, VehicleAir
from firnstead.air.study_facts import MOLAR_MASS, MONTH_NAMES, NAMES, Facts, Names
from firnstead.air.study_people import limit_step
from firnstead.air.transport import highest_mean, shares_in_time
from firnstead.core.results import WHOLE, Check, Step, check, not_checked
from firnstead.core.units import show
from firnstead.station.air import AirEngine, Opening
from firnstead.station.geometry import axis

CO_CAUTION = (
    "Carbon monoxide kills without smell. No engine runs under the snow without an alarm that hangs where people "
    "sleep, and none runs in a passage longer than it must."
)
EXHAUST_CAUTION = (
    "Exhaust gas lies in the lee and in the cold. No air well, vent or hatch near an exhaust: an air well draws "
    "exhaust through the snow itself."
)
EIGHT_HOURS, STEP = 28800.0, 60.0
LIGHT_WORK = 25e-3 / 60  # m3/s breathed at light work (purser_fed)


def engine_airs(f: Facts) -> dict[str, EngineAir]:
    """What each engine needs and its room has."""
    found = {}
    for name, e in f.air.engines.items():
        burnt = 0.0 if e.own_intake else combustion_air(e.power, per_power=e.air_per_power / 3.6e6)
        rooms = f.rooms_of(e.where)
        least = min(sum(_fresh_into(f, m, rooms)) for m in range(MONTHS))
        found[name] = EngineAir(e.where, burnt, cooling_air(e.heat, e.warmer), least)
    return found


def _fresh_into(f: Facts, m: int, rooms: tuple[int, ...]) -> list[float]:
    """Air that comes into a group of rooms from other rooms [kg/s]."""
    month = f.months[m]
    own = np.zeros(len(f.case.rooms) + 1, dtype=bool)
    own[list(rooms)] = True
    source, target = np.where(month.flow > 0, month.a, month.b), np.where(month.flow > 0, month.b, month.a)
    return [float(x) for x in np.abs(month.flow[own[target] & ~own[source]])]


def engine_check(f: Facts, name: str, found: EngineAir) -> Check:
    """Air that comes into an engine's room against what all engines in it need."""
    e = f.air.engines[name]
    here = {other: each for other, each in f.air.engines.items() if each.where == e.where}
    steps: list[Step] = []
    parts: list[tuple[str, float]] = []
    for i, (other, each) in enumerate(here.items(), start=1):
        if not each.own_intake:
            burnt = combustion_air(each.power, per_power=each.air_per_power / 3.6e6)
            steps.append(Step(f"m_{i}", "a P/3600000 rho_0",
                              (("a", each.air_per_power, "m3/kWh"), ("P", each.power, "W"), ("rho_0", 1.225, "kg/m3")),
                              burnt, "kg/s", "kates_diesel", f"air that {other} burns"))  # fmt: skip
            parts.append((f"m_{i}", burnt))
        carried = cooling_air(each.heat, each.warmer)
        steps.append(Step(f"k_{i}", "H/(c D)", (("H", each.heat, "W"), ("c", 1005.0, "J/(kg K)"),
                          ("D", each.warmer, "K")), carried, "kg/s", "textbook_unchecked",
                          f"air that carries the heat of {other} away"))  # fmt: skip
        parts.append((f"k_{i}", carried))
    need = sum(value for _, value in parts)
    steps.append(Step("m", " + ".join(symbol for symbol, _ in parts), tuple((s, v, "kg/s") for s, v in parts), need,
                      "kg/s", "statics", "air that the room needs"))  # fmt: skip
    steps.append(Step("M", "", (("p", f.pressure, "Pa"),), found.coming_in, "kg/s", "statics",
                      "air that comes into the room, least of the year, from the balance of all rooms"))  # fmt: skip
    return check(
        subject=f'Engine "{name}"', question="Air for the engine and its cooling", key="air.engine",
        discipline="air", place=f.place_of(e.where), demand=found.coming_in, limit=need, unit="kg/s", at_least=True,
        working=tuple(steps), caution=CO_CAUTION,
        note="turbocharged engines burn more than the published figure: put the maker's in; snow walls take no share "
             "of the heat here")  # fmt: skip


def fume_checks(f: Facts, name: str) -> tuple[Check, ...]:
    """Engine gases that leak into the engine's room against the strictest limit."""
    return tuple(_fume(f, name, f.air.engines[name], gas) for gas in MOLAR_MASS
                 if gas == "co" or getattr(f.air.engines[name], gas) is not None)  # fmt: skip


def _fume(f: Facts, name: str, e: AirEngine, gas: str) -> Check:
    names: Names = {"subject": f'Engine "{name}"', "question": f"{NAMES[gas].capitalize()} in the engine's room",
             "key": f"air.engine_{gas}", "discipline": "air", "place": f.place_of(e.where),
             "caution": CO_CAUTION}  # fmt: skip
    emitted, found = getattr(e, gas), strictest(f.limits, gas)
    if emitted is None:
        return not_checked(reason=f"the file gives no {NAMES[gas]} of its exhaust; ask the maker", **names)
    if found is None:
        return not_checked(reason=f"no limit of {NAMES[gas]} is chosen in the file", **names)
    label, limit = found
    rooms = f.rooms_of(e.where)
    shares = f.fumes[gas][:, rooms]
    m, i = np.unravel_index(int(np.argmax(shares)), shares.shape)
    mixed = float(shares[m, i])
    month, room = f.months[int(m)], rooms[int(i)]
    amount = e.leak * emitted / MOLAR_MASS[gas]
    temperature = float(month.temperature[room])
    volume = amount * GAS_CONSTANT * temperature / f.pressure
    flow = f.flow_in(int(m), room)
    steps = [
        Step("G", "l E R T/(M p)",
             (("l", e.leak, "1"), ("E", emitted, "kg/s"), ("R", GAS_CONSTANT, "J/(mol K)"), ("T", temperature, "K"),
              ("M", MOLAR_MASS[gas], "kg/mol"), ("p", f.pressure, "Pa")), volume, "m3/s", "textbook_unchecked",
             "gas that leaks into the room"),
        Step("q", "", (("p", f.pressure, "Pa"),), flow, "m3/s", "statics",
             f"air that comes into the room in {MONTH_NAMES[int(m)]}, from the balance of all rooms"),
        Step('C_"m"', "", (("G", volume, "m3/s"), ("q", flow, "m3/s")), mixed, "1", "statics",
             "share in the mixed air: G/q and what comes in from rooms with other engines"),
        Step('C_"ppm"', 'K 1000000 C_"m"' if isfinite(mixed) else "",
             (("K", f.air.mixing, "1"), ('C_"m"', mixed, "1")), f.air.mixing * 1e6 * mixed, "ppm",
             "abulencia_theodore", "in its pockets, in parts of a million"),
        limit_step(limit.value, limit.key),
    ]  # fmt: skip
    return check(
        demand=f.air.mixing * 1e6 * mixed, limit=1e6 * limit.value, unit="ppm", working=tuple(steps),
        note=f"{f.limit_said(label, limit)}; the share that leaks is the file's", **names)  # fmt: skip


def fumes_where_people_are(f: Facts) -> tuple[Check, ...]:
    """The highest engine gas anywhere people are."""
    names: Names = {"subject": "Station", "question": "Carbon monoxide from engines where people are",
             "key": "air.fumes_people", "discipline": "air", "place": WHOLE, "caution": CO_CAUTION}  # fmt: skip
    if not f.air.engines or not f.names:
        return ()
    found = strictest(f.limits, "co")
    silent = [name for name, e in f.air.engines.items() if e.co is None]
    if silent or found is None:
        reason = "no limit of carbon monoxide is chosen" if found is None else (
            f"the file gives no carbon monoxide for {', '.join(silent[:4])}")  # fmt: skip
        return (not_checked(reason=reason, **names),)
    label, limit = found
    highest, where, when = 0.0, f.names[0], 0
    for name in f.names:
        shares = f.fumes["co"][:, f.rooms_of(name)].max(axis=1) * f.mixing_of(name)
        if shares.max() > highest:
            highest, where, when = float(shares.max()), name, int(shares.argmax())
    steps = (
        Step("C", "", (("p", f.pressure, "Pa"),), highest, "1", "statics",
             f"highest share, in {f.subject(where)} in {MONTH_NAMES[when]}, from the balance of all rooms"),
        Step('C_"ppm"', "1000000 C" if isfinite(highest) else "", (("C", highest, "1"),), 1e6 * highest, "ppm",
             "statics", "in parts of a million"),
        limit_step(limit.value, limit.key),
    )  # fmt: skip
    return (check(demand=1e6 * highest, limit=1e6 * limit.value, unit="ppm", working=steps,
                  note=f"{f.limit_said(label, limit)}; engines in order, doors as in the file", **names),
    )  # fmt: skip


def vehicle_series(f: Facts) -> tuple[Array, int] | None:
    """Carbon monoxide in all rooms through eight hours with all vehicles running, in the month with most of it."""
    runs = [(name, v) for name, v in f.air.vehicles.items() if v.co is not None]
    if not runs:
        return None
    given = np.zeros((len(runs), len(f.case.rooms), 1))
    for s, (_, v) in enumerate(runs):
        rooms = f.rooms_of(v.place)
        given[s, list(rooms), 0] = (v.co or 0.0) / MOLAR_MASS["co"] * AIR_MOLAR_MASS / len(rooms)
    share = np.array([v.runs / v.every for _, v in runs])
    mean = np.einsum("srg,s->rg", given, share)
    cells = sorted({i for _, v in runs for i in f.rooms_of(v.place)})
    known = {id(month): m for m, month in reversed([*enumerate(f.months)])}
    worst = max(known.values(), key=lambda m: float(f.months[m].steady(mean, np.zeros(1))[cells].max()))
    month = f.months[worst]
    matrix, outside = month.balance
    times = np.arange(0.0, EIGHT_HOURS, STEP)
    running = np.array([
        [max(0.0, min(v.runs - t % v.every, STEP)) / STEP + max(0.0, t % v.every + STEP - v.every) / STEP
         for _, v in runs] for t in times
    ])  # fmt: skip
    start = f.fumes["co"][worst][:, None]
    start = np.where(np.isfinite(start), start, 0.0)
    engines = np.zeros_like(start)
    engines[:, 0] = -(matrix @ start[:, 0])  # keeps what the engines leak coming
    engines = np.maximum(engines, 0.0)
    source = np.concatenate([given / month.mass[None, :, None], engines[None]])
    always = np.ones((len(times), 1))
    series = shares_in_time(matrix, outside, np.zeros(1), start, source, np.hstack([running, always]), STEP)
    return series[:, :, 0], worst


def vehicle_airs(f: Facts, series: Array) -> dict[str, VehicleAir]:
    """Peak, mean and blood for every vehicle whose carbon monoxide is known."""
    found = {}
    for name, v in f.air.vehicles.items():
        if v.co is None:
            continue
        place = series[:, f.rooms_of(v.place)] * f.air.mixing
        cell = int(place.max(axis=0).argmax())
        mean = float(highest_mean(place, STEP, EIGHT_HOURS).max())
        blood = cohb_coburn(EIGHT_HOURS, mean, f.pressure)
        harm = time_to_cohb_stewart(float(place.max()), 0.30, LIGHT_WORK)
        curve = tuple(float(x) for x in place[:, cell])
        found[name] = VehicleAir(v.place, float(place.max()), mean, blood, harm, curve, STEP)
    return found


def vehicle_checks(f: Facts, name: str, series: tuple[Array, int] | None) -> tuple[Check, ...]:
    """Carbon monoxide of a vehicle by the limit that is nearest, and the air that the tunnel rule asks for."""
    return (_vehicle_co(f, name, series), _vehicle_air(f, name))


def _vehicle_co(f: Facts, name: str, series: tuple[Array, int] | None) -> Check:
    v = f.air.vehicles[name]
    names: Names = {"subject": f'Vehicle "{name}"', "question": "Carbon monoxide where it runs",
             "key": "air.vehicle_co", "discipline": "air", "place": v.place, "caution": CO_CAUTION}  # fmt: skip
    limits = {label: limit for label, limit in f.limits.items() if limit.gas == "co"}
    if v.co is None or series is None:
        return not_checked(reason="the file gives no carbon monoxide of its exhaust; ask the maker", **names)
    if not limits:
        return not_checked(reason="no limit of carbon monoxide is chosen in the file", **names)
    curve, month = series
    place = curve[:, f.rooms_of(v.place)]
    found = [(float(highest_mean(place, STEP, limit.over).max()), label, limit) for label, limit in limits.items()]
    mixed, label, limit = max(found, key=lambda one: one[0] / one[2].value)
    temperature = float(f.months[month].temperature[f.rooms_of(v.place)[0]])
    volume = v.co * GAS_CONSTANT * temperature / (MOLAR_MASS["co"] * f.pressure)
    through = f.through[v.place][month]
    span = "highest at any time" if limit.over == 0 else f"highest mean of {show(limit.over, 's')}"
    steps = (
        Step("G", "E R T/(M p)",
             (("E", v.co, "kg/s"), ("R", GAS_CONSTANT, "J/(mol K)"), ("T", temperature, "K"),
              ("M", MOLAR_MASS["co"], "kg/mol"), ("p", f.pressure, "Pa")), volume, "m3/s", "textbook_unchecked",
             "gas that it gives off while it runs"),
        Step("q", "", (("p", f.pressure, "Pa"),), through, "m3/s", "statics",
             f"air that comes into the place in {MONTH_NAMES[month]}, from the balance of all rooms"),
        Step('C_"m"', "",
             (("G", volume, "m3/s"), ("q", through, "m3/s"), ("t_r", v.runs, "s"), ("t_e", v.every, "s")), mixed, "1",
             "statics", f"{span} in the foulest stretch, eight hours in steps of a minute, all vehicles and engines"),
        Step('C_"ppm"', 'K 1000000 C_"m"', (("K", f.air.mixing, "1"), ('C_"m"', mixed, "1")),
             f.air.mixing * 1e6 * mixed, "ppm", "abulencia_theodore", "in pockets, in parts of a million"),
        limit_step(limit.value, limit.key),
    )  # fmt: skip
    return check(demand=f.air.mixing * 1e6 * mixed, limit=1e6 * limit.value, unit="ppm", working=steps,
                 note=f"nearest {f.limit_said(label, limit)}", **names)  # fmt: skip


def _vehicle_air(f: Facts, name: str) -> Check:
    v = f.air.vehicles[name]
    people = max((dict(h.people).get(v.place, 0) for h in f.hours), default=0)
    least = min(f.through[v.place])
    need = tunnel_air(people, v.power)
    steps = (
        Step("V", "a P + b N",
             (("a", tunnel_air(1, 0.0), "m3/s"), ("P", float(people), "people"), ("b", tunnel_air(0, 1.0), "m3/J"),
              ("N", v.power, "W")), need, "m3/s", "osha_1926_800", "air by people and engine"),
        Step("q", "", (("p", f.pressure, "Pa"),), least, "m3/s", "statics",
             "air that comes into the place, least of the year, from the balance of all rooms"),
    )  # fmt: skip
    return check(
        subject=f'Vehicle "{name}"', question="Air through the place while it runs", key="air.vehicle",
        discipline="air", place=v.place, demand=least, limit=need, unit="m3/s", at_least=True, working=steps,
        caution=CO_CAUTION,
        note="rule for tunnels under construction, at sea level; whether it applies is the engineer's choice"
    )  # fmt: skip


def exhaust_pairs(f: Facts) -> tuple[ExhaustPair, ...]:
    """Every exhaust with its nearest intake."""
    taken = _intakes(f)
    rows = []
    for name, exhaust in f.air.exhausts.items():
        if not taken:
            continue
        intake = min(taken, key=lambda k: _distance(exhaust, taken[k]))
        rows.append(_pair(f, name, exhaust, intake, taken[intake]))
    return tuple(rows)


def _pair(f: Facts, name: str, exhaust: Opening, intake: str, at: Opening) -> ExhaustPair:
    east, north = at.position[0] - exhaust.position[0], at.position[1] - exhaust.position[1]
    blows_to = (f.station.site.storm_wind_from + 180.0) % 360.0
    off = abs((degrees(atan2(east, north)) - blows_to + 180.0) % 360.0 - 180.0)
    return ExhaustPair(name, intake, hypot(east, north), exhaust.height - at.height, off)


def _distance(a: Opening, b: Opening) -> float:
    return hypot(a.position[0] - b.position[0], a.position[1] - b.position[1])


def _intakes(f: Facts) -> dict[str, Opening]:
    """Openings that take air in: those of the file, fans that draw from outside, vents that may run inward."""
    found = dict(f.air.intakes)
    for name, fan in f.air.fans.items():
        if fan.draws_from == "outside":
            position = fan.opening_at or _above(f, fan.blows_into, fan.at)
            found[name] = Opening.model_construct(position=position, height=fan.opening_height)
    for name, vent in f.air.vents.items():
        if vent.duty != "out":
            line = axis(f.station.places[vent.place])
            found[name] = Opening.model_construct(position=line.at(vent.at), height=vent.top)
    return found


def _above(f: Facts, name: str, at: float | None) -> tuple[float, float]:
    building = f.station.buildings.get(name)
    line = axis(f.station.places[f.place_of(name)])
    if building is not None:
        return line.at(building.at + f.station.kits[building.kit].length / 2)
    return line.at(line.length / 2 if at is None else at)


def exhaust_checks(f: Facts, pair: ExhaustPair) -> tuple[Check, ...]:
    """Distance against what the engineer asks for; dilution is not checked."""
    steps = (
        Step("d", "", (), pair.distance, "m", "statics", f"level distance to the nearest intake, {pair.intake}"),
        Step("h", "", (), pair.higher, "m", "statics", "how much higher the exhaust ends than the intake"),
        Step("alpha", "", (("w", f.station.site.storm_wind_from, "deg"),), pair.off_wind, "deg", "statics",
             "angle between where the storm wind blows to and the intake: below 90 deg the intake lies in the lee"),
    )  # fmt: skip
    names: Names = {"subject": f'Exhaust "{pair.exhaust}"', "question": "Exhaust gas drawn in again",
                    "key": "air.exhaust_dilution", "discipline": "air", "place": WHOLE,
                    "caution": EXHAUST_CAUTION}  # fmt: skip
    lee = "the intake lies in the lee of the exhaust in storms; " if pair.off_wind < 90 else ""
    drawn_in = not_checked(
        reason=f"{lee}no published law of dilution for an exhaust in a snow surface was found: watch the smoke in all "
               "winds, and keep a carbon monoxide alarm behind the intake", working=steps, **names)  # fmt: skip
    least = f.air.exhaust_distance
    if least is None:
        return (drawn_in,)
    names = {**names, "question": "Distance from exhaust to intake", "key": "air.exhaust"}
    apart = check(demand=pair.distance, limit=least, unit="m", at_least=True, working=steps,
                  note="distance asked for by the engineer; no published one was found", **names)  # fmt: skip
    return (apart, drawn_in)
