"""Air for people and engines: fresh air, carbon dioxide and monoxide, draught through the year, alarms."""

from firnstead.air.results import AirResult, NoAir
from firnstead.air.study import study

__all__ = ["AirResult", "NoAir", "study"]
