"""Roofs: corrugated arches under snow, their seats on the shoulder, and arches of formed snow."""

from firnstead.roof.study import study, with_moving_seats

__all__ = ["study", "with_moving_seats"]
