"""Remember what was computed, by exactly the inputs it was computed from."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any, TypeVar

T = TypeVar("T")
_NOTHING = object()


class Memo:
    """Results by key; the oldest go first when `size` is reached. Keys hold every input of the result, by value."""

    def __init__(self, size: int = 8192) -> None:
        self._kept: dict[Hashable, Any] = {}
        self._size = size

    def get(self, key: Hashable, make: Callable[[], T]) -> T:
        """The result for `key`, made now if it is not there."""
        found: Any = self._kept.get(key, _NOTHING)  # one look-up: hashing a station's parts is most of the cost
        if found is _NOTHING:
            found = make()
            if len(self._kept) >= self._size:
                del self._kept[next(iter(self._kept))]
            self._kept[key] = found
        kept: T = found
        return kept
