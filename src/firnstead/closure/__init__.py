"""Closure of a trench: plane-strain creep of the firn round its section, stepped through the years."""

from firnstead.closure.study import fit, floor_heave, seats, study, wanted

__all__ = ["fit", "floor_heave", "seats", "study", "wanted"]
