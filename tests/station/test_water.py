"""Mistakes in the water part of a station file: what is wrong, on which line, and the cure."""

from __future__ import annotations

import pytest

from firnstead.core.errors import InputError
from firnstead.station import StationFile, parse_station


@pytest.mark.parametrize(
    ("written", "wrong", "line_with", "said"),
    [
        ("    niche: Well niche ", "    at: [0 m, 20 m]", "    at: [0 m, 20 m]", "floor of 'North 1'"),
        ("    niche: Well niche ", "    niche: Wall niche", "niche: Wall niche", "Well niche"),
        ("    niche: Well niche ", "    lift: Well niche", "lift: Well niche", ""),
        ("    at: [95 m, 30 m]", "    at: [4.5 m, 3 m]", "  sump:", "nearer than its own radius"),
        ("    at: [95 m, 30 m]", "    niche: Well niche", "    niche: Well niche\n    depth", "share a niche"),
        ("    at: [95 m, 30 m]", "    at: [1 m, 20 m]", "    at: [1 m, 20 m]", "floor of"),
        ("    depth: 60 m", "    depth: 60 m\n    cavity: 1500000 m3", "    cavity", ""),
        ("washing: {per_head: 16 L/day}", "washing: {per_head: -16 L/day}", "washing: {per_head: -16", ""),
        ("people: [8, 8,", "people: [-8, 8,", "people: [-8", "people"),
        ("people: [8, 8, 8,", "people: [8, 8,", "people: [8, 8,", ""),
        ("place: North 1, volume: 2.5 m3, use: domestic", "place: South 9, volume: 2.5 m3, use: domestic",
         "place: South 9", "North 1"),
        ("start_depth: 75 m", "start_depth: 6 m", "start_depth: 6 m", "above its head"),
        ("start_depth: 75 m", "start_depth: 190 m", "    pump: {", "does not lift"),
        ("lift: 160 m", "lift: 30 m", "lift: 30 m", "first level"),
        ("hose: {length: 200 m", "hose: {length: 20 m", "hose: {length: 20 m", "does not reach"),
        ("width: 0.5 m, part: well pump", "width: 1.5 m, part: well pump", "width: 1.5 m", "do not fit"),
        ("head: 0.8 m, part", "head: 1.8 m, part", "head: 1.8 m", "wider than the shaft"),
        ("part: well boiler}\n      boiler 2", "part: well bolier}\n      boiler 2", "bolier", "well boiler"),
        ("heat_limit: 15 kW", "heat_limit: -15 kW", "heat_limit: -15", ""),
        ("width: 2 m, depth: 2 m, height: 2.2 m, use: melt well", "width: 0.8 m, depth: 2 m, height: 2.2 m",
         "    niche: Well niche", "niche larger"),
    ],
)  # fmt: skip
def test_a_mistake_gives_its_line_and_its_cure(
    first: StationFile, written: str, wrong: str, line_with: str, said: str
) -> None:
    """A single mistake in the water part is found on its own line, and the message names the way out."""
    text = first.text.replace(written, wrong, 1)
    assert text != first.text
    with pytest.raises(InputError) as caught:
        parse_station(text, first.path)
    line = text[: text.index(line_with)].count("\n") + 1
    hits = [p for p in caught.value.problems if p.line == line]
    assert hits, [str(p) for p in caught.value.problems]
    assert any(said in f"{p.what} {p.cure}" for p in hits), [str(p) for p in hits]


def test_a_station_without_water_is_read(first: StationFile) -> None:
    """The water part may be left out."""
    text = first.text[: first.text.index("\nwater:")] + "\n"
    assert parse_station(text, first.path).station.water is None
