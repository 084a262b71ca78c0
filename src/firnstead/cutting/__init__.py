"""Cutting: sections made of passes, volumes, miller hours, spoil, and what stands while the cut is made."""

from firnstead.cutting.study import study

__all__ = ["study"]
