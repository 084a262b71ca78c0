"""The mesh of half a section: areas, boundary, walls where they were asked for."""

import numpy as np
import pytest

from firnstead.closure.assemble import Topology
from firnstead.closure.freedoms import STIFF, UNLINED, Zips, freedoms_of_roof
from firnstead.closure.mesh import HalfSection, areas, boundary_edges, half_mesh, outline_of_steps, quality

SECTIONS = {
    "open, leaning": (HalfSection(((2.0, 0.0), (2.6, 8.0))), 4.6 * 4),
    "bench": (HalfSection(((2.5, 0.0), (2.5, 0.8), (1.8, 0.8), (2.6, 7.0))), 2.5 * 0.8 + 2.2 * 6.2),
    "covered, seat and backfill": (HalfSection(((1.8, 2.0), (2.6, 8.0)), seat=0.5, lines=(3.0,)), 2.2 * 6),
    "ledge outward": (HalfSection(((1.5, 1.0), (1.5, 3.0), (2.2, 3.0), (2.2, 6.0)), seat=0.4), 3.0 + 6.6),
    "undercut past the seat": (HalfSection(((1.5, 1.0), (3.5, 5.0)), seat=0.6, lines=(2.5,), levels=(1.5,)), 10.0),
    "narrow pillar": (HalfSection(((1.8, 2.0), (2.6, 8.0)), side=4.5, size=0.5), 2.2 * 6),
}


@pytest.mark.parametrize("name", SECTIONS)
def test_area_and_boundary(name: str) -> None:
    """Snow is domain less void, every triangle has area, and the pieces make up the boundary, each edge once."""
    section, void = SECTIONS[name]
    mesh = half_mesh(section)
    assert areas(mesh.points, mesh.triangles).sum() == pytest.approx(section.side * section.depth - void)
    assert quality(mesh.points, mesh.triangles).min() > 0.05
    pieces = np.concatenate([edges for piece, edges in mesh.edges.items() if piece != "seat"])
    assert len(np.unique(pieces, axis=0)) == len(pieces) == len(boundary_edges(mesh.triangles))
    wall = mesh.points[np.unique(mesh.edges["wall"])]
    for half_width, depth in section.outline:
        assert np.min(np.hypot(wall[:, 0] - half_width, wall[:, 1] + depth)) < 1e-9
    floor = mesh.points[np.unique(mesh.edges["floor"])]
    assert floor[:, 0].max() == pytest.approx(section.outline[-1][0])


def test_seat_and_lines_stand_in_the_mesh() -> None:
    """The seat spans its width beside the void, and the edge of the backfill is a line of the mesh."""
    mesh = half_mesh(SECTIONS["covered, seat and backfill"][0])
    seat = mesh.points[np.unique(mesh.edges["seat"])]
    assert (seat[:, 0].min(), seat[:, 0].max()) == pytest.approx((1.8, 2.3))
    assert np.all(seat[:, 1] == -2.0)
    above = mesh.points[mesh.points[:, 1] > -1.9]
    assert np.any(np.abs(above[:, 0] - 3.0) < 1e-9)


def test_void_beyond_the_domain_is_refused() -> None:
    """A far boundary inside the void is an error, not a mesh."""
    with pytest.raises(ValueError):
        half_mesh(HalfSection(((2.0, 0.0), (6.0, 8.0)), side=6.0))


def test_steps_become_one_line() -> None:
    """A stepped undercut of equal passes keeps its area as one leaning line."""
    steps = [(1.5 + 0.2 * i, float(i), float(i + 1)) for i in range(5)]
    line = np.array(outline_of_steps(steps))
    area = float(np.trapezoid(line[:, 0], line[:, 1]))
    assert area == pytest.approx(sum(w * (b - a) for w, a, b in steps), rel=0.01)


def test_roofs_tie_what_they_should() -> None:
    """A stiff roof leaves one unknown for roof and seat together; zipped points share theirs."""
    mesh = half_mesh(SECTIONS["covered, seat and backfill"][0])
    topology = Topology(mesh.triangles, len(mesh.points))
    free, stiff = (freedoms_of_roof(mesh, topology, roof) for roof in (UNLINED, STIFF))
    tied = topology.on(np.concatenate((mesh.edges["roof"], mesh.edges["seat"])))
    assert len(set(stiff.unknown[2 * tied + 1])) == 1
    assert np.all(stiff.unknown[2 * tied] == -1)
    assert free.count - stiff.count == 2 * len(tied) - 2  # both components of each but one, and the axis has no u_x
    joined = freedoms_of_roof(mesh, topology, UNLINED, ((int(tied[1]), int(tied[2])),))
    assert joined.count == free.count - 2
    assert sorted(set(joined.unknown[joined.unknown >= 0])) == list(range(joined.count))


def test_corners_close_when_they_have_met() -> None:
    """A wall foot that folds onto the floor is joined to it, and an open corner is left alone."""
    mesh = half_mesh(SECTIONS["covered, seat and backfill"][0])
    zips = Zips(mesh, Topology(mesh.triangles, len(mesh.points)))
    assert zips.close(mesh.points) is None
    wall = np.unique(mesh.edges["wall"])
    foot = wall[np.argsort(mesh.points[wall, 1])][:2]
    floor = np.unique(mesh.edges["floor"])
    beside = floor[np.argsort(-mesh.points[floor, 0])][1]
    points = mesh.points.copy()
    points[foot[1]] = points[beside] + (0.0, 0.05)
    closed = zips.close(points)
    assert closed is not None
    assert np.array_equal(closed[foot[1]], closed[beside])
    assert len(zips.pairs) == 2
