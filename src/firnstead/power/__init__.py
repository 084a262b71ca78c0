"""Electric power: loads, generator sets, feeders, fuel and waste heat."""

from firnstead.power.results import PowerYear
from firnstead.power.study import study

__all__ = ["PowerYear", "study"]
