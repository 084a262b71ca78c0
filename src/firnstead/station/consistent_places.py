"""What does not fit at the ends of a place and along the way through it."""

from __future__ import annotations

from collections.abc import Iterator

from firnstead.core.units import show
from firnstead.station import geometry
from firnstead.station.model import Station

Found = Iterator[tuple[tuple[str | int, ...], str, str]]


def ends(station: Station) -> Found:
    closed: dict[tuple[str, str], str] = {}
    for group in ("end_walls", "portals"):
        for name, item in getattr(station, group).items():
            end = (item.place, item.at)
            if end in closed:
                yield (
                    (group, name, "at"),
                    f"the {item.at} of {item.place!r} is already closed by {closed[end]!r}",
                    "Choose the other end",
                )
            closed[end] = name
            if item.at == "start" and item.place in station.trenches:
                trench = station.trenches[item.place]
                met = geometry.junction(station, trench)
                if met is not None and met.overlap > 0:
                    yield (
                        (group, name, "at"),
                        f"the start of {item.place!r} opens into {trench.opens_into!r}",
                        "Close the other end",
                    )


def clear_ways(station: Station) -> Found:
    """A way that must stay clear has a width and a height, and fits into its section as cut."""
    for group in ("passages", "trenches"):
        for name, place in getattr(station, group).items():
            width, height = place.clear_width, place.clear_height
            if (width is None) != (height is None):
                missing = "clear_height" if height is None else "clear_width"
                yield (group, name), f"{missing} is missing", "Give clear_width and clear_height, or neither"
            elif width is not None and place.section in station.sections:
                section = station.sections[place.section]
                least = min(section.top_width, section.floor_width)
                if width > least:
                    what = f"the way is {show(width, 'm')} wide, the cut is {show(least, 'm')}"
                    yield (group, name, "clear_width"), what, "Narrow the way or widen the section"
