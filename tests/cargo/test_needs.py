"""Pieces of parts: whole, never fewer than asked for."""

from hypothesis import given
from hypothesis import strategies as st

from firnstead.cargo.needs import Need, kit_needs, spare_pieces, split_by, whole_pieces


@given(st.floats(0, 1e6), st.floats(0, 1))
def test_whole_pieces_and_spares_cover_what_is_asked(pieces, share):
    """Rounding up gives at least what is asked and less than one piece more."""
    whole = whole_pieces(pieces)
    assert pieces - 1e-6 <= whole < pieces + 1
    assert share * whole - 1e-6 <= spare_pieces(whole, share) < share * whole + 1


def test_kit_leaves_out_parts_without_pieces():
    """A part with no pieces makes no need."""
    assert [need.part for need in kit_needs("hut", {"a": 0, "b": 2}, "N1", "x")] == ["b"]


def test_split_keeps_every_piece():
    """Pieces by place add up to all pieces, and by kit to those that belong to one."""
    needs = [Need("a", 2, "N1", "x", "hut"), Need("a", 3, "N2", "y"), Need("a", 4, "N1", "z")]
    assert split_by(needs, "place") == (("N1", 6), ("N2", 3))
    assert split_by(needs, "kit") == (("hut", 2),)
