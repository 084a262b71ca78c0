"""The face that an end wall closes: the cut below, the roof's inner line above."""

from __future__ import annotations

from math import sqrt


def cut_width(
    height: float, floor_width: float, top_width: float, wall_height: float, undercut_height: float
) -> float:  # fmt: skip
    """Give the width of a cut at a height above its floor.

    w = floor_width - (floor_width - top_width) y/undercut_height below the undercut's top, top_width above it

    Parameters
    ----------
    height : float [m]
        Height above the floor.
    floor_width : float [m]
        Width at the floor.
    top_width : float [m]
        Width above the undercut.
    wall_height : float [m]
        Height of the cut up to the feet of the roof.
    undercut_height : float [m]
        Height above the floor at which the widening starts; 0 for straight walls.
    Returns
    -------
    float [m]
        Width; 0 outside the cut.
    Validity: straight slope between the passes of the machine; real passes leave steps beside it.
    Source: statics, geometry.

    >>> cut_width(0.0, 3.0, 2.0, 4.0, 2.0), cut_width(1.0, 3.0, 2.0, 4.0, 2.0), cut_width(3.0, 3.0, 2.0, 4.0, 2.0)
    (3.0, 2.5, 2.0)
    """
    if height < 0 or height > wall_height:
        return 0.0
    if height >= undercut_height:
        return top_width
    return floor_width - (floor_width - top_width) * height / undercut_height


def arch_width(height: float, span: float, rise: float) -> float:
    """Give the inner width of a roof at a height above its feet.

    flat arch (rise <= span/2): chord of the circle R = (span^2/4 + rise^2)/(2 rise); steeper: ellipse

    Parameters
    ----------
    height : float [m]
        Height above the feet.
    span : float [m]
        Span between the feet.
    rise : float [m]
        Rise of the inner line.
    Returns
    -------
    float [m]
        Width; 0 above the crown.
    Validity: circular segment, or half an ellipse where the roof is higher than half its span.
    Source: statics, geometry.

    >>> arch_width(0.0, 4.0, 1.0), round(arch_width(0.5, 4.0, 1.0), 3), arch_width(1.0, 4.0, 1.0)
    (4.0, 3.0, 0.0)
    """
    if height < 0 or height >= rise:
        return 0.0
    if rise > span / 2.0:
        return span * sqrt(1.0 - (height / rise) ** 2)
    radius = (span**2 / 4.0 + rise**2) / (2.0 * rise)
    above_centre = height + radius - rise
    return 2.0 * sqrt(max(0.0, radius**2 - above_centre**2))


def course_widths(
    floor_width: float, top_width: float, wall_height: float, undercut_height: float, span: float, rise: float,
    course: float,
) -> tuple[float, ...]:  # fmt: skip
    """Give the greatest width that each course of blocks has to close, from the floor up.

    the widths at the course's lower edge: nothing widens upwards but the step to the feet of the roof

    Parameters
    ----------
    floor_width : float [m]
        Width at the floor.
    top_width : float [m]
        Width above the undercut.
    wall_height : float [m]
        Height of the cut up to the feet of the roof.
    undercut_height : float [m]
        Height above the floor at which the widening starts; 0 for straight walls.
    span : float [m]
        Span between the feet of the roof.
    rise : float [m]
        Rise of the roof's inner line.
    course : float [m]
        Height of one course with its joint.
    Returns
    -------
    tuple of float [m]
        One width per course.
    Validity: floor at least as wide as the top; the inner line narrows upwards.
    Source: statics, geometry.

    >>> course_widths(3.0, 3.0, 1.0, 0.0, 3.2, 0.5, 0.5)
    (3.0, 3.0, 3.2)
    """
    widths, low = [], 0.0
    while low < wall_height + rise - 1e-9:
        high = low + course
        below = cut_width(low, floor_width, top_width, wall_height, undercut_height) if low < wall_height else 0.0
        above = arch_width(max(0.0, low - wall_height), span, rise) if high > wall_height + 1e-9 else 0.0
        widths.append(max(below, above))
        low = high
    return tuple(widths)


def face_area(
    floor_width: float, top_width: float, wall_height: float, undercut_height: float, span: float, rise: float,
    slices: int = 200,
) -> float:  # fmt: skip
    """Give the area that an end wall closes, openings not taken off.

    A = area of the cut + integral of the roof's inner width over its rise

    Parameters
    ----------
    floor_width : float [m]
        Width at the floor.
    top_width : float [m]
        Width above the undercut.
    wall_height : float [m]
        Height of the cut up to the feet of the roof.
    undercut_height : float [m]
        Height above the floor at which the widening starts; 0 for straight walls.
    span : float [m]
        Span between the feet of the roof.
    rise : float [m]
        Rise of the roof's inner line.
    slices : int [1]
        Slices of the roof's inner area (middle rule).
    Returns
    -------
    float [m2]
        Area.
    Validity: as cut_width and arch_width.
    Source: statics, geometry.

    >>> round(face_area(3.0, 3.0, 2.0, 0.0, 4.0, 2.0), 2)
    12.28
    """
    cut = top_width * wall_height + (floor_width - top_width) * undercut_height / 2.0
    step = rise / slices
    return cut + step * sum(arch_width((i + 0.5) * step, span, rise) for i in range(slices))
