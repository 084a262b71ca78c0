"""Corrugated sheet: geometry, tables, the lower of the two."""

from math import cos, sin, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.roof.sheet import bend_angle, corrugation_properties, cross_check, sheet
from firnstead.roof.tables import rows

ROWS = [(row["profile"], int(row["gauge"])) for row in rows("sheet_sections")]


@pytest.mark.parametrize("profile, gauge", ROWS)
def test_lower_of_geometry_and_table_is_used(profile: str, gauge: int) -> None:
    """The properties in use are never above geometry nor table, and only 5x1 is flagged."""
    found, of = cross_check(profile, gauge), sheet(profile, gauge)
    assert found.used.area <= min(found.geometry.area, of.table_area) * (1 + 1e-12)
    assert found.used.inertia <= min(found.geometry.inertia, of.table_inertia) * (1 + 1e-12)
    assert found.agrees == (profile != "5x1")


def test_five_by_one_is_seven_percent_low() -> None:
    """Nominal geometry of 5x1 lies 0.9 % in area and 7.2 % in inertia below the remembered table."""
    found = cross_check("5x1", 12)
    assert found.area_difference == pytest.approx(-0.009, abs=0.001)
    assert found.inertia_difference == pytest.approx(-0.072, abs=0.001)


def test_base_metal_not_specified_thickness() -> None:
    """The specified thickness would overstate the area of a 16 gauge sheet by 7 %."""
    of = sheet("3x1", 16)
    thick = corrugation_properties(of.pitch, of.depth, of.bend_radius, of.specified)
    assert thick.area / cross_check("3x1", 16).geometry.area == pytest.approx(1.07, abs=0.005)


@pytest.mark.parametrize("profile, gauge", ROWS)
def test_bend_angle_solves_its_equation(profile: str, gauge: int) -> None:
    """The closed form of the flank's angle satisfies the equation it comes from."""
    of = sheet(profile, gauge)
    theta, radius = bend_angle(of.pitch, of.depth, of.bend_radius, of.base), of.bend_radius + of.base / 2
    left = (of.pitch / 4 - radius * sin(theta)) * tan(theta)
    assert left == pytest.approx(of.depth / 2 - radius + radius * cos(theta), rel=1e-9)


def test_inertia_by_fine_strips() -> None:
    """Area and inertia are those of a wave cut into many thin strips."""
    of = sheet("6x2", 12)
    p, d, r, t = of.pitch, of.depth, of.bend_radius + of.base / 2, of.base
    theta = bend_angle(p, d, of.bend_radius, t)
    across = np.linspace(-t / 2, t / 2, 401)
    across = (across[:-1] + across[1:]) / 2
    a = np.linspace(0, theta, 501)
    a = (a[:-1] + a[1:]) / 2
    height = d / 2 - r + (r + across[:, None]) * np.cos(a)
    strip = (r + across[:, None]) * (theta / 500) * (t / 400)
    foot = np.array([p / 4 - r * np.sin(theta), d / 2 - r + r * np.cos(theta)])
    along = (np.arange(500) + 0.5) / 500 * foot[1]
    flank = along + across[:, None] * np.cos(theta)
    piece = np.hypot(*foot) / 500 * t / 400
    strip = np.broadcast_to(strip, height.shape)
    area = 4 * (strip.sum() + np.hypot(*foot) * t) / p
    inertia = 4 * ((strip * height**2).sum() + (piece * flank**2).sum()) / p
    found = corrugation_properties(p, d, of.bend_radius, t)
    assert found.area == pytest.approx(area, rel=1e-6)
    assert found.inertia == pytest.approx(inertia, rel=1e-4)


@given(st.floats(0.5e-3, 6e-3), st.floats(1.01, 2.0))
def test_thicker_is_stiffer(thickness: float, more: float) -> None:
    """A thicker sheet has more area, inertia and section modulus."""
    thin = corrugation_properties(0.1524, 0.0508, 0.028575, thickness)
    thick = corrugation_properties(0.1524, 0.0508, 0.028575, thickness * more)
    assert thick.area > thin.area
    assert thick.inertia > thin.inertia
    assert thick.modulus > thin.modulus


def test_unknown_sheet() -> None:
    """A gauge that the profile is not made in is refused."""
    with pytest.raises(KeyError):
        sheet("6x2", 18)
