"""Warm buildings in cold snow: losses, gaps, snow floors, the air of trenches through the years, heaters and fuel."""

from firnstead.heat.results import BuildingHeat, HeatYear, PlaceHeat
from firnstead.heat.study import study

__all__ = ["BuildingHeat", "HeatYear", "PlaceHeat", "study"]
