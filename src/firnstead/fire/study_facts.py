"""What the checks of the fire study share: compartments, who sleeps where, how cold it gets, names of checks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from firnstead.core.cautions import caution_for
from firnstead.core.memo import Memo
from firnstead.fire._arrays import Whole
from firnstead.fire.network import parts_joined
from firnstead.fire.study_network import Model
from firnstead.fire.study_scenarios import Fired, row_of_use, use_of_building
from firnstead.fire.tenability import Smoke
from firnstead.station import Station
from firnstead.station.fire import Fire

CAUTION = caution_for("fire")
Names = dict[str, Any]
HAZARDS = ("light", "ordinary", "extra")


@dataclass(frozen=True, eq=False)
class Facts:
    """Station, fire part, network, fires that were followed, compartments."""

    station: Station
    fire: Fire
    model: Model
    smoke: Smoke
    fired: tuple[Fired, ...]
    part: Whole
    memo: Memo

    @cached_property
    def _cells(self) -> dict[tuple[str, float | None], int]:
        return {}

    def cell(self, place: str, at: float | None) -> int:
        """The cell of a building, or the one nearest to a distance along a place; found once."""
        if (place, at) not in self._cells:
            self._cells[place, at] = self.model.spot(place, at)
        return self._cells[place, at]

    def parts_of(self, place: str) -> frozenset[int]:
        """Compartments that a place lies in."""
        return frozenset(int(p) for p in np.unique(self.part[self.model.cells_in(place)]))

    def part_of_room(self, name: str) -> frozenset[int]:
        """Compartments of a building or place."""
        if name in self.model.building_ways:
            return frozenset({int(self.part[self.model.cell_of[name]])})
        return self.parts_of(name)

    def sleepers(self, place: str) -> int:
        """People who sleep in a place."""
        return sum(b.people for b in self.station.buildings.values() if b.place == place)

    def sleepers_in(self, parts: frozenset[int]) -> int:
        """People who sleep in some compartments."""
        return sum(b.people for name, b in self.station.buildings.items() if self.part_of_room(name) & parts)

    def coldest(self, place: str) -> float:
        """Coldest air to expect in a place without its heat [K] (own rule: no colder than the snow's mean)."""
        if place in self.station.buildings:
            return float(self.model.ambient[self.model.cell_of[place]])
        return min(self.station.places[place].air, self.station.site.mean_temperature)

    def rows(self, place: str) -> list[dict[str, str]]:
        """Rows of the table of uses that stand for a place: its buildings', or its own."""
        inside = [use_of_building(self.station, n) for n, b in self.station.buildings.items() if b.place == place]
        lying = [row_of_use(s.what) for s in self.fire.stores.values() if s.place == place and s.combustible]
        return [*inside, *lying] or [row_of_use(self.station.places[place].use, "corridor")]

    def hazard(self, place: str) -> str:
        """Hazard class of a place: the file's, or the worst of its uses; a plain passage is light."""
        given = self.fire.hazards.get(place)
        if given is not None:
            return given
        if self.is_plain_way(place):
            return "light"
        return max((row["hazard"] for row in self.rows(place)), key=HAZARDS.index)

    def liquids(self, place: str) -> bool:
        """Whether liquids may burn in a place."""
        return not self.is_plain_way(place) and any(row["liquids"] == "yes" for row in self.rows(place))

    def is_plain_way(self, place: str) -> bool:
        """Whether a place is a passage with nothing in it that burns."""
        return (
            place in self.station.passages
            and not any(b.place == place for b in self.station.buildings.values())
            and not any(s.place == place and s.combustible for s in self.fire.stores.values())
        )

    def names(self, question: str, key: str, place: str = "", subject: str = "") -> Names:
        """Subject, question and key of a check."""
        kind = "Passage" if place in self.station.passages else "Trench"
        return {
            "subject": subject or (f'{kind} "{place}"' if place else "Station"), "question": question,
            "key": f"fire.{key}", "discipline": "fire", "place": place, "caution": CAUTION}  # fmt: skip


def compartments(fire: Fire, model: Model) -> Whole:
    """Number of the compartment of each cell: what no shut fire door parts hangs together."""
    through = np.ones(len(model.network.a), dtype=np.bool_)
    for name, which in model.door_of.items():
        through[which] = fire.doors[name].open
    return parts_joined(model.network, through)
