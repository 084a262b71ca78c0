"""The station file: its fields, its reader and the checks of what was read."""

from firnstead.station.model import Station
from firnstead.station.reader import StationFile, parse_station, read_station

__all__ = ["Station", "StationFile", "parse_station", "read_station"]
