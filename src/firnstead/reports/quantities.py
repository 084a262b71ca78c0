"""What a place takes: snow, passes, hours, steel, planks; and what its undercut saves, side by side."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firnstead.reports import blocks
from firnstead.reports.words import shown

Plain = Mapping[str, Any]
_PASSES = (("Pass", 1.0), ("Part", 1.6), ("Miller", 2.0), ("From", 1.4), ("To", 1.4), ("Width", 1.4), ("Runs", 1.0),
           ("Snow in place", 1.9), ("Throws", 1.2), ("Hours", 1.2))  # fmt: skip


def place_quantities(results: Plain, place: str, system: str) -> list[tuple[str, str]]:
    """Label and value of each quantity of a place, from the results in their machine-readable form."""
    rows: list[tuple[str, str]] = []
    cut = results.get("cutting", {}).get("places", {}).get(place)
    if cut:
        snow = cut["snow"]
        rows += [
            ("Length cut", shown(cut["length"], "m", system)),
            ("Snow in place", f"{shown(snow['in_place'], 'm3', system, 4)}, {shown(snow['mass'], 'kg', system, 4)}"),
            ("The same as thrown", shown(snow["thrown"], "m3", system, 4)),
            ("For the roof's cover", shown(snow["cover"], "kg", system, 4)),
            ("Cut by hand", f"{shown(cut['hand_volume'], 'm3', system)}, {cut['hand_hours']:,.0f} person-hours"),
            ("Miller hours", ", ".join(f"{name} {hours:,.1f} h" for name, hours in cut["hours"].items())),
            ("Keep machines back from the edge", shown(cut["keep_back"], "m", system)),
        ]
    roof = results.get("roof", {}).get("places", {}).get(place)
    if roof:
        if roof["sheets"]:
            steel = roof["steel_per_metre"] * roof["length"]
            rows += [
                ("Arch sheets", f"{roof['sheets']:,}, {shown(steel, 'kg', system)} of steel"),
                ("Fastener sets", f"{roof['fasteners']:,}"),
                ("Planks", f"{roof['planks']:,}"),
            ]
        rows.append(("Cover as placed", shown(roof["cover_volume"], "m3", system)))
    for wall in results.get("walls", {}).get("end_walls", {}).values():
        if wall["place"] == place:
            rows.append(("Snow blocks to cut", f"{wall['blocks_cut']:,} for the wall at the {wall['at']}"))
    return rows


def undercut_rows(results: Plain, place: str, system: str) -> list[tuple[str, str, str]]:
    """The undercut beside a straight cut with the same floor: what, as designed, difference; empty without one."""
    cut = results.get("cutting", {}).get("places", {}).get(place)
    gain = cut["undercut"] if cut else None
    if not gain:
        return []
    steel = gain["steel_saved"]
    return [
        ("Span of the arch", shown(gain["span"], "m", system),
         f"a straight cut needs {shown(gain['span_straight'], 'm', system)}"),
        ("Sheet saved", "–", shown(gain["sheet_saved"], "m2", system)),
        ("Steel saved", "–", shown(steel, "kg", system) if steel is not None else "not known"),
        ("Snow that need not be cut", "–", shown(gain["volume_saved"], "m3", system)),
        ("Passes", str(len(cut["plan"])), f"{gain['passes_more']:+d} against the straight cut"),
        ("Miller hours", f"{sum(row['hours'] for row in cut['plan']):,.1f} h",
         f"{-gain['hours_saved']:+.1f} h against the straight cut"),
    ]  # fmt: skip


def quantity_blocks(document: Plain, place: str) -> list[blocks.Block]:
    """Quantities, the cut plan and the undercut's gain of a place as blocks of its chapter."""
    results, system = document["results"], document["station"]["units"]
    found: list[blocks.Block] = []
    rows = place_quantities(results, place, system)
    if rows:
        found += [blocks.heading("Quantities", 3), blocks.table((("What", 1.0), ("How much", 1.6)), rows)]
    cut = results.get("cutting", {}).get("places", {}).get(place)
    if cut:
        found += [blocks.heading("Cut plan, pass by pass", 3), blocks.table(_PASSES, [
            [str(r["number"]), r["part"], r["machine"], shown(r["top"], "m", system), shown(r["bottom"], "m", system),
             shown(r["width"], "m", system), str(r["runs"]), shown(r["volume"], "m3", system, 4), str(r["throws"]),
             f"{r['hours']:,.1f}"] for r in cut["plan"]], right=(0, 3, 4, 5, 6, 7, 8, 9))]  # fmt: skip
    gain = undercut_rows(results, place, system)
    if gain:
        found += [blocks.heading("Undercut against a straight cut with the same floor", 3),
                  blocks.table((("What", 1.2), ("As designed", 1.0), ("Saved or needed", 1.6)), gain)]  # fmt: skip
    return found
