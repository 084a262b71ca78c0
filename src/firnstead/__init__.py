"""Firnstead: plan, check and follow a station dug into the snow of an ice sheet."""

__version__ = "0.1.0"
