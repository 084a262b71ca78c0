"""The kinds of arrays that the fire study works on."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]
Whole: TypeAlias = NDArray[np.int64]
Flags: TypeAlias = NDArray[np.bool_]
Floats: TypeAlias = float | Array
