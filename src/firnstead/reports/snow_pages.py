"""The chapter on the snow: charts against depth, the table under them, and milled snow."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from typing import Any

from firnstead.core.cautions import caution_for
from firnstead.core.units import convert, number_text, unit_text
from firnstead.reports import blocks
from firnstead.reports.charts import Band, Line, depth_chart, side_by_side, svg
from firnstead.reports.words import column_unit, in_column, shown

Plain = Mapping[str, Any]
DEEPEST = 30.0  # depth to which the charts go [m]; deeper snow carries nothing here
STEPS = {"metric": (0, 0.5, 1, 1.5, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 25, 30),
         "us": (0, 2, 4, 6, 8, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100)}  # fmt: skip


def snow_chapter(document: Plain) -> dict[str, Any]:
    """Title and blocks; no blocks where the assessment holds no snow."""
    snow = document["results"].get("snow")
    if not snow:
        return {"title": "Snow", "blocks": []}
    system, column = document["station"]["units"], snow["column"]
    sentence = (f"Density from {snow['density_from']}; {shown(550.0, 'kg/m3', system)} is reached at a depth of "
                f"{shown(snow['depth_of_550'], 'm', system)}.")  # fmt: skip
    reading = ("Natural snow of the site. Broken lines and bands are the spread that the sources show; "
               "design with the weaker edge.")  # fmt: skip
    return {"title": "Snow", "blocks": [
        blocks.say(sentence),
        blocks.caution(caution_for("snow")),
        *(blocks.note(words) for words in snow["notes"]),
        blocks.figure("Density, temperature and strength against depth", reading, _charts(column, system)),
        blocks.heading("Numbers of the charts"),
        _table(column, system),
        blocks.heading("Milled snow"),
        blocks.table([("What", 2), ("Value", 1)], _milled(snow["milled"], system), right=(1,)),
        *(blocks.note(f"Its strength cannot be told: {why}.") for why in [snow["milled"]["unknown"]] if why),
    ]}  # fmt: skip


def _charts(column: Plain, system: str) -> str:
    depth = [in_column(d, "m", system) or 0.0 for d in column["depth"]]
    deepest = min(depth[-1], in_column(DEEPEST, "m", system) or DEEPEST)
    count = min(len(depth), bisect_left(depth, deepest) + 1)

    def values(name: str, unit: str) -> list[float]:
        return [in_column(v, unit, system) or 0.0 for v in column[name][:count]]

    def line(name: str, field: str, unit: str, dash: int) -> Line:
        return Line(name, tuple(zip(values(field, unit), depth, strict=False)), dash)

    axis = f"depth [{unit_text(column_unit('m', system))}]"
    density = depth_chart(
        "Density", unit_text(column_unit("kg/m3", system)), axis, [line("density", "density", "kg/m3", 0)],
        Band("spread", _rows(depth, values("density_low", "kg/m3"), values("density_high", "kg/m3"))),
        deepest, 165)  # fmt: skip
    temperature = depth_chart(
        "Temperature", unit_text(column_unit("K", system)), axis,
        [line("mean of the year", "mean_temperature", "K", 0), line("warmest", "warmest", "K", 1),
         line("coldest", "coldest", "K", 2)],
        None, deepest, 165)  # fmt: skip
    strength = depth_chart(
        "Compressive strength", unit_text(column_unit("Pa", system)), axis, [line("middle", "ucs_middle", "Pa", 0)],
        Band("band", _rows(depth, values("ucs_low", "Pa"), values("ucs_high", "Pa"))), deepest, 165)  # fmt: skip
    return svg(side_by_side(density, temperature, strength))


def _rows(
    depth: Sequence[float], low: Sequence[float], high: Sequence[float]
) -> tuple[tuple[float, float, float], ...]:
    return tuple(zip(depth, low, high, strict=False))


def _table(column: Plain, system: str) -> blocks.Block:
    depth_unit = column_unit("m", system)
    fields = (("density", "kg/m3"), ("density_low", "kg/m3"), ("density_high", "kg/m3"), ("overburden", "Pa"),
              ("mean_temperature", "K"), ("warmest", "K"), ("ucs_low", "Pa"), ("ucs_high", "Pa"), ("tensile_low", "Pa"),
              ("shear_low", "Pa"))  # fmt: skip
    names = ("Density", "Density, low", "Density, high", "Over\u00adburden", "Mean temp.", "Warmest", "Strength, low",
             "Strength, high", "Tension, low", "Shear, low")  # fmt: skip
    head = [(f"Depth [{unit_text(depth_unit)}]", 0.8)]
    head += [(f"{n} [{unit_text(column_unit(u, system))}]", 1.0) for n, (_, u) in zip(names, fields, strict=True)]
    rows = []
    for step in STEPS[system]:
        at = step * (1.0 if depth_unit == "m" else 1 / convert(1.0, depth_unit))
        if at > column["depth"][-1]:
            break
        cells = (in_column(interpolated(column["depth"], column[name], at), unit, system) for name, unit in fields)
        rows.append([f"{step:g}", *(number_text(c, 3) for c in cells if c is not None)])
    return blocks.table(head, rows, right=range(len(head)))


def interpolated(places: Sequence[float], values: Sequence[float], at: float) -> float:
    """The value at `at` on the straight lines between known points; the ends hold beyond them.

    >>> interpolated([0.0, 1.0, 3.0], [10.0, 20.0, 40.0], 2.0)
    30.0
    """
    right = min(max(bisect_left(places, at), 1), len(places) - 1)
    share = (at - places[right - 1]) / (places[right] - places[right - 1])
    return values[right - 1] + min(max(share, 0.0), 1.0) * (values[right] - values[right - 1])


def _milled(milled: Plain, system: str) -> list[list[str]]:
    return [
        ["Density as placed", shown(milled["density"], "kg/m3", system)],
        [
            "Strength never counted above (low end for well-bonded snow of that density)",
            shown(milled["envelope"], "Pa", system),
        ],
        [
            "Measured strength",
            shown(milled["measured_strength"], "Pa", system) if milled["measured_strength"] else "not measured",
        ],
        ["Age of the measured sample", shown(milled["measured_age"], "s", system) if milled["measured_age"] else "–"],
        ["Growth with age, exponent of time", f"{milled['exponent_low']:g} to {milled['exponent_high']:g}"],
    ]
