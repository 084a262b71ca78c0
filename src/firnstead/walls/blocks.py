"""End walls laid of quarried snow blocks: blocks, quarry, mass, crew time."""

from __future__ import annotations

from math import ceil

WHOLE = 1e-9  # a count this close above a whole number is that whole number (rounding of lengths)


def pieces_along(length: float, piece: float, joint: float = 0.0) -> int:
    """Count the pieces with joints between them that are needed to cover a length.

    n = (length + joint)/(piece + joint), rounded up: n pieces have n - 1 joints

    Parameters
    ----------
    length : float [m]
        Length, height or thickness to be covered.
    piece : float [m]
        Size of one block along it.
    joint : float [m]
        Joint between two blocks.
    Returns
    -------
    int [1]
        Whole blocks, at least 0.
    Validity: piece above 0, joint at least 0; a cut block counts as a whole one.
    Source: statics.

    >>> pieces_along(4.0, 0.3, 0.01), pieces_along(3.0, 0.3)
    (13, 10)
    """
    if length <= 0:
        return 0
    return ceil((length + joint) / (piece + joint) - WHOLE)


def block_count(
    course_widths: tuple[float, ...], opening_area: float, block_length: float, block_height: float, leaves: int,
    joint: float,
) -> int:  # fmt: skip
    """Count the blocks in a wall laid in courses, openings taken off.

    n = leaves (sum over courses of pieces_along(width) - opening_area/((block_length + joint)(block_height + joint)))

    Parameters
    ----------
    course_widths : tuple of float [m]
        Greatest width of the opening to be closed within each course, from the floor up.
    opening_area : float [m2]
        Area of doorways and other openings, frames included.
    block_length : float [m]
        Length of a block along the wall.
    block_height : float [m]
        Height of a block.
    leaves : int [1]
        Blocks side by side through the thickness of the wall.
    joint : float [m]
        Joint between two blocks.
    Returns
    -------
    int [1]
        Blocks in the wall, without breakage; the blocks saved by openings are rounded down.
    Validity: courses of one height; the top course is cut to the roof, which counts as whole blocks.
    Source: statics.

    >>> block_count((3.0, 3.0, 2.4), 1.8, 0.6, 0.3, 2, 0.0)
    8
    """
    face = (block_length + joint) * (block_height + joint)
    laid = sum(pieces_along(width, block_length, joint) for width in course_widths)
    saved = int(opening_area / face + WHOLE)
    return leaves * max(0, laid - saved)


def blocks_to_quarry(count: int, breakage: float) -> int:
    """Count the blocks to be cut so that enough arrive whole.

    n = count/(1 - breakage), rounded up

    Parameters
    ----------
    count : int [1]
        Blocks in the wall.
    breakage : float [1]
        Share of the cut blocks that break before they are laid.
    Returns
    -------
    int [1]
        Blocks to be cut.
    Validity: 0 <= breakage < 1.
    Source: statics.

    >>> blocks_to_quarry(190, 0.05)
    200
    """
    return ceil(count / (1.0 - breakage) - WHOLE)


def quarry_volume(
    count: int, block_length: float, block_height: float, block_width: float, kerf: float, waste: float
) -> float:
    """Give the volume of snow in place that is used up by cutting the blocks.

    V = n (length + kerf)(height + kerf)(width + kerf)/(1 - waste)

    Parameters
    ----------
    count : int [1]
        Blocks cut.
    block_length : float [m]
        Length of a block.
    block_height : float [m]
        Height of a block.
    block_width : float [m]
        Width of a block.
    kerf : float [m]
        Width of the saw cut.
    waste : float [1]
        Share of the quarried snow that gives no blocks (crust, edges, rough bottom).
    Returns
    -------
    float [m3]
        Snow in place.
    Validity: 0 <= waste < 1; each block is freed by one kerf in each direction.
    Source: statics.

    >>> round(quarry_volume(200, 0.6, 0.3, 0.3, 0.01, 0.1), 3)
    13.027
    """
    cell = (block_length + kerf) * (block_height + kerf) * (block_width + kerf)
    return count * cell / (1.0 - waste)


def quarry_area(volume: float, depth: float) -> float:
    """Give the area of a quarry pit.

    a = V/d

    Parameters
    ----------
    volume : float [m3]
        Snow in place that is quarried.
    depth : float [m]
        Depth of the pit.
    Returns
    -------
    float [m2]
        Area of the pit.
    Validity: vertical sides; depth above 0.
    Source: statics.

    >>> round(quarry_area(13.0, 1.0), 1)
    13.0
    """
    return volume / depth


def blocks_mass(count: int, block_length: float, block_height: float, block_width: float, density: float) -> float:
    """Give the mass of a number of blocks.

    m = n length height width rho

    Parameters
    ----------
    count : int [1]
        Blocks.
    block_length : float [m]
        Length of a block.
    block_height : float [m]
        Height of a block.
    block_width : float [m]
        Width of a block.
    density : float [kg/m3]
        Density of the quarried snow.
    Returns
    -------
    float [kg]
        Mass.
    Validity: any density.
    Source: statics.

    >>> round(blocks_mass(1, 0.6, 0.3, 0.3, 450.0), 1)
    24.3
    """
    return count * block_length * block_height * block_width * density
