"""Cargo: the packing list, and whether it can be carried."""

from firnstead.cargo.results import CargoResult, PackingLine
from firnstead.cargo.rows import packing_rows
from firnstead.cargo.study import study

__all__ = ["CargoResult", "PackingLine", "packing_rows", "study"]
