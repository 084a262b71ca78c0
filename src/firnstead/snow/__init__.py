"""The material that everything stands on: snow and firn against depth, temperature and age."""

from firnstead.snow.results import MilledStrength, SnowColumn, SnowResult
from firnstead.snow.study import study

__all__ = ["MilledStrength", "SnowColumn", "SnowResult", "study"]
