"""Quantities written with their unit in a file or on a page; plain SI floats everywhere else.

The table is fixed and small; a test compares it with an independent unit library.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches

from firnstead.core.errors import UnitError

FT = 0.3048  # exact: international foot [m]
IN = 0.0254
LB = 0.45359237  # exact: avoirdupois pound [kg]
G0 = 9.80665  # standard gravity [m/s2]
YEAR = 365.25 * 86400.0  # Julian year [s]
POUND_FORCE = LB * G0
GALLON = 231 * IN**3  # US liquid gallon [m3]


@dataclass(frozen=True)
class Unit:
    """value_SI = number * factor + offset; `kind` is the SI unit that the factor leads to."""

    kind: str
    factor: float
    offset: float = 0.0


def _table() -> dict[str, Unit]:
    rows: dict[str, dict[str, float]] = {
        "m": {"m": 1, "mm": 1e-3, "cm": 1e-2, "km": 1e3, "ft": FT, "in": IN, "yd": 3 * FT},
        "m2": {"m2": 1, "ft2": FT**2, "cm2": 1e-4, "mm2": 1e-6, "yd2": 9 * FT**2},
        "m3": {"m3": 1, "ft3": FT**3, "yd3": 27 * FT**3, "L": 1e-3, "gal": GALLON},
        "kg": {"kg": 1, "t": 1000, "g": 1e-3, "lb": LB, "ton_us": 2000 * LB},
        "s": {"s": 1, "min": 60, "h": 3600, "day": 86400, "wk": 7 * 86400, "yr": YEAR},
        "m/s": {"m/s": 1, "km/h": 1 / 3.6, "mph": 1609.344 / 3600, "kn": 1852 / 3600,
                "m/min": 1 / 60, "ft/min": FT / 60, "m/h": 1 / 3600, "m/day": 1 / 86400,
                "m/yr": 1 / YEAR, "mm/yr": 1e-3 / YEAR, "cm/yr": 1e-2 / YEAR, "ft/yr": FT / YEAR,
                "in/yr": IN / YEAR, "L/s/m2": 1e-3},
        "kg/m2/s": {"kg/m2/s": 1, "kg/m2/yr": 1 / YEAR},
        "m3/s": {"m3/s": 1, "m3/h": 1 / 3600, "yd3/h": 27 * FT**3 / 3600, "L/s": 1e-3,
                 "L/min": 1e-3 / 60, "L/h": 1e-3 / 3600, "gal/h": GALLON / 3600, "gal/day": GALLON / 86400,
                 "m3/day": 1 / 86400, "L/day": 1e-3 / 86400},
        "kg/m3": {"kg/m3": 1, "g/cm3": 1000, "Mg/m3": 1000, "t/m3": 1000, "lb/ft3": LB / FT**3},
        "Pa": {"Pa": 1, "hPa": 1e2, "kPa": 1e3, "MPa": 1e6, "GPa": 1e9, "psi": POUND_FORCE / IN**2,
               "ksi": 1000 * POUND_FORCE / IN**2, "psf": POUND_FORCE / FT**2, "bar": 1e5},
        "N": {"N": 1, "kN": 1e3, "MN": 1e6, "lbf": POUND_FORCE, "kip": 1000 * POUND_FORCE},
        "N/m": {"N/m": 1, "kN/m": 1e3, "lbf/ft": POUND_FORCE / FT, "kip/ft": 1000 * POUND_FORCE / FT},
        "W": {"W": 1, "kW": 1e3, "MW": 1e6, "hp": 550 * FT * POUND_FORCE},
        "J": {"J": 1, "kJ": 1e3, "MJ": 1e6, "GJ": 1e9, "kWh": 3.6e6},
        "J/kg": {"J/kg": 1, "kJ/kg": 1e3, "MJ/kg": 1e6},
        "W/m2": {"W/m2": 1, "kW/m2": 1e3},
        "m2/kg": {"m2/kg": 1},
        "K": {"K": 1},  # an absolute temperature
        "deg": {"deg": 1, "rad": 57.29577951308232},
        "1": {"%": 1e-2, "ppm": 1e-6},
        "h/day": {"h/day": 1},
        "kg/s": {"kg/s": 1, "kg/h": 1 / 3600, "g/h": 1e-3 / 3600},
        "J/mol": {"J/mol": 1, "kJ/mol": 1000, "cal/mol": 4.184},
        "kg/m": {"kg/m": 1, "lb/ft": LB / FT},
        "J/kg/K": {"J/kg/K": 1, "kJ/kg/K": 1e3},
        "W/K": {"W/K": 1},
        "W/m": {"W/m": 1, "W/ft": 1 / FT},
        "W/m2/K": {"W/m2/K": 1},
        "J/m3": {"J/m3": 1, "MJ/L": 1e9, "MJ/m3": 1e6},
        "W/m/K": {"W/m/K": 1},
        "V": {"V": 1, "kV": 1e3},
        "A": {"A": 1, "kA": 1e3},
        "VA": {"VA": 1, "kVA": 1e3, "MVA": 1e6},
        "ohm/m": {"ohm/m": 1, "ohm/km": 1e-3},
        "1/s": {"1/s": 1, "1/h": 1 / 3600},
    }  # fmt: skip
    table = {name: Unit(kind, factor) for kind, row in rows.items() for name, factor in row.items()}
    table["degC"] = Unit("K", 1.0, 273.15)
    table["degF"] = Unit("K", 5 / 9, 273.15 - 32 * 5 / 9)
    return table


UNITS = _table()
_ALIASES = {"m³": "m3", "m²": "m2", "°C": "degC", "°F": "degF", "°": "deg", "kg/m³": "kg/m3",
            "l": "L", "hours/day": "h/day", "days": "day", "years": "yr", "year": "yr", "hr": "h",
            "hours": "h", "weeks": "wk", "week": "wk", "m/year": "m/yr", "yr.": "yr"}  # fmt: skip
_QUANTITY = re.compile(r"^\s*([+-]?(?:\d[\d,_]*\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(\S.*?)?\s*$")


def parse(text: object, kind: str) -> float:
    """Read ``"3.5 ft"`` as SI of `kind` (an SI unit such as ``m`` or ``kg/m3``; ``1`` for a share).

    >>> round(parse("3.5 ft", "m"), 4)
    1.0668
    >>> parse("-24 degC", "K")
    249.14999999999998
    """
    difference = kind == "dK"  # a temperature difference: the same units without their zero point
    kind = "K" if difference else kind
    fitting = [name for name, unit in UNITS.items() if unit.kind == kind]
    wanted = ", ".join(fitting[:6]) or "no unit"
    if isinstance(text, bool) or not isinstance(text, (str, int, float)):
        raise UnitError(f"{_short(text)} is not a quantity", f"Write a number and a unit ({wanted})")
    match = _QUANTITY.match(str(text))
    if match is None:
        raise UnitError(f"{_short(text)} is not a quantity", f"Write a number and a unit ({wanted})")
    number = float(match[1].replace(",", "").replace("_", ""))
    if number in (float("inf"), float("-inf")):
        raise UnitError(f"{_short(text)} is too large to be a quantity", "Check the number")
    name = match[2]
    if name is None:
        if kind == "1":
            return number
        raise UnitError(f"{_short(text)} has no unit", f"Write it with one of: {wanted}")
    name = _ALIASES.get(name, name)
    unit = UNITS.get(name)
    if unit is None:
        near = get_close_matches(name, fitting, n=1, cutoff=0.5)
        hint = f"Did you mean {near[0]}?" if near else f"Use one of: {wanted}"
        raise UnitError(f"the unit {name[:40]!r} is not known", hint)
    if unit.kind != kind:
        raise UnitError(f"{name!r} is a unit of another kind", f"Use one of: {wanted}")
    return number * unit.factor + (0.0 if difference else unit.offset)


def _short(text: object) -> str:
    shown = repr(text)
    return shown if len(shown) <= 60 else shown[:57] + "..."


def convert(value: float, unit: str) -> float:
    """Give an SI value in `unit`.

    >>> round(convert(1.0668, "ft"), 6)
    3.5
    """
    found = UNITS[unit]
    return (value - found.offset) / found.factor


# What a reader is shown for each SI unit: (metric, us); prefixes are chosen by size.
SHOWN: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "m": (("m", "mm"), ("ft", "in")),
    "m2": (("m2",), ("ft2",)),
    "m3": (("m3",), ("yd3", "ft3")),
    "kg": (("t", "kg"), ("ton_us", "lb")),
    "s": (("yr", "day", "h", "min", "s"), ("yr", "day", "h", "min", "s")),
    "m/s": (("m/s", "m/yr", "mm/yr"), ("ft/min", "ft/yr")),
    "m3/s": (("m3/h",), ("yd3/h",)),
    "kg/m3": (("kg/m3",), ("lb/ft3",)),
    "Pa": (("GPa", "MPa", "kPa", "Pa"), ("ksi", "psi", "psf")),
    "N": (("MN", "kN", "N"), ("kip", "lbf")),
    "N/m": (("kN/m", "N/m"), ("kip/ft", "lbf/ft")),
    "W": (("MW", "kW", "W"), ("hp",)),
    "W/m2": (("kW/m2", "W/m2"), ("kW/m2", "W/m2")),
    "J": (("GJ", "MJ", "kJ", "J"), ("GJ", "MJ", "kJ", "J")),
    "V": (("V",), ("V",)),
    "A": (("A",), ("A",)),
    "VA": (("kVA", "VA"), ("kVA", "VA")),
    "K": (("degC",), ("degF",)),
    "dK": (("K",), ("K",)),
    "deg": (("deg",), ("deg",)),
}


def shown_unit(value: float, unit: str, system: str = "metric") -> str:
    """Choose the unit in which a reader of `system` ("metric" or "us") sees this SI value.

    A unit that is not in SHOWN (blocks, h, day, 1/m) stays as it is: its value is in that unit already.
    """
    choices = SHOWN.get(unit, ((unit,), (unit,)))[0 if system == "metric" else 1]
    if unit not in SHOWN or (value == 0 and unit in choices):
        return unit
    return next((name for name in choices if abs(convert(value, name)) >= 1.0), choices[-1])


def show(value: float | None, unit: str, system: str = "metric", digits: int = 3) -> str:
    """Write an SI value for a reader.

    >>> show(1.37e8, "Pa")
    '137 MPa'
    >>> show(1.0668, "m", "us")
    '3.5 ft'
    >>> show(2.5, "day"), show(0.0, "Pa")
    ('2.5 day', '0 Pa')
    """
    if value is None:
        return "–"
    name = shown_unit(value, unit, system)
    number = convert(value, name) if unit in SHOWN else value
    text = number_text(number, digits)
    return text if name in ("1", "") else f"{text} {name}"


def unit_text(unit: str) -> str:
    """Write a unit for a reader: raised digits, degree signs, nothing for a bare number.

    >>> unit_text("kg/m3"), unit_text("degC"), unit_text("1")
    ('kg/m³', '°C', '')
    """
    plain = {"1": "", "degC": "°C", "degF": "°F", "deg": "°", "dK": "K", "ton_us": "short ton"}.get(unit, unit)
    return re.sub(r"(?<=[A-Za-z])[2-9]", lambda digit: "²³⁴⁵⁶⁷⁸⁹"[int(digit[0]) - 2], plain)


def number_text(number: float, digits: int = 3) -> str:
    """Write a number with `digits` significant digits, thousands kept, no exponent where it can be helped.

    >>> number_text(12345.678), number_text(0.012345), number_text(2.0)
    ('12,346', '0.0123', '2')
    """
    if number != number:
        return "not a number"
    if number == 0 or 1e-4 <= abs(number) < 1e7:
        places = max(0, digits - 1 - _magnitude(number))
        text = f"{number:,.{places}f}"
        return text.rstrip("0").rstrip(".") if "." in text else text
    return f"{number:.{digits - 1}e}"


def _magnitude(number: float) -> int:
    return 0 if number == 0 else int(f"{abs(number):e}".split("e")[1])
