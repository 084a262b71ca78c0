"""Warm buildings in cold snow: losses, gaps, snow floors, the air of trenches through the years, heaters and fuel."""

from firnstead.heat.results import BuildingHeat, HeatMonths, HeatYear, PlaceHeat
from firnstead.heat.study import months, study

__all__ = ["BuildingHeat", "HeatMonths", "HeatYear", "PlaceHeat", "months", "study"]
