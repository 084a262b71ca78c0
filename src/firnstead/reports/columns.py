"""Numbers of the utilities in columns: one unit for each kind of quantity, and names that share a row."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from firnstead.core.units import convert, number_text, unit_text
from firnstead.reports.words import column_unit, shown

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
WATER = 1000.0  # kg of water counted as one m3 in these columns
# Kinds that the other lists do not have: (metric, us). Electric power and heat are in kW for both.
_UNITS = {"W": ("kW", "kW"), "J": ("kWh", "kWh"), "s": ("h", "h"), "W/m": ("W/m", "W/ft"), "1": ("%", "%"),
          "heavy kg": ("t", "ton_us"), "draw": ("m3/day", "gal/day"), "tank": ("m3", "gal")}  # fmt: skip
_POINT = ("W", "heavy kg", "draw")  # below 100 with two digits after the point, or one, so that columns line up


@dataclass(frozen=True)
class Columns:
    """Writes SI values for readers of one system of units."""

    system: str

    def unit(self, kind: str) -> str:
        """The unit of a column; ``draw`` is water in kg/s, ``heavy kg`` a large mass, ``tank`` a volume of water."""
        return _UNITS[kind][self.system == "us"] if kind in _UNITS else column_unit(kind, self.system)

    def head(self, title: str, kind: str) -> str:
        """A title with its unit, to break over two lines if it must.

        >>> Columns("us").head("Length", "m")
        'Length [ft]'
        """
        return f"{title} [{unit_text(self.unit(kind))}]"

    def value(self, value: float, kind: str) -> float:
        """An SI value in the unit of its column.

        >>> Columns("metric").value(0.1, "draw")
        8.64
        """
        return round(convert(value / WATER if kind == "draw" else value, self.unit(kind)), 9)

    def row(self, values: Sequence[float], kind: str) -> tuple[float, ...]:
        """SI values in the unit of their column."""
        return tuple(self.value(v, kind) for v in values)

    def cell(self, value: float | None, kind: str, digits: int = 3) -> str:
        """A value as it stands in its column; temperatures to a tenth.

        >>> Columns("metric").cell(251.37, "K"), Columns("metric").cell(None, "W"), Columns("us").cell(1000.0, "W")
        ('-21.8', '–', '1.00')
        """
        if value is None:
            return "–"
        number = self.value(value, kind)
        if kind == "K":
            return f"{number + 0.0:.1f}"
        if kind in _POINT and 0.01 <= abs(number) < 100.0:
            return f"{number:.{2 if abs(number) < 9.995 else 1}f}"
        return number_text(number, digits)

    def cells(self, values: Sequence[float | None], kind: str, digits: int = 3) -> list[str]:
        """Values as they stand in their column."""
        return [self.cell(v, kind, digits) for v in values]

    def say(self, value: float | None, unit: str) -> str:
        """A value with its unit, for a sentence; electric power and heat in kW or W for every reader."""
        return shown(value, unit, "metric" if unit == "W" else self.system)


def together(names: Sequence[str]) -> str:
    """Names in a row, the words that they share written once.

    >>> together(["North 1", "North 2", "Main", "Hut 4 fans", "Hut 5 fans"])
    'North 1, 2, Main, Hut 4, 5 fans'
    """
    said: list[tuple[str, list[str], str]] = []
    for name in names:
        match = re.fullmatch(r"(.+ )(\d+)( .+)?", name)
        before, number, after = (match[1], match[2], match[3] or "") if match else (name, "", "")
        if match and said and (said[-1][0], said[-1][2]) == (before, after):
            said[-1][1].append(number)
        else:
            said.append((before, [number], after))
    return ", ".join(before + ", ".join(numbers) + after for before, numbers, after in said)


def alike(rows: Mapping[str, Sequence[str]]) -> list[tuple[list[str], list[str]]]:
    """Names whose cells read the same, in the order in which they first come, with these cells.

    >>> alike({"a": ["1"], "b": ["2"], "c": ["1"]})
    [(['a', 'c'], ['1']), (['b'], ['2'])]
    """
    found: dict[tuple[str, ...], list[str]] = {}
    for name, cells in rows.items():
        found.setdefault(tuple(cells), []).append(name)
    return [(names, list(cells)) for cells, names in found.items()]


def rows_alike(rows: Mapping[str, Sequence[str]]) -> list[list[str]]:
    """Rows of a table in which names with the same cells stand together."""
    return [[together(names), *cells] for names, cells in alike(rows)]


def fuel_kind(*rows: Sequence[float]) -> str:
    """The kind of a table of masses [kg]: heavy where kilograms would not fit.

    >>> fuel_kind((900.0,)), fuel_kind((900.0,), (40e3,))
    ('kg', 'heavy kg')
    """
    return "heavy kg" if max((v for row in rows for v in row), default=0.0) >= 10e3 else "kg"


def month_head(first: str, width: float = 2.4) -> list[tuple[str, float]]:
    """Head of a table with a name and twelve months."""
    return [(first, width), *((m, 0.86) for m in MONTHS)]


BY_MONTH = tuple(range(1, 13))
"""The columns of numbers of such a table."""


def total(rows: Sequence[Sequence[float]]) -> tuple[float, ...]:
    """The sum of rows of twelve months.

    >>> total([(1.0, 2.0), (3.0, 4.0)])
    (4.0, 6.0)
    """
    return tuple(map(sum, zip(*rows, strict=True)))
