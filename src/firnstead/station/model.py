"""The whole station, as one frozen object."""

from __future__ import annotations

from datetime import date
from typing import Literal

from firnstead.station.air import Air
from firnstead.station.build import CatalogPart, Hatchway, Kit, Roof, Section
from firnstead.station.escape import Escape
from firnstead.station.fields import Part, Pieces, say
from firnstead.station.fire import Fire
from firnstead.station.heat import Heat
from firnstead.station.machines import Blocks, HandWork, Machine, Miller, Transport
from firnstead.station.pipes import Pipes
from firnstead.station.places import Building, EndWall, Hatch, Niche, Passage, Portal, Trench
from firnstead.station.power import PowerPlan
from firnstead.station.site import Crew, Design, Season, Site, Snow
from firnstead.station.water import Water


class Station(Part):
    """A station under the snow: everything that the file says."""

    firnstead: Literal[1] = say("Version of this file's form; always 1")
    name: str = say("Name of the station")
    remark: str = say("Anything the reader must know", default="")
    dated: date = say("Date of this design, printed on every sheet")
    units: Literal["metric", "us"] = say(
        "Units that pages and papers show; the file itself may use any", default="metric"
    )
    site: Site = say("The site and its climate")
    snow: Snow = say("The snow")
    design: Design = say("Rules of the design")
    season: Season = say("The working season")
    crews: dict[str, Crew] = say("Crews by name", default={})
    machines: dict[str, Machine] = say("Machines by name")
    hand_work: HandWork = say("Output of hand work")
    blocks: Blocks = say("Snow blocks for end walls")
    sections: dict[str, Section] = say("Sections by name")
    roofs: dict[str, Roof] = say("Roofs by name")
    passages: dict[str, Passage] = say("Main passages by name")
    trenches: dict[str, Trench] = say("Trenches by name", default={})
    end_walls: dict[str, EndWall] = say("End walls by name", default={})
    portals: dict[str, Portal] = say("Portals by name", default={})
    hatchways: dict[str, Hatchway] = say("Kinds of hatch by name", default={})
    hatches: dict[str, Hatch] = say("Hatches by name", default={})
    niches: dict[str, Niche] = say("Hand-cut niches by name", default={})
    buildings: dict[str, Building] = say("Buildings by name", default={})
    kits: dict[str, Kit] = say("Kits by name", default={})
    parts: dict[str, CatalogPart] = say("Parts that are shipped, by name", default={})
    transport: dict[str, Transport] = say("Means of transport by name", default={})
    heat: Heat | None = say("Heat of buildings and trenches; left out: not checked", default=None)
    stores: dict[str, Pieces] = say("Loose stores: part and number of pieces", default={})
    escape: Escape | None = say("Ways out, people by the hour, ladders, refuges", default=None)
    air: Air | None = say("Air: fans, vents, doors, engines, alarms and limits", default=None)
    fire: Fire | None = say("Fire: what may burn, doors, detectors, extinguishers, water, limits", default=None)
    pipes: Pipes | None = say("Pipes: water, waste water, glycol, fuel, steam", default=None)
    power: PowerPlan | None = say("Electric power: boards, feeders, sets, loads, fuel", default=None)
    water: Water | None = say("Water: demand, melt well, tanks, sewage", default=None)

    @property
    def places(self) -> dict[str, Passage | Trench]:
        """Passages, then trenches, by name."""
        return {**self.passages, **self.trenches}

    @property
    def millers(self) -> dict[str, Miller]:
        """The machines that cut."""
        return {name: m for name, m in self.machines.items() if isinstance(m, Miller)}
