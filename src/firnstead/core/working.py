"""Workings: put a step's numbers into its formula, on paper and on the screen, and work out its value.

Numbers are put in as SI values. Only k, M and G are used as prefixes, and only on Pa, N, W and J; every other
power of ten is written out, so that an empirical formula in SI gives its value when it is keyed in as it stands.
"""

from __future__ import annotations

import math
import re

from firnstead.core.errors import FormulaError
from firnstead.core.formula import ATOM, PRODUCT, SUM, Node, parse, plain_name, value_of, write
from firnstead.core.results import Step
from firnstead.core.units import SHOWN, number_text, show, unit_text

_PREFIXED = re.compile(r"(Pa|N|W|J)(?![A-Za-z0-9])")


def evaluate(step: Step) -> float:
    """Put the inputs into the formula and give its value in SI.

    >>> evaluate(Step("p", "2 F/(A + B)", (("F", 6.0, "N"), ("A", 1.0, "m2"), ("B", 2.0, "m2")), 4.0, "Pa", "statics"))
    4.0
    """
    if not step.formula:
        raise FormulaError(f"the step {step.symbol!r} has no formula; its value comes from: {step.text or '?'}")
    values = _inputs(step)
    try:
        value = value_of(parse(step.formula), {name: number for name, (number, _) in values.items()})
    except KeyError as name:
        raise _missing(str(name.args[0]), step) from None
    except FormulaError:
        raise
    except (ArithmeticError, ValueError) as why:
        raise FormulaError(f"the formula {step.formula!r} gives no number with these inputs ({why})") from why
    if not math.isfinite(value):
        raise FormulaError(f"the formula {step.formula!r} gives no finite number with these inputs")
    return value


def numbers_put_in(step: Step) -> str:
    """The formula as typst mathematics with numbers and units in place of names; empty without a formula.

    >>> numbers_put_in(Step("p", "F/A", (("F", 2000.0, "N"), ("A", 0.5, "m2")), 4000.0, "Pa", "statics"))
    '(2 "kN")/(0.5 "m²")'
    """
    return _with_numbers(step, maths=True, times=" dot ") if step.formula else ""


def formula_maths(step: Step) -> str:
    """The formula as typst mathematics, with no fraction too small to read.

    >>> formula_maths(Step("x", "a/b c^(d/f)", (), 0.0, "1", "statics"))
    '(a)/(b) c^(d slash f)'
    """
    return write(parse(step.formula), lambda name: (name.text, ATOM), True, " ")[0] if step.formula else ""


def plain(step: Step, system: str = "metric") -> str:
    """The step as one line of plain text: symbol = formula = numbers put in = value [source].

    >>> plain(Step("sigma", "F/A", (("F", 2000.0, "N"), ("A", 0.5, "m2")), 4000.0, "Pa", "statics"))
    'σ = F/A = 2 kN/(0.5 m²) = 4 kPa [statics]'
    """
    symbol, value = plain_name(step.symbol), value_text(step, system)
    source = f" [{step.source}]" if step.source else ""
    if not step.formula:
        how = f" ({step.text})" if step.text else ""
        given = f", from {given_text(step)}" if step.inputs else ""
        return f"{symbol} = {value}{source}{how}{given}"
    formula = write(parse(step.formula), lambda name: (plain_name(name.text), ATOM), False, " ")[0]
    chain = " = ".join(dict.fromkeys([symbol, formula, _with_numbers(step, maths=False, times=" · "), value]))
    return (f"{step.text}: " if step.text else "") + chain + source


def given_text(step: Step) -> str:
    """The inputs of a step in a row, for steps without a formula."""
    return ", ".join(f"{plain_name(name)} = {quantity_text(value, unit)}" for name, value, unit in step.inputs)


def quantity_text(value: float, unit: str) -> str:
    """An SI quantity as it is put into a formula, in plain text.

    >>> quantity_text(1.372e8, "Pa"), quantity_text(0.00329, "m2/m"), quantity_text(0.45, "m")
    ('137.2 MPa', '3.29×10⁻³ m²/m', '0.45 m')
    """
    number, power, name = _scaled(value, unit)
    raised = str(power).translate(str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"))
    space = "" if name in ("", "°") else " "
    return number + (f"×10{raised}" if power else "") + space + name


def quantity_maths(value: float, unit: str) -> str:
    """An SI quantity as it is put into a formula, in typst mathematics.

    >>> quantity_maths(0.00329, "m2/m")
    '3.29 times 10^(-3) "m²/m"'
    """
    number, power, name = _scaled(value, unit)
    space = "" if name == "°" else " "
    return number + (f" times 10^({power})" if power else "") + (f'{space}"{name}"' if name else "")


def value_text(step: Step, system: str = "metric") -> str:
    """The value of a step in SI, with the reader's unit behind it where that is another one."""
    exact, other = quantity_text(step.value, step.unit), displayed(step, system)
    return f"{exact} ({other})" if other else exact


def displayed(step: Step, system: str = "metric") -> str:
    """The value in the reader's unit; empty where that is the SI text itself.

    A temperature stays in kelvin: it may be a difference, which the offset of a degree scale would spoil.
    """
    if step.unit not in SHOWN or step.unit == "K" or step.value == 0:
        return ""
    number, _, unit = show(step.value, step.unit, system, 4).partition(" ")
    shown = f"{number} {unit_text(unit)}".strip()
    return "" if shown.replace(",", "") == quantity_text(step.value, step.unit) else shown


def _with_numbers(step: Step, maths: bool, times: str) -> str:
    values = _inputs(step)

    def leaf(node: Node) -> tuple[str, int]:
        if node.text == "pi" and "pi" not in values:
            return ("pi" if maths else "π"), ATOM
        if node.text not in values:
            raise _missing(node.text, step)
        value, unit = values[node.text]
        text = quantity_maths(value, unit) if maths else quantity_text(value, unit)
        return text, SUM if value < 0 else PRODUCT if any(_scaled(value, unit)[1:]) else ATOM

    return write(parse(step.formula), leaf, maths, times)[0]


def _scaled(value: float, unit: str) -> tuple[str, int, str]:
    """Number, power of ten and unit as texts; see the head of this module for the rule of prefixes."""
    size, name, power = abs(value), unit_text(unit), 0
    if _PREFIXED.match(unit) and 1e3 <= size < 1e12:
        prefix, factor = ("G", 1e9) if size >= 1e9 else ("M", 1e6) if size >= 1e6 else ("k", 1e3)
        value, name = value / factor, prefix + name
    elif math.isfinite(value) and value == int(value) and size < 1e6:
        return str(int(value)), 0, name  # a count keeps all its digits
    elif math.isfinite(value) and not 0.01 <= size < 1e4:
        power = 3 * math.floor(math.log10(size) / 3)
        value /= 10.0**power
    return number_text(value, 4).replace(",", ""), power, name


def _inputs(step: Step) -> dict[str, tuple[float, str]]:
    values: dict[str, tuple[float, str]] = {}
    for name, value, unit in step.inputs:
        if values.setdefault(name, (value, unit)) != (value, unit):
            raise FormulaError(f"the input {name!r} of {step.formula!r} is given twice with different values")
    return values


def _missing(name: str, step: Step) -> FormulaError:
    known = ", ".join(row[0] for row in step.inputs) or "none"
    return FormulaError(f"the name {name!r} of the formula {step.formula!r} is not among the inputs ({known})")
