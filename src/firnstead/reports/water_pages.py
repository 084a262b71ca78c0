"""Water on paper: the pool through the years, energy and draw, power cut, tanks, sewage against wells."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import dist
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.core.units import YEAR, unit_text
from firnstead.reports import blocks
from firnstead.reports.charts import Line, Spec
from firnstead.reports.columns import BY_MONTH, Columns, fuel_kind, month_head
from firnstead.reports.utility_charts import WHOLE, drawn, stacked_months, xy_chart
from firnstead.reports.words import counted, shown

Plain = Mapping[str, Any]
ZERO = 273.15  # K
ROW = 12  # months between two lines of the table of the pool


def water_chapter(document: Plain) -> dict[str, Any]:
    """Title and blocks; no blocks where the file has no water."""
    water, station = document["results"].get("water"), document["station"]
    if not water or not station.get("water"):
        return {"title": "Water", "blocks": []}
    c, well = Columns(station["units"]), water["well"]
    return {"title": "Water", "blocks": [
        blocks.say(_sentence(water, well, c)),
        blocks.caution(caution_for("water")),
        *(_pool(well, c) if well else [blocks.note("No melt well could be worked out from the file.")]),
        *(_facts(well, c) if well else []),
        *_year(water, c),
        *(_cut(well, c) if well else []),
        *_tanks(water, station["water"].get("tanks") or {}, c),
        *_sewage(water, c),
        blocks.heading("What to know"),
        *(blocks.note(text.replace("`", "'")) for text in water["notes"]),
    ]}  # fmt: skip


def _sentence(water: Plain, well: Plain | None, c: Columns) -> str:
    words = f"{shown(water['yearly'], 'kg', c.system)} of water a year"
    if not well:
        return f"{words}."
    lasts = shown(well["end_age"], "s", c.system)
    if not well["end"]:
        return f"{words}; the well outlasts the {lasts} looked at."
    after = f" Start the next well by {well['next_start']}." if well["next_start"] else ""
    return f"{words}; the well lasts {lasts}, until {well['end_month']}: {well['end']}.{after}"


def _pool(well: Plain, c: Columns) -> list[blocks.Block]:
    months = well["months"]
    if not months:
        return []
    mass, metre, degree = (unit_text(c.unit(k)) for k in ("heavy kg", "m", "K"))
    ages = [m["age"] / YEAR for m in months]

    def chart(title: str, unit: str, key: str, kind: str, down: bool = False) -> Spec:
        points = tuple(zip(ages, c.row([m[key] for m in months], kind), strict=True))
        return xy_chart(title, "years since the pool's start", unit, [Line(title, points)], zero=key == "mass",
                        down=down, end=ages[-1], height=150)  # fmt: skip

    level = chart("Water level below the snow surface", metre, "level", "m", down=True)
    wide = chart("Diameter of the water", metre, "diameter", "m")
    heavy = chart("Water in the pool", mass, "mass", "heavy kg")
    warm = chart("Temperature of the water", degree, "temperature", "K")
    reading = (f"The level goes down to {shown(months[-1]['level'], 'm', c.system)}, the pool is at most "
               f"{shown(well['widest'], 'm', c.system)} wide; {_next(well)}.")  # fmt: skip
    at = list(range(ROW - 1, len(months), ROW))
    rows = [_pool_row(months, i, c) for i in (at if at and at[-1] == len(months) - 1 else [*at, len(months) - 1])]
    head = [("End of", 1.25), ("Years", 0.6), (c.head("Level", "m"), 0.75), (c.head("Dia\u00admeter", "m"), 0.8),
            (c.head("Depth of water", "m"), 0.85), (c.head("Water", "heavy kg"), 0.8), (c.head("Warmth", "K"), 0.8),
            (c.head("Drawn", "draw"), 0.9), ("Heat put in [kW]", 0.85), ("Lost to ice and air [kW]", 0.95),
            (c.head("Fuel of the 12 months", "kg"), 1)]  # fmt: skip
    return [
        blocks.heading("The pool through the years"),
        blocks.figure("The pool through the years", reading, drawn([level, wide], [heavy, warm])),
        blocks.table(head, rows, right=range(1, 11)),
    ]


def _pool_row(months: Sequence[Plain], i: int, c: Columns) -> list[str]:
    """The pool at the end of month `i`; flows are means of the twelve months before it, or of what there is."""
    last, year = months[i], months[i - i % ROW : i + 1]

    def mean(*keys: str) -> float:
        return sum(float(m[k]) for m in year for k in keys) / len(year)

    return [last["month"], f"{last['age'] / YEAR:.1f}", c.cell(last["level"], "m"), c.cell(last["diameter"], "m"),
            c.cell(last["water_depth"], "m"), c.cell(last["mass"], "heavy kg", 4), c.cell(last["temperature"], "K"),
            c.cell(mean("draw"), "draw"), c.cell(mean("power"), "W"), c.cell(mean("lost_to_ice", "lost_to_air"), "W"),
            c.cell(sum(m["fuel"] for m in year), "kg")]  # fmt: skip


def _next(well: Plain) -> str:
    if not well["next_start"]:
        return "no other well is needed in the years looked at"
    return f"the next well must be started by {well['next_start']}"


def _facts(well: Plain, c: Columns) -> list[blocks.Block]:
    def say(key: str, unit: str) -> str:
        return shown(well[key], unit, c.system)

    def energy(key: str) -> str:
        return f"{c.cell(well[key], 'J')} kWh"

    rows = [
        ["Firn seals itself from", (f"{say('sealing_density', 'kg/m3')}, at {say('sealing_depth', 'm')}; with the "
                                    f"spread of densities {say('sealing_depth_safe', 'm')}")],
        ["Melting the shaft", f"{energy('shaft_heat')}, {say('shaft_time', 's')}, {say('shaft_fuel', 'kg')} of fuel"],
        ["Heat that holds the pool without draw", c.say(well["hold_power"], "W")],
        ["Heat for a kilogram of water", (f"{well['heat_per_mass'] / 1e3:.0f} kJ over its life; the least possible "
                                          f"is {well['least_heat'] / 1e3:.0f} kJ")],
        ["Ice that it disturbs", f"{say('disturbed', 'm')} round its axis"],
        ["Alarm when water comes back colder than", say("alarm_temperature", "K")],
        ["Its end", (f"{well['end'] or 'beyond the years looked at'}"
                     f"{', ' + well['end_month'] if well['end'] else ''} ({say('end_age_low', 's')} to "
                     f"{say('end_age_high', 's')} with the pool half again flatter or steeper)")],
        ["The next well", _next(well)],
        ["Shaft too narrow", say("shaft_too_narrow", "s") if well["shaft_too_narrow"] else "not known"],
    ]  # fmt: skip
    return [blocks.heading("The well in numbers"), blocks.table([("What", 1), ("How much", 2.2)], rows)]


def _year(water: Plain, c: Columns) -> list[blocks.Block]:
    heat, waste, draw = water["heat"], water["waste_used"], water["draw"]
    other = [max(h - w, 0.0) for h, w in zip(heat, waste, strict=True)]
    givers = [("waste heat", waste), ("boilers and heaters", other)]
    parts = [(name, c.row(row, "W")) for name, row in givers if any(v > 0.5 for v in row)]
    used = dict(water["by_use"])
    if used:
        lost = [max(d - sum(each), 0.0) for d, each in zip(draw, zip(*used.values(), strict=True), strict=True)]
        used |= {"losses": lost} if max(lost) > 1e-9 else {}
    unit, mass = unit_text(c.unit("draw")), fuel_kind(water["fuel"])
    charts = []
    if used:
        uses = [(name, c.row(row, "draw")) for name, row in used.items()]
        charts.append(stacked_months("Water drawn", unit, uses))
    if parts:
        all_of = f", all {parts[0][0]}" if len(parts) == 1 else ""
        charts.append(stacked_months(f"Heat into the pool{all_of}", "kW", parts))
    drawn_rows = [*([name, *c.cells(row, "draw", 2)] for name, row in used.items()), ["All", *c.cells(draw, "draw")]]
    rows = [["People", *(f"{n:g}" for n in water["people"])], ["Heat into the pool [kW]", *c.cells(heat, "W")],
            ["of it waste heat [kW]", *c.cells(waste, "W")],
            [c.head("Fuel in boilers", mass), *c.cells(water["fuel"], mass)],
            *([f"{name} [W]", *(f"{w:,.0f}" for w in row)] for name, row in water["electric"].items())]  # fmt: skip
    first = water["year_of_rows"]
    reading = f"The twelve months from {first}, those that take most heat." if first else ""
    figure = [blocks.figure("Water and heat by month", reading, drawn(charts))] if charts else []
    return [blocks.heading("Draw and energy through the year"), *figure,
            blocks.table(month_head(f"Water drawn [{unit}]"), drawn_rows, right=BY_MONTH, last=True),
            blocks.table(month_head("People, heat, fuel"), rows, right=BY_MONTH)]  # fmt: skip


def _cut(well: Plain, c: Columns) -> list[blocks.Block]:
    cut = well["cut"]
    rows = [
        [f"Water standing in the hose is at {c.say(ZERO, 'K')} after",
         shown(well["hose_time"], "s", c.system) if well["hose_time"] else "it drains by itself"],
        ["Water standing in the shaft freezes to the head's width after",
         shown(well["shaft_freeze_time"], "s", c.system)],
    ]  # fmt: skip
    if cut:
        rows = [
            ["Worst moment", f"end of {cut['month']}, pool at {shown(cut['temperature'], 'K', c.system)}"],
            ["First ice, still water", shown(cut["first_ice"], "s", c.system)],
            ["Ice from which pump and hoses can still be freed", shown(cut["ice_allowed"], "s", c.system)],
            [f"Whole pool at {c.say(ZERO, 'K')}, were it stirred", shown(cut["all_cold"], "s", c.system)],
            ["Ice when heat comes back after the longest repair", shown(cut["ice_at_repair"], "m", c.system)],
            ["Heat lost by then", f"{c.cell(cut['heat_lost'], 'J')} kWh"],
            ["Time to make it good with the heat that is left over", shown(cut["restart"], "s", c.system)],
            *rows,
        ]
    none = [] if cut else [blocks.note("No cut of a well in use: no water was drawn in the time looked at.")]
    table = blocks.table([("When heat and power stop", 2), ("What happens", 1.2)], rows)
    return [blocks.heading("Power cut"), *none, table]


def _tanks(water: Plain, tanks: Plain, c: Columns) -> list[blocks.Block]:
    if not tanks:
        return [blocks.heading("Tanks"), blocks.note("The file has no water tanks.")]
    rows = [[n, t["place"], t["use"], c.cell(t["volume"], "tank", 4), c.cell(t["temperature"], "K")]
            for n, t in tanks.items()]  # fmt: skip
    shares = f"{c.cell(water['domestic'], 'tank', 4)} for use, {c.cell(water['fire'], 'tank', 4)} for fire"
    rows.append(["All", "", shares, c.cell(water["domestic"] + water["fire"], "tank", 4), ""])  # fmt: skip
    most = max(water["draw"]) / 1000.0
    lasts = shown(water["domestic"] / most, "s", c.system) if most else "any time"
    head = [("Tank", 1.3), ("Place", 1), ("For", 1.6), (c.head("Holds", "tank"), 0.8), (c.head("Kept at", "K"), 0.8)]
    return [blocks.heading("Tanks"), blocks.note(f"Water for use lasts {lasts} in the month of most draw."),
            blocks.table(head, rows, right=(3, 4), last=True)]  # fmt: skip


def _sewage(water: Plain, c: Columns) -> list[blocks.Block]:
    shafts = {s["name"]: s for s in water["shafts"]}
    sump, bulbs = shafts.get("sump"), water["bulbs"]
    if not bulbs:
        return [blocks.heading("Sewage in the ice"), blocks.note("The file has no sewage sump.")]
    wells = [s for n, s in shafts.items() if n != "sump"] if sump else []
    free = {w["name"]: dist((w["east"], w["north"]), (sump["east"], sump["north"])) - w["reach"] for w in wells if sump}
    rows = [[str(b["year"]), *c.cells([b["sewage"], b["melted"], b["liquid"]], "heavy kg", 4), c.cell(b["radius"], "m"),
             c.cell(b["reach"], "m"), *c.cells([room - b["reach"] for room in free.values()], "m")]
            for b in bulbs]  # fmt: skip
    head = [("Year", 0.5), (c.head("Sewage so far", "heavy kg"), 1), (c.head("Ice melted", "heavy kg"), 1),
            (c.head("Still liquid", "heavy kg"), 1), (c.head("Radius of the bulb", "m"), 1),
            (c.head("May reach", "m"), 0.9), *((c.head(f"Left to {n}", "m"), 0.9) for n in free)]  # fmt: skip
    line = Line("may reach", tuple((float(b["year"]), c.value(b["reach"], "m")) for b in bulbs))
    chart = xy_chart("Reach of the sewage in plan", "year", unit_text(c.unit("m")), [line],
                     [(c.value(room, "m"), f"from here {n} disturbs the ground") for n, room in free.items()],
                     zero=True, end=float(bulbs[-1]["year"]), width=WHOLE, height=170)  # fmt: skip
    least = min((room - bulbs[-1]["reach"] for room in free.values()), default=None)
    reading = (f"After {counted(bulbs[-1]['year'], 'year')} {shown(least, 'm', c.system)} are left between sewage and "
               "the nearest ground that a well disturbs; no published safe distance was found.")  # fmt: skip
    if least is None:
        reading = "Where the sump lies from the wells is not known."
    plan = [[s["label"], s["place"] or "open snow",
             *c.cells([s[key] for key in ("east", "north", "head", "foot", "reach")], "m")]
            for s in water["shafts"]]  # fmt: skip
    where = [("Shaft", 1.8), ("Place", 1), *((c.head(t, "m"), 0.8) for t in ("East", "North", "Head", "Foot", "Reach"))]
    return [
        blocks.heading("Sewage in the ice, and how far it stays from water"),
        blocks.figure("Sewage against wells", reading, drawn([chart])),
        blocks.table(head, rows, right=range(len(head))),
        *([blocks.table(where, plan, right=range(2, 7))] if plan else []),
    ]
