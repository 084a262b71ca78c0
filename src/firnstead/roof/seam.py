"""Strength of the seams between sheets, as far as tables go."""

from __future__ import annotations

from firnstead.core.units import UNITS
from firnstead.roof.tables import rows

KIP_PER_FOOT = UNITS["kip/ft"].factor


def seam_strength_bolted(profile: str, gauge: int) -> float | None:
    """Look up the ultimate strength of a bolted seam of structural plate.

    table look-up, from kip/ft

    Parameters
    ----------
    profile : str [text]
        Corrugation as in the station file.
    gauge : int [1]
        Gauge of the sheet.
    Returns
    -------
    float or None [N/m]
        Ultimate strength per metre of seam; None where the table has no row.
    Validity: 6x2 plate, 3/4 in bolts, 4 bolts a foot. The table is remembered and cannot be verified by computation:
        do not let a check hold on it.
    Source: aisi_handbook, seam strength tables (from memory, unchecked).

    >>> round(seam_strength_bolted("6x2", 12) / 1e3, 0)
    613.0
    """
    for row in rows("seams_bolted"):
        if (row["profile"], row["gauge"]) == (profile, str(gauge)):
            return float(row["strength"]) * KIP_PER_FOOT
    return None


def seam_strength_riveted(profile: str, gauge: int, rivet_rows: int) -> float | None:
    """Look up the ultimate strength of a riveted seam.

    table look-up, from kip/ft

    Parameters
    ----------
    profile : str [text]
        Corrugation as in the station file.
    gauge : int [1]
        Gauge of the sheet.
    rivet_rows : int [1]
        Rows of rivets, 1 or 2.
    Returns
    -------
    float or None [N/m]
        Ultimate strength per metre of seam; None where the table has no row.
    Validity: factory-riveted sheet. Remembered, not verifiable by computation: do not let a check hold on it.
    Source: aisi_handbook, seam strength tables (from memory, unchecked).

    >>> round(seam_strength_riveted("2.67x0.5", 14, 2) / 1e3, 0)
    435.0
    """
    for row in rows("seams_riveted"):
        if (row["profile"], row["gauge"], row["rows"]) == (profile, str(gauge), str(rivet_rows)):
            return float(row["strength"]) * KIP_PER_FOOT
    return None
