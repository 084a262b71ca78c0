"""Roofs: corrugated arches under snow, their seats on the shoulder, and arches of formed snow."""

from firnstead.roof.study import study

__all__ = ["study"]
