"""The walking network of a station."""

from __future__ import annotations

import math

import networkx as nx
import pytest

from firnstead.core.units import YEAR
from firnstead.station import Station, StationFile, parse_station
from firnstead.station.geometry import axis, link_length
from firnstead.station.ways import Ways, climb, walking_network


def graph(made: Ways) -> nx.Graph:
    """The network for an independent library."""
    g = nx.Graph()
    g.add_nodes_from(node.name for node in made.nodes)
    for way in made.ways:
        g.add_edge(made.nodes[way.a].name, made.nodes[way.b].name, length=way.length, width=way.width, kind=way.kind)
    return g


def distance(made: Ways, a: str, b: str) -> float:
    """Shortest walk between two nodes."""
    return float(nx.dijkstra_path_length(graph(made), a, b, weight="length"))


@pytest.mark.parametrize("name", ["first", "full"])
def test_everything_in_the_file_is_in_the_network(name: str, first: StationFile, full: StationFile) -> None:
    """Every building, niche, hatch and portal is a node; all hang together; every exit leads outside."""
    station = (first if name == "first" else full).station
    made = walking_network(station)
    names = [node.name for node in made.nodes]
    assert len(names) == len(set(names))
    wanted = {*station.buildings, *station.niches, *station.hatches, *station.portals}
    assert wanted <= set(names)
    assert nx.is_connected(graph(made))
    assert set(made.exits) == {*station.hatches, *station.portals}
    assert {made.nodes[i].kind for i in made.exits.values()} == {"outside"}
    assert all(way.length >= 0 and way.width > 0 and -90 <= way.slope <= 90 for way in made.ways)


def test_no_two_points_are_far_apart(full: StationFile) -> None:
    """Along an axis the next point is never farther than asked for."""
    for spacing in (3.0, 10.0):
        made = walking_network(full.station, spacing=spacing)
        apart = [abs(made.nodes[w.a].at - made.nodes[w.b].at) for w in made.ways
                 if w.kind in ("trench", "passage") and made.nodes[w.a].place == made.nodes[w.b].place]  # fmt: skip
        assert 0.8 * spacing < max(apart) <= spacing + 1e-9


def test_distances_by_hand(first: StationFile) -> None:
    """From the first hut's door past both huts to the hatch: in the aisle, then back to the middle, then up."""
    made = walking_network(first.station)
    aside = (6.2 + 3.0) / 4  # middle of the aisle between a hut of 3.0 m and walls 6.2 m apart
    along = 28.6 - 6.0 + math.hypot(31.0 - 28.6, aside)
    assert distance(made, "North 1 at 6.0 m", "North 1 hatch") == pytest.approx(along)
    ladder = 6.2 + (1.8 + 0.75 - 1.2) + 0.5
    assert distance(made, "North 1 hatch", "outside North 1 hatch") == pytest.approx(ladder)
    assert distance(made, "North 1 portal", "outside North 1 portal") == pytest.approx(6.2 / math.sin(math.radians(8)))
    assert distance(made, "Hut 1", "North 1 at 6.0 m") == pytest.approx(9.6 + 1.5 + aside)


def test_links_have_the_length_of_the_snow_left(full: StationFile) -> None:
    """The hand-cut way of every trench is as long as the geometry says, and from there it is half a passage's width."""
    made = walking_network(full.station)
    for name, trench in full.station.trenches.items():
        link = next(w for w in made.ways if w.kind == "link" and made.nodes[w.a].name == f"{name} mouth")
        level = link.length * math.cos(math.radians(link.slope))
        assert level == pytest.approx(link_length(full.station, trench))
        assert trench.link is not None
        assert link.width == trench.link.width
        hub = next(w for w in made.ways if made.nodes[w.b].name == f"{name} mouth")
        assert made.nodes[hub.a].kind == "junction"
        assert hub.length == pytest.approx((5.4 + 2 * 1.1) / 2)


def test_time_lengthens_ladders_and_ramps(full: StationFile) -> None:
    """The rising surface makes every climb longer by as much as it rises, and every ramp."""
    new, old = walking_network(full.station), walking_network(full.station, age=10 * YEAR)
    for a, b in zip(new.ways, old.ways, strict=True):
        assert (b.length > a.length) == (a.kind in ("ladder", "ramp"))
    place = full.station.trenches["North 1"]
    assert climb(full.station, place, 10 * YEAR) - climb(full.station, place) == pytest.approx(
        10 * 0.18 / 0.36, rel=1e-9
    )


def with_passage(station: Station, start: tuple[float, float], end: tuple[float, float]) -> Ways:
    """The network with a second passage."""
    more = station.passages["Main"].model_copy(update={"start": start, "end": end})
    return walking_network(station.model_copy(update={"passages": {**station.passages, "Cross": more}}))


@pytest.mark.parametrize(
    ("start", "end", "joined"),
    [
        ((31, -30), (31, 40), True),  # across
        ((340, 0), (340, 60), True),  # from the end, at a corner
        ((31, 2.0), (31, 60), True),  # from the wall
        ((31, 12.0), (31, 60), False),  # snow between
        ((341, 0), (400, 0), False),  # in line, snow between
        ((340, 0), (400, 0), True),  # in line
        ((0, 5.0), (340, 5.0), True),  # side by side, wall to wall
        ((0, 30.0), (340, 30.0), False),
    ],
)
def test_passages_that_touch_are_joined(
    full: StationFile, start: tuple[float, float], end: tuple[float, float], joined: bool
) -> None:
    """Two passages are one network exactly where their cuts touch."""
    g = graph(with_passage(full.station, start, end))
    assert nx.has_path(g, "Main at 0.0 m", next(n for n in g if n.startswith("Cross at"))) == joined


def test_walls_close_ends_and_doorways_open_them(full: StationFile) -> None:
    """A wall without a doorway at a trench's start cuts it off; with a doorway the way is as wide as that."""
    text = full.text.replace(
        "  North 1 far wall:", "  near wall: {place: North 1, at: start, layers: 1}\n  North 1 far wall:", 1
    )
    made = walking_network(parse_station(text, full.path).station)
    assert not nx.has_path(graph(made), "Hut 1", "Main at 15.0 m")
    door = "door: {width: 0.9 m, height: 2.0 m, opens: inward, slip_gap: 0.65 m}"
    text = text.replace("at: start, layers: 1}", f"at: start, layers: 1, {door}}}", 1)
    g = graph(walking_network(parse_station(text, full.path).station))
    path = nx.dijkstra_path(g, "Hut 1", "Main at 15.0 m", weight="length")
    assert min(g.edges[a, b]["width"] for a, b in zip(path[2:], path[3:], strict=False)) == 0.9


def test_both_doors_and_a_building_that_fills_its_trench(first: StationFile) -> None:
    """With a door at either end a building is a way through; one as wide as the floor leaves no aisle."""
    kit = first.station.kits["sleeping hut"].model_copy(update={"doors": "both", "width": 6.2})
    made = walking_network(first.station.model_copy(update={"kits": {"sleeping hut": kit}}))
    assert [len(made.doors[name]) for name in ("Hut 1", "Hut 2", "North 1 hatch")] == [2, 2, 1]
    assert min(way.width for way in made.ways) == 0
    for name, feet in made.doors.items():
        near = first.station.places["North 1"]
        assert all(0 <= made.nodes[i].at <= axis(near).length for i in feet), name
