"""Footings on snow: pressure, bearing, settling through the years, relevelling."""

from firnstead.foundation.results import BuildingFoundation, FoundationResult, RowSettlement
from firnstead.foundation.study import study

__all__ = ["BuildingFoundation", "FoundationResult", "RowSettlement", "study"]
