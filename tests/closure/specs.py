"""Small specs that march in a fraction of a second."""

from __future__ import annotations

from dataclasses import replace

from firnstead.closure.results import Softness
from firnstead.closure.spec import Spec

SOFT = Softness((1.0, 2.0, 3.0), (371.0, 555.0, 772.0), (13.0, 4.0, 11.0), 480.0, 640.0, 2.5, 11.5)
DEPTHS, DENSITIES = (0.0, 2.0, 5.0, 10.0, 20.0, 40.0), (360.0, 405.0, 460.0, 530.0, 620.0, 720.0)


def spec(**changes: object) -> Spec:
    """A trench 4.6 m wide at the top and 6.2 m at the floor, 6.2 m deep, under an arch, for two years."""
    made = Spec(
        outline=((2.3, 1.2), (2.3, 2.4), (3.1, 6.2)), roof="yielding", seat=0.6, side=25.0, bottom=28.0, size=0.8,
        milled=500.0, milled_edge=3.4, milled_depth=1.2, slab=400.0, raised=0.0, depths=DEPTHS, densities=DENSITIES,
        snow=244.15, air=(244.26,), growth=5.6e-5, seat_load=5e3, k=555.0, exponent=2.0, years=2.0)  # fmt: skip
    return replace(made, **changes)  # type: ignore[arg-type]
