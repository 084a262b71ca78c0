"""The packing list as flat rows, for CSV and spreadsheet."""

from __future__ import annotations

from firnstead.cargo.results import CargoResult


def packing_rows(result: CargoResult) -> list[dict[str, str | int | float]]:
    """One row per line of the packing list; the keys are the column heads, with units.

    Unknown sizes are empty texts. The order is that of need.
    """
    return [
        {
            "no": number,
            "part": line.part,
            "what": line.what,
            "pieces": line.pieces,
            "needed": line.needed,
            "spares": line.spares,
            "mass each [kg]": round(line.mass_each, 3),
            "mass [kg]": round(line.mass, 3),
            "volume each [m3]": round(line.volume_each, 5),
            "volume [m3]": round(line.volume, 4),
            "longest [m]": round(line.longest, 3) if line.longest is not None else "",
            "by place": _counts(line.places),
            "by kit": _counts(line.kits),
            "travels apart": "yes" if line.hazardous else "",
            "outsize": "yes" if line.outsize else "",
            "carried by": ", ".join(line.carried_by),
            "needed at step": line.first_step,
            "in the station file": "yes" if line.listed else "worked out",
        }
        for number, line in enumerate(result.lines, 1)
    ]


def _counts(rows: tuple[tuple[str, int], ...]) -> str:
    return "; ".join(f"{name}: {count}" for name, count in rows)
