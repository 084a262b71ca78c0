"""Remember what was computed, by exactly the inputs it was computed from."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from typing import Any, TypeVar

T = TypeVar("T")


class Memo:
    """Results by key; the oldest go first when `size` is reached. Keys hold every input of the result, by value."""

    def __init__(self, size: int = 4096) -> None:
        self._kept: OrderedDict[Hashable, Any] = OrderedDict()
        self._size = size

    def get(self, key: Hashable, make: Callable[[], T]) -> T:
        """The result for `key`, made now if it is not there."""
        if key in self._kept:
            self._kept.move_to_end(key)
            found: T = self._kept[key]
            return found
        made = make()
        self._kept[key] = made
        if len(self._kept) > self._size:
            self._kept.popitem(last=False)
        return made
