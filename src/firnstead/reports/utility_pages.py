"""The chapters on heat, pipes, water and power."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firnstead.reports.heat_pages import heat_chapter
from firnstead.reports.pipes_pages import pipes_chapter
from firnstead.reports.power_pages import power_chapter
from firnstead.reports.water_pages import water_chapter


def utility_chapters(document: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Chapters of the parts that the station has, each with title and blocks."""
    chapters = [chapter(document) for chapter in (heat_chapter, pipes_chapter, water_chapter, power_chapter)]
    return [chapter for chapter in chapters if chapter["blocks"]]
