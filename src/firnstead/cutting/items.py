"""The work of one cut as work items: set out, cut, lay planks, shape the spoil, dig by hand."""

from __future__ import annotations

from dataclasses import dataclass

from firnstead.core.results import Exposure, WorkItem
from firnstead.cutting.hand import people_at_face, person_hours, sled_trips
from firnstead.cutting.plan import Cutter, Plan, passes_before_planks

PLANK_CREW = 4  # people who lay planks (own rule)
BELOW = "nobody below an edge that is being cut"


@dataclass(frozen=True)
class HandCut:
    """A link or niche: size of its face, volume [m3], density [kg/m3]."""

    id: str
    what: str
    width: float
    height: float
    volume: float
    density: float
    after: tuple[str, ...]


@dataclass(frozen=True)
class Planks:
    """Planks to be laid: pieces, planks that one person lays in an hour."""

    pieces: int
    per_person_hour: float


def cut_items(
    place: str,
    plan: Plan,
    cutter: Cutter,
    second: Cutter | None,
    planks: Planks | None,
    left: float,
    thrown_density: float,
    crews: dict[str, str],
) -> tuple[WorkItem, ...]:
    """Everything that machines and their crews do for one cut, in order."""
    head = f"{place}.cutting"
    crew, helper = crews.get("cutting", ""), second or cutter

    def item(name: str, what: str, quantity: float, unit: str, after: tuple[str, ...], **more: object) -> WorkItem:
        return WorkItem(f"{head}.{name}", place, "cutting", what, quantity, unit, after=after, **more)  # type: ignore[arg-type]

    miller = {"machine": cutter.name, "people": cutter.operators, "crew": crew}
    first = passes_before_planks(plan)
    upper, lower = plan.rows[:first], plan.rows[first:]
    items = [
        item(
            "set_out",
            f"Move to {place} and set out the cut",
            plan.rows[0].length,
            "m",
            (),
            hours=cutter.moving_time / 3600,
            **miller,
        )
    ]
    before: tuple[str, ...] = (f"{head}.set_out",)
    if plan.relief_volume:
        items.append(
            item(
                "relief",
                "Relief cut at the surface beside the bench",
                plan.relief_volume,
                "m3",
                before,
                machine=helper.name,
                people=helper.operators,
                crew=crew,
                hours=plan.relief_hours,
                note="so that loose snow does not slide back",
            )
        )
        before = (f"{head}.relief",)
    items.append(
        item(
            "bench",
            f"Cut bench and first passes, 1 to {first}",
            sum(r.volume for r in upper),
            "m3",
            before,
            hours=sum(r.hours for r in upper),
            note=BELOW,
            **miller,
        )
    )
    before = (f"{head}.bench",)
    if planks is not None:
        items.append(
            item(
                "planks",
                "Lay planks on both benches",
                float(planks.pieces),
                "planks",
                before,
                people=PLANK_CREW,
                crew=crews.get("planks", ""),
                hours=planks.pieces / (planks.per_person_hour * PLANK_CREW),
                note="nobody on the bench once the cut goes on; the pieces are counted with the roof",
            )
        )
        before = (f"{head}.bench", f"{head}.planks")
    items.append(
        item(
            "cut",
            f"Cut passes {first + 1} to {len(plan.rows)}" if lower else "Clear the floor of loose snow",
            sum(r.volume for r in lower),
            "m3",
            before,
            hours=sum(r.hours for r in lower),
            note=BELOW,
            **miller,
        )
    )
    if plan.thrown_twice:
        items.append(
            item(
                "throw_again",
                "Second miller throws on what the first one throws to it",
                plan.thrown_twice,
                "kg",
                before,
                machine=helper.name,
                people=helper.operators,
                crew=crew,
                hours=plan.second_hours,
                note="works beside the first one",
            )
        )
    if left > 0:
        items.append(
            item(
                "spoil",
                "Spread or haul away what the cover does not take",
                left / thrown_density,
                "m3",
                (f"{head}.cut",),
                note="no output for this work is in the file; before a neighbour is cut and before the storms",
            )
        )
    return tuple(items)


def hand_items(place: str, cuts: tuple[HandCut, ...], output: float, crew: str) -> tuple[WorkItem, ...]:
    """Links and niches: cut with saws under the roof, snow carried out on sleds."""
    items = []
    for cut in cuts:
        people = people_at_face(cut.width, cut.height)
        trips = sled_trips(cut.volume * cut.density)
        items.append(
            WorkItem(
                cut.id,
                place,
                "cutting",
                cut.what,
                cut.volume,
                "m3",
                crew=crew,
                people=people,
                hours=person_hours(cut.volume, output) / people,
                exposure=Exposure.UNDER_ROOF,
                after=cut.after,
                note=f"about {trips} sled loads out by the nearest open end; shore or leave an arch-shaped top",
            )
        )
    return tuple(items)
