"""Getting out alive: ways, blockings, times, hatch siting, drills."""

from firnstead.escape.results import EscapeResult, HatchSpot, MusterPlan, Route, SitingResult
from firnstead.escape.study import study
from firnstead.escape.study_blocked import BlockedSpot, blocked
from firnstead.escape.study_siting import siting

__all__ = [
    "BlockedSpot",
    "EscapeResult",
    "HatchSpot",
    "MusterPlan",
    "Route",
    "SitingResult",
    "blocked",
    "siting",
    "study",
]
