"""Ram hardness of a snow layer."""

from __future__ import annotations


def ram_hardness(
    blows: float, drop_height: float, penetration: float, hammer_weight: float, tube_weight: float
) -> float:
    """Give the ram hardness from a driven cone.

    R = n f H/p + T + H

    Parameters
    ----------
    blows : float [1]
        Number of blows n.
    drop_height : float [m]
        Drop height f.
    penetration : float [m]
        Penetration p over these blows.
    hammer_weight : float [N]
        Weight H of the hammer.
    tube_weight : float [N]
        Weight T of the tubes.
    Returns
    -------
    float [N]
        Ram hardness; no formula from it to a strength of processed snow has been read.
    Validity: the usual cone; thin layers are blurred.
    Source: ram_page, ram hardness (read).

    >>> ram_hardness(10.0, 0.5, 0.1, 10.0, 10.0)
    520.0
    """
    return blows * drop_height * hammer_weight / penetration + tube_weight + hammer_weight
