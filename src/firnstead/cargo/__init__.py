"""Cargo: the packing list, and whether it can be carried."""

from firnstead.cargo.results import CargoResult, PackingLine
from firnstead.cargo.study import study

__all__ = ["CargoResult", "PackingLine", "study"]
