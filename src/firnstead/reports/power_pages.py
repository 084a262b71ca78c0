"""Power on paper: load by month and its duration, sets, boards, feeders, what stops first, fuel, waste heat."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.core.units import unit_text
from firnstead.reports import blocks
from firnstead.reports.charts import Line
from firnstead.reports.columns import BY_MONTH, MONTHS, Columns, fuel_kind, month_head, together, total
from firnstead.reports.power_tables import boards_and_feeders, hour, loads, sets
from firnstead.reports.utility_charts import TONES, WHOLE, Limit, drawn, stacked_months, xy_chart
from firnstead.reports.words import counted, shown

Plain = Mapping[str, Any]
YEAR_HOURS = 8760.0
WAYS = (("Heat of the fuel", "fuel"), ("Electricity of the sets", "electric"), ("Jackets", "jacket"),
        ("Exhaust", "exhaust"), ("Given off where sets stand", "radiated"), ("Up the stack", "stack"),
        ("Sources with stated output", "sources"), ("of that nobody could use", "curtailed"),
        ("Taken by loads", "served"), ("Lost in feeders", "lost"),
        ("Wanted beyond the power of the sets", "unserved"))  # fmt: skip
CAUTIONS = ("power", "power.earthing", "power.exhaust", "power.refuelling")


def power_chapter(document: Plain) -> dict[str, Any]:
    """Title and blocks; no blocks where the file has no power."""
    results, station = document["results"], document["station"]
    power = results.get("power")
    if not power or not station.get("power"):
        return {"title": "Power", "blocks": []}
    c = Columns(station["units"])
    used = {name: results[key]["waste_used"] for key, name in (("heat", "buildings"), ("water", "melt well"))
            if results.get(key)}  # fmt: skip
    return {"title": "Power", "blocks": [
        blocks.say(_sentence(power, c)),
        *(blocks.caution(caution_for(key)) for key in CAUTIONS),
        *_load(power, c),
        *sets(power, c),
        *boards_and_feeders(power, station["power"]["drop_limit"], c),
        *_shedding(power, c),
        *_fuel(power, c),
        *_waste(power, used, c),
        *loads(power, c),
        *_building(power, c),
    ]}  # fmt: skip


def _sentence(power: Plain, c: Columns) -> str:
    when = f"{MONTHS[power['peak_month'] - 1]}, {hour(power['peak_hour'])}"
    number = sum(s["count"] for s in power["sets"])
    return (f"Greatest load {c.say(power['peak'], 'W')} ({when}); {counted(number, 'set')} give "
            f"{c.say(_whole(power), 'W')} at the station, {c.say(_without_one(power), 'W')} with the largest out of "
            "order.")  # fmt: skip


def _whole(power: Plain) -> float:
    return sum(float(s["count"] * s["power"]) for s in power["sets"])


def _without_one(power: Plain) -> float:
    return _whole(power) - max((float(s["power"]) for s in power["sets"]), default=0.0)


def _load(power: Plain, c: Columns) -> list[blocks.Block]:
    parts = _parts(power)
    mean = [sum(day) / len(day) for day in power["load"]]
    greatest = [max(day) for day in power["load"]]
    rows = [[name, *c.cells(row, "W")] for name, row in parts]
    rows += [["Mean load of the sets", *c.cells(mean, "W")], ["Greatest hour", *c.cells(greatest, "W")]]
    bars = [(name, c.row(row, "W")) for name, row in parts]
    factors = [["Connected", c.say(power["connected"], "W")], ["Demand factor", f"{power['demand_factor']:.2f}"],
               ["Diversity", f"{power['diversity']:.2f}"], ["Load factor", f"{power['load_factor']:.2f}"],
               ["Mean load over the power of all sets", f"{power['capacity_factor']:.2f}"],
               ["Energy over what the running sets could give", f"{power['use_factor']:.2f}"],
               ["Air pressure reckoned with", shown(power["pressure"], "Pa", c.system)]]  # fmt: skip
    chart = stacked_months("Load by the order in which it is switched off", "kW", bars, width=WHOLE)
    essential = sum(parts[0][1]) / 12 if parts and parts[0][0] == "essential" else 0.0
    reading = f"{c.say(essential, 'W')} on average is essential; what is switched off first lies on top."
    return [
        blocks.heading("Load through the year"),
        blocks.figure("Mean load by month", reading, drawn([chart])),
        blocks.table(month_head("[kW]"), rows, right=BY_MONTH),
        blocks.figure("How long a load lasts, and the day", _duration_reading(power, c), _duration(power, c)),
        blocks.table([("What", 1.6), ("How much", 1), ("", 1)], [[*f, ""] for f in factors], right=(1,)),
    ]  # fmt: skip


def _parts(power: Plain) -> list[tuple[str, tuple[float, ...]]]:
    """Mean load by month: essential loads, then the others, the last to be switched off first."""
    loads = power["loads"]
    orders = sorted({load["shed"] for load in loads if not load["essential"]}, reverse=True)
    groups = [("essential", [load["month"] for load in loads if load["essential"]])]
    groups += [(_order(o), [load["month"] for load in loads if not load["essential"] and load["shed"] == o])
               for o in orders]  # fmt: skip
    found = [(name, total(rows)) for name, rows in groups if rows]
    if len(found) > len(TONES):
        kept = len(TONES) - 1
        found = [*found[:kept], ("switched off sooner", total([row for _, row in found[kept:]]))]
    return found


def _order(order: int) -> str:
    ending = {1: "st", 2: "nd", 3: "rd"}.get(order if order < 20 else order % 10, "th")
    return f"switched off {order}{ending}" if order else "switched off at once"


def _steps(power: Plain) -> list[tuple[int, float, str]]:
    """Number of sets, their power together, and how they are called, up to the first step beyond what is needed."""
    made: list[tuple[int, float, str]] = []
    together_power = 0.0
    kinds = sorted(power["sets"], key=lambda s: not s["main"])
    for kind in kinds:
        for _ in range(kind["count"]):
            together_power += kind["power"]
            made.append((len(made) + 1, together_power, "" if kind["main"] else ", standby"))
    enough = next((i for i, (_, p, _) in enumerate(made) if p >= power["peak"]), len(made) - 1)
    return made[: enough + 2]


def _duration_reading(power: Plain, c: Columns) -> str:
    steps = _steps(power)
    if not steps:
        return "No sets are in the file."
    hours = max((h for h, load in power["duration"] if load > steps[0][1]), default=0.0)
    least = next((n for n, p, _ in steps if p >= power["peak"]), None)
    carries = (
        f"{counted(least, 'set')} carry the greatest load"
        if least
        else "all sets together do not carry the greatest load"
    )
    return f"One set is not enough for {hours:,.0f} h of the year; {carries}. Heavy lines: what so many sets give here."


def _duration(power: Plain, c: Columns) -> str:
    points = [(float(h), c.value(w, "W")) for h, w in power["duration"]]
    curve = Line("load", ((0.0, points[0][1]), *points) if points else ())
    limits: list[Limit] = [(c.value(p, "W"), counted(n, "set") + more) for n, p, more in _steps(power)]
    days = {power["peak_month"] - 1, min(range(12), key=lambda m: sum(power["load"][m]))}
    lines = [Line(MONTHS[m], tuple((float(h), v) for h, v in enumerate(c.row(power["load"][m], "W"))))
             for m in sorted(days)]  # fmt: skip
    return drawn([
        xy_chart("Load duration", "hours a year", "kW", [curve], limits, zero=True, end=YEAR_HOURS),
        xy_chart("Days of greatest and of least load", "hour", "", lines, zero=True, end=23.0),
    ])  # fmt: skip


def _shedding(power: Plain, c: Columns) -> list[blocks.Block]:
    title = blocks.heading("What stops first when a set fails")
    if not power["shedding"]:
        return [title, blocks.note("Every load is essential: nothing may be switched off.")]
    rows = [[_order(s["order"]).removeprefix("switched off "), together(s["loads"]),
             *c.cells([s["power"], s["left"]], "W"), "yes" if s["needed"] else "no", f"{s['hours']:,.0f}"]
            for s in power["shedding"]]  # fmt: skip
    head = [("Order", 0.6), ("Switched off", 3), ("Takes off [kW]", 0.8), ("Left [kW]", 0.8),
            ("Needed at the peak", 0.8), ("Hours a year", 0.8)]  # fmt: skip
    reading = ("Powers at the hour of the greatest load. Needed: the largest set fails then and no other starts. "
               "Hours: in so many of a year it would have to go until the next set runs.")  # fmt: skip
    return [title, blocks.note(reading), blocks.table(head, rows, right=(2, 3, 5))]


def _fuel(power: Plain, c: Columns) -> list[blocks.Block]:
    supply = power["resupply"]
    other = [max(a - b, 0.0) for a, b in zip(supply["burnt"], power["fuel"], strict=True)]
    kind = fuel_kind(supply["burnt"])
    rows = [["Sets", *c.cells(power["fuel"], kind)], ["Heaters and boilers", *c.cells(other, kind)],
            ["All", *c.cells(supply["burnt"], kind)]]  # fmt: skip
    parts = [("sets", c.row(power["fuel"], kind))]
    if any(v > 1e-6 for v in other):
        parts.append(("heaters and boilers", c.row(other, kind)))
    say = (f"From {MONTHS[supply['start'] - 1]} on full tanks last {shown(supply['lasts'], 's', c.system)}: "
           f"{shown(supply['usable'], 'kg', c.system)} can be drawn, {shown(supply['needed'], 'kg', c.system)} are "
           "burnt until the next resupply is due.")  # fmt: skip
    chart = stacked_months("Fuel", unit_text(c.unit(kind)), parts, width=WHOLE, height=170)
    return [
        blocks.heading("Fuel"),
        blocks.figure(f"Fuel by month, {shown(supply['year'], 'kg', c.system)} in a year", say, drawn([chart])),
        blocks.table(month_head(c.head("Burnt", kind)), rows, right=BY_MONTH, last=True),
    ]


def _waste(power: Plain, used: Mapping[str, Sequence[float]], c: Columns) -> list[blocks.Block]:
    waste, energy = power["waste"], power["energy"]
    title = blocks.heading("Waste heat and energy")
    rows = [[name, c.cell(energy[key], "J"), ""] for name, key in WAYS if energy[key]]
    books = blocks.table([("In a year", 1.6), ("Energy [kWh]", 1), ("", 1)], rows, right=(1,))
    if not any(waste):
        return [title, blocks.note("No waste heat is taken from the sets."), books]
    rows = [["Available", *c.cells(waste, "W")], *([f"Used by the {n}", *c.cells(row, "W")] for n, row in used.items())]
    parts = [(f"used by the {n}", c.row(row, "W")) for n, row in used.items() if any(row)]
    taken = sum(map(sum, used.values()))
    reading = f"{100 * taken / sum(waste):.0f} % of the heat that can be had is used."
    chart = stacked_months(
        "Heat of jackets and exhaust", "kW", parts, ("available", c.row(waste, "W")), width=WHOLE, height=170
    )
    return [title, blocks.figure("Waste heat available and used", reading, drawn([chart])),
            blocks.table(month_head("[kW]"), rows, right=BY_MONTH), books]  # fmt: skip


def _building(power: Plain, c: Columns) -> list[blocks.Block]:
    found = power["construction"]
    if not found:
        return []
    words = (f"Greatest demand {c.say(found['demand'], 'W')}; {counted(found['count'], 'set')} of "
             f"{c.say(found['power'], 'W')} at the site; {shown(found['fuel'], 'kg', c.system)} of fuel in the "
             "season.")  # fmt: skip
    return [blocks.heading("Power while the station is built"), blocks.note(words)]
