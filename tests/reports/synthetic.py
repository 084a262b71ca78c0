"""A made-up assessment of any size, shaped like the contract, for the tests of the reports and their timing."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

from firnstead.core.results import Check, Exposure, Step, WorkItem, as_plain, check, not_checked

TEXT = """# A station made up for tests.
firnstead: 1
name: Test Rise (invented)
remark: Made up for tests; no such station stands anywhere.
dated: 2031-02-01
units: metric
"""


def steps(thickness: float) -> tuple[Step, ...]:
    """A working in the form that the disciplines write."""
    area, modulus = 1.1 * thickness, 0.0102 * thickness
    thrust, moment = 33e3, 1450.0
    stress = thrust / area + moment / modulus
    return (
        Step("p", "rho g h", (("rho", 450.0, "kg/m3"), ("g", 9.80665, "m/s2"), ("h", 1.2, "m")), 450 * 9.80665 * 1.2,
             "Pa", "statics"),
        Step("f_y", "", (("t", thickness, "m"),), 2.2753e8, "Pa", "common_practice, table 2", "yield strength"),
        Step("A", "1.1 t", (("t", thickness, "m"),), area, "m2/m", "statics"),
        Step("S", "0.0102 t", (("t", thickness, "m"),), modulus, "m3/m", "textbook_unchecked, eq. 3"),
        Step('p_"cr"', "E t^3/(R^3 (1 - nu^2)) (pi^2/alpha^2 - 1)",
             (("E", 2.05e11, "Pa"), ("t", thickness, "m"), ("R", 2.6, "m"), ("nu", 0.3, "1"), ("alpha", 1.2, "1")),
             2.05e11 * thickness**3 / (2.6**3 * 0.91) * (math.pi**2 / 1.44 - 1), "Pa", "textbook_unchecked"),
        Step("sigma", "N/A + M/S", (("N", thrust, "N/m"), ("A", area, "m2/m"), ("M", moment, "N m/m"),
             ("S", modulus, "m3/m")), stress, "Pa", "statics"),
    )  # fmt: skip


def checks_of(place: str, number: int, count: int) -> list[Check]:
    """Checks of one place with every verdict among them."""
    made: list[Check] = []
    disciplines = ("cutting", "roof", "walls", "cargo")
    for i in range(count):
        discipline = disciplines[i % 4]
        common: dict[str, Any] = {
            "subject": f'Trench "{place}"', "question": f"Question {i + 1} about the {discipline}",
            "key": f"{discipline}.question_{i}", "discipline": discipline, "place": place}  # fmt: skip
        if i % 7 == 5:
            made.append(not_checked(reason="no verified table for these bolts", **common))
            continue
        working = steps(0.002 + 0.0001 * i)
        demand = working[-1].value
        made.append(
            check(demand=demand, limit=2.2753e8 * (0.25 + 0.15 * ((i + number) % 5)), unit="Pa", working=working,
                  caution="Nobody under it while it is loaded." if i % 3 == 0 else "", note="a note on validity",
                  **common))  # fmt: skip
    return made


def items_of(place: str) -> list[WorkItem]:
    """Work items of one place."""
    return [
        WorkItem(f"cut.{place}", place, "cutting", "Cut the trench", 1840.0, "m3", crew="miller crew",
                 machine="Miller", hours=9.5, people=2),
        WorkItem(f"roof.{place}", place, "roof", "Put up the arch", 44.0, "m", mass=5200.0, volume=3.1, hours=16.0,
                 people=6, after=(f"cut.{place}",), parts=(("arch sheet", 96.0), ("bolt", 1152.0))),
        WorkItem(f"wall.{place}", place, "walls", "Lay the end wall", 210.0, "blocks", hours=18.0, people=4,
                 exposure=Exposure.UNDER_ROOF, after=(f"roof.{place}",)),
    ]  # fmt: skip


@dataclass
class FakeAssessment:
    """What the reports need of an assessment."""

    places: int = 3
    per_place: int = 14
    units: str = "metric"
    text: str = TEXT
    digest: str = "3f9a12" + "0" * 58
    results: dict[str, Any] = field(default_factory=dict)

    def document(self) -> dict[str, Any]:
        """The contract: station, checks, results, work items as plain data."""
        names = [f"N{i + 1}" for i in range(self.places)]
        station = {
            "firnstead": 1, "name": "Test Rise (invented)",
            "remark": "Made up for tests; no such station stands anywhere.", "dated": "2031-02-01", "units": self.units,
            "passages": {names[0]: {"section": "main", "roof": "wide", "use": "main passage", "start": [0.0, 0.0]}},
            "trenches": {n: {"section": "lateral", "roof": "narrow", "use": "sleeping huts", "opens_into": names[0],
                             "start": [0.0, 0.0]} for n in names[1:]},
        }  # fmt: skip
        checks = [row for i, name in enumerate(names) for row in checks_of(name, i, self.per_place)]
        items = [row for name in names for row in items_of(name)]
        return {"station": station, "checks": as_plain(checks), "results": as_plain(self.results),
                "work_items": as_plain(items)}  # fmt: skip
