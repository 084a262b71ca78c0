"""Water: demand, the melt well through the years, tanks, sewage in the ice."""

from firnstead.water.results import BulbYear, PoolMonth, PowerCut, Shaft, WaterYear, WellResult
from firnstead.water.study import study

__all__ = ["BulbYear", "PoolMonth", "PowerCut", "Shaft", "WaterYear", "WellResult", "study"]
