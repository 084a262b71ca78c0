"""Exponential, logarithm and choices that take a float or an array and give back the same kind."""

from __future__ import annotations

import math
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
FloatOrArray = TypeVar("FloatOrArray", float, Array)


def exp(x: FloatOrArray) -> FloatOrArray:
    """e^x."""
    if isinstance(x, np.ndarray):
        return np.exp(x)
    return math.exp(x)


def log(x: FloatOrArray) -> FloatOrArray:
    """Natural logarithm."""
    if isinstance(x, np.ndarray):
        return np.log(x)
    return math.log(x)


def clip(x: FloatOrArray, low: float, high: float) -> FloatOrArray:
    """The value, or the nearer limit."""
    if isinstance(x, np.ndarray):
        return np.clip(x, low, high)
    return min(max(x, low), high)


def below(x: FloatOrArray, limit: float, then: FloatOrArray, otherwise: FloatOrArray) -> FloatOrArray:
    """`then` where x < limit, else `otherwise`."""
    if isinstance(x, np.ndarray):
        return np.where(x < limit, then, otherwise)
    return then if x < limit else otherwise
