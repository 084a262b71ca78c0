"""Heat on paper: the year of every trench, heat of buildings and fuel, floors and snow, what to change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.core.units import unit_text
from firnstead.reports import blocks
from firnstead.reports.charts import Line
from firnstead.reports.columns import (
    BY_MONTH,
    MONTHS,
    Columns,
    alike,
    fuel_kind,
    month_head,
    rows_alike,
    together,
    total,
)
from firnstead.reports.utility_charts import TONES, drawn, month_chart, stacked_months, xy_chart
from firnstead.reports.words import counted, shown

Plain = Mapping[str, Any]
LINES = 5  # places whose lines are drawn; the others lie in the band
DEPTHS = (1.0, 2.0, 5.0)  # m below a building at which the result gives the snow


def heat_chapter(document: Plain) -> dict[str, Any]:
    """Title and blocks; no blocks where the file has no heat."""
    heat, station = document["results"].get("heat"), document["station"]
    if not heat or not station.get("heat"):
        return {"title": "Heat", "blocks": []}
    c = Columns(station["units"])
    return {"title": "Heat", "blocks": [
        blocks.say(_sentence(heat, c)),
        blocks.caution(caution_for("heat")),
        *_air(heat, c),
        *_change(heat, c),
        *_buildings(heat, c),
        *_floors(heat, station["heat"].get("floor_limit"), c),
        *_flows(heat, c),
    ]}  # fmt: skip


def _sentence(heat: Plain, c: Columns) -> str:
    peak = sum(b["peak"] for b in heat["buildings"].values())
    words = f"{counted(len(heat['buildings']), 'heated building')}, {c.say(peak, 'W')} in the coldest month"
    return f"{words}; {shown(sum(heat['fuel']), 'kg', c.system)} of fuel a year are burnt for heating."


def _tightest(heat: Plain) -> list[tuple[list[str], Plain]]:
    """Places that share a year, with that year, the one nearest to its limit first."""
    years = {n: [f"{t:.2f}" for t in (p["limit"], *p["air"], *p["air_high"])] for n, p in heat["places"].items()}
    groups = [(names, heat["places"][names[0]]) for names, _ in alike(years)]
    return sorted(groups, key=lambda group: group[1]["limit"] - group[1]["warmest"])


def _air(heat: Plain, c: Columns) -> list[blocks.Block]:
    groups = _tightest(heat)
    if not groups:
        return []
    names, first = groups[0]
    verb = "passes its" if first["warmest"] > first["limit"] else "comes nearest to its"
    month = MONTHS[max(range(12), key=lambda m: first["air_high"][m])]
    reading = (f"{together(names)} {verb} limit: {shown(first['warmest'], 'K', c.system)} in {month} at worst, limit "
               f"{shown(first['limit'], 'K', c.system)}.{' Band: all places.' if len(groups) > 1 else ''}")  # fmt: skip
    temperatures = {n: c.cells(p["air"], "K") for n, p in heat["places"].items()}
    facts = {n: [c.cell(p["warmest"], "K"), c.cell(p["limit"], "K"), p["scenario"],
                 _months(p["months_above"]), _months(p["vents_shut"]), c.cell(p["wall_years"][-1], "K"),
                 c.cell(_frost(heat, n), "kg")] for n, p in heat["places"].items()}  # fmt: skip
    head = [("Place", 2.2), (c.head("Warmest", "K"), 1), (c.head("Limit", "K"), 0.9), ("When the snow is", 1.2),
            ("Above the limit", 1.1), ("Vents shut", 1.3), (c.head("Snow wall, last year", "K"), 1.1),
            (c.head("Frost in a year", "kg"), 1)]  # fmt: skip
    return [
        blocks.heading("Air of trenches through the year"),
        blocks.figure("Air by month", reading, _air_chart(heat, groups, c)),
        blocks.table(month_head(f"As expected, warmest year [{_degree(c)}]"),
                     [["Surface", *c.cells(heat["surface"], "K")], *rows_alike(temperatures)], right=BY_MONTH),
        blocks.table(head, rows_alike(facts), right=(1, 2, 6, 7)),
        blocks.note(f"Warmest: the highest month over the design life and over all scenarios "
                    f"({', '.join(heat['scenarios'])}). Frost: water that leaks out of buildings and freezes there."),
    ]  # fmt: skip


def _air_chart(heat: Plain, groups: Sequence[tuple[list[str], Plain]], c: Columns) -> str:
    chosen = list(groups[: LINES - 1])
    if rest := groups[LINES - 1 :]:
        chosen.append(min(rest, key=lambda group: max(group[1]["air_high"])))
    limits: dict[float, list[str]] = {}
    for names, place in chosen:
        limits.setdefault(place["limit"], []).extend(names)
    everything = [t for p in heat["places"].values() for t in (*p["air"], *p["air_high"])]
    reach = max(everything) + 0.5 * (max(everything) - min(everything))  # a limit far above says nothing in a picture
    said = [(c.value(at, "K"), "limit" if len(limits) == 1 else f"limit: {_few(names)}")
            for at, names in limits.items() if at <= reach or at == min(limits)]  # fmt: skip

    span = c.row(everything, "K")

    def chart(key: str, title: str) -> dict[str, Any]:
        everywhere = [c.row(p[key], "K") for p in heat["places"].values()]
        band = (tuple(map(min, zip(*everywhere, strict=True))), tuple(map(max, zip(*everywhere, strict=True))))
        lines = [(_few(names), c.row(place[key], "K")) for names, place in chosen]
        return month_chart(title, f"air [{_degree(c)}]" if key == "air" else "", lines, said, band, span=span)

    return drawn([chart("air", "As expected, warmest year"), chart("air_high", "Highest of life and scenarios")])


def _change(heat: Plain, c: Columns) -> list[blocks.Block]:
    above = [n for n, p in heat["places"].items() if p["warmest"] > p["limit"]]
    made: list[blocks.Block] = [blocks.heading("What to change")]
    if heat["remedies"]:
        rows = [[r["place"], r["change"].replace("degC", "°C"), f"{100 * r['amount']:.0f} %" if r["unit"] == "1"
                 else shown(r["amount"], r["unit"], c.system)] for r in heat["remedies"]]  # fmt: skip
        made += [blocks.note("Each change alone would bring the place to its limit."),
                 blocks.table([("Place", 1), ("Change", 2.4), ("By how much", 0.9)], rows, right=(2,))]  # fmt: skip
    elif above:
        made.append(blocks.note(f"No single change was found that brings {together(above)} to the limit."))
    elif heat["places"]:
        made.append(blocks.note("The air of every place stays at or below its limit: nothing has to change."))
    return made if len(made) > 1 else []


def _buildings(heat: Plain, c: Columns) -> list[blocks.Block]:
    buildings = heat["buildings"]
    if not buildings:
        return [blocks.heading("Heat of buildings"), blocks.note("No building in the file is heated.")]
    ways = list(dict.fromkeys(way for b in buildings.values() for way in b["losses"]))
    facts = {n: [b["place"], c.cell(b["temperature"], "K"), f"{b['transmittance']:.2f}",
                 *c.cells([b["losses"].get(way) for way in ways], "W"), c.cell(b["gains"], "W"),
                 c.cell(b["peak"], "W")] for n, b in buildings.items()}  # fmt: skip
    head = [("Building", 1.7), ("Place", 1), (c.head("Rooms", "K"), 0.8), ("Loss [W/m²/K]", 0.9),
            *((f"{way[0].upper()}{way[1:]} [kW]", 0.95) for way in ways), ("People, lamps, things [kW]", 0.95),
            ("Coldest month, at worst [kW]", 1.05)]  # fmt: skip
    months = {n: c.cells(b["demand"], "W") for n, b in buildings.items()}
    rows = rows_alike(months)
    everything = total([b["demand"] for b in buildings.values()])
    mass = fuel_kind(heat["fuel"])
    station = [
        ["Heat wanted [kW]", *c.cells(everything, "W")],
        ["Waste heat used [kW]", *c.cells(heat["waste_used"], "W")],
        [c.head("Fuel burnt", mass), *c.cells(heat["fuel"], mass)],
    ]
    if heat["short"]:
        station.append(["Not met [kW]", *c.cells(total(list(heat["short"].values())), "W")])
    reading = f"{c.say(sum(everything) / 12, 'W')} on average in the first year, as expected."
    short = f"No heater meets the whole demand of {together(list(heat['short']))}."
    return [
        blocks.heading("Heat of buildings, and fuel"),
        blocks.figure("Heat and fuel by month", reading, _demand_chart(heat, c)),
        blocks.table(month_head("Whole station"), station, right=BY_MONTH),
        *([blocks.note(short)] if heat["short"] else []),
        blocks.table(month_head("Each building [kW]"), rows, right=BY_MONTH),
        blocks.table(head, rows_alike(facts), right=range(2, len(head))),
        blocks.note("Buildings that read the same share a line; the numbers are those of one of them."),
    ]


def _demand_chart(heat: Plain, c: Columns) -> str:
    """Heat wanted, the buildings that take most each with its tone, and fuel beside it."""
    groups = [(names, total([heat["buildings"][n]["demand"] for n in names]))
              for names, _ in alike({n: c.cells(b["demand"], "W") for n, b in heat["buildings"].items()})]  # fmt: skip
    groups.sort(key=lambda group: -sum(group[1]))
    parts = [(_few(names), c.row(row, "W")) for names, row in groups[: len(TONES) - 2]]
    if rest := groups[len(TONES) - 2 :]:
        parts.append(("all others", c.row(total([row for _, row in rest]), "W")))
    mass = fuel_kind(heat["fuel"])
    fuel = [("fuel", c.row(heat["fuel"], mass))]
    return drawn([stacked_months("Heat wanted", "kW", parts),
                  stacked_months("Fuel burnt for heating", unit_text(c.unit(mass)), fuel)])  # fmt: skip


def _floors(heat: Plain, limit: float | None, c: Columns) -> list[blocks.Block]:
    buildings = heat["buildings"]
    if not buildings:
        return []
    facts = {n: [c.cell(min(b["gap"]), "K"), c.cell(max(b["gap"]), "K"), c.cell(b["floor_surface"], "K"),
                 c.cell(b["dew_point"], "K"), c.cell(b["snow_floor"], "K"), c.cell(limit, "K")]
             for n, b in buildings.items()}  # fmt: skip
    head = [("Building", 2.2), (c.head("Gap, coldest", "K"), 1), (c.head("Gap, warmest", "K"), 1),
            (c.head("Floor inside, coldest", "K"), 1.1), (c.head("It sweats below", "K"), 1),
            (c.head("Snow under it, warmest", "K"), 1.1), (c.head("Limit of that", "K"), 1)]  # fmt: skip
    years = [
        y for y in (1, 2, 3, 5, 7, 10, 15, 20, 30) if y <= min(len(b["snow_floor_years"]) for b in buildings.values())
    ]
    snow = {n: c.cells([b["snow_floor_years"][y - 1] for y in years], "K") for n, b in buildings.items()}
    worst = max(buildings, key=lambda n: buildings[n]["snow_floor"])
    reading = (f"{worst}, where the snow gets warmest: {shown(buildings[worst]['snow_floor'], 'K', c.system)} at worst "
               f"in the design life, limit {shown(limit, 'K', c.system)}.")  # fmt: skip
    return [
        blocks.heading("Gaps, floors and the snow under them"),
        blocks.table(head, rows_alike(facts), right=range(1, len(head))),
        blocks.figure("Snow grows warmer with the years", reading, _snow_chart(heat, worst, limit, c)),
        blocks.table([(f"Snow right under it, warmest [{_degree(c)}]", 2.4), *((f"year {y}", 1) for y in years)],
                     rows_alike(snow), right=range(1, len(years) + 1)),
    ]  # fmt: skip


def _snow_chart(heat: Plain, worst: str, limit: float | None, c: Columns) -> str:
    def line(name: str, values: Sequence[float]) -> Line:
        return Line(name, tuple((i + 1.0, v) for i, v in enumerate(c.row(values, "K"))))

    building = heat["buildings"][worst]
    place = heat["places"].get(building["place"])
    under = [line("right under it, warmest of the year", building["snow_floor_years"]),
             *(line(f"{shown(depth, 'm', c.system)} under it, mean", row)
               for depth, row in zip(DEPTHS, building["snow_below_years"], strict=False))]  # fmt: skip
    stands = [] if limit is None else [(c.value(limit, "K"), "limit")]
    charts = [xy_chart("Under " + worst, "year", f"snow [{_degree(c)}]", under, stands, end=len(under[0].points))]
    if place:
        around = [line("air, mean", place["air_years"]), line("snow wall, mean", place["wall_years"])]
        charts.append(xy_chart(f"Round {building['place']}", "year", "", around, end=len(around[0].points)))
    return drawn(charts)


def _flows(heat: Plain, c: Columns) -> list[blocks.Block]:
    rows = [[f"{way[0].upper()}{way[1:]}", *c.cells(row, "W")] for way, row in heat["flows"].items() if any(row)]
    if not rows:
        return []
    out = f"In and out agree to {heat['residual']:.0e} of a year's heat."
    return [blocks.heading("Where the heat goes"), blocks.note(f"First year, as expected; less than zero: out. {out}"),
            blocks.table(month_head("Into the station [kW]"), rows, right=BY_MONTH)]  # fmt: skip


def _frost(heat: Plain, place: str) -> float:
    return sum(sum(b["frost"]) for b in heat["buildings"].values() if b["place"] == place)


def _months(names: Sequence[str]) -> str:
    """Months in a row, as a span where one follows the other."""
    short = [n[:3] for n in names]
    at = [MONTHS.index(n) for n in short]
    if len(at) > 2 and at == list(range(at[0], at[-1] + 1)):
        return f"{short[0]} to {short[-1]}"
    return ", ".join(short) or "–"


def _few(names: Sequence[str]) -> str:
    """Names for a legend, cut where they are many."""
    text = together(names)
    return text if len(text) <= 34 else f"{together(names[:3])} and {len(names) - 3} alike"


def _degree(c: Columns) -> str:
    return unit_text(c.unit("K"))
