"""Named sets of limits, each with its edition. Which one applies is the responsible engineer's choice."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.units import FT, IN
from firnstead.escape.tables import rows


@dataclass(frozen=True)
class Limits:
    """Limits of escape ways; None where the set has no such limit."""

    name: str
    source: str
    clause: str
    read: str
    travel: float | None = None
    common_path: float | None = None
    dead_end: float | None = None
    separation: float | None = None
    width_per_person: float | None = None
    surface_time: float | None = None
    refuge_time: float | None = None


def preset(name: str) -> Limits:
    """Give a named set of limits in SI.

    feet, inches and minutes of the published table turned into metres and seconds

    Parameters
    ----------
    name : str [text]
        Name of the set, with edition.
    Returns
    -------
    Limits [m, s]
        The limits.
    Validity: buildings and mines of the United States; no code says that it holds for a trench in snow.
    Source: ibc_2021, tables named in each row (read second-hand, or from memory, unchecked, as each row says);
    nfpa_101_2021, occupancy chapters (from memory, unchecked); cfr_30_57 (read).

    >>> round(preset("IBC 2021 R-2, unsprinklered").travel, 2)
    60.96
    """
    row = next(row for row in rows("presets") if row["name"] == name)

    def value(field: str, scale: float) -> float | None:
        return float(row[field]) * scale if row[field] else None

    return Limits(
        name=name, source=row["source"], clause=row["clause"], read=row["read"], travel=value("travel", FT),
        common_path=value("common_path", FT), dead_end=value("dead_end", FT), separation=value("separation", 1.0),
        width_per_person=value("width_per_person", IN), surface_time=value("surface_time", 60.0),
        refuge_time=value("refuge_time", 60.0))  # fmt: skip


def preset_names() -> tuple[str, ...]:
    """Give the names of all sets.

    as in the table

    Parameters
    ----------
    Returns
    -------
    tuple [text]
        Names.
    Validity: the table of this package.
    Source: ibc_2021 (read second-hand); nfpa_101_2021 (from memory, unchecked); cfr_30_57 (read).

    >>> len(preset_names())
    15
    """
    return tuple(row["name"] for row in rows("presets"))


def exits_needed(people: int) -> int:
    """Give the ways out that a number of people needs.

    1 below 50, 2 from 50, 3 from 501, 4 from 1,001

    Parameters
    ----------
    people : int [1]
        Persons.
    Returns
    -------
    int [1]
        Ways out.
    Validity: a storey of a building; for a station two is our own least (never one).
    Source: ibc_2021, Table 1006.3.3 and 1006.2.1 (read second-hand).

    >>> exits_needed(12), exits_needed(100), exits_needed(501)
    (1, 2, 3)
    """
    return 4 if people > 1000 else 3 if people > 500 else 2 if people >= 50 else 1


def separation_least(share: float, diagonal: float) -> float:
    """Give the least straight distance between two ways out of an area.

    d = s D

    Parameters
    ----------
    share : float [1]
        Share s of the diagonal.
    diagonal : float [m]
        Longest diagonal D of the area served.
    Returns
    -------
    float [m]
        Distance.
    Validity: one half of the diagonal, a third with sprinklers throughout.
    Source: ibc_2021, 1007.1.1 (read second-hand).

    >>> separation_least(0.5, 40.0)
    20.0
    """
    return share * diagonal
