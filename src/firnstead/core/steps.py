"""Write a working once: every step finds its inputs among the quantities named before it."""

from __future__ import annotations

from functools import lru_cache

from firnstead.core.formula import Node, parse, value_of
from firnstead.core.results import Step

Known = tuple[str, float, str]


@lru_cache(maxsize=4096)
def _names(formula: str) -> tuple[str, ...]:
    found: dict[str, None] = {}

    def walk(node: Node) -> None:
        if node.kind == "name" and node.text != "pi":
            found[node.text] = None
        for part in node.parts:
            walk(part)

    walk(parse(formula))
    return tuple(found)


class Working:
    """Quantities by symbol: station inputs, look-ups and steps worked out by their own formula."""

    def __init__(self) -> None:
        self._known: dict[str, Known] = {}
        self._steps: dict[str, Step] = {}

    def __getitem__(self, symbol: str) -> float:
        return self._known[symbol][1]

    def __contains__(self, symbol: str) -> bool:
        return symbol in self._known

    def given(self, symbol: str, value: float, unit: str) -> float:
        """A quantity that stands in the station file, or a constant."""
        self._known[symbol] = (symbol, value, unit)
        return value

    def look(self, symbol: str, value: float, unit: str, source: str, text: str, *inputs: str) -> float:
        """A quantity from a table, an integral or a search: `text` says how."""
        return self._add(Step(symbol, "", tuple(self._known[i] for i in inputs), value, unit, source, text))

    def put(self, symbol: str, formula: str, unit: str, source: str, text: str = "", *more: Known) -> float:
        """A quantity worked out by its formula; `more` are inputs that belong to this step alone."""
        own = {known[0]: known for known in more}
        inputs = tuple(own.get(name) or self._known[name] for name in _names(formula))
        value = value_of(parse(formula), {name: number for name, number, _ in inputs})
        return self._add(Step(symbol, formula, inputs, value, unit, source, text))

    def upto(self, *symbols: str) -> tuple[Step, ...]:
        """The steps that lead to these quantities, in the order in which they were written."""
        wanted, waiting = set(), list(symbols)
        while waiting:
            symbol = waiting.pop()
            if symbol in self._steps and symbol not in wanted:
                wanted.add(symbol)
                waiting += [name for name, _, _ in self._steps[symbol].inputs]
        return tuple(step for symbol, step in self._steps.items() if symbol in wanted)

    def _add(self, step: Step) -> float:
        self._known[step.symbol] = (step.symbol, step.value, step.unit)
        self._steps[step.symbol] = step
        return step.value
