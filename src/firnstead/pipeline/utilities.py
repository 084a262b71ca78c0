"""Heat, pipes, water and power as one balance: the loop between them, gone round until nothing moves any more.

Building heat warms the trench, the trench cools pipes and buildings, tracing and pumps load the sets, their waste heat
warms the well and the buildings, and what sets and lines give off warms the trench again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from firnstead.core.memo import Memo
from firnstead.core.results import WHOLE, Check, Step, Study, check, not_checked
from firnstead.snow import SnowResult
from firnstead.station import Station

if TYPE_CHECKING:
    from firnstead.heat import HeatMonths

Row = tuple[float, ...]
Rows = Mapping[str, Row]
NOTHING: Row = (0.0,) * 12
AIR_TOLERANCE = 0.05  # K between two rounds, any place and month
POWER_TOLERANCE = 0.005  # share of the greatest monthly load between two rounds
MOST_ROUNDS = 12
ORDER = ("heat", "pipes", "water", "power")


@dataclass(frozen=True)
class Utilities:
    """The four studies of the last round, how many rounds it took and what still moved in it."""

    studies: dict[str, Study]
    rounds: int
    moved_air: float
    moved_power: float

    @property
    def air_years(self) -> dict[str, Row]:
        """Yearly mean air [K] by place; empty where the heat is not worked out."""
        found = self.studies["heat"].result
        return dict(found.air_years) if found is not None else {}

    @property
    def floors(self) -> dict[str, float]:
        """Snow [K] 1 m under each heated building, mean of its warmest year: what its footings stand on; empty without
        heat."""
        found = self.studies["heat"].result
        if found is None:
            return {}
        return {name: max(b.snow_below_years[0]) for name, b in found.buildings.items() if b.snow_below_years}

    @property
    def air(self) -> dict[str, Row] | None:
        """Air [K] of places by month in the warmest year; None without heat."""
        found = self.studies["heat"].result
        return dict(found.air) if found is not None else None

    @property
    def settled(self) -> bool:
        """Whether the last round moved nothing that counts."""
        return self.moved_air <= AIR_TOLERANCE and self.moved_power <= POWER_TOLERANCE


@dataclass(frozen=True)
class _Round:
    """What one round hands on to the next: heat given to places, waste heat, loads [W]; air [K]."""

    gains: Rows
    waste_heat: Row
    waste_well: Row
    loads: Rows
    air: Rows


def utilities(station: Station, snow: SnowResult, memo: Memo) -> Utilities:
    """Go round heat, pipes, water and power until air and loads settle within the stated tolerances."""
    from firnstead import heat

    now = _start(station, snow, memo)
    for count in range(1, MOST_ROUNDS + 1):
        warm = heat.months(station, snow, memo, gains=now.gains or None, waste=now.waste_heat)
        studies, then = _go_round(station, snow, memo, now, warm)
        air, power = _moved(now.air, then.air), _moved_loads(now.loads, then.loads)
        settled = air <= AIR_TOLERANCE and power <= POWER_TOLERANCE
        if settled or count == MOST_ROUNDS:
            break
        now = then
    made = {
        "heat": heat.study(station, snow, memo, gains=now.gains or None, waste=now.waste_heat),
        **studies,
        "power": _with_settled(studies["power"], count, air, power),
    }
    return Utilities(made, count, air, power)


def _start(station: Station, snow: SnowResult, memo: Memo) -> _Round:
    """Before the first round: lines in the air that the file tells, sets without the loads of the others."""
    from firnstead import pipes, power

    lines, sets = pipes.study(station, snow, memo), power.study(station, memo)
    return _Round(_gains(lines, sets), NOTHING, NOTHING, {}, {})


def _gains(lines: Study, sets: Study) -> Rows:
    """Heat that lines and sets give to places [W]."""
    gains: dict[str, Row] = {}
    for rows in (lines.result.losses, sets.result.gains if sets.result is not None else {}):
        for place, row in rows.items():
            gains[place] = _sum((gains.get(place, NOTHING), row))
    return gains


def _go_round(
    station: Station, snow: SnowResult, memo: Memo, now: _Round, warm: HeatMonths | None
) -> tuple[dict[str, Study], _Round]:
    """Pipes, water and power after the heat, and what they hand on to the next round."""
    from firnstead import pipes, power, water

    air: Rows = warm.air if warm is not None else {}
    lines = pipes.study(station, snow, memo, air=air or None)
    well = water.study(station, snow, memo, waste=now.waste_well)
    loads = {
        **{name: row for name, row in (warm.electric if warm is not None else {}).items() if any(row)},
        **{f"{name} tracing": row for name, row in lines.result.tracing.items() if any(row)},
        **{name: row for name, row in well.result.electric.items() if any(row)},
    }
    heat_used, heat_fuel = (warm.waste_used, warm.fuel) if warm is not None else (NOTHING, NOTHING)
    sets = power.study(
        station, memo, loads=loads, waste_used=_sum((heat_used, well.result.waste_used)),
        other_fuel=_sum((heat_fuel, well.result.fuel)))  # fmt: skip
    given: Row = sets.result.waste if sets.result is not None else NOTHING
    # a well that gets too little heat is lost, a cold building has its own heaters: the well comes first
    left = tuple(max(0.0, a - b) for a, b in zip(given, well.result.waste_used, strict=True))
    return {"pipes": lines, "water": well, "power": sets}, _Round(_gains(lines, sets), left, given, loads, air)


def _with_settled(study: Study, rounds: int, air: float, power: float) -> Study:
    """The power study with one more check: does the loop between the four stand still."""
    names = {"subject": "Heat, pipes, water and power", "discipline": "power", "place": WHOLE}
    question, key = "Balance of heat, pipes, water and power between two rounds", "power.balance"
    if study.result is None:
        reason = "the file has no power, so nothing is handed round"
        made: Check = not_checked(question=question, key=key, reason=reason, **names)  # type: ignore[arg-type]
    else:
        steps = (
            Step("d_T", "", (("n", float(rounds), "1"),), air, "K", "own_rule",
                 "greatest change of any place's air in any month in the last round"),
            Step("d_P", "", (("n", float(rounds), "1"),), power, "1", "own_rule",
                 "greatest change of a month's load in the last round, as a share of the greatest load"),
            Step("r", "max(d_T/T_1, d_P/P_1)",
                 (("d_T", air, "K"), ("T_1", AIR_TOLERANCE, "K"), ("d_P", power, "1"), ("P_1", POWER_TOLERANCE, "1")),
                 max(air / AIR_TOLERANCE, power / POWER_TOLERANCE), "1", "own_rule", "share of what may still move"),
        )  # fmt: skip
        ratio = max(air / AIR_TOLERANCE, power / POWER_TOLERANCE)
        made = check(question=question, key=key, demand=ratio, limit=1.0, unit="1", working=steps,
                     ratio=min(ratio, 0.9) if ratio <= 1 else ratio,
                     note=f"{rounds} rounds; within the tolerance is settled", **names)  # type: ignore[arg-type]  # fmt: skip
    return Study(study.result, (*study.checks, made), study.work_items)


def _sum(rows: Iterable[Row]) -> Row:
    return tuple(map(sum, zip(*rows, strict=True)))


def _moved(before: Rows, after: Rows) -> float:
    """Greatest change of any value; infinite where a row was not there before."""
    return max(
        (max(abs(a - b) for a, b in zip(before[name], row, strict=True)) if name in before else float("inf")
         for name, row in after.items()),
        default=0.0,
    )  # fmt: skip


def _moved_loads(before: Rows, after: Rows) -> float:
    """Greatest change of a month's total, as a share of the greatest month."""
    new, old = (_sum(rows.values()) if rows else NOTHING for rows in (after, before))
    most = max(max(new), max(old))
    return max(abs(a - b) for a, b in zip(new, old, strict=True)) / most if most > 0 else 0.0
