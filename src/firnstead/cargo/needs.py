"""What is needed, where and for what: from kits and work items to pieces of each part."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import ceil

WHOLE = 1e-9  # a count this close above a whole number is that whole number


@dataclass(frozen=True)
class Need:
    """Pieces of one part that one work item takes."""

    part: str
    pieces: int
    place: str
    item: str
    kit: str = ""


def whole_pieces(pieces: float) -> int:
    """Round a number of pieces up.

    n = pieces, rounded up

    Parameters
    ----------
    pieces : float [1]
        Pieces as worked out.
    Returns
    -------
    int [1]
        Whole pieces, at least 0.
    Validity: any number.
    Source: statics.

    >>> whole_pieces(12.2), whole_pieces(12.0), whole_pieces(-1.0)
    (13, 12, 0)
    """
    return max(0, ceil(pieces - WHOLE))


def spare_pieces(pieces: int, share: float) -> int:
    """Give the spares carried for a number of pieces.

    n = share pieces, rounded up

    Parameters
    ----------
    pieces : int [1]
        Pieces needed in the whole station.
    share : float [1]
        Spares as a share of what is needed.
    Returns
    -------
    int [1]
        Whole spare pieces.
    Validity: share at least 0; one store of spares for the whole station.
    Source: statics.

    >>> spare_pieces(40, 0.05), spare_pieces(41, 0.05), spare_pieces(3, 0.0)
    (2, 3, 0)
    """
    return whole_pieces(pieces * share)


def kit_needs(kit: str, parts: Mapping[str, int], place: str, item: str) -> tuple[Need, ...]:
    """List what one building made of a kit takes.

    pieces of each part as the kit says

    Parameters
    ----------
    kit : str [text]
        Name of the kit.
    parts : Mapping [text to 1]
        Part and pieces of the kit.
    place : str [text]
        Where the building stands.
    item : str [text]
        Work item that puts it up.
    Returns
    -------
    tuple of Need [1]
        One need per part, none for parts with no pieces.
    Validity: kits hold parts, not other kits.
    Source: statics, explosion of a bill of materials on one level.

    >>> kit_needs("hut", {"panel": 20, "jack": 12}, "N1", "H1.cargo.put_up")[1].pieces
    12
    """
    return tuple(Need(part, count, place, item, kit) for part, count in parts.items() if count > 0)


def split_by(needs: Iterable[Need], what: str) -> tuple[tuple[str, int], ...]:
    """Add up pieces by place, kit or item.

    n = sum of pieces over the needs with the same name

    Parameters
    ----------
    needs : Iterable [Need]
        Needs of one part.
    what : str [text]
        "place", "kit" or "item".
    Returns
    -------
    tuple [text and 1]
        Name and pieces, in order of the name; needs without a name (no kit) are left out.
    Validity: any needs.
    Source: statics.

    >>> split_by([Need("b", 2, "N1", "x"), Need("b", 3, "N1", "y", "hut")], "kit")
    (('hut', 3),)
    """
    totals: dict[str, int] = {}
    for need in needs:
        name = str(getattr(need, what))
        if name:
            totals[name] = totals.get(name, 0) + need.pieces
    return tuple(sorted(totals.items()))
