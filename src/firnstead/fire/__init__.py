"""Fire and smoke in the network of trenches and passages: growth, travel, what people meet, what guards against it."""

from firnstead.fire.results import FireCase, FireResult, PlaceCover, PlaceLoss, SmokeCurve, Spot, WayOut
from firnstead.fire.study import study

__all__ = ["FireCase", "FireResult", "PlaceCover", "PlaceLoss", "SmokeCurve", "Spot", "WayOut", "study"]
