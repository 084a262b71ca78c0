"""Invented drawings that several tests look at."""

from __future__ import annotations

from firnstead.core.results import Verdict
from firnstead.drawings.corner import TitleBlock
from firnstead.drawings.figure import Point, rectangle
from firnstead.drawings.plan_input import HatchMark, Outline, PlanInput, Ramp, Strip
from firnstead.drawings.section_input import BuildingShape, PlankShape, SectionInput
from firnstead.drawings.shapes import ArchShape, CoverShape

BLOCK = TitleBlock("Test Drift (invented)", "Section", "North 6", "3f9a12c4d5e6", "2031-02-01")
ODD = 'Hut <b>&"ø"</b> 50%%d \x07\n‘é’ ]]>'
VERDICTS = (*[Verdict.HOLDS] * 5, Verdict.CLOSE, Verdict.FAILS, Verdict.NOT_CHECKED)


def big_plan() -> PlanInput:
    """A main passage of 340 m with 20 trenches, buildings, hatches and two ramps."""
    strips = [Strip("Main passage", (0.0, 0.0), (340.0, 0.0), 7.2, True, Verdict.HOLDS)]
    buildings, hatches = [], []
    for i in range(20):
        x, side = 18.0 + 32.0 * (i // 2), 1.0 if i % 2 else -1.0
        name = f"{'North' if side > 0 else 'South'} {i // 2 + 1}"
        strips.append(Strip(name, (x, 0.0), (x, side * 58.0), 6.4, False, VERDICTS[i % len(VERDICTS)]))
        buildings.append(Outline(f"Hut {i}", rectangle(x - 1.8, side * 12.0, x + 1.8, side * 21.6)))
        hatches.append(HatchMark(f"Hatch {i}", (x, side * 54.0)))
    ramps = (Ramp("West portal", (0.0, 0.0), (-44.0, 0.0), 3.4), Ramp("East portal", (340.0, 0.0), (384.0, 0.0), 3.4))
    return PlanInput("Test Drift", tuple(strips), tuple(buildings), (), (), tuple(hatches), ramps, 140.0)


def stepped(halves: list[float], top: float, thick: float, bench: float = 0.0) -> tuple[tuple[Point, ...], ...]:
    """Outline and passes of a cut: half width of each pass below `top`; a bench of that half width above it."""
    levels = [-top - thick * i for i in range(len(halves) + 1)]
    right: list[Point] = [(bench, 0.0), (bench, -top)] if bench else []
    passes = [rectangle(-bench, -top, bench, 0.0)] if bench else []
    for half, high, low in zip(halves, levels, levels[1:], strict=False):
        right += [(half, high), (half, low)]
        passes.append(rectangle(-half, low, half, high))
    return ((*right, *((-x, z) for x, z in reversed(right))), *passes)


def lateral(**changes: object) -> SectionInput:
    """An undercut lateral with bench, planks, arch, cover and a hut."""
    outline, *passes = stepped([2.2, 2.2, 2.4, 2.6, 2.8, 3.0], 0.6, 0.9, 3.1)
    given: dict[str, object] = {
        "place": "North 6", "kind": "undercut", "top_width": 4.4, "floor_width": 6.0, "depth": 6.0, "bench_width": 0.9,
        "bench_depth": 0.6, "outline": outline, "passes": tuple(passes), "arch": ArchShape(4.9, 1.35, -0.525),
        "plank": PlankShape(2.35, 0.3, 0.075), "cover": CoverShape(0.9),
        "building": BuildingShape("sleeping hut", 3.6, 2.6, 0.6), "densities": ((0.7, 365.0), (3.0, 428.0)),
    }  # fmt: skip
    return SectionInput(**{**given, **changes})  # type: ignore[arg-type]


def plant() -> SectionInput:
    """A straight cut of 12 m."""
    outline, *passes = stepped([6.1] * 7, 0.8, 1.1, 7.3)
    return lateral(place="Plant 1", kind="straight", top_width=12.2, floor_width=12.2, depth=8.5, bench_width=1.2,
                   bench_depth=0.8, outline=outline, passes=tuple(passes), arch=ArchShape(12.8, 3.6, -0.7),
                   plank=PlankShape(6.25, 0.45, 0.1), cover=CoverShape(1.0, 2.4), building=None)  # fmt: skip


def shallow() -> SectionInput:
    """A shallow trench without bench, arch or passes."""
    outline, *_ = stepped([1.2], 0.0, 1.5)
    return lateral(place="Cable way", kind="straight", top_width=2.4, floor_width=2.4, depth=1.5, bench_width=0.0,
                   bench_depth=0.0, outline=outline, passes=(), arch=None, plank=None, cover=None, building=None,
                   densities=())  # fmt: skip
