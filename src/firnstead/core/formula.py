"""The small grammar of formulas: read one, work it out, write it again.

A formula is typst mathematics, read the way typst typesets it, so that what is printed is what is computed:

    sum      = ["-"] product { ("+" | "-") product }
    product  = quotient { quotient }                      written with a space
    quotient = power { "/" power }
    power    = atom [ "^" ( number | letter | "(" sum ")" ) ]
    atom     = number | name | function "(" sum { "," sum } ")" | "(" sum ")"

A name is one letter or a greek name with at most one subscript: ``R``, ``sigma_b``, ``w_2``, ``q_"cr"``.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from firnstead.core.errors import FormulaError

_SMALL = """alpha beta gamma delta epsilon zeta eta theta iota kappa lambda mu nu xi omicron pi rho sigma tau upsilon
phi chi psi omega"""
GREEK = dict(zip(_SMALL.split(), "αβγδεζηθικλμνξοπρστυφχψω", strict=True))
GREEK |= {name.capitalize(): letter.upper() for name, letter in GREEK.items()}
FUNCTIONS: dict[str, Callable[..., float]] = {
    "sqrt": math.sqrt, "sin": math.sin, "cos": math.cos, "tan": math.tan, "exp": math.exp, "ln": math.log,
    "abs": abs, "min": min, "max": max}  # fmt: skip
SUM, PRODUCT, QUOTIENT, POWER, ATOM = 1, 2, 3, 4, 5  # how tightly a written part holds together
_DEEPEST = 40
_TOKEN = re.compile(
    r"""(?P<space>\s+)|(?P<number>\d+(?:\.\d+)?)|(?P<sign>[-+/^(),])"""
    r"""|(?P<name>(?P<base>[A-Za-z]+)(?:_(?P<sub>"[^"\\]+"|[A-Za-z]+|\d+))?)"""
)


@dataclass(frozen=True)
class Node:
    """A part of a formula: a number, a name, an operation (+ - / ^ product minus) or a function."""

    kind: str
    text: str = ""
    parts: tuple[Node, ...] = ()


@lru_cache(maxsize=4096)
def parse(formula: str) -> Node:
    """Read a formula; the error says what is wrong and how to write it.

    >>> parse("a/(b c)").kind
    '/'
    """
    return _Reader(formula).read()


def value_of(node: Node, values: Mapping[str, float]) -> float:
    """Work a formula out with the numbers of its names (pi is known)."""
    if node.kind == "number":
        return float(node.text)
    if node.kind == "name":
        return math.pi if node.text == "pi" and "pi" not in values else values[node.text]
    parts = [value_of(part, values) for part in node.parts]
    match node.kind:
        case "+":
            return parts[0] + parts[1]
        case "-":
            return parts[0] - parts[1]
        case "minus":
            return -parts[0]
        case "product":
            return math.prod(parts)
        case "/":
            return parts[0] / parts[1]
        case "^":
            return math.pow(parts[0], parts[1])
    return float(FUNCTIONS[node.kind](*parts))


def write(
    node: Node, leaf: Callable[[Node], tuple[str, int]], maths: bool, times: str, stroke: str = "/"
) -> tuple[str, int]:
    """Write a formula again, with what `leaf` gives (text, how tight it holds) in place of each name.

    With `maths` it is typst mathematics, else one line of plain text; `times` stands between factors.
    A division within a fraction or an exponent is written with a stroke: a second bar would be too small to read.
    """
    if node.kind == "number":
        return node.text, ATOM
    if node.kind == "name":
        return leaf(node)
    if node.kind == "^":
        base = write(node.parts[0], leaf, maths, times, stroke)
        power = write(node.parts[1], leaf, False, times, " slash " if maths else stroke)
        return f"{_wrap(base, ATOM)}^" + (f"({power[0]})" if maths or stroke != "/" else _wrap(power, ATOM)), POWER
    if node.kind == "/" and maths:  # typst drops these parentheses and draws a bar
        above, below = (write(part, leaf, False, times, " slash ")[0] for part in node.parts)
        return f"({above})/({below})", QUOTIENT
    done = [write(part, leaf, maths, times, stroke) for part in node.parts]
    match node.kind:
        case "/":  # a quantity with its unit may stand before the stroke as it is, not behind it
            top = PRODUCT if node.parts[0].kind == "name" else QUOTIENT
            return f"{_wrap(done[0], top)}{stroke}{_wrap(done[1], POWER)}", QUOTIENT
        case "product":
            return times.join(_wrap(part, PRODUCT) for part in done), PRODUCT
        case "minus":
            return f"-{_wrap(done[0], PRODUCT)}", SUM
        case "+" | "-":
            return f"{done[0][0]} {node.kind} {_wrap(done[1], PRODUCT)}", SUM
    return f"{node.kind}({', '.join(text for text, _ in done)})", ATOM


def plain_name(name: str) -> str:
    """A name as plain text; anything else is left as it is.

    >>> plain_name('sigma_"cr"'), plain_name("N_gamma"), plain_name("two words")
    ('σ_cr', 'N_γ', 'two words')
    """
    found = _TOKEN.fullmatch(name)
    if found is None or found["name"] is None:
        return name
    base, sub = GREEK.get(found["base"], found["base"]), (found["sub"] or "").strip('"')
    return f"{base}_{GREEK.get(sub, sub)}" if sub else base


def _wrap(part: tuple[str, int], needed: int) -> str:
    return part[0] if part[1] >= needed else f"({part[0]})"


class _Reader:
    """One pass of recursive descent over the tokens of a formula."""

    def __init__(self, formula: str) -> None:
        self.formula = formula
        self.tokens: list[tuple[str, str, int]] = []
        at = 0
        while at < len(formula):
            found = _TOKEN.match(formula, at)
            if found is None:
                raise self.wrong(at, f"{formula[at]!r} is not part of the grammar")
            if found["space"] is None:
                kind = "number" if found["number"] else "name" if found["name"] else found[0]
                self.tokens.append((kind, found[0], at))
            at = found.end()
        self.tokens.append(("end", "the end", len(formula)))
        self.at = self.depth = 0

    def wrong(self, at: int, what: str) -> FormulaError:
        return FormulaError(f"formula {self.formula!r}, character {at + 1}: {what}")

    @property
    def next(self) -> str:
        return self.tokens[self.at][0]

    def take(self, wanted: str = "") -> str:
        kind, text, at = self.tokens[self.at]
        if kind == "end" or (wanted and kind != wanted):
            raise self.wrong(at, f"{wanted or 'a number, a name or ('} is missing before {text}")
        self.at += 1
        return text

    def read(self) -> Node:
        node = self.sum()
        kind, text, at = self.tokens[self.at]
        if kind != "end":
            raise self.wrong(at, f"{text} does not belong here")
        return node

    def sum(self) -> Node:
        self.depth += 1
        if self.depth > _DEEPEST:
            raise self.wrong(self.tokens[self.at][2], "too many parentheses inside one another")
        if self.next == "-":
            self.take()
            node = Node("minus", parts=(self.product(),))
        else:
            node = self.product()
        while self.next in ("+", "-"):
            node = Node(self.take(), parts=(node, self.product()))
        self.depth -= 1
        return node

    def product(self) -> Node:
        factors = [self.quotient()]
        while self.next in ("number", "name", "("):
            factors.append(self.quotient())
        return factors[0] if len(factors) == 1 else Node("product", parts=tuple(factors))

    def quotient(self) -> Node:
        node = self.power()
        while self.next == "/":
            self.take()
            below = self.power()
            self.refuse_joined(below)
            node = Node("/", parts=(node, below))
        return node

    def power(self) -> Node:
        base = self.atom()
        if self.next != "^":
            return base
        self.take()
        kind, text, at = self.tokens[self.at]
        if kind not in ("number", "name", "(") or (kind == "name" and ("_" in text or text in FUNCTIONS)):
            raise self.wrong(at, "write the exponent as a number, a letter, or in parentheses")
        exponent = self.atom()
        self.refuse_joined(exponent)
        return Node("^", parts=(base, exponent))

    def refuse_joined(self, node: Node) -> None:
        """typst takes ``a/b(c)`` as a over b(c) but ``a/b (c)`` as (a/b) c: only the second is allowed."""
        at = self.tokens[self.at][2]
        if node.kind == "name" and self.next == "(" and self.formula[at - 1] not in " \t\n":
            raise self.wrong(at, f"put a space between {node.text} and (, or parentheses round both")

    def atom(self) -> Node:
        kind, text, at = self.tokens[self.at]
        if kind == "number":
            return Node("number", self.take())
        if kind == "(":
            self.take()
            node = self.sum()
            self.take(")")
            return node
        if kind != "name":
            raise self.wrong(at, f"a number, a name or ( is missing before {text}")
        self.take()
        if text in FUNCTIONS:
            return self.call(text, at)
        base, _, sub = text.partition("_")
        for part in (base, sub):
            if len(part) > 1 and part.isalpha() and part not in GREEK:
                raise self.wrong(at, f"{part!r} is neither a letter nor a greek name (a longer subscript is quoted)")
        return Node("name", text)

    def call(self, name: str, at: int) -> Node:
        self.take("(")
        arguments = [self.sum()]
        while self.next == ",":
            self.take()
            arguments.append(self.sum())
        self.take(")")
        if (len(arguments) > 1) != (name in ("min", "max")):
            raise self.wrong(at, f"{name} takes {'two or more values' if name in ('min', 'max') else 'one value'}")
        return Node(name, parts=tuple(arguments))
