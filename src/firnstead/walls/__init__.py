"""Walls of snow blocks, doorways, hatches, portals and ramps."""

from firnstead.walls.results import BlockWall, HatchShaft, Ramp, WallsResult
from firnstead.walls.study import study

__all__ = ["BlockWall", "HatchShaft", "Ramp", "WallsResult", "study"]
