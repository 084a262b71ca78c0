"""Chapters on getting out alive, in the order in which they are needed: ways out, fire and smoke, air."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firnstead.reports.air_pages import air_chapter
from firnstead.reports.escape_pages import escape_chapter
from firnstead.reports.fire_pages import fire_chapter


def safety_chapters(document: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The chapters of which the station file has a part; each a title and its blocks."""
    made = (escape_chapter(document), fire_chapter(document), air_chapter(document))
    return [chapter for chapter in made if chapter["blocks"]]
