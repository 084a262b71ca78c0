"""The packing list against a brute-force explosion, piece by piece, of random kits."""

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.cargo import study
from firnstead.core.results import WorkItem
from firnstead.station.build import CatalogPart, Kit
from firnstead.station.places import Building
from firnstead.station.reader import read_station
from house.project import ROOT

STATION = read_station(ROOT / "examples" / "stations" / "first").station
NAMES = [f"part {letter}" for letter in "abcdefgh"]
PARTS = st.fixed_dictionaries(
    {name: st.tuples(st.floats(0.1, 900.0), st.floats(0.05, 2.0), st.floats(0.0, 0.3)) for name in NAMES}
)
KITS = st.lists(st.dictionaries(st.sampled_from(NAMES), st.integers(0, 30), min_size=1), min_size=1, max_size=4)
BUILDINGS = st.lists(st.integers(0, 3), max_size=8)
ITEMS = st.lists(st.dictionaries(st.sampled_from(NAMES), st.integers(0, 50)), max_size=4)
STORES = st.dictionaries(st.sampled_from(NAMES), st.integers(0, 99))


def _station(parts, kits, buildings, stores):
    catalogue = {
        n: CatalogPart.model_construct(what=n, mass=m, size=(d, d, d), hazardous=False, spare=s)
        for n, (m, d, s) in parts.items()
    }
    made = {
        f"kit {i}": Kit.model_construct(what="", length=1.0, width=1.0, height=1.0, footing_height=0.0, clearance=0.0,
                                        parts=kit, crew_hours=10.0)
        for i, kit in enumerate(kits)
    }  # fmt: skip
    stand = {
        f"B{i}": Building.model_construct(place="North 1", at=0.0, kit=f"kit {k % len(kits)}", people=0, use="")
        for i, k in enumerate(buildings)
    }
    return STATION.model_copy(update={"parts": catalogue, "kits": made, "buildings": stand, "stores": stores})


@given(PARTS, KITS, BUILDINGS, ITEMS, STORES)
def test_totals_against_counting_every_piece(parts, kits, buildings, taken, stores):
    """Pieces, mass and volume are those of counting piece by piece; every line has a need, and places add up."""
    items = [
        WorkItem(f"N.{i}", f"place {i % 2}", "roof", "x", 1.0, "x", parts=tuple((p, float(n)) for p, n in row.items()))
        for i, row in enumerate(taken)
    ]
    result = study(_station(parts, kits, buildings, stores), items).result
    pile = Counter()
    for k in buildings:
        for part, count in kits[k % len(kits)].items():
            for _ in range(count):
                pile[part] += 1
    for row in (*taken, stores):
        for part, count in row.items():
            pile[part] += count
    pile = +pile
    machines = {name: machine.count for name, machine in STATION.machines.items()}
    lines = {line.part: line for line in result.lines}
    assert {part: line.needed for part, line in lines.items() if part not in machines} == dict(pile)
    for part, line in lines.items():
        if part in pile:
            mass, side, spare = parts[part]
            assert spare * line.needed <= line.spares + 1e-6 < spare * line.needed + 1.0 + 1e-6
            assert line.mass == pytest.approx((line.needed + line.spares) * mass)
            assert line.volume == pytest.approx((line.needed + line.spares) * side**3)
        assert sum(count for _, count in line.places) == line.pieces
        assert line.needed > 0
    assert result.mass == pytest.approx(sum(line.mass for line in lines.values()))
    assert result.mass == pytest.approx(sum(mass for _, mass in result.mass_by_place))
    assert set(result.unneeded) >= {name for name in NAMES if name not in pile}
    assert result.missing == ()
