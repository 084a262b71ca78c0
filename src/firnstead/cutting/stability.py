"""What stands while the cut is made: the overhang of an undercut, the edge under a machine."""

from __future__ import annotations

from firnstead.cutting.passes import Pass

Strips = tuple[tuple[float, float], ...]


def overhang_strips(passes: tuple[Pass, ...], stage: int) -> Strips:
    """Give what hangs over the floor of a pass: how far each layer above reaches out past that pass's wall.

    o_i = b_stage - b_i for every layer i above the pass with o_i > 0

    Parameters
    ----------
    passes : tuple of Pass [text]
        Passes from the surface down, symmetric about the axis.
    stage : int [1]
        Index of the pass that has just been cut.
    Returns
    -------
    tuple of pairs [m]
        Overhang and thickness of each layer, from the top.
    Validity: layers that do not hang over are taken to be cut away above (bench).
    Source: statics.

    >>> cut = (Pass("straight", 0.0, 2.0, -2.0, 2.0, 1), Pass("undercut", 2.0, 3.0, -2.4, 2.4, 1))
    >>> [(round(o, 3), t) for o, t in overhang_strips(cut, 1)]
    [(0.4, 2.0)]
    """
    wall = passes[stage].right
    return tuple((wall - p.right, p.bottom - p.top) for p in passes[:stage] if wall - p.right > 1e-9)


def overhang_tension(strips: Strips, unit_weight: float, line_load: float = 0.0) -> float:
    """Give the bending tension at the root of an overhang, at the upright plane through the wall below.

    sigma = 6 (gamma sum(o_i^2 t_i)/2 + P max(o_i))/h^2, h = sum(t_i)

    Parameters
    ----------
    strips : tuple of pairs [m]
        Overhang and thickness of each layer.
    unit_weight : float [N/m3]
        Weight of the snow per volume.
    line_load : float [N/m]
        Load at the tip, per metre along the cut.
    Returns
    -------
    float [Pa]
        Bending tension at the top of the root.
    Validity: simple beam, no crack from above; a ledge of one thickness gives 3 gamma o^2/t, a wall that leans evenly
    gamma o^2/h.
    Source: statics.

    >>> round(overhang_tension(((0.6, 0.5),), 4410.0)), round(overhang_tension(((0.6, 0.5),), 4410.0, 500.0))
    (9526, 16726)
    """
    if not strips:
        return 0.0
    height = sum(t for _, t in strips)
    moment = unit_weight * sum(o * o * t for o, t in strips) / 2 + line_load * max(o for o, _ in strips)
    return 6.0 * moment / height**2


def overhang_shear(strips: Strips, unit_weight: float, line_load: float = 0.0) -> float:
    """Give the mean shear at the root of an overhang.

    tau = (gamma sum(o_i t_i) + P)/h, h = sum(t_i)

    Parameters
    ----------
    strips : tuple of pairs [m]
        Overhang and thickness of each layer.
    unit_weight : float [N/m3]
        Weight of the snow per volume.
    line_load : float [N/m]
        Load at the tip, per metre along the cut.
    Returns
    -------
    float [Pa]
        Mean shear over the height of the root.
    Validity: simple beam; a wall that leans evenly gives gamma o/2.
    Source: statics.

    >>> round(overhang_shear(((0.6, 0.5),), 4410.0))
    2646
    """
    if not strips:
        return 0.0
    weight = unit_weight * sum(o * t for o, t in strips)
    return (weight + line_load) / sum(t for _, t in strips)
